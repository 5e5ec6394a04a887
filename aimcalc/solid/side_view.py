"""A rig seen from the side: what an upright plane cuts, and units' axes and field edges beside it."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.aim import Flags, Indices
from aimcalc.geometry.bodies import BODY, TOP_HAT
from aimcalc.geometry.sightlines import front_row
from aimcalc.geometry.solids import cut
from aimcalc.geometry.vectors import Array, cross, dot, points
from aimcalc.named import NamedTuple
from aimcalc.rig.places import TUBE_RADIUS, tubes_of
from aimcalc.scene.model import Pipe, Scene, Solid
from aimcalc.solid.light_lost import long_ways, stretches
from aimcalc.solid.rig import SolidRig
from aimcalc.solid.solids import SOLID

if TYPE_CHECKING:
    from aimcalc.geometry.solids import Indices


NOWHERE = 100.0  # metres that light is followed where it falls on nothing
PLUMB_SINE = 1e-6


class Plane(NamedTuple):
    """An upright plane: a point of it and the level unit direction along it, (3,) each."""

    origin: Array
    along: Array

    def seen(self, points: Array) -> Array:
        """Points (3, ...) as they are seen square to the plane: distance along it and height, (2, ...)."""
        far = np.tensordot(self.along, points, axes=1) - self.along @ self.origin
        return np.stack((far, points[2]))


class Beams(NamedTuple):
    """Units from the side, points (3, N): where the axis and the field's two edges end.

    `upper` and `lower` are the edges in the upright plane of the axis. `fell` says whether each of
    axis, upper and lower (3, N) fell on something; those that did not end NOWHERE away.
    """

    unit: Indices
    axis: Array
    upper: Array
    lower: Array
    fell: Flags


def centre_plane() -> Plane:
    """The plane of the centre line, upstage counted on from the plaster line."""
    return Plane(np.zeros(3), np.array([0.0, 1.0, 0.0]))


def plane_of(rig: SolidRig, unit: int) -> Plane:
    """The upright plane of a unit's axis, counted from under its pivot, upstage (else stage left) on."""
    ahead = rig.axis[:2, unit]
    size = float(np.hypot(*ahead))
    along = np.array([0.0, 1.0]) if size < PLUMB_SINE else ahead / size
    if along[1] < -PLUMB_SINE or (abs(along[1]) <= PLUMB_SINE and along[0] < 0):
        along = -along
    return Plane(rig.aims.pivot[:, unit] * np.array([1.0, 1.0, 0.0]), np.append(along, 0.0))


def cut_solids(rig: SolidRig, plane: Plane) -> list[tuple[str, Array]]:
    """What the plane cuts of the scene's own solids: names and lines (2 coordinates, 2 ends, K)."""
    normal = np.array([plane.along[1], -plane.along[0], 0.0])
    slices = cut(rig.solids.soup, point=plane.origin, normal=normal)
    lines = plane.seen(np.stack((slices.start, slices.end), axis=1))
    return [
        (rig.solids.obstacles[k].name, lines[:, :, slices.owner == k])
        for k in rig.solids.of(SOLID).tolist()
        if (slices.owner == k).any()
    ]


def crossings(pipe: Pipe, plane: Plane) -> list[Array]:
    """Where the tubes of a pipe pass through the plane, (3,) each; none for one that does not."""
    normal = np.array([plane.along[1], -plane.along[0], 0.0])
    found: list[Array] = []
    for _, line in tubes_of(pipe):
        off = normal @ (line - plane.origin[:, None])
        a, b = off[:-1], off[1:]
        for k in np.flatnonzero((a * b <= 0) & (a != b)).tolist():
            here = line[:, k] + (line[:, k + 1] - line[:, k]) * a[k] / (a[k] - b[k])
            if (
                not found or np.abs(here - found[-1]).max() > TUBE_RADIUS
            ):  # not a joint of two pieces
                found.append(here)
    return found


def beams(rig: SolidRig, units: Indices) -> Beams:
    """Axes and field edges of some units (K,), to where they fall on deck, scenery or nothing."""
    axis = rig.axis[:, units]
    across = np.stack((axis[1], -axis[0], np.zeros_like(axis[0])))
    size = np.sqrt(dot(across, across))
    across[:, size < PLUMB_SINE] = np.array([[1.0], [0.0], [0.0]])
    above = cross(across / np.maximum(np.sqrt(dot(across, across)), PLUMB_SINE), axis)
    half = np.arctan(_tangent(rig, units, above))
    ways = [
        axis,
        axis * np.cos(half) + above * np.sin(half),
        axis * np.cos(half) - above * np.sin(half),
    ]
    lens = rig.aims.lens[:, units]
    starts, every = np.tile(lens, 3), np.concatenate(ways, axis=1)
    reach = rig.meets_along(starts, every).reach.reshape(3, -1)
    fell = reach <= NOWHERE
    far = np.where(fell, reach, NOWHERE)
    ends = [lens + r * way for r, way in zip(far, ways, strict=True)]
    return Beams(units, ends[0], ends[1], ends[2], fell)


def _tangent(rig: SolidRig, units: Indices, way: Array) -> Array:
    """Tangent of half the field towards `way`, square to the axis; an oval's lies as it is turned."""
    up, (high, wide) = long_ways(rig)[:, units], stretches(rig)[:, units]
    side = cross(rig.axis[:, units], up)
    out = np.hypot(dot(way, up) / high, dot(way, side) / wide)
    return np.asarray(np.tan(rig.arrays.field[units] / 2) / out)


def body_corners(rig: SolidRig, unit: int) -> Array:
    """Corners of a unit's body and top hat, (3, M); none where its size is not known."""
    corners = rig.solids.corners[:, unit, [BODY, TOP_HAT]].reshape(3, -1)
    return corners if np.isfinite(corners).all() else np.zeros((3, 0))


EYES_APART = 1.0  # m along a row
BORDER_WORDS = ("border", "teaser")
UPRIGHT = 0.17  # sine of what a panel may lean and still be upright


class Row(NamedTuple):
    """The front row of a block of seats: the block's name and the eyes along it, (3, M)."""

    name: str
    eyes: Array


def borders_of(scene: Scene) -> list[int]:
    """The places among the scene's solids of its borders: upright panels whose name says so.

    A scene has no other word for what a panel is for; `border` or `teaser` in its name makes it one.
    """
    return [k for k, solid in enumerate(scene.solids) if _is_border(solid)]


@lru_cache(maxsize=1024)
def _is_border(solid: Solid) -> bool:
    named = any(word in solid.name.lower() for word in BORDER_WORDS)
    if solid.panel is None or not named:
        return False
    corners = points(solid.panel)
    normal = np.cross(corners[:, 2] - corners[:, 0], corners[:, 3] - corners[:, 1])
    return bool(abs(normal[2]) <= UPRIGHT * np.linalg.norm(normal))


def front_row_of(scene: Scene) -> Row | None:
    """The front row of the block of seats that comes nearest to the stage; None without seats."""
    if not scene.seats:
        return None
    block = max(scene.seats, key=lambda seats: max(y for _, y in seats.outline))
    return Row(block.name, front_row(np.array(block.outline).T, eye=block.eye, spacing=EYES_APART))


def masked(rig: SolidRig) -> Indices:
    """Rows (K,) of the units that borders are meant to hide.

    On pipes, upstage of the first border, of known size.
    """
    borders = borders_of(rig.scene)
    if not borders:
        return np.zeros(0, dtype=int)
    first = min(_depth(rig.scene.solids[k]) for k in borders)
    on_pipe = np.array([isinstance(p, Pipe) for p in rig.positions], dtype=bool)
    known = np.isfinite(rig.solids.corners).all(axis=(0, 2, 3))
    return np.flatnonzero(on_pipe & known & (rig.arrays.clamp[1] > first))


def sight_points(rig: SolidRig, units: Indices) -> Array:
    """The corners of some units' bodies, (3, N, Q)."""
    return rig.solids.corners[:, units, BODY]


def border_before(rig: SolidRig, rows: list[int]) -> str:
    """The name of the last border downstage of some units of one position."""
    y = float(rig.arrays.clamp[1, rows].min())
    solids = [rig.scene.solids[k] for k in borders_of(rig.scene)]
    return max((s for s in solids if _depth(s) < y), key=_depth).name


def _depth(solid: Solid) -> float:
    """Mean y of a panel."""
    return sum(corner[1] for corner in solid.panel or ()) / 4


ALONG = 0.5  # share of an axis's level way that must go up or down the stage
TURNED = 5.0  # metres off the centre line that a unit at right angles to it counts for


def chosen(rig: SolidRig) -> Indices:
    """Of each pipe's units that point US, and of those that point DS, the one nearest the centre line.

    Being turned counts as being far. Rows of the rig (K,), in hang order; none for a unit without an aim,
    or that is not on a pipe.
    """
    best: dict[tuple[str, bool], tuple[float, int]] = {}
    for k, position in enumerate(rig.positions):
        x, y, _ = rig.axis[:, k].tolist()
        level = float(np.hypot(x, y))
        lit = isinstance(position, Pipe) and np.isfinite(rig.aims.throw[k])
        if not lit or not level > 1e-6 or abs(y) < ALONG * level:
            continue
        score = abs(float(rig.aims.pivot[0, k])) + TURNED * abs(x) / level
        best[position.name, y > 0] = min(best.get((position.name, y > 0), (np.inf, k)), (score, k))
    return np.array(sorted(k for _, k in best.values()), dtype=int)
