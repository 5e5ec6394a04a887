"""Units as sources of light: arrays of where they are, which way they point and how their light falls off."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import ArrayLike, NDArray

from aimcalc.geometry.pools import level_across
from aimcalc.geometry.vectors import Array, cross, dot, to_radians
from aimcalc.light.profiles import profile_power, profile_width
from aimcalc.named import NamedTuple

if TYPE_CHECKING:
    from aimcalc.light.photometry import Photometry, planes

# Steps in degrees of a file whose angles have no common step, or too small a one; see `CandelaTable`.
FINEST, FINEST_GAMMA, FINEST_C = 0.02, 0.1, 0.5
DARK = 1e-6  # of the peak: a file that ends with less fades out over one step more
MOST_ENTRIES = 1_300_000
_UNIT = 1e-4  # degrees: the angles of a file are taken as multiples of this


class CandelaTable(NamedTuple):
    """One file's intensity over its peak, in its own planes: C round the pole, gamma off it (`planes`).

    `values` (P, G) stand at C = start[0] + j * step[0] and gamma = start[1] + k * step[1], radians; P is 1
    where the light is the same all round the lens axis. The steps divide the file's own, so that nothing
    is resampled, unless it has no common step: then they are `FINEST`, and `error` is the largest
    difference that this makes anywhere, over the peak (else 0). `ends` says that the file ends lit, or
    does not go all the way: outside the table there is nothing then. A Type C table without `ends` covers
    every direction.
    """

    layout: str
    start: tuple[float, float]
    step: tuple[float, float]
    values: Array
    ends: bool
    error: float
    peak_cd: float
    field: float  # full angle at 10 % of the peak, radians, mean over the planes


def candela_table(photometry: Photometry) -> CandelaTable:
    """A file's candela on an even grid of its own angles."""
    from aimcalc.light.photometry import planes  # what a rig without files does without

    c, gamma = photometry.c_deg, photometry.gamma_deg
    c_step, gamma_step, exact = _steps(c, gamma, all_round=photometry.all_round)
    to = (float(c[-1]), float(gamma[-1]))
    ends = photometry.layout != "C" or (
        to[1] < 180.0 - 1e-9 and bool(photometry.candela[:, -1].max() > DARK * photometry.peak_cd)
    )
    start = (float(c[0]), float(gamma[0]))
    if photometry.layout == "C":  # round from below -180 to beyond 180, and to 180 off the axis
        half = float(np.ceil(180.0 / c_step - 1e-9) + 1) * c_step if c.size > 1 else 0.0
        start, to = (-half, 0.0), (half, to[1] if ends else 180.0)
    even_c = _even(start[0], to[0], c_step)
    even_gamma = _even(start[1], to[1], gamma_step)
    own = c, gamma, photometry.candela / photometry.peak_cd
    values = planes.looked_up(photometry.layout, own, even_c[:, None], even_gamma[None])
    even = even_c, even_gamma, values
    return CandelaTable(
        layout=photometry.layout,
        start=(float(to_radians(start[0])), float(to_radians(start[1]))),
        step=(float(to_radians(c_step)), float(to_radians(gamma_step))),
        values=np.ascontiguousarray(values),
        ends=ends,
        error=0.0 if exact else _difference(photometry.layout, own, even),
        peak_cd=photometry.peak_cd,
        field=float(to_radians(photometry.field_angle)),
    )


def _steps(c: Array, gamma: Array, *, all_round: bool) -> tuple[float, float, bool]:
    """Steps of C and gamma in degrees, and whether they divide the file's own; they divide its range."""
    spans = float(c[-1] - c[0]), float(gamma[-1] - gamma[0])
    steps = _common_step(c - c[0]), _common_step(gamma - gamma[0])
    if all_round:
        exact = steps[1] >= FINEST
        return 360.0, steps[1] if exact else _part(spans[1], FINEST), exact
    if spans[0] / steps[0] * spans[1] / steps[1] <= MOST_ENTRIES:
        return *steps, True
    parts = zip(spans, steps, (FINEST_C, FINEST_GAMMA), strict=True)
    coarser = [max(step, _part(span, finest)) for span, step, finest in parts]
    return coarser[0], coarser[1], False


def _part(span: float, step: float) -> float:
    """The largest part of `span` that is no more than `step`."""
    return span / float(np.ceil(span / step))


def _even(first: float, last: float, step: float) -> Array:
    """Angles from `first` to `last` or just beyond, in even steps."""
    return np.asarray(first + step * np.arange(int(np.ceil((last - first) / step - 1e-9)) + 1))


def _common_step(angles: Array) -> float:
    """Largest step in degrees of which all angles are multiples, in units of 0.0001 degrees."""
    return float(np.gcd.reduce(np.rint(angles / _UNIT).astype(np.int64))) * _UNIT


def _difference(layout: str, own: planes.Table, even: planes.Table) -> float:
    """Largest difference between two tables that are linear in the same two angles.

    It is bilinear between the angles of both, so it is largest where two of their angles cross.
    """
    from aimcalc.light.photometry import planes

    found = 0.0
    for c, gamma in ((own[0], own[1]), (own[0], even[1]), (even[0], own[1])):
        at = gamma[None, (gamma >= own[1][0]) & (gamma <= own[1][-1])]
        turn = (np.where(c > even[0][-1], c - 360.0, c) if layout == "C" else c)[:, None]
        here, there = np.broadcast_arrays(turn, at)
        apart = planes.looked_up(layout, own, here, there) - planes.bilinear(*even, here, there)
        found = max(found, float(np.abs(apart).max(initial=0.0)))
    return found


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
        """The units of these indices (K,) or flags (N,), in that order."""
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
