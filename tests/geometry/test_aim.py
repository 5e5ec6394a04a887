"""The aim solver: choices, edges and what does not exist."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.geometry import vectors
from aimcalc.geometry.aim import ON_ITS_SIDE, UPRIGHT, UPSIDE_DOWN, Mounted, aim, cut, pose
from aimcalc.geometry.deck import Deck


def mounted(points, **given):
    """Units hung under a clamp at the origin, square upstage, each at one of `points`."""
    point = np.array(points, float).reshape(-1, 3).T
    n = point.shape[1]
    table = {
        "clamp": np.zeros((3, n)),
        "stem": np.tile([[0.0], [0.0], [-1.0]], n),
        "reference": np.tile([[0.0], [1.0], [0.0]], n),
        "point": point,
        "stand": np.full((3, n), np.nan),
        "yoke_min": -np.pi,
        "yoke_max": np.pi,
        "field": np.radians(26),
        "beam": np.radians(14),
        "tolerance": np.radians(6.5),
        "tape_sense": 1.0,
        "sight_out": 3.0,
        **given,
    }
    columns = {}
    for name in Mounted._fields:
        value = np.asarray(table.get(name, 0.0))
        columns[name] = value if value.ndim == 2 else np.full(n, value, float)
    columns["tail_up"] = columns["tail_up"].astype(bool)
    return Mounted(**columns)


def aimed(points, **given):
    return aim(mounted(points, **given), Deck())


def test_no_units_have_no_aims():
    assert aimed(np.zeros((0, 3))).heading.shape == (0,)


def test_a_target_to_stage_left_is_swung_to_and_one_to_stage_right_the_other_way():
    told = aimed([(1, 2, -2), (-1, 2, -2)])
    assert told.swing_sign[0] == -told.swing_sign[1]
    assert np.degrees(told.heading) == pytest.approx([26.565051, -26.565051])
    assert np.degrees(told.pan) == pytest.approx([26.565051] * 2)
    # + of this tape is stage left: 3 m out, tan(pan) = 1/2.
    assert told.sight == pytest.approx([1.5, -1.5])


def test_the_way_within_the_yoke_s_travel_is_taken_even_upside_down():
    free = aimed([(0, 3, -3)])
    assert free.attitude[0] == UPRIGHT
    assert np.degrees(free.yoke) == pytest.approx([45])
    forced = aimed([(0, 3, -3)], yoke_min=np.radians(90), yoke_max=np.radians(180))
    assert forced.attitude[0] == UPSIDE_DOWN
    assert np.degrees(forced.yoke) == pytest.approx([135])
    assert forced.in_travel[0]
    assert forced.axis[:, 0] == pytest.approx(free.axis[:, 0])


def test_out_of_travel_both_ways_keeps_the_upright_one_and_says_so():
    told = aimed([(0, 3, -3)], yoke_min=np.radians(-20), yoke_max=np.radians(20))
    assert told.attitude[0] == UPRIGHT
    assert not told.in_travel[0]


def test_a_yoke_angle_exactly_at_its_limit_is_within_travel():
    assert aimed([(0, 3, -3)], yoke_max=np.radians(45)).in_travel[0]
    assert not aimed([(0, 3, -3)], yoke_max=np.radians(44.999)).in_travel[0]


def test_a_unit_reported_tail_up_is_rolled_half_over():
    told = aimed([(0, 3, -3)], tail_up=1)
    assert told.attitude[0] == UPSIDE_DOWN
    assert np.degrees(told.roll) == pytest.approx([180])
    assert told.up[2, 0] < 0


def test_a_level_stem_lays_the_body_on_its_side():
    told = aimed(
        [(0, 5, -1)], stem=np.array([[1.0], [0], [0]]), reference=np.array([[0.0], [1], [0]])
    )
    assert told.attitude[0] == ON_ITS_SIDE
    assert np.degrees(told.roll) == pytest.approx([90])


def test_a_point_inside_the_unit_has_an_axis_but_no_throw():
    told = aimed([(0, 0.2, 0)], nose=0.3)
    assert np.isnan(told.throw[0])
    assert np.isnan(told.field_diameter[0])
    assert told.axis[:, 0] == pytest.approx((0, 1, 0))


def test_a_point_nearer_the_pivot_than_the_axis_is_cannot_be_hit():
    told = aimed([(0, 0.03, 0)], rise=0.05)
    assert np.isnan(told.yoke[0])
    assert np.isnan(told.axis).all()
    assert not told.in_travel[0]


def test_sight_tape_ends_at_60_degrees_of_pan():
    t = np.tan(np.radians([59.999, 60, 60.001]))
    told = aimed([(x, 1, -1) for x in t])
    assert np.isfinite(told.sight).tolist() == [True, True, False]


def test_pan_tolerance_is_down_tolerance_over_cos_down():
    """At down 60 pan may be twice as loose: 6.5 becomes 13."""
    told = aimed([(0, 1, -np.sqrt(3))])
    assert np.degrees(told.pan_tolerance) == pytest.approx([13])


def test_the_turn_told_poses_the_body_as_aimed():
    rng = np.random.default_rng(2)
    given = mounted(rng.uniform(-5, 5, (500, 3)), drop=0.3)
    told = aim(given, Deck())
    axis, up = pose(given.stem, given.reference, told.turn, told.yoke)
    np.testing.assert_allclose(axis, told.axis, atol=1e-12)
    np.testing.assert_allclose(up, told.up, atol=1e-12)


def test_axes_beside_the_bolts_and_through_them_in_one_rig_each_lead_from_their_lens_to_the_point():
    """Posed as told, the lens is where its pivot, nose and rise put it, and the point is ahead of it."""
    rng = np.random.default_rng(6)
    rise = rng.choice([0.0, 0.02, -0.03], 500)
    given = mounted(rng.uniform(-5, 5, (500, 3)), drop=0.3, nose=0.2, rise=rise)
    told = aim(given, Deck())
    axis, up = pose(given.stem, given.reference, told.turn, told.yoke)
    np.testing.assert_allclose(told.lens, told.pivot + 0.2 * axis + rise * up, atol=1e-12)
    np.testing.assert_allclose(told.lens + told.throw * axis, given.point, atol=1e-12)
    roll = np.arctan2(np.abs(np.cross(axis.T, up.T)[:, 2]), up[2])
    slack = np.abs(told.down) < np.radians(87)
    np.testing.assert_allclose(told.roll[slack], roll[slack], atol=1e-12)


def test_long_rigs_in_blocks_on_threads_give_what_short_ones_give(monkeypatch):
    monkeypatch.setattr(vectors, "SPAN", 2 * vectors.BLOCK)
    rng = np.random.default_rng(4)
    given = mounted(rng.uniform(-5, 5, (vectors.BLOCK * 5 + 7, 3)), drop=0.3)
    long = aim(given, Deck())
    for part in (slice(0, 100), slice(vectors.BLOCK - 50, vectors.BLOCK + 50), slice(-80, None)):
        short = aim(cut(given, part), Deck())
        for one, other in zip(cut(long, part), short, strict=True):
            np.testing.assert_array_equal(one, other)
