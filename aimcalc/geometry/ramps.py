"""Triangles that may be stood on: how high they are at plan points, and where rays meet them.

Many triangles are gone through a slab at a time, each slab against all points or rays at once.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from aimcalc.geometry.vectors import Array, cross, dot

EDGE = 1e-9  # of a triangle's own lengths: a point this far outside an edge is on it
NO_AREA = 1e-12  # m2 in plan; an upright triangle has no height
PARALLEL = 1e-15
PAIRS_AT_ONCE = 1 << 17  # pairs of triangle and ray in a slab; more would not stay in the cache


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


def first_met(triangles: Array, start: Array, direction: Array) -> Array:
    """Distance along each ray to the first triangle it meets from either side, (N,); NaN if none.

    `start` and `direction` are (3, N). T. Moller and B. Trumbore, Journal of Graphics Tools 2, 1997.
    """
    reach = np.full(start.shape[1], np.inf)
    for origin, second, third in _slabs(triangles, start.shape[1]):
        e1, e2 = second - origin, third - origin
        p = cross(direction[:, None, :], e2)
        s = start[:, None, :] - origin
        q = cross(s, e1)
        with np.errstate(divide="ignore", invalid="ignore"):
            determinant = dot(e1, p)
            b, c = dot(s, p) / determinant, dot(direction[:, None, :], q) / determinant
            far = dot(e2, q) / determinant
            meets = (b >= -EDGE) & (c >= -EDGE) & (b + c <= 1 + EDGE) & (far >= -EDGE)
            meets &= np.abs(determinant) > PARALLEL
        np.minimum(reach, np.where(meets, np.maximum(far, 0.0), np.inf).min(axis=0), out=reach)
    return np.where(np.isfinite(reach), reach, np.nan)


def _slabs(triangles: Array, rays: int) -> Iterator[Array]:
    """Some triangles at a time, (3, 3, t, 1), so that a slab has at most PAIRS_AT_ONCE pairs."""
    step = max(1, PAIRS_AT_ONCE // max(1, rays))
    for k in range(0, triangles.shape[2], step):
        yield triangles[:, :, k : k + step, None]


def _beside(corners: Array, plan: Array) -> np.ndarray:
    """Whether triangles, their corners (3, 2, T), are beside the whole spread of some points (2, N)."""
    low, high = np.nanmin(plan, axis=1)[:, None], np.nanmax(plan, axis=1)[:, None]
    return np.asarray(((corners.max(axis=0) < low) | (corners.min(axis=0) > high)).any(axis=0))
