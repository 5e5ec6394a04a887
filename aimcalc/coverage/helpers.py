"""Who could fill a hole: the units of a system that reach it, each at the best new aim that was found.

Method. Every unit that can give the hole's middle more light when turned towards it than it does now is
tried: at a quarter, half and three quarters of the way there, at its middle and at its darkest point. The
best aim of each is then moved about in steps of 40, 20 and 10 cm, eight ways each, as long as that closes
more than it uncovers. An aim counts by the area of the hole that it closes, less the area that it uncovers
in any system of its unit. What the best aims do is worked out again with rays from their new lenses, and
those that have no room, or uncover as much as they close, are dropped. Before each step those are left out
that would be dropped wherever the steps took them.

`tests/coverage/test_every_way.py` compares with this method done plainly, not with every aim that there is.
All holes of all systems are tried together, a round at a time.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from aimcalc.coverage.new_aims import AROUND, free_to_re_aim, joined_aims, settable
from aimcalc.coverage.outcomes import Ground, Hole, Outcomes
from aimcalc.coverage.sources import NewAims
from aimcalc.coverage.study import Study
from aimcalc.coverage.systems import SystemLight
from aimcalc.geometry.vectors import Array
from aimcalc.light.evenness import Gap
from aimcalc.light.illuminance import contributions
from aimcalc.light.lamps import Flags, Indices
from aimcalc.named import NamedTuple

WAYS = np.array([0.25, 0.5, 0.75, 1.0])
STEPS = (0.4, 0.2, 0.1)  # m
TOLD = 5  # helpers of a hole, at most
MANY = 1_000_000_000
FIRST, REFINED = 12, 5  # units that sets of re-aims start from: tried, and moved about
ROUNDING = 1e-9  # m2, lx m2: less than this is nothing


class Helper(NamedTuple):
    """One unit that could help with one hole: its new face point, what of the hole that closes, and what it
    uncovers in any system of the unit, m2."""

    unit: int
    face: tuple[float, float, float]
    heading: float  # radians
    down: float
    gain: float
    uncovers: float


def helpers_for(study: Study, system: SystemLight, gap: Gap) -> tuple[list[Helper], NewAims]:
    """The best helpers of a hole, best first, and the new aims behind them (more than are told)."""
    return helpers_of(study, [Hole(system, gap)])[0]


def helpers_of(
    study: Study, holes: Sequence[Hole], *, sets: bool = True
) -> list[tuple[list[Helper], NewAims]]:
    """The same of many holes, of whatever systems; no aims where no `sets` of re-aims start from them."""
    search = _Search(study, holes)
    best, starts = search.best(sets=sets)
    free = best.take(study.room.for_each(best.new))
    told = search.ground.outcomes(free.hole, free.new, exact=True)
    found = []
    for hole in range(len(holes)):
        rows = np.flatnonzero((free.hole == hole) & (told.net > ROUNDING))
        rows = rows[_order(told.take(rows))]
        helpers = [_helper(free.new, told, k) for k in rows[:TOLD].tolist()]
        found.append((helpers, starts.new.take(starts.hole == hole)))
    return found


def each_once(holes: list[list[Helper]]) -> list[list[Helper]]:
    """The helpers of one system's holes, every unit offered for one hole only.

    As many holes as can be keep one, the largest hole first; every other unit goes to the hole where it
    does most.
    """
    given: dict[int, int] = {}  # unit to hole
    for hole in range(len(holes)):
        _give(holes, hole, given, set())
    best: dict[int, tuple[float, int]] = {}
    for hole, helpers in enumerate(holes):
        for helper in helpers:
            net = (helper.gain - helper.uncovers, hole)
            if helper.unit not in best or net[0] > best[helper.unit][0]:
                best[helper.unit] = net
    where = {unit: hole for unit, (_, hole) in best.items()} | given
    return [
        [each for each in helpers if where[each.unit] == hole] for hole, helpers in enumerate(holes)
    ]


def _give(holes: list[list[Helper]], hole: int, given: dict[int, int], asked: set[int]) -> bool:
    """Give a hole its best unit that is free or can be had from a hole that finds another."""
    for helper in holes[hole]:
        if helper.unit in asked:
            continue
        asked.add(helper.unit)
        if helper.unit not in given or _give(holes, given[helper.unit], given, asked):
            given[helper.unit] = hole
            return True
    return False


class _Tried(NamedTuple):
    """K new aims, the hole (K,) that each is tried for, and what came of it."""

    hole: Indices
    new: NewAims
    found: Outcomes

    def take(self, which: Indices | Flags) -> _Tried:
        return _Tried(self.hole[which], self.new.take(which), self.found.take(which))

    def joined(self, more: _Tried) -> _Tried:
        return _Tried(
            np.concatenate((self.hole, more.hole)),
            joined_aims((self.new, more.new)),
            Outcomes(*map(np.concatenate, zip(self.found, more.found, strict=True))),
        )


class _Search:
    """The holes asked about, and what is the same for every new aim tried for them."""

    def __init__(self, study: Study, holes: Sequence[Hole]) -> None:
        self.study, self.holes = study, holes
        self.ground = Ground(study, holes)

    def best(self, *, sets: bool) -> tuple[_Tried, _Tried]:
        """The best new aim of each unit that could help, hole by hole, best unit first; and of a few units.

        Those few, from which sets of re-aims start, are of each hole the `FIRST` that could help most, the
        `REFINED` best of them moved about; none where no `sets` are asked for.
        """
        hole, unit = self._able()
        every = _best_of_each(self._tried(*self._on_the_way(hole, unit)))
        units = len(self.study.rig.units)
        few = _first_of_each_hole(hole, FIRST if sets else 0)
        of_few = np.isin(every.hole * units + every.new.unit, hole[few] * units + unit[few])
        starts = every.take(of_few)
        for k, step in enumerate(STEPS):
            before = self._hopeful(every, STEPS[k:])
            every = self._moved(before, MANY, step)
            if sets:
                starts = self._moved(starts, REFINED, step, (before, every))
        return self._hopeful(every, ()), starts

    def _moved(
        self, best: _Tried, most: int, step: float, known: tuple[_Tried, _Tried] | None = None
    ) -> _Tried:
        """The best aims of each hole, `most` of them moved about by a step where that helps.

        What came of the same aims is taken from what is `known`: aims before such a step, and after it.
        """
        few = best.take(_first_of_each_hole(best.hole, most))
        if known is not None:
            units = len(self.study.rig.units)
            own, before, after = (t.hole * units + t.new.unit for t in (few, *known))
            _, mine, there = np.intersect1d(own, before, return_indices=True)
            mine = mine[(few.new.face[:, mine] == known[0].new.face[:, there]).all(axis=0)]
            best = best.joined(known[1].take(np.isin(after, own[mine])))
            few = few.take(np.delete(np.arange(own.size), mine))
        x, y = (few.new.face[k][:, None] + step * AROUND[k] for k in range(2))
        ways = AROUND.shape[1]
        near = self._tried(
            np.repeat(few.hole, ways), np.repeat(few.new.unit, ways), x.ravel(), y.ravel()
        )
        return _best_of_each(best.joined(near))

    def _hopeful(self, best: _Tried, steps: tuple[float, ...]) -> _Tried:
        """The aims that may still close more than they open, moved on by `steps`: no other is ever told.

        What each gives at the very most wherever it comes to, past all scenery, settles it.
        """
        return best.take(self.ground.outcomes(best.hole, best.new, steps=steps).net > ROUNDING)

    def _able(self) -> tuple[Indices, Indices]:
        """For each hole the units that add to its middle when turned towards it, the most helpful first."""
        free = free_to_re_aim(self.study.rig)
        offered = [each.system.units[free[each.system.units]] for each in self.holes]
        hole = np.repeat(np.arange(len(self.holes)), [units.size for units in offered])
        hole, unit, x, y = self._on_the_way(hole, np.concatenate([np.zeros(0, np.intp), *offered]))
        kept, new = settable(self.study, unit, x, y)
        hole = hole[kept]
        adds = self._adds_to_middle(hole, new)
        rows = _rows_of_each(hole, new.unit, np.lexsort((-adds, hole)), adds > 0)
        return hole[rows], new.unit[rows]

    def _adds_to_middle(self, asked: Indices, new: NewAims) -> Array:
        """Lux that each new aim adds to the middle of its hole, (K,)."""
        study = self.study
        x, y = study.plane.grid.plan()
        adds = np.zeros(asked.size)
        for k, hole in enumerate(self.holes):
            rows = np.flatnonzero(asked == k)
            if rows.size:
                centre = hole.gap.centre
                middle = int(np.argmin(np.hypot(x - centre[0], y - centre[1])))
                point, unit = study.plane.points[:, [middle]], new.unit[rows]
                now = study.sources.lamps.take(unit)
                more = contributions(new.lamps.take(rows), point) - contributions(now, point)
                seen = study.seen.flags
                adds[rows] = more[0, :, 0] * (1.0 if seen is None else seen[unit, middle])
        return adds

    def _on_the_way(self, hole: Indices, unit: Indices) -> tuple[Indices, Indices, Array, Array]:
        """Plan points to try: on the way from each unit's face to its hole, and the hole's darkest."""
        x0, y0 = self.study.rig.arrays.point[:2, unit][:, :, None]
        centre = np.array([each.gap.centre for each in self.holes]).reshape(-1, 2)[hole].T
        darkest = np.array([each.gap.darkest for each in self.holes]).reshape(-1, 2)[hole].T
        x = np.hstack((x0 + (centre[0, :, None] - x0) * WAYS, darkest[0, :, None]))
        y = np.hstack((y0 + (centre[1, :, None] - y0) * WAYS, darkest[1, :, None]))
        tries = WAYS.size + 1
        return np.repeat(hole, tries), np.repeat(unit, tries), x.ravel(), y.ravel()

    def _tried(self, hole: Indices, unit: Indices, x: Array, y: Array) -> _Tried:
        """Those that can be set of units (K,) pointed at faces over plan points, each tried for its hole."""
        kept, new = settable(self.study, unit, x, y)
        return _Tried(hole[kept], new, self.ground.outcomes(hole[kept], new))


def _best_of_each(tried: _Tried) -> _Tried:
    """The best of each unit for each hole, holes together, best first; those that add nothing dropped."""
    found = tried.found
    order = np.lexsort((-found.relief, -found.net, tried.hole))
    adds = (found.relief > ROUNDING) | (found.here > 0)
    return tried.take(_rows_of_each(tried.hole, tried.new.unit, order, adds))


def _rows_of_each(hole: Indices, unit: Indices, order: Indices, wanted: Flags) -> Indices:
    """Of rows in `order`, holes together, the first of each unit for each hole, those not wanted left out."""
    order = order[wanted[order]]
    units = int(unit.max(initial=0)) + 1
    _, first = np.unique(hole[order] * units + unit[order], return_index=True)
    return np.asarray(order[np.sort(first)])


def _first_of_each_hole(hole: Indices, count: int) -> Indices:
    """The first `count` rows of every hole, the rows of a hole lying together."""
    new = np.flatnonzero(np.diff(hole, prepend=-1))
    place = np.arange(hole.size) - np.repeat(new, np.diff(np.append(new, hole.size)))
    return np.flatnonzero(place < count)


def _order(found: Outcomes) -> Indices:
    """The best first: by area closed less area uncovered, then by light no longer missing."""
    return np.asarray(np.lexsort((-found.relief, -found.net)))


def _helper(new: NewAims, told: Outcomes, k: int) -> Helper:
    x, y, z = new.face[:, k].tolist()
    return Helper(
        unit=int(new.unit[k]),
        face=(x, y, z),
        heading=float(new.aims.heading[k]),
        down=float(new.aims.down[k]),
        gain=float(told.here[k]),
        uncovers=float(told.uncovers[k]),
    )
