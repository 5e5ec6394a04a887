"""Holes in a wash."""

from __future__ import annotations

import numpy as np
import pytest
from scipy import ndimage

from aimcalc.light.evenness import SMALLEST, find_gaps, largest_hole, open_area, open_areas
from aimcalc.light.grid import grid_over

STAGE = grid_over([(0, 0), (10, 0), (10, 8), (0, 8)], spacing=0.25)


def wash(*holes, depth=0.0):
    """100 everywhere but in round holes (x, y, radius)."""
    x, y = STAGE.plan()
    values = np.full(STAGE.size, 100.0)
    for hx, hy, radius in holes:
        values[np.hypot(x - hx, y - hy) < radius] = depth
    return values


def test_a_round_hole_has_its_area_and_centre():
    (gap,) = find_gaps(STAGE, wash((3, 5, 1.5), depth=20.0), 50)
    assert gap.area == pytest.approx(np.pi * 1.5**2, rel=0.02)  # cells of 0.25 m
    assert gap.centre == pytest.approx((3, 5), abs=0.02)
    assert gap.least == 20
    assert gap.box == pytest.approx((1.5, 3.5, 4.5, 6.5), abs=0.25)
    assert (wash((3, 5, 1.5))[gap.cells] == 0).all()


def test_the_largest_comes_first_and_specks_are_left_out():
    # The last one is a single cell of 0.0625 m2.
    values = wash((2, 2, 0.8), (7, 5, 1.6), (9.125, 1.125, 0.17))
    assert [round(gap.centre[0]) for gap in find_gaps(STAGE, values, 50)] == [7, 2]
    assert len(find_gaps(STAGE, values, 50, smallest=0.01)) == 3


def test_a_seam_aslant_is_one_hole():
    x, y = STAGE.plan()
    aslant = np.where(np.abs((x - y) - 1) < 0.1, 10.0, 100.0)  # cells touch at corners only
    (gap,) = find_gaps(STAGE, aslant, 50)
    assert gap.area > 1


def test_the_threshold_itself_is_not_below_the_threshold():
    assert find_gaps(STAGE, np.full(STAGE.size, 50.0), 50) == []


def test_the_centre_of_a_ring_is_on_the_ring_and_the_darkest_point_is_given():
    x, y = STAGE.plan()
    away = np.hypot(x - 5, y - 4)
    values = np.where((away > 1.5) & (away < 2.5), 30 + x, 100.0)
    (gap,) = find_gaps(STAGE, values, 50)
    assert 1.4 < np.hypot(gap.centre[0] - 5, gap.centre[1] - 4) < 2.6
    assert gap.darkest[0] == pytest.approx(5 - 2.5, abs=0.25)
    assert gap.least == pytest.approx(30 + gap.darkest[0])


def test_a_hole_outside_the_outline_is_none():
    ell = grid_over([(0, 0), (6, 0), (6, 3), (3, 3), (3, 6), (0, 6)], spacing=0.25)
    x, y = ell.plan()
    assert find_gaps(ell, np.where((x < 3.2) | (y < 3.2), 100.0, 0.0), 50) == []


def test_the_open_area_is_the_sum_of_the_holes():
    values = wash((2, 2, 0.8), (7, 5, 1.6), (9.125, 1.125, 0.17))
    gaps = find_gaps(STAGE, values, 50)
    assert open_area(STAGE, values < 50) == pytest.approx(sum(gap.area for gap in gaps))
    assert open_area(STAGE, values < 0) == 0


def test_many_distributions_are_measured_as_each_by_itself():
    # second method: scipy's labelling with corners, on ragged areas
    rng = np.random.default_rng(0)
    bent = grid_over([(0, 0), (6, 0), (6, 4), (3, 2.5), (0, 4)], spacing=0.25)
    for grid in (STAGE, bent):
        dark = rng.uniform(size=(6, grid.size)) < np.linspace(0.0, 1.0, 6)[:, None]
        for flags, area in zip(dark, open_areas(grid, dark), strict=True):
            sheet = np.zeros(grid.inside.shape, bool)
            sheet[grid.inside] = flags
            labels, count = ndimage.label(sheet, structure=np.ones((3, 3)))
            sizes = ndimage.sum(sheet, labels, range(1, count + 1)) * grid.cell_area
            assert area == pytest.approx(sizes[sizes >= SMALLEST].sum())
            if flags.any():
                assert largest_hole(grid, flags).size * grid.cell_area == pytest.approx(sizes.max())
