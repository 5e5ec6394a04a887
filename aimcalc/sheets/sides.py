"""Sides of paper that two people work from at one position: head, guide, rows with lines under them, ticks.

Nothing is squeezed and nothing stands on end: what does not fit is set smaller, down to `LEAST`, and only a
word that is longer still is squeezed.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import partial
from typing import Any

from aimcalc.named import NamedTuple
from aimcalc.paper.page import KEY, RULE, Box, Page, Sheet
from aimcalc.paper.stance import Stance, draw_stance, stance_words
from aimcalc.sheets.guide import Guide, draw_guide, guide_height
from aimcalc.text.facts import SHORT
from aimcalc.text.typeset import BOLD, LEADING, REGULAR, text_width, wrap

ROW = 34.0  # pt, 12 mm: the least that two lines and a tick of a gloved hand take
TALLEST = 50.0  # pt
BIG = 20.0  # pt, the figures that are set
TYPE = 12.0  # pt
LEAST = 10.0  # pt
PAD = 3.5
UPPER, LOWER = 1.5, 13.0  # pt from the middle of a row to the base lines of its two lines
LINE = 11.0  # pt, of the lines under a row
INDENT = 84.0  # pt, room for their words
HEADER = 47.0  # pt
HEADS = 28.0  # pt
PICTURE = 128.0  # pt wide, of the stance
START = 118.0  # pt wide
MOST_ROWS = 10  # on a side: more cannot be told apart in the dark
GROUP, GAP = 4, 3.0  # rows between gaps, and the gap in pt

Lines = list[tuple[str, str]]  # under a row or over all: a word, then what it says


class Column(NamedTuple):
    """One column: its head in two lines, its share of the width, and what draws a cell of it.

    A `fixed` one is as wide as its share says in points; without `draw` it is a box to tick or write in.
    """

    head: tuple[str, str]
    share: float
    draw: Callable[[Sheet, Box, Any], None] | None = None
    fixed: bool = False


class Side(NamedTuple):
    """What all sides of one position share."""

    name: str
    title: str  # LADDER, DECK
    note: str
    stance: Stance
    start: str  # "1 = SL END"
    columns: Sequence[Column]
    edges: Sequence[float]
    guide: Guide
    shouted: Sequence[str]  # words that stand white on black
    below: bool = False  # the reader stands under those whose stance is told
    cautions: str = SHORT


class Block(NamedTuple):
    """A row with the lines under it, and the least height of its cells; `instead` of its last ticks."""

    row: Any
    lines: Lines
    least: float = ROW
    instead: str = ""

    @property
    def height(self) -> float:
        """The least it takes."""
        return self.least + lines_height(self.lines)


def side_pages(
    side: Side, blocks: Sequence[Block], told: Sequence[tuple[str, str]], body: Box, facts: str
) -> Iterator[Page]:
    """The sides of a position, as few as hold its rows; `told` is said over those of the first."""
    over = set_lines(told, body.width)
    room = body.height - HEADER - HEADS - guide_height(side.guide, body.width)
    cuts = _cut(blocks, room, lines_height(over))
    for k, some in enumerate(cuts):
        of = f"side {k + 1} of {len(cuts)}" if len(cuts) > 1 else ""
        yield Page(partial(_draw, side, some, [] if k else over, of), facts, side.cautions)


def edges_of(columns: Sequence[Column], left: float, right: float) -> list[float]:
    """The left edge of each column, and the right edge of the last."""
    fixed = sum(column.share for column in columns if column.fixed)
    shares = sum(column.share for column in columns if not column.fixed)
    scale = (right - left - fixed) / shares
    edges = [left]
    for column in columns:
        edges.append(edges[-1] + column.share * (1.0 if column.fixed else scale))
    return edges


def set_lines(told: Sequence[tuple[str, str]], width: float) -> Lines:
    """Lines as they are set in a width: the word of each on its first."""
    return [
        (word if k == 0 else "", line)
        for word, says in told
        for k, line in enumerate(wrap(says, REGULAR, LINE, width - INDENT - 8))
    ]


def lines_height(lines: Lines) -> float:
    """What lines take, with some air."""
    return len(lines) * LINE * LEADING + (4.0 if lines else 0.0)


def plain(
    sheet: Sheet,
    x: float,
    y: float,
    words: str,
    size: float,
    width: float,
    *,
    bold: bool = False,
    white: bool = False,
    centred: bool = False,
) -> float:
    """Draw a line no wider than `width`, set smaller rather than squeezed; its drawn width comes back."""
    natural = text_width(words, BOLD if bold else REGULAR, size)
    if natural > width:
        size = max(LEAST, size * width / natural)
    align = "c" if centred else "l"
    return sheet.text(x, y, words, size, bold=bold, white=white, width=width, align=align)  # type: ignore[arg-type]


def pair(sheet: Sheet, box: Box, big: str, small: str) -> None:
    """A large figure, and a line under it."""
    base = (box.top + box.bottom) / 2
    if big:
        plain(sheet, box.left, base + UPPER, big, BIG, box.width, bold=True)
    if small:
        plain(sheet, box.left, base - LOWER, small, TYPE, box.width)


def stack(sheet: Sheet, box: Box, lines: Sequence[str], bold: int = 0) -> None:
    """Up to four lines down the middle of a cell, the first `bold` of them bold."""
    step = min(13.0, (box.height - 2.5) / max(len(lines), 1))
    top = (box.top + box.bottom) / 2 + step * len(lines) / 2
    for k, words in enumerate(lines):
        y, size = top - (k + 0.8) * step, min(11.5, 0.98 * step)
        plain(sheet, box.left, y, words, size, box.width, bold=k < bold)


def _cut(blocks: Sequence[Block], room: float, used: float) -> list[list[Block]]:
    """As few sides as hold the blocks, as even as they come."""
    filled = _filled(blocks, room, used, MOST_ROWS)
    even = -(-len(blocks) // len(filled))
    again = _filled(blocks, room, used, even)
    return again if len(again) == len(filled) else filled


def _filled(blocks: Sequence[Block], room: float, used: float, most: int) -> list[list[Block]]:
    sides: list[list[Block]] = [[]]
    left = room - used
    for block in blocks:
        need = block.height + (GAP if len(sides[-1]) % GROUP == 0 else 0.0)
        if sides[-1] and (need > left or len(sides[-1]) == most):
            sides.append([])
            left, need = room, block.height
        sides[-1].append(block)
        left -= need
    return sides


def _draw(side: Side, blocks: Sequence[Block], told: Lines, of: str, sheet: Sheet) -> None:
    """Draw one side."""
    body = sheet.body
    _draw_header(sheet, side, of)
    y, tall = body.top - HEADER, guide_height(side.guide, body.width)
    draw_guide(sheet, Box(body.left, y - tall, body.right, y), side.guide)
    y = _draw_lines(sheet, y - tall, told, side.shouted)
    _draw_heads(sheet, side, y)
    y -= HEADS
    gaps = GAP * ((len(blocks) - 1) // GROUP)
    spare = y - body.bottom - sum(block.height for block in blocks) - gaps
    more = max(0.0, spare) / len(blocks)
    for k in range(0, len(blocks), GROUP):
        top = y
        for block in blocks[k : k + GROUP]:
            if y < top:
                sheet.line(side.edges[0], y, side.edges[-1], y, weight=RULE)
            y = _draw_block(sheet, side, block, y, more)
        sheet.box(Box(side.edges[0], y, side.edges[-1], top), weight=KEY)
        y -= GAP


def _draw_block(sheet: Sheet, side: Side, block: Block, top: float, more: float) -> float:
    """Draw a row and its lines, taller by up to `more`; the y below them comes back."""
    y = top - min(max(TALLEST, block.least), block.least + more)
    for column, left, right in zip(side.columns, side.edges, side.edges[1:], strict=False):
        if column.draw:
            column.draw(sheet, Box(left + PAD, y, right - PAD, top), block.row)
    ticks = len([column for column in side.columns if column.draw is None]) if block.instead else 0
    for edge in side.edges[1 : -max(ticks, 1)]:
        sheet.line(edge, y, edge, top, weight=RULE)
    if block.instead:
        left = side.edges[-1 - ticks] + PAD
        width = side.edges[-1] - left - PAD
        plain(sheet, left, (y + top) / 2 - 7, block.instead, BIG, width, bold=True)
    if not block.lines:
        return y
    sheet.line(side.edges[0], y, side.edges[-1], y, weight=RULE)
    return _draw_lines(sheet, y, block.lines, side.shouted)


def _draw_lines(sheet: Sheet, top: float, lines: Lines, shouted: Sequence[str]) -> float:
    """Draw lines with their words before them; the y below them comes back."""
    left, width = sheet.body.left + 2, sheet.body.width - 4
    y = top - 1.0
    for word, says in lines:
        y -= LINE * LEADING
        white = word in shouted
        if white:
            sheet.box(Box(left, y - 1.5, left + INDENT - 4, y + LINE * LEADING - 2), black=True)
        if word:
            plain(sheet, left + 4, y + 1.5, word, LINE, INDENT - 10, bold=True, white=white)
        sheet.text(left + INDENT, y + 1.5, says, LINE, width=width - INDENT - 2)
    return top - lines_height(lines)


def _draw_heads(sheet: Sheet, side: Side, top: float) -> None:
    """Draw the heads of the columns, two level lines each; those of boxes to fill are plain."""
    for column, left, right in zip(side.columns, side.edges, side.edges[1:], strict=False):
        for row, words in enumerate(column.head):
            bold = row == 0 and column.draw is not None
            y, size = top - 11.5 - 12 * row, 11.0 if bold else LEAST
            plain(sheet, left + PAD, y, words, size, right - left - 4, bold=bold)


def _draw_header(sheet: Sheet, side: Side, of: str) -> None:
    """Where the reader stands, drawn and said; the position; where the row starts."""
    body = sheet.body
    low = body.top - HEADER + 5
    who = "THEY" if side.below else "YOU"
    draw_stance(sheet, Box(body.left, low, body.left + PICTURE, body.top), side.stance, who)
    left, right = body.left + PICTURE + 12, body.right - (START + 10 if side.start else 0)
    width = right - left
    stance = stance_words(side.stance)
    if side.below:
        stance = stance.replace("You stand", "They stand")
    plain(sheet, left, body.top - 19, stance, 24.0, width, bold=True)
    taken = plain(sheet, left, low + 3, f"{side.name}: {side.title}", 16.0, 0.5 * width, bold=True)
    note = ", ".join(filter(None, (of, side.note)))
    plain(sheet, left + taken + 10, low + 3, note, TYPE, width - taken - 10)
    if side.start:
        box = Box(body.right - START, low, body.right, body.top)
        sheet.box(box, weight=KEY, black=True)
        middle = (box.left + box.right) / 2
        sheet.text(middle, box.top - 14, "START END", 12, bold=True, align="c", white=True)
        y, wide = box.bottom + 8, START - 8
        plain(sheet, middle, y, side.start, BIG, wide, bold=True, white=True, centred=True)
