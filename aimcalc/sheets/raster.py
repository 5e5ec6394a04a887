"""Cells of a grid as shapes: the rows that they make, the outline round them, and hatching over them.

Cells are flags (ny, nx) over a `Grid`; everything comes back in plan metres.
"""

from __future__ import annotations

import numpy as np

from aimcalc.geometry.vectors import Array
from aimcalc.light.grid import Flags, Grid

JOINS = 1e-9  # m: pieces of one hatch line that end this near to each other are one


def flags_of(grid: Grid, cells: np.ndarray[tuple[int, ...], np.dtype[np.intp]]) -> Flags:
    """Flags (ny, nx) of some of a grid's numbered points."""
    chosen = np.zeros(grid.size, np.bool_)
    chosen[cells] = True
    sheet = np.zeros(grid.inside.shape, np.bool_)
    sheet[grid.inside] = chosen
    return sheet


def row_boxes(grid: Grid, sheet: Flags) -> Array:
    """Rectangles (n, 4), x0, y0, x1, y1, one for each run of cells along a row."""
    row, start, stop = _runs(sheet)
    x, y = _edges(grid)
    return np.stack((x[start], y[row], x[stop], y[row + 1]), axis=1)


def outline_lines(grid: Grid, sheet: Flags) -> list[Array]:
    """The edges between cells that are flagged and cells that are not, as straight lines (2, 2)."""
    x, y = _edges(grid)
    padded = np.pad(sheet, 1)
    row, start, stop = _runs(padded[1:, 1:-1] != padded[:-1, 1:-1])
    level = np.stack((x[start], y[row], x[stop], y[row]), axis=1)
    column, low, high = _runs((padded[1:-1, 1:] != padded[1:-1, :-1]).T)
    upright = np.stack((x[column], y[low], x[column], y[high]), axis=1)
    return list(np.concatenate((level, upright)).reshape(-1, 2, 2))


def cross_hatch(grid: Grid, sheet: Flags, apart: float) -> list[Array]:
    """Lines (2, 2) at 45 degrees both ways over the flagged cells, `apart` metres from line to line."""
    boxes = row_boxes(grid, sheet)
    turned = np.stack((-boxes[:, 2], boxes[:, 1], -boxes[:, 0], boxes[:, 3]), axis=1)
    mirrored = _hatch(turned, apart)
    return [*_hatch(boxes, apart), *(line * np.array([-1.0, 1.0]) for line in mirrored)]


def _hatch(boxes: Array, apart: float) -> list[Array]:
    """Lines y = x + c over boxes; pieces that meet from row to row are one line."""
    step = apart * np.sqrt(2.0)
    x0, y0, x1, y1 = boxes.T
    first, last = np.ceil((y0 - x1) / step), np.floor((y1 - x0) / step)
    times = np.maximum(last - first + 1, 0).astype(np.intp)
    box = np.repeat(np.arange(len(boxes)), times)
    nth = np.arange(box.size) - np.repeat(np.cumsum(times) - times, times)
    number = first[box] + nth
    c = number * step
    start, stop = np.maximum(x0[box], y0[box] - c), np.minimum(x1[box], y1[box] - c)
    order = np.lexsort((start, number))
    order = order[stop[order] > start[order]]
    start, stop, number, c = start[order], stop[order], number[order], c[order]
    new = np.ones(start.size, np.bool_)
    new[1:] = (number[1:] != number[:-1]) | (start[1:] > stop[:-1] + JOINS)
    begin = np.flatnonzero(new)
    end = np.append(begin[1:], start.size) - 1
    return [
        np.array([(a, a + k), (b, b + k)])
        for a, b, k in zip(start[begin], stop[end] if start.size else stop, c[begin], strict=True)
    ]


def _edges(grid: Grid) -> tuple[Array, Array]:
    """x of the sides of the columns, (nx + 1,), and y of those of the rows."""
    x = grid.x[0] + (np.arange(grid.x.size + 1) - 0.5) * grid.dx
    y = grid.y[0] + (np.arange(grid.y.size + 1) - 0.5) * grid.dy
    return x, y


def _runs(
    sheet: Flags,
) -> tuple[np.ndarray[tuple[int, ...], np.dtype[np.intp]], ...]:
    """Row, first column and the column after the last, of every run of flags along a row."""
    edge = np.diff(np.pad(sheet, ((0, 0), (1, 1))).astype(np.int8), axis=1)
    row, start = np.nonzero(edge == 1)
    return row, start, np.nonzero(edge == -1)[1]
