"""Pages of several sheets gathered into one PDF, each drawn once: a book is written into as a stream is."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from aimcalc.named import NamedTuple

if TYPE_CHECKING:
    from aimcalc.text.stamp import PaperOptions


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
        from aimcalc.text.typeset import new_canvas, pdf_bytes

        canvas = new_canvas(title, stamp=options.stamp)
        for number, leaf in enumerate(self.leaves, 1):
            canvas.setPageSize(leaf.size)
            leaf.draw(canvas, options.numbered(number, len(self.leaves)))
            canvas.showPage()
        return pdf_bytes(canvas)
