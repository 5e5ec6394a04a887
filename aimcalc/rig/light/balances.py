"""Levels at which the faces of a system read alike, and how unlike they are at full."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from aimcalc.geometry.vectors import Array
from aimcalc.light.balance import balanced, level_alone
from aimcalc.light.lamps import Indices
from aimcalc.rig.light.faces import ON_TARGET, aimed_at
from aimcalc.rig.light.sight import seen_from
from aimcalc.rig.light.sources import units_without_candela
from aimcalc.rig.light.square_on import square_on
from aimcalc.rig.light.study import Study
from aimcalc.rig.light.systems import ALL

ALIKE = 1.01  # most over least that counts as alike


class Balanced(NamedTuple):
    """One system: its T targets with what they read at full and once balanced (lux square on), (T,).

    `unit` (U,) are its units, `level` (U,) their levels, 1 = full, light being in proportion to level;
    units that give their own target nothing are not among them, and those whose light nobody has given
    are `unknown`: their targets are left out. Light that one target's units spill on another counts, and
    units of one target then share a level; where spill alone over-lights a target (`alike` false), each
    unit is levelled by what it gives its own target.
    """

    system: str
    targets: list[str]
    at_full: Array
    reading: Array
    unit: Indices
    level: Array
    alike: bool
    unknown: Indices

    @property
    def spread_at_full(self) -> float:
        """Most over least of the readings with every unit at full."""
        return float(self.at_full.max() / self.at_full.min())

    @property
    def spread(self) -> float:
        """Most over least of the readings once balanced."""
        return float(self.reading.max() / self.reading.min())


def balances(study: Study) -> list[Balanced]:
    """The balance of every named system that lights at least one target."""
    named = [system for name, system in study.systems.items() if name != ALL]
    found = (_balance(study, system.name, system.units) for system in named)
    return [balance for balance in found if balance is not None]


def _balance(study: Study, system: str, units: Indices) -> Balanced | None:
    names = [aimed_at(study.rig, k) for k in units.tolist()]
    first = dict(zip(reversed(names), reversed(units.tolist()), strict=True))
    targets = list(dict.fromkeys(names))
    points = study.rig.arrays.point[:, [first[name] for name in targets]]
    lamps = study.sources.lamps.take(units)
    light = square_on(lamps, points, seen_from(study.sight, lamps.lens, points, short=ON_TARGET)).T
    own = np.array([targets.index(name) for name in names])
    unknown = np.isin(units, units_without_candela(study.rig))
    lit = (light[own, np.arange(units.size)] > 0) & ~np.isin(own, own[unknown])
    if not lit.any():
        return None
    kept = np.unique(own[lit])
    some, aim = light[kept][:, lit], np.searchsorted(kept, own[lit])
    found = balanced(some, aim)
    alike = found.spread <= ALIKE
    level = found.level if alike else level_alone(some[aim, np.arange(aim.size)])
    return Balanced(
        system=system,
        targets=[targets[k] for k in kept.tolist()],
        at_full=found.at_full,
        reading=some @ level,
        unit=units[lit],
        level=level,
        alike=alike,
        unknown=units[unknown],
    )
