"""At which trims of a pipe its units still hit, untouched or re-tilted with their pans left; how level it is.

A pipe that hangs e higher lifts the whole of its light by e: a dial and a level keep the axis as it was.
Re-tilted the axis stays in the plane of its stem and of h, at the printed turn: the face is d off it,

    d = |(F - P - e z) . (h x a)|,  miss = atan2(d, throw)

Out of level, one end over the other, is asked of the forward model itself. Each limit is found by halving,
within `REACH` of the plotted trim: farther off it is another plot.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.aim import Flags, Indices
from aimcalc.geometry.vectors import Array, angles_between, cross, dot, turned
from aimcalc.landings.forward import ERRORS, SLOPE, Set, held, landed, plane_at, printed, some
from aimcalc.named import NamedTuple
from aimcalc.rig.rig import allowed
from aimcalc.scene.model import Pipe

if TYPE_CHECKING:
    from aimcalc.rig.rig import Rig

REACH = 2.0  # m either way that is looked at (our choice)
HALVINGS = 14  # of REACH: to a tenth of a millimetre
BEYOND = 0.5  # m past the face where a ray is looked at again
ALONG = 1e-9


class Trims(NamedTuple):
    """How far one pipe may be off its plotted trim, metres, until one of its units misses.

    All units untouched, or re-tilted; `level` is how far one end may be over the other, half of it up and
    half of it down. REACH: no limit within it. `first` names the units that miss first, untouched, lower
    and higher.
    """

    pipe: str
    lower: float
    higher: float
    lower_tipped: float
    higher_tipped: float
    level: float
    first: tuple[str, str]


def trims_of(rig: Rig) -> tuple[Trims, ...]:
    """The trims of every pipe that holds units which can be aimed, in hang order."""
    mine = [k for k, p in enumerate(rig.positions) if isinstance(p, Pipe)]
    rows = np.array([k for k in mine if np.isfinite(rig.aims.throw[k])], dtype=np.intp)
    if not rows.size:
        return ()
    looked = _Looked(rig, rows, some(printed(rig), rows), np.zeros((len(ERRORS), rows.size)))
    return tuple(_by_pipe(rig, rows, looked))


def missing(rig: Rig, given: Set, off: Array) -> list[str]:
    """The units that miss as they stand: set as `given` (N units), with things off by `off` (9, N)."""
    rows = np.flatnonzero(np.isfinite(rig.aims.throw))
    looked = _Looked(rig, rows, some(given, rows), off[:, rows])
    hit = looked.untouched(np.zeros(rows.size))
    return [rig.names[k] for k in rows[~hit]]


def _by_pipe(rig: Rig, rows: Indices, looked: _Looked) -> Iterator[Trims]:
    names = np.array([rig.units[k].position for k in rows.tolist()])
    lower, higher = _limits(looked.untouched, rows.size)
    lower_tipped, higher_tipped = _limits(looked.tipped, rows.size)
    level = np.minimum(*_limits(looked.sloped, rows.size))
    for name in dict.fromkeys(names.tolist()):
        here = np.flatnonzero(names == name)
        yield Trims(
            pipe=name,
            lower=float(lower[here].min()),
            higher=float(higher[here].min()),
            lower_tipped=float(lower_tipped[here].min()),
            higher_tipped=float(higher_tipped[here].min()),
            level=float(level[here].min()),
            first=(_least(rig, rows[here], lower[here]), _least(rig, rows[here], higher[here])),
        )


def _least(rig: Rig, rows: Indices, limit: Array) -> str:
    return rig.names[int(rows[int(limit.argmin())])]


def _limits(fits: Callable[[Array], Flags], count: int) -> tuple[Array, Array]:
    """How far N units go down and up until they miss, (N,): REACH where not within it, 0 where at once."""
    down, up = (_limit(fits, count, sign) for sign in (-1.0, 1.0))
    return down, up


def _limit(fits: Callable[[Array], Flags], count: int, sign: float) -> Array:
    good, bad = np.zeros(count), np.full(count, REACH)
    all_along = fits(sign * bad)
    for _ in range(HALVINGS):
        middle = (good + bad) / 2
        ok = fits(sign * middle)
        good, bad = np.where(ok, middle, good), np.where(ok, bad, middle)
    return np.where(all_along, REACH, good)


class _Looked:
    """N units as they are set, and whether they hit once their pipe hangs otherwise, each its own way.

    `off` (9, N) is what else is off of them.
    """

    def __init__(self, rig: Rig, rows: Indices, given: Set, off: Array) -> None:
        self.rig, self.rows = rig, rows
        self.units, self.given = some(held(rig), rows), given
        self.face, self.plotted = rig.arrays.point[:, rows], rig.aims.axis[:, rows]
        self.lens, self.axis = self._rays(off)
        self.h = turned(self.units.reference, self.units.stem, self.given.turn)

    def _rays(self, off: Array) -> tuple[Array, Array]:
        """Lenses and axes, each (3, N), with things off by `off` (9, N): from two spots of each ray."""
        planes = (plane_at(self.face + p * self.plotted, self.plotted) for p in (0.0, BEYOND))
        near, far = (landed(self.units, self.given, plane, off) for plane in planes)
        way = far.point - near.point
        axis = way / np.sqrt(dot(way, way))
        nose = self.rig.arrays.nose[self.rows]
        return near.point - (near.reach - nose) * axis, axis

    def _hit(self, lens: Array, axis: Array) -> Flags:
        way = self.face - lens
        way = way / np.sqrt(dot(way, way))
        may = allowed(self.rig, self.rows, axis - way)
        return np.asarray(angles_between(axis, way) <= may)

    def untouched(self, off: Array) -> Flags:
        """Whether units left as they are hit with their pipe so much higher, (N,)."""
        lifted = self.lens.copy()
        lifted[2] += off
        return self._hit(lifted, self.axis)

    def tipped(self, off: Array) -> Flags:
        """Whether units hit once they are re-tilted, their pans left, within their yokes' travel."""
        given, stem, rows = self.rig.arrays, self.units.stem, self.rows
        v = self.face - self.rig.aims.pivot[:, rows]
        v[2] -= off
        aside = cross(self.h, stem)
        along, out, rise = dot(v, stem), dot(v, self.h), given.rise[rows]
        s = np.sqrt(np.maximum(along**2 + out**2 - rise**2, ALONG))
        throw = s - given.nose[rows]
        yoke = np.arctan2(along, out) + np.arctan2(rise, s)
        yoke = (yoke + np.pi) % (2 * np.pi) - np.pi
        turns = (yoke >= given.yoke_min[rows] - ALONG) & (yoke <= given.yoke_max[rows] + ALONG)
        miss = np.arctan2(np.abs(dot(v, aside)), throw)
        return np.asarray((miss <= allowed(self.rig, rows, aside)) & turns & (throw > 0))

    def sloped(self, off: Array) -> Flags:
        """Whether units left as they are hit with one end of their pipe so much over the other, (N,)."""
        errors = np.zeros((len(ERRORS), self.rows.size))
        errors[SLOPE] = off
        return self._hit(*self._rays(errors))
