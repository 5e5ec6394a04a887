"""A rig seen from the side: what an upright plane cuts, and units' axes and field edges beside it."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from aimcalc.geometry.aim import Flags
from aimcalc.geometry.bodies import BODY, TOP_HAT
from aimcalc.geometry.slices import cut
from aimcalc.geometry.vectors import Array, cross, dot
from aimcalc.rig.meets import meets
from aimcalc.rig.solid.lenses import long_ways, stretches
from aimcalc.rig.solid.things import SOLID
from aimcalc.scene.model import Pipe

if TYPE_CHECKING:
    from aimcalc.geometry.solids import Indices
    from aimcalc.rig.solve import Rig

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


def plane_of(rig: Rig, unit: int) -> Plane:
    """The upright plane of a unit's axis, counted from under its pivot, upstage (else stage left) on."""
    ahead = rig.axis[:2, unit]
    size = float(np.hypot(*ahead))
    along = np.array([0.0, 1.0]) if size < PLUMB_SINE else ahead / size
    if along[1] < -PLUMB_SINE or (abs(along[1]) <= PLUMB_SINE and along[0] < 0):
        along = -along
    return Plane(rig.aims.pivot[:, unit] * np.array([1.0, 1.0, 0.0]), np.append(along, 0.0))


def cut_solids(rig: Rig, plane: Plane) -> list[tuple[str, Array]]:
    """What the plane cuts of the scene's own solids: names and lines (2 coordinates, 2 ends, K)."""
    normal = np.array([plane.along[1], -plane.along[0], 0.0])
    slices = cut(rig.solids.soup, point=plane.origin, normal=normal)
    lines = plane.seen(np.stack((slices.start, slices.end), axis=1))
    return [
        (rig.solids.things[k].name, lines[:, :, slices.owner == k])
        for k in rig.solids.of(SOLID).tolist()
        if (slices.owner == k).any()
    ]


def crossing(pipe: Pipe, plane: Plane) -> Array | None:
    """Where a pipe passes through the plane, (3,); None for one that does not."""
    normal = np.array([plane.along[1], -plane.along[0], 0.0])
    start, end = np.array(pipe.start), np.array(pipe.end)
    a, b = normal @ (start - plane.origin), normal @ (end - plane.origin)
    if a * b > 0 or a == b:
        return None
    return np.asarray(start + (end - start) * a / (a - b))


def beams(rig: Rig, units: Indices) -> Beams:
    """Axes and field edges of some units, to where they fall on deck, scenery or nothing."""
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
    reach = meets(rig, starts, every).reach.reshape(3, -1)
    fell = reach <= NOWHERE
    far = np.where(fell, reach, NOWHERE)
    ends = [lens + r * way for r, way in zip(far, ways, strict=True)]
    return Beams(units, ends[0], ends[1], ends[2], fell)


def _tangent(rig: Rig, units: Indices, way: Array) -> Array:
    """Tangent of half the field towards `way`, square to the axis; an oval's lies as it is turned."""
    up, (high, wide) = long_ways(rig)[:, units], stretches(rig)[:, units]
    side = cross(rig.axis[:, units], up)
    out = np.hypot(dot(way, up) / high, dot(way, side) / wide)
    return np.asarray(np.tan(rig.arrays.field[units] / 2) / out)


def body_corners(rig: Rig, unit: int) -> Array:
    """Corners of a unit's body and top hat, (3, M); none where its size is not known."""
    corners = rig.solids.corners[:, unit, [BODY, TOP_HAT]].reshape(3, -1)
    return corners if np.isfinite(corners).all() else np.zeros((3, 0))
