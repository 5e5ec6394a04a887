"""Pools of oval fields: a cone whose rim is an ellipse, cut by a level plane, in closed form.

The rim ray at the angle phi is d = f + cos(phi) E1 + sin(phi) E2, with f the axis, E1 and E2 square to it
and to each other and as long as the tangents of the two half angles. It closes on the plane by
m = B + cos(phi) T1 + sin(phi) T2 per metre along the axis (B, T1, T2: how fast f, E1 and E2 do), so the
pool is closed where B > R = hypot(T1, T2), and its edges along any level direction, in heights of the
apex, are the roots q of

    (B^2 - R^2) q^2 - 2 (f B - E1 T1 - E2 T2) q + f^2 - E1^2 - E2^2 = 0                    (1)

with f, E1, E2 their parts along that direction: where the line q across it touches the rim's image. The
area is pi H^2 |E1| |E2| / (B^2 - R^2)^(3/2). With |E1| = |E2| all of it is the round cone of `pools`.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from aimcalc.geometry.pools import PARALLEL, Pools
from aimcalc.geometry.vectors import Array, cross, dot

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
