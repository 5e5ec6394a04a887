"""A rig as named meshes: deck, scenery, tubes, units in pose and the light of their fields."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.models import Camera, Painted, glb
from aimcalc.geometry.solids import Indices, Shape, fan, part
from aimcalc.geometry.vectors import Array
from aimcalc.solid.light_fall import light_falls
from aimcalc.solid.light_lost import field_edges
from aimcalc.solid.solids import SOLID, deck_shape

if TYPE_CHECKING:
    from aimcalc.solid.rig import SolidRig


Colour = tuple[float, float, float, float]

DECK: Colour = (0.45, 0.40, 0.35, 1.0)
SCENERY: Colour = (0.70, 0.68, 0.64, 1.0)
TUBE: Colour = (0.30, 0.30, 0.30, 1.0)
BODY: Colour = (0.12, 0.12, 0.12, 1.0)
LIGHT: Colour = (1.0, 0.93, 0.75, 0.12)
SIDES = 48  # of a field's cone
PAST_FACE = 2.0  # throws that light is drawn for where it falls on nothing
FARTHEST = 4.0  # throws that light is drawn for at the most


def rig_glb(rig: SolidRig) -> bytes:
    """A GLB file of a rig, metres, y up, as the format asks."""
    return glb(painted(rig))


def painted(rig: SolidRig) -> list[Painted]:
    """Every solid of a rig as a mesh of its own: the deck, things, units, then fields ("light of ...")."""
    deck = deck_shape(rig)
    meshes = [] if deck is None else [Painted("deck", deck, DECK)]
    meshes += [
        Painted(thing.name, thing.shape, SCENERY if thing.sort == SOLID else TUBE)
        for thing in rig.solids.obstacles
    ]
    meshes += [Painted(rig.names[k], shape, BODY) for k, shape in enumerate(unit_shapes(rig))]
    rings = field_rings(rig)
    for row, k in enumerate(lit_units(rig).tolist()):
        cone = fan(rig.aims.lens[:, k], rings[:, row])
        meshes.append(Painted(f"light of {rig.names[k]}", cone, LIGHT))
    return meshes


def unit_shapes(rig: SolidRig) -> list[Shape]:
    """Every unit at its aim as one mesh; no triangles where its size is not known."""
    return [part(rig.solids.bodies, owner) for owner in rig.solids.own.tolist()]


def lit_units(rig: SolidRig) -> Indices:
    """The rows of the units that throw light, (K,), rising."""
    return np.flatnonzero(np.isfinite(rig.aims.throw))


def field_rings(rig: SolidRig) -> Array:
    """For each lit unit the points round the edge of its field where the light falls, (3, units, SIDES).

    Light that falls on nothing ends PAST_FACE throws away, and all
    light FARTHEST throws away.
    """
    units = lit_units(rig)
    ways = field_edges(rig, units, SIDES)
    start = np.repeat(rig.aims.lens[:, units, None], SIDES, axis=2)
    reach = _reach(rig, start.reshape(3, -1), ways.reshape(3, -1)).reshape(ways.shape[1:])
    throw = rig.aims.throw[units, None]
    reach = np.where(np.isnan(reach), PAST_FACE * throw, np.minimum(reach, FARTHEST * throw))
    return start + reach * ways


def _reach(rig: SolidRig, start: Array, ways: Array) -> Array:
    """How far rays get before they meet deck or scenery, NaN for those that do not."""
    return rig.meets_along(start, ways).reach


def where_it_falls(rig: SolidRig, units: Indices) -> list[Array]:
    """The true outlines of some units' fields as straight pieces, (3, 2, K) each."""
    found = []
    for fall in light_falls(rig, units):
        points = fall.points
        if fall.closed:
            points = np.concatenate((points, points[:, :1]), axis=1)
        found.append(np.stack((points[:, :-1], points[:, 1:]), axis=1))
    return found


def light_edges(rig: SolidRig, units: Indices, eye: Camera) -> Array:
    """The two edges of each cone against what is behind it, lens to where they fall, (3, 2, K).

    A cone that is seen from within its own light has none, nor has a unit whose point is within itself.
    """
    rings = dict(zip(lit_units(rig).tolist(), field_rings(rig).transpose(1, 0, 2), strict=True))
    found = [np.zeros((3, 2, 0))]
    for k in filter(rings.__contains__, units.tolist()):
        lens, ring = rig.aims.lens[:, k], rings[k]
        out = eye.seen(ring) - eye.seen(lens[:, None])
        middle = out.sum(axis=1)
        turn = np.arctan2(
            middle[0] * out[1] - middle[1] * out[0], middle[0] * out[0] + middle[1] * out[1]
        )
        if turn.max() - turn.min() < np.pi:
            ends = ring[:, [int(turn.argmin()), int(turn.argmax())]]
            found.append(np.stack((np.repeat(lens[:, None], 2, axis=1), ends), axis=1))
    return np.concatenate(found, axis=2)
