"""Whose left and right a table means, and which of its columns are of a side each."""

from __future__ import annotations

from typing import Any

from aimcalc.scene.hanglist.columns.columnkeys import SIDE, Headings, column_letters
from aimcalc.scene.hanglist.columns.headings import meaning
from aimcalc.scene.hanglist.columns.headingsides import letters_out
from aimcalc.scene.hanglist.columns.sidecolumns import SideColumns, side_columns
from aimcalc.scene.hanglist.meanings import Meanings
from aimcalc.scene.hanglist.pagelines.said import Said
from aimcalc.scene.hanglist.pagelines.tablelines import TableLines
from aimcalc.scene.hanglist.pagelines.titles import said_by
from aimcalc.scene.hanglist.pagelines.whosewords import whose_in_brackets
from aimcalc.scene.hanglist.places.placeforms import prompt_sides
from aimcalc.scene.hanglist.rows.listrow import blank, is_ditto, text_of
from aimcalc.scene.hanglist.table.findhead import Head
from aimcalc.scene.hanglist.table.pairs import Pairs, pairs_of
from aimcalc.scene.hanglist.tongues.tongues import in_english
from aimcalc.scene.hanglist.whole.aimedsides import (
    NO_SIDES,
    OwnSides,
    own_side_columns,
    own_sides,
    tell_own_sides,
)

FEWEST_OWN = 4  # units aimed to their own side that tell whose a left and a right column are


class TableSides:
    """The sides of one table: two units a row, a column of places a side, and whose a bare left is."""

    def __init__(self, head: Head, meanings: Meanings, lines: TableLines) -> None:
        self.head, self.meanings, self.lines = head, meanings, lines
        self.around, self.noticed = meanings.around, meanings.noticed
        self.pairs: Pairs | None = None  # columns of either side, where a row is a unit on each
        self.beside = ""  # the words of the position of such rows, for those below without
        self.middle = -1  # the column that says which units hang in the middle
        self.tested: list[OwnSides] = []  # what they tell of sides that are taken from elsewhere
        self.sided = NO_SIDES  # what its units are aimed at tells of a bare L and R

    def paired(self, cells: list[Any], below: list[list[Any]]) -> list[Any]:
        """Headings as those of one unit a row, where a row is one on each side; told."""
        self.pairs = pairs_of(cells, self.head.above, below, self.around.places)
        if self.pairs is None:
            return cells
        self.beside = self.pairs.first
        one, other = map(column_letters, self.pairs.columns[0])
        says = f"each row is two units: column {one} is of the one on SL, column {other} of the one on SR."
        self.noticed.note("list-columns", says)
        return self.pairs.headings

    def units_of(self, row: list[Any]) -> list[list[Any]]:
        """A row as those of its units on either side."""
        if self.pairs is None:
            return [row]
        if self.pairs.over:
            titled = self.pairs.titled(row)
            self.beside = self.beside if titled is None else titled
            return [] if titled else self.pairs.rows(row, self.beside)
        cell = row[self.pairs.position] if self.pairs.position < len(row) else ""
        self.beside = self.beside if blank(cell) or is_ditto(cell) else text_of(cell)
        return self.pairs.rows(row, self.beside)

    def names_pair(self, row: list[Any], number: int) -> bool:
        """Whether a row names the positions of both sides over their units, which is told."""
        titled = self.pairs.titled(row) if self.pairs else None
        if titled:
            self.noticed.row("section", number, titled)
        elif titled is not None:
            self.lines.none_over()  # what stands below is not on the pair above
        return bool(titled)

    def by_sides(self, cells: list[Any], below: list[list[Any]]) -> list[Any]:
        """Headings with the columns of places, one a side, as those of SL and SR; told."""
        said, prompt = self.meanings.placing.said, prompt_sides(self.around)
        sides = side_columns(cells, below, said, prompt)
        if sides is None and not (said.bare or said.doubt):
            sides = self._as_aimed(cells, below, said._replace(bare="stage"))
        if sides is None:
            return cells
        if self.around.whose:
            self.tested.append(self._aimed(cells, below, sides).of(self.around.whose))
        self.middle = sides.middle
        left, right = (str(cells[k]).strip() for k in (sides.sl, sides.sr))
        says = f'column "{left}" is read as the places to SL, and column "{right}" as those to SR.'
        self.noticed.note("list-columns", says)
        return sides.headings(cells)

    def _as_aimed(self, cells: list[Any], below: list[list[Any]], said: Said) -> SideColumns | None:
        """The columns under a bare left and right as the stage's, where the units are aimed to their own
        side; told."""
        sides = side_columns(cells, below, said, prompt_sides(self.around))
        if sides is None or not any(meaning(c).keys[:1] == ("target",) for c in cells):
            return None
        own = self._aimed(cells, below, sides)
        if not ((own.speak and own.own >= FEWEST_OWN) or self.around.stage_sides):
            return None
        tell_own_sides(self.noticed)
        self.lines.take(said)
        return sides

    def _aimed(self, cells: list[Any], below: list[list[Any]], sides: SideColumns) -> OwnSides:
        """What the targets of the units tell of the columns that are a side each."""
        aims = next((k for k, c in enumerate(cells) if meaning(c).keys[:1] == ("target",)), None)
        if aims is None:
            return NO_SIDES
        return own_side_columns(below, sides.sl, sides.sr, aims, self.meanings)

    def names_by_side(self, headings: Headings, rest: list[list[Any]]) -> None:
        """Know whose left and right the list means, of places and of names: as its lines say, its headings,
        what its units are aimed at, or its other sides."""
        said = self.lines.said
        columns = [column for key in (SIDE, "at") if (column := headings.by_key.get(key))]
        said_by_each = (c.meaning.bare or whose_in_brackets(c.heading) for c in columns)
        headed = next(filter(None, said_by_each), "")
        foreign = [c.heading for c in columns if in_english(c.heading, line=True) != c.heading]
        foreign += [
            c.heading
            for c in columns
            if c.heading not in foreign and letters_out(c.heading)[0] != c.heading
        ]
        if foreign and not said.sides:  # "G/D vus de la salle"
            said = said._replace(sides=said_by((0, [heading]) for heading in foreign).sides)
            self.lines.take(said)
        if self.around.whose:
            self.tested.append(own_sides(headings, rest, self.meanings, said.bare))
        if said.bare:
            return
        self.sided = NO_SIDES if said.doubt else own_sides(headings, rest, self.meanings)
        if headed:
            self.meanings.by_sides(said.sides, headed)
        elif self.sided.speak or (self.around.stage_sides and not said.doubt):
            tell_own_sides(self.noticed)
            self.lines.take(said._replace(bare="stage"))
            self.meanings.by_sides(said.sides, "stage")
        elif not said.doubt:
            rows = [*self.head.rows[: self.head.last + 1], *rest]
            cells = [cell for row in rows for cell in row if isinstance(cell, str)]
            column = headings.by_key.get("position")
            names = [row[column.place] for row in rest if column and column.place < len(row)]
            alone = ([cell for cell in row if not blank(cell)] for row in rows)
            names += [row[0] for row in alone if len(row) == 1]
            self.meanings.left_and_right(map(text_of, names), cells, said.sides)
