"""Units with oval lamps: which they are, which way the oval lies, and their pools.

A unit whose oval has no `turn` is taken to lie across its beam; a finding says so.
"""

from __future__ import annotations

import numpy as np

from aimcalc.geometry.aim import Aims, Indices
from aimcalc.geometry.ovals import edges, level_across, oval_pools
from aimcalc.geometry.pools import Pools
from aimcalc.geometry.vectors import Array
from aimcalc.scene.model import Kind, Unit


def oval_rows(kinds: tuple[Kind, ...]) -> Indices:
    """Indices of the units with an oval field."""
    return np.array([k for k, kind in enumerate(kinds) if kind.oval], dtype=np.intp)


def rims(
    units: tuple[Unit, ...],
    kinds: tuple[Kind, ...],
    axis: Array,
    rows: Indices,
    *,
    share: float = 1.0,
) -> tuple[Array, Array]:
    """The rim's edge vectors (3, K) of these units, at `share` of the field's two angles."""
    turn = np.radians([units[k].turn or 0.0 for k in rows])
    oval = np.radians([kinds[k].oval or (0.0, 0.0) for k in rows]).reshape(-1, 2) * share / 2
    here = axis[:, rows]
    return edges(here, level_across(here, turn), oval[:, 1], oval[:, 0])


def upright_halves(
    field: Array, units: tuple[Unit, ...], kinds: tuple[Kind, ...], aims: Aims
) -> Array:
    """Half field angles (N,) as they tip a pool open or shut: half of `field`, an oval's by how it lies.

    It is the half angle of the round cone that rises from its axis as far as the oval does.
    """
    half, rows = field / 2, oval_rows(kinds)
    if rows.size:
        axis = aims.axis
        first, second = rims(units, kinds, axis, rows)
        rise = np.hypot(first[2], second[2])
        half[rows] = np.arctan2(rise, np.hypot(axis[0, rows], axis[1, rows]))
    return half


def with_ovals(
    pools: Pools, units: tuple[Unit, ...], kinds: tuple[Kind, ...], aims: Aims, plane_z: Array
) -> Pools:
    """The same pools with those of oval units put in their place."""
    rows = oval_rows(kinds)
    if rows.size:
        axis = aims.axis
        rim = rims(units, kinds, axis, rows)
        own = oval_pools(aims.lens[:, rows], axis[:, rows], rim, plane_z[rows])
        for column, value in zip(pools, own, strict=True):
            column[..., rows] = value
    return pools
