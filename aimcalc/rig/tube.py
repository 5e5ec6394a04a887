"""The tube that pipes, booms, side arms and stands are taken to be made of; scenes do not say."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.vectors import dot

if TYPE_CHECKING:
    from aimcalc.geometry.aim import Flags
    from aimcalc.rig.solve import Rig

TUBE_RADIUS = 0.0483 / 2  # m; NPS 1-1/2, 1.900 in outside diameter (ASME B36.10M)


def lens_in_tube(rig: Rig) -> Flags:
    """Units whose lens lies within the tube at their clamp: their kind has neither drop nor nose."""
    out = rig.aims.lens - rig.arrays.clamp
    return np.asarray(dot(out, out) < TUBE_RADIUS**2)
