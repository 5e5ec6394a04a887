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

Dash = Literal["solid", "dashed", "chain", "dotted"]
Fill = Literal["white", "black", "none"]
Align = Literal["left", "centre", "right"]

# Lengths of strokes and gaps, of the line's weight.
DASHES: dict[Dash, tuple[float, ...]] = {
    "solid": (),
    "dashed": (5, 3),
    "chain": (12, 3, 2, 3),
    "dotted": (1.5, 2),
}
ALIGNED: dict[Align, float] = {"left": 0.0, "centre": 0.5, "right": 1.0}
OVER = 10.0  # pt, the line over a page
SIDE, TOP = 7.5, 6.6  # mm from the edges of the paper to it
CAPITAL, TAIL = typeset.CAPITAL, typeset.TAIL
DRAFT_SIZE, HALF_BLACK = typeset.DRAFT_SIZE, typeset.HALF_BLACK


class Line(NamedTuple):
    """A run of straight pieces; `points` is (n, 2) mm, `weight` pt."""

    points: Array
    weight: float = 0.75
    dash: Dash = "solid"


class Shape(NamedTuple):
    """A closed outline, filled white or black (`fill`), or not at all; weight 0 draws no outline."""

    points: Array
    weight: float = 0.75
    fill: Fill = "white"


class Words(NamedTuple):
    """One line of text with its base line at `y`; `size` pt."""

    x: float
    y: float
    text: str
    size: float = 10.0
    bold: bool = False
    align: Align = "left"
    turn: float = 0.0  # degrees anticlockwise

    @property
    def start(self) -> tuple[float, float]:
        """Where its first letter begins."""
        back = ALIGNED[self.align] * text_width(self.text, self.size, self.bold)
        slope = to_radians(self.turn)
        return float(self.x - back * np.cos(slope)), float(self.y - back * np.sin(slope))


class Drawn(Protocol):
    """What has lines, shapes and words of its own, such as the inside of a frame."""

    @property
    def lines(self) -> list[Line]: ...

    @property
    def shapes(self) -> list[Shape]: ...

    @property
    def words(self) -> list[Words]: ...


class Drawing:
    """One page, `width` by `height` mm, y upwards.

    Lines lie under shapes, shapes without an outline under the others, words on top. `draft` puts DRAFT
    in outline from corner to corner, under everything; `over` is a line over all of it.
    """

    def __init__(self, width: float, height: float, *, draft: bool = False, over: str = "") -> None:
        self.width = width
        self.height = height
        self.draft = draft
        self.lines: list[Line] = []
        self.shapes: list[Shape] = []
        self.words: list[Words] = []
        if over:
            size = shrink_to_fit(over, OVER, width - 2 * SIDE, bold=True)
            self.words.append(Words(SIDE, height - TOP, over, size, bold=True))

    def line(
        self, *points: tuple[float, float], weight: float = 0.75, dash: Dash = "solid"
    ) -> None:
        """Add a line through `points`."""
        self.lines.append(Line(np.array(points, dtype=float), weight, dash))

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
