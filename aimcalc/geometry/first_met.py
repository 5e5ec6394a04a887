"""The first triangle that each ray meets, in double precision and without a library that casts rays.

Triangles that lie near each other share a box. A ray looks only into the boxes on its way, the nearest
first, and no further once what it has met is nearer than the next box.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np

from aimcalc.geometry.solids import Indices
from aimcalc.geometry.vectors import Array, cross, dot

EDGE = 1e-9  # of a triangle's own lengths: a point this far outside an edge is on it
PARALLEL = 1e-15
IN_A_BOX = 128  # triangles that share a box
CELLS = 1024  # along each side of the room, when triangles are put in order of where they are
PAIRS_AT_ONCE = 1 << 20  # of ray and box
ROWS_AT_ONCE = 1 << 9  # rays that look into a box at the same time; more would leave the cache


class Met(NamedTuple):
    """The first triangle each ray meets, -1 for none, and how far away it is (NaN), each (N,)."""

    face: Indices
    distance: Array


class _Boxes(NamedTuple):
    """`corners` (3 corners, 3, B, K) of B boxes of K triangles; `face` (B, K); `low`, `high` (3, B)."""

    corners: Array
    face: Indices
    low: Array
    high: Array


def first_met(triangles: Array, start: Array, direction: Array) -> Met:
    """The first triangle each ray meets from either side; a ray with a NaN in it meets none.

    `triangles` is (3, 3, T): corner, coordinate, triangle; `start` and `direction` are (3, N).
    """
    count = start.shape[1]
    met = Met(np.full(count, -1), np.full(count, np.inf))
    if count and triangles.size:
        boxes = _boxed(triangles)
        step = max(1, PAIRS_AT_ONCE // boxes.face.shape[0])
        for k in range(0, count, step):
            part = slice(k, k + step)
            _look(
                boxes, start[:, part], direction[:, part], Met(met.face[part], met.distance[part])
            )
    return Met(met.face, np.where(met.face < 0, np.nan, met.distance))


def _boxed(triangles: Array) -> _Boxes:
    """Triangles in boxes, neighbours together; the last is repeated until its box is full."""
    count = triangles.shape[2]
    order = _by_place(triangles) if count > IN_A_BOX else np.arange(count)
    size = min(count, IN_A_BOX)
    face = np.append(order, np.repeat(order[-1:], -count % size)).reshape(-1, size)
    corners = triangles[:, :, face]
    # A little room, so that a triangle that lies in the side of its box is not passed over.
    room = EDGE * (1.0 + np.abs(corners).max(axis=(0, 3)))
    return _Boxes(corners, face, corners.min(axis=(0, 3)) - room, corners.max(axis=(0, 3)) + room)


def _by_place(triangles: Array) -> Indices:
    """Triangles in an order that keeps neighbours together.

    The bits of the cell that a middle lies in are dealt out in turn (G. M. Morton, IBM, 1966).
    """
    middle = triangles.mean(axis=0)
    low = middle.min(axis=1, keepdims=True)
    size = max(float((middle - low).max()), 1e-300)
    cell = np.minimum((middle - low) / size * CELLS, CELLS - 1).astype(np.int64)
    code = np.zeros(middle.shape[1], dtype=np.int64)
    for bit in range(CELLS.bit_length() - 1):
        for axis in range(3):
            code |= ((cell[axis] >> bit) & 1) << (3 * bit + axis)
    return np.argsort(code, kind="stable")


def _look(boxes: _Boxes, start: Array, direction: Array, met: Met) -> None:
    """Fill in what some rays meet, box by box, the nearest first."""
    for ray, box, enter in _rounds(boxes, start, direction):
        still = enter < met.distance[ray]
        for k in range(0, ray.size, ROWS_AT_ONCE):
            part = np.flatnonzero(still[k : k + ROWS_AT_ONCE]) + k
            rows, here = ray[part], box[part]
            far = _distances(boxes.corners[:, :, here], start[:, rows], direction[:, rows])
            best = far.argmin(axis=1)
            reach = far[np.arange(rows.size), best]
            nearer = reach < met.distance[rows]
            met.distance[rows[nearer]] = reach[nearer]
            met.face[rows[nearer]] = boxes.face[here, best][nearer]


def _rounds(
    boxes: _Boxes, start: Array, direction: Array
) -> Iterator[tuple[Indices, Indices, Array]]:
    """Rays, the nearest box on the way of each and the distance to it; then the second nearest ..."""
    slope = np.where(direction == 0.0, 1e-300, direction)
    enter, leave = np.zeros((2, start.shape[1], boxes.face.shape[0]))
    leave += np.inf
    with np.errstate(over="ignore", invalid="ignore"):
        for axis in range(3):
            sides = [
                (edge[axis] - start[axis][:, None]) / slope[axis][:, None]
                for edge in (boxes.low, boxes.high)
            ]
            np.maximum(enter, np.minimum(*sides), out=enter)
            np.minimum(leave, np.maximum(*sides), out=leave)
    ray, box = np.nonzero(enter <= leave)
    near = enter[ray, box]
    order = np.lexsort((near, ray))
    ray, box, near = ray[order], box[order], near[order]
    turn = np.arange(ray.size) - np.searchsorted(ray, ray)
    by_turn = np.argsort(turn, kind="stable")
    for some in np.split(by_turn, np.flatnonzero(np.diff(turn[by_turn])) + 1):
        yield ray[some], box[some], near[some]


def _distances(corners: Array, start: Array, direction: Array) -> Array:
    """Distance along each of N rays to each of K triangles of its own, (N, K); infinite if it misses.

    T. Moller and B. Trumbore, Journal of Graphics Tools 2, 1997. `corners` is (3, 3, N, K).
    """
    origin, second, third = corners
    start, direction = start[:, :, None], direction[:, :, None]
    e1, e2 = second - origin, third - origin
    p = cross(direction, e2)
    s = start - origin
    q = cross(s, e1)
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        determinant = dot(e1, p)
        b, c = dot(s, p) / determinant, dot(direction, q) / determinant
        far = dot(e2, q) / determinant
        meets = (b >= -EDGE) & (c >= -EDGE) & (b + c <= 1 + EDGE) & (far >= -EDGE)
        meets &= np.abs(determinant) > PARALLEL
    return np.where(meets, np.maximum(far, 0.0), np.inf)
