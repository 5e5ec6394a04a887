"""Units whose columns are shared over two tables that both name position and number: places, kinds and
targets on one sheet, channels and dimmers on another."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from aimcalc.scene.hanglist.listrow import Around, Row, text_of
from aimcalc.scene.hanglist.table.headings import KEYS
from aimcalc.scene.hanglist.table.sheettables import Table
from aimcalc.scene.hanglist.tablereader import TableReader
from aimcalc.scene.hanglist.taken import Noticed
from aimcalc.scene.mistakes import CLASH, Log, Wrong, show

BY = ("position", "number")
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
    """Give units what other sheets say of them, by position and number; what does not fit is asked.

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
        called, joined = _called(table, readers), Joining(rows, more, around)
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
        log.mistakes += [each for each in asked.mistakes if _of_any(each.key, added)]
        if added:
            are = "are" if len(added) > 1 else "is"
            says = (
                f"{_words(added)} of the units {are} read from {called}, whose rows are those of "
            )
            says += f"{of} by position and number"
            left = len(rows) - len(joined.found)
            noticed.note("list-sheet", f"{says}; {left} have no row there." if left else f"{says}.")
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


class Joining:
    """The units of a list beside the rows of another table of the same units."""

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
            raw = self.by[_name(row)][0].raw
            for key in (*_ADDED, *NOTED):
                if key in row.raw and key not in raw:
                    raw[key] = row.raw[key]
                    given[key] = None
        return [key for key in given if key not in NOTED]


def _name(row: Row) -> tuple[str, str]:
    position, number = (row.raw.get(key) for key in BY)
    return str(position or ""), text_of(number) if number else ""


def _plain(value: Any) -> str:
    return "".join(text_of(value).casefold().split())
