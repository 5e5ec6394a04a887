"""The fewest pan settings that serve a row: wedges to cut, each near the mean of the rows it serves.

A wedge may spend at most half of what any of its rows allows; the other half is left to the hand that
lays it. It says a whole degree, as the rows do, and a wedge for one row says what that row prints.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, floor, isfinite
from typing import NamedTuple

SHARE = 0.5  # of a row's own tolerance (common practice, no source)
CLOSE = 1e-9  # degrees


class Wedge(NamedTuple):
    """One setting in whole degrees of pan, and the indices of the rows that it serves."""

    pan: float
    rows: tuple[int, ...]


class _Best(NamedTuple):
    """The best way to serve the first rows: how many wedges, how far off in all, where the last begins."""

    wedges: int
    off: float
    first: int
    pan: int


def whole(degrees: float) -> int:
    """The whole degree that a row prints; a half counts as a whole one."""
    return floor(degrees + 0.5 + CLOSE)


def fewest_wedges(pans: Sequence[float], tolerances: Sequence[float]) -> list[Wedge]:
    """The fewest settings so that half of each row's tolerance is enough; degrees, rising.

    Of the ways to have so few, the one with the least sum of squared departures. A row whose half
    tolerance holds no whole degree keeps the one it prints. Rows without a pan (NaN: straight down, or no
    aim), and those that print none, need no wedge.

    Rows are taken in order of pan and cut into runs. That loses nothing: given the settings, each row
    does no worse with the setting nearest to it, and then every setting serves a run.
    """
    rows = [k for k in range(len(pans)) if isfinite(pans[k]) and whole(pans[k]) > 0]
    rows.sort(key=lambda k: pans[k])
    spans = [_whole_degrees(pans[k], SHARE * tolerances[k]) for k in rows]
    best = [_Best(0, 0.0, 0, 0)]
    for last in range(len(rows)):
        best.append(_best_ending(rows, pans, spans, best, last))
    wedges = []
    end = len(rows)
    while end:
        here = best[end]
        wedges.append(Wedge(float(here.pan), tuple(sorted(rows[here.first : end]))))
        end = here.first
    return wedges[::-1]


def _best_ending(
    rows: Sequence[int],
    pans: Sequence[float],
    spans: Sequence[tuple[int, int]],
    best: Sequence[_Best],
    last: int,
) -> _Best:
    """The best way to serve rows up to `last`: every run that can end there behind the best before it."""
    low, high = spans[last]
    total = squares = 0.0
    found: list[_Best] = []
    for first in range(last, -1, -1):
        low, high = max(low, spans[first][0]), min(high, spans[first][1])
        if low > high:
            break
        pan = pans[rows[first]]
        total, squares, count = total + pan, squares + pan * pan, last - first + 1
        setting = min(max(whole(total / count), low), high)
        off = squares - 2 * setting * total + count * setting**2
        before = best[first]
        found.append(_Best(before.wedges + 1, before.off + off, first, setting))
    return min(found, key=lambda one: (one.wedges, one.off))


def _whole_degrees(pan: float, within: float) -> tuple[int, int]:
    """The least and the most whole degree within some of a pan; where there is none, what it prints."""
    low, high = ceil(pan - within - CLOSE), floor(pan + within + CLOSE)
    return (low, high) if low <= high else (whole(pan), whole(pan))
