"""Level light from tables of a beam, for searches that ask the same few beams thousands of times.

A smooth profile is laid down once at even steps of 2 sin(theta / 2), the length of the chord from the axis'
direction to the ray's, which needs no arc cosine; between entries it is taken as straight. What that
leaves out is known when the table is made: at most `MOST_ERROR` of the peak, else there is no table and
the profile itself is asked. Ovals and photometric files have none.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from aimcalc.geometry.vectors import Array, dot
from aimcalc.light.illuminance import contributions
from aimcalc.light.lamps import SMOOTH, Indices, Lamps
from aimcalc.light.tiles import NEAREST, NOTHING, middle_of, point_operand, reach_of
from aimcalc.named import NamedTuple

ENTRIES = 4096
MOST_ERROR = 1e-3  # of the peak; most beams come to a hundredth of that
AT_ONCE = 16_384  # units times points: what stays in a core's own cache


class BeamTable(NamedTuple):
    """One beam's intensity over its peak at k / `scale` of chord, k = 0, 1, 2 ...; `error` at most, over the
    peak. `rise` is from each entry to the next; the last two entries are nothing."""

    value: Array
    rise: Array
    scale: float
    error: float


class Rays(NamedTuple):
    """N aims, as products with what `Beams` holds of points: distance squared, distance along the axis,
    candela times height, (N, 5), (N, 4), (N, 2)."""

    squared: Array
    along: Array
    over: Array

    def take(self, which: Indices | slice) -> Rays:
        """Some of them, by their indices (K,)."""
        return Rays(self.squared[which], self.along[which], self.over[which])


class Beams:
    """Points (3, M), m, that are asked about again and again, and the tables of the beams, each made once."""

    def __init__(self, points: Array) -> None:
        self.points = points
        self.tables: dict[tuple[float, float], BeamTable] = {}
        self.middle = middle_of(points)
        self.operand = point_operand(points - self.middle)
        room = max(AT_ONCE, points.shape[1])
        self._room = [np.empty(room) for _ in range(5)], np.empty(room, np.intp)

    def level(self, lamps: Lamps, which: Indices | None = None) -> Array:
        """Lux of each of N units on the level plane at the points, or at the Q points `which`, (N, Q).

        All N have one profile: those of one unit at several aims. From a table of the beam where that is
        good to `MOST_ERROR` of the peak, else as `contributions` does.
        """
        table = self.table(lamps)
        if table is None:
            points = self.points if which is None else self.points[:, which]
            return np.asarray(contributions(lamps, points)[0])
        operand = self.operand if which is None else np.take(self.operand, which, axis=1)
        lux = np.empty((lamps.size, operand.shape[1]))
        for part, light in self.blocks(table, self.rays(lamps), operand):
            lux[:, part] = light
        return lux

    def blocks(self, table: BeamTable, rays: Rays, operand: Array) -> Iterator[tuple[slice, Array]]:
        """Which of the points of `operand` (5, M), and what `tile` gives there, a block at a time."""
        step = max(1, AT_ONCE // max(1, rays.along.shape[0]))
        for first in range(0, operand.shape[1], step):
            part = slice(first, first + step)
            yield part, self.tile(table, rays, operand[:, part])

    def rays(self, lamps: Lamps) -> Rays:
        """What `tile` asks of N units, whatever their profiles."""
        lens, one = lamps.lens - self.middle, np.ones(lamps.size)
        return Rays(
            np.stack((*(-2 * lens), dot(lens, lens), one), axis=1),
            np.stack((*lamps.axis, -dot(lamps.axis, lens)), axis=1),
            np.stack((-one, lens[2]), axis=1) * (lamps.peak_cd * lamps.transmission)[:, None],
        )

    def tile(self, table: BeamTable, rays: Rays, operand: Array) -> Array:
        """Lux of k aims of one beam at m points, (k, m): room that the next call fills again.

        `operand` (5, m) are columns of `self.operand`; where k is not 1, k times m is `AT_ONCE` at the most.
        """
        shape = rays.along.shape[0], operand.shape[1]
        flat, entry = self._room
        size = shape[0] * shape[1]
        square, lux, over, distance, spare = (room[:size].reshape(shape) for room in flat)
        np.matmul(rays.squared, operand, out=square)
        np.matmul(rays.along, operand[:4], out=lux)
        np.matmul(rays.over, operand[2:4], out=over)
        _fill(table, (square, lux, over), (distance, spare, entry[:size].reshape(shape)))
        return lux

    def most(
        self, table: BeamTable, rays: Rays, operand: Array, turned: Array, moved: Array
    ) -> Array:
        """What k aims give at m points at the very most, lux, (k, m), wherever they are turned.

        Each axis is turned by no more than the chord `turned` (k,), 2 sin(angle / 2), and each lens moved by
        no more than `moved` (k,), m; from where it then is, a point lies another 2 moved / distance of chord
        off at the most. What the table may be out by is added.
        """
        turned, moved = turned[:, None], moved[:, None]
        distance = np.sqrt(np.maximum(rays.squared @ operand, NEAREST**2))
        chord = np.sqrt(np.maximum(2.0 - 2.0 * (rays.along @ operand[:4]) / distance, 0.0))
        chord -= turned + 2.0 * moved / distance
        place = np.minimum(np.maximum(chord, 0.0) * table.scale, ENTRIES)
        entry = place.astype(np.intp)
        shape = (
            table.value[entry] + (place - entry) * table.rise[entry] + 2.0 * table.error + NOTHING
        )
        over = rays.over @ operand[2:4] - rays.over[:, :1] * moved
        near = np.maximum(distance - moved, NEAREST)
        return np.asarray(shape * np.maximum(over, 0.0) / near**3)

    def table(self, lamps: Lamps) -> BeamTable | None:
        """The one table of N units' beam; None where there is none that is good enough, or no unit."""
        round_one = (lamps.table == SMOOTH).all() and (lamps.wide == lamps.narrow).all()
        if not round_one or not lamps.size:
            return None
        beam = float(lamps.power[0]), float(lamps.wide[0])
        if beam not in self.tables:
            self.tables[beam] = beam_table(*beam)
        found = self.tables[beam]
        return found if found.error <= MOST_ERROR else None


def beam_table(power: float, width: float) -> BeamTable:
    """exp(-(theta / width)^power) as a table up to where it is `NOTHING` or 90 degrees off axis; radians."""
    end = float(reach_of(width, power))
    scale = (ENTRIES - 1) / (2 * np.sin(end / 2))

    def profile(entry: Array) -> Array:
        theta = 2 * np.arcsin(np.minimum(entry / scale / 2, 1.0))
        return np.asarray(np.exp(-((theta / width) ** power)))

    entry = np.arange(ENTRIES, dtype=np.float64)
    value = profile(entry)
    between = (value[1:] + value[:-1]) / 2 - profile(entry[1:] - 0.5)
    rise = np.concatenate((np.diff(value), (0.0, 0.0)))
    value = np.concatenate((value[:-1], (0.0, 0.0)))  # right up to the end, then nothing
    return BeamTable(value, rise, scale, float(np.abs(between).max()))


def _fill(
    table: BeamTable, given: tuple[Array, Array, Array], room: tuple[Array, Array, Indices]
) -> None:
    """Lux in place of the distance along the axis.

    `given` are distance squared, that distance, and candela times height, all (N, m) and all written over.
    """
    square, along, over = given
    distance, spare, entry = room
    np.maximum(square, NEAREST**2, out=square)
    np.sqrt(square, out=distance)
    np.divide(along, distance, out=along)
    np.subtract(1.0, along, out=along)
    np.maximum(along, 0.0, out=along)
    np.multiply(along, 2.0 * table.scale**2, out=along)
    np.sqrt(
        along, out=along
    )  # 2 sin(theta / 2) in steps of the table, which ends ahead of the lens
    np.minimum(along, ENTRIES, out=along)
    np.copyto(entry, along, casting="unsafe")
    np.subtract(along, entry, out=along)
    np.take(table.rise, entry, out=spare, mode="clip")  # never out of range; "clip" spares a copy
    np.multiply(along, spare, out=along)
    np.take(table.value, entry, out=spare, mode="clip")
    np.add(along, spare, out=along)
    np.multiply(square, distance, out=square)
    np.maximum(over, 0.0, out=over)
    np.multiply(along, over, out=along)
    np.divide(along, square, out=along)
