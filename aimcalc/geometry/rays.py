"""What rays meet: whether anything stands in their way before a given distance, and what it is.

Rays are cast by the embree library, which works in single precision. Points are therefore first moved so
that the solids lie around zero, and the distances handed back are worked out again in double precision
on the plane of the triangle that was met. Every ray has its own limit: whatever lies beyond the thing
that is lit does not stand in the light.
"""

from __future__ import annotations

from functools import lru_cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from aimcalc.geometry.solids import Indices, Soup
from aimcalc.geometry.vectors import Array, cross, dot
from aimcalc.named import NamedTuple

Flags = NDArray[np.bool_]
Rows = NDArray[np.float32]


class NoRayEngineError(Exception):
    """The library that casts rays is not installed."""

    def __init__(self) -> None:
        super().__init__(
            "The solids of this scene cannot be read: the library embreex, which casts the rays, "
            "is not installed. Install it (pip install embreex) and run again."
        )


class Caster(NamedTuple):
    """A soup made ready for rays. `engine` is None where the soup has no triangle."""

    soup: Soup
    engine: Any
    centre: Array  # (3,), what is taken off every point before single precision


class Hits(NamedTuple):
    """The first triangle each ray meets, -1 for none, and how far away it is (NaN), each (N,)."""

    face: Indices
    distance: Array


def caster(soup: Soup, centre: Array | None = None) -> Caster:
    """The soup ready for rays, seen from its `middle` unless that is given already as `centre`, (3,) m.

    Raises NoRayEngineError where the library is missing.
    """
    try:
        from embreex.mesh_construction import TriangleMesh
        from embreex.rtcore_scene import EmbreeScene
    except ImportError as missing:
        raise NoRayEngineError from missing
    if not soup.faces.size:
        return Caster(soup, None, np.zeros(3))
    centre = middle(soup) if centre is None else centre
    engine = EmbreeScene(robust=True)  # no ray slips between two triangles that share an edge
    soup = soup.packed()  # the engine copies corner by corner
    TriangleMesh(engine, _rows(soup.vertices - centre[:, None]), _face_rows(soup.faces))
    return Caster(soup, engine, centre)


def middle(soup: Soup) -> Array:
    """The middle of the box round all triangles, (3,): what rays and corners are counted from."""
    if not soup.faces.size:
        return np.zeros(3)
    used = soup.packed().vertices
    return np.asarray((used.min(axis=1) + used.max(axis=1)) / 2)


def occluded(ready: Caster, start: Array, direction: Array, limit: Array) -> Flags:
    """Whether anything lies on each ray nearer than its limit, shape (N,).

    `start` and `direction` (unit length) are (3, N), `limit` (N,) metres. A ray without a number in it, or
    with a limit of nothing, meets nothing.
    """
    return np.asarray(run(ready, start, direction, limit, "OCCLUDED") >= 0)


def first_hits(ready: Caster, start: Array, direction: Array, limit: Array) -> Hits:
    """The first triangle on each ray nearer than its limit, -1 for none, and the distance to it, each (N,).

    `start` and `direction` (unit length) are (3, N), `limit` (N,), metres. The distance is worked out in
    double precision from the triangle's plane; NaN where nothing is met.

    Raises:
        ValueError: where the arrays are not of one count.
    """
    face = run(ready, start, direction, limit, "INTERSECT")
    distance = np.full(face.shape, np.nan)
    met = np.flatnonzero(face >= 0)
    distance[met] = plane_distance(ready.soup, face[met], start[:, met], direction[:, met])
    return Hits(face, distance)


def run(ready: Caster, start: Array, direction: Array, limit: Array, query: str) -> Indices:
    """One number a ray, (N,), -1 where it meets nothing within its limit.

    Rays as in `first_hits`. Query `INTERSECT` gives the triangle met first; `OCCLUDED` gives 0 for anything
    at all. Raises ValueError where the arrays are not of one count.
    """
    _same_count(start.shape[1], direction.shape[1], limit.size)
    return run_rows(
        ready,
        _rows(start - ready.centre[:, None]),
        _rows(direction),
        _reach(limit, direction),
        query,
    )


def run_rows(ready: Caster, start: Rows, direction: Rows, limit: Rows, query: str) -> Indices:
    """As `run`, (N,), for rays that are already rows (N, 3) of single precision seen from `ready.centre`."""
    if ready.engine is None or not limit.size:
        return np.full(limit.shape, -1, dtype=np.int64)
    _same_count(start.shape[0], direction.shape[0], limit.size)
    return np.asarray(ready.engine.run(start, direction, dists=limit, query=query), dtype=np.int64)


def plane_distance(soup: Soup, face: Indices, start: Array, direction: Array) -> Array:
    """Distance along each ray to the plane of the triangle named beside it, shape (N,)."""
    a, b, c = (soup.vertices[:, soup.faces[k, face]] for k in range(3))
    normal = cross(b - a, c - a)
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.asarray(dot(normal, a - start) / dot(normal, direction))


def _same_count(starts: int, directions: int, limits: int) -> None:
    """The engine would read on past the end of a shorter array."""
    if not starts == directions == limits:
        raise ValueError(f"{starts} starts, {directions} directions, {limits} limits")


def owner_of(soup: Soup, face: Indices) -> Indices:
    """Owner of each triangle named, (N,), -1 where `face` is -1."""
    return np.asarray(np.append(soup.owner, -1)[face])


def _reach(limit: Array, direction: Array) -> Rows:
    """Limits as the engine wants them: none below zero, zero for a ray without a number in it."""
    reach = np.where(np.isfinite(direction[0]) & (limit > 0), limit, 0.0)
    return np.minimum(reach, np.finfo(np.float32).max).astype(np.float32)


def _rows(columns: Array) -> Rows:
    """Points (3, N) as the engine wants them: (N, 3) in single precision, unbroken."""
    return np.ascontiguousarray(columns.T, dtype=np.float32)


def _face_rows(faces: Indices) -> NDArray[np.int32]:
    return np.ascontiguousarray(faces.T, dtype=np.int32)


GOLDEN = np.pi * (3 - np.sqrt(5.0))
PLASTIC = 1.32471795724474602596  # the real root of x^3 = x + 1


def pattern(rays: int, angle: Array, intensity: Array) -> Array:
    """Directions (3, R) that share out the light of a profile, given from the axis to the cone's edge.

    `angle` rises from 0 (radians), `intensity` is candela on any scale; both (M,), M large enough for
    the trapezium rule.
    """
    through = intensity * np.sin(angle)
    total = np.concatenate(([0.0], np.cumsum((through[1:] + through[:-1]) / 2 * np.diff(angle))))
    shares = (np.arange(rays) + 0.5) / rays
    off = np.interp(shares * total[-1], total, angle)
    round_axis = GOLDEN * np.arange(rays)
    return np.stack(
        (np.cos(off), np.sin(off) * np.cos(round_axis), np.sin(off) * np.sin(round_axis))
    )


def uneven_pattern(rays: int, intensity: Array, widest: float) -> Array:
    """Directions (3, R) that share out light which is not alike all round the axis.

    `intensity` (T, P) is on any scale, at the middles of T even steps from the axis to `widest` (radians) and
    of P even steps round it, from the side (axis x up) towards body-up. The spiral of `pattern`, its turns
    drawn out where there is more light; it is that one where the light is alike all round.
    """
    steps, turns = intensity.shape
    middles = (np.arange(steps) + 0.5) * (widest / steps)
    through = np.append(0.0, np.cumsum(intensity * np.sin(middles)[:, None]))
    total = through[::turns]
    shares = (np.arange(rays) + 0.5) / rays
    off = np.interp(shares * total[-1], total, np.linspace(0.0, widest, steps + 1))
    ring = np.minimum((off * (steps / widest)).astype(np.intp), steps - 1)
    share = (GOLDEN / (2 * np.pi) * np.arange(rays)) % 1.0
    wanted = total[ring] + share * (total[ring + 1] - total[ring])
    cell = np.interp(wanted, through, np.arange(through.size)) - ring * turns
    round_axis = cell * (2 * np.pi / turns)
    return np.stack(
        (np.cos(off), np.sin(off) * np.sin(round_axis), np.sin(off) * np.cos(round_axis))
    )


@lru_cache(maxsize=8)
def lens_points(rays: int) -> Array:
    """Points (2, R) spread evenly over a round lens of radius 1, one for each ray of a pattern.

    Steps of the plastic number's powers (1.3247...) keep them even among themselves and unrelated to
    the golden steps of the rays.
    """
    step = np.arange(1, rays + 1)[None] / np.array([[PLASTIC], [PLASTIC**2]])
    first, second = step % 1.0
    turn = 2 * np.pi * second
    places = np.asarray(np.sqrt(first) * np.stack((np.cos(turn), np.sin(turn))))
    places.flags.writeable = False  # kept for the next call
    return places


def rim(count: int, *, field: float) -> Array:
    """`count` directions (3, count) round the edge of a field cone, from body-up towards the side."""
    turn = 2 * np.pi * np.arange(count) / count
    out = np.sin(field / 2)
    return np.stack((np.full(count, np.cos(field / 2)), out * np.cos(turn), out * np.sin(turn)))


def stretched(rays: Array, *, up: float, side: float, turn: float = 0.0) -> Array:
    """Directions made oval: tangents of the angles off axis times `up` and `side`, then turned.

    `turn` (radians) goes from body-up towards the side.
    """
    out, across = rays[1] * up, rays[2] * side
    c, s = np.cos(turn), np.sin(turn)
    oval = np.stack((rays[0], out * c - across * s, out * s + across * c))
    return np.asarray(oval / np.linalg.norm(oval, axis=0))


def lens_frames(axis: Array, up: Array) -> Array:
    """The lens's own frame of each unit, shape (3, N, 3): last index along, up, side."""
    side = np.cross(axis, up, axis=0)
    return np.stack((axis, up, side), axis=2)
