"""The smallest set of re-aims that closes the holes of a system.

The candidates are the best aims of a few units found for each hole, and those that units came to when they
were moved together (`moves`). `aimcalc.light.reaims` searches them for the
smallest set and says how far that is proved. Points that no candidates bring over the threshold, even if each
unit did its best for every one of them at once, are left out of the search. Out of reach for good are those
that would be dark with all units of the system pointed straight at them: told, and not counted as holes left.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np

from aimcalc.coverage.new_aims import AROUND, changes, joined_aims, new_aims_at
from aimcalc.coverage.sources import NewAims
from aimcalc.coverage.study import Study
from aimcalc.coverage.systems import SystemLight
from aimcalc.geometry.vectors import Array
from aimcalc.light.beam_table import Beams
from aimcalc.light.evenness import open_area
from aimcalc.light.illuminance import illuminance
from aimcalc.light.lamps import SMOOTH, Flags, Indices, Lamps
from aimcalc.light.reaims import Problem, Reaims, fewest_reaims
from aimcalc.named import NamedTuple
from aimcalc.solid.own_pipe import striking

STEPS = (0.4, 0.2, 0.2, 0.1)  # m
WIDE_STEPS = (0.8, 0.4, *STEPS)
SHORT_SHARE = 0.3  # what a point without any light counts for beside being dark
LEAST = 1.0  # points: a smaller gain is not worth a move
WORTH = 0.01  # points: a smaller gain is not worth another place
SLIGHT = 1e-6  # points: what counts at the last


class Moves(NamedTuple):
    """S units at new faces over plan points `place` (2, S), m: what each adds to the light, lux, (S, M)."""

    unit: Indices
    place: Array
    change: Array

    def take(self, which: Indices) -> Moves:
        """Some of them, by their indices (K,)."""
        return Moves(self.unit[which], self.place[:, which], self.change[which])

    def joined(self, more: Moves) -> Moves:
        """These and more."""
        return Moves(
            np.concatenate((self.unit, more.unit)),
            np.concatenate((self.place, more.place), axis=1),
            np.concatenate((self.change, more.change)),
        )


class Wanted:
    """The light of a system, lux at the study's M points, and what every point should have.

    `level` (M,) is infinite where nothing can be done. What units send out is read from tables of their
    beams (`aimcalc.light.beam_table`) past what they see from their present lenses.
    """

    def __init__(self, study: Study, level: Array, below: float) -> None:
        self.study, self.level, self.below = study, level, below
        self.beams = Beams(study.plane.points)
        self._now: dict[int, Array] = {}

    def missing(self, level: Array) -> Array:
        """How many points are dark under `level` (..., M), a little more for how dark they are."""
        short = np.maximum(self.below - level, 0.0).sum(axis=-1) / self.below
        return np.asarray((level < self.below).sum(axis=-1) + SHORT_SHARE * short)

    def area(self, level: Array) -> float:
        """m2 of holes left under `level` (M,)."""
        return open_area(self.study.plane.grid, level < self.below)

    def after(self, moves: Moves) -> Array:
        """The light after all of some moves, (M,)."""
        return np.asarray(self.level + moves.change.sum(axis=0))

    def now(self, unit: int) -> Array:
        """A unit's own light as it hangs, (M,)."""
        if unit not in self._now:
            lamps = self.study.sources.lamps.take(np.array([unit]))
            self._now[unit] = self._lit(unit, lamps)[0]
        return self._now[unit]

    def then(self, unit: int, lamps: Lamps, which: Indices) -> Array:
        """Light of one unit at K new aims at some of the points, (K, Q)."""
        lux = self.beams.level(lamps, which)
        flags = self.study.seen.flags
        return lux if flags is None else lux * flags[unit, which]

    def moves(self, new: NewAims) -> Moves:
        """New aims with what each adds to the light."""
        change = np.empty((new.unit.size, self.level.size))
        for unit in np.unique(new.unit).tolist():
            rows = np.flatnonzero(new.unit == unit)
            change[rows] = self._lit(unit, new.lamps.take(rows)) - self.now(unit)
        return Moves(new.unit, new.face[:2], change)

    def _lit(self, unit: int, lamps: Lamps) -> Array:
        return self.then(unit, lamps, np.arange(self.level.size))


def grown(wanted: Wanted, tries: Moves) -> Moves:
    """A set of moves that starts from `tries`, at most one a unit, until no hole is left or none helps."""
    chosen = tries.take(np.zeros(0, np.intp))
    level = wanted.level
    while wanted.area(level) > 0:
        free = np.flatnonzero(~np.isin(tries.unit, chosen.unit))
        missing = np.array([wanted.missing(level + tries.change[k]) for k in free.tolist()])
        if not free.size or missing.min() > wanted.missing(level) - LEAST:
            break
        chosen = chosen.joined(tries.take(free[[int(np.argmin(missing))]]))
        chosen = settled(wanted, chosen, STEPS)
        level = wanted.after(chosen)
    return chosen


def settled(wanted: Wanted, moves: Moves, steps: tuple[float, ...], worth: float = WORTH) -> Moves:
    """The same units, each moved about by `steps` in turn where less is missing then."""
    for step in steps:
        x, y = (moves.place[k][:, None] + step * AROUND[k] for k in range(2))
        unit = np.repeat(moves.unit, AROUND.shape[1])
        near = new_aims_at(wanted.study, unit, x.ravel(), y.ravel(), bodies=False)
        moves = _better_places(wanted, moves, near, worth)
    return moves


def _better_places(wanted: Wanted, moves: Moves, near: NewAims, worth: float) -> Moves:
    """Each unit in turn at the best of its places in `near`, where that is better than its own.

    Only points that would be dark without the unit can be dark with it: the others are not asked about. A
    body is tried against what it hangs on only where the place is taken.
    """
    place, change, level = moves.place.copy(), moves.change.copy(), wanted.after(moves)
    least = float(wanted.missing(level))
    for k, unit in enumerate(moves.unit.tolist()):
        rows = np.flatnonzero(near.unit == unit)
        if not rows.size:
            continue
        now, without = wanted.now(unit), level - change[k]
        gone = without - now
        which = np.flatnonzero(gone < wanted.below)
        lamps = near.lamps.take(rows)
        missing = wanted.missing(gone[which] + wanted.then(unit, lamps, which))
        for best in np.argsort(missing, kind="stable").tolist():
            if missing[best] >= least - worth:
                break
            there = near.take(rows[[best]])
            if not striking(wanted.study.rig, there.unit, there.aims)[0]:
                place[:, k], change[k] = there.face[:2, 0], wanted.moves(there).change[0]
                level, least = without + change[k], float(missing[best])
                break
    return Moves(moves.unit, place, change)


def widened(wanted: Wanted, moves: Moves, units: Indices) -> Moves:
    """All of `units` (U,), rows of the rig, settled together, those without a move from where they hang now.

    Those whose light changes nowhere are left out.
    """
    rest = np.setdiff1d(units, moves.unit)
    still = np.zeros((rest.size, wanted.level.size))
    every = moves.joined(Moves(rest, wanted.study.rig.arrays.point[:2, rest], still))
    every = settled(wanted, every, WIDE_STEPS)
    if wanted.area(wanted.after(every)) > 0:
        every = settled(wanted, every, WIDE_STEPS, SLIGHT)
    return every.take(np.flatnonzero(every.change.any(axis=1)))


def thinned(wanted: Wanted, moves: Moves) -> Moves:
    """The moves without those that the holes do not need, the least useful gone first."""
    level = wanted.after(moves)
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
        level = wanted.after(moves)
        area = wanted.area(level)
    return moves


DOWN, ACROSS = np.array([[0.0], [0.0], [-1.0]]), np.array([[1.0], [0.0], [0.0]])
ALL_ROUND = 1e9  # radians: the width of a profile that does not fall off
LOOKS = 1500  # distributions of light looked at, for each system
Progress = Callable[[str, float], None]  # the system's name, the share done


class Fewest(NamedTuple):
    """A system's re-aims: `new` aims, best taken together.

    `closed`: no hole is left that can be closed. `at_least`: fewer of the aims tried are proved not to do;
    `proved`: these are the fewest (or, where not `closed`, no set of them closes all). `left` is the m2
    of holes after all of them, `out_of_reach` the m2 that stay dark whatever is done.
    """

    new: NewAims
    closed: bool
    proved: bool
    at_least: int
    left: float
    out_of_reach: float


def fewest_for(
    study: Study, system: SystemLight, tries: Sequence[NewAims], progress: Progress | None = None
) -> Fewest:
    """The fewest re-aims for a system, from the tries made for each of its holes (one lot at least)."""
    wanted = Wanted(study, system.taken, system.below)
    first = wanted.moves(joined_aims(tries))
    wanted.level = np.where(_hopeless(system, first), np.inf, system.taken)
    together = _together(wanted, first)
    every = first.joined(together)
    found = fewest_reaims(
        Problem(study.plane.grid, wanted.level, every.change, every.unit, system.below),
        looks=LOOKS,
        progress=None
        if progress is None
        else lambda done, most: progress(system.name, done / most),
    )
    one = every.take(np.array(found.chosen, dtype=np.intp))
    return _better(study, system, (one, together), found)


def _together(wanted: Wanted, tries: Moves) -> Moves:
    """A set of moves found by moving units together."""
    moves = grown(wanted, tries)
    if wanted.area(wanted.after(moves)) > 0:
        moves = widened(wanted, moves, np.unique(tries.unit))
    return thinned(wanted, moves)


def _better(study: Study, system: SystemLight, sets: tuple[Moves, Moves], found: Reaims) -> Fewest:
    """Whichever set leaves less of the holes by rays from the new lenses; of two alike the smaller."""
    told = [_told(study, system, moves, found) for moves in sets]
    return min(told, key=lambda each: (each.left, each.new.unit.size))


def _told(study: Study, system: SystemLight, chosen: Moves, found: Reaims) -> Fewest:
    """What of the set has room on the stage, with its light worked out by rays from the new lenses."""
    new = study.room.together(new_aims_at(study, chosen.unit, *chosen.place))
    after = system.taken + changes(study, new, exact=True).sum(axis=0)
    dark, lost, grid = after < system.below, _out_of_reach(study, system), study.plane.grid
    closed = open_area(grid, dark & ~lost) == 0
    return Fewest(
        new=new,
        closed=closed,
        proved=new.unit.size <= found.at_least
        if closed
        else found.proved and new.unit.size == chosen.unit.size,
        at_least=min(found.at_least, new.unit.size) if closed else found.at_least,
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
