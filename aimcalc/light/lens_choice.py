"""The field angle a job asks for: a pool of a wanted size, or one that meets its neighbour half-way down.

Full angles in radians.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from aimcalc.geometry.vectors import Array, dot
from aimcalc.light.profiles import GAUSSIAN_RATIO, LN2, LN10

HALF = 0.5


def pool_diameter(field: ArrayLike, throw: ArrayLike) -> Array:
    """Diameter of the pool square to the axis: 2 throw tan(field / 2); in the unit of `throw`."""
    return np.asarray(2 * np.asarray(throw) * np.tan(np.asarray(field) / 2))


def field_for_pool(diameter: ArrayLike, throw: ArrayLike) -> Array:
    """Full field angle that makes a pool of `diameter` square to the axis at `throw`."""
    return np.asarray(2 * np.arctan2(np.asarray(diameter, np.float64), 2 * np.asarray(throw)))


def field_to_meet(
    lens: Array,
    face: Array,
    neighbour: Array,
    *,
    ratio: ArrayLike = GAUSSIAN_RATIO,
    normal: ArrayLike = (0.0, 0.0, 1.0),
) -> Array:
    """Full field angle at which a unit gives half its middle's light half-way to the neighbouring face.

    Then two alike units together make up at the seam what each gives in its middle. `lens`, `face` (where the
    axis goes) and `neighbour` (the next unit's) are (3, N); `ratio` is field over beam, which sets how the
    profile falls; `normal` is that of the plane the light is measured on. The nearer or further edge's
    own inverse square and cosine are counted. NaN where no lens does it: where even the same candela would
    give half or less there, or where the faces are the same or the lens is not in front of the plane.
    """
    middle = (face + neighbour) / 2
    n = np.asarray(normal, np.float64).reshape(3, 1)
    with np.errstate(divide="ignore", invalid="ignore"):
        even = _per_candela(lens, middle, n) / _per_candela(lens, face, n)
        wanted = -np.log(HALF / even)  # (theta / w)^n that leaves half the light of the middle
        power = np.log(LN10 / LN2) / np.log(np.asarray(ratio, np.float64))
        theta = _angle_between(face - lens, middle - lens)
        # (theta / w)^n = wanted at the seam and ln 10 at the field's edge
        field = 2 * theta * (LN10 / wanted) ** (1 / power)
    possible = (wanted > 0) & (theta > 0) & (even > 0) & np.isfinite(field)
    return np.where(possible, field, np.nan)


def mismatch(field: ArrayLike, wanted: ArrayLike, *, too_small: float = 2.0) -> Array:
    """How badly a lens of `field` does for the `wanted` field, 0 = exactly right; the arguments broadcast.

    The natural logarithm of the ratio of their pools' diameters, times `too_small` where the pool is smaller
    than wanted: an overlap can be cut, a hole cannot be filled (the factor 2 is our choice).
    """
    ratio = np.log(np.tan(np.asarray(field) / 2) / np.tan(np.asarray(wanted) / 2))
    return np.asarray(np.where(ratio < 0, -too_small * ratio, ratio))


def _per_candela(lens: Array, point: Array, normal: Array) -> Array:
    """Lux on the plane at `point` for each candela towards it: cos t / d^2; NaN from behind the plane."""
    ray = lens - point
    height, square = dot(ray, normal), dot(ray, ray)
    return np.asarray(np.where(height > 0, height, np.nan) / square**1.5)


def _angle_between(a: Array, b: Array) -> Array:
    cross = np.cross(a, b, axis=0)
    return np.asarray(np.arctan2(np.sqrt(dot(cross, cross)), dot(a, b)))
