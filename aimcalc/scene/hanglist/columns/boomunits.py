"""The unit of length that words say of booms alone, beside that of the rest: "m off centre (booms: ft up)",
"ft from CL / booms: m up", "Feet on the booms, metres everywhere else"."""

from __future__ import annotations

import re
from itertools import pairwise

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.columns.tradewords import LENGTHS
from aimcalc.scene.hanglist.tongues.tongues import in_english

LONGEST = 200  # characters of words that are looked through
_PLAIN = "|".join(sorted((w for w in LENGTHS if w.isalpha() and w != "in"), key=len, reverse=True))
_UNIT = regex(rf"(?<![\d.,½¼¾])(?<![\d½¼¾]\s)(?<![^\W\d_])(?:{_PLAIN})(?![^\W\d_])", re.IGNORECASE)
_WITH_IN = regex(rf"(?:\b(?:all|in|decimal|whole)\s+){{0,3}}{_UNIT.pattern}", re.IGNORECASE)
_BOOM = regex(r"\b(?:booms?|towers?|ladders?)\b", re.IGNORECASE)
_MARKS = regex(
    r"[()\[\];/|]|[,.](?=\s|$)|\s[-–—]\s|\b(?:or|and|but|while|whereas|except|apart\s+from)\b",
    re.IGNORECASE,
)
_OF_BOOMS = frozenset(
    (
        *(
            "boom",
            "booms",
            "tower",
            "towers",
            "ladder",
            "ladders",
            "up",
            "high",
            "height",
            "heights",
            "hts",
            "ht",
        ),
        *(
            "upwards",
            "from",
            "above",
            "off",
            "over",
            "the",
            "floor",
            "deck",
            "stage",
            "ground",
            "on",
            "in",
            "are",
        ),
        *(
            "is",
            "all",
            "of",
            "for",
            "measured",
            "given",
            "taken",
            "to",
            "at",
            "their",
            "its",
            "own",
            "only",
            "side",
        ),
        *(
            "places",
            "dims",
            "distances",
            "figures",
            "dimensions",
            "aff",
            "afd",
            "as",
            "decimal",
            "whole",
            "level",
        ),
        *("unit", "units", "base", "foot", "bottom"),
    )
)


class BoomUnit(NamedTuple):
    """The unit of booms, "" where none is said of these alone; the words without it; all other units."""

    unit: str
    rest: str
    others: frozenset[str]


def units_in(words: str) -> frozenset[str]:
    """The units of length that words say; inches beside feet are none."""
    found = frozenset(LENGTHS[unit.casefold()] for unit in _UNIT.findall(words[:LONGEST]))
    return found - {"in"} if "ft" in found else found


def boom_unit_out(words: str) -> BoomUnit:
    """Words without the unit that they say of booms alone, which is that of a part of them that speaks of
    nothing else, or stands behind their word: "Dist (m), booms (ft)"."""
    if len(words) > LONGEST or not _BOOM.search(words):
        return BoomUnit("", words, units_in(words))
    marks = [(mark.start(), mark.end()) for mark in _MARKS.finditer(words)]
    starts, ends = [0, *(end for _, end in marks)], [*(start for start, _ in marks), len(words)]
    parts = [(a, b) for a, b in zip(starts, ends, strict=True) if re.search(r"\w", words[a:b])]
    of_booms = [(a, b) for a, b in parts if _is_of_booms(words[a:b])]
    behind = [
        two
        for one, two in pairwise(parts)
        if one in of_booms
        and not units_in(words[slice(*one)])
        and _is_of_heights(words[slice(*two)])
    ]
    said = [(a, b) for a, b in (*of_booms, *behind) if units_in(words[a:b])]
    units = frozenset[str]().union(*(units_in(words[a:b]) for a, b in said))
    others = frozenset[str]().union(*(units_in(words[a:b]) for a, b in parts if (a, b) not in said))
    if len(units) != 1 or (behind and not others):
        return BoomUnit("", words, units | others)
    rest = words
    for a, b in sorted(said, reverse=True):
        rest = rest[:a] + _WITH_IN.sub("", rest[a:b]) + rest[b:]
    return BoomUnit(next(iter(units)), rest, others)


def _words(part: str) -> set[str]:
    return set(re.findall(r"[^\W\d_]+", part.casefold()))


def _is_of_booms(part: str) -> bool:
    """Whether a part of a text speaks of booms, and of nothing else."""
    return bool(_BOOM.search(part)) and _words(part) <= _OF_BOOMS | LENGTHS.keys()


def _is_of_heights(part: str) -> bool:
    """Whether a part is a unit, of heights or of nothing that it says."""
    return bool(units_in(part)) and _words(part) <= _OF_BOOMS | LENGTHS.keys()


def headed_boom_unit(heading: str) -> BoomUnit:
    """As `boom_unit_out`, of a heading that says something of other places too."""
    found = boom_unit_out(heading)
    if not found.unit and (english := in_english(heading)) != heading:
        found = boom_unit_out(english)
    of_else = _words(found.rest) - _OF_BOOMS - LENGTHS.keys()
    if found.unit and not (found.others or of_else):
        return BoomUnit("", heading, frozenset((found.unit,)))
    return found if found.unit else found._replace(rest=heading)
