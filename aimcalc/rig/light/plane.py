"""Where the light of a rig is asked for: points at face height over the acting area.

The face plane follows what people stand on: every point is `face_height` above the deck under it, rake,
platforms and steps included. Points inside a solid box that nobody may stand on are left out.
"""

from __future__ import annotations

from collections import Counter
from math import sqrt
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from aimcalc.geometry.deck import height
from aimcalc.geometry.vectors import Array
from aimcalc.light.gaps import CELL
from aimcalc.light.grid import Flags, Grid, area, grid_over, spacing_over
from aimcalc.scene.model import PlanPoint

if TYPE_CHECKING:
    from aimcalc.rig.solve import Rig

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


def acting_area(rig: Rig) -> tuple[PlanPoint, ...]:
    """The polygon to be covered; raises NoAreaError where there is none."""
    outline = rig.scene.stage.acting or rig.scene.stage.outline
    if not outline:
        raise NoAreaError
    return outline


def plane_of(rig: Rig, spacing: float | None = None) -> Plane:
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


def over(rig: Rig, grid: Grid) -> Plane:
    """The grid's points at face height, less those inside boxes that nobody stands on."""
    points = grid.points(face_z(rig, *grid.plan()))
    free = ~inside_boxes(rig, points)
    if free.all():
        return Plane(grid, points)
    inside = grid.inside.copy()
    inside[grid.inside] = free
    return Plane(grid._replace(inside=inside), np.ascontiguousarray(points[:, free]))


def face_z(rig: Rig, x: Array, y: Array) -> Array:
    """Height of a standing face over each plan point, (N,)."""
    return np.asarray(height(rig.deck, x, y) + rig.scene.settings.face_height)


def regular_spacings(rig: Rig) -> list[float]:
    """Distances between units, to the centimetre, that occur three times or more along one position."""
    found: set[float] = set()
    for rows in rig.rows.values():
        step = np.diff(rig.arrays.clamp[:, rows], axis=1)
        apart = np.round(np.sqrt((step * step).sum(axis=0)), 2).tolist()
        found |= {d for d, times in Counter(apart).items() if times >= REGULAR and d > 0}
    return sorted(found)


def inside_boxes(rig: Rig, points: Array) -> Flags:
    """Which of some points (3, M) lie inside a box that nobody stands on, (M,)."""
    inside = np.zeros(points.shape[1], np.bool_)
    for solid in rig.scene.solids:
        if solid.box is not None and not solid.stand_on:
            ends = np.array(solid.box).reshape(2, 3, 1)
            low, high = ends.min(axis=0), ends.max(axis=0)
            inside |= ((points > low) & (points < high)).all(axis=0)
    return inside
