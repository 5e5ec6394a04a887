"""New aims for existing units: which of them can be set at all, and what each would do to the light.

A try is one unit pointed at another face. It counts only where the unit can do it as it hangs: within
its yoke's travel, no less upright than it is now, and without its body striking its own pipe, boom, arm
or stand; and where it does what it did before, from its side (`jobs`). Faces are rounded to what a person
can mark on the deck, so that what is told is what was tried.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from aimcalc.coverage.jobs import can_be_faced, keeps_side
from aimcalc.coverage.sources import Seen, Tries, posed, seen_from, sees, some_aims
from aimcalc.coverage.study import Study
from aimcalc.coverage.systems import SystemLight, face_z
from aimcalc.geometry.aim import PLUMB, UPRIGHT, Aims, aim, cut
from aimcalc.geometry.vectors import Array
from aimcalc.light.illuminance import contributions
from aimcalc.light.lamps import Flags, Indices, Lamps, joined
from aimcalc.solid.own_pipe import striking

if TYPE_CHECKING:
    from aimcalc.solid.rig import SolidRig


INCH = 0.0254  # m, exact: international inch, 1959 agreement
MARK = {"m": 0.05, "ft": 3 * INCH}  # marks on the deck go to 5 cm or 3 in
AS_BEFORE = 1 - 1e-9  # share of the threshold; light that falls below it makes a point uncovered
BATCH_VALUES = 2_000_000  # tries times points at a time


class Outcomes(NamedTuple):
    """What each of K tries does to a system's light and to every system that its unit belongs to, (K,)."""

    gain: Array  # m2 of the system that were dark and would not be
    here: Array  # the part of it in the hole asked about: what a helper is offered for
    uncovers: Array  # m2 that would turn dark in any of the unit's systems
    relief: Array  # by how much light short of the threshold shrinks, lx m2: tells between equals

    @property
    def net(self) -> Array:
        """m2 of the hole closed less m2 opened anywhere."""
        return self.here - self.uncovers


def tries_at(study: Study, unit: Indices, x: Array, y: Array) -> Tries:
    """Units `unit` (K,) each pointed at the face over a plan point, those left out that cannot be."""
    rig = study.rig
    step = mark_step(rig.scene.settings.unit)
    x, y = np.round(x / step) * step, np.round(y / step) * step
    face = np.stack((x, y, face_z(rig, x, y)))
    given = cut(rig.arrays, unit)._replace(point=face, stand=np.full_like(face, np.nan))
    aims = aim(given, rig.deck)
    can = np.flatnonzero(can_be_faced(rig, face) & _can_be_set(rig, unit, aims))
    can = can[~striking(rig, unit[can], some_aims(aims, can))]
    can = can[sees(study.sight, aims.lens[:, can], face[:, can])]
    unit, aims = unit[can], some_aims(aims, can)
    return Tries(unit, face[:, can], posed(study.sources, unit, aims), aims)


def mark_step(unit: str) -> float:
    """How near a place on the deck is marked, in metres, where a scene's own unit is `unit`."""
    return MARK["ft" if unit in ("ft", "in") else "m"]


def _can_be_set(rig: SolidRig, unit: Indices, aims: Aims) -> Flags:
    """Within the yoke's travel, no less upright than now, from the same side."""
    now = rig.aims.attitude[unit]
    upright = aims.attitude <= np.where(now == PLUMB, UPRIGHT, now)
    fits = aims.in_travel & np.isfinite(aims.throw) & (upright | (aims.attitude == PLUMB))
    return np.asarray(fits & keeps_side(rig, unit, aims))


def joined_tries(parts: Sequence[Tries]) -> Tries:
    """Several lots of tries as one; at least one lot."""
    aims = zip(*(part.aims for part in parts), strict=True)
    return Tries(
        np.concatenate([part.unit for part in parts]),
        np.concatenate([part.face for part in parts], axis=1),
        joined(*(part.lamps for part in parts)),
        Aims._make(np.concatenate(columns, axis=-1) for columns in aims),
    )


def changes(study: Study, tries: Tries, *, exact: bool = False) -> Array:
    """Light that each try adds (or takes) at the M points of the fine plane, (K, M).

    What a unit sees from its new lens is what it sees from the present one, or `exact`, rays cast anew.
    """
    points = study.plane.points
    own, back = np.unique(tries.unit, return_inverse=True)
    now = _lit(study.sources.lamps.take(own), points, study.seen.of(own))
    then_seen = (
        seen_from(study.sight, tries.lamps.lens, points) if exact else study.seen.of(tries.unit)
    )
    return _lit(tries.lamps, points, then_seen) - now[back]


def _lit(lamps: Lamps, points: Array, seen: Seen) -> Array:
    """Light of each unit at each point, (N, M). The hidden ones are worked out with all and then put out."""
    lux = np.asarray(contributions(lamps, points)[0])
    if seen.flags is not None:
        lux *= seen.flags
    return lux


def outcomes(
    study: Study, system: SystemLight, hole: Indices, tries: Tries, *, exact: bool = False
) -> Outcomes:
    """What tries would do, each by itself; `hole` holds the points of the hole asked about.

    Thresholds are frozen: the lux that a point was dark under before, whatever the new mean.
    """
    size = study.plane.points.shape[1]
    asked = np.zeros(size, np.bool_)
    asked[hole] = True
    batch = max(1, BATCH_VALUES // max(1, size))
    rows = [np.zeros((4, 0))]
    for first in range(0, tries.unit.size, batch):
        some = tries.take(np.arange(first, min(first + batch, tries.unit.size)))
        rows.append(_outcomes(study, system, asked, some.unit, changes(study, some, exact=exact)))
    return Outcomes(*np.concatenate(rows, axis=1))


def _outcomes(
    study: Study, system: SystemLight, asked: Flags, unit: Indices, change: Array
) -> Array:
    now = system.taken
    then = now + change
    closes = (now < system.below) & (then >= system.below)
    short = np.maximum(system.below - then, 0.0).sum(axis=1)
    relief = np.maximum(system.below - now, 0.0).sum() - short
    opens = np.zeros(change.shape, np.bool_)
    for own in np.unique(unit):
        rows = np.flatnonzero(unit == own)
        for stake in study.stakes(int(own)):
            level = stake.taken
            lit = level >= stake.below
            opens[rows] |= lit & (level + change[rows] < stake.below * AS_BEFORE)
    cells = [closes.sum(axis=1), (closes & asked).sum(axis=1), opens.sum(axis=1), relief]
    return np.array(cells, np.float64) * study.plane.grid.cell_area
