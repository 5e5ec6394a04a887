"""Turning a unit to its aim past what hangs beside it."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.geometry import bodies, sweep
from aimcalc.geometry.hulls import distance, rods, triangles
from aimcalc.geometry.solids import box, panel, soup
from tests.hung import INCH, a_row


def gap_of(moving, still):
    """Least distance between parts (3, PARTS, K) of one unit and of another, the clamp apart."""
    count = still.shape[1]
    moving = moving[:, : bodies.CLAMP_BLOCK]
    a = np.repeat(moving, count, axis=1)
    b = np.tile(still, (1, moving.shape[1], 1))
    return distance(a, b).min()


def walked(row, unit, still, steps=200):
    """Least gap to parts that stay still along a path, tipped first, walked in many small even steps."""
    tip, turn, none = row.yoke[unit] - row.level[unit], row.turn[unit], np.zeros(steps)
    tips = np.concatenate((np.linspace(0, tip, steps), none + tip))
    turns = np.concatenate((none, np.linspace(0, turn, steps)))
    one = bodies.rows(row, np.full(2 * steps, unit))
    moving = bodies.parts(one, turns, one.level + tips)[:, :, : bodies.CLAMP_BLOCK]
    a = np.repeat(moving, still.shape[1], axis=2).reshape(3, -1, bodies.CORNERS)
    return distance(a, np.tile(still, (1, 2 * steps * bodies.CLAMP_BLOCK, 1))).min()


def path_of(paths, turns, unit, other):
    k = np.flatnonzero((turns.unit == unit) & (turns.other == other))[0]
    return {
        "clear": paths.clear[k],
        "tip_first": paths.tip_first[k],
        "turn": np.degrees(paths.turn[k]),
    }


def gap_over_turn(units, unit, obstacle, turns):
    """Gap of one unit, tipped to its aim, to an obstacle (3, Q, K) at each of some turns, (M,)."""
    one = bodies.rows(units, np.full(turns.size, unit))
    count = obstacle.shape[1]
    moving = bodies.parts(one, turns, one.yoke)[:, :, : bodies.CLAMP_BLOCK]
    a = np.repeat(moving, count, axis=2).reshape(3, -1, bodies.CORNERS)
    b = np.tile(obstacle, (1, turns.size * bodies.CLAMP_BLOCK, 1))
    return distance(a, b).reshape(turns.size, -1).min(axis=1)


def test_units_far_apart_are_no_pair():
    assert sweep.past_neighbours(a_row([70, 0], 35, spacing=60)).unit.size == 0


def test_pairs_are_told_both_ways_round():
    turns = sweep.past_neighbours(a_row([20, 10, 0], 35))
    pairs = set(zip(turns.unit.tolist(), turns.other.tolist(), strict=True))
    assert pairs == {(0, 1), (1, 0), (1, 2), (2, 1)}


def test_hard_case_8_bare_bodies_pass_and_top_hats_do_not():
    """Common practice, no source: 18 in centres, both down 35, bodies 26 by 8 in, yokes 12 in.

    A unit panned 70 past a square neighbour clears by 1.1 in bare; with 6 in top hats it touches from
    about 40 to 80. Where the pivot sits in the body and what its section is are not given: with the
    pivot in the middle and a round (eight-sided) body it clears here by 1.3 in and touches from 42 to 87.
    """
    bare, hatted = a_row([70, 0], 35), a_row([70, 0], 35, hat=6)
    pans = np.radians(np.arange(0, 91))
    gaps = gap_over_turn(bare, 0, bodies.set_parts(bare)[:, 1], pans) / INCH
    assert gaps[70] == pytest.approx(1.1, abs=0.25)
    assert gaps.min() > 0.9

    with_hats = gap_over_turn(hatted, 0, bodies.set_parts(hatted)[:, 1], pans)
    touching = np.flatnonzero(with_hats <= 0)
    assert touching[0] == pytest.approx(40, abs=4)
    assert touching[-1] == pytest.approx(80, abs=8)
    assert with_hats[90] > 0  # the worst angle is not the largest


def test_hard_case_8_swept_a_unit_aimed_clear_past_the_worst_angle_is_still_caught():
    # Panned 89 the two do not touch once set, but the way there does.
    row = a_row([89, 0], 35, hat=6)
    assert gap_of(bodies.set_parts(row)[:, 0], bodies.set_parts(row)[:, 1]) > 0
    turns = sweep.past_neighbours(row, earliest=True)
    past = path_of(turns.beside_set, turns, 0, 1)
    assert not past["clear"]
    assert past["turn"] == pytest.approx(42, abs=3)


def test_the_gap_over_a_turn_is_the_gap_of_the_posed_bodies():
    row = a_row([50, 0], [35, 20], hat=6, spacing=20)
    still = bodies.set_parts(row)[:, 1]
    posed = gap_of(bodies.set_parts(row)[:, 0], still)
    assert gap_over_turn(row, 0, still, row.turn[:1]) == pytest.approx([posed])


def test_no_touch_is_stepped_over_and_none_is_made_up():
    rng = np.random.default_rng(11)
    agreed = {True: 0, False: 0}
    for _ in range(24):
        row = a_row(
            rng.uniform(-85, 85, 2), rng.uniform(0, 70, 2), spacing=rng.uniform(16, 24), hat=4
        )
        still = bodies.square_parts(row)[:, 1]
        least = walked(row, 0, still)
        path = sweep.turned_past(row, np.array([0]), still[:, None], np.zeros(1))
        if least <= 0:
            assert not path.tip_first[0]
        if least > sweep.TOUCH + 0.002:  # what even steps may miss by
            assert path.tip_first[0]
        agreed[bool(path.tip_first[0])] += 1
    assert min(agreed.values()) >= 3


def test_many_turns_at_once_are_each_what_it_is_alone():
    """Units of a close row past each other, and past fattened and thin ones, alike in unit and poses."""
    rng = np.random.default_rng(3)
    row = a_row(rng.uniform(-85, 85, 6), rng.uniform(0, 70, 6), spacing=17, hat=4)
    unit, other = (side.ravel() for side in np.indices((6, 6)))
    still, fat = bodies.square_parts(row)[:, other], rng.choice([0.0, 0.03], 36)
    every = sweep.turned_past(row, unit, still, fat, both=True)
    assert 5 <= every.clear.sum() <= 25
    for k in range(36):
        one = slice(k, k + 1)
        alone = sweep.turned_past(row, unit[one], still[:, one], fat[one], both=True)
        for together, by_itself in zip(every, alone, strict=True):
            np.testing.assert_array_equal(together[one], by_itself)


def test_a_thin_wire_in_the_way_is_not_stepped_over():
    row = a_row([80], 0)
    pivot = np.array([0, 0, 5.0 - 14 * INCH])
    out = np.array([np.sin(np.radians(41.3)), np.cos(np.radians(41.3)), 0])

    def wire(inches):
        foot = (pivot + inches * INCH * out)[:, None]
        down = np.array([[0.0], [0.0], [-1.0]])
        return rods(foot + down, foot - down, radius=0.001, owner=np.array([0]))

    # Corners of the body's front, 13 in out and 4 in to a side, go round at sqrt(13^2 + 4^2) = 13.60 in.
    assert sweep.past_fixed(row, wire(13.75))[2].clear.all()
    unit, other, path = sweep.past_fixed(row, wire(13.55))
    assert (unit.tolist(), other.tolist(), path.clear.tolist()) == ([0], [0], [False])


def test_a_post_above_the_path_asks_for_tipping_first_and_one_below_for_turning_first():
    # From level to 60 down, panned 80. Turned level first, the nose meets a stub at 50 that it passes
    # beneath once tipped; tipped first it meets a stub far down at 15 that it passes over while level.
    row, z = a_row([80], 60), 5.0 - 14 * INCH

    def past(out, pan, low, high):
        x, y = out * INCH * np.sin(np.radians(pan)), out * INCH * np.cos(np.radians(pan))
        stub = box((x - 0.01, y - 0.01, z + low * INCH), (x + 0.01, y + 0.01, z + high * INCH))
        return sweep.past_fixed(row, triangles(soup([stub])))[2]

    above = past(11, 50, -2, 2)
    assert above.clear.all()
    assert above.tip_first.all()
    below = past(6.5, 15, -12, -9)
    assert below.clear.all()
    assert not below.tip_first.all()
    assert np.isfinite(below.turn[~below.tip_first]).all()  # where tipping first would touch


def test_the_first_touch_says_which_part_and_at_what_turn():
    row = a_row([80], 0)
    at = 10 * INCH * np.array([np.sin(np.radians(60)), np.cos(np.radians(60))])
    post = box((*(at - 0.01), 4.0), (*(at + 0.01), 6.0))
    _, _, path = sweep.past_fixed(row, triangles(soup([post])), earliest=True)
    assert not path.clear.any()
    assert {bodies.PART_NAMES[k] for k in path.part} == {"body"}
    # The post is 10 in out at 60; the body is 4 in to either side: met asin((4 in + 1.4 cm) / 10 in) early.
    early = np.degrees(np.arcsin((4 * INCH + 0.0137) / (10 * INCH)))
    assert np.degrees(path.turn.min()) == pytest.approx(60 - early, abs=1.0)
    assert path.yoke == pytest.approx(0)


def test_a_unit_of_unknown_size_touches_nothing():
    row = a_row([70, 0], 35, length=[np.nan, 26], hat=6)
    turns = sweep.past_neighbours(row)
    assert turns.beside_square.clear.all()


def test_a_rig_of_unknown_sizes_has_no_pairs():
    assert sweep.past_neighbours(a_row([70, 0], 35, length=np.nan)).unit.size == 0


def test_no_units_make_no_pairs():
    assert sweep.past_neighbours(a_row([], [])).unit.size == 0


def test_the_owner_passed_over_is_in_nobodys_way():
    row = a_row([80], 0)
    at = 10 * INCH * np.array([np.sin(np.radians(60)), np.cos(np.radians(60))])
    post = triangles(soup([box((*(at - 0.01), 4.0), (*(at + 0.01), 6.0))], [3]))
    assert not sweep.past_fixed(row, post)[2].clear.all()
    assert sweep.past_fixed(row, post, passed_over=np.array([3]))[0].size == 0
    assert sweep.past_fixed(row, post, passed_over=np.array([[9], [4]]))[0].size > 0


def test_what_is_out_of_reach_but_inside_a_slanting_panels_box_is_not_followed():
    row = a_row([80], 0)
    far = panel([(-2, -2, 5), (-2, -2, 4), (2, 2.9, 4), (2, 2.9, 5)])  # passes 0.6 m from the pivot
    off = panel([(-3, 0, 5), (-3, 0, 4), (0.5, 3.5, 4), (0.5, 3.5, 5)])
    unit, _, _ = sweep.past_fixed(row, triangles(soup([off])))
    assert unit.size == 0
    assert sweep.past_fixed(row, triangles(soup([far])))[0].size > 0
