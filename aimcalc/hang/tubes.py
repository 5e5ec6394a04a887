"""The tube that each unit's tail and cable are tied to: where it runs and how far.

A pipe or a boom for most; the arm itself for a unit under a side arm; nothing for a unit on a stand, whose
connector lies where it stands.
"""

from __future__ import annotations

import numpy as np

from aimcalc.geometry.vectors import Array, points
from aimcalc.named import NamedTuple
from aimcalc.rig.places import WORDS, across, gripped, level, nearest_word, pipe_ends, place
from aimcalc.rig.rig import Rig
from aimcalc.scene.model import Boom, Pipe, Position, Unit


class Span(NamedTuple):
    """The ends of a position, measured as `at`, and what its ends are called."""

    start: float
    end: float
    start_word: str
    end_word: str


class Tubes(NamedTuple):
    """For N units: the tie's zero (the clamp), the unit direction ties count in, and how far it runs.

    `low` and `high` are the tube's ends from the clamp. `words` name the ways along, + first.
    """

    base: Array
    along: Array
    low: Array
    high: Array
    words: list[tuple[str, str]]


def span(position: Position) -> Span | None:
    """Ends of a pipe in the order they were written, of a boom from its foot up; None for a stand."""
    if isinstance(position, Boom):
        return Span(position.foot or 0.0, position.height, "FOOT", "TOP")
    if not isinstance(position, Pipe):
        return None
    minus, plus = pipe_ends(position)
    words = ("SR", "SL") if across(position) else ("DS", "US")
    axis = 0 if across(position) else 1
    if position.end[axis] < position.start[axis]:
        return Span(plus, minus, f"{words[1]} END", f"{words[0]} END")
    return Span(minus, plus, f"{words[0]} END", f"{words[1]} END")


def ways(position: Position) -> tuple[str, str]:
    """Words for the two ways along a position, the + way first."""
    if not isinstance(position, Pipe):
        return "UP", "DOWN"
    return ("SL", "SR") if across(position) else ("US", "DS")


def tubes(rig: Rig) -> Tubes:
    """Tubes of every unit of a rig, in hang order."""
    positions = rig.scene.positions.items()
    held = {name: (place(p), span(p), ways(p)) for name, p in positions}
    owns = [held[unit.position][0] for unit in rig.units]
    each = zip(rig.positions, rig.units, owns, strict=True)
    along = points([gripped(position, unit, own).along for position, unit, own in each])
    reach = [_reach(unit, held[unit.position][1]) for unit in rig.units]
    words = [held[unit.position][2] for unit in rig.units]
    for k, unit in enumerate(rig.units):
        if unit.mount == "arm":
            inwards = tuple(-c for c in level(unit.arm_to or 0.0))
            along[:, k] = inwards
            reach[k] = (0.0, unit.arm)
            word = nearest_word((inwards[0], inwards[1], 0.0))
            words[k] = (WORDS[word], WORDS[word ^ 1])
    ends = np.array(reach, dtype=float).reshape(-1, 2)
    return Tubes(rig.arrays.clamp, along, ends[:, 0], ends[:, 1], words)


def _reach(unit: Unit, ends: Span | None) -> tuple[float, float]:
    """How far the tube runs from a unit's clamp, each way; a clamp beyond an end has no tube that way."""
    if ends is None:
        return 0.0, 0.0
    at = unit.at or 0.0
    low, high = min(ends.start, ends.end), max(ends.start, ends.end)
    return min(0.0, low - at), max(0.0, high - at)
