"""The plumb card: a quarter disc at true scale with a string, that reads DOWN off the barrel.

The lip is folded over the barrel, the corner with its hole at the back of the unit. With the barrel level
the string hangs along 0; with the nose tipped down the string moves over the scale by as much. Two pages,
one the other in a mirror, for the two sides of the card.
"""

from __future__ import annotations

from functools import partial
from itertools import pairwise
from typing import TYPE_CHECKING

from aimcalc.named import NamedTuple
from aimcalc.paper.page import KEY, SMALL, Align, Page, Sheet, Target, write_pages
from aimcalc.paper.true_scale import MM, Round, bar_across, bar_upright, proof_length, proof_words
from aimcalc.text.facts import SHORT, footer
from aimcalc.text.stamp import PaperOptions
from aimcalc.text.words import INCH, LengthUnit

if TYPE_CHECKING:
    from aimcalc.show import Show


LIP = 22.0  # mm, folded over the barrel
EDGE = 12.0  # mm from the hole to the fold and to the edge beside it
HOLE = 1.5  # mm, radius
LANYARD = 3.0  # mm, radius
DOWN = 20.0  # pt, the figures that are read
PLUMB = SMALL
ALIGN: dict[int, Align] = {1: "l", -1: "r"}
TICKS = ((10, 12.0, 1.6), (5, 9.0, 1.2), (1, 5.5, 0.75))  # every so many degrees: mm long, pt wide


class Card(NamedTuple):
    """One side of the card: `way` is +1 where the nose is towards the end of the page's lines."""

    way: int
    length: LengthUnit

    @property
    def radius(self) -> float:
        """In mm: 150 mm, or 6 in."""
        return 6000 * INCH if self.length == "ft" else 150.0


def plumb_card(show: Show, target: Target, options: PaperOptions) -> int:
    """Number of pages of the plumb card: the two sides of one card."""
    rig = show.rig
    facts = footer(rig, "plumb card", ["true scale: measure the proof bars"])
    pages = [Page(partial(_draw, Card(way, options.length)), facts, SHORT) for way in (1, -1)]
    title = f"{rig.scene.settings.title}: plumb card"
    return write_pages(target, pages, options, title=title)


def page_angle(way: int, reading: float) -> float:
    """Where a reading is on the page, in degrees anticlockwise from its x."""
    return -90.0 + way * reading


def _draw(card: Card, sheet: Sheet) -> None:
    body, r = sheet.body, card.radius
    side = "front" if card.way > 0 else "back"
    sheet.text(body.left, body.top - 22, f"PLUMB CARD, {side}", 24, bold=True)
    wide = (EDGE + r) * MM
    left = body.left + 2 if card.way > 0 else body.right - 2 - wide
    x = left + EDGE * MM if card.way > 0 else left + r * MM
    y = body.top - 34 - (LIP + EDGE) * MM
    _draw_outline(sheet, card, x, y)
    _draw_scale(sheet, card, x, y)
    _draw_words(sheet, card, x, y)
    _draw_foot(sheet, card, body.right - 8 if card.way > 0 else body.left + 8)


def _draw_outline(sheet: Sheet, card: Card, x: float, y: float) -> None:
    """Draw where to cut, where to fold, and the holes."""
    way, r = card.way, card.radius * MM
    near, far, fold = x - way * EDGE * MM, x + way * r, y + EDGE * MM
    top = fold + LIP * MM
    for points in (
        [(near, fold), (near, top), (far, top), (far, fold)],
        [(near, fold), (near, y - r), (x, y - r)],
        [(far, fold), (far, y)],
    ):
        for (x0, y0), (x1, y1) in pairwise(points):
            sheet.line(x0, y0, x1, y1, weight=1.0)
    sheet.line(near, fold, far, fold, weight=1.2, dash=6)
    sheet.circle(x, y, HOLE * MM, weight=1.0)
    sheet.circle(near + way * 7 * MM, y - r + 8 * MM, LANYARD * MM)
    _draw_lip(sheet, card, near + way * 10, far - way * 10, fold)


def _draw_lip(sheet: Sheet, card: Card, near: float, far: float, fold: float) -> None:
    """Draw the lip's words, and the arrow along the barrel."""
    align = ALIGN[card.way]
    sheet.text(near, fold + 40, "LIP: fold here, lay it on the barrel", 14, bold=True, align=align)
    sheet.text(near, fold + 20, "NOSE this way for DOWN, BACK this way for UP", 12, align=align)
    sheet.arrow(near, fold + 9, far, fold + 9)


def _draw_scale(sheet: Sheet, card: Card, x: float, y: float) -> None:
    """Draw the rim, a tick a degree, DOWN in large figures and plumb in small ones."""
    r, scale = card.radius, Round(sheet, x, y, partial(page_angle, card.way))
    scale.arc(0, 90, r, KEY)
    for reading in range(91):
        long, weight = next((long, weight) for step, long, weight in TICKS if reading % step == 0)
        scale.tick(reading, r - long, r, weight)
    for reading in range(10, 90, 10):
        scale.figure(reading, r - 21, f"{reading}°", DOWN, bold=True)
        scale.figure(reading, r - 32, f"{90 - reading}°", PLUMB, bold=False)
    for reading, aside in ((0, 3.4), (90, -3.0)):  # beside the edges, not over them
        scale.figure(reading + aside, r - 21, f"{reading}°", DOWN, bold=True)
        scale.figure(reading + aside, r - 32, f"{90 - reading}°", PLUMB, bold=False)


def _draw_words(sheet: Sheet, card: Card, x: float, y: float) -> None:
    """Draw what is on the card itself."""
    lines = (
        ("DOWN: large figures, from level", 14, True),
        ("plumb: small figures; the two make 90°", 12, False),
        ("this corner at the BACK of the unit", 12, False),
        ("(at the LENS where it points UP)", 12, False),
        ("string through the hole, knot behind;", SMALL, False),
        ("nut tied on past the rim, never loose", SMALL, False),
    )
    low = y - 26
    for words, size, bold in lines:
        sheet.text(x + card.way * 18, low, words, size, bold=bold, align=ALIGN[card.way])
        low -= size + 7


def _draw_foot(sheet: Sheet, card: Card, side: float) -> None:
    """Draw the proof bars, the upright one at `side`, and how the card is made and read."""
    body, long = sheet.body, proof_length(card.length)
    bar_across(sheet, body.left + 4, body.bottom + 8, long)
    bar_upright(sheet, side, body.bottom + 26, long)
    name = proof_words(card.length)
    words = f"{name}: measure both bars, or bin it"
    sheet.text(body.left + 8, body.bottom + 15, words, 12, bold=True, width=long * MM - 8)
    told = (
        "Uniform scaling keeps angles, ruins lengths: the card still reads true where both bars came out "
        "equally short, and is wrong where one of the two is off. Stick front and back on one card, hole on "
        "hole. It comes after the swing. Lip along the top of the barrel, never on the yoke or the cap, the "
        "string just clear of the card."
    )
    left = body.left + (24 if card.way < 0 else 0)
    sheet.paragraph(left, body.bottom + 84, told, SMALL, body.width - 30)
