"""Measured candela on an even grid of angles, for the sums of `illuminance`."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from aimcalc.geometry.vectors import Array
from aimcalc.light.photometry.record import Photometry, intensity

# Even steps in degrees: never coarser than these; a file whose angles need finer ones is resampled.
COARSEST_STEP = 1.0
FINEST_STEP, FINEST_STEP_ALL_ROUND, FINEST_TURN = 0.02, 0.1, 0.5
_UNIT = 1e-4  # degrees: the angles of a file are taken as multiples of this


class CandelaTable(NamedTuple):
    """One file's intensity over its peak: `values` (P, G) at gamma = k * step and C = j * turn_step, radians.

    P is 1 and `turn_step` 0 where the file is the same all round. G reaches past 180 degrees and P past
    360, so that a table is never read beyond its end. Exact for files whose angles are multiples of a
    common step of at least `FINEST_STEP`; the intensity falls to zero within one step past the file's last
    angle.
    """

    step: float
    turn_step: float
    values: Array
    peak_cd: float
    field: float  # full angle at 10 % of the peak, radians, mean over the planes


def candela_table(photometry: Photometry) -> CandelaTable:
    """A file's candela on an even grid of angles off the lens axis and of turns about it."""
    all_round = photometry.c_deg.size > 1
    step = _even(photometry.gamma_deg, FINEST_STEP_ALL_ROUND if all_round else FINEST_STEP)
    gamma = np.radians(step * np.arange(int(180.0 / step + 1e-9) + 3))
    turn_step = max(_common_step(photometry.c_deg), FINEST_TURN) if all_round else 0.0
    turns = int(360.0 / turn_step + 1e-9) + 2 if all_round else 1
    c = np.radians(turn_step * np.arange(turns))
    values = intensity(photometry, gamma, c[:, None]) / photometry.peak_cd
    return CandelaTable(
        step=float(np.radians(step)),
        turn_step=float(np.radians(turn_step)),
        values=np.ascontiguousarray(values),
        peak_cd=photometry.peak_cd,
        field=float(np.radians(photometry.field_angle)),
    )


def _even(angles: Array, finest: float) -> float:
    """Step in degrees, from `finest` to `COARSEST_STEP`, that divides the file's own where that can be."""
    common = max(_common_step(angles), finest)
    return common / float(np.ceil(common / COARSEST_STEP - 1e-9))


def _common_step(angles: Array) -> float:
    """Largest step in degrees of which all angles are multiples, in units of 0.0001 degrees."""
    return float(np.gcd.reduce(np.rint(angles / _UNIT).astype(np.int64))) * _UNIT
