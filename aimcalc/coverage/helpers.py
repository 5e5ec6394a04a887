"""Who could fill a hole: the units of a system that reach it, each at the best new aim that was found.

Method. Every unit that can give the hole's middle more light when turned towards it than it does now is
tried: at a quarter, half and three quarters of the way there, at its middle and at its darkest point. The
best aim of each is then moved about in steps of 40, 20 and 10 cm, eight ways each, as long as that closes
more than it uncovers. An aim counts by the area of the hole that it closes, less the area that it uncovers
in any system of its unit. What the best aims do is worked out again with rays from their new lenses, and
those that have no room, or uncover as much as they close, are dropped.

`tests/coverage/test_every_way.py` compares with this method done plainly, not with every aim that there is.

All holes of all systems are tried together, a round at a time. A new aim is asked about only where it can
matter: where its system is dark, and where one of its unit's systems would be dark without that unit.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from aimcalc.coverage.new_aims import AROUND, free_to_re_aim, lit, settable
from aimcalc.coverage.sources import NewAims, sees
from aimcalc.coverage.study import Study
from aimcalc.coverage.systems import SystemLight
from aimcalc.geometry.vectors import Array
from aimcalc.light.beam_table import Beams
from aimcalc.light.evenness import Gap
from aimcalc.light.illuminance import contributions
from aimcalc.light.lamps import Flags, Indices, Lamps
from aimcalc.named import NamedTuple

WAYS = np.array([0.25, 0.5, 0.75, 1.0])
STEPS = (0.4, 0.2, 0.1)  # m
TOLD = 5  # helpers of a hole, at most
MANY = 1_000_000_000
FIRST, REFINED = 12, 5  # units that sets of re-aims start from: tried, and moved about
ROUNDING = 1e-9  # m2, lx m2: less than this is nothing
AS_BEFORE = 1 - 1e-9  # share of the threshold; light that falls below it makes a point uncovered


class Helper(NamedTuple):
    """One unit that could help with one hole: its new face point, what of the hole that closes, and what it
    uncovers in any system of the unit, m2."""

    unit: int
    face: tuple[float, float, float]
    heading: float  # radians
    down: float
    gain: float
    uncovers: float


class Hole(NamedTuple):
    """A hole of a system that somebody asks about."""

    system: SystemLight
    gap: Gap


class Outcomes(NamedTuple):
    """What each of K new aims does to the light of a system and to every system of its unit, (K,)."""

    gain: Array  # m2 of the system that were dark and would not be
    here: Array  # the part of it in the hole asked about: what a helper is offered for
    uncovers: Array  # m2 that would turn dark in any of the unit's systems
    relief: Array  # by how much light short of the threshold shrinks, lx m2: tells between equals

    @property
    def net(self) -> Array:
        """m2 of the hole closed less m2 opened anywhere."""
        return self.here - self.uncovers


def helpers_for(study: Study, system: SystemLight, gap: Gap) -> tuple[list[Helper], NewAims]:
    """The best helpers of a hole, best first, and the new aims behind them (more than are told)."""
    return helpers_of(study, [Hole(system, gap)])[0]


def helpers_of(study: Study, holes: Sequence[Hole]) -> list[tuple[list[Helper], NewAims]]:
    """The same of many holes, of whatever systems."""
    search = _Search(study, holes)
    best, starts = search.best()
    free = best.take(study.room.for_each(best.new))
    told = search.outcomes(free, exact=True)
    found = []
    for hole in range(len(holes)):
        rows = np.flatnonzero((free.hole == hole) & (told.net > ROUNDING))
        rows = rows[_order(Outcomes(*(column[rows] for column in told)))]
        helpers = [_helper(free.new, told, k) for k in rows[:TOLD].tolist()]
        found.append((helpers, starts.new.take(starts.hole == hole)))
    return found


def outcomes(
    study: Study, system: SystemLight, hole: Indices, new: NewAims, *, exact: bool = False
) -> Outcomes:
    """What K new aims would do, each by itself; `hole` (C,) are the study's points in the hole asked about.

    Thresholds are frozen: the lux that a point was dark under before, whatever the new mean. Rays are cast
    from the new lenses and no table is used where `exact`.
    """
    gap = Gap((0.0, 0.0), 0.0, 0.0, (0.0, 0.0), (0.0,) * 4, hole)
    search = _Search(study, [Hole(system, gap)])
    return search.outcomes(_Tried(np.zeros(new.unit.size, np.intp), new), exact=exact)


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
    """K new aims, and the hole (K,) that each is tried for."""

    hole: Indices
    new: NewAims

    def take(self, which: Indices | Flags) -> _Tried:
        return _Tried(self.hole[which], self.new.take(which))


class _Ground(NamedTuple):
    """The Q points where a new aim of one unit can matter to one system: what is there now, (Q,)."""

    which: Indices  # of the plane's points
    points: Array  # (3, Q)
    seen: Flags  # from the present lens
    now: Array  # the unit's own light, lux
    by_table: Array  # the same as a table of its beam has it
    level: Array  # the system's
    gap: Indices  # its hole there, -1 for none
    stakes: list[tuple[Array, Flags, float]]  # of each system of the unit: level, lit, threshold


class _Search:
    """The holes asked about, and what is the same for every new aim tried for them."""

    def __init__(self, study: Study, holes: Sequence[Hole]) -> None:
        self.study, self.holes = study, holes
        self.beams = Beams(study.plane.points)
        self.grounds: dict[tuple[str, int], _Ground] = {}
        names = [hole.system.name for hole in holes]
        self.system = np.array([names.index(name) for name in names], np.intp)  # first hole of it
        self.gaps: dict[str, Indices] = {}
        for k, hole in enumerate(holes):
            whole = np.full(study.plane.points.shape[1], -1)
            self.gaps.setdefault(hole.system.name, whole)[hole.gap.cells] = k

    def best(self) -> tuple[_Tried, _Tried]:
        """The best new aim of each unit that could help, hole by hole, best unit first; and of a few units.

        Those few, from which sets of re-aims start, are of each hole the `FIRST` that could help most, the
        `REFINED` best of them moved about.
        """
        hole, unit = self._able()
        every = self._best_of_each(*self._on_the_way(hole, unit))
        units = len(self.study.rig.units)
        few = _first_of_each_hole(hole, FIRST)
        of_few = np.isin(every.hole * units + every.new.unit, hole[few] * units + unit[few])
        return self._moved(every, MANY), self._moved(every.take(of_few), REFINED)

    def _moved(self, best: _Tried, most: int) -> _Tried:
        """The best aims of each hole, `most` of them moved about in steps as long as that helps."""
        for step in STEPS:
            few = best.take(_first_of_each_hole(best.hole, most))
            x, y = (few.new.face[k][:, None] + step * AROUND[k] for k in range(2))
            ways = AROUND.shape[1]
            best = self._best_of_each(
                np.concatenate((best.hole, np.repeat(few.hole, ways))),
                np.concatenate((best.new.unit, np.repeat(few.new.unit, ways))),
                np.concatenate((best.new.face[0], x.ravel())),
                np.concatenate((best.new.face[1], y.ravel())),
            )
        return best

    def _able(self) -> tuple[Indices, Indices]:
        """For each hole the units that add to its middle when turned towards it, the most helpful first."""
        free = free_to_re_aim(self.study.rig)
        offered = [each.system.units[free[each.system.units]] for each in self.holes]
        hole = np.repeat(np.arange(len(self.holes)), [units.size for units in offered])
        hole, unit, x, y = self._on_the_way(hole, np.concatenate([np.zeros(0, np.intp), *offered]))
        kept, new = settable(self.study, unit, x, y)
        tried = _Tried(hole[kept], new)
        adds = self._adds_to_middle(tried)
        rows = _rows_of_each(tried, np.lexsort((-adds, tried.hole)), adds > 0)
        return tried.hole[rows], tried.new.unit[rows]

    def _adds_to_middle(self, tried: _Tried) -> Array:
        """Lux that each new aim adds to the middle of its hole, (K,)."""
        study = self.study
        x, y = study.plane.grid.plan()
        adds = np.zeros(tried.hole.size)
        for k, hole in enumerate(self.holes):
            rows = np.flatnonzero(tried.hole == k)
            if rows.size:
                centre = hole.gap.centre
                middle = int(np.argmin(np.hypot(x - centre[0], y - centre[1])))
                point, unit = study.plane.points[:, [middle]], tried.new.unit[rows]
                now = study.sources.lamps.take(unit)
                more = contributions(tried.new.lamps.take(rows), point) - contributions(now, point)
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

    def _best_of_each(self, hole: Indices, unit: Indices, x: Array, y: Array) -> _Tried:
        """Of all these the best of each unit for each hole, best first; those that add nothing dropped."""
        kept, new = settable(self.study, unit, x, y)
        tried = _Tried(hole[kept], new)
        found = self.outcomes(tried)
        order = np.lexsort((-found.relief, -found.net, tried.hole))
        rows = _rows_of_each(tried, order, (found.relief > ROUNDING) | (found.here > 0))
        return tried.take(rows)

    def outcomes(self, tried: _Tried, *, exact: bool = False) -> Outcomes:
        """What each new aim does, by itself, to the system of its hole and to those of its unit."""
        told = np.zeros((4, tried.hole.size))
        key = self.system[tried.hole] * len(self.study.rig.units) + tried.new.unit
        order = np.argsort(key, kind="stable")
        ends = np.flatnonzero(np.diff(key[order])) + 1
        for rows in np.split(order, ends) if order.size else []:
            system = self.holes[int(tried.hole[rows[0]])].system
            some = tried.take(rows)
            told[:, rows] = self._of_one_unit(system, some, exact=exact)
        return Outcomes(*(told * self.study.plane.grid.cell_area))

    def _of_one_unit(self, system: SystemLight, tried: _Tried, *, exact: bool) -> Array:
        """Outcomes, in points, of new aims of one unit for holes of one system, (4, K)."""
        ground = self._ground(system, int(tried.new.unit[0]))
        lamps = tried.new.lamps
        if exact:
            then = _seen_anew(self.study, lamps, ground.points) - ground.now
        else:
            then = self.beams.level(lamps, ground.which)
            then -= ground.by_table
            then *= ground.seen
        dark = ground.level < system.below
        after = ground.level + then
        closes = dark & (after >= system.below)
        here = closes & (ground.gap == tried.hole[:, None])
        short = np.maximum(system.below - after, 0.0).sum(axis=1)
        relief = np.maximum(system.below - ground.level, 0.0).sum() - short
        opens = np.zeros(then.shape, np.bool_)
        for level, is_lit, below in ground.stakes:
            opens |= is_lit & (level + then < below * AS_BEFORE)
        return np.stack((closes.sum(axis=1), here.sum(axis=1), opens.sum(axis=1), relief))

    def _ground(self, system: SystemLight, unit: int) -> _Ground:
        """Where the system is dark, or one of the unit's would be without the unit."""
        key = system.name, unit
        if key in self.grounds:
            return self.grounds[key]
        study, one = self.study, np.array([unit])
        points, lamps = study.plane.points, study.sources.lamps.take(one)
        now = lit(lamps, points, study.seen.of(one))[0]
        stakes = study.stakes(unit)
        where = system.taken - np.maximum(now, 0.0) < system.below
        for stake in stakes:
            where |= stake.taken - now < stake.below
        which = np.flatnonzero(where)
        flags = study.seen.flags
        self.grounds[key] = found = _Ground(
            which=which,
            points=np.ascontiguousarray(points[:, which]),
            seen=np.ones(which.size, np.bool_) if flags is None else flags[unit, which],
            now=now[which],
            by_table=self.beams.level(lamps, which)[0],
            level=system.taken[which],
            gap=self.gaps[system.name][which],
            stakes=[
                (stake.taken[which], stake.taken[which] >= stake.below, stake.below)
                for stake in stakes
            ],
        )
        return found


def _seen_anew(study: Study, lamps: Lamps, points: Array) -> Array:
    """Lux of each new aim at points (3, Q), (K, Q), with rays from the new lenses wherever it has light."""
    if study.sight.ready is None:
        return np.asarray(contributions(lamps, points)[0])

    def visible(k: int, which: Indices) -> Flags:
        start = np.repeat(lamps.lens[:, [k]], which.size, axis=1)
        return sees(study.sight, start, points[:, which])

    asked = lamps._replace(part_blocked=np.ones(lamps.size, np.bool_))
    return np.asarray(contributions(asked, points, visible=visible)[0])


def _rows_of_each(tried: _Tried, order: Indices, wanted: Flags) -> Indices:
    """Of rows in `order`, holes together, the first of each unit for each hole, those not wanted left out."""
    order = order[wanted[order]]
    units = int(tried.new.unit.max(initial=0)) + 1
    _, first = np.unique(tried.hole[order] * units + tried.new.unit[order], return_index=True)
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
