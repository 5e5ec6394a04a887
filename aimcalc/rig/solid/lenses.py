"""The units of a rig as lenses: where their light starts, how it spreads, where it ends."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.blocked import Lenses
from aimcalc.geometry.cone_rays import lens_frames, pattern, rim, stretched
from aimcalc.geometry.solids import Indices
from aimcalc.geometry.vectors import Array, cross
from aimcalc.light.profiles import relative_intensity

if TYPE_CHECKING:
    from aimcalc.rig.solve import Rig

RAYS = 500  # a unit
STEPS = 512  # of a profile, from the axis to the edge of the field
LENS_OF_WIDTH = (
    0.75  # of the body's width: a 6 in lens in an 8 in body (common practice, no source)
)
SHARPEST = 0.999  # beam over field; a scene may say that they are the same, which no profile is

Spread = tuple[float, float, tuple[float, float] | None]


def lenses_of(rig: Rig, own: Indices, *, rays: int = RAYS) -> Lenses:
    """The lenses of all units in hang order; `own` (N,) are their owner numbers.

    The light is the smooth profile of field and beam. An oval lies level unless its unit's `turn` says
    otherwise, as it does on the stage. A kind without a width has a point for a lens.
    """
    spreads: dict[Spread, int] = {}
    which = [spreads.setdefault(_spread(rig, k), len(spreads)) for k in range(len(rig.units))]
    patterns = [_pattern(spread, rays) for spread in spreads]
    widths = np.array([kind.width or 0.0 for kind in rig.kinds], dtype=float)
    return Lenses(
        lens=rig.aims.lens,
        axis=rig.aims.axis,
        up=long_ways(rig),
        face=rig.arrays.point,
        radius=widths * LENS_OF_WIDTH / 2,
        own=own,
        which=np.array(which, dtype=np.int64),
        patterns=np.stack(patterns) if patterns else np.zeros((0, 3, rays)),
    )


def field_edges(rig: Rig, units: Indices, count: int) -> Array:
    """`count` unit directions round the edge of the fields of some units, (3, units, count)."""
    frames = lens_frames(rig.aims.axis[:, units], long_ways(rig)[:, units])
    rims = [_rim(_spread(rig, k), count) for k in units.tolist()]
    return np.asarray(np.einsum("inj,njs->ins", frames, np.array(rims).reshape(-1, 3, count)))


def _rim(spread: Spread, count: int) -> Array:
    field, _, oval = spread
    round_rim = rim(count, field=field)
    return round_rim if oval is None else _stretched(round_rim, field, oval)


def _spread(rig: Rig, k: int) -> Spread:
    return float(rig.arrays.field[k]), float(rig.arrays.beam[k]), rig.kinds[k].oval


def _pattern(spread: Spread, rays: int) -> Array:
    field, beam, oval = spread
    angle = np.linspace(0.0, field / 2, STEPS)
    candela = relative_intensity(angle, beam=min(beam, SHARPEST * field), field=field)
    round_rays = pattern(rays, angle, candela)
    return round_rays if oval is None else _stretched(round_rays, field, oval)


def _stretched(rays: Array, field: float, oval: tuple[float, float]) -> Array:
    """Rays of a round field drawn out to those of an oval one, its long way towards the side."""
    up, side = _stretch(field, oval)
    return stretched(rays, up=up, side=side)


def _stretch(field: float, oval: tuple[float, float] | None) -> tuple[float, float]:
    """Tangents of an oval's half fields over that of a round one, its narrow way and its wide way."""
    if oval is None:
        return 1.0, 1.0
    narrow, wide = (np.tan(np.radians(full) / 2) / np.tan(field / 2) for full in oval)
    return float(narrow), float(wide)


def stretches(rig: Rig) -> Array:
    """How fields are drawn out, towards the lens's up and side as `long_ways` has them, (2, N)."""
    pairs = [_stretch(float(f), k.oval) for f, k in zip(rig.arrays.field, rig.kinds, strict=True)]
    return np.array(pairs).reshape(-1, 2).T


def long_ways(rig: Rig) -> Array:
    """Body-up of round units; of ovals the direction square to their long way."""
    rows = rig.ovals.rows
    if not rows.size:
        return rig.aims.up
    axis, up = rig.aims.axis, rig.aims.up.copy()
    up[:, rows] = cross(rig.ovals.across(axis), axis[:, rows])
    return up
