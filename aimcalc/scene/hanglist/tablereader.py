"""The rows of one table of a hang list as units: what stands over them, beside them and between them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from aimcalc.scene.hanglist.columns.columnclaims import LOOKED_THROUGH
from aimcalc.scene.hanglist.columns.columnkeys import SIDE
from aimcalc.scene.hanglist.columns.ownheadings import again_over, over_headings, without_over
from aimcalc.scene.hanglist.meanings import Meanings
from aimcalc.scene.hanglist.names.barandunit import bars_and_units
from aimcalc.scene.hanglist.names.blankcells import gone_on, left_blank
from aimcalc.scene.hanglist.names.positioncells import group_of
from aimcalc.scene.hanglist.pagelines.localsides import local_sides
from aimcalc.scene.hanglist.pagelines.said import Said
from aimcalc.scene.hanglist.pagelines.tablelines import TableLines, rows_round
from aimcalc.scene.hanglist.rows.daynumbers import carried
from aimcalc.scene.hanglist.rows.listrow import (
    MOST_ROWS,
    Around,
    Row,
    blank,
    narrowed,
    says_nothing,
    text_of,
)
from aimcalc.scene.hanglist.rows.numbercells import without_positions
from aimcalc.scene.hanglist.rows.rowkinds import RowKinds, without_figures
from aimcalc.scene.hanglist.rows.sparerows import of_units
from aimcalc.scene.hanglist.table.findhead import are_headings, ends_before, headings_again
from aimcalc.scene.hanglist.table.sheettables import Table
from aimcalc.scene.hanglist.tablecolumns import TableColumns
from aimcalc.scene.hanglist.tablerows import TableRows
from aimcalc.scene.hanglist.tablesides import TableSides
from aimcalc.scene.hanglist.taken import Noticed
from aimcalc.scene.hanglist.tongues.tongues import in_english
from aimcalc.scene.hanglist.whole.unreadlengths import unread_lengths
from aimcalc.scene.mistakes import FILE, Log, Wrong


class TableReader:
    """Reads the table of one sheet."""

    def __init__(
        self,
        name: str,
        table: Table,
        around: Around,
        log: Log,
        noticed: Noticed,
        unit: str = "",
    ) -> None:
        """`unit` is that of places which name none, where it is not the scene's."""
        self.unit = unit
        self.around, self.noticed = around, noticed
        self.sheet, self.head = table.sheet, table.head
        self.meanings = Meanings(name, around, log, noticed)
        if table.position:
            self.meanings.current, self.meanings.by_section = table.position, True
        else:
            group = group_of(self.sheet.name, self.meanings.positions)
            self.meanings.group = self.meanings.over = group
        self.kinds = RowKinds(self.meanings.positions, self.meanings.targets, self.meanings.fits)
        self.lines = TableLines(self.meanings, self.kinds, noticed)
        self.columns = TableColumns(table, self.meanings, self.lines)
        self.sides = TableSides(self.head, self.meanings, self.lines)
        self.rows = TableRows(self.columns, self.sides, self.kinds)
        self.table = self.columns.table
        self.local: tuple[int, ...] = ()  # the rows that say which side a name of one is
        self.over, self.named_over = (
            -1,
            list[Any](),
        )  # the column headed by a position, its headings
        self.end = 0  # the row that the table ends before
        self.merged: dict[int, tuple[int, Any]] = {}  # column -> last row and value of merged cells
        self.starts: dict[
            int, list[tuple[int, int, int, int]]
        ] = {}  # of merged cells, by first row

    def read(self) -> list[Row]:
        """The units of the table, from its headings on."""
        head, meanings = self.head, self.meanings
        self.noticed.turned = self.sheet.turned
        round_it = rows_round(head, self.sheet.name, self.around)
        said = self.lines.hear(round_it, self.unit)
        rest = self._read_headings([said.with_sides(cell) for cell in head.headings()])
        self._look_through(rest)
        self.rows.kind_of_sheet(self.sheet.name)
        above = self._unread_above(said)
        self.columns.tell_turned()
        self.noticed.headings(self.columns.headings, above)
        self.starts = {}
        for merge in self.sheet.behind.merged:
            if merge[2] > merge[0]:
                self.starts.setdefault(merge[0], []).append(merge)
        found: list[Row] = []
        self.end = ends_before(head, meanings.fits)
        over_two = self.columns.position_cells(rest)
        self.rows.blanks = left_blank(self.columns.headings, rest)
        if meanings.current is None and not self.sides.pairs:
            names = meanings.positions.names
            self.rows.on_bars = bars_and_units(self.columns.headings, rest, names)
        whole = gone_on(
            head.numbered(), lambda: self.columns.headings, meanings.fits, self._told_whole
        )
        for n, (number, row) in enumerate(whole):
            if number <= head.last + 1:
                continue
            row = self._filled(number, list(row))
            if n in over_two and "position" in self.columns.headings.by_key:
                row[self.columns.headings.by_key["position"].place] = over_two[n]
            if row.count("") == len(row) or says_nothing(row) or self._is_of_page(number, row):
                continue
            self.sides.names_pair(row, number)
            for one in self.sides.units_of(row):
                found += self.rows.units(number, one, found[-1] if found else None)
            if len(found) > MOST_ROWS:
                raise Wrong(
                    f"at most {MOST_ROWS:,} rows with a unit in each", came="more", rank=FILE
                )
        self.lines.take(self.lines.said)
        without_positions(found, meanings.positions, self.noticed)
        return found

    def _read_headings(self, cells: list[Any]) -> list[list[Any]]:
        """Know the columns by their headings; the rows below these, two of one that is two units."""
        head, fits = self.head, self.meanings.fits
        rest = [
            r
            for r in head.rows[head.last + 1 :]
            if not (says_nothing(r) or head.is_again(r) or are_headings(r))
        ]
        cells = self.sides.paired(cells, rest[:LOOKED_THROUGH])
        rest = [one for row in rest for one in self.sides.units_of(row)]
        self.sides.beside = self.sides.pairs.first if self.sides.pairs else ""
        below = of_units(rest[:LOOKED_THROUGH])
        cells = self._local_sides(self.sides.by_sides(cells, below), below)
        over = over_headings(cells, below, self.meanings.positions, fits)
        if over >= 0:
            named = list(cells)
            cells = without_over(cells, below, over, fits)
            self.lines.taken_over(named, over, head.first + 1)
        self.named_over, self.over = cells, over
        self.columns.set_headings(cells, (head.first + 1, head.last + 1), below)
        return rest

    def _local_sides(self, cells: list[Any], below: list[list[Any]]) -> list[Any]:
        """Headings with the side of those that name what lies there, as lines say."""
        lines = rows_round(self.head, self.sheet.name, self.around)
        local = local_sides(cells, lines, below)
        for k, heading in local.headings.items():
            self.noticed.read_as("heading", cells[k], heading)
        for number in local.rows:
            if number not in self.lines.said.rows:
                words = "; ".join(text_of(cell) for cell in lines[number] if not blank(cell))
                self.noticed.row("said", number, words)
        self.local = local.rows
        return [local.headings.get(k, cell) for k, cell in enumerate(cells)]

    def _look_through(self, rest: list[list[Any]]) -> None:
        """Know what the cells of all rows tell of places: how days, sides and bare figures are meant."""
        columns, placing = self.columns, self.meanings.placing
        if "position" in columns.letters:
            round_it = rows_round(self.head, self.sheet.name, self.around)
            self.lines.hear_own(round_it, self.unit)
        placing.day_first = columns.day_first(rest, self._lines_round())
        self.sides.names_by_side(columns.headings, rest)
        sided = [one for key in (SIDE, "at") if (one := columns.headings.by_key.get(key))]
        cells_sided = [row[one.place] for one in sided for row in rest if one.place < len(row)]
        headed = next((one.meaning.bare for one in sided if one.meaning.bare), "")
        foreign = any(in_english(one.heading) != one.heading for one in sided)
        said = placing.words.take_sides(cells_sided, self.lines.said, headed, foreign=foreign)
        self.lines.take(said)
        placing.unread = unread_lengths(columns.headings, rest, self.meanings.fits)
        for one in columns.headings.columns:
            cells = [row[one.place] for row in rest if one.place < len(row)]
            self.meanings.plugs.take_column(one, cells)
            if one.key == "circuit":
                self.meanings.days.take_column(cells)
            if one.key == "number":
                on = carried(columns.headings.by_key.get("position"), one, rest)
                self.meanings.numbers.days.take_column(cells, self._lines_round(), on)
        places = columns.headings.by_key.get("at")
        if places is not None:
            column = [row[places.place] for row in rest if places.place < len(row)]
            placing.bare.take_column(column)
            placing.words.take_column(column, placing.said.sides)

    def _lines_round(self) -> Iterator[str]:
        """What stands above the headings, and the lines of one cell below them."""
        for n, row in enumerate(self.head.rows):
            filled = [str(cell) for cell in row if not blank(cell)]
            yield from filled if n < self.head.first or len(filled) == 1 else ()

    def _unread_above(self, said: Said) -> list[int]:
        """The numbers of the rows above the headings that say nothing which is known; what the others say
        of position, target, kind and group is taken."""
        head, letters = self.head, self.columns.letters
        above = [k + 1 for k in range(head.first) if not all(map(blank, head.rows[k]))]
        above = [
            row for row in above if row not in (*said.rows, *self.lines.said.rows, *self.local)
        ]
        self.kinds.titles = {
            without_figures(str(c).strip()) for row in head.above for c in row if not blank(c)
        } - {""}
        if "target" not in letters:
            above = [k for k in above if not self.lines.target_above(head.rows[k - 1], k)]
        above = [k for k in above if not self.sides.names_pair(head.rows[k - 1], k)]
        above = self.rows.said_once(above)
        if "position" not in letters:
            above = [k for k in above if not self.lines.section_above(head.rows[k - 1], k)]
            titled = self.lines.in_title(head.above)
            above = [row for row in above if row != titled]
        if self.meanings.current is None:
            above = [k for k in above if not self.lines.is_group(head.rows[k - 1], k)]
        return above

    def _is_of_page(self, number: int, row: list[Any]) -> bool:
        """Whether a row is of the page and no row of the table: what follows its end, the head of a further
        page, or the headings again."""
        head = self.head
        if self.end < number <= len(head.rows):
            self.rows.pass_over(number, row)
            return True
        if self.over >= 0 and again_over(row, self.named_over, self.over):
            self.lines.taken_over(row, self.over, number)
        if head.is_page_head(row) and not self.kinds.section(row, {}):
            self.rows.pass_over(number, row)
            return True
        if head.is_again(row):
            first = self.columns.headings.first == head.first + 1
            self.columns.headed_again(1 if first else 2, number, self.named_over)
            return True
        before = head.rows[number - 2] if 1 < number <= len(head.rows) else row
        again = headings_again(row, self.columns.headings, before)
        if again:
            self.columns.headed_again(again, number, row)
        return bool(again)

    def _filled(self, number: int, row: list[Any]) -> list[Any]:
        """A row with its letters of double width plain, its errors shown and what is merged into it from
        above."""
        for k, cell in enumerate(row):
            if isinstance(cell, str) and not cell.isascii():
                row[k] = narrowed(cell)
        behind = self.sheet.behind
        if behind.errors:
            for k in range(len(row)):
                row[k] = behind.errors.get((number - 1, k), row[k])
        for k, (last, value) in list(self.merged.items()):
            if number - 1 > last:
                del self.merged[k]
            elif k < len(row) and blank(row[k]) and self._is_filled_down(k):
                row[k] = value
                self.noticed.row("merged", number)
        for _, column, last, _ in self.starts.get(number - 1, ()):
            if column < len(row) and not blank(row[column]):
                self.merged[column] = last, row[column]
        return row

    def _is_filled_down(self, k: int) -> bool:
        return k in self.columns.by_place and self.columns.by_place[k].key not in ("number", "at")

    def _told_whole(self, number: int, words: str) -> None:
        self.noticed.row("goes on", number, words)
