"""Grids over a plan area."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from aimcalc.light import grid as g

STAGE = [(-6, 0), (6, 0), (6, 8), (-6, 8)]
# An L: a 6 x 6 square without its upper right quarter.
ELL = [(0, 0), (6, 0), (6, 3), (3, 3), (3, 6), (0, 6)]


def winding(x, y, corners):
    """Angle that the outline turns about a point over a whole turn: a second test of inside."""
    rel = np.asarray(corners, float) - (x, y)
    angles = np.arctan2(rel[:, 1], rel[:, 0])
    turns = np.diff(np.append(angles, angles[0]))
    return round(float(((turns + np.pi) % (2 * np.pi) - np.pi).sum() / (2 * np.pi)))


@given(st.integers(0, 10_000))
def test_inside_agrees_with_the_winding_of_star_shaped_outlines(seed):
    rng = np.random.default_rng(seed)
    angles = np.sort(rng.uniform(0, 2 * np.pi, 9))
    if np.diff(np.append(angles, angles[0] + 2 * np.pi)).max() >= np.pi:
        return  # the outline does not go round its middle
    radii = rng.uniform(0.3, 2, 9)
    corners = np.stack((radii * np.cos(angles), radii * np.sin(angles)), axis=1)
    x, y = rng.uniform(-2, 2, (2, 40))
    expected = [winding(*point, corners) != 0 for point in zip(x, y, strict=True)]
    assert g.inside(x, y, corners).tolist() == expected
    assert g.inside(x, y, corners[::-1]).tolist() == expected  # either way round


def test_edges_and_corners_are_inside_and_the_notch_is_outside():
    on = np.array([[0, 0], [3, 0], [6, 3], [3, 3], [3, 4.5], [4.5, 3], [0, 5.999], [3, 6]], float)
    assert g.inside(*on.T, ELL).all()
    off = np.array(
        [[3.001, 3.001], [6.001, 1], [-1e-6, 0], [4, 4], [7, 3], [-1, 3], [-1, 6]], float
    )
    assert not g.inside(*off.T, ELL).any()


def test_what_a_crossing_outline_encloses_twice_is_outside():
    star = [(np.sin(k * 4 * np.pi / 5), np.cos(k * 4 * np.pi / 5)) for k in range(5)]
    assert not g.inside(np.array([0.0]), np.array([0.0]), star)[0]  # the middle of a pentagram
    assert g.inside(np.array([0.0]), np.array([0.8]), star)[0]  # its point


def test_area_by_the_shoelace():
    assert g.area(STAGE) == 96
    assert g.area(ELL) == g.area(ELL[::-1]) == 27


def test_points_are_the_middles_of_even_cells_and_fill_the_area():
    made = g.grid_over(STAGE, spacing=0.5)
    assert (made.dx, made.dy, made.size) == (0.5, 0.5, 24 * 16)
    assert made.cell_area * made.size == pytest.approx(96)
    points = made.points(1.65)
    assert points.shape == (3, 384)
    assert (points[0].min(), points[0].max(), points[1].min(), points[1].max()) == (
        -5.75,
        5.75,
        0.25,
        7.75,
    )
    assert set(points[2]) == {1.65}


def test_points_are_numbered_along_x_first_and_may_each_have_a_height():
    made = g.grid_over([(0, 0), (2, 0), (2, 2), (0, 2)], spacing=1)
    np.testing.assert_array_equal(
        made.points([1, 2, 3, 4]), [[0.5, 1.5, 0.5, 1.5], [0.5, 0.5, 1.5, 1.5], [1, 2, 3, 4]]
    )


def test_a_sheet_of_values_has_each_at_its_point_and_nothing_elsewhere():
    made = g.grid_over(ELL, spacing=1)
    x, y = made.plan()
    sheet = made.raster(10 * x + y)
    assert sheet.shape == (6, 6)
    assert np.isnan(sheet[3:, 3:]).all()
    assert np.count_nonzero(~np.isnan(sheet)) == made.size == 27
    assert sheet[5, 2] == pytest.approx(10 * 2.5 + 5.5)


@given(st.floats(0.3, 60), st.floats(0.3, 60))
def test_cells_are_at_most_the_standards_spacing_and_not_long(width, depth):
    made = g.grid_over([(0, 0), (width, 0), (width, depth), (0, depth)])
    limit = g.spacing_over(width, depth)
    assert made.spacing <= limit * (1 + 1e-9)
    assert 0.5 <= made.dx / made.dy <= 2  # EN 12464-1: length to width of a cell


def test_a_long_narrow_area_is_judged_by_its_short_side():
    assert g.spacing_over(30, 4) == g.spacing_over(4, 30) == g.largest_spacing(4)
    assert g.spacing_over(10, 6) == g.largest_spacing(10)


def test_a_grid_never_steps_with_the_units():
    # Units 0.5 m apart and points 0.5 or 1 m apart: every point would sit the same way to a unit.
    assert g.in_step(0.5, 0.5)
    assert g.in_step(1.0, [0.8, 0.5])
    assert not g.in_step(0.25, 0.5)  # two points to each unit see both ends
    assert not g.in_step(0.7, 0.5)
    made = g.grid_over(STAGE, spacing=0.5, avoid=[0.5])
    assert 0.4 < made.dx < 0.49
    assert 0.4 < made.dy < 0.49


@pytest.mark.parametrize("outline", [[], [(0, 0), (1, 1)], [(0, 0), (1, 1), (2, 2)]])
def test_an_outline_without_area_is_refused(outline):
    with pytest.raises(ValueError, match="at least three corners that encloses an area"):
        g.grid_over(outline)


@pytest.mark.parametrize("spacing", [0.0, -1.0, 1e-4, float("nan")])
def test_a_spacing_that_makes_too_many_points_is_refused(spacing):
    with pytest.raises(ValueError, match="at most 4000000 points over 12 x 8 m"):
        g.grid_over(STAGE, spacing=spacing)
