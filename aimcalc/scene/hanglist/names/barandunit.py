"""Numbers that say a bar and the unit on it, "2-1" for unit 1 of Bar 2, in a list that names no position in
another way."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.hanglist.columns.columnkeys import Headings
from aimcalc.scene.hanglist.rows.listrow import blank, text_of

FEWEST_CELLS = 3  # filled, of a row that holds a unit
FEWEST = 3  # units of such a list
LONGEST_LINE = 200  # characters of a line that says what the first number is of


def bars_and_units(
    headings: Headings, rows: Iterable[Sequence[Any]], positions: Iterable[str]
) -> dict[str, tuple[str, str]]:
    """The position and the number of each unit by its cell: all have two numbers, the second of which counts
    1, 2, 3 ... for each first one, and the first ones are those of positions of one sort alone, or of the one
    that a line names beside units. Nothing where any of that is otherwise."""
    column = headings.by_key.get("number")
    if column is None or "position" in headings.by_key:
        return {}
    every = [[text_of(cell).strip() for cell in row] for row in rows]
    filled = [row for row in every if sum(not blank(cell) for cell in row) >= FEWEST_CELLS]
    cells = [row[column.place] if column.place < len(row) else "" for row in filled]
    pairs = [_PAIR.fullmatch(cell) for cell in cells]
    units: dict[str, list[int]] = {}
    for pair in pairs:
        if pair is None:
            return {}
        units.setdefault(pair[1], []).append(int(pair[2]))
    counted = all(sorted(each) == list(range(1, len(each) + 1)) for each in units.values())
    if not counted or len(cells) < FEWEST or len(units) < len(("one", "other")):
        return {}
    lines = [row for row in every if sum(not blank(cell) for cell in row) == 1]
    named = _of_sort(set(units), positions, [" ".join(row).strip() for row in lines])
    found = ((pair[0], pair[1], pair[2]) for pair in pairs if pair and named)
    return {cell: (named[bar], number) for cell, bar, number in found}


def _of_sort(bars: set[str], positions: Iterable[str], lines: Sequence[str]) -> dict[str, str]:
    """The positions of one sort by their numbers, which has all of some: Bar 1 to Bar 4."""
    sorts: dict[str, dict[str, str]] = {}
    for name in positions:
        if numbered := _NUMBERED.fullmatch(name):
            sorts.setdefault(numbered[1].casefold(), {})[numbered[2]] = name
    fits = {sort: named for sort, named in sorts.items() if bars <= named.keys()}
    if len(fits) > 1:
        plain = [line.casefold() for line in lines if len(line) <= LONGEST_LINE]
        said = " ".join(line for line in plain if _UNIT.search(line))
        fits = {sort: n for sort, n in fits.items() if re.search(rf"\b{re.escape(sort)}\b", said)}
    return next(iter(fits.values())) if len(fits) == 1 else {}


_PAIR = regex(r"(\d{1,2})\s?[-–./]\s?(\d{1,2})")
_NUMBERED = regex(r"(.*[^\W\d_])\W*?(\d{1,2})")
_UNIT = regex(r"\b(?:units?|lamps?|lanterns?|lights?|number|fixtures?)\b")
