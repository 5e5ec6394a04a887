"""The numbers that a text of several units says, "1-3", "1, 2 & 3" or "units 5 to 8", and how many units a
count says."""

from __future__ import annotations

import re
from itertools import pairwise
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.hanglist.rows.listrow import text_of

MOST = 24  # units of one row
LONGEST_RUN = 200  # characters of several numbers, or of a kind and how many
AND = r"\b(?:and|und|et|y|e|en|och|og|i|ja|plus)\b"
TO = r"(?:-|–|—|\.\.+|…|>|→|\b(?:to|thru|through|till|bis|à|au|al?|do|til|tot|t/m|až|at[eé])\b)"
_FROM = r"(?:(?:from|von|de|du|del|dal?|van|från|fra|od)\s+)?"
_MARK = rf"\s*(?:[,;&+]|\s/\s|{AND})\s*"
_WORD = regex(
    r"(?<![^\W_])(?:units?|lamps?|lanterns?|nos?\.?|nrs?\.?|numbers?|num\.?|n\.?[º°]s?|#)\s*[#.:]?\s*(?=\d)",
    re.IGNORECASE,
)
_STROKES = regex(r"\d{1,3}(?:\s*/\s*\d{1,3}){2,}")
_RUN = regex(rf"{_FROM}(\d{{1,4}})\s*{TO}\s*(\d{{1,4}})", re.IGNORECASE)
_COUNT = regex(r"(?:x|×)?\s*(\d{1,2})\s*(?:x|×|off|no\.?|stk\.?|st\.?|pcs?\.?|units?|lamps?)?")
_COUNT_WORDS = {
    **dict.fromkeys(("one", "single", "a"), 1),
    **dict.fromkeys(("two", "pair", "a pair", "1 pair", "zwei", "deux", "dos", "due", "twee"), 2),
    **dict.fromkeys(("three", "drei", "trois", "tres", "tre", "drie"), 3),
    **dict.fromkeys(("four", "two pairs", "2 pairs", "vier", "quatre", "cuatro"), 4),
}
_COUNTED = regex(
    r"(?:(?P<before>\d{1,2})\s*(?:x|×|off|no\.|pcs?\.?|stk\.?)\s+|\(\s*(?P<bracket>\d{1,2})\s*\)\s*"
    r"|(?:a\s+)?pair\s+(?:of\s+)?)(?P<kind>\S.*)"
    r"|(?P<first>\S.*?\S)\s*(?:\s(?:x|×)\s*(?P<behind>\d{1,2})|\(\s*(?:(?:x|×)\s*(?P<last>\d{1,2})|(?P<end>\d{1,2})\s*(?:x|×|off))\s*\)"
    r"|\(\s*pair\s*\))",
    re.IGNORECASE,
)


def run_of(text: str) -> list[str]:
    """The numbers that a cell names, "1-3", "1, 2 & 3", "units 1 to 3", "1/2/3": two or more that go up; else
    none."""
    if len(text) > LONGEST_RUN:
        return []
    found: list[int] = []
    plain = _WORD.sub("", text).strip().replace("tot en met", "tot")
    plain = plain.replace("/", ",") if _STROKES.fullmatch(plain) else plain
    for part in re.split(_MARK, plain, flags=re.IGNORECASE):
        run = _RUN.fullmatch(part)
        if run and 0 < int(run[2]) - int(run[1]) < MOST:
            found += range(int(run[1]), int(run[2]) + 1)
        elif part.isdecimal():
            found.append(int(part))
        else:
            return []
    up = all(a < b for a, b in pairwise(found))
    return [str(number) for number in found] if up and 1 < len(found) <= MOST else []


def count_of(cell: Any) -> int:
    """How many units a count says, "2", "x2", "pair"; 0 where it says no number."""
    text = text_of(cell).strip().casefold()
    counted = _COUNT.fullmatch(text)
    return int(counted[1]) if counted else _COUNT_WORDS.get(text, 0)


def counted_kind(text: str) -> re.Match[str] | None:
    """The kind of several units and how many they are, "4 x spot", "pair of spots"."""
    return _COUNTED.fullmatch(text) if len(text) <= LONGEST_RUN else None


def how_many(counted: re.Match[str]) -> int:
    """How many units such a cell says; 2 of a "pair of"."""
    figures = (counted[group] for group in ("before", "bracket", "behind", "last", "end"))
    return int(next(filter(None, figures), 2))
