"""True outlines of fields on whatever they fall on."""

from __future__ import annotations

from math import radians, tan

import numpy as np
import pytest

from aimcalc.geometry.rays import caster
from aimcalc.geometry.solids import box, deck_strips, panel, soup
from aimcalc.solid.light_fall import fall_outlines, surfaces
from tests.lenses import facing

LEVEL = deck_strips(rake=0, rake_from=0)
EDGE = 2e-5  # metres: how closely single precision finds an edge


def outlines(shapes, lens, face, *, field, **extra):
    """Outlines of one field."""
    lens, face = (np.array(p, dtype=float).reshape(3, 1) for p in (lens, face))
    axis, up = facing(lens, face)
    angle = np.array([radians(field)])
    return fall_outlines(caster(soup(shapes)), lens=lens, axis=axis, up=up, field=angle, **extra)


def off_axis(points, lens, face):
    """Angle of points off the line from lens to face, degrees."""
    lens, axis = np.array(lens, float), np.array(face, float) - np.array(lens, float)
    way = points.T - lens
    cosine = way @ axis / np.linalg.norm(way, axis=1) / np.linalg.norm(axis)
    return np.degrees(np.arccos(cosine))


def test_on_an_open_deck_the_outline_is_the_ellipse_of_the_cone():
    # Height 20, axis 45 from straight down, full angle 20: near edge 14.004151, far edge 28.562960 from
    # the foot, half-width 5.066666; cone sections, closed form (equation of the cone, (P-V).d = |P-V| cos a).
    (told,) = outlines([LEVEL], (0, 0, 20), (0, 20, 0), field=20, rays=720)
    assert told.closed
    assert told.owner == 0
    x, y, z = told.points
    assert z == pytest.approx(0, abs=1e-9)
    assert [y.min(), y.max()] == pytest.approx([14.004151, 28.562960], abs=1e-5)
    assert x.max() == pytest.approx(5.066666, abs=1e-3)


def test_a_raked_deck_tilts_the_outline():
    (told,) = outlines([deck_strips(rake=1 / 12, rake_from=0)], (0, -2, 6), (0, 4, 0.3), field=20)
    _, y, z = told.points
    assert z == pytest.approx(y / 12, abs=1e-9)


def test_a_platform_cuts_the_outline_in_pieces_that_lie_on_deck_top_and_riser():
    # Down 45 at the near edge of a platform 1 m high that begins at y = 6.
    lens, face = (0, 0, 6), (0, 5.5, 0.5)
    told = outlines([LEVEL, box((-9, 6, 0), (9, 12, 1))], lens, face, field=24)
    assert {piece.owner for piece in told} == {0, 1}
    assert not any(piece.closed for piece in told)
    kinds = set()
    for piece in told:
        assert off_axis(piece.points, lens, face) == pytest.approx(12, abs=1e-4)
        _, y, z = piece.points
        on_deck, on_top = np.allclose(z, 0, atol=1e-9), np.allclose(z, 1, atol=1e-9)
        on_riser = np.allclose(y, 6, atol=1e-9)
        assert on_deck + on_top + on_riser == 1  # each piece is on one of them
        kinds.add((on_deck, on_top, on_riser))
        assert (y <= 6 + EDGE).all() if on_deck else (y >= 6 - EDGE).all()
    assert len(kinds) == 3


def test_pieces_run_right_up_to_the_edges_they_step_across():
    told = outlines([LEVEL, box((-9, 6, 0), (9, 12, 1))], (0, 0, 6), (0, 5.5, 0.5), field=24)
    ends = np.concatenate([piece.points[:, [0, -1]] for piece in told], axis=1)
    # An end is where a riser meets deck or top: y = 6 and z = 0 or 1.
    assert ends[1] == pytest.approx(6, abs=EDGE)
    assert np.minimum(abs(ends[2]), abs(ends[2] - 1)) == pytest.approx(0, abs=EDGE)


def test_the_outline_climbs_the_back_wall():
    wall = panel([(-20, 9, 0), (20, 9, 0), (20, 9, 12), (-20, 9, 12)])
    lens, face = (0, 0, 4), (0, 8, 1.5)
    told = outlines([LEVEL, wall], lens, face, field=30)
    on_wall = [piece for piece in told if piece.owner == 1]
    assert len(on_wall) == 1
    assert on_wall[0].points[1] == pytest.approx(9, abs=1e-9)
    # The upper edge: from 4 m, 15 above an axis that falls 2.5 in 8.
    top = 4 + 9 * tan(np.arctan2(-2.5, 8) + radians(15))
    assert on_wall[0].points[2].max() == pytest.approx(top, abs=1e-3)


def test_what_falls_on_nothing_leaves_no_outline():
    assert (
        outlines(
            [panel([(50, 0, 0), (51, 0, 0), (51, 1, 0), (50, 1, 0)])],
            (0, 0, 6),
            (0, 5, 0),
            field=20,
        )
        == []
    )
    # A field that looks over the deck's horizon leaves only its lower part.
    told = outlines([LEVEL], (0, 0, 2), (0, 20, 1.9), field=40)
    assert all(not piece.closed for piece in told)
    near = 2 / tan(radians(20) + np.arctan2(0.1, 20))
    assert min(piece.points[1].min() for piece in told) == pytest.approx(near, abs=1e-3)


def test_each_unit_has_its_own_outline_and_one_that_is_not_solved_has_none():
    lens = np.array([[0.0, np.nan, 3.0], [0, 0, 0], [6, 6, 6]])
    axis, up = facing(np.nan_to_num(lens), np.nan_to_num(lens) + np.array([[0.0], [3], [-6]]))
    told = fall_outlines(
        caster(soup([LEVEL])), lens=lens, axis=axis, up=up, field=np.full(3, radians(20))
    )
    assert [piece.unit for piece in told] == [0, 2]
    assert told[1].points[0].mean() == pytest.approx(3, abs=0.05)


def test_triangles_of_one_solid_in_one_plane_are_one_surface():
    sides = surfaces(soup([box((0, 0, 0), (1, 1, 1)), box((5, 0, 0), (6, 1, 1))]))
    assert len(set(sides)) == 12  # six sides each, two triangles a side
    assert [np.sum(sides == k) for k in set(sides)] == [2] * 12


def test_both_windings_of_a_panel_are_one_surface():
    flat = panel([(0, 0, 0), (1, 0, 0), (1, 0, 1), (0, 0, 1)])
    turned = flat._replace(faces=np.stack((flat.faces[:, 0], flat.faces[::-1, 1]), axis=1))
    assert len(set(surfaces(soup([turned])))) == 1


def test_the_edge_of_a_cone_is_half_its_field_off_the_axis_wherever_it_falls():
    lens, face = (-3, -6, 5.5), (1, 2, 0)
    shapes = [
        LEVEL,
        box((1, -1, 0), (9, 6, 0.6)),
        panel([(-9, 7, 0), (9, 7, 0), (9, 7, 9), (-9, 7, 9)]),
    ]
    told = outlines(shapes, lens, face, field=36)
    assert len(told) > 2
    for piece in told:
        assert off_axis(piece.points, lens, face) == pytest.approx(18, abs=1e-4)


def test_an_oval_field_straight_down_is_an_ellipse_of_its_two_angles():
    # Field 30 drawn out by 0.5 and 2: on a deck 4 m below, half-axes 4 tan(15) times 0.5 and 2.
    lens, axis = np.array([[0.0], [0.0], [4.0]]), np.array([[0.0], [0.0], [-1.0]])
    (told,) = fall_outlines(
        caster(soup([LEVEL])),
        lens=lens,
        axis=axis,
        up=np.array([[0.0], [1.0], [0.0]]),
        field=np.array([radians(30)]),
        stretch=np.array([[0.5], [2.0]]),
        rays=720,
    )
    x, y, _ = told.points
    assert y.max() == pytest.approx(4 * tan(radians(15)) * 0.5, rel=1e-4)
    assert x.max() == pytest.approx(4 * tan(radians(15)) * 2.0, rel=1e-4)
    half = np.array([x.max(), y.max()])
    assert (x / half[0]) ** 2 + (y / half[1]) ** 2 == pytest.approx(1.0, rel=1e-4)


def upright(x0, x1, y=5.0):
    """A panel square to y from x0 to x1, tall and deep enough for any edge here."""
    return panel([(x0, y, -9), (x1, y, -9), (x1, y, 9), (x0, y, 9)])


@pytest.mark.parametrize("between", [[], [upright(-0.01, 0.01, 5.5)]])
def test_across_a_slit_narrower_than_the_rays_each_piece_ends_on_its_own_side(between):
    """The edge is a circle of 5 tan(10) = 0.88 m in y = 5; rays are 0.03 m apart, the slit 0.02 m wide.

    Where the search from one panel ends, the next ray beyond is in the slit: on nothing, or on a strip
    behind. Its point is no end of the other panel's piece (it was: NaN, or half a metre behind).
    """
    shapes = [upright(-9, -0.01), upright(0.01, 9), *between]
    told = [
        piece
        for piece in outlines(shapes, (0, 0, 0), (0, 5, 0), field=20, rays=182)
        if piece.owner < 2
    ]
    assert sorted(piece.owner for piece in told) == [0, 1]
    for piece in told:
        assert np.isfinite(piece.points).all()
        assert piece.points[1] == pytest.approx(5, abs=1e-6)
        side = -1 if piece.owner == 0 else 1
        assert (side * piece.points[0]).min() > 0
        assert side * piece.points[0, [0, -1]] == pytest.approx(0.01, abs=1e-4)
