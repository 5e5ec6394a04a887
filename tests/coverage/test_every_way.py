"""The helpers of every hole, against the same method done plainly.

Hole by hole, every try at every point of the plane by the profile itself, in loops.
"""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.coverage.helpers import STEPS, TOLD, WAYS, helpers_of
from aimcalc.coverage.new_aims import free_to_re_aim, joined_aims, new_aims_at
from aimcalc.coverage.outcomes import Hole
from aimcalc.coverage.study import study_of
from aimcalc.coverage.survey import MOST_HOLES
from tests.coverage.holes import FLAT, changes
from tests.lit import a_lamp, a_rig, a_unit
from tests.shows import a_show, rig_of
from tests.studies import cases

EIGHT = [(dx, dy) for dx in (-1, 0, 1) for dy in (-1, 0, 1) if dx or dy]
ALIKE = 0.25  # of a rig's holes: two faces of one unit may close and open the same cells


def done_by(study, system, gap, unit, x, y, *, exact=False):
    """New aims that can be set, each with m2 closed of the hole, m2 opened, and light no longer missing."""
    new = new_aims_at(study, np.asarray(unit, np.intp), np.asarray(x), np.asarray(y))
    cell, told = study.plane.grid.cell_area, []
    for k, change in enumerate(changes(study, new, exact=exact)):
        now = system.taken
        then = now + change
        hole = np.isin(np.arange(now.size), gap.cells)
        closed = float(((now < system.below) & (then >= system.below) & hole).sum() * cell)
        opened = np.zeros(now.size, bool)
        for stake in study.stakes(int(new.unit[k])):
            level = stake.taken
            opened |= (level >= stake.below) & (level + change < stake.below * (1 - 1e-9))
        short = [np.maximum(system.below - v, 0.0).sum() * cell for v in (now, then)]
        told.append((closed, float(opened.sum() * cell), short[0] - short[1]))
    return new, told


def best_of_each(found):
    """The best (new aim, what it does) of each unit, best first; those that add nothing left out."""
    new, told = found
    order = sorted(range(len(told)), key=lambda k: (told[k][1] - told[k][0], -told[k][2]))
    first = {}
    for k in order:
        if told[k][0] > 0 or told[k][2] > 1e-9:
            first.setdefault(int(new.unit[k]), k)
    rows = list(first.values())
    return new.take(np.array(rows, np.intp)), [told[k] for k in rows]


def on_the_way(study, gap, units):
    """Each unit at places on the way from its face to the hole's middle, and at the hole's darkest point."""
    unit, x, y = [], [], []
    for u in units:
        x0, y0 = study.rig.arrays.point[:2, u]
        places = [(x0 + (gap.centre[0] - x0) * w, y0 + (gap.centre[1] - y0) * w) for w in WAYS]
        for place in [*places, gap.darkest]:
            unit.append(u)
            x.append(place[0])
            y.append(place[1])
    return unit, x, y


def able(study, gap, unit, x, y):
    """The units that would add light to the hole's middle, those that add most first."""
    new = new_aims_at(study, np.array(unit, np.intp), np.array(x), np.array(y))
    off = np.hypot(study.plane.points[0] - gap.centre[0], study.plane.points[1] - gap.centre[1])
    adds = changes(study, new)[:, int(np.argmin(off))]
    most = {}
    for u, more in zip(new.unit.tolist(), adds.tolist(), strict=True):
        most[u] = max(more, most.get(u, 0.0))
    return sorted((u for u in most if most[u] > 0), key=lambda u: -most[u])


def plainly(study, system, gap):
    """The units that could help, best first, each with (m2 closed less m2 opened) as by the first search."""
    units = system.units[free_to_re_aim(study.rig)[system.units]].tolist()
    tries = on_the_way(study, gap, units)
    best, told = best_of_each(
        done_by(study, system, gap, *on_the_way(study, gap, able(study, gap, *tries)))
    )
    for step in STEPS:
        rows = [
            (best.unit[k], *(best.face[:2, k] + np.array(way) * step))
            for k in range(best.unit.size)
            for way in EIGHT
        ]
        if not rows:
            break
        near, near_told = done_by(study, system, gap, *zip(*rows, strict=True))
        best, told = best_of_each((joined_aims([best, near]), told + near_told))
    return best, told


def compared(study, most=MOST_HOLES):
    """How many holes, at most so many a system; both searches do the same for each by all helpers told."""
    moved = 0
    holes = [Hole(s, gap) for s in study.systems.values() for gap in s.gaps[:most]]
    for hole, (helpers, _) in zip(holes, helpers_of(study, holes), strict=True):
        best, _ = plainly(study, *hole)
        best = best.take(study.room.for_each(best))
        new, told = done_by(study, *hole, best.unit, best.face[0], best.face[1], exact=True)
        worth = [closed - opened for closed, opened, _ in told]
        if not worth or max(worth) <= 1e-9:
            assert not helpers
            continue
        nets = sorted((net for net in worth if net > 1e-9), reverse=True)[:TOLD]
        told = [each.gain - each.uncovers for each in helpers]
        np.testing.assert_allclose(told, nets, rtol=0, atol=1e-9)
        found = helpers[0]
        assert found.gain - found.uncovers == pytest.approx(max(worth), abs=1e-9)
        row = new.unit.tolist().index(found.unit)  # of two that do the same either may come first
        assert worth[row] == pytest.approx(max(worth), abs=1e-9)
        x, y, _ = found.face
        _, [(closed, opened, _)] = done_by(study, *hole, [found.unit], [x], [y], exact=True)
        assert closed - opened == pytest.approx(worth[row], abs=1e-9)
        moved += not np.allclose(found.face, new.face[:, row], rtol=0, atol=1e-9)
    assert moved <= ALIKE * len(holes)
    return len(holes)


@pytest.mark.long
@pytest.mark.parametrize("scene", ["studio", "raked", "playhouse"])
def test_the_best_helper_of_every_hole_of_a_worked_scene(scene):
    assert compared(a_show(rig_of(scene)).light, cases(3, MOST_HOLES)) > 10


def random_rig(seed):
    """A row or two of units over a stage, each pointed somewhere near where it hangs; some past a flat."""
    rng = np.random.default_rng(seed)
    count = int(rng.integers(4, 11))
    units = [
        a_unit(
            k,
            float(x),
            to=tuple(rng.uniform((x - 1.5, -1.5), (x + 1.5, 1.5)).round(2)),
            system=("wash", "cross")[k % 2 if count > 5 else 0],
        )
        for k, x in enumerate(rng.uniform(-3.8, 3.8, count).round(2), 1)
    ]
    kinds = [a_lamp(field=float(rng.uniform(40, 75)), beam=float(rng.uniform(15, 38)))]
    return a_rig(units, kinds=kinds, solids=[FLAT] if seed % 3 == 0 else [])


@pytest.mark.long
@pytest.mark.parametrize("lot", range(cases(6, 10)))
def test_the_best_helper_of_every_hole_of_a_hundred_random_rigs(lot):
    rigs = cases(2, 10)
    told = [
        compared(study_of(random_rig(seed), spacing=0.3))
        for seed in range(10 * lot, 10 * lot + rigs)
    ]
    assert sum(told) > rigs
