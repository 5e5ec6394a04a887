"""The first triangle on each ray's way, met without a library that casts rays."""

from __future__ import annotations

import numpy as np
import pytest
import trimesh

from aimcalc.geometry import deck as module
from aimcalc.geometry.deck import first_met

# A ramp from z = 0 at x = 4 to z = 1 at x = 6, y from 0 to 2.
RAMP = np.array(
    [[(4, 0, 0), (6, 0, 1), (6, 2, 1)], [(4, 0, 0), (6, 2, 1), (4, 2, 0)]], dtype=float
).transpose(1, 2, 0)


def down(x, y, z=5.0):
    x, y = np.atleast_1d(np.array(x, dtype=float)), np.atleast_1d(np.array(y, dtype=float))
    start = np.stack((x, y, np.full(x.size, z)))
    return start, np.tile([[0.0], [0.0], [-1.0]], x.size)


def test_a_ray_meets_the_first_triangle_on_its_way_from_either_side():
    start, ray = down([5.0, 9.0], [1.0, 1.0])
    assert first_met(RAMP, start, ray).distance == pytest.approx([4.5, np.nan], nan_ok=True)
    start[2], ray = -1.0, -ray
    assert first_met(RAMP, start, ray).distance[0] == pytest.approx(1.5)


def test_what_is_behind_a_ray_is_not_met():
    start, ray = down(5.0, 1.0, z=0.2)
    assert np.isnan(first_met(RAMP, start, ray).distance).all()


def test_nothing_is_met_where_there_is_nothing():
    nothing = first_met(np.zeros((3, 3, 0)), *down([0.0, 1.0], [0.0, 1.0]))
    assert nothing.face.tolist() == [-1, -1]
    assert np.isnan(nothing.distance).all()
    assert first_met(RAMP, np.zeros((3, 0)), np.zeros((3, 0))).face.size == 0


def test_a_ray_without_a_number_in_it_meets_nothing_and_spoils_no_other():
    start, ray = down([5.0, np.nan, 5.0], [1.5, 1.5, 1.5])
    ray[:, 2] = np.nan
    assert first_met(RAMP, start, ray).face.tolist() == [1, -1, -1]


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


@pytest.mark.parametrize(("in_a_box", "at_once"), [(128, 1 << 20), (1, 50), (7, 200), (1000, 1)])
def test_many_triangles_are_met_where_three_equations_say(monkeypatch, in_a_box, at_once):
    monkeypatch.setattr(module, "IN_A_BOX", in_a_box)
    monkeypatch.setattr(module, "RAYS_AND_BOXES_AT_ONCE", at_once)
    monkeypatch.setattr(module, "ROWS_AT_ONCE", 16)
    hill = trimesh.creation.icosphere(subdivisions=2, radius=1.5)
    triangles = hill.triangles.transpose(1, 2, 0)
    rng = np.random.default_rng(4)
    start = rng.uniform((-2, -2, 3), (2, 2, 5), (40, 3)).T
    ray = rng.uniform((-1, -1, -0.5), (1, 1, 0.5), (40, 3)).T - start
    ray /= np.linalg.norm(ray, axis=0)
    expected = by_equations(triangles, start, ray)
    assert np.isfinite(expected).sum() > 20
    assert first_met(triangles, start, ray).distance == pytest.approx(expected, nan_ok=True)


def test_the_triangle_named_is_the_one_that_holds_the_point():
    """A face of a level checkerboard by the cell its point is in."""
    x, y = np.meshgrid(np.arange(30.0), np.arange(20.0))
    corner = np.stack((x.ravel(), y.ravel(), np.zeros(600)))
    steps = np.array([(0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0)])
    cells = corner + steps[:, :, None]  # the half of each cell next to its low corner
    rng = np.random.default_rng(1)
    column, row = rng.integers(0, 30, 50), rng.integers(0, 20, 50)
    start, ray = down(column + 0.2, row + 0.3)
    assert first_met(cells, start, ray).face.tolist() == (30 * row + column).tolist()


def test_triangles_that_lie_in_the_sides_of_their_box_are_met():
    """Level, upright and slanting squares of one cube, straight on and along the axes."""
    cube = trimesh.creation.box((2, 2, 2)).triangles.transpose(1, 2, 0)
    ways = np.concatenate((np.eye(3), -np.eye(3)), axis=1)
    found = first_met(cube, 3.0 * ways, -ways)
    assert found.distance == pytest.approx(np.full(6, 2.0))
