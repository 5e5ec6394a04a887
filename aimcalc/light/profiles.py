"""Candela profiles: how a unit's light falls off from its axis.

The smooth profile is I = I0 exp(-(theta / w)^n) with theta the angle off the axis; n and w are such that
it passes through 50 % of the peak at half the beam angle and 10 % at half the field angle:

    n = ln(ln 10 / ln 2) / ln(field / beam)                                           (1)
    w = (field / 2) / (ln 10)^(1/n)                                                   (2)

An oval lamp has two field angles at right angles and one n; its lines of equal intensity are ellipses in
angle about the axis. Nothing leaves a unit backwards: the profile is zero from 90 degrees off the axis,
and it is not cut short anywhere else (sums take e^-100 of the peak for anything less). All angles are
radians; beam and field are **full** angles, theta is measured from the axis.
"""

from __future__ import annotations

from math import log, pi, sqrt
from typing import TypeVar

import numpy as np
from numpy.typing import ArrayLike

from aimcalc.geometry.vectors import Array

Angle = TypeVar("Angle", float, Array)

LN2, LN10 = log(2.0), log(10.0)
GAUSSIAN_RATIO = sqrt(LN10 / LN2)  # field / beam of a Gaussian profile (n = 2), 1.8226157
SHARPEST = 0.999  # beam over field; a scene may say that they are the same, which no profile is
QUARTER = pi / 2

# The integral over theta is done in pieces between these values of (theta / w)^n.
_PIECES = np.array([0.0, 0.05, 0.5, 1.0, 2.0, 4.0, 8.0, 16.0, 40.0])
_TURN_STEPS = 64  # directions round the axis, for an oval


def default_beam(field: Angle) -> Angle:
    """Beam angle taken where only the field angle is known: that of a Gaussian profile, field / 1.8226157.

    Full angles, in whatever unit `field` is in. The choice is ours: it makes n = 2 in (1), the softest
    profile without a point at its middle or a flat top; a unit set to a flat field has a wider beam.
    """
    return field / GAUSSIAN_RATIO


def profile_power(beam: ArrayLike, field: ArrayLike) -> Array:
    """The exponent n of (1), shape of the arguments broadcast; full angles in any one unit.

    Raises ValueError unless 0 < beam < field everywhere.
    """
    narrow, wide = np.asarray(beam, np.float64), np.asarray(field, np.float64)
    good = (narrow > 0) & (narrow < wide) & np.isfinite(wide)
    if not np.all(good):
        k = np.flatnonzero(~np.atleast_1d(good))[0]
        pair = [np.atleast_1d(v)[k] for v in np.broadcast_arrays(narrow, wide)]
        raise ValueError(
            f"expected a beam angle over 0 and smaller than the field angle, "
            f"both in one unit, got beam {pair[0]:.6g} and field {pair[1]:.6g}"
        )
    return np.asarray(log(LN10 / LN2) / np.log(wide / narrow))


def profile_width(field: ArrayLike, power: ArrayLike) -> Array:
    """The angle w of (2), where the intensity is 1/e of the peak; from the full field angle and n.

    In the unit of `field`; the arguments broadcast.
    """
    half = np.asarray(field, np.float64) / 2
    return np.asarray(half / LN10 ** (1 / np.asarray(power, np.float64)))


def relative_intensity(theta: ArrayLike, *, beam: ArrayLike, field: ArrayLike) -> Array:
    """Intensity over its peak at `theta` off the axis, 0 to 1; the arguments broadcast.

    Radians; `beam` and `field` are full angles. Nothing from 90 degrees off the axis on, on either side of
    it. Raises ValueError unless 0 < beam < field everywhere.
    """
    power = profile_power(beam, field)
    return _fall(np.asarray(theta, np.float64), profile_width(field, power), power)


def flux_per_candela(
    *,
    beam: ArrayLike,
    field: ArrayLike,
    narrow: ArrayLike | None = None,
    wide: ArrayLike | None = None,
) -> Array:
    """Lumens sent out for each candela of peak: the profile integrated over all directions, in sr.

    Full angles, radians; they broadcast. With `narrow` and `wide` (full field angles of an oval lamp), `beam`
    and `field` only settle n. Raises ValueError unless 0 < beam < field everywhere.
    Gauss-Legendre in theta by pieces, the trapezium rule round the axis; good to about 1e-9.
    """
    n = profile_power(beam, field)
    if narrow is None or wide is None:
        return _zonal(profile_width(field, n), n)
    phi = (np.arange(_TURN_STEPS, dtype=np.float64) + 0.5) * (QUARTER / _TURN_STEPS)
    pair = [np.asarray(v, np.float64)[..., None] for v in (narrow, wide)]
    width = _width_towards(phi, n[..., None], *pair)
    return np.asarray(_zonal(width, n[..., None]).mean(axis=-1))


def peak_from_lumens(
    lumens: ArrayLike,
    *,
    beam: ArrayLike,
    field: ArrayLike,
    narrow: ArrayLike | None = None,
    wide: ArrayLike | None = None,
) -> Array:
    """Peak intensity in candela of a unit that sends out `lumens` in all; angles as `flux_per_candela`.

    The arguments broadcast. Raises ValueError unless 0 < beam < field everywhere.
    """
    return np.asarray(lumens, np.float64) / flux_per_candela(
        beam=beam, field=field, narrow=narrow, wide=wide
    )


def _fall(theta: Array, width: Array, power: Array) -> Array:
    with np.errstate(over="ignore"):
        value = np.exp(-((np.abs(theta) / width) ** power))
    return np.asarray(np.where(np.abs(theta) < QUARTER, value, 0.0))


def _width_towards(phi: Array, power: Array, narrow: ArrayLike, wide: ArrayLike) -> Array:
    """w of an oval in the direction `phi`: the radius of an ellipse of half-axes w(wide), w(narrow)."""
    long, short = profile_width(wide, power), profile_width(narrow, power)
    return np.asarray(1.0 / np.hypot(np.cos(phi) / long, np.sin(phi) / short))


def _zonal(width: Array, power: Array) -> Array:
    """2 pi times the integral of exp(-(theta / w)^n) sin theta from 0 to 90 degrees."""
    nodes, weights = np.polynomial.legendre.leggauss(16)
    ends = np.minimum(width[..., None] * _PIECES ** (1 / power[..., None]), QUARTER)
    middle, half = (ends[..., 1:] + ends[..., :-1]) / 2, np.diff(ends) / 2
    theta = middle[..., None] + half[..., None] * nodes
    inner = _fall(theta, width[..., None, None], power[..., None, None]) * np.sin(theta)
    return np.asarray(2 * pi * np.sum((inner @ weights) * half, axis=-1))
