"""Levels and lenses against scipy's own solvers: non-negative least squares, mixed-integer programming."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.optimize import LinearConstraint, milp, nnls

from aimcalc.coverage import lens
from aimcalc.coverage.areas import balances
from aimcalc.coverage.lens import lens_plan
from aimcalc.coverage.lens_wanted import NONE, assigned
from aimcalc.coverage.study import study_of
from aimcalc.light.evenness import balanced
from tests import ray_tracer
from tests.shows import rig_of


def nnls_shares(spill):
    """Shares of at least 0 that make every target read 1, the highest then taken as full, and the misfit."""
    share, misfit = nnls(spill, np.ones(spill.shape[0]))
    return share / share.max(), misfit


def test_levels_are_those_of_non_negative_least_squares():
    rng = np.random.default_rng(13)
    even, uneven = 0, 0
    for _ in range(300):
        size = int(rng.integers(2, 8))
        light = rng.uniform(0, 0.6, (size, size)) * rng.uniform(0.2, 4.0) + np.diag(
            rng.uniform(0.5, 3, size)
        )
        got = balanced(light, np.arange(size))
        share, misfit = nnls_shares(light)
        if misfit < 1e-9 and share.min() > 1e-6:
            np.testing.assert_allclose(got.level, share, rtol=1e-6)
            assert got.spread == pytest.approx(1.0)
            even += 1
        elif misfit > 1e-3:  # no levels of at least 0 make them alike
            assert got.spread > 1.0 + 1e-6
            uneven += 1
    assert even > 100
    assert uneven > 20


def test_the_playhouses_levels_are_those_of_nnls_on_light_by_the_ray_tracer(tmp_path):
    """Both halves by others: each unit's light at each face from Radiance, the levels from scipy."""
    from tests.black_scenery import black

    rig = rig_of("playhouse")
    study = study_of(rig)
    for found in [each for each in balances(study) if each.alike]:
        row = {rig.units[k].target: k for k in found.unit.tolist()}
        points = rig.arrays.point[:, [row[name] for name in found.targets]]
        spill = np.zeros((len(found.targets), len(found.targets)))
        for t, name in enumerate(found.targets):
            for k in found.unit.tolist():
                if rig.units[k].target != name:
                    continue
                lamp = study.sources.lamps.take(np.array([k]))
                way = lamp.lens - points
                way = way / np.sqrt((way * way).sum(axis=0))
                scene = ray_tracer.smooth_scene(tmp_path, lamp) + black(rig)
                spill[:, t] += ray_tracer.lux(tmp_path, scene, points, way)
        share, misfit = nnls_shares(spill)
        assert misfit < 1e-6
        told = dict(zip(found.unit.tolist(), found.level.tolist(), strict=True))
        for t, name in enumerate(found.targets):
            mine = [told[k] for k in told if rig.units[k].target == name]
            assert mine == pytest.approx([share[t]] * len(mine), rel=5e-3, abs=2e-3)


def milp_best(cost, count):
    """Most places filled and then least cost, by mixed-integer programming."""
    places, kinds = cost.shape
    may = np.isfinite(cost).ravel()
    value = np.where(may, cost.ravel() - (1.0 + cost[np.isfinite(cost)].sum()), 0.0)
    once = np.kron(np.eye(places), np.ones(kinds))
    stock = np.kron(np.ones(places), np.eye(kinds))
    limits = [LinearConstraint(once, 0, 1), LinearConstraint(stock, 0, count)]
    done = milp(value, integrality=np.ones(may.size), bounds=(0, may), constraints=limits)
    assert done.success
    chosen = np.round(done.x).astype(bool)
    return int(chosen.sum()), float(cost.ravel()[chosen].sum())


def test_the_stock_goes_where_mixed_integer_programming_puts_it():
    rng = np.random.default_rng(14)
    for _ in range(40):
        places, kinds = int(rng.integers(1, 15)), int(rng.integers(1, 6))
        cost = rng.uniform(0, 3, (places, kinds))
        cost[rng.uniform(size=cost.shape) < 0.3] = np.inf
        count = rng.integers(0, 5, kinds)
        got = assigned(cost, count)
        filled, total = milp_best(cost, count)
        assert (got.kind != NONE).sum() == filled
        assert got.total == pytest.approx(total, abs=1e-6)


@pytest.mark.parametrize("scene", ["studio", "raked", "playhouse"])
def test_a_worked_scenes_lenses_are_the_best_that_its_stock_can_do(scene, monkeypatch):
    rig = rig_of(scene)
    asked = []

    def listening(cost, count):
        asked.append((np.array(cost), np.array(count)))
        return assigned(cost, count)

    monkeypatch.setattr(lens, "assigned", listening)
    plan = lens_plan(rig)
    ((cost, count),) = asked
    filled, total = milp_best(cost, count)
    assert sum(each.proposed is not None for each in plan.units) == filled
    assert plan.cost == pytest.approx(total, abs=1e-4)
    for use in plan.stock:
        assert use.used == sum(each.proposed == use.kind for each in plan.units) <= use.count
