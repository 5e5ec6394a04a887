"""Measured candela on an even grid of the file's own angles, for the sums of `illuminance`."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from aimcalc.geometry.vectors import Array
from aimcalc.light.photometry import planes
from aimcalc.light.photometry.record import Photometry

# Steps in degrees of a file whose angles have no common step, or too small a one; see `CandelaTable`.
FINEST, FINEST_GAMMA, FINEST_C = 0.02, 0.1, 0.5
DARK = 1e-6  # of the peak: a file that ends with less fades out over one step more
MOST_ENTRIES = 1_300_000
_UNIT = 1e-4  # degrees: the angles of a file are taken as multiples of this


class CandelaTable(NamedTuple):
    """One file's intensity over its peak, in its own planes: C round the pole, gamma off it (`planes`).

    `values` (P, G) stand at C = start[0] + j * step[0] and gamma = start[1] + k * step[1], radians; P is 1
    where the light is the same all round the lens axis. The steps divide the file's own, so that nothing
    is resampled, unless it has no common step: then they are `FINEST`, and `error` is the largest
    difference that this makes anywhere, over the peak (else 0). `ends` says that the file ends lit, or
    does not go all the way: outside the table there is nothing then. A Type C table without `ends` covers
    every direction.
    """

    layout: str
    start: tuple[float, float]
    step: tuple[float, float]
    values: Array
    ends: bool
    error: float
    peak_cd: float
    field: float  # full angle at 10 % of the peak, radians, mean over the planes


def candela_table(photometry: Photometry) -> CandelaTable:
    """A file's candela on an even grid of its own angles."""
    c, gamma = photometry.c_deg, photometry.gamma_deg
    c_step, gamma_step, exact = _steps(c, gamma, all_round=photometry.all_round)
    to = (float(c[-1]), float(gamma[-1]))
    ends = photometry.layout != "C" or (
        to[1] < 180.0 - 1e-9 and bool(photometry.candela[:, -1].max() > DARK * photometry.peak_cd)
    )
    start = (float(c[0]), float(gamma[0]))
    if photometry.layout == "C":  # round from below -180 to beyond 180, and to 180 off the axis
        half = float(np.ceil(180.0 / c_step - 1e-9) + 1) * c_step if c.size > 1 else 0.0
        start, to = (-half, 0.0), (half, to[1] if ends else 180.0)
    even_c = _even(start[0], to[0], c_step)
    even_gamma = _even(start[1], to[1], gamma_step)
    own = c, gamma, photometry.candela / photometry.peak_cd
    values = planes.looked_up(photometry.layout, own, even_c[:, None], even_gamma[None])
    even = even_c, even_gamma, values
    return CandelaTable(
        layout=photometry.layout,
        start=(float(np.radians(start[0])), float(np.radians(start[1]))),
        step=(float(np.radians(c_step)), float(np.radians(gamma_step))),
        values=np.ascontiguousarray(values),
        ends=ends,
        error=0.0 if exact else _difference(photometry.layout, own, even),
        peak_cd=photometry.peak_cd,
        field=float(np.radians(photometry.field_angle)),
    )


def _steps(c: Array, gamma: Array, *, all_round: bool) -> tuple[float, float, bool]:
    """Steps of C and gamma in degrees, and whether they divide the file's own; they divide its range."""
    spans = float(c[-1] - c[0]), float(gamma[-1] - gamma[0])
    steps = _common_step(c - c[0]), _common_step(gamma - gamma[0])
    if all_round:
        exact = steps[1] >= FINEST
        return 360.0, steps[1] if exact else _part(spans[1], FINEST), exact
    if spans[0] / steps[0] * spans[1] / steps[1] <= MOST_ENTRIES:
        return *steps, True
    parts = zip(spans, steps, (FINEST_C, FINEST_GAMMA), strict=True)
    coarser = [max(step, _part(span, finest)) for span, step, finest in parts]
    return coarser[0], coarser[1], False


def _part(span: float, step: float) -> float:
    """The largest part of `span` that is no more than `step`."""
    return span / float(np.ceil(span / step))


def _even(first: float, last: float, step: float) -> Array:
    """Angles from `first` to `last` or just beyond, in even steps."""
    return np.asarray(first + step * np.arange(int(np.ceil((last - first) / step - 1e-9)) + 1))


def _common_step(angles: Array) -> float:
    """Largest step in degrees of which all angles are multiples, in units of 0.0001 degrees."""
    return float(np.gcd.reduce(np.rint(angles / _UNIT).astype(np.int64))) * _UNIT


def _difference(layout: str, own: planes.Table, even: planes.Table) -> float:
    """Largest difference between two tables that are linear in the same two angles.

    It is bilinear between the angles of both, so it is largest where two of their angles cross.
    """
    found = 0.0
    for c, gamma in ((own[0], own[1]), (own[0], even[1]), (even[0], own[1])):
        at = gamma[None, (gamma >= own[1][0]) & (gamma <= own[1][-1])]
        turn = (np.where(c > even[0][-1], c - 360.0, c) if layout == "C" else c)[:, None]
        here, there = np.broadcast_arrays(turn, at)
        apart = planes.looked_up(layout, own, here, there) - planes.bilinear(*even, here, there)
        found = max(found, float(np.abs(apart).max(initial=0.0)))
    return found
