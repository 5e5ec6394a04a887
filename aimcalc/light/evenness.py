"""Holes in a wash: connected parts of the acting area where the light is below a threshold."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from aimcalc.geometry.vectors import Array
from aimcalc.light.grid import ON_EDGE, Flags, Grid
from aimcalc.named import NamedTuple

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
    runs = _runs(grid, (values < below)[None])
    sizes = np.bincount(runs.hole, weights=runs.length, minlength=runs.hole.size)
    large = np.flatnonzero((sizes > 0) & (sizes * grid.cell_area >= smallest))
    holes = np.full(values.size, -1)
    holes[values < below] = np.repeat(runs.hole, runs.length)
    plan = grid.plan()
    found = [_gap(grid, plan, values, np.flatnonzero(holes == k)) for k in large.tolist()]
    return sorted(found, key=lambda gap: (-gap.area, gap.centre))


def open_area(grid: Grid, dark: Flags, *, smallest: float = SMALLEST) -> float:
    """Area in m2 of all holes of at least `smallest` m2, for flags (M,) of the dark points."""
    return float(open_areas(grid, dark[None], smallest=smallest)[0])


def open_areas(grid: Grid, dark: Flags, *, smallest: float = SMALLEST) -> Array:
    """The same of K distributions of light at once: flags (K, M), areas (K,) in m2."""
    cells = np.zeros(dark.shape[0])
    some = np.flatnonzero(np.count_nonzero(dark, axis=1) * grid.cell_area >= smallest)
    if some.size:
        runs = _runs(grid, dark[some])
        sizes = np.bincount(runs.hole, weights=runs.length, minlength=runs.hole.size)
        sizes[sizes * grid.cell_area < smallest] = 0
        cells[some] = np.bincount(runs.sheet, weights=sizes, minlength=some.size)
    return cells * grid.cell_area


def largest_hole(grid: Grid, dark: Flags) -> Indices:
    """The points of the hole with the most cells, for flags (M,) of dark points of which there are some.

    Of holes as large as each other the one that comes first by its middle.
    """
    runs = _runs(grid, dark[None])
    sizes = np.bincount(runs.hole, weights=runs.length)
    most = np.flatnonzero(sizes == sizes.max())
    cells, hole = np.flatnonzero(dark), np.repeat(runs.hole, runs.length)
    found: list[Indices] = [cells[hole == k] for k in most.tolist()]
    if len(found) == 1:
        return found[0]
    plan = grid.plan()
    centres = [_gap(grid, plan, np.zeros(dark.size), mine).centre for mine in found]
    return found[centres.index(min(centres))]


class _Runs(NamedTuple):
    """R unbroken rows of dark cells of K distributions, in the order of their points, each (R,).

    `hole` is the number of the first run of the hole that a run belongs to.
    """

    sheet: Indices  # which of the K
    length: Indices  # cells
    hole: Indices


def _runs(grid: Grid, dark: Flags) -> _Runs:
    """The dark cells of K distributions (K, M) by runs, and which runs hang together.

    The K lie one above the other, with a row and a column of nothing between, so that all are labelled
    together: runs that touch are edges of a graph, of which whole sets of roots are joined at a time.
    """
    rows, columns = grid.inside.shape
    count, width = dark.shape[0], columns + 1
    cells = np.zeros((count, rows + 1, width), np.bool_)
    if grid.inside.all():
        cells[:, :rows, :columns] = dark.reshape(count, rows, columns)
    else:
        cells[:, :rows, :columns][:, grid.inside] = dark
    flat = cells.reshape(-1)
    change = np.flatnonzero(flat[1:] != flat[:-1]) + 1
    if flat.size and flat[0]:
        change = np.concatenate(([0], change))
    start, end = change[::2], change[1::2]  # the last column is never dark: every run ends
    first = np.searchsorted(end, start + width)  # runs of the next row that touch, corners included
    touching = np.maximum(np.searchsorted(start, end + width, side="right") - first, 0)
    below = np.repeat(np.arange(start.size), touching)
    above = np.arange(below.size) + np.repeat(first - (np.cumsum(touching) - touching), touching)
    hole = _joined(start.size, below, above)
    return _Runs(start // (width * (rows + 1)), end - start, hole)


def _joined(count: int, one: Indices, other: Indices) -> Indices:
    """For each of `count` things the least number of all that edges `one` to `other` join it with."""
    root = np.arange(count)
    while one.size:
        a, b = root[one], root[other]
        apart = a != b
        if not apart.any():
            break
        one, other, a, b = one[apart], other[apart], a[apart], b[apart]
        root[np.maximum(a, b)] = np.minimum(a, b)  # roots both: the lower one takes the higher
        while (root[root] != root).any():
            root = root[root]
    return root


def _gap(grid: Grid, plan: tuple[Array, Array], values: Array, cells: Indices) -> Gap:
    x, y = (place[cells] for place in plan)
    mean = float(x.mean()), float(y.mean())
    middle = int(np.argmin(np.hypot(x - mean[0], y - mean[1])))
    darkest = int(np.argmin(values[cells]))
    half_x, half_y = grid.dx / 2 + ON_EDGE, grid.dy / 2 + ON_EDGE
    in_hole = abs(x[middle] - mean[0]) <= half_x and abs(y[middle] - mean[1]) <= half_y
    centre = mean if in_hole else (x[middle], y[middle])
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
    """Mean, least, most, U0 and the share at or above half the mean of values of any shape.

    All dark has U0 and share 0; without a value all five are NaN.
    """
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
