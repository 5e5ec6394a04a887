"""Cells of a hang list that cannot be taken as they are, and are asked about: a line through them, a formula
that nobody has worked out, the error of one."""

from __future__ import annotations

from typing import Any

from aimcalc.scene.document import ASKED
from aimcalc.scene.hanglist.columns.columnkeys import REMARK, Column
from aimcalc.scene.hanglist.rows.listrow import blank
from aimcalc.scene.hanglist.table.sheetcells import ERROR, Unseen
from aimcalc.scene.mistakes import Log, Where, Wrong


def struck(number: int, row: list[Any], behind: Unseen, where: Where, log: Log) -> None:
    """Ask about a row with a line through it, or through some of it: it may not hang."""
    lined = [
        k for k, cell in enumerate(row) if (number - 1, k) in behind.struck and not blank(cell)
    ]
    if not lined:
        return
    letters = ", ".join(Column(k, "", "").letters for k in lined)
    wrong = Wrong(
        "a row of a unit that hangs, without a line through it",
        "Take the row out of the list; if the unit hangs, correct the cells and take the line away.",
        came=f"a line through {'column' if len(lined) == 1 else 'columns'} {letters}",
    )
    log.add(where, "", wrong)


def all_struck(number: int, row: list[Any], behind: Unseen, position: int, but: str = "") -> bool:
    """Whether a line goes through each filled cell of a row, but for one that says these words and for that
    of the position, which may be of rows above too."""
    filled = [k for k, cell in enumerate(row) if not blank(cell)]
    own = [k for k in filled if k != position and not (but and row[k] == but)] or filled
    return bool(own) and all((number - 1, k) in behind.struck for k in own)


def unvalued(column: Column | None, where: Where, raw: dict[str, Any], log: Log) -> None:
    """Ask about a formula without its value, where its column is one of the unit's."""
    if column is None or column.key == REMARK:
        return
    wrong = Wrong(
        "a value, not a formula that nobody has worked out yet",
        "Open the workbook in a spreadsheet program and save it, or type the value.",
        came="a formula without its value",
    )
    log.add(where, column.key, wrong)
    raw[column.key] = ASKED


def without_errors(raw: dict[str, Any], where: Where, log: Log) -> dict[str, Any]:
    """A row with its errors of formulas asked about; each is noted, of whatever column."""
    for key, cell in raw.items():
        marked = isinstance(cell, str) and ("#" in cell or ":" in cell)
        if marked and ERROR.fullmatch(cell.strip()):
            wrong = Wrong(
                "a value, not the error of a formula", "Fix the formula, or type the value."
            )
            log.add(where, key, wrong, cell)
            raw[key] = ASKED
    return raw
