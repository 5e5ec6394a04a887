"""Places by the two ordinates of a plan: x from the centre line for pipes across the stage, y from the
plaster line for those up and down it."""

from __future__ import annotations

import re
from typing import Any

from aimcalc.scene.hanglist.columns.columnkeys import Column
from aimcalc.scene.hanglist.places.along import Along, told
from aimcalc.scene.hanglist.places.placewords import read_place
from aimcalc.scene.hanglist.rows.listrow import float_of, text_of
from aimcalc.scene.mistakes import Wrong
from aimcalc.scene.model import Taken
from aimcalc.scene.records import Place

NEAR = 0.3  # metres between the y of a pipe in the list and in the scene, which are one


class Ordinates:
    """A column of y of one table: whether its cells are places, and whether pipes across bear them out."""

    def __init__(self, unit: str) -> None:
        self.unit = unit
        self.used: Column | None = None
        self.held = False  # a pipe across the stage has the y that the column gives it

    def place(self, raw: dict[str, Any], cell: Any, column: Column, place: Place | None) -> None:
        """Take the y of a unit for its place on a pipe up and down the stage, in words that say whence it
        counts; of a pipe across the stage hold it against where this hangs.

        Raises:
            Wrong: when the list has the pipe elsewhere than the scene: y may count from another line.
        """
        pipe = place.pipe if place is not None else None
        text, unit = text_of(cell).strip(), column.meaning.unit or self.unit
        if place is None or pipe is None or not re.search(r"\d", text):
            return
        if place.axis == "y":
            size = f"{text} {unit}" if float_of(text) is not None else text
            raw["at"], self.used = f"{size} of the plaster line", column
            return
        along = Along(unit, "y", True)
        y = read_place(cell, along, unit).metres
        low, high = sorted((pipe.start[1], pipe.end[1]))
        if not low - NEAR <= y <= high + NEAR:
            raise Wrong(
                f"the y of the pipe as the scene has it, {told((low + high) / 2, along)} of the plaster line",
                "Correct one of the two, or take the column out of the list.",
                came=text,
            )
        self.held = self.held or abs(y) > NEAR

    def warned(self, name: str) -> Taken | None:
        """What is to be asked where no pipe across the stage bears out what the column counts from."""
        if self.used is None or self.held:
            return None
        column = f'column {self.used.letters} ("{self.used.heading}")'
        says = f"{name}: {column} is read as upstage of the plaster line."
        return Taken("list-at", says, "Ask whoever wrote it.", severity="warn")
