"""Tables turned on their side: a column a unit, a row a key, mostly a block a position.

Their first column holds the headings, "Unit", "From center", "Type", and each column beside it is a unit.
Such a block is turned here into rows under one row of headings, before tables are looked for; each cell keeps
its own row and column for what is told or asked about it.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from typing import Any

from aimcalc.named import NamedTuple
from aimcalc.scene.hanglist.columns.columnkeys import column_letters
from aimcalc.scene.hanglist.table.sheetcells import Unseen
from aimcalc.scene.hanglist.table.turnedblocks import Block, Cell, Fits, turned_blocks

MOST_ROWS = 1000  # of a sheet that may be turned; one with more of them is a table


class Unit(NamedTuple):
    """Where a unit of a turned table stands: its column, its first and last row, and the rows of its cells by
    the columns that they come to; all from 0."""

    column: int
    first: int
    last: int
    rows: dict[int, int]

    def told(self) -> str:
        """The unit's cells in words: "column C of rows 4 to 9"."""
        return f"column {self.letters} of rows {self.first + 1} to {self.last + 1}"

    @property
    def letters(self) -> str:
        """The spreadsheet's letters of its column."""
        return column_letters(self.column)


class Turned(NamedTuple):
    """Where the cells of a sheet stood before its blocks were turned."""

    rows: tuple[int, ...]  # where each row stood, from 0; for a unit, its first row
    units: dict[int, Unit]  # by the rows that they have become, from 0
    told: str  # the column and the rows of the headings
    heads: dict[int, int]  # column of each heading -> row in which it stood first, from 0

    def called(self, number: int) -> int | str:
        """What to call a row of the turned sheet, by its number from 1."""
        unit = self.units.get(number - 1)
        if unit is not None:
            return unit.told()
        return self.rows[number - 1] + 1 if number <= len(self.rows) else number

    def in_rows(self, text: str) -> str:
        """Text in which columns that have a heading are called by the rows in which these stand."""
        rows = {column_letters(k): row + 1 for k, row in self.heads.items()}

        def row(found: re.Match[str]) -> str:
            return f"row {rows[found[1]]}" if found[1] in rows else found[0]

        return re.sub(r'column ([A-Z]{1,2})\b(?= \("|$)', row, text)


def turned(
    rows: Sequence[Sequence[Any]], behind: Unseen, fits: Callable[[], Fits]
) -> tuple[list[list[Any]], Unseen, Turned] | None:
    """A sheet with its turned blocks as rows under headings; None where it has none.

    Args:
        rows: the cells of the sheet.
        behind: what its reader gives as empty or as any other.
        fits: gives what tells whether a cell may be a position.
    """
    blocks = turned_blocks(rows, fits) if len(rows) <= MOST_ROWS else []
    if not blocks:
        return None
    return _Turning(rows, blocks).done(behind)


class _Turning:
    """The rows that a sheet with turned blocks becomes, and where their cells came from."""

    def __init__(self, rows: Sequence[Sequence[Any]], blocks: Sequence[Block]) -> None:
        self.rows, self.blocks = rows, blocks
        self.columns: dict[
            tuple[str, int], int
        ] = {}  # of each heading, and how often it came before
        self.heads: dict[int, int] = {}
        self.headings: list[str] = []
        self.made: list[list[Any]] = []
        self.origins: list[int] = []
        self.units: dict[int, Unit] = {}
        self.places: dict[Cell, Cell] = {}

    def done(self, behind: Unseen) -> tuple[list[list[Any]], Unseen, Turned]:
        """The rows, what is behind their cells, and where these stood."""
        each = [self._columns_of(block) for block in self.blocks]
        end = 0
        for block, columns in zip(self.blocks, each, strict=True):
            self._keep(end, block.first)
            self._turn(block, columns, headed=not self.units)
            end = block.last + 1
        self._keep(end, len(self.rows))
        first = self.blocks[0]
        spans = ", ".join(f"{b.first + 1} to {b.last + 1}" for b in self.blocks[:6])
        told = f"column {column_letters(first.label)}, rows {spans}"
        where = Turned(tuple(self.origins), self.units, told, self.heads)
        moved = _moved(behind, self.places)
        hidden = {n for n, k in enumerate(self.origins) if k in behind.hidden}
        return self.made, moved._replace(hidden=frozenset(hidden - self.units.keys())), where

    def _columns_of(self, block: Block) -> list[int]:
        """The columns that the headings of a block come to: those of the same headings of a block above."""
        found = []
        for n, label in enumerate(block.labels):
            before = sum(other.casefold() == label.casefold() for other in block.labels[:n])
            key = label.casefold(), before
            if key not in self.columns:
                self.columns[key] = len(self.headings)
                self.heads[len(self.headings)] = block.first + n
                self.headings.append(label)
            found.append(self.columns[key])
        return found

    def _keep(self, first: int, end: int) -> None:
        for k in range(first, end):
            self.places |= {(k, j): (len(self.made), j) for j in range(len(self.rows[k]))}
            self._add(list(self.rows[k]), k)

    def _add(self, row: list[Any], origin: int) -> None:
        self.made.append(row)
        self.origins.append(origin)

    def _turn(self, block: Block, columns: list[int], *, headed: bool) -> None:
        if block.over is not None:
            row, column = block.over
            self.places[block.over] = len(self.made), 0
            self._add([self.rows[row][column]], row)
        if headed:
            self._add(list(self.headings), block.first)
        for k in block.units:
            cells: list[Any] = [""] * len(self.headings)
            for n, column in enumerate(columns):
                came = self.rows[block.first + n]
                cells[column] = came[k] if k < len(came) else ""
                self.places[block.first + n, k] = len(self.made), column
            stood = {column: block.first + n for n, column in enumerate(columns)}
            self.units[len(self.made)] = Unit(k, block.first, block.last, stood)
            self._add(cells, block.first)


def _moved(behind: Unseen, places: dict[Cell, Cell]) -> Unseen:
    """What is behind the cells of a sheet, at the places that these have come to."""
    merged = []
    for top, left, bottom, right in behind.merged:
        corners = places.get((top, left)), places.get((bottom, right))
        if corners[0] is not None and corners[1] is not None:
            merged.append((*corners[0], *corners[1]))
    return Unseen(
        errors={places[cell]: words for cell, words in behind.errors.items() if cell in places},
        unworked=frozenset(places[cell] for cell in behind.unworked if cell in places),
        merged=tuple(merged),
        struck=frozenset(places[cell] for cell in behind.struck if cell in places),
        day_first={places[cell]: day for cell, day in behind.day_first.items() if cell in places},
    )
