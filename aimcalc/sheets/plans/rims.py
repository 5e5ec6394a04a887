"""The edges of pools on the level plane at the face, as plan points: what is drawn, how far it reaches."""

from __future__ import annotations

from typing import TYPE_CHECKING
from weakref import WeakKeyDictionary

import numpy as np

from aimcalc.geometry.pools import outline, oval_outline
from aimcalc.geometry.vectors import Array
from aimcalc.named import NamedTuple
from aimcalc.paper.drawing import Dash

if TYPE_CHECKING:
    from aimcalc.solid.rig import SolidRig

RIM_POINTS = 144
FURTHEST = 300.0  # m, from the lens to where an open pool is cut off, outside any drawing


class Rim(NamedTuple):
    """A pool's edge on the level plane at the face: plan points (n, 2), whether it closes, its look."""

    rim: Array
    closed: bool
    weight: float
    dash: Dash


_rims: WeakKeyDictionary[SolidRig, dict[int, list[Rim]]] = WeakKeyDictionary()  # of rigs, by unit


def level_rims(rig: SolidRig, k: int) -> list[Rim]:
    """The edges of a unit's field and beam on the level plane at its face; none of a unit without an aim.

    They are kept with the rig: a page is laid out by them before they are drawn.
    """
    kept = _rims.setdefault(rig, {})
    if k not in kept:
        kept[k] = _level_rims(rig, k)
    return kept[k]


def _level_rims(rig: SolidRig, k: int) -> list[Rim]:
    lens, axis = rig.aims.lens[:, k], rig.axis[:, k]
    plane_z = float(rig.arrays.point[2, k])
    looks: list[tuple[float, float, Dash]] = [
        (rig.arrays.field[k], 1.0, "solid"),
        (rig.arrays.beam[k], 0.75, "dashed"),
    ]
    found = []
    for angle, weight, dash in looks:
        if not np.isfinite([*lens, *axis, angle]).all():
            continue
        if rig.kinds[k].oval:
            full = rig.ovals.field if dash == "solid" else rig.ovals.beam
            rim, closed = _oval_rim(rig, k, full, plane_z)
        else:
            rim, closed = _rim(lens, axis, angle / 2, plane_z)
        found.append(Rim(rim, closed, weight, dash))
    return found


def _rim(lens: Array, axis: Array, half_angle: float, plane_z: float) -> tuple[Array, bool]:
    """The pool's edge as plan points (n, 2), and whether it closes: b > g."""
    closed = bool(abs(axis[2]) > np.sin(half_angle))
    rim = outline(lens, axis, half_angle, plane_z, reach=FURTHEST, count=RIM_POINTS)[:2].T
    return (np.concatenate([rim, rim[:1]]) if closed else rim), closed


def _oval_rim(rig: SolidRig, k: int, full: Array, plane_z: float) -> tuple[Array, bool]:
    """The same of an oval, at both its field angles or both its beam angles, as `rig.ovals` has them."""
    axis, j = rig.axis, rig.ovals.row_of(k)
    first, second = rig.ovals.rims(full, axis)
    edge = (first[:, j], second[:, j])
    reach = np.hypot(edge[0][2], edge[1][2])
    closed = bool(abs(axis[2, k]) > reach)
    rim = oval_outline(
        rig.aims.lens[:, k], axis[:, k], edge, plane_z, reach=FURTHEST, count=RIM_POINTS
    )[:2].T
    return (np.concatenate([rim, rim[:1]]) if closed and len(rim) else rim), closed
