"""Circuits in two figures that a spreadsheet took for days: 3-4, pocket 3 and outlet 4, is the fourth of
March or the third of April."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.document import ask
from aimcalc.scene.hanglist.rows.listrow import any_of, day_of, text_of
from aimcalc.scene.hanglist.taken import Noticed
from aimcalc.scene.mistakes import Log, Where, Wrong


class PlugDays:
    """Reads the circuits of a column that have become days, by those of it that have not."""

    def __init__(self, log: Log, noticed: Noticed) -> None:
        self.log, self.noticed = log, noticed
        self.mark = "/"  # between the two figures of a circuit
        self.month_first: bool | None = None  # how the days were written; None where nothing tells

    def take_column(self, cells: Iterable[Any]) -> None:
        """Know how the circuits of a column are written, and so which figure of its days came first: one that
        others begin with."""
        cells = list(cells)
        days = [day for day in map(day_of, cells) if day is not None]
        if not days:
            return
        pairs = [found for cell in cells if (found := _PAIR.fullmatch(text_of(cell)))]
        if pairs:
            self.mark = pairs[0][2]
        begins = {int(found[1]) for found in pairs}
        by_month = bool(begins) and all(month in begins for month, _ in days)
        by_day = bool(begins) and all(day in begins for _, day in days)
        self.month_first = by_month if by_month != by_day else None

    def read(self, raw: dict[str, Any], where: Where) -> None:
        """Read a circuit that is a day; ask where it may be two."""
        cell = raw.get("circuit")
        day = day_of(cell)
        if day is None:
            return
        ways = [f"{first}{self.mark}{second}" for first, second in (day, day[::-1])]
        if self.month_first is not None or ways[0] == ways[1]:
            raw["circuit"] = ways[0] if self.month_first else ways[1]
            self.noticed.read_as("circuit", text_of(cell), f"{raw['circuit']}, which became a date")
            return
        wrong = Wrong(
            f"one circuit: a spreadsheet made a date of it, which was {any_of(ways)}",
            "Format the column as text, and type the circuit again.",
            came=text_of(cell),
        )
        ask(self.log, raw, where, "circuit", wrong, cell)


_PAIR = regex(r"\s*(\d{1,4})\s*([-–/.])\s*\d{1,4}\s*")
