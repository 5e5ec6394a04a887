"""The columns of one table of a hang list: what its headings say, and what its rows tell of them."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.hanglist.columns.columnclaims import LOOKED_THROUGH
from aimcalc.scene.hanglist.columns.columnkeys import (
    AT_PARTS,
    HEIGHT,
    REMARK,
    Column,
    Headings,
    column_table,
)
from aimcalc.scene.hanglist.columns.columnsteps import headings_of
from aimcalc.scene.hanglist.columns.headings import meaning
from aimcalc.scene.hanglist.columns.onlylengths import guessed, only_lengths
from aimcalc.scene.hanglist.columns.tradewords import LENGTHS
from aimcalc.scene.hanglist.meanings import Meanings
from aimcalc.scene.hanglist.names.positioncells import over_two_rows
from aimcalc.scene.hanglist.names.sections import titled_positions
from aimcalc.scene.hanglist.pagelines.tablelines import TableLines
from aimcalc.scene.hanglist.places.americandays import (
    is_american,
    months_first,
    says_feet_and_inches,
)
from aimcalc.scene.hanglist.places.dayremarks import orders_by_remarks
from aimcalc.scene.hanglist.places.placewords import day_comes_first, day_order
from aimcalc.scene.hanglist.rows.listrow import day_of, text_of
from aimcalc.scene.hanglist.table.findhead import are_headings
from aimcalc.scene.hanglist.table.sheettables import Table
from aimcalc.scene.mistakes import Where, Wrong
from aimcalc.scene.model import Taken

# A British spreadsheet shows the sixth as 06, an American one as 6 (common practice, no source).
_PADDED = regex(r"\s*0\d-[a-z]{3}\b", re.IGNORECASE)
_DAY_FIRST = (
    "places that a spreadsheet made dates of are read with the day as the feet: days with a nought before "
    'them, "06-Feb", come from one in which the day is typed first.'
)
_ASK_DAYS = "Ask whoever wrote it; format the column as text, and type the places again."


class TableColumns:
    """The columns of one table, what each holds, and where its cells stand."""

    def __init__(self, table: Table, meanings: Meanings, lines: TableLines) -> None:
        self.meanings, self.lines = meanings, lines
        self.name, self.around = meanings.name, meanings.around
        self.log, self.noticed = meanings.log, meanings.noticed
        self.sheet, self.head, self.turned = table.sheet, table.head, table.sheet.turned
        self.table = f"sheet {table.sheet.name}" if table.sheet.name else ""
        self.headings = Headings(0, 0, ())
        self.letters: dict[str, str] = {}  # of the column of each key
        self.by_place: dict[int, Column] = {}

    def set_headings(
        self, cells: Sequence[Any], place: tuple[int, int], below: list[list[Any]]
    ) -> None:
        """Know what the columns hold by their headings, and ask what these leave open."""
        self.headings, asked = self._headings_of(cells, place, below, self.around.supposed)
        fits, dims = self.meanings.fits, self.lines.speaks_of_dims()
        said, over = self.lines.said, self.lines.over.values()
        if over and all(
            one.plaster for one in over
        ):  # each section: "Gallery SL (depth from the line)"
            said = said._replace(plaster=True)
        only = only_lengths(self.headings, below, fits, said, dims=dims)
        if only is not None:  # what the lines round the table speak of
            supposed = {**(self.around.supposed or {}), (only.place, only.heading.casefold()): "at"}
            found, asked = self._headings_of(cells, place, below, supposed)
            self.headings = guessed(found, only.place)
        self.meanings.headings = self.meanings.placing.headings = self.headings
        where = Where(self.name, self.table, f"row {place[0]}")
        for column, wrong in asked:
            key = f"column {Column(column, '', '').letters}"
            if self.turned:
                where, key = where._replace(entry=self.turned.in_rows(key)), ""
            self.log.add(where, key, wrong, cells[column] if column < len(cells) else None)
        self.letters = {key: column.letters for key, column in self.headings.by_key.items()}
        for part in (HEIGHT, *AT_PARTS):
            if part in self.letters:
                self.letters.setdefault("at", self.letters[part])
        self.by_place = {column.place: column for column in self.headings.columns}

    def _headings_of(
        self,
        cells: Sequence[Any],
        place: tuple[int, int],
        below: list[list[Any]],
        supposed: dict[tuple[int, str], str] | None,
    ) -> tuple[Headings, list[tuple[int, Wrong]]]:
        if not self.around.columns:
            cells = [self.lines.sorts_out(cell) for cell in cells]
        units = [LENGTHS.get(text_of(cell).casefold().strip(" .:()")) for cell in cells]
        self.lines.beside_feet = "ft" in units
        return headings_of(
            cells,
            place,
            below,
            self.meanings.fits,
            self.around.columns,
            placed=self.meanings.current is not None
            or (self.lines.is_named(self.head.above) and not self._names_others(below)),
            supposed=supposed,
            plain=self.lines.plain,
        )

    def _names_others(self, below: list[list[Any]]) -> bool:
        """Whether one column of a table names other positions than the lines over it, of which none is a name
        alone, so that none there is that of all its units: of one headed as positions, whatever the rest."""
        find, aims = self.meanings.positions.find, self.meanings.targets.find
        rows, heads = below[:LOOKED_THROUGH], self.head.headings()
        words = [cell for row in self.head.above for cell in row if isinstance(cell, str)]
        spelled = {name.casefold() for name in self.meanings.positions.names}
        if any(cell.strip().casefold() in spelled for cell in words):
            return False
        over = {name for cell in words for name in titled_positions(cell, self.meanings.positions)}
        for k in range(max(map(len, rows), default=0)):
            texts = {text_of(row[k]).strip() for row in rows if k < len(row)} - {""}
            named = {find(text).name for text in texts}
            heading = heads[k] if k < len(heads) else ""
            headed = meaning(heading).keys == ("position",)
            others = named and (headed or None not in named) and named - over - {None}
            if others and not any(aims(text).name for text in texts):
                return True
        return False

    def headed_again(self, again: int, number: int, row: list[Any]) -> None:
        """Take headings that come again, which is told; where they say other things (2), from here on: what
        stands below them hangs on no position of a column above."""
        if again == 1:
            self.noticed.row("again", number)
            return
        before, current = self.headings, self.meanings.current
        if not self.meanings.by_section:
            self.meanings.current = None
        self.set_headings(row, (number, number), self.head.rows[number : number + LOOKED_THROUGH])
        if [c.key for c in before.columns] == [c.key for c in self.headings.columns]:
            self.meanings.current = current
            self.noticed.row("again", number)
            if [c.meaning for c in before.columns] != [c.meaning for c in self.headings.columns]:
                self.noticed.columns(self.headings)
            return
        self.noticed.note(
            "list-headings",
            f"from row {number} on other columns hold other things, by the headings there.",
        )
        self.noticed.columns(self.headings)

    def position_cells(self, rest: list[list[Any]]) -> dict[int, str]:
        """Look through the columns of positions and targets; the names of positions that stand over two rows,
        by their indices."""
        column = self.headings.by_key.get("target")
        if column is not None:
            cells = (text_of(r[column.place]).strip() for r in rest if column.place < len(r))
            self.meanings.take_targets(cells)
        column = self.headings.by_key.get("position")
        if column is None:
            return {}
        k = column.place
        self.meanings.position_cells = frozenset(text_of(r[k]).strip() for r in rest if k < len(r))
        rows = (
            [] if n <= self.head.last or self.head.is_again(row) or are_headings(row) else row
            for n, row in enumerate(self.head.rows)
        )
        found = over_two_rows(rows, k, self.meanings.positions)
        for n, name in found.items():
            if found.get(n + 1) == name:
                words = " ".join(text_of(self.head.rows[j][k]).strip() for j in (n, n + 1))
                self.noticed.read_as("position", f"{words} (over two rows)", name)
        return found

    def day_first(self, rows: list[list[Any]], lines: Iterable[str]) -> bool | None:
        """How the places were written that have become dates: as lines or the remarks of their rows say, as
        their cells show them, or as their figures tell."""
        by_key = self.headings.by_key
        of_places = {by_key[key].place for key in ("at", "at_SL", "at_SR") if key in by_key}
        said = {order for line in lines if (order := day_order(line)) is not None}
        asides = [c.place for c in self.headings.columns if c.key in (REMARK, "note")]
        said |= orders_by_remarks(rows, of_places, asides)
        if said:
            return said.pop() if len(said) == 1 else None
        shown = {first for (_, k), first in self.sheet.behind.day_first.items() if k in of_places}
        if len(shown) == 1:
            return shown.pop()
        days = [row[k] for row in rows for k in of_places if k < len(row)]
        told = day_comes_first(days)
        if told is not None or not any(map(day_of, days)):
            return told
        if any(isinstance(day, str) and _PADDED.match(day) for day in days):
            self.noticed.last.append(Taken("list-at", _DAY_FIRST, _ASK_DAYS, severity="warn"))
            return True
        says = months_first(days) if self._american_feet(of_places, rows) else None
        if says is None:
            return None
        self.noticed.last.append(Taken("list-at", says, _ASK_DAYS, severity="warn"))
        return False

    def _american_feet(self, of_places: set[int], rows: list[list[Any]]) -> bool:
        """Whether the page says that its places are feet and inches, and is American in its words."""
        above = [text_of(cell) for row in self.head.above for cell in row if isinstance(cell, str)]
        headings = [column.heading for column in self.headings.columns]
        of_place = [c.heading for c in self.headings.columns if c.place in of_places]
        if not any(map(says_feet_and_inches, (*above, *of_place))):
            return False
        colour = self.headings.by_key.get("colour")
        k = colour.place if colour is not None else -1
        gels = [text_of(row[k]) for row in rows if 0 <= k < len(row)]
        cells = (cell for row in rows for cell in row if isinstance(cell, str))
        return is_american((*above, *headings, *cells), gels)

    def tell_turned(self) -> None:
        """Note that the table lies on its side, where it does."""
        if self.turned is None:
            return
        says = f"a table turned on its side: its headings are in {self.turned.told}, and each column beside"
        says += " is a unit."
        self.noticed.note("list-columns", says)

    def where(self, number: int, columns: dict[str, str] | None) -> Where:
        """Where the cells of a row stand; those of a turned table, each in its own row."""
        unit = self.turned.units.get(number - 1) if self.turned else None
        if unit is None:
            return Where(self.name, self.table, f"row {number}", columns)
        rows = {
            key: unit.rows[column.place] + 1
            for key, column in self.headings.by_key.items()
            if column.place in unit.rows
        }
        if "at" not in rows:
            part = next((part for part in (HEIGHT, *AT_PARTS) if part in rows), None)
            rows |= {"at": rows[part]} if part else {}
        letters = dict.fromkeys(rows, unit.letters)
        return Where(self.name, self.table, unit.told(), letters, rows)

    def where_headed(self) -> Where:
        """Where the headings stand."""
        entry = self.turned.told if self.turned else f"row {self.headings.first}"
        return Where(self.name, self.table, entry)

    def column_table(self) -> list[tuple[str, str, str]]:
        """Letters, heading and what each column holds; of a turned table, the row instead of the letters."""
        lines = column_table(self.headings)
        if self.turned is None:
            return lines
        rows = [self.turned.in_rows(f"column {letters}") for letters, _, _ in lines]
        return [(row, *line[1:]) for row, line in zip(rows, lines, strict=True)]
