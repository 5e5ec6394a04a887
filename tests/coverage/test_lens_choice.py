"""Field angles that a job asks for."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from aimcalc.coverage.lens_wanted import field_for_pool, field_to_meet, mismatch, pool_diameter
from aimcalc.light.illuminance import illuminance
from aimcalc.light.lamps import smooth_lamps


def at(*xyz):
    return np.array(xyz, float).reshape(-1, 3).T


@given(st.floats(0.01, 2.5), st.floats(0.5, 40))
def test_pool_and_field_undo_each_other(field, throw):
    assert field_for_pool(pool_diameter(field, throw), throw) == pytest.approx(field, rel=1e-12)


def test_the_field_of_an_8_foot_pool_at_22_feet():
    # 2 atan(4 / 22) = 20.6097 degrees (a calculator).
    assert np.degrees(field_for_pool(8, 22)) == pytest.approx(20.6097, abs=1e-4)


@pytest.mark.parametrize("ratio", [1.3, 1.8226157, 2.4])
@pytest.mark.parametrize("lens", [(0, -5, 6), (2, -3, 7), (1, 0, 5.5)])
@pytest.mark.parametrize("normal", [(0, 0, 1), (0, -1, 0)])
def test_at_the_field_found_the_seam_has_half_the_light_of_the_middle(lens, ratio, normal):
    face, neighbour = at(0, 1, 1.65), at(2.4, 1, 1.65)
    field = field_to_meet(at(lens), face, neighbour, ratio=ratio, normal=normal)
    lamps = smooth_lamps(at(lens), face - at(lens), peak_cd=1e4, beam=field / ratio, field=field)
    points = np.hstack((face, (face + neighbour) / 2))
    middle, seam = illuminance(lamps, points, (np.array(normal, float),))[0]
    assert seam / middle == pytest.approx(0.5, rel=1e-9)


def test_straight_down_it_is_the_beam_angle_to_the_seam_less_the_cosine_cubed():
    # 4 m over the faces, seam 1 m out: theta = atan(1/4); distance and slope leave cos^3 theta of the lux
    # (IES Lighting Handbook, early ed., p. 8-39), so the candela there must be 0.5 / cos^3 theta of the
    # peak; for a Gaussian field / 2 = theta sqrt(ln 10 / ln(cos^3 theta / 0.5)).
    theta = np.arctan(0.25)
    expected = 2 * theta * np.sqrt(np.log(10) / np.log(np.cos(theta) ** 3 / 0.5))
    got = field_to_meet(
        at(0, 0, 5.65), at(0, 0, 1.65), at(2, 0, 1.65), ratio=np.sqrt(np.log(10) / np.log(2))
    )
    assert got[0] == pytest.approx(expected)


@pytest.mark.parametrize(
    ("lens", "neighbour"),
    [((0, 0, 2.65), (3, 0, 1.65)), ((0, 0, 5), (0, 0, 1.65)), ((0, 0, 1), (2, 0, 1.65))],
    ids=["too low for any lens", "the same face", "under the plane"],
)
def test_where_no_lens_does_it_there_is_no_number(lens, neighbour):
    assert np.isnan(field_to_meet(at(lens), at(0, 0, 1.65), at(neighbour))[0])


def test_a_lens_too_small_is_worse_than_one_too_large_by_the_same_factor():
    wanted = field_for_pool(2.0, 7.0)
    small, exact, large = (mismatch(field_for_pool(d, 7.0), wanted) for d in (1.0, 2.0, 4.0))
    assert exact == pytest.approx(0)
    assert large == pytest.approx(np.log(2))
    assert small == pytest.approx(2 * np.log(2))
