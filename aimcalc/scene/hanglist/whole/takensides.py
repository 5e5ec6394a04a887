"""Whose a bare left and right of a list are where no line says it: as the house names its positions, "Tower
left" on the side that it is on, or as the list itself writes other sides, "SL 2", "Boom Stage Left". A list
that would be asked is read again so, and is asked all the same where its units are aimed otherwise."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from functools import lru_cache
from typing import Any

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.columns.headingsides import signed_sides
from aimcalc.scene.hanglist.names.namesides import speaks_of_stage
from aimcalc.scene.hanglist.rows.listrow import Around
from aimcalc.scene.hanglist.tongues.tongues import in_english
from aimcalc.scene.model import Taken
from aimcalc.scene.records import Place

ASIDE = 1.0  # metres from the centre line of what is to a side
FEWEST_NAMED = 2  # positions named after their side, one to each, that tell whose it is
LONGEST = 60  # characters of a cell that may hold a side

# Left and right with the forms that they have in lists, a line a language; some have two names.
_LANGUAGES = """
left l / right r
links li linke linker linkes linkse linkerkant / rechts re rechte rechter rechtes rechtse rechterkant
gauche gche / droite dte drte
izquierda izq izqda izda izdo izquierdo / derecha der dcha dcho derecho
sinistra sx sin sinistro / destra dx des destro
esquerda esq esquerdo / direita dir dta dto direito
esquerra esquerre / dreta dret
vänster vä vänstra / höger hö högra
venstre ve / højre høyre hø
lewa lewo lewy lewej / prawa prawo prawy prawej
vlevo levá levo levý / vpravo pravá pravo pravý
vasen vas vasemmalla / oikea oik oikealla
"""


@lru_cache(1)
def _sides() -> dict[str, set[tuple[str, bool]]]:
    """The languages of each word for a side, by their left, and whether it is left."""
    found: dict[str, set[tuple[str, bool]]] = {}
    for line in _LANGUAGES.strip().splitlines():
        language = line.split(maxsplit=1)[0]
        for words, left in zip(line.split(" / "), (True, False), strict=True):
            for word in words.split():
                found.setdefault(word, set()).add((language, left))
    return found


class Whose(NamedTuple):
    """Whose left and right a list means, stage or house, and what tells it."""

    whose: str = ""
    because: str = ""
    named: tuple[str, ...] = ()  # the positions whose names tell it
    sure: bool = True  # whatever the units are aimed at
    aims_alone: bool = False  # where nothing else tells it

    def taken(self, name: str) -> Taken:
        """The warning of what a bare left and right were read as, and from what."""
        other = "house" if self.whose == "stage" else "stage"
        says = (
            f"{name}: a bare left or right is read as {self.whose} left or right: {self.because}."
        )
        do = (
            "Ask whoever wrote it, since the other way is a mirror image; write SL or SR, or, if they are "
            f"the other's, head the column: {other} left/right."
        )
        return Taken("list-at", says, do, severity="warn")


def whose_elsewhere(around: Around, rows: Iterable[Sequence[Any]]) -> Whose:
    """Whose the bare sides of the rows of a list are, by the names of the house and by its own cells;
    nobody's where these disagree. The house's alone are sure where the list has units on such a position.
    Places with SL and SR tell nothing of those with a bare left: who writes both may mean two things."""
    rows = list(rows)
    cells = list(dict.fromkeys(cell for row in rows for cell in row if isinstance(cell, str)))
    written = _sides_in(cells, {*around.places, *around.targets})
    if not written:
        return Whose()
    house = by_house(around, written)
    if house.whose:
        named = {cell.casefold().strip() for cell in cells} | _under_their_sort(rows, house.named)
        house = house._replace(sure=any(name.casefold() in named for name in house.named))
    if house.whose == "house" and speaks_of_stage(cells):
        return Whose()
    if not house.whose and speaks_of_stage(_PLACE.sub(" ", cell) for cell in cells):
        return Whose("stage", "its other sides are written as the stage's")
    if not house.whose and _has_bare_sign(cells) and by_house(around, ()).whose != "house":
        # as a bare left and right of cells are read where the units are aimed so
        because = "so the units are aimed to their own side"
        return Whose("stage", because, sure=False, aims_alone=True)
    return house


def _under_their_sort(rows: Iterable[Sequence[Any]], names: Iterable[str]) -> set[str]:
    """The names, in lower case, whose last word stands under the others: "L1" under "Boom", of Boom L1. "L2"
    under another heading may be a colour, and "2L" a place."""
    parted = [name.casefold().rpartition(" ") for name in names]
    sorts = {sort for sort, _, _ in parted if sort}
    over: dict[int, str] = {}
    found = set()
    for row in rows:
        for column, cell in enumerate(row):
            said = cell.casefold().strip() if isinstance(cell, str) else ""
            if said in sorts or said.removesuffix("s") in sorts:
                over[column] = said if said in sorts else said.removesuffix("s")
            elif column in over and (over[column], " ", said) in parted:
                found.add(f"{over[column]} {said}")
    return found


def _has_bare_sign(cells: Iterable[str]) -> bool:
    """Whether a cell says which sign is left or right, and not whose these are: "m (left = +)"."""
    short = (in_english(cell).casefold() for cell in cells if _SIGN.search(cell[:LONGEST]))
    return any(len(cell) <= LONGEST and signed_sides(cell) is None for cell in short)


_SIGN = regex(r"[+−–-]\s*[=:)]|[=(,+]\s*[-+−–]|\w\s*[+](?:\W|$)|(?i:plus|minus|pos|neg)")


def by_house(around: Around, written: Sequence[str]) -> Whose:
    """Whose left and right the house means by its names, where the words for sides that are
    `written` in the list are of their language. What
    is named so in front of the stage alone, "Box left", tells nothing of those who count from the seats."""
    sides = _sides()
    named = [
        (name, p.stood[0] if p.stood else p.aside, _behind(p)) for name, p in around.places.items()
    ]
    aims = [(name, x, False) for name, (x, _) in around.spots.items()]
    told = {name: _told(name, x, sides) for name, x, _ in (*named, *aims)}
    views = {view for _, view, _ in told.values() if view}
    positions = [name for name, _, _ in named if told[name][1]]
    both = {told[name][2] for name in positions}
    if len(views) != 1 or len(positions) < FEWEST_NAMED or len(both) != len(("left", "right")):
        return Whose()
    whose = views.pop()
    on_stage = any(behind for name, _, behind in named if name in positions)
    languages = set.intersection(*(told[name][0] for name in positions))
    if not (
        languages and (on_stage or whose == "stage") and _in_languages(written, languages, sides)
    ):
        return Whose()
    return Whose(whose, f"so the house names {' and '.join(positions[:4])}", tuple(positions))


def _behind(place: Place) -> bool:
    """Whether a position is not in front of the plaster line with all of it."""
    pipe = place.pipe
    y = place.stood[1] if place.stood else place.y
    return max(pipe.start[1], pipe.end[1]) > 0 if pipe is not None else y >= 0


def _told(
    name: str, x: float, sides: dict[str, set[tuple[str, bool]]]
) -> tuple[set[str], str, bool]:
    """The languages of the one side in a name, whose it is by where it stands, and whether it is left."""
    plain = name.casefold()
    found = [sides[word] for word in _WORD.findall(plain) if word in sides]
    if abs(x) < ASIDE or len(found) != 1 or _OF_SOMEBODY.search(plain):
        return set(), "", False
    lefts = {left for _, left in found[0]}
    if len(lefts) != 1:
        return set(), "", False
    left = lefts.pop()
    return {language for language, _ in found[0]}, "stage" if left == (x > 0) else "house", left


def _in_languages(
    written: Iterable[str], languages: set[str], sides: dict[str, set[tuple[str, bool]]]
) -> bool:
    """Whether each word for a side is one of some of the languages."""
    return not any(
        languages.isdisjoint({language for language, _ in sides[word]}) for word in written
    )


def _sides_in(cells: Iterable[str], names: set[str]) -> list[str]:
    """The words for a side that stand beside a figure or a sign, or alone in their cell, and those in full
    anywhere but in names of the house: "3 m left of centre", "from the left end"."""
    short = [cell.casefold() for cell in cells if len(cell) <= LONGEST and cell not in names]
    found = [word for cell in short for words in _SIDE_CELL.findall(cell) for word in words]
    found += [word for cell in short for word in _WORD.findall(cell) if len(word) >= FULL]
    return list(dict.fromkeys(word for word in found if word in _sides()))


FULL = 4  # letters of a word for a side that is nothing else


_WORD = regex(r"[^\W\d_]+")
_UNIT = r"(?:['\"′″’”]{1,2}|(?:m|cm|mm|ft|feet|foot|ins?|inch(?:es)?|met(?:re|er)s?)\b\.?)"
_SIDE = r"(?:s[./]?[lr]\b|stage[\s-]?(?:left|right)\b)"
_PLACE = regex(  # "1.5 m SL", "12' 6\" stage right", "8 SL", "SL 3 m"
    rf"\d\s*{_UNIT}?[\s\d'\"./,-]*(?:to\s+)?{_SIDE}|{_SIDE}\W*\d[\d.,]*\s*{_UNIT}", re.IGNORECASE
)
_SIDE_CELL = regex(
    r"(?<![^\W_])[-+−–]\s*(?:[=:]|\b(?:is|to|es|est|ist|a|à)\b)?\s*([^\W\d_]+)|"
    r"\d\s*(?:['\"″′’”]{1,2}|(?:m|cm|mm|ft|feet|in)\b)?\.?\s*([^\W\d_]+)(?:\W{1,3}([^\W\d_]+))?\W*$"
    r"|^\W*([^\W\d_]{2,})\W*(?:\d|$)|^\W*([^\W\d_])(?:\W+\d|\d+(?:['′’]|\s*(?:ft|m)\b)|\W*$)"
)
# Words that say whose side it is, or what else.
_OF_SOMEBODY = regex(
    r"stage|house|audience|toneel|zaal|b(?:ü|ue)hne|saal|sc[eèé]n|escen|cena|palco|salle|sala|jardin|cour"
    r"|(?<![a-z])(?:s[lr]|h[lr]|ps|op)(?![a-z])"
)
