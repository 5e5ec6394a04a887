"""What new aims would do: how much of a hole each closes, and what it opens in any system of its unit.

A new aim is asked about only where it can matter: where its system is dark, and where one of its unit's
systems would be dark without that unit. Light is read from tables of the beams past what the present lenses
see; by rays from the new lenses where the answer is to be exact; or bounded: the most that a unit could give
wherever its face is moved by a few steps, past all scenery, which settles where it is no use to move it on.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

import numpy as np

from aimcalc.coverage.new_aims import leeway, lit, lit_anew
from aimcalc.coverage.sources import NewAims
from aimcalc.coverage.study import Study
from aimcalc.coverage.systems import SystemLight
from aimcalc.geometry.vectors import Array
from aimcalc.light.beam_table import AT_ONCE, Beams, BeamTable
from aimcalc.light.evenness import Gap
from aimcalc.light.illuminance import contributions
from aimcalc.light.lamps import Flags, Indices, Lamps
from aimcalc.light.tiles import UNITS
from aimcalc.named import NamedTuple

AS_BEFORE = 1 - 1e-9  # share of the threshold; light that falls below it makes a point uncovered


class Hole(NamedTuple):
    """A hole of a system that somebody asks about."""

    system: SystemLight
    gap: Gap


class Outcomes(NamedTuple):
    """What each of K new aims does to the light of a system and to every system of its unit, (K,)."""

    here: Array  # m2 of the hole asked about that were dark and would not be: what a helper is offered for
    uncovers: Array  # m2 that would turn dark in any of the unit's systems
    relief: Array  # by how much light short of the threshold shrinks, lx m2: tells between equals

    @property
    def net(self) -> Array:
        """m2 of the hole closed less m2 opened anywhere."""
        return self.here - self.uncovers

    def take(self, which: Indices | Flags) -> Outcomes:
        """Those of some of the aims, by their indices or by flags (K,)."""
        return Outcomes(*(column[which] for column in self))


def outcomes(
    study: Study, system: SystemLight, hole: Indices, new: NewAims, *, exact: bool = False
) -> Outcomes:
    """What K new aims would do, each by itself; `hole` (C,) are the study's points in the hole asked about.

    Thresholds are frozen: the lux that a point was dark under before, whatever the new mean. Rays are cast
    from the new lenses and no table is used where `exact`.
    """
    gap = Gap((0.0, 0.0), 0.0, 0.0, (0.0, 0.0), (0.0,) * 4, hole)
    ground = Ground(study, [Hole(system, gap)])
    return ground.outcomes(np.zeros(new.unit.size, np.intp), new, exact=exact)


class _Place(NamedTuple):
    """The Q points where a new aim of one unit can matter to one system, those first that cannot open."""

    which: Indices  # of the plane's points
    table: BeamTable | None  # of the unit's beam
    needs: Array  # lux that the unit has to give for a point not to be dark in the system, 0 or more, (Q,)
    opens: (
        Array  # with less than this one of the last points, lit in some system, is so no more, lux
    )
    given: float  # what it gives now, of what is needed, lux in all
    gaps: dict[int, tuple[Indices, Array]]  # each hole's points, and what they need

    def judged(self, light: Array, hole: Indices) -> tuple[Array, Array, Array]:
        """Outcomes, in points, of K aims that give `light` (K, Q), which is written over, each (K,).

        Each is tried for its `hole` (K,), holes together.
        """
        here, first = np.empty(hole.size), 0
        for k, same in groupby(hole.tolist()):
            rows = slice(first, first + len(list(same)))
            which, needs = self.gaps[k]
            here[rows] = (light[rows].take(which, axis=1) >= needs).sum(axis=1)
            first = rows.stop
        opens = (light[:, self.needs.size - self.opens.size :] < self.opens).sum(axis=1)
        np.minimum(light, self.needs, out=light)
        return here, opens, light.sum(axis=1) - self.given


class Ground:
    """The holes asked about, and where new aims of the units can matter to them."""

    def __init__(self, study: Study, holes: Sequence[Hole]) -> None:
        self.study, self.holes = study, holes
        self.beams = Beams(study.plane.points)
        self.places: dict[tuple[str, int, bool], _Place] = {}
        self.now: dict[int, Array] = {}
        names = [hole.system.name for hole in holes]
        self.system = np.array([names.index(name) for name in names], np.intp)  # first hole of it
        self.gaps: dict[str, Indices] = {}
        for k, hole in enumerate(holes):
            whole = np.full(study.plane.points.shape[1], -1)
            self.gaps.setdefault(hole.system.name, whole)[hole.gap.cells] = k

    def outcomes(
        self,
        hole: Indices,
        new: NewAims,
        *,
        exact: bool = False,
        steps: tuple[float, ...] | None = None,
    ) -> Outcomes:
        """What each new aim does, by itself, to the system of its hole (K,) and to those of its unit.

        By rays where `exact`; what it could do at the very best, moved on by `steps`, where there are such.
        """
        told = np.zeros((3, hole.size))
        self._know_now(new.unit)
        rays = self.beams.rays(new.lamps)
        within = None if steps is None else leeway(self.study.rig, new, steps)
        key = self.system[hole] * len(self.study.rig.units) + new.unit
        order = np.lexsort((hole, key))
        ends = np.flatnonzero(np.diff(key[order])) + 1
        for lot in np.split(order, ends) if order.size else []:
            system, unit = self.holes[int(hole[lot[0]])].system, int(new.unit[lot[0]])
            place = self._place(system, unit, exact=exact or steps is not None)
            operand = np.take(self.beams.operand, place.which, axis=1)
            step = max(1, AT_ONCE // max(1, place.needs.size))
            for rows in (lot[k : k + step] for k in range(0, lot.size, step)):
                if exact:
                    points = self.study.plane.points[:, place.which]
                    light = lit_anew(self.study, new.lamps.take(rows), points)
                elif place.table is None:
                    light = self._without_table(
                        new.lamps.take(rows), place, bounded=steps is not None
                    )
                elif within is None:
                    light = self.beams.tile(place.table, rays.take(rows), operand)
                else:
                    far = within[0][rows], within[1][rows]
                    light = self.beams.most(place.table, rays.take(rows), operand, *far)
                told[:, rows] = place.judged(light, hole[rows])
        return Outcomes(*(told * self.study.plane.grid.cell_area))

    def _without_table(self, lamps: Lamps, place: _Place, *, bounded: bool) -> Array:
        """Lux of aims whose beam has no table, (K, Q); where it is to be `bounded`, without a bound."""
        if bounded:
            return np.full((lamps.size, place.which.size), np.inf)
        return np.asarray(contributions(lamps, self.study.plane.points[:, place.which])[0])

    def _place(self, system: SystemLight, unit: int, *, exact: bool) -> _Place:
        """Where the system is dark, or one of the unit's would be without the unit.

        What the present lens does not see counts where `exact`, for new ones may.
        """
        key = system.name, unit, exact
        if key not in self.places:
            self.places[key] = self._made(system, unit, exact=exact)
        return self.places[key]

    def _made(self, system: SystemLight, unit: int, *, exact: bool) -> _Place:
        study, one = self.study, np.array([unit])
        lamps, seen = study.sources.lamps.take(one), study.seen.of(one)
        now = self.now[unit]
        level, stakes = system.taken, study.stakes(unit)
        where = level - np.maximum(now, 0.0) < system.below
        for stake in stakes:
            where |= stake.taken - now < stake.below
        if not exact and seen.flags is not None:
            where &= seen.flags[0]
        which = np.flatnonzero(where)
        mine = now[which] if exact else self.beams.level(lamps, which)[0]
        opens = np.zeros(which.size)
        for stake in stakes:
            here = stake.taken[which]
            least = np.where(here >= stake.below, stake.below * AS_BEFORE - here + mine, 0.0)
            np.maximum(opens, least, out=opens)
        order = np.argsort(opens > 0, kind="stable")
        which, mine, opens = which[order], mine[order], opens[order]
        short = system.below - level[which]
        needs, gap = np.maximum(short + mine, 0.0), self.gaps[system.name][which]
        holes = [k for k, each in enumerate(self.holes) if each.system is system]
        cells = [np.flatnonzero((gap == k) & (short > 0)) for k in holes]
        return _Place(
            which=which,
            table=self.beams.table(lamps),
            needs=needs,
            opens=opens[opens > 0],
            given=float(needs.sum() - np.maximum(short, 0.0).sum()),
            gaps={k: (some, needs[some]) for k, some in zip(holes, cells, strict=True)},
        )

    def _know_now(self, unit: Indices) -> None:
        """See to it that the own light of units, as they hang, is known, each (M,), lux."""
        own = np.setdiff1d(unit, list(self.now))
        for k in range(0, own.size, UNITS):
            some = own[k : k + UNITS]
            lamps, seen = self.study.sources.lamps.take(some), self.study.seen.of(some)
            light = lit(lamps, self.study.plane.points, seen)
            self.now.update(zip(some.tolist(), light, strict=True))
