"""Where the shadow of a standing person's head falls: on the deck, on a drop, on any plane."""

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


def shadow_on_level(lens: Array, head: Array, z: ArrayLike) -> Array:
    """Where the shadow of heads at `head` (3, N) falls on level planes at `z`, one height or (N,)."""
    height = np.broadcast_to(np.asarray(z, np.float64), head.shape[1:])
    on = np.stack((head[0], head[1], height))
    return shadow_on_plane(lens, head, point=on, normal=(0.0, 0.0, 1.0))


def shadow_on_drop(lens: Array, head: Array, y: float) -> Array:
    """Where it falls on an upright drop that hangs across the stage at `y`; see `shadow_on_plane`."""
    return shadow_on_plane(lens, head, point=(0.0, y, 0.0), normal=(0.0, 1.0, 0.0))


def shadow_length(lens: Array, head: Array, stand: Array) -> Array:
    """Length on the level deck of a person's shadow, from the feet `stand` to the head's shadow, (N,) m.

    NaN where the lens is not above the head.
    """
    hit = shadow_on_level(lens, head, stand[2])
    return np.asarray(np.hypot(hit[0] - stand[0], hit[1] - stand[1]))
