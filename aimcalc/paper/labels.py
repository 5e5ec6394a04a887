"""Where the labels of a drawing go, so that none covers another.

Each label looks for a free place near the point it belongs to: in rings round it, nearest ring first,
the wanted direction first on each. What must stay visible (marks, symbols) is given as blocks, lines
that no label may erase as kept lines. A line that runs level up to a figure reads as a minus sign, so
none does. The same wishes give the same places.

What is taken is remembered as cells of the frame, so that a look at one place takes as long however much
is drawn: two things may overlap by less than a cell, which the white round a label has room for.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import islice

import numpy as np
from numpy.typing import NDArray

from aimcalc.geometry.vectors import Array
from aimcalc.named import NamedTuple

Flags = np.ndarray[tuple[int, ...], np.dtype[np.bool_]]
Spans = NDArray[np.intp]

NEAR_RINGS = (0.0, 1.5)  # mm from the mark's edge to the label's
FAR_RINGS = (3.5, 6.0, 9.0, 13.0, 18.0, 24.0, 31.0, 40.0)  # where it gets a line to its mark
SECTORS = 16
LEADER = 2.0  # mm: a label further off than this gets a line to its mark
BEAD = 0.4  # mm: half the width of the room a leader takes
MARGIN = 0.5  # mm between labels
DASH = 1.2  # mm before a figure, where the end of a level line reads as a minus sign
SHALLOW = 0.7  # rise per run of a line that still reads so (35 degrees)
PIECE = 0.5  # mm: how thick the rectangles are that stand for a line
CELL = 0.1  # mm
AT_ONCE = 8  # lines to marks that are looked at together
OUTWARDS = np.array([1.0, 1.0, -1.0, -1.0])  # which way a box's sides are rounded: down, or up
HAIR = 1e-6  # of a cell: what a float's rounding may add to a box
FINE = 0.3  # mm from point to point of a line that is drawn; a dash before a figure is longer
NEARER = 0.8  # how near a label is to its own mark, of the distance to the next like one


class Wish(NamedTuple):
    """A label to place: its mark's centre, its own size, all mm."""

    x: float
    y: float
    width: float
    height: float
    clear: float  # radius of the mark
    toward: float = 0.0  # wanted direction from the mark, radians anticlockwise from +x
    rivals: Array | None = None  # like marks (n, 2): a label without a line is nearest to its own
    strange: Array | None = None  # lines (n, 2 ends, 2) that this label would seem to name
    figure: bool = False  # begins with a figure: no line may run level up to it


class Place(NamedTuple):
    """Where a label goes: its lower left corner, and the line to its mark if it needs one."""

    left: float
    bottom: float
    leader: tuple[tuple[float, float], tuple[float, float]] | None


class _Cells:
    """What is taken of a frame, as flags of its cells: rows from its foot up."""

    def __init__(self, frame: tuple[float, float, float, float]) -> None:
        left, bottom, right, top = frame
        self._corner = np.array([left, bottom])
        self._corners = np.array([left, bottom, left, bottom])
        self._most = np.ceil((np.array([right, top]) - self._corner) / CELL).astype(int)
        self._ends = np.concatenate([self._most, self._most])
        self._flags = np.zeros(tuple(self._most[::-1]), dtype=np.bool_)
        self._single = self._flags.data.cast("B")  # one cell is sooner looked at so

    def take(self, spans: Spans) -> None:
        """Take all cells of spans."""
        for x0, y0, x1, y1 in spans.tolist():
            self._flags[y0:y1, x0:x1] = True

    def take_points(self, points: Array) -> None:
        """Take the cells that points (n, 2) lie in; a point outside the frame takes none."""
        x, y = np.floor((points - self._corner) / CELL).astype(int).T
        seen = (x >= 0) & (y >= 0) & (x < self._most[0]) & (y < self._most[1])
        self._flags[y[seen], x[seen]] = True

    def spans(self, boxes: Array) -> Spans:
        """The cells from and to, across and up, that rectangles (n, 4) reach into by more than a hair."""
        cells = np.floor((boxes - self._corners) * (OUTWARDS / CELL) + HAIR) * OUTWARDS
        return np.asarray(np.minimum(np.maximum(cells, 0), self._ends), np.intp)

    def any_in(self, span: list[int]) -> bool:
        """Whether something of a span is taken: mostly its middle or a corner tells."""
        x0, y0, x1, y1 = span
        if x0 >= x1 or y0 >= y1:
            return False
        wide, one = self._flags.shape[1], self._single
        foot, head, last = y0 * wide, (y1 - 1) * wide, x1 - 1
        return bool(
            one[(y0 + y1) // 2 * wide + (x0 + x1) // 2]
            or one[foot + x0]
            or one[head + last]
            or one[foot + last]
            or one[head + x0]
            or np.count_nonzero(self._flags[y0:y1, x0:x1])
        )

    def cells_of(self, points: Array) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
        """Rows and columns of the cells that points (n, 2) lie in; of one outside the frame, on its edge."""
        cells = np.floor((points - self._corner) / CELL)
        x, y = np.minimum(np.maximum(cells, 0), self._most - 1).astype(np.intp).T
        return y, x

    def taken(self, cells: tuple[NDArray[np.intp], NDArray[np.intp]]) -> Flags:
        """Which of these cells (rows and columns, (K,) each) are taken, (K,)."""
        return self._flags[cells]


class Room:
    """A frame (left, bottom, right, top) and what labels keep off in it."""

    def __init__(self, frame: tuple[float, float, float, float]) -> None:
        self.frame = frame
        self._edges = np.array(frame)
        self._blocks = _Cells(frame)
        self._busy = _Cells(frame)  # the blocks, and what is along lines that no label erases
        self._dashes = _Cells(frame)  # the shallow steps of all lines
        self._starts = _Cells(frame)  # just before the figures that are placed

    def block(self, left: float, bottom: float, right: float, top: float) -> None:
        """Keep labels off this rectangle."""
        self._block(np.array([(left, bottom, right, top)]))

    def block_all(self, boxes: Array) -> None:
        """Keep labels off rectangles (n, 4): left, bottom, right, top."""
        self._block(boxes)

    def keep_line(self, points: Array) -> None:
        """Keep labels off a line (n, 2); the line from a label to its mark may cross it."""
        self.keep_lines([points])

    def keep_lines(self, lines: Sequence[Array]) -> None:
        """Keep labels off lines (n, 2), millimetres on paper, as `keep_line`."""
        ends = _pieces(lines)
        boxes = _rectangles(ends[:, 0], ends[:, 1]) + np.array([-BEAD, -BEAD, BEAD, BEAD])
        self._busy.take(self._busy.spans(boxes))

    def draw_lines(self, lines: Sequence[Array]) -> None:
        """Lines (n, 2) are drawn here: no figure goes where one would read as its minus sign."""
        if not len(lines):
            return
        start = np.concatenate([line[:-1] for line in lines])
        step = np.concatenate([line[1:] for line in lines]) - start
        level = _shallow(step)
        start, step = start[level], step[level]
        count = np.ceil(np.abs(step[:, 0]) / FINE).astype(int) + 1
        share = _counted(count) / np.repeat(np.maximum(count - 1, 1), count)
        points = np.repeat(start, count, axis=0) + share[:, None] * np.repeat(step, count, axis=0)
        self._dashes.take_points(points)

    def place(self, *wishes: Wish, cross: bool = True) -> Place | None:
        """A place for one label, which becomes a block: by the first wish that finds one, or None.

        Beside a mark comes before any place that needs a line to it, and a line that crosses something
        comes last, or never, unless it may `cross`.
        """
        for wish in wishes:
            boxes = _candidates(wish, NEAR_RINGS)
            for k in self._free(boxes, wish, _nearest_to_own(wish, boxes)):
                return self._take(boxes[k], None, wish.figure)
        crossing = None
        for wish in wishes:
            boxes = _candidates(wish, FAR_RINGS)
            starts, ends = _leaders(wish, boxes)
            allowed = np.ones(len(boxes), dtype=bool)
            if wish.figure:
                allowed = ~((ends[:, 0] <= boxes[:, 0]) & _shallow(ends - starts))
            free = self._free(boxes, wish, allowed)
            while some := list(islice(free, AT_ONCE)):
                for k, crosses in self._lines(some, starts, ends):
                    if not crosses:
                        return self._take(boxes[k], (starts[k], ends[k]), wish.figure)
                    crossing = crossing or (boxes[k], (starts[k], ends[k]), wish.figure)
        return self._take(*crossing) if crossing and cross else None

    def claim(self, boxes: Array, *, figure: bool = False) -> int | None:
        """The first of some rectangles (n, 4) that is free and in the frame, None if none is.

        It is then a block itself.
        """
        for k in self._empty(boxes, True, figure):
            self.take(boxes[k], figure=figure)
            return k
        return None

    def free(self, boxes: Array, line: Array) -> bool:
        """Whether all of some rectangles (n, 4) are free and in the frame, and one (4,) is on no block."""
        empty = self._empty(boxes, True, False)
        (span,) = self._blocks.spans(line[None]).tolist()
        return sum(1 for _ in empty) == len(boxes) and not self._blocks.any_in(span)

    def take(self, box: Array, *, figure: bool = False) -> None:
        """Make a block of a rectangle (4,) with air round it; no line runs level up to a `figure` in it."""
        self._block(box[None] + np.array([-MARGIN, -MARGIN, MARGIN, MARGIN]))
        if figure:
            self._starts.take(self._starts.spans(_before(box[None])))

    def _lines(self, rows: list[int], starts: Array, ends: Array) -> Iterator[tuple[int, bool]]:
        """Which of some lines may be drawn, (n, 2) their ends, and whether each crosses what is there.

        None may that runs up to a figure: it would be its minus sign.
        """
        beads, own = _beads(starts[rows], ends[rows])
        cells = self._blocks.cells_of(beads)
        figure, taken = (
            np.bincount(own[room.taken(cells)], minlength=len(rows)) > 0
            for room in (self._starts, self._blocks)
        )
        for k, no, crosses in zip(rows, figure.tolist(), taken.tolist(), strict=True):
            if not no:
                yield k, crosses

    def _free(self, boxes: Array, wish: Wish, allowed: Flags) -> Iterator[int]:
        """Which allowed boxes can hold the label, in their order."""
        if wish.strange is not None and len(wish.strange):
            pieces = _pieces(wish.strange)
            wide = np.array([-LEADER, -LEADER, LEADER, LEADER])
            allowed = allowed & ~_touched(boxes, _rectangles(pieces[:, 0], pieces[:, 1]) + wide)
        return self._empty(boxes, allowed, wish.figure)

    def _empty(self, boxes: Array, allowed: Flags | bool, figure: bool) -> Iterator[int]:
        """Which allowed boxes lie in the frame and on nothing; of figures, those with no dash before them."""
        within = ((boxes - self._edges) * OUTWARDS >= 0).all(axis=1)
        (ways,) = (within & allowed).nonzero()
        spans = self._busy.spans(boxes[ways])
        before = self._dashes.spans(_before(boxes[ways])) if figure else spans
        for k, span, dash in zip(ways.tolist(), spans.tolist(), before.tolist(), strict=True):
            if not self._busy.any_in(span) and not (figure and self._dashes.any_in(dash)):
                yield k

    def _block(self, boxes: Array) -> None:
        spans = self._blocks.spans(boxes)
        self._blocks.take(spans)
        self._busy.take(spans)

    def _take(self, box: Array, leader: tuple[Array, Array] | None, figure: bool) -> Place:
        self.take(box, figure=figure)
        if leader is None:
            return Place(float(box[0]), float(box[1]), None)
        start, end = leader
        beads, _ = _beads(start[None], end[None])
        self._block(np.concatenate([beads - BEAD, beads + BEAD], axis=1))
        self.draw_lines([np.array(leader)])
        line = ((float(start[0]), float(start[1])), (float(end[0]), float(end[1])))
        return Place(float(box[0]), float(box[1]), line)


@lru_cache(64)
def _ways(toward: float) -> tuple[Array, Array]:
    """Cosines and sines of the directions from a mark, the wanted one first, then to either side of it."""
    turns = np.arange(SECTORS)
    turns = ((turns + 1) // 2) * np.where(turns % 2, 1, -1)  # 0, 1, -1, 2, -2 ...
    angle = toward + turns * (2 * np.pi / SECTORS)
    return np.cos(angle), np.sin(angle)


def _candidates(wish: Wish, rings: tuple[float, ...]) -> Array:
    """Boxes round the mark, (n, 4), best first."""
    c, s = _ways(wish.toward)
    w, h = wish.width / 2, wish.height / 2
    # From the mark to the middle of a box whose nearest edge is `clear` away along the direction.
    with np.errstate(divide="ignore"):
        own = np.minimum(w / np.abs(c), h / np.abs(s))
    reach = np.add.outer(np.array(rings), wish.clear + own)
    x, y = wish.x + reach * c, wish.y + reach * s
    boxes = np.empty((*x.shape, 4))
    boxes[..., 0], boxes[..., 1], boxes[..., 2], boxes[..., 3] = x - w, y - h, x + w, y + h
    return boxes.reshape(-1, 4)


def _before(boxes: Array) -> Array:
    """The strip before each box in which a dash would stand, (n, 4)."""
    strips = boxes[:, [0, 1, 0, 3]]
    strips[:, 0] -= DASH
    return strips


def _shallow(steps: Array) -> Flags:
    """Which steps (n, 2) are so level that they read as a dash."""
    return np.asarray(np.abs(steps[:, 1]) <= SHALLOW * np.abs(steps[:, 0]))


def _pieces(lines: Sequence[Array] | Array) -> Array:
    """Lines (n, 2) cut into pieces that rise or run no more than PIECE, (k, 2 ends, 2)."""
    if not len(lines):
        return np.zeros((0, 2, 2))
    start = np.concatenate([line[:-1] for line in lines])
    step = np.concatenate([line[1:] for line in lines]) - start
    count = np.maximum(np.ceil(np.abs(step).min(axis=1) / PIECE), 1).astype(int)
    own = np.repeat(np.arange(len(count)), count)
    nth = _counted(count)
    share = np.stack([nth, nth + 1], axis=1) / count[own, None]
    return np.asarray(start[own, None] + share[..., None] * step[own, None])


def _counted(count: NDArray[np.int_]) -> NDArray[np.int_]:
    """0 to n - 1 for each n of some counts, one after the other."""
    return np.asarray(np.arange(count.sum()) - np.repeat(np.cumsum(count) - count, count))


def _rectangles(starts: Array, ends: Array) -> Array:
    """The rectangles that have these points (n, 2) for corners, (n, 4)."""
    return np.concatenate([np.minimum(starts, ends), np.maximum(starts, ends)], axis=1)


def _touched(boxes: Array, blocks: Array) -> Flags:
    """Which boxes overlap any block."""
    a, b = boxes[:, None], blocks[None]
    apart = (a[..., 0] >= b[..., 2]) | (a[..., 2] <= b[..., 0])
    apart |= (a[..., 1] >= b[..., 3]) | (a[..., 3] <= b[..., 1])
    return np.asarray(~apart.all(axis=1))


def _nearest_to_own(wish: Wish, boxes: Array) -> Flags:
    """Which boxes lie clearly nearer to their own mark than to its rivals."""
    middle = (boxes[:, :2] + boxes[:, 2:]) / 2
    own = np.hypot(*(middle - np.array([wish.x, wish.y])).T)
    if wish.rivals is None or not len(wish.rivals):
        return np.ones(len(boxes), dtype=bool)
    away = middle[:, None] - wish.rivals[None]
    return np.asarray(own < NEARER * np.hypot(away[..., 0], away[..., 1]).min(axis=1))


def _leaders(wish: Wish, boxes: Array) -> tuple[Array, Array]:
    """Lines from the mark's edge to the nearest point of each box, (n, 2) both."""
    mark = np.array([wish.x, wish.y])
    ends = np.clip(mark, boxes[:, :2], boxes[:, 2:])
    away = ends - mark
    length = np.maximum(np.hypot(away[:, 0], away[:, 1]), 1e-9)
    return mark + away * (wish.clear / length)[:, None], ends


def _beads(starts: Array, ends: Array) -> tuple[Array, NDArray[np.intp]]:
    """Points (n, 2) between ends of lines (k, 2), no more than BEAD apart, and whose line each is, (n,)."""
    ways = ends - starts
    count = 1 + (np.hypot(ways[:, 0], ways[:, 1]) / BEAD).astype(np.intp)
    own = np.repeat(np.arange(count.size), count - 1)
    share = (_counted(count - 1) + 1) / count[own]
    return np.asarray(starts[own] + share[:, None] * ways[own]), own
