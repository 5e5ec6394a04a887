"""Drawings written where they are wanted: pages of a PDF, and one picture of them all."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, BinaryIO

from aimcalc.sheets.drawing import Drawing
from aimcalc.sheets.drawpdf import write_pdf

if TYPE_CHECKING:
    from aimcalc.rig.solve import Rig
    from aimcalc.sheets.paper import PaperOptions


def write_drawings(
    rig: Rig,
    what: str,
    drawings: Sequence[Drawing],
    options: PaperOptions,
    pdf: BinaryIO,
    png: BinaryIO | None = None,
) -> int:
    """Number of pages: a page a drawing in `pdf`, all of them in one picture in `png` if it is given.

    `what` is the sheet's name, which stands in the PDF's own title after the scene's.
    """
    write_pdf(pdf, drawings, f"{rig.scene.settings.title}: {what}", options.stamp)
    if png is not None:
        from aimcalc.sheets.drawpng import write_png  # loads the plotting library

        write_png(png, drawings)
    return len(drawings)
