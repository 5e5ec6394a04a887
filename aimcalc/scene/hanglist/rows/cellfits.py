"""Whether a cell of a hang list can be a value of a key, or what else it tells of its column."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.hanglist.columns.columnkeys import LENS, SIDE
from aimcalc.scene.hanglist.columns.tradewords import COLOUR_BESIDE, COLOURS
from aimcalc.scene.hanglist.names.kindcells import Kinds
from aimcalc.scene.hanglist.names.meant import Meant, Names, several_of
from aimcalc.scene.hanglist.names.morethannames import near_with_more, with_more, within
from aimcalc.scene.hanglist.names.placedpositions import placed_position
from aimcalc.scene.hanglist.names.sections import position_in
from aimcalc.scene.hanglist.names.targetasides import now_meant
from aimcalc.scene.hanglist.pagelines.sidenames import own_words
from aimcalc.scene.hanglist.places.evenspread import is_even
from aimcalc.scene.hanglist.places.heights import top_out
from aimcalc.scene.hanglist.places.placeasides import said_in_one
from aimcalc.scene.hanglist.places.placeforms import SIDED, is_place
from aimcalc.scene.hanglist.places.placing import Placing
from aimcalc.scene.hanglist.places.spacingcells import spacing_of
from aimcalc.scene.hanglist.rows.listrow import (
    Around,
    day_of,
    float_of,
    position_and_number,
    text_of,
)
from aimcalc.scene.hanglist.rows.mirrored import mirrored
from aimcalc.scene.hanglist.rows.numberruns import run_of
from aimcalc.scene.hanglist.rows.runs import places_of
from aimcalc.scene.hanglist.tongues.tongues import in_english

LONGEST_SIDE = 14  # characters of a side alone
LONGEST_LENS = 12  # of a lens
LONGEST_NUMBER = 4  # figures of a unit's number
SMALLEST = "mm"  # unit of length of a hang list
CENTRES = ("cl", "c", "centre", "center", "c/l")


class CellFits:
    """Tells of cells whether they fit a key of a unit, or are a `place` with its side, a `joint` of position
    and number, a `gel` ...; None where a key takes anything."""

    def __init__(
        self, around: Around, positions: Names, targets: Names, kinds: Kinds, placing: Placing
    ) -> None:
        self.around, self.positions, self.targets = around, positions, targets
        self.placing = placing
        self.of_cell: dict[str, Callable[[Any], bool]] = {
            "kind": kinds.fits,
            "kind figures": kinds.fits_figures,
            "number": _is_number,
            "at": self._at,
        }
        self.of_text: dict[str, Callable[[str], bool]] = {
            "position": self._position,
            "spelled position": lambda text: positions.spelled(text) is not None,
            "position and place": self._placed_or_named,
            "position with place": self._placed,
            "named kind": kinds.names_one,
            "section": lambda text: position_in(text, positions) is not None,  # over units
            "target": self._target,
            "joint": self._joint,
            "said channel": lambda text: bool(re.match(CHANNEL, text)),  # "ch 12"
            "said circuit": lambda text: bool(re.match(CIRCUIT, text)),
            "gel code": lambda text: bool(re.fullmatch(_GEL, text)),
            "channel code": lambda text: text.isdecimal() and len(text) <= LONGEST_NUMBER,
            "circuit code": lambda text: bool(re.fullmatch(_CIRCUIT_CODE, text)),
            "lettered gel": lambda text: bool(re.fullmatch(_GEL_CODE, text)),
            "gel": _is_gel,
            "length": lambda text: bool(re.match(_LENGTH, text)) and self._is_place(text),
            "minus": lambda text: bool(re.match(r"[-−–]\s*\d", text)),
            "decimal": lambda text: bool(re.fullmatch(r"[+−–-]?\d{1,2}[.,]\d{1,3}", text)),
            "length and more": lambda text: bool(re.fullmatch(_LENGTH_AND_MORE, text)),
            "figure": lambda text: float_of(text) is not None,
            "words": lambda text: not (re.search(r"\d", text) or self._is_place(text)),
            "place": self._sided_place,
            "on a side": self._on_a_side,
            "side first": self._side_first,
            "which place": _has_side,
            "which side": self._which_side,
            "mark": self._mark,
            SIDE: _is_side,
            LENS: lambda text: bool(re.search(r"\d", text)) and len(text) <= LONGEST_LENS,
        }

    def __call__(self, key: str, cell: Any) -> bool | None:
        """Whether a cell can be a value of a key; None where the key takes anything."""
        if key in self.of_cell:
            return self.of_cell[key](cell)
        of_text = self.of_text.get(key)
        return None if of_text is None else of_text(text_of(cell).strip())

    def _is_place(self, cell: Any) -> bool:
        """Whether a cell is a place in the scene's unit, or in a smaller one: "5600 OP" beside a scene in
        metres."""
        if self.placing.heights and text_of(cell).strip().casefold() in self.placing.heights:
            return True
        own = self._own_words(top_out(cell)[0]) if isinstance(cell, str) else cell
        own = _FROM_END.sub("", own) if isinstance(own, str) else own
        own = said_in_one(own, self.around.unit)
        if is_place(own, self.around.unit):
            return True
        others = (SMALLEST, "ft")  # a line may say feet: "dims in ft-in", over 15-6 SL
        return bool(
            isinstance(own, str)
            and re.search(_PLACE, own)
            and any(is_place(own, unit) for unit in others)
        )

    def _sided_place(self, text: str) -> bool:
        if text.casefold() in self.placing.heights:
            return True
        return bool(re.search(_PLACE, self._own_words(text))) and self._is_place(text)

    def _on_a_side(self, text: str) -> bool:
        """A place with the side of the stage or house that it is on: no height."""
        said = _OF_A_SIDE.search(in_english(self._own_words(text)))
        return bool(said) and self._is_place(text)

    def _own_words(self, text: str) -> str:
        """A text with sides named after what is there, or in the list's own words, as those sides."""
        return self.placing.own_words(str(self.placing.ways.plain(text)))

    def _side_first(self, text: str) -> bool:
        """A place with its side before it, "L 4", and no name of a position."""
        meant = self.positions.find(text)
        named = meant.sure and meant.name is not None
        return bool(re.fullmatch(_SIDE_FIRST, text)) and not named

    def _at(self, cell: Any) -> bool:
        text = text_of(cell).strip()
        pair = mirrored(text)
        each = pair.places if pair else places_of(text) or [cell]
        if is_even(cell) or spacing_of(cell):
            return True
        return day_of(cell) is not None or all(map(self._is_place, each))

    def _position(self, text: str) -> bool:
        meant = self.positions.find(text)
        if meant.name is None and self("place", text):
            return False
        if meant == Meant():
            return self.positions.near(text) is not None
        return meant.sure or not re.match(_LENGTH, text)

    def _placed_or_named(self, text: str) -> bool:
        """A position with the place of the unit on it, or alone as it is spelled."""
        meant = self.positions.find(text)
        return (meant.name is not None and meant.sure) or self._placed(text)

    def _placed(self, text: str) -> bool:
        across = self.placing.runs_across
        return placed_position(text, self.positions, self.__call__, across) is not None

    def _target(self, text: str) -> bool:
        meant = self.targets.find(text)
        return (
            meant != Meant()
            or bool(several_of(text, self.targets))
            or self.targets.near(text) is not None
            or with_more(text, self.targets)[0] is not None
            or within(text, self.targets)[0] is not None
            or near_with_more(text, self.targets)[0] is not None
            or now_meant(text, self.targets) is not None
        )

    def _joint(self, text: str) -> bool:
        """A position and a number, and no name of a position with its own number."""
        meant = self.positions.find(text)
        spelled = meant.name is not None and meant.sure
        return not spelled and parted_in(text, self.positions) is not None

    def _which_side(self, text: str) -> bool:
        if len(text) > LONGEST_SIDE or re.search(r"\d", text):
            return False
        own = dict(self.placing.said.sides)
        text = str(self.placing.ways.side(own_words(text, self.placing.named_sides)))
        text = in_english(text).strip()
        return bool(re.fullmatch(_WHICH_SIDE, text)) or text.casefold() in own

    def _mark(self, text: str) -> bool:
        """A number of a mark, of the pipe that has the most."""
        pipes = (place.pipe for place in self.around.places.values() if place.pipe)
        most = max((len(pipe.marks) for pipe in pipes), default=0)
        return text.isdecimal() and 1 <= int(text) <= most


def _is_number(cell: Any) -> bool:
    text = text_of(cell).strip()
    if text.isdecimal() and len(text) <= LONGEST_NUMBER:
        return True
    number = re.fullmatch(_NUMBER, text, re.IGNORECASE)
    return day_of(cell) is not None or bool(number) or bool(run_of(text))


def _is_gel(text: str) -> bool:
    """A gel in words, or by a letter and its number."""
    words = re.findall(r"[^\W\d_]+", text.casefold())
    none = set(words) in ({"n", "c"}, {"o", "w"}) or words[:1] == ["no"]
    known = all(word in COLOURS or word in COLOUR_BESIDE for word in words)
    named = known and (none or any(word in COLOURS for word in words))
    return named or bool(re.fullmatch(_GEL_CODE, text))


def _is_side(text: str) -> bool:
    text = in_english(text)
    return bool(SIDED.search(text)) or text.casefold() in CENTRES


def _has_side(text: str) -> bool:
    """With a side, bare or not, "12L" too, or on none."""
    text = in_english(text)
    bare = re.search(r"(?<![^\W\d_])[lr]\b|left|right|^[+-]|^0*$", text, re.IGNORECASE)
    return bool(SIDED.search(text) or bare)


def parted_in(text: str, positions: Names, *, loosely: bool = False) -> tuple[str, str] | None:
    """The position and the number that one text names; None where it does not. `loosely`, where a part of
    the position's name is enough: "Bridge 1" of an FOH Bridge."""
    parts = position_and_number(text) or re.fullmatch(r"([^\W\d_]+)\s*(\d{1,3}[a-z]?)", text)
    if parts is None and positions.find(text) == Meant():
        parts = re.fullmatch(r"(.*[^\W\d_].*?)\s+(\d{1,3}[a-z]?)", text)  # "1st Electric 3"
    meant = positions.find(parts[1]) if parts else Meant()
    enough = meant.sure or position_and_number(text) or (loosely and parts and len(parts[1]) > 2)
    if parts and enough and meant.name:
        return meant.name, parts[2]
    return put_together(text, positions) if positions.find(text) == Meant() else None


def put_together(text: str, positions: Names) -> tuple[str, str] | None:
    """The position and the number of a short mark, "A2" of Pipe A, "1E4", "LX1A", "P1 n°3", that can be put
    apart in one way alone."""
    if len(text) > LONGEST_MARK:
        return None
    each = (form.fullmatch(text) for form in _MARKS)
    found = {(positions.find(parts[1]).name or "", parts[2]): parts[1] for parts in each if parts}
    named = [way for way, code in found.items() if _has_numbers(way[0], code)]
    return named[0] if len(named) == 1 else None


def _has_numbers(name: str, code: str) -> bool:
    """Whether a position is found, and its code has a number where it has one: by "LX3" no LX 1 is meant."""
    return bool(name) and (re.search(r"\d", code) is not None or not re.search(r"\d", name))


LONGEST_MARK = 24
_MARKS = tuple(
    regex(form, re.IGNORECASE)
    for form in (
        r"([^\W\d_]{1,4})(\d{1,2}[a-z]?)",
        r"([^\W\d_])\s(\d{1,2}[a-z]?)",
        r"(\d[^\W\d_]{1,2})(\d{1,2}[a-z]?)",
        r"(\d{1,2}[^\W\d_]{1,3}|[^\W\d_]{1,5}\s?\d{1,2})(?:[\s_.]+|\s*[(\[]\s*#?)(\d{1,2}[a-z]?)[)\]]?",
        r"([^\W\d_]{1,4}\d{1,2})([a-z])",
        r"([^\W\d_]{1,4}\d)(\d{1,2}[a-z]?)",
        r"([^\W\d_]{1,4}\d\d)(\d{1,2}[a-z]?)",
        r"(\d.*[^\W\d_]|.*\d)\s+(\d{1,2}[a-z]?)",
        r"(.*[^\W_])\s*\bn[°ºo]\.?\s*(\d{1,2}[a-z]?)",
    )
)


# Text, compiled when a column is guessed: that of most lists is named.
_NUMBER = r"(?:no\.?|unit|#)?\s*\d{1,4}\s*[a-z]?(?:\W\d{1,3})?|[a-z]{1,2}\W?\d{1,3}[a-z]?|[a-z]"
_GEL = (
    r"(?i)"
    r"(?:[a-z]{1,2}\s?)?\d{2,4}(?:\s*[+/&]\s*(?:[a-z]{1,2}\s?)?\d{2,4})*|n/?c|o/?w|open|clear"
)
_LENGTH = (
    r"(?i)"
    r"[+-]?\d+(?:[.,]\d+)?\s*(?:['\"′″’”]|(?:ft|feet|foot|ins?|inch(?:es)?|m|cm|mm|met(?:re|er)s?)(?![a-z]))"
)
# A length and a word or letter that may be its side, or a middle.
_LENGTH_AND_MORE = (
    r"(?i)"
    r"(?:[hxz]\s*[=:]?\s*)?[+−–-]?(?:\d+[.,]\d+|\d+(?=\s*(?:m|cm|mm|ft)\b|m\d|\s*['\"′″’”]))\s*"
    r"(?:m\d{1,2}|(?:m|cm|mm|ft|in)\b\.?|['\"′″’”])?\W*(?!k?w\b|kva\b|k?v\b|a\b|kg\b)[^\W\d_]{1,14}(?:\s[^\W\d_]{1,14})?\W*"
    r"|[^\W\d_]{1,14}\W{1,2}(?:\d+[.,]\d+|\d+(?=\s*(?:m|cm|mm|ft)\b))\s*(?:m|cm|mm|ft)?"
)
# A side, the centre or a mark: a length alone may be a trim, or the length of a cable.
_PLACE = (
    r"(?i)"
    r"(?<![a-z])(?:[sh]\W?[lr]|[ud]\W?s|house|(?:up|down)?stage|cl|c/l|cent(?:re|er)|marks?|p\W?s|o\W?p)(?![a-z])"
    r"|(?<=[\d'\"mtn.])\s*(?:left|right|[lr]|up|high)\b"
    r"|(?<=[\d'\"mtn.])\s*(?:up\s+|down\s+)?(?:from|off|above|below|under)\s+(?:the\s+|its\s+)?"
    r"(?:top|bottom|foot|deck|floor|ground)\b"
)
_OF_A_SIDE = regex(
    r"(?<![a-z])(?:[sh]\W?[lr]|p\W?s|o\W?p|left|right|c/?l|cent(?:re|er)|cour|jardin)(?![a-z])|(?<=[\d'\"m.])\s*[lr]\b",
    re.IGNORECASE,
)
# The end that a place counts from, behind a length: "1 m from DS end".
_FROM_END = regex(
    r"(?<=[\d'\"mtn.])\s*(?:in\s+)?(?:from|off|fr\.?|frm)\s+(?:the\s+)?(?:[sud]\W?[lrs]|(?:up|down)\W?stage"
    r"|stage\W?(?:left|right))\s+end\W*$",
    re.IGNORECASE,
)
_WHICH_SIDE = (
    r"(?i)"
    r"[+−–-]|l|r|c|p|o|j|cour|jardin|c\W?l|cent(?:re|er)|ctr|left|right|p\W?s\W?|o\W?p\W?|[sh]\W?[lr]\W?"
    r"|(?:stage|house)\W?(?:l|r|left|right)|height|high|up|above(?:\s+(?:deck|floor))?"
)
_SIDE_FIRST = (
    r"(?i)"
    r"[lr]\W?\s*\d+(?:[.,]\d+)?\s*(?:m|cm|mm|ft|in|['\"′″])?|0|c|cl|c/l|cent(?:re|er)"
)
# A letter and a number, "S1", or two numbers, "2/14"; no watts, volts nor amps.
_CIRCUIT_CODE = r"(?i)[a-z]{1,4}[-./ ]?\d{1,3}(?:[-./]\d{1,3})?|\d{1,3}[-./]\d{1,3}|\d{1,3}[b-uxyz]"
_GEL_CODE = r"(?i)(?:l\s?\d{3}|[rg]\s?\d{2,4})(?:\s*\+\s*(?:l\s?\d{3}|[rg]\s?\d{2,4}))?"
CHANNEL = r"(?i)^ch(?:an(?:nel)?)?(?![a-z])\.?\s*#?\s*(?=\d)"
CIRCUIT = r"(?i)^(?:ckt|cct|circuit|dim(?:mer)?)(?![a-z])\.?\s*#?\s*(?=\d)"
