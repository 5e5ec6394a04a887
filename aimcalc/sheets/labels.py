"""Where the labels of a drawing go, so that none covers another.

Each label looks for a free place near the point it belongs to: in rings round it, nearest ring first,
the wanted direction first on each. What must stay visible (marks, symbols) is given as blocks. The
same wishes give the same places.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from aimcalc.geometry.vectors import Array

RINGS = (0.0, 1.5, 3.5, 6.0, 9.0, 13.0, 18.0, 24.0, 31.0)  # mm from the mark's edge to the label's
SECTORS = 16
LEADER = 2.0  # mm: a label further off than this gets a line to its mark
BEAD = 0.4  # mm: half the width of the room a leader takes
MARGIN = 0.5  # mm between labels
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


class Place(NamedTuple):
    """Where a label goes: its lower left corner, and the line to its mark if it needs one."""

    left: float
    bottom: float
    leader: tuple[tuple[float, float], tuple[float, float]] | None


class Room:
    """A frame (left, bottom, right, top) and the blocks in it that labels keep off."""

    def __init__(self, frame: tuple[float, float, float, float]) -> None:
        self.frame = frame
        self._blocks = np.empty((256, 4))
        self._count = 0

    def block(self, left: float, bottom: float, right: float, top: float) -> None:
        """Keep labels off this rectangle."""
        self._add(np.array([(left, bottom, right, top)]))

    def _add(self, blocks: Array) -> None:
        needed = self._count + len(blocks)
        if needed > len(self._blocks):
            self._blocks = np.concatenate([self._blocks, np.empty((needed, 4))])
        self._blocks[self._count : needed] = blocks
        self._count = needed

    def _around(self, boxes: Array) -> Array:
        """The blocks that lie in the rectangle round some boxes."""
        blocks = self._blocks[: self._count]
        low, high = boxes[:, :2].min(axis=0), boxes[:, 2:].max(axis=0)
        return np.asarray(blocks[((blocks[:, 2:] > low) & (blocks[:, :2] < high)).all(axis=1)])

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

    def claim(self, left: float, bottom: float, right: float, top: float) -> bool:
        """True where a rectangle is free and in the frame; it is then a block itself."""
        box = np.array([(left, bottom, right, top)])
        if not self._inside(box)[0] or _touched(box, self._around(box))[0]:
            return False
        self._add(box)
        return True

    def _near(self, wish: Wish, line: str) -> Place | None:
        boxes, gaps = _candidates(wish)
        blocks = self._around(boxes)
        far = gaps > LEADER
        allowed = far if line != "none" else ~far & _nearest_to_own(wish, boxes)
        starts, ends = _leaders(wish, boxes)
        for k in np.flatnonzero(allowed & self._inside(boxes) & ~_touched(boxes, blocks)):
            if line == "clear" and _crosses(starts[k], ends[k], blocks):
                continue
            return self._take(boxes[k], (starts[k], ends[k]) if far[k] else None)
        return None

    def _inside(self, boxes: Array) -> np.ndarray[tuple[int, ...], np.dtype[np.bool_]]:
        left, bottom, right, top = self.frame
        inside = (boxes[:, 0] >= left) & (boxes[:, 1] >= bottom)
        return inside & (boxes[:, 2] <= right) & (boxes[:, 3] <= top)

    def _take(self, box: Array, leader: tuple[Array, Array] | None) -> Place:
        self._add((box + np.array([-MARGIN, -MARGIN, MARGIN, MARGIN]))[None])
        if leader is None:
            return Place(float(box[0]), float(box[1]), None)
        start, end = leader
        beads = _beads(start, end)
        self._add(np.concatenate([beads - BEAD, beads + BEAD], axis=1))
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


def _touched(boxes: Array, blocks: Array) -> np.ndarray[tuple[int, ...], np.dtype[np.bool_]]:
    """Which boxes overlap any block."""
    a, b = boxes[:, None], blocks[None]
    apart = (a[..., 0] >= b[..., 2]) | (a[..., 2] <= b[..., 0])
    apart |= (a[..., 1] >= b[..., 3]) | (a[..., 3] <= b[..., 1])
    return np.asarray(~apart.all(axis=1))


def _nearest_to_own(wish: Wish, boxes: Array) -> np.ndarray[tuple[int, ...], np.dtype[np.bool_]]:
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
