"""The position of the units as one of the headings of their table: "CATWALK" over their places."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from aimcalc.scene.hanglist.columns.columnclaims import FITTING, Fits, Shares
from aimcalc.scene.hanglist.columns.columnkeys import AT_PARTS, HEIGHT, SIDE
from aimcalc.scene.hanglist.columns.headings import heading_score, meaning
from aimcalc.scene.hanglist.names.meant import Names
from aimcalc.scene.hanglist.names.sections import position_in
from aimcalc.scene.hanglist.rows.listrow import blank


def over_headings(
    cells: Sequence[Any], below: Sequence[list[Any]], positions: Names, fits: Fits
) -> int:
    """The column in which the position of the units stands among their headings; -1 where none does."""
    if not 1 < heading_score(cells) < sum(not blank(cell) for cell in cells) + 1:
        return -1
    for k, cell in enumerate(cells):
        if not isinstance(cell, str) or not cell.strip():
            continue
        keys = meaning(cell).keys  # "Catwalk" may head a column of names; over places it is one
        if keys not in ((), ("position",)) or not position_in(cell, positions):
            continue
        if not keys or Shares(_first_block(below, cells, k), fits)("place", k) >= FITTING:
            return k
    return -1


def without_over(
    cells: Sequence[Any], below: Sequence[list[Any]], over: int, fits: Fits
) -> list[Any]:
    """The headings with that of places in the column whose heading names the position: where it holds
    lengths, another the numbers and none the places. Else nothing stands there."""
    others = [*cells[:over], "", *cells[over + 1 :]]
    keys = {key for cell in others if not blank(cell) for key in meaning(cell).keys}
    holds = Shares(_first_block(below, cells, over), fits)("at", over) >= FITTING
    if holds and "number" in keys and not keys & {"at", HEIGHT, SIDE, *AT_PARTS}:
        others[over] = "at"
    return others


def _first_block(
    below: Sequence[list[Any]], cells: Sequence[Any], over: int
) -> Sequence[list[Any]]:
    """The rows before the headings come again with another position."""
    end = next((n for n, row in enumerate(below) if again_over(row, cells, over)), len(below))
    return below[:end]


def again_over(row: Sequence[Any], cells: Sequence[Any], over: int) -> bool:
    """Whether a row is that of the headings again, with another position or the same."""
    here = list(row)
    return here[:over] + here[over + 1 :] == [*cells[:over], *cells[over + 1 :]]
