"""Holes in a wash: connected parts of the acting area where the light is below a threshold."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

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


class Uniformity(NamedTuple):
    """Over the points of a grid, all in lux but the two shares; NaN where there are no points."""

    mean: float
    least: float
    most: float
    u0: float  # least / mean (EN 12464-1), not least / most
    share_above_half: float  # share of the points at or above half the mean


def uniformity(values: ArrayLike) -> Uniformity:
    """Mean, least, most, U0 and the share at or above half the mean; all dark has U0 and share 0."""
    lux = np.asarray(values, np.float64)
    if not lux.size:
        return Uniformity(*[float("nan")] * 5)
    mean, least, most = float(lux.mean()), float(lux.min()), float(lux.max())
    if mean == 0:
        return Uniformity(0.0, 0.0, 0.0, 0.0, 0.0)
    return Uniformity(mean, least, most, least / mean, float(np.mean(lux >= mean / 2)))


ROUNDS = 200
SETTLED = 1e-9  # relative


class Balance(NamedTuple):
    """Levels (N,), 0 to 1 with the highest at full, and what the T targets then read, lux."""

    level: Array
    reading: Array
    at_full: Array  # what the targets read with every unit at full
    spread: float  # most over least of `reading`; 1 = all alike


def balanced(light: ArrayLike, target: ArrayLike) -> Balance:
    """One level for the units of each target, so that all targets read alike, as bright as that can be.

    `light` (T, N) is what each unit gives at each target at full; `target` (N,) says which target each unit
    is aimed at. Light that spills from one target's units on another counts. Where a target is over-lit by
    spill alone they cannot be made alike: its units end near 0 and `spread` says what is left. Raises
    ValueError for a target with no unit of its own, or none that reaches it.
    """
    lux = np.asarray(light, np.float64)
    aim = np.asarray(target, np.intp)
    spill = np.stack([lux[:, aim == t].sum(axis=1) for t in range(lux.shape[0])], axis=1)
    dark = np.flatnonzero(np.diagonal(spill) <= 0)
    if dark.size:
        raise ValueError(f"expected a unit that lights each target, got none for target {dark[0]}")
    share = _settled(spill)
    reading = spill @ share
    return Balance(share[aim], reading, lux.sum(axis=1), float(reading.max() / reading.min()))


def level_alone(own: ArrayLike) -> Array:
    """Level of each unit at which it gives its own target as much as the weakest gives its own, (N,).

    `own` is what each gives its own target at full; a unit that gives nothing has NaN.
    """
    lux = np.asarray(own, np.float64)
    lit = np.where(lux > 0, lux, np.nan)
    return np.asarray(np.nanmin(lit) / lit) if np.any(lux > 0) else lit


def _settled(spill: Array) -> Array:
    """Shares (T,), the highest 1, that make `spill` @ share even; all above 0.

    The linear equations where their solution is positive, else rounds of correction by what each reads.
    """
    size = spill.shape[0]
    if np.linalg.matrix_rank(spill) == size:
        share = np.linalg.solve(spill, np.ones(size))
        if np.all(share > 0):
            return np.asarray(share / share.max())
    share = np.ones(size)
    for _ in range(ROUNDS):
        reading = spill @ share
        share *= reading.min() / reading
        share /= share.max()
        if np.ptp(reading) <= SETTLED * reading.max():
            break
    return share
