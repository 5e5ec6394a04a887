"""A drawing inside a frame while it grows: lines cut at the frame, marks, and labels that find room."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager, nullcontext

import numpy as np

from aimcalc.geometry.vectors import Array
from aimcalc.named import NamedTuple
from aimcalc.paper import marks
from aimcalc.paper.drawing import CAPITAL, PT, TAIL, Dash, Line, Shape, Words, text_width
from aimcalc.paper.labels import Place, Room, Wish
from aimcalc.paper.planpage import View, ruler_dashes
from aimcalc.rig.letters import TALLEST, has_lent

TEXT = 10.0  # pt
LEADING = 1.2  # from row to row, of the type size
PAD = 0.35  # mm of white round a label
UP_PAGE = np.pi / 2
TRIES = 25  # places along a line that its label may have
MOST_REFUSED = (
    200  # labels without room: then the drawing is full, and the rest is listed beside it
)


class Label(NamedTuple):
    """A label of one or more rows, its type, and the places it may have, best first.

    `unit` is the row of the unit that cannot be told without it, None where there is no such unit.
    """

    rows: tuple[str, ...]
    size: float
    bold: bool
    wishes: tuple[Wish, ...]
    unit: int | None = None
    of: str = ""


class Canvas:
    """The drawing while it grows."""

    def __init__(self, view: View) -> None:
        self.view = view
        self.full_at: int | None = None  # the first unit whose label found no room
        self.lines: list[Line] = []
        self.shapes: list[Shape] = []
        self.words: list[Words] = []
        self.labels: list[Label] = []
        self.left_out: list[str] = []
        self.room = Room(view.frame)
        self._told = 0  # how many of the lines the labels know of

    @contextmanager
    def of(self, name: str) -> Iterator[None]:
        """Whose all is that is drawn meanwhile, and the labels asked for: a picture on a page tells."""
        lines, shapes = len(self.lines), len(self.shapes)
        words, labels = len(self.words), len(self.labels)
        yield
        self.lines[lines:] = [each._replace(of=name) for each in self.lines[lines:]]
        self.shapes[shapes:] = [each._replace(of=name) for each in self.shapes[shapes:]]
        self.words[words:] = [each._replace(of=name) for each in self.words[words:]]
        self.labels[labels:] = [each._replace(of=name) for each in self.labels[labels:]]

    def line(self, points: Array, weight: float, dash: Dash = "solid") -> list[marks.Run]:
        """Draw what the frame shows of a line (n, 2) given in plan metres; the runs shown come back."""
        runs = marks.inside(self.view.to_page(points), self.view.frame)
        self.lines += [Line(run.points, weight, dash) for run in runs]
        return runs

    def key_line(self, points: Array, weight: float) -> None:
        """Draw a line (n, 2), plan metres, that no label erases."""
        for run in self.line(points, weight):
            self.room.keep_line(run.points)

    def outline(self, points: Array, weight: float, dash: Dash = "solid") -> None:
        """Draw what the frame shows of a closed outline (n, 2), plan metres."""
        self.line(np.concatenate([points, points[:1]]), weight, dash)

    def arrow(self, run: marks.Run, *, start: bool) -> tuple[float, float]:
        """Put an arrow head on an end of a run; its tip comes back."""
        tip, before = (run.points[0], run.points[1]) if start else run.points[[-1, -2]]
        self.shapes.append(Shape(marks.arrow_head(tip, before), 0.75, "black"))
        x, y = self.shapes[-1].points.mean(axis=0).tolist()
        self.block(x, y, 1.2)
        return float(tip[0]), float(tip[1])

    def block(self, x: float, y: float, half: float) -> None:
        """Keep labels off a mark."""
        self.room.block(x - half, y - half, x + half, y + half)

    def label(
        self,
        *rows: str,
        at: Sequence[tuple[float, float]],
        clear: float,
        toward: Sequence[float] = (UP_PAGE,),
        size: float = TEXT,
        bold: bool = False,
        rivals: Array | None = None,
        strange: Array | None = None,
        unit: int | None = None,
    ) -> None:
        """Ask for a label near the first of the marks `at`, of radius `clear`, that has room.

        `rivals` are like marks, on paper (n, 2), that it must not seem to belong to, `strange` lines
        (n, 2 ends, 2) that it must not lie on. Without the label `unit` cannot be told.
        """
        width, height = label_size(rows, size, bold)
        wishes = [
            Wish(*mark, width, height, clear, way, rivals, strange, is_figure(rows))
            for mark, way in zip(at, toward, strict=True)
        ]
        self.labels.append(Label(rows, size, bold, tuple(wishes), unit))

    def place_labels(self, *, or_none: bool = False) -> None:
        """Put every label where it is free, in the order they were asked for.

        `or_none` gives up at the first one without which a unit cannot be told: `full_at`.
        """
        self.tell_lines()
        refused = 0
        for label in self.labels:
            place = self.room.place(*label.wishes) if refused < MOST_REFUSED else None
            if place is not None:
                with self.of(label.of) if label.of else nullcontext():
                    self._put(label, place)
                continue
            refused += 1
            self.left_out.append(" ".join(label.rows))
            if self.full_at is None and label.unit is not None:
                self.full_at = label.unit
                if or_none:
                    return

    def put(self, spots: Array, text: str, size: float = TEXT, *, bold: bool = False) -> bool:
        """Text with its middle at the first of some points (n, 2) that is free, on white."""
        width, height = label_size([text], size, bold)
        half = np.array([width / 2, height / 2])
        boxes = np.concatenate([spots - half, spots + half], axis=1)
        self.tell_lines()
        place = self.room.claim(boxes, figure=is_figure([text]))
        if place is None:
            return False
        left, bottom, right, top = boxes[place]
        self._blank(left, bottom, right, top)
        above, tail = row_height(text, size)
        base = bottom + (height - above - tail) / 2 + tail
        self.words.append(Words(float(spots[place, 0]), float(base), text, size, bold, "centre"))
        return True

    def on_line(self, page: Array, text: str, *, apart: float, bold: bool = False) -> bool:
        """Text on a line (n, 2) on paper, again after about `apart` mm; False where there is no room.

        A figure goes where the line is steep: one that ran level up to it would be its minus sign.
        """
        found = False
        far = along(page)
        parts = max(1, int(far[-1] / apart))
        turns = np.arange(TRIES)
        off = 0.5 + (turns + 1) // 2 * np.where(turns % 2, 1, -1) / (TRIES + 1)
        for part in range(parts):
            at = (part + off) / parts * far[-1]
            spots = np.stack([np.interp(at, far, page[:, axis]) for axis in range(2)], axis=1)
            found |= self.put(spots, text, bold=bold)
        return found

    def tell_lines(self) -> None:
        """Tell the labels of the lines drawn since the last time, first of all of the ruler's."""
        new = [line.points for line in self.lines[self._told :]]
        if not self._told:
            new += ruler_dashes(self.view)
        self.room.draw_lines(new)
        self._told = len(self.lines)

    def _blank(self, left: float, bottom: float, right: float, top: float) -> None:
        """White under words, over whatever is drawn there."""
        box = np.array([(left, bottom), (right, bottom), (right, top), (left, top)])
        self.shapes.append(Shape(box, 0.0, "white"))

    def _put(self, label: Label, place: Place) -> None:
        left, bottom = place.left, place.bottom
        size = label.wishes[0]
        self._blank(left, bottom, left + size.width, bottom + size.height)
        y = bottom + PAD + row_height(label.rows[-1], label.size).tail
        for row in reversed(label.rows):
            self.words.append(Words(left + PAD, y, row, label.size, label.bold))
            y += label.size * PT * LEADING
        if place.leader:
            self.lines.append(Line(np.array(place.leader), 0.75))


def is_figure(rows: Sequence[str]) -> bool:
    """Whether some row begins with a figure, which a level line before it would turn negative."""
    return any(row[:1].isdigit() for row in rows)


def along(page: Array) -> Array:
    """Distance of each point of a line (n, 2) from its start."""
    step = np.diff(page, axis=0)
    return np.concatenate(([0.0], np.cumsum(np.hypot(step[:, 0], step[:, 1]))))


class RowHeight(NamedTuple):
    """Room of one line of text over and under its base line, mm."""

    above: float
    tail: float


def row_height(text: str, size: float) -> RowHeight:
    """Figures and plain capitals need no room under the base line; letters that are lent need all."""
    if has_lent(text):
        return RowHeight(TALLEST * size * PT, TAIL * size * PT)
    plain = text.isalnum() and text.upper() == text and "Q" not in text
    return RowHeight(CAPITAL * size * PT, 0.0 if plain else TAIL * size * PT)


def label_size(rows: Sequence[str], size: float, bold: bool) -> tuple[float, float]:
    """Width and height in mm of a label with the white round it."""
    width = max(text_width(row, size, bold) for row in rows)
    above, tail = row_height(rows[0], size).above, row_height(rows[-1], size).tail
    height = (len(rows) - 1) * size * PT * LEADING + above + tail
    return width + 2 * PAD, height + 2 * PAD
