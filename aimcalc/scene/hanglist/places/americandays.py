"""Dates that were feet and inches on a page of American words: 6-2 that became 2-Jun, the month typed first.

Only where the page says that its places are feet and inches, and nothing on it is British.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.hanglist.rows.listrow import day_of, day_shown
from aimcalc.scene.mistakes import show

INCHES = 12  # of a foot
LEAST_SIGNS = 2  # sorts of American words that a page has
LONGEST = 500  # characters of a cell or a line that is looked at


def says_feet_and_inches(text: str) -> bool:
    """Whether a heading or a line says that places are feet and inches, in that order: "Ft-In"."""
    return _FEET_AND_INCHES.search(text[:LONGEST]) is not None


def is_american(page: Iterable[str], gels: Iterable[str]) -> bool:
    """Whether a page has American words of two sorts or more and no British one; `gels` are its colours."""
    signs = {"gel"} if any(map(_GEL.search, gels)) else set()
    for text in page:
        shown = text[:LONGEST]
        if _BRITISH.search(shown):
            return False
        signs |= {word for word, sign in _AMERICAN.items() if sign.search(shown)}
    return len(signs) >= LEAST_SIGNS


def months_first(cells: Iterable[Any]) -> str | None:
    """What to say of dates whose month is read as the feet; None where one of them cannot be read so, or none
    tells the one way from the other."""
    first = None
    for cell in cells:
        day = day_of(cell)
        if day is None:
            continue
        if day[1] >= INCHES or (isinstance(cell, str) and not _BY_DAY.fullmatch(cell)):
            return None
        first = first or ((cell, day) if day[0] != day[1] else None)
    if first is None:
        return None
    month, of_month = first[1]
    return (
        "places that a spreadsheet made dates of are read with the month as the feet, as an American one"
        f" takes feet and inches: {show(day_shown(first[0]))} as {month}'-{of_month}\", and not as"
        f" {of_month}'-{month}\"."
    )


_FEET_AND_INCHES = regex(
    r"\b(?:ft|feet|foot)\b\.?\s?(?:(?:[-–/&]|and\b)\s?(?:in|ins|inch|inches)\b"
    r"|(?:in|ins|inch|inches)\b(?!\s+(?:from|front|the)\b))",
    re.IGNORECASE,
)
_BY_DAY = regex(r"\s*[1-9]\d?[- ][a-z]{3,9}\s*", re.IGNORECASE)  # and no nought before it
_GEL = regex(r"(?<!\w)[RG]\s?\d{2,4}(?!\w)", re.IGNORECASE)
_AMERICAN = {
    "center": regex(r"\bcenters?\b|\bcentered\b|\bcenterlines?\b", re.IGNORECASE),
    "color": regex(r"\bcolors?\b|\bcolored\b", re.IGNORECASE),
    "electric": regex(
        r"\b(?:electrics?|elecs?)\b(?!\s+(?:guitar|piano|bass|organ))", re.IGNORECASE
    ),
}
_BRITISH = regex(
    r"\bcent(?:res?|red|relines?)\b|\bcolour(?:s|ed)?\b|\blx\s?\d*\b|(?<!led )\bbars?\b|\blanterns?\b"
    r"|\bmetres?\b|\bprogrammes?\b|\bback[ -]?cloths?\b|\bstalls\b|\bpros\b|\bop\b|\bprompt side\b",
    re.IGNORECASE,
)
