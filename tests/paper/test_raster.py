"""Cells as shapes: areas of boxes, length of outlines, length of hatching."""

import numpy as np
import pytest

from aimcalc.light.grid import Grid
from aimcalc.paper.marks import cross_hatch, flags_of, outline_lines, row_boxes

GRID = Grid(
    x=np.array([0.1, 0.3, 0.5, 0.7]),
    y=np.array([1.05, 1.15, 1.25]),
    inside=np.array([[1, 1, 1, 1], [1, 1, 1, 0], [1, 1, 1, 1]], np.bool_),
    dx=0.2,
    dy=0.1,
)
L_SHAPE = np.array([[1, 1, 1, 0], [1, 0, 0, 0], [1, 0, 0, 0]], np.bool_)


def length(lines):
    return sum(float(np.hypot(*(b - a))) for a, b in lines)


def test_numbered_points_come_back_where_the_grid_has_them():
    x, y = GRID.plan()
    sheet = flags_of(GRID, np.array([4, 9]))
    rows, columns = np.nonzero(sheet)
    assert GRID.x[columns].tolist() == x[[4, 9]].tolist()
    assert GRID.y[rows].tolist() == y[[4, 9]].tolist()


def test_boxes_cover_the_cells_and_no_more():
    boxes = row_boxes(GRID, L_SHAPE)
    assert boxes[0] == pytest.approx([0.0, 1.0, 0.6, 1.1])  # three cells of the lowest row
    area = ((boxes[:, 2] - boxes[:, 0]) * (boxes[:, 3] - boxes[:, 1])).sum()
    assert area == pytest.approx(5 * 0.2 * 0.1)


def test_the_outline_is_as_long_as_the_shapes_perimeter():
    """An L that fills a box of 0.6 by 0.3 has that box's perimeter, 1.8."""
    assert length(outline_lines(GRID, L_SHAPE)) == pytest.approx(1.8)


def test_a_hole_in_the_cells_has_its_own_outline():
    ring = np.array([[1, 1, 1], [1, 0, 1], [1, 1, 1]], np.bool_)
    grid = Grid(np.arange(3.0), np.arange(3.0), np.ones((3, 3), np.bool_), 1.0, 1.0)
    assert length(outline_lines(grid, ring)) == pytest.approx(12 + 4)


@pytest.mark.parametrize("seed", range(3))
def test_hatching_covers_the_flagged_area_and_stays_inside_it(seed):
    """Parallel lines `apart` from each other have total length area / apart, twice for both ways."""
    rng = np.random.default_rng(seed)
    sheet = rng.random((20, 30)) < 0.6
    grid = Grid(
        0.25 + 0.5 * np.arange(30), 7 + 0.4 * np.arange(20), np.ones((20, 30), np.bool_), 0.5, 0.4
    )
    lines = cross_hatch(grid, sheet, 0.03)
    assert length(lines) == pytest.approx(2 * sheet.sum() * 0.2 / 0.03, rel=0.01)
    for a, b in lines:
        step = b - a
        assert abs(step[0]) == pytest.approx(abs(step[1]))
        for part in (0.01, 0.37, 0.73, 0.99):
            x, y = a + part * step
            assert sheet[int((y - 6.8) / 0.4), int(x / 0.5)]


def test_no_cells_no_lines():
    nothing = np.zeros_like(L_SHAPE)
    assert cross_hatch(GRID, nothing, 0.05) == []
    assert outline_lines(GRID, nothing) == []
