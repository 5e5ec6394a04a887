"""Unit cards: one a unit, four to a page, to be cut out, punched and tied on.

A card has the unit's number, three figures (sight tape, down, landing) and two small drawings: the
turn seen from above, and the unit from its side the right way up.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from itertools import pairwise
from typing import TYPE_CHECKING

from aimcalc.named import NamedTuple
from aimcalc.paper.page import KEY, SMALL, THIN, Box, Page, Sheet, Target, write_pages
from aimcalc.paper.stance import draw_plan, draw_side, turned
from aimcalc.scene.model import Pipe, Position, Stand, Unit
from aimcalc.text import words as w
from aimcalc.text.facts import CARD, SHORT, face_words, footer, noun, trim_words
from aimcalc.text.names import short
from aimcalc.text.rows import STOP, Row, remarks_of, rows_of, tape_zero
from aimcalc.text.stamp import PaperOptions
from aimcalc.text.typeset import BOLD, LEADING, REGULAR, shorten, wrap

if TYPE_CHECKING:
    from aimcalc.show import Show
    from aimcalc.solid.answers import Answer, Finding
    from aimcalc.solid.rig import SolidRig


ROWS = COLUMNS = 2  # cards on a page
NUMBER = 72.0  # pt
BIG = 38.0  # pt, the figures that are set
PLACE = 28.0  # pt, the two lines of a place on deck
LABEL = 12.0  # pt
INSET = 12.0  # pt, from the cutting line
BANDS = (0.0, 0.31, 0.5, 0.69, 1.0)  # where number, sight, down and landing are divided
LONGEST_TITLE = 20  # letters
MOST_REMARKS = 2  # lines of what the user wrote of a unit; its row has all of it
HOLE = 8.5  # pt, radius of the hole of a paper punch (6 mm across)


class Card(NamedTuple):
    """What one card tells."""

    unit: Unit
    row: Row
    answer: Answer
    position: Position
    leaning: bool  # the stem is not plumb
    name: str  # of its position
    facts: str  # trim
    of: str  # revision and set
    tape: str
    title: str


def unit_cards(show: Show, target: Target, options: PaperOptions) -> int:
    """Number of pages of the unit cards, written to a path or a binary stream."""
    rig = show.rig
    cards = _cards(rig, show.findings, options)
    some = ROWS * COLUMNS
    faces = face_words(rig, range(len(rig.units)), options.length)
    facts = footer(rig, "unit cards", [faces])
    pages = [
        Page(partial(_draw_page, cards[k : k + some]), facts, SHORT)
        for k in range(0, len(cards), some)
    ]
    if not pages:
        pages = [Page(_draw_none, facts, SHORT)]
    return write_pages(target, pages, options, title=f"{rig.scene.settings.title}: unit cards")


def _draw_none(sheet: Sheet) -> None:
    sheet.text(sheet.body.left, sheet.body.top - 20, "This scene has no units.", 14)


def _cards(rig: SolidRig, findings: Sequence[Finding], options: PaperOptions) -> list[Card]:
    rows = rows_of(rig, findings, options.length)
    settings = rig.scene.settings
    revision = (
        f"rev {shorten(settings.revision, 12, keep_end=True)}"
        if settings.revision
        else "no revision"
    )
    told = [("", rig, k, row) for k, row in enumerate(rows)]
    for further in rig.further:
        if not further.positions:
            spots = rows_of(further.rig, findings, options.length)
            told += [(further.name.upper(), further.rig, k, spots[k]) for k in further.rows]
    told = [card for card in told if options.holds(rig.names[card[2]])]
    told.sort(key=lambda card: card[2])
    return [
        Card(
            unit=rig.units[k],
            row=row,
            answer=(answer := of.answers[k]),
            position=(position := rig.positions[k]),
            leaning=bool(row.clamp),
            name=" ".join(filter(None, (short(rig, position.name), spot))),
            facts="" if isinstance(position, Stand) else trim_words(position, options.length),
            of=", ".join(filter(None, (revision, options.stamp.words))),
            tape=w.length(answer.sight_out or 0.0, options.length, w.HANG),
            title=shorten(settings.title, LONGEST_TITLE),
        )
        for spot, of, k, row in told
    ]


def _draw_page(cards: Sequence[Card], sheet: Sheet) -> None:
    """Draw up to four cards with dashed lines to cut along."""
    body = sheet.body
    wide, tall = body.width / COLUMNS, body.height / ROWS
    for k, card in enumerate(cards):
        left, top = body.left + wide * (k % COLUMNS), body.top - tall * (k // COLUMNS)
        box = Box(left, top - tall, left + wide, top)
        for x0, y0, x1, y1 in _edges(box):
            sheet.line(x0, y0, x1, y1, weight=THIN, dash=4)
        _draw_card(sheet, box.inset(INSET), card)


def _edges(box: Box) -> list[tuple[float, float, float, float]]:
    return [
        (box.left, box.bottom, box.right, box.bottom),
        (box.left, box.top, box.right, box.top),
        (box.left, box.bottom, box.left, box.top),
        (box.right, box.bottom, box.right, box.top),
    ]


def _draw_card(sheet: Sheet, box: Box, card: Card) -> None:
    """Draw one card: head, number and turn, then the three figures, then the caution."""
    low = _draw_foot(sheet, box, card)
    top = _draw_top(sheet, box, card)
    edges = [top - share * (top - low) for share in BANDS]
    bands = [Box(box.left, b, box.right, a) for a, b in pairwise(edges)]
    for k, band in enumerate(bands):
        sheet.line(band.left, band.top, band.right, band.top, weight=1.0 if k else KEY)
    _draw_number(sheet, bands[0], card)
    label, value = sight_words(card)
    _draw_figure(sheet, bands[1], label, value)
    _draw_tip(sheet, bands[2], card)
    _draw_landing(sheet, bands[3], card)


def _draw_top(sheet: Sheet, box: Box, card: Card) -> float:
    """Position, hole, kind; the y below them."""
    middle, y = (box.left + box.right) / 2, box.top - HOLE
    sheet.circle(middle, y, HOLE)
    sheet.line(middle - 4, y, middle + 4, y)
    sheet.line(middle, y - 4, middle, y + 4)
    room = box.width / 2 - HOLE - 8
    sheet.text(box.left, y - 4, card.name, 14, bold=True, width=room)
    kind = ", ".join(
        part for part in (f"{card.row.kind} {card.row.field}".rstrip(), card.row.channel) if part
    )
    sheet.text(box.right, y - 4, kind, LABEL, align="r", width=room)
    return box.top - 2 * HOLE - 5


def _draw_foot(sheet: Sheet, box: Box, card: Card) -> float:
    """The show, its facts and the caution, at the bottom; the y above them."""
    y = box.bottom + SMALL * (LEADING - 0.94)
    for line in reversed(wrap(CARD, REGULAR, SMALL, box.width / 0.9)):
        sheet.text(box.left, y, line, SMALL, width=box.width)
        y += SMALL * LEADING
    sheet.text(box.left, y, card.of, SMALL, bold=True, width=box.width)
    y += SMALL * LEADING
    taken = sheet.text(box.right, y, card.facts, SMALL, align="r", width=0.66 * box.width)
    sheet.text(box.left, y, card.title, SMALL, width=box.width - taken - 8)
    y += SMALL * LEADING
    for line in reversed(_remark_lines(card, box.width / 0.9)):
        sheet.text(box.left, y, line, SMALL, bold=True, width=box.width)
        y += SMALL * LEADING
    return y


def _remark_lines(card: Card, width: float) -> list[str]:
    """What the user wrote of a unit, in as many lines as a card has room for."""
    said = ". ".join(remarks_of(card.unit))
    lines = wrap(said, BOLD, SMALL, width) if said else []
    if len(lines) > MOST_REMARKS:
        lines = [*lines[: MOST_REMARKS - 1], f"{lines[MOST_REMARKS - 1]} …"]
    return lines


def _draw_number(sheet: Sheet, band: Box, card: Card) -> None:
    """The unit's number at its largest, where it hangs, and its turn from above."""
    half = 0.5 * band.width
    row = card.row
    sheet.text(band.left, band.top - 0.8 * NUMBER, row.number, NUMBER, bold=True, width=half - 14)
    slopes = "PIPE SLOPES" if card.leaning and card.answer.sight is not None else ""
    where, how = row.hangs
    if how.startswith("CHORD "):  # the card has little room
        where, how = f"{where},", how.removeprefix("CHORD ")
    words = " ".join(part for part in (where, how, row.turned, slopes) if part)
    sheet.text(band.left, band.bottom + 5, words, LABEL, width=half - 8)
    if row.first:  # the sheet says why
        first = f"SET: {row.first}"
        sheet.text(band.left, band.bottom + 20, first, LABEL, bold=True, width=half - 8)
    way = turned(card.answer, card.position, card.leaning, card.row.base)
    if way and row.turn != STOP:
        box = Box(band.left + half + 4, band.bottom + 18, band.right, band.top - 4)
        draw_plan(sheet, box, way, on_pipe=isinstance(card.position, Pipe))
    turn = ""
    if row.turn:
        dial = "dial " if row.counted.dial else ""
        turn = ", ".join(filter(None, (f"{dial}{row.turn}", row.counted.side_words)))
    x = (band.left + half + band.right) / 2
    sheet.text(x, band.bottom + 5, turn, LABEL, bold=True, align="c", width=half - 4)


def sight_words(card: Card) -> tuple[str, str]:
    """Label and value of the first figure: the sight tape, or what is set where there is none."""
    row = card.row
    if not row.sight:
        return ("TURN", row.turn or "NO AIM")
    if not isinstance(card.position, Pipe):
        return (f"HEADING {row.sight_note}", row.sight)
    if card.leaning and card.answer.sight is None:
        return ("TRUE HEADING: the stem is not plumb", row.sight)
    if row.sight_note:  # no tape: the pan itself has to serve
        return (f"PAN from {row.turn_note}: no tape, {row.sight_note}", row.turn)
    return (
        f"SIGHT TAPE {card.tape} {card.answer.square} of {noun(card.position)}, {tape_zero(card.position)}",
        row.sight,
    )


def _draw_figure(sheet: Sheet, band: Box, label: str, value: str) -> None:
    sheet.text(band.left, band.top - 14, label, LABEL, bold=True, width=band.width)
    y = (band.top - 14 + band.bottom) / 2 - 0.36 * BIG
    sheet.text(band.left, y, value, BIG, bold=True, width=band.width)


def _draw_tip(sheet: Sheet, band: Box, card: Card) -> None:
    """DOWN, its complement, and the unit from its side."""
    word, angle, plumb = card.row.tip
    half = 0.5 * band.width
    label = word if angle else "DOWN"
    sheet.text(band.left, band.top - 14, label, LABEL, bold=True, width=half)
    sheet.text(band.left, band.top - 16 - 0.76 * BIG, angle or word, BIG, bold=True, width=half - 6)
    if plumb:
        sheet.text(band.left + 86, band.top - 14, f"plumb {plumb}", LABEL, width=half - 70)
    box = Box(band.left + half, band.bottom + 2, band.right, band.top - 2)
    if word != STOP:
        draw_side(sheet, box, card.answer, card.row.clip)


def _draw_landing(sheet: Sheet, band: Box, card: Card) -> None:
    """LANDS, ON or POLE, its figures large, and STAND below."""
    mark, (_, across, upstage) = card.row.mark, card.row.stand
    sheet.text(band.left, band.top - 14, mark.head, LABEL, bold=True, width=band.width)
    where = "STAND" if card.answer.stand else "POINT"
    stand = (
        f"{where} {card.row.stand[0] if card.answer.target else ''}".rstrip()
        + f": {across}, {upstage}"
    )
    sheet.text(band.left, band.bottom + 6, stand, LABEL, width=band.width)
    room = band.height - 16 - 19
    for k, words in enumerate((mark.first, mark.second)):
        y = band.top - 16 - (k + 0.5) * room / 2 - 0.36 * PLACE
        sheet.text(band.left, y, words, PLACE, bold=True, width=band.width)
