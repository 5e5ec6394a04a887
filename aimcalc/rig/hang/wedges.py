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
    does no worse with the setting nearest to it, and then every setting serves a run. Settings are whole
    degrees, so that what is nearest changes at half degrees only: rows of one half degree go together,
    and however many rows there are, at most 180 such groups are cut.
    """
    groups = _groups(pans, tolerances)
    best = [_Best(0, 0.0, 0, 0)]
    for last in range(len(groups)):
        best.append(_best_ending(groups, best, last))
    wedges = []
    end = len(groups)
    while end:
        here = best[end]
        rows = [k for group in groups[here.first : end] for k in group.rows]
        wedges.append(Wedge(float(here.pan), tuple(sorted(rows))))
        end = here.first
    return wedges[::-1]


class _Group(NamedTuple):
    """Rows of one half degree: sum and sum of squares of their pans, and the settings that serve them all."""

    rows: list[int]
    total: float
    squares: float
    low: int
    high: int


def _groups(pans: Sequence[float], tolerances: Sequence[float]) -> list[_Group]:
    """Rows that need a wedge, by half degree, rising. The whole degree nearest to a group serves it all."""
    halves: dict[int, list[int]] = {}
    for k, pan in enumerate(pans):
        if isfinite(pan) and whole(pan) > 0:
            halves.setdefault(floor(2 * (pan + CLOSE)), []).append(k)
    groups = []
    for _, rows in sorted(halves.items()):
        spans = [_whole_degrees(pans[k], SHARE * tolerances[k]) for k in rows]
        low, high = max(low for low, _ in spans), min(high for _, high in spans)
        mine = [pans[k] for k in rows]
        groups.append(_Group(rows, sum(mine), sum(pan * pan for pan in mine), low, high))
    return groups


def _best_ending(groups: Sequence[_Group], best: Sequence[_Best], last: int) -> _Best:
    """The best way to serve groups up to `last`: every run that can end there behind the best before it."""
    low, high = groups[last].low, groups[last].high
    total = squares = 0.0
    count = 0
    found: list[_Best] = []
    for first in range(last, -1, -1):
        group = groups[first]
        low, high = max(low, group.low), min(high, group.high)
        if low > high:
            break
        total, squares = total + group.total, squares + group.squares
        count += len(group.rows)
        setting = min(max(whole(total / count), low), high)
        off = squares - 2 * setting * total + count * setting**2
        before = best[first]
        found.append(_Best(before.wedges + 1, before.off + off, first, setting))
    return min(found, key=lambda one: (one.wedges, one.off))


def _whole_degrees(pan: float, within: float) -> tuple[int, int]:
    """The least and the most whole degree within some of a pan; where there is none, what it prints."""
    low, high = ceil(pan - within - CLOSE), floor(pan + within + CLOSE)
    return (low, high) if low <= high else (whole(pan), whole(pan))
