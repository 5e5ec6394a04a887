"""Places that count from the unit before: in cells, "then +1.5", "4' further to SR", "2 m SL of #1", and by
lines that say that a plus, or a heading, stands for it: "+ = metres from the unit before"."""

from __future__ import annotations

import re
from typing import Any

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.places.ends import sides_plain
from aimcalc.scene.hanglist.places.evenspread import LONGEST_EVEN

UNIT = r"(?:unit|one|lamp|light|lantern|fixture|instrument)"
_ANY_UNIT = rf"(?:head|spot|{UNIT})"
SIZE = (  # a length, in a unit that is one
    r"\d[\d.,]*(?:\s+\d+/\d+)?\s*(?:'(?:\s*-?\s*\d[\d./ ]*\")?|\""
    r"|(?:ft|feet|foot)\b\.?(?:\s*\d[\d./ ]*(?:\"|in\b|ins\b))?"
    r"|(?:ins?|inch(?:es)?|m|cm|mm|met(?:re|er)s?)\b\.?)?"
)


class Step(NamedTuple):
    """A cell that counts from the unit before it: how far, towards which side, from which number, "" where it
    does not say."""

    size: str
    toward: str = ""
    whence: str = ""


def onward(cell: Any) -> Step | None:
    """What a cell says that counts from the unit before it, "then +1.5", "4' further to SR", "2 m SL of #1";
    None of any other."""
    if not isinstance(cell, str) or len(cell) > LONGEST_EVEN or cell.isdecimal():
        return None
    if not _MAY_STEP.search(cell):
        return None
    found = _STEP_ON.fullmatch(sides_plain(cell.translate(_QUOTES)))
    if found is None or not (found["lead"] or found["more"] or found["after"] or found["ref"]):
        return None
    way = (found["way"] or found["side"] or "").upper()
    return Step(found["size"].strip(), way, found["number"] or "")


_QUOTES = str.maketrans({"’": "'", "‘": "'", "′": "'", "”": '"', "“": '"', "″": '"'})
_MAY_STEP = regex(r"[^\W\d_]{3,}|#|\bno\b", re.IGNORECASE)
_MORE = (
    r"(?:(?:further|farther)(?:\s+(?:on|along))?|more|onwards?"
    r"|weiter|plus\s+loin|verder|vidare|más|oltre)"
)
_STEP_ON = regex(
    r"\W*(?P<lead>(?:and\s+)?(?:then|next(?:\s+one)?|another|a\s+further|further|dann|puis|ensuite|poi|luego|daarna|sedan"
    r"|weitere|(?:prev(?:ious)?|last|above|prior|ditto|do)\b\.?(?=\s*\+))\b\.?[\s:,]*(?:(?:is|at|a|one|another|further|every)\s+)*)?"
    rf"(?:\+\s*)?(?P<size>{SIZE})\s*(?P<more>{_MORE})?\s*"
    r"(?:(?:to|towards?|going|heading|on)?\s*(?:the\s+)?(?P<way>sl|sr|us|ds)\b(?:\s+side)?)?\s*"
    rf"(?P<after>{_MORE})?\s*(?P<ref>(?:of|from|past|after|than|beyond)\s+(?:the\s+)?(?:(?:last|previous|prev\b\.?|prior)"
    rf"(?:\s+(?:one|{UNIT}))?|(?:one|{UNIT})\s+(?:before|above)|(?:{UNIT}\s*|no\.?\s*|number\s*|nr\.?\s*)?#?\s*(?P<number>\d{{1,4}})))?"
    r"\s*(?:(?:to|towards?)\s+(?:the\s+)?(?P<side>sl|sr|us|ds)\b)?\W*"
)


def is_plus(cell: str) -> bool:
    """Whether a cell is a length behind a plus and no more: "+ 7'-6\\""."""
    return _PLUS.fullmatch(cell) is not None


_PLUS = regex(
    r"\s*[+]\s*\d[^a-z]*(?:(?:m|cm|mm|ft|feet|foot|ins?|inch(?:es)?)\b\.?[^a-z]*)*", re.IGNORECASE
)
_NUMBER_BEFORE = (
    rf"(?:\b(?:previous|preceding)\b|\b{_ANY_UNIT}\s+(?:just\s+|right\s+)?(?:before|above)\b"
    rf"|\bfrom\s+(?:the\s+)?last(?:\s+{_ANY_UNIT})?\b(?!\s+(?:year|night|time|show|week))|\bon\s+from\s+(?:the\s+)?{_ANY_UNIT}\b)"
)
_STANDS_FOR = regex(
    rf"""(?P<what>[+]|(?:[a-z]+\s+)?[a-z]+)["'”’]?\s*(?:=|:|\b(?:is|are|means?|counts?)\b)[^.;=]{{0,60}}?{_NUMBER_BEFORE}"""
)


def steps_said(text: str) -> tuple[str, ...]:
    """What a line in lower case says stands for a distance from the unit before: "+", or a heading."""
    if "before" not in text and not any(w in text for w in ("previous", "above", "last", "preced")):
        return ()
    return tuple(found["what"].strip("\"' ") for found in _STANDS_FOR.finditer(text))
