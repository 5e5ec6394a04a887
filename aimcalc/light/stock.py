"""Which kind of unit goes where, from what a venue owns: an assignment of least cost over the rig."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike

from aimcalc.geometry.vectors import Array
from aimcalc.light.lamps import Indices

NONE = -1  # a place for which the stock holds nothing


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
    Solved exactly, as a linear sum assignment of places to single units (scipy).
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
    from scipy.optimize import linear_sum_assignment

    places = costs.shape[0]
    usable = np.minimum(counts, np.isfinite(costs).sum(axis=0))
    single = np.repeat(np.arange(counts.size), usable)  # the kind of each single unit
    finite = costs[np.isfinite(costs)]
    # Leaving one place empty must cost more than any way of filling all the others.
    empty = 1.0 + finite.sum() if finite.size else 1.0
    table = np.hstack((costs[:, single], np.full((places, places), empty)))
    rows, columns = linear_sum_assignment(table)
    kind = np.full(places, NONE)
    real = columns < single.size
    kind[rows[real]] = single[columns[real]]
    return kind


def _best(costs: Array) -> Indices:
    """Cheapest kind of each place, NONE where all are infinite."""
    if not costs.shape[1]:
        return np.full(costs.shape[0], NONE)
    best = costs.argmin(axis=1)
    return np.where(np.isfinite(costs[np.arange(best.size), best]), best, NONE)


def _nan(like: Indices) -> Array:
    return np.full(like.size, np.nan)
