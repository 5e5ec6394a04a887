"""Which name of the scene a list means: "A3" is `area 3`, "1st Electric" is `LX 1`, "30° ellipsoidal"
is `ers-30`.

A name is found where one alone fits; where several do, they are told, and somebody is asked.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from itertools import product

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.names.alike import (
    all_alike,
    begins,
    by_initials,
    compounded,
    ends,
    initials_of,
    may_run_together,
    run_together,
    shortened,
    slashed,
    slip,
    starts_short,
)
from aimcalc.scene.hanglist.names.meantareas import Areas
from aimcalc.scene.hanglist.names.namewords import NUMBERED, POSITION_WORDS, WHOLE_WORDS
from aimcalc.scene.hanglist.names.sidewords import side_words
from aimcalc.scene.hanglist.names.spelling import (
    fold,
    fold_case,
    fold_code,
    numbers_of,
    plain,
    tokens_of,
)
from aimcalc.scene.hanglist.names.stageparts import Part, part_of
from aimcalc.scene.hanglist.names.targetwords import CENTRE_STAGE, CENTRES


class Meant(NamedTuple):
    """What a word was found to mean: one name, or several that fit, or none."""

    name: str | None = None
    sure: bool = True  # but for case, spaces and punctuation it is spelled so
    several: tuple[str, ...] = ()


_ARTICLE = regex(
    r"\s*(?:(?:to|on|onto|towards?)\s+(?:(?:the|our)\s+)?|(?:the|our)\s+)(?=[^\W\d_]{2})",
    re.IGNORECASE,
)
# "Centre C." of Centre Circle; the letter of a side is that side.
_AND_LETTER = regex(r"\s*[^\W\d_]{4,}\s+(?![lrud]\b)[^\W\d_]\.\s*$", re.IGNORECASE)
SHORTEST = 3  # letters of a word without a number that may stand for a longer one


class Names:
    """The names of one sort that a scene has, found again as people write them."""

    def __init__(
        self,
        names: Iterable[str],
        words: Sequence[dict[str, str]] = ({},),
        spare: Sequence[str] = (),
        *,
        ordered: bool = False,
        also: Iterable[tuple[str, str]] = (),
        whole: bool = False,
        mixed: bool = False,
        sides: bool = False,
    ) -> None:
        """`words` are levels of words that stand for one another, `spare` may be left out or be too many;
        `ordered` keeps letters before a number apart from letters after it; `also` are other ways to
        write a name; `whole` finds no name that has a word more; with `mixed` numbers may
        stand in another order; with `sides` left and right may be shortened and bent."""
        self.names = dict.fromkeys(names)
        self.is_place = words is POSITION_WORDS
        self.words, self.spare, self.ordered = words, frozenset(spare), ordered
        self.whole, self.mixed, self.sides = whole, mixed, sides
        self.plain: dict[str, dict[str, None]] = {}
        self.folded: dict[str, dict[str, None]] = {}
        for name in self.names:
            self.plain.setdefault(plain(name), {})[name] = None
            self.folded.setdefault(fold(name), {})[name] = None
        if sides:
            own = side_words({t for name in self.names for t in tokens_of(name, {})})
            self.words = (*words, {**words[-1], **own}) if own else words
        self.areas: Areas | None = None  # of targets, what their names mean
        self.bare = ""  # whose a bare left and right is, where somebody says it
        self.sided = len(words) if sides else len(self.words)  # the level of those words
        self.also_as(also)

    def also_as(self, also: Iterable[tuple[str, str]]) -> None:
        """Take other ways to write the names, in the place of those before."""
        self.ways = [(name, name) for name in self.names]
        self.ways += [(way, name) for way, name in also if name in self.names]
        self.parts: list[tuple[Part | None, str]] | None = None  # of the stage, of each way
        self.codes: dict[
            str, str
        ] = {}  # what the list's own legend says, by `fold_code` of the code
        self.known: dict[str, Meant] = {}
        self.tokens: dict[
            tuple[int, bool], list[tuple[list[str], str]]
        ] = {}  # of each way, by level of words

    def find(self, came: str) -> Meant:
        """What `came` means."""
        if came in self.names:
            return Meant(came)
        if came not in self.known:
            self.known[came] = self._find(came)
        return self.known[came]

    def spelled(self, came: str) -> str | None:
        """The one name that `came` spells, but for case, spaces and punctuation."""
        meant = self.find(came)
        return meant.name if meant.sure else None

    def written(self, came: str) -> str | None:
        """The one name that `came` is, but for case, accents and spaces; nothing else is tried."""
        for index, key in ((self.plain, plain(came)), (self.folded, fold(came))):
            if key and key in index:
                return next(iter(index[key])) if len(index[key]) == 1 else None
        return None

    def _find(self, came: str) -> Meant:
        if self.codes and (name := self.codes.get(fold_code(came))) in self.names:
            return Meant(name, False)
        if not plain(came) or len(came) > 100:
            return Meant()
        for sure, index, key in ((True, self.plain, plain(came)), (False, self.folded, fold(came))):
            if key in index:
                return _one(index[key], sure)
        if ways := slashed(came, self.names):
            found_by = [self.find(way) for way in ways]
            cut = [n for one in found_by for n in (one.several or (one.name,)) if n]
            if cut:
                return _one(dict.fromkeys(cut), False)
        for level, watts in product(
            range(len(self.words)), (True, False) if self.mixed else (False,)
        ):
            mine = tokens_of(came, self.words[level], watts=watts)
            if level == self.sided and len(mine) < 2:
                continue  # a side alone is no name
            if (level, watts) not in self.tokens:
                self.tokens[level, watts] = [
                    (tokens_of(way, self.words[level], watts=watts), name)
                    for way, name in self.ways
                ]
            foreign = self.words is POSITION_WORDS and level in WHOLE_WORDS
            for least in (None,) if foreign else (None, SHORTEST, 1):
                short = least == 1 and bool(_AND_LETTER.match(came))
                fits = {
                    n: None
                    for theirs, n in self.tokens[level, watts]
                    if self._fits(mine, theirs, least, short)
                }
                if fits:
                    found = self._spelled(mine, fits, (level, watts))
                    return _one(by_initials(came, found) or self._exactly(came, found), False)
        initials = [
            name
            for name in self.names
            if initials_of(name) == came.casefold().replace(" ", "") or starts_short(name, came)
        ]
        if initials:
            return _one(dict.fromkeys(initials), False)  # "FT" of Front Truss
        if self.mixed and (fits := self._fewer_numbers(came)):
            return _one(fits, False)
        article = _ARTICLE.match(came)
        if article:
            return self.find(came[article.end() :])._replace(sure=False)
        if part := self._part(came):
            return _one(part, False)
        centre = [way for way in CENTRES if way in self.folded and CENTRE_STAGE.fullmatch(came)]
        if centre:
            return _one(self.folded[centre[0]], False)
        if together := self._run_together(came) or compounded(came, self.names):
            return _one(together, False)
        areas = self.areas.find(came, lambda text: self.find(text).name) if self.areas else {}
        return _one(areas, False) if areas else Meant()

    def _exactly(self, came: str, found: dict[str, None]) -> dict[str, None]:
        """Of several targets that have the words of `came`, the one that says the same place."""
        same = self.areas.exactly(came) if self.areas and len(found) > 1 else {}
        return same if len(same) == 1 and same.keys() <= found.keys() else found

    def _run_together(self, came: str) -> dict[str, None]:
        """The positions of which `came` is the beginnings of all words without blanks."""
        if not self.is_place or not may_run_together(came):
            return {}
        return {name: None for name in self.names if run_together(came, tokens_of(name, {}))}

    def _part(self, came: str) -> dict[str, None]:
        """The names that are the part of the stage that `came` says otherwise: Centre Left for "CSL"."""
        part = part_of(fold_case(came)) if self.sides and self.bare != "house" else None
        if part is None:
            return {}
        if self.parts is None:
            self.parts = [(part_of(fold_case(way)), name) for way, name in self.ways]
        return {name: None for theirs, name in self.parts if theirs == part}

    def _spelled(
        self, mine: list[str], fits: dict[str, None], level: tuple[int, bool]
    ) -> dict[str, None]:
        """Of names that fit, the one that says no word more: Centre Stage for "CENTRE", not Apron Centre."""
        if len(fits) < 2 or not any(t[0].isalpha() for t in mine):
            return fits
        whole = {n: None for theirs, n in self.tokens[level] if n in fits and theirs == mine}
        return whole if len(whole) == 1 else fits

    def _fewer_numbers(self, came: str) -> dict[str, None]:
        """The names that have each word and number of `came` and a number more: "CP62" of Par 64 CP62."""
        mine = tokens_of(came, self.words[0])
        numbers, letters = set(numbers_of(mine)), [t for t in mine if not t[0].isdigit()]
        theirs = {name: tokens_of(name, self.words[0]) for name in self.names}
        return {
            name: None
            for name, tokens in theirs.items()
            if numbers
            and letters
            and numbers < set(numbers_of(tokens))
            and self._fits(letters, tokens, SHORTEST)
        }

    def near(self, came: str) -> str | None:
        """The one name that `came` is a slip of the finger off, or is short for: its numbers are the same,
        and each of its words is like that of the name."""
        for words in ({}, self.words[0]):
            mine = self._plain_tokens(came, words)
            if not mine or (len(mine) == 1 and len(mine[0]) < SHORTEST):
                return None  # ">", or spare words alone
            theirs = [(name, self._plain_tokens(way, words)) for way, name in self.ways]
            for alike in (slip, shortened, ends):
                found = list(
                    dict.fromkeys(n for n, tokens in theirs if all_alike(mine, tokens, alike))
                )
                if found:
                    return found[0] if len(found) == 1 else None
        return None

    def _plain_tokens(self, text: str, words: dict[str, str]) -> list[str]:
        """The words and numbers of a name without spare ones; its words first where their order is free."""
        tokens = [t for t in tokens_of(text, words) if not self.mixed or t not in self.spare]
        return sorted(tokens, key=lambda t: t[0].isdigit()) if self.mixed else tokens

    def _fits(
        self, mine: list[str], theirs: list[str], least: int | None, short: bool = False
    ) -> bool:
        """Whether every word of `mine` is one of `theirs`, or begins one (`least` letters, None: no
        beginnings); `short` where a letter of it is said to be one of a word."""
        numbers, others = numbers_of(mine), numbers_of(theirs)
        if self.mixed:
            numbers, others = sorted(numbers), sorted(others)
        if numbers and numbers != others:
            return False
        left = [t for t in theirs if not t[0].isdigit()]
        letters = [t for t in mine if not t[0].isdigit()]
        kept = [t for t in letters if t not in self.spare or t in left]
        if not kept and not numbers:
            return False
        if (
            self.ordered
            and numbers
            and letters
            and mine[0][0].isdigit()
            and not theirs[0][0].isdigit()
        ):
            return False
        whole = (short and mine[0] in left) or any(
            len(token) > SHORTEST and token in left for token in kept
        )
        if least == 1 and not numbers and not whole:
            return False  # "C" alone; "Chorus R" has a whole word beside its letter
        for token in kept:
            at = next((i for i, t in enumerate(left) if begins(t, token, least)), None)
            if at is None:
                return False
            del left[at]
        if self.whole and set(left) - self.spare - {"k"}:
            return False
        if (
            not kept
        ):  # a bare number is the loosest reading; a spare word does not stand for another
            if least == 1 and len(left) == 1 and left[0] in {t[0] for t in letters if len(t) > 1}:
                return len(theirs[0]) == 1  # "Area 3" of A3
            return not left if set(letters).difference(NUMBERED) or least is None else True
        return True


def _one(names: dict[str, None], sure: bool) -> Meant:
    found = tuple(names)
    return Meant(found[0], sure) if len(found) == 1 else Meant(None, False, found)


def several_of(came: str, names: Names) -> tuple[str, ...]:
    """The names that a cell holds several of: "area 1 & 2", "A3/A4"; none where it does not."""
    parts = [
        part.strip()
        for part in re.split(r"[,;/&+\n]|\band\b|(?<=\d)\s*-\s*(?=\d)", came)
        if part.strip()
    ]
    if len(parts) < 2:
        return ()
    first = names.find(parts[0])
    found = [first.name]
    word = re.match(r"[^\W\d_]+", (first.name or "").strip())
    for part in parts[1:]:
        meant = names.find(part)
        if meant.name is None and word and part.isdigit():
            meant = names.find(f"{word[0]} {part}")
        found.append(meant.name)
    return tuple(dict.fromkeys(name for name in found if name)) if all(found) else ()
