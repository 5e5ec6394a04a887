"""Where the edge of a field falls: on deck, platform, riser, scenery or wall, each piece by name."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from aimcalc.geometry.footprint import footprints
from aimcalc.geometry.occlusion import Caster, caster
from aimcalc.geometry.solids import Indices, deck_strips, soup
from aimcalc.geometry.vectors import Array
from aimcalc.rig.meets import DECK
from aimcalc.rig.solid.lenses import long_ways, stretches
from aimcalc.rig.solid.things import SOLID, deck_shape

if TYPE_CHECKING:
    from aimcalc.rig.solve import Rig


class Fall(NamedTuple):
    """A piece of a field's outline on one surface: `points` (3, M) in order round the cone.

    `unit` is the unit's row, `surface` the name of the solid, or "deck". `closed` where the whole
    outline lies on this one surface; the last point then joins on to the first.
    """

    unit: int
    surface: str
    closed: bool
    points: Array


def falls(rig: Rig, units: Indices | None = None) -> list[Fall]:
    """The true outlines of the fields of some units (all of them) on whatever they fall on.

    What falls past the deck's edge has none. Pipes and units count for nothing. Raises NoRayEngineError,
    and SceneError where a mesh file cannot be used.
    """
    rows = np.arange(len(rig.units)) if units is None else units
    names = [*rig.solids.names[: len(rig.solids.things)], DECK]
    found = footprints(
        room_of(rig),
        lens=rig.aims.lens[:, rows],
        axis=rig.aims.axis[:, rows],
        up=long_ways(rig)[:, rows],
        field=rig.arrays.field[rows],
        stretch=stretches(rig)[:, rows],
    )
    return [Fall(int(rows[f.unit]), names[f.owner], f.closed, f.points) for f in found]


def room_of(rig: Rig) -> Caster:
    """The scene's own solids and its deck, ready for rays; the deck's owner number follows the things'.

    The deck ends at the stage's outline; without one it has no edge.
    """
    mine = rig.solids.of(SOLID).tolist()
    shapes = [rig.solids.things[k].shape for k in mine]
    deck = deck_shape(rig)
    if deck is None:
        deck = deck_strips(rake=rig.deck.rake, rake_from=rig.deck.rake_from)
    return caster(soup([*shapes, deck], [*mine, len(rig.solids.things)]))
