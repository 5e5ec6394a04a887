"""Rows of a hang list that are no unit: a position over its units, what hangs on the unit above, a place
that is kept free."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.hanglist.names.meant import Names
from aimcalc.scene.hanglist.names.namewords import ORDINALS, SORTS
from aimcalc.scene.hanglist.names.spelling import plain
from aimcalc.scene.hanglist.rows.listrow import blank

_SAID_FIRST = regex(
    r"^\W*(?:(?:hanging\s+)?(?:position|location|pos|loc)\s*[:=–-]\s*"
    r"|(?:lights?|lighting|lamps?|lanterns?|units?|fixtures?|hang|hung|rig)\s+(?:on|of|for|from)\s+)",
    re.IGNORECASE,
)
_CONTINUED = r"(?i)" r"\W*\b(?:cont(?:['’]?d|inued|d)?|continues)\b\.?\W*$"
# What may stand behind the name of a position, over its units.
_BEHIND = (
    r"(?i)"
    r"\s*(?:[-–—:,;(/|]\s*|\s)(?:@\s*)?(?:trim|height|high|hung|flown|at\s+[\d.]|\d+\s*(?:x\s*)?(?:units?|lamps?|lights?"
    r"|fixtures?|lanterns?|instruments?|no)\b|\d+(?:[.,]\d+)?\s*(?:m|cm|mm|ft|feet|['’′])|batten|line\s?set|sheet|page"
    r"|units?\b|see\b|(?:top|bottom|floor|deck|low|high)(?:est)?(?:\W{1,3}to)?\W{1,3}(?:the\s+)?"
    r"(?:down|up|bottom|top|floor|low|high)(?:wards?|est)?\b|(?:(?:numbered|counted|read)\W)?"
    r"(?:from|von|vom|van|du|de|dall?['’]?|desde)\s+(?:the\s+)?"
    r"(?:top|bottom|floor|oben|unten|haut|bas|boven|onder(?:en)?|alto|basso|arriba|abajo)\b"
    r"|(?:first|1st)\s+(?:unit|one|lamp|light|lantern|fixture|instrument)\b"
    r"|(?<!first )(?:(?:start|begin)(?:s|n?ing)?\s+(?:at|from|on|\d)"
    r"|(?:even|equal)(?:ly)?\b|spac(?:ed|ing)\b|every\s+\d)"
    r"|(?:numbered\s+|counted\s+|reading\s+|working\s+)?(?:from\s+(?:the\s+)?SIDE(?:\s*(?:to|-|>|→)\s*SIDE)?"
    r"|SIDE\s*(?:to|-|>|→)\s*SIDE)\s*\)?\s*$).*$"
).replace("SIDE", r"(?:s\W?[lr]|stage\W?(?:left|right))\b")
_ACCESSORY = (
    r"(?:iris(?:es)?|top[\s-]*hats?|half[\s-]*hats?|snoots?|barn[\s-]*doors?|donuts?|doughnuts?|gobos?|templates?"
    r"|(?:gel|colou?r|filter)[\s-]*(?:frames?|extenders?|extensions?|holders?|scrollers?|changers?)|scrollers?|frost"
    r"|gobo[\s-]*(?:holders?|rotators?)|rotators?|louvres?|louvers?|egg[\s-]*crates?|colou?r[\s-]*frames?|safet(?:y|ies)"
    r"|safety[\s-]*(?:bonds?|chains?|cables?)|side[\s-]*arms?|drop[\s-]*arms?|clamps?|twofers?|two-fers?|lens(?:\s+tube)?"
    r"|shutters?|flags?|black\s*wrap|b/?doors?|t/?hats?|concentric rings?|cables?|dowsers?|dousers?|fans?)"
)
_ADDED = (
    r"(?i)"
    rf"\W*(?:(?:\+|&|w/|with\b|plus\b|and\b|incl\.?|add\b|acc(?:essor(?:y|ies))?\b[.:]?|\d+\s*x\b)\s*)"
    rf"|\W*(?:an?\s+|\d+\s*x?\s*)?(?:\w+[\s-]+)?{_ACCESSORY}\b.*"
)
_ALONE = regex(
    rf"\W*(?:an?\s+|\d+\s*x?\s*)?(?:[^\W\d]+[\s-]+|[\d.\"”″]+\s*)?{_ACCESSORY}\W*", re.IGNORECASE
)
_NAMED = regex(r"(?=.*[^\W\d_]{2}).{2,40}", re.DOTALL)  # more than a number


_SORTS_OVER = SORTS | {"tower", "bridge", "catwalk", "tree", "tripod", "slot", "gallery", "wall"}


def sort_over(words: str) -> str:
    """The sort of positions that a row of its own names over several, "TOWERS", "Booms:"; "" of any other."""
    word = words.casefold().strip(" .:-–—=*")
    singular = f"{word[:-3]}y" if word.endswith("ies") else word[:-1]
    return singular if word.endswith("s") and singular in _SORTS_OVER else ""


def is_counted_sort(words: str) -> bool:
    """Whether words are the name of a position by its sort and number, "LX 9", "Boom 4 SL", "Pipe No. 3"."""
    return any(_COUNTED.fullmatch(way) for way in _ways(words))


_COUNTED = regex(
    rf"(?:[^\W\d_]+\s+)?(?:{'|'.join(sorted(_SORTS_OVER, reverse=True))})s?\s*(?:no\.?|#)?\s*\d{{1,2}}"
    r"(?:\s+(?:s\W?[lr]|left|right|[du]s))?",
    re.IGNORECASE,
)


def position_in(words: str, positions: Names) -> str | None:
    """The position that a line names, with stars round it, "(cont.)" or its trim behind it, or nothing."""
    if len(words) > LONGEST_LINE:
        return None
    words = _SAID_FIRST.sub("", words.strip())
    if _OF_UNITS.match(words):
        return None  # "First unit: from SR end" is not of LX 1
    if _OF_SIGNS.match(words):
        return None  # "+ = SR" is not Boom SR
    for way in _ways(words):
        name = positions.find(way).name if way else None
        if name:
            return name
    titled = re.fullmatch(r"\W*[^\W\d_]{2,12}\s*:\s*(.*\w)\W*", words)
    if titled and positions.find(titled[1]).sure:
        return positions.find(titled[1]).name  # "Trek: Trek 1"
    aside = re.fullmatch(_ASIDE, words)
    if aside and (_WHENCE.search(aside[2]) or not re.search(_SIDE, aside[2])):
        meant = positions.find(aside[1])
        counted = re.search(rf"\d|\b(?:{'|'.join(ORDINALS)})\b", aside[1], re.IGNORECASE)
        return meant.name if meant.sure or counted else None
    return None


LONGEST_LINE = 1000  # characters of a line that may name a position and say where it hangs
_OF_SIGNS = regex(
    r"\W*(?:(?:plus|minus|positive|negative)\b|[+−–-]\s*(?:=|:|is\b|to\b))", re.IGNORECASE
)
_OF_UNITS = regex(
    r"\W*(?:the\s+)?(?:first|1st|second|2nd|last|next|every|each|other|all)\s+(?:other\s+)?"
    r"(?:units?|lamps?|lights?|lanterns?|fixtures?|instruments?|ones?)\b"
    r"(?!\s+(?:bar|pipe)\b|\s+(?:on|of)\s+(?!(?:an?|the|each|every|any|all)\b))",
    re.IGNORECASE,
)
_ASIDE = r"\W*(.*?\w)\W*\(([^()]*[^\W\d_]{2}[^()]*)\)\W*"  # "Bar 1 (over the seats)"
_WHENCE = regex(
    r"\b(?:from|off|of|down)\b.*\b(?:end|mid(?:dle)?|cent(?:re|er)|cl|top|plaster(?:\W?line)?)\b",
    re.IGNORECASE,
)
_SIDE = r"(?i)\b(?:[sh]\W?[lr]|[ud]\W?s|left|right|(?:up|down)stage)\b"


def labelled(words: Sequence[str], positions: Names) -> str | None:
    """The position in a title of several cells of which one says that it is a title: "HANG CARD", "CATWALK",
    "Crew: blue"; None where no cell does, or another names what hangs there."""
    if not 2 <= len(words) <= MOST_LABELS or not any(_CARD.fullmatch(word) for word in words):
        return None
    named = set()
    for word in words:
        meant = positions.find(word)
        if meant.name and (meant.sure or re.search(r"\d", word)) and not _CARD.fullmatch(word):
            named.add(meant.name)
        elif not (_CARD.fullmatch(word) or _LABEL.fullmatch(word)):
            return None
    return named.pop() if len(named) == 1 else None


MOST_LABELS = 6  # cells of such a title
_CARD = regex(
    r"\W*(?:(?:hang(?:ing)?|rig(?:ging)?|lx|lighting|light|bar|pipe|boom|crew|position|unit|focus)\s+)?"
    r"(?:cards?|sheets?|plot|schedule|position|location|list)\s*(?:(?:no\.?|#)?\s*\d+(?:\s*(?:of|/)\s*\d+)?)?\W*",
    re.IGNORECASE,
)
_LABEL = regex(
    r"[^\W\d_][^:]{0,20}:\s*.{0,40}|(?:page|pg?\.?|sheet|card|rev\.?|version)\s*\d+(?:\s*(?:of|/)\s*\d+)?"
    r"|\d+\s*(?:of|/)\s*\d+",
    re.IGNORECASE,
)


def titled_positions(title: str, positions: Names) -> list[str]:
    """The positions that the parts of a title name, each in full or by its word and number."""
    parts = re.split(r"\s+[-–—/|]+\s+|[:;,|()\n]\s*|\s{2,}", title)
    named = [part.strip() for part in parts if _NAMED.fullmatch(part.strip())]
    found = [(part, positions.find(part)) for part in named]
    return [m.name for part, m in found if m.name and (m.sure or re.search(r"\d", part))]


def _ways(words: str) -> list[str]:
    bare = words.strip(" *_=~#<>|·•:-–—.[]{}")
    plain = re.sub(_CONTINUED, "", bare)
    short = re.sub(_BEHIND, "", plain)
    return list(dict.fromkeys((words, bare, plain, short.strip(" -–—:,;("))))


_MEASURED = r"(?i)(?=\D{1,50}$).*\b(?:off|from|above|heights?)\b.*"  # "off centre, feet"

# "(bridge rail is 10m)"
_SIZED = (
    r"(?i)"
    r"\W*(?:[^\W\d_]+\s+){0,2}(?:bar|pipe|rail|truss|batten|tube)\s*(?:is|=|:|of)?\s*"
    r"\d+(?:[.,]\d+)?\s*(?:mm|cm|m|ft|feet|met(?:re|er)s?|['’′])?(?:\s+(?:long|wide))?\W*"
)


def says_more(words: str) -> bool:
    """Whether words beside the name of a position say its trim, how many hang there or from where places
    count, and no more."""
    ways = (_BEHIND, _CONTINUED, _MEASURED, _SIZED)
    return any(re.fullmatch(each, f" {words}") for each in ways)


def read_over(section: str, row: list[Any]) -> str:
    """A position as it is told: with the words of its row where they are others."""
    words = next((str(cell).strip() for cell in row if not blank(cell)), "")
    return section if plain(words) == plain(section) else f"{section} ({words[:40]})"


def is_accessory(words: str) -> bool:
    """Whether a cell of a row without a unit is a thing that hangs on the unit above: "+ iris"."""
    return bool(
        re.match(_ADDED, words) if words.lstrip()[:1] in "+&" else _ALONE.fullmatch(words)
    ) or bool(re.match(r"\W*(?:w/|with\s)", words, re.IGNORECASE))
