"""A short key beside a table, behind an empty column: "area | what is there" over 1, 2, 3 and what stands in
each. Its headings are no second column of the targets of the units."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.hanglist.columns.columnclaims import Claiming
from aimcalc.scene.hanglist.columns.columnkeys import APART, COUNT, Meaning
from aimcalc.scene.hanglist.rows.listrow import blank, text_of

MOST = 3  # columns of a key
FEWEST_CLAIMED = 3  # keys of the headings before it
LONGEST_CODE = 12  # characters of what it explains
_NAMES = ("position", "kind", "target", "circuit", "channel", "colour")


def key_beside(c: Claiming) -> None:
    """Leave out the columns of a key or a count beside the table: behind an empty column, under headings that
    the table has already or that are none, with each code once."""
    gap = next((k for k in range(len(c.texts)) if not c.texts[k] and not _cells(k, c.below)), None)
    if gap is None:
        return
    right = [k for k in range(gap + 1, len(c.texts)) if c.texts[k] or _cells(k, c.below)]
    if len(right) == 1 and right[0] not in c.keys and _equates(c.below, right[0]):
        c.keys[right[0]], c.meanings[right[0]] = APART, Meaning()
        return
    before = {key for k, found in c.meanings.items() if k < gap for key in found.keys[:1]}
    if not 1 < len(right) <= MOST or len(before) < FEWEST_CLAIMED or set(right) & c.keys.keys():
        return
    keys = [set(c.meanings.get(k, Meaning()).keys) for k in right]
    known = before | {COUNT}
    if not keys[0] & before.intersection(_NAMES) or any(each - known for each in keys[1:]):
        return
    if _explains(right[0], gap, c):
        for k in right:
            c.keys[k], c.meanings[k] = APART, Meaning()


def _equates(below: Sequence[list[Any]], k: int) -> bool:
    """Whether a column says in each of its cells what a code stands for, "A = DSR", each code once."""
    codes = [_CODE.match(text_of(cell)) for cell in _cells(k, below)]
    found = [code[1].casefold() for code in codes if code]
    return len(codes) > 1 and len(found) == len(codes) == len(set(found))


_CODE = regex(rf"\s*([^\s=][^=]{{0,{LONGEST_CODE - 1}}}?)\s*=\s*[^\W_]")


def _explains(k: int, gap: int, c: Claiming) -> bool:
    """Whether a column holds short codes, each once and without a gap from the first row on, and not one for
    each unit, unless they count 1, 2, 3 ... or A, B, C ..."""
    texts = [text_of(row[k]).strip() if k < len(row) else "" for row in c.below]
    codes = [text for text in texts if text]
    units = [row for row in c.below if any(not blank(cell) for cell in row[:gap])]
    if not codes or texts[: len(codes)] != codes or len({*codes}) < len(codes):
        return False
    if any(len(text) > LONGEST_CODE for text in codes):
        return False
    counted = codes in (_run("1", len(codes)), _run("A", len(codes)))
    last = len(units) > len(codes) and all(not text for text in texts[len(codes) :])
    return (last or counted) and all(re.search(r"\w", text) for text in codes)


def _run(first: str, count: int) -> list[str]:
    if first.isdecimal():
        return [str(n + 1) for n in range(count)]
    return [chr(ord(first) + n) for n in range(count)]


def _cells(k: int, below: Sequence[list[Any]]) -> list[Any]:
    return [row[k] for row in below if k < len(row) and not blank(row[k])]
