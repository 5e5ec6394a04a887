"""Where the edge of a field falls: on deck, platform, riser, scenery or wall, each piece by name.

And, for a plan, how much of an upright surface a field covers that is aimed at it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from aimcalc.geometry.aim import Flags
from aimcalc.geometry.light_fall import footprints
from aimcalc.geometry.polygon import hull
from aimcalc.geometry.rays import Caster, caster, lens_frames
from aimcalc.geometry.solids import Indices, deck_strips, soup
from aimcalc.geometry.vectors import Array, dot
from aimcalc.solid.light_lost import field_edges, long_ways, stretches
from aimcalc.solid.meets import DECK
from aimcalc.solid.solids import SOLID, deck_shape

if TYPE_CHECKING:
    from aimcalc.solid.rig import SolidRig


TRACE_RAYS = 90  # along a field's edge
EDGE_POINTS = 24  # along an edge of a solid
MANY = 500  # triangles: of a solid of more the corners do
NEAR = 0.01  # m


class Fall(NamedTuple):
    """A piece of a field's outline on one surface: `points` (3, M) in order round the cone.

    `unit` is the unit's row, `surface` the name of the solid, or "deck". `closed` where the whole
    outline lies on this one surface; the last point then joins on to the first.
    """

    unit: int
    surface: str
    closed: bool
    points: Array


def falls(rig: SolidRig, units: Indices | None = None) -> list[Fall]:
    """The true outlines of the fields of some units (all of them) on whatever they fall on.

    What falls past the deck's edge has none. Pipes and units count for nothing. Raises NoRayEngineError,
    and SceneError where a mesh file cannot be used.
    """
    rows = np.arange(len(rig.units)) if units is None else units
    names = [*rig.solids.names[: len(rig.solids.things)], DECK]
    found = footprints(
        room_of(rig),
        lens=rig.aims.lens[:, rows],
        axis=rig.axis[:, rows],
        up=long_ways(rig)[:, rows],
        field=rig.arrays.field[rows],
        stretch=stretches(rig)[:, rows],
    )
    return [Fall(int(rows[f.unit]), names[f.owner], f.closed, f.points) for f in found]


def room_of(rig: SolidRig) -> Caster:
    """The scene's own solids and its deck, ready for rays; the deck's owner number follows the things'.

    The deck ends at the stage's outline; without one it has no edge.
    """
    mine = rig.solids.of(SOLID).tolist()
    shapes = [rig.solids.things[k].shape for k in mine]
    deck = deck_shape(rig)
    if deck is None:
        deck = deck_strips(rake=rig.deck.rake, rake_from=rig.deck.rake_from)
    return caster(soup([*shapes, deck], [*mine, len(rig.solids.things)]))


def light_an_upright(rig: SolidRig) -> Flags:
    """The units whose work is on something upright, (N,): a drop, a flat, a tree.

    Their axis stops there, and either nobody stands at its point or it never gets so far.
    """
    met = rig.meets
    nobody = np.isnan(rig.arrays.stand[0])
    return np.asarray(met.upright & met.on_solid & (nobody | ~rig.reaches))


def trace(rig: SolidRig, unit: int) -> Array:
    """What a unit's field covers of the upright surface that stops its axis, seen from above, (2, M).

    Corners of the area's convex outline, two ends where the surface is a plane. The field's edge is
    followed by rays; where it runs past the surface, what lies within it of the surface's own edges counts.
    """
    met, lens = rig.meets, rig.aims.lens[:, unit, None]
    own = int(met.surface[unit])
    ways = field_edges(rig, np.array([unit]), TRACE_RAYS)[:, 0]
    edge = rig.meets_along(np.repeat(lens, TRACE_RAYS, axis=1), ways)
    rim = edge.point[:, edge.surface == own]
    found = np.concatenate(
        (met.point[:, unit, None], rim, _lit(rig, unit, _edges(rig, own))), axis=1
    )
    if rig.scene.solids[own].mesh is None:
        off = dot(met.normal[:, unit, None], found - met.point[:, unit, None])
        found = found[:, np.abs(off) < NEAR]
    return hull(found[:2])


def _edges(rig: SolidRig, solid: int) -> Array:
    """Points along the edges of one of the scene's solids, (3, K); its corners where they are many."""
    corners = rig.scenery.corners[:, :, rig.scenery.owner == solid]
    if corners.shape[2] > MANY:
        return corners.transpose(1, 0, 2).reshape(3, -1)
    share = np.linspace(0.0, 1.0, EDGE_POINTS)
    after = np.roll(corners, -1, axis=0)
    return (
        (corners[..., None] + share * (after - corners)[..., None])
        .transpose(1, 0, 2, 3)
        .reshape(3, -1)
    )


def _lit(rig: SolidRig, unit: int, points: Array) -> Array:
    """Those of some points that lie in a unit's field with nothing before them, (3, K)."""
    lens = rig.aims.lens[:, unit, None]
    frame = lens_frames(rig.axis[:, [unit]], long_ways(rig)[:, [unit]])[:, 0]
    ahead, up, side = frame.T @ (points - lens)
    high, wide = stretches(rig)[:, unit] * np.tan(rig.arrays.field[unit] / 2)
    points = points[:, (ahead > 0) & (np.hypot(up / high, side / wide) <= ahead)]
    away = points - lens
    far = np.sqrt(dot(away, away))
    stopped = rig.meets_along(np.repeat(lens, far.size, axis=1), away / far).reach
    return np.asarray(points[:, ~(stopped < far - NEAR)])
