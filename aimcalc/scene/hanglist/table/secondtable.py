"""A second table on a sheet, below the first or beside it, that says more of the same units by position and
number, or by channel or circuit: channels and dimmers under the places."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from typing import Any

from aimcalc.scene.hanglist.columns.columnkeys import AT_PARTS, COUPLED, HEIGHT
from aimcalc.scene.hanglist.columns.headings import heading_score, meaning
from aimcalc.scene.hanglist.rows.listrow import blank, says_nothing, text_of
from aimcalc.scene.hanglist.table.findhead import Head

OF_UNITS = frozenset(("channel", "circuit", "colour", "kind", "target", *COUPLED))
CODES = ("channel", "circuit")  # by which a table may name units without position and number
_BY = {"position", "number"}
_PLACES = {"at", HEIGHT, *AT_PARTS}
FEWEST = 3  # keys of its headings


def parted(head: Head) -> tuple[Head, Head] | None:
    """The two tables of a sheet; None where it has one."""
    if head.first < 0:
        return None
    return _below(head) or _beside(head)


def patches(heads: list[Head], among: Sequence[int], known: Collection[str]) -> list[int]:
    """The sheets of some that say more of circuits or channels, with their heads put in (`_patch_head`)."""
    found = {k: patch for k in among if (patch := _patch_head(heads[k], known))}
    for k, patch in found.items():
        heads[k] = patch
    return list(found)


def _patch_head(head: Head, known: Collection[str]) -> Head | None:
    """The head of a sheet that says which channel a circuit has, and no more, "Circuit | Channel": it names
    no units and so is no table of them. None where these, of which the headings are `known`, have no circuits
    or have channels: of one channel several circuits may be."""
    if head.score or "circuit" not in known or "channel" in known:
        return None
    filled = [n for n, row in enumerate(head.rows[:PATCH_ROWS]) if len(_filled(row)) > 1]
    for n in filled[:1]:
        cells = _filled(head.rows[n])
        keys = _keys(cells)
        all_keys = all(isinstance(cell, str) and meaning(cell).keys for cell in cells)
        of_units = keys == {*CODES} and len(keys) == len(cells)
        if all_keys and of_units:
            return head._replace(first=n, last=n, score=len(keys))
    return None


PATCH_ROWS = 10  # of a sheet, among which its headings are


def _filled(row: Sequence[Any]) -> list[Any]:
    return [cell for cell in row if not blank(cell)]


def _says_more(first: Sequence[Any], second: Sequence[Any]) -> bool:
    """Whether headings are those of more about the units under others: no units by themselves."""
    known, keys = _keys(first), _keys(second)
    alone = {"kind", "target"} <= keys
    coded = bool((keys & known).intersection(CODES)) and not keys & _BY
    return (
        _BY | {"at"} <= known
        and (keys >= _BY or coded)
        and "at" not in keys
        and not alone
        and bool(keys & OF_UNITS - known)
    )


def _keys(cells: Sequence[Any]) -> set[str]:
    found = {each[0] for cell in cells if not blank(cell) if (each := meaning(cell).keys)}
    return found | {"at"} if found & _PLACES else found


def _below(head: Head) -> tuple[Head, Head] | None:
    rows, first = head.rows, head.headings()
    for k in range(head.last + 2, len(rows) - 1):
        parted_off = says_nothing(rows[k - 1]) or (
            _is_title(rows[k - 1]) and says_nothing(rows[k - 2])
        )
        if parted_off and heading_score(rows[k]) >= FEWEST and _says_more(first, rows[k]):
            other = [*([[]] * k), *rows[k:]]
            score = heading_score(rows[k])
            return (
                head._replace(rows=rows[:k], rest=iter(())),
                head._replace(rows=other, first=k, last=k, score=score),
            )
    return None


def _is_title(row: Sequence[Any]) -> bool:
    return sum(not blank(cell) for cell in row) == 1


def _texts(head: Head, k: int) -> set[str]:
    """What the cells of a column say, each once."""
    cells = (row[k] for row in head.rows[head.last + 1 :] if k < len(row))
    return {text_of(cell).strip().casefold() for cell in cells if not blank(cell)}


def _beside(head: Head) -> tuple[Head, Head] | None:
    cells = head.headings()
    by = {key: [k for k, c in enumerate(cells) if meaning(c).keys[:1] == (key,)] for key in _BY}
    if any(len(columns) != len(("first", "second")) for columns in by.values()):
        return None
    cut = min(columns[1] for columns in by.values())
    ends = max(columns[0] for columns in by.values())
    if ends >= cut or not _says_more(cells[:cut], cells[cut:]):
        return None
    first, second = (_texts(head, k) for k in by["position"])
    if 2 * len(first & second) < len(second):
        return None  # "Where" over what the units light, beside the bars
    every = [list(row) for row in head.all_rows()]
    left = [row[:cut] for row in every]
    right = [[""] * min(cut, len(row)) + row[cut:] for row in every]
    looked = len(head.rows)
    one, other = (
        head._replace(rows=rows[:looked], rest=iter(rows[looked:])) for rows in (left, right)
    )
    return one, other._replace(score=heading_score(cells[cut:]))
