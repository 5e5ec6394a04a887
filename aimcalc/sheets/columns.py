"""The columns of the aim sheets: what stands at their heads and how a row fills them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any, NamedTuple

from aimcalc.sheets.paper import RULE, SMALL, Box, Sheet
from aimcalc.sheets.rows import Row
from aimcalc.sheets.typeset import BOLD, fit

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
    lines_cell(sheet, box, [kind, *(part for part in (*row.hangs, row.turned) if part)])


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
