"""Where to look for the centre of each unit's light: on the deck, on what stops it, or on a pole."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from aimcalc.rig.outlines import inside
from aimcalc.sheets import words as w
from aimcalc.sheets.names import short

if TYPE_CHECKING:
    from aimcalc.rig.answers import Answer
    from aimcalc.rig.solve import Rig
    from aimcalc.scene.model import Point

POLE_BELOW = 25  # degrees DOWN under which the landing runs away (common practice, no source)


class Mark(NamedTuple):
    """Where to look for the centre of the light.

    LANDS with the two distances of a deck or platform mark, ON an upright surface with a height and the
    distance along it, or POLE with a height at STAND or POINT. `on` names the surface, if not the deck.
    """

    word: str
    first: str
    second: str
    on: str = ""

    @property
    def head(self) -> str:
        """The word with the surface: "LANDS", "LANDS on platform", "ON apple tree", "POLE"."""
        if not self.on:
            return self.word
        return f"{self.word} {self.on}" if self.word == "ON" else f"{self.word} on {self.on}"

    @property
    def lines(self) -> list[str]:
        """What stands under each other in a cell."""
        head = [self.head] if self.word != "LANDS" else ["LANDS", self.on and f"on {self.on}"]
        return [part for part in (*head, self.first, self.second) if part]

    @property
    def said(self) -> str:
        """In one line: "LANDS 2'-0\" SL, 9'-0\" US on platform", "ON door flat, 3'-1\" UP, 6'-0\" SL"."""
        if self.word == "LANDS":
            return f"LANDS {self.first}, {self.second}{self.on and f' on {self.on}'}"
        if self.word == "ON":
            return f"ON {self.on}, {self.first}, {self.second}"
        return " ".join(self.lines)


def mark_of(rig: Rig, k: int, answer: Answer, length: w.LengthUnit) -> Mark:
    """LANDS, ON or POLE: what can be seen of where the axis stops, from where a crew can look.

    The foot of an upright surface is a place on the deck. A floor mark is useless below `POLE_BELOW`, in
    the seats, and where nothing stops the light; a pole is, where something stops it before the face.
    """
    met, stop = rig.meets, answer.meets
    if stop and met.upright[k] and w.rounded(stop.height, length):
        up = "UP" if stop.height > 0 else "BELOW DECK"
        x, y, _ = stop.point
        faces_across = abs(met.normal[0, k]) > abs(met.normal[1, k])
        along = w.upstage(y, length) if faces_across else w.across(x, length)
        on = short(rig, stop.name)
        return Mark("ON", f"{w.length(stop.height, length, w.SIZE)} {up}", along, on)
    pole = _pole(rig, k, length) if rig.reaches[k] else ""
    low = (answer.down or 0.0) < POLE_BELOW
    if stop is None or (pole and (low or _in_seats(rig, stop.point))):
        where = "at STAND" if answer.stand else "at POINT"
        return Mark("POLE", pole, where) if pole else Mark("", "no landing", "")
    x, y, _ = stop.point
    on = short(rig, stop.name) if met.on_solid[k] and met.top[k] else ""
    return Mark("LANDS", w.across(x, length), w.upstage(y, length), on)


def _pole(rig: Rig, k: int, length: w.LengthUnit) -> str:
    """The axis height at STAND: it goes through the face, so the face's own above the surface there."""
    height = float(rig.arrays.point[2, k] - rig.surface_z[k])
    return w.length(height, length) if w.rounded(height, length) > 0 else ""


def _in_seats(rig: Rig, point: Point) -> bool:
    x, y = np.array(point[:1]), np.array(point[1:2])
    return any(inside(block.outline, x, y)[0] for block in rig.scene.seats)
