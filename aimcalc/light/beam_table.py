"""Level light from tables of a beam, for searches that ask the same few beams thousands of times.

A smooth profile is laid down once at even steps of 2 sin(theta / 2), the length of the chord from the axis'
direction to the ray's, which needs no arc cosine; between entries it is taken as straight. What that
leaves out is known when the table is made: at most `MOST_ERROR` of the peak, else there is no table and
the profile itself is asked. Ovals and photometric files have none.
"""

from __future__ import annotations

import numpy as np

from aimcalc.geometry.vectors import Array, dot
from aimcalc.light.illuminance import contributions
from aimcalc.light.lamps import SMOOTH, Indices, Lamps
from aimcalc.light.tiles import NEAREST, middle_of, point_operand, reach_of
from aimcalc.named import NamedTuple

ENTRIES = 4096
MOST_ERROR = 1e-3  # of the peak; most beams come to a hundredth of that
AT_ONCE = 32_768  # units times points: what stays in a core's own cache


class BeamTable(NamedTuple):
    """One beam's intensity over its peak at k / `scale` of chord, k = 0, 1, 2 ...; `error` at most, over the
    peak. `rise` is from each entry to the next; the last entries are nothing."""

    value: Array
    rise: Array
    scale: float
    error: float


class Beams:
    """Points (3, M), m, that are asked about again and again, and the tables of the beams, each made once."""

    def __init__(self, points: Array) -> None:
        self.points = points
        self.tables: dict[tuple[float, float], BeamTable] = {}
        self.middle = middle_of(points)
        self.operand = point_operand(points - self.middle)

    def level(self, lamps: Lamps, which: Indices | None = None) -> Array:
        """Lux of each of N units on the level plane at the points, or at the Q points `which`, (N, Q).

        All N have one profile: those of one unit at several aims. From a table of the beam where that is
        good to `MOST_ERROR` of the peak, else as `contributions` does.
        """
        table = self._table(lamps)
        if table is None or not lamps.size:
            points = self.points if which is None else self.points[:, which]
            return np.asarray(contributions(lamps, points)[0])
        operand = self.operand if which is None else np.take(self.operand, which, axis=1)
        lux = np.empty((lamps.size, operand.shape[1]))
        lens = lamps.lens - self.middle
        one = np.ones(lamps.size)
        squared = np.stack((*(-2 * lens), dot(lens, lens), one), axis=1)
        along = np.stack((*lamps.axis, -dot(lamps.axis, lens)), axis=1)
        over = np.stack((-one, lens[2]), axis=1) * (lamps.peak_cd * lamps.transmission)[:, None]
        step = max(1, AT_ONCE // lamps.size)
        for first in range(0, operand.shape[1], step):
            part = slice(first, first + step)
            some = operand[:, part]
            _fill(table, (squared @ some, along @ some[:4], over @ some[2:4]), lux[:, part])
        return lux

    def _table(self, lamps: Lamps) -> BeamTable | None:
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
    value = np.concatenate((value, (0.0, 0.0)))
    rise = np.append(np.diff(value), 0.0)
    rise[ENTRIES - 1] = -value[ENTRIES - 1]
    return BeamTable(value, rise, scale, float(np.abs(between).max()))


def _fill(table: BeamTable, given: tuple[Array, Array, Array], out: Array) -> None:
    """Lux from distance squared, distance along the axis, and candela times height, all (N, m)."""
    square, along, over = given
    np.maximum(square, NEAREST**2, out=square)
    distance = np.sqrt(square)
    np.divide(along, distance, out=along)
    ahead = along > 0
    np.subtract(1.0, along, out=along)
    np.maximum(along, 0.0, out=along)
    np.multiply(along, 2.0 * table.scale**2, out=along)
    np.sqrt(along, out=along)  # 2 sin(theta / 2) in steps of the table
    np.minimum(along, ENTRIES, out=along)
    entry = along.astype(np.intp)
    np.subtract(along, entry, out=along)
    np.multiply(along, np.take(table.rise, entry), out=along)
    np.add(along, np.take(table.value, entry), out=along)
    np.multiply(square, distance, out=square)
    np.maximum(over, 0.0, out=over)
    np.multiply(along, over, out=along)
    np.multiply(along, ahead, out=along)
    np.divide(along, square, out=out)
