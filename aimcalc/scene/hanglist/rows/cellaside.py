"""What a cell of a number, a channel, a circuit or a colour says beside it: "3 - top hat", "12 (spare)",
"Ch 12 / Dim 34", "L201 gobo 77105"."""

from __future__ import annotations

import re

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.names.kindbeside import BESIDE_UNIT
from aimcalc.scene.hanglist.names.targetwords import BESIDE as BESIDE_TARGET

_NUMBER = regex(
    r"((?:#|no\.?|nr\.?|unit|u)?\s*\d{1,4}(?:\s?[a-z])?)\s*(?:[-–—,:;/+]\s*|[(\[]\s*|\s)\s*(\S[^()\[\]]*?)\s*[)\]]?",
    re.IGNORECASE,
)
_MARKED = regex(r"(\d{1,4}[a-z]?)\s*([*†‡?]+)", re.IGNORECASE)
_MARKED_GEL = regex(r"([^\W_][\w./+ -]*)(?<=\w)\s*([*†‡?]+)")
_ORDINAL = regex(r"(\d*(?:1st|2nd|3rd|[04-9]th)|1[1-3]th)", re.IGNORECASE)
_PLUG = regex(
    r"((?:ch(?:an(?:nel)?)?|d(?:im(?:mer)?)?|ckt|cct|circuit|#)?\W{0,2}\d[\w./-]*)\s*"
    r"(?:[(\[]\s*([^()\[\]]*[^\W\d_]{2}[^()\[\]]*?)\s*[)\]]|\s[-–—,;/]?\s*([^\W\d_]\D*?))",
    re.IGNORECASE,
)
_CHANNEL_FIRST = regex(
    r"(?:ch(?:an(?:nel)?)?\W{0,2})?(\d{1,4})\s*[-/,;|(]?\s*(?:d(?:im(?:mer)?|mr)?|ckt|cct|circuit)\W{0,2}([a-z]?\d[\w./-]*)\s*\)?",
    re.IGNORECASE,
)
_CIRCUIT_FIRST = regex(
    r"(?:d(?:im(?:mer)?|mr)?|ckt|cct|circuit)\W{0,2}([a-z]?\d[\w.]*)\s*[-/,;|]?\s*ch(?:an(?:nel)?)?\W{0,2}(\d{1,4})",
    re.IGNORECASE,
)
_AND_GOBO = regex(
    r"(.*?[^\W_])\s*(?:[+/,;&(-]|\bw/|\bwith\b)?\s*"
    r"((?:(?:steel|glass|metal)\s+)?(?:gobo|template|pattern)s?\b.*?|(?<=[\s+/,;&(])[a-z]{0,3}\W?\d{5,6})\s*\)?",
    re.IGNORECASE,
)


class Aside(NamedTuple):
    """The value of a cell, and the words that stand beside it."""

    value: str
    words: str


def of_number(text: str) -> Aside | None:
    """A number with what is said of its unit; None where nothing is, or it may be of another number."""
    marked = _MARKED.fullmatch(text)
    if marked:
        return Aside(marked[1], marked[2])
    found = _NUMBER.fullmatch(text)
    if found and BESIDE_UNIT.fullmatch(found[2]):
        return Aside(found[1], found[2])
    return Aside(text[:-2], "") if _ORDINAL.fullmatch(text) else None


def of_plug(text: str) -> Aside | None:
    """A channel or a circuit with words beside it: in brackets any, else those of what hangs there."""
    marked = _MARKED.fullmatch(text)
    if marked:
        return Aside(marked[1], marked[2])
    found = _PLUG.fullmatch(text)
    if found is None:
        return None
    words = found[2] or found[3]
    free = bool(found[2]) or BESIDE_UNIT.fullmatch(words) or BESIDE_TARGET.fullmatch(words)
    return Aside(found[1], words) if free else None


def of_both(text: str) -> tuple[str, str] | None:
    """The channel and the circuit of a cell that says which is which."""
    found = _CHANNEL_FIRST.fullmatch(text)
    if found:
        return found[1], found[2]
    found = _CIRCUIT_FIRST.fullmatch(text)
    return (found[2], found[1]) if found else None


def of_colour(text: str) -> Aside | None:
    """A colour with a gobo, with the state of its gel or with the gel's name, in one cell."""
    found = _AND_GOBO.fullmatch(text) or _MARKED_GEL.fullmatch(text)
    if found:
        return Aside(found[1], found[2])
    parts = _BRACKETED.fullmatch(text)
    if parts and BESIDE_UNIT.fullmatch(parts[2]):
        return Aside(parts[1], parts[2])
    named = _NAMED_GEL.fullmatch(text)
    words = (named[2] or named[3] or named[4]) if named else ""
    return Aside(named[1], words) if named and not _DIFFUSES.search(words) else None


def gel_meant(meaning: str, code: str) -> str | None:
    """The gel that a legend says a code of few letters stands for: R02 by "R02" or "warm (R02)"."""
    found = _GEL_SAID.fullmatch(meaning) if len(code) <= LONGEST_CODE else None
    return found[1] or found[2] if found else None


LONGEST_CODE = 4  # of a colour
_GEL_SAID = regex(
    r"((?:l|r|g)\s?\d{2,4})(?:\s*[(\[][^()\[\]]*[)\]]|\s+[^\W\d_][^\d]*)?|[^\W\d_][^\d()\[\]]*[(\[]\s*"
    r"((?:l|r|g)\s?\d{2,4})\s*[)\]]",
    re.IGNORECASE,
)
# A gel with its name behind its number: "R02 Bastard Amber", "L106 (red)", "G 905 - Dark Salmon".
_WORDS = r"[^\W\d_]+(?:[ '’/-]+[^\W\d_]+){0,4}"
_NAMED_GEL = regex(
    rf"((?:[A-Za-z]{{1,2}}\s?)?\d{{2,4}})(?:\s*[(\[]\s*({_WORDS})\s*[)\]]|\s*[-–—:,/]\s*({_WORDS})"
    r"|\s+([A-Z][^\W\d_]*(?:[ '’/-]+(?:of|the|[A-Z][^\W\d_]*)){0,5}))"
)
_DIFFUSES = regex(
    r"^(?:\w+\W+)?(?:frost|diff\w*|silk|scrim|gauze|and|plus|with)\b|\b(?:and|plus|with|or)\b",
    re.IGNORECASE,
)
_BRACKETED = regex(r"([^()\[\]]+?)\s*[(\[]\s*([^()\[\]]+?)\s*[)\]]")
