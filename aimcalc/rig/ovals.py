"""Units with oval fields: which they are, their two widths, which way the long one lies, and their pools.

An oval is a kind's own (`oval`), or that of its photometric file (`rig.photometry`). The long way lies as the
unit's `turn` says; where nobody said, a file lies as its body does, and a lamp is taken to lie across its
beam, which a finding says.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from aimcalc.geometry.aim import Aims, Indices
from aimcalc.geometry.ovals import edges, level_across, oval_pools
from aimcalc.geometry.pools import Pools
from aimcalc.geometry.vectors import Array, cross, dot

if TYPE_CHECKING:
    from aimcalc.rig.solve import Rig

QUARTER = np.pi / 2


class Ovals(NamedTuple):
    """The K oval units of a rig: indices `rows` (K,), `field` and `beam` (2, K), narrow then wide, radians.

    Full angles. `turn` (K,) is the way of the wide one from level, anti-clockwise as seen along the beam.
    """

    rows: Indices
    field: Array
    beam: Array
    turn: Array

    def row_of(self, k: int) -> int:
        """Where unit k, an oval one, stands among them."""
        return int(np.searchsorted(self.rows, k))

    def across(self, axis: Array) -> Array:
        """The long way of each oval (3, K), square to its axis; `axis` (3, N) of all units."""
        return level_across(axis[:, self.rows], self.turn)

    def rims(self, full: Array, axis: Array) -> tuple[Array, Array]:
        """The rims' edge vectors (3, K) at the full angles `field` or `beam`; `axis` (3, N) of all units."""
        return edges(axis[:, self.rows], self.across(axis), full[1] / 2, full[0] / 2)


def ovals_of(rig: Rig) -> Ovals:
    """The oval units of a rig; the beam of a kind's own `oval` is narrower both ways as its `beam` is."""
    rows = np.array([k for k, kind in enumerate(rig.kinds) if kind.oval], dtype=np.intp)
    field = np.radians([rig.kinds[k].oval or (0.0, 0.0) for k in rows]).reshape(-1, 2).T
    beam = field * (rig.arrays.beam[rows] / rig.arrays.field[rows])
    turn = np.radians([rig.units[k].turn or 0.0 for k in rows])
    as_body = body_turns(rig.aims, rows)
    for j, k in enumerate(rows.tolist()):
        file = rig.file_ovals.get(rig.units[k].kind)
        if file is None:
            continue
        if rig.kinds[k].beam == file.round_beam:
            beam[:, j] = np.radians(file.beam)
        if rig.units[k].turn is None:
            turn[j] = as_body[j] + (QUARTER if file.upright else 0.0)
    return Ovals(rows, field, beam, turn)


def body_turns(aims: Aims, rows: Indices) -> Array:
    """Turn of these units' own right-hand sides from level, as `Ovals` has it; 0 without an aim."""
    axis, up = aims.axis[:, rows], aims.up[:, rows]
    level, right = level_across(axis), cross(axis, up)
    return np.nan_to_num(np.arctan2(dot(right, cross(level, axis)), dot(right, level)))


def light_turns(rig: Rig) -> Array:
    """Turn from level (N,) of the C = 0 of a unit's file, or of any other oval's long way; NaN: nobody said.

    A unit's `turn` is the long way's: the C = 0 of a file that stands upright is a quarter turn from it.
    """
    turn = np.radians([np.nan if unit.turn is None else unit.turn for unit in rig.units])
    for k, unit in enumerate(rig.units):
        file = rig.file_ovals.get(unit.kind)
        if file is not None and file.upright:
            turn[k] -= QUARTER
    return turn.reshape(-1)


def upright_halves(rig: Rig) -> Array:
    """Half field angles (N,) as they tip a pool open or shut: half of the field, an oval's by how it lies.

    It is the half angle of the round cone that rises from its axis as far as the oval does.
    """
    half, ovals, axis = rig.arrays.field / 2, rig.ovals, rig.aims.axis
    if ovals.rows.size:
        first, second = ovals.rims(ovals.field, axis)
        rise = np.hypot(first[2], second[2])
        half[ovals.rows] = np.arctan2(rise, np.hypot(axis[0, ovals.rows], axis[1, ovals.rows]))
    return half


def with_ovals(pools: Pools, ovals: Ovals, aims: Aims, plane_z: Array) -> Pools:
    """The same pools with those of oval units put in their place."""
    rows = ovals.rows
    if rows.size:
        rim = ovals.rims(ovals.field, aims.axis)
        own = oval_pools(aims.lens[:, rows], aims.axis[:, rows], rim, plane_z[rows])
        for column, value in zip(pools, own, strict=True):
            column[..., rows] = value
    return pools
