"""Scaled drawings: lines, shapes and words in millimetres on paper.

A drawing is laid out first, as a `Drawing` that holds plain lists; `drawpdf` and `drawpng` then put the
same lists on paper or on the screen. So whoever lays out loads no plotting library.
"""

from __future__ import annotations

from typing import Literal, Protocol

import numpy as np

from aimcalc.geometry.vectors import Array, to_radians
from aimcalc.named import NamedTuple
from aimcalc.text import typeset

PT = 25.4 / 72  # mm

Dash = Literal["solid", "dashed", "chain", "dotted", "overhead", "axis"]
Fill = Literal["white", "black", "none"]
Align = Literal["left", "centre", "right"]

# Lengths of strokes and gaps, of the line's weight.
DASHES: dict[Dash, tuple[float, ...]] = {
    "solid": (),
    "dashed": (5, 3),
    "chain": (12, 3, 2, 3),
    "dotted": (1.5, 2),
    "overhead": (12, 3),  # ISO 128-20, line types 02 and 04 (from memory)
    "axis": (24, 3, 2, 3),  # dots of 2 instead of 0.5, which a copier loses
}
# Widths of lines on a drawing to scale, from the series of ISO 128-20 (0.13 0.18 0.25 0.35 0.5 0.7 1 mm, each
# the square root of two times the last): line group 0.5 of ISO 128-23, whose narrow line is 0.25, whose wide
# line 0.5 and whose line of symbols 0.35 mm; the border of a sheet is 0.7 by ISO 5457 (all from memory).
NARROW, SYMBOL, WIDE, BORDER = (width / PT for width in (0.25, 0.35, 0.5, 0.7))  # pt
ALIGNED: dict[Align, float] = {"left": 0.0, "centre": 0.5, "right": 1.0}
OVER = 10.0  # pt, the line over a page
SIDE, TOP = 7.5, 6.6  # mm from the edges of the paper to it
CAPITAL, TAIL = typeset.CAPITAL, typeset.TAIL
DRAFT_SIZE, HALF_BLACK = typeset.DRAFT_SIZE, typeset.HALF_BLACK


class Line(NamedTuple):
    """A run of straight pieces; `points` is (n, 2) mm, `weight` pt; `of` names whose it is, if anybody's."""

    points: Array
    weight: float = 0.75
    dash: Dash = "solid"
    of: str = ""


class Shape(NamedTuple):
    """A closed outline, filled white or black (`fill`), or not at all; weight 0 draws no outline."""

    points: Array
    weight: float = 0.75
    fill: Fill = "white"
    of: str = ""


class Words(NamedTuple):
    """One line of text with its base line at `y`; `size` pt."""

    x: float
    y: float
    text: str
    size: float = 10.0
    bold: bool = False
    align: Align = "left"
    turn: float = 0.0  # degrees anticlockwise
    of: str = ""

    @property
    def start(self) -> tuple[float, float]:
        """Where its first letter begins."""
        back = ALIGNED[self.align] * text_width(self.text, self.size, self.bold)
        slope = to_radians(self.turn)
        return float(self.x - back * np.cos(slope)), float(self.y - back * np.sin(slope))

    def within(self, window: tuple[float, float, float, float]) -> Words:
        """The letters of level or upright words that a window (left, bottom, right, top) shows."""
        if self.turn not in (0.0, 90.0):
            return self
        along = 0 if self.turn == 0.0 else 1
        begin, low, high = self.start[along], window[along], window[along + 2]
        far = [text_width(self.text[:k], self.size, self.bold) for k in range(len(self.text) + 1)]
        if low <= begin and begin + far[-1] <= high:
            return self
        first = max((k for k, way in enumerate(far) if begin + way <= low), default=0)
        last = min((k for k, way in enumerate(far) if begin + way >= high), default=len(self.text))
        start = list(self.start)
        start[along] += far[first]
        return self._replace(x=start[0], y=start[1], text=self.text[first:last], align="left")

    @property
    def box(self) -> Array:
        """The corners (4, 2), mm, of the room that the line takes, tails and accents too."""
        x, y = self.start
        slope = to_radians(self.turn)
        ahead = np.array([np.cos(slope), np.sin(slope)])
        up = np.array([-ahead[1], ahead[0]]) * self.size * PT
        far = ahead * text_width(self.text, self.size, self.bold)
        foot, head = np.array([x, y]) - TAIL * up, np.array([x, y]) + typeset.ABOVE * up
        return np.array([foot, foot + far, head + far, head])


class Drawn(Protocol):
    """What has lines, shapes and words of its own, such as the inside of a frame."""

    @property
    def lines(self) -> list[Line]: ...

    @property
    def shapes(self) -> list[Shape]: ...

    @property
    def words(self) -> list[Words]: ...


class Inset(NamedTuple):
    """What a page shows of a larger drawing: a `window` of it (left, bottom, right, top), its corner `at`."""

    drawing: Drawing
    window: tuple[float, float, float, float]
    at: tuple[float, float]

    @property
    def shift(self) -> tuple[float, float]:
        """From a point of the larger drawing to the same point on the page."""
        return self.at[0] - self.window[0], self.at[1] - self.window[1]

    @property
    def box(self) -> tuple[float, float, float, float]:
        """The window on the page: left, bottom, width, height."""
        left, bottom, right, top = self.window
        return *self.at, right - left, top - bottom

    @property
    def seen(self) -> Drawing:
        """The drawing without what lies outside the window; of words on its edge, the letters in it."""
        whole, part = self.drawing, Drawing(self.drawing.width, self.drawing.height)
        left, bottom, right, top = self.window
        x0, y0, x1, y1 = whole.bounds.T
        inside = ((x0 >= left) & (x1 <= right) & (y0 >= bottom) & (y1 <= top)).tolist()
        meets = ((x1 > left) & (x0 < right) & (y1 > bottom) & (y0 < top)).tolist()
        part.lines = [line for line, shown in zip(whole.lines, meets, strict=False) if shown]
        meets = meets[len(whole.lines) :]
        part.shapes = [shape for shape, shown in zip(whole.shapes, meets, strict=False) if shown]
        meets = meets[len(whole.shapes) :]
        first = len(whole.lines) + len(whole.shapes)
        part.words = [
            words if uncut else words.within(self.window)
            for words, shown, uncut in zip(whole.words, meets, inside[first:], strict=True)
            if shown
        ]
        return part


class Drawing:
    """One page, `width` by `height` mm, y upwards.

    Lines lie under shapes, shapes without an outline under the others, words on top. `draft` puts DRAFT
    in outline from corner to corner, under everything; `over` is a line over all of it; `inset` is a part of
    another drawing, under all but DRAFT.
    """

    def __init__(self, width: float, height: float, *, draft: bool = False, over: str = "") -> None:
        self.width = width
        self.height = height
        self.draft = draft
        self.lines: list[Line] = []
        self.shapes: list[Shape] = []
        self.words: list[Words] = []
        self.inset: Inset | None = None
        self._bounds: tuple[tuple[int, int, int], Array] | None = None
        if over:
            size = shrink_to_fit(over, OVER, width - 2 * SIDE, bold=True)
            self.words.append(Words(SIDE, height - TOP, over, size, bold=True))

    def line(
        self, *points: tuple[float, float], weight: float = 0.75, dash: Dash = "solid"
    ) -> None:
        """Add a line through `points`."""
        self.lines.append(Line(np.array(points, dtype=float), weight, dash))

    @property
    def bounds(self) -> Array:
        """Left, bottom, right, top of every line, shape and line of words, in this order, (n, 4) mm."""
        counts = (len(self.lines), len(self.shapes), len(self.words))
        if self._bounds is None or self._bounds[0] != counts:
            points = [thing.points for thing in self.lines]
            points += [thing.points for thing in self.shapes]
            points += [words.box for words in self.words]
            starts = np.cumsum([0, *map(len, points)])[:-1]
            every = np.concatenate(points) if points else np.zeros((0, 2))
            ends = [end.reduceat(every, starts) for end in (np.minimum, np.maximum)]
            self._bounds = counts, np.concatenate(ends, axis=1)
        return self._bounds[1]

    def add(self, drawn: Drawn) -> None:
        """Add what was drawn elsewhere."""
        self.lines += drawn.lines
        self.shapes += drawn.shapes
        self.words += drawn.words

    def lines_by_look(self) -> dict[tuple[float, Dash], list[Array]]:
        """The lines (n, 2), mm, of each weight in pt and dash, to be drawn in one go."""
        looks: dict[tuple[float, Dash], list[Array]] = {}
        for line in self.lines:
            looks.setdefault((line.weight, line.dash), []).append(line.points)
        return looks

    def shapes_by_look(self) -> dict[tuple[float, Fill], list[Array]]:
        """The outlines (n, 2), mm, of each weight in pt and fill, undermost first."""
        looks: dict[tuple[float, Fill], list[Array]] = {}
        for shape in sorted(self.shapes, key=lambda shape: shape.weight > 0):
            looks.setdefault((shape.weight, shape.fill), []).append(shape.points)
        return looks


def text_width(text: str, size: float, bold: bool = False) -> float:
    """Width of a line of text in mm; `size` in pt."""
    return typeset.text_width(text, typeset.BOLD if bold else typeset.REGULAR, size) * PT


def shrink_to_fit(text: str, size: float, width: float, bold: bool = False) -> float:
    """The type size in pt, `size` or smaller, at which a line is at most `width` mm wide."""
    return min(size, size * width / max(text_width(text, size, bold), 1e-9))


def wrapped(text: str, size: float, width: float, bold: bool = False) -> list[str]:
    """The lines of a text set in `width` mm."""
    return typeset.wrap(text, typeset.BOLD if bold else typeset.REGULAR, size, width / PT)
