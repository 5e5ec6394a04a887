"""The light plot: the rig to scale from above, for whoever wants a drawing, as PDF, SVG and DXF.

One drawing is laid out as a board: the plan, and beside or under it blocks with the key, the elevations and
the title. The PDF has it on one sheet or on as many as it takes, the SVG in one piece, the DXF in the
stage's own lengths with what stands round the plan on a layout.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, BinaryIO

from aimcalc.named import NamedTuple
from aimcalc.paper.drawing import NARROW, Drawing
from aimcalc.paper.drawpdf import Book, write_drawings
from aimcalc.paper.drawsvg import write_svg
from aimcalc.paper.planpage import METRIC_SCALES, Frame, View, scale_words
from aimcalc.paper.tiles import (
    SHEETS,
    Foot,
    Size,
    border,
    pages_of,
    sheet_around,
    sheet_words,
)
from aimcalc.rig.wording import INCH
from aimcalc.sheets.pieces import PieceError
from aimcalc.sheets.plot.blocks import PAD, Block, elsewhere_blocks, key_block, title_block
from aimcalc.sheets.plot.elevations import draw_elevation, height_of
from aimcalc.sheets.plot.layout import PANEL, Layout, best, sheets
from aimcalc.sheets.plot.plan import Drawn, draw_plan, reach_of, tubes_up
from aimcalc.text.facts import revision_words
from aimcalc.text.stamp import PaperOptions

if TYPE_CHECKING:
    from aimcalc.show import Show
    from aimcalc.solid.rig import SolidRig


USUAL_METRIC, USUAL_FEET = (25, 50), (24, 48)  # 1:25 and 1:50; 1/2" and 1/4" to the foot
SMALLER_METRIC = tuple(k for k in METRIC_SCALES if k > 50)
SMALLER_FEET = (64, 96, 128, 192, 384)
MOST_SHEETS = 12  # of a plot whose scale nobody chose (our choice)
MOST_ASKED = 80  # of one whose scale was chosen (our choice)
MOST_AREA = 3.0e6  # mm2 of a board: beyond, labels would take more memory than a small computer has


class Chosen(NamedTuple):
    """Scale, sheet as it lies, size of the plan, and how the board is laid out."""

    scale: float
    sheet: Size
    plan: Size
    layout: Layout


class Board(NamedTuple):
    """The whole drawing, what of it is round the plan, the plan and where it is, sheet and scale."""

    drawing: Drawing
    around: Drawing
    inside: Drawn
    view: View
    sheet: Size


def light_plot(
    show: Show, pdf: BinaryIO | Book, svg: BinaryIO, dxf: BinaryIO, options: PaperOptions
) -> int:
    """Write the plot three times over; the number of its sheets.

    In a book it is one sheet of its own size unless a sheet was asked for: who has no printer so large prints
    it alone, cut into sheets that he has.

    Raises PieceError where the scale asked for takes more sheets than anybody would glue.
    """
    rig = show.rig
    board = board_of(rig, options)
    named = (
        f"{rig.scene.settings.title} | light plot | {revision_words(rig)} | "
        f"scale {scale_words(board.view.scale, options.length)} on "
    )
    foot = Foot(f"{named}{_size_words(board.sheet, options)}")
    pages = pages_of(board.drawing, board.sheet, foot, options)
    whole = pages[0]
    if len(pages) > 1:
        size = sheet_around((board.drawing.width, board.drawing.height))
        (whole,) = pages_of(
            board.drawing, size, Foot(f"{named}{_size_words(size, options)}"), options
        )
    write_svg(svg, whole, f"{rig.scene.settings.title}: light plot", options.stamp)
    from aimcalc.sheets.plot.dxf import write_plot_dxf  # loads the library for DXF

    bare = _with(whole, board.around)
    write_plot_dxf(dxf, rig, board.inside, board.view, bare, options)
    if isinstance(pdf, Book) and options.sheet is None:
        pages = [whole]
    return write_drawings(rig, "light plot", pages, options, pdf)


def _size_words(sheet: Size, options: PaperOptions) -> str:
    """What a sheet is called; one of no usual size by its sides in the units of the set."""
    words = sheet_words(sheet)
    if options.length != "ft" or not words.endswith(" mm"):
        return words
    wide, high = (f"{side / 1000 / INCH:.1f}" for side in sorted(sheet))
    return f"{wide} x {high} in"


def _with(page: Drawing, board: Drawing) -> Drawing:
    """The same page with another board."""
    other = Drawing(page.width, page.height)
    other.add(page)
    if page.inset is not None:
        other.inset = page.inset._replace(drawing=board)
    return other


def board_of(rig: SolidRig, options: PaperOptions) -> Board:
    """The plot laid out: the plan drawn, and what its tags had no room for told in blocks of its own."""
    chosen = choose(rig, options)
    if _count(chosen) == 1:
        inside, view = _drawn(rig, chosen, options, chosen.layout.plan)
        if not inside.elsewhere:
            return _put_together(inside, view, _blocks(rig, chosen, options), chosen)
    # The plan is no larger than it must be, wherever it then goes on the board.
    inside, view = _drawn(rig, chosen, options, (0.0, 0.0, *chosen.plan))
    more = elsewhere_blocks(rig, inside.elsewhere, options.length)
    blocks = _blocks(rig, chosen, options, more)
    sheet, layout = best(chosen.plan, [block.height for block in blocks], chosen.sheet)
    left, bottom, right, top = layout.plan
    across = left + (right - left - chosen.plan[0]) / 2
    up = bottom + (top - bottom - chosen.plan[1]) / 2
    chosen = chosen._replace(sheet=sheet, layout=layout)
    return _put_together(inside.moved(across, up), view.moved(across, up), blocks, chosen)


def _drawn(
    rig: SolidRig, chosen: Chosen, options: PaperOptions, frame: Frame
) -> tuple[Drawn, View]:
    """The plan in the middle of a frame of the board."""
    x0, y0, _, _ = reach_of(rig, chosen.scale, options.length)
    per_mm = chosen.scale / 1000
    across = (frame[2] - frame[0] - chosen.plan[0]) / 2 * per_mm
    up = (frame[3] - frame[1] - chosen.plan[1]) / 2 * per_mm
    view = View(frame, chosen.scale, (x0 - across, y0 - up))
    return draw_plan(rig, view, options.length), view


def _put_together(inside: Drawn, view: View, blocks: Sequence[Block], chosen: Chosen) -> Board:
    around = Drawing(*chosen.layout.size)
    left, bottom, right, top = chosen.layout.plan
    around.line(
        (left, bottom), (right, bottom), (right, top), (left, top), (left, bottom), weight=NARROW
    )
    for block, (x, y) in zip(blocks, chosen.layout.blocks, strict=True):
        box: Frame = (x, y - block.height, x + PANEL, y)
        block.draw(around, box)
        around.line((x + PANEL, y), (x, y), (x, box[1]), (x + PANEL, box[1]), weight=NARROW)
    border(around)
    board = Drawing(*chosen.layout.size)
    board.add(inside.inside)
    board.add(around)
    return Board(board, around, inside, view, chosen.sheet)


def choose(rig: SolidRig, options: PaperOptions) -> Chosen:
    """Scale, sheet and layout: as asked for, else the largest usual scale that one A3 or tabloid holds.

    Where no usual one does, the smaller of them on the paper of the set, on as many sheets as it takes; a rig
    that would take too many is drawn at a smaller scale still.
    """
    feet = options.length == "ft"
    large = options.sheet or SHEETS["tabloid" if feet else "A3"]
    small = options.sheet or SHEETS["letter" if options.paper == "letter" else "A4"]
    usual = (options.scale,) if options.scale else USUAL_FEET if feet else USUAL_METRIC
    for scale in usual:
        chosen = _at_scale(rig, scale, large, options)
        if _count(chosen) == 1 and chosen.layout.area <= MOST_AREA:
            return chosen
    if options.scale:
        return _unless_many(_at_scale(rig, options.scale, small, options), options)
    for scale in (usual[-1], *(SMALLER_FEET if feet else SMALLER_METRIC)):
        chosen = _at_scale(rig, scale, small, options)
        if _fits(chosen):
            return chosen
    while not _fits(chosen):
        chosen = _at_scale(rig, 2 * chosen.scale, small, options)
    return chosen


def _fits(chosen: Chosen) -> bool:
    return _count(chosen) <= MOST_SHEETS and chosen.layout.area <= MOST_AREA


def _count(chosen: Chosen) -> int:
    return sheets(chosen.layout.size, chosen.sheet)


def _unless_many(chosen: Chosen, options: PaperOptions) -> Chosen:
    if _count(chosen) <= MOST_ASKED and chosen.layout.area <= MOST_AREA:
        return chosen
    wide, high = (side / 1000 for side in chosen.layout.size)
    raise PieceError(
        f"At {scale_words(chosen.scale, options.length)} the light plot would be {wide:.1f} m by "
        f"{high:.1f} m, {_count(chosen)} sheets of {sheet_words(chosen.sheet)}. Give a smaller --scale or a "
        "larger --sheet."
    )


def _at_scale(rig: SolidRig, scale: float, sheet: Size, options: PaperOptions) -> Chosen:
    x0, y0, x1, y1 = reach_of(rig, scale, options.length)
    plan = (x1 - x0) * 1000 / scale, (y1 - y0) * 1000 / scale
    nowhere = Chosen(scale, sheet, plan, Layout((0.0, 0.0), (0.0, 0.0, 0.0, 0.0), []))
    heights = [block.height for block in _blocks(rig, nowhere, options)]
    lying, layout = best(plan, heights, sheet)
    return nowhere._replace(sheet=lying, layout=layout)


def _blocks(
    rig: SolidRig, chosen: Chosen, options: PaperOptions, more: Sequence[Block] = ()
) -> list[Block]:
    """The key, `more`, the elevations and last the title."""
    scale = chosen.scale

    def elevation(name: str) -> Block:
        def draw(page: Drawing, box: Frame) -> None:
            inner = (box[0] + PAD, box[1], box[2] - PAD, box[3])
            draw_elevation(page, rig, name, inner, scale, options.length)

        return Block(height_of(rig, name, scale, PANEL - 2 * PAD, options.length), draw)

    return [
        key_block(rig, scale, options),
        *more,
        *(elevation(name) for name in tubes_up(rig)),
        title_block(rig, scale, options),
    ]
