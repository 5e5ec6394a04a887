"""Drawings as the pages of a PDF, and pages of several sheets gathered into one, each drawn once.

The same drawings give the same bytes. A book is written into as a stream is.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from math import cos, sin
from typing import TYPE_CHECKING, Any, BinaryIO

from aimcalc.geometry.vectors import Array, to_radians
from aimcalc.named import NamedTuple
from aimcalc.paper.drawing import DASHES, PT, Drawing, Inset
from aimcalc.rig.letters import spelled
from aimcalc.text.stamp import NO_SET, Stamp
from aimcalc.text.typeset import (
    BOLD,
    HEAVIER,
    REGULAR,
    Fitted,
    new_canvas,
    pdf_bytes,
    show,
    watermark,
)

if TYPE_CHECKING:
    from aimcalc.solid.rig import SolidRig
    from aimcalc.text.stamp import PaperOptions


PLAIN = 10.0  # pt, of nearly all plain words on a drawing


class Leaf(NamedTuple):
    """One page: its size in points, and what draws it on a canvas, given what its corner says.

    A drawing to scale has its own corner, numbered sheet by sheet, and takes no notice.
    """

    size: tuple[float, float]
    draw: Callable[[Any, str], None]


class Book:
    """What `write_pages` and `write_pdf` put their pages into, instead of a file of their own."""

    def __init__(self) -> None:
        self.leaves: list[Leaf] = []

    def add(self, size: tuple[float, float], draw: Callable[[Any, str], None]) -> None:
        """Put one page behind the others."""
        self.leaves.append(Leaf(size, draw))

    def pdf(self, options: PaperOptions, title: str) -> bytes:
        """The whole book, its pages numbered through."""
        canvas = new_canvas(title, stamp=options.stamp)
        for number, leaf in enumerate(self.leaves, 1):
            canvas.setPageSize(leaf.size)
            leaf.draw(canvas, options.numbered(number, len(self.leaves)))
            canvas.showPage()
        return pdf_bytes(canvas)


def write_pdf(
    stream: BinaryIO | Book, drawings: Sequence[Drawing], title: str, stamp: Stamp = NO_SET
) -> None:
    """Write one page per drawing, to a binary stream or into a book."""
    if isinstance(stream, Book):
        for drawing in drawings:
            stream.add((drawing.width / PT, drawing.height / PT), partial(_draw_leaf, drawing))
        return
    canvas = new_canvas(title, stamp=stamp)
    for drawing in drawings:
        canvas.setPageSize((drawing.width / PT, drawing.height / PT))
        _draw(canvas, drawing)
        canvas.showPage()
    stream.write(pdf_bytes(canvas))


def _draw_leaf(drawing: Drawing, canvas: Any, number: str) -> None:
    _draw(canvas, drawing)


def _draw(canvas: Any, drawing: Drawing) -> None:
    if drawing.draft:
        watermark(canvas, drawing.width / PT, drawing.height / PT)
    if drawing.inset is not None:
        _inset(canvas, drawing.inset)
    canvas.setLineJoin(1)
    canvas.setStrokeGray(0.0)
    for (weight, dash), runs in drawing.lines_by_look().items():
        canvas.setLineWidth(weight)
        canvas.setDash([weight * part for part in DASHES[dash]])
        canvas.addLiteral("\n".join([_path(run) for run in runs] + ["S"]))
    canvas.setDash([])
    for (weight, fill), outlines in drawing.shapes_by_look().items():
        canvas.setLineWidth(weight)
        canvas.setFillGray(1.0 if fill == "white" else 0.0)
        paint = {(True, True): "b", (True, False): "s", (False, True): "f"}[
            weight > 0, fill != "none"
        ]
        canvas.addLiteral("\n".join([f"{_path(outline)} {paint}" for outline in outlines]))
    canvas.setFillGray(0.0)
    _words(canvas, drawing)


def _inset(canvas: Any, inset: Inset) -> None:
    """The part of a larger drawing that its window shows."""
    canvas.saveState()
    box = canvas.beginPath()
    box.rect(*(side / PT for side in inset.box))
    canvas.clipPath(box, stroke=0, fill=0)
    canvas.translate(*(way / PT for way in inset.shift))
    _draw(canvas, inset.seen)
    canvas.restoreState()


def _path(points: Array) -> str:
    """The operators that move along points given in mm."""
    form = "%.2f %.2f m" + " %.2f %.2f l" * (len(points) - 1)
    return form % tuple((points / PT).ravel().tolist())


def _words(canvas: Any, drawing: Drawing) -> None:
    shown = []
    for words in drawing.words:
        c, s = cos(to_radians(words.turn)), sin(to_radians(words.turn))
        x, y = words.start
        line = Fitted(spelled(words.text), words.size, 1.0, 0.0)
        ink = "0 Tr" if words.bold else f"{HEAVIER * PLAIN:.3f} w 2 Tr"
        place = f"{c:.6f} {s:.6f} {-s:.6f} {c:.6f} {x / PT:.3f} {y / PT:.3f} Tm"
        shown.append(f"{ink} {place} {show(line, BOLD if words.bold else REGULAR, canvas)}")
    canvas.addLiteral("\n".join(["BT", *shown, "0 Tr ET"]))


def write_drawings(
    rig: SolidRig,
    what: str,
    drawings: Sequence[Drawing],
    options: PaperOptions,
    pdf: BinaryIO | Book,
    png: BinaryIO | None = None,
) -> int:
    """Number of pages: a page a drawing in `pdf`, all of them in one picture in `png` if it is given.

    `what` is the sheet's name, which stands in the PDF's own title after the scene's.
    """
    write_pdf(pdf, drawings, f"{rig.scene.settings.title}: {what}", options.stamp)
    if png is not None:
        from aimcalc.paper.drawpng import write_png  # loads the library for pictures

        write_png(png, drawings)
    return len(drawings)
