"""Units of a hang list without numbers: numbered along the list where a position has none at all."""

from __future__ import annotations

import re
from collections.abc import Iterable
from itertools import pairwise
from typing import Any

from aimcalc.scene.document import ASKED
from aimcalc.scene.hanglist.columns.byvalues import Cells, is_another
from aimcalc.scene.hanglist.columns.columnkeys import REMARK, Column, Headings
from aimcalc.scene.hanglist.rows.listrow import Row, text_of
from aimcalc.scene.mistakes import CLASH, Log, Where, Wrong, show
from aimcalc.scene.model import Taken

MOST = 0.5  # of the rows that have a number in a column that may be that of the units

MOST_POSITIONS = 12  # named in one note


def number_along(raws: Iterable[dict[str, Any]], name: str, hung: frozenset[str]) -> Taken | None:
    """Number the units of each position of which none has a number, along the list from 1; the warning of
    it, None where nothing was assumed.

    Args:
        raws: the rows of the list as entries of a scene, in its order.
        name: the list's file.
        hung: positions that have units in the scene file, which may have those numbers.
    """
    on: dict[str, list[dict[str, Any]]] = {}
    for raw in raws:
        position = raw.get("position")
        if isinstance(position, str) and position not in hung:
            on.setdefault(position, []).append(raw)
    numbered = {at: units for at, units in on.items() if all(map(_is_unnumbered, units))}
    for units in numbered.values():
        for number, raw in enumerate(units, 1):
            raw["number"] = str(number)
    many = sum(map(len, numbered.values()))
    if not many:
        return None
    told = ", ".join(list(numbered)[:MOST_POSITIONS])
    more = len(numbered) - MOST_POSITIONS
    told += f" and {more} more" if more > 0 else ""
    none = "1 unit has no number" if many == 1 else f"{many} units have no number"
    says = f"{none} in {name}: numbered along the list from 1 on {told}."
    do = "Write their numbers in the list, as they stand on the paperwork and the units."
    return Taken("numbers-assumed", says, do, severity="warn")


def _is_unnumbered(raw: dict[str, Any]) -> bool:
    """Whether a row says what a unit is and what it is aimed at, and has no number."""
    return "number" not in raw and "kind" in raw and bool(raw.keys() & {"target", "point"})


def ask_which_numbers(
    rows: list[Row], headings: Headings, values: Cells, log: Log, where: Where
) -> None:
    """Ask about rows without numbers where a column may hold them, though its heading does not tell."""
    without = [row for row in rows if "number" not in row.raw]
    column = _may_number(headings, values) if without else None
    if column is None:
        return
    heading = column.heading or column.letters
    wrong = Wrong(
        f"a number for each unit, and column {column.letters} ({show(heading)}) may hold it",
        f'Say in [hang_columns]: number = "{heading}" where it does, remark = "{heading}" where not.',
        came="a heading that does not tell what its numbers are of",
        rank=CLASH,
    )
    log.add(where, "number", wrong)
    for row in without:
        row.raw["number"] = ASKED


def _are_tags(cells: list[Any], headings: Headings) -> bool:
    """Whether cells are the tags of a store, K-014 and K-017, beside a column of channels: the same letters
    before all, three figures or more, and not one behind the other."""
    found = [re.fullmatch(_TAG, text_of(cell).strip()) for cell in cells]
    if "channel" not in headings.by_key or len(found) < FEWEST_TAGS or not all(found):
        return False
    parts = [(tag[1].casefold(), int(tag[2])) for tag in found if tag]
    figures = sorted(number for _, number in parts)
    runs = sum(b - a == 1 for a, b in pairwise(figures))
    return len({letters for letters, _ in parts}) == 1 and 2 * runs < len(figures)


FEWEST_TAGS = 4
_TAG = r"([^\W\d_]{1,4})[-. /]?(\d{3,6})"


def _may_number(headings: Headings, values: Cells) -> Column | None:
    """The column that may number the units where none is read as that: a number in most rows, never one twice
    on a position, under a heading that says nothing of them."""
    if "number" in headings.by_key:
        return None
    position = headings.by_key.get("position")
    for column in headings.columns:
        said = column.settled or column.meaning.keys or is_another(column.heading)
        known = column.key != REMARK or said or _are_tags(values.of(column.place), headings)
        if not known and values.differ(column.place, position.place if position else None, MOST):
            return column
    return None
