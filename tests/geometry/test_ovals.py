"""Pools of oval fields: against round ones, sampled rims and a worked case of the trade."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.geometry.pools import edges, level_across, level_pools, oval_outline, oval_pools
from tests.studies import cases

FOOT = 0.3048
AXES = np.array([[0, 1.0, 0, 3], [1, 1, 0, 0], [0, -1, -1, 0]])


def cone(height, down, heading=0.4):
    """Lens and axis of one unit over z = 0."""
    d = np.radians(down)
    axis = [np.sin(heading) * np.cos(d), np.cos(heading) * np.cos(d), -np.sin(d)]
    return np.array([[1.0], [2.0], [float(height)]]), np.array(axis)[:, None]


def across(axis, turn):
    """The wide way of an oval: level to the right along the beam, turned anti-clockwise; (3, 1)."""
    f = axis[:, 0]
    right = np.array((f[1], -f[0], 0)) / np.hypot(f[0], f[1])
    up = np.cross(right, f)
    return (np.cos(turn) * right + np.sin(turn) * up)[:, None]


def pool(height, down, wide, narrow, turn=0.0):
    lens, axis = cone(height, down)
    rim = edges(
        axis, across(axis, np.radians(turn)), np.radians([wide / 2]), np.radians([narrow / 2])
    )
    return oval_pools(lens, axis, rim, np.zeros(1)), (lens, axis, rim)


def test_across_is_level_to_the_right_as_seen_along_the_beam():
    across = level_across(AXES)
    # Facing upstage, the right hand is stage left (+x): as seen from the house.
    np.testing.assert_allclose(across[:, 0], [1, 0, 0])
    np.testing.assert_allclose(across[:, 1], np.array([1, -1, 0]) / np.sqrt(2))
    np.testing.assert_allclose(across[:, 2], [1, 0, 0])  # straight down: across the stage
    np.testing.assert_allclose(across[:, 3], [0, -1, 0], atol=1e-15)
    np.testing.assert_allclose((across * AXES).sum(axis=0), 0, atol=1e-15)


def test_a_turn_is_anti_clockwise_as_seen_along_the_beam():
    # Looking upstage, from 3 o'clock (SL) anti-clockwise a quarter turn is 12 o'clock: up.
    up = level_across(np.array([[0.0], [1], [0]]), np.pi / 2)
    np.testing.assert_allclose(up[:, 0], [0, 0, 1], atol=1e-15)


def test_a_par_24_by_48_down_45_from_12_ft_9_in():
    """Common practice, no source: long axis up-down 8'-7" x 28'-3"; across 16'-5" x 11'-4"."""
    along, _ = pool(12.75, 45, 24, 48)
    level, _ = pool(12.75, 45, 48, 24)
    assert (along.width[0], along.length[0]) == pytest.approx((8 + 7 / 12, 28.25), abs=0.08)
    assert (level.width[0], level.length[0]) == pytest.approx((16 + 5 / 12, 11 + 4 / 12), abs=0.08)


@pytest.mark.parametrize("down", [80, 45, 20, 8, -5, -30])
def test_two_equal_angles_give_the_round_pool(down):
    oval, (lens, axis, _) = pool(4.0, down, 26, 26)
    circle = level_pools(lens, axis, np.radians([13.0]), np.zeros(1))
    for one, other in zip(oval, circle, strict=True):
        np.testing.assert_allclose(one, other, rtol=1e-9, atol=1e-9)


@pytest.mark.long
def test_random_ovals_agree_with_sampled_rims():
    rng, count = np.random.default_rng(8), cases(70, 200)
    seen = {True: 0, False: 0}
    for _ in range(count):
        wide, narrow, turn = rng.uniform(8, 60), rng.uniform(5, 30), rng.uniform(-90, 90)
        told, (lens, axis, rim) = pool(rng.uniform(1, 8), rng.uniform(0, 88), wide, narrow, turn)
        phi = np.linspace(0, 2 * np.pi, 20000, endpoint=False)
        rays = axis + rim[0] * np.cos(phi) + rim[1] * np.sin(phi)
        ahead = rays[2] < 0
        hits = (lens + rays * (-lens[2] / rays[2]))[:2, ahead] - lens[:2]
        along = np.array((np.sin(0.4), np.cos(0.4))) @ hits
        beside = np.array((np.cos(0.4), -np.sin(0.4))) @ hits
        closed = bool(ahead.all())
        if closed and np.ptp(along) > 60:
            continue  # so nearly open that the samples no longer draw its far end
        seen[closed] += 1
        assert told.closed[0] == closed
        assert told.near[0] == pytest.approx(along.min(), rel=1e-3, abs=1e-3)
        if closed:
            assert told.far[0] == pytest.approx(along.max(), rel=1e-4)
            assert told.width[0] == pytest.approx(np.ptp(beside), rel=1e-4)
            x, y = hits
            shoelace = 0.5 * abs(np.dot(x, np.roll(y, 1)) - np.dot(y, np.roll(x, 1)))
            assert told.area[0] == pytest.approx(shoelace, rel=1e-4)
            middle = (along.max() + along.min()) / 2, (beside.max() + beside.min()) / 2
            out = told.centre[:2, 0] - lens[:2, 0]
            assert out @ (np.sin(0.4), np.cos(0.4)) == pytest.approx(middle[0], rel=1e-3, abs=1e-3)
            assert out @ (np.cos(0.4), -np.sin(0.4)) == pytest.approx(middle[1], rel=1e-3, abs=1e-3)
    assert min(seen.values()) > 0.1 * count


def test_an_oval_drawn_has_its_own_area_and_an_open_one_stays_within_reach():
    told, (lens, axis, rim) = pool(5.0, 50, 48, 24, 30)
    one = tuple(v[:, 0] for v in rim)
    drawn = oval_outline(lens[:, 0], axis[:, 0], one, 0.0, reach=100.0, count=400)
    shoelace = 0.5 * abs(
        np.dot(drawn[0], np.roll(drawn[1], 1)) - np.dot(drawn[1], np.roll(drawn[0], 1))
    )
    assert shoelace == pytest.approx(told.area[0], rel=1e-3)
    told, (lens, axis, rim) = pool(3.0, 10, 24, 48)
    one = tuple(v[:, 0] for v in rim)
    drawn = oval_outline(lens[:, 0], axis[:, 0], one, 0.0, reach=20.0, count=96)
    plan = np.hypot(drawn[0] - 1, drawn[1] - 2)
    assert not told.closed[0]
    assert plan.max() <= 20
    assert plan[[0, -1]] == pytest.approx(20, rel=0.05)
    assert np.linalg.norm(np.diff(drawn, axis=1), axis=0).max() < 5  # one run, without a jump
