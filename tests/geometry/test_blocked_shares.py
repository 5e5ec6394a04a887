"""Blocked shares against quadrature, and a hard case of the trade.

The profile is I0 exp(-(theta / w)^n) through 1/2 at half the beam and 1/10 at half the field. Shares are of
the light inside the field, so that a thing that covers the directions D takes

    (integral over D of I dOmega) / (integral over the field of I dOmega).

Tolerance 0.01 of the field's light throughout, as asked of 500 rays a unit.
"""

from __future__ import annotations

from math import acos, exp, log, pi, radians, sin, tan

import numpy as np
import pytest
from scipy.integrate import quad

from aimcalc.geometry.blocked import Lenses, blocked
from aimcalc.geometry.bodies import body_soup, set_parts
from aimcalc.geometry.rays import caster
from aimcalc.geometry.solids import Shape, panel, soup
from tests.hung import INCH, a_row
from tests.lenses import a_pattern, lenses

SHARE = 0.01
FIELDS = [(10.0, 6.0), (26.0, 18.0), (50.0, 30.0)]  # field and beam, degrees


def flux(field, beam, over):
    """Integral of candela times sin(theta) times over(theta) from the axis to the edge of the field."""
    n = log(log(10) / log(2)) / log(field / beam)
    w = radians(field) / 2 / log(10) ** (1 / n)
    return quad(
        lambda t: exp(-((t / w) ** n)) * sin(t) * over(t), 0, radians(field) / 2, limit=200
    )[0]


def beyond_a_line(field, beam, c):
    """Share of the light beyond a straight edge seen at tangent `c` off the axis."""

    def over(t):
        reach = tan(t)
        if reach <= abs(c):
            return 1.0 if c < 0 else 0.0
        return acos(c / reach) / pi

    return flux(field, beam, over) / flux(field, beam, lambda _: 1.0)


def within(field, beam, inner, outer):
    """Share of the light between two tangents off the axis."""
    ring = flux(field, beam, lambda t: float(inner < tan(t) < outer))
    return ring / flux(field, beam, lambda _: 1.0)


def lost(shapes, **extra):
    """Share lost by a unit at 6 m that points straight down at a face at 1.5 m."""
    return blocked(caster(soup(shapes)), lenses((0, 0, 6), (0, 0, 1.5), **extra)).share[0]


def half_plane(c, heading, depth):
    """A level sheet `depth` under the lens that begins at tangent `c` towards a heading."""
    out = np.array([sin(heading), np.cos(heading), 0.0])
    along = np.array([out[1], -out[0], 0.0])
    edge, far = c * depth * out, (c * depth + 50) * out
    corners = [edge - 50 * along, edge + 50 * along, far + 50 * along, far - 50 * along]
    return panel([corner + np.array([0, 0, 6 - depth]) for corner in corners])


def disc(radius, depth, hole=0.0):
    """A level round sheet (or ring) on the axis, of 720 sides."""
    turn = 2 * pi * np.arange(720) / 720
    ring = np.stack((np.cos(turn), np.sin(turn), np.zeros(720)))
    vertices = np.concatenate((radius * ring, hole * ring), axis=1)
    vertices[2] = 6 - depth
    here, there = np.arange(720), (np.arange(720) + 1) % 720
    faces = np.concatenate(([here, there, here + 720], [there, there + 720, here + 720]), axis=1)
    return Shape(vertices, faces)


@pytest.mark.parametrize(("field", "beam"), FIELDS)
@pytest.mark.parametrize("part", [-0.9, -0.6, -0.3, 0.0, 0.2, 0.5, 0.8])
def test_a_straight_edge_across_the_cone_takes_what_quadrature_says(field, beam, part):
    c = part * tan(radians(field) / 2)
    expected = beyond_a_line(field, beam, c)
    for heading in np.radians([0, 17, 45, 101, 250]):
        told = lost([half_plane(c, heading, 2.0)], field=field, beam=beam)
        assert told == pytest.approx(expected, abs=SHARE)


@pytest.mark.parametrize(("field", "beam"), FIELDS)
@pytest.mark.parametrize("part", [0.25, 0.5, 0.75, 0.95])
def test_a_disc_on_the_axis_takes_what_quadrature_says(field, beam, part):
    edge = part * tan(radians(field) / 2)
    told = lost([disc(edge * 2.0, 2.0)], field=field, beam=beam)
    assert told == pytest.approx(within(field, beam, 0, edge), abs=SHARE)


@pytest.mark.parametrize(("field", "beam"), FIELDS)
@pytest.mark.parametrize(("inner", "outer"), [(0.2, 0.5), (0.5, 0.7), (0.6, 3.0)])
def test_a_ring_round_the_axis_takes_what_quadrature_says(field, beam, inner, outer):
    edge = tan(radians(field) / 2)
    told = lost([disc(outer * edge, 1.0, hole=inner * edge)], field=field, beam=beam)
    expected = within(field, beam, inner * edge, outer * edge)
    assert told == pytest.approx(expected, abs=SHARE)


def test_nearly_all_of_a_gaussian_is_what_its_closed_form_says():
    # n = 2 where field / beam = sqrt(ln 10 / ln 2); for small angles sin t = t, and the light within t is
    # (1 - exp(-(t / w)^2)) / (1 - 1/10), with exp(-(half / w)^2) = 1/10 at the edge of the field.
    field = 8.0
    beam = field / (log(10) / log(2)) ** 0.5
    edge = 0.5 * tan(radians(field) / 2)
    told = lost([disc(edge * 2.0, 2.0)], field=field, beam=beam, rays=2000)
    assert told == pytest.approx((1 - 10**-0.25) / 0.9, abs=0.003)


def test_a_border_cuts_a_front_light_by_the_straight_edge_it_is():
    # Down 35; the border's bottom, 2 m upstage of the lens, is seen 4 degrees above the axis.
    down = radians(35)
    low = 6 - 2 * tan(down - radians(4))
    border = panel([(-30, 2, low), (30, 2, low), (30, 2, 40), (-30, 2, 40)])
    units = lenses((0, 0, 6), (0, (6 - 1.65) / tan(down), 1.65))
    told = blocked(caster(soup([border])), units)
    assert told.share[0] == pytest.approx(beyond_a_line(26, 18, tan(radians(4))), abs=SHARE)
    assert told.lowest[0] == pytest.approx(low, abs=0.02)


@pytest.mark.parametrize("part", [-0.6, 0.0, 0.5])
def test_half_way_along_the_throw_the_size_of_the_lens_hardly_tells(part):
    c = part * tan(radians(13))
    told = lost([half_plane(c, 0.3, 2.25)], radius=0.075)
    assert told == pytest.approx(beyond_a_line(26, 18, c), abs=SHARE)


def test_a_neighbour_on_18_inch_centres_blocks_more_at_pan_60_than_at_70():
    """Common practice, no source: a 26 field is 5 % blocked at pan 70 but 11 % at 60, both down 35.

    Bodies 26 in long and 8 in wide, yokes 12 in; the sizes are estimates, and the pivot's place and the
    lens are not given. Here the pivot is in the middle of a round body and the lens 6 in across: 9 % at
    60 and 6 % at 70, the same finding to two parts in a hundred of the light.
    """
    told = {pan: _taken_by_neighbour(pan, lens=3.0 * INCH) for pan in (50, 60, 70, 80)}
    assert told[60] == pytest.approx(0.11, abs=0.025)
    assert told[70] == pytest.approx(0.05, abs=0.025)
    assert told[60] > told[70] > max(told[50], told[80])


def test_a_lens_taken_for_a_point_would_not_see_that_neighbour_at_all():
    assert _taken_by_neighbour(60, lens=0.0) == 0.0


def _taken_by_neighbour(pan, *, lens):
    """Share lost by the first of two units, panned towards the second, which hangs square."""
    row = a_row([pan, 0], 35)
    own = np.arange(2)
    axis = np.stack([_axis(pan, 35), _axis(0, 35)], axis=1)
    pivot = row.clamp + row.build.drop * row.stem
    point = pivot + row.build.nose * axis
    side = np.cross(axis, [[0.0], [0.0], [1.0]], axis=0)
    up = np.cross(side / np.linalg.norm(side, axis=0), axis, axis=0)
    units = Lenses(
        lens=point,
        axis=axis,
        up=up,
        face=point + 5.0 * axis,
        radius=np.full(2, lens),
        own=own,
        which=np.zeros(2, dtype=np.int64),
        patterns=a_pattern(26, 18, 2000)[None],
    )
    return blocked(caster(body_soup(set_parts(row), row.build, own)), units).share[0]


def _axis(pan, down):
    pan, down = radians(pan), radians(down)
    return np.array([np.cos(down) * sin(pan), np.cos(down) * np.cos(pan), -sin(down)])
