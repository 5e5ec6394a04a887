"""Pools of cones on level planes: closed-form rows worked out apart, and rims sampled ray by ray."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.geometry.pools import level_pools, outline

# h, tilt from straight down, full angle: half-length, half-width, near, far, centre, area. Closed form;
# checked with 4000 rays on the cone and a conic fitted to them, area by the shoelace rule.
ELLIPSES = [
    (20, 0, 20, 3.526540, 3.526540, -3.526540, 3.526540, 0, 39.070359),
    (20, 45, 20, 7.279405, 5.066666, 14.004151, 28.562960, 21.283555, 115.869212),
    (16, 30, 26, 5.014275, 4.303741, 4.891691, 14.920241, 9.905966, 67.796015),
    (10, 60, 19, 7.307622, 3.496965, 12.130970, 26.746215, 19.438592, 80.281835),
    (12, 35, 36, 6.127885, 4.888031, 3.668768, 15.924538, 9.796653, 94.101037),
    (18, 50, 26, 10.881508, 6.724544, 13.563973, 35.326989, 24.445481, 229.880329),
]


def cone(height: float, tilt: float, angle: float, heading: float = 0.7):
    """Lens, axis and half angle of one cone over the plane z = 0, as level_pools takes them."""
    t = np.radians(tilt)
    axis = np.array([[np.sin(t) * np.sin(heading)], [np.sin(t) * np.cos(heading)], [-np.cos(t)]])
    return np.array([[1.0], [2.0], [float(height)]]), axis, np.radians([angle / 2])


@pytest.mark.parametrize("row", ELLIPSES)
@pytest.mark.parametrize("upside", [1, -1])
def test_closed_pools_agree_with_the_rows_above_and_below_the_lens(row, upside):
    height, tilt, angle, half_length, half_width, near, far, centre, area = row
    lens, axis, half = cone(height, tilt, angle)
    mirror = np.array([[1.0], [1.0], [upside]])
    pool = level_pools(lens * mirror, axis * mirror, half, np.zeros(1))
    assert pool.closed[0]
    assert pool.length[0] / 2 == pytest.approx(half_length, abs=1e-5)
    assert pool.width[0] / 2 == pytest.approx(half_width, abs=1e-5)
    assert (pool.near[0], pool.far[0]) == pytest.approx((near, far), abs=1e-5)
    assert pool.area[0] == pytest.approx(area, rel=1e-6)
    out = np.array([np.sin(0.7), np.cos(0.7)]) * centre
    np.testing.assert_allclose(pool.centre[:, 0], (1 + out[0], 2 + out[1], 0), atol=2e-5)


def rim_hits(lens, axis, half, count=4000):
    """Rays on the rim of one cone, built from a rotation about the axis, cut with z = 0."""
    from scipy.spatial.transform import Rotation

    f = axis[:, 0]
    aside = np.cross(f, (0.3, -0.2, 0.9))
    first = Rotation.from_rotvec(aside / np.linalg.norm(aside) * half[0]).apply(f)
    turns = np.linspace(0, 2 * np.pi, count, endpoint=False)
    rays = Rotation.from_rotvec(np.outer(turns, f)).apply(first)
    with np.errstate(divide="ignore"):
        reach = -lens[2, 0] / rays[:, 2]
    return lens[:, 0] + rays * reach[:, None], reach > 0


def test_random_pools_agree_with_sampled_rims():
    rng = np.random.default_rng(5)
    closed = opened = missed = 0
    for _ in range(400):
        lens, axis, half = cone(rng.uniform(1, 9), rng.uniform(0, 130), rng.uniform(5, 70), 0.0)
        pool = level_pools(lens, axis, half, np.zeros(1))
        hits, ahead = rim_hits(lens, axis, half)
        depth = hits[:, 1] - 2
        if ahead.all():
            closed += 1
            assert pool.closed[0]
            assert pool.far[0] == pytest.approx(depth.max(), rel=1e-4)
            assert pool.near[0] == pytest.approx(depth.min(), rel=1e-4, abs=1e-4)
            assert pool.width[0] == pytest.approx(np.ptp(hits[:, 0]), rel=1e-4)
            x, y = hits[:, 0], hits[:, 1]
            if np.ptp(y) > 200:
                continue  # so nearly open that 4000 rays no longer draw its far end
            shoelace = 0.5 * abs(np.dot(x, np.roll(y, 1)) - np.dot(y, np.roll(x, 1)))
            assert pool.area[0] == pytest.approx(shoelace, rel=1e-4)
        elif ahead.any():
            opened += 1
            assert pool.reached[0]
            assert not pool.closed[0]
            assert np.isnan(pool.area[0])
            assert pool.near[0] == pytest.approx(depth[ahead].min(), rel=1e-3, abs=1e-3)
        else:
            missed += 1
            assert not pool.reached[0]
    assert min(closed, opened, missed) > 20


def test_a_drawn_pool_has_the_area_of_its_ellipse():
    lens, axis, half = cone(20, 45, 20)
    rim = outline(lens[:, 0], axis[:, 0], half[0], 0.0, reach=100.0, count=2000)
    x, y = rim[0], rim[1]
    shoelace = 0.5 * abs(np.dot(x, np.roll(y, 1)) - np.dot(y, np.roll(x, 1)))
    assert shoelace == pytest.approx(115.869212, rel=1e-5)


def test_a_drawn_open_pool_is_cut_at_its_reach_and_lies_on_the_cone():
    lens, axis, half = cone(4, 80, 40, 0.0)
    rim = outline(lens[:, 0], axis[:, 0], half[0], 0.0, reach=30.0)
    plan = np.hypot(rim[0] - 1, rim[1] - 2)
    assert plan[[0, -1]] == pytest.approx(30.0, abs=1e-6)
    assert (plan <= 30 + 1e-6).all()
    rays = rim - lens
    along = axis[:, 0] @ rays / np.linalg.norm(rays, axis=0)
    np.testing.assert_allclose(along, np.cos(half[0]), atol=1e-9)


def test_the_pool_of_a_cone_that_points_away_is_drawn_as_nothing():
    lens, axis, half = cone(4, 130, 20)
    assert outline(lens[:, 0], axis[:, 0], half[0], 0.0, reach=30.0).shape == (3, 0)
