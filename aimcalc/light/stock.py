"""Which kind of unit goes where, from what a venue owns: an assignment of least cost over the rig."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike

from aimcalc.geometry.vectors import Array
from aimcalc.light.lamps import Indices

NONE = -1  # a place for which the stock holds nothing


MOST_TRIED = 4_000_000  # of single units and places: ten seconds or so


class StockError(Exception):
    """More units to deal out than can be; the text says how many, and what to do."""

    def __init__(self, units: int, places: int) -> None:
        super().__init__(
            f"The stock has {units} single units that may run short, for {places} places: at most "
            f"{MOST_TRIED:,} pairs of the two can be weighed. Leave kinds of which there is no lack out of "
            "[[stock]], or take a part of the rig."
        )


class Assignment(NamedTuple):
    """What each of N places gets from K kinds; see `assigned`."""

    kind: Indices  # (N,), NONE where nothing is left that may go there
    cost: Array  # (N,), NaN where nothing goes
    first_choice: (
        Indices  # (N,), the kind that would be best with stock without end; NONE: no kind may
    )
    next_best: Indices  # (N,), the best other kind with some left over; NONE: there is none
    next_cost: Array  # (N,), its cost, NaN where there is none
    short: Indices  # (K,), how many more of each kind its first choosers wanted than there are
    left: Indices  # (K,), how many of each are not used

    @property
    def total(self) -> float:
        """Cost of the whole, unfilled places left out."""
        return float(np.nansum(self.cost))


def assigned(cost: ArrayLike, count: ArrayLike) -> Assignment:
    """The assignment that fills the most places, and of those the one of least total cost.

    `cost` (N, K), 0 or more, infinite where a kind may not go; `count` (K,) how many of each there are.
    Solved exactly, as a linear sum assignment of places to single units (scipy). Raises StockError where
    there are too many of both.
    """
    costs, counts = np.asarray(cost, np.float64), np.asarray(count, np.intp)
    if np.any(costs < 0) or np.any(np.isnan(costs)) or np.any(counts < 0):
        raise ValueError("expected costs and counts of 0 or more")
    kind = _solved(costs, counts)
    places = np.arange(kind.size)
    paid = np.where(kind == NONE, np.nan, costs[places, kind]) if costs.shape[1] else _nan(kind)
    first = _best(costs)
    wanted = np.bincount(first[first != NONE], minlength=counts.size)
    left = counts - np.bincount(kind[kind != NONE], minlength=counts.size)
    other = np.where(left > 0, costs, np.inf)
    filled = kind != NONE
    other[places[filled], kind[filled]] = np.inf
    following = _best(other)
    next_cost = _nan(kind)
    has = following != NONE
    next_cost[has] = costs[places[has], following[has]]
    return Assignment(kind, paid, first, following, next_cost, np.maximum(wanted - counts, 0), left)


def _solved(costs: Array, counts: Indices) -> Indices:
    """The kind of each place.

    A kind of which there are as many as there are places that may have it is there for all of them: what
    the cheapest of those costs a place is what a single unit of another kind has to save. So only units
    that can run short are dealt out one by one.
    """
    may = np.isfinite(costs)
    ample = counts >= may.sum(axis=0)
    usual = _best(np.where(ample, costs, np.inf))
    single = np.repeat(np.arange(counts.size), np.where(ample, 0, counts))
    open_to = np.flatnonzero(may[:, ~ample].any(axis=1))
    if not single.size or not open_to.size:
        return usual
    if single.size * open_to.size > MOST_TRIED:
        raise StockError(single.size, open_to.size)
    from scipy.optimize import linear_sum_assignment

    # Filling a place that else stays empty must save more than any way of paying for all the others.
    empty = 1.0 + costs[may].sum()
    without = np.full(usual.size, empty)
    has = np.flatnonzero(usual != NONE)
    without[has] = costs[has, usual[has]]
    saves = without[open_to, None] - costs[np.ix_(open_to, single)]
    rows, columns = linear_sum_assignment(np.maximum(saves, 0.0), maximize=True)
    taken = saves[rows, columns] > 0
    usual[open_to[rows[taken]]] = single[columns[taken]]
    return usual


def _best(costs: Array) -> Indices:
    """Cheapest kind of each place, NONE where all are infinite."""
    if not costs.shape[1]:
        return np.full(costs.shape[0], NONE)
    best = costs.argmin(axis=1)
    return np.where(np.isfinite(costs[np.arange(best.size), best]), best, NONE)


def _nan(like: Indices) -> Array:
    return np.full(like.size, np.nan)
