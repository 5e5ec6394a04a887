"""The fewest units to re-aim so that a system has no hole left.

Every candidate is one unit set to one new aim, and adds a known change of light at every point; a unit can
take one new aim at most. Wanted is the smallest set of candidates after which no hole remains.

Method. A greedy choice (each time the candidate that leaves the least hole area; then those that turn out
idle are dropped) gives a set to beat. Then sets of 1, 2, 3 ... candidates are searched depth first: at each
step the largest hole left must be helped by some candidate, so those are tried, best first; a candidate
tried is not tried again further along. A branch is dropped when its holes would stay even if every point
took the most that the remaining number of units could give it. So a size searched to its end is proved
impossible, and the first set found is the smallest. "Smallest" is among the candidates given. The search
stops after a number of looks, not of seconds: the same input gives the same answer on every machine.
"""

from __future__ import annotations

from collections.abc import Callable
from math import ceil

import numpy as np

from aimcalc.geometry.vectors import Array
from aimcalc.light.evenness import SMALLEST, largest_hole, open_area, open_areas
from aimcalc.light.grid import Flags, Grid
from aimcalc.light.lamps import Indices
from aimcalc.named import NamedTuple

LOOKS = 20_000  # distributions of light looked at
AT_ONCE = 32  # of them
DEEPEST = 8

Progress = Callable[[int, int], None]


class Reaims(NamedTuple):
    """What the search found. `chosen` are candidates, in the order that the search took them."""

    chosen: tuple[int, ...]
    closed: bool  # no hole is left after them
    proved: bool  # no smaller set of the candidates closes all (or, where not `closed`, none does at all)
    at_least: int  # sets smaller than this are proved not to do
    left: float  # m2 of holes left
    looks: int  # distributions of light looked at


class Problem(NamedTuple):
    """A system's holes and what could be done about them, for `fewest_reaims`."""

    grid: Grid
    level: Array  # (M,) light now at the grid's points
    change: Array  # (K, M) what each candidate adds to it
    unit: Indices  # (K,) the unit that each candidate turns
    below: float  # a point with less than this is dark
    smallest: float = SMALLEST  # m2: connected dark points of less than this are no hole


class _OutOfLooksError(Exception):
    """The search has used up what it may."""


class Search:
    """A problem and the count of looks, shared by all branches."""

    def __init__(self, problem: Problem, looks: int, progress: Progress | None) -> None:
        self.problem = problem
        self.looks, self.most_looks, self.progress = 0, looks, progress
        self.most = _most_by(problem.change, problem.unit)
        place = np.flatnonzero(problem.grid.inside)
        ends = place % problem.grid.inside.shape[1] == 0
        self.beside = (np.diff(place) == 1) & ~ends[1:]  # each point and the next
        self.row = max(2, ceil(problem.smallest / problem.grid.cell_area))  # points that are a hole

    def dark(self, level: Array, which: Indices) -> Flags:
        """The points dark under `level` (M,) once each of some candidates is taken, (K, M)."""
        given = self.problem
        return np.asarray((given.change < given.below - level)[which])

    def left(self, dark: Flags, *, only_whether: bool = False) -> Array:
        """Area of the holes of each set of `dark` points (K, M), (K,); K looks, or the end of the search.

        Infinite where `only_whether` there is a hole is asked, and a row of dark points tells.
        """
        if self.looks == self.most_looks:
            raise _OutOfLooksError
        enough = self.looks + dark.shape[0] <= self.most_looks
        self.looks = min(self.looks + dark.shape[0], self.most_looks)
        if self.progress is not None:
            self.progress(self.looks, self.most_looks)
        if not enough:
            raise _OutOfLooksError
        given = self.problem
        left = np.full(dark.shape[0], np.inf)
        rest = np.flatnonzero(~self._has_a_row(dark)) if only_whether else np.arange(left.size)
        left[rest] = open_areas(given.grid, dark[rest], smallest=given.smallest)
        return left

    def _has_a_row(self, dark: Flags) -> Flags:
        """Whether so many dark points lie side by side that they are a hole, for flags (K, M), (K,)."""
        row = dark[:, 1:] & dark[:, :-1] & self.beside
        for _ in range(self.row - 2):
            row = row[:, 1:] & row[:, :-1]
        return np.asarray(row.any(axis=1))

    def ranked(
        self, level: Array, allowed: Flags, *, only_whether: bool = False
    ) -> list[tuple[float, int]]:
        """Area left, m2, after each candidate that is allowed, (K,), least first, from `level` (M,)."""
        which = np.flatnonzero(allowed)
        dark = self.dark(level, which)
        lots = [dark[k : k + AT_ONCE] for k in range(0, which.size, AT_ONCE)]
        left = [self.left(lot, only_whether=only_whether) for lot in lots]
        return sorted(
            zip(np.concatenate([np.zeros(0), *left]).tolist(), which.tolist(), strict=True)
        )

    def without_unit(self, allowed: Flags, candidate: int) -> Flags:
        """The candidates of other units that are allowed, (K,)."""
        unit = self.problem.unit
        return np.asarray(allowed & (unit != unit[candidate]))


def fewest_reaims(
    problem: Problem, *, looks: int = LOOKS, progress: Progress | None = None
) -> Reaims:
    """The smallest set of candidates after which no hole is left.

    `progress(done, most)` is told of each look (one distribution of light looked at for holes). Where the
    holes cannot all be closed, or not within `looks`, the greedy set is given, with `closed` False.
    """
    search = Search(problem, looks, progress)
    dark = problem.level < problem.below
    if open_area(problem.grid, dark, smallest=problem.smallest) == 0:
        return Reaims((), True, True, 0, 0.0, 0)
    everything = np.ones(problem.change.shape[0], np.bool_)
    best, left = _greedy(search, problem.level, everything)
    units = np.unique(problem.unit).size
    last = len(best) - 1 if left == 0 else min(DEEPEST, units)
    size = 1
    try:
        while size <= last:
            found = _within(search, problem.level, everything, size)
            if found is not None:
                return Reaims(found, True, True, size, 0.0, search.looks)
            size += 1
    except _OutOfLooksError:
        return Reaims(best, left == 0, False, size, left, search.looks)
    return Reaims(best, left == 0, left == 0 or last == units, size, left, search.looks)


def _greedy(search: Search, level: Array, allowed: Flags) -> tuple[tuple[int, ...], float]:
    """Candidates taken one by one, each leaving the least hole area, and the area left at the end.

    Ends where that no longer helps, or the looks are used up.
    """
    chosen: list[int] = []
    given = search.problem
    left = open_area(given.grid, level < given.below, smallest=given.smallest)
    try:
        while left > 0 and allowed.any():
            after, k = search.ranked(level, allowed)[0]
            if after >= left:
                break
            chosen.append(k)
            level, left = level + given.change[k], after
            allowed = search.without_unit(allowed, k)
        for k in chosen[:-1]:  # an early choice may be idle by now
            after = float(search.left((level - given.change[k])[None] < given.below)[0])
            if after <= left:
                chosen.remove(k)
                level, left = level - given.change[k], after
    except _OutOfLooksError:
        pass
    return tuple(chosen), left


def _within(search: Search, level: Array, allowed: Flags, size: int) -> tuple[int, ...] | None:
    """At most `size` (1 or more) allowed candidates that close every hole; None where none do.

    There is a hole under `level`.
    """
    given = search.problem
    dark = (level + search.most[size])[None] < given.below
    if search.left(dark, only_whether=True)[0] > 0:
        return None
    hole = largest_hole(given.grid, level < given.below)
    helps = given.change[:, hole].max(axis=1) > 0
    allowed = allowed.copy()
    for left, k in search.ranked(level, allowed & helps, only_whether=size == 1):
        if left == 0:
            return (k,)
        if size > 1:
            rest = _within(
                search, level + given.change[k], search.without_unit(allowed, k), size - 1
            )
            if rest is not None:
                return (k, *rest)
        allowed[k] = False
    return None


def _most_by(change: Array, unit: Indices) -> Array:
    """Row r: the most light that any r units could add at each point, (DEEPEST + 1, M)."""
    units = np.unique(unit)
    best = np.zeros((units.size, change.shape[1]))
    for row, u in enumerate(units):
        np.maximum(change[unit == u].max(axis=0), 0.0, out=best[row])
    best = -np.sort(-best, axis=0)[:DEEPEST]
    sums = np.cumsum(best, axis=0)
    rows = [np.zeros(change.shape[1]), *sums]
    return np.array([*rows, *[rows[-1]] * (DEEPEST + 1 - len(rows))])
