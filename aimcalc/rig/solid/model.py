"""A rig as named meshes: deck, scenery, tubes, units in pose and the light of their fields."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.glb import Painted, glb
from aimcalc.geometry.solids import Indices, Shape, fan, part
from aimcalc.geometry.vectors import Array
from aimcalc.rig.meets import meets
from aimcalc.rig.solid.lenses import field_edges
from aimcalc.rig.solid.things import SOLID, deck_shape

if TYPE_CHECKING:
    from aimcalc.rig.solve import Rig

Colour = tuple[float, float, float, float]

DECK: Colour = (0.45, 0.40, 0.35, 1.0)
SCENERY: Colour = (0.70, 0.68, 0.64, 1.0)
TUBE: Colour = (0.30, 0.30, 0.30, 1.0)
BODY: Colour = (0.12, 0.12, 0.12, 1.0)
LIGHT: Colour = (1.0, 0.93, 0.75, 0.12)
SIDES = 48  # of a field's cone
PAST_FACE = 2.0  # throws that light is drawn for where it falls on nothing
FARTHEST = 4.0  # throws that light is drawn for at the most


def rig_glb(rig: Rig) -> bytes:
    """A GLB file of a rig, metres, y up, as the format asks."""
    return glb(painted(rig))


def painted(rig: Rig) -> list[Painted]:
    """Every solid of a rig as a mesh of its own: the deck, things, units, then fields ("light of ...")."""
    deck = deck_shape(rig)
    meshes = [] if deck is None else [Painted("deck", deck, DECK)]
    meshes += [
        Painted(thing.name, thing.shape, SCENERY if thing.sort == SOLID else TUBE)
        for thing in rig.solids.things
    ]
    meshes += [Painted(rig.names[k], shape, BODY) for k, shape in enumerate(unit_shapes(rig))]
    rings = field_rings(rig)
    for row, k in enumerate(lit_units(rig).tolist()):
        cone = fan(rig.aims.lens[:, k], rings[:, row])
        meshes.append(Painted(f"light of {rig.names[k]}", cone, LIGHT))
    return meshes


def unit_shapes(rig: Rig) -> list[Shape]:
    """Every unit at its aim as one mesh; no triangles where its size is not known."""
    return [part(rig.solids.bodies, owner) for owner in rig.solids.own.tolist()]


def lit_units(rig: Rig) -> Indices:
    """The units that throw light."""
    return np.flatnonzero(np.isfinite(rig.aims.throw))


def field_rings(rig: Rig) -> Array:
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


def _reach(rig: Rig, start: Array, ways: Array) -> Array:
    """How far rays get before they meet deck or scenery, NaN for those that do not."""
    return meets(rig, start, ways).reach
