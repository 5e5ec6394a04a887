"""The few units that stand for the rest where a drawing of all their light would be a thicket."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.solids import Indices
from aimcalc.scene.model import Pipe

if TYPE_CHECKING:
    from aimcalc.rig.solve import Rig

ALONG = 0.5  # share of an axis's level way that must go up or down the stage
TURNED = 5.0  # metres off the centre line that a unit at right angles to it counts for


def chosen(rig: Rig) -> Indices:
    """Of each pipe's units that point US, and of those that point DS, the one that is nearest to the
    centre line and turned least; rows of the rig, in hang order."""
    best: dict[tuple[str, bool], tuple[float, int]] = {}
    for k, position in enumerate(rig.positions):
        x, y, _ = rig.axis[:, k].tolist()
        level = float(np.hypot(x, y))
        lit = isinstance(position, Pipe) and np.isfinite(rig.aims.throw[k])
        if not lit or not level > 1e-6 or abs(y) < ALONG * level:
            continue
        score = abs(float(rig.aims.pivot[0, k])) + TURNED * abs(x) / level
        best[position.name, y > 0] = min(best.get((position.name, y > 0), (np.inf, k)), (score, k))
    return np.array(sorted(k for _, k in best.values()), dtype=int)
