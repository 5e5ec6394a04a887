"""Light on a card held square to each unit: what a meter pointed at the lamp reads.

It is I / d^2: throw and lens, without any plane's own angle, so that a top light and a side light can be set
against each other. Summed over units it is four times the mean spherical illuminance.
"""

from __future__ import annotations

import numpy as np

from aimcalc.geometry.vectors import Array
from aimcalc.light.illuminance import contributions
from aimcalc.light.lamps import Lamps
from aimcalc.rig.light.sight import Seen

DOWN = np.array([0.0, 0.0, -1.0])


def square_on(lamps: Lamps, points: Array, seen: Seen) -> Array:
    """Lux of each of N units at M points on a card that faces it, (N, M).

    From the level plane's I cos t / d^2, from above or below, and the cylinder's I sin t / (pi d^2).
    """
    above, below, around = contributions(lamps, points, ("level", DOWN, "cylindrical"))
    lux = np.hypot(above + below, np.pi * around)
    return np.asarray(lux if seen.flags is None else lux * seen.flags)
