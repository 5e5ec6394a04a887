"""The smallest set of re-aims that closes the holes of a system.

The candidates are the best aims found for each hole, one for each unit that could help with it, and those
that units came to when they were moved together (`moves`). `aimcalc.light.reaims` searches them for the
smallest set and says how far that is proved. Points that no candidates bring over the threshold, even if each
unit did its best for every one of them at once, are left out of the search. Out of reach for good are those
that would be dark with all units of the system pointed straight at them: told, and not counted as holes left.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

import numpy as np

from aimcalc.coverage.sources import Tries
from aimcalc.coverage.study import Study
from aimcalc.coverage.systems import SystemLight
from aimcalc.coverage.tries import changes, joined_tries, tries_at
from aimcalc.geometry.vectors import Array
from aimcalc.light.evenness import open_area
from aimcalc.light.grid import Grid
from aimcalc.light.illuminance import illuminance
from aimcalc.light.lamps import SMOOTH, Flags, Indices
from aimcalc.light.reaims import Problem, Reaims, fewest_reaims

AROUND = np.array([(1, 0), (1, 1), (0, 1), (-1, 1), (-1, 0), (-1, -1), (0, -1), (1, -1)]).T
STEPS = (0.4, 0.2, 0.2, 0.1)  # m
WIDE_STEPS = (0.8, 0.4, *STEPS)
SHORT_SHARE = 0.3  # what a point without any light counts for beside being dark
LEAST = 1.0  # points: a smaller gain is not worth a move


class Wanted(NamedTuple):
    """The light of a system, (M,), and the lux that every point should have; infinite where none can."""

    grid: Grid
    level: Array
    below: float

    def missing(self, level: Array) -> Array:
        """How many points are dark under `level` (..., M), a little more for how dark they are."""
        short = np.maximum(self.below - level, 0.0).sum(axis=-1) / self.below
        return np.asarray((level < self.below).sum(axis=-1) + SHORT_SHARE * short)

    def area(self, level: Array) -> float:
        """m2 of holes left under `level` (M,)."""
        return open_area(self.grid, level < self.below)


class Moves(NamedTuple):
    """S units at new faces over plan points `place` (2, S): what each adds to the light, (S, M)."""

    unit: Indices
    place: Array
    change: Array

    def level(self, wanted: Wanted) -> Array:
        """The light after all of them."""
        return np.asarray(wanted.level + self.change.sum(axis=0))

    def take(self, which: Indices) -> Moves:
        """Some of them."""
        return Moves(self.unit[which], self.place[:, which], self.change[which])

    def joined(self, more: Moves) -> Moves:
        """These and more."""
        return Moves(
            np.concatenate((self.unit, more.unit)),
            np.concatenate((self.place, more.place), axis=1),
            np.concatenate((self.change, more.change)),
        )


def grown(study: Study, wanted: Wanted, tries: Moves) -> Moves:
    """A set of moves that starts from `tries`, at most one a unit, until no hole is left or none helps."""
    chosen = tries.take(np.zeros(0, np.intp))
    level = wanted.level
    while wanted.area(level) > 0:
        free = np.flatnonzero(~np.isin(tries.unit, chosen.unit))
        missing = wanted.missing(level + tries.change[free])
        if not free.size or missing.min() > wanted.missing(level) - LEAST:
            break
        chosen = chosen.joined(tries.take(free[[int(np.argmin(missing))]]))
        chosen = settled(study, wanted, chosen, STEPS)
        level = chosen.level(wanted)
    return chosen


def settled(study: Study, wanted: Wanted, moves: Moves, steps: tuple[float, ...]) -> Moves:
    """The same units, each moved about by `steps` in turn where less is missing then."""
    for step in steps:
        x, y = (moves.place[k][:, None] + step * AROUND[k] for k in range(2))
        near = tries_at(study, np.repeat(moves.unit, AROUND.shape[1]), x.ravel(), y.ravel())
        moves = _better_places(wanted, moves, moves_of(study, near))
    return moves


def _better_places(wanted: Wanted, moves: Moves, near: Moves) -> Moves:
    place, change, level = moves.place.copy(), moves.change.copy(), moves.level(wanted)
    least = float(wanted.missing(level))
    for k, unit in enumerate(moves.unit.tolist()):
        rows = np.flatnonzero(near.unit == unit)
        without = level - change[k]
        missing = wanted.missing(without + near.change[rows])
        if rows.size and missing.min() < least:
            best = rows[int(np.argmin(missing))]
            place[:, k], change[k] = near.place[:, best], near.change[best]
            level, least = without + change[k], float(missing.min())
    return Moves(moves.unit, place, change)


def widened(study: Study, wanted: Wanted, moves: Moves, units: Indices) -> Moves:
    """All of `units` settled together, those without a move from where they hang now."""
    rest = np.setdiff1d(units, moves.unit)
    still = Moves(rest, study.rig.arrays.point[:2, rest], np.zeros((rest.size, wanted.level.size)))
    every = settled(study, wanted, moves.joined(still), WIDE_STEPS)
    return every.take(np.flatnonzero(every.change.any(axis=1)))


def thinned(wanted: Wanted, moves: Moves) -> Moves:
    """The moves without those that the holes do not need, the least useful gone first."""
    level = moves.level(wanted)
    area = wanted.area(level)
    while moves.unit.size:
        missing = wanted.missing(level - moves.change)
        idle = next(
            (
                k
                for k in np.argsort(missing).tolist()
                if wanted.area(level - moves.change[k]) <= area
            ),
            None,
        )
        if idle is None:
            break
        moves = moves.take(np.delete(np.arange(moves.unit.size), idle))
        level = moves.level(wanted)
        area = wanted.area(level)
    return moves


def moves_of(study: Study, tries: Tries) -> Moves:
    """Tries with what each adds to the light."""
    return Moves(tries.unit, tries.face[:2], changes(study, tries))


DOWN, ACROSS = np.array([[0.0], [0.0], [-1.0]]), np.array([[1.0], [0.0], [0.0]])
ALL_ROUND = 1e9  # radians: the width of a profile that does not fall off
LOOKS = 1500  # distributions of light looked at, for each system
Progress = Callable[[str, float], None]  # the system's name, the share done


class Fewest(NamedTuple):
    """A system's re-aims: `tries` of them, best taken together.

    `closed`: no hole is left that can be closed. `at_least`: fewer of the aims tried are proved not to do;
    `proved`: these are the fewest (or, where not `closed`, no set of them closes all). `left` is the m2
    of holes after all of them, `out_of_reach` the m2 that stay dark whatever is done.
    """

    tries: Tries
    closed: bool
    proved: bool
    at_least: int
    left: float
    out_of_reach: float


def fewest_for(
    study: Study, system: SystemLight, tries: Sequence[Tries], progress: Progress | None = None
) -> Fewest:
    """The fewest re-aims for a system, from the tries made for each of its holes (one lot at least)."""
    first = moves_of(study, joined_tries(tries))
    level = np.where(_hopeless(system, first), np.inf, system.taken)
    wanted = Wanted(study.plane.grid, level, system.below)
    together = _together(study, wanted, first)
    every = first.joined(together)
    found = fewest_reaims(
        Problem(study.plane.grid, level, every.change, every.unit, system.below),
        looks=LOOKS,
        progress=None
        if progress is None
        else lambda done, most: progress(system.name, done / most),
    )
    chosen = _better(wanted, every.take(np.array(found.chosen, dtype=np.intp)), together)
    return _told(study, system, chosen, found)


def _together(study: Study, wanted: Wanted, tries: Moves) -> Moves:
    """A set of moves found by moving units together."""
    moves = grown(study, wanted, tries)
    if wanted.area(moves.level(wanted)) > 0:
        moves = widened(study, wanted, moves, np.unique(tries.unit))
    return thinned(wanted, moves)


def _better(wanted: Wanted, one: Moves, other: Moves) -> Moves:
    """Whichever set leaves less of the holes, and of two that leave the same the smaller."""

    def left(moves: Moves) -> tuple[float, int]:
        return wanted.area(moves.level(wanted)), moves.unit.size

    return one if left(one) <= left(other) else other


def _told(study: Study, system: SystemLight, chosen: Moves, found: Reaims) -> Fewest:
    """What of the set has room on the stage, with its light worked out by rays from the new lenses."""
    tries = study.room.together(tries_at(study, chosen.unit, *chosen.place))
    after = system.taken + changes(study, tries, exact=True).sum(axis=0)
    dark, lost, grid = after < system.below, _out_of_reach(study, system), study.plane.grid
    closed = open_area(grid, dark & ~lost) == 0
    return Fewest(
        tries=tries,
        closed=closed,
        proved=tries.unit.size <= found.at_least
        if closed
        else found.proved and tries.unit.size == chosen.unit.size,
        at_least=min(found.at_least, tries.unit.size) if closed else found.at_least,
        left=open_area(grid, dark),
        out_of_reach=open_area(grid, lost),
    )


def _hopeless(system: SystemLight, tries: Moves) -> Flags:
    """Points that stay dark even if each unit could make its best try for every one of them at once."""
    most = system.taken
    for own in np.unique(tries.unit):
        most += np.maximum(tries.change[tries.unit == own].max(axis=0), 0.0)
    return np.asarray(most < system.below)


def _out_of_reach(study: Study, system: SystemLight) -> Flags:
    """Points that would be dark even with every unit of the system pointed straight at them."""
    seen = study.seen.of(system.units)
    lamps = seen.mark(study.sources.lamps.take(system.units))
    ones = np.ones(lamps.size)
    everywhere = lamps._replace(
        axis=np.repeat(DOWN, lamps.size, axis=1),
        across=np.repeat(ACROSS, lamps.size, axis=1),
        power=2 * ones,
        wide=ALL_ROUND * ones,
        narrow=ALL_ROUND * ones,
        table=np.full(lamps.size, SMOOTH),
    )
    most = illuminance(everywhere, study.plane.points, visible=seen.visible)[0]
    return np.asarray(most < system.below)
