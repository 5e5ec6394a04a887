"""Who could fill a hole: the units of a system that reach it, each at the best new aim that was found.

Method. Units that give the hole's middle more light when turned towards it than they do now are ranked
by how much more, and the first `FIRST` are tried: at a quarter, half and three quarters of the way there, at
its middle and at its darkest point. The best aims of the first `REFINED` units are then moved about in
steps of 40, 20 and 10 cm, eight ways each, as long as that closes more than it uncovers. An aim counts by the
area of the hole that it closes, less the area that it uncovers in any system of its unit. What is told
of the best few is worked out again with rays from their new lenses, and those that have no room, or
uncover as much as they close, are dropped.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from aimcalc.coverage.fewest import AROUND
from aimcalc.coverage.jobs import free_to_re_aim
from aimcalc.coverage.sources import Tries
from aimcalc.coverage.study import Study
from aimcalc.coverage.systems import SystemLight
from aimcalc.coverage.tries import Outcomes, outcomes, tries_at
from aimcalc.geometry.vectors import Array
from aimcalc.light.evenness import Gap
from aimcalc.light.illuminance import contributions
from aimcalc.light.lamps import Indices

WAYS = np.array([0.25, 0.5, 0.75, 1.0])
STEPS = (0.4, 0.2, 0.1)  # m
FIRST, REFINED, TOLD = 12, 5, 5
ROUNDING = 1e-9  # m2


class Helper(NamedTuple):
    """One unit that could help with one hole: its new face point, what of the hole that closes, and what it
    uncovers in any system of the unit, m2."""

    unit: int
    face: tuple[float, float, float]
    heading: float  # radians
    down: float
    gain: float
    uncovers: float


def helpers_for(study: Study, system: SystemLight, gap: Gap) -> tuple[list[Helper], Tries]:
    """The best helpers of a hole, best first, and the tries behind them (more than are told)."""
    tries = _search(study, system, gap)
    best = tries.take(np.arange(min(TOLD, tries.unit.size)))
    best = best.take(study.room.for_each(best))
    told = outcomes(study, system, gap.cells, best, exact=True)
    return [_helper(best, told, k) for k in _order(told).tolist() if told.net[k] > ROUNDING], tries


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


def _search(study: Study, system: SystemLight, gap: Gap) -> Tries:
    """The best try of each unit that could help, best unit first."""
    best = _best_of_each(study, system, gap, *_on_the_way(study, _able(study, system, gap), gap))
    for step in STEPS:
        few = best.take(np.arange(min(REFINED, best.unit.size)))
        x, y = (few.face[k][:, None] + step * AROUND[k] for k in range(2))
        unit = np.concatenate((best.unit, np.repeat(few.unit, AROUND.shape[1])))
        x, y = (np.concatenate((best.face[k], v.ravel())) for k, v in enumerate((x, y)))
        best = _best_of_each(study, system, gap, unit, x, y)
    return best


def _able(study: Study, system: SystemLight, gap: Gap) -> Indices:
    """The units that add most to the hole's middle when turned towards it, `FIRST` at most, best first."""
    units = system.units[free_to_re_aim(study.rig)[system.units]]
    tries = tries_at(study, *_on_the_way(study, units, gap))
    if not tries.unit.size:
        return tries.unit
    x, y = study.plane.grid.plan()
    middle = [int(np.argmin(np.hypot(x - gap.centre[0], y - gap.centre[1])))]
    point = study.plane.points[:, middle]
    more = contributions(tries.lamps, point) - contributions(
        study.sources.lamps.take(tries.unit), point
    )
    adds = more[0, :, 0]
    if study.seen.flags is not None:
        adds = adds * study.seen.flags[tries.unit, middle[0]]
    order = [k for k in np.argsort(-adds, kind="stable").tolist() if adds[k] > 0]
    return tries.unit[np.array(_first_of_each(tries.unit, order)[:FIRST], dtype=np.intp)]


def _on_the_way(study: Study, units: Indices, gap: Gap) -> tuple[Indices, Array, Array]:
    """Units and plan points to try: on the way from each unit's face to the hole, and its darkest."""
    x0, y0 = study.rig.arrays.point[:2, units][:, :, None]
    x = np.hstack((x0 + (gap.centre[0] - x0) * WAYS, np.full_like(x0, gap.darkest[0])))
    y = np.hstack((y0 + (gap.centre[1] - y0) * WAYS, np.full_like(y0, gap.darkest[1])))
    return np.repeat(units, WAYS.size + 1), x.ravel(), y.ravel()


def _best_of_each(
    study: Study, system: SystemLight, gap: Gap, unit: Indices, x: Array, y: Array
) -> Tries:
    """Of all these tries the best of each unit, best unit first; units that add nothing are dropped."""
    tries = tries_at(study, unit, x, y)
    found = outcomes(study, system, gap.cells, tries)
    order = [k for k in _order(found).tolist() if found.relief[k] > 0 or found.here[k] > 0]
    return tries.take(np.array(_first_of_each(tries.unit, order), dtype=np.intp))


def _order(found: Outcomes) -> Indices:
    """The best first: by area closed less area uncovered, then by light no longer missing."""
    return np.asarray(np.lexsort((-found.relief, -found.net)))


def _first_of_each(unit: Indices, order: list[int]) -> list[int]:
    first: dict[int, int] = {}
    for k in order:
        first.setdefault(int(unit[k]), k)
    return list(first.values())


def _helper(tries: Tries, told: Outcomes, k: int) -> Helper:
    x, y, z = tries.face[:, k].tolist()
    return Helper(
        unit=int(tries.unit[k]),
        face=(x, y, z),
        heading=float(tries.aims.heading[k]),
        down=float(tries.aims.down[k]),
        gain=float(told.here[k]),
        uncovers=float(told.uncovers[k]),
    )
