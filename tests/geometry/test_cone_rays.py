"""Rays over a cone: equal shares of the light, evenly spread, the same every time."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.integrate import quad

from aimcalc.geometry import rays as cone_rays
from aimcalc.light.profiles import relative_intensity

BEAM, FIELD = np.radians(18.0), np.radians(26.0)


def candela(angle):
    return relative_intensity(angle, beam=BEAM, field=FIELD)


def rays(count=500):
    angle = np.linspace(0, FIELD / 2, 2049)
    return cone_rays.pattern(count, angle, candela(angle))


def flux_within(angle):
    """Share of the light inside the field that is within `angle` of the axis, by quadrature."""

    def through(t):
        return float(candela(t) * np.sin(t))

    return quad(through, 0, angle)[0] / quad(through, 0, FIELD / 2)[0]


def test_rays_are_unit_directions_inside_the_field():
    pattern = rays()
    assert np.linalg.norm(pattern, axis=0) == pytest.approx(1)
    assert (np.arccos(pattern[0]) < FIELD / 2).all()


@pytest.mark.parametrize("share", [0.2, 0.4, 0.6, 0.8])
def test_as_many_rays_as_light_lie_within_any_angle_of_the_axis(share):
    within = (np.arccos(rays()[0]) < share * FIELD / 2).mean()
    assert within == pytest.approx(flux_within(share * FIELD / 2), abs=1 / 500)


def test_a_flat_profile_gives_even_solid_angle():
    angle = np.linspace(0, 1.0, 2049)
    pattern = cone_rays.pattern(1000, angle, np.ones(2049))
    # Archimedes: the solid angle within t is 2 pi (1 - cos t).
    within = (np.arccos(pattern[0]) < 0.5).mean()
    assert within == pytest.approx((1 - np.cos(0.5)) / (1 - np.cos(1.0)), abs=2e-3)


def test_light_alike_all_round_has_the_same_rays_by_both_ways():
    middles = (np.arange(2048) + 0.5) * (FIELD / 2 / 2048)
    even = np.repeat(candela(middles)[:, None], 90, axis=1)
    got = cone_rays.uneven_pattern(500, even, FIELD / 2)
    assert got[0] == pytest.approx(rays()[0], abs=1e-6)
    step = np.diff(np.arctan2(got[1], got[2])) % (2 * np.pi)
    np.testing.assert_allclose(step, cone_rays.GOLDEN, atol=1e-6)
    np.testing.assert_allclose(np.linalg.norm(got, axis=0), 1)


def test_uneven_light_puts_its_rays_where_it_is():
    # A patch of 0.1 rad round a point 0.4 off the axis towards body-up, dark elsewhere.
    off, turn = (np.arange(400) + 0.5) * 0.0025, (np.arange(720) + 0.5) * (np.pi / 360)
    away, round_axis = np.meshgrid(off, turn, indexing="ij")
    patch = np.hypot(away * np.cos(round_axis), away * np.sin(round_axis) - 0.4)
    got = cone_rays.uneven_pattern(2000, (patch < 0.1) * 1.0, 1.0)
    t = np.arccos(got[0])
    flat = np.stack(
        (t * np.cos(np.arctan2(got[1], got[2])), t * np.sin(np.arctan2(got[1], got[2])))
    )
    assert (np.hypot(flat[0], flat[1] - 0.4) < 0.103).all()
    assert flat.mean(axis=1) == pytest.approx([0, 0.4], abs=2e-3)
    # As many on either side of any line through its middle; sin t makes the far half a little larger.
    for way in np.radians([0, 30, 60, 90, 120, 150]):
        beyond = flat[0] * np.cos(way) + (flat[1] - 0.4) * np.sin(way) > 0
        assert beyond.mean() == pytest.approx(0.5, abs=0.012)


def test_no_direction_across_the_cone_is_favoured():
    pattern = rays()
    assert pattern[1:].mean(axis=1) == pytest.approx([0, 0], abs=1e-3)
    spread = pattern[1:] @ pattern[1:].T / 500
    assert spread[0, 0] == pytest.approx(spread[1, 1], rel=0.01)
    assert abs(spread[0, 1]) < 0.01 * spread[0, 0]


def test_the_rays_are_the_same_every_time():
    assert (rays() == rays()).all()


def test_points_of_a_lens_fill_its_disc_evenly():
    x, y = cone_rays.lens_points(2000)
    radius = np.hypot(x, y)
    assert radius.max() <= 1
    # Half the area of a disc lies within 1 / sqrt 2 of its middle; its second moments are 1/4.
    assert (radius < np.sqrt(0.5)).mean() == pytest.approx(0.5, abs=2e-3)
    assert [x.mean(), y.mean(), (x * y).mean()] == pytest.approx([0, 0, 0], abs=3e-3)
    assert [(x * x).mean(), (y * y).mean()] == pytest.approx([0.25, 0.25], abs=3e-3)


def test_where_a_ray_leaves_the_lens_says_nothing_of_where_it_goes():
    off, pattern = cone_rays.lens_points(2000), rays(2000)[1:]
    pattern = pattern / pattern.std()
    assert np.abs(off @ pattern.T / 2000).max() < 0.01


def test_the_rim_of_a_field_is_half_the_field_angle_off_the_axis():
    edge = cone_rays.rim(8, field=FIELD)
    assert np.arccos(edge[0]) == pytest.approx(FIELD / 2)
    assert edge[1, 0] == pytest.approx(np.sin(FIELD / 2))  # the first is towards body-up
    assert edge[2, 2] == pytest.approx(np.sin(FIELD / 2))  # a quarter on, towards the side


def test_an_oval_is_wide_where_it_is_told_to_be():
    edge = cone_rays.rim(4, field=np.radians(30))
    oval = cone_rays.stretched(edge, up=0.5, side=2.0)
    off = np.degrees(np.arctan(np.linalg.norm(oval[1:], axis=0) / oval[0]))
    # tan 15 = 0.26795: halved towards body-up, doubled towards the side.
    assert off == pytest.approx([7.631, 28.187, 7.631, 28.187], abs=1e-3)
    turned = cone_rays.stretched(edge, up=0.5, side=2.0, turn=np.pi / 2)
    assert np.abs(turned[1]).max() == pytest.approx(np.sin(np.radians(28.187)), abs=1e-4)


def test_the_lens_frame_is_right_handed_and_square():
    axis, up = np.array([[0.0], [0.8], [-0.6]]), np.array([[0.0], [0.6], [0.8]])
    frame = cone_rays.lens_frames(axis, up)[:, 0]
    assert frame.T @ frame == pytest.approx(np.eye(3))
    assert np.linalg.det(frame) == pytest.approx(1)
    assert frame[:, 0] == pytest.approx(axis[:, 0])
