"""What each unit loses of its field's light before it gets there, and to what."""

from __future__ import annotations

from typing import TYPE_CHECKING

import msgspec
import numpy as np

from aimcalc.geometry.blocked import Blocked, blocked
from aimcalc.geometry.occlusion import NoRayEngineError
from aimcalc.rig.answers import Answer, Loss
from aimcalc.rig.solid.lenses import lenses_of

if TYPE_CHECKING:
    from aimcalc.rig.solve import Rig


def lost(rig: Rig) -> Blocked:
    """Shares of the field's light lost, unit by unit, and the owners that take them.

    Raises NoRayEngineError, and SceneError where a mesh file cannot be used.
    """
    return blocked(rig.solids.whole, lenses_of(rig, rig.solids.own))


def answers_with_losses(rig: Rig) -> list[Answer]:
    """What is told about each unit, `blocked` and `blocked_by` filled in.

    They stay None where the ray engine is not installed, and for a unit that throws no light.
    """
    answers = rig.answers()
    try:
        told = rig.lost
    except NoRayEngineError:
        return answers
    rows: dict[int, list[Loss]] = {}
    for k, owner, part, height in zip(*(c.tolist() for c in told[1:5]), strict=True):
        rows.setdefault(k, []).append(Loss(rig.solids.names[owner], part, height))
    lit = np.isfinite(told.share).tolist()
    return [
        msgspec.structs.replace(answer, blocked=share, blocked_by=tuple(rows.get(k, ())))
        if lit[k]
        else answer
        for k, (answer, share) in enumerate(zip(answers, told.share.tolist(), strict=True))
    ]
