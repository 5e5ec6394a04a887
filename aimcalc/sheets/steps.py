"""The steps card: what hands do at every unit, in their order, a line a step; laminated once for the show.

Its back says which tool comes first, how big a miss is a miss, and whom to ask. Order, sizes and habits are
common practice, no source; local rules and the maker's instructions come first, and the card says so.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.aim import ON_ITS_SIDE
from aimcalc.named import NamedTuple
from aimcalc.paper.page import KEY, RULE, Box, Page, Sheet, Target, write_pages
from aimcalc.paper.stance import stance_of
from aimcalc.rig.places import LEANS
from aimcalc.scene.model import Pipe, Stand
from aimcalc.sheets import step_drawings as drawn
from aimcalc.text.facts import SHORT, footer, noun
from aimcalc.text.names import short
from aimcalc.text.stamp import PaperOptions
from aimcalc.text.typeset import LEADING

if TYPE_CHECKING:
    from aimcalc.show import Show
    from aimcalc.solid.rig import SolidRig


TITLE = 24.0  # pt
STEP = 16.0  # pt
NOTE = 12.0  # pt, lines under the steps
TYPE = 13.5  # pt, all words of the back
NUMBER = 20.0  # pt
PICTURE = 130.0  # pt, the width of a drawing
TOWARDS = "towards you"


class Step(NamedTuple):
    """One step in one line, with its drawing where one helps."""

    words: str
    draw: drawn.Draw | None = None


class Words(NamedTuple):
    """What a card says of this rig alone."""

    tubes: str  # "pipe", "pipe or boom", "the tube" where there are more sorts
    opening: str  # the side that clamps open to, as whoever hangs sees it
    notes: tuple[str, ...]  # lines that only some rigs need


def steps_card(show: Show, target: Target, options: PaperOptions) -> int:
    """Number of pages of the steps card, its front and its back, to a path or a binary stream."""
    title = f"{show.rig.scene.settings.title}: steps card"
    return write_pages(target, steps_pages(show, options), options, title=title)


def steps_pages(show: Show, options: PaperOptions) -> list[Page]:
    """The pages themselves, upright: the steps; then tools, misses, names to ask."""
    facts = footer(show.rig, "steps card")
    told = words_for(show.rig)
    return [
        Page(partial(_draw_front, steps(told), told.notes), facts, SHORT),
        Page(_draw_back, facts, SHORT),
    ]


def words_for(rig: SolidRig) -> Words:
    """The words of a card for one rig: its tubes, which way its clamps open, what else it has."""
    used = {noun(rig.scene.positions[name]): None for name, rows in rig.rows.items() if rows}
    tubes = [word for word in ("pipe", "truss", "boom") if word in used] or ["pipe"]
    told = " or ".join(tubes) if len(tubes) < 3 else "the tube"
    sides = openings(rig)
    away = {name: side for name, (side, towards) in sides.items() if not towards}
    notes = []
    if away:
        named = "; ".join(f"{short(rig, name)}: {side}" for name, (side, _) in sides.items())
        notes.append(f"CLAMPS OPEN {named}.")
    if any(isinstance(position, Stand) for position in rig.positions):
        notes.append("STAND: legs out and weighted, spigot locked, then on from step 5.")
    direct = np.array([unit.mount == "direct" for unit in rig.units], dtype=bool)
    if bool(((np.abs(rig.arrays.stem[2]) < LEANS) & ~direct).any()):
        notes.append("STEM LEANS or SLOPE on the row: point it in the row's own order.")
    if direct.any():
        notes.append("DIRECT on a boom: the clamp tips the nose, the yoke turns it.")
    if any(unit.mount in ("over", "stand") for unit in rig.units):
        notes.append("OVER: roll the body over in its yoke first, so that the clip is on top.")
    if bool((rig.aims.attitude == ON_ITS_SIDE).any()):
        notes.append("CLIP SL, SR, US or DS on the row: it lies on its side, clip that way.")
    return Words(told, "as named below" if away else TOWARDS, tuple(notes))


def openings(rig: SolidRig) -> dict[str, tuple[str, bool]]:
    """For every pipe with units that says where its clamps open: the side, and whether towards the reader."""
    found: dict[str, tuple[str, bool]] = {}
    for name, rows in rig.rows.items():
        position = rig.scene.positions[name]
        if rows and isinstance(position, Pipe) and position.clamp_opens:
            stance = stance_of(
                position, [rig.units[k] for k in rows], [rig.answers[k] for k in rows]
            )
            found[name] = (position.clamp_opens, position.clamp_opens == stance.standing)
    return found


def steps(told: Words) -> tuple[Step, ...]:
    """The steps in the order of the work."""
    return (
        Step(f"Clamp on, on its mark, opening {told.opening}.", drawn.clamp),
        Step("Snug the bolt by hand."),
        Step("Wrench it tight. Try it: nothing rolls.", drawn.wrench),
        Step(f"Safety cable round {told.tubes}, through yoke.", drawn.safety),
        Step("Free the tail: nothing pinches it.", drawn.tail),
        Step("Pull every shutter out.", drawn.shutters),
        Step("Colour, pattern, iris in, as its row says.", drawn.colour),
        Step("Point it: swing first, then down."),
        Step("Lock pan and tilt: firm, no force."),
        Step("Look: clip on top, tail below.", drawn.way_up),
        Step("Plug it in.", drawn.plug),
        Step("Run the cable past it, double it back.", drawn.double_back),
        Step("Tie it: two turns and a bow, loop free.", drawn.bow),
        Step("Test it when called; say what you saw."),
    )


def _draw_front(every: Sequence[Step], notes: Sequence[str], sheet: Sheet) -> None:
    body = sheet.body
    sheet.text(body.left, body.top - 21, "AT EVERY UNIT, IN THIS ORDER", TITLE, bold=True)
    low = body.bottom + 2 + len(notes) * NOTE * LEADING
    top = body.top - 30
    tall = (top - low - 2) / len(every)
    for k, step in enumerate(every):
        box = Box(body.left, top - (k + 1) * tall, body.right, top - k * tall)
        _draw_step(sheet, box, k + 1, step)
    sheet.line(body.left, top - len(every) * tall, body.right, top - len(every) * tall, weight=KEY)
    for k, words in enumerate(notes):
        y = low - (k + 0.8) * NOTE * LEADING
        sheet.text(body.left, y, words, NOTE, bold=True, width=body.width)


def _draw_step(sheet: Sheet, box: Box, number: int, step: Step) -> None:
    sheet.line(box.left, box.top, box.right, box.top, weight=KEY if number == 1 else 1.0)
    y = (box.bottom + box.top) / 2
    sheet.text(box.left + 26, y - 0.36 * NUMBER, str(number), NUMBER, bold=True, align="r")
    right = box.right - PICTURE
    sheet.text(
        box.left + 38, y - 0.36 * STEP, step.words, STEP, bold=True, width=right - box.left - 46
    )
    if step.draw is not None:
        step.draw(sheet, Box(right, y - 21, box.right, y + 21))


TOOLS = (
    ("1", "WEDGE, where one is cut, or DIAL, for the rough swing."),
    ("2", "SIGHT TAPE, for the fine swing: tip it roughly first, eye along the barrel."),
    ("", "No tape on the row: the DIAL, on the yoke bar. On a boom: the HELPER's hand."),
    ("3", "LEVEL or plumb card, for the down. Either of its two figures will do."),
    ("4", "Lock both, then read both once more: locking moves them."),
)
LIES = (
    "Yoke and back cap are never level with the beam. A barrel that tapers: along its straight side. Body on "
    "its side: whichever side of the barrel is on top."
)
TAPE = (
    "Lay it along the line of the pipe, as far out as the sheet says, its 0 straight out from the zero mark. "
    "The row's figure counts from that 0, to the side that it names."
)
MISSES = (
    ("Inside WITHIN", "leave it and go on."),
    ("Outside WITHIN", "unlock, set it once more, lock, read again."),
    ("Still out", "ask the head electrician. Nothing is forced, no figure is changed."),
    ("Figures good, light wrong", "believe the light: write down where it lands, and ask."),
)
ASK = ("head electrician", "fly operator", "whoever runs the deck", "first aid")
CARE = (
    "Call before anything moves overhead, and wait for the answer.",
    "One fixing loose at a time. Never take out the bolt that turns the yoke.",
    "Hot, bent, cracked, frayed or wet: it does not go up. Say so.",
    "Local rules and the maker's own instructions come before this card.",
)


def _draw_back(sheet: Sheet) -> None:
    body = sheet.body
    y = _heading(sheet, body.top, "WHICH TOOL FIRST")
    for number, words in TOOLS:
        y -= TYPE * LEADING + 2
        sheet.text(body.left + 4, y + 3, number, TYPE, bold=True)
        sheet.text(body.left + 24, y + 3, words, TYPE, width=body.width - 24)
    y -= 6
    drawn.tape(sheet, Box(body.left, y - 122, body.right, y))
    y = sheet.paragraph(body.left, y - 124, TAPE, TYPE, body.width)
    y -= 8
    drawn.level(sheet, Box(body.left, y - 104, body.right, y))
    y = sheet.paragraph(body.left, y - 108, LIES, TYPE, body.width)
    y = _heading(sheet, y - 6, "HOW BIG A MISS IS A MISS")
    for lead, words in MISSES:
        y -= TYPE * LEADING + 1
        taken = sheet.text(body.left, y + 3, f"{lead}:", TYPE, bold=True)
        sheet.text(body.left + taken + 6, y + 3, words, TYPE, width=body.width - taken - 6)
    y = _heading(sheet, y - 4, "WHOM TO ASK")
    half = body.width / 2
    for k, who in enumerate(ASK):
        left, row = body.left + half * (k % 2), y - 24 * (k // 2 + 1)
        taken = sheet.text(left, row + 3, f"{who}:", TYPE)
        sheet.line(left + taken + 6, row, left + half - 14, row, weight=RULE)
    y = _heading(sheet, y - 52, "MIND")
    for words in CARE:
        y -= TYPE * LEADING
        sheet.text(body.left, y + 3, words, TYPE, width=body.width)


def _heading(sheet: Sheet, top: float, words: str) -> float:
    y = top - 18
    sheet.text(sheet.body.left, y + 2, words, 15, bold=True)
    sheet.line(sheet.body.left, y - 2, sheet.body.right, y - 2, weight=KEY)
    return y - 2
