"""What only the whole column of positions tells: a name over two rows, a letter among others of one sort."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import Any

from aimcalc.scene.hanglist.listrow import blank, text_of
from aimcalc.scene.hanglist.meant import Names


def over_two_rows(rows: Iterable[Sequence[Any]], k: int, names: Names) -> dict[int, str]:
    """Positions whose names go on in the row below, by the indices of both: "TOWER" over "SL"."""
    found: dict[int, str] = {}
    cells = [text_of(row[k]).strip() if k < len(row) and not blank(row[k]) else "" for row in rows]
    for n, (first, second) in enumerate(pairwise(cells)):
        if not first or not second or n in found or first.casefold() == second.casefold():
            continue
        meant = names.find(first)
        if meant.name is not None or (names.find(second).sure and names.find(second).name):
            continue
        both = names.find(f"{first} {second}")
        if both.name and (both.sure or both.name in meant.several):
            found[n] = found[n + 1] = both.name
    return found


def of_one_sort(text: str, several: Iterable[str], cells: Iterable[str], names: Names) -> str:
    """The one of several names that a letter or a number means where the others of its column are of one
    sort: Grid A by "A", where "C" and "D" can be Grid C and Grid D alone. "" where they do not tell."""
    if not _SHORT.fullmatch(text):
        return ""
    sorts = set()
    for cell in set(cells):
        name = names.find(cell).name if _SHORT.fullmatch(cell) and cell != text else None
        if name is not None:
            sorts.add(_sort_of(name, cell))
    found = [name for name in several if _sort_of(name, text) in sorts]
    return found[0] if len(found) == len(sorts) == 1 else ""


_SHORT = re.compile(r"[^\W\d_]|\d{1,2}")


def _sort_of(name: str, cell: str) -> str:
    """A name without the letter or number that a cell says of it."""
    return re.sub(rf"(?i)(?<![^\W_]){re.escape(cell)}(?![^\W_])", "", name).strip().casefold()
