"""How even the light is over an area, in a few numbers."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike


class Uniformity(NamedTuple):
    """Over the points of a grid, all in lux but the two shares; NaN where there are no points."""

    mean: float
    least: float
    most: float
    u0: float  # least / mean (EN 12464-1), not least / most
    share_above_half: float  # share of the points at or above half the mean


def uniformity(values: ArrayLike) -> Uniformity:
    """Mean, least, most, U0 and the share at or above half the mean; all dark has U0 and share 0."""
    lux = np.asarray(values, np.float64)
    if not lux.size:
        return Uniformity(*[float("nan")] * 5)
    mean, least, most = float(lux.mean()), float(lux.min()), float(lux.max())
    if mean == 0:
        return Uniformity(0.0, 0.0, 0.0, 0.0, 0.0)
    return Uniformity(mean, least, most, least / mean, float(np.mean(lux >= mean / 2)))
