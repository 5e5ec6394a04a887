"""What a cell of a place says beside it: "2.2 m SL (was 1.8)", "1 m SL - iris"."""

from __future__ import annotations

import re
from typing import Any

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.names.kindbeside import BESIDE_UNIT

LONGEST = 60  # characters of a place with what stands beside it
_BRACKETED = regex(r"\s*([^()\[\]]*\d[^()\[\]]*?)\s*[(\[]([^()\[\]]*[^\W\d_]{3}[^()\[\]]*)[)\]]\s*")
_WAS = regex(
    r"(.*\d.*?)\s*[,;/–-]?\s+((?:was|were|formerly|previously|originally)\b.*)", re.IGNORECASE
)
_BEHIND = regex(r"\s+[-–—]\s+|\s*[,;]\s*|\s+")


class Aside(NamedTuple):
    """A place, and the words that stand beside it."""

    place: str
    words: str


def aside_of(cell: Any) -> Aside | None:
    """A place without what stands beside it; None where nothing does."""
    if not isinstance(cell, str) or len(cell) > LONGEST or cell.isdecimal():
        return None
    if cell.rstrip()[-1:] in (")", "]"):
        bracketed = _BRACKETED.fullmatch(cell)
        return Aside(bracketed[1], bracketed[2]) if bracketed else None
    if not _TAIL.search(cell):
        return None
    was = _WAS.fullmatch(cell)
    if was:
        return Aside(was[1], was[2])
    for mark in _BEHIND.finditer(cell):
        words = cell[mark.end() :].strip()
        if mark.start() and BESIDE_UNIT.fullmatch(words):
            return Aside(cell[: mark.start()], words)
    return None


_TAIL = regex(r"[^\W\d_]{3,}\W*$|\bwas\b|\bTH\b|\bBD\b")
