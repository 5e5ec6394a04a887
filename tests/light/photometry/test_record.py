"""What a read file tells: intensity in any direction, angles, peak, lumens."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.light.photometry import Photometry, intensity


def record(gamma, candela, c=(0,)):
    return Photometry(
        path="invented",
        standard="LM-63-2002",
        layout="C",
        c_deg=np.array(c, float),
        gamma_deg=np.array(gamma, float),
        candela=np.array(candela, float).reshape(len(c), len(gamma)),
    )


def test_intensity_is_linear_in_both_angles_and_nothing_beyond_the_file():
    lamp = record([0, 20, 60], [[100, 80, 0], [100, 40, 0], [100, 80, 0]], c=(0, 90, 360))
    got = intensity(lamp, np.radians([0, 10, 20, 40, 60, 61]), 0.0)
    np.testing.assert_allclose(got, [100, 90, 80, 40, 0, 0], atol=1e-9)
    # C = 45 lies half-way between 0 and 90: (80 + 40) / 2 at 20 degrees; 405 is the same turn.
    np.testing.assert_allclose(intensity(lamp, np.radians(20), np.radians([45, 405, -315])), 60)
    # C = 225 is half-way from 90 to 360.
    assert intensity(lamp, np.radians(20), np.radians(225)) == pytest.approx(60)


def test_a_file_that_ends_lit_is_dark_beyond_its_last_angle():
    lamp = record([0, 90], [[50, 50]])
    np.testing.assert_array_equal(intensity(lamp, np.radians([89, 90, 91])), [50, 50, 0])


def test_angles_are_measured_plane_by_plane():
    # Half-angles at 50: 10 at C = 0 and 180, 20 at C = 90 and 270 (entries fall from 100 to 0 linearly).
    rows = [[100, 50, 0, 0], [100, 75, 50, 0], [100, 50, 0, 0], [100, 75, 50, 0], [100, 50, 0, 0]]
    lamp = record([0, 10, 20, 40], rows, c=(0, 90, 180, 270, 360))
    assert lamp.beam == pytest.approx((30, 20, 40))
    assert lamp.beam_angle == pytest.approx(30)
    # At 10: 18 (from 50 at 10 to 0 at 20) and 36 (from 50 at 20 to 0 at 40).
    assert lamp.field == pytest.approx((54, 36, 72))


def test_an_angle_of_one_sided_light_may_leave_out_the_axis():
    # C = 0 rises to 100 at 20 and falls to 0 at 40; C = 180 has nothing; the axis itself 20.
    rows = [[20, 100, 0], [20, 0, 0], [20, 100, 0]]
    lamp = record([0, 20, 40], rows, c=(0, 180, 360))
    # 50 is passed at 20 (50 - 20) / 80 = 7.5 on the way up and at 30 on the way down.
    assert lamp.beam_angle == pytest.approx(30 - 7.5)
    assert lamp.peak_at == (20, 0)
    assert (lamp.peak_cd, lamp.centre_cd) == (100, 20)


def test_a_file_that_never_falls_ends_its_angle_at_its_last():
    assert record([0, 90, 180], [[5, 5, 5]]).field_angle == 360


def test_lumens_of_ideal_sources():
    # Everywhere alike: 4 pi I. A Lambertian disc: pi I0 (closed forms).
    ball = record([0, 90, 180], [[1000, 1000, 1000]])
    assert ball.lumens == pytest.approx(4000 * np.pi, rel=1e-12)
    gamma = np.arange(0, 90.5, 0.5)
    disc = record(gamma, [1000 * np.cos(np.radians(gamma))])
    assert disc.lumens == pytest.approx(1000 * np.pi, rel=2e-5)  # chords of a cosine, 0.5 deg apart


def test_lumens_count_every_plane_by_its_share_of_the_turn():
    lamp = record([0, 90], [[100, 100], [100, 100], [0, 0], [0, 0]], c=(0, 180, 180.000001, 360))
    assert lamp.lumens == pytest.approx(100 * np.pi, rel=1e-6)  # half of a half-ball


@pytest.mark.parametrize("layout", ["A", "B"])
def test_types_a_and_b_have_their_two_widths_in_the_two_principal_planes(layout):
    # Straight falls from 1000 on the axis to 0 at 40 across and at 20 upright: half at 20 and 10, a tenth at
    # 36 and 18. The table is their product, and in a principal plane the other factor is 1.
    across, upright = np.array([-40.0, 0, 40]), np.array([-20.0, 0, 20])
    first, second = (across, upright) if layout == "A" else (upright, across)
    fall = np.outer([0, 1, 0], [0, 1, 0]) * 1000.0
    lamp = Photometry(
        path="invented",
        standard="LM-63-2002",
        layout=layout,
        c_deg=first,
        gamma_deg=90 - second[::-1],
        candela=fall[:, ::-1],
    )
    assert lamp.widths(0.5) == pytest.approx((40, 20))
    assert lamp.widths(0.1) == pytest.approx((72, 36))
    assert lamp.peak_at == (0, 0)


def test_a_table_that_ends_lit_ends_its_angle_there_in_every_plane():
    lamp = Photometry(
        path="invented",
        standard="LM-63-2002",
        layout="A",
        c_deg=np.array([-30.0, 0, 30]),
        gamma_deg=np.array([60.0, 90, 120]),
        candela=np.full((3, 3), 1000.0),
    )
    assert lamp.widths(0.1) == pytest.approx((60, 60), abs=1e-5)
    # To the corner it is acos(cos^2 30) = 41.41 degrees each way; the plane at 45 is left at level 30,
    # tan off = tan 30 / cos 45: 39.23. Planes 5 degrees apart come between the two.
    assert 2 * 39.23 - 0.26 < lamp.field.wide < 2 * 41.42


def test_the_widths_of_a_type_c_file_are_those_of_its_planes_0_and_90():
    # Linear falls from 100: 50 at 10 and 0 at 20 across, 50 at 20 and 0 at 40 upright.
    rows = [[100, 50, 0, 0], [100, 75, 50, 0], [100, 50, 0, 0], [100, 75, 50, 0], [100, 50, 0, 0]]
    lamp = record([0, 10, 20, 40], rows, c=(0, 90, 180, 270, 360))
    assert lamp.widths(0.5) == pytest.approx((20, 40))
    assert lamp.widths(0.1) == pytest.approx((36, 72))
