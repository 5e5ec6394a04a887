"""Levels at which the targets of one system read alike, throw and lens making them differ at full."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike

from aimcalc.geometry.vectors import Array

ROUNDS = 200
SETTLED = 1e-9  # relative


class Balance(NamedTuple):
    """Levels (N,), 0 to 1 with the highest at full, and what the T targets then read, lux."""

    level: Array
    reading: Array
    at_full: Array  # what the targets read with every unit at full
    spread: float  # most over least of `reading`; 1 = all alike


def balanced(light: ArrayLike, target: ArrayLike) -> Balance:
    """One level for the units of each target, so that all targets read alike, as bright as that can be.

    `light` (T, N) is what each unit gives at each target at full; `target` (N,) says which target each unit
    is aimed at. Light that spills from one target's units on another counts. Where a target is over-lit by
    spill alone they cannot be made alike: its units end near 0 and `spread` says what is left. Raises
    ValueError for a target with no unit of its own, or none that reaches it.
    """
    lux = np.asarray(light, np.float64)
    aim = np.asarray(target, np.intp)
    spill = np.stack([lux[:, aim == t].sum(axis=1) for t in range(lux.shape[0])], axis=1)
    dark = np.flatnonzero(np.diagonal(spill) <= 0)
    if dark.size:
        raise ValueError(f"expected a unit that lights each target, got none for target {dark[0]}")
    share = _settled(spill)
    reading = spill @ share
    return Balance(share[aim], reading, lux.sum(axis=1), float(reading.max() / reading.min()))


def level_alone(own: ArrayLike) -> Array:
    """Level of each unit at which it gives its own target as much as the weakest gives its own, (N,).

    `own` is what each gives its own target at full; a unit that gives nothing has NaN.
    """
    lux = np.asarray(own, np.float64)
    lit = np.where(lux > 0, lux, np.nan)
    return np.asarray(np.nanmin(lit) / lit) if np.any(lux > 0) else lit


def _settled(spill: Array) -> Array:
    """Shares (T,), the highest 1, that make `spill` @ share even; all above 0.

    The linear equations where their solution is positive, else rounds of correction by what each reads.
    """
    size = spill.shape[0]
    if np.linalg.matrix_rank(spill) == size:
        share = np.linalg.solve(spill, np.ones(size))
        if np.all(share > 0):
            return np.asarray(share / share.max())
    share = np.ones(size)
    for _ in range(ROUNDS):
        reading = spill @ share
        share *= reading.min() / reading
        share /= share.max()
        if np.ptp(reading) <= SETTLED * reading.max():
            break
    return share
