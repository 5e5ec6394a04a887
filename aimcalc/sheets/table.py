"""One position's rows cut into pages, each with the stance at its head."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial
from typing import NamedTuple, Protocol

from aimcalc.sheets.cautions import SHORT
from aimcalc.sheets.columns import HEAD, ROW, Grid, draw_heads, draw_row
from aimcalc.sheets.paper import KEY, RULE, Box, Page, Sheet
from aimcalc.sheets.stance import Stance, draw_stance, stance_words
from aimcalc.sheets.typeset import LEADING, REGULAR, shorten, wrap

MOST_ROWS = 12  # a page; more cannot be told apart in the dark
GROUP = 4  # rows between gaps
GAP = 4.0  # pt
TALLEST = 46.0  # pt
HEADER = 42.0  # pt
PICTURE = 132.0  # pt wide
START_BOX = 118.0  # pt wide
FINDING = 10.0  # pt
FINDING_INDENT = 52.0  # pt, room for the severity
MOST_TOLD = 4  # under one row; the cover has them all
MOST_LETTERS = 240


class Told(Protocol):
    """A row: what its cells show is between it and its columns; these are told under it."""

    @property
    def findings(self) -> tuple[str, ...]:
        """What was found, "WARN: ..."."""

    @property
    def clamp(self) -> str:
        """What is to know about its clamp, "STEM: ..."; empty for most."""


class Table(NamedTuple):
    """What all pages of one position and one sort share."""

    name: str
    title: str  # AT TRIM, PIPE IN
    note: str
    stance: Stance
    start: str  # "1 = SL END"
    grid: Grid
    findings: tuple[str, ...]  # of the position, told on its first page
    facts: str  # footer
    always: tuple[str, ...] = ()  # told on every page, before the findings: "STEPS: ..."
    first: tuple[str, ...] = ()  # told on the first page, before the findings


class Block(NamedTuple):
    """A row with the lines printed under it: (severity on its first line, words)."""

    row: Told
    lines: list[tuple[str, str]]

    @property
    def height(self) -> float:
        """Row and lines together."""
        return ROW + _height(self.lines)


def table_pages(table: Table, rows: Sequence[Told], body: Box) -> list[Page]:
    """Pages of a table, as few as hold it, filled evenly and by whole groups where that fits."""
    width = body.width - FINDING_INDENT
    always, first = (_wrapped(told, width) for told in (table.always, table.first))
    told = [*first, *_lines(table.findings, width)]
    blocks = [Block(row, _lines((*row.findings, row.clamp), width)) for row in rows]
    room = body.height - HEADER - HEAD - _height(always)
    cuts = _best_cut(blocks, room, _height([*always, *told]) - _height(always))
    return [
        Page(partial(_draw, table, some, [*always, *([] if k else told)]), table.facts, SHORT)
        for k, some in enumerate(cuts)
    ]


def _best_cut(blocks: list[Block], room: float, used: float) -> list[list[Block]]:
    """As few pages as hold the blocks; of those, cut between groups, and as evenly as that allows."""
    any_row = list(_cut([[block] for block in blocks], room, used, MOST_ROWS))
    groups = [blocks[k : k + GROUP] for k in range(0, len(blocks), GROUP)]
    even = -(-len(blocks) // (len(any_row) * GROUP)) * GROUP
    for most in (even, MOST_ROWS):
        whole = list(_cut(groups, room, used, most))
        over = used + _tall(whole[0]) > room or any(_tall(page) > room for page in whole[1:])
        if len(whole) == len(any_row) and not over:
            return whole
    return any_row


def _cut(groups: list[list[Block]], room: float, used: float, most: int) -> Iterator[list[Block]]:
    """Groups by the page; `used` is taken on the first page. A page holds one group at least."""
    page: list[Block] = []
    for group in groups:
        longer = [*page, *group]
        if page and (len(longer) > most or used + _tall(longer) > room):
            yield page
            page, used = list(group), 0.0
        else:
            page = longer
    yield page


def _tall(blocks: Sequence[Block]) -> float:
    """Height of a page's rows with the gaps between groups."""
    return sum(block.height for block in blocks) + GAP * ((len(blocks) - 1) // GROUP)


def _lines(findings: Sequence[str], width: float) -> list[tuple[str, str]]:
    """Findings as lines; the severity, the part before the colon, stands apart."""
    told = [finding for finding in findings if finding]
    lines = _wrapped([shorten(finding, MOST_LETTERS) for finding in told[:MOST_TOLD]], width)
    if len(told) > MOST_TOLD:
        lines.append(("", f"and {len(told) - MOST_TOLD} more: see the cover"))
    return lines


def _wrapped(told: Sequence[str], width: float) -> list[tuple[str, str]]:
    """Lines of "WORD: sentence", the word on the first of them."""
    lines = []
    for text in told:
        word, _, says = text.partition(": ")
        for k, line in enumerate(wrap(says, REGULAR, FINDING, width)):
            lines.append((word if k == 0 else "", line))
    return lines


def _height(lines: Sequence[tuple[str, str]]) -> float:
    return len(lines) * FINDING * LEADING + (3.0 if lines else 0.0)


def _stretched(blocks: Sequence[Block], room: float) -> float:
    """Height of a page's rows: what is left of the page makes them taller, up to a limit."""
    return min(TALLEST, ROW + max(0.0, room - _tall(blocks)) / len(blocks))


def _draw(table: Table, blocks: Sequence[Block], told: list[tuple[str, str]], sheet: Sheet) -> None:
    """Draw one page."""
    body, edges = sheet.body, table.grid.edges
    _draw_header(sheet, table)
    y = _draw_lines(sheet, body.top - HEADER, told)
    draw_heads(sheet, table.grid, y)
    y -= HEAD
    height = _stretched(blocks, y - body.bottom)
    for k in range(0, len(blocks), GROUP):
        top = y
        for block in blocks[k : k + GROUP]:
            if y < top:
                sheet.line(edges[0], y, edges[-1], y, weight=RULE)
            draw_row(sheet, table.grid, y, y - height, block.row)
            y = _draw_block_lines(sheet, y - height, block, edges)
        sheet.box(Box(edges[0], y, edges[-1], top), weight=KEY)
        y -= GAP


def _draw_block_lines(sheet: Sheet, y: float, block: Block, edges: Sequence[float]) -> float:
    if block.lines:
        sheet.line(edges[0], y, edges[-1], y, weight=RULE)
    return _draw_lines(sheet, y, block.lines)


def _draw_lines(sheet: Sheet, top: float, lines: Sequence[tuple[str, str]]) -> float:
    left, width = sheet.body.left, sheet.body.width - FINDING_INDENT
    y = top - 0.5
    for word, words in lines:
        y -= FINDING * LEADING
        if word:
            sheet.text(left + 4, y + 2, word, FINDING, bold=True, width=FINDING_INDENT - 8)
        sheet.text(left + FINDING_INDENT, y + 2, words, FINDING, width=width - 4)
    return top - _height(lines)


def _draw_header(sheet: Sheet, table: Table) -> None:
    """Picture, stance, title, and the black box that says where the row starts."""
    body = sheet.body
    low = body.top - HEADER + 3
    draw_stance(sheet, Box(body.left, low, body.left + PICTURE, body.top), table.stance)
    left = body.left + PICTURE + 12
    right = body.right - (START_BOX + 10 if table.start else 0)
    sheet.text(left, body.top - 19, stance_words(table.stance), 24, bold=True, width=right - left)
    taken = sheet.text(
        left,
        low + 2,
        f"{table.name}  {table.title}",
        15,
        bold=True,
        width=(right - left) * 0.6,
    )
    note = ", ".join(part for part in (table.note, table.stance.mouths) if part)
    sheet.text(left + taken + 12, low + 2, note, 12, width=right - left - taken - 12)
    if table.start:
        _draw_start(sheet, Box(body.right - START_BOX, low, body.right, body.top), table.start)


def _draw_start(sheet: Sheet, box: Box, start: str) -> None:
    sheet.box(box, black=True)
    middle, width = (box.left + box.right) / 2, box.width - 8
    sheet.text(middle, box.top - 14, "START END", 12, bold=True, align="c", white=True)
    sheet.text(middle, box.bottom + 7, start, 20, bold=True, align="c", width=width, white=True)
