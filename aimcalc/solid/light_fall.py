"""Where the edge of a field falls: on deck, platform, riser, scenery or wall, each piece by name.

And, for a plan, how much of an upright surface a field covers that is aimed at it. Rays along the edge of
the cone are followed to whatever they meet first. Where two neighbouring rays meet different surfaces, the
edge of the cone is searched between them for the place where it steps across, so that outlines run right up
to the edges of what they lie on.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.aim import Flags
from aimcalc.geometry.polygon import hull
from aimcalc.geometry.rays import Caster, caster, first_hits, lens_frames, owner_of
from aimcalc.geometry.solids import Indices, Soup, deck_strips, soup
from aimcalc.geometry.vectors import Array, cross, dot
from aimcalc.named import NamedTuple
from aimcalc.solid.light_lost import field_edges, long_ways, stretches
from aimcalc.solid.meets import DECK
from aimcalc.solid.solids import SOLID, deck_shape

if TYPE_CHECKING:
    from aimcalc.solid.rig import SolidRig


RAYS = 180  # along the edge of each field
REACH = 200.0  # metres: what is farther away is no part of the room
HALVINGS = 24
SAME_PLANE = 1e-5  # metres and parts


class Outline(NamedTuple):
    """One piece of a field's outline on one surface: its points (3, M) in order round the cone.

    `unit` is the unit's row, `owner` the solid's number. `closed` is true where the whole outline lies
    on this one surface, and the last point then joins on to the first.
    """

    unit: int
    owner: int
    closed: bool
    points: Array


def fall_outlines(
    ready: Caster,
    *,
    lens: Array,
    axis: Array,
    up: Array,
    field: Array,
    stretch: Array | None = None,
    rays: int = RAYS,
) -> list[Outline]:
    """The outlines of N fields on the solids of a soup, the deck being one of them.

    `lens`, `axis` and `up` are (3, N), `field` (N,) full angles. `stretch` (2, N) draws fields out to
    ovals: what the tangent of half the field is to be multiplied by towards `up` and towards the side.
    What falls on nothing within REACH leaves no outline; a unit with a NaN in it has none.
    """
    surface = np.append(surfaces(ready.soup), -1)  # row -1, no triangle, is no surface
    drawn_out = np.ones((2, field.size)) if stretch is None else stretch
    cone = _Cones(lens, lens_frames(axis, up), field / 2, drawn_out)
    turn = np.broadcast_to(2 * np.pi * np.arange(rays) / rays, (field.size, rays))
    unit = np.repeat(np.arange(field.size), rays)
    face, points = _edge(ready, cone, unit, turn.ravel())
    on = surface[face].reshape(turn.shape)
    owner = owner_of(ready.soup, face).reshape(turn.shape)
    points = points.reshape(3, *turn.shape)
    steps = _steps(ready, surface, cone, turn, on, points)
    found = []
    for k in range(field.size):
        found += _pieces(k, on[k], owner[k], points[:, k], steps)
    return found


def surfaces(soup: Soup) -> Indices:
    """A number for each triangle's surface, (F,): the same for triangles of one solid in one plane."""
    a, b, c = soup.corners
    normal = cross(b - a, c - a)
    with np.errstate(divide="ignore", invalid="ignore"):
        normal = normal / np.linalg.norm(normal, axis=0)
    # A panel's two sides are one surface: the normal's first part that is not zero is made positive.
    lead = np.argmax(np.abs(normal) > SAME_PLANE, axis=0)
    normal = normal * np.sign(normal[lead, np.arange(lead.size)])
    planes = np.concatenate((normal, dot(normal, a)[None])) / SAME_PLANE
    keys = np.concatenate((soup.owner[None], np.rint(np.nan_to_num(planes))))
    return np.unique(keys, axis=1, return_inverse=True)[1].ravel()


class _Cones(NamedTuple):
    lens: Array
    frames: Array
    half: Array
    stretch: Array


def _edge(ready: Caster, cone: _Cones, unit: Indices, turn: Array) -> tuple[Indices, Array]:
    """Triangle met by rays along the edge of cones (-1 for none), and the points (3, K)."""
    half, (up, side) = cone.half[unit], cone.stretch[:, unit]
    local = np.stack(
        (np.cos(half), up * np.sin(half) * np.cos(turn), side * np.sin(half) * np.sin(turn))
    )
    local /= np.sqrt(dot(local, local))
    direction = np.einsum("ikj,jk->ik", cone.frames[:, unit], local)
    start = cone.lens[:, unit]
    hits = first_hits(ready, start, direction, np.full(unit.size, REACH))
    return hits.face, start + hits.distance * direction


def _steps(
    ready: Caster, surface: Indices, cone: _Cones, turn: Array, on: Indices, points: Array
) -> dict[tuple[int, int], tuple[Array, Array]]:
    """Where the outline steps from one surface to another: the last point on each side of the step.

    Keyed by unit and the number of the ray before the step; points are (3,), NaN on the side of nothing.
    Each lies on its own side's surface, also where the edge crosses a gap or a strip too narrow for a ray
    of its own: then the two are not neighbours.
    """
    after = np.roll(on, -1, axis=1)
    unit, ray = np.nonzero(on != after)
    start = turn[unit, ray]
    end = start + 2 * np.pi / turn.shape[1]
    following = (ray + 1) % turn.shape[1]

    def last_on(wanted: Indices, first: Array, beyond: Array, point: Array) -> Array:
        """The last points (3, K) on the surfaces wanted, from turns on them towards turns that are not."""
        low, high = first, beyond
        for _ in range(HALVINGS):
            middle = (low + high) / 2
            face, found = _edge(ready, cone, unit, middle)
            same = surface[face] == wanted
            low, high = np.where(same, middle, low), np.where(same, high, middle)
            point = np.where(same, found, point)
        return point

    before = last_on(on[unit, ray], start, end, points[:, unit, ray])
    behind = last_on(after[unit, ray], end, start, points[:, unit, following])
    keys = zip(unit.tolist(), ray.tolist(), strict=True)
    return {key: (before[:, k], behind[:, k]) for k, key in enumerate(keys)}


def _pieces(
    unit: int,
    on: Indices,
    owner: Indices,
    points: Array,
    steps: dict[tuple[int, int], tuple[Array, Array]],
) -> list[Outline]:
    """One unit's outline cut where it steps from surface to surface."""
    count = on.size
    cuts = [k for k in range(count) if (unit, k) in steps]
    if not cuts:
        return [] if on[0] < 0 else [Outline(unit, int(owner[0]), True, points)]
    pieces = []
    for cut, end in zip(cuts, [*cuts[1:], cuts[0] + count], strict=True):
        rays = np.arange(cut + 1, end + 1) % count
        if on[rays[0]] < 0:
            continue
        first, last = steps[unit, cut][1], steps[unit, end % count][0]
        line = np.concatenate((first[:, None], points[:, rays], last[:, None]), axis=1)
        pieces.append(Outline(unit, int(owner[rays[0]]), False, line))
    return pieces


TRACE_RAYS = 90  # along a field's edge
EDGE_POINTS = 24  # along an edge of a solid
MANY = 500  # triangles: of a solid of more the corners do
NEAR = 0.01  # m


class LightFall(NamedTuple):
    """A piece of a field's outline on one surface: `points` (3, M) in order round the cone.

    `unit` is the unit's row, `surface` the name of the solid, or "deck". `closed` where the whole
    outline lies on this one surface; the last point then joins on to the first.
    """

    unit: int
    surface: str
    closed: bool
    points: Array


def light_falls(rig: SolidRig, units: Indices | None = None) -> list[LightFall]:
    """The true outlines of the fields of some units, rows of the rig (K,), or all, on whatever they fall on.

    What falls past the deck's edge has none. Pipes and units count for nothing. Raises NoRayEngineError,
    and SceneError where a mesh file cannot be used.
    """
    rows = np.arange(len(rig.units)) if units is None else units
    names = [*rig.solids.names[: len(rig.solids.obstacles)], DECK]
    found = fall_outlines(
        room_of(rig),
        lens=rig.aims.lens[:, rows],
        axis=rig.axis[:, rows],
        up=long_ways(rig)[:, rows],
        field=rig.arrays.field[rows],
        stretch=stretches(rig)[:, rows],
    )
    return [LightFall(int(rows[f.unit]), names[f.owner], f.closed, f.points) for f in found]


def room_of(rig: SolidRig) -> Caster:
    """The scene's own solids and its deck, ready for rays; the deck's owner number follows the things'.

    The deck ends at the stage's outline; without one it has no edge.
    """
    mine = rig.solids.of(SOLID).tolist()
    shapes = [rig.solids.obstacles[k].shape for k in mine]
    deck = deck_shape(rig)
    if deck is None:
        deck = deck_strips(rake=rig.deck.rake, rake_from=rig.deck.rake_from)
    return caster(soup([*shapes, deck], [*mine, len(rig.solids.obstacles)]))


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
