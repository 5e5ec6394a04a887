"""Intervals of numbers: the fewest points that touch them all."""

from __future__ import annotations

from collections.abc import Sequence


def stabbed(intervals: Sequence[tuple[float, float]]) -> list[list[int]]:
    """Indices in the fewest groups such that the intervals of each group have a point in common.

    Greedy by upper end, and exact: the interval that ends first must be touched by some point, and no
    point serves the rest better than its upper end; what that point touches is one group, and the same
    holds for what is left. Groups come in rising order; an interval goes to the first that serves it.
    """
    order = sorted(range(len(intervals)), key=lambda k: intervals[k][1])
    groups: list[list[int]] = []
    point = float("-inf")
    for k in order:
        low, high = intervals[k]
        if groups and low <= point:
            groups[-1].append(k)
        else:
            groups.append([k])
            point = high
    return [sorted(group) for group in groups]
