"""Cells that name a position and say beside it where on it a unit hangs, and its number: "House Pipe #1, 9'
stage left", "Mid Truss centre", "Tower SL at 3.5 m", "2 m SL on LX 1"."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.names.meant import Names
from aimcalc.scene.hanglist.tongues.tongues import in_english

LONGEST = 80  # characters of such a cell
MOST_WORDS = 14


class Placed(NamedTuple):
    """A position, the number of the unit, "" where none is said, and its place."""

    position: str
    number: str
    place: str


def placed_position(
    text: str,
    positions: Names,
    fits: Callable[[str, Any], bool | None],
    across: Callable[[str], bool],
) -> Placed | None:
    """The position, number and place that one cell says; None where it does not say a place beside a name. On
    a position that runs `across` the stage a place has its side."""
    spelled = {name.casefold() for name in positions.names}
    words = _JOINED.sub(r" \1", text).split() if len(text) <= LONGEST else []
    if not 1 < len(words) <= MOST_WORDS or text.strip().casefold() in spelled:
        return None
    longest = max((len(name.split()) for name in positions.names), default=0) + 1
    for count in range(min(len(words) - 1, longest), 0, -1):
        first, rest = " ".join(words[:count]), " ".join(words[count:])
        counts = _COUNTER.fullmatch(words[count - 1])  # "LX 1 no. 3"
        name = None if counts else _named(first.rstrip(_MARKS), positions)
        behind = _NUMBERED.match(rest) if name else None
        place = _place(behind[3], fits, sided=across(name)) if name and behind else ""
        if name and behind and place and place.casefold() not in spelled:  # "SL 1 / SR 1"
            return Placed(name, behind[1] or behind[2] or "", place)
        first, rest = " ".join(words[:-count]), " ".join(words[-count:])
        name = _named(_ON.sub("", rest).strip(_MARKS), positions)
        place = _place(first, fits, sided=across(name)) if name else ""
        if name and place and place.casefold() not in spelled:
            return Placed(name, "", place)
    return None


def _named(words: str, positions: Names) -> str | None:
    """The position that words spell, or that they mean with all its numbers; none that is a side alone."""
    meant = positions.find(words)
    if meant.name is None or meant.sure:
        return meant.name
    if _SIDE_ALONE.fullmatch(in_english(words)):  # "11 ft right", beside Stand SR
        return None
    same = re.findall(r"\d+", words) == re.findall(r"\d+", meant.name)
    return meant.name if same and re.search(r"[^\W\d_]", words) else None


def _place(words: str, fits: Callable[[str, Any], bool | None], *, sided: bool) -> str:
    """What is left beside a name, where it is a place: with its side, or a length with its unit."""
    plain = _OF.sub("", _AT.sub("", words.strip(_MARKS)).strip()).strip(_MARKS)
    plain = plain.strip("()") if plain.count("(") != plain.count(")") else plain
    if not plain:
        return ""
    english = in_english(plain)
    is_place = fits("place", plain) or fits("place", english) or _BARE_SIDED.fullmatch(english)
    raised = not sided and (fits("length", plain) or _RAISED.fullmatch(english))
    return plain if is_place or raised else ""


_SIDE_ALONE = regex(
    r"(?:[\W\d_]+|(?<!\w)(?:stage|house|left|right|of|centre|center|cl|s\W?[lr]|[lr]|us|ds|ps|op)(?!\w))*",
    re.IGNORECASE,
)
_MARKS = " ,;:@–-/("
_LITTLE = r"(?:on|of|an|auf|sur|en|su|aan|op|på|na)"
_ON = regex(rf"{_LITTLE}\s+", re.IGNORECASE)
_OF = regex(rf"\s+{_LITTLE}$", re.IGNORECASE)
_AT = regex(
    r"(?:(?:hung|hangs)\s+)?(?:at|@|bei|bij|à|a|ved|vid)\s+(?=[\d+−–.-])|@\s*", re.IGNORECASE
)
_COUNTER = regex(r"#|n[o°º]\.?|nr\.?|unit|lamp|lantern|fixture", re.IGNORECASE)
_JOINED = regex(r"(?<=\w)([/#])(?=\d)")
_NUMBERED = regex(
    rf"[\s,;:(@–-]*(?:(?:{_COUNTER.pattern})\s*(\d{{1,3}}[a-z]?)"
    r"(?![\w'\"′″]|[.,]\d)[\s,;:)–-]+|[/–-]\s*(\d{1,2}[a-z]?)\s*[,;:]\s*)?(\S.*)",
    re.IGNORECASE,
)
_FIGURES = r"\d[\d.,\s'\"′″/½¼¾-]*(?:(?:m|cm|mm|ft|feet|in)\b\.?)?"
# Whose left it is the list says, or is asked.
_BARE_SIDED = regex(
    rf"{_FIGURES}\s*\b(?:left|right|l|r)\b(?:\s+of\s+(?:the\s+)?(?:cent(?:re|er)(?:\s+line)?|cl))?\W*",
    re.IGNORECASE,
)
_RAISED = regex(rf"{_FIGURES}\s*\b(?:high|up|hoch|hoog|alto|haut|h)\b\W*", re.IGNORECASE)
