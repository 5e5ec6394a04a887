"""Which of the house's own kinds a short form means: "P36" is Profile 36, "découpe 1 kW" is Profile 1kW,
"PNL" is LED Panel."""

from __future__ import annotations

import re
from collections.abc import Iterable

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.names.alike import shortened, slip
from aimcalc.scene.hanglist.names.kindtrade import (
    KIND_ASIDE,
    KIND_TRADE,
    NO_INITIALS,
    NO_SLIP,
    SORTS_OF_KIND,
    TAILS,
    ZOOM,
)
from aimcalc.scene.hanglist.names.meant import Meant
from aimcalc.scene.hanglist.names.spelling import fold_case

LONGEST = 40  # characters of a short form
MOST_KILOWATTS = 20  # a number up to it may be kilowatts, in a name that has as many watts
SHORTEST_BEGUN = 2  # letters of a word that begins a longer one
SHORTEST_SHORT = 3  # and of one that has some of its letters, "pnl"
USUAL_PAR = (64,)  # the size of a PAR of which nobody says it, in eighths of an inch
SIZES_OF_PAR = tuple((size,) for size in (16, 20, 30, 36, 38, 46, 56, 64))
# What is said of a light for a cyclorama, and tells nothing where no kind of the house is called so.
OF_CYC = frozenset(("single", "cell", "cells", "far", "sky", "ground", "wash", "cyclorama"))
SORTS_OF_CYC = frozenset(("flood", "asym"))
SHORTEST_SLIP = 5  # letters of a word of the trade that may be misspelled


class Parts(NamedTuple):
    """What a name says of a kind: words, and numbers with the pairs of a zoom apart from others."""

    words: tuple[str, ...]  # as the trade's word that stands for them
    typed: tuple[str, ...]  # as they are written
    numbers: tuple[tuple[int, ...], ...]  # (36,), (25, 50), 1.2kW as (1200,)


class ShortKinds:
    """The house's own kinds, found by what a cell says of them."""

    def __init__(self, kinds: Iterable[str], *, usual: bool = False) -> None:
        """With `usual` a PAR of which no size is said has the usual one: "PAR 64" of PAR CP62."""
        self.kinds = {name: parts_of(name) for name in kinds}
        if usual:
            self.kinds = {name: _with_usual_size(kind) for name, kind in self.kinds.items()}
        self.spoken = {word for kind in self.kinds.values() for word in (*kind.words, *kind.typed)}
        self.known: dict[str, Meant] = {}
        self.called: dict[
            tuple[str, str], str
        ] = {}  # what the list calls a kind: ("profile", "long")

    def explained(self, came: str) -> str | None:
        """The kind that a cell explains in brackets, "profile (the long ones 18-32)", and that one when it is
        called so below: "long profile"."""
        aside = _EXPLAINED.fullmatch(came.strip())
        sizes = _SIZES.findall(aside[2]) if aside else []
        if aside and len(sizes) == 1:
            name = self.find(f"{aside[1]} {sizes[0]}").name
            for word in re.findall(r"[^\W\d_]{3,}", fold_case(aside[2])) if name else ():
                self.called.setdefault((_alone(aside[1]), word), str(name))
            return name
        words = fold_case(came).split() if self.called else []
        rests = ((" ".join(words[:k] + words[k + 1 :]), words[k]) for k in range(len(words)))
        found = {
            self.called[_alone(rest), word]
            for rest, word in rests
            if (_alone(rest), word) in self.called
        }
        return found.pop() if len(found) == 1 else None

    def find(self, came: str) -> Meant:
        """The one kind that has every word and every number of a cell, its words spelled rather than begun,
        and no sort that the cell does not say: "par" is a Par 64 rather than an LED Par. Several where
        these are alike."""
        if came not in self.known:
            self.known[came] = self._find(came)
        return self.known[came]

    def _find(self, came: str) -> Meant:
        if not came or len(came) > LONGEST or not re.search(r"[^\W_]", came):
            return Meant()
        said = parts_of(came)
        if not said.words and not said.numbers:
            return Meant()
        if "cyc" in said.words:  # "single cell cyc" of a kind that says less
            spare = OF_CYC - self.spoken
            said = said._replace(words=tuple(w for w in said.words if w not in spare))
        ranks = {name: _rank(said, kind) for name, kind in self.kinds.items()}
        fits = {name: rank for name, rank in ranks.items() if rank is not None}
        if not fits:
            return Meant()
        best = min(fits.values())
        found = tuple(name for name, rank in fits.items() if rank == best)
        return Meant(found[0], False) if len(found) == 1 else Meant(None, False, found)


def parts_of(text: str) -> Parts:
    """The words and numbers of a kind's name, or of a short form of it."""
    text = re.sub(r"\b([a-z])\.(?=[a-z]\b)", r"\1", fold_case(text))  # p.c.
    text = re.sub(r"\bp64\b", "par 64", text)
    numbers: list[tuple[int, ...]] = []

    def taken(found: re.Match[str]) -> str:
        if found["low"]:
            numbers.append((int(found["low"]), int(found["high"])))
        else:
            number = float(found["number"].replace(",", "."))
            is_kilo = bool(found["kilo"]) or number != int(number)
            numbers.append((round(number * (1000 if is_kilo else 1)),))
        return " "

    text = _PLAN_CONVEX.sub("pc", _NUMBER.sub(taken, text))
    typed = re.findall(r"[^\W\d_]+", text)
    has_zoom = any(len(number) > 1 for number in numbers)
    if has_zoom:  # "zoom 25/50"
        is_sorted = any(_stands_for(word) in SORTS_OF_KIND for word in typed if word not in ZOOM)
        typed = ["ers" if w in ZOOM and not is_sorted else w for w in typed]
        typed = [word for word in typed if word not in ZOOM]
    kept = [word for word in typed if word not in KIND_ASIDE and word not in ("in", "inch")]
    kept = kept or ([] if numbers else typed)
    words = tuple(dict.fromkeys(map(_stands_for, kept)))
    return Parts(words, tuple(typed), tuple(numbers))


def _with_usual_size(kind: Parts) -> Parts:
    """A kind of PAR that says no size, with that of nearly all of them."""
    sized = "par" not in kind.words or "led" in kind.words
    if sized or any(number in kind.numbers for number in SIZES_OF_PAR):
        return kind
    return kind._replace(numbers=(*kind.numbers, USUAL_PAR))


def _alone(text: str) -> str:
    return " ".join(map(_stands_for, fold_case(text).split()))


def _stands_for(word: str) -> str:
    """The trade's word that stands for one, also where its writer slipped; else the word itself."""
    if word in KIND_TRADE:
        return KIND_TRADE[word]
    if len(word) < SHORTEST_SLIP or word in NO_SLIP:
        return word
    near = {
        stands
        for known, stands in KIND_TRADE.items()
        if len(known) >= SHORTEST_SLIP and known[0] == word[0] and slip(word, known)
    }
    return near.pop() if len(near) == 1 else word


def _rank(said: Parts, kind: Parts) -> tuple[int, int] | None:
    """How far a short form is from a kind, the least first; None where it is another."""
    initial = len(said.words) == 1 == len(said.words[0]) and bool(said.numbers)
    exact = initial or not said.words
    if not all(_has_number(kind, n, exact=exact) for n in said.numbers):
        return None
    if initial:
        return (4, 0) if any(w.startswith(said.words[0]) for w in kind.typed[:1]) else None
    of_cyc = "cyc" in said.words
    levels = [_level(word, kind, of_cyc=of_cyc) for word in said.words]
    if None in levels:
        return None
    more = SORTS_OF_KIND.intersection(kind.words) - set(said.words) if said.words else ()
    return max((level for level in levels if level is not None), default=0), len(more)


def _has_number(kind: Parts, number: tuple[int, ...], *, exact: bool) -> bool:
    if number in kind.numbers:
        return True
    kilo = not exact and len(number) == 1 and number[0] <= MOST_KILOWATTS
    return kilo and (number[0] * 1000,) in kind.numbers


def _level(word: str, kind: Parts, *, of_cyc: bool = False) -> int | None:
    """How far a word is from the nearest one of a kind: the same, short for it, or a slip of it. `of_cyc`
    where it stands beside the word for a cyclorama: "cyc flood" of a Cyc Cell."""
    if word in kind.words or word in kind.typed:
        return 0
    if word in SORTS_OF_KIND:
        return 1 if word in SORTS_OF_CYC and of_cyc and "cyc" in kind.words else None
    if word not in NO_INITIALS and word in map(_initials, kind.typed):
        return 1
    if any(_is_short(word, other) for other in kind.typed):
        return 1
    if word not in NO_SLIP and any(slip(word, other) for other in kind.typed):
        return 2
    return None


def _initials(word: str) -> str:
    """The first letters of both parts of a word put together, "hf" of Horizontflut; "" of another word."""
    tail = next((tail for tail in TAILS if word.endswith(tail)), "")
    return f"{word[0]}{tail[0]}" if tail and len(word) - len(tail) > 1 else ""


def _is_short(word: str, other: str) -> bool:
    least = SHORTEST_BEGUN if other.startswith(word) else SHORTEST_SHORT
    return len(word) >= least and shortened(word, other)


_NUMBER = regex(
    r"(?<![\d.,])(?:(?P<low>\d{1,2})\s*[°º]?\s*(?:[-–/x×]|to|bis|a|à)\s*(?P<high>\d{2,3})(?!\d)\s*[°º]?"
    r"|(?P<number>\d+(?:[.,]\d+)?)\s*(?:(?P<kilo>k)\s*(?:w(?:atts?)?)?(?![a-z])|w(?:atts?)?(?![a-z]))?"
    r"[°º]?\.?)"
)
_EXPLAINED = regex(r"([^()\[\]]+?)\s*[(\[]([^()\[\]]+)[)\]]")
_SIZES = regex(r"\d+\s*[-–/x×]\s*\d+|\d+(?:[.,]\d+)?\s*(?:°|º|deg\w*|k?w\b|k\b)")
_PLAN_CONVEX = regex(r"\b(?:plano?|piano|plain)[\s-]+(?:convex\w*|konvex\w*|convess\w*)")
