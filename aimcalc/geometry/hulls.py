"""Distances between convex bodies, each the hull of a few points, many pairs at once.

The method of Gilbert, Johnson and Keerthi (IEEE Journal of Robotics and Automation 4, 1988): the
distance between two hulls is the distance from zero to the hull of all differences of their points. It
is closed in on from inside, by a simplex of differences whose nearest point to zero is kept, and from
outside, by the plane through the difference that lies farthest back along that point.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from aimcalc.geometry.rays import Flags
from aimcalc.geometry.solids import Indices, Soup
from aimcalc.geometry.vectors import Array, cross, dot

STEPS = 48  # far more than bodies of few corners need
CLOSE = 1e-10  # share by which the bounds from inside and outside may still differ
FLAT = 1e-12  # squared sine of the angle below which a triangle is only a line
PAIRS_AT_ONCE = 1 << 15
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
    """Some of the bodies."""
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


def gap(first: Hulls, second: Hulls) -> Array:
    """Distance between each body of `first` and its partner in `second`, shape (P,).

    Zero or below where they touch: hulls that meet have distance 0 less both radii.
    """
    return np.asarray(distance(first.points, second.points) - first.radius - second.radius)


def distance(a: Array, b: Array) -> Array:
    """Distance between hulls of points (3, P, Ka) and (3, P, Kb), shape (P,); 0 where they meet."""
    parts = [
        _distance(a[:, k : k + PAIRS_AT_ONCE], b[:, k : k + PAIRS_AT_ONCE])
        for k in range(0, max(1, a.shape[1]), PAIRS_AT_ONCE)
    ]
    return np.concatenate(parts)


def _distance(a: Array, b: Array) -> Array:
    """The same for some pairs, all at once."""
    nearest = a[:, :, 0] - b[:, :, 0]
    result = np.sqrt(dot(nearest, nearest))
    alive = np.arange(result.size)
    corners = np.zeros((3, *nearest.shape))
    held = np.zeros((3, result.size), dtype=bool)
    corners[0], held[0] = nearest, True
    for _ in range(STEPS):
        square = dot(nearest, nearest)
        farthest = _farthest_back(a, b, nearest)
        # The plane through `farthest` across `nearest` bounds the distance from outside.
        open_still = (square > ZERO) & (square - dot(nearest, farthest) > CLOSE * square)
        with np.errstate(divide="ignore", invalid="ignore"):  # faces without area are never taken
            nearer, corners, held = _nearer(farthest, corners, held)
        # Rounding may leave no corner that brings it nearer: then it is as near as can be told.
        go_on = np.flatnonzero(open_still & (dot(nearer, nearer) < square))
        if not go_on.size:
            break
        nearest, corners, held = nearer[:, go_on], corners[:, :, go_on], held[:, go_on]
        a, b, alive = a[:, go_on], b[:, go_on], alive[go_on]
        result[alive] = np.sqrt(dot(nearest, nearest))
    result[result**2 <= ZERO] = 0.0
    return result


def _farthest_back(a: Array, b: Array, along: Array) -> Array:
    """The difference of a point of `a` and one of `b` that lies farthest back along a direction."""
    pick_a = np.argmin(np.einsum("ip,ipk->pk", along, a), axis=1)
    pick_b = np.argmax(np.einsum("ip,ipk->pk", along, b), axis=1)
    rows = np.arange(a.shape[1])
    return np.asarray(a[:, rows, pick_a] - b[:, rows, pick_b])


def _nearer(w: Array, y: Array, held: Flags) -> tuple[Array, Array, Flags]:
    """Nearest point to zero of the simplex of `w` (3, P) and up to three old corners `y` (3, 3, P).

    `y[k]` is the k-th old corner, there where `held[k]`. Gives the point, and the corners (first `w`)
    of the face it lies on. A simplex that holds zero gives zero.
    """
    best, square = w.copy(), dot(w, w)
    kept = np.zeros_like(held)
    edge = y - w
    for i in range(3):
        best, square, kept = _better(best, square, kept, *_on_edge(w, edge[i]), held, (i,))
    for i, j in ((0, 1), (0, 2), (1, 2)):
        point = _on_triangle(w, edge[i], edge[j])
        best, square, kept = _better(best, square, kept, *point, held, (i, j))
    best[:, held.all(axis=0) & _holds_zero(w, edge)] = 0.0
    return best, *_packed(w, y, kept)


def _better(
    best: Array,
    square: Array,
    kept: Flags,
    point: Array,
    on: Flags,
    held: Flags,
    use: tuple[int, ...],
) -> tuple[Array, Array, Flags]:
    """The nearer of `best` and `point`, where `point` lies on a face whose corners are all held."""
    new = dot(point, point)
    take = on & held[list(use)].all(axis=0) & (new < square)
    face = np.zeros((3, 1), dtype=bool)
    face[list(use)] = True
    return np.where(take, point, best), np.where(take, new, square), np.where(take, face, kept)


def _on_edge(w: Array, e: Array) -> tuple[Array, Flags]:
    """Foot of zero on the line from `w` along `e`, and whether it lies between the ends."""
    t = -dot(w, e) / dot(e, e)
    return w + t * e, (t > 0) & (t < 1)


def _on_triangle(w: Array, e: Array, g: Array) -> tuple[Array, Flags]:
    """Foot of zero on the plane through `w` along `e` and `g`, and whether it lies in the triangle."""
    ee, gg, eg, we, wg = dot(e, e), dot(g, g), dot(e, g), dot(w, e), dot(w, g)
    area = ee * gg - eg * eg  # the square of twice the triangle's area
    s, t = (eg * wg - gg * we) / area, (eg * we - ee * wg) / area
    normal = cross(e, g)
    foot = normal * (dot(w, normal) / dot(normal, normal))
    return foot, (s > 0) & (t > 0) & (s + t < 1) & (area > FLAT * ee * gg)


def _holds_zero(w: Array, e: Array) -> Flags:
    """Whether zero lies in the tetrahedron of `w` and `w` plus each of `e` (3 corners, 3, P)."""
    volume = dot(e[0], cross(e[1], e[2]))
    r = -dot(w, cross(e[1], e[2])) / volume
    s = -dot(w, cross(e[2], e[0])) / volume
    t = -dot(w, cross(e[0], e[1])) / volume
    return np.asarray((r >= 0) & (s >= 0) & (t >= 0) & (r + s + t <= 1) & (volume != 0))


def _packed(w: Array, y: Array, kept: Flags) -> tuple[Array, Flags]:
    """The new corners: `w` first, then those kept of `y` (never more than two)."""
    order = np.argsort(~kept, axis=0, kind="stable")[:2]
    corners = np.take_along_axis(y, order[:, None, :], axis=0)
    there = np.take_along_axis(kept, order, axis=0)
    first = np.ones((1, w.shape[1]), dtype=bool)
    return np.concatenate((w[None], corners)), np.concatenate((first, there))
