"""The running tape list: every mark along each pipe and boom, one after the other from START END."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from aimcalc.named import NamedTuple
from aimcalc.paper.page import THIN, Box, Sheet
from aimcalc.text.facts import noun
from aimcalc.text.hang_rows import HangRow, from_start
from aimcalc.text.typeset import LEADING

if TYPE_CHECKING:
    from aimcalc.sheets.strip.marks import Strip
    from aimcalc.solid.rig import SolidRig


COLUMNS = 4
BETWEEN = 14.0  # pt between columns
HEADING, TYPE, BIG = 12.0, 10.0, 13.0  # pt
HEAD = 31.0  # pt that a position's name and the heads of its columns take
ROW = 16.0  # pt, a point more than figures and rules take
FEWEST = 2  # rows under a heading at the foot of a column
EDGES = (0.0, 0.15, 0.46, 0.78, 1.0)  # of a column: unit, tape, from the zero mark, to the next


class Row(NamedTuple):
    """One mark: its unit, how far it is from START END, from the zero mark, and from the mark before."""

    number: str
    tape: str
    mark: str
    step: str


class Block(NamedTuple):
    """The marks of one position, or as many of them as one column holds."""

    title: str
    rows: Sequence[Row]

    @property
    def height(self) -> float:
        """Heading, rows and the gap below."""
        return HEAD + len(self.rows) * ROW + 8.0


def blocks(
    rig: SolidRig,
    strips: Sequence[Strip],
    rows: dict[int, HangRow],
    holds: Callable[[str], bool] = lambda name: True,
) -> list[Block]:
    """Every position with its marks in the order of the sheets' rows; `rows` by place in hang order.

    `holds` says of which units (by name) rows are wanted; a row still tells how far the one before it is.
    """
    made = []
    for strip in strips:
        position = rig.positions[strip.marks[0].k]
        start = strip.stance.start
        hook = start if noun(position) != "boom" else "TOP, down"
        told = [
            Row(
                row.number,
                from_start(row, start),
                row.mark,
                row.spacing,
            )
            for row in (rows[mark.k] for mark in strip.in_order)
            if holds(rig.names[row.k])
        ]
        made.append(Block(f"{strip.name}: tape from {hook}", told))
    return made


def in_columns(every: Sequence[Block], height: float) -> list[list[Block]]:
    """Blocks filled into columns of one height; one that is cut goes on under its title."""
    filled: list[list[Block]] = [[]]
    room = height
    for block in every:
        title, rows = block.title, list(block.rows)
        while rows:
            fits = int((room - HEAD) // ROW)
            if fits < min(FEWEST, len(rows)) and filled[-1]:
                filled.append([])
                room = height
                continue
            cut = Block(title, rows[: max(1, fits)])
            filled[-1].append(cut)
            room -= cut.height
            rows, title = rows[len(cut.rows) :], f"{block.title}, continued"
    return filled


def draw_columns(sheet: Sheet, columns: Sequence[Sequence[Block]], top: float) -> None:
    """Draw up to COLUMNS columns of blocks below `top`."""
    body = sheet.body
    wide = (body.width - (COLUMNS - 1) * BETWEEN) / COLUMNS
    for k, column in enumerate(columns):
        left, y = body.left + k * (wide + BETWEEN), top
        for block in column:
            _draw_block(sheet, Box(left, y - block.height, left + wide, y), block)
            y -= block.height


def _draw_block(sheet: Sheet, box: Box, block: Block) -> None:
    edges = [box.left + share * box.width for share in EDGES]
    y = box.top - HEADING * LEADING
    sheet.text(box.left, y, block.title, HEADING, bold=True, width=box.width)
    y = box.top - HEAD + 4
    for x, right, head in zip(
        edges, edges[1:], ("unit", "TAPE", "from zero", "from last"), strict=False
    ):
        sheet.text(x, y, head, TYPE, width=right - x - 4)
    y = box.top - HEAD
    for row in block.rows:
        sheet.line(box.left, y, box.right, y, weight=THIN)
        y -= ROW
        for k, (words, size) in enumerate(
            zip((row.number, row.tape, row.mark, row.step), (BIG, BIG, TYPE, TYPE), strict=True)
        ):
            room = edges[k + 1] - edges[k] - 4
            sheet.text(edges[k], y + 3.6, words, size, bold=size == BIG, width=room)
    sheet.line(box.left, y, box.right, y, weight=THIN)
