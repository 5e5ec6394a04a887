"""The sheet that a section is drawn on: A3 or tabloid on its long side, room for dimensions and a table."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from aimcalc.geometry.vectors import Array
from aimcalc.sheets.drawing import PT, Drawing, Words, text_width
from aimcalc.sheets.paper import PAPERS, PaperOptions
from aimcalc.sheets.planpage import ROW, Frame, View, fit_view, footer_row, frame_of

BAND = 74.0  # mm right of the frame for heights
FOOT = 34.0  # mm under it for distances
AIR = 0.6  # m round what must be shown
SPARE = 0.1  # mm, so that rounding does not cost a step of the scale
TEXT = 10.0  # pt
COLUMN_GAP = 5.0  # mm


def paper_mm(options: PaperOptions) -> tuple[float, float]:
    """Width and height of the paper lying on its long side: twice the crew's sheets, A3 or tabloid."""
    short, long = PAPERS[options.paper]
    return 2 * short * PT, long * PT


def view_of(must: Array, wish: Array, options: PaperOptions, rows: int) -> View:
    """The largest drawing on a ruler's scale that shows all of `must` (2, N), and as much of `wish`.

    Room is left under it for a table of so many rows; the frame is no higher than the drawing needs.
    """
    width, page_height = paper_mm(options)
    left, _, right, top = frame_of(width, page_height)
    least = footer_row(width, 1) + rows * ROW + FOOT + 8.0
    frame = left, least, right - BAND, top
    low, high = must.min(axis=1) - AIR, must.max(axis=1) + AIR
    wish_low = np.minimum(low, wish.min(axis=1, initial=np.inf) - AIR)
    wish_high = np.maximum(high, wish.max(axis=1, initial=-np.inf) + AIR)
    view = fit_view(_corners(low, high), _corners(wish_low, wish_high), frame, options.length)
    tall = (wish_high[1] - wish_low[1]) * 1000 / view.scale + SPARE
    bottom = max(least, top - tall)
    return fit_view(
        _corners(low, high),
        _corners(wish_low, wish_high),
        (left, bottom, right - BAND, top),
        options.length,
    )


def _corners(low: Array, high: Array) -> Frame:
    return float(low[0]), float(low[1]), float(high[0]), float(high[1])


def write_rows(page: Drawing, rows: Sequence[Sequence[str]], left: float, top: float) -> None:
    """A table with its first row bold, the columns as wide as their widest cell."""
    x = left
    for column in zip(*rows, strict=True):
        y = top - ROW
        for number, cell in enumerate(column):
            page.words.append(Words(x, y, cell, TEXT, number == 0))
            y -= ROW
        x += max(text_width(cell, TEXT, n == 0) for n, cell in enumerate(column)) + COLUMN_GAP
