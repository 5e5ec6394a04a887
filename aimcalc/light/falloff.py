"""Intensity over its peak for a tile of rays, by the smooth profile or by a measured table, in place."""

from __future__ import annotations

import numpy as np

from aimcalc.geometry.vectors import Array
from aimcalc.light.lamps import Flags, Lamps
from aimcalc.light.photometry.planes import axes
from aimcalc.light.tables import CandelaTable
from aimcalc.light.tiles import Block, Buffers, Lot

TINY = 1e-300
EDGE = 1e-6  # steps: a ray on the edge of a table is on it
FAINTEST = -100.0  # e to this is 4e-44 of the peak; exp is slow where its result underflows


def fill_shape(lot: Lot, lamps: Lamps, block: Block, points: Array, room: Buffers) -> None:
    """Fill in `room.shape`; needs distance, square and cosine, and leaves distance and square alone."""
    if lot.table >= 0:
        _by_table(lamps.tables[lot.table], block, points, room)
    else:
        _smooth(lot, block, points, room)


def _smooth(lot: Lot, block: Block, points: Array, room: Buffers) -> None:
    """exp(-(theta / w)^n), 0 from 90 degrees off the axis."""
    behind = room.cosine.min() <= 0
    if behind:
        np.greater(room.cosine, 0.0, out=room.flag)
        np.maximum(room.cosine, 0.0, out=room.cosine)
    np.arccos(room.cosine, out=room.shape)
    np.multiply(room.shape, room.shape, out=room.shape)
    if lot.oval:
        _stretch(block, points, room)
        np.multiply(room.shape, room.spare, out=room.shape)
    else:
        np.multiply(room.shape, block.wide, out=room.shape)  # -(theta / w)^2
    if not lot.gaussian:
        _raise(room.shape, block.power / 2)
    np.maximum(room.shape, FAINTEST, out=room.shape)
    np.exp(room.shape, out=room.shape)
    if behind:
        np.multiply(room.shape, room.flag, out=room.shape)


def _raise(x: Array, power: Array) -> None:
    """-((-x) ** power) for x <= 0, in place, by logarithm and exponential."""
    with np.errstate(divide="ignore", over="ignore"):
        np.negative(x, out=x)
        np.log(x, out=x)
        np.multiply(x, power, out=x)
        np.exp(x, out=x)
        np.negative(x, out=x)


def _stretch(block: Block, points: Array, room: Buffers) -> None:
    """Fill `spare` with -1 / w^2 in each ray's direction about the axis: ellipses round an oval's axis."""
    np.matmul(block.right, points, out=room.spare)
    np.multiply(room.spare, room.spare, out=room.spare)  # d^2 sin^2 theta cos^2 phi
    np.multiply(room.cosine, room.cosine, out=room.spare2)
    np.subtract(1.0, room.spare2, out=room.spare2)
    np.multiply(room.spare2, room.square, out=room.spare2)  # d^2 sin^2 theta
    np.maximum(room.spare2, TINY, out=room.spare2)
    np.divide(room.spare, room.spare2, out=room.spare)
    np.minimum(room.spare, 1.0, out=room.spare)  # cos^2 phi
    np.multiply(room.spare, block.wide - block.narrow, out=room.spare)
    np.add(room.spare, block.narrow, out=room.spare)


def _by_table(table: CandelaTable, block: Block, points: Array, room: Buffers) -> None:
    """Linear between the table's entries; in both angles where it is not alike all round."""
    pole, x, y = axes(table.layout, block.right, block.up, block.along)
    if pole is not block.along:
        np.matmul(pole, points, out=room.cosine)
        np.divide(room.cosine, room.distance, out=room.cosine)
        np.minimum(room.cosine, 1.0, out=room.cosine)
    np.maximum(room.cosine, -1.0, out=room.cosine)
    np.arccos(room.cosine, out=room.spare)
    if table.start[1]:
        np.subtract(room.spare, table.start[1], out=room.spare)
    np.multiply(room.spare, 1.0 / table.step[1], out=room.spare)
    if table.ends:
        _inside(room.spare, table.values.shape[1], room.flag)
    np.copyto(room.entry, room.spare, casting="unsafe")
    np.subtract(room.spare, room.entry, out=room.spare)  # share on the way to the next entry
    if table.values.shape[0] > 1:
        np.matmul(y, points, out=room.shape)
        np.matmul(x, points, out=room.spare2)
        np.arctan2(room.shape, room.spare2, out=room.shape)
        _between_rows(table, room)
    else:
        _along_row(table.values, room, room.shape)
    if table.ends:
        np.multiply(room.shape, room.flag, out=room.shape)


def _inside(place: Array, entries: int, out: Flags) -> None:
    """Whether places on an even grid lie on it, its edges included."""
    np.less_equal(place, entries - 1 + EDGE, out=out)
    np.logical_and(out, place >= -EDGE, out=out)


def _between_rows(table: CandelaTable, room: Buffers) -> None:
    """Between the rows on either side of the C that is in `shape`."""
    np.subtract(room.shape, table.start[0], out=room.shape)
    np.multiply(room.shape, 1.0 / table.step[0], out=room.shape)
    if table.layout != "C":
        inside = np.empty_like(room.flag)
        _inside(room.shape, table.values.shape[0], inside)
        np.logical_and(room.flag, inside, out=room.flag)
    np.floor(room.shape, out=room.spare2)
    np.subtract(room.shape, room.spare2, out=room.cosine)  # share on the way to the next row
    np.multiply(room.spare2, table.values.shape[1], out=room.spare2)
    np.add(room.spare2, room.entry, out=room.spare2)
    np.copyto(room.entry, room.spare2, casting="unsafe")
    lower, upper = room.shape, room.spare2
    _along_row(table.values, room, lower)
    np.add(room.entry, table.values.shape[1] - 1, out=room.entry)
    _along_row(table.values, room, upper)
    np.subtract(upper, lower, out=upper)
    np.multiply(upper, room.cosine, out=upper)
    np.add(lower, upper, out=lower)


def _along_row(values: Array, room: Buffers, out: Array) -> None:
    """Between entry `entry` and the next by the share in `spare`; leaves `entry` one further on."""
    flat = values.reshape(-1)
    np.take(flat, room.entry, out=out, mode="clip")  # never out of range; "clip" spares a copy
    np.add(room.entry, 1, out=room.entry)
    np.take(flat, room.entry, out=room.spare3, mode="clip")
    np.subtract(room.spare3, out, out=room.spare3)
    np.multiply(room.spare3, room.spare, out=room.spare3)
    np.add(out, room.spare3, out=out)
