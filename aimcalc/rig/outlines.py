"""Plan polygons: which points are inside."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from aimcalc.geometry.aim import Flags
from aimcalc.geometry.vectors import Array
from aimcalc.scene.model import PlanPoint

EDGE = 0.01  # m; a point this near to an edge is on it, and counts as inside


def inside(outline: Sequence[PlanPoint], x: Array, y: Array) -> Flags:
    """True for plan points in the polygon or within a centimetre of its edge, shape (N,).

    A level ray from each point crosses the outline an odd number of times when it starts inside.
    """
    odd = np.zeros(x.size, dtype=bool)
    edge = np.zeros(x.size, dtype=bool)
    for (x0, y0), (x1, y1) in zip(outline, (*outline[1:], outline[0]), strict=True):
        dx, dy = x1 - x0, y1 - y0
        if dy:
            odd ^= ((y0 > y) != (y1 > y)) & (x < x0 + (y - y0) * dx / dy)
        share = np.clip(((x - x0) * dx + (y - y0) * dy) / max(dx * dx + dy * dy, 1e-300), 0.0, 1.0)
        edge |= np.hypot(x - x0 - share * dx, y - y0 - share * dy) <= EDGE
    return np.asarray(odd | edge)


def downstage_of(outline: Sequence[PlanPoint], x: Array, y: Array) -> Flags:
    """True for plan points outside the polygon and downstage of all of it at their x, shape (N,).

    Beside the polygon, downstage of the nearer end of it. Nothing is downstage of an empty outline but
    what is downstage of the plaster line.
    """
    if not outline:
        return np.asarray(y < 0.0)
    return np.asarray(~inside(outline, x, y) & (y < front(outline, x)))


def front(outline: Sequence[PlanPoint], x: Array) -> Array:
    """The y of the polygon's furthest downstage edge at each x (clamped to its width), shape (N,)."""
    xs = [p[0] for p in outline]
    at = np.clip(x, min(xs), max(xs))
    y = np.full(x.size, np.inf)
    for (x0, y0), (x1, y1) in zip(outline, (*outline[1:], outline[0]), strict=True):
        beside = (at >= min(x0, x1)) & (at <= max(x0, x1))
        slope = (y1 - y0) / (x1 - x0) if x1 != x0 else 0.0
        here = y0 + (at - x0) * slope if x1 != x0 else np.full(x.size, min(y0, y1))
        y = np.where(beside, np.minimum(y, here), y)
    return y
