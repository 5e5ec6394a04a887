"""The ink of a page, measured in millimetres after it has been made into pixels (by pdfium)."""

from __future__ import annotations

import io
from functools import lru_cache

import numpy as np
import pypdfium2

MM = 72 / 25.4  # pt


class Ink:
    """One page as dark and light pixels. Millimetres from the page's lower edge and its first edge."""

    def __init__(self, dark: np.ndarray, dpi: int) -> None:
        self.dark = dark  # row 0 at the bottom of the page
        self.per_mm = dpi / 25.4

    def part(self, x0: float, y0: float, x1: float, y1: float) -> np.ndarray:
        """The pixels between two corners."""
        columns = [round(x * self.per_mm) for x in (x0, x1)]
        rows = [round(y * self.per_mm) for y in (y0, y1)]
        return self.dark[rows[0] : rows[1], columns[0] : columns[1]]

    def at(self, x: np.ndarray, y: np.ndarray) -> np.ndarray:
        """Whether there is ink at points."""
        column = np.floor(np.asarray(x) * self.per_mm).astype(int)
        row = np.floor(np.asarray(y) * self.per_mm).astype(int)
        return self.dark[row, column]

    def across(self, x: float, y: float) -> tuple[float, float]:
        """Where the ink that holds a point begins and ends along a level line."""
        row = self.dark[int(y * self.per_mm)]
        return self._run(row, int(x * self.per_mm))

    def upright(self, x: float, y: float) -> tuple[float, float]:
        """Where the ink that holds a point begins and ends along an upright line."""
        column = self.dark[:, int(x * self.per_mm)]
        return self._run(column, int(y * self.per_mm))

    def _run(self, line: np.ndarray, k: int) -> tuple[float, float]:
        assert line[k], "no ink there"
        light = np.flatnonzero(~line)
        first = light[light < k].max() + 1
        last = light[light > k].min()
        return first / self.per_mm, last / self.per_mm

    def angles(
        self, x: float, y: float, inner: float, outer: float, sector: tuple[float, float]
    ) -> np.ndarray:
        """Angles in degrees (anticlockwise from the page's x) of all ink in part of a ring."""
        first = [max(int((v - outer) * self.per_mm), 0) for v in (y, x)]
        last = [int((v + outer) * self.per_mm) + 1 for v in (y, x)]
        rows, columns = np.nonzero(self.dark[first[0] : last[0], first[1] : last[1]])
        dx = (columns + first[1] + 0.5) / self.per_mm - x
        dy = (rows + first[0] + 0.5) / self.per_mm - y
        r, angle = np.hypot(dx, dy), np.degrees(np.arctan2(dy, dx))
        inside = (inner < r) & (r < outer) & (sector[0] < angle) & (angle < sector[1])
        return angle[inside]


@lru_cache(16)  # a page takes 15 MB
def ink(data: bytes, page: int, dpi: int = 400) -> Ink:
    """A page's ink, black and anything darker than a middle grey."""
    sheet = pypdfium2.PdfDocument(io.BytesIO(data))[page]
    picture = sheet.render(scale=dpi / 72, grayscale=True, no_smoothtext=True)
    pixels = picture.to_numpy().reshape(picture.height, picture.width)
    return Ink(pixels[::-1] < 128, dpi)
