"""Drawing at true scale: millimetres on paper, arcs, bars that prove a print, tiles folded round a pipe."""

from __future__ import annotations

from collections.abc import Callable
from math import cos, sin

from aimcalc.geometry.vectors import to_radians
from aimcalc.paper.page import KEY, THIN, Sheet
from aimcalc.text.words import INCH, LengthUnit

MM = 72 / 25.4  # pt
CAP = 0.73  # height of capitals and figures, of the type size (DejaVu Sans)


# A tile that is folded round a pipe, of the strip or of a saddle label: mm, type and lines in pt.
TALL = 85.0
BAND = 7.0  # along both edges, for words that go with the tile
LONGEST_BAR = 55.0  # half a yoke-bar line
LEAST = 12.0  # room that a bar line or words are given
AWAY = 3.0  # from the mark to its words
CLAMP, BAR = 2.5, 4.0  # lines: a clamp mark, a yoke-bar line
NUMBER, CIRCUIT, WORDS = 48.0, 24.0, 12.0  # a unit's number, its circuit, all other words
ONLY_TRUE = 'Print at 100 %, never "fit to page". Uniform scaling keeps angles, ruins lengths.'


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


def half_bar(angle: float | None, room: float) -> float:
    """Half the length of a bar line that stays within the tile's height and `room` either side."""
    if angle is None:
        return 0.0
    up, across = abs(sin(to_radians(angle))), abs(cos(to_radians(angle)))
    tall = TALL / 2 - BAND - 1.0
    return min(
        LONGEST_BAR,
        tall / up if up > 1e-9 else LONGEST_BAR,
        max(room, LEAST) / across if across > 1e-9 else LONGEST_BAR,
    )


def draw_bar(
    sheet: Sheet, sides: tuple[float, float], bottom: float, x: float, angle: float, half: float
) -> None:
    """Draw the part of a yoke-bar line that is on the tile, between its `sides`."""
    middle = bottom + TALL * MM / 2
    run, rise = half * MM * cos(to_radians(angle)), half * MM * sin(to_radians(angle))
    ends = [-1.0, 1.0]
    if run > 1e-9:
        ends = [min(max(end, (sides[0] - x) / run), (sides[1] - x) / run) for end in ends]
    (x0, y0), (x1, y1) = ((x + end * run, middle + end * rise) for end in ends)
    sheet.line(x0, y0, x1, y1, weight=BAR)
