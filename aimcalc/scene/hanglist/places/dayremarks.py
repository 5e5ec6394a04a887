"""Remarks beside places that a spreadsheet made dates of, which say what they were: "it ate this, 6-2"."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.hanglist.rows.listrow import day_of, text_of

LONGEST_REMARK = 200  # characters


def orders_by_remarks(
    rows: Iterable[Sequence[Any]], places: Iterable[int], asides: Sequence[int]
) -> set[bool]:
    """Whether days in the columns of places come first, as the remarks of their own rows write them: "6-2"
    beside "2-Jun" says that they do not."""
    places, found = tuple(places), set[bool]()
    for row in rows:
        days = {day for k in places if k < len(row) and (day := _day_in(row[k])) is not None}
        words = [text_of(row[k]) for k in asides if k < len(row)] if len(days) == 1 else ()
        for day in days:
            found |= {order for text in words for order in _orders_in(text, day)}
    return found


def _day_in(cell: Any) -> tuple[int, int] | None:
    """The month and the day of a cell, its side beside it or not: "2-Jun SL"."""
    day = day_of(cell)
    beside = _SIDED.fullmatch(cell) if day is None and isinstance(cell, str) else None
    return day_of(beside[1]) if beside else day


def _orders_in(text: str, day: tuple[int, int]) -> set[bool]:
    """The orders in which a remark writes the two figures of a day; none where it speaks of other things."""
    text = text[:LONGEST_REMARK]
    if day[0] == day[1] or not (_SAYS_IT.search(text) or _IS_IT.fullmatch(text)):
        return set()
    pairs = {(int(found[1]), int(found[2])) for found in _PAIR.finditer(text)}
    return {order for order, pair in ((False, day), (True, day[::-1])) if pair in pairs}


_SIDED = regex(
    r"\s*(\d{1,2}-[a-z]{3}|[a-z]{3}-\d{1,2})\s{1,3}(?:s?[lr]|[ud]s|stage\s(?:left|right))\s*",
    re.IGNORECASE,
)
_PAIR = regex(r"(?<![\d./-])(\d{1,2})\s?(?:['’′]\s?-?|[-–]|ft\.?)\s?(\d{1,2})(?![\d/]|[-.]\d)")
_SAYS_IT = regex(
    r"\b(?:spread\s?sheet|excel|program(?:me)?|software|computer|dates?|auto\s?(?:correct|format)\w{0,5}|ate|eaten"
    r"|should|supposed|really|actually|meant|means|ft|feet|foot|inches)\b|['’′]\s?-?\s?\d{1,2}\s?[\"”″]",
    re.IGNORECASE,
)
_IS_IT = regex(
    r"\W*(?:(?:this|it)\s)?(?:is|was|i\.e\.)?\W*\d{1,2}\s?(?:['’′]-?|[-–]|ft)\s?\d{1,2}\W*",
    re.IGNORECASE,
)
