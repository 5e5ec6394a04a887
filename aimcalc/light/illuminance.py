"""Lux at points: on the level plane, facing the house, on a standing cylinder, on any plane.

A unit counts as a point at its lens, which holds from about five times its aperture outwards. With I the
intensity towards a point at distance d and t the angle of that ray from the normal of a plane:

    on the plane            E = I cos t / d^2          (IES Lighting Handbook, early ed., p. 8-39)
    mean on a cylinder      E = I sin t / (pi d^2)     t from plumb; the mean of the upright planes all round,
                                                       EN 12464-1's measure for faces

Sums run over tiles of some units by some points, in buffers made once: the full table of N units by M
points never exists. Light that comes from behind a plane does not fall on it. A sum at `tiles.MANY` points
or more leaves out what is less than `tiles.NOTHING` of a smooth profile's peak.
"""

from __future__ import annotations

import pickle
from collections.abc import Callable, Iterator, Sequence

import numpy as np

from aimcalc.geometry.vectors import Array, dot, same
from aimcalc.light.lamps import CandelaTable, Flags, Indices, Lamps
from aimcalc.light.tiles import (
    Block,
    Buffers,
    Cells,
    Lot,
    block_of,
    buffers,
    cells_of,
    columns,
    cut,
    distances,
    lots,
    middle_of,
    point_operand,
    reached_columns,
    units_of,
)
from aimcalc.named import NamedTuple

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
    from aimcalc.light.photometry.planes import axes

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
    work = _work(points, of, visible, cells_of(points))
    for lot, units in _lots(lamps, work):
        _add(total, _tiles(lamps, work, lot, units))
    return total if work.cells is None else work.cells.put_back(total)


def _add(total: Array, tiles: Iterator[_Tile]) -> Array:
    for tile in tiles:
        total[tile.row, tile.columns] += tile.weight @ tile.values
    return total


class Sums:
    """`illuminance` of M points, (K, M), for lamps that change little from one time to the next.

    The sum of every block of units is kept by all that goes into it, compared to the last bit, so that
    what is given again is what would be worked out. `before` is what was kept before the change, of which
    only what is asked for again goes on being kept; for other points, or other things, it is of no use.
    """

    def __init__(self, points: Array, of: Wanted, before: Sums | None = None) -> None:
        self.points, self.of = points, of
        like = before is not None and before.of == of and same(before.points, points)
        self._old = before._kept if before is not None and like else {}
        self._kept: dict[tuple[object, ...], Array] = {}
        self._work = _work(points, of, None, cells_of(points))

    def illuminance(self, lamps: Lamps, seen: Flags | None = None) -> Array:
        """The light of all the units; `seen` (N, M) are the points that units marked `part_blocked` reach."""
        visible = None if seen is None else lambda unit, which: seen[unit, which]
        total = np.zeros((len(self.of), self.points.shape[1]))
        work = self._work._replace(visible=visible)
        each = np.concatenate([np.atleast_2d(column) for column in lamps[:8]]).T.copy()
        tables = [pickle.dumps(table) for table in lamps.tables]
        for lot, units in _lots(lamps, work):
            hidden = np.packbits(seen[units]).tobytes() if lot.blocked and seen is not None else b""
            table = tables[lot.table] if lot.table >= 0 else b""
            key = each[units].tobytes(), hidden, table, (lot.oval, lot.gaussian, lot.blocked)
            if key not in self._kept:
                known = self._old.get(key)
                if known is None:
                    known = _add(np.zeros_like(total), _tiles(lamps, work, lot, units))
                self._kept[key] = known
            total += self._kept[key]
        return total if work.cells is None else work.cells.put_back(total)


def contributions(
    lamps: Lamps, points: Array, of: Wanted = ("level",), *, visible: Visible | None = None
) -> Array:
    """Light of each unit at each point, shape (K, N, M): for few points or few units. See `illuminance`."""
    each = np.zeros((len(of), lamps.size, points.shape[1]))
    work = _work(points, of, visible, None)
    for tile in (t for lot, units in _lots(lamps, work) for t in _tiles(lamps, work, lot, units)):
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


class _Work(NamedTuple):
    """What all blocks of units share: points, what is asked for there, and the room to work it out in.

    Where there are `cells`, points are in their order from the `operand` on.
    """

    points: Array
    middle: Array
    cells: Cells | None
    operand: Array
    planes: list[_Plane]
    counts: list[int]
    visible: Visible | None
    room: Buffers


def _work(points: Array, of: Wanted, visible: Visible | None, cells: Cells | None) -> _Work:
    middle = middle_of(points)
    p = points - middle
    operand, planes = point_operand(p), _planes(p, of)
    if cells is not None:
        operand = operand[:, cells.order]
        planes = [plane._replace(operand=plane.operand[:, cells.order]) for plane in planes]
    counts = [row for row, want in enumerate(of) if _is(want, "count")]
    return _Work(points, middle, cells, operand, planes, counts, visible, buffers())


def _lots(lamps: Lamps, work: _Work) -> Iterator[tuple[Lot, Indices]]:
    """Units that one tile takes, with the lot they are of."""
    for lot in lots(lamps, ask=work.visible is not None):
        for units in units_of(lot, lamps, work.points):
            yield lot, units


def _tiles(lamps: Lamps, work: _Work, lot: Lot, units: Indices) -> Iterator[_Tile]:
    block = block_of(lot, units, lamps, work.middle)
    room = cut(work.room, 0, 0)
    spans = columns(block, work.points.shape[1])
    if work.cells is not None and lot.table < 0:
        spans = reached_columns(block, lamps, work.cells)
    for span in spans:
        if room.flag.shape[1] != span.stop - span.start:
            room = cut(work.room, block.units.size, span.stop - span.start)
        distances(block, work.operand[:, span], room)
        fill_shape(lot, lamps, block, work.operand[:, span], room)
        if lot.blocked and work.visible is not None:
            own = None if work.cells is None else work.cells.order[span]
            _take_out_blocked(work.visible, int(block.units[0]), span.start, own, room)
        for row in work.counts:
            np.greater_equal(room.shape, FIELD_EDGE, out=room.flag)
            yield _Tile(row, block.units, span, np.ones(block.units.size), room.flag)
        np.multiply(room.square, room.distance, out=room.distance)
        np.divide(room.shape, room.distance, out=room.shape)  # I / (I0 d^3)
        for plane in work.planes:
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


def _take_out_blocked(
    visible: Visible, unit: int, first: int, own: Indices | None, room: Buffers
) -> None:
    """Set the shape to 0 where the one unit of this tile does not reach.

    The tile's points are `own` or, where None, those from the `first` on.
    """
    shape = room.shape[0]
    asked = np.flatnonzero(shape > DARK)
    if asked.size:
        shape[asked] *= visible(unit, asked + first if own is None else own[asked])


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
