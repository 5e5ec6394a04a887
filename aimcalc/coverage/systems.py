"""The light of each system by itself: levels, counts and figures over the acting area, and its holes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from math import sqrt
from types import MappingProxyType
from typing import TYPE_CHECKING

import numpy as np

from aimcalc.coverage.sources import Seen
from aimcalc.geometry.deck import height
from aimcalc.geometry.vectors import Array
from aimcalc.light.evenness import CELL, Gap, Uniformity, find_gaps, uniformity
from aimcalc.light.grid import Flags, Grid, area, grid_over, spacing_over
from aimcalc.light.illuminance import Sums, Wanted, illuminance
from aimcalc.light.lamps import Indices, Lamps
from aimcalc.named import NamedTuple
from aimcalc.scene.model import PlanPoint

if TYPE_CHECKING:
    from aimcalc.solid.rig import SolidRig


MOST_POINTS = 20_000  # of the grid, unless the user asks for more
MOST_ASKED = 100_000  # of a grid that the user asks for
REGULAR = 3  # equal distances that make a row of units a regular one


class NoAreaError(Exception):
    """The scene does not say which area is to be covered."""

    def __init__(self) -> None:
        super().__init__(
            "The scene has no area to cover. Expected `acting` or `outline` in [stage], a list of corners "
            "[[x, y], ...], and found neither. Add one of them and run again."
        )


class GridError(Exception):
    """More light was asked for than can be worked out: points of a grid, or systems."""


class Plane(NamedTuple):
    """A grid over the acting area and its M points at face height, (3, M)."""

    grid: Grid
    points: Array


def acting_area(rig: SolidRig) -> tuple[PlanPoint, ...]:
    """The polygon to be covered; raises NoAreaError where there is none."""
    outline = rig.scene.stage.acting or rig.scene.stage.outline
    if not outline:
        raise NoAreaError
    return outline


def plane_of(rig: SolidRig, spacing: float | None = None) -> Plane:
    """The one grid of a rig's light, figures and holes alike: points at most `spacing` metres apart.

    Where it is None, fine enough to see the smallest hole told of and as fine as EN 12464-1 asks; over
    an area that would take more than 20,000 points they are as much further apart. Not in step with a
    regular row of units. Raises GridError for a spacing that would make more points than can be
    worked out.
    """
    outline = acting_area(rig)
    if spacing is not None:
        if area(outline) / spacing**2 > MOST_ASKED:
            raise GridError(
                f"Expected a grid of at most {MOST_ASKED:,} points over {area(outline):.1f} m2, "
                f"got points {spacing:g} m apart. Take them further apart."
            )
        return over(rig, grid_over(outline, spacing=spacing))
    corners = np.asarray(outline, np.float64)
    width, depth = np.ptp(corners, axis=0).tolist()
    fine = max(CELL, sqrt(area(outline) / MOST_POINTS))
    spacing = min(fine, spacing_over(width, depth))
    return over(rig, grid_over(outline, spacing=spacing, avoid=regular_spacings(rig)))


def over(rig: SolidRig, grid: Grid) -> Plane:
    """The grid's points at face height, less those inside boxes that nobody stands on."""
    points = grid.points(face_z(rig, *grid.plan()))
    free = ~inside_boxes(rig, points)
    if free.all():
        return Plane(grid, points)
    inside = grid.inside.copy()
    inside[grid.inside] = free
    return Plane(grid._replace(inside=inside), np.ascontiguousarray(points[:, free]))


def face_z(rig: SolidRig, x: Array, y: Array) -> Array:
    """Height of a standing face over each plan point, (N,), m; `x`, `y` (N,)."""
    return np.asarray(height(rig.deck, x, y) + rig.scene.settings.face_height)


def regular_spacings(rig: SolidRig) -> list[float]:
    """Distances between units, to the centimetre, that occur three times or more along one position."""
    found: set[float] = set()
    for rows in rig.rows.values():
        step = np.diff(rig.arrays.clamp[:, rows], axis=1)
        apart = np.round(np.sqrt((step * step).sum(axis=0)), 2).tolist()
        found |= {d for d, times in Counter(apart).items() if times >= REGULAR and d > 0}
    return sorted(found)


def inside_boxes(rig: SolidRig, points: Array) -> Flags:
    """Which of some points (3, M) lie inside a box that nobody stands on, (M,)."""
    inside = np.zeros(points.shape[1], np.bool_)
    for solid in rig.scene.solids:
        if solid.box is not None and not solid.stand_on:
            ends = np.array(solid.box).reshape(2, 3, 1)
            low, high = ends.min(axis=0), ends.max(axis=0)
            inside |= ((points > low) & (points < high)).all(axis=0)
    return inside


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
    def dark_area(self) -> float:
        """Square metres of all its holes together."""
        return sum(gap.area for gap in self.gaps)

    @property
    def taken(self) -> Array:
        """`level` as a search takes it: bright for good where it is not known, (M,)."""
        return np.where(np.isnan(self.level), np.inf, self.level)


def systems_of(rig: SolidRig) -> dict[str, Indices]:
    """Rows of the rig (K,) by system, those named in the order of the rig, and every unit last, as "all"."""
    rows: dict[str, list[int]] = {}
    for k, unit in enumerate(rig.units):
        if unit.system and unit.system != ALL:
            rows.setdefault(unit.system, []).append(k)
    found = {name: np.array(mine, dtype=np.intp) for name, mine in rows.items()}
    return {**found, ALL: np.arange(len(rig.units))}


def light_of(
    lamps: Lamps,
    seen: Seen,
    points: Array,
    systems: dict[str, Indices],
    of: Wanted,
    known: Mapping[str, Array] = MappingProxyType({}),
    sums: Sums | None = None,
) -> dict[str, Array]:
    """Light of each system at M points (3, M), (K, M) for the K things asked for; see `illuminance`.

    Each unit is worked out once: what no system has is added to the sum of the systems for "all". Named
    systems that are `known` are taken as they are there. `sums` are those kept for the same points and
    things.
    """
    found = {}
    for name, units in systems.items():
        if name in known and name != ALL:
            found[name] = known[name]
            continue
        rest = _in_none(systems) if name == ALL else units
        mine = seen.of(rest)
        lamps_here = mine.mark(lamps.take(rest))
        if sums is None:
            found[name] = illuminance(lamps_here, points, of, visible=mine.visible)
        else:
            found[name] = sums.illuminance(lamps_here, mine.flags)
    found[ALL] = np.sum(list(found.values()), axis=0)
    return found


def system_light(
    name: str, units: Indices, plane: Plane, level: Array, counts: Array, below: Below
) -> SystemLight:
    """One system's figures and holes from its light on the plane's points.

    `units` (K,) rows of the rig; `level` lux and `counts`, both (M,). The level is NaN where it is not known:
    such a point is in no figure and in no hole.
    """
    figures = uniformity(level[~np.isnan(level)])
    threshold = below.lux_of(figures.mean)
    gaps = find_gaps(plane.grid, level, threshold)
    return SystemLight(name, units, level, counts, figures, plane.grid.spacing, threshold, gaps)


def _in_none(systems: dict[str, Indices]) -> Indices:
    """Units of no named system."""
    named = [units for name, units in systems.items() if name != ALL]
    return np.setdiff1d(systems[ALL], np.concatenate(named) if named else [])
