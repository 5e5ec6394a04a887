"""Sums over many units and many points, a tile of some units by some points at a time.

The full table of N units by M points never exists. A tile's arithmetic runs in buffers made once and small
enough to stay in a core's own cache; distances and cosines of a tile come from one small matrix product
each. Over many points a unit is asked only about those that it may reach.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import ArrayLike

from aimcalc.geometry.vectors import Array, cross, dot
from aimcalc.light.lamps import Flags, Indices, Lamps
from aimcalc.named import NamedTuple

TILE = 16384  # units times points
STRIP = 2048  # points at a time, where there are units enough to fill the tile
MANY = 4096  # points: from here on a unit is asked only about points that it may reach
TO_A_CELL = 64  # points
UNITS = 64  # asked at a time what they reach
NOTHING = 1e-9  # of the peak: where points are many, less of a smooth profile than this is nothing
JUST_UNDER_ONE = 1.0 - 2.0**-53  # arccos takes a slow way at exactly 1
NEAREST = 0.01  # m: a point nearer to a lens than this is treated as this far away


class Buffers(NamedTuple):
    """Room for one tile; every array (k, m), for k units and m points."""

    square: Array  # distance squared
    distance: Array
    cosine: Array  # of the angle off the lens axis
    shape: Array  # intensity over its peak
    spare: Array
    spare2: Array
    spare3: Array
    entry: Indices
    flag: Flags


class Block(NamedTuple):
    """k units and what their rays need. Products with (x, y, z, 1, |p|^2) of points: all (k, 5).

    |p - l|^2 = |l|^2 - 2 l . p + |p|^2, and v . (p - l) = v . p - v . l. Measured from the middle of the
    points the terms stay small, and with them the rounding: about 1e-13 m^2 on a stage.
    """

    units: Indices
    squared: Array
    along: Array  # v the lens axis
    right: Array  # v the C = 0 direction, or the long way of an oval; empty where it is alike all round
    up: Array  # v the C = 90 direction, of photometric files; else empty
    place: Array  # x, y, z, 1, 0 of each lens, for products with a receiving plane
    weight: Array  # (k,) candela
    power: Array  # n, (k, 1)
    wide: Array  # -1 / w^2 along `right`, (k, 1)
    narrow: Array  # -1 / w^2 square to it, (k, 1)


class Lot(NamedTuple):
    """Units that take the same arithmetic: `table` an index or SMOOTH."""

    units: Indices
    table: int
    oval: bool
    gaussian: bool
    blocked: bool


class Cells(NamedTuple):
    """M points in `order` (M,) along the longer side of their area, and by B cells, each within a ball.

    The points of a cell have places from `first` to `last` in the order, that one left out; others may too.
    """

    order: Indices
    first: Indices  # (B,)
    last: Indices  # (B,)
    middle: Array  # (3, B), m
    radius: Array  # (B,), m

    def reached(self, lens: Array, axis: Array, angle: Array) -> Indices:
        """First and last place of the cells that have a part within `angle` (K,) of axes (3, K), (2, K)."""
        spans = np.zeros((2, angle.size), np.intp)
        for k in range(0, angle.size, UNITS):
            lot = slice(k, k + UNITS)
            way = self.middle[:, None, :] - lens[:, lot, None]
            far = np.maximum(np.sqrt((way * way).sum(axis=0)), NEAREST)
            along = (way * axis[:, lot, None]).sum(axis=0) / far
            ball = np.where(self.radius < far, np.arcsin(np.minimum(self.radius / far, 1.0)), np.pi)
            wide = angle[lot, None] + ball
            some = np.arccos(np.clip(along, -1.0, 1.0)) <= wide
            spans[0, lot] = np.where(some, self.first, self.order.size).min(axis=1)
            spans[1, lot] = np.where(some, self.last, 0).max(axis=1)
        return spans

    def put_back(self, values: Array) -> Array:
        """Values (..., M) in the points' own order again."""
        found = np.empty_like(values)
        found[..., self.order] = values
        return found


def cells_of(points: Array) -> Cells | None:
    """Points (3, M), m, by cells; None where they are so few that asking costs more than it saves."""
    count = points.shape[1]
    if count < MANY:
        return None
    size = np.ptp(points[:2], axis=1)
    order = np.argsort(points[int(size[0] < size[1])], kind="stable")
    side = max(float(np.sqrt(size.prod() * TO_A_CELL / count)), float(size.max()) / MANY, NEAREST)
    sorted_points = points[:, order]
    row, column = ((sorted_points[:2] - points[:2].min(axis=1)[:, None]) / side).astype(np.intp)
    _, cell = np.unique(row * (column.max() + 1) + column, return_inverse=True)
    many = np.bincount(cell)
    middle = np.stack([np.bincount(cell, weights=axis) / many for axis in sorted_points])
    off, place = sorted_points - middle[:, cell], np.arange(count)
    first, last = np.full(many.size, count), np.zeros(many.size, np.intp)
    radius = np.zeros(many.size)
    np.minimum.at(first, cell, place)
    np.maximum.at(last, cell, place + 1)
    np.maximum.at(radius, cell, np.sqrt(dot(off, off)))
    return Cells(order, first, last, middle, radius + NEAREST)


def reach(lamps: Lamps) -> Array:
    """Angle off the axis, (N,), beyond which a smooth profile has less than NOTHING of its peak; radians."""
    return reach_of(np.maximum(lamps.wide, lamps.narrow), lamps.power)


def reach_of(width: ArrayLike, power: ArrayLike) -> Array:
    """Where exp(-(theta / width)^power) falls to NOTHING, a right angle at the most; radians, any shape."""
    far = np.asarray(width) * (-np.log(NOTHING)) ** (1 / np.asarray(power))
    return np.asarray(np.minimum(far, np.pi / 2))


def buffers() -> Buffers:
    """Room for the largest tile."""
    numbers = [np.empty(TILE) for _ in range(7)]
    return Buffers._make([*numbers, np.empty(TILE, np.intp), np.empty(TILE, np.bool_)])


def cut(room: Buffers, units: int, points: int) -> Buffers:
    """The same room seen as arrays (units, points)."""
    return Buffers._make([flat[: units * points].reshape(units, points) for flat in room])


def middle_of(points: Array) -> Array:
    """Mean of the points, (3, 1); the origin where there are none."""
    return points.mean(axis=1, keepdims=True) if points.shape[1] else np.zeros((3, 1))


def point_operand(points: Array) -> Array:
    """x, y, z, 1, |p|^2 of points (3, M) already measured from their middle, shape (5, M)."""
    return np.stack((*points, np.ones(points.shape[1]), dot(points, points)))


def lots(lamps: Lamps, *, ask: bool) -> list[Lot]:
    """The units by what their arithmetic needs; partly blocked ones apart where `ask` is true."""
    oval = (lamps.wide != lamps.narrow) & (lamps.table < 0)
    gaussian = np.abs(lamps.power - 2) < 1e-12
    keys = lamps.table * 8 + oval * 4 + gaussian * 2 + (lamps.part_blocked & ask)
    return [
        Lot(np.flatnonzero(keys == key), key >> 3, bool(key & 4), bool(key & 2), bool(key & 1))
        for key in sorted(set(keys.tolist()))
    ]


def units_of(lot: Lot, lamps: Lamps, points: Array) -> Iterator[Indices]:
    """The units of a lot, rows of `lamps` (K,), as many at a time as a tile takes, part blocked ones singly.

    `points` are (3, M).
    """
    strip = max(1, min(points.shape[1], STRIP))
    rows = 1 if lot.blocked else max(1, TILE // strip)
    units = lot.units
    if points.shape[1] >= MANY:  # beams as wide as each other together: they reach as far
        units = units[np.argsort(lamps.wide[units], kind="stable")]
    for first in range(0, units.size, rows):
        yield units[first : first + rows]


def columns(block: Block, points: int) -> Iterator[slice]:
    """The points, as many at a time as a tile of this block takes."""
    strip = max(1, min(points, TILE // block.units.size))
    for start in range(0, points, strip):
        yield slice(start, min(start + strip, points))


def reached_columns(block: Block, lamps: Lamps, cells: Cells) -> Iterator[slice]:
    """Places in the order of the cells that some of a block's units, of the smooth profile, reach."""
    some = lamps.take(block.units)
    spans = cells.reached(some.lens, some.axis, reach(some))
    last, strip = int(spans[1].max()), TILE // block.units.size
    for start in range(int(spans[0].min()), last, strip):
        yield slice(start, min(start + strip, last))


def distances(block: Block, points: Array, room: Buffers) -> None:
    """Fill in distance, its square and the cosine (below 1) of the angle off the axis.

    `points` (5, m) are some columns of `point_operand`.
    """
    np.matmul(block.squared, points, out=room.square)
    np.maximum(room.square, NEAREST**2, out=room.square)
    np.sqrt(room.square, out=room.distance)
    np.matmul(block.along, points, out=room.cosine)
    np.divide(room.cosine, room.distance, out=room.cosine)
    np.minimum(room.cosine, JUST_UNDER_ONE, out=room.cosine)


def block_of(lot: Lot, units: Indices, lamps: Lamps, middle: Array) -> Block:
    """Units of one lot, rows of `lamps` (K,), seen from the middle of the points, (3, 1), m."""
    lens, axis, across = lamps.lens[:, units] - middle, lamps.axis[:, units], lamps.across[:, units]
    empty = np.zeros((0, 5))
    one, none = np.ones(units.size), np.zeros(units.size)
    return Block(
        units=units,
        squared=np.stack((*(-2 * lens), dot(lens, lens), one), axis=1),
        along=_projector(axis, lens),
        right=_projector(across, lens) if lot.oval or lot.table >= 0 else empty,
        up=_projector(cross(across, axis), lens) if lot.table >= 0 else empty,
        place=np.stack((*lens, one, none), axis=1),
        weight=lamps.peak_cd[units] * lamps.transmission[units],
        power=lamps.power[units, None],
        wide=-1.0 / lamps.wide[units, None] ** 2,
        narrow=-1.0 / lamps.narrow[units, None] ** 2,
    )


def _projector(v: Array, lens: Array) -> Array:
    return np.stack((*v, -dot(v, lens), np.zeros(v.shape[1])), axis=1)
