"""Where light is asked for: grids over the acting area, at face height above whatever is stood on."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.coverage.systems import GridError, NoAreaError, face_z, plane_of, regular_spacings
from aimcalc.scene.model import Solid, Stage
from tests.lit import FACE, SQUARE, a_rig, a_unit


# The figures were once of a coarser grid of their own (0.5 m here, by EN 12464-1): "least 453 lx" stood
# beside a hole of 97. One grid of 0.15 m at most: 8 / 54 and 4 / 27 m.
def test_one_grid_sees_a_square_foot():
    grid = plane_of(a_rig([])).grid
    assert (grid.x.size, grid.y.size) == (54, 27)
    assert grid.spacing <= 0.15
    assert grid.cell_area < 0.1 / 4


# EN 12464-1:2011 by a public guide to it: p = 0.2 * 5^(log10 d); for d = 0.4 m that is 0.1054 m: 4 points.
def test_over_a_very_small_area_the_standards_spacing_is_finer_still():
    small = ((0.0, 0.0), (0.4, 0.0), (0.4, 0.4), (0.0, 0.4))
    grid = plane_of(a_rig([], acting=small)).grid
    assert (grid.x.size, grid.y.size) == (4, 4)


def test_a_spacing_asked_for_is_the_most_that_is_taken():
    grid = plane_of(a_rig([]), 0.3).grid
    assert (grid.x.size, grid.y.size) == (27, 14)
    assert grid.spacing <= 0.3


def test_the_grid_does_not_step_with_a_regular_row_of_units():
    # 8 / 54 = 0.1481 m is within 2 % of 0.15: one point more over 8 m, and over 4 m, is not
    row = [a_unit(k, 3.0 - 0.15 * k) for k in range(6)]
    assert regular_spacings(a_rig(row)) == [0.15]
    grid = plane_of(a_rig(row)).grid
    assert (grid.x.size, grid.y.size) == (55, 28)
    uneven = [a_unit(k, x) for k, x in enumerate((3.0, 2.5, 2.1, 1.4, 0.2))]
    assert regular_spacings(a_rig(uneven)) == []


def test_over_a_very_large_area_the_points_are_further_apart():
    field = ((-100.0, 0.0), (100.0, 0.0), (100.0, 100.0), (-100.0, 100.0))
    rig = a_rig([], acting=field)
    assert 15_000 < plane_of(rig).grid.size < 25_000


def test_points_follow_rake_and_platforms_at_face_height():
    platform = Solid(name="top", box=(0.0, 0.0, 0.0, 2.0, 1.0, 0.6), stand_on=True)
    stage = Stage(outline=SQUARE, acting=SQUARE, rake=0.1, rake_from=0.0)
    rig = a_rig([], stage=stage, solids=[platform])
    x, y = np.array([-1.0, -1.0, 1.0]), np.array([-1.0, 1.5, 0.5])
    np.testing.assert_allclose(face_z(rig, x, y) - FACE, [0.0, 0.15, 0.6])
    plane = plane_of(rig)
    np.testing.assert_allclose(plane.points[2], face_z(rig, *plane.points[:2]))


def test_nobody_stands_inside_a_box_that_is_not_to_stand_on():
    tower = Solid(name="tower", box=(0.0, 0.0, 0.0, 2.0, 1.0, 3.0))
    bench = Solid(name="bench", box=(-2.0, 0.0, 0.0, -1.0, 1.0, 0.5))  # lower than a face
    plane = plane_of(a_rig([], solids=[tower, bench]), 0.25)
    x, y, _ = plane.points
    assert not ((x > 0) & (x < 2) & (y > 0) & (y < 1)).any()
    assert ((x > -2) & (x < -1) & (y > 0) & (y < 1)).any()
    assert plane.grid.size == plane.points.shape[1]


def test_the_outline_is_covered_where_no_acting_area_is_given():
    rig = a_rig([], stage=Stage(outline=SQUARE))
    assert plane_of(rig).grid.size == 54 * 27


def test_a_scene_without_an_area_is_told_what_to_add():
    with pytest.raises(NoAreaError, match=r"found neither. Add one of them"):
        plane_of(a_rig([], stage=Stage()))


def test_a_grid_beyond_bearing_is_refused_with_its_numbers():
    with pytest.raises(GridError, match=r"at most 100,000 points over 32.0 m2, got points 0.001 m"):
        plane_of(a_rig([]), 0.001)
