"""In which order a row of units has to be set, from who can be turned past whom."""

from __future__ import annotations

import heapq
from typing import NamedTuple

from aimcalc.geometry.sweep import Neighbours


class Order(NamedTuple):
    """`order`: every unit's row, to be set one after the other; `before`: pairs that had to be kept.

    `impossible` are pairs that can be set neither way round; `knot` are units left over because the
    pairs contradict each other (they come last in `order`, in hang order).
    """

    order: tuple[int, ...]
    before: tuple[tuple[int, int], ...]
    impossible: tuple[tuple[int, int], ...]
    knot: tuple[int, ...]


def setting_order(count: int, turns: Neighbours) -> Order:
    """An order in which `count` units can be set, as near to hang order as the pairs allow.

    Unit i can go before j when i clears j still square, and j then clears i already set.
    """
    square, done = {}, {}
    for i, j, beside_square, beside_set in zip(
        turns.unit.tolist(),
        turns.other.tolist(),
        turns.beside_square.clear.tolist(),
        turns.beside_set.clear.tolist(),
        strict=True,
    ):
        square[i, j], done[i, j] = beside_square, beside_set
    before, impossible = [], []
    for i, j in sorted(pair for pair in square if pair[0] < pair[1]):
        first, second = square[i, j] and done[j, i], square[j, i] and done[i, j]
        if not (first or second):
            impossible.append((i, j))
        elif not (first and second):
            before.append((i, j) if first else (j, i))
    order, knot = _sorted(count, before)
    return Order(tuple(order + knot), tuple(before), tuple(impossible), tuple(knot))


def _sorted(count: int, before: list[tuple[int, int]]) -> tuple[list[int], list[int]]:
    """Units in an order that keeps every pair, lowest row first where free, and those that cannot."""
    after: dict[int, list[int]] = {}
    waits = [0] * count
    for i, j in before:
        after.setdefault(i, []).append(j)
        waits[j] += 1
    ready = [unit for unit in range(count) if not waits[unit]]
    order = []
    while ready:
        unit = heapq.heappop(ready)
        order.append(unit)
        for j in after.get(unit, ()):
            waits[j] -= 1
            if not waits[j]:
                heapq.heappush(ready, j)
    return order, sorted(set(range(count)) - set(order))
