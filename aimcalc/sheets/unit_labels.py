"""Labels on ordinary label sheets: one a unit, and one for either end of every cable.

The first page goes on plain paper: it proves the printer and the measures of the sheet.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial
from typing import TYPE_CHECKING

from aimcalc.named import NamedTuple
from aimcalc.paper.page import (
    EDGE,
    KEY,
    PAPERS,
    SMALL,
    THIN,
    WHAT_IF,
    Box,
    Page,
    Sheet,
    Target,
    write_pages,
)
from aimcalc.paper.stance import Turned, draw_plan, turned
from aimcalc.paper.true_scale import MM, bar_across, bar_upright, proof_length, proof_words
from aimcalc.scene.model import Pipe, Position
from aimcalc.text import words as w
from aimcalc.text.cables import THEN, CableEnd, cable_ends
from aimcalc.text.facts import SHORT, footer
from aimcalc.text.label_sheet import USUAL, LabelSheet
from aimcalc.text.names import short
from aimcalc.text.rows import STOP, Row, rows_of
from aimcalc.text.stamp import PaperOptions

if TYPE_CHECKING:
    from aimcalc.show import Show


INSET = 5.0  # pt, from a label's edge to its words: no printer feeds truer
FOOT = 28.0  # pt at the foot of a page that its own line takes
STEPS = (
    'Print this page on plain paper at 100 %, never "fit to page".',
    "Measure both bars. Hold it against a label sheet, towards a light: every outline must fall on a label.",
    "Off by a little all over: give the margins. Off more and more: give the gaps, or the size.",
    "Then print the other pages on labels. Other measures: whoever has the scene runs aimcalc prep with "
    '--only labels --labels "3x8 63.5x33.9 mm, margins 7x13".',
)


class UnitLabel(NamedTuple):
    """What one unit's label says."""

    number: str
    position: str
    channel: str
    circuit: str
    colour: str
    turn: str  # "SR 23°"
    of: str  # its set
    way: Turned | None
    on_pipe: bool


Label = UnitLabel | CableEnd


class Layout(NamedTuple):
    """Where labels lie on a page: their boxes in pt, in the order in which they are filled."""

    boxes: list[Box]
    outlined: bool


def labels(show: Show, target: Target, options: PaperOptions) -> int:
    """Number of pages of the labels, written to a path or a binary stream."""
    title = f"{show.rig.scene.settings.title}: labels"
    return write_pages(target, label_pages(show, options), options, title=title)


def label_pages(show: Show, options: PaperOptions) -> list[Page]:
    """The pages themselves, upright: the proof, then units in hang order, then cable ends in laying order."""
    sheet = options.labels or USUAL[options.paper]
    every: list[Label] = [*_units(show, options), *_ends(show, options)]
    layout = layout_of(sheet, options)
    facts = footer(show.rig, "labels")
    proof = Page(partial(_draw_proof, sheet, layout_of(sheet, options, whole=True), options), facts)
    some = len(layout.boxes)
    return [
        proof,
        *(
            Page(partial(_draw_page, every[k : k + some], layout, options.stamp.mark), facts)
            for k in range(0, len(every), some)
        ),
    ]


def layout_of(sheet: LabelSheet, options: PaperOptions, *, whole: bool = False) -> Layout:
    """The labels of a page that are filled: in the `whole` also those where the page's own lines stand."""
    wide, tall = PAPERS[options.paper]
    left, top = sheet.begins((wide / MM, tall / MM))
    lowest, highest = FOOT, tall - (EDGE + WHAT_IF if options.what_if else 0.0)
    boxes = []
    for row in range(sheet.rows):
        high = tall - (top + row * (sheet.height + sheet.gaps[1])) * MM
        box = Box(0.0, high - sheet.height * MM, 0.0, high)
        if whole or (box.bottom >= lowest and box.top <= highest + 1e-6):
            for column in range(sheet.columns):
                x = (left + column * (sheet.width + sheet.gaps[0])) * MM
                boxes.append(Box(x, box.bottom, x + sheet.width * MM, box.top))
    return Layout(boxes, outlined=not sheet.typed)


def _units(show: Show, options: PaperOptions) -> Iterator[UnitLabel]:
    rig = show.rig
    rows = rows_of(rig, show.findings, options.length)
    for k, (unit, row, answer) in enumerate(zip(rig.units, rows, rig.answers, strict=True)):
        if not options.holds(rig.names[k]):
            continue
        position = rig.positions[k]
        yield UnitLabel(
            number=unit.number,
            position=short(rig, position.name),
            channel=row.channel,
            circuit=unit.circuit or "",
            colour=unit.colour or "no colour",
            turn=turn_words(row, position),
            of=f"set {options.stamp.mark}" if options.stamp.mark else "",
            way=None if row.turn == STOP else turned(answer, position, bool(row.clamp), row.base),
            on_pipe=isinstance(position, Pipe),
        )


def turn_words(row: Row, position: Position) -> str:
    """Where a unit points, in words: "SR 23°", "square US", "US 42°"; the arrow shows from where.

    "dial SR 9°" where the stem leans: the arrow is the true heading, which no dial reads.
    """
    if row.counted.dial:
        return f"dial {row.turn}"
    if row.turn == w.SQUARE:
        return row.counted.side_words
    return row.sight if not isinstance(position, Pipe) and row.sight else row.turn


def _ends(show: Show, options: PaperOptions) -> Iterator[CableEnd]:
    for end in cable_ends(show.rig, show.hang, options.length):
        if any(options.holds(unit) for unit in end.units):
            yield end


def _draw_page(every: Sequence[Label], layout: Layout, mark: str, sheet: Sheet) -> None:
    for label, box in zip(every, layout.boxes, strict=False):
        if layout.outlined:
            sheet.box(box, weight=THIN)
        inner = box.inset(INSET)
        if isinstance(label, UnitLabel):
            _draw_unit(sheet, inner, label)
        else:
            _draw_end(sheet, inner, label, mark)


def _grown(box: Box) -> float:
    """How much larger than on the lowest labels words may be."""
    return min(max(min(box.height / 62.0, box.width / 165.0), 1.0), 1.7)


def _draw_unit(sheet: Sheet, box: Box, label: UnitLabel) -> None:
    """Draw number, position, channel, circuit and colour, and the turn as an arrow beside them."""
    split, grown = box.left + 0.62 * box.width, _grown(box)
    size = min(66.0, 0.46 * box.height)
    y = box.top - 0.76 * size
    taken = sheet.text(box.left, y, label.number, size, bold=True, width=0.3 * box.width)
    x, room = box.left + taken + 5, split - box.left - taken - 8
    sheet.text(x, box.top - 10 * grown, label.position, 12 * grown, bold=True, width=room)
    sheet.text(x, box.top - 10 * grown - 11.5, label.of, SMALL, width=room)
    lines = [", ".join(filter(None, (label.channel, label.circuit))), label.colour]
    step = min(15.0 * grown, (y - 2 - box.bottom) / len(lines))
    for k, words in enumerate(lines):
        low = box.bottom + 1.5 + step * (len(lines) - 1 - k)
        size = min(13.0 * grown, 0.95 * step)
        sheet.text(box.left, low, words, size, bold=k == 0, width=split - box.left - 3)
    _draw_turn(sheet, Box(split, box.bottom, box.right, box.top), label, grown)


def _draw_turn(sheet: Sheet, box: Box, label: UnitLabel, grown: float) -> None:
    middle = (box.left + box.right) / 2
    size = 12 * grown
    sheet.text(middle, box.bottom + 1.5, label.turn, size, bold=True, align="c", width=box.width)
    if label.way is not None:
        picture = Box(box.left, box.bottom + 11 * grown, box.right, box.top)
        draw_plan(sheet, picture, label.way, on_pipe=label.on_pipe)


def _draw_end(sheet: Sheet, box: Box, end: CableEnd, mark: str) -> None:
    """Draw which end of which cable it is: from where, to whom, how long."""
    wide, grown = 0.42 * box.width, _grown(box)
    flag = Box(box.right - wide, box.top - 17 * grown, box.right, box.top)
    sheet.box(flag, weight=KEY)
    sheet.text(
        (flag.left + flag.right) / 2,
        flag.bottom + 4.6 * grown,
        f"{end.end} END",
        12 * grown,
        bold=True,
        align="c",
        width=wide - 8,
    )
    room = box.width - wide - 6
    sheet.text(box.left, box.top - 13.5 * grown, end.cable, 17 * grown, bold=True, width=room)
    goal, told = f"TO {end.goal}", mark and f"set {mark}"
    two = THEN in end.fold
    lines = [
        (f"FROM {end.start}", True),
        (f"{goal}, {told}" if two and told else goal, True),
        (", ".join(filter(None, (end.fold, "" if two else told))), False),
    ]
    step = min(15.0 * grown, (box.height - 21 * grown) / len(lines))
    for k, (words, bold) in enumerate(lines):
        low = box.bottom + 1.5 + step * (len(lines) - 1 - k)
        size = min(12.0 * grown, 0.9 * step)
        sheet.text(box.left, low, words, size, bold=bold, width=box.width)


def _draw_proof(labels: LabelSheet, layout: Layout, options: PaperOptions, sheet: Sheet) -> None:
    """Draw the outline of every label, and over their middle the proof bars and what to do."""
    for box in layout.boxes:
        sheet.box(box, weight=THIN)
    wide, tall = PAPERS[options.paper]
    long = proof_length(options.length) * MM
    middle = Box(wide / 2 - 200, tall / 2 - 205, wide / 2 + 200, tall / 2 + 205)
    sheet.blank(middle)
    sheet.box(middle, weight=THIN)
    inner = middle.inset(14)
    sheet.text(inner.left, inner.top - 18, "Proof of the labels", 22, bold=True)
    size = (
        f"{labels.columns} across, {labels.rows} down, {labels.width:g} x {labels.height:g} mm each"
    )
    if len(layout.boxes) > len(layout_of(labels, options).boxes):
        size += "; where this page's own lines stand, labels stay empty"
    y = sheet.paragraph(inner.left, inner.top - 24, size, 12, inner.width, bold=True) - 4
    for k, words in enumerate(STEPS, 1):
        sheet.text(inner.left, y - 13.5, str(k), 12, bold=True)
        y = sheet.paragraph(inner.left + 18, y - 2, words, 12, inner.width - 18)
    bar_across(sheet, inner.left + 10, y - 24, proof_length(options.length))
    bar_upright(sheet, inner.right - 12, inner.bottom, proof_length(options.length))
    told = f"{proof_words(options.length)} both ways, or bin it"
    sheet.text(inner.left + 14, y - 18, told, 12, bold=True, width=long - 8)
    y = sheet.paragraph(inner.left, y - 40, SHORT, SMALL, inner.width - 40)
