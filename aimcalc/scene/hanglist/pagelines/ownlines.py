"""Lines round a table that speak of some of its positions alone: "LX 1: from the SL end. LX 2: from centre",
"Galleries: metres from the back end"."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.columns.tradewords import LENGTHS
from aimcalc.scene.hanglist.names.meant import Names
from aimcalc.scene.hanglist.pagelines.namedunits import says_unit, spelled
from aimcalc.scene.hanglist.pagelines.said import Said
from aimcalc.scene.hanglist.pagelines.titles import said_by
from aimcalc.scene.hanglist.pagelines.unitwords import is_of_else, leaves_open, unit_of_part
from aimcalc.scene.hanglist.places.origins import Upstage
from aimcalc.scene.hanglist.rows.bothsides import positions_in
from aimcalc.scene.hanglist.tongues.tongues import in_english, unaccented

LONGEST = 300  # characters of a line that is looked through
_LONGEST_LEAD = 40  # and of the names that lead one of its parts

_PART = regex(
    r"(?<=[.;])\s+|\s*[;\n]\s*|,\s+(?=\S)|\s+(?=\b(?:except|apart\s+from|but|whereas|while)\b)|(?<=\w)\s*[/|]\s+"
    r"|(?<=\w)\s+\((?=(?:the\s+|two\s+)*[^\W\d_]{3,}s\b[^();]{0,80};)"
)
_BEFORE = regex(
    r"\W*(?:(?:except|apart\s+from|but|whereas|while|and|on|for|the|all|both|two|each|every|units|places|dims|distances)\s+"
    r"(?:for\s+|of\s+|on\s+)?)*",
    re.IGNORECASE,
)
_NO_NAMES = regex(
    r"(?:(?:first|1st|second|2nd|third|3rd|last|next|previous|other)\s+)?(?:other\s+|whole\s+)*"
    r"(?:units?|lamps?|lights?|lanterns?|fixtures?|instruments?|ones?|each|every|all|first|last|next|others?|rest)\b",
    re.IGNORECASE,
)


_ANY = regex(r"(?:an?|any|one|that|this|your|our)\s+[^\W\d_]", re.IGNORECASE)
_SIDE_WORDS = (
    "sl sr us ds ps op left right stage house prompt up down upstage downstage centre center cl jardin cour"
    " l r plus minus end side north south east west"
)
_SIDES = frozenset(_SIDE_WORDS.split())
MOST_IN_RUN = 30  # positions
_RUN = regex(  # "Pipes 1-5"
    r"(\S[^\d]{0,30}?)[\s.]*(?<!\w)(\d{1,3}|[a-z])\s*(?:-|–|\bto\b|\bthru\b|\bthrough\b)\s*(\d{1,3}|[a-z])",
    re.IGNORECASE,
)
# Words for whatever units hang on: alone, they are for all positions of which nothing else is said.
_GENERIC = frozenset(
    ["pipe", "bar", "batten", "barrel", "truss", "electric", "lx", "position", "bars"]
)
_OTHERS = regex(
    r"\W*(?:(?:and|but|on|for|whereas|while)\s+)*(?:the\s+)?(?:all|others?|rest|remaining|everything|every\s+other)\b",
    re.IGNORECASE,
)
_OF_THESE = regex(  # "except on the booms, which are in feet"
    r"(?:which|these|those|they|that)\s+(?:are|is|were|was|count|have)\b|where\b", re.IGNORECASE
)
_ALL_THERE = regex(  # "LX 1, all units 1 m apart"
    r"\W*all\s+(?:the\s+)?(?:units?|lamps?|lights?|lanterns?|fixtures?|instruments?)\b",
    re.IGNORECASE,
)
# What leads a part of a line that goes on from no other: a word for what units hang on, or a colon behind it.
_LED = regex(
    r"\W*(?:(?:and|but|on|for|the|all)\s+)*(?:[\w'’ ]{2,25}:|(?:lx\s+|fly\s+)?"
    r"(?:pipes|bars|battens|trusses|electrics|booms|rails|towers|ladders"
    r"|stands|trees|galleries|bridges|perches|floor)\b)",
    re.IGNORECASE,
)
_ON_IT = regex(r"\b(?:on|for)\s+(?:the\s+)?(\S.{1,39})$", re.IGNORECASE)
_ON = regex(  # "first unit on LX 1"
    r"(?:(?:first|1st|last|all|each|every)\s+)?(?:units?|lamps?|lights?|lanterns?|fixtures?|instruments?|one|first|1st)\s+"
    r"(?:on|of|for)\s+(?:the\s+)?",
    re.IGNORECASE,
)


_FIRST_UNIT = regex(  # "No 1 is SR end", and no bar with a 1
    r"(?:(?:no|nr|n[°º]|number)\b\.?|#)\s*(?:1|one)\s*(?:(?:=|,|(?:is|at|on|the|being|nearest|to)\b)\s*){0,5}"
    r"(?:[su]\W?[lrs]|ds|d/s|ps|op|left|right|(?:up\W?|down\W?)?stage(?:\s+(?:left|right))?|prompt)"
    r"(?:\s+(?:end|side))?\W*",
    re.IGNORECASE,
)
_BY_NUMBER = regex(r"\b(?:no|nr|number)\b|#|n[°º]", re.IGNORECASE)


class OwnLines:
    """Parts lines by the positions that they speak of."""

    def __init__(self, positions: Names) -> None:
        self.positions = positions
        self._words = {name: _singular(name) for name in positions.names}
        self._stems = {name: {_stem(one) for one in own} for name, own in self._words.items()}

    def parts(self, line: str) -> list[tuple[tuple[str, ...], str]]:
        """The parts of a line, each with the positions that it speaks of alone; none for one that speaks of
        all, or of the others."""
        line = self._spelled(line[:LONGEST])
        found: list[tuple[tuple[str, ...], int, int]] = []  # with where each begins and ends
        before: tuple[str, ...] = ()  # "LX 1, LX 2: from the SL end"
        for start, end in _pieces(line):
            part = line[start:end]
            bare = _bare(part)
            short = len(bare) <= _LONGEST_LEAD and not _STOP.search(bare)
            alone = self.meant(bare) if short else ()
            names = alone or self.named(part)
            if alone:
                before += alone
            elif before and _OF_THESE.match(part):
                found.append((before, start, end))
                before = ()
            elif names or not found or _OTHERS.match(part) or _LED.match(part):
                others = _OTHERS.match(part) and not _ALL_THERE.match(part)
                found.append(((*before, *names) if names or not others else (), start, end))
                before = ()
            else:
                found[-1] = (*found[-1][:2], end)
        return [(names, line[start:end]) for names, start, end in found]

    def _spelled(self, line: str) -> str:
        """A line with the unit right behind the name of a position in words, "LX 1 in m"."""
        for start, end in reversed(_pieces(line) if says_unit(line) else []):
            line = line[:start] + spelled(line[start:end], self.meant) + line[end:]
        return line

    def words(self, names: Iterable[str]) -> frozenset[str]:
        """The words of the names of some positions, one by one."""
        return frozenset().union(*(self._words[name] for name in names if name in self._words))

    def of_sorts(self, text: str) -> bool:
        """Whether a text says something of each sort of position: each of its parts is led by names, or
        one by a word for whatever units hang on, "LX: from CL; booms: from the floor"."""
        parts = self.parts(text)
        general = [part for names, part in parts if not names]
        plain = all(any(_singular(x) <= _GENERIC for x in _leads(part)) for part in general)
        return len({names for names, _ in parts}) > 1 and len(general) < 2 and plain

    def named(self, part: str) -> tuple[str, ...]:
        """The positions whose names lead a part of a line."""
        start = _BEFORE.match(part)
        text = part[start.end() if start else 0 :]
        if _FIRST_UNIT.fullmatch(text) and not any(map(_BY_NUMBER.search, self.positions.names)):
            return ()
        on = _ON.match(text)
        text = text[on.end() :] if on else text
        for lead in _leads(text):
            if names := self.meant(lead):
                return names
        behind = _ON_IT.search(text)
        return self.meant(behind[1].strip(" .")) if behind else ()

    def meant(self, lead: str) -> tuple[str, ...]:
        """The positions that words mean, and not all there are; none where they mean none."""
        if (
            _NO_NAMES.match(lead)
            or _ANY.match(lead)
            or not re.search(r"[^\W\d_]{2}|\d[^\W\d_]", lead)
        ):
            return ()
        words = _singular(lead)
        spoken = frozenset(re.findall(r"[^\W\d_]+|\d+", lead.casefold()))
        if any(said <= _SIDES for said in (words, spoken, _singular(in_english(lead)))):
            return ()  # "SR plus, SL minus", "lewa / prawa"
        if words <= _GENERIC:
            return ()  # "Bars: from the centre line"
        run = _RUN.fullmatch(lead)
        if run:
            return self._run(*run.groups())
        meant = self.positions.find(lead)
        if meant.name is not None and (meant.sure or re.search(r"\d", lead)):
            return (meant.name,)
        several = positions_in(lead, self.positions)
        if len(several) > 1:
            return several
        group = [name for name, own in self._words.items() if words and words <= own]
        if not group and len(words) <= MOST_STEMS:
            stems = {_stem(word) for word in words}
            group = [name for name, own in self._stems.items() if stems and stems <= own]
        return tuple(group) if 0 < len(group) < len(self._words) else ()

    def _run(self, before: str, first: str, last: str) -> tuple[str, ...]:
        """The positions of a run, "Pipes 1-5" or "pipes A to E"; none where one of them is not there."""
        words = [_PLURAL.sub(_one, word) for word in before.split()]
        numbers = first.isdecimal() and last.isdecimal()
        low, high = (int(first), int(last)) if numbers else (ord(first.upper()), ord(last.upper()))
        if not low < high < low + MOST_IN_RUN:
            return ()
        each = [str(n) if numbers else chr(n) for n in range(low, high + 1)]
        found = [self.positions.find(" ".join((*words, one))).name for one in each]
        return tuple(name for name in found if name) if all(found) else ()


def _pieces(line: str) -> list[tuple[int, int]]:
    """Where the pieces of a line begin and end, between its marks."""
    marks = [(mark.start(), mark.end()) for mark in _PART.finditer(line)]
    ends = [*(start for start, _ in marks), len(line)]
    starts = [0, *(end for _, end in marks)]
    return [(a, b) for a, b in zip(starts, ends, strict=True) if line[a:b].strip()]


def _bare(part: str) -> str:
    """A part of a line without the little words before it."""
    start = _BEFORE.match(part)
    return part[start.end() if start else 0 :].strip(" .,:")


def _leads(text: str) -> list[str]:
    """What may be the names that lead a text, the longest first: before a mark or one of the words that go on
    with what is said of them."""
    found = []
    for match in _STOP.finditer(text[: _LONGEST_LEAD + 20]):
        lead = text[: match.start()].strip(" ,.:-–—(")
        if 1 < len(lead) <= _LONGEST_LEAD:
            found.append(lead)
    return list(reversed(found[:4]))


_STOP = regex(
    r"\s*(?:[:=(@]|\s[-–—]\s|\+|\b(?:is|are|was|were|which|that|has|have|from|measured?|measures?|taken|dims?|distances?|in|cm|mm"
    r"|metres?|meters?|feet|ft|inches|counts?|counted|zero|places?|plus|minus|units?|figures?|first|start\w*|even\w*"
    r"|spaced|hook\w*|tap(?:es?|ed)|at|on|numbers?|numbered|also)\b)",
    re.IGNORECASE,
)


def _singular(words: str) -> frozenset[str]:
    """The words of names without their plural, "Galleries" as "gallery"."""
    found = re.findall(r"[^\W\d_]+|\d+", words.casefold())
    return frozenset(_PLURAL.sub(_one, word) for word in found) - {"and", "the"}


def _stem(word: str) -> str:
    """A word without the end of its plural or singular in other languages: "Züge" and "Zug", "Galerien" and
    "Galerie", "americane" and "americana"."""
    if len(word) < SHORTEST_STEM:
        return word
    stem = _ENDING.sub("", unaccented(word))
    return stem[:-1] if stem[-2:-1] == stem[-1] else stem  # "trekken" of "trek"


MOST_STEMS = 2  # words of a name that may be plural in another language
SHORTEST_STEM = 4  # letters
_ENDING = regex(r"(?<=\w{3})(?:e[nrs]?|n|[aios]s?)$")
_PLURAL = regex(r"(?:ies|(?<=ss|sh|ch)es|(?<=[^s])s)$")


def _one(plural: re.Match[str]) -> str:
    return "y" if plural[0] == "ies" else ""


class Parted(NamedTuple):
    """What lines say of all positions, and what of some of them alone."""

    of_all: Said
    own: dict[str, Said]


def parted(
    lines: Iterable[tuple[int, str]], whole: Said, names: OwnLines, plain: Callable[[str], str]
) -> Parted:
    """What lines say by the positions that they speak of; `whole` is what they say together, of which whose
    left and right is meant, and the list's own words for a side, stay those of all. `plain` puts a line into
    plain words."""
    rest: list[tuple[int, list[str]]] = []
    own: dict[str, list[str]] = {}
    open_units: set[str] = set()
    numbers: set[int] = set()
    for number, line in lines:
        parts = names.parts(line)
        for of, words in parts:
            text = plain(words)
            said = _said_of([(number, text)]) if of else Said()
            unit_alone = not says_whence(said._replace(unit=""))
            if of and said.unit and unit_alone and is_of_else(text.casefold()):
                for name in of:
                    own.setdefault(name, [])
            elif of and says_whence(said):
                numbers |= {number} - {0}
                if said.unit and unit_alone and leaves_open(text.casefold(), names.words(of)):
                    open_units |= set(of)
                for name in of:
                    own.setdefault(name, []).append(text)
            else:
                rest.append((number, [text]))
    if not own:
        return Parted(whole, {})
    found = {
        name: _of_one(texts)._replace(open_unit=name in open_units) for name, texts in own.items()
    }
    of_all = said_by(rest)._replace(sides=whole.sides, bare=whole.bare, aims=whole.aims)
    rows = tuple(dict.fromkeys((*whole.rows, *sorted(numbers))))
    of_all = of_all._replace(grids=whole.grids, rows=rows)
    return Parted(of_all._replace(doubt=whole.doubt, mixed=whole.mixed), found)


def _of_one(texts: list[str]) -> Said:
    """What lines say of one position; of two ends, that it is from one of them and not which."""
    said = _said_of([(1, text) for text in texts])
    ends = sorted({end for text in texts if (end := said_by([(1, [text])]).end)})
    if len(ends) < 2:
        return said
    return said._replace(end="", vague=" and ".join(f"from the {end} end" for end in ends))


def _said_of(texts: Sequence[tuple[int, str]]) -> Said:
    """What lines say of some positions, with the unit that stands right behind or before their names: "LX 1
    in feet", "m on the rails"."""
    said = said_by([(number, [text]) for number, text in texts])
    if said.unit or said.boom_unit:
        return said
    units = {LENGTHS[unit] for _, text in texts if (unit := unit_of_part(text.casefold()))}
    return said._replace(unit=units.pop()) if len(units) == 1 else said


def says_whence(said: Said) -> bool:
    """Whether something is said of from where, which way or in what unit places count."""
    return _whence(said) != _whence(Said())


def _whence(said: Said) -> tuple[object, ...]:
    """What is said of from where, which way and in what unit places count."""
    upstage = said.upstage != Upstage()
    step = (said.step, said.from_sr, said.even)
    return (
        said.unit,
        said.end,
        said.plus,
        said.plus_bare,
        said.vague,
        upstage,
        said.plaster,
        said.centred,
        said.grid,
        *step,
    )
