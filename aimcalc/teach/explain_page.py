"""Why a unit's numbers are what they are, on one sheet: triangles and reasons in front, the sums behind."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING

from aimcalc.paper.page import KEY, SMALL, Box, Page, Sheet, Target, write_pages
from aimcalc.teach.explain import CHANGES, HEADS, KEYING, Explained, result
from aimcalc.teach.triangles import draw_plan, draw_side
from aimcalc.text.facts import LONG, SHORT, footer
from aimcalc.text.names import short_unit
from aimcalc.text.stamp import PaperOptions
from aimcalc.text.typeset import LEADING, REGULAR, wrap

if TYPE_CHECKING:
    from aimcalc.show import Show


TITLE, HEADING, TYPE = 16.0, 12.0, 10.0  # pt
LOW = 262.0  # pt, the height of a drawing
GAP = 5.0
CLASS = LONG[-1][1]


def explain_page(show: Show, told: Explained, target: Target, options: PaperOptions) -> int:
    """Number of pages, two: the front and the back of one sheet about one unit of a show."""
    name = short_unit(show.rig, told.row.k)
    facts = footer(show.rig, f"why: {name}")
    pages = [
        Page(partial(_front, show, told, options), facts, SHORT),
        Page(partial(_back, told), facts, SHORT),
    ]
    title = f"{show.rig.scene.settings.title}: why, {name}"
    return write_pages(target, pages, options, title=title)


def _front(show: Show, told: Explained, options: PaperOptions, sheet: Sheet) -> None:
    body = sheet.body
    sheet.text(body.left, body.top - TITLE, told.heading, TITLE, bold=True, width=body.width)
    y = body.top - TITLE - 6
    for line in told.findings[:3]:
        y = sheet.paragraph(body.left, y, line, TYPE, body.width, bold=True)
    if told.steps:
        middle = (body.left + body.right) / 2
        draw_plan(sheet, Box(body.left, y - LOW, middle - 3, y), show.rig, told.row, options.length)
        draw_side(
            sheet, Box(middle + 3, y - LOW, body.right, y), show.rig, told.row, options.length
        )
        y -= LOW
    y = heading(sheet, y, "WHERE EACH NUMBER COMES FROM")
    y = rows(sheet, y, told.figures, (0.0, 0.14, 0.57))
    y = heading(sheet, y, "THE CHOICE")
    for line in told.choice:
        y = sheet.paragraph(body.left, y, line, TYPE, body.width)


def _back(told: Explained, sheet: Sheet) -> None:
    body = sheet.body
    y = heading(sheet, body.top + 4, "IN WORDS")
    for line in told.formula:
        y = sheet.paragraph(body.left, y, line, TYPE, body.width)
    if not told.steps:
        return
    y = heading(sheet, y, "BY POCKET CALCULATOR")
    y = sheet.paragraph(body.left, y, KEYING, TYPE, body.width)
    cells = [(s.letter, s.what, f"{s.keys} = {s.shows}", result(s)) for s in told.steps]
    y = rows(sheet, y, cells, (0.0, 0.045, 0.36, 0.7))
    if told.changes:
        y = heading(sheet, y, f"{CHANGES} (by {told.basis})")
        rows(sheet, y, (HEADS, *told.changes), (0.0, 0.4, 0.62))
    y = sheet.paragraph(body.left, body.bottom + 54, CLASS, TYPE, body.width)
    sign_boxes(sheet, y)


SIGNED = (
    "safe",
    "upright",
    "tail",
    "landing",
)  # in the order in which they are looked at and marked


def sign_boxes(sheet: Sheet, top: float) -> None:
    """Draw boxes for whoever is in charge to sign, in the order in which things are looked at."""
    left, wide = sheet.body.left, sheet.body.width / (len(SIGNED) + 1)
    for k, word in enumerate((*SIGNED, "initials")):
        x = left + k * wide
        sheet.box(Box(x, top - 20, x + 18, top - 2), weight=KEY)
        sheet.text(x + 24, top - 15, word, 11.0, bold=True)


def heading(sheet: Sheet, top: float, words: str) -> float:
    """Draw a heading with its rule below `top`; the y below it comes back."""
    y = top - HEADING - 4
    sheet.text(sheet.body.left, y + 1, words, HEADING, bold=True, width=sheet.body.width)
    sheet.line(sheet.body.left, y - 2.5, sheet.body.right, y - 2.5, weight=KEY)
    return y - 3


def rows(
    sheet: Sheet, top: float, cells: Sequence[Sequence[str]], shares: Sequence[float]
) -> float:
    """Draw rows of cells that begin at shares of the width, each wrapped in its own; the y below comes."""
    body, y = sheet.body, top
    edges = [body.left + share * body.width for share in (*shares, 1.0)]
    for row in cells:
        lines = [
            wrap(words, REGULAR, TYPE, edges[j + 1] - edges[j] - GAP) for j, words in enumerate(row)
        ]
        tall = max(map(len, lines)) * TYPE * LEADING
        for j, told in enumerate(lines):
            for i, line in enumerate(told):
                base = y - (i + 0.82) * TYPE * LEADING
                room = edges[j + 1] - edges[j] - GAP
                sheet.text(edges[j], base, line, SMALL, bold=j == 0, width=room)
        y -= tall
    return y
