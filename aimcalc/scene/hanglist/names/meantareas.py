"""Targets in another language than those of the house, or in other words for the same place: "DSL" of Avant
cour, "Atril" of Lectern, "Vorne Mitte" of DSC. What both say is compared; a side in a target's name counts as
that on which the target is, whoever's left its word is."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import cached_property
from itertools import product

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.names.spelling import fold_case
from aimcalc.scene.hanglist.names.stageparts import part_of
from aimcalc.scene.hanglist.tongues.areawords import (
    ACTOR,
    FILLERS,
    HOUSE,
    KIND_OF,
    PUBLIC,
    meanings_of,
    words_of,
)

LONGEST = 60  # characters of a cell that names a target
LONGEST_PHRASE = 4  # words that mean something together
MOST_READINGS = 16  # of one name, by words with two meanings
ASIDE = 0.3  # metres from the centre line of what is to a side
OPPOSITE = {"sl": "sr", "sr": "sl"}
_ROWS, _SIDES = ("d", "u"), ("sl", "sr", "l", "r")
# Words of those who speak of the stage: their left is the actor's.
_OF_TRADE = frozenset(
    ("apron", "forestage", "down", "downstage", "up", "upstage", "mid", "midstage", "ds", "us")
)
_OF_LIGHT = frozenset(
    ("front", "back", "face", "rear")
)  # from where a target is lit, or where it is

_LETTERED = regex(
    r"(?:area|zonas?|zone|bereich|(?:spiel)?flache|aire|omrade|obszar|strefa)\s+([a-z])"
)
_BEHIND = frozenset(("front", "back", "rear"))
_SAYS_STAGE = regex(r"s[./]?[lr]\b|stage|cs$")


class Area(NamedTuple):
    """What a name says of its place and of what is there."""

    row: str  # "d", "m", "u" or nothing
    side: str  # "sl", "sr", "c", "slc", "src", a bare "l" or "r", or nothing
    things: frozenset[str]
    numbers: tuple[str, ...]
    more: bool = False  # it says something else too


class Areas:
    """The targets of a house by what their names mean."""

    def __init__(self, spots: Mapping[str, float]) -> None:
        """`spots` are the targets with their places across the stage, metres to SL."""
        self.spots = spots
        self.prompt: dict[str, str] = {}  # the sides of "ps" and "op"
        self.bare = ""  # whose a bare left and right is, stage or house, where somebody says it
        self.beside: frozenset[str] = frozenset()  # the cells of the column
        self._own: list[tuple[Area, str]] | None = None

    def said(self, prompt: Mapping[str, str], bare: str) -> None:
        """Know the sides of PS and OP, and whose a bare left and right is."""
        self.prompt = {word: side.casefold() for word, side in prompt.items()}
        self.bare, self._own = bare, None

    @cached_property
    def turned(self) -> dict[tuple[str, ...], dict[str, None]]:
        """The targets by the words of their names, in whatever order."""
        found: dict[tuple[str, ...], dict[str, None]] = {}
        for name in self.spots:
            found.setdefault(tuple(sorted(words_of(name))), {})[name] = None
        return found

    def find(self, came: str, named: Callable[[str], str | None]) -> dict[str, None]:
        """The targets that `came` means; several where it may be each of them, none where it is none.
        `named` finds a target by its name."""
        if len(came) > LONGEST:
            return {}
        words = words_of(came)
        if len(words) > 1 and (same := self.turned.get(tuple(sorted(words)))):
            return same  # "links vorne"
        if words and words[-1] in _BEHIND and named(" ".join(words[:-1])):
            return {}  # "CS front" is lit from there
        found = dict.fromkeys(name for area in self._said(came) for name in self._fitting(area))
        return {**found, **self._lit(words, named)} if found else {}

    def exactly(self, came: str) -> dict[str, None]:
        """The targets of which the names say the same as `came`, no more and no less; a number alone says
        nothing of which sort it is."""
        bare = came.strip().isdigit() or len(came) > LONGEST
        said = [] if bare else list(self._said(came))
        return {name: None for theirs, name in self._of_house() if theirs in said}

    def _lit(self, words: tuple[str, ...], named: Callable[[str], str | None]) -> dict[str, None]:
        """The target of a cell whose first or last word may say from where it is lit: CS by "Front centre",
        unless others of its column say with that word where they are."""
        for word, rest in ((words[0], words[1:]), (words[-1], words[:-1])):
            name = named(" ".join(rest)) if word in _OF_LIGHT and rest else None
            if name and not self._is_place(word, named):
                return {name: None}
        return {}

    def _is_place(self, word: str, named: Callable[[str], str | None]) -> bool:
        for cell in self.beside:
            words = words_of(cell) if len(cell) <= LONGEST else ()
            if word in words and len(words) > 1 and any(self._said(cell)):
                rest = " ".join(each for each in words if each != word)
                if named(rest) is None:
                    return True
        return False

    def _said(self, came: str) -> Iterator[Area]:
        """What a cell may mean, with the sides of the stage; nothing where a word is none of those known."""
        for area in self._read(came):
            if not area.more and (area.row or area.side or area.things or area.numbers):
                if area.side not in ("l", "r"):
                    yield area
                elif self.bare:
                    yield area._replace(side=_stage_side(area.side, house=self.bare == "house"))

    @cached_property
    def lettered(self) -> bool:
        """Whether areas go by letters, so that "Area C" is the third and no centre."""
        found = {each[1] for name in self.spots if (each := _LETTERED.fullmatch(fold_case(name)))}
        return not found <= set("lrcud")

    def _read(self, text: str) -> Iterator[Area]:
        plain = fold_case(text)
        letter = _LETTERED.fullmatch(plain) if self.lettered else None
        if letter:
            yield Area("", "", frozenset(), (letter[1],))
            return
        part = part_of(plain)
        if part and (self.bare != "house" or part.side in ("", "c") or _SAYS_STAGE.search(plain)):
            side = part.side.replace("l", "sl").replace("r", "sr") if part.side != "c" else "c"
            yield Area(part.row, side, frozenset(), ())
            return
        words = words_of(text)
        parts = list(_parted(words, self.prompt))
        numbers = tuple(w.lstrip("0") or "0" for w in words if w.isdigit())
        options = [options for options in parts if options]
        more = any(not each for each in parts)
        ways = list(product(*options))
        if len(ways) > MOST_READINGS:
            return
        trade = self.bare != "house" and not _OF_TRADE.isdisjoint(words)
        for way in ways:
            if area := _put_together(way, numbers, more=more, trade=trade):
                yield area

    def _of_house(self) -> list[tuple[Area, str]]:
        """The targets with what their names mean, each side as that on which the target is."""
        if self._own is None:
            self._own = []
            for name, x in self.spots.items():
                for area in self._read(name):
                    side = area.side
                    if side not in ("", "c"):
                        stands = ("sl" if x > 0 else "sr") if abs(x) >= ASIDE else ""
                        written = side.removesuffix("c")
                        if not stands or (written in OPPOSITE and written != stands):
                            continue
                        side = stands + side[len(written) :]
                    self._own.append((area._replace(side=side), name))
        return self._own

    def _fitting(self, area: Area) -> list[str]:
        """The targets that an area is, by the strictest way in which any is."""
        own = self._of_house()
        for fits in (_same, self._nearly, _has, self._stands):
            found = [name for theirs, name in own if fits(area, theirs, name)]
            if found:
                return found
        return []

    def _nearly(self, area: Area, theirs: Area, name: str) -> bool:
        """Whether a name says less of the place than a cell, which is there: Up, in the middle, of "USC"; or
        the only one of its row is said by the row."""
        if area.things or theirs.things or theirs.more or area.numbers != theirs.numbers:
            return False
        if area.side == "c" and not theirs.side:
            return area.row == theirs.row and abs(self.spots[name]) < 1.0
        if area.row == "m" and not theirs.row:
            return area.side == theirs.side
        in_row = [
            other for each, other in self._of_house() if each.row == area.row and not each.things
        ]
        return not area.side and bool(area.row) and in_row == [name]

    def _stands(self, area: Area, theirs: Area, name: str) -> bool:
        """Whether a thing is on the side that a cell says of it, and its name does not."""
        if not area.things or area.row or area.side not in OPPOSITE or theirs.side:
            return False
        x = self.spots[name]
        there = abs(x) >= ASIDE and (x > 0) == (area.side == "sl")
        return there and _has(area._replace(side=""), theirs, name)


def _same(area: Area, theirs: Area, name: str) -> bool:
    return area == theirs


def _has(area: Area, theirs: Area, name: str) -> bool:
    """Whether a name says all of the things that a cell says, and more."""
    things = {*theirs.things, *(KIND_OF[each] for each in theirs.things if each in KIND_OF)}
    return (
        bool(area.things)
        and area.things <= things
        and area.row in ("", theirs.row)
        and area.side in ("", theirs.side)
        and area.numbers in ((), theirs.numbers)
    )


def _parted(words: tuple[str, ...], prompt: Mapping[str, str]) -> Iterator[tuple[str, ...]]:
    """The meanings of words, those of several together first; nothing for one that has none."""
    at = 0
    while at < len(words):
        for count in range(min(LONGEST_PHRASE, len(words) - at), 0, -1):
            if said := meanings_of(words[at : at + count]):
                yield said
                break
        else:
            count, word = 1, fold_case(words[at])
            if word in prompt:
                yield (prompt[word],)
            elif word in PUBLIC and not set(map(fold_case, words)) - FILLERS - {word}:
                yield ("crowd",)
            elif word in ACTOR or word in HOUSE:
                yield ("actor" if word in ACTOR else "house",)
            elif not word.isdigit() and word not in FILLERS:
                yield ()
        at += count


def _put_together(
    way: Iterable[str], numbers: tuple[str, ...], *, more: bool, trade: bool
) -> Area | None:
    """One place of what its words mean; None where they are of two places."""
    said = list(way)
    rows = {each for each in said if each in _ROWS}
    sides = {each for each in said if each in _SIDES}
    whose = {each for each in said if each in ("actor", "house")}
    if len(rows) > 1 or len(sides) > 1 or len(whose) > 1:
        return None
    rest = {*_ROWS, *_SIDES, "m", "actor", "house"}
    things = frozenset(each for each in said if each not in rest)
    row, side = next(iter(rows), ""), next(iter(sides), "")
    if side in ("l", "r") and (whose or trade):
        side = _stage_side(side, house="house" in whose)
    elif whose and not side:
        return None
    if "m" in said:
        if side and row:
            side = f"{side}c"
        elif side:
            row = "m"
        else:
            row, side = row or ("" if things else "m"), "c"
    return Area(row, side, things, numbers, more)


def _stage_side(bare: str, *, house: bool) -> str:
    return "sl" if (bare == "l") != house else "sr"
