"""Several units moved together so that the holes of a system close: growing, settling and thinning a set.

A set of moves grows by the one try that leaves least missing, and after each the units of the set settle:
each in turn goes to the best of eight places around it, in steps of 40, 20, 20 and 10 cm. Where growing ends
with holes left, all units that could help settle, also from where they hang now, in larger steps too. Last
the set is thinned: a unit whose move the holes do not need goes back. What is missing is counted as dark
points and, for a small part, as the light they are short of, so that a set improves before a point turns.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from aimcalc.geometry.vectors import Array
from aimcalc.light.gaps import open_area
from aimcalc.light.grid import Grid
from aimcalc.light.lamps import Indices
from aimcalc.rig.light.study import Study
from aimcalc.rig.light.tries import Tries, changes, tries_at

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
