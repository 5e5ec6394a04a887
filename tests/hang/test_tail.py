"""The tail's reach over a block of poses, against posing the body at thousands of them."""

import numpy as np
import pytest

from aimcalc.geometry.aim import pose
from aimcalc.hang.tails import Body, Swing, exit_point, stretch, tie_places, worst_stretch


def unit_length(v):
    return v / np.sqrt((v * v).sum(axis=0))


def random_bodies(count, seed):
    rng = np.random.default_rng(seed)
    stem = unit_length(rng.normal(size=(3, count)))
    reference = unit_length(np.cross(stem.T, rng.normal(size=(count, 3))).T)
    back, below = rng.uniform(0, 0.4, count), rng.uniform(-0.1, 0.3, count)
    body = Body(rng.normal(size=(3, count)), stem, reference, back, below)
    turn, yoke = rng.uniform(-3, 3, count), rng.uniform(-3, 1, count)
    swing = Swing(turn, turn + rng.uniform(0, 4, count), yoke, yoke + rng.uniform(0, 3, count))
    return body, swing, rng


def at_share(low, high, share):
    return low + share * (high - low)


def sampled_worst(body, swing, tie, count=91):
    shares = np.linspace(0, 1, count)
    rows = [
        stretch(
            body,
            at_share(swing.turn_low, swing.turn_high, s),
            at_share(swing.yoke_low, swing.yoke_high, t),
            tie,
        )
        for s in shares
        for t in shares
    ]
    return np.max(rows, axis=0)


def test_exit_is_back_along_the_axis_and_below_the_body():
    body, swing, _ = random_bodies(50, 1)
    axis, up = pose(body.stem, body.reference, swing.turn_low, swing.yoke_low)
    expected = body.pivot - body.back * axis - body.below * up
    assert exit_point(body, swing.turn_low, swing.yoke_low) == pytest.approx(expected, abs=1e-12)


def test_worst_stretch_is_the_worst_of_thousands_of_poses():
    body, swing, rng = random_bodies(60, 2)
    tie = body.pivot + 0.5 * rng.normal(size=(3, 60))
    worst, sampled = worst_stretch(body, swing, tie), sampled_worst(body, swing, tie)
    assert (worst >= sampled - 1e-12).all()
    # Between samples at most (step / 2)^2 / 2 of a radius is missed: 4/90 and 3/90 rad, radius 0.5 m.
    assert (worst - sampled).max() < 2e-3


def test_a_block_of_one_pose_is_that_pose():
    body, swing, rng = random_bodies(20, 3)
    tie = body.pivot + rng.normal(size=(3, 20))
    one = Swing(swing.turn_low, swing.turn_low, swing.yoke_low, swing.yoke_low)
    there = stretch(body, swing.turn_low, swing.yoke_low, tie)
    assert worst_stretch(body, one, tie) == pytest.approx(there, abs=1e-12)


def test_tie_places_are_all_the_places_that_keep_the_loop():
    body, swing, rng = random_bodies(80, 4)
    base = body.pivot - 0.35 * body.stem
    along = unit_length(np.cross(body.stem.T, rng.normal(size=(80, 3))).T)
    usable = rng.uniform(0.3, 1.0, 80)
    low, high = tie_places(body, swing, base, along, usable)
    places = np.linspace(-2, 2, 801)
    worst = np.array([worst_stretch(body, swing, base + k * along) for k in places])
    step = places[1] - places[0]
    held = 0
    for n in range(80):
        good = places[worst[:, n] <= usable[n]]
        if np.isnan(low[n]):
            assert good.size == 0
        elif good.size:
            assert low[n] == pytest.approx(good[0], abs=step)
            assert high[n] == pytest.approx(good[-1], abs=step)
            held += 1
    assert held > 20


def test_at_the_furthest_place_the_tail_is_just_used_up():
    body, swing, _ = random_bodies(80, 5)
    base = body.pivot - 0.35 * body.stem
    along = unit_length(np.cross(body.stem.T, body.reference.T).T)
    usable = np.full(80, 0.9)
    for k in tie_places(body, swing, base, along, usable):
        there = ~np.isnan(k)
        worst = worst_stretch(body, swing, base + np.nan_to_num(k) * along)
        assert there.any()
        assert worst[there] == pytest.approx(usable[there], abs=1e-6)


def test_an_unknown_exit_gives_no_number():
    body, swing, _ = random_bodies(2, 6)
    unknown = body._replace(back=np.array([np.nan, 0.2]))
    worst = worst_stretch(unknown, swing, body.pivot)
    assert np.isnan(worst).tolist() == [True, False]
    low, _ = tie_places(unknown, swing, body.pivot, body.reference, np.array([2.0, 2.0]))
    assert np.isnan(low).tolist() == [True, False]
