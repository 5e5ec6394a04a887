"""What each unit loses of its field's light before it gets there, and to what."""

from __future__ import annotations

from typing import TYPE_CHECKING

import msgspec
import numpy as np

from aimcalc.geometry.blocked import Blocked, blocked
from aimcalc.geometry.occlusion import NoRayEngineError
from aimcalc.rig.answers import Answer, Loss
from aimcalc.rig.solid.lenses import lenses_of
from aimcalc.rig.tube import lens_in_tube

if TYPE_CHECKING:
    from aimcalc.rig.solve import Rig


FINE = 4000  # rays of a unit that loses some of its light, and not all


def lost(rig: Rig) -> Blocked:
    """Shares of the field's light lost, unit by unit, and the owners that take them; good to 0.01.

    Counted with a few rays first. Those that lose none of them, or all, are within 0.006 then; the others,
    which a few rays have up to 0.03 off where a thing stands near a wide lens, are counted again.
    A lens within its own tube (a kind without drop and nose, warned of as such) has no place to cast light
    from: its share is NaN. Raises NoRayEngineError, and SceneError where a mesh file cannot be used.
    """
    ready, own = rig.solids.whole, rig.solids.own
    lenses = lenses_of(rig, own)
    first = blocked(ready, lenses._replace(lens=np.where(lens_in_tube(rig), np.nan, lenses.lens)))
    some = np.flatnonzero((first.share > 0) & (first.share < 1))
    again = blocked(ready, lenses_of(rig, own, rays=FINE, units=some))
    share = first.share.copy()
    share[some] = again.share
    kept = ~np.isin(first.unit, some)
    rows = [np.append(a[kept], b) for a, b in zip(first[2:], again[2:], strict=True)]
    unit = np.append(first.unit[kept], some[again.unit])
    order = np.argsort(unit, kind="stable")
    return Blocked(share, unit[order], *(row[order] for row in rows))


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
