"""The fewest pan settings that serve a row: wedges to cut, each within every served row's tolerance."""

from __future__ import annotations

from collections.abc import Sequence
from math import isfinite
from typing import NamedTuple

from aimcalc.rig.hang.intervals import stabbed


class Wedge(NamedTuple):
    """One setting in degrees of pan, and the indices of the rows that it serves."""

    pan: float
    rows: tuple[int, ...]


def fewest_wedges(pans: Sequence[float], tolerances: Sequence[float]) -> list[Wedge]:
    """The fewest settings so that each pan is within its own tolerance of one; degrees, rising.

    Each setting is the middle of what its rows allow, to a whole degree where they allow one. Rows
    without a pan (NaN: straight down, or no aim) need no wedge. Pan stays from 0 to 90.
    """
    rows = [k for k, pan in enumerate(pans) if isfinite(pan)]
    ranges = [(max(0.0, pans[k] - tolerances[k]), min(90.0, pans[k] + tolerances[k])) for k in rows]
    wedges = []
    for group in stabbed(ranges):
        low, high = max(ranges[i][0] for i in group), min(ranges[i][1] for i in group)
        wedges.append(Wedge(_settable(low, high), tuple(rows[i] for i in group)))
    return wedges


def _settable(low: float, high: float) -> float:
    """The whole degree nearest the middle of a range, or the middle where no whole degree is in it."""
    middle = (low + high) / 2
    whole = float(round(middle))
    return whole if low <= whole <= high else middle
