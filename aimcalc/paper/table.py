"""One position's rows cut into pages, each with the stance at its head."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import partial
from typing import Any, Protocol

from aimcalc.named import NamedTuple
from aimcalc.paper.page import KEY, RULE, SMALL, Box, Page, Sheet
from aimcalc.paper.stance import Stance, draw_stance, stance_words
from aimcalc.text.facts import SHORT
from aimcalc.text.rows import Row
from aimcalc.text.typeset import BOLD, LEADING, REGULAR, fit, shorten, wrap

ROW = 36.9  # pt; 13 mm, so that a gloved hand can tick it
HEAD = 33.0  # pt
KEY_TYPE = 20.0  # pt, the numbers that are set
TYPE = 12.0  # pt
TICKS = ("hung", "locked", "safety", "tail", "pan", "down")
TICK_WIDTH = 16.0
INITIALS = 34.0
PAD = 3.5


class Column(NamedTuple):
    """One column: two or three lines of heading, its share of the width, and what draws a cell.

    `draw` takes the sheet, the cell and the row, of whatever sort the table's rows are.
    """

    head: tuple[str, ...]
    share: float
    draw: Callable[[Sheet, Box, Any], None]


class Marks(NamedTuple):
    """What the marks of a pipe's sheet are counted from, for the heads of their columns."""

    hung: str  # "from centre line"
    tape: tuple[str, ...]  # SIGHT TAPE, where it lies and where its 0 is; or that there is none


def at_trim(marks: Marks) -> list[Column]:
    """Columns for a pipe at trim."""
    return [
        Column(("UNIT", "channel"), 46, unit_cell),
        Column(("TYPE, lens", "hang at", marks.hung), 86, type_cell),
        Column(("SWING NOSE", "from square"), 84, turn_cell),
        Column(marks.tape, 91, sight_cell),
        Column(("DOWN / UP", "or plumb"), 86, tip_cell),
        Column(("STAND", "or POINT"), 68, stand_cell),
        Column(("LANDS, ON", "or POLE"), 84, mark_cell),
        Column(("WITHIN", "either way"), 60, within_cell),
        Column(("MATCH", "tail tied"), 64, match_cell),
    ]


def upright_at_trim(dials: bool, *hung: str) -> list[Column]:
    """Columns for a boom or a stand; `dials` where a clamp's own reading differs from the heading.

    `hung` says what units hang at, where they hang.
    """
    columns = [
        Column(("UNIT", "channel"), 46, unit_cell),
        Column(("TYPE, lens", *(hung or ("how it stands",))), 94, type_cell),
        Column(("HEADING", "off straight across"), 98, sight_cell),
        Column(("AT CLAMP", "own reading"), 92, turn_cell),
        Column(("DOWN / UP", "or plumb"), 86, tip_cell),
        Column(("STAND", "or POINT"), 70, stand_cell),
        Column(("LANDS, ON", "or POLE"), 84, mark_cell),
        Column(("WITHIN", "either way"), 60, within_cell),
        Column(("MATCH", "tail tied"), 64, match_cell),
    ]
    return [column for column in columns if dials or column.draw is not turn_cell]


def pipe_in(marks: Marks) -> list[Column]:
    """Columns for a pipe that is in: nothing lands yet."""
    return [
        Column(("UNIT", "channel"), 60, unit_cell),
        Column(("TYPE, lens", "hang at", marks.hung), 124, type_cell),
        Column(("SWING NOSE", "from square"), 116, turn_cell),
        Column(marks.tape, 140, sight_cell),
        Column(("DOWN / UP", "or plumb"), 106, tip_cell),
        Column(("WITHIN", "either way"), 64, within_cell),
        Column(("MATCH", "tail tied"), 70, match_cell),
    ]


class Grid(NamedTuple):
    """Columns laid over the width of a page; the tick cells keep their own width."""

    columns: Sequence[Column]
    edges: Sequence[float]  # left edge of each column and of the tick cells, then the right edge
    ticks: Sequence[str] = TICKS


def grid(
    columns: Sequence[Column], left: float, right: float, ticks: Sequence[str] = TICKS
) -> Grid:
    """The columns' edges on a page."""
    for_columns = right - left - len(ticks) * TICK_WIDTH - INITIALS
    scale = for_columns / sum(column.share for column in columns)
    edges = [left]
    for column in columns:
        edges.append(edges[-1] + column.share * scale)
    for _ in ticks:
        edges.append(edges[-1] + TICK_WIDTH)
    return Grid(columns, [*edges, right], ticks)


def draw_heads(sheet: Sheet, over: Grid, top: float) -> None:
    """Draw the column headings; those of the tick cells stand on end."""
    for column, left, right in zip(over.columns, over.edges, over.edges[1:], strict=False):
        first, step = (9.5, 10.0) if len(column.head) > 2 else (14.0, 13.0)
        for k, words in enumerate(column.head):
            size = SMALL if k or step < SMALL + 1 else 11
            y = top - first - k * step
            sheet.text(left + PAD, y, words, size, bold=k == 0, width=right - left - 4)
    for k, word in enumerate(over.ticks, len(over.columns)):
        middle = (over.edges[k] + over.edges[k + 1]) / 2
        sheet.upright_text(middle + 3.4, top - HEAD + 2, word, 10, width=HEAD - 2)
    sheet.text(
        over.edges[-2] + PAD, top - 27, "initials", 10, width=over.edges[-1] - over.edges[-2] - 4
    )


def draw_row(sheet: Sheet, over: Grid, top: float, bottom: float, row: Any) -> None:
    """Draw one row's cells and the lines between them."""
    edges = over.edges
    for column, left, right in zip(over.columns, edges, edges[1:], strict=False):
        column.draw(sheet, Box(left + PAD, bottom, right - PAD, top), row)
    for edge in edges[1:-1]:
        sheet.line(edge, bottom, edge, top, weight=RULE)


def unit_cell(sheet: Sheet, box: Box, row: Row) -> None:
    """Number, and channel below."""
    key_cell(sheet, box, row.number, row.channel)


def type_cell(sheet: Sheet, box: Box, row: Row) -> None:
    """Kind with its field angle, where it hangs, and how where it is not simply under."""
    kind = f"{row.kind} {row.field}".rstrip()
    told_by_name = all(figure in row.kind for figure in row.field.replace("°", "").split(" x "))
    if told_by_name and fit(kind, BOLD, TYPE, box.width).size < TYPE:
        kind = row.kind
    where, how = row.hangs
    told = (where, *how_lines(how), row.turned)
    lines_cell(sheet, box, [kind, *(part for part in told if part)])


def how_lines(how: str) -> list[str]:
    """How a unit hangs, a truss's chord on a line of its own: "CHORD top", "OVER PIPE"."""
    return how.split(", ", 1) if how.startswith("CHORD ") else [how]


def turn_cell(sheet: Sheet, box: Box, row: Row) -> None:
    """Swing and pan, and what they are counted from."""
    key_cell(sheet, box, row.turn, row.turn_note)


def sight_cell(sheet: Sheet, box: Box, row: Row) -> None:
    """Sight-tape mark, or the true heading."""
    key_cell(sheet, box, row.sight, row.sight_note)


def tip_cell(sheet: Sheet, box: Box, row: Row) -> None:
    """DOWN or UP, and plumb below."""
    word, angle, plumb = row.tip
    if not angle:
        key_cell(sheet, box, word, f"plumb {plumb}" if plumb else "")
        return
    taken = sheet.text(box.left, box.top - 18, word, TYPE, bold=True, width=0.52 * box.width)
    sheet.text(
        box.left + taken + 4,
        box.top - 18,
        angle,
        KEY_TYPE,
        bold=True,
        width=box.width - taken - 4,
    )
    sheet.text(box.left, box.bottom + 5.5, f"plumb {plumb}", TYPE, width=box.width)


def stand_cell(sheet: Sheet, box: Box, row: Row) -> None:
    """STAND, named."""
    lines_cell(sheet, box, row.stand)


def mark_cell(sheet: Sheet, box: Box, row: Row) -> None:
    """LANDS, ON or POLE."""
    lines_cell(sheet, box, row.mark.lines)


def within_cell(sheet: Sheet, box: Box, row: Row) -> None:
    """How close is close enough."""
    lines_cell(sheet, box, row.within, bold=False)


def match_cell(sheet: Sheet, box: Box, row: Row) -> None:
    """The unit it may be matched to, and the tail's side."""
    y = box.top - 14
    if row.match:
        sheet.text(box.left, y, row.match, TYPE, bold=True, width=box.width)
    if row.tail:
        sheet.text(box.left, box.bottom + 5.5, row.tail, TYPE, width=box.width)


def key_cell(sheet: Sheet, box: Box, key: str, note: str) -> None:
    """A large figure with a note below."""
    if key:
        sheet.text(box.left, box.top - 18, key, KEY_TYPE, bold=True, width=box.width)
    if note:
        sheet.text(box.left, box.bottom + 5.5, note, TYPE, width=box.width)


def lines_cell(sheet: Sheet, box: Box, lines: Sequence[str], *, bold: bool = True) -> None:
    """Lines evenly down the cell, the first one bold."""
    step = box.height / len(lines)
    size, drop = (min(TYPE, 0.9 * step), 0.3) if len(lines) > 2 else (TYPE, 0.36)
    size = 0.98 * step if len(lines) > 3 else size
    for k, words in enumerate(lines):
        y = box.top - (k + 0.5) * step - drop * size
        sheet.text(box.left, y, words, size, bold=bold and k == 0, width=box.width)


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
    def remarks(self) -> tuple[str, ...]:
        """What the user wants read there, "NOTE: ..."; told first, and whole."""

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
    blocks = [
        Block(row, _wrapped(row.remarks, width) + _lines((*row.findings, row.clamp), width))
        for row in rows
    ]
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
