"""Units whose columns are shared over two tables that both name position and number, or the same channels or
circuits: places, kinds and targets on one sheet, channels and dimmers or focus and colour on another."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.hanglist.columns.columnkeys import KEYS
from aimcalc.scene.hanglist.rows.listrow import Around, Row, text_of
from aimcalc.scene.hanglist.table.secondtable import CODES
from aimcalc.scene.hanglist.table.sheettables import Table
from aimcalc.scene.hanglist.tablereader import TableReader
from aimcalc.scene.hanglist.taken import Noticed
from aimcalc.scene.mistakes import CLASH, Log, Wrong, show

BY = ("position", "number")
OF_ALL = {
    "channel": ("target", "colour"),
    "circuit": ("target", "colour", "channel"),
}  # of one code
NOTED = ("note",)  # one sheet may say what the other does not
_ADDED = tuple(key for key in KEYS if key not in (*BY, "at", *NOTED))
_CORRECT = "Correct it, or name the one sheet that is to be read: hang_sheet in [scene]."


def join_sheets(
    tables: Iterable[Table],
    rows: Sequence[Row],
    around: Around,
    log: Log,
    noticed: Noticed,
    readers: Sequence[TableReader],
) -> None:
    """Give units what other sheets say of them, by position and number or else by channel or circuit; what
    does not fit is asked.

    Args:
        tables: those of the other sheets.
        rows: the units that were read.
        around: what of the scene the list is read by.
        log: takes what is asked.
        noticed: takes what was joined, and which sheets are not read.
        readers: of the tables that the units were read from.
    """
    sheets = ", ".join(dict.fromkeys(reader.table or "the table" for reader in readers))
    for table in tables:
        asked, aside = Log(), Noticed(noticed.name)
        try:
            reader = TableReader(noticed.name, table, around, asked, aside)
            reader.kinds.sharing = True
            more = reader.read()
        except Wrong:
            more = []
        called, joined = _called(table, readers), _joining(rows, more, around)
        of = sheets if called.startswith("sheet ") else "the first table"
        if not joined.found:
            named = f'sheet "{table.sheet.name}"' if called.startswith("sheet ") else called
            says = f"not read: {named}, of which no row is one of the units."
            noticed.note("list-sheet", says, "hang_sheet in [scene] names another.")
            continue
        wrong = joined.wrong(of)
        for row, key, each, came in wrong:
            log.add(row.where, key, each, came)
        added = [] if wrong else joined.join()
        entries = {row.where.entry for row in joined.left_out()}
        log.mistakes += [
            each
            for each in asked.mistakes
            if _of_any(each.key, added) and each.entry not in entries
        ]
        if added:
            are = "are" if len(added) > 1 else "is"
            says = (
                f"{_words(added)} of the units {are} read from {called}, whose rows are those of "
            )
            says += f"{of} by {joined.by_what}"
            left = joined.without_row()
            noticed.note("list-sheet", f"{says}; {left} have no row there." if left else f"{says}.")
            for more_told in joined.told(called):
                noticed.note("list-sheet", more_told)
            noticed.also(aside, called)


def _called(table: Table, readers: Sequence[TableReader]) -> str:
    """What to call another table: its sheet, or where it stands on the sheet of the units."""
    if all(reader.sheet is not table.sheet for reader in readers):
        return f"sheet {table.sheet.name}"
    beside = any(reader.head.first == table.head.first for reader in readers)
    return "the table beside it" if beside else f"the table from row {table.head.first + 1} on"


def _of_any(shown: str, keys: Iterable[str]) -> bool:
    return any(shown == key or shown.endswith(f"({key})") for key in keys)


def _words(keys: Sequence[str]) -> str:
    first = ", ".join(keys[:-1])
    return f"{first} and {keys[-1]}" if first else keys[-1]


def _joining(units: Sequence[Row], rows: Sequence[Row], around: Around) -> Joining:
    """How the rows of another table are joined to the units."""
    if not any(all(_name(row)) for row in rows):
        for key in CODES:
            if all(any(key in row.raw for row in each) for each in (units, rows)):
                return ByCode(units, rows, around, key)
    return Joining(units, rows, around)


class Joining:
    """The units of a list beside the rows of another table of the same units."""

    by_what = "position and number"

    def __init__(self, units: Sequence[Row], rows: Sequence[Row], around: Around) -> None:
        self.units, self.rows = units, rows
        self.by: dict[tuple[str, str], list[Row]] = {}
        for unit in units:
            self.by.setdefault(_name(unit), []).append(unit)
        self.found = [row for row in rows if _name(row) in self.by and all(_name(row))]
        names = {kind for kind, _, _ in around.kinds} | set(around.generic())
        self.known = {"kind": names, "target": set(around.targets)}

    def wrong(self, sheets: str) -> list[tuple[Row, str, Wrong, Any]]:
        """What is to be asked: rows without a unit or with several, and two that do not say the same."""
        found: list[tuple[Row, str, Wrong, Any]] = []
        seen: dict[tuple[str, str], Row] = {}
        for row in self.rows:
            name = _name(row)
            units = self.by.get(name, [])
            if len(units) != 1 or name in seen:
                expected = f"one unit of {sheets} for each row, by position and number"
                if name in seen:
                    expected = f"a row for each unit, and {seen[name].where.entry} has it too"
                wrong = Wrong(expected, _CORRECT, came=" ".join(name), rank=CLASH)
                found.append((row, "", wrong, None))
                continue
            seen[name] = row
            found += [
                (row, key, self._unlike(units[0], key), row.raw[key])
                for key in _ADDED
                if self._differ(units[0].raw, row.raw, key)
            ]
        return found

    def _unlike(self, unit: Row, key: str) -> Wrong:
        expected = f"the same {key} as in {unit.where.entry} of {unit.where.table or 'the table'}: "
        return Wrong(f"{expected}{show(unit.raw[key])}", _CORRECT, rank=CLASH)

    def _differ(self, one: dict[str, Any], other: dict[str, Any], key: str) -> bool:
        """Whether two rows say otherwise of a unit; a name that is none of the scene says nothing."""
        if key not in one or key not in other:
            return False
        known = self.known.get(key)
        if known is not None and not (one[key] in known and other[key] in known):
            return False
        return _plain(one[key]) != _plain(other[key])

    def join(self) -> list[str]:
        """Give each unit what it lacks; the keys that were given."""
        given: dict[str, None] = {}
        for row in self.found:
            for unit in self.units_of(row):
                for key in (*_ADDED, *NOTED):
                    if key in row.raw and key not in unit.raw:
                        unit.raw[key] = row.raw[key]
                        given[key] = None
        return [key for key in given if key not in NOTED]

    def units_of(self, row: Row) -> list[Row]:
        """The units that a row is of."""
        return self.by.get(_name(row), [])

    def without_row(self) -> int:
        """How many units have no row in the other table."""
        return len(self.units) - len(self.found)

    def left_out(self) -> list[Row]:
        """The rows that are of no unit, and need not be."""
        return []

    def told(self, called: str) -> list[str]:
        """What else there is to be told of the table of this name."""
        return []


class ByCode(Joining):
    """The units of a list beside the rows of a table that names their channels or circuits alone."""

    def __init__(self, units: Sequence[Row], rows: Sequence[Row], around: Around, key: str) -> None:
        super().__init__(units, rows, around)
        self.key = self.by_what = key
        self.coded: dict[str, list[Row]] = {}
        for unit in units:
            if key in unit.raw:
                self.coded.setdefault(_plain(unit.raw[key]), []).append(unit)
        self.found = [row for row in rows if self.units_of(row)]

    def units_of(self, row: Row) -> list[Row]:
        """The units of a row's channel or circuit, on its position if it names one."""
        if self.key not in row.raw:
            return []
        units = [unit for code in self._codes(row) for unit in self.coded.get(code, [])]
        position = row.raw.get("position")
        return [u for u in units if not position or u.raw.get("position") == position]

    def wrong(self, sheets: str) -> list[tuple[Row, str, Wrong, Any]]:
        """What is to be asked: rows of lights that no unit has, several of the same units, and two that do
        not say the same; what several units of one channel can not all have."""
        found: list[tuple[Row, str, Wrong, Any]] = []
        seen: dict[int, Row] = {}
        for row in self.rows:
            units, came = self.units_of(row), f"{self.key} {text_of(row.raw.get(self.key, ''))}"
            before = next((seen[id(unit)] for unit in units if id(unit) in seen), None)
            seen |= {id(unit): row for unit in units}
            single = [key for key in _ADDED if key in row.raw and self._is_of_one(key)]
            expected = ""
            if before is not None:
                expected = f"a row for each {self.key}, and {before.where.entry} has it too"
            elif not units and self._is_light(row):
                expected = f"a {self.key} that a unit of {sheets} has"
            elif len(units) > 1 and any(key not in u.raw for key in single for u in units):
                lacked = [key for key in single if any(key not in unit.raw for unit in units)]
                expected = f"one unit of {sheets} for the {_words(lacked)} of a row, and "
                expected += f"{len(units)} have its {self.key}"
            if expected:
                found.append((row, "", Wrong(expected, _CORRECT, came=came, rank=CLASH), None))
                continue
            found += [
                (row, key, self._unlike(unit, key), row.raw[key])
                for unit in units
                for key in _ADDED
                if key != self.key and self._differ(unit.raw, row.raw, key)
            ]
        return found

    def _codes(self, row: Row) -> list[str]:
        """The channels or circuits that a row names: one, or several where all are those of units."""
        one = _plain(row.raw[self.key])
        if one in self.coded or not _SEVERAL.fullmatch(one):
            return [one]
        each: dict[str, None] = {}
        for first, last in _RUN.findall(one):
            if last and not int(first) < int(last) < int(first) + LONGEST_RUN:
                return [one]
            each |= dict.fromkeys(str(n) for n in range(int(first), int(last or first) + 1))
        return list(each) if all(code in self.coded for code in each) else [one]

    def _is_of_one(self, key: str) -> bool:
        return key != self.key and key not in OF_ALL[self.key]

    def _is_light(self, row: Row) -> bool:
        """Whether a row speaks of a light: it names a kind or a target of the scene, or a colour."""
        named = any(row.raw.get(key) in names for key, names in self.known.items())
        return named or "colour" in row.raw

    def without_row(self) -> int:
        """How many units have no row in the other table."""
        having = {id(unit) for row in self.found for unit in self.units_of(row)}
        return len(self.units) - len(having)

    def left_out(self) -> list[Row]:
        """The rows of which no unit is, and that speak of no light."""
        return [row for row in self.rows if not self.units_of(row)]

    def told(self, called: str) -> list[str]:
        """Which channels or circuits have several units, and which rows have none."""
        says = []
        shared = [text_of(row.raw[self.key]) for row in self.found if len(self.units_of(row)) > 1]
        if shared:
            says.append(
                f"all units of one {self.key} take what {called} says of it: "
                f"{self.key} {', '.join(shared[:12])}."
            )
        out = [row.where.entry.removeprefix("row ") for row in self.left_out()]
        if out:
            says.append(f"of {called}, left out, being of no unit: rows {', '.join(out[:12])}.")
        return says


LONGEST_RUN = 100  # channels of one row
_SEVERAL = regex(r"\d+(?:(?:[,;+&]|and|-|–|to|thru|through)\d+)*")
_RUN = regex(r"(\d+)(?:(?:-|–|to|thru|through)(\d+))?")


def _name(row: Row) -> tuple[str, str]:
    position, number = (row.raw.get(key) for key in BY)
    return str(position or ""), text_of(number) if number else ""


def _plain(value: Any) -> str:
    return "".join(text_of(value).casefold().split())
