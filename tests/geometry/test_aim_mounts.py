"""Stems and references of the mounts."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.geometry import aim as mounts


def column(*values):
    return np.array(values, float)[:, None]


DOWN = column(0, 0, -1)
ACROSS, UPSTAGE, DOWNSTAGE = column(1, 0, 0), column(0, 1, 0), column(0, -1, 0)


@pytest.mark.parametrize(("towards", "y"), [(UPSTAGE, 1), (DOWNSTAGE, -1)])
def test_a_clamp_swung_30_out_leans_30_from_straight_down_to_the_side_named(towards, y):
    stem, reference = mounts.swung_out(DOWN, ACROSS, UPSTAGE, towards, np.radians([30.0]))
    assert stem[:, 0] == pytest.approx((0, y * 0.5, -np.sqrt(0.75)))
    assert reference[:, 0] == pytest.approx((0, np.sqrt(0.75), y * 0.5))


def test_a_clamp_swung_90_out_has_a_level_stem_and_a_reference_still_square_to_it():
    stem, reference = mounts.swung_out(DOWN, ACROSS, UPSTAGE, UPSTAGE, np.radians([90.0]))
    assert stem[:, 0] == pytest.approx((0, 1, 0))
    assert reference[:, 0] == pytest.approx((0, 0, 1))


def test_a_clamp_swung_out_on_a_sloping_pipe_stays_square_to_it():
    """A 3-4-5 slope; swung a quarter turn to US the stem is level, half a turn it is straight over."""
    along, under = column(0.8, 0, 0.6), column(0.6, 0, -0.8)
    quarter, _ = mounts.swung_out(under, along, UPSTAGE, UPSTAGE, np.radians([90.0]))
    assert quarter[:, 0] == pytest.approx((0, 1, 0))
    half, back = mounts.swung_out(under, along, UPSTAGE, UPSTAGE, np.radians([180.0]))
    assert half[:, 0] == pytest.approx((-0.6, 0, 0.8))
    assert back[:, 0] == pytest.approx((0, -1, 0))


def test_a_clamp_on_a_boom_has_a_level_stem_along_its_heading_and_a_level_reference():
    stem, reference = mounts.direct(np.radians([180.0]))  # stem downstage
    assert stem[:, 0] == pytest.approx((0, -1, 0))
    assert reference[:, 0] == pytest.approx((-1, 0, 0))


def test_a_hung_unit_turned_to_stage_left_and_tipped_30_points_there():
    """Square upstage, clamp turned a quarter clockwise seen from above: stage left, 30 down."""
    stem = np.array([[0.0], [0.0], [-1.0]])
    axis, up = mounts.pose(stem, UPSTAGE, np.radians([90.0]), np.radians([30.0]))
    assert axis[:, 0] == pytest.approx((np.cos(np.pi / 6), 0, -0.5))
    assert up[:, 0] == pytest.approx((0.5, 0, np.cos(np.pi / 6)))


def test_a_standing_unit_is_upright_only_with_its_body_turned_over():
    stem = np.array([[0.0], [0.0], [1.0]])
    level = np.radians([0.0]), np.radians([180.0])
    _, hanging = mounts.pose(stem, UPSTAGE, level[0], level[0])
    axis, upright = mounts.pose(stem, UPSTAGE, level[0], level[1])
    assert hanging[2, 0] == pytest.approx(-1)
    assert upright[2, 0] == pytest.approx(1)
    assert axis[:, 0] == pytest.approx((0, -1, 0))
