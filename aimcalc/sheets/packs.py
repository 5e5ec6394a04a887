"""The packs: what one person carries, one file, out of the pieces that each sheet is.

The head electrician has one, the crew at every position has one, cards are cut up, drawings go to the table.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any, BinaryIO

from aimcalc.paper.drawpdf import Book
from aimcalc.paper.page import write_pages
from aimcalc.sheets.counts import counts
from aimcalc.sheets.deck import deck_pages
from aimcalc.sheets.ladder import ladder_pages
from aimcalc.sheets.pieces import DRAWN, HEAD, PIECES, maker_of
from aimcalc.text.stamp import PaperOptions

if TYPE_CHECKING:
    from aimcalc.show import Show


def head_pack(show: Show, pdf: BinaryIO, workbook: BinaryIO, options: PaperOptions) -> int:
    """Number of pages of the head electrician's pack; `workbook` has all counts as a workbook."""
    counts(show, None, workbook, options)
    return _gathered(show, pdf, options, HEAD, "head electrician", {})


def drawings(show: Show, pdf: BinaryIO, svg: BinaryIO, dxf: BinaryIO, options: PaperOptions) -> int:
    """Number of pages of all that is drawn to scale for the table; `svg` and `dxf` have the light plot."""
    plots = {"light-plot.svg": svg, "light-plot.dxf": dxf}
    return _gathered(show, pdf, options, DRAWN, "drawings", plots)


def position_packs(show: Show, *given: Any) -> int:
    """Number of pages of all positions' packs: a stream for each position in hang order, then the options.

    A pack has the ladder sheet's sides, then the deck sheet's.
    """
    *streams, options = given
    ladder, deck = ladder_pages(show, options), deck_pages(show, options)
    title, count = show.rig.scene.settings.title, 0
    for name, stream in zip(ladder, streams, strict=True):
        pages = [*ladder[name], *deck[name]]
        count += write_pages(stream, pages, options, title=f"{title}: {name}", landscape=True)
    return count


def _gathered(
    show: Show,
    pdf: BinaryIO,
    options: PaperOptions,
    names: Sequence[str],
    what: str,
    beside: dict[str, BinaryIO],
) -> int:
    """Number of pages of the pieces of these names in one file; those not built are left out."""
    book, pieces = Book(), {piece.name: piece for piece in PIECES}
    for name in names:
        if piece := pieces.get(name):
            streams = [book if file.endswith(".pdf") else beside.get(file) for file in piece.files]
            maker_of(piece)(show, *streams, options)
    pdf.write(book.pdf(options, f"{show.rig.scene.settings.title}: {what}"))
    return len(book.leaves)
