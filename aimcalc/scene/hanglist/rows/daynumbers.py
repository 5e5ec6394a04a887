"""Unit numbers that a spreadsheet took for days: of the position and of the unit on it, "3-Feb" that was 2-3,
with the mark between them that a line beside them or the others of their column write."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Sequence
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.document import ASKED
from aimcalc.scene.hanglist.columns.columnkeys import Column
from aimcalc.scene.hanglist.places.placewords import day_order
from aimcalc.scene.hanglist.rows.listrow import any_of, day_of, text_of
from aimcalc.scene.hanglist.taken import Noticed
from aimcalc.scene.mistakes import Log, Where, Wrong

LONGEST_LINE = 300  # characters of a line that says how numbers are written
LONGEST_NUMBER = 20  # characters of a cell that holds one
USUAL_MARK = "-"  # what people type that becomes "2-Jan", "1-2" (common practice, no source)
OF_WHOLE_DAYS = "/"  # where the cells are days themselves, and show no mark


class DayNumbers:
    """Reads the numbers of a table that have become days."""

    def __init__(self, log: Log, noticed: Noticed) -> None:
        self.log, self.noticed = log, noticed
        self.mark = USUAL_MARK  # between the number of the position and that of the unit
        self.any = False  # the column holds such days
        self.day_first: bool | None = None  # as a line explains it; None where none does
        # Which of month and day is the number of the position, as all of them tell together.
        self.of_position: int | None = None
        self.marks = set[str]()  # that are no run of several units, as a line or the days tell

    def take_column(
        self, cells: Iterable[Any], lines: Iterable[str], positions: Sequence[str] = ()
    ) -> None:
        """Know how the numbers of a column were written that are days now; `positions` are those of its
        cells, none where they have no column."""
        cells = list(cells)
        days = {day for cell in cells if (day := day_of(cell)) is not None}
        self.any = bool(days)
        lines = [line for line in lines if len(line) <= LONGEST_LINE]
        told = {mark for line in lines for mark in _marks_of(line)}
        self.marks = {mark for line in lines for mark in _marks_of_one(line)}
        if not days:
            return
        named = {mark for line in lines for mark in _marks_of_days(line, days)}
        others = {found[1] for cell in cells if (found := _TWO.fullmatch(text_of(cell)))}
        marks = told or others or named
        shown = any(isinstance(cell, str) and day_of(cell) is not None for cell in cells)
        usual = USUAL_MARK if shown else OF_WHOLE_DAYS
        self.mark = next(iter(marks)) if len(marks) == 1 else usual
        orders = {order for line in lines if (order := day_order(line)) is not None}
        self.day_first = orders.pop() if len(orders) == 1 else None
        turned = len(orders) > 1 or any(_UNIT_FIRST.search(line) for line in lines)
        self.of_position = None if turned else _part_of_position(cells, positions)
        if self.of_position is not None:
            self.marks |= others

    def read(self, day: tuple[int, int], raw: dict[str, Any], where: Where, cell: Any) -> Any:
        """The number that was made a day: 1/2 is the second of January or the first of February."""
        pairs = list(dict.fromkeys((day, day[::-1])))
        own = re.findall(r"\d+", str(raw.get("position", "")))
        fit = [pair for pair in pairs if len(own) == 1 and str(pair[0]) == own[0]]
        if not fit and self.day_first is not None:
            fit = [day[::-1] if self.day_first else day]
        elif not fit and not own and self.of_position is not None:
            fit = [day if self.of_position == 0 else day[::-1]]
        ways = [f"{first}{self.mark}{second}" for first, second in (fit or pairs)]
        if len(ways) == 1:
            self.noticed.dates[text_of(cell)] = ways[0]
            return ways[0]
        wrong = Wrong(
            f"one number: a spreadsheet made a date of it, which was {any_of(ways)}",
            "Format the column as text, and type the number again.",
            came=text_of(cell),
        )
        self.log.add(where, "number", wrong, cell)
        return ASKED


def carried(position: Column | None, number: Column, rows: Iterable[Sequence[Any]]) -> list[str]:
    """The positions of the cells of a column of numbers, that of the row above where a cell is blank."""
    found, last = [], ""
    for row in rows:
        if position is not None and position.place < len(row):
            last = text_of(row[position.place]).strip() or last
        if number.place < len(row):
            found.append(last)
    return found if position is not None else []


def _part_of_position(cells: Sequence[Any], positions: Sequence[str]) -> int | None:
    """Which part of the days is one on each position and another on the next, while the other part counts its
    units from 1: 0 the month, 1 the day, None where neither does."""
    on: dict[str, list[Any]] = {}
    for cell, position in zip(cells, positions, strict=False):
        text = text_of(cell)
        if any(map(str.isdigit, text)) and len(text) <= LONGEST_NUMBER:  # no line, no word of a sum
            on.setdefault(position, []).append(cell)
    if not on or "" in on:
        return None
    groups = [cells for cells in on.values() if any(map(day_of, cells))] + _shared(on)
    return next((part for part in (0, 1) if _counts(groups, part)), None)


def _shared(on: dict[str, list[Any]]) -> list[list[Any]]:
    """The cells of positions without a day, those of one number together: "4-1" on one stand, "4-2" on the
    next."""
    by_number: dict[Any, list[Any]] = {}
    for cells in on.values():
        for cell in cells if not any(map(day_of, cells)) else ():
            pair = _pair_of(cell, 0)
            by_number.setdefault(pair and pair[0], []).append(cell)
    return list(by_number.values())


def _counts(positions: Sequence[Sequence[Any]], part: int) -> bool:
    """Whether the units of each position count from 1 behind a number of its own, a part of their days."""
    firsts = list[int]()
    for cells in positions:
        pairs = [_pair_of(cell, part) for cell in cells]
        own, units = ({pair[k] for pair in pairs if pair} for k in (0, 1))
        if None in pairs or len(own) > 1 or units != set(range(1, len(cells) + 1)):
            return False
        firsts += own
    return len(firsts) == len(set(firsts)) and any(len(cells) > 1 for cells in positions)


def _pair_of(cell: Any, part: int) -> tuple[int, int] | None:
    """The number of the position and of the unit in a cell, a day with the first of them in a part."""
    day = day_of(cell)
    if day is not None:
        return day[part], day[1 - part]
    found = _TWO.fullmatch(text_of(cell))
    if found is None:
        return None
    own, unit = found[0].split(found[1])
    return int(own), int(unit)


def _marks_of(line: str) -> list[str]:
    """The marks that a line writes between the numbers of a position and a unit: "unit = boom-unit", "2-3 is
    boom 2, unit 3", "3-Feb is really 2-3"."""
    return [next(filter(None, found.groups())) for found in _FORM.finditer(line)]


def _marks_of_one(line: str) -> list[str]:
    """The marks of a line that says that what has one is the number of one unit: "numbers are
    bar-lantern", "2-1 is bar B lantern 1"."""
    return [next(filter(None, found.groups()[::2])) for found in _OF_ONE.finditer(line)]


def _marks_of_days(line: str, days: Collection[tuple[int, int]]) -> list[str]:
    """The marks between the two figures of one of the days in a line: "1-1, 1-2 ..."."""
    pairs = ((int(found[1]), int(found[3]), found[2]) for found in _TWO_SAID.finditer(line))
    return [mark for one, other, mark in pairs if {(one, other), (other, one)} & set(days)]


_MARK = r"([-–/.])"
_ON = (
    r"(?:booms?|bars?|pipes?|battens?|elec(?:tric)?s?|lx|positions?|pos|truss(?:es)?|towers?|ladders?|rails?"
    r"|perches|perche|stange|zug)"
)
_UNIT = r"(?:units?|numbers?|no|nr|lamps?|lanterns?|lights?|fixtures?|instruments?|rungs?|arms?|heads?|#)"
_FORM = regex(
    rf"\b{_ON}\s?(?:no\.?\s?|number\s?)?{_MARK}\s?{_UNIT}(?!\w)"
    rf"|\b\d{{1,2}}{_MARK}\d{{1,2}}[\"'”’]?\s?(?:is|=|means|for)\s?(?:the\s)?(?:\w{{1,9}}\s)?{_ON}\b"
    r"|\b(?:\d{1,2}[- ][a-z]{3,9}|[a-z]{3,9}[- ]\d{1,2})[\"'”’]?\s?(?:is|=|means|was|for)\s?"
    rf"(?:really\s|actually\s)?[\"'“‘]?\d{{1,2}}{_MARK}\d{{1,2}}\b",
    re.IGNORECASE,
)
_OF_ONE = regex(
    r"\b\d{1,2}([-–])(\d{1,2})\s?(?:is|=|means|for)\s?(?:the\s)?"
    rf"{_ON}\s(?:\w{{1,9}}\s?)?(?:[,/]\s?)?{_UNIT}\s?\2\b"
    rf"|\b{_ON}([-–])(?:unit|number|no|lamp|lantern|light|fixture|instrument)\b(?!\s?\d)",
    re.IGNORECASE,
)
_UNIT_FIRST = regex(rf"\b{_UNIT}\s?{_MARK}\s?{_ON}(?!\w)", re.IGNORECASE)
_TWO_SAID = regex(r"(?<![\d./-])(\d{1,2})([-./])(\d{1,2})(?!\d|[-./]\d)")
_TWO = regex(r"\s*\d{1,2}([-–/.])\d{1,2}\s*")
