"""The light of each system by itself: levels, counts and figures over the acting area, and its holes."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from aimcalc.geometry.vectors import Array
from aimcalc.light.gaps import Gap, find_gaps
from aimcalc.light.illuminance import Wanted, illuminance
from aimcalc.light.lamps import Indices, Lamps
from aimcalc.light.uniformity import Uniformity, uniformity
from aimcalc.rig.light.plane import Plane
from aimcalc.rig.light.sight import Seen

if TYPE_CHECKING:
    from aimcalc.rig.solve import Rig

ALL = "all"
HALF = 0.5  # of a system's mean: below that a point is a hole, unless the scene or the call says otherwise
DARK = 1e-12  # lx: where a system lights nothing at all, its whole area is one hole


class Below(NamedTuple):
    """Under what a point is dark: `lux` where that is given, else `share` of the system's mean."""

    share: float = HALF
    lux: float | None = None

    def lux_of(self, mean: float) -> float:
        """The threshold in lux for a system of this mean; NaN where that is not known."""
        return max(self.share * mean, DARK) if self.lux is None else self.lux


class SystemLight(NamedTuple):
    """One system, or all units together.

    `units` are indices of the rig. `level` (lux on the level plane at face height, NaN where a unit without
    candela has the point in its field) and `counts` (units that have the point in their field) are (M,),
    and `figures` are of the same points where the light is known, `spacing` metres apart. Points under
    `below` lux are dark; `gaps` are the holes.
    """

    name: str
    units: Indices
    level: Array
    counts: Array
    figures: Uniformity
    spacing: float
    below: float
    gaps: list[Gap]

    @property
    def known(self) -> bool:
        """Whether any of its light is known."""
        return not np.isnan(self.figures.mean)

    @property
    def taken(self) -> Array:
        """`level` as a search takes it: bright for good where it is not known, (M,)."""
        return np.where(np.isnan(self.level), np.inf, self.level)


def systems_of(rig: Rig) -> dict[str, Indices]:
    """Units of every named system in the order of the rig, and all units last, as "all"."""
    rows: dict[str, list[int]] = {}
    for k, unit in enumerate(rig.units):
        if unit.system and unit.system != ALL:
            rows.setdefault(unit.system, []).append(k)
    found = {name: np.array(mine, dtype=np.intp) for name, mine in rows.items()}
    return {**found, ALL: np.arange(len(rig.units))}


def light_of(
    lamps: Lamps, seen: Seen, points: Array, systems: dict[str, Indices], of: Wanted
) -> dict[str, Array]:
    """Light of each system at M points, (K, M) for the K things asked for; see `illuminance`.

    Each unit is worked out once: what no system has is added to the sum of the systems for "all".
    """
    found = {}
    for name, units in systems.items():
        rest = _in_none(systems) if name == ALL else units
        mine = seen.of(rest)
        lamps_here = mine.mark(lamps.take(rest))
        found[name] = illuminance(lamps_here, points, of, visible=mine.visible)
    found[ALL] = np.sum(list(found.values()), axis=0)
    return found


def system_light(
    name: str, units: Indices, plane: Plane, level: Array, counts: Array, below: Below
) -> SystemLight:
    """One system's figures and holes from its light on the plane's M points, NaN where not known."""
    figures = uniformity(level[~np.isnan(level)])
    threshold = below.lux_of(figures.mean)
    gaps = find_gaps(plane.grid, level, threshold)
    return SystemLight(name, units, level, counts, figures, plane.grid.spacing, threshold, gaps)


def _in_none(systems: dict[str, Indices]) -> Indices:
    """Units of no named system."""
    named = [units for name, units in systems.items() if name != ALL]
    return np.setdiff1d(systems[ALL], np.concatenate(named) if named else [])
