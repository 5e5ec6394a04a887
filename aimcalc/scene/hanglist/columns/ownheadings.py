"""Headings in a list's own words, which a line round the table explains: "Width from centre,
depth from plaster line"."""

from __future__ import annotations

import re
from collections.abc import Iterable

from aimcalc.named import regex
from aimcalc.scene.hanglist.columns.headings import meaning
from aimcalc.scene.hanglist.columns.tradewords import LENGTHS
from aimcalc.scene.hanglist.places.ends import sides_plain

LONGEST = 20  # characters of such a heading

_BEHIND = (
    r"s?\b['’\"”»)]?\s*(?:=|:|-|\bis\b|\bare\b|\bmeans?\b)?\s*(?:(?:measured|taken|given|counted|distance|dist|down|up|in|mm|cm|m|metres|meters|ft"
    r"|feet|inches)\s+)*(?:from|off|above)\s+(?:the\s+)?"
    r"(c/?l\b|cent(?:re|er)(?:\s*line)?\b|plaster(?:\W?line)?\b|(?:sl|sr|us|ds)\s+end\b|deck\b|floor\b|ground\b|stage\b)"
)
_SAYS_WHAT = regex(r"in\s*(?:['’\"”»)]|[=:]|\b(?:is|means)\b)")
_UNIT = regex(r"[(\[]\s*([a-z]+|['\"])\s*[)\]]")


def headings_said(heading: str, lines: Iterable[str]) -> str:
    """A heading that means nothing in the trade's words, as a line says from where its figures count; ""
    where none does, or two do not agree."""
    plain = " ".join(_UNIT.sub(" ", heading.casefold()).split()).strip(" .:")
    if (
        not 1 < len(plain) <= LONGEST
        or not plain.replace(" ", "").isalpha()
        or plain in LENGTHS.keys() - {"in"}
    ):
        return ""
    told = {found[1] for line in lines for found in _explained(plain, line)}
    whence = {_as_heading(word) for word in told}
    if len(whence) != 1 or (meaning(heading).keys and plain != "in"):
        return ""
    unit = _UNIT.search(heading.casefold())
    return f"{whence.pop()} ({unit[1]})" if unit else whence.pop()


def _explained(plain: str, line: str) -> list[re.Match[str]]:
    if plain not in line.casefold():
        return []  # most lines: no pattern is made for them
    found = re.finditer(rf"\b{re.escape(plain)}{_BEHIND}", sides_plain(line))
    if plain != "in":
        return list(found)
    return [each for each in found if _SAYS_WHAT.match(each[0])]  # "In" = from the SL end


def _as_heading(word: str) -> str:
    """The trade's heading for figures that count from what a line says."""
    if word.startswith("plaster"):
        return "y"
    if word.endswith("end"):
        return f"from {word}"
    return "height" if word in ("deck", "floor", "ground", "stage") else "from centre"
