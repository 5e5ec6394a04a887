"""Drawing at true scale: millimetres on paper, arcs with their ticks, bars to prove the printer with."""

from __future__ import annotations

from collections.abc import Callable
from math import cos, sin

from aimcalc.geometry.vectors import to_radians
from aimcalc.paper.page import KEY, THIN, Sheet
from aimcalc.text.words import INCH, LengthUnit

MM = 72 / 25.4  # pt
CAP = 0.73  # height of capitals and figures, of the type size (DejaVu Sans)


def proof_length(length: LengthUnit) -> float:
    """Length of a proof bar in mm: 100 mm, or 4 in."""
    return 4000 * INCH if length == "ft" else 100.0


def proof_words(length: LengthUnit) -> str:
    """What a proof bar is called: "100 mm", "4 in"."""
    return "4 in" if length == "ft" else "100 mm"


def bar_across(sheet: Sheet, x: float, y: float, length: float) -> None:
    """Draw a proof bar from (x, y) to the end of the line; `length` in mm, the rest in pt.

    Its length is between the outer edges of its end strokes.
    """
    end = x + length * MM
    sheet.line(x, y, end, y, weight=KEY)
    for stroke in (x + KEY / 2, end - KEY / 2):
        sheet.line(stroke, y - 4, stroke, y + 4, weight=KEY)


def bar_upright(sheet: Sheet, x: float, y: float, length: float) -> None:
    """Draw a proof bar from (x, y) up the page, as `bar_across`."""
    end = y + length * MM
    sheet.line(x, y, x, end, weight=KEY)
    for stroke in (y + KEY / 2, end - KEY / 2):
        sheet.line(x - 4, stroke, x + 4, stroke, weight=KEY)


class Round:
    """A scale round a centre: `place(angle, radius)` gives points; angles as the scale reads them.

    `page_angle` turns a reading in degrees into degrees anticlockwise from the page's x. Radii in mm.
    """

    def __init__(
        self, sheet: Sheet, x: float, y: float, page_angle: Callable[[float], float]
    ) -> None:
        self.sheet = sheet
        self.x = x
        self.y = y
        self.page_angle = page_angle

    def place(self, reading: float, radius: float) -> tuple[float, float]:
        """A point of the scale, in pt."""
        angle = to_radians(self.page_angle(reading))
        return self.x + radius * MM * cos(angle), self.y + radius * MM * sin(angle)

    def tick(self, reading: float, inner: float, outer: float, weight: float = THIN) -> None:
        """Draw a stroke along a radius."""
        self.sheet.line(*self.place(reading, inner), *self.place(reading, outer), weight=weight)

    def arc(self, first: float, last: float, radius: float, weight: float = THIN) -> None:
        """Draw an arc between two readings."""
        start, end = self.page_angle(first), self.page_angle(last)
        canvas, r = self.sheet.canvas, radius * MM
        canvas.setLineWidth(weight)
        canvas.setDash([])
        canvas.arc(self.x - r, self.y - r, self.x + r, self.y + r, start, end - start)

    def figure(self, reading: float, radius: float, words: str, size: float, bold: bool) -> None:
        """Draw upright words centred on a point of the scale."""
        x, y = self.place(reading, radius)
        self.sheet.text(x, y - CAP * size / 2, words, size, bold=bold, align="c")
