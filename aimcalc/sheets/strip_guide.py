"""The first page of the hang strips: how to use them, and what there is of them."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING

from aimcalc.sheets import words as w
from aimcalc.sheets.cautions import SHORT
from aimcalc.sheets.facts import footer
from aimcalc.sheets.paper import Page, PaperOptions, Sheet
from aimcalc.sheets.stance import stance_words
from aimcalc.sheets.strip_marks import Strip, check_step
from aimcalc.sheets.true_scale import proof_words

if TYPE_CHECKING:
    from aimcalc.rig.solve import Rig

TYPE = 12.0  # pt


def guide_page(rig: Rig, strips: Sequence[Strip], a_page: int, options: PaperOptions) -> Page:
    """One page: the steps, then every strip with its tiles and where they are in the file."""
    return Page(partial(_draw, strips, a_page, options), footer(rig, "hang strip"), SHORT)


def steps(length: w.LengthUnit) -> list[str]:
    """How a strip is made and used, a step a line."""
    proof, step = proof_words(length), w.length(check_step(length), length, w.HANG)
    return [
        f'Print at 100 %, never "fit to page". Measure both {proof} bars of a page: bin it where one is '
        "off. Uniform scaling keeps angles, ruins lengths: at 94 % this strip is ruined.",
        "Cut each tile along its edge, lay it on the overlap line of the tile before, glue, go on in order.",
        f"Measure the whole strip from its zero mark to each CHECK ({step} apart) with a tape measure "
        "before it goes up.",
        "Lay it along the top of the pipe, printed side up, with its edges and ends to the sides they "
        "name, its zero mark on the pipe's own. Stand as the strip says and read it from above, square "
        "to a pipe that slopes.",
        "The upright line at a number is the middle of that unit's clamp.",
        "The thick slanting line is the YOKE BAR, the yoke's top bar over the bolts, NOT the beam: the "
        "lens is a quarter turn from it, on the side named. Turn the yoke until its bar lies along the line.",
        "A boom's strip goes up the boom from the check mark it begins with: measure that one from the foot.",
    ]


def _draw(strips: Sequence[Strip], a_page: int, options: PaperOptions, sheet: Sheet) -> None:
    body = sheet.body
    sheet.text(body.left, body.top - 24, "Hang strip", 26, bold=True)
    y = body.top - 34
    if not strips:
        sheet.text(body.left, y - 20, "Nothing hangs on a pipe or a boom in this scene.", TYPE)
        return
    for k, words in enumerate(steps(options.length), 1):
        sheet.text(body.left, y - 13.5, str(k), TYPE, bold=True)
        y = sheet.paragraph(body.left + 20, y - 2, words, TYPE, body.width - 20)
    _draw_contents(sheet, strips, a_page, y - 10)


def _draw_contents(sheet: Sheet, strips: Sequence[Strip], a_page: int, top: float) -> None:
    """Draw a line a strip, as small as they have to be."""
    left, page = sheet.body.left, 2
    step = min(17.0, (top - sheet.body.bottom) / (len(strips) + 1))
    size = min(TYPE, 0.75 * step)
    edges = [left, left + 170, left + 245, left + 330]
    for k, head in enumerate(("position", "tiles", "pages", "where you stand")):
        sheet.text(edges[k], top - step, head, size, bold=True)
    for n, strip in enumerate(strips, 2):
        pages = -(-strip.tiling.tiles // a_page)
        stance = stance_words(strip.stance) if strip.up else "up the boom from its foot"
        span = f"{page} to {page + pages - 1}" if pages > 1 else f"{page}"
        row = (strip.name, str(strip.tiling.tiles), span, stance)
        for k, words in enumerate(row):
            sheet.text(edges[k], top - n * step, words, size, width=160 if k == 0 else None)
        page += pages
