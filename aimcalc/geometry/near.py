"""Which of many bounding boxes come near each other, in time that goes with their count and what is near.

Boxes are gathered in the cells of a grid, cells as large as the larger of the two boxes, so that what is near
lies in the same cell or in one beside it. Boxes of different size have grids of their own: one pipe of
forty metres does not make every cell as large. Pairs are looked at some at a time: however many there are,
only those that are near take memory.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from aimcalc.geometry.solids import Indices
from aimcalc.geometry.vectors import Array

PAIRS_AT_ONCE = 1 << 21  # of boxes
FEW_PAIRS = 1 << 16  # fewer than these are all looked at, without a grid
SMALLEST = 0.125  # m; a grid is no finer
MOST_CELLS = 1 << 20  # along each side of the room
ASIDE = np.array([(i, j) for i in (-1, 0, 1) for j in (-1, 0, 1)])  # columns of cells, x and y


def bounds(points: Array, radius: Array | float = 0.0) -> Array:
    """Bounding boxes (2, 3, P) of bodies (3, P, K): lowest and highest corner."""
    return np.stack((points.min(axis=2) - radius, points.max(axis=2) + radius))


def near(first: Array, second: Array, within: float) -> tuple[Indices, Indices]:
    """Rows of two sets of bounding boxes that come within reach of each other; NaN never does."""
    none = np.zeros(0, dtype=np.int64)
    found = [(none, none), *near_each(first, second, within)]
    rows, columns = zip(*found, strict=True)
    row, column = np.concatenate(rows), np.concatenate(columns)
    order = np.lexsort((column, row))
    return row[order], column[order]


def near_each(first: Array, second: Array, within: float) -> Iterator[tuple[Indices, Indices]]:
    """The same, some at a time and in no order."""
    for row, column in _candidates(first, second, within):
        a, b = first[:, :, row], second[:, :, column]
        touch = ((a[0] <= b[1] + within) & (b[0] <= a[1] + within)).all(axis=0)
        yield row[touch], column[touch]


def most_crowded(centre: Array, reach: Array, most: int) -> Indices:
    """Balls (3, N), (N,) that more than `most` others meet, rising; a ball with a NaN in it meets none.

    Where so many lie in one cell that they all meet, they are not counted one by one, nor for the rest.
    """
    whole = np.flatnonzero(np.isfinite(centre).all(axis=0) & np.isfinite(reach))
    packed = np.zeros(reach.size, dtype=bool)
    level = _levels(2 * reach[whole])
    for size in _every(level):
        some = whole[level == size]
        # Reaches are over a quarter of the size: two together are over twice the side of such a cell.
        keys = _keys(np.floor(centre[:, some] / 2.0 ** (size - 2)))[0]
        _, cell, count = np.unique(keys, return_inverse=True, return_counts=True)
        packed[some] = count[cell.ravel()] > most + 1
    left = np.where(packed, np.nan, reach)
    boxes = np.stack((centre - left, centre + left))
    met = np.zeros(reach.size, dtype=np.int64)
    for one, other in near_each(boxes, boxes, 0.0):
        away = centre[:, one] - centre[:, other]
        meet = (away * away).sum(axis=0) < (reach[one] + reach[other]) ** 2
        met += np.bincount(one[meet & (one != other)], minlength=reach.size)
    return np.flatnonzero(packed | (met > most))


def _candidates(first: Array, second: Array, within: float) -> Iterator[tuple[Indices, Indices]]:
    """Pairs of rows that may be near, some at a time; all that are near are among them."""
    rows, columns = (np.flatnonzero(np.isfinite(b).all(axis=(0, 1))) for b in (first, second))
    if rows.size * columns.size <= FEW_PAIRS:
        yield np.repeat(rows, columns.size), np.tile(columns, rows.size)
        return
    levels = (
        _levels((first[1] - first[0])[:, rows].max(axis=0) + 2 * within),
        _levels((second[1] - second[0])[:, columns].max(axis=0)),
    )
    middles = (first[0] + first[1])[:, rows] / 2, (second[0] + second[1])[:, columns] / 2
    for one in _every(levels[0]):
        for other in _every(levels[1]):
            a, b = np.flatnonzero(levels[0] == one), np.flatnonzero(levels[1] == other)
            for k, j in _in_one_grid(middles[0][:, a], middles[1][:, b], 2.0 ** max(one, other)):
                yield rows[a[k]], columns[b[j]]


def _levels(size: Array) -> Indices:
    """Sizes as powers of two, none under SMALLEST, each at least as large as what it stands for."""
    return np.ceil(np.log2(np.maximum(size, SMALLEST))).astype(np.int64)


def _every(levels: Indices) -> list[int]:
    """Each level once, rising."""
    least = int(levels.min(initial=0))
    return (np.flatnonzero(np.bincount(levels - least)) + least).tolist()


def _in_one_grid(first: Array, second: Array, size: float) -> Iterator[tuple[Indices, Indices]]:
    """Pairs of points (3, A) and (3, B) in one cell or in neighbouring ones, some at a time."""
    every = np.concatenate((first, second), axis=1)
    spread = float((every.max(axis=1) - every.min(axis=1)).max())
    keys, step = _keys(np.floor(every / max(size, spread / MOST_CELLS)))
    mine, theirs = keys[: first.shape[1]], keys[first.shape[1] :]
    order = np.argsort(theirs, kind="stable")
    theirs = theirs[order]
    for x, y in ASIDE.tolist():
        column = mine + x * step[0] + y * step[1]  # the three cells of a column are neighbours
        begin = np.searchsorted(theirs, column - 1, "left")
        count = np.searchsorted(theirs, column + 1, "right") - begin
        yield from _spelled_out(begin, count, order)


def _keys(cells: Array) -> tuple[Indices, tuple[int, int]]:
    """One number for each cell (3, N), neighbours along z next to each other, and the steps along x and y."""
    if not cells.size:
        return np.zeros(0, dtype=np.int64), (1, 1)
    place = (cells - cells.min(axis=1, keepdims=True)).astype(np.int64) + 1
    high, wide = (int(place[axis].max()) + 2 for axis in (2, 1))
    return (place[0] * wide + place[1]) * high + place[2], (wide * high, high)


def _spelled_out(
    begin: Indices, count: Indices, order: Indices
) -> Iterator[tuple[Indices, Indices]]:
    """Every row with each of the `count` entries of `order` from `begin` on, some rows at a time."""
    ends = np.cumsum(count)
    row = 0
    while row < count.size:
        past = int(ends[row - 1]) if row else 0
        end = max(row + 1, int(np.searchsorted(ends, past + PAIRS_AT_ONCE, "right")))
        some = count[row:end]
        turn = np.arange(int(some.sum())) - np.repeat(np.cumsum(some) - some, some)
        yield (
            np.repeat(np.arange(row, end), some),
            order[np.repeat(begin[row:end], some) + turn],
        )
        row = end
