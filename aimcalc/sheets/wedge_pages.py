"""Wedges to cut: each pan setting drawn at its true angle, with its rise and run and whom it serves."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from math import tan
from typing import TYPE_CHECKING

from aimcalc.geometry.vectors import to_radians
from aimcalc.named import NamedTuple
from aimcalc.paper.page import SMALL, THIN, Box, Page, Sheet
from aimcalc.paper.true_scale import MM
from aimcalc.text import words as w
from aimcalc.text.facts import SHORT
from aimcalc.text.names import short
from aimcalc.text.typeset import REGULAR, wrap
from aimcalc.text.wedges import HOW_CUT, MADE_OF, rise_words, served, way_words, wedges_to_cut

if TYPE_CHECKING:
    from aimcalc.hang.records import HangPlan, WedgePlan
    from aimcalc.solid.rig import SolidRig


ACROSS, DOWN = 2, 5  # wedges on a page
TOP = 108.0  # pt that the title and the note take
EDGE = 1.2  # pt; a thicker line would draw the tip out
ALONG = 40.0  # mm, the longest edge along the pipe that is drawn
OUT = 26.0  # mm, the longest edge out from the pipe
LINE = 12.5  # pt
NOTE = (
    f"{MADE_OF} {HOW_CUT} Each is drawn at its true angle; cut it full size from the two lengths: along = "
    "along the pipe, out = out from it. One edge goes along the pipe, the slanting one along the YOKE BAR, "
    "not the beam. A wedge is ROUGH and comes first, within half of each unit's WITHIN and 3°; the sight "
    "tape or the row's own SWING comes after it. Flipped, it serves the other swing. Uniform scaling keeps "
    "angles, ruins lengths."
)


class Cut(NamedTuple):
    """One wedge of one position, with every way that it is laid."""

    name: str  # of its position
    ways: list[WedgePlan]
    served: list[str]  # the units of each way


def wedge_pages(rig: SolidRig, plan: HangPlan, length: w.LengthUnit, facts: str) -> list[Page]:
    """Pages of wedges, none where no unit needs one."""
    cuts = [
        Cut(short(rig, p.position), ways, [served(rig, way) for way in ways])
        for p in plan.positions
        for ways in wedges_to_cut(p)
    ]
    some = ACROSS * DOWN
    return [
        Page(partial(_draw, cuts[k : k + some], length), facts, SHORT)
        for k in range(0, len(cuts), some)
    ]


def _draw(cuts: Sequence[Cut], length: w.LengthUnit, sheet: Sheet) -> None:
    body = sheet.body
    sheet.text(body.left, body.top - 22, "Wedges to cut", 22, bold=True)
    sheet.paragraph(body.left, body.top - 28, NOTE, SMALL, body.width)
    wide, tall = body.width / ACROSS, (body.height - TOP) / DOWN
    for k, cut in enumerate(cuts):
        left, top = body.left + wide * (k % ACROSS), body.top - TOP - tall * (k // ACROSS)
        _draw_cut(sheet, Box(left, top - tall, left + wide, top).inset(5), cut, length)


def _draw_cut(sheet: Sheet, box: Box, cut: Cut, length: w.LengthUnit) -> None:
    """Draw one wedge with its words beside it."""
    pan = cut.ways[0].pan
    sheet.box(box, weight=THIN)
    draw_wedge(sheet, box.left + 14, box.bottom + 13, pan)
    x = box.left + (ALONG + 8) * MM
    width = box.right - 5 - x
    taken = sheet.text(x, box.top - 24, w.angle(pan), 22, bold=True)
    name, after = cut.name, x + taken + 10
    sheet.text(after, box.top - 24, name, 12, bold=True, width=box.right - 5 - after)
    sheet.text(x, box.top - 40, rise_words(pan, length), 11, width=width)
    most = int((box.height - 44) / LINE)
    for k, (words, bold) in enumerate(_served(cut, width, most)):
        sheet.text(x, box.top - 54 - LINE * k, words, 11, bold=bold, width=width)


def _served(cut: Cut, width: float, most: int) -> list[tuple[str, bool]]:
    """Lines about whom a wedge serves, each way under its own heading (told bold)."""
    lines: list[tuple[str, bool]] = []
    for way, numbers in zip(cut.ways, cut.served, strict=True):
        lines.append((way_words(way, cut.ways[0]), True))
        lines += [(line, False) for line in wrap(f"{_noun(way)} {numbers}", REGULAR, 11, width)]
    if len(lines) <= most:
        return lines
    units = sum(len(way.units) for way in cut.ways)
    return [*lines[: most - 1], (f"and more, {units} in all", False)]


def _noun(way: WedgePlan) -> str:
    return "unit" if len(way.units) == 1 else "units"


def draw_wedge(sheet: Sheet, x: float, y: float, pan: float) -> None:
    """Draw the wedge with its tip at (x, y): the pipe's edge level, the bar's edge at `pan` to it."""
    along = min(ALONG, OUT / max(tan(to_radians(pan)), 1e-9)) * MM
    if pan > 45.0:
        along = OUT * MM / tan(to_radians(pan))
    out = along * tan(to_radians(pan))
    sheet.shape([(x, y), (x + along, y), (x + along, y + out)], weight=EDGE)
    sheet.text(x, y - 9.5, "pipe", SMALL)
