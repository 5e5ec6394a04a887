"""Pools: the cone of a field or beam cut by a level plane, in closed form.

For a cone of half angle g whose axis meets the plane at the angle b, from an apex at height H over it:
closed when b > g; half-length H sin g cos g / (sin^2 b - sin^2 g), half-width
H sin g / sqrt(sin^2 b - sin^2 g), edges at H / tan(b + g) and H / tan(b - g) from the point under the
apex. (The section of a circular cone by a plane; any text on conics, e.g. the Dandelin spheres.)
A plane above the apex is the same problem upside down.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from aimcalc.geometry.aim import Aims, Mounted
from aimcalc.geometry.vectors import (
    Array,
    cross,
    dot,
    in_blocks,
    nan_where_negative,
    sine_cosine,
    to_radians,
    turned,
)
from aimcalc.named import NamedTuple


class Pools(NamedTuple):
    """N pools, each array (N,) but `centre` (3, N); NaN where a thing does not exist.

    `near` and `far` are plan distances from the point under the lens, positive the way the lens points;
    `near` is negative where the pool reaches behind that point. `near` is NaN where no ray of the cone
    reaches the plane; `far`, `length`, `width`, `area` and `centre` are NaN too where it never closes.
    """

    near: Array
    far: Array
    length: Array
    width: Array
    area: Array
    centre: Array

    @property
    def reached(self) -> np.ndarray[tuple[int, ...], np.dtype[np.bool_]]:
        """True where some ray of the cone reaches the plane, (N,)."""
        return ~np.isnan(self.near)

    @property
    def closed(self) -> np.ndarray[tuple[int, ...], np.dtype[np.bool_]]:
        """True where the pool is an ellipse, (N,); false where it is open or there is none."""
        return ~np.isnan(self.far)


PARALLEL = 1e-12  # sine of the angle below which an edge of the cone runs along the plane


def empty_pools(count: int) -> Pools:
    """Room for `count` pools, not yet filled."""
    return Pools._make([*(np.empty(count) for _ in range(5)), np.empty((3, count))])


def level_pools(lens: Array, axis: Array, half_angle: Array, plane_z: Array) -> Pools:
    """Pools of N cones on level planes at heights `plane_z` (N,), above or below the lens.

    `lens` and `axis` (unit) are (3, N), `half_angle` (N,) radians below 90 degrees. A cone that opens
    exactly along the plane (b = g) counts as open. A lens in the plane has no pool.
    """
    pools = empty_pools(half_angle.size)

    def work(block: slice) -> None:
        given = (lens[:, block], axis[:, block], half_angle[block], plane_z[block])
        _fill(*given, Pools._make(column[..., block] for column in pools))

    in_blocks(half_angle.size, work)
    return pools


def _fill(lens: Array, axis: Array, half_angle: Array, plane_z: Array, pools: Pools) -> None:
    height = lens[2] - plane_z
    toward = np.copysign(1.0, height)
    apex = np.abs(height)
    sin_b = -axis[2] * toward
    across = np.sqrt(axis[0] * axis[0] + axis[1] * axis[1])  # cos b
    sin_g, cos_g = sine_cosine(half_angle)
    with np.errstate(divide="ignore", invalid="ignore"):
        # Sines and cosines of b + g and b - g as sums; NaN from a root stands for "does not exist".
        sin_b_cos_g, cos_b_sin_g = sin_b * cos_g, across * sin_g
        cos_b_cos_g, sin_b_sin_g = across * cos_g, sin_b * sin_g
        sin_sum, sin_gap = sin_b_cos_g + cos_b_sin_g, sin_b_cos_g - cos_b_sin_g
        np.multiply(apex, cos_b_cos_g - sin_b_sin_g, out=pools.near)
        np.divide(pools.near, _positive(sin_sum), out=pools.near)
        sin_gap = _positive(sin_gap)
        np.multiply(apex, cos_b_cos_g + sin_b_sin_g, out=pools.far)
        np.divide(pools.far, sin_gap, out=pools.far)
        spread = sin_sum * sin_gap  # sin^2 b - sin^2 g
        scale = apex / spread
        half_width = apex * sin_g / np.sqrt(spread)
        np.multiply(2.0 * sin_g * cos_g, scale, out=pools.length)
        np.multiply(2.0, half_width, out=pools.width)
        np.multiply(pools.length, half_width, out=pools.area)
        np.multiply(np.pi / 2, pools.area, out=pools.area)
        # The middle of the two edges, carried out along the heading: H sin b cos b / spread.
        out_by = scale * sin_b
        np.multiply(out_by, axis[:2], out=pools.centre[:2])
        np.add(lens[:2], pools.centre[:2], out=pools.centre[:2])
        np.add(plane_z, 0.0 * pools.area, out=pools.centre[2])
    if not apex.all():  # the lens lies in the plane
        for column in pools:
            column[..., apex == 0] = np.nan


def _positive(sine: Array) -> Array:
    """The same numbers, NaN where they are not clearly above 0."""
    return np.asarray(sine + nan_where_negative(sine - PARALLEL))


def outline(
    lens: Array, axis: Array, half_angle: float, plane_z: float, *, reach: float, count: int = 96
) -> Array:
    """Rim of one pool as points in order, shape (3, count) and closed if the pool is.

    `lens` and `axis` are (3,). An open pool, or one that goes further than `reach` in plan from the point
    under the lens, is cut off there: its first and last points are then the two open ends. Shape (3, 0)
    where no ray of the cone reaches the plane within `reach`.
    """
    away = 1.0 if lens[2] >= plane_z else -1.0
    first = _first_within(lens, axis, half_angle, plane_z, reach, away)
    if first is None:
        return np.zeros((3, 0))
    closed = first == 0.0
    phi = np.linspace(first, 2 * np.pi - first, count, endpoint=not closed)
    return _rim_hits(lens, axis, half_angle, plane_z, away, phi)


def _first_within(
    lens: Array, axis: Array, half_angle: float, plane_z: float, reach: float, away: float
) -> float | None:
    """Angle round the rim from its far side where its hits come within `reach`; None if they never do.

    The sine of a rim ray's angle to the plane is A - B cos(phi), and a ray meets the plane within `reach`
    when that is at least the sine of the ray from the apex to a point of the plane `reach` away.
    """
    height = abs(lens[2] - plane_z)
    if height == 0:
        return None
    steady = -away * np.cos(half_angle) * axis[2]  # A
    varying = np.sin(half_angle) * np.hypot(axis[0], axis[1])  # B
    beyond = steady - height / np.hypot(height, reach)
    if beyond >= varying:
        return 0.0
    return None if beyond <= -varying else float(np.arccos(beyond / varying))


def _rim_hits(
    lens: Array, axis: Array, half_angle: float, plane_z: float, away: float, phi: Array
) -> Array:
    """Where rays round the rim meet the plane, shape (3, N).

    `phi` runs round the axis from the side of the rim that points furthest from the plane.
    """
    flat = np.hypot(axis[0], axis[1])
    side = np.array([1.0, 0.0, 0.0]) if flat < 1e-12 else np.array([axis[1], -axis[0], 0]) / flat
    top = away * np.cross(side, axis)
    ring = np.outer(top, np.cos(phi)) + np.outer(side, np.sin(phi))
    rays = np.cos(half_angle) * axis[:, None] + np.sin(half_angle) * ring
    return np.asarray(lens[:, None] + rays * ((plane_z - lens[2]) / rays[2]))


PLUMB_SINE = 1e-9  # an axis nearer to plumb than this has no level direction of its own


def level_across(axis: Array, turn: ArrayLike = 0.0) -> Array:
    """Unit directions (3, N) square to `axis`: level, to the right as seen along it, then turned by `turn`.

    `turn` is radians anti-clockwise as seen along the beam. Where the axis is plumb, level has no
    direction of its own and +x (across the stage, to SL) is taken.
    """
    along = axis / np.sqrt(dot(axis, axis))
    right = np.stack((along[1], -along[0], np.zeros_like(along[0])))
    size = np.hypot(right[0], right[1])
    right = np.where(
        size > PLUMB_SINE, right / np.maximum(size, PLUMB_SINE), np.array([[1.0], [0], [0]])
    )
    up = cross(right, along)
    return np.asarray(np.cos(turn) * right + np.sin(turn) * up)


def edges(axis: Array, across: Array, half_wide: Array, half_narrow: Array) -> tuple[Array, Array]:
    """E1 along `across` and E2 square to it and to the axis, each (3, N); half angles in radians."""
    return across * np.tan(half_wide), cross(axis, across) * np.tan(half_narrow)


def oval_pools(lens: Array, axis: Array, rim: tuple[Array, Array], plane_z: Array) -> Pools:
    """Pools of N oval cones on level planes, as `pools.level_pools` tells round ones.

    `rim` is E1 and E2 of `edges`. `length` is the extent along the heading and `width` the extent square
    to it; where the oval is turned askew they are the sides of the box about it, and `area` stays its own.
    """
    height = lens[2] - plane_z
    toward, apex = np.copysign(1.0, height), np.abs(height)
    falls = [-v[2] * toward for v in (axis, *rim)]
    spread = np.hypot(falls[1], falls[2])
    flat = np.hypot(axis[0], axis[1])
    ahead = np.where(flat > 1e-12, axis[:2] / np.maximum(flat, 1e-12), np.array([[0.0], [1.0]]))
    aside = np.stack((ahead[1], -ahead[0]))
    reached = (falls[0] + spread > PARALLEL) & (apex > 0)
    closed = reached & (falls[0] - spread > PARALLEL)
    with np.errstate(divide="ignore", invalid="ignore"):
        low, high = _extent((axis, *rim), falls, spread, ahead)
        left, right = _extent((axis, *rim), falls, spread, aside)
        sizes = np.linalg.norm(rim[0], axis=0) * np.linalg.norm(rim[1], axis=0)
        area = np.pi * apex**2 * sizes / (falls[0] ** 2 - spread**2) ** 1.5
    near = np.where(closed, low, np.maximum(low, high)) * apex  # open: the other root is no rim
    middle = (ahead * (low + high) + aside * (left + right)) * (apex / 2)
    centre = np.stack((lens[0] + middle[0], lens[1] + middle[1], plane_z + 0.0 * middle[0]))
    told = [high * apex, (high - low) * apex, (right - left) * apex, area]
    far, length, width, area = (np.where(closed, value, np.nan) for value in told)
    return Pools(
        np.where(reached, near, np.nan), far, length, width, area, np.where(closed, centre, np.nan)
    )


def _extent(
    vectors: tuple[Array, ...], falls: list[Array], spread: Array, way: Array
) -> tuple[Array, Array]:
    """Roots of (1) along the level directions `way` (2, N), the lower first."""
    parts = [v[0] * way[0] + v[1] * way[1] for v in vectors]
    a = falls[0] ** 2 - spread**2
    b = parts[0] * falls[0] - parts[1] * falls[1] - parts[2] * falls[2]
    c = parts[0] ** 2 - parts[1] ** 2 - parts[2] ** 2
    root = np.sqrt(np.maximum(0.0, b * b - a * c))
    first, second = (b - root) / a, (b + root) / a
    return np.minimum(first, second), np.maximum(first, second)


def oval_outline(
    lens: Array, axis: Array, rim: tuple[Array, Array], plane_z: float, *, reach: float, count: int
) -> Array:
    """Rim of one oval pool as points in order, (3, count); all one unit's, shapes (3,).

    An open pool, or one that goes further than `reach` in plan, is cut off there at the nearest of `count`
    times eight directions round the rim; (3, 0) where no ray comes within reach.
    """
    phi = np.linspace(0.0, 2 * np.pi, 8 * count, endpoint=False)
    rays = axis[:, None] + np.outer(rim[0], np.cos(phi)) + np.outer(rim[1], np.sin(phi))
    with np.errstate(divide="ignore", invalid="ignore"):
        hits = lens[:, None] + rays * ((plane_z - lens[2]) / rays[2])
        ahead = (plane_z - lens[2]) / rays[2] > 0
        within = ahead & (np.hypot(hits[0] - lens[0], hits[1] - lens[1]) <= reach)
    if within.all():
        return np.asarray(hits[:, ::8])
    kept = np.flatnonzero(np.roll(within, -int(np.argmin(within))))
    order = (kept + int(np.argmin(within))) % phi.size  # one run, from the first ray past a gap
    return np.asarray(hits[:, order[:: max(1, order.size // count)]])


ONE = to_radians(1.0)


def per_degree(given: Mounted, aims: Aims) -> tuple[Array, Array]:
    """Metres that the spot of each unit moves for one degree of pan and for one of down, each (N,).

    Of the two senses the larger move is told: for the down the one towards level. NaN where the axis, a
    degree on in either sense, no longer meets the plane in front of the lens, or where no aim exists.
    """
    return _moved(given, aims, aims.stem), _moved(given, aims, level_across(aims.axis))


def _moved(given: Mounted, aims: Aims, about: Array) -> Array:
    v, axis = given.point - aims.pivot, aims.axis
    ahead = dot(v, axis) - given.nose
    plumb = np.abs(about[2]) == 1.0  # turned about a plumb stem the point keeps its height
    moves = []
    with np.errstate(divide="ignore", invalid="ignore"):
        for angle in (ONE, -ONE):
            turn = np.full(ahead.size, angle)
            step, light = turned(v, about, turn) - v, turned(axis, about, turn)
            slid = np.where(plumb, 0.0, -step[2] / light[2])
            move = step + slid * light
            moves.append(np.where(ahead + slid > 0, np.hypot(move[0], move[1]), np.nan))
    return np.asarray(np.maximum(*moves))  # keeps NaN
