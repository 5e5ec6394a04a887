"""Unit cards: one a unit, eight to a page, to be cut out, punched and tied on.

A card has what its unit's row has: number, mark, circuit, colour; sight tape, tip, how near is near enough;
where its light stops; and two small drawings: the turn seen from above, drawn as who hangs it stands, and the
unit from its side the right way up. After a bump a card has the numbers of the focus, and says AS FOCUSED.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from itertools import pairwise
from typing import TYPE_CHECKING

from aimcalc.named import NamedTuple
from aimcalc.paper.page import KEY, SMALL, THIN, Box, Page, Sheet, Target, write_pages
from aimcalc.paper.stance import Stance, draw_plan, draw_side, stance_words, turned
from aimcalc.scene.model import Pipe, Position, Stand, Unit
from aimcalc.sheets.at_position import stance_at
from aimcalc.text import words as w
from aimcalc.text.cables import tail_words
from aimcalc.text.deck_rows import under
from aimcalc.text.facts import (
    CARD,
    face_words,
    footer,
    noun,
    point_height,
    stand_words,
    trim_words,
)
from aimcalc.text.names import short
from aimcalc.text.rows import STOP, Row, remarks_of, rows_of, tape_zero
from aimcalc.text.stamp import PaperOptions
from aimcalc.text.typeset import LEADING, shorten

if TYPE_CHECKING:
    from aimcalc.show import Show
    from aimcalc.solid.answers import Answer


CUT = "GEOMETRY ONLY: rates nothing, permits nothing. Cut along the dashes, punch, tie on."
COLUMNS, ROWS = 2, 4  # cards on a page
NUMBER = 38.0  # pt
BIG = 20.0  # pt, the figures that are set
PLACE = 14.0  # pt, mark on the pipe, place of the light
LABEL = 11.0  # pt
PICTURE = 84.0  # pt wide, of the two drawings
BANDS = (0.0, 0.31, 0.67, 1.0)  # where what hangs, what is set and what is lit are divided
INSET = 5.0  # pt, from the cutting line
LONGEST_TITLE = 20  # letters
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
    tail: str  # "tail SL", "tail at clamp"
    stance: Stance
    under: str  # what its target stands on
    stands: tuple[str, ...] = ()  # where its stand is put
    focused: bool = False  # its numbers are those read off it at the focus, not the plotted ones
    high: str = ""  # how high a point is that nobody stands at
    check: bool = False  # of a further spot of its target: it is locked at the first


def unit_cards(show: Show, target: Target, options: PaperOptions) -> int:
    """Number of pages of the unit cards, written to a path or a binary stream."""
    rig = show.rig
    cards = _cards(show, options)
    some = ROWS * COLUMNS
    faces = face_words(rig, range(len(rig.units)), options.length)
    facts = footer(rig, "unit cards", [faces])
    pages = [
        Page(partial(_draw_page, cards[k : k + some]), facts, CUT)
        for k in range(0, len(cards), some)
    ]
    if not pages:
        pages = [Page(_draw_none, facts, CUT)]
    return write_pages(target, pages, options, title=f"{rig.scene.settings.title}: unit cards")


def _draw_none(sheet: Sheet) -> None:
    sheet.text(sheet.body.left, sheet.body.top - 20, "This scene has no units.", 14)


def _cards(show: Show, options: PaperOptions) -> list[Card]:
    rig, findings = show.rig, show.findings
    rows, tails = rows_of(rig, findings, options.length), tail_words(rig, show.hang, options.length)
    stances = {name: stance_at(rig, name) for name, members in rig.rows.items() if members}
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
            stands=stand_words(rig, position, options.length)
            if isinstance(position, Stand)
            else (),
            of=", ".join(filter(None, (revision, options.stamp.words))),
            tape=w.length(answer.sight_out or 0.0, options.length, w.HANG),
            title=shorten(settings.title, LONGEST_TITLE),
            tail=tails[k],
            stance=stances[position.name],
            under=under(of, k),
            focused=rig.names[k] in options.focused,
            high=point_height(of, k, options.length),
            check=bool(spot),
        )
        for spot, of, k, row in told
    ]


def _draw_page(cards: Sequence[Card], sheet: Sheet) -> None:
    """Draw a page of cards with dashed lines to cut along."""
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
    """Draw one card: what hangs where, then what is set, then where the light stops; pictures at the side."""
    low = _draw_foot(sheet, box, card)
    top = _draw_top(sheet, box, card)
    sheet.line(box.left, top, box.right, top, weight=KEY)
    sheet.line(box.left, low, box.right, low, weight=1.0)
    _draw_pictures(sheet, Box(box.right - PICTURE, low + 3, box.right, top - 3), card)
    left, right = box.left, box.right - PICTURE - 6
    edges = [top - share * (top - low) for share in BANDS]
    for edge in edges[1:-1]:
        sheet.line(left, edge, right, edge, weight=1.0)
    bands = [Box(left, b, right, a) for a, b in pairwise(edges)]
    for draw, band in zip((_draw_hung, _draw_set, _draw_landing), bands, strict=True):
        draw(sheet, band, card)


def _draw_top(sheet: Sheet, box: Box, card: Card) -> float:
    """Position, hole, kind; the y below them."""
    middle, y = (box.left + box.right) / 2, box.top - HOLE
    sheet.circle(middle, y, HOLE)
    sheet.line(middle - 4, y, middle + 4, y)
    sheet.line(middle, y - 4, middle, y + 4)
    room = box.width / 2 - HOLE - 8
    sheet.text(box.left, y - 5, card.name, 14, bold=True, width=room)
    kind = f"{card.row.kind} {card.row.field}".rstrip()
    sheet.text(box.right, y - 4, kind, LABEL, align="r", width=room)
    return box.top - 2 * HOLE - 2


def _draw_foot(sheet: Sheet, box: Box, card: Card) -> float:
    """Where the hanger stands, the set and the caution, at the bottom; the y above them."""
    stance = stance_words(card.stance)
    of = ", ".join(filter(None, (card.title, card.of)))
    said = ". ".join(remarks_of(card.unit))
    where = ", ".join(filter(None, (stance, card.facts)))
    y = box.bottom + SMALL * (LEADING - 0.94)
    for line, bold in (
        (CARD, False),
        (of, False),
        (where, True),
        (_tape(card), False),
        (said, True),
    ):
        if line:
            sheet.text(box.left, y, line, SMALL, bold=bold, width=box.width)
            y += 1.12 * SMALL
    return y


def _tape(card: Card) -> str:
    """Where the tape's zero lies, of a card that goes by a tape whose zero is not on the centre line."""
    if not (isinstance(card.position, Pipe) and sight_words(card)[0].startswith("TAPE")):
        return ""
    zero = tape_zero(card.position)
    return "" if zero == "zero on centre line" else f"Tape along the {noun(card.position)}, {zero}"


def _draw_hung(sheet: Sheet, box: Box, card: Card) -> None:
    """The number, and beside it the mark, how it hangs, channel and circuit, colour and pattern."""
    row = card.row
    taken = sheet.text(
        box.left, box.bottom + 5, row.number, NUMBER, bold=True, width=0.42 * box.width
    )
    at = box.left + taken + 7
    where, how = row.hangs if not card.stands else ("STAND AT", ", ".join(card.stands[:2]))
    circuit = f"circuit {card.unit.circuit}" if card.unit.circuit else "no circuit"
    lines = [
        (" ".join(filter(None, (where, how))), True),
        (", ".join(filter(None, (row.channel, circuit))), False),
        (", ".join(filter(None, (card.unit.colour or "no colour", row.turned, card.tail))), False),
        (", ".join(card.stands[2:]), True),
        (f"SET: {row.first}" if row.first else "", True),
        ("CHECK ONLY: locked by its first card" if card.check else "", True),
    ]
    told = [(words, bold) for words, bold in lines if words]
    step = (box.height - 2) / max(len(told), 3)
    for k, (words, bold) in enumerate(told):
        y, size = box.top - 1.5 - (k + 0.8) * step, min(LABEL, 0.95 * step)
        sheet.text(at, y, words, size, bold=bold, width=box.right - at)


def _draw_set(sheet: Sheet, box: Box, card: Card) -> None:
    """What is set: tape (or what serves instead) and tip, large; how near is near enough; the tail."""
    row, half = card.row, 0.56 * box.width
    label, value = sight_words(card)
    word, angle, plumb = row.tip
    tip = word if angle else "TIP"
    for left, words, figure in ((box.left, label, value), (box.left + half, tip, angle or word)):
        width = half - 5 if left == box.left else box.width - half
        sheet.text(left, box.top - 10.5, words, LABEL, bold=True, width=width)
        sheet.text(left, box.top - 12.5 - 0.76 * BIG, figure, BIG, bold=True, width=width)
    near = ", ".join(filter(None, row.within))
    told = (f"WITHIN {near}" if near else "", f"plumb {plumb}" if plumb else "")
    words = ". ".join(filter(None, told))
    sheet.text(box.left, box.bottom + 3, words, SMALL, width=box.width)


def sight_words(card: Card) -> tuple[str, str]:
    """Label and value of the first figure: the sight tape, or what is set where there is none."""
    row = card.row
    if not row.sight:
        return ("TURN", row.turn or "NO AIM")
    if not isinstance(card.position, Pipe):
        return (f"HEADING {row.sight_note}", row.sight)
    if card.leaning and card.answer.sight is None:  # set first, as its ladder row has it
        return ("DIAL from square", row.turn)
    if row.sight_note:  # no tape: the pan itself has to serve
        return ("DIAL, no tape", row.turn)
    return (f"TAPE {card.tape} {card.answer.square}", row.sight)


def _draw_pictures(sheet: Sheet, box: Box, card: Card) -> None:
    """The turn from above, as who hangs it stands, and the unit from its side the right way up."""
    row = card.row
    middle = box.bottom + 0.4 * box.height
    way = turned(card.answer, card.position, card.leaning, row.base)
    if way and row.turn != STOP:
        plan = Box(box.left, middle + 13, box.right, box.top)
        on_pipe = isinstance(card.position, Pipe)
        draw_plan(sheet, plan, way, on_pipe=on_pipe, reader=card.stance.facing)
        if on_pipe and card.answer.square == card.stance.standing:
            black = Box(box.right - 46, plan.bottom - 2, box.right, plan.bottom + 10)
            sheet.box(black, black=True)
            sheet.text(
                box.right - 3, plan.bottom, "AT YOU", SMALL, bold=True, align="r", white=True
            )
    turn = ""
    if row.turn:
        dial = "dial " if row.counted.dial else ""
        turn = ", ".join(filter(None, (f"{dial}{row.turn}", row.counted.side_words)))
    if card.leaning and isinstance(card.position, Pipe) and card.answer.sight is None and row.sight:
        turn = f"true {row.sight}"  # as drawn; the dial's own figure is the large one
    centre = (box.left + box.right) / 2
    sheet.text(centre, middle + 1, turn, SMALL, bold=True, align="c", width=box.width)
    if row.tip.word != STOP:
        draw_side(sheet, box._replace(top=middle - 3), card.answer, row.clip)


def _draw_landing(sheet: Sheet, band: Box, card: Card) -> None:
    """LANDS, ON or POLE, its place larger, and STAND below; white on black where it is as focused."""
    mark, (_, across, upstage) = card.row.mark, card.row.stand
    place = ", ".join(filter(None, (mark.first, mark.second)))
    where = "STAND" if card.answer.stand else "POINT"
    target = card.row.stand[0] if card.answer.target else ""
    stand = (
        f"{f'{where} {target}'.rstrip()}: {', '.join(filter(None, (across, upstage, card.high)))}"
    )
    step = band.height / 3.2
    head = f"POLE, above the {card.under}" if mark.word == "POLE" else mark.head
    lines = ((head, SMALL, True, 0.9), (place, PLACE, True, 2.05), (stand, SMALL, False, 3.0))
    room = band.width - (_draw_focused(sheet, band, step) if card.focused else 0.0)
    for k, (words, size, bold, down) in enumerate(lines):
        y, width = band.top - down * step, band.width if k else room
        sheet.text(band.left, y, words, min(size, 1.1 * step), bold=bold, width=width)


def _draw_focused(sheet: Sheet, band: Box, step: float) -> float:
    """AS FOCUSED in the first line of a band, at its right; how much of its width that takes."""
    wide, size = 78.0, min(SMALL, 0.78 * step)
    black = Box(band.right - wide, band.top - min(12.5, 1.05 * step), band.right, band.top - 1.5)
    y = (black.bottom + black.top) / 2 - 0.36 * size
    x, room = black.left + wide / 2, wide - 4
    sheet.box(black, black=True)
    sheet.text(x, y, "AS FOCUSED", size, bold=True, align="c", white=True, width=room)
    return wide + 6
