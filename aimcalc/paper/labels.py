"""Where the labels of a drawing go, so that none covers another.

Each label looks for a free place near the point it belongs to: in rings round it, nearest ring first,
the wanted direction first on each. What must stay visible (marks, symbols) is given as blocks, lines
that no label may erase as kept lines. A line that runs level up to a figure reads as a minus sign, so
none does. The same wishes give the same places.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from aimcalc.geometry.vectors import Array

Flags = np.ndarray[tuple[int, ...], np.dtype[np.bool_]]

RINGS = (
    0.0,
    1.5,
    3.5,
    6.0,
    9.0,
    13.0,
    18.0,
    24.0,
    31.0,
    40.0,
)  # mm from the mark's edge to the label's
SECTORS = 16
LEADER = 2.0  # mm: a label further off than this gets a line to its mark
BEAD = 0.4  # mm: half the width of the room a leader takes
MARGIN = 0.5  # mm between labels
DASH = 1.2  # mm before a figure, where the end of a level line reads as a minus sign
SHALLOW = 0.7  # rise per run of a line that still reads so (35 degrees)
PIECE = 0.5  # mm: how thick the rectangles are that stand for a line
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


class _Pile:
    """A growing pile of rectangles (left, bottom, right, top)."""

    def __init__(self) -> None:
        self._rows = np.empty((256, 4))
        self._count = 0

    def add(self, rows: Array) -> None:
        needed = self._count + len(rows)
        if needed > len(self._rows):
            self._rows = np.concatenate([self._rows, np.empty((needed, 4))])
        self._rows[self._count : needed] = rows
        self._count = needed

    def around(self, boxes: Array) -> Array:
        """Those that lie in the rectangle round some boxes."""
        rows = self._rows[: self._count]
        low, high = boxes[:, :2].min(axis=0), boxes[:, 2:].max(axis=0)
        return np.asarray(rows[((rows[:, 2:] > low) & (rows[:, :2] < high)).all(axis=1)])


class Room:
    """A frame (left, bottom, right, top) and what labels keep off in it."""

    def __init__(self, frame: tuple[float, float, float, float]) -> None:
        self.frame = frame
        self._blocks = _Pile()
        self._kept = _Pile()  # along lines that no label erases
        self._dashes = _Pile()  # the shallow pieces of all lines
        self._starts = _Pile()  # just before the figures that are placed

    def block(self, left: float, bottom: float, right: float, top: float) -> None:
        """Keep labels off this rectangle."""
        self._blocks.add(np.array([(left, bottom, right, top)]))

    def keep_line(self, points: Array) -> None:
        """Keep labels off a line (n, 2); the line from a label to its mark may cross it."""
        ends = _pieces([points])
        self._kept.add(_rectangles(ends[:, 0], ends[:, 1]) + np.array([-BEAD, -BEAD, BEAD, BEAD]))

    def draw_lines(self, lines: Sequence[Array]) -> None:
        """Lines (n, 2) are drawn here: no figure goes where one would read as its minus sign."""
        ends = _pieces(lines)
        level = ends[_shallow(ends[:, 1] - ends[:, 0])]
        self._dashes.add(_rectangles(level[:, 0], level[:, 1]))

    def place(self, *wishes: Wish) -> Place | None:
        """A place for one label, which becomes a block: by the first wish that finds one, or None.

        Beside a mark comes before any place that needs a line to it, and a line that crosses something
        comes last.
        """
        for line in ("none", "clear", "any"):
            for wish in wishes:
                if (found := self._near(wish, line)) is not None:
                    return found
        return None

    def claim(self, boxes: Array, *, figure: bool = False) -> int | None:
        """The first of some rectangles (n, 4) that is free and in the frame, None if none is.

        It is then a block itself.
        """
        free = np.flatnonzero(self._free(boxes, figure))
        if not free.size:
            return None
        self._put(boxes[free[:1]], figure)
        return int(free[0])

    def _near(self, wish: Wish, line: str) -> Place | None:
        boxes, gaps = _candidates(wish)
        far = gaps > LEADER
        starts, ends = _leaders(wish, boxes)
        if line == "none":
            allowed = ~far & _nearest_to_own(wish, boxes)
        else:
            allowed = far.copy()
            if wish.figure:
                allowed &= ~((ends[:, 0] <= boxes[:, 0]) & _shallow(ends - starts))
        if wish.strange is not None and len(wish.strange):
            pieces = _pieces(wish.strange)
            wide = np.array([-LEADER, -LEADER, LEADER, LEADER])
            allowed &= ~_touched(boxes, _rectangles(pieces[:, 0], pieces[:, 1]) + wide)
        blocks, figures = self._blocks.around(boxes), self._starts.around(boxes)
        for k in np.flatnonzero(allowed & self._free(boxes, wish.figure)):
            if line == "clear" and _crosses(starts[k], ends[k], blocks):
                continue
            if far[k] and _crosses(starts[k], ends[k], figures):
                continue
            return self._take(boxes[k], (starts[k], ends[k]) if far[k] else None, wish.figure)
        return None

    def _free(self, boxes: Array, figure: bool) -> Flags:
        """Which boxes lie in the frame and on nothing, with no dash before them if they are figures."""
        left, bottom, right, top = self.frame
        free = (boxes[:, 0] >= left) & (boxes[:, 1] >= bottom)
        free &= (boxes[:, 2] <= right) & (boxes[:, 3] <= top)
        for pile in (self._blocks, self._kept):
            free &= ~_touched(boxes, pile.around(boxes))
        if figure:
            before = _before(boxes)
            free &= ~_touched(before, self._dashes.around(before))
        return free

    def _put(self, box: Array, figure: bool) -> None:
        self._blocks.add(box + np.array([-MARGIN, -MARGIN, MARGIN, MARGIN]))
        if figure:
            self._starts.add(_before(box))

    def _take(self, box: Array, leader: tuple[Array, Array] | None, figure: bool) -> Place:
        self._put(box[None], figure)
        if leader is None:
            return Place(float(box[0]), float(box[1]), None)
        start, end = leader
        beads = _beads(start, end)
        self._blocks.add(np.concatenate([beads - BEAD, beads + BEAD], axis=1))
        self.draw_lines([np.array(leader)])
        line = ((float(start[0]), float(start[1])), (float(end[0]), float(end[1])))
        return Place(float(box[0]), float(box[1]), line)


def _candidates(wish: Wish) -> tuple[Array, Array]:
    """Boxes round the mark, (n, 4), best first, and how far each is from the mark's edge."""
    turns = np.arange(SECTORS)
    turns = ((turns + 1) // 2) * np.where(turns % 2, 1, -1)  # 0, 1, -1, 2, -2 ...
    angle = wish.toward + turns * (2 * np.pi / SECTORS)
    c, s = np.cos(angle), np.sin(angle)
    w, h = wish.width / 2, wish.height / 2
    # From the mark to the middle of a box whose nearest edge is `clear` away along the direction.
    with np.errstate(divide="ignore"):
        own = np.minimum(w / np.abs(c), h / np.abs(s))
    reach = np.add.outer(np.array(RINGS), wish.clear + own)
    x, y = wish.x + reach * c, wish.y + reach * s
    boxes = np.stack([x - w, y - h, x + w, y + h], axis=-1).reshape(-1, 4)
    return boxes, np.repeat(RINGS, SECTORS)


def _before(boxes: Array) -> Array:
    """The strip before each box in which a dash would stand, (n, 4)."""
    left, bottom, _, top = boxes.T
    return np.stack([left - DASH, bottom, left, top], axis=1)


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
    nth = np.arange(count.sum()) - np.repeat(np.cumsum(count) - count, count)
    share = np.stack([nth, nth + 1], axis=1) / count[own, None]
    return np.asarray(start[own, None] + share[..., None] * step[own, None])


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


def _beads(start: Array, end: Array) -> Array:
    count = 2 + int(np.hypot(*(end - start)) / BEAD)
    return np.asarray(start + np.linspace(0.0, 1.0, count)[1:-1, None] * (end - start))


def _crosses(start: Array, end: Array, blocks: Array) -> bool:
    """Whether a leader runs through any block."""
    x, y = _beads(start, end).T[:, :, None]
    inside = (x > blocks[:, 0]) & (x < blocks[:, 2]) & (y > blocks[:, 1]) & (y < blocks[:, 3])
    return bool(inside.any())
