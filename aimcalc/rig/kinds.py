"""Units with oval fields: which they are, their two widths, which way the long one lies, and their pools.

An oval is a kind's own (`oval`), or that of its photometric file (`rig.photometry`). The long way lies as the
unit's `turn` says; where nobody said, a file lies as its body does, and a lamp is taken to lie across its
beam, which a finding says.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.aim import Aims, Flags, Indices
from aimcalc.geometry.pools import Pools, edges, level_across, oval_pools
from aimcalc.geometry.vectors import Array, cross, dot, to_radians
from aimcalc.named import NamedTuple
from aimcalc.rig.wording import by_typical

if TYPE_CHECKING:
    from collections.abc import Iterable

    from aimcalc.rig.solve import Solved
    from aimcalc.scene.model import Kind


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


def ovals_of(rig: Solved) -> Ovals:
    """The oval units of a rig; the beam of a kind's own `oval` is narrower both ways as its `beam` is."""
    rows = np.array([k for k, kind in enumerate(rig.kinds) if kind.oval], dtype=np.intp)
    field = to_radians([rig.kinds[k].oval or (0.0, 0.0) for k in rows]).reshape(-1, 2).T
    beam = field * (rig.arrays.beam[rows] / rig.arrays.field[rows])
    turn = to_radians([rig.units[k].turn or 0.0 for k in rows])
    as_body = body_turns(rig.aims, rows)
    for j, k in enumerate(rows.tolist()):
        file = rig.file_ovals.get(rig.units[k].kind)
        if file is None:
            continue
        if rig.kinds[k].beam == file.round_beam:
            beam[:, j] = to_radians(file.beam)
        if rig.units[k].turn is None:
            turn[j] = as_body[j] + (QUARTER if file.upright else 0.0)
    return Ovals(rows, field, beam, turn)


def body_turns(aims: Aims, rows: Indices) -> Array:
    """Turn in radians, (K,), of some units' own right-hand sides from level, as `Ovals` has it.

    0 without an aim.
    """
    axis, up = aims.axis[:, rows], aims.up[:, rows]
    level, right = level_across(axis), cross(axis, up)
    return np.nan_to_num(np.arctan2(dot(right, cross(level, axis)), dot(right, level)))


def light_turns(rig: Solved) -> Array:
    """Turn from level (N,) of the C = 0 of a unit's file, or of any other oval's long way; NaN: nobody said.

    A unit's `turn` is the long way's: the C = 0 of a file that stands upright is a quarter turn from it.
    """
    turn = to_radians([np.nan if unit.turn is None else unit.turn for unit in rig.units])
    for k, unit in enumerate(rig.units):
        file = rig.file_ovals.get(unit.kind)
        if file is not None and file.upright:
            turn[k] -= QUARTER
    return turn.reshape(-1)


def with_ovals(pools: Pools, ovals: Ovals, aims: Aims, plane_z: Array) -> Pools:
    """The same pools with those of oval units put in their place.

    `plane_z` (N,), m, is each unit's level plane.
    """
    rows = ovals.rows
    if rows.size:
        rim = ovals.rims(ovals.field, aims.axis)
        own = oval_pools(aims.lens[:, rows], aims.axis[:, rows], rim, plane_z[rows])
        for column, value in zip(pools, own, strict=True):
            column[..., rows] = value
    return pools


class Size(NamedTuple):
    """A body in metres: its length, its width, and from its pivot to its lens."""

    length: float
    width: float
    nose: float


# Those of scene/generic_kinds.toml (common practice, no source).
TYPICAL = {
    "ers": Size(0.60, 0.22, 0.34),
    "fresnel": Size(0.38, 0.34, 0.18),
    "pc": Size(0.38, 0.34, 0.18),
    "par": Size(0.42, 0.26, 0.24),
    "flood": Size(0.22, 0.36, 0.11),
    "cyc": Size(0.30, 0.40, 0.14),
}


class Sizes(NamedTuple):
    """What N units are taken to measure, metres, (N,), and whether the user `typed` all of it."""

    length: Array
    width: Array
    nose: Array
    typed: Flags


def sizes_of(rig: Solved) -> Sizes:
    """The sizes of every unit."""
    taken = np.array([size_of(kind) for kind in rig.kinds], dtype=float).reshape(-1, 3).T
    typed = [not kind.typical and not missing(kind) and kind.nose > 0 for kind in rig.kinds]
    known = np.array(typed, dtype=bool) & (rig.arrays.drop > 0)
    return Sizes(taken[0], taken[1], taken[2], known)


def size_of(kind: Kind) -> Size:
    """A kind's own sizes, each that it lacks as its family's."""
    usual = TYPICAL[kind.family]
    nose = kind.nose if kind.nose > 0 or not missing(kind) else usual.nose
    return Size(kind.length or usual.length, kind.width or usual.width, nose)


def missing(kind: Kind) -> list[str]:
    """The keys of a body that a kind lacks."""
    given = {"length": kind.length, "width": kind.width}
    return [key for key, value in given.items() if value is None]


def rests_on(rig: Solved, rows: Iterable[int] | Indices) -> str:
    """What is assumed about the bodies of some units, rows (K,) of the rig: a sentence to follow theirs."""
    kinds = {rig.kinds[k].name: rig.kinds[k] for k in map(int, rows)}
    whose = [name for name, kind in kinds.items() if kind.typical or missing(kind)]
    return by_typical("sizes", whose) or " By assumed sizes of yokes, clamps and tubes."
