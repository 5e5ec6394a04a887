"""Units as sources of light: arrays of where they are, which way they point and how their light falls off."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from aimcalc.geometry.ovals import level_across
from aimcalc.geometry.vectors import Array, cross, dot
from aimcalc.light.profiles import profile_power, profile_width
from aimcalc.light.tables import CandelaTable

Indices = NDArray[np.intp]
Flags = NDArray[np.bool_]

SMOOTH = -1  # `table` of a unit with the smooth profile


class Lamps(NamedTuple):
    """N units as sources. Points and directions (3, N), the rest (N,); metres, radians, candela.

    `lens` is the point the light comes from, `axis` the unit direction of its middle, `across` a unit
    direction square to it: the way an oval's wide field lies, or C = 0 of a photometric file. `peak_cd`
    is the highest intensity; `transmission` multiplies all of it (colour as typed). `power` is
    n, and `wide`, `narrow` are the angles w of the smooth profile along `across` and square to it.
    `table` is an index into `tables`, or SMOOTH. `part_blocked` marks units that something may stand in
    front of.
    """

    lens: Array
    axis: Array
    across: Array
    peak_cd: Array
    transmission: Array
    power: Array
    wide: Array
    narrow: Array
    table: Indices
    tables: tuple[CandelaTable, ...]
    part_blocked: Flags

    @property
    def size(self) -> int:
        """How many units."""
        return int(self.lens.shape[1])

    def take(self, which: ArrayLike) -> Lamps:
        """The units of these indices or flags, in that order."""
        chosen = np.atleast_1d(np.asarray(which))
        columns = [value[..., chosen] for value in self._columns()]
        return Lamps._make([*columns[:9], self.tables, columns[9]])

    def moved(self, lens: Array, axis: Array, across: Array) -> Lamps:
        """The same units at other places, pointing other ways; all (3, N)."""
        return self._replace(lens=lens, axis=axis, across=across)

    def _columns(self) -> list[NDArray[np.generic]]:
        return [value for value in self if not isinstance(value, tuple)]


def smooth_lamps(
    lens: Array,
    axis: Array,
    *,
    peak_cd: ArrayLike,
    beam: ArrayLike,
    field: ArrayLike,
    oval: tuple[ArrayLike, ArrayLike] | None = None,
    across: Array | None = None,
    transmission: ArrayLike = 1.0,
) -> Lamps:
    """Units with the smooth profile. `lens`, `axis` (3, N); the others one or (N,); full angles, radians.

    `oval` is the (narrow, wide) field of oval lamps, wide along `across`; `beam` and `field` then only
    settle n, so that a round unit among ovals has both equal to its field. `across` is level where not given.
    """
    n = lens.shape[1]
    power = _each(profile_power(beam, field), n)
    narrow, wide = (field, field) if oval is None else oval
    return Lamps(
        lens=np.ascontiguousarray(lens, np.float64),
        axis=_unit(np.asarray(axis, np.float64)),
        across=level_across(axis) if across is None else _square_to(axis, across),
        peak_cd=_each(peak_cd, n),
        transmission=_each(transmission, n),
        power=power,
        wide=_each(profile_width(wide, power), n),
        narrow=_each(profile_width(narrow, power), n),
        table=np.full(n, SMOOTH),
        tables=(),
        part_blocked=np.zeros(n, np.bool_),
    )


def measured_lamps(
    lens: Array,
    axis: Array,
    *,
    table: CandelaTable,
    across: Array,
    peak_cd: ArrayLike | None = None,
    transmission: ArrayLike = 1.0,
) -> Lamps:
    """Units that share one photometric file. `across` (3, N) is where its C = 0 half-plane lies.

    That is the body's own right-hand side as seen along the beam: `body_right`. `peak_cd` overrides the
    file's own, one or (N,).
    """
    n = lens.shape[1]
    return Lamps(
        lens=np.ascontiguousarray(lens, np.float64),
        axis=_unit(np.asarray(axis, np.float64)),
        across=_square_to(axis, across),
        peak_cd=_each(table.peak_cd if peak_cd is None else peak_cd, n),
        transmission=_each(transmission, n),
        power=np.full(n, 2.0),
        wide=np.ones(n),
        narrow=np.ones(n),
        table=np.zeros(n, np.intp),
        tables=(table,),
        part_blocked=np.zeros(n, np.bool_),
    )


def joined(*parts: Lamps) -> Lamps:
    """Several lots of units as one, in order."""
    shift = np.cumsum([0, *(len(part.tables) for part in parts[:-1])])
    moved = [
        part._replace(table=np.where(part.table < 0, SMOOTH, part.table + k))
        for part, k in zip(parts, shift, strict=True)
    ]
    columns = [
        np.concatenate(lot, axis=-1) for lot in zip(*(p._columns() for p in moved), strict=True)
    ]
    tables = tuple(table for part in parts for table in part.tables)
    return Lamps._make([*columns[:9], tables, columns[9]])


def body_right(axis: Array, up: Array) -> Array:
    """The body's own right-hand side as seen along the beam, (3, N), from its axis and its body-up."""
    return cross(axis, up)


def _each(value: ArrayLike, count: int) -> Array:
    return np.array(np.broadcast_to(np.asarray(value, np.float64), (count,)))


def _unit(v: Array) -> Array:
    return np.asarray(v / np.sqrt(dot(v, v)))


def _square_to(axis: Array, across: Array) -> Array:
    """`across` without its part along the axis, unit length."""
    along = _unit(np.asarray(axis, np.float64))
    return _unit(across - along * dot(along, across))
