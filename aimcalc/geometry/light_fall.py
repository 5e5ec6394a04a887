"""The true outline of a field: where the edge of the cone falls on deck, platform, riser or wall.

Rays along the edge of the cone are followed to whatever they meet first. Where two neighbouring rays meet
different surfaces, the edge of the cone is searched between them for the place where it steps across, so
that outlines run right up to the edges of what they lie on.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from aimcalc.geometry.rays import Caster, first_hits, lens_frames, owner_of
from aimcalc.geometry.solids import Indices, Soup
from aimcalc.geometry.vectors import Array, cross, dot

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


def footprints(
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
