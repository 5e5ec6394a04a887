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


class SystemLight(NamedTuple):
    """One system, or all units together.

    `units` are indices of the rig. `level` (lux on the level plane at face height) and `counts` (units that
    have the point in their field) are (M,), over the plane that holes are looked for on. `figures` are of
    the coarser grid, `spacing` metres apart. Points under `below` lux are dark; `gaps` are the holes.
    """

    name: str
    units: Indices
    level: Array
    counts: Array
    figures: Uniformity
    spacing: float
    below: float
    gaps: list[Gap]


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
    name: str,
    units: Indices,
    *,
    fine: Plane,
    light: Array,
    coarse: Plane,
    level: Array,
    share: float,
) -> SystemLight:
    """One system's figures and holes from its light: `light` (2, M) level and count on the fine plane,
    `level` on the coarse one; `share` of the mean is the threshold."""
    figures = uniformity(level)
    below = max(share * figures.mean, DARK)
    gaps = find_gaps(fine.grid, light[0], below)
    return SystemLight(name, units, light[0], light[1], figures, coarse.grid.spacing, below, gaps)


def _in_none(systems: dict[str, Indices]) -> Indices:
    """Units of no named system."""
    named = [units for name, units in systems.items() if name != ALL]
    return np.setdiff1d(systems[ALL], np.concatenate(named) if named else [])
