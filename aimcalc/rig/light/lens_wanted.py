"""What is wanted of each unit: a field that meets its neighbours, a pool of one size, or what it has.

To meet a neighbour is to give half the middle's light half-way to its face, on the level plane: then two
alike units together make up at the seam what each gives in its middle. Neighbours are the faces of the
same system up to a quarter further off than the nearest; the widest field that they ask for is wanted,
and never a pool narrower than the way to the nearest.
"""

from __future__ import annotations

from collections.abc import Collection
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from aimcalc.geometry.vectors import Array
from aimcalc.light.lamps import Indices
from aimcalc.light.lens_choice import field_for_pool, field_to_meet
from aimcalc.light.profiles import SHARPEST
from aimcalc.rig.light.faces import aimed_at
from aimcalc.rig.light.systems import ALL, systems_of

if TYPE_CHECKING:
    from aimcalc.rig.solve import Rig

NEIGHBOUR = 1.25  # times as far off as the nearest face (our choice)
MEETS, POOL, AS_IS, KEPT = "meets", "pool", "as it is", "kept"


class Wanted(NamedTuple):
    """One unit: `field` (full angle, radians), why, and the targets that it is to meet."""

    field: float
    why: str
    meets: tuple[str, ...] = ()


def wanted_of(rig: Rig, pool: float | None = None, keep: Collection[str] = ()) -> list[Wanted]:
    """What is wanted of every unit, in hang order; `pool` is a diameter in metres, wanted of all systems.

    Units without a system, with a pattern or without an aim are wanted as they are, and so are those that
    have no neighbour or that no lens can make meet one. Units of the systems `keep` are kept.
    """
    found = [Wanted(float(field), AS_IS) for field in rig.arrays.field]
    for system, units in systems_of(rig).items():
        if system == ALL:
            continue
        if system in keep:
            for k in units.tolist():
                found[k] = found[k]._replace(why=KEPT)
            continue
        faces = _faces(rig, units)
        for k in units.tolist():
            if rig.kinds[k].has_gobo or not rig.aims.throw[k] > 0:
                continue
            if pool is not None:
                found[k] = Wanted(float(field_for_pool(pool, rig.aims.throw[k])), POOL)
            else:
                found[k] = _to_meet(rig, k, faces) or found[k]
    return found


class _Faces(NamedTuple):
    """The faces that a system lights: names, the column of each, and the points of the axes, (3, F)."""

    names: list[str]
    column: dict[str, int]
    point: Array


def _faces(rig: Rig, units: Indices) -> _Faces:
    rows = {aimed_at(rig, k): k for k in units.tolist()}
    columns = {name: column for column, name in enumerate(rows)}
    return _Faces(list(rows), columns, rig.arrays.point[:, list(rows.values())])


def _to_meet(rig: Rig, unit: int, faces: _Faces) -> Wanted | None:
    """The field with which a unit meets its neighbours; None where it has none or no lens does."""
    apart = np.hypot(*(faces.point - rig.arrays.point[:, [unit]])[:2])
    apart[apart == 0] = np.inf
    apart[faces.column[aimed_at(rig, unit)]] = np.inf
    nearest = float(apart.min())
    if not np.isfinite(nearest):
        return None
    rows = np.flatnonzero(apart <= NEIGHBOUR * nearest).tolist()
    there = faces.point[:, rows]
    near = [faces.names[row] for row in rows]
    lens, face = (np.repeat(v[:, [unit]], len(near), 1) for v in (rig.aims.lens, rig.arrays.point))
    beam_share = min(float(rig.arrays.beam[unit] / rig.arrays.field[unit]), SHARPEST)
    field = field_to_meet(lens, face, there, ratio=1 / beam_share)
    possible = np.isfinite(field) & (field < np.pi)
    if not possible.any():
        return None
    least = float(field_for_pool(nearest, rig.aims.throw[unit]))
    met = tuple(name for name, can in zip(near, possible.tolist(), strict=True) if can)
    return Wanted(max(float(field[possible].max()), least), MEETS, met)
