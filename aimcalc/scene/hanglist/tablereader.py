"""The rows of one table of a hang list as units: what stands over them, beside them and between them."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any

from aimcalc.scene.hanglist.columns.columnclaims import LOOKED_THROUGH
from aimcalc.scene.hanglist.columns.columnkeys import Column, Headings, column_table
from aimcalc.scene.hanglist.columns.columnsteps import headings_of
from aimcalc.scene.hanglist.columns.headings import (
    APART,
    AT_PARTS,
    COUNT,
    ELSE,
    GAP,
    HEIGHT,
    REMARK,
    SIDE,
    column_letters,
    meaning,
)
from aimcalc.scene.hanglist.columns.onlylengths import guessed, only_lengths
from aimcalc.scene.hanglist.columns.overheadings import again_over, over_headings, without_over
from aimcalc.scene.hanglist.columns.sidecolumns import SideColumns, is_middle, side_columns
from aimcalc.scene.hanglist.columns.tradewords import LENGTHS
from aimcalc.scene.hanglist.meanings import LONGEST_REMARK, Meanings
from aimcalc.scene.hanglist.names.blankcells import BlankCells, gone_on, left_blank
from aimcalc.scene.hanglist.names.meant import fold_code
from aimcalc.scene.hanglist.names.positioncells import group_of, over_two_rows
from aimcalc.scene.hanglist.names.sections import (
    is_counted_sort,
    position_in,
    read_over,
    sort_over,
    titled_positions,
)
from aimcalc.scene.hanglist.pagelines.said import Said
from aimcalc.scene.hanglist.pagelines.tablelines import TableLines, rows_round
from aimcalc.scene.hanglist.pagelines.titles import said_by
from aimcalc.scene.hanglist.pagelines.whosewords import whose_in_brackets
from aimcalc.scene.hanglist.places.placeforms import placed_else, prompt_sides
from aimcalc.scene.hanglist.places.placewords import day_comes_first
from aimcalc.scene.hanglist.rows.bothsides import on_each, positions_in
from aimcalc.scene.hanglist.rows.cellfaults import all_struck, struck, unvalued, without_errors
from aimcalc.scene.hanglist.rows.listrow import (
    MOST_ROWS,
    Around,
    Row,
    blank,
    is_ditto,
    is_total,
    narrowed,
    says_nothing,
    text_of,
)
from aimcalc.scene.hanglist.rows.rowcuts import cut_by, may_hang
from aimcalc.scene.hanglist.rows.rowkinds import RowKinds, lined_out, without_figures
from aimcalc.scene.hanglist.rows.runs import each_of
from aimcalc.scene.hanglist.rows.sparerows import NONE, SpareRows, told_of
from aimcalc.scene.hanglist.table.findhead import are_headings, ends_before, headings_again
from aimcalc.scene.hanglist.table.pairs import Pairs, pairs_of
from aimcalc.scene.hanglist.table.sheettables import Table
from aimcalc.scene.hanglist.table.turned import Turned
from aimcalc.scene.hanglist.taken import Noticed
from aimcalc.scene.hanglist.tongues.tongues import in_english
from aimcalc.scene.hanglist.whole.aimedsides import (
    NO_SIDES,
    own_side_columns,
    own_sides,
    tell_own_sides,
)
from aimcalc.scene.hanglist.whole.unreadlengths import unread_lengths
from aimcalc.scene.mistakes import FILE, Log, Where, Wrong
from aimcalc.scene.model import HIDDEN

FEWEST_OWN = 4  # units aimed to their own side that tell whose a left and a right column are
FEW_CELLS = 3  # of a row over units that names their position


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
        self.middle = -1  # the column that says which units hang in the middle
        self.name, self.around, self.log, self.noticed = name, around, log, noticed
        sheet = table.sheet
        self.sheet, self.head, self.turned = sheet, table.head, sheet.turned
        self.meanings = Meanings(name, around, log, noticed)
        if table.position:
            self.meanings.current, self.meanings.by_section = table.position, True
        else:
            group = group_of(sheet.name, self.meanings.positions)
            self.meanings.group = self.meanings.over = group
        self.headings = Headings(0, 0, ())
        self.sided = NO_SIDES  # what its units are aimed at tells of a bare L and R
        self.table = f"sheet {sheet.name}" if sheet.name else ""
        self.above: dict[str, Any] = {}
        self.kinds = RowKinds(self.meanings.positions, self.meanings.targets, self.meanings.fits)
        self.spares = SpareRows(self.meanings.positions, self.meanings.targets)
        self.lines = TableLines(self.meanings, self.kinds, noticed)
        self.no_channel: set[str] = set()  # rows that say that their unit has none
        self.passed = (
            0  # rows of several cells, or without a column of kinds, in which no unit was found
        )
        self.pairs: Pairs | None = None  # columns of either side, where a row is a unit on each
        self.beside = ""  # the words of the position of such rows, for those below without
        self.several = ""  # the positions of the row above, which names several
        self.blanks = BlankCells()
        self.merged: dict[int, tuple[int, Any]] = {}  # column -> last row and value of merged cells

    # --- the table ---

    def read(self) -> list[Row]:
        """The units of the table, from its headings on."""
        head = self.head
        self.noticed.turned = self.turned
        said = self.lines.hear(rows_round(head, self.sheet.name, self.around), self.unit)
        cells = [said.with_sides(cell) for cell in head.headings()]
        rest = [
            r
            for r in head.rows[head.last + 1 :]
            if not (says_nothing(r) or head.is_again(r) or are_headings(r))
        ]
        cells = self._paired(cells, rest[:LOOKED_THROUGH])
        rest = [one for row in rest for one in self._of_sides(row)]
        self.beside = self.pairs.first if self.pairs else ""
        cells = self._by_sides(cells, rest[:LOOKED_THROUGH])
        over = over_headings(
            cells, rest[:LOOKED_THROUGH], self.meanings.positions, self.meanings.fits
        )
        if over >= 0:
            named = list(cells)
            cells = without_over(cells, rest[:LOOKED_THROUGH], over, self.meanings.fits)
            self.lines.taken_over(named, over, head.first + 1)
        self._set_headings(cells, (head.first + 1, head.last + 1), rest[:LOOKED_THROUGH])
        if "position" in self.letters:
            round_it = rows_round(head, self.sheet.name, self.around)
            self.lines.hear_own(round_it, self.unit)
        self.meanings.placing.day_first = self._day_first(rest)
        self._names_by_side(rest)
        self.meanings.placing.unread = unread_lengths(self.headings, rest, self.meanings.fits)
        places = self.headings.by_key.get("at")
        if places is not None:
            column = [row[places.place] for row in rest if places.place < len(row)]
            self.meanings.placing.bare.take_column(column)
        above = [k + 1 for k in range(head.first) if not all(map(blank, head.rows[k]))]
        above = [row for row in above if row not in said.rows]
        self.kinds.titles = {
            without_figures(str(c).strip()) for row in head.above for c in row if not blank(c)
        } - {""}
        if "target" not in self.letters:
            above = [k for k in above if not self.lines.target_above(head.rows[k - 1], k)]
        above = [k for k in above if not self._names_pair(head.rows[k - 1], k)]
        if "position" not in self.letters:
            above = [k for k in above if not self.lines.section_above(head.rows[k - 1], k)]
            titled = self.lines.in_title(head.above)
            above = [row for row in above if row != titled]
        if self.meanings.current is None:
            above = [k for k in above if not self.lines.is_group(head.rows[k - 1], k)]
        if self.turned:
            self._tell_turned(self.turned)
        self.noticed.headings(self.headings, above)
        starts: dict[int, list[tuple[int, int, int, int]]] = {}
        for merge in self.sheet.behind.merged:
            if merge[2] > merge[0]:
                starts.setdefault(merge[0], []).append(merge)
        found: list[Row] = []
        end = ends_before(head, self.meanings.fits)
        over_two = self._position_cells(rest)
        self.blanks = BlankCells(left_blank(self.headings, rest))
        whole = gone_on(
            head.numbered(), lambda: self.headings, self.meanings.fits, self._told_whole
        )
        for n, (number, row) in enumerate(whole):
            if number <= head.last + 1:
                continue
            row = self._filled(number, list(row), starts)
            if n in over_two and "position" in self.headings.by_key:
                row[self.headings.by_key["position"].place] = over_two[n]
            if row.count("") == len(row) or says_nothing(row):
                continue
            if end < number <= len(head.rows):
                self._pass_over(number, row)
                continue
            if over >= 0 and again_over(row, cells, over):
                self.lines.taken_over(row, over, number)
            if head.is_page_head(row) and not self.kinds.section(row, {}):
                self._pass_over(number, row)
                continue
            again = headings_again(row, self.headings) or head.is_again(row)
            again = 1 if self.pairs and head.is_again(row) else again
            if again:
                self._again(again, number, row)
                continue
            self._names_pair(row, number)
            for one in self._of_sides(row):
                found += self._row(number, one, found[-1] if found else None)
            if len(found) > MOST_ROWS:
                raise Wrong(
                    f"at most {MOST_ROWS:,} rows with a unit in each", came="more", rank=FILE
                )
        self.lines.take(self.lines.said)
        return found

    def _paired(self, cells: list[Any], below: list[list[Any]]) -> list[Any]:
        """Headings as those of one unit a row, where a row is one on each side; told."""
        self.pairs = pairs_of(cells, self.head.above, below, self.around.places)
        if self.pairs is None:
            return cells
        self.beside = self.pairs.first
        one, other = map(column_letters, self.pairs.columns[0])
        says = f"each row is two units: column {one} is of the one on SL, column {other} of the one on SR."
        self.noticed.note("list-columns", says)
        return self.pairs.headings

    def _of_sides(self, row: list[Any]) -> list[list[Any]]:
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

    def _names_pair(self, row: list[Any], number: int) -> bool:
        """Whether a row names the positions of both sides over their units, which is told."""
        titled = self.pairs.titled(row) if self.pairs else None
        if titled:
            self.noticed.row("section", number, titled)
        elif titled is not None:
            self.lines.none_over()  # what stands below is not on the pair above
        return bool(titled)

    def _by_sides(self, cells: list[Any], below: list[list[Any]]) -> list[Any]:
        """Headings with the columns of places, one a side, as those of SL and SR; told."""
        said, prompt = self.meanings.placing.said, prompt_sides(self.around)
        sides = side_columns(cells, below, said, prompt)
        if sides is None and not (said.bare or said.doubt):
            sides = self._as_aimed(cells, below, said._replace(bare="stage"))
        if sides is None:
            return cells
        self.middle = sides.middle
        left, right = (str(cells[k]).strip() for k in (sides.sl, sides.sr))
        says = f'column "{left}" is read as the places to SL, and column "{right}" as those to SR.'
        self.noticed.note("list-columns", says)
        return sides.headings(cells)

    def _as_aimed(self, cells: list[Any], below: list[list[Any]], said: Said) -> SideColumns | None:
        """The columns under a bare left and right as the stage's, where the units are aimed to their own
        side; told."""
        sides = side_columns(cells, below, said, prompt_sides(self.around))
        aims = next((k for k, c in enumerate(cells) if meaning(c).keys[:1] == ("target",)), None)
        if sides is None or aims is None:
            return None
        own = own_side_columns(below, sides.sl, sides.sr, aims, self.meanings)
        if not ((own.speak and own.own >= FEWEST_OWN) or self.around.stage_sides):
            return None
        tell_own_sides(self.noticed)
        self.lines.take(said)
        return sides

    def _names_by_side(self, rest: list[list[Any]]) -> None:
        """Know whose left and right the list means, of places and of names: as its lines say, its headings,
        what its units are aimed at, or its other sides."""
        said = self.lines.said
        columns = [column for key in (SIDE, "at") if (column := self.headings.by_key.get(key))]
        said_by_each = (c.meaning.bare or whose_in_brackets(c.heading) for c in columns)
        headed = next(filter(None, said_by_each), "")
        foreign = [c.heading for c in columns if in_english(c.heading, line=True) != c.heading]
        if foreign and not said.sides:  # "G/D vus de la salle"
            said = said._replace(sides=said_by((0, [heading]) for heading in foreign).sides)
            self.lines.take(said)
        if said.bare:
            return
        self.sided = NO_SIDES if said.doubt else own_sides(self.headings, rest, self.meanings)
        if headed:
            self.meanings.by_sides(said.sides, headed)
        elif self.sided.speak or (self.around.stage_sides and not said.doubt):
            tell_own_sides(self.noticed)
            self.lines.take(said._replace(bare="stage"))
            self.meanings.by_sides(said.sides, "stage")
        elif not said.doubt:
            rows = [*self.head.rows[: self.head.last + 1], *rest]
            cells = [cell for row in rows for cell in row if isinstance(cell, str)]
            column = self.headings.by_key.get("position")
            names = [row[column.place] for row in rest if column and column.place < len(row)]
            alone = ([cell for cell in row if not blank(cell)] for row in rows)
            names += [row[0] for row in alone if len(row) == 1]
            self.meanings.left_and_right(map(text_of, names), cells, said.sides)

    def _position_cells(self, rest: list[list[Any]]) -> dict[int, str]:
        """Look through the columns of positions and targets; the names of positions that stand over two rows,
        by their indices."""
        column = self.headings.by_key.get("target")
        if column is not None:
            cells = (text_of(r[column.place]).strip() for r in rest if column.place < len(r))
            self.meanings.target_cells = frozenset(cells)
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

    def _day_first(self, rows: list[list[Any]]) -> bool | None:
        """How the places were written that have become dates: as their cells show them, or as their figures
        tell."""
        places = self.headings.by_key.get("at")
        if places is None:
            return None
        k = places.place
        shown = {first for (_, column), first in self.sheet.behind.day_first.items() if column == k}
        if len(shown) == 1:
            return shown.pop()
        return day_comes_first([row[k] for row in rows if k < len(row)])

    def _set_headings(
        self, cells: Sequence[Any], place: tuple[int, int], below: list[list[Any]]
    ) -> None:
        self.headings, asked = self._headings_of(cells, place, below, self.around.supposed)
        fits, dims = self.meanings.fits, self.lines.speaks_of_dims()
        only = only_lengths(self.headings, below, fits, self.lines.said, dims=dims)
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
        self.columns = {column.place: column for column in self.headings.columns}

    def _headings_of(
        self,
        cells: Sequence[Any],
        place: tuple[int, int],
        below: list[list[Any]],
        supposed: dict[tuple[int, str], str] | None,
    ) -> tuple[Headings, list[tuple[int, Wrong]]]:
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
        alone, so that none there is that of all its units."""
        find, aims = self.meanings.positions.find, self.meanings.targets.find
        rows = below[:LOOKED_THROUGH]
        words = [cell for row in self.head.above for cell in row if isinstance(cell, str)]
        spelled = {name.casefold() for name in self.meanings.positions.names}
        if any(cell.strip().casefold() in spelled for cell in words):
            return False
        over = {name for cell in words for name in titled_positions(cell, self.meanings.positions)}
        for k in range(max(map(len, rows), default=0)):
            texts = {text_of(row[k]).strip() for row in rows if k < len(row)} - {""}
            named = {find(text).name for text in texts}
            others = named and None not in named and named - over
            if others and not any(aims(text).name for text in texts):
                return True
        return False

    def _tell_turned(self, turned: Turned) -> None:
        """Note that the table lies on its side."""
        says = (
            f"a table turned on its side: its headings are in {turned.told}, and each column beside"
        )
        says += " is a unit."
        self.noticed.note("list-columns", says)

    def _again(self, again: int, number: int, row: list[Any]) -> None:
        if again == 1:
            self.noticed.row("again", number)
            return
        before = self.headings
        self._set_headings(row, (number, number), self.head.rows[number : number + LOOKED_THROUGH])
        if [c.key for c in before.columns] == [c.key for c in self.headings.columns]:
            self.noticed.row("again", number)
            return
        self.noticed.note(
            "list-headings",
            f"from row {number} on other columns hold other things, by the headings there.",
        )
        self.noticed.columns(self.headings)

    def _filled(
        self, number: int, row: list[Any], starts: dict[int, list[tuple[int, int, int, int]]]
    ) -> list[Any]:
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
        for _, column, last, _ in starts.get(number - 1, ()):
            if column < len(row) and not blank(row[column]):
                self.merged[column] = last, row[column]
        return row

    def _is_filled_down(self, k: int) -> bool:
        return k in self.columns and self.columns[k].key not in ("number", "at")

    # --- one row ---

    def _row(self, number: int, row: list[Any], above: Row | None) -> list[Row]:
        """The units in a row, mostly one; none where it holds no unit. `above` is the unit before it."""
        if lined_out(row) or (self.lines.cuts_lined and all_struck(number, row, self.sheet.behind)):
            self.noticed.row("cut", number, "a line through it")
            return []
        raw: dict[str, Any] = {}
        remarks: list[tuple[str, Any]] = []
        unworked = self.sheet.behind.unworked
        columns = None if self.head.numbers else self.letters  # free lines have none
        if columns and self.pairs and self.pairs.over:
            columns = {key: letters for key, letters in columns.items() if key != "position"}
        where = self._where(number, columns)
        for k, cell in enumerate(row):
            if unworked and (number - 1, k) in unworked:
                unvalued(self.columns.get(k), where, raw, self.log)
                continue
            if blank(cell):
                continue
            column = self.columns.get(k)
            if column is not None and column.key == APART:
                continue
            if k == self.middle and is_middle(cell):
                raw.setdefault("at", 0)
                continue
            if column is not None and column.key in _MAY_BE_NONE and NONE.fullmatch(str(cell)):
                if column.key == "channel":
                    self.no_channel.add(where.entry)
                continue
            if column is None:
                remarks.append(("", cell))
            elif column.key == REMARK:
                remarks.append((column.heading, cell))
            elif column.key == ELSE:
                raw.setdefault("at", placed_else(cell, column))
            else:
                raw[column.key] = cell
        if not raw and not remarks:
            return []
        section = self.kinds.section(row, raw)
        if section:
            self.several = ""
            self.lines.under(section, number, row)
            self.meanings.kind_over, self.spares.aside = "", False
            self.blanks.section()
            self.passed += "kind" not in self.letters  # no unit can stand under it
            return []
        if "kind" not in self.letters and (kind := self.kinds.kind_over(row, self.meanings.kinds)):
            self.meanings.kind_over = kind
            self.noticed.row("kind over", number, kind)
            return []
        if "position" not in self.letters and self.lines.is_group(row, number):
            self.blanks.section()
            return []
        aimed = "" if "target" in self.letters else self.kinds.target_over(row)
        if aimed:
            self.meanings.aim = aimed
            self.noticed.row("aimed", number, read_over(aimed, row))
            return []
        if self.kinds.is_tally(row, self.meanings.kinds):
            self._pass_over(number, row)
            return []
        added = self.kinds.added(raw, remarks, above)
        if added and above is not None:
            self._add_note(above, added)
            self.noticed.row("accessory", number, added)
            return []
        told = "target" not in self.letters or self.meanings.aim is not None
        told = told or "target" in self.blanks.keys
        if self.spares.holds(row, raw, remarks, aimed=told):
            self._leave_spare(number, row, raw)
            return []
        added_to_page = self.kinds.is_added(row, raw)
        if added_to_page or self.kinds.is_title(row) or self.kinds.no_unit(raw):
            self._pass_over(number, row)
            return []
        self._dittos(raw, number)
        for key in self.blanks.fill(raw):
            self.noticed.row(f"blank {key}", number)
        cut = cut_by(raw, remarks)
        if cut in map(text_of, raw.values()):
            cut = cut_by(self.spares.without_names(raw), remarks)
        if cut and not may_hang(cut):
            self.noticed.row("cut", number, " ".join(cut.split())[:40])
            self.meanings.hang_from(raw)
            return []
        struck(number, row, self.sheet.behind, where, self.log)
        raw = without_errors(raw, where, self.log)
        hidden = HIDDEN if number - 1 in self.sheet.behind.hidden else ""
        table = f" {self.table}," if self.table else ""
        source = f"{self.name},{table} {where.entry}{hidden}"
        each = self._each(raw)
        return [self.meanings.unit(one, list(remarks), where, source, number) for one in each]

    def _where(self, number: int, columns: dict[str, str] | None) -> Where:
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

    def _each(self, raw: dict[str, Any]) -> list[dict[str, Any]]:
        """A row as those of its units."""
        if on_both := self._on_each(raw):
            return on_both
        position = self.meanings.current
        if "position" in raw:
            position = self.meanings.positions.find(text_of(raw["position"])).name
        rows = each_of(raw, str(position or ""), self.lines.lower)
        if not rows:
            return [raw]
        numbers = f"{len(rows)} units: {', '.join(row['number'] for row in rows)}"
        self.noticed.read_as("number", text_of(raw["number"]), numbers)
        if text_of(rows[0].pop(COUNT, len(rows))) == str(len(rows)):
            for row in rows:
                row.pop(COUNT, None)
        return rows

    def _on_each(self, raw: dict[str, Any]) -> list[dict[str, Any]]:
        """A row that names several positions as those of the units on each; the rows below without a position
        hang there too."""
        if "position" in raw:
            self.several = ""
        named = text_of(raw.get("position", self.several)).strip()
        if not named or self.meanings.positions.find(named).name is not None:
            return []
        names = positions_in(named, self.meanings.positions)
        if len(names) < 2:
            return []
        self.several = named
        raw["position"] = named  # asked about, where it cannot be parted
        rows = on_each(raw, names, self.lines.words)
        if rows:
            self.noticed.read_as("position", named, f"{' and '.join(names)}, a unit on each")
        return rows

    def _add_note(self, above: Row, added: str) -> None:
        note = above.raw.get("note")
        plain = " ".join(added.strip("+ ").split())
        both = f"{note}; {plain}" if isinstance(note, str) and note else plain
        above.raw["note"] = both[:LONGEST_REMARK]

    def _leave_spare(self, number: int, row: list[Any], raw: dict[str, Any]) -> None:
        """Leave a light in reserve out, which is told; pass over a place that is kept free."""
        kind = raw.get("kind")
        if kind is not None and (is_ditto(kind) or self.meanings.fits("kind", kind)):
            self._dittos(raw, number)
            self.noticed.row("spare", number, told_of(row))
        else:
            self._pass_over(number, row)
        if self.spares.aside and "position" in raw:
            self.lines.none_over()
        self.meanings.hang_from(raw)

    def _pass_over(self, number: int, row: list[Any]) -> None:
        words = [text_of(cell).strip() for cell in row if not blank(cell)]
        self.passed += len(words) > 1
        told_as = " ".join(words[:3])
        self.noticed.row("no unit", number, told_as if len(told_as) <= 60 else told_as[:57] + "...")
        if len(words) == 1 and not is_total(words[0]):
            # A heading that is no target: what follows is not of the one above.
            self.meanings.aim = None
        few = 1 < len(words) <= FEW_CELLS and re.search(r"[^\W\d_]", words[0])  # no unit's number
        if few and self.meanings.by_section and position_in(words[0], self.meanings.positions):
            self.lines.none_over()  # "LX2, see drawing": what follows may not hang on the one above
            return
        alone = len(words) == 1 and not re.search(r"\d", words[0])
        if alone:
            self.meanings.over = sort_over(words[0])
        named = titled_positions(words[0], self.meanings.positions) if len(words) == 1 else []
        if self.meanings.by_section and len(set(named)) == 1:
            self.lines.under(named[0], number, row)  # "Position: LX 2, page 2", over its units
            return
        if self.meanings.by_section and named:
            self.lines.none_over()  # "LX 1 / LX 2": of each unit below, somebody must say which
            return
        no_title = (
            alone and without_figures(words[0]) not in self.kinds.titles and not is_total(words[0])
        )
        counted = len(words) == 1 and is_counted_sort(words[0])
        if self.meanings.by_section and (no_title or counted):
            # A heading that is no position of the scene: what follows is not on the one above.
            self.lines.none_over()

    def _told_whole(self, number: int, words: str) -> None:
        self.noticed.row("goes on", number, words)

    def _dittos(self, raw: dict[str, Any], number: int) -> None:
        last = self.above
        for key, cell in raw.items():
            coded = fold_code(text_of(cell)) in self.around.codes.get(key, {})
            if is_ditto(cell) and key in last and key != "number" and not coded:
                raw[key] = last[key]
                self.noticed.row("ditto", number)
        self.above = dict(raw)


_MAY_BE_NONE = ("number", "at", HEIGHT, GAP, "channel", "circuit", "system")
