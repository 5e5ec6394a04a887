"""Words of a hang list that say how units follow one another along a position: where the first one hangs, how
far they are apart, towards which side they go, or that they are spread from one place to another."""

from __future__ import annotations

import re
from typing import Any

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.columns.columnkeys import Meaning
from aimcalc.scene.hanglist.pagelines.sidenames import prompt_plain
from aimcalc.scene.hanglist.pagelines.unitwords import LEAST_MM, MOST_MM
from aimcalc.scene.hanglist.places.along import Along
from aimcalc.scene.hanglist.places.ends import ENDS, end_of, sides_plain
from aimcalc.scene.hanglist.places.evenspread import OPPOSITE, is_even
from aimcalc.scene.hanglist.places.origins import Ways, by_heading, end_said
from aimcalc.scene.hanglist.places.placewords import read_place
from aimcalc.scene.hanglist.places.steps import SIZE, UNIT
from aimcalc.scene.mistakes import Wrong

_LENGTH = (
    r"\d[\d.,]*\s*(?:'\s*-?\s*\d[\d./ ]*\s*(?:\"|ins?\b|inch(?:es)?\b)?"
    r"|(?:ft|feet|foot)\b\.?\s*-?\s*\d[\d./ ]*\s*(?:\"|ins?\b|inch(?:es)?\b)?"
    r"|(?!(?:about|around|round|either|each|both|over|on|across|centred|centered|along|from|to|of)\b)[a-z'\"]+)?"
)
_CENTRE = r"(?:on\s+)?(?:the\s+)?(?:cl|cent(?:re|er)(?:\s*line)?)\b"
_PLACE = rf"(?:{_LENGTH}\s*(?:sl|sr|us|ds)\b(?!\s*end)|(?:sl|sr|us|ds)\s*{_LENGTH}|{_CENTRE})"
_END = r"(?:sl|sr|us|ds)\s+(?:end|tip)\b"
_THAT = r"(?:that|this|the\s+same)\s+end\b"
_SIGNED = rf"[+−–-]\s*{SIZE}(?:\s*(?:sl|sr|us|ds)\b)?"
_FIRST = regex(
    rf"(?:\b(?:first|1st)(?:\s+{UNIT})?|\b{UNIT}\s*(?:1|one)\b|#\s*1\b|\b(?:start|begin)(?:s|ing)?)\s*"
    r"(?:is\s+|hangs\s+|:\s*)?(?:at\s+|from\s+)?"
    rf"(?:(?:the\s+)?{_END}(?:\s+of\s+(?:the\s+)?(?:row|bar|pipe|truss|run|line))?\s*,\s*)?"
    rf"({_PLACE}|{_SIGNED}|{_LENGTH}\s*(?:in\s+)?(?:from|off)\s+(?:the\s+)?(?:{_END}|{_THAT}))"
)
_THEN = regex(  # "3 m SL, then every 1.5 m"
    rf"({_PLACE})(?:\s+of\s+{_CENTRE})?\s*[,;]?\s*(?:and\s+)?(?:then|and\s+every|followed\s+by)\b"
)
_FIRST_ON = regex(  # "first unit on LX 1 is 3 m SL"
    rf"\b((?:first|1st)(?:\s+{UNIT})?)\s+(?:on|of)\s+[^.;,]{{2,40}}?(?=\s*(?:\b(?:is|hangs|at|from)\b|:))"
)
_EVERY = regex(
    rf"\bevery\s+({_LENGTH})"
    rf"|({_LENGTH})[\s-]*(?:apart|spacings?|intervals|pitch|c/c|o\.?c\b|(?:on\s+)?(?:cent(?:re|er)s\b|ctrs\b))"
    rf"|\bspac(?:ed|ing)\s*(?:of\s+|is\s+|at\s+|[:=,]\s*)?({_LENGTH})(?!\s*(?:in\s+)?(?:from|off)\b)"
)
_SPREAD = regex(
    rf"\b(?:even(?:ly)?|equal(?:ly)?|spread|spaced)\b(?:[^.;\d]{{0,30}}?\bfrom|\s*[,:]?)\s+(?:the\s+)?({_PLACE})"
    rf"(?:\s+(?:of|off)\s+{_CENTRE})?"
    rf"\s*(?:to|-|–|through|thru)\s*(?:the\s+)?({_PLACE})"
    rf"|\bfrom\s+({_PLACE})\s*(?:to|-|–|through|thru)\s*(?:the\s+)?({_PLACE})(?:\s+of\s+{_CENTRE})?\W+(?:spaced\s+|spread\s+)?(?:even|equal)"
)
_IN_AT_END = regex(
    rf"({_END})\s*[,(]?\s*({_LENGTH})\s+in\b(?!\s+(?:from|of)\b)"
)  # "at SL end 1' in"
_FROM_ENDS = regex(  # "evenly spaced, 1 m in from each end"
    rf"\b(?:even|equal)(?:ly)?\b[^.;\d]{{0,30}}({_LENGTH})\s*(?:in\s+)?(?:from|off)\s+(?:each|either|both|the)\s+ends?\b"
    rf"|({_LENGTH})\s*(?:in\s+)?(?:from|off)\s+(?:each|either|both)\s+ends?\b[^.;\d]{{0,30}}\b(?:even|equal)(?:ly)?\b"
)
_TO = regex(
    r"\b(?:to|towards?|working|going|heading|across\s+to|moving|andando|procedendo|allant|yendo|indo|gehend|lopend)"
    r"\s+(?:the\s+)?(sl|sr|us|ds)\b(?!\s*(?:end|of|\+|=))"
)
_BEING = r"(?:(?:=|(?:is|at|on|the|being|hangs|always)\b)\s*){0,5}"
_MOST = (
    r"(?:(?:furthest|farthest|extreme|far|most|outermost|outside|nearest|closest|yderst|ytterst|aussen|außen|ganz|l[aä]ngst|uiterst)"
    r"\s+(?:to\s+)?(?:the\s+)?)?"
)
_NUMBER_ONE = (
    r"(?:(?:#|\bn(?:o|r|[°º])\.?|\bunit(?:\s+(?:no\.?|number))?|\bnumber|\blamp|\blantern)\s*(?:1|one)"
    r"|\b(?:lowest|first)\s+number)"
)
_FIRST_ONE = rf"\b(?:first|1st)\s+{UNIT}\s*"
_FROM = regex(
    r"\b(?:number\w*|count\w*|working|reading)\s+(?:from|(?:start|begin)\w*(?:\s+(?:from|at|on))?)\s+(?:the\s+)?(sl|sr|us|ds)\b"
    rf"|(?:{_NUMBER_ONE}\s*|{_FIRST_ONE}){_BEING}{_MOST}(sl|sr|us|ds)\b(?!\s*(?:side\s+)?(?:of\b|\d))"
    rf"|\b(sl|sr|us|ds)(?:\s+(?:end|side))?\s*(?:=|is\b)\s*{_NUMBER_ONE}(?!\d)"
    r"|(?:^|[,;.(:]\s*)(?:1|one)\s*(?:=|(?:is|being)\b(?:\s*(?:at|on)\b)?|at\b|on\b)\s*(?:the\s+)?(sl|sr|us|ds)\b"
    r"(?=\s*(?:end\b|side\b|[,;.)]|$))"
)
# They lie evenly about the middle: "symmetrical about the center line", "centred on CL".
_ABOUT = regex(
    r"\b(?:symm\w*|cent(?:red|ered)|evenly|equally|balanced|spread|mirrored|half\s+(?:on\s+)?each\s+side"
    r"|apart|cent(?:re|er)s|ctrs|intervals|spac(?:ed|ing)|pitch|c/c)\b[^.;\d]{0,30}?"
    r"(?:(?:\d{1,2}\s?(?:'|ft)[\s-]?)?\d{1,4}(?:[.,]\d{1,3})?[^.;\d]{0,15}?)?"
    r"\b(?:about|on|around|round|over|either\s+side\s+of|each\s+side\s+of|of|across|to|om|zur|kring|par\s+rapport\s+a(?:\s+l)?)\s*['’]?\s*"
    r"(?:the\s+)?(?:cl\b|c/l\b|cent(?:re|er)(?:\s*line)?\b|middle\b)"
    r"|\b(?:centred|centered|symmetric\w*)\b(?=\s*(?:[,;.)]|$))"
)
# A cell that leaves a place to what a line says of all: "see top", "as note".
DEFERS = regex(
    r"\W*(?:see|as|per|as\s+per)\s+(?:the\s+)?(?:top|above|head(?:er|ing)?|title|notes?|rule|below|line\s+\w+)"
    r"(?:\s+of\s+(?:the\s+)?(?:page|sheet|list))?\W*"
    r"|\W*(?:start|first|datum)\W*",
    re.IGNORECASE,
)
_LEADS = regex(
    rf"\s*(?:(?:start|begin)(?:s|ing)?|(?:first|1st)(?:\s+{UNIT})?)\b\s*(?:is\s+)?(?:at\b)?\s*[:=,]?\s*",
    re.IGNORECASE,
)


class Said(NamedTuple):
    """What words over the units of a position say of gaps: where the first hangs, the gap, and the side
    that the others follow towards; where the last hangs, if all are spread evenly."""

    first: str = ""
    every: str = ""
    toward: str = ""
    last: str = ""
    about: bool = False  # all lie evenly about the centre line

    def beside(self, other: Said) -> Said:
        """What is said, with what `other` adds where nothing is."""
        every = self.every or ("" if self.last else other.every)
        last = self.last or ("" if self.first or self.every else other.last)
        about = self.about or (other.about and not self.first)
        return Said(self.first or other.first, every, self.toward or other.toward, last, about)

    def places_all(self) -> bool:
        """Whether it says where each unit hangs."""
        return bool(self.first and (self.every or self.last)) or self.is_about()

    def is_about(self) -> bool:
        """Whether it says that all lie evenly about the centre line, how far apart and from which side."""
        return bool(self.about and self.every and self.toward and not self.first)


def said_of(words: str) -> Said:
    """What words say of gaps: "first unit 15'-0" SL of center, then every 5'-0" to SR"."""
    if not words:
        return Said()
    text = prompt_plain(sides_plain(words.replace("”", '"').replace("’", "'")))
    text = re.sub(r"\bps\b", "sl", re.sub(r"\bop\b", "sr", text))
    text = _FIRST_ON.sub(r"\1", text) if "first" in text or "1" in text else text
    text = _IN_AT_END.sub(r"\2 in from \1", text)
    outer = _FROM_ENDS.search(text)
    if outer:
        in_from = outer[1] or outer[2]
        return Said(first=f"{in_from} from sl end", last=f"{in_from} from sr end")
    spread = _SPREAD.search(text)
    if spread:
        return Said(first=spread[1] or spread[3], last=spread[2] or spread[4])
    first, every = _FIRST.search(text) or _THEN.search(text), _EVERY.search(text)
    toward, whence = _towards(text), _FROM.search(text)
    side = toward[1].upper() if toward else ""
    begins = next(filter(None, whence.groups())).upper() if whence else ""
    if begins and not side:
        side = OPPOSITE[begins]
    return Said(
        first=_of_that_end(first[1], begins).strip(" ,.") if first else "",
        every=next((each for each in every.groups() if each), "").strip() if every else "",
        toward=side,
        about=bool(_ABOUT.search(text)),
    )


def _towards(text: str) -> re.Match[str] | None:
    """The way that units go; how the first is measured, "from CL to SR", is that where no other is said."""
    ways = list(_TO.finditer(text))
    own = [way for way in ways if not _MEASURED_TO.search(text[: way.start()])]
    return next(iter(own or ways), None)


_MEASURED_TO = regex(r"\bfrom\s+(?:the\s+)?(?:cl|c/l|cent(?:re|er)(?:\s*line)?)\s*$")


def _of_that_end(first: str, begins: str) -> str:
    """The place of the first unit with the end that it counts from by its side; "" where no side is said."""
    found = re.search(_THAT, first)
    if found is None:
        return first
    return first.replace(found[0], f"{begins.lower()} end") if begins else ""


def rule_of(line: str, ways: Ways) -> Said:
    """What a line round a table says of gaps, with what is there for the sides: "numbered from the altar"."""
    return said_of(str(ways.plain(_FROM_THERE.sub(lambda found: _there(found, ways), line))))


_FROM_THERE = regex(
    r"(?P<before>\b(?:number|count)\w*\s+from\s+)the\s+(?P<what>[a-z]{4,})(?=\s*(?:[,;.]|end\b|$))",
    re.IGNORECASE,
)


def _there(found: re.Match[str], ways: Ways) -> str:
    way = ways.of(found["what"])
    return f"{found['before']}{way}" if way else found[0]


def first_place(cell: Any, along: Along, unit: str) -> tuple[float, str]:
    """Where the first unit is by a cell that says it, "2' from SL end" or "start 12' SL", and the side that
    the others follow towards, "" where the cell does not say it.

    Raises:
        Wrong: when it is no place, or one on a position that has no such end.
    """
    if isinstance(cell, str):
        cell = _LEADS.sub("", cell, count=1) if _LEADS.match(cell) else cell
        cell, meaning = end_said(cell, Meaning())
        if meaning.end:
            size = read_place(cell, Along(along.unit, "any", True), unit).metres
            if size < 0 or re.search(r"\b[su][lrs]\b|\bds\b", str(cell).casefold()):
                raise Wrong("a place that counts from an end, without a sign or a side", came=cell)
            return by_heading(size, meaning, along), OPPOSITE[meaning.end]
    return read_place(cell, along, unit).metres, ""


def in_millimetres(every: str, unit: str) -> str:
    """How far apart units are, in millimetres where it has no unit, the places have metres and it cannot be
    so many: "900" centres."""
    plain = every.strip()
    bare = unit == "m" and plain.isdecimal() and LEAST_MM <= int(plain) <= MOST_MM
    return f"{plain} mm" if bare else every


def defers(cell: Any) -> bool:
    """Whether a cell leaves the place of its unit to what is said of all, or to an even spread."""
    return isinstance(cell, str) and (is_even(cell) or DEFERS.fullmatch(cell) is not None)


def says_end(cell: str) -> bool:
    """Whether a cell says the end that it counts from: "2' from SL end"."""
    found = ENDS.search(sides_plain(cell)) if "end" in cell.casefold() else None
    return found is not None and bool(end_of(found))
