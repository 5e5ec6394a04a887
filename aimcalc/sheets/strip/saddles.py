"""Saddle labels: one a mark, laid over the pipe there, with the yoke bar's line at its true angle.

Four a page, to be cut out. They take the place of a strip along the whole pipe: the tape measure finds the
mark, the label shows the turn. With them comes the running tape list.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial
from typing import TYPE_CHECKING

from aimcalc.named import NamedTuple
from aimcalc.paper.page import RULE, SMALL, Box, Page, Sheet, Target, body_of, write_pages
from aimcalc.paper.true_scale import (
    AWAY,
    BAND,
    CIRCUIT,
    CLAMP,
    MM,
    NUMBER,
    ONLY_TRUE,
    TALL,
    WORDS,
    bar_across,
    bar_upright,
    draw_bar,
    half_bar,
    proof_length,
    proof_words,
)
from aimcalc.sheets.strip.marks import BY_DIAL, Mark, Strip, strips
from aimcalc.sheets.strip.tape_list import COLUMNS, Block, blocks, draw_columns, in_columns
from aimcalc.text import words as w
from aimcalc.text.facts import SHORT, footer
from aimcalc.text.hang_rows import HangRow, from_start, hang_rows
from aimcalc.text.stamp import PaperOptions

if TYPE_CHECKING:
    from aimcalc.show import Show


WIDE = 125.0  # mm, a label; the pipe runs along it
ACROSS, DOWN = 2, 2  # labels on a page
TITLE = 24.0  # pt
TYPE = 11.5  # pt, the steps
PLACE = 20.0  # pt
CURVED = "A CURVED pipe: tape along its bend, the label's dashed line along the tube at the mark."
NO_LABEL = "A unit swung OUT round its pipe has no label: its yoke bar is set by the dial."


class Saddle(NamedTuple):
    """One label: a mark with its strip's sides, and what its row says of where it is."""

    mark: Mark
    strip: Strip
    where: str  # "1'-9" from SL END"
    set: str


def saddle_labels(show: Show, target: Target, options: PaperOptions) -> int:
    """Number of pages of the tape list and the saddle labels, written to a path or a binary stream."""
    title = f"{show.rig.scene.settings.title}: saddle labels"
    return write_pages(target, saddle_pages(show, options), options, title=title, landscape=True)


def saddle_pages(show: Show, options: PaperOptions) -> list[Page]:
    """The pages themselves, lying: the steps with the tape list, then the labels of pipes, four a page."""
    rig = show.rig
    made = strips(rig, options.length, options.holds)
    rows = {
        row.k: row
        for mine in hang_rows(rig, show.hang, (), options.length).values()
        for row in mine
    }
    every = [
        saddle
        for strip in made
        for saddle in _saddles(strip, rows, options)
        if options.holds(rig.names[saddle.mark.k])
    ]
    facts = footer(rig, "saddle labels", ["true scale: measure the proof bars"])
    some = ACROSS * DOWN
    return [
        *_list_pages(show, made, rows, options),
        *(
            Page(partial(_draw_page, every[k : k + some], options.length), facts, SHORT)
            for k in range(0, len(every), some)
        ),
    ]


def steps(length: w.LengthUnit) -> list[str]:
    """How the list and the labels are used, a step a line."""
    return [
        "Hook the tape at START END; call and mark each place from the list, one after the other.",
        "Lay the unit's label over the top of the pipe, its upright line on the mark, and tape it.",
        "Its edges and ends go to the sides they name. Read it from above, from where it says.",
        "Clamp on the upright line. Turn the yoke until its top bar lies along the thick line.",
        "The thick line is the YOKE BAR, NOT the beam: the lens is a quarter turn from it.",
        f"{ONLY_TRUE} Measure both {proof_words(length)} bars of a page; bin it where one is off.",
    ]


def _saddles(strip: Strip, rows: dict[int, HangRow], options: PaperOptions) -> Iterator[Saddle]:
    """The labels of one pipe from START END; none of a boom, whose units are turned from the stage.

    None for a unit swung out round its pipe either: its bar is read along the stem, not from above.
    """
    if strip.up:
        for mark in (mark for mark in strip.in_order if mark.bar_words != BY_DIAL):
            start = strip.stance.start
            where = f"{from_start(rows[mark.k], start)} from {start}"
            yield Saddle(mark, strip, where, options.stamp.mark)


def _list_pages(
    show: Show, made: Sequence[Strip], rows: dict[int, HangRow], options: PaperOptions
) -> list[Page]:
    body = body_of(options, True, SHORT)
    told = steps(options.length)
    if any(strip.curved for strip in made):
        told.append(CURVED)
    if any(mark.bar_words == BY_DIAL for strip in made for mark in strip.marks):
        told.append(NO_LABEL)
    head = TITLE + 12 + len(told) * TYPE * 1.3
    every = blocks(show.rig, made, rows, options.holds)
    columns = in_columns(every, body.height - head)
    facts = footer(show.rig, "tape list")
    return [
        Page(partial(_draw_list, told, columns[k : k + COLUMNS], head), facts, SHORT)
        for k in range(0, len(columns), COLUMNS)
    ]


def _draw_list(
    told: Sequence[str], columns: Sequence[Sequence[Block]], head: float, sheet: Sheet
) -> None:
    body = sheet.body
    sheet.text(body.left, body.top - 20, "Tape list and saddle labels", TITLE, bold=True)
    if not any(columns):
        words = "Nothing hangs on a pipe or a boom in this scene."
        sheet.text(body.left, body.top - head - 20, words, 14)
        return
    y = body.top - TITLE - 10
    for k, words in enumerate(told, 1):
        sheet.text(body.left, y, str(k), TYPE, bold=True)
        sheet.text(body.left + 18, y, words, TYPE, width=body.width - 18)
        y -= TYPE * 1.3
    draw_columns(sheet, columns, body.top - head)


def _draw_page(saddles: Sequence[Saddle], length: w.LengthUnit, sheet: Sheet) -> None:
    """Draw up to four labels and the proof bars between them."""
    body = sheet.body
    gap = body.width - ACROSS * WIDE * MM
    lefts = (body.left, body.left + WIDE * MM + gap)
    bottoms = (body.top - TALL * MM, body.bottom + 1.0)
    for k, saddle in enumerate(saddles):
        _draw_saddle(sheet, lefts[k % ACROSS], bottoms[k // ACROSS], saddle)
    middle = (bottoms[0] + bottoms[1] + TALL * MM) / 2
    long = proof_length(length)
    bar_across(sheet, body.left, middle - 6, long)
    bar_upright(sheet, body.left + WIDE * MM + gap / 2, middle - long * MM / 2, long)
    words = f"{proof_words(length)}: measure me or bin me"
    sheet.text(body.left, middle, words, WORDS, bold=True, width=long * MM)
    sheet.text(lefts[1], middle - 6, ONLY_TRUE, SMALL, width=WIDE * MM)


def _draw_saddle(sheet: Sheet, left: float, bottom: float, saddle: Saddle) -> None:
    """Draw one label: its edges and sides, the mark, the bar, and the words in the quarters left free."""
    right, top = left + WIDE * MM, bottom + TALL * MM
    x, y = (left + right) / 2, (bottom + top) / 2
    sheet.box(Box(left, bottom, right, top), weight=RULE)
    sheet.line(left, y, right, y, weight=RULE, dash=9)
    _draw_sides(sheet, Box(left, bottom, right, top), saddle)
    sheet.line(x, bottom + BAND * MM, x, top - BAND * MM, weight=CLAMP)
    bar = saddle.mark.bar
    if bar is not None:
        draw_bar(sheet, (left, right), bottom, x, bar, half_bar(bar, WIDE / 2 - 2.0))
    before, after = Box(left + 4, y, x - AWAY * MM, top), Box(x + AWAY * MM, y, right - 4, top)
    upper, lower = (before, after) if bar is None or bar >= 0.0 else (after, before)
    _draw_number(sheet, upper, saddle.mark)
    _draw_place(sheet, Box(lower.left, bottom, lower.right, y), saddle)


def _draw_sides(sheet: Sheet, box: Box, saddle: Saddle) -> None:
    """Draw the ways along the pipe, the side up the page, and where to read it from."""
    strip, y = saddle.strip, box.top - BAND * MM + 5
    sheet.arrow(box.left + 26, y + 5, box.left + 5, y + 5)
    sheet.text(box.left + 30, y, strip.first, 14, bold=True)
    sheet.arrow(box.right - 26, y + 5, box.right - 5, y + 5)
    sheet.text(box.right - 30, y, strip.second, 14, bold=True, align="r")
    middle = (box.left + box.right) / 2
    sheet.text(middle, y, f"THIS EDGE {strip.up}", 14, bold=True, align="c")
    of_set = f", set {saddle.set}" if saddle.set else ""
    name = f"{strip.name}, curved" if strip.curved else strip.name
    words = f"{name}{of_set}: stand {strip.low}, face {strip.up}, look down on it"
    sheet.text(box.left + 4, box.bottom + 5, words, WORDS, width=box.width - 8)


def _draw_number(sheet: Sheet, box: Box, mark: Mark) -> None:
    """Draw the unit's number, its circuit and its kind."""
    y = box.bottom + 14 * MM
    taken = sheet.text(box.left, y, mark.number, NUMBER, bold=True, width=0.55 * box.width)
    room = box.width - taken - 8
    sheet.text(box.left + taken + 8, y, mark.circuit, CIRCUIT, bold=True, width=room)
    sheet.text(box.left, box.bottom + 5 * MM, mark.kind, WORDS, width=box.width)


def _draw_place(sheet: Sheet, box: Box, saddle: Saddle) -> None:
    """Draw where the mark is, and what the line and the lens do."""
    mark, y = saddle.mark, box.top - 9 * MM
    sheet.text(box.left, y, mark.where, PLACE, bold=True, width=box.width)
    for k, words in enumerate((saddle.where, mark.bar_words, mark.nose), 1):
        sheet.text(
            box.left, y - 5.6 * k * MM, words, WORDS, bold=words == mark.bar_words, width=box.width
        )
