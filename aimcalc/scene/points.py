"""Points of a CSV file: x, y and z, one point a row."""

from __future__ import annotations

import os
from collections.abc import Sequence
from itertools import islice

from aimcalc.scene.document import open_entry
from aimcalc.scene.files import as_text, csv_rows, read_whole
from aimcalc.scene.hanglist.columns.columnkeys import column_letters
from aimcalc.scene.mistakes import (
    FILE,
    MISSING,
    UNKNOWN,
    Log,
    SceneError,
    TooManyError,
    Where,
    Wrong,
)
from aimcalc.scene.model import Point
from aimcalc.scene.readers import length, try_reading

MOST_HEAD = 100_000  # letters of the first row, where the mark between cells is looked for
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
