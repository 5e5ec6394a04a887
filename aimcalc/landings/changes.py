"""Records of what changed between two rigs: what was written, figures that serve no more, the work."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

import msgspec

from aimcalc.named import NamedTuple
from aimcalc.scene.model import Scene, Unit

Value = str | float | bool | Sequence[Any] | None
# Figures that the deck looks for, and those that the desk is patched by.
FOR_DECK = frozenset(("target", "lands", "lands on", "stand"))
FOR_PROGRAMMER = frozenset(("channel", "colour", "target", "kind"))
# The work that a change makes at a unit, by what changed: what `touch` of a row is made of.
WORK = {
    "kind": "hang",
    "at": "hang",
    "mounted": "hang",
    "colour": "colour",
    "circuit": "plug",
    "outlet": "plug",
    "cable": "plug",
    "tail": "plug",
    "wedge": "hang",
    "channel": "desk",
    "pan": "aim",
    "down": "aim",
    "heading": "aim",
    "square": "aim",
    "lands on": "aim",
    "lands": "aim",
    "target": "aim",
    "sight tape": "aim",
    "sight": "aim",
    "stand": "aim",
    "turn": "aim",
    "edge": "aim",
    "note": "read",
}
WORKS = ("strike", "hang", "aim", "colour", "plug", "read", "desk")
Aimed = Any  # a unit as it was solved, now or for an earlier print: what `solve --json` tells of it


class HungUnit(NamedTuple):
    """What a hang sheet prints of one unit, in words; empty where it prints nothing.

    `tied` is what of `tail` is to be done: the side of the clamp and how far from it; `pan` and `ways` are
    the degrees that its wedge is cut to, and the swing and square that it is laid for.
    """

    outlet: str = ""
    cable: str = ""
    tail: str = ""
    tied: str = ""
    wedge: str = ""
    pan: float | None = None
    ways: tuple[str, str] = ("", "")


class Hung(NamedTuple):
    """What the hang sheets print: of units by name, and of positions by name line by line."""

    units: Mapping[str, HungUnit]
    positions: Mapping[str, Mapping[str, str]]


class Side:
    """One of the two: its units as solved, by name; its scene and the work at the pipe, None where only a
    print is left of it.

    Of units that share a name the first is taken.
    """

    def __init__(
        self, answers: Iterable[Aimed], scene: Scene | None = None, hung: Hung | None = None
    ) -> None:
        self.scene, self.hung = scene, hung
        self.units: dict[str, Aimed] = {}
        for answer in answers:
            self.units.setdefault(answer.unit, answer)
        self.written: dict[str, Unit] = {}
        for unit in scene.units if scene else ():
            self.written.setdefault(f"{unit.position}/{unit.number}", unit)


class Change(msgspec.Struct, frozen=True):
    """One thing that is not as it was.

    `what` is moved, re-aimed, swapped, mounted, trim, new, gone, or the key that says otherwise; `of` is
    unit, pipe, boom, stand, position, target, kind, solid, seats, scene or stage; `other` is the unit
    swapped with.
    """

    what: str
    of: str
    name: str
    was: Value = None
    now: Value = None
    other: str | None = None


class Figure(msgspec.Struct, frozen=True):
    """One figure of a row that is printed otherwise now. `within` is None where it has no tolerance.

    `left` says that the old one serves no more; others are told where their row is printed again anyway.
    """

    figure: str
    was: Value
    now: Value
    within: float | None = None
    left: bool = True


class Row(msgspec.Struct, frozen=True):
    """A unit whose row must be printed again, and what is to be done at it.

    `touch` has the sorts of work, in the order of `WORKS`: whoever counts the units to touch between two rigs
    counts the rows that have any besides "read" and "desk".
    """

    unit: str
    position: str
    figures: tuple[Figure, ...]
    touch: tuple[str, ...]
    change: str = "changed"  # or new, gone

    @property
    def number(self) -> str:
        """The unit's number on its position."""
        return self.unit.removeprefix(f"{self.position}/")

    @property
    def who(self) -> tuple[str, ...]:
        """Who must be given it: the ladder, the deck, the programmer."""
        left = {figure.figure for figure in self.figures if figure.left}
        other = self.change != "changed"
        return tuple(
            holder
            for holder, there in (
                ("ladder", bool(set(self.touch) - {"desk"})),
                ("deck", other or bool(left & FOR_DECK)),
                ("programmer", other or bool(left & FOR_PROGRAMMER)),
            )
            if there
        )


class Load(msgspec.Struct, frozen=True):
    """One line about a position that its hang sheet prints otherwise now.

    `what`: "weight", "wedges", "line at 3.50 m SR"; `was` and `now` are as printed, None where there is no
    such line.
    """

    position: str
    what: str
    was: str | None
    now: str | None


class Changes(msgspec.Struct, frozen=True):
    """All that changed from one rig to another. Empty where nothing did."""

    changes: tuple[Change, ...]
    rows: tuple[Row, ...]
    units: int  # that are in both
    loads: tuple[Load, ...] = ()
