"""What each unit loses of its field's light before it gets there, and to what."""

from __future__ import annotations

import pickle
from collections.abc import Iterator
from functools import lru_cache
from typing import TYPE_CHECKING, Any

import numpy as np

from aimcalc.geometry.aim import Flags
from aimcalc.geometry.blocked import (
    AT_FACE,
    Blocked,
    Lenses,
    blocked,
    nothing_lost,
    some_lenses,
    throws_light,
)
from aimcalc.geometry.clearance import near_each
from aimcalc.geometry.pools import level_across
from aimcalc.geometry.rays import (
    lens_frames,
    pattern,
    rim,
    stretched,
    uneven_pattern,
)
from aimcalc.geometry.solids import Indices
from aimcalc.geometry.vectors import Array, among, cross, dot, same, same_columns, to_radians
from aimcalc.light.profiles import SHARPEST, relative_intensity
from aimcalc.named import NamedTuple
from aimcalc.rig.kinds import light_turns
from aimcalc.rig.rig import lens_in_tube
from aimcalc.solid.solids import ROOM

if TYPE_CHECKING:
    from aimcalc.light.photometry import Photometry
    from aimcalc.rig.rig import Rig
    from aimcalc.solid.solids import Solids


RAYS = 500  # a unit
STEPS, TURNS = 256, 180  # of a profile, from the axis to the edge of the field and round it
LENS_OF_WIDTH = (
    0.75  # of the body's width: a 6 in lens in an 8 in body (common practice, no source)
)
FIELD = 0.1  # share of the peak at the edge of a field
FURTHEST = to_radians(88.0)  # off the axis: a ray further out never comes to the face

Spread = tuple[float, float, tuple[float, float] | None]


def lenses_of(rig: Rig, own: Indices, *, rays: int = RAYS, units: Indices | None = None) -> Lenses:
    """The lenses of all units in hang order, or of some; `own` (N,) are the owner numbers of all.

    The light is that of the photometric file, where it is a tenth of its peak or more, or else the smooth
    profile of field and beam. An oval lies level unless its unit's `turn` says otherwise, as it does on
    the stage. A kind without a width has a point for a lens.
    """
    chosen = np.arange(len(rig.units)) if units is None else units
    lights: dict[str | Spread, int] = {}
    which = [lights.setdefault(_light(rig, k), len(lights)) for k in chosen.tolist()]
    patterns = [_pattern(rig, light, rays) for light in lights]
    widths = np.array([rig.kinds[k].width or 0.0 for k in chosen.tolist()], dtype=float)
    return Lenses(
        lens=rig.aims.lens[:, chosen],
        axis=rig.axis[:, chosen],
        up=_light_ups(rig)[:, chosen],
        face=rig.arrays.point[:, chosen],
        radius=widths * LENS_OF_WIDTH / 2,
        own=own[chosen],
        which=np.array(which, dtype=np.int64),
        patterns=np.stack(patterns) if patterns else np.zeros((0, 3, rays)),
    )


def _light(rig: Rig, k: int) -> str | Spread:
    """What unit k's light is like: the kind that has a file, or the angles of a smooth profile."""
    name = rig.units[k].kind
    return name if name in rig.photometry else _spread(rig, k)


def _pattern(rig: Rig, light: str | Spread, rays: int) -> Array:
    if isinstance(light, str):
        return _measured(rig.photometry[light], rays)
    field, beam, oval = light
    if oval is None:
        return _round_pattern(field, beam, rays)
    return uneven_pattern(rays, *_oval_field(*light))


@lru_cache(maxsize=64)
def _round_pattern(field: float, beam: float, rays: int) -> Array:
    angle = np.linspace(0.0, field / 2, STEPS)
    profile = relative_intensity(angle, beam=min(beam, SHARPEST * field), field=field)
    found = pattern(rays, angle, profile)
    found.flags.writeable = False  # kept for the next call
    return found


@lru_cache(maxsize=32)
def _oval_field(field: float, beam: float, oval: tuple[float, float]) -> tuple[Array, float]:
    """The light of a smooth oval, 0 past its field, over `_cells` (T, P), and how wide they are (radians)."""
    narrow, wide = to_radians(oval)
    widest = min(wide / 2, FURTHEST)
    off, turn = _cells(widest)
    # Ellipses in angle round the axis, as the light has them; C = 0 is the long way.
    as_round = off * np.hypot(np.cos(turn) * (field / wide), np.sin(turn) * (field / narrow))
    candela = relative_intensity(as_round, beam=min(beam, SHARPEST * field), field=field)
    candela = np.where(candela >= FIELD, candela, 0.0)
    candela.flags.writeable = False  # kept for the next call
    return candela, float(widest)


def _cells(widest: float) -> tuple[Array, Array]:
    """Middles of even steps off the axis (T, 1) and round it (1, P), radians."""
    off = (np.arange(STEPS) + 0.5) * (widest / STEPS)
    turn = np.asarray((np.arange(TURNS) + 0.5) * (2 * np.pi / TURNS), np.float64)
    return np.asarray(off[:, None]), turn[None]


def _measured(file: Photometry, rays: int) -> Array:
    from aimcalc.light.photometry import intensity

    def field(widest: float) -> Array:
        candela = intensity(file, *_cells(widest))
        return np.where(candela >= FIELD * file.peak_cd, candela, 0.0)

    lit = np.flatnonzero(field(FURTHEST).any(axis=1))
    if not lit.size:  # all of it behind the unit, or in a spike finer than a step
        return pattern(rays, np.array([0.0, FURTHEST / STEPS]), np.ones(2))
    widest = float(lit[-1] + 2) * FURTHEST / STEPS
    return uneven_pattern(rays, field(min(widest, FURTHEST)), min(widest, FURTHEST))


def field_edges(rig: Rig, units: Indices, count: int) -> Array:
    """`count` unit directions round the edge of the fields of some units, (3, units, count)."""
    frames = lens_frames(rig.axis[:, units], long_ways(rig)[:, units])
    rims = [_rim(_spread(rig, k), count) for k in units.tolist()]
    return np.asarray(np.einsum("inj,njs->ins", frames, np.array(rims).reshape(-1, 3, count)))


def _rim(spread: Spread, count: int) -> Array:
    field, _, oval = spread
    round_rim = rim(count, field=field)
    return round_rim if oval is None else _stretched(round_rim, field, oval)


def _spread(rig: Rig, k: int) -> Spread:
    return float(rig.arrays.field[k]), float(rig.arrays.beam[k]), rig.kinds[k].oval


def _stretched(rays: Array, field: float, oval: tuple[float, float]) -> Array:
    """The edge of a round field drawn out to that of an oval one, its long way towards the side."""
    up, side = _stretch(field, oval)
    return stretched(rays, up=up, side=side)


def _stretch(field: float, oval: tuple[float, float] | None) -> tuple[float, float]:
    """Tangents of an oval's half fields over that of a round one, its narrow way and its wide way."""
    if oval is None:
        return 1.0, 1.0
    narrow, wide = (np.tan(to_radians(full) / 2) / np.tan(field / 2) for full in oval)
    return float(narrow), float(wide)


def stretches(rig: Rig) -> Array:
    """How fields are drawn out, towards the lens's up and side as `long_ways` has them, (2, N)."""
    pairs = [_stretch(float(f), k.oval) for f, k in zip(rig.arrays.field, rig.kinds, strict=True)]
    return np.array(pairs).reshape(-1, 2).T


def long_ways(rig: Rig) -> Array:
    """Body-up of round units, of ovals the direction square to their long way: unit directions (3, N)."""
    rows = rig.ovals.rows
    if not rows.size:
        return rig.up
    axis, up = rig.axis, rig.up.copy()
    up[:, rows] = cross(rig.ovals.across(axis), axis[:, rows])
    return up


def _light_ups(rig: Rig) -> Array:
    """Towards what a pattern's body-up lies: `long_ways`, or the C = 90 of a unit's photometric file."""
    rows = np.array([k for k, unit in enumerate(rig.units) if unit.kind in rig.photometry], int)
    if not rows.size:
        return long_ways(rig)
    up, axis = long_ways(rig).copy(), rig.axis[:, rows]
    turns = light_turns(rig)[rows]
    up[:, rows] = np.where(np.isnan(turns), rig.up[:, rows], cross(level_across(axis, turns), axis))
    return up


FINE = 4000  # rays of a unit that loses some of its light, and not all


class Known(NamedTuple):
    """A rig whose losses are known."""

    rig: Rig
    solids: Solids
    lost: Blocked


def lost(rig: Rig, solids: Solids, before: Known | None = None) -> Blocked:
    """Shares of the field's light lost, unit by unit, and the owners that take them; good to 0.01.

    Counted with a few rays first. Those that lose none of them, or all, are within 0.006 then; the others,
    which a few rays have up to 0.03 off where a thing stands near a wide lens, are counted again.
    A lens within its own tube (a kind without drop and nose, warned of as such) has no place to cast light
    from: its share is NaN. Of a rig `before` whose losses are known, those of units that `untouched` names
    are taken over. Raises NoRayEngineError, and SceneError where a mesh file cannot be used.
    """
    every = np.zeros(len(rig.units), np.bool_)
    kept = every if before is None else untouched(rig, solids, before)
    if before is None or not kept.any():
        return _lost_of(rig, solids, np.arange(kept.size), anew=False)
    if kept.all():
        return before.lost
    old, anew = before.lost, np.flatnonzero(~kept)
    found = _lost_of(rig, solids, anew, anew=True)
    share = old.share.copy()
    share[anew] = found.share
    mine = kept[old.unit]
    rows = [np.append(a[mine], b) for a, b in zip(old[2:], found[2:], strict=True)]
    return _by_unit(share, np.append(old.unit[mine], anew[found.unit]), rows)


def _lost_of(rig: Rig, solids: Solids, units: Indices, *, anew: bool) -> Blocked:
    """The losses of some units (K,), which rows count from 0; `anew` after a change that left the others.

    No ray is cast of a unit whose light has no other's box on its way, nor is anything made ready for rays
    where that is so of all.
    """
    own = solids.own
    lenses = lenses_of(rig, own, units=units)
    lenses = lenses._replace(lens=np.where(lens_in_tube(rig)[units], np.nan, lenses.lens))
    share = np.where(throws_light(lenses), 0.0, np.nan)
    box, unit = _reached(rig, solids.boxes)
    meets = np.zeros(own.size, np.bool_)
    meets[unit[box != own[unit]]] = True
    cast = np.flatnonzero(meets[units] & (share == 0.0))
    if not cast.size:
        return nothing_lost(share)
    mine = np.zeros(own.size, np.bool_)
    mine[units] = True
    near = np.zeros(len(solids.names), np.bool_)
    near[box[mine[unit]]] = True
    ready = solids.among(near, "about") if anew else solids.whole
    first = blocked(ready, some_lenses(lenses, cast))
    some = np.flatnonzero((first.share > 0) & (first.share < 1))
    again = blocked(ready, lenses_of(rig, own, rays=FINE, units=units[cast[some]]))
    share[cast] = first.share
    share[cast[some]] = again.share
    kept = ~among(first.unit, some)
    rows = [np.append(a[kept], b) for a, b in zip(first[2:], again[2:], strict=True)]
    return _by_unit(share, cast[np.append(first.unit[kept], some[again.unit])], rows)


def _by_unit(share: Array, unit: Indices, rows: list[Any]) -> Blocked:
    order = np.argsort(unit, kind="stable")
    return Blocked(share, unit[order], *(row[order] for row in rows))


def untouched(rig: Rig, solids: Solids, before: Known) -> Flags:
    """Units whose light is as it was before, (N,): sent out alike, and nothing on its way has changed.

    On its way is what has its box in the box about all of a unit's rays, and the ball about that box in the
    cone that they fill, where it was or where it is. Rays and solids are counted from the middle of
    everything in single precision: where that has moved, or anything was added, taken away or named anew, no
    unit is untouched. Nor is one whose rays may come to where two things lie face on face: which of them they
    meet first then hangs on all the others.
    """
    old = before.solids
    if old.names != solids.names or not same(old.centre, solids.centre):
        return np.zeros(len(rig.units), np.bool_)
    kept = _sent_alike(rig, before.rig)
    boxes = [*_changed_boxes(solids, old), *solids.face_on_face]
    kept[_reached(rig, np.array(boxes).reshape(-1, 2, 3))[1]] = False
    return kept


def _sent_alike(rig: Rig, before: Rig) -> Flags:
    """Units whose lens, aim, turn and profile are as they were, (N,)."""
    alike = np.ones(len(rig.units), np.bool_)
    for now, then in zip(_sent(rig), _sent(before), strict=True):
        alike &= same_columns(now, then)
    lights = [[_light(one, k) for k in range(len(one.units))] for one in (rig, before)]
    files = {name for name in rig.photometry if _same_file(rig, before, name)}
    alike &= [
        a == b and (not isinstance(a, str) or a in files) for a, b in zip(*lights, strict=True)
    ]
    return alike


def _sent(rig: Rig) -> tuple[Array | Flags, ...]:
    widths = np.array([kind.width or 0.0 for kind in rig.kinds], dtype=float)
    rays = (rig.aims.lens, rig.axis, _light_ups(rig), rig.arrays.point)
    return *rays, widths, lens_in_tube(rig)


def _same_file(rig: Rig, before: Rig, name: str) -> bool:
    one, other = rig.photometry[name], before.photometry.get(name)
    return one is other or pickle.dumps(one) == pickle.dumps(other)


FAR = 1e6  # m, for light without end


def _reached(rig: Rig, boxes: Array) -> tuple[Indices, Indices]:
    """Which of C boxes, lowest and highest corner (C, 2, 3), the rays of which units may meet: rows of both.

    Rays run from the lens's disc to the disc that the field cuts from the plane square to the axis at the
    face, or end before it; those that come from above the face end no lower. A box is out of their way where
    its box and theirs are apart, or a plane parts it from them: one square to the axis, or the one that lies
    on the cone of light on the box's side. A unit without light meets nothing.
    """
    lens, axis, face = rig.aims.lens, rig.axis, rig.arrays.point[2]
    half = np.array([_widest(rig, k) for k in range(len(rig.units))], dtype=float)
    throw = dot(rig.arrays.point - lens, axis) + AT_FACE
    radius = np.array([kind.width or 0.0 for kind in rig.kinds], dtype=float) * LENS_OF_WIDTH / 2
    all_ways, half = half > FURTHEST, np.minimum(half, FURTHEST)
    slope = np.where(all_ways, np.inf, np.tan(half))
    across = np.sqrt(np.maximum(1 - axis * axis, 0.0)) + 1e-9
    ends = ((lens, radius * across), (lens + throw * axis, (radius + slope * throw) * across))
    low = np.minimum(*(end - out for end, out in ends)) - ROOM
    high = np.maximum(*(end + out for end, out in ends)) + ROOM
    ends_at = np.minimum(face - AT_FACE, lens[2] - radius * across[2]) - ROOM
    low[2] = np.where(face < lens[2], np.maximum(low[2], ends_at), low[2])
    light = np.clip(np.stack((low, high)), -FAR, FAR)
    found = [(np.zeros(0, np.int64),) * 2]
    for box, unit in near_each(boxes.transpose(1, 2, 0), light, 0.0):
        low, high = boxes[box].transpose(1, 2, 0)
        out, ahead = (low + high) / 2 - lens[:, unit], axis[:, unit]
        size = (high - low) / 2
        along = dot(out, ahead)
        out -= along * ahead
        off = np.sqrt(dot(out, out))
        plane = np.cos(half[unit]) * out / np.maximum(off, 1e-9) - np.sin(half[unit]) * ahead
        past = np.cos(half[unit]) * (off - radius[unit]) - np.sin(half[unit]) * along
        keep = (past <= dot(np.abs(plane), size) + ROOM) | all_ways[unit]
        reach = dot(np.abs(ahead), size) + ROOM
        keep &= (along >= -reach) & (along <= throw[unit] + reach)
        found.append((box[keep], unit[keep]))
    box, unit = (np.concatenate(rows) for rows in zip(*found, strict=True))
    return box, unit


def _widest(rig: Rig, k: int) -> float:
    """Half the widest angle of unit k's rays."""
    light = _light(rig, k)
    if isinstance(light, str):
        return FURTHEST
    field, _, oval = light
    return field / 2 if oval is None else max(to_radians(list(oval)).tolist()) / 2


def _changed_boxes(solids: Solids, old: Solids) -> Iterator[Array]:
    """The boxes (2, 3) of every obstacle and body that is not as it was, as it was and as it is."""
    for pair in zip(solids.obstacles, old.obstacles, strict=True):
        one, other = (thing.shape for thing in pair)
        if not (same(one.vertices, other.vertices) and same(one.faces, other.faces)):
            for shape in (each for each in (one, other) if each.vertices.size):
                yield np.stack((shape.vertices.min(axis=1), shape.vertices.max(axis=1)))
    bodies = [each.corners.transpose(0, 2, 3, 1) for each in (solids, old)]
    alike = same_columns(*bodies) & same_columns(solids.hung.build.hat, old.hung.build.hat)
    for k in np.flatnonzero(~alike).tolist():
        for body in bodies:
            corners = body[..., k].reshape(3, -1)
            if np.isfinite(corners).all():
                yield np.stack((corners.min(axis=1), corners.max(axis=1)))
