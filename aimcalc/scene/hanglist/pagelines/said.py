"""What the lines round a hang list's table say of its places, and what several of them say together."""

from __future__ import annotations

import re
from typing import Any

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.columns.columnkeys import Meaning
from aimcalc.scene.hanglist.pagelines.sidenames import own_words
from aimcalc.scene.hanglist.places.ends import sides_plain
from aimcalc.scene.hanglist.places.origins import Upstage
from aimcalc.scene.hanglist.places.things import Thing
from aimcalc.scene.hanglist.tongues.tongues import in_english


class Said(NamedTuple):
    """What is said, "" where nothing is; `rows` are those that say it, from 1."""

    unit: str = ""
    end: str = ""  # SL or SR
    plus: str = ""  # SL or SR
    upstage: Upstage = Upstage()  # of pipes up and down the stage
    bare: str = ""  # stage or house
    named: bool = False  # the line that says `bare` is on names of positions alone
    aims: str = ""  # as `bare`, of names of targets where a line says another of these
    vague: str = ""  # an end of the pipe without its side, in the words that name it
    step: str = ""  # from unit to unit: "18 in"
    from_sr: bool = False  # numbers count from SR
    even: bool = False  # units are spread evenly over their pipes
    sides: tuple[tuple[str, str], ...] = ()  # words of the list's own for a side: ("ps", "SL")
    plaster: bool = False  # places up and down the stage count from the plaster line
    out: bool = False  # "out" is from the plaster line into the house
    things: tuple[Thing, ...] = ()  # what a line places, for others to count from
    marks: float = 0.0  # metres from mark to mark, counted from the middle to each side
    middle: bool = False  # a unit without a place hangs in the middle
    top: bool = False  # heights on booms count down from their tops
    grid: bool = False  # or from the grid
    grids: tuple[float, ...] = ()  # how high lines say that the grid is, in metres
    heights: bool = False  # places on booms are heights
    boom_unit: str = ""  # of places on booms, where a line says one for these alone
    doubt: bool = False  # a line speaks of left and right, and not of whose
    mixed: bool = (
        False  # some are seen from the stage and some from the house, and nobody knows which
    )
    centred: bool = False  # places across the stage count from the centre line
    away: bool = False  # a line says that, whatever else it says
    plus_bare: str = ""  # left or right: the side of plus, of nobody knows whom
    # "+", or a heading, which stands for a distance from the unit before
    steps: tuple[str, ...] = ()
    disputed: bool = False  # two lines say whose left and right is meant, and do not agree
    dotted: bool = False  # 12.6 is 12 ft 6 in
    open_unit: bool = False  # a line may say the unit of something else than places
    rows: tuple[int, ...] = ()

    def with_sides(self, cell: Any) -> Any:
        """A heading with the list's own words for a side as that side: "PS (m)"."""
        if not isinstance(cell, str) or not self.sides:
            return cell
        return own_words(cell, [(w, side) for w, side in self.sides if w in ("ps", "op")])

    def over(self, other: Said) -> Said:
        """What two lines say together: the first comes first."""
        both: dict[str, Any] = {
            key: one or two for key, one, two in zip(self._fields, self, other, strict=True)
        }
        both["things"] = tuple(dict.fromkeys((*self.things, *other.things)))
        both["grids"] = tuple(dict.fromkeys((*self.grids, *other.grids)))
        both |= {"upstage": self.upstage.beside(other.upstage), "rows": self.rows}
        if self.centred:  # and not from the end that the other says
            both |= {"end": self.end, "vague": self.vague}
        return self._replace(**both)

    def beside(self, meaning: Meaning, heading: str) -> Meaning:
        """A heading's meaning with what the lines add to it: the heading comes first."""
        centred = counts_from_centre(heading)
        signed = meaning.plus or meaning.end
        return meaning._replace(
            unit=meaning.unit or self.unit,
            end="" if centred and not meaning.end else (meaning.end if signed else self.end),
            plus=meaning.plus if signed else self.plus,
            bare=meaning.bare or self.bare,
        )


def counts_from_centre(heading: str) -> bool:
    """Whether a heading says that places count from the centre line."""
    return bool(_CENTRE.search(sides_plain(in_english(heading))))


def of_places_first(said: Said, told: Said) -> tuple[Said, Said]:
    """What is said, and what one more line says, without whose left and right are in names of positions,
    where the other says whose they are elsewhere."""
    if told.bare and said.bare and told.named != said.named:
        if told.named:
            return said, told._replace(bare="", named=False)
        return said._replace(bare="", named=False), told
    return said, told


def _differ(one: str, other: str) -> bool:
    return bool(one and other) and one != other


def disagree(said: Said, told: Said) -> bool:
    """Whether two lines say different things of whose left and right is meant, or of a word for a side."""
    sides = dict(said.sides)
    own = [(word, side) for word, side in told.sides if word not in _NO_LEFT_OR_RIGHT]
    words = any(sides.get(word, side) != side for word, side in own)
    return words or _differ(said.bare, told.bare)


def of_nobody(said: Said) -> Said:
    """What is said, with left and right, and their letters, as nobody's: "left = stage left" at the top, and
    "all as the audience sees it" at the foot."""
    sides = tuple((word, side) for word, side in said.sides if word in _NO_LEFT_OR_RIGHT)
    return said._replace(bare="", doubt=True, sides=sides)


def plus_of_bare(said: Said) -> Said:
    """What is said, with plus to a bare left or right as the side that it is, where a line says whose; else
    as vague."""
    if not said.plus_bare or said.plus:
        return said
    if not said.bare:
        return said if said.vague else said._replace(vague=f"+ = {said.plus_bare}")
    own = (said.plus_bare == "left") == (said.bare == "stage")
    vague = "" if said.vague == f"+ = {said.plus_bare}" else said.vague
    return said._replace(plus="SL" if own else "SR", vague=vague)


def end_of_bare(said: Said) -> Said:
    """What is said, with the left or right end of a line as the side that it is, where one says whose."""
    found = re.search(r"\b(left|right)(?:[\s-]*hand)?\s+end\b", said.vague)
    if not found or not said.bare or said.end or said.centred:
        return said
    own = (found[1] == "left") == (said.bare == "stage")
    return said._replace(end="SL" if own else "SR", vague="")


_NO_LEFT_OR_RIGHT = frozenset(
    (
        "ps",
        "op",
        "ks",
        "ds",
        "c",
        "j",
        "cour",
        "court",
        "jardin",
        "garden",
        "north",
        "south",
        "east",
        "west",
    )
)
_CENTRE = regex(r"\bcl\b|c/l|c\.l|\bcent(?:re|er)|\bctr\b|℄|\bmid")
