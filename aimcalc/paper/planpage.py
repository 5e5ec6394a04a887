"""The page that a plan is drawn on: scale, frame, rulers along it, stage words, header and footer.

Made for any drawing seen from above; what is drawn in the frame is somebody else's. Plan points are
metres (n, 2), paper is millimetres.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.vectors import Array
from aimcalc.named import NamedTuple
from aimcalc.paper.drawing import (
    CAPITAL,
    PT,
    Drawing,
    Fill,
    Line,
    Shape,
    Words,
    shrink_to_fit,
    text_width,
    wrapped,
)
from aimcalc.paper.marks import inside
from aimcalc.paper.page import PAPERS
from aimcalc.text.facts import SHORT
from aimcalc.text.stamp import PaperOptions
from aimcalc.text.words import LengthUnit

if TYPE_CHECKING:
    from aimcalc.scene.model import Scene


Frame = tuple[float, float, float, float]  # left, bottom, right, top

FOOT = 0.3048
EDGE = 7.5  # mm of white at the edge of the paper
HEAD = 24.5  # mm for the header
ROW = 4.4  # mm from line to line of 10 pt text
RULER = 10.0  # mm left of and below the frame for the ruler's figures and a stage word
SIDE = 7.0  # mm right of and above it for a stage word
TICK = 1.2  # mm, half a tick
SHORT_SIDE = 2  # letters of a word beside the frame that stands level
BODY = 10.0  # pt
SMALL = 9.0  # pt, figures of rulers

# Scales that a scale rule has, largest drawing first.
METRIC_SCALES = (10, 20, 25, 50, 75, 100, 125, 150, 200, 250, 300, 400, 500, 750, 1000)
FOOT_SCALES = {
    12: "1",
    16: "3/4",
    24: "1/2",
    32: "3/8",
    48: "1/4",
    64: "3/16",
    96: "1/8",
    128: "3/32",
    192: "1/16",
    384: "1/32",
}


class View(NamedTuple):
    """A piece of the stage on paper: 1 to `scale`, the plan point `origin` at the frame's corner."""

    frame: Frame
    scale: float
    origin: tuple[float, float]

    def to_page(self, points: Array) -> Array:
        """Plan points (n, 2) in metres as paper points in mm."""
        return np.asarray((points - self.origin) * (1000 / self.scale) + self.frame[:2])

    def at(self, x: float, y: float) -> tuple[float, float]:
        """One plan point on paper."""
        per_metre = 1000 / self.scale
        across, up = (x - self.origin[0]) * per_metre, (y - self.origin[1]) * per_metre
        return float(across + self.frame[0]), float(up + self.frame[1])

    def holds(self, x: float, y: float) -> bool:
        """True where a plan point lies in the frame."""
        px, py = self.at(x, y)
        left, bottom, right, top = self.frame
        return left <= px <= right and bottom <= py <= top

    def moved(self, across: float, up: float) -> View:
        """The same piece of the stage elsewhere on paper, so many mm away."""
        left, bottom, right, top = self.frame
        return self._replace(frame=(left + across, bottom + up, right + across, top + up))

    @property
    def reach(self) -> tuple[float, float, float, float]:
        """The frame as plan metres: least x, least y, most x, most y."""
        left, bottom, right, top = self.frame
        per_mm = self.scale / 1000
        x, y = self.origin
        return x, y, x + (right - left) * per_mm, y + (top - bottom) * per_mm


class Axes(NamedTuple):
    """The words beyond each side of a drawing's frame, and those of its rulers at, past and before zero."""

    top: str
    foot: str
    left: str
    right: str
    across: tuple[str, str, str]
    up: tuple[str, str, str]


# Seen from above with the house at the foot of the page.
FROM_ABOVE = Axes("US", "DS", "SR", "SL", ("CL", "SL", "SR"), ("PL", "US", "DS"))


class Notes(NamedTuple):
    """What the page says round the drawing."""

    heading: str  # large
    title: str  # of the scene and the sheet
    facts: Sequence[str]  # two lines under it
    foot: str  # beside the scale
    number: str  # "page 1 of 5"


def from_above(scene: Scene) -> Axes:
    """The words round a plan, with AUDIENCE on the sides where the seats are; DS where none are given."""
    sides = audience_sides(scene)

    def named(side: str) -> str:
        return f"{side}, AUDIENCE" if side in sides else side

    us, ds, sr, sl = (named(side) for side in ("US", "DS", "SR", "SL"))
    return FROM_ABOVE._replace(top=us, foot=ds, left=sr, right=sl)


def audience_sides(scene: Scene) -> set[str]:
    """The sides of the stage that blocks of seats lie beyond; DS without any."""
    outline = scene.stage.outline or scene.stage.acting
    if not scene.seats or not outline:
        return {"DS"}
    low, high = np.array(outline).min(axis=0), np.array(outline).max(axis=0)
    found = set()
    for block in scene.seats:
        x, y = np.array(block.outline).mean(axis=0)
        beyond = {"SL": x - high[0], "SR": low[0] - x, "US": y - high[1], "DS": low[1] - y}
        side = max(beyond, key=lambda side: beyond[side])
        found.add(side if beyond[side] > 0 else "DS")
    return found


def paper_mm(options: PaperOptions, landscape: bool) -> tuple[float, float]:
    """Width and height of the paper."""
    short, long = (side * PT for side in PAPERS[options.paper])
    return (long, short) if landscape else (short, long)


def frame_of(width: float, height: float) -> Frame:
    """The frame that header, footer and rulers leave on the paper."""
    return (
        EDGE + RULER,
        footer_row(width, 2) + RULER,
        width - EDGE - SIDE,
        height - EDGE - HEAD - SIDE,
    )


def fit_view(extent: Frame, wish: Frame, frame: Frame, unit: LengthUnit) -> View:
    """The largest drawing on a ruler's scale that shows all of `extent` (plan metres).

    What room is left shows as much of `wish`, which holds `extent`, as it can.
    """
    across, up = frame[2] - frame[0], frame[3] - frame[1]
    least = 1000 * max((extent[2] - extent[0]) / across, (extent[3] - extent[1]) / up, 1e-6)
    scales = METRIC_SCALES if unit == "m" else tuple(FOOT_SCALES)
    scale = next((s for s in scales if s >= least), float(np.ceil(least / 100) * 100))
    x = _start(extent[0], extent[2], wish[0], wish[2], across * scale / 1000)
    y = _start(extent[1], extent[3], wish[1], wish[3], up * scale / 1000)
    return View(frame, scale, (x, y))


def _start(low: float, high: float, wish_low: float, wish_high: float, room: float) -> float:
    """Where a stretch of length `room` starts that holds low to high, and the wish if it can."""
    if wish_high - wish_low <= room:
        return (wish_low + wish_high - room) / 2
    spare = room - (high - low)
    below, above = low - wish_low, wish_high - high
    return low - spare * (below / (below + above) if below + above > 0 else 0.5)


def scale_words(scale: float, unit: LengthUnit) -> str:
    """The scale as people say it: "1:50", "1/4" = 1'-0" (1:48)"."""
    if unit == "ft" and scale in FOOT_SCALES:
        return f'{FOOT_SCALES[int(scale)]}" = 1\'-0" (1:{scale:.0f})'
    return f"1:{scale:.0f}"


def new_page(
    options: PaperOptions,
    width: float,
    height: float,
    view: View,
    notes: Notes,
    axes: Axes = FROM_ABOVE,
) -> Drawing:
    """A page with its frame, rulers, zero lines, header and footer; the inside is empty."""
    drawing = Drawing(width, height, draft=options.draft, over=options.over)
    _header(drawing, notes)
    framed(drawing, view, options.length, axes)
    _footer(drawing, view, notes, options.length)
    return drawing


def framed(drawing: Drawing, view: View, unit: LengthUnit, axes: Axes = FROM_ABOVE) -> None:
    """Draw the frame of a view, the words beyond its sides, the zero lines and the rulers."""
    _frame(drawing, view)
    _side_words(drawing, view.frame, axes)
    _rulers(drawing, view, unit, axes)


def footer_row(width: float, row: int) -> float:
    """Base line of a row of the footer: 0 that of the scale bar, 1 the one above it."""
    return EDGE + len(_caution_rows(width)) * ROW + 1.5 + row * (ROW + 1.8)


@cache
def _caution_rows(width: float) -> list[str]:
    return wrapped(SHORT, BODY, width - 2 * EDGE, bold=True)


def _header(drawing: Drawing, notes: Notes) -> None:
    top, right = drawing.height - EDGE, drawing.width - EDGE
    number = text_width(notes.number, BODY, True)
    room = right - EDGE - number - 6
    drawing.words.append(Words(right - number, top - 4, notes.number, BODY, True))
    size = shrink_to_fit(notes.heading, 24, room, True)
    drawing.words.append(Words(EDGE, top - 7.5, notes.heading, size, True))
    for row, line in enumerate((notes.title, *notes.facts)):
        size = shrink_to_fit(line, BODY, right - EDGE)
        drawing.words.append(Words(EDGE, top - 13.5 - row * ROW, line, size, row == 0))


def _frame(drawing: Drawing, view: View) -> None:
    left, bottom, right, top = view.frame
    drawing.line(
        (left, bottom), (right, bottom), (right, top), (left, top), (left, bottom), weight=1.0
    )


def _side_words(drawing: Drawing, frame: Frame, axes: Axes) -> None:
    """The words outside the frame."""
    left, bottom, right, top = frame
    x, y, half = (left + right) / 2, (bottom + top) / 2, CAPITAL * 12 * PT / 2
    drawing.words.append(Words(x, top + 1.6, axes.top, 12, True, "centre"))
    drawing.words.append(Words(x, bottom - 9.2, axes.foot, 12, True, "centre"))
    for at, word in ((left - 8.6, axes.left), (right + 4.2, axes.right)):
        if len(word) > SHORT_SIDE:  # on end, read from the foot of the page
            drawing.words.append(Words(at + half, y, word, 12, True, "centre", turn=90.0))
        elif word:
            drawing.words.append(Words(at, y - half, word, 12, True, "centre"))


def _rulers(drawing: Drawing, view: View, unit: LengthUnit, axes: Axes) -> None:
    """The two zero lines with ticks (on a plan: centre and plaster line), and figures along the frame."""
    step, every = _tick_steps(view, unit)
    x0, y0, x1, y1 = view.reach
    for line in (np.array([(0.0, y0), (0.0, y1)]), np.array([(x0, 0.0), (x1, 0.0)])):
        for run in inside(view.to_page(line), view.frame):
            drawing.lines.append(Line(run.points, 0.75, "chain"))
    for k in range(int(np.ceil(x0 / step)), int(x1 / step) + 1):
        x, y = view.at(k * step, 0.0)
        _tick(drawing, view, (x, y - TICK), (x, y + TICK))
        if k % every == 0:
            _bottom_figure(drawing, view, x, _figure(k * step, axes.across, unit))
    for k in range(int(np.ceil(y0 / step)), int(y1 / step) + 1):
        x, y = view.at(0.0, k * step)
        _tick(drawing, view, (x - TICK, y), (x + TICK, y))
        if k % every == 0:
            _side_figure(drawing, view, y, _figure(k * step, axes.up, unit))


def ruler_dashes(view: View) -> list[Array]:
    """What of the zero lines can be read as a dash: the level one, and the ticks across the upright one.

    Lines (2, 2), rows x, y, millimetres on paper, none of them beyond the view's frame. Where the ticks are
    depends on the unit; here they are wherever they may be.
    """
    (x, y), (left, bottom, right, top) = view.at(0.0, 0.0), view.frame
    near, far = max(x - TICK, left), min(x + TICK, right)
    ticks = np.arange(bottom, top, 2 * TICK).tolist() if near < far else []
    dashes = [np.array([(near, at), (far, at)]) for at in ticks]
    return [*dashes, np.array([(left, y), (right, y)])] if bottom <= y <= top else dashes


def _tick_steps(view: View, unit: LengthUnit) -> tuple[float, int]:
    """Metres from tick to tick (0.5 m or 2 ft, more on a small drawing), and ticks to a figure."""
    step = 0.5 if unit == "m" else 2 * FOOT
    while step * 1000 / view.scale < 2.0:
        step *= 5
    every = 1
    while every * step * 1000 / view.scale < 18.0:
        every = {1: 2, 2: 4, 4: 5, 5: 10}.get(every, every * 2)
    return step, every


def _figure(metres: float, said: tuple[str, str, str], unit: LengthUnit) -> str:
    zero, plus, minus = said
    amount = f"{abs(metres):.4g} m" if unit == "m" else f"{abs(metres) / FOOT:.4g}'"
    return f"{amount} {plus if metres > 0 else minus}".rstrip() if metres else zero


def _tick(drawing: Drawing, view: View, a: tuple[float, float], b: tuple[float, float]) -> None:
    for run in inside(np.array([a, b]), view.frame):
        drawing.lines.append(Line(run.points, 0.75))


def _bottom_figure(drawing: Drawing, view: View, x: float, text: str) -> None:
    left, bottom, right, _ = view.frame
    half = text_width(text, SMALL) / 2
    if left + half <= x <= right - half:
        drawing.line((x, bottom), (x, bottom - 1.0))
        drawing.words.append(Words(x, bottom - 4.2, text, SMALL, align="centre"))


def _side_figure(drawing: Drawing, view: View, y: float, text: str) -> None:
    left, bottom, _, top = view.frame
    half = text_width(text, SMALL) / 2
    if bottom + half <= y <= top - half:
        drawing.line((left, y), (left - 1.0, y))
        drawing.words.append(Words(left - 1.7, y, text, SMALL, align="centre", turn=90.0))


def _footer(drawing: Drawing, view: View, notes: Notes, unit: LengthUnit) -> None:
    """Scale bar, scale and the notes in a row, the cautions under them."""
    y = footer_row(drawing.width, 0)
    x = _scale_bar(drawing, EDGE, y, view.scale, unit) + 4
    said = f"scale {scale_words(view.scale, unit)}"
    drawing.words.append(Words(x, y, said, BODY, True))
    x += text_width(said, BODY, True) + 5
    size = shrink_to_fit(notes.foot, BODY, drawing.width - EDGE - x)
    drawing.words.append(Words(x, y, notes.foot, size))
    for k, row in enumerate(reversed(_caution_rows(drawing.width))):
        drawing.words.append(Words(EDGE, EDGE + k * ROW, row, BODY, True))


def _scale_bar(drawing: Drawing, x: float, y: float, scale: float, unit: LengthUnit) -> float:
    """Two boxes, black and white, with their lengths; where it ends on the page comes back."""
    metre = 1.0 if unit == "m" else FOOT
    amounts = (0.5, 1, 2, 5, 10, 20, 50, 100, 200)
    amount = next((a for a in amounts if a * metre * 1000 / scale >= 12), 500)
    box = amount * metre * 1000 / scale
    fills: tuple[Fill, Fill] = ("black", "white")
    for k, fill in enumerate(fills):
        drawing.shapes.append(
            Shape(_rectangle(x + k * box, y, x + (k + 1) * box, y + 1.8), 0.75, fill)
        )
    for k in range(3):
        text = f"{k * amount:g}" + (f" {unit}" if k == 2 else "")
        drawing.words.append(
            Words(x + k * box, y + 2.6, text, SMALL, align="centre" if k else "left")
        )
    return x + 2 * box + text_width(text, SMALL) / 2


def _rectangle(left: float, bottom: float, right: float, top: float) -> Array:
    return np.array([(left, bottom), (right, bottom), (right, top), (left, top)])
