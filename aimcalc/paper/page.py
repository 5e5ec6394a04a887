"""PDF pages that a crew can read in the dark: fonts, fitted text, frame, footer, DRAFT.

Black on white; greys no lighter than half black; lines at least `THIN`. Text is measured before it is
drawn and made narrower, then smaller, until it fits the width it was given: nothing is clipped and
nothing runs into its neighbour. The same calls give the same bytes.

A maker of sheets lays out its pages first, as a list of `Page`, and hands them to `write_pages`; so
each footer can say "page n of m". Lengths are points (1/72 in), y upwards, as in PDF.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from functools import partial
from math import sqrt
from typing import Any, BinaryIO, Literal
from zlib import crc32

from aimcalc.named import NamedTuple
from aimcalc.paper.drawpdf import Book
from aimcalc.text.stamp import PaperOptions
from aimcalc.text.typeset import (
    ABOVE,
    BOLD,
    HEAVIER,
    LEADING,
    NARROWEST,
    REGULAR,
    Fitted,
    fit,
    new_canvas,
    pdf_bytes,
    shorten,
    show,
    text_width,
    watermark,
    wrap,
)
from aimcalc.text.whole import write_whole

THIN = 0.75  # pt, the thinnest line that lives through two photocopies
RULE = 1.25  # pt, lines between cells
KEY = 2.0  # pt, lines that matter

MARGIN = 17.0  # pt at the sides; most printers reach to 12
EDGE = 14.0  # pt at top and bottom
LEAST_TITLE = 8  # letters that a footer keeps of the title
SMALL = 10.0  # pt, cautions and footer; no sentence on paper is set smaller
CURVE = (
    4 / 3 * (sqrt(2) - 1)
)  # of a circle's radius: how far its curves' own points lie from their ends
WHAT_IF = 10.0  # pt, the line over a page that says what was set for this print alone

PAPERS = {"a4": (595.276, 841.890), "letter": (612.0, 792.0)}

Align = Literal["l", "c", "r"]
Target = str | os.PathLike[str] | BinaryIO | Book


class Box(NamedTuple):
    """A rectangle on the page."""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def width(self) -> float:
        """Left to right."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """Bottom to top."""
        return self.top - self.bottom

    def inset(self, by: float) -> Box:
        """The box made smaller by `by` on every side."""
        return Box(self.left + by, self.bottom + by, self.right - by, self.top - by)


class Sheet:
    """One page being drawn. `body` is what the frame leaves free."""

    def __init__(self, canvas: Any, body: Box) -> None:
        self.canvas = canvas
        self.body = body

    def again(self, name: str, draw: Callable[[Sheet], None]) -> None:
        """Draw what many pages share: by `draw` the first time, then from what was drawn under `name`."""
        if not self.canvas.hasForm(name):
            self.canvas.beginForm(name)
            draw(self)
            self.canvas.endForm()
        self.canvas.doForm(name)

    def text(
        self,
        x: float,
        y: float,
        words: str,
        size: float,
        *,
        bold: bool = False,
        align: Align = "l",
        width: float | None = None,
        white: bool = False,
    ) -> float:
        """Draw one line with its base line at `y`, fitted into `width`; its drawn width comes back."""
        font = BOLD if bold else REGULAR
        fitted = fit(words, font, size, width)
        start = x - fitted.width * {"l": 0.0, "c": 0.5, "r": 1.0}[align]
        self._letters(fitted, font, f"{fitted.squeeze:.4f} 0 0 1 {start:.3f} {y:.3f}", white)
        return fitted.width

    def upright_text(self, x: float, y: float, words: str, size: float, width: float) -> None:
        """Draw one line on end, reading upwards from `y`, its base line at `x`."""
        fitted = fit(words, REGULAR, size, width)
        self._letters(fitted, REGULAR, f"0 {fitted.squeeze:.4f} -1 0 {x:.3f} {y:.3f}", False)

    def _letters(self, fitted: Fitted, font: str, place: str, white: bool) -> None:
        shown = show(fitted, font, self.canvas, white=white)
        ink = f"{int(white)} g"
        if font == REGULAR:
            ink += f" 0 G {HEAVIER * fitted.size:.3f} w [] 0 d 2 Tr"
            shown += " 0 Tr"
        self.canvas.addLiteral(f"BT {ink} {place} Tm {shown} ET")

    def paragraph(
        self, x: float, top: float, words: str, size: float, width: float, *, bold: bool = False
    ) -> float:
        """Draw wrapped lines below `top`; the y below the last one comes back."""
        y = top
        for line in wrap(words, BOLD if bold else REGULAR, size, width):
            y -= size * LEADING
            self.text(x, y + size * (LEADING - ABOVE), line, size, bold=bold, width=width)
        return y

    def line(
        self, x0: float, y0: float, x1: float, y1: float, *, weight: float = THIN, dash: float = 0
    ) -> None:
        """Draw a straight line, dashed where `dash` gives the length of a dash."""
        dashes = f"{dash:.3f} {dash:.3f}" if dash else ""
        self.canvas.addLiteral(
            f"{weight:.3f} w [{dashes}] 0 d {x0:.3f} {y0:.3f} m {x1:.3f} {y1:.3f} l S"
        )

    def box(self, box: Box, *, weight: float = THIN, black: bool = False) -> None:
        """Draw the outline of a box, or fill it black."""
        place = f"{box.left:.3f} {box.bottom:.3f} {box.width:.3f} {box.height:.3f}"
        self.canvas.addLiteral(f"0 g {weight:.3f} w [] 0 d {place} re {'B' if black else 'S'}")

    def blank(self, box: Box) -> None:
        """Paint a box white, over what was drawn before."""
        self.canvas.setFillGray(1.0)
        self.canvas.rect(box.left, box.bottom, box.width, box.height, stroke=0, fill=1)

    def shape(
        self,
        points: Sequence[tuple[float, float]],
        *,
        weight: float = THIN,
        black: bool = False,
        white: bool = False,
    ) -> None:
        """Draw a closed outline through `points`, or fill it black or white."""
        path = " l ".join([f"{x:.3f} {y:.3f}" for x, y in points]).replace(" l ", " m ", 1)
        paint = "b" if black or white else "s"
        self.canvas.addLiteral(f"{int(white)} g {weight:.3f} w [] 0 d {path} l {paint}")

    def curve(self, points: Sequence[tuple[float, float]], *, weight: float = THIN) -> None:
        """Draw a curve from the first of four points to the last, the two between drawing it to them."""
        (x, y), *rest = points
        path = self.canvas.beginPath()
        path.moveTo(x, y)
        path.curveTo(*(each for point in rest for each in point))
        self.canvas.setLineWidth(weight)
        self.canvas.setDash([])
        self.canvas.drawPath(path)

    def circle(self, x: float, y: float, radius: float, *, weight: float = THIN) -> None:
        """Draw a circle, of four curves."""
        r, c = radius, CURVE * radius
        half = (r, -c, c, -r, 0.0, -r, -c, -r, -r, -c, -r, 0.0)  # from its start, two curves
        ways = (r, 0.0, *half, *(-way for way in half))
        spots = [f"{way + (y if k % 2 else x):.4f}" for k, way in enumerate(ways)]
        curves = [f"{' '.join(spots[k : k + 6])} c" for k in range(2, 26, 6)]
        path = f"{spots[0]} {spots[1]} m {' '.join(curves)}"
        self.canvas.addLiteral(f"{weight:.3f} w [] 0 d {path} S")

    def arrow(self, x0: float, y0: float, x1: float, y1: float, *, weight: float = KEY) -> None:
        """Draw a line with a solid head at its far end."""
        size = 3.5 * weight
        long = max(((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5, 1e-6)
        ux, uy = (x1 - x0) / long, (y1 - y0) / long
        bx, by = x1 - 1.6 * size * ux, y1 - 1.6 * size * uy
        self.line(x0, y0, bx, by, weight=weight)
        half = 0.62 * size
        self.shape(
            [(x1, y1), (bx - half * uy, by + half * ux), (bx + half * uy, by - half * ux)],
            black=True,
        )


class Page(NamedTuple):
    """One page: what draws it, what its footer tells, and the cautions at its foot."""

    draw: Callable[[Sheet], None]
    footer: str
    cautions: str = ""


def write_pages(
    target: Target,
    pages: Sequence[Page],
    options: PaperOptions,
    *,
    title: str,
    landscape: bool = False,
) -> int:
    """Number of pages, written to a path (whole or not at all), to a binary stream, or into a book.

    `title` is the document's own title. Raises OSError when the disk refuses.
    """
    size = paper_size(options, landscape)
    if isinstance(target, Book):
        for page in pages:
            target.add(size, partial(_draw_leaf, size, page, options))
        return len(pages)
    canvas = new_canvas(title, size, options.stamp)
    for number, page in enumerate(pages, 1):
        _draw_page(canvas, size, page, options.numbered(number, len(pages)), options)
        canvas.showPage()
    _put(target, pdf_bytes(canvas))
    return len(pages)


def _draw_leaf(
    size: tuple[float, float], page: Page, options: PaperOptions, canvas: Any, number: str
) -> None:
    _draw_page(canvas, size, page, number, options)


def paper_size(options: PaperOptions, landscape: bool) -> tuple[float, float]:
    """Width and height of the paper in points."""
    short, long = PAPERS[options.paper]
    return (long, short) if landscape else (short, long)


def body_of(options: PaperOptions, landscape: bool, cautions: str = "") -> Box:
    """The part of a page that its frame leaves free, for laying out before drawing."""
    width, height = paper_size(options, landscape)
    lines = 1 + len(_caution_lines(cautions, width - 2 * MARGIN))
    foot = EDGE + lines * SMALL * LEADING + (3 if cautions else 1)
    return Box(MARGIN, foot, width - MARGIN, height - _top(options))


def _top(options: PaperOptions) -> float:
    """What is left free over a page's body: its edge, and the line of what was set for this print alone."""
    return EDGE + (WHAT_IF if options.what_if else 0.0)


def _draw_page(
    canvas: Any, size: tuple[float, float], page: Page, number: str, options: PaperOptions
) -> None:
    width, height = size
    cautions = _caution_lines(page.cautions, width - 2 * MARGIN)
    foot = EDGE + (1 + len(cautions)) * SMALL * LEADING + (3 if cautions else 1)
    sheet = Sheet(canvas, Box(MARGIN, foot, width - MARGIN, height - _top(options)))
    if options.draft:
        watermark(canvas, width, height)
    if options.what_if:
        room = width - 2 * MARGIN
        sheet.text(MARGIN, height - EDGE - 5.0, options.over, SMALL, bold=True, width=room)
    page.draw(sheet)
    taken = sheet.text(
        sheet.body.right,
        EDGE + 2.5,
        number,
        SMALL,
        bold=True,
        align="r",
    )
    room = sheet.body.right - MARGIN - taken - 12
    sheet.text(MARGIN, EDGE + 2.5, _footer_in(page.footer, room), SMALL, width=room)
    if cautions:
        name = f"cautions{crc32(page.cautions.encode()):08x}-{width:.0f}"
        sheet.again(name, partial(_draw_cautions, cautions))


def _footer_in(footer: str, width: float) -> str:
    """A footer whose title, all before its first bar, is cut as far as the facts after it need the room."""
    title, bar, facts = footer.partition(" | ")
    letters, told = len(title), footer
    while letters > LEAST_TITLE and NARROWEST * text_width(told, REGULAR, SMALL) > width:
        letters -= 1
        told = f"{shorten(title, letters)}{bar}{facts}"
    return told


def _draw_cautions(cautions: list[str], sheet: Sheet) -> None:
    left, right = sheet.body.left, sheet.body.right
    widths = [text_width(line, REGULAR, SMALL) for line in cautions]
    squeeze = min(1.0, (right - left) / max(widths))  # the same for every line
    y = EDGE + 2.5
    for line, width in zip(reversed(cautions), reversed(widths), strict=True):
        y += SMALL * LEADING
        sheet.text(left, y, line, SMALL, width=squeeze * width)
    top = y + SMALL * LEADING - 1.5
    sheet.line(left, top, right, top, weight=THIN)


def _caution_lines(cautions: str, width: float) -> list[str]:
    """Cautions in full size, squeezed a little so that they take fewer lines."""
    return wrap(cautions, REGULAR, SMALL, width / 0.84) if cautions else []


def _put(target: str | os.PathLike[str] | BinaryIO, data: bytes) -> None:
    if isinstance(target, (str, os.PathLike)):
        write_whole(os.fspath(target), data)
    else:
        target.write(data)
