"""Where places count from, in people's words: an end of the pipe, its middle, what of the scene lies at one
end of it: "60 cm upstage of DS end", "2.5 US of mid", "0.5 m from the altar end", "5 ft north of middle".
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Any

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.columns.columnkeys import Meaning
from aimcalc.scene.hanglist.places.along import Along
from aimcalc.scene.hanglist.places.compass import (
    ASIDE,
    CLOCKWISE,
    COMPASS,
    compass_of,
    in_points,
    names_of,
    o_said,
)
from aimcalc.scene.hanglist.places.ends import ENDS, end_of, sides_plain
from aimcalc.scene.hanglist.places.landmarks import landmark_across, lies_at
from aimcalc.scene.hanglist.places.signways import SignWays
from aimcalc.scene.hanglist.rows.listrow import Around
from aimcalc.scene.mistakes import Wrong
from aimcalc.scene.model import runs_across

_PIPE = r"(?:pipe|rail|bar|truss|batten|beam|bridge|gallery|perch|track|barrel)"
_MID = r"(?:mid(?:dle|way)?|half\W?way|cent(?:re|er))(?:\W*(?:pt|point)\b\.?|\b)(?:\s+along\b)?"
_OF_PIPE = rf"(?:[\s-]*(?:of\s+)?(?:the\s+|its\s+|each\s+)?{_PIPE}s?\b)?"
_OF_MIDDLE = regex(rf"\s*\b(?:of|from|off)\s+(?:the\s+|its\s+)?{_MID}{_OF_PIPE}", re.IGNORECASE)
_AT_MIDDLE = regex(
    rf"\W*(?:(?:on|at|in)\s+)?(?:the\s+|its\s+|dead\s+)?{_MID}{_OF_PIPE}\W*"
    rf"|\W*(?:the\s+)?{_PIPE}\s+{_MID}\W*",
    re.IGNORECASE,
)
EVEN = 0.01  # metres: a pipe whose ends are so nearly alike far from its zero has it in its middle


_MIDDLE_FIRST = regex(
    rf"^\W*(?:from\s+)?(?:the\s+)?{_MID}{_OF_PIPE}\s*[,:+]?\s*(?=\d.*(?:\b[ud]/?s\b|stage))",
    re.IGNORECASE,
)


class Ways:
    """The words of a scene for the ways of its stage: what lies at one end of all its pipes up and down the
    stage, and which way north is."""

    def __init__(self, around: Around) -> None:
        self.around = around
        self._found: dict[str, str] | None = None
        self.signs = SignWays(around, self._word)
        self.letter_o = ""  # east or west, where the list says that it is one

    def plain(self, cell: Any) -> Any:
        """A text with an end, or a way, that is named after what is there as us, ds, sl or sr."""
        if not isinstance(cell, str):
            return cell
        if self.letter_o:
            cell = _O_LAST.sub(rf" {self.letter_o}", cell)
        cell = self.signs.plain(cell)
        came, cell = cell, in_points(cell)
        if not _MAY_NAME.search(cell):
            return came
        cell = _END_NEAR.sub(self._near, _END_FAR.sub(self._far, cell))
        cell = _NAMED_SIDE.sub(self._side, _BRACKETED_END.sub(self._bracketed, cell))
        return _NAMED_END.sub(self._end, _TOWARDS.sub(self._way, _COMPASS.sub(self._point, cell)))

    def _word(self, word: str) -> str:
        """The side of a point of the compass, or of what stands there of that name: sl, sr, us or ds."""
        known = word in COMPASS or word in _HOUSE
        return self.of(word) if known else _beside(word, self.around)

    def _near(self, found: re.Match[str]) -> str:
        """The end that is told by what is there: "the end nearest the pews"."""
        return f"{self.of(found[1]) or found[1]} end"

    def _far(self, found: re.Match[str]) -> str:
        """The end that is told by what is at the other: "the back end, farthest from the altar"."""
        way = self.of(found[1])
        return f"{_ACROSS[way]} end" if way else found[0]

    def _bracketed(self, found: re.Match[str]) -> str:
        """An end with the way, or another name, behind its name, "west (downstage) end"; as it is where they
        do not agree, and by its first name where nothing tells which it is."""
        names = found[1], found[2] or found[3] or found[4]
        first, second = (self._way_of(name) for name in names)
        if first and second and first != second:
            told = {
                way for name, way in zip(names, (first, second), strict=True) if not _weak(name)
            }
            if len(told) != 1:
                return found[0]
            first = second = told.pop()  # the back of what, is told by what is there
        if found[4] and not second:
            return found[0]
        return f"{first or second or found[1]} end"

    def _way_of(self, name: str) -> str:
        plain = sides_plain(name.strip())
        return plain if plain in ("us", "ds", "sl", "sr") else self.of(plain.split()[0])

    def side(self, word: Any) -> Any:
        """A word in a column of sides that names one after what is there as SL or SR: "pulpit"."""
        text = word.casefold().strip() if isinstance(word, str) else ""
        text = in_points(text)
        if text in COMPASS or text in ("n", "e", "s", "w"):
            return self.of(next(w for w in COMPASS if w[0] == text[0])).upper() or word
        name = re.fullmatch(r"[^\W\d_]{4,}", text) and text not in _NO_LANDMARKS
        return (_beside(text, self.around) if name else "").upper() or word

    def _side(self, found: re.Match[str]) -> str:
        """A side that is named after a point of the compass, or after what is there: "pulpit side"."""
        side = self.of(found[1]) if found[1] else _beside(found[2].casefold(), self.around)
        if side not in ("sl", "sr"):
            return found[0]
        return side if found.string.lstrip()[:1].isdigit() else f"{side} side"

    def _end(self, found: re.Match[str]) -> str:
        way = self.of(found[1])
        return f"{way} end" if way else found[0]

    def _way(self, found: re.Match[str]) -> str:
        way = self.of(found[1])
        return found[0].replace(found[1], way) if way else found[0]

    def _point(self, found: re.Match[str]) -> str:
        """A point of the compass, in full or by its letter."""
        word = found[1] or next(word for word in COMPASS if word[0] == found[2].casefold())
        return f" {self.of(word)}" if self.of(word) else found[0]

    def of(self, word: str) -> str:
        """The side that a word is for: us, ds, sl or sr; "" where nothing tells."""
        if self._found is None:
            self._found = {**_HOUSE, **compass_of(self.around)}
        plain = word.casefold()
        if plain not in self._found:
            none = plain in COMPASS or (plain in _BY_STAGE and not _over_stage(self.around))
            self._found[plain] = (
                ""
                if none
                else _BY_STAGE.get(plain)
                or _landmark(plain, self.around)
                or landmark_across(plain, self.around)
                or ("ds" if plain == "nave" else "")
            )
        return self._found[plain]

    def say_where(self, lines: Iterable[str]) -> None:
        """Take from lines where what they name is, "the kitchen is stage left", and which way north is:
        "north is stage right"."""
        told = list(lines)
        self.letter_o = next(filter(None, map(o_said, told)), "")
        self._say_north(told)
        named = lies_at(told)
        if named:
            self._found = {**_HOUSE, **(self._found or compass_of(self.around)), **named}

    def _say_north(self, lines: list[str]) -> None:
        for line in lines:
            found = _NORTH_IS.search(sides_plain(line))
            if found:
                point, side = found[1] or found[4], found[2] or found[3]
                way = CLOCKWISE.index(side) - COMPASS.index(point)
                told = {w: CLOCKWISE[(k + way) % 4] for k, w in enumerate(COMPASS)}
                self._found = {**_HOUSE, **told}


_SEATED = (
    "house",
    "audience",
    "auditorium",
    "congregation",
    "public",
    "spectators",
    "seats",
    "seating",
)
_HOUSE = dict.fromkeys((*_SEATED, "pews", "pew", "punters", "foh"), "ds")
# Of pipes over the stage (common practice, no source); the back of one over the seats is the house's.
_BY_STAGE = {"front": "ds", "back": "us", "rear": "us"}


def _weak(name: str) -> bool:
    """Whether a name of an end is the front or the back of something that it does not name."""
    return name.casefold() in _BY_STAGE


_O_LAST = regex(r"(?<![^\W\d_])O\s*$", re.IGNORECASE)
_MAY_NAME = regex(
    r"\bend\b|\bside\b|\bto(?:wards?)?\b|\b(?:north|south|east|west)|\b[nesw]\b", re.IGNORECASE
)
_NAMED_END = regex(
    r"\b(?!(?:the|its|far|near|other|this|that|one|each|either)\b)([a-z]{3,})(?:\s+|-)end\b",
    re.IGNORECASE,
)
_END_NEAR = regex(
    r"\bend\s+(?:(?:that|which)\s+is\s+)?(?:nearest|nearer|closest|closer|next|near|by)(?:\s+to)?\s+(?:the\s+)?"
    r"([a-z]{3,})\b",
    re.IGNORECASE,
)
_END_FAR = regex(
    r"\b(?:[a-z]{3,}\s+)?end\b\W{0,3}(?:(?:that|which|the\s+one)\s+(?:is\s+)?)?(?:the\s+)?(?:farthest|furthest|far\s+away|away"
    r"|most\s+distant|opposite)\s+(?:(?:from|to)\s+)?(?:the\s+)?([a-z]{3,})\b",
    re.IGNORECASE,
)
_ACROSS = {"us": "ds", "ds": "us", "sl": "sr", "sr": "sl"}
_NAMED_SIDE = regex(
    r"\b(?:(north|south|east|west)(?:\s+(?:aisle|wall))?"
    r"|(?!(?:stage|house|prompt|left|right|either|each|this|that|other|same|near)\b)([a-z]{4,}))\s+side\b",
    re.IGNORECASE,
)
_BRACKETED_END = regex(
    r"\b([a-z]+)\s*(?:\(\s*([a-z]+(?:[ /-][a-z]+)?)\s*\)\s*end\b"
    r"|end\s*\(\s*(u/?s|d/?s|(?:up|down)\W?stage)\s*\)"
    r"|end\s*\(\s*(?:(?:at|by|near|nearest|next|to|the)\s+){0,4}([a-z]{3,})(?:\s+(?:end|side))?\s*\))",
    re.IGNORECASE,
)
_TOWARDS = regex(
    r"(?:\btowards?|[+−–-]\s*(?:=|is)?\s*to)\s+(?:the\s+)?([a-z]{4,})\b"
    r"(?!['’]?s?['’]?\s+(?:own\s+)?(?:left|right)\b)",
    re.IGNORECASE,
)
_COMPASS = regex(
    r"\b(north|south|east|west)(?=\s+(?:of|from)\b|\s*$)|(?<=[\d\s'\"m])(?<![a-z])(?<![a-z]')([nesw])(?=\s+of\s+(?:the\s+)?(?:mid|cent|c\W?l)"
    r"|\.?\s*$)",
    re.IGNORECASE,
)
_NORTH_IS = regex(
    r"\b(north|south|east|west)(?:ward)?s?\b(?:\s+(?:side|end|wall))?\s*(?:=|\(|/|,\s*that\s+is,?|\b(?:is|means)\b)\s*(?:the\s+|on\s+|at\s+|=\s*)*(sl|sr|us|ds)\b"
    r"|\b(sl|sr|us|ds)\s*(?:=|\(|/|\b(?:is|means)\b)\s*(?:the\s+|=\s*)*(north|south|east|west)\b"
)


def _over_stage(around: Around) -> bool:
    """Whether every pipe up and down the stage reaches upstage of the plaster line, and none lies for more
    than two thirds of its length over the seats."""
    pipes = [place.pipe for place in around.places.values() if place.axis == "y" and place.pipe]
    reach = [sorted((pipe.start[1], pipe.end[1])) for pipe in pipes]
    return all(far > ASIDE and 2 * far >= -near for near, far in reach)


def _landmark(word: str, around: Around) -> str:
    """The end of every pipe up and down the stage at which all lie that have a word in their names, or
    at which the stage lies; "" where they lie elsewhere."""
    named = [
        y for name, _, y in names_of(around) if word in re.findall(r"[^\W\d_]+", name.casefold())
    ]
    if word in _NO_LANDMARKS and word not in _AT_PLASTER:
        return ""  # "stage right end", beside a target called Right
    named = named or [0.0] * (word in _AT_PLASTER)
    ways = set()
    for place in around.places.values():
        pipe = place.pipe
        if pipe is None or runs_across(pipe.start, pipe.end):
            continue
        low, high = sorted((pipe.start[1], pipe.end[1]))
        near = (high - low) / 4
        if word == "stage" and high > ASIDE:
            return ""  # it hangs over the stage
        ways |= {"us" if y >= high - near else "ds" if y <= low + near else "" for y in named}
    return ways.pop() if len(ways) == 1 else ""


def _beside(word: str, around: Around) -> str:
    """The side of the stage on which all stand that have a word in their names; "" where one does not."""
    named = [(name, x) for name, (x, _) in around.spots.items()]
    named += [(name, place.x) for name, place in around.places.items() if place.sort == "boom"]
    words = {word, *(f"{word}{side}" for side in _IN_ONE)}
    across = [x for name, x in named if words & set(re.findall(r"[^\W\d_]+", name.casefold()))]
    sides = {"sl" if x > 0 else "sr" for x in across if abs(x) >= ASIDE}
    return sides.pop() if len(sides) == 1 and all(abs(x) >= ASIDE for x in across) else ""


# Words for a side itself, which names of targets and booms have too, from whoever's side.
_SIDE_WORDS = (
    "left right stage house prompt opposite centre center middle near down upstage downstage"
)
_NO_LANDMARKS = frozenset(_SIDE_WORDS.split())
_IN_ONE = ("zijde", "seite", "kant", "side", "sida")  # "Toren havenzijde"
_MIDDLES = ("mid", "half", "cent")  # one stands in all words for a middle
_AT_PLASTER = ("stage", "pros", "prosc", "proscenium", "plaster")


def of_middle(cell: Any, along: Along, *, elsewhere: bool) -> tuple[Any, bool]:
    """A cell of a pipe up and down the stage without the middle that it counts from, and whether it does.
    With `elsewhere` a line says from where all count, so that "1 m towards the altar" is no word for it."""
    if not isinstance(cell, str) or along.axis != "y":
        return cell, False
    plain = cell.casefold()
    if not any(word in plain for word in (*_MIDDLES, "toward")):
        return cell, False
    if _says_middle(cell):
        return 0, True
    if _ONWARD.search(cell) and not elsewhere:
        return cell, True  # "1 m towards the altar"
    text = _MIDDLE_FIRST.sub("", _OF_MIDDLE.sub("", cell)).strip()
    return (text, True) if text and text != cell else (cell, False)


_ONWARD = regex(r"\btowards?\s+(?:the\s+)?(?:us|ds)\b(?!\s+end)", re.IGNORECASE)


def at_middle(cell: Any, along: Along) -> bool:
    """Whether a cell says the middle of a pipe across the stage that has its zero there: "center of rail"."""
    even = along.centre and along.span is not None and abs(sum(along.span)) < EVEN
    return isinstance(cell, str) and even and _says_middle(cell)


def _says_middle(cell: str) -> bool:
    said = any(word in cell.casefold() for word in _MIDDLES)
    return said and _AT_MIDDLE.fullmatch(cell) is not None


def from_middle(metres: float, along: Along) -> float:
    """A place that counts from the middle of a pipe, as `at`."""
    if along.span is None:
        raise Wrong("a place along a straight pipe", "Write the place from the pipe's zero.")
    return metres + sum(along.span) / 2


def end_said(cell: Any, meaning: Meaning) -> tuple[Any, Meaning]:
    """A place without the end that it says it counts from, "15' from SL end", and the meaning with it."""
    if not isinstance(cell, str) or not any(word in cell.casefold() for word in ("end", "tip")):
        return cell, meaning
    text = sides_plain(cell)
    found = ENDS.search(text)
    if found is None:
        return cell, meaning
    rest: Any = text.replace(found[0], " ").strip(" \t:")
    if rest in ("", "at", "at the", "on", "extreme") and not _COUNTS_ON.match(found[0].strip()):
        rest = 0  # it hangs there
    return rest, meaning._replace(end=end_of(found), plus="")


_COUNTS_ON = regex(r"(?:from|off|fr|frm|to)\b", re.IGNORECASE)


def by_heading(metres: float, meaning: Meaning, along: Along) -> float:
    """A place without a side, as its heading says: from an end, or with a sign of its own."""
    way = meaning.end or meaning.plus
    if along.axis != ("x" if way in ("SL", "SR") else "y"):
        raise Wrong(
            f"a place on a position that has an end or side {way}, as the heading says",
            "Write its place in a column of its own, from the position's zero.",
        )
    if not meaning.end:
        return metres if way in ("SL", "US") else 0.0 - metres
    if along.span is None:
        raise Wrong(f"a pipe that has one {way} end", "Write the place from the pipe's zero.")
    if metres < 0:
        raise Wrong(f"how far it is in from the {way} end, without a minus", "Check the sign.")
    low, high = along.span
    return high - metres if way in ("SL", "US") else low + metres


BOTH_WAYS = "US or DS of the plaster line"


class Upstage(NamedTuple):
    """What lines say of places on pipes up and down the stage."""

    end: str = ""  # US or DS: they count from that end
    plus: str = ""
    middle: bool = False  # they count from the middle of the pipe
    vague: str = ""  # where they count from, in words that may be an end or not: "from DS"
    unplaced: str = ""  # or what nobody places: "from the font step"

    def beside(self, other: Upstage) -> Upstage:
        """What two lines say together: the first comes first."""
        end = "" if self.middle and not self.end else self.end or other.end
        middle = self.middle or (other.middle and not self.end)
        vague = "" if end or middle else self.vague or other.vague
        unplaced = "" if end or middle else self.unplaced or other.unplaced
        return Upstage(end, self.plus or other.plus, middle, vague, unplaced)


def onward(metres: float, meaning: Meaning, along: Along) -> float:
    """A place on a pipe up and down the stage that has a way of its own, "3 ft toward the seats", where a
    line or the heading says from which end all count: so far on from there."""
    if (meaning.end == "US") == (metres > 0):
        raise Wrong(
            f"how far it is in from the {meaning.end} end, as the list says, and not out past it",
            "Write the place from the pipe's zero, or leave US or DS out.",
        )
    return by_heading(abs(metres), meaning, along)


def of_axis(meaning: Meaning, own: bool, upstage: Upstage, along: Along) -> Meaning:
    """A meaning as it holds on a position by which way this runs: lines round the table that say an end or
    a sign say it of positions that have it; `own` is whether the heading itself says one."""
    way = meaning.end or meaning.plus
    if along.axis == "any" or (along.axis == "x" and way in ("", "SL", "SR")):
        return meaning
    if along.axis == "y" and not (own and way in ("US", "DS")):
        said = upstage != Upstage()
        if said or not own:
            return meaning._replace(end=upstage.end, plus="" if upstage.end else upstage.plus)
        return meaning
    boom = along.axis == "" and not meaning.end  # what has a sign on pipes is a height there
    return meaning._replace(end="", plus="") if boom or not own else meaning
