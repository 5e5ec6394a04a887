"""Names in cells that say more than a name: what stands beside it, before it or behind it."""

from __future__ import annotations

import re

from aimcalc.named import regex
from aimcalc.scene.hanglist.names.meant import Meant, Names
from aimcalc.scene.hanglist.names.spelling import fold_case
from aimcalc.scene.hanglist.names.stageparts import part_of
from aimcalc.scene.hanglist.names.targetwords import LONGEST, apart_from_light


def spells(text: str, names: Names) -> bool:
    meant = names.find(text)
    return meant.sure and meant.name is not None


def in_two_ways(text: str, names: Names) -> tuple[str | None, str]:
    """The name in a cell that says it in two ways, "Pont / Portal Bridge", and the words of the other where
    these are none of the scene's."""
    parts = [part.strip(" )") for part in re.split(r"\s*[/(=|]\s*", text)]
    if len(parts) != 2 or not all(parts):
        return None, ""
    first, second = (names.find(part) for part in parts)
    if first.name and first.name == second.name:
        return first.name, ""
    (meant, _), (other, rest) = sorted(zip((first, second), parts, strict=True), key=_is_none)
    foreign = re.fullmatch(r"(?:[^\W\d_]{3,}\s?){1,2}", rest) and not re.search(_NO_ASIDE, rest)
    whole = meant.sure and other == Meant() and foreign and "/" in text
    return (meant.name, rest) if whole else (None, "")


def short_in_brackets(text: str, names: Names) -> str:
    """The one name that a cell writes when its short form in brackets stands for the words before it, "par 64
    wide flood (WFL)" of PAR 64 WFL; "" where none is, or several."""
    found = _SHORT_FORM.fullmatch(text) if len(text) <= LONGEST_SHORT else None
    if found is None:
        return ""
    words, short, behind = found[1].split(), found[2], found[3]
    ways = (
        f"{' '.join(words[:k])} {short} {behind}"
        for k in range(1, len(words))
        if _is_short_for(short.casefold(), [fold_case(word) for word in words[k:]])
    )
    named = {name for way in ways if (name := names.written(way.strip()))}
    return named.pop() if len(named) == 1 else ""


def _is_short_for(short: str, words: list[str]) -> bool:
    """Whether letters are the first one of each of some words, and maybe more of each, in their order: "wfl"
    of "wide flood"."""
    if not words:
        return not short
    first, rest = words[0], words[1:]
    return any(
        first[:1] == short[:1]
        and _in_order(short[1:k], first[1:])
        and _is_short_for(short[k:], rest)
        for k in range(1, len(short) - len(rest) + 1)
    )


def _in_order(letters: str, word: str) -> bool:
    left = iter(word)
    return all(letter in left for letter in letters)


LONGEST_SHORT = 60  # characters of a cell with a short form in brackets
_SHORT_FORM = regex(r"\s*([^()\[\]]+?)\s*[(\[]\s*([^\W\d_]{2,6})\s*[)\]]\s*([^()\[\]]*)")


def _is_none(part: tuple[Meant, str]) -> bool:
    return part[0].name is None


def within(text: str, names: Names) -> tuple[str | None, str]:
    """The one name whose words begin or end a cell, and the rest, which is in words: "DSL baddie green"."""
    words = text.split() if len(text) <= LONGEST_CELL else []
    found: dict[str, str] = {}
    for count in range(len(words) - 1, 0, -1):
        for part, rest in ((words[:count], words[count:]), (words[-count:], words[:-count])):
            meant = names.find(" ".join(part))
            if (
                not meant.name
                or not meant.sure
                or _names_another(meant.name, " ".join(rest), names)
            ):
                continue
            if not re.search(_NO_ASIDE, " ".join(rest)):
                found.setdefault(meant.name, " ".join(rest))
        if found:
            break
    return next(iter(found.items())) if len(found) == 1 else (None, "")


def _names_another(name: str, rest: str, names: Names) -> bool:
    """Whether what stands beside a target is another one, or a part of the stage that makes it another:
    "Down Center / Up Center cool", "Down Left" of "Down Left Center cool"; a side may be whence it is lit."""
    if names.areas is None:
        return False
    plain = apart_from_light(rest)[0].strip()
    if _SIDE_LIT.fullmatch(plain):
        return False
    is_part = part_of(fold_case(plain)) or plain.casefold() in ("left", "right")
    of_part = len(name) > 1 and part_of(fold_case(name))  # "C (down left)" is one of areas A to F
    return bool(is_part and of_part) or names.find(plain).name not in (None, name)


_SIDE_LIT = regex(r"[sh]\W?[lr]\W?|(?:stage|house)\s(?:left|right)|ps|op", re.IGNORECASE)
LONGEST_CELL = 300  # characters of a name with what is said beside it
_NO_ASIDE = r"(?i)\d|\b(?:not|off|avoid|no|near|between|behind|and|or|to|from|above|below|past|next)\b|[/&+,]"


def with_more(text: str, names: Names, *, beside: bool = True) -> tuple[str | None, str]:
    """The name in a cell that says more than a name, and the rest of it, which holds no number: "spot 26 w/
    top hat", "Area 3 warm". Without `beside`, a word of what light does is none that may be left out: "Back
    bar" is another than the bar."""
    parted = parted_off(text)
    name = names.find(parted[0]).name if parted else None
    if parted and name is not None and not _names_another(name, parted[1], names):
        return name, parted[1]
    sided = _SIDE_SAID.fullmatch(text)
    if sided and not beside and names.find(sided[1]).name:
        return names.find(sided[1]).name, ""
    called = None if beside else _SORT_BEFORE.fullmatch(text)
    if called and (name := names.written(called[1])):
        return name, ""
    for whole in (True, False) if beside else ():
        plain, light = apart_from_light(text, whole=whole)
        if light and plain and (name := names.find(plain).name):
            return name, light
    return behind_light(text, names) if beside else (None, "")


def behind_light(text: str, names: Names) -> tuple[str | None, str]:
    """The name behind a mark, and what stands before it, which holds no number and is no name: "DS wash,
    Area 3"."""
    parted = _BEFORE.fullmatch(text) if names.areas and len(text) <= LONGEST else None
    if parted is None or re.search(_NO_ASIDE, parted[1]):
        return None, ""
    before, meant = names.find(parted[1]), names.find(parted[2])
    if meant.name is None or before != Meant() or names.near(parted[1]) is not None:
        return None, ""
    plain, light = apart_from_light(parted[1])
    part = part_of(fold_case(plain))
    if part and (part.row or not light) and part_of(fold_case(meant.name)):  # "Up left, Centre"
        return None, ""
    return (meant.name, parted[1]) if not plain or names.find(plain) == Meant() else (None, "")


_BEFORE = regex(r"\s*([^,;:/]*[^\W\d_])(?:\s*[,;:]\s*|\s+[-–—/|]\s+)([^,;:/]+)")


def near_with_more(text: str, names: Names) -> tuple[str | None, str]:
    """The name that a cell misspells beside what its light does, and that: "panle backlight"."""
    parted = parted_off(text)
    if parted and (name := names.near(parted[0])) and not _names_another(name, parted[1], names):
        return name, parted[1]
    for whole in (True, False):
        plain, light = apart_from_light(text, whole=whole)
        if light and plain and (name := names.near(plain)):
            return name, light
    return None, ""


# "Laterale TL" and "side truss TL" are TL, where it is called so alone; a bare side or number is no name.
_SORT_BEFORE = regex(
    r"\s*(?:(?:laterales?|laterali|laterala|latera(?:l|ux)|side|seiten|zij|sido)"
    r"(?:\W?\s?(?:truss|bar|pipe|boom|ladder|tower|position|bridge))?|trusses|truss|traverse|traverses|americana)\s+"
    r"(?!(?:[sh]\W?[lr]|[lr]|ps|op|us|ds)\W*$)(?=\S*[^\W\d_])(\S{1,8})\s*",
    re.IGNORECASE,
)
# "Ladder P side" is Ladder P; "side SL" may be another sort of position.
_SIDE_SAID = regex(
    r"(.*[^\W_]\W+(?:p\W?s|o\W?p|p|[sh]\W?[lr]|left|right))\W?\s*side\W*", re.IGNORECASE
)


def parted_off(text: str) -> tuple[str, str] | None:
    """What stands before a mark or "with", and what stands behind it, without a number."""
    parted = re.split(r"\s*(?:\bw/|\bwith\b|[+&,;(\[]|\s[-–—]\s|\s/\s)\s*", text, maxsplit=1)
    if len(parted) == 2 and all(parted) and not re.search(r"\d", parted[1]):
        return parted[0], parted[1].strip(" )].")
    return None
