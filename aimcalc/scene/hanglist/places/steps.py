"""Lines that say that a plus, or a heading, stands for a distance from the unit before: "+ = metres from the
unit before"."""

from __future__ import annotations

import re

from aimcalc.named import regex

_UNIT = r"(?:lamp|unit|light|lantern|fixture|instrument|head|spot|one)"


def is_plus(cell: str) -> bool:
    """Whether a cell is a length behind a plus and no more: "+ 7'-6\\""."""
    return _PLUS.fullmatch(cell) is not None


_PLUS = regex(
    r"\s*[+]\s*\d[^a-z]*(?:(?:m|cm|mm|ft|feet|foot|ins?|inch(?:es)?)\b\.?[^a-z]*)*", re.IGNORECASE
)
_NUMBER_BEFORE = (
    rf"(?:\b(?:previous|preceding)\b|\b{_UNIT}\s+(?:just\s+|right\s+)?(?:before|above)\b"
    rf"|\bfrom\s+(?:the\s+)?last(?:\s+{_UNIT})?\b(?!\s+(?:year|night|time|show|week))|\bon\s+from\s+(?:the\s+)?{_UNIT}\b)"
)
_STANDS_FOR = regex(
    rf"""(?P<what>[+]|(?:[a-z]+\s+)?[a-z]+)["'”’]?\s*(?:=|:|\b(?:is|are|means?|counts?)\b)[^.;=]{{0,60}}?{_NUMBER_BEFORE}"""
)


def steps_said(text: str) -> tuple[str, ...]:
    """What a line in lower case says stands for a distance from the unit before: "+", or a heading."""
    if "before" not in text and not any(w in text for w in ("previous", "above", "last", "preced")):
        return ()
    return tuple(found["what"].strip("\"' ") for found in _STANDS_FOR.finditer(text))
