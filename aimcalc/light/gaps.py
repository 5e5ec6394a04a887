"""Holes in a wash: connected parts of the acting area where the light is below a threshold."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from aimcalc.geometry.vectors import Array
from aimcalc.light.grid import ON_EDGE, Flags, Grid

Indices = NDArray[np.intp]

SMALLEST = 0.1  # m2, about a square foot: a smaller hole is left out (our choice)
CELL = 0.15  # m: a grid as fine as this has at least four points in the smallest hole told of


class Gap(NamedTuple):
    """One hole. `cells` are its points, numbered as the grid numbers them."""

    centre: tuple[float, float]  # a point of the hole: its centroid, or the nearest cell to that
    area: float  # m2
    least: float  # lux where it is darkest
    darkest: tuple[float, float]
    box: tuple[float, float, float, float]  # x0, y0, x1, y1 of its cells' outer edges
    cells: Indices


def find_gaps(grid: Grid, values: Array, below: float, *, smallest: float = SMALLEST) -> list[Gap]:
    """The holes where `values` (M,) are below `below`, largest first; those under `smallest` m2 left out.

    Cells that touch at a side or only at a corner belong to one hole: a dark seam that runs aslant is one
    seam, not a row of specks each too small to tell of.
    """
    labels, sizes = _labelled(grid, values < below)
    found = [
        _gap(grid, values, np.flatnonzero(labels == k + 1))
        for k in range(sizes.size)
        if sizes[k] * grid.cell_area >= smallest
    ]
    return sorted(found, key=lambda gap: (-gap.area, gap.centre))


def open_area(grid: Grid, dark: Flags, *, smallest: float = SMALLEST) -> float:
    """Area in m2 of all holes of at least `smallest` m2, for flags (M,) of the dark points."""
    if np.count_nonzero(dark) * grid.cell_area < smallest:
        return 0.0
    areas = _labelled(grid, dark)[1] * grid.cell_area
    return float(areas[areas >= smallest].sum())


def _labelled(grid: Grid, dark: Flags) -> tuple[Indices, Indices]:
    """For each point the number of its hole from 1 (0: none), and each hole's count of cells."""
    from scipy import ndimage

    sheet = np.zeros(grid.inside.shape, np.bool_)
    sheet[grid.inside] = dark
    labels, count = ndimage.label(sheet, structure=np.ones((3, 3), np.bool_))
    flat = np.asarray(labels)[grid.inside]
    return flat, np.bincount(flat, minlength=count + 1)[1:]


def _gap(grid: Grid, values: Array, cells: Indices) -> Gap:
    x, y = (place[cells] for place in grid.plan())
    middle = int(np.argmin(np.hypot(x - x.mean(), y - y.mean())))
    darkest = int(np.argmin(values[cells]))
    half_x, half_y = grid.dx / 2 + ON_EDGE, grid.dy / 2 + ON_EDGE
    in_hole = abs(x[middle] - x.mean()) <= half_x and abs(y[middle] - y.mean()) <= half_y
    centre = (x.mean(), y.mean()) if in_hole else (x[middle], y[middle])
    return Gap(
        centre=(float(centre[0]), float(centre[1])),
        area=float(cells.size * grid.cell_area),
        least=float(values[cells[darkest]]),
        darkest=(float(x[darkest]), float(y[darkest])),
        box=(
            float(x.min() - grid.dx / 2),
            float(y.min() - grid.dy / 2),
            float(x.max() + grid.dx / 2),
            float(y.max() + grid.dy / 2),
        ),
        cells=cells,
    )
