"""The points that units are aimed at: named targets, and points that only one unit has."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.deck import height
from aimcalc.geometry.vectors import Array
from aimcalc.geometry.vectors import points as as_points
from aimcalc.rig.wording import level, plan
from aimcalc.scene.model import Point, Target

if TYPE_CHECKING:
    from aimcalc.rig.solve import Rig

ON_TARGET = 0.05  # m: what stands so near to a target is the thing that is lit
TO_HOUSE = (0.0, -1.0, 0.0)


def target_points(rig: Rig) -> Array:
    """What each target of the scene stands for: a face, a spot of the deck or a thing, (3, T)."""
    return as_points([_point(rig, target) for target in rig.scene.targets])


def uprights(rig: Rig) -> Array:
    """The way that an upright card at each target faces, unit level directions (3, T).

    To the audience, DS; where a unit's target lies on an upright surface (a drop, a flat), as that faces
    towards the unit.
    """
    targets = rig.scene.targets
    ways = np.tile(np.array(TO_HOUSE)[:, None], len(targets))
    row = {target.name: t for t, target in enumerate(targets)}
    off = np.abs(rig.meets.reach - rig.aims.throw)
    for k in np.flatnonzero(rig.meets.upright & (off <= ON_TARGET)).tolist():
        level, t = rig.meets.normal[:2, k], row.get(rig.units[k].target or "")
        if t is not None and level.any():
            ways[:2, t] = level / np.hypot(*level)
    return ways


def _point(rig: Rig, target: Target) -> Point:
    z = target.z
    if z is None:
        z = float(height(rig.deck, np.array([target.x]), np.array([target.y]))[0])
    if target.plane == "face":
        own = target.face_height
        z += rig.scene.settings.face_height if own is None else own
    return (target.x, target.y, z)


def aimed_at(rig: Rig, unit: int) -> str:
    """A name for what a unit is aimed at; two units aimed at one bare point share it."""
    target = rig.units[unit].target
    if target:
        return target
    x, y, z = rig.arrays.point[:, unit].tolist()
    own = rig.scene.settings.unit
    return f"the point {plan(x, y, own)}, {level(z, own)}"
