"""Grids of points over a plan area: how far apart, which of them lie inside, and the cells they stand for.

Spacing by EN 12464-1:2011 (as a public guide to it has it): p = 0.2 * 5^(log10 d) metres at most, and 10 m
at the very most, d being the longer side of the area, or the shorter where the longer is twice it or more
(that last rule from memory); cells from half to twice as long as wide; and no grid that steps with the
units. The band of 0.5 m that the standard leaves out at walls is not left out: performers use the whole
area.
"""

from __future__ import annotations

from math import ceil, log10

import numpy as np
from numpy.typing import ArrayLike, NDArray

from aimcalc.geometry.vectors import Array
from aimcalc.named import NamedTuple

Flags = NDArray[np.bool_]

MOST_SPACING = 10.0  # m
MOST_POINTS = 4_000_000
ON_EDGE = 1e-9  # m
IN_STEP = 0.02  # share by which a grid must miss a multiple of the units' spacing


class Grid(NamedTuple):
    """Points at the middles of even cells: `x` (nx,), `y` (ny,), and which of them count, (ny, nx).

    The M points that count are numbered along x first, from the lowest y upwards.
    """

    x: Array
    y: Array
    inside: Flags
    dx: float
    dy: float

    @property
    def size(self) -> int:
        """M, the number of points that count."""
        return int(np.count_nonzero(self.inside))

    @property
    def cell_area(self) -> float:
        """Area in m2 that each point stands for."""
        return self.dx * self.dy

    @property
    def spacing(self) -> float:
        """The larger of the two distances between neighbouring points, m."""
        return max(self.dx, self.dy)

    def plan(self) -> tuple[Array, Array]:
        """x and y of the points that count, (M,) each."""
        rows, columns = np.nonzero(self.inside)
        return self.x[columns], self.y[rows]

    def points(self, z: ArrayLike) -> Array:
        """The points that count, (3, M), at height `z`: one, or (M,)."""
        x, y = self.plan()
        return np.stack((x, y, np.broadcast_to(np.asarray(z, np.float64), x.shape)))

    def raster(self, values: Array) -> Array:
        """Values (M,) laid out on the plan, (ny, nx); NaN where no point counts."""
        sheet = np.full(self.inside.shape, np.nan)
        sheet[self.inside] = values
        return sheet


def largest_spacing(d: float) -> float:
    """The largest distance between points in metres for an area of decisive side `d` (EN 12464-1)."""
    return min(0.2 * float(5.0 ** log10(d)), MOST_SPACING)


def spacing_over(width: float, depth: float) -> float:
    """The largest distance between points for an area of two sides (EN 12464-1)."""
    long, short = max(width, depth), min(width, depth)
    return largest_spacing(short if long >= 2 * short else long)


def grid_over(outline: ArrayLike, *, spacing: float | None = None, avoid: ArrayLike = ()) -> Grid:
    """An even grid over the polygon `outline`, (V, 2) corners in order, x and y in metres.

    Points are at most `spacing` apart (EN 12464-1's where None), evenly over the outline's own width and
    depth, and never in step with one of the distances `avoid` (between units): then a little closer. Raises
    ValueError for an outline without area and for a spacing that would make over 4 million points.
    """
    corners = np.asarray(outline, np.float64).reshape(-1, 2)
    if corners.shape[0] < 3 or area(corners) == 0:
        raise ValueError("expected an outline of at least three corners that encloses an area")
    low, high = corners.min(axis=0), corners.max(axis=0)
    width, depth = (float(v) for v in high - low)
    step = spacing_over(width, depth) if spacing is None else spacing
    if not step > 0 or (width / step + 1) * (depth / step + 1) > MOST_POINTS:
        raise ValueError(
            f"expected a grid of at most {MOST_POINTS} points over {width:g} x {depth:g} m, "
            f"got points {step:g} m apart"
        )
    x, dx = _middles(float(low[0]), width, step, avoid)
    y, dy = _middles(float(low[1]), depth, step, avoid)
    across, up = np.meshgrid(x, y)
    return Grid(x, y, inside(across, up, corners), dx, dy)


def in_step(spacing: float, unit_spacing: ArrayLike) -> bool:
    """Whether a grid would meet every unit, or every second one and so on, at the same place.

    So where the grid's spacing is a whole multiple of the units', any shape, within 2 %; both in metres.
    """
    ratio = spacing / np.asarray(unit_spacing, np.float64)
    nearest = np.maximum(np.rint(ratio), 1.0)
    return bool(np.any(np.abs(ratio / nearest - 1) < IN_STEP))


def inside(x: Array, y: Array, outline: ArrayLike) -> Flags:
    """Whether points lie inside a polygon (V, 2), by the even-odd rule; a point on its edge is inside.

    `x` and `y` of any one shape. Where the outline crosses itself, what is enclosed twice is outside.
    """
    corners = np.asarray(outline, np.float64).reshape(-1, 2)
    odd = np.zeros(x.shape, np.bool_)
    edge = np.zeros(x.shape, np.bool_)
    for (x0, y0), (x1, y1) in zip(corners, np.roll(corners, -1, axis=0), strict=True):
        spans = (y0 > y) != (y1 > y)
        if y0 != y1:
            odd ^= spans & (x < x0 + (y - y0) * ((x1 - x0) / (y1 - y0)))
        edge |= _near_segment(x, y, (x0, y0), (x1, y1))
    return odd | edge


def area(outline: ArrayLike) -> float:
    """Area of a polygon (V, 2) that does not cross itself, by the shoelace rule."""
    x, y = np.asarray(outline, np.float64).reshape(-1, 2).T
    return float(abs(x @ np.roll(y, -1) - y @ np.roll(x, -1)) / 2)


def _near_segment(
    x: Array, y: Array, start: tuple[float, float], end: tuple[float, float]
) -> Flags:
    ex, ey = end[0] - start[0], end[1] - start[1]
    length = ex * ex + ey * ey
    share = ((x - start[0]) * ex + (y - start[1]) * ey) / length if length else np.zeros_like(x)
    share = np.clip(share, 0.0, 1.0)
    miss = np.hypot(x - start[0] - share * ex, y - start[1] - share * ey)
    return np.asarray(miss <= ON_EDGE)


def _middles(low: float, length: float, step: float, avoid: ArrayLike) -> tuple[Array, float]:
    """Middles of the fewest equal parts of at most `step`, not in step with the units, and their size."""
    count = max(1, ceil(length / step - 1e-9))
    while count > 1 and in_step(length / count, avoid):
        count += 1
    return low + (np.arange(count, dtype=np.float64) + 0.5) * (length / count), length / count
