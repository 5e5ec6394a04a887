"""Units of a system moved together, so that its holes close: moves grown, settled, widened and thinned.

A set grows by the try that leaves least missing, one unit at a time; all of its units are then moved about in
steps, each in turn, as long as less is missing. What is missing is how many points are dark, and a little for
how dark they are. Light is read from tables of the beams past what the present lenses see.
"""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from aimcalc.coverage.new_aims import AROUND, settable
from aimcalc.coverage.sources import NewAims
from aimcalc.coverage.study import Study
from aimcalc.geometry.vectors import Array
from aimcalc.light.beam_table import Beams, BeamTable, Rays
from aimcalc.light.evenness import open_area
from aimcalc.light.illuminance import contributions
from aimcalc.light.lamps import Indices, Lamps
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


class Near(NamedTuple):
    """Aims of a unit around a place: some rows, together, of many."""

    new: NewAims
    rays: Rays
    rows: Indices


class Wanted:
    """The light of a system, lux at the study's M points, and what every point should have.

    `level` (M,) is infinite where nothing can be done. What units send out is read from tables of their
    beams (`aimcalc.light.beam_table`) past what they see from their present lenses.
    """

    def __init__(self, study: Study, level: Array, below: float) -> None:
        self.study, self.level, self.below = study, level, below
        self.beams = Beams(study.plane.points)
        self._now: dict[int, Array] = {}
        self._table: dict[int, BeamTable | None] = {}
        self._near: dict[tuple[tuple[int, float, float], float], Near] = {}

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

    def moves(self, new: NewAims) -> Moves:
        """New aims with what each adds to the light."""
        change = np.empty((new.unit.size, self.level.size))
        for unit in np.unique(new.unit).tolist():
            rows = np.flatnonzero(new.unit == unit)
            change[rows] = self._lit(unit, new.lamps.take(rows)) - self.now(unit)
        return Moves(new.unit, new.face[:2], change)

    def _lit(self, unit: int, lamps: Lamps) -> Array:
        """Light of one unit at K new aims, (K, M)."""
        lux, flags = self.beams.level(lamps), self.study.seen.flags
        return lux if flags is None else np.multiply(lux, flags[unit], out=lux)

    def near(self, moves: Moves, step: float, steps: tuple[float, ...]) -> list[Near]:
        """Each unit's aims a step around its place, one of `steps`: all are made ready for a new place."""
        places = list(zip(moves.unit.tolist(), *moves.place.tolist(), strict=True))
        new = [k for k, place in enumerate(places) if (place, step) not in self._near]
        if new:
            each = sorted(set(steps))
            ways = np.concatenate([AROUND * one for one in each], axis=1)
            x, y = (moves.place[k, new][:, None] + ways[k] for k in range(2))
            unit = np.repeat(moves.unit[new], ways.shape[1])
            kept, aims = settable(self.study, unit, x.ravel(), y.ravel(), bodies=False)
            rays = self.beams.rays(aims.lamps)
            ends = np.arange(len(new) * len(each) + 1) * AROUND.shape[1]
            ends = np.searchsorted(kept, ends).tolist()
            keys = [(places[k], one) for k in new for one in each]
            for key, first, last in zip(keys, ends[:-1], ends[1:], strict=True):
                self._near[key] = Near(aims, rays, np.arange(first, last))
        return [self._near[place, step] for place in places]

    def missing_at(self, need: Array, near: Near) -> Array:
        """How much is missing with a unit at K aims, (K,), where points (M,) need so many lux of it.

        Only points that would be dark without the unit can be dark with it: the others are not asked about.
        """
        unit = int(near.new.unit[near.rows[0]])
        seen = self.study.seen.flags
        dark = need > 0
        hidden = need[dark & ~seen[unit]] if seen is not None else np.zeros(0)
        which = np.flatnonzero(dark if seen is None else dark & seen[unit])
        need = need[which]
        count, short = np.zeros((2, near.rows.size))
        for part, light in self._blocks(unit, near, which):
            np.subtract(need[part], light, out=light)
            np.maximum(light, 0.0, out=light)
            count += (light > 0).sum(axis=1)
            short += light.sum(axis=1)
        short += hidden.sum()
        return np.asarray(count + hidden.size + SHORT_SHARE * short / self.below)

    def _blocks(self, unit: int, near: Near, which: Indices) -> Iterable[tuple[slice, Array]]:
        """Light of a unit's aims at some of the points, a block of them at a time."""
        if unit not in self._table:
            self._table[unit] = self.beams.table(self.study.sources.lamps.take(np.array([unit])))
        table = self._table[unit]
        if table is None:
            points, lamps = self.beams.points[:, which], near.new.lamps.take(near.rows)
            return [(slice(None), np.asarray(contributions(lamps, points)[0]))]
        operand = np.take(self.beams.operand, which, axis=1)
        return self.beams.blocks(table, near.rays.take(near.rows), operand)


def grown(wanted: Wanted, tries: Moves) -> Moves:
    """A set of moves that starts from `tries`, at most one a unit, until no hole is left or none helps."""
    chosen = tries.take(np.zeros(0, np.intp))
    level = wanted.level
    while wanted.area(level) > 0:
        free = np.flatnonzero(~np.isin(tries.unit, chosen.unit))
        best, missing = best_of(wanted, level, tries, free)
        if missing > wanted.missing(level) - LEAST:
            break
        chosen = chosen.joined(tries.take(np.array([best])))
        chosen = settled(wanted, chosen, STEPS)
        level = wanted.after(chosen)
    return chosen


def best_of(wanted: Wanted, level: Array, tries: Moves, free: Indices) -> tuple[int, float]:
    """The first of the free tries (F,) with least missing, and that; infinite where there are none.

    None leaves less missing than at the points dark now: tries are asked about all points in that order.
    """
    need = wanted.below - level
    dark = np.flatnonzero(need > 0)
    short = np.maximum(need[dark] - tries.change[np.ix_(free, dark)], 0.0)
    bound = (short > 0).sum(axis=1) + SHORT_SHARE * short.sum(axis=1) / wanted.below
    best, least = -1, np.inf
    for k in np.argsort(bound, kind="stable").tolist():
        if bound[k] * (1 - 1e-12) > least:
            break
        missing = float(wanted.missing(level + tries.change[free[k]]))
        if missing < least or (missing == least and free[k] < best):
            best, least = int(free[k]), missing
    return best, least


def settled(wanted: Wanted, moves: Moves, steps: tuple[float, ...], worth: float = WORTH) -> Moves:
    """The same units, each moved about by `steps` in turn where less is missing then."""
    found = Moves(moves.unit, moves.place.copy(), moves.change.copy())
    for step in steps:
        _to_better_places(wanted, found, wanted.near(found, step, steps), worth)
    return found


def _to_better_places(wanted: Wanted, moves: Moves, near: list[Near], worth: float) -> None:
    """Move each unit in turn to the best of the places `near` its own, where that is better.

    A body is tried against what it hangs on only where the place is taken.
    """
    level = wanted.after(moves)
    least = float(wanted.missing(level))
    for k, unit in enumerate(moves.unit.tolist()):
        if not near[k].rows.size:
            continue
        without = level - moves.change[k]
        missing = wanted.missing_at(wanted.below - (without - wanted.now(unit)), near[k])
        for best in np.argsort(missing, kind="stable").tolist():
            if missing[best] >= least - worth:
                break
            there = near[k].new.take(near[k].rows[[best]])
            if not striking(wanted.study.rig, there.unit, there.aims)[0]:
                moves.place[:, k], moves.change[k] = (
                    there.face[:2, 0],
                    wanted.moves(there).change[0],
                )
                level, least = without + moves.change[k], float(missing[best])
                break


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
