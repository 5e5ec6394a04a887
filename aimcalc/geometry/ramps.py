"""Triangles that may be stood on: how high they are at plan points.

Many triangles are gone through a slab at a time, each slab against all points at once.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from aimcalc.geometry.first_met import EDGE
from aimcalc.geometry.vectors import Array

NO_AREA = 1e-12  # m2 in plan; an upright triangle has no height
PAIRS_AT_ONCE = 1 << 17  # pairs of triangle and point in a slab; more would not stay in the cache


def highest(triangles: Array, x: Array, y: Array) -> Array:
    """Height of the highest triangle over plan points (x, y), shape (N,); NaN where there is none.

    `triangles` is (3, 3, T): corner, coordinate, triangle. Upright triangles count for nothing.
    """
    top = np.full(x.shape, np.nan)
    if x.size and triangles.size:
        beside = _beside(triangles[:, :2], np.stack((x, y)))
        for (x0, y0, z0), (x1, y1, z1), (x2, y2, z2) in _slabs(triangles[:, :, ~beside], x.size):
            with np.errstate(divide="ignore", invalid="ignore"):
                area = (x1 - x0) * (y2 - y0) - (x2 - x0) * (y1 - y0)
                b = ((x - x0) * (y2 - y0) - (x2 - x0) * (y - y0)) / area
                c = ((x1 - x0) * (y - y0) - (x - x0) * (y1 - y0)) / area
                on = (b >= -EDGE) & (c >= -EDGE) & (b + c <= 1 + EDGE) & (np.abs(area) >= NO_AREA)
                z = np.where(on, z0 + b * (z1 - z0) + c * (z2 - z0), -np.inf).max(axis=0)
            top = np.fmax(top, np.where(z == -np.inf, np.nan, z))
    return top


def _slabs(triangles: Array, points: int) -> Iterator[Array]:
    """Some triangles at a time, (3, 3, t, 1), so that a slab has at most PAIRS_AT_ONCE pairs."""
    step = max(1, PAIRS_AT_ONCE // max(1, points))
    for k in range(0, triangles.shape[2], step):
        yield triangles[:, :, k : k + step, None]


def _beside(corners: Array, plan: Array) -> np.ndarray:
    """Whether triangles, their corners (3, 2, T), are beside the whole spread of some points (2, N)."""
    low, high = np.nanmin(plan, axis=1)[:, None], np.nanmax(plan, axis=1)[:, None]
    return np.asarray(((corners.max(axis=0) < low) | (corners.min(axis=0) > high)).any(axis=0))
