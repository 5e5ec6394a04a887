"""The units of one row of a table: what stands over units, what is none, and what is cut."""

from __future__ import annotations

import re
from typing import Any

from aimcalc.scene.document import ASKED, ask
from aimcalc.scene.hanglist.columns.columnkeys import APART, COUNT, ELSE, REMARK, SIDE
from aimcalc.scene.hanglist.columns.kindnumbers import numbered_kind
from aimcalc.scene.hanglist.columns.sidecolumns import is_middle
from aimcalc.scene.hanglist.meanings import LONGEST_REMARK
from aimcalc.scene.hanglist.names.blankcells import BlankCells
from aimcalc.scene.hanglist.names.positioncells import group_of
from aimcalc.scene.hanglist.names.sections import (
    is_counted_sort,
    position_in,
    read_over,
    sort_over,
    titled_positions,
)
from aimcalc.scene.hanglist.names.spelling import fold_code
from aimcalc.scene.hanglist.places.placeforms import placed_else
from aimcalc.scene.hanglist.rows.bothsides import on_each, positions_in
from aimcalc.scene.hanglist.rows.cellfaults import all_struck, struck, unvalued, without_errors
from aimcalc.scene.hanglist.rows.listrow import Row, blank, is_dash, is_ditto, is_total, text_of
from aimcalc.scene.hanglist.rows.otherrows import OtherRows
from aimcalc.scene.hanglist.rows.rowcuts import calls_cut, cut_by, may_hang
from aimcalc.scene.hanglist.rows.rowkinds import RowKinds, lined_out, without_figures
from aimcalc.scene.hanglist.rows.runs import LONGEST_PLUG, Whole, each_of
from aimcalc.scene.hanglist.rows.sparerows import NONE, SpareRows, says_none, told_of
from aimcalc.scene.hanglist.tablecolumns import TableColumns
from aimcalc.scene.hanglist.tablesides import TableSides
from aimcalc.scene.mistakes import Where, Wrong
from aimcalc.scene.model import HIDDEN

FEW_CELLS = 3  # of a row over units that names their position


class TableRows:
    """Reads the rows of one table, one after the other."""

    def __init__(self, columns: TableColumns, sides: TableSides, kinds: RowKinds) -> None:
        self.columns, self.sides, self.kinds = columns, sides, kinds
        self.meanings, self.lines = columns.meanings, columns.lines
        self.name, self.around, self.log = columns.name, columns.around, columns.log
        self.noticed, self.sheet, self.head = columns.noticed, columns.sheet, columns.head
        self.spares = SpareRows(self.meanings.positions, self.meanings.targets)
        self.blanks = BlankCells()
        self.on_bars: dict[str, tuple[str, str]] = {}  # numbers that say a bar and a unit on it
        self.above: dict[str, Any] = {}  # the cells of the row above, for ditto marks
        self.several = ""  # the positions of the row above, which names several
        self.no_channel: set[str] = set()  # rows that say that their unit has none
        self.in_reserve: dict[
            int, str
        ] = {}  # rows of units that hang, called spare, and their source
        self.over_is_new = self.over_all = False  # what `over_units` says is over positions too
        # Rows of several cells, or without a column of kinds, in which no unit was found.
        self.passed = 0

    def units(self, number: int, row: list[Any], above: Row | None) -> list[Row]:
        """The units in a row, mostly one; none where it holds no unit. `above` is the unit before it."""
        if self._is_lined_out(number, row):
            return []
        columns = None if self.head.numbers else self.columns.letters  # free lines have none
        if columns and self.sides.pairs and self.sides.pairs.over:
            columns = {key: letters for key, letters in columns.items() if key != "position"}
        where = self.columns.where(number, columns)
        raw, remarks = self._cells(number, row, where)
        if not raw and not remarks:
            return []
        if self._is_over(number, row, raw) or self._is_no_unit(number, row, raw, remarks, above):
            return []
        self._dittos(raw, number)
        self._on_bar(raw)
        for key in self.blanks.fill(raw):
            self.noticed.row(f"blank {key}", number)
        if self._is_cut(number, raw, remarks):
            return []
        struck(number, row, self.sheet.behind, where, self.log)
        raw = without_errors(raw, where, self.log)
        hidden = HIDDEN if number - 1 in self.sheet.behind.hidden else ""
        table = f" {self.columns.table}," if self.columns.table else ""
        source = f"{self.name},{table} {where.entry}{hidden}"
        if number in self.in_reserve:
            self.in_reserve[number] = source
        each = self._each(raw, where)
        self.over_is_new = False
        return [self.meanings.unit(one, list(remarks), where, source, number) for one in each]

    def _is_lined_out(self, number: int, row: list[Any]) -> bool:
        """Whether a line goes through a row that is said to be cut or spare besides, which is told."""
        if not self.sheet.behind.struck and not lined_out(row):
            return False
        spare = self.spares.said_of(row)
        position = self.columns.headings.by_key.get("position")
        lined = all_struck(
            number, row, self.sheet.behind, position.place if position else -1, spare
        )
        if not lined_out(row) and not (
            lined and (self.lines.cuts_lined or calls_cut(row) or spare)
        ):
            return False
        self.noticed.row(
            "cut", number, f"a line through it, {spare}" if spare else "a line through it"
        )
        return True

    def _on_bar(self, raw: dict[str, Any]) -> None:
        """Put the bar and the unit in the place of a number that says both."""
        text = text_of(raw.get("number", "")).strip()
        if text in self.on_bars:
            raw["position"], raw["number"] = self.on_bars[text]
            told = f"position {raw['position']}, number {raw['number']}"
            self.noticed.read_as("number", text, told)

    def _cells(
        self, number: int, row: list[Any], where: Where
    ) -> tuple[dict[str, Any], list[tuple[str, Any]]]:
        """The filled cells of a row by the keys of their columns, and those kept as remarks by their
        headings."""
        raw: dict[str, Any] = {}
        remarks: list[tuple[str, Any]] = []
        unworked, by_place = self.sheet.behind.unworked, self.columns.by_place
        for k, cell in enumerate(row):
            if unworked and (number - 1, k) in unworked:
                unvalued(by_place.get(k), where, raw, self.log)
                continue
            if blank(cell):
                continue
            column = by_place.get(k)
            if column is not None and column.key == APART:
                continue
            if column is not None and column.key == "at" and is_dash(cell) and self._has_else(row):
                continue
            if k == self.sides.middle and is_middle(cell):
                raw.setdefault("at", 0)
                continue
            if column is not None and says_none(column.key, str(cell)):
                if not NONE.fullmatch(str(cell)):
                    self.noticed.read_as(column.key, text_of(cell), "none")
                if column.key == "channel":
                    self.no_channel.add(where.entry)
                continue
            if column is None:
                remarks.append(("", cell))
            elif column.key == REMARK or (column.key == ELSE and self._is_placed(row, raw)):
                remarks.append((column.heading, cell))
            elif column.key == ELSE:
                raw.setdefault("at", placed_else(cell, column))
            elif column.key == "kind" and column.meaning.numbered:
                self._part_kind(cell, raw)
            else:
                raw[column.key] = cell
        return raw, remarks

    def _is_placed(self, row: list[Any], raw: dict[str, Any]) -> bool:
        """Whether a row has its place in the column of places itself."""
        held = [k for k, column in self.columns.by_place.items() if column.key == "at"]
        filled = (row[k] for k in held if k < len(row))
        return "at" in raw or any(not blank(cell) and not is_dash(cell) for cell in filled)

    def _has_else(self, row: list[Any]) -> bool:
        """Whether a row has a place in another column, for where that of places is empty."""
        held = [k for k, column in self.columns.by_place.items() if column.key == ELSE]
        return any(k < len(row) and not blank(row[k]) and not is_dash(row[k]) for k in held)

    def _part_kind(self, cell: Any, raw: dict[str, Any]) -> None:
        """Part the number of a unit from its kind: "1 - ERS 36"."""
        parts = numbered_kind(cell, self.meanings.fits)
        raw["kind"] = parts.kind if parts else cell
        if parts and raw.setdefault("number", parts.number) == parts.number:
            self.noticed.read_as("kind", text_of(cell), f"number {parts.number}, kind {parts.kind}")

    def _is_over(self, number: int, row: list[Any], raw: dict[str, Any]) -> bool:
        """Whether a row stands over units and says their position, kind, group or target, which is told."""
        letters = self.columns.letters
        if number in self.lines.beneath:
            said = " ".join(text_of(cell).strip() for cell in row if not blank(cell))
            self.noticed.row("said", number, said)
            return True
        if self._names_both(number, row):
            return True
        section = self.kinds.section(row, raw)
        if section:
            self.several = ""
            self.lines.under(section, number, row)
            self._over_section()
            self.spares.aside = False
            self.blanks.section()
            self.passed += "kind" not in letters  # no unit can stand under it
            return True
        if self.over_units(row, number):
            return True
        if "position" not in letters and self.lines.is_group(row, number):
            self.blanks.section()
            return True
        aimed = "" if "target" in letters else self.kinds.target_over(row)
        if aimed:
            self.meanings.aim = aimed
            self.noticed.row("aimed", number, read_over(aimed, row))
            return True
        return False

    def over_units(self, row: list[Any], number: int) -> bool:
        """Whether a row says the kind, the colour or the channel of the units below it, and no column does;
        it is taken. Where positions stood below the last such row, they stand below this one too."""
        key, said = self.kinds.over_units(row, self.meanings.kinds, self.columns.letters)
        if not said:
            return False
        if self.over_all:
            self.lines.none_over()
            self.meanings.over_units.clear()
        self.over_is_new, self.over_all = True, False
        self.meanings.over_units[key] = said
        self.noticed.row(f"{key} over", number, said)
        return True

    def _names_both(self, number: int, row: list[Any]) -> bool:
        """Whether a row says the position and the kind of the units below, where no column does; taken."""
        if {"position", "kind"} & self.columns.letters.keys():
            return False
        section, kind = self.kinds.with_kind(row, self.meanings.kinds)
        if not section:
            return False
        self.several = ""
        self.lines.under(section, number, row)
        self.meanings.over_units = {"kind": kind}
        self.over_is_new = self.over_all = self.spares.aside = False
        self.noticed.row("kind over", number, kind)
        self.blanks.section()
        return True

    def said_once(self, above: list[int]) -> list[int]:
        """The rows above the headings, by their numbers, but for those that say the kind of the units below:
        of a list of several none does."""
        kinds, letters, rows = self.meanings.kinds, self.columns.letters, self.head.rows
        keys = [self.kinds.over_units(rows[k - 1], kinds, letters)[0] for k in above]
        both = [bool(self.kinds.with_kind(rows[k - 1], kinds)[0]) for k in above]
        keys = ["kind" if each else key for key, each in zip(keys, both, strict=True)]
        return [
            k
            for k, key in zip(above, keys, strict=True)
            if not (key and keys.count(key) == 1 and self._says_over(k, rows[k - 1]))
        ]

    def _says_over(self, number: int, row: list[Any]) -> bool:
        return self._names_both(number, row) or self.over_units(row, number)

    def kind_of_sheet(self, name: str) -> None:
        """Take the name of a sheet for the kind of its units where it is one and no column holds kinds."""
        if "kind" in self.columns.letters or not self.kinds.kind_over([name], self.meanings.kinds):
            return
        self.meanings.over_units["kind"] = name
        self.over_all = True
        self.noticed.note("list-kind", f"sheet {name} is named after the kind of its units.")

    def _over_section(self) -> None:
        """Know of which units a kind is that stands in a row of its own, at a position in another: of all on
        the positions below where no unit is between the two rows, else of that position alone."""
        self.over_all = self.over_all or (self.over_is_new and bool(self.meanings.over_units))
        if not self.over_all:
            self.meanings.over_units.clear()

    def _is_no_unit(
        self,
        number: int,
        row: list[Any],
        raw: dict[str, Any],
        remarks: list[tuple[str, Any]],
        above: Row | None,
    ) -> bool:
        """Whether a row holds no unit: a tally, a title, a light in reserve, or what belongs to the unit
        `above`, whose remark it becomes."""
        if self.kinds.is_tally(row, self.meanings.kinds):
            self.pass_over(number, row)
            return True
        added = self.kinds.added(raw, remarks, above)
        if added and above is not None:
            self._add_note(above, added)
            self.noticed.row("accessory", number, added)
            return True
        told = "target" not in self.columns.letters or self.meanings.aim is not None
        told = told or "target" in self.blanks.keys
        if self.spares.holds(row, raw, remarks, aimed=told):
            if self._is_kind(raw.get("kind")) and self.spares.hangs(raw, remarks):
                self.in_reserve[number] = ""
                return False
            self._leave_spare(number, row, raw)
            return True
        added_to_page = self.kinds.is_added(row, raw)
        if added_to_page or self.kinds.is_title(row) or self.kinds.no_unit(raw):
            self.pass_over(number, row)
            return True
        return False

    def _is_cut(self, number: int, raw: dict[str, Any], remarks: list[tuple[str, Any]]) -> bool:
        """Whether a row says that its unit is cut, which is told."""
        cut = cut_by(raw, remarks)
        if cut in map(text_of, raw.values()):
            cut = cut_by(self.spares.without_names(raw), remarks)
        if cut and not may_hang(cut):
            self.noticed.row("cut", number, " ".join(cut.split())[:40])
            self.meanings.hang_from(raw)
            return True
        return False

    def _each(self, raw: dict[str, Any], where: Where) -> list[dict[str, Any]]:
        """A row as those of its units; asked about, where two have a side each and nothing says which."""
        if on_both := self._on_each(raw):
            return on_both
        position = self.meanings.current
        if "position" in raw:
            position = self.meanings.positions.find(text_of(raw["position"])).name
        place = self.around.places.get(str(position))
        axis = place.axis if place else ""
        lower = self.lines.lower
        try:
            others = OtherRows(self.head.rows[self.head.last + 1 :], self.columns.headings.by_key)
            whole = Whole(str(position or ""), axis, lower, self._is_name, others)
            rows = each_of(raw, whole)
        except Wrong as wrong:
            key = "number" if "number" in raw else "at"
            ask(self.log, raw, where, key, wrong, raw.get(key))
            return [{**raw, "at": ASKED, "number": ASKED, COUNT: 1}]
        if not rows:
            return [raw]
        if "number" in raw:
            numbers = f"{len(rows)} units: {', '.join(row['number'] for row in rows)}"
            self.noticed.read_as("number", text_of(raw["number"]), numbers)
        elif COUNT in raw:
            self.noticed.read_as(COUNT, text_of(raw[COUNT]), f"{len(rows)} units")
        if "at" in raw and rows[0]["at"] != raw["at"]:
            came = f"{text_of(raw['at'])} {text_of(raw.get(SIDE, ''))}".strip()
            self.noticed.read_as(
                "at", came, f"of {len(rows)} units: {', '.join(row['at'] for row in rows)}"
            )
        self._plugs_shared(raw, rows)
        return rows

    def _plugs_shared(self, raw: dict[str, Any], rows: list[dict[str, Any]]) -> None:
        """Tell of several units whether what they are plugged into is shared out, "1 to 3", or is that of
        each, as a text of several figures that cannot be parted."""
        for key in ("channel", "circuit"):
            text = text_of(raw.get(key, "")).strip()
            if rows[0].get(key) != raw.get(key):
                own = ", ".join(text_of(row[key]) for row in rows)
                self.noticed.read_as(key, text, f"of {len(rows)} units: {own}")
            elif len(re.findall(r"\d+", text[:LONGEST_PLUG])) > 1:
                self.noticed.read_as(key, text, f"that of each of {len(rows)} units")

    def _is_name(self, key: str, text: str) -> bool:
        """Whether a cell names one kind, or one target, as it stands."""
        if key == "kind":
            return bool(self.meanings.fits("kind", text))
        return self.meanings.targets.find(text).name is not None

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

    def _is_target(self, cell: Any) -> bool:
        return is_ditto(cell) and self.meanings.targets.find(text_of(cell)).name is not None

    def _is_kind(self, cell: Any) -> bool:
        return cell is not None and (is_ditto(cell) or bool(self.meanings.fits("kind", cell)))

    def _leave_spare(self, number: int, row: list[Any], raw: dict[str, Any]) -> None:
        """Leave a light in reserve out, which is told; pass over a place that is kept free."""
        if self._is_kind(raw.get("kind")):
            self._dittos(raw, number)
            self.noticed.row("spare", number, told_of(row))
        else:
            self.pass_over(number, row)
        if self.spares.aside and "position" in raw:
            self.lines.none_over()
        self.meanings.hang_from(raw)

    def pass_over(self, number: int, row: list[Any]) -> None:
        """Leave out a row without a unit, which is told; what stands over it may end there."""
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
            self.meanings.over = sort_over(words[0]) or group_of(words[0], self.meanings.positions)
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

    def _dittos(self, raw: dict[str, Any], number: int) -> None:
        last = self.above
        for key, cell in raw.items():
            coded = fold_code(text_of(cell)) in self.around.codes.get(key, {})
            coded = coded or (
                key == "target" and self._is_target(cell)
            )  # "C.S.", and no "come sopra"
            if is_ditto(cell) and key in last and key != "number" and not coded:
                raw[key] = last[key]
                self.noticed.row("ditto", number)
        self.above = dict(raw)
