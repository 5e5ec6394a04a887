"""The marks of our plans: unit symbols, crosses, dots, arrow heads, and lines cut at a frame.

Everything is millimetres on paper, points (n, 2). A unit symbol is a box with a pointed nose that lies
along the heading; strokes inside it tell the family.
"""

from __future__ import annotations

import numpy as np

from aimcalc.geometry.vectors import Array, to_radians
from aimcalc.light.grid import Flags, Grid
from aimcalc.named import NamedTuple

CROSS = 1.7  # half the span of a STAND cross
DOT = 0.9  # radius of a LANDS dot
HEAD = 2.6  # length of an arrow head
FEW = 4  # points that are looked at one by one

FAMILIES = {
    "ers": "ellipsoidal",
    "fresnel": "fresnel",
    "pc": "plano-convex",
    "par": "par",
    "flood": "flood",
    "cyc": "cyc",
}

# Outlines in units of the symbol's length, nose towards +x, middle at 0.
_BODY = np.array([(-0.5, -0.2), (0.25, -0.2), (0.5, 0.0), (0.25, 0.2), (-0.5, 0.2)])
_WIDE = np.array([(-0.3, -0.2), (0.3, -0.42), (0.3, 0.42), (-0.3, 0.2)])
_STROKES: dict[str, list[Array]] = {
    "ers": [np.array([(-0.5, 0.0), (0.25, 0.0)])],
    "fresnel": [np.array([(0.25, -0.2), (0.25, 0.2)])],
    "pc": [np.array([(0.25, -0.2), (0.25, 0.2)]), np.array([(0.05, -0.2), (0.05, 0.2)])],
    "par": [np.array([(-0.2, -0.2), (-0.2, 0.2)])],
    "flood": [],
    "cyc": [np.array([(0.1, -0.35), (0.1, 0.35)])],
}
_ROUND = np.linspace(0.0, 2 * np.pi, 17)


class Symbol(NamedTuple):
    """A unit on the plan: its outline and the strokes inside."""

    outline: Array
    strokes: list[Array]


class Run(NamedTuple):
    """The part of a line inside a frame, and whether the frame cut it at its start and its end."""

    points: Array
    cut_start: bool
    cut_end: bool


def unit_symbol(family: str, x: float, y: float, heading: float | None, length: float) -> Symbol:
    """The symbol of a unit centred at (x, y); `heading` in degrees clockwise from up the page.

    A unit that points straight down or up (`heading` None) is drawn as a ring with a cross in it.
    """
    if heading is None:
        ring = circle(x, y, 0.35 * length)
        bars = cross(x, y, 0.35 * length)
        return Symbol(ring, bars)
    outline = _WIDE if family in ("flood", "cyc") else _BODY
    turned = _turn(heading) * length
    here = np.array([x, y])
    return Symbol(outline @ turned + here, [s @ turned + here for s in _STROKES[family]])


def circle(x: float, y: float, radius: float) -> Array:
    """A circle as an outline (n, 2); millimetres on paper."""
    return np.stack([x + radius * np.cos(_ROUND), y + radius * np.sin(_ROUND)], axis=1)


def square(x: float, y: float, half: float) -> Array:
    """An upright square as an outline (n, 2); millimetres on paper."""
    sides = np.array([(-half, -half), (half, -half), (half, half), (-half, half)])
    return np.asarray(sides + np.array([x, y]))


def cross(x: float, y: float, half: float = CROSS) -> list[Array]:
    """The two strokes (2, 2) of an upright cross; millimetres on paper."""
    return [
        np.array([(x - half, y), (x + half, y)]),
        np.array([(x, y - half), (x, y + half)]),
    ]


def arrow_head(tip: Array, before: Array) -> Array:
    """A solid arrow head (3, 2) at `tip` on a line that comes from `before`, (2,) mm each."""
    along = (tip - before) / max(float(np.hypot(*(tip - before))), 1e-9)
    side = np.array([-along[1], along[0]])
    back = tip - along * HEAD
    return np.array([tip, back + side * HEAD * 0.36, back - side * HEAD * 0.36])


def inside(points: Array, frame: tuple[float, float, float, float]) -> list[Run]:
    """The runs of a line (n, 2) that lie inside a frame (left, bottom, right, top); millimetres on paper.

    Each straight piece is cut by Liang and Barsky's method (ACM Transactions on Graphics 3, 1984).
    """
    if len(points) == 0:
        return []
    low, high = np.array(frame[:2]), np.array(frame[2:])
    if _within(points, frame) if len(points) <= FEW else np.all((points >= low) & (points <= high)):
        return [Run(points, False, False)]
    start, step = points[:-1], np.diff(points, axis=0)
    with np.errstate(divide="ignore", invalid="ignore"):
        to_low, to_high = (low - start) / step, (high - start) / step
    still = step == 0
    out = still & ((start < low) | (start > high))
    enter = np.where(still, -np.inf, np.minimum(to_low, to_high)).max(axis=1)
    leave = np.where(still, np.inf, np.maximum(to_low, to_high)).min(axis=1)
    enter, leave = np.maximum(enter, 0.0), np.minimum(leave, 1.0)
    kept: list[int] = np.flatnonzero((enter < leave) & ~out.any(axis=1)).tolist()
    return _join(points, kept, enter, leave)


def _within(points: Array, frame: tuple[float, float, float, float]) -> bool:
    """Whether all of few points lie inside: sooner told one by one than by arrays."""
    left, bottom, right, top = frame
    return all(left <= x <= right and bottom <= y <= top for x, y in points.tolist())


def _join(points: Array, kept: list[int], enter: Array, leave: Array) -> list[Run]:
    """Runs from the pieces kept: a piece goes on where the last one ended uncut."""
    following = {k - 1 for k in kept}
    runs: list[Run] = []
    parts: list[Array] = []
    for k in kept:
        step = points[k + 1] - points[k]
        if not parts:
            parts = [points[k] + step * enter[k]]
            cut_start = bool(enter[k] > 0)
        parts.append(points[k] + step * leave[k])
        if leave[k] < 1 or k not in following:
            runs.append(Run(np.array(parts), cut_start, bool(leave[k] < 1)))
            parts = []
    return runs


def _turn(heading: float) -> Array:
    """Matrix that lays +x along a heading, for rows of points."""
    angle = to_radians(90.0 - heading)
    c, s = np.cos(angle), np.sin(angle)
    return np.array([(c, s), (-s, c)])


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
