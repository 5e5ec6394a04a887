"""Whose a bare L and R of a list are, by what its units are aimed at."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from aimcalc.named import NamedTuple
from aimcalc.scene.hanglist.columns.columnkeys import SIDE, Headings
from aimcalc.scene.hanglist.meanings import Meanings
from aimcalc.scene.hanglist.names.meant import Names
from aimcalc.scene.hanglist.names.morethannames import with_more
from aimcalc.scene.hanglist.names.placedpositions import placed_position
from aimcalc.scene.hanglist.places.placeforms import BARE_SIDE, OFF_CENTRE, SIDED
from aimcalc.scene.hanglist.rows.listrow import Around, float_of, text_of
from aimcalc.scene.hanglist.taken import Noticed
from aimcalc.scene.hanglist.tongues.tongues import in_english
from aimcalc.scene.mistakes import CLASH, Wrong
from aimcalc.scene.model import Taken

ENOUGH_ACROSS = (
    2  # units aimed across the stage, more than to their side, that make a sign doubtful
)
ASIDE = 1.0  # metres to SR of the centre line at which a target speaks for a unit on SR


class OwnSides(NamedTuple):
    """How many units of a list are aimed to their own side and how many across, a bare L and R of their
    places read as the stage's; `bare` is how many places have such a side."""

    own: int = 0
    across: int = 0
    bare: int = 0

    @property
    def speak(self) -> bool:
        """Whether more are aimed to their own side, by two and twice as many."""
        return self.own >= max(self.across + ENOUGH_ACROSS, 2 * self.across)

    def of(self, whose: str) -> OwnSides:
        """The same with L and R as those of the stage or the house."""
        return self if whose == "stage" else self._replace(own=self.across, across=self.own)


NO_SIDES = OwnSides()


def own_sides(
    headings: Headings, rows: list[list[Any]], meanings: Meanings, whose: str = ""
) -> OwnSides:
    """What the units of a table are aimed at tells of a bare L and R in their places, those of other
    languages too where it is known `whose` they may be."""
    by_key, around = headings.by_key, meanings.around
    column = by_key.get(SIDE) or by_key.get("at") or by_key.get("position")
    target = by_key.get("target")
    if column is None or target is None or column.meaning.bare not in ("", whose):
        return NO_SIDES
    own = across = many = 0
    for row in rows:
        said = text_of(row[column.place]) if column.place < len(row) else ""
        said = _beside_name(said, meanings) if column.key == "position" else said
        said = OFF_CENTRE.sub(" ", in_english(said) if whose else said)
        aim = text_of(row[target.place]) if target.place < len(row) else ""
        x = around.aims.get(_aimed_at(aim, meanings.targets), 0.0)
        side = None if SIDED.search(said) else BARE_SIDE.search(said)
        many += side is not None
        left = bool(side[1]) if side else _left_by_sign(said, column.meaning.plus, whose)
        if left is not None and abs(x) >= ASIDE:
            same = (x > 0) == left
            own, across = own + same, across + (not same)
    return OwnSides(own, across, many)


def _aimed_at(cell: str, targets: Names) -> str:
    """The target that a cell names, alone or with more beside it, "Area 1 warm"; "" where it names none."""
    meant = targets.find(cell)
    return meant.name or ("" if meant.several else with_more(cell, targets)[0]) or ""


def _beside_name(text: str, meanings: Meanings) -> str:
    """The place that a cell says beside the name of its position, "Grid 1 @ 7'L"; "" where it says none."""
    across = meanings.placing.runs_across
    placed = placed_position(text, meanings.positions, meanings.fits, across)
    return placed.place if placed else ""


def _left_by_sign(said: str, plus: str, whose: str) -> bool | None:
    """Whether a figure whose sign is a side is to the left of those `whose` it is taken for."""
    metres = float_of(said) if whose and plus in ("SL", "SR") else None
    return ((metres > 0) == (plus == "SL")) == (whose == "stage") if metres else None


def own_side_columns(
    rows: Sequence[list[Any]], left: int, right: int, column: int, meanings: Meanings
) -> OwnSides:
    """What the targets in a column tell of a left and a right that are a column each."""
    own = across = many = 0
    for row in rows:
        filled = [k < len(row) and text_of(row[k]).strip() != "" for k in (left, right)]
        aim = text_of(row[column]) if column < len(row) else ""
        x = meanings.around.aims.get(meanings.targets.find(aim).name or "", 0.0)
        many += any(filled)
        if sum(filled) == 1 and abs(x) >= ASIDE:
            same = (x > 0) == filled[0]
            own, across = own + same, across + (not same)
    return OwnSides(own, across, many)


def of_all_tables(each: Sequence[OwnSides]) -> bool:
    """Whether several tables of a list together say that L and R are the stage's, where one alone does not,
    and none says the other."""
    all_of_them = OwnSides(*(sum(counts) for counts in zip(*each, strict=True)))
    against = any(one._replace(own=one.across, across=one.own).speak for one in each)
    silent = any(one.bare and not one.speak for one in each)
    return len(each) > 1 and silent and all_of_them.speak and not against


def not_against(each: Sequence[OwnSides], around: Around) -> None:
    """Raise Wrong where what the units are aimed at speaks against whose left and right these are taken
    for, or leaves it open and nothing else bears it out."""
    one, other = ("stage", "house") if around.whose == "stage" else ("house", "stage")
    against = any(sides.of(other).speak for sides in each)
    every = OwnSides(*(sum(counts) for counts in zip(NO_SIDES, *each, strict=True))).of(one)
    enough = every.speak if around.aims_alone else every.own >= max(every.across, ENOUGH_ACROSS)
    if against or not (around.borne_out or enough):
        raise Wrong("left and right as the units are aimed", rank=CLASH)


def tell_own_sides(noticed: Noticed) -> None:
    """Warn that a bare L and R are read as the stage's by what the units are aimed at."""
    says = "a bare L or R is read as stage left or right: so the units are aimed to their own side."
    do = "Ask whoever wrote it; if they are seen from the house, head the column: house left/right."
    taken = Taken("list-at", f"{noticed.name}: {says}", do, severity="warn")
    if taken not in noticed.last:
        noticed.last.append(taken)
