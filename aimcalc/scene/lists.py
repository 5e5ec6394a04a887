"""Hang lists: one row per unit, in CSV, XLSX or ODS, headed with the keys of a unit."""

from __future__ import annotations

import os
import re
from collections.abc import Iterable, Sequence
from itertools import chain, islice, takewhile
from typing import Any, NamedTuple

from aimcalc.scene.document import open_entry
from aimcalc.scene.files import as_text, check_workbook, csv_rows, read_whole
from aimcalc.scene.mistakes import (
    CLASH,
    FILE,
    MISSING,
    UNKNOWN,
    Log,
    SceneError,
    TooManyError,
    Where,
    Wrong,
    show,
)
from aimcalc.scene.model import HIDDEN, Point
from aimcalc.scene.readers import length, try_reading
from aimcalc.scene.sheetcells import ERROR, Unseen, unseen
from aimcalc.scene.tables import unit_readers

HANG_MEGABYTES = 20
MOST_ROWS = 20_000  # with a unit in each; the largest rigs there are have a tenth
MOST_HEAD = 100_000  # letters of the first row, where the mark between cells is looked for
WORKBOOKS = (".xlsx", ".ods")
TEXTS = (".csv", ".tsv")

HEADED = "a first row with headings: position, number, at, kind ..."

HangRow = tuple[dict[str, Any], Where, str]


def hang_rows(path: str, name: str, log: Log) -> list[HangRow]:
    """The rows of a hang list as unit entries, each with its place and its source.

    Args:
        path: where the file is.
        name: the file's name as the scene gives it, for messages.
        log: takes every mistake of the file, its headings and its shape.
    """
    try:
        return _entries(name, *_read(path, name), log)
    except Wrong as wrong:
        log.add(Where(name, ""), "", wrong, name)
        return []


def _read(path: str, name: str) -> tuple[str, Iterable[list[Any]], Unseen]:
    """The sheet's name ("" for text), its rows of cells, and what these do not show."""
    lower = name.lower()
    if lower.endswith(WORKBOOKS):
        return _workbook(path)
    if lower.endswith(TEXTS):
        return "", _text_rows(as_text(read_whole(path, HANG_MEGABYTES))), Unseen()
    raise Wrong("a hang list ending in .csv, .tsv, .xlsx or .ods", rank=FILE)


def _workbook(path: str) -> tuple[str, Iterable[list[Any]], Unseen]:
    """The name and the rows of the first sheet of a workbook, and what its reader does not tell of it."""
    import io

    import python_calamine

    data = read_whole(path, HANG_MEGABYTES)
    files = check_workbook(data)
    try:
        book = python_calamine.CalamineWorkbook.from_filelike(io.BytesIO(data))
        sheet = book.get_sheet_by_index(0)
    except (KeyboardInterrupt, SystemExit, MemoryError):
        raise
    except BaseException as error:  # its panics are no Exception
        reason = str(error).splitlines()[0] if str(error) else "it is damaged"
        raise Wrong("a workbook that can be read", came=reason[:200], rank=FILE) from None
    return sheet.name, sheet.to_python(skip_empty_area=False), unseen(files)


def _text_rows(text: str) -> Iterable[list[str]]:
    """The rows of comma, semicolon or tab separated text, whichever gives the most headings.

    A first line "sep=;", as some programs write it, says which.
    """
    said = re.match(r"\"?sep=(.)\"?[^\S\n]*(?=\n|$)", text)
    if said:
        return csv_rows(text[said.end() :], said[1])
    head = text.lstrip()[:MOST_HEAD].split("\n", 1)[0]
    mark = max(",;\t", key=lambda m: sum(_key(cell) is not None for cell in head.split(m)))
    return csv_rows(text, mark)


_KEYS = {key.replace("_", ""): key for key in unit_readers("m")}


def _key(heading: object) -> str | None:
    """The unit key that a heading means, whatever its capitals, spaces and underscores."""
    plain = str(heading).strip().strip('"').lower()
    return _KEYS.get(plain.replace("_", "").replace(" ", "").replace("-", ""))


class Headings(NamedTuple):
    """The first row: what each column holds."""

    keys: list[str | None]  # of each column; None where the heading is no key
    letters: dict[str, str]  # key -> letters of its column
    nameless: list[int]  # columns without a heading, which must be empty


def _entries(
    name: str, sheet: str, rows: Iterable[list[Any]], behind: Unseen, log: Log
) -> list[HangRow]:
    table = f"sheet {sheet}" if sheet else ""
    place = f"{name}, {table}, row " if table else f"{name}, row "
    found: list[HangRow] = []
    headings: Headings | None = None
    in_error = {row for row, _ in behind.errors}
    for number, row in enumerate(rows, start=1):
        if number - 1 in in_error:
            row = [behind.errors.get((number - 1, k), cell) for k, cell in enumerate(row)]
        if headings is None:
            if not all(map(_blank, row)):
                where = Where(name, table, f"row {number}")
                _refuse_title(row, where)
                headings = _headings(row, where, log)
            continue
        if row.count("") == len(row):
            continue
        keys = headings.keys
        raw = {key: cell for key, cell in zip(keys, row, strict=False) if key and not _blank(cell)}
        where = Where(name, table, f"row {number}", headings.letters)
        if headings.nameless or len(row) > len(keys):
            _check_outside(row, headings, where, log)
        raw = _without_errors(raw, where, log)
        if raw:
            source = f"{place}{number}{HIDDEN if number - 1 in behind.hidden else ''}"
            found.append((raw, where, source))
        if len(found) > MOST_ROWS:
            raise Wrong(f"at most {MOST_ROWS:,} rows with a unit in each", came="more", rank=FILE)
    if headings is None:
        raise Wrong(HEADED, came="nothing", rank=MISSING)
    return found


def _without_errors(raw: dict[str, Any], where: Where, log: Log) -> dict[str, Any]:
    """A row less its cells that a formula's error stands in; each is noted, of whatever column."""
    for key, cell in list(raw.items()):
        if isinstance(cell, str) and ERROR.fullmatch(cell.strip()):
            wrong = Wrong(
                "a value, not the error of a formula", "Fix the formula, or type the value."
            )
            log.add(where, key, wrong, cell)
            del raw[key]
    return raw


def _headings(row: list[Any], where: Where, log: Log) -> Headings:
    """What the columns hold; headings that are no key, or come twice, are noted."""
    found = Headings([], {}, [])
    for index, cell in enumerate(row):
        key = None if _blank(cell) else _key(cell)
        found.keys.append(key)
        if key in found.letters:
            expected = f"one column {key}, and column {found.letters[key]} is one"
            _note(where, index, Wrong(expected, rank=CLASH), cell, log)
        elif key is not None:
            found.letters[key] = column_letters(index)
        elif _blank(cell):
            found.nameless.append(index)
        else:
            known = tuple(_KEYS.values())
            wrong = Wrong("a heading that is a key of a unit", choices=known, rank=UNKNOWN)
            _note(where, index, wrong, cell, log)
    return found


def _refuse_title(row: list[Any], where: Where) -> None:
    """Refuse a first row that holds no heading at all: a title, or a sheet that is no hang list."""
    told = [str(cell) for cell in row if not _blank(cell)]
    if any(_key(cell) is not None for cell in told):
        return
    place = ", ".join(part for part in (where.table, where.entry) if part)
    raise Wrong(
        HEADED,
        "Headings stand in the first row, of the first sheet: move away what is above or before them.",
        came=f"{place}: {', '.join(map(show, told[:3]))}{' ...' if len(told) > 3 else ''}",
        rank=FILE,
    )


def _check_outside(row: list[Any], headings: Headings, where: Where, log: Log) -> None:
    """Note the first filled cell of a row that stands under no heading."""
    width = len(headings.keys)
    nameless = takewhile(lambda index: index < len(row), headings.nameless)
    for index in chain(nameless, range(width, len(row))):
        if not _blank(row[index]):
            expected = "nothing in a column without a heading"
            _note(where, index, Wrong(expected, "Give the column a heading."), row[index], log)
            return


def _note(where: Where, index: int, wrong: Wrong, cell: object, log: Log) -> None:
    log.add(where, f"column {column_letters(index)}", wrong, cell)


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


MEGABYTES = 5
MOST_POINTS = 20_000
AXES = ("x", "y", "z")


def read_points(path: str, unit: str) -> list[Point]:
    """The points of a CSV file in metres; bare numbers are in `unit`.

    The first row may name the columns, in any order and with others among them; without names, x, y and z
    are the first three. Empty rows are passed over.

    Raises:
        SceneError: with every mistake of the file, its row and its column.
    """
    name, log = os.path.basename(path), Log()
    points: list[Point] = []
    try:
        points = _points(_rows(as_text(read_whole(path, MEGABYTES))), name, unit, log)
    except Wrong as wrong:
        log.add(Where(name, ""), "", wrong, name)
    except TooManyError:
        pass  # the report says that there may be more
    if log.mistakes:
        raise SceneError(name, log.mistakes)
    return points


def _rows(text: str) -> list[tuple[int, list[str]]]:
    """Every row that holds something, with its number. Beside tabs or semicolons a comma is a decimal one."""
    first = next((line for line in text[:MOST_HEAD].splitlines() if line.strip()), "")
    mark = next((mark for mark in "\t;" if first.count(mark) > 1), ",")
    rows = enumerate(csv_rows(text, mark), start=1)
    filled = ((number, row) for number, row in rows if any(cell.strip() for cell in row))
    found = list(islice(filled, MOST_POINTS + 1))
    if len(found) > MOST_POINTS:
        raise Wrong(f"at most {MOST_POINTS:,} points", came="more", rank=FILE)
    return found


def _points(rows: Sequence[tuple[int, list[str]]], name: str, unit: str, log: Log) -> list[Point]:
    columns = (0, 1, 2)
    if rows and _is_heading(rows[0][1], unit):
        number, heading = rows[0]
        try:
            columns = _columns(heading)
        except Wrong as wrong:
            log.add(Where(name, "", f"row {number}"), "", wrong)
            return []
        rows = rows[1:]
    if not rows:
        raise Wrong("rows of x, y and z", "Write one point a row.", came="no point", rank=MISSING)
    letters = dict(zip(AXES, map(column_letters, columns), strict=True))
    readers = {axis: length(unit, axis if axis in "xy" else "") for axis in AXES}
    entries = [
        open_entry(_cells(row, columns), readers, Where(name, "", f"row {n}", letters), log)
        for n, row in rows
    ]
    return [(e.values["x"], e.values["y"], e.values["z"]) for e in entries if e.sound]


def _is_heading(row: list[str], unit: str) -> bool:
    """Whether no cell of a first row is a length: then it names the columns."""
    read = length(unit, "any")
    return all(try_reading(read, cell) is None for cell in row)


def _columns(heading: list[str]) -> tuple[int, int, int]:
    words = [cell.strip().lower() for cell in heading]
    lacking = [axis for axis in AXES if axis not in words]
    if lacking:
        raise Wrong(
            "a first row with the headings x, y and z, or a point",
            came=", ".join(cell.strip() for cell in heading),
            rank=UNKNOWN,
        )
    return words.index("x"), words.index("y"), words.index("z")


def _cells(row: list[str], columns: Sequence[int]) -> dict[str, str]:
    """The cells of one row that hold its point; one that is not there is empty."""
    return {a: row[k] if k < len(row) else "" for a, k in zip(AXES, columns, strict=True)}
