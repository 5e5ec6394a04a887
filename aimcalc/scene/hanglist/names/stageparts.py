"""Parts of the stage in letters and in words, each the same part however it is said: "CSL", "ML", "mid stage
left" and "Centre Left"."""

from __future__ import annotations

import re

from aimcalc.named import NamedTuple, regex

LONGEST = 40  # characters of such a name


class Part(NamedTuple):
    """How far up the stage, "d", "m", "u" or nothing said; and the side, "l", "c", "r", "lc" or nothing."""

    row: str
    side: str


def part_of(words: str) -> Part | None:
    """The part of the stage that words say and nothing else, in lower case and without accents; None where
    they say another thing, or a bare left or right."""
    if len(words) > LONGEST or re.search(r"\d", words):
        return None
    said = ""
    for word in _WORD.findall(_PARTED.sub("", words)):
        if word in _AREA:
            continue
        letters = _SAID.get(word) or _letters(word)
        if letters is None:
            return None
        said += letters
    return _PARTS.get(said.replace("s", "")) if said.strip("lr") else None


def _letters(word: str) -> str | None:
    short = _SHORT.fullmatch(word)
    joined = None if short or word in ("upright", "uprights") else _JOINED.fullmatch(word)
    found = short or joined
    return "".join(part[0] for part in found.groups() if part) if found else None


_WORD = regex(r"[^\W\d_]+")
_PARTED = regex(r"(?<=\b[a-z])\s?[./-]\s?(?=[a-z]\b)")  # D/L, C.L.
_AREA = frozenset(
    ("area", "areas", "zone", "acting", "the", "region", "section", "part", "of", "corner")
)
_SAID = {
    **dict.fromkeys(("d", "ds", "dn", "dns", "dwn", "down", "downstage", "dnstage"), "d"),
    **dict.fromkeys(("u", "us", "up", "ups", "upstage"), "u"),
    **dict.fromkeys(("m", "ms", "mid", "middle", "midstage"), "m"),
    **dict.fromkeys(("c", "cs", "ctr", "cntr", "cent", "center", "centre"), "c"),
    **dict.fromkeys(("centerstage", "centrestage"), "c"),
    **dict.fromkeys(("l", "left"), "l"),
    **dict.fromkeys(("r", "right"), "r"),
    **dict.fromkeys(("sl", "stageleft"), "sl"),
    **dict.fromkeys(("sr", "stageright"), "sr"),
    **dict.fromkeys(("s", "stage"), "s"),
}
_SHORT = regex(r"(up|dn|[ducm])s?([lr]?)(c?)")
_JOINED = regex(r"(down|up|mid|center|centre)(?:stage)?(left|right|center|centre)")
# The letters of each part in the order in which people say them.
_PARTS = {
    "c": Part("m", "c"),
    "mc": Part("m", "c"),
    "cc": Part("m", "c"),
    "cl": Part("m", "l"),
    "cr": Part("m", "r"),
    "l": Part("", "l"),
    "r": Part("", "r"),
    "lc": Part("", "lc"),
    "rc": Part("", "rc"),
    **{row: Part(row, "") for row in "du"},
    **{f"{row}{side}": Part(row, side) for row in "dmu" for side in ("l", "c", "r", "lc", "rc")},
    **{f"{row}c{side}": Part(row, f"{side}c") for row in "dmu" for side in "lr"},
    **{f"{side}{row}": Part(row, side) for row in "du" for side in "lr"},
}
