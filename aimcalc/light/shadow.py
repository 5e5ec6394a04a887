"""Where the shadow of a standing person's head falls on a plane, such as a drop."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from aimcalc.geometry.vectors import Array, dot


def shadow_on_plane(lens: Array, head: Array, *, point: ArrayLike, normal: ArrayLike) -> Array:
    """Where rays from `lens` past `head` (both (3, N)) meet a plane behind the head, (3, N).

    `point` is any point of the plane and `normal` its direction, (3,), or (3, N) for one each. NaN where the
    ray runs along the plane or away from it, and where the plane lies before the head: the shadow is behind
    the person only.
    """
    on, n = (np.asarray(v, np.float64).reshape(3, -1) for v in (point, normal))
    ray = head - lens
    with np.errstate(divide="ignore", invalid="ignore"):
        reach = dot(on - lens, n) / dot(ray, n)
        hit = lens + ray * reach
    return np.where((reach >= 1) & np.isfinite(reach), hit, np.nan)
