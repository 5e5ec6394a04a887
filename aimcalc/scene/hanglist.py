"""Hang lists: one row per unit, in CSV, XLSX or ODS, headed with the keys of a unit."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from aimcalc.scene.files import as_text, read_whole
from aimcalc.scene.mistakes import CLASH, FILE, MISSING, UNKNOWN, Log, Where, Wrong
from aimcalc.scene.tables import unit_readers

HANG_MEGABYTES = 20
MOST_ROWS = 200_000
WORKBOOKS = (".xlsx", ".ods")
TEXTS = (".csv", ".tsv")

HangRow = tuple[dict[str, Any], Where, str]


def hang_rows(path: str, name: str, log: Log) -> list[HangRow]:
    """The rows of a hang list as unit entries, each with its place and its source.

    Args:
        path: where the file is.
        name: the file's name as the scene gives it, for messages.
        log: takes every mistake of the file, its headings and its shape.
    """
    try:
        sheet, rows = _read(path, name)
        return _entries(name, sheet, rows, log)
    except Wrong as wrong:
        log.add(Where(name, ""), "", wrong, name)
        return []


def _read(path: str, name: str) -> tuple[str, Iterable[list[Any]]]:
    """The sheet's name ("" for text) and its rows of cells."""
    lower = name.lower()
    if lower.endswith(WORKBOOKS):
        return _workbook(path)
    if lower.endswith(TEXTS):
        return "", _text_rows(as_text(read_whole(path, HANG_MEGABYTES)))
    raise Wrong("a hang list ending in .csv, .tsv, .xlsx or .ods", rank=FILE)


def _workbook(path: str) -> tuple[str, Iterable[list[Any]]]:
    """The first sheet of a workbook."""
    import io

    import python_calamine

    from aimcalc.scene.sheetsize import check_workbook

    data = read_whole(path, HANG_MEGABYTES)
    check_workbook(data)
    try:
        book = python_calamine.CalamineWorkbook.from_filelike(io.BytesIO(data))
        sheet = book.get_sheet_by_index(0)
    except (KeyboardInterrupt, SystemExit, MemoryError):
        raise
    except BaseException as error:  # its panics are no Exception
        reason = str(error).splitlines()[0] if str(error) else "it is damaged"
        raise Wrong("a workbook that can be read", came=reason[:200], rank=FILE) from None
    return sheet.name, sheet.to_python(skip_empty_area=False)


def _text_rows(text: str) -> Iterable[list[str]]:
    """The rows of comma, semicolon or tab separated text, whichever gives the most headings."""
    import csv
    import io

    head = text.lstrip().split("\n", 1)[0]
    mark = max(",;\t", key=lambda m: sum(_key(cell) is not None for cell in head.split(m)))
    rows = csv.reader(io.StringIO(text, newline=""), delimiter=mark)
    try:
        yield from rows
    except csv.Error as error:
        came = f"{error} in line {rows.line_num}"
        raise Wrong("CSV that can be read", came=came, rank=FILE) from None


_KEYS = {key.replace("_", ""): key for key in unit_readers("m")}


def _key(heading: object) -> str | None:
    """The unit key that a heading means, whatever its capitals, spaces and underscores."""
    plain = str(heading).strip().strip('"').lower()
    return _KEYS.get(plain.replace("_", "").replace(" ", "").replace("-", ""))


def _entries(name: str, sheet: str, rows: Iterable[list[Any]], log: Log) -> list[HangRow]:
    table = f"sheet {sheet}" if sheet else ""
    place = f"{name}, {table}, row " if table else f"{name}, row "
    found: list[HangRow] = []
    keys: list[str | None] = []
    columns: dict[str, str] = {}
    for number, row in enumerate(rows, start=1):
        if not keys:
            if any(not _blank(cell) for cell in row):
                keys, columns = _headings(row, Where(name, table, f"row {number}"), log)
            continue
        raw = {key: cell for key, cell in zip(keys, row, strict=False) if key and not _blank(cell)}
        where = Where(name, table, f"row {number}", columns)
        if len(row) > len(keys):
            _check_beyond(row, len(keys), where, log)
        if raw:
            found.append((raw, where, f"{place}{number}"))
        if len(found) > MOST_ROWS:
            raise Wrong(f"at most {MOST_ROWS} rows", came="more", rank=FILE)
    if not keys:
        expected = "a first row with headings: position, number, at, kind ..."
        raise Wrong(expected, came="nothing", rank=MISSING)
    return found


def _headings(row: list[Any], where: Where, log: Log) -> tuple[list[str | None], dict[str, str]]:
    """The key of each column (None: no heading), and the column letters of each key."""
    keys: list[str | None] = []
    columns: dict[str, str] = {}
    for index, cell in enumerate(row):
        letters = column_letters(index)
        key = None if _blank(cell) else _key(cell)
        keys.append(key)
        if key is None:
            if not _blank(cell):
                known = tuple(unit_readers("m"))
                wrong = Wrong("a heading that is a key of a unit", choices=known, rank=UNKNOWN)
                log.add(where, f"column {letters}", wrong, cell)
        elif key in columns:
            wrong = Wrong(f"one column {key}; column {columns[key]} has it too", rank=CLASH)
            log.add(where, f"column {letters}", wrong, cell)
        else:
            columns[key] = letters
    return keys, columns


def _check_beyond(row: list[Any], width: int, where: Where, log: Log) -> None:
    extra = [index for index, cell in enumerate(row) if index >= width and not _blank(cell)]
    if extra:
        wrong = Wrong(
            f"no cells past the headings, which end at column {column_letters(width - 1)}"
        )
        log.add(where, f"column {column_letters(extra[0])}", wrong, row[extra[0]])


def _blank(cell: object) -> bool:
    return cell is None or (isinstance(cell, str) and (not cell or cell.isspace()))


def column_letters(index: int) -> str:
    """The spreadsheet's letters of a column counted from 0: A, B ... Z, AA."""
    letters = ""
    index += 1
    while index:
        index, rest = divmod(index - 1, 26)
        letters = chr(65 + rest) + letters
    return letters
