"""Lux at points: on the level plane, facing the house, on a standing cylinder, on any plane.

A unit counts as a point at its lens, which holds from about five times its aperture outwards. With I the
intensity towards a point at distance d and t the angle of that ray from the normal of a plane:

    on the plane            E = I cos t / d^2          (IES Lighting Handbook, early ed., p. 8-39)
    mean on a cylinder      E = I sin t / (pi d^2)     t from plumb; the mean of the upright planes all round,
                                                       EN 12464-1's measure for faces

Sums run over tiles of some units by some points, in buffers made once: the full table of N units by M
points never exists. Light that comes from behind a plane does not fall on it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import NamedTuple

import numpy as np

from aimcalc.geometry.vectors import Array, dot
from aimcalc.light.falloff import fill_shape
from aimcalc.light.lamps import Flags, Indices, Lamps
from aimcalc.light.tiles import (
    Buffers,
    blocks,
    buffers,
    columns,
    cut,
    distances,
    lots,
    middle_of,
    point_operand,
)

Visible = Callable[[int, Indices], Flags]
Wanted = Sequence["str | Array"]

FIELD_EDGE = 0.1 * (
    1 - 1e-9
)  # share of the peak at the field's edge; a point on the edge is inside
DARK = 1e-9  # share of the peak below which it is not worth asking whether a ray is blocked
UP, TO_HOUSE = np.array([0.0, 0.0, 1.0]), np.array([0.0, -1.0, 0.0])
NORMALS = {"level": UP, "house": TO_HOUSE, "cylindrical": UP}


def illuminance(
    lamps: Lamps, points: Array, of: Wanted = ("level",), *, visible: Visible | None = None
) -> Array:
    """Light of all the units at M points, shape (K, M): one row for each of the K things asked for.

    `points` is (3, M). `of` holds the words "level" (plane facing up), "house" (upright plane facing the
    house), "cylindrical" and "count" (how many units have the point inside their field), or normals: a unit
    direction (3,), or one for each point (3, M). Lux, except for the count.

    `visible(unit, which)` is asked, for units marked `part_blocked` only, which of the points `which`
    (indices, (M',)) the unit's light reaches; it returns flags (M',). Other units cost nothing more.
    """
    total = np.zeros((len(of), points.shape[1]))
    for tile in _tiles(lamps, points, of, visible):
        total[tile.row, tile.columns] += tile.weight @ tile.values
    return total


def contributions(
    lamps: Lamps, points: Array, of: Wanted = ("level",), *, visible: Visible | None = None
) -> Array:
    """Light of each unit at each point, shape (K, N, M): for few points or few units. See `illuminance`."""
    each = np.zeros((len(of), lamps.size, points.shape[1]))
    for tile in _tiles(lamps, points, of, visible):
        each[tile.row, tile.units, tile.columns] = tile.weight[:, None] * tile.values
    return each


class _Tile(NamedTuple):
    """Some units by some points, for one thing asked for: `values` (k, m) times `weight` (k,)."""

    row: int
    units: Indices
    columns: slice
    weight: Array
    values: Array | Flags


class _Plane(NamedTuple):
    """A receiving plane, or the cylinder about its normal: lens . operand is how far a lens is in front."""

    row: int
    operand: Array  # (5, M)
    cylinder: bool


def _tiles(lamps: Lamps, points: Array, of: Wanted, visible: Visible | None) -> Iterator[_Tile]:
    p = points - middle_of(points)
    operand, planes = point_operand(p), _planes(p, of)
    counts = [row for row, want in enumerate(of) if _is(want, "count")]
    all_room = buffers()
    for lot in lots(lamps, ask=visible is not None):
        for block in blocks(lot, lamps, points):
            room = cut(all_room, 0, 0)
            for span in columns(block, points.shape[1]):
                if room.flag.shape[1] != span.stop - span.start:
                    room = cut(all_room, block.units.size, span.stop - span.start)
                distances(block, operand[:, span], room)
                fill_shape(lot, lamps, block, operand[:, span], room)
                if lot.blocked and visible is not None:
                    _take_out_blocked(visible, int(block.units[0]), span.start, room)
                for row in counts:
                    np.greater_equal(room.shape, FIELD_EDGE, out=room.flag)
                    yield _Tile(row, block.units, span, np.ones(block.units.size), room.flag)
                np.multiply(room.square, room.distance, out=room.distance)
                np.divide(room.shape, room.distance, out=room.shape)  # I / (I0 d^3)
                for plane in planes:
                    _receive(plane, block.place, span, room)
                    yield _Tile(plane.row, block.units, span, block.weight, room.spare)


def _is(want: str | Array, word: str) -> bool:
    return isinstance(want, str) and want == word


def _planes(points: Array, of: Wanted) -> list[_Plane]:
    return [
        _Plane(row, _facing(points, _normal(want)), _is(want, "cylindrical"))
        for row, want in enumerate(of)
        if not _is(want, "count")
    ]


def _normal(want: str | Array) -> Array:
    if not isinstance(want, str):
        return np.asarray(want, np.float64)
    if want not in NORMALS:
        raise ValueError(f"expected level, house, cylindrical, count or a normal, got {want!r}")
    return NORMALS[want]


def _facing(points: Array, normal: Array) -> Array:
    """(5, M), whose product with (x, y, z, 1, 0) of a lens is its height over each point's plane."""
    n = np.broadcast_to(normal.reshape(3, -1), points.shape)
    return np.stack((*n, -dot(n, points), np.zeros(points.shape[1])))


def _take_out_blocked(visible: Visible, unit: int, first: int, room: Buffers) -> None:
    """Set the shape to 0 where the one unit of this tile does not reach."""
    shape = room.shape[0]
    asked = np.flatnonzero(shape > DARK)
    if asked.size:
        shape[asked] *= visible(unit, asked + first)


def _receive(plane: _Plane, place: Array, span: slice, room: Buffers) -> None:
    """Fill in `room.spare` with lux per candela of peak; `room.shape` holds I / (I0 d^3)."""
    np.matmul(place, plane.operand[:, span], out=room.spare)  # d cos t
    if plane.cylinder:
        np.multiply(room.spare, room.spare, out=room.spare)
        np.subtract(room.square, room.spare, out=room.spare)
        np.maximum(room.spare, 0.0, out=room.spare)
        np.sqrt(room.spare, out=room.spare)  # d sin t
        np.divide(room.spare, np.pi, out=room.spare)
    else:
        np.maximum(room.spare, 0.0, out=room.spare)  # light from behind the plane
    np.multiply(room.spare, room.shape, out=room.spare)
