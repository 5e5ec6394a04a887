"""Distances between convex bodies, each the hull of a few points, many pairs at once.

The method of Gilbert, Johnson and Keerthi (IEEE Journal of Robotics and Automation 4, 1988): the
distance between two hulls is the distance from zero to the hull of all differences of their points. It
is closed in on from inside, by a simplex of differences whose nearest point to zero is kept, and from
outside, by the plane through the difference that lies farthest back along that point.
"""

from __future__ import annotations

import numpy as np

from aimcalc.geometry.rays import Flags
from aimcalc.geometry.solids import Indices, Soup
from aimcalc.geometry.vectors import Array, cross, dot
from aimcalc.named import NamedTuple

STEPS = 48  # far more than bodies of few corners need
CLOSE = 1e-10  # share by which the bounds from inside and outside may still differ
FLAT = 1e-12  # squared sine of the angle below which a triangle is only a line
PAIRS_AT_ONCE = 1 << 13
ZERO = 1e-14  # square metres: a tenth of a micrometre is as good as touching


class Hulls(NamedTuple):
    """Convex bodies: the hull of `points` (3, P, K), fattened by `radius` (P,), of `owner` (P,)."""

    points: Array
    radius: Array
    owner: Indices


def hulls(points: Array, *, owner: Indices, radius: float = 0.0) -> Hulls:
    """Bodies of K points each, `points` (3, P, K), all with the same fattening radius."""
    return Hulls(points, np.full(points.shape[1], radius), owner)


def rods(start: Array, end: Array, *, radius: float, owner: Indices) -> Hulls:
    """Round tubes with rounded ends between points (3, P)."""
    return hulls(np.stack((start, end), axis=2), owner=owner, radius=radius)


def triangles(soup: Soup) -> Hulls:
    """Every triangle of a soup as a body of its own."""
    return hulls(soup.corners.transpose(1, 2, 0), owner=soup.owner)


def spaces(start: Array, end: Array, *, half_width: float, low: float, high: float) -> Hulls:
    """The upright slabs of air that belong to line sets: the plan of each pipe, from `low` to `high`.

    `start` and `end` are (3, P); each slab reaches `half_width` to either side of its pipe's plan line.
    """
    plan = np.stack((start, end, start, end), axis=2)
    plan[2] = np.array([low, low, high, high])
    return hulls(plan, owner=np.arange(start.shape[1]), radius=half_width)


def take(bodies: Hulls, rows: Indices | Flags) -> Hulls:
    """Some of the bodies, by indices (K,) or flags (P,), in that order."""
    return Hulls(bodies.points[:, rows], bodies.radius[rows], bodies.owner[rows])


def joined(first: Hulls, second: Hulls) -> Hulls:
    """Two sets of bodies as one; the smaller count of points is made up by repeating the last."""
    width = max(first.points.shape[2], second.points.shape[2])
    return Hulls(
        np.concatenate((_widened(first.points, width), _widened(second.points, width)), axis=1),
        np.concatenate((first.radius, second.radius)),
        np.concatenate((first.owner, second.owner)),
    )


def _widened(points: Array, width: int) -> Array:
    """Bodies of `width` points each, the last point repeated."""
    return np.pad(points, ((0, 0), (0, 0), (0, width - points.shape[2])), mode="edge")


def gap(first: Hulls, second: Hulls, *, within: float = np.inf) -> Array:
    """Distance in metres between each body of `first` and its partner in `second`, shape (P,).

    Zero or below where they touch: hulls that meet have distance 0 less both radii. Infinite where it is
    more than `within`.
    """
    fat = first.radius + second.radius
    return np.asarray(distance(first.points, second.points, within=within + fat) - fat)


def distance(a: Array, b: Array, *, within: Array | None = None) -> Array:
    """Distance between hulls of points (3, P, Ka) and (3, P, Kb), metres, shape (P,); 0 where they meet.

    Infinite where it is more than `within` (P,), which takes fewer steps to see.
    """
    limit = np.full(a.shape[1], np.inf) if within is None else within
    found = [np.zeros(0)]
    for k in range(0, limit.size, PAIRS_AT_ONCE):
        some = slice(k, k + PAIRS_AT_ONCE)
        found.append(_distance(a[:, some], b[:, some], limit[some]))
    return np.concatenate(found)


def _distance(a: Array, b: Array, limit: Array) -> Array:
    """The same for some pairs, all at once."""
    nearest = _farthest_back(a, b, a.mean(axis=2) - b.mean(axis=2))
    square = dot(nearest, nearest)
    result = np.sqrt(square)
    alive = np.arange(result.size)
    corners, held = nearest[None], np.ones((1, result.size), dtype=bool)
    for _ in range(STEPS):
        # The plane through `farthest` across `nearest` bounds the distance from outside.
        farthest = _farthest_back(a, b, nearest)
        depth = dot(nearest, farthest)
        with np.errstate(invalid="ignore"):  # what touches is not over an endless limit
            apart = (depth > 0) & (depth * depth > limit * limit * square)
        result[alive[apart]] = np.inf
        go_on = (square > ZERO) & (square - depth > CLOSE * square) & ~apart
        a, b, alive, limit = a[:, go_on], b[:, go_on], alive[go_on], limit[go_on]
        if not alive.size:
            break
        farthest, corners, held = farthest[:, go_on], corners[:, :, go_on], held[:, go_on]
        with np.errstate(divide="ignore", invalid="ignore"):  # faces without area are never taken
            nearest, corners, held = _nearer(farthest, corners, held)
        before, square = square[go_on], dot(nearest, nearest)
        # Rounding may leave no corner that brings it nearer: then it is as near as can be told.
        go_on = square < before
        if not go_on.all():
            a, b, alive, limit = a[:, go_on], b[:, go_on], alive[go_on], limit[go_on]
            nearest, corners, held = nearest[:, go_on], corners[:, :, go_on], held[:, go_on]
            square = square[go_on]
        result[alive] = np.sqrt(square)
    result[result**2 <= ZERO] = 0.0
    return result


def _farthest_back(a: Array, b: Array, along: Array) -> Array:
    """The difference of a point of `a` and one of `b` that lies farthest back along a direction."""
    pick_a = np.argmin(np.einsum("ip,ipk->pk", along, a), axis=1)
    pick_b = np.argmax(np.einsum("ip,ipk->pk", along, b), axis=1)
    rows = np.arange(a.shape[1])
    return np.asarray(a[:, rows, pick_a] - b[:, rows, pick_b])


def _nearer(w: Array, y: Array, held: Flags) -> tuple[Array, Array, Flags]:
    """Nearest point to zero of the simplex of `w` (3, P) and up to three old corners `y` (1 to 3, 3, P).

    `y[k]` is the k-th old corner, there where `held[k]`. Gives the point, and the corners (first `w`)
    of the face it lies on. A simplex that holds zero gives zero.
    """
    count = len(y)
    e = y - w
    ee, we = _dots(e, e), _dots(e, w)
    t = -we / ee
    feet, on = [w[None], w + t[:, None] * e], [held[:1] | True, held & (t > 0) & (t < 1)]
    if count > 1:  # feet of zero on the planes of the triangles of w and two old corners
        i, j = TRIANGLES[:, : count * (count - 1) // 2]
        eg = _dots(e[i], e[j])
        area = ee[i] * ee[j] - eg * eg  # the square of twice the triangle's area
        s, t = (eg * we[j] - ee[j] * we[i]) / area, (eg * we[i] - ee[i] * we[j]) / area
        normal = cross(e[i].swapaxes(0, 1), e[j].swapaxes(0, 1)).swapaxes(0, 1)
        wn = _dots(normal, w)
        feet.append(normal * (wn / _dots(normal, normal))[:, None])
        inside = (s > 0) & (t > 0) & (s + t < 1) & (area > FLAT * ee[i] * ee[j])
        on.append(held[i] & held[j] & inside)
    points, there = np.concatenate(feet), np.concatenate(on)
    best = np.where(there, _dots(points, points), np.inf).argmin(axis=0)
    nearest = points[best, :, np.arange(best.size)].T
    if count == 3:
        nearest[:, held.all(axis=0) & _holds_zero(dot(e[0], normal[2]), wn)] = 0.0
    return nearest, *_packed(w, y, KEPT[:count, OF[count - 1][best]])


TRIANGLES = np.array([(0, 1), (0, 2), (1, 2)]).T  # of old corners
# Which of three old corners are kept: none, for a foot on the edge to one of them, on each triangle.
KEPT = np.array(
    [(0, 0, 0), (1, 0, 0), (0, 1, 0), (0, 0, 1), (1, 1, 0), (1, 0, 1), (0, 1, 1)], dtype=bool
).T
OF = [np.array(columns) for columns in ((0, 1), (0, 1, 2, 4), range(7))]  # those of one, two, three


def _dots(a: Array, b: Array) -> Array:
    """Scalar products of directions (K, 3, P) and (K, 3, P) or (3, P), shape (K, P)."""
    return np.asarray(a[:, 0] * b[..., 0, :] + a[:, 1] * b[..., 1, :] + a[:, 2] * b[..., 2, :])


def _holds_zero(volume: Array, wn: Array) -> Flags:
    """Whether zero lies in the tetrahedron on three edges from `w`, of six times the `volume` (P,).

    `wn` (3, P): `w` along the normals of the triangles of `w` and two old corners, as in TRIANGLES.
    """
    r, s, t = -wn[2] / volume, wn[1] / volume, -wn[0] / volume
    return np.asarray((r >= 0) & (s >= 0) & (t >= 0) & (r + s + t <= 1) & (volume != 0))


def _packed(w: Array, y: Array, kept: Flags) -> tuple[Array, Flags]:
    """The new corners: `w` first, then those kept of `y` (never more than two)."""
    order = np.argsort(~kept, axis=0, kind="stable")[:2]
    corners = np.take_along_axis(y, order[:, None, :], axis=0)
    there = np.take_along_axis(kept, order, axis=0)
    first = np.ones((1, w.shape[1]), dtype=bool)
    return np.concatenate((w[None], corners)), np.concatenate((first, there))
