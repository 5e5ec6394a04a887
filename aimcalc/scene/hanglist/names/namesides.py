"""Where a position is, as people say it for its name: the side of the stage in the words of either habit,
"Boom 1 SL" of a house that writes Boom 1 PS, and "back bar" for the last of those that go by numbers."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence

from aimcalc.named import regex
from aimcalc.scene.hanglist.names.sidewords import Sides
from aimcalc.scene.hanglist.names.spelling import fold
from aimcalc.scene.hanglist.tongues.tongues import PAIRED, in_english
from aimcalc.scene.records import Place

_OPPOSITE = regex(r"(?<![a-z])(?:opposite\s+prompt(?:\s+side)?|o\.p\.?)(?![a-z])", re.IGNORECASE)
_PROMPT = regex(r"(?<![a-z])(?:prompt(?:\s+side)?|p\.s\.?)(?![a-z])", re.IGNORECASE)


def paired_sides(places: Mapping[str, Place]) -> Sides:
    """The words in which the names of two positions differ that stand on either side of the stage, with the
    side of each, as patterns: "Hof" and "Straße" of two galleries, "A" and "B" of two towers. A letter
    is one behind a figure or alone. None that is for another side elsewhere, or for no side."""
    aside = {
        tuple(_NAME_WORDS.findall(_IN_ONE.sub("", name.lower()))): x
        for name, place in places.items()
        if abs(x := place.aside) >= ASIDE
    }
    found: dict[str, set[str]] = {}
    for one, x in aside.items():
        for other, opposite in aside.items():
            differ = [pair for pair in zip(one, other, strict=False) if pair[0] != pair[1]]
            across = len(one) == len(other) and (x > 0) != (opposite > 0)
            if across and len(differ) == 1 and not _left_and_right(*differ[0]):
                found.setdefault(differ[0][0], set()).add("SL" if x > 0 else "SR")
    plain = [
        set(_NAME_WORDS.findall(name.lower()))
        for name, place in places.items()
        if abs(place.aside) < ASIDE
    ]
    return tuple(
        (_AFTER_FIGURE.format(word) if len(word) == 1 else _LONG.format(word), sides.pop())
        for word, sides in found.items()
        if len(sides) == 1
        and (word not in _OF_SOMEBODY or (word == "ds" and "ks" in found))  # the ladies' side
        and not any(word in name for name in plain)
    )


def ways_in_full(places: Mapping[str, Place]) -> list[tuple[str, str]]:
    """Other ways to write names of a letter and a number, with the word that the letter is of such a position
    as it is: "Truss 1" of a pipe T1, "Boom 2" of a boom B2."""
    found = []
    for name, place in places.items():
        code = _LETTER_AND_NUMBER.fullmatch(name)
        words = _IN_FULL.get(place.sort, ()) if code else ()
        found += [(f"{w} {code[2]}", name) for w in words if code and w[0] == code[1].lower()]
    return found


_LETTER_AND_NUMBER = regex(r"([^\W\d_])\W?(\d{1,2})")
_IN_FULL = {
    "pipe": ("truss", "traverse", "bar", "batten", "pipe", "electric"),
    "boom": ("tower", "boom", "ladder"),
    "stand": ("stand", "tripod", "floor"),
}


def ways_where_they_stand(places: Mapping[str, Place]) -> list[tuple[str, str]]:
    """Other ways to write the names of two positions that stand on either side of the stage and differ in a
    word for left and right alone, with the side of each: "Boom 1 SL" of a Boom 1L. Whoever's left that is, it
    stands there."""
    aside = {
        name: (_NAME_WORDS.findall(name.lower()), x)
        for name, place in places.items()
        if abs(x := place.aside) >= ASIDE
    }
    found = {}
    for name, (one, x) in aside.items():
        for other, opposite in aside.values():
            differ = [
                k for k, pair in enumerate(zip(one, other, strict=False)) if len(set(pair)) > 1
            ]
            across = len(one) == len(other) and (x > 0) != (opposite > 0)
            ours = "house" not in one  # "Boom House Left" says itself whose left it is
            if not (ours and across and len(differ) == 1):
                continue
            if _left_and_right(one[differ[0]], other[differ[0]]):
                side = "SL" if x > 0 else "SR"
                found[" ".join((*one[: differ[0]], side, *one[differ[0] + 1 :]))] = name
    return list(found.items())


def other_side(name: str, places: Mapping[str, Place]) -> str | None:
    """The boom that is called as another is, but for its side, and stands on that; else the one that stands
    over against it. None where there is none, or several."""
    place = places[name]
    booms = {n: p for n, p in places.items() if p.sort == "boom" and p.x * place.x < 0}
    if place.sort != "boom" or not booms:
        return None
    mine = _NAME_WORDS.findall(name.lower())
    alike = []
    for other in booms:
        words = _NAME_WORDS.findall(other.lower())
        differ = [pair for pair in zip(mine, words, strict=False) if pair[0] != pair[1]]
        if len(words) == len(mine) and len(differ) == 1:
            one, two = differ[0]
            alike += [other] if {one, two} in _OPPOSED or _left_and_right(one, two) else []
    against = [
        n for n, p in booms.items() if max(abs(p.x + place.x), abs(p.y - place.y)) < OVER_AGAINST
    ]
    found = alike or against
    return found[0] if len(found) == 1 else None


OVER_AGAINST = 0.3  # metres
_OPPOSED = (
    {"sl", "sr"},
    {"ps", "op"},
    {"cour", "jardin"},
    {"stageleft", "stageright"},
    {"hl", "hr"},
)


def _left_and_right(one: str, other: str) -> bool:
    """Whether two words are left and right, or their letters, in some language: whose, somebody must say."""
    letters = f"{one}{other}" in PAIRED or f"{other}{one}" in PAIRED
    return letters or {in_english(one), in_english(other)} == {"left", "right"}


ASIDE = 1.0  # metres from the centre line
_NAME_WORDS = regex(r"[^\W\d_]+|\d+")
_IN_ONE = regex(r"(?<=[^\W\d_]{3})(?:zijde|seite|kant|side|sida)\b")
_LONG = r"{}(?:\s?(?:seite|zijde|kant|side|sida))?"
_AFTER_FIGURE = r"(?:(?<=\d)\s*|(?<=\dm )|(?<=\d m )|^){}$"
# Words for a side that is whose somebody says, for none, for a length or for the middle; figures.
_SOMEBODYS = """
left right l r sl sr ps op p o s h stage house prompt opposite jardin cour links rechts li re gauche droite
sinistra destra sx dx izquierda derecha izq der esquerda direita venstre højre høyre vänster höger
g d m c x f u ds us
"""
_OF_SOMEBODY = frozenset((*_SOMEBODYS.split(), *map(str, range(100))))
_BACK = regex(r"(?<![^\W_])(?:back|rear|last)(?![^\W_])", re.IGNORECASE)


def back_bar(places: Mapping[str, Place]) -> dict[str, str]:
    """What people call the last of the bars that go by numbers from the front to the back of the stage, and
    its name: "back bar", where none hangs behind it and no position has such a word in its name."""
    across = [
        (place.pipe.start[1], name)
        for name, place in places.items()
        if place.pipe is not None and place.axis == "x"
    ]
    if len(across) < FEWEST_BARS or any(map(_BACK.search, places)):
        return {}
    (before, _), (back, last) = sorted(across)[-2:]
    stem = re.sub(r"\d+", "#", last)
    row = sorted((y, name) for y, name in across if re.sub(r"\d+", "#", name) == stem)
    numbers = [int(re.sub(r"\D", "", name) or 0) for _, name in row]
    counted = stem.count("#") == 1 and numbers == list(range(1, len(row) + 1))
    if back - before < BEHIND or not counted or len(row) < FEWEST_BARS:
        return {}
    return {fold(f"{word} {bar}"): last for word in ("back", "rear", "last") for bar in _BARS}


_BARS = (
    "bar",
    "pipe",
    "batten",
    "lx",
    "lx bar",
    "electric",
    "elec",
    "lighting bar",
    "bar on stage",
)
FEWEST_BARS = 2  # of which one is the last
BEHIND = 0.3  # metres at least from one bar to the next behind it
# Sides of the stage said as such, and words of whoever looks at it from the front.
_OF_STAGE = regex(r"(?<![^\W_])(?:s[./]?[lr]|stage[\s-]?(?:left|right))(?![^\W_])", re.IGNORECASE)
_OF_HOUSE = regex(
    r"(?<![^\W_])h[./]?[lr](?![^\W_])|(?<![^\W_])(?<!opera\s)house\b(?!\s*light)|audience|auditorium|camera"
    r"|facing|looking|seen|view|congregation|from\s+(?:the\s+)?front",
    re.IGNORECASE,
)
BARE = regex(r"(?<![^\W\d_])(?:left|right|l|r)(?![^\W\d_])", re.IGNORECASE)
LONGEST = 40  # characters of a cell that names a position


def bare_names(cells: Iterable[str]) -> list[str]:
    """The cells that may be names of positions with a bare L or R."""
    return [cell for cell in dict.fromkeys(cells) if len(cell) <= LONGEST and BARE.search(cell)]


def speaks_of_stage(cells: Iterable[str]) -> bool:
    """Whether a list says sides as those of the stage, "SR" or "stage left", and none as of the house."""
    text = "\n".join(cells)
    return bool(_OF_STAGE.search(text)) and not _OF_HOUSE.search(text)


def ways_by_side(
    names: Iterable[tuple[str, str]], said: Sequence[tuple[str, str]]
) -> list[tuple[str, str]]:
    """Other ways to write the names that have a side, in pairs of a way and its name: prompt side and
    opposite prompt as the side that they are `said` to be, and the other way round; so with left and
    right."""
    sides = [(word, side) for word, side in said if word in ("ps", "op", "left", "right")]
    both = [*sides, *((side, word.upper()) for word, side in sides)]
    found = []
    for written, name in names:
        plain = _PROMPT.sub("PS", _OPPOSITE.sub("OP", written))
        for word, other in both:
            way = re.sub(rf"(?<![a-z]){word}(?![a-z])", other, plain, flags=re.IGNORECASE)
            if way != plain:
                found.append((way, name))
    return found
