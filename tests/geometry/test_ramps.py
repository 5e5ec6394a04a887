"""Triangles to stand on: heights and rays, a slab at a time."""

from __future__ import annotations

import numpy as np
import pytest
import trimesh

from aimcalc.geometry import ramps
from aimcalc.geometry.ramps import first_met, highest

# A ramp from z = 0 at x = 4 to z = 1 at x = 6, y from 0 to 2.
RAMP = np.array(
    [[(4, 0, 0), (6, 0, 1), (6, 2, 1)], [(4, 0, 0), (6, 2, 1), (4, 2, 0)]], dtype=float
).transpose(1, 2, 0)
UPRIGHT = np.array([[(0, 0, 0), (0, 1, 0), (0, 1, 3)]], dtype=float).transpose(1, 2, 0)


def down(x, y, z=5.0):
    x, y = np.atleast_1d(np.array(x, dtype=float)), np.atleast_1d(np.array(y, dtype=float))
    start = np.stack((x, y, np.full(x.size, z)))
    return start, np.tile([[0.0], [0.0], [-1.0]], x.size)


def test_a_ramp_is_as_high_as_its_slope_and_nothing_beside_it():
    told = highest(RAMP, np.array([4.5, 6.0, 5.0, 7.0]), np.array([0.2, 2.0, 1.0, 1.0]))
    assert told == pytest.approx([0.25, 1.0, 0.5, np.nan], nan_ok=True)


def test_the_highest_of_two_counts_in_either_order():
    over = RAMP + np.array([0.0, 0.0, 2.0])[None, :, None]
    for both in ((RAMP, over), (over, RAMP)):
        told = highest(np.concatenate(both, axis=2), np.array([5.0]), np.array([1.0]))
        assert told == pytest.approx([2.5])


def test_an_upright_triangle_has_no_height():
    assert np.isnan(highest(UPRIGHT, np.array([0.0]), np.array([0.9]))).all()


def test_a_ray_meets_the_first_triangle_on_its_way_from_either_side():
    start, ray = down([5.0, 9.0], [1.0, 1.0])
    assert first_met(RAMP, start, ray) == pytest.approx([4.5, np.nan], nan_ok=True)
    start[2], ray = -1.0, -ray
    assert first_met(RAMP, start, ray)[0] == pytest.approx(1.5)


def test_what_is_behind_a_ray_is_not_met():
    start, ray = down(5.0, 1.0, z=0.2)
    assert np.isnan(first_met(RAMP, start, ray)).all()


def test_nothing_is_met_where_there_is_nothing():
    none = np.zeros((3, 3, 0))
    assert np.isnan(highest(none, np.zeros(2), np.zeros(2))).all()
    assert np.isnan(first_met(none, *down([0.0, 1.0], [0.0, 1.0]))).all()
    assert highest(RAMP, np.zeros(0), np.zeros(0)).size == 0
    assert first_met(RAMP, np.zeros((3, 0)), np.zeros((3, 0))).size == 0


def by_equations(triangles, start, ray):
    """Another way: corner + b e1 + c e2 = start + t ray as three equations, for every pair."""
    corner, first, second = triangles.transpose(0, 2, 1)
    found = np.full(start.shape[1], np.inf)
    for k in range(start.shape[1]):
        columns = np.stack((first - corner, second - corner, np.tile(-ray[:, k], (len(corner), 1))))
        b, c, t = np.linalg.solve(columns.transpose(1, 2, 0), (start[:, k] - corner)[..., None])[
            ..., 0
        ].T
        hit = (b >= 0) & (c >= 0) & (b + c <= 1) & (t >= 0)
        found[k] = t[hit].min(initial=np.inf)
    return np.where(np.isinf(found), np.nan, found)


@pytest.mark.parametrize("at_once", [ramps.PAIRS_AT_ONCE, 50])
def test_many_triangles_are_met_where_three_equations_say(monkeypatch, at_once):
    monkeypatch.setattr(ramps, "PAIRS_AT_ONCE", at_once)
    hill = trimesh.creation.icosphere(subdivisions=2, radius=1.5)
    triangles = hill.triangles.transpose(1, 2, 0)
    rng = np.random.default_rng(4)
    start = rng.uniform((-2, -2, 3), (2, 2, 5), (40, 3)).T
    ray = rng.uniform((-1, -1, -0.5), (1, 1, 0.5), (40, 3)).T - start
    ray /= np.linalg.norm(ray, axis=0)
    expected = by_equations(triangles, start, ray)
    assert np.isfinite(expected).sum() > 20
    assert first_met(triangles, start, ray) == pytest.approx(expected, nan_ok=True)


def test_a_step_of_slabs_changes_no_height(monkeypatch):
    rng = np.random.default_rng(2)
    corners = rng.uniform(-3, 3, (3, 3, 60))
    x, y = rng.uniform(-3, 3, (2, 30))
    whole = highest(corners, x, y)
    monkeypatch.setattr(ramps, "PAIRS_AT_ONCE", 70)
    assert highest(corners, x, y) == pytest.approx(whole, abs=0, nan_ok=True)
    assert np.isfinite(whole).any()
