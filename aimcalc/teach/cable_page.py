"""Cable and knots on one page: the tie, the double back, why no coil, what a tie-off near the clamp buys.

Knots and habits are common practice, no source. The reach is worked out for one unit of the show, as the hang
sheets work it out.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

import numpy as np

from aimcalc.hang.records import HangOptions
from aimcalc.hang.tails import poses, stretches, tail_bodies, usable_tails
from aimcalc.hang.tubes import tubes
from aimcalc.named import NamedTuple
from aimcalc.paper.page import SMALL, Box, Page, Sheet
from aimcalc.rig.places import WORDS, place
from aimcalc.scene.model import Pipe
from aimcalc.sheets import step_drawings as drawn
from aimcalc.teach.explain_page import heading, rows, sign_boxes
from aimcalc.text import words as w
from aimcalc.text.facts import LONG, SHORT, footer
from aimcalc.text.names import short_unit

if TYPE_CHECKING:
    from aimcalc.show import Show
    from aimcalc.solid.rig import SolidRig
    from aimcalc.text.stamp import PaperOptions

INCH = 0.0254
TIED = (0.0, 9 * INCH, 12 * INCH, 18 * INCH, 24 * INCH)  # m from the clamp
TYPE = 11.0


class Reach(NamedTuple):
    """A tail tied `at` metres from its clamp, on one side: straight distances, metres, and what is left.

    `square` before it is pointed, `aim` at its aim, `worst` over turning, tipping and focus swing;
    `spare` is what is left of the usable tail then (below nought: it does not reach).
    """

    at: float
    side: str
    square: float
    aim: float
    worst: float
    spare: float


def reaches(rig: SolidRig, k: int) -> list[Reach]:
    """The reach of unit `k`'s tail tied at `TIED` from its clamp, on either side; none where unknown."""
    options = HangOptions()
    position = rig.positions[k]
    if (
        not isinstance(position, Pipe)
        or rig.kinds[k].tail is None
        or rig.kinds[k].tail_exit is None
    ):
        return []
    body, swings, held = tail_bodies(rig), poses(rig, options), tubes(rig)
    usable = float(usable_tails(rig, options)[k])
    plus = place(position).plus_word
    square = swings._replace(turn=swings.turn - _turned(swings.turn))
    found = []
    for way in (1.0, -1.0):
        for at in TIED if way > 0 else TIED[1:]:
            tie = np.full(len(rig.units), way * at)
            told = stretches(body, swings, held, tie)
            before = stretches(body, square, held, tie)
            worst = max(float(told.tipping[k]), float(told.focus[k]))
            side = "at the clamp" if not at else f"{WORDS[plus if way > 0 else plus ^ 1]} side"
            found.append(
                Reach(at, side, float(before.aim[k]), float(told.aim[k]), worst, usable - worst)
            )
    return found


def _turned(turn: np.ndarray) -> np.ndarray:
    """How far each unit is turned from square, whichever of the two squares it faces, radians (N,)."""
    return np.where(np.abs(turn) > np.pi / 2, turn - np.copysign(np.pi, turn), turn)


def cable_pages(show: Show, k: int, options: PaperOptions) -> list[Page]:
    """The page, about the tail of unit `k`."""
    facts = footer(show.rig, "cable and knots")
    return [Page(partial(_draw, show, k, options), facts, SHORT)]


KNOTS = (
    (
        drawn.bow,
        "DOUBLE WRAP, THEN A BOW",
        "Two turns round pipe and cable, pulled snug: two turns grip, one slides. Half a knot, then a "
        "bow: it holds, and comes undone with one pull, in gloves, in the dark. Never a knot that wants "
        "a knife beside a cable.",
    ),
    (
        drawn.double_back,
        "DOUBLE BACK",
        "Spare cable runs on along the pipe past the unit, turns once in a wide bend, and comes back to "
        "it. Tie it where it turns and where it ends. It lies flat, hangs nowhere, and comes off in one "
        "piece.",
    ),
)
COIL = (
    "WHY NO COIL",
    "A coil keeps its own heat in: cable in a coil carries less than cable laid out (its maker or local "
    "code says how much). It puts weight in one place, hangs below the pipe and catches, and must be "
    "undone before the next hang.",
)
WHY = (
    "The connector is tied 9 to 12 in (0.23 to 0.30 m) from the clamp, on the side that the back of the unit "
    "swings to. Then the tail hangs in a loop at every way the unit turns. Farther off it pulls tight as the "
    "unit is pointed, and that is found out only when it is lit; nearer, the loop lies on a hot body and in "
    "the way of clamp, wrench and safety cable."
)
CARE = (
    "Dead before it is plugged or unplugged. A tail that is cut, crushed, hot or taped goes to a "
    "qualified person, not up. No cable over an edge, a lens or a hot body; none where it holds the "
    "unit up."
)


def _draw(show: Show, k: int, options: PaperOptions, sheet: Sheet) -> None:
    body, length = sheet.body, options.length
    sheet.text(body.left, body.top - 20, "CABLE AND KNOTS", 20, bold=True)
    y = sheet.paragraph(body.left, body.top - 24, LONG[-1][1], SMALL, body.width)
    for draw, title, words in KNOTS:
        y = heading(sheet, y, title)
        draw(sheet, Box(body.left, y - 56, body.left + 150, y - 6))
        y = min(sheet.paragraph(body.left + 165, y - 2, words, TYPE, body.width - 165), y - 60)
    y = heading(sheet, y, COIL[0])
    y = sheet.paragraph(body.left, y, COIL[1], TYPE, body.width)
    y = heading(sheet, y, "WHAT NINE TO TWELVE INCHES BUYS")
    y = sheet.paragraph(body.left, y, WHY, TYPE, body.width)
    y = _reach(sheet, y, show.rig, k, length)
    y = heading(sheet, y, "MIND")
    y = sheet.paragraph(body.left, y, CARE, TYPE, body.width)
    sign_boxes(sheet, y - 8)


def _reach(sheet: Sheet, y: float, rig: SolidRig, k: int, length: w.LengthUnit) -> float:
    told = reaches(rig, k)
    if not told:
        return y
    tail = w.length(rig.kinds[k].tail or 0.0, length, w.HANG)
    usable = w.length(float(usable_tails(rig, HangOptions())[k]), length, w.HANG)
    said = (
        f"Unit {short_unit(rig, k)}, tail {tail}, of which {usable} can be laid (the rest goes for tie "
        "and bend). Straight from where the tail leaves the body to its connector:"
    )
    y = sheet.paragraph(sheet.body.left, y - 4, said, TYPE, sheet.body.width)
    heads = ("tied", "not yet turned", "at its aim", "at worst", "left over")
    cells = [heads, *(reach_row(each, length) for each in told)]
    return rows(sheet, y, cells, (0.0, 0.3, 0.48, 0.64, 0.8))


def reach_row(each: Reach, length: w.LengthUnit) -> tuple[str, ...]:
    """One row of the table: "0.23 m SL side", three distances, what is left or SHORT."""
    tied = each.side if not each.at else f"{w.length(each.at, length, w.SIZE)} {each.side}"
    sizes = (w.length(far, length, w.SIZE) for far in (each.square, each.aim, each.worst))
    left = w.length(each.spare, length, w.SIZE)
    return tied, *sizes, left if each.spare >= 0 else f"SHORT by {left}"
