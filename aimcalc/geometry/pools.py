"""Pools: the cone of a field or beam cut by a level plane, in closed form.

For a cone of half angle g whose axis meets the plane at the angle b, from an apex at height H over it:
closed when b > g; half-length H sin g cos g / (sin^2 b - sin^2 g), half-width
H sin g / sqrt(sin^2 b - sin^2 g), edges at H / tan(b + g) and H / tan(b - g) from the point under the
apex. (The section of a circular cone by a plane; any text on conics, e.g. the Dandelin spheres.)
A plane above the apex is the same problem upside down.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from aimcalc.geometry.blocks import in_blocks
from aimcalc.geometry.vectors import Array, nan_where_negative, sine_cosine


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
        """True where some ray of the cone reaches the plane."""
        return ~np.isnan(self.near)

    @property
    def closed(self) -> np.ndarray[tuple[int, ...], np.dtype[np.bool_]]:
        """True where the pool is an ellipse."""
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
