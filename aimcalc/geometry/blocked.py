"""How much of each unit's light is lost on its way to what it lights, to which solid, and how high.

Rays of equal flux (`cone_rays`) fill the field cone, whose tip is at the middle of the lens, and end at
the face: where they come down to the level plane through it, or meet the plane through it square to the
axis, whichever is first. So a ray that passes over the face and meets scenery behind it is not lost, and
every ray has an end, also where the field never closes on a level plane or the unit points up.

Light comes from the whole of a lens, which matters beside a neighbour: each ray runs to its own end from
its own point of the lens (a lens of radius 0 is a point).

A unit does not stand in its own light: its rays pass through whatever carries its own owner number
(body, top hat, yoke, clamp). Its pipe is a solid of its own, and counts. Nor does a solid that is itself
what is lit, a painted drop say: one that the lens axis meets within `AT_FACE` of the face.
"""

from __future__ import annotations

import numpy as np

from aimcalc.geometry.rays import (
    Caster,
    Flags,
    Rows,
    first_hits,
    lens_frames,
    lens_points,
    owner_of,
    plane_distance,
    run_rows,
)
from aimcalc.geometry.solids import Indices
from aimcalc.geometry.vectors import Array, distinct, dot
from aimcalc.named import NamedTuple

SHORT = np.float32(2e-4)  # share of the way left out at the end of a ray, and behind what it passes
AT_FACE = 0.05  # metres
RAYS_AT_ONCE = 1 << 16
MOST_PASSED = 8  # surfaces of its own, or of what it lights, that a ray may pass


class Lenses(NamedTuple):
    """What light needs of N units: points and unit directions (3, N), the rest (N,).

    `radius` is the lens's, `own` the owner number of the unit's own solid (-1: none), `which` the
    pattern of each unit among `patterns` (K, 3, R). A unit with a NaN in it, or with its face behind its
    lens, throws no light: its share is NaN.
    """

    lens: Array
    axis: Array
    up: Array
    face: Array
    radius: Array
    own: Indices
    which: Indices
    patterns: Array


class Rays(NamedTuple):
    """Rays of N units, unit by unit, as the engine takes them: single precision, one row a ray.

    `start` (N R, 3) counts from the soup's own centre; `way` (N R, 3) is the whole way to the ray's end,
    so that lengths along a ray are shares of its way, and `limit` (N R,) is 1 less a hair.
    """

    start: Rows
    way: Rows
    limit: Rows


class Blocked(NamedTuple):
    """Shares of field flux lost: `share` (N,) of each unit, and K rows of who takes it.

    Rows go by unit, the largest share first: `unit`, `owner`, `part` (share), `height` (mean z of the
    points met) and `lowest` (their lowest z), each (K,).
    """

    share: Array
    unit: Indices
    owner: Indices
    part: Array
    height: Array
    lowest: Array


def blocked(ready: Caster, lenses: Lenses) -> Blocked:
    """The share of its field's light that each unit loses before the face, and to which solids."""
    count, rays = lenses.which.size, lenses.patterns.shape[2]
    lit, throw = throws_light(lenses), _throw(lenses)
    units, step = np.flatnonzero(lit), max(1, RAYS_AT_ONCE // rays)
    passed = np.stack((lenses.own, _lit(ready, lenses, throw)))
    found = [_by_owner(*_NOTHING, rays)]
    for k in range(
        0, units.size, step
    ):  # gathered at once: the rays of a large rig fill the memory
        unit, face, z = _met(ready, lenses, units[k : k + step], passed)
        found.append(_by_owner(unit, ready.soup.owner[face], z, rays))
    rows = [np.concatenate(parts) for parts in zip(*found, strict=True)]
    hits = np.rint(np.bincount(rows[0], weights=rows[2], minlength=count) * rays)
    share = np.where(lit, hits / rays, np.nan)
    return Blocked(share, *rows)


def throws_light(lenses: Lenses) -> Flags:
    """Units that throw light to their faces, (N,)."""
    there = np.isfinite(lenses.lens + lenses.axis + lenses.up + lenses.face).all(axis=0)
    return np.asarray((_throw(lenses) > 0) & there)


def _throw(lenses: Lenses) -> Array:
    return dot(lenses.face - lenses.lens, lenses.axis)


def some_lenses(lenses: Lenses, rows: Indices) -> Lenses:
    """The lenses of some units (K,)."""
    return Lenses._make([*(column[..., rows] for column in lenses[:-1]), lenses.patterns])


def nothing_lost(share: Array) -> Blocked:
    """Units with these shares (N,) of which no solid takes any."""
    return Blocked(share, *_by_owner(*_NOTHING, 1))


_NOTHING = (np.zeros(0, dtype=np.int64), np.zeros(0, dtype=np.int64), np.zeros(0))


def field_rays(lenses: Lenses, units: Indices, centre: Array) -> Rays:
    """The rays of some units, each ending at its face (see above), seen from `centre` (3,)."""
    patterns = np.ascontiguousarray(lenses.patterns.transpose(0, 2, 1), dtype=np.float32)
    frames = lens_frames(lenses.axis[:, units], lenses.up[:, units]).transpose(1, 2, 0)
    frames = np.ascontiguousarray(frames, dtype=np.float32)
    way = np.matmul(patterns[lenses.which[units]], frames)
    along = np.ascontiguousarray(patterns[:, :, 0])[lenses.which[units]]
    way /= _ends_per_metre(lenses, units, along, way[:, :, 2])[:, :, None]
    lens = lenses.radius[units, None, None].astype(np.float32) * frames[:, 1:]
    start = np.matmul(lens_points(along.shape[1]).T.astype(np.float32), lens)
    way -= start
    start += (lenses.lens[:, units] - centre[:, None]).T.astype(np.float32)[:, None]
    limit = np.full(along.size, 1 - SHORT, dtype=np.float32)
    return Rays(start.reshape(-1, 3), way.reshape(-1, 3), limit)


def _ends_per_metre(lenses: Lenses, units: Indices, along: Rows, climb: Rows) -> Rows:
    """One over the length of each ray from the middle of the lens to its end, (N, R).

    `along` and `climb` are what a metre of ray gains along the axis and upwards. The nearer of two
    planes has the larger share of its distance gained in a metre; a plane that is left behind has less
    than none. A lens that is not above the face has no level plane to come down to.
    """
    to_face = lenses.face[:, units] - lenses.lens[:, units]
    square = 1 / dot(to_face, lenses.axis[:, units])
    level = np.divide(1, to_face[2], out=np.zeros(units.size), where=to_face[2] < 0)
    ends = along * square.astype(np.float32)[:, None]
    np.maximum(ends, climb * level.astype(np.float32)[:, None], out=ends)
    return ends


def _lit(ready: Caster, lenses: Lenses, throw: Array) -> Indices:
    """Owner of the solid that each lens axis meets at the face, -1 where it meets none there, (N,)."""
    start = lenses.lens + (throw - AT_FACE) * lenses.axis
    hits = first_hits(ready, start, lenses.axis, np.full(throw.size, 2 * AT_FACE))
    return owner_of(ready.soup, hits.face)


def _met(
    ready: Caster, lenses: Lenses, units: Indices, passed: Indices
) -> tuple[Indices, Indices, Array]:
    """Unit, triangle and height of every blocked ray of some units; `passed` (2, N) owners do not count.

    The engine is asked for the first triangle on the way: as quick as asking whether there is one.
    """
    rays = field_rays(lenses, units, ready.centre)
    face = run_rows(ready, *rays, "INTERSECT")
    lost = np.flatnonzero(face >= 0)
    rays, face, unit = _some(rays, lost), face[lost], units[lost // lenses.patterns.shape[2]]
    found = [_NOTHING]
    for _ in range(MOST_PASSED):
        if not face.size:
            break
        start = rays.start.T.astype(float) + ready.centre[:, None]
        reach = plane_distance(ready.soup, face, start, rays.way.T.astype(float))
        own = (ready.soup.owner[face] == passed[:, unit]).any(axis=0)
        z = start[2] + reach * rays.way[:, 2]
        found.append((unit[~own], face[~own], z[~own]))
        rays, unit = _beyond(_some(rays, own), reach[own]), unit[own]
        face = run_rows(ready, *rays, "INTERSECT")
        rays, unit, face = _some(rays, face >= 0), unit[face >= 0], face[face >= 0]
    unit, face, z = (np.concatenate(parts) for parts in zip(*found, strict=True))
    return unit, face, z


def _some(rays: Rays, pick: Indices | Flags) -> Rays:
    return Rays(rays.start[pick], rays.way[pick], rays.limit[pick])


def _beyond(rays: Rays, reach: Array) -> Rays:
    """The same rays, starting just behind what they met at `reach`."""
    passed = reach.astype(np.float32) + SHORT
    left = np.maximum(rays.limit - passed, 0)  # the engine takes a limit below zero for a hit
    return Rays(rays.start + passed[:, None] * rays.way, rays.way, left)


def _by_owner(
    unit: Indices, owner: Indices, z: Array, rays: int
) -> tuple[Indices, Indices, Array, Array, Array]:
    """Blocked rays gathered by unit and owner, the largest share of each unit first."""
    span = int(owner.max(initial=0)) + 1
    pair, row = distinct(unit * span + owner)
    hits = np.bincount(row, minlength=pair.size)
    height = np.bincount(row, weights=z, minlength=pair.size) / hits
    lowest = np.full(pair.size, np.inf)
    np.minimum.at(lowest, row, z)
    order = np.lexsort((pair % span, -hits, pair // span))
    pair = pair[order]
    return pair // span, pair % span, hits[order] / rays, height[order], lowest[order]
