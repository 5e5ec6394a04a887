"""Plan polygons: what is inside, as triangles by cutting off ears, cut in two by a line across the stage; the
convex outline of points.

G. H. Meisters, American Mathematical Monthly 82, 1975: every simple polygon of more than three corners
has two ears, corners whose neighbours see each other inside it.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from aimcalc.geometry.rays import Flags
from aimcalc.geometry.solids import Indices
from aimcalc.geometry.vectors import Array

EDGES_AT_ONCE = 1 << 18  # of a point and an edge
FLAT = 1e-12  # m2; a corner that turns by less is straight


def inside(outline: Array, plan: Array) -> Flags:
    """Whether plan points (2, M) are inside an outline (2, V): the even-odd rule.

    A level ray from each point crosses the outline an odd number of times when it starts inside. Only points
    in the box round the outline are asked, some at a time.
    """
    odd = np.zeros(plan.shape[1], dtype=bool)
    for rows in in_box(outline, plan):
        odd[rows] = _crossed(outline, plan[:, rows])
    return odd


def in_box(outline: Array, plan: Array, *, room: float = 0.0) -> Iterator[Indices]:
    """The plan points (2, M) in the box round an outline (2, V) and `room` about it, m, rows (K,) rising.

    So many at a time that every edge can be asked of each.
    """
    low, high = outline.min(axis=1) - room, outline.max(axis=1) + room
    here = (plan >= low[:, None]) & (plan <= high[:, None])
    rows = np.flatnonzero(here.all(axis=0))
    step = max(1, EDGES_AT_ONCE // outline.shape[1])
    for k in range(0, rows.size, step):
        yield rows[k : k + step]


def _crossed(outline: Array, plan: Array) -> Flags:
    """Whether level rays from plan points (2, M) cross an outline (2, V) an odd number of times."""
    x, y = plan[:, :, None]
    x0, y0 = outline
    x1, y1 = np.roll(outline, -1, axis=1)
    rise = np.where(y1 == y0, 1.0, y1 - y0)  # a level edge is never crossed
    crosses = ((y0 > y) != (y1 > y)) & (x < x0 + (y - y0) / rise * (x1 - x0))
    return np.asarray(np.logical_xor.reduce(crosses, axis=1))


def triangulated(outline: Array) -> Indices:
    """Triangles (3, F) of a simple polygon (2, V), its corners in either sense; all anticlockwise.

    A polygon that crosses itself gives triangles that overlap or miss a part of it.
    """
    left = list(range(outline.shape[1]))
    if _area(outline) < 0:
        left.reverse()
    faces = []
    while len(left) > 3:
        k = next((k for k in range(len(left)) if _is_ear(outline, left, k)), 0)
        faces.append((left[k - 1], left[k], left[(k + 1) % len(left)]))
        del left[k]
    if len(left) == 3:
        faces.append((left[0], left[1], left[2]))
    return np.array(faces, dtype=np.int64).reshape(-1, 3).T


def split(outline: Array, y: float) -> tuple[Array, Array]:
    """The parts of a polygon (2, V) downstage and upstage of a line across the stage, (2, W) each.

    I. E. Sutherland and G. W. Hodgman, Communications of the ACM 17, 1974. A part that is not there has
    no corners.
    """
    return _kept(outline, y - outline[1]), _kept(outline, outline[1] - y)


def _kept(outline: Array, inside: Array) -> Array:
    """The part of a polygon where a linear value given at its corners is not negative."""
    corners = []
    for k in range(outline.shape[1]):
        j = k - 1
        if (inside[j] < 0) != (inside[k] < 0):
            share = inside[j] / (inside[j] - inside[k])
            corners.append(outline[:, j] + share * (outline[:, k] - outline[:, j]))
        if inside[k] >= 0:
            corners.append(outline[:, k])
    return np.array(corners).reshape(-1, 2).T


def _area(outline: Array) -> float:
    x, y = outline
    return float((x * np.roll(y, -1) - np.roll(x, -1) * y).sum() / 2)


def _is_ear(outline: Array, left: list[int], k: int) -> bool:
    """Whether a corner turns outward and no other corner lies in its triangle."""
    here = [left[k - 1], left[k], left[(k + 1) % len(left)]]
    a, b, c = (outline[:, corner] for corner in here)
    if _turn(a, b, c[:, None])[0] <= FLAT:
        return False
    others = outline[:, [corner for corner in left if corner not in here]]
    inside = (_turn(a, b, others) >= 0) & (_turn(b, c, others) >= 0) & (_turn(c, a, others) >= 0)
    return not inside.any()


def _turn(a: Array, b: Array, points: Array) -> Array:
    """Twice the area of triangles from a to b to each point, positive anticlockwise."""
    return np.asarray((b[0] - a[0]) * (points[1] - a[1]) - (b[1] - a[1]) * (points[0] - a[0]))


def hull(points: Array) -> Array:
    """The convex outline of points (2, N), anticlockwise, (2, M). A. M. Andrew, Information Processing
    Letters 9, 1979."""
    rows = sorted(set(map(tuple, points.T.tolist())))
    if len(rows) < 3:
        return np.array(rows).reshape(-1, 2).T
    lower, upper = _chain(rows), _chain(rows[::-1])
    return np.array(lower[:-1] + upper[:-1]).T


def _chain(rows: list[tuple[float, ...]]) -> list[tuple[float, ...]]:
    chain: list[tuple[float, ...]] = []
    for point in rows:
        while len(chain) > 1 and _turns_right(chain[-2], chain[-1], point):
            chain.pop()
        chain.append(point)
    return chain


def _turns_right(a: tuple[float, ...], b: tuple[float, ...], c: tuple[float, ...]) -> bool:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]) <= 0
