"""A list of points in a CSV file: one a row, x, y and z, as lengths are written in a scene."""

from __future__ import annotations

import csv
import io
import os
from collections.abc import Sequence

from aimcalc.scene.files import as_text, read_whole
from aimcalc.scene.hanglist import column_letters
from aimcalc.scene.lengths import parse_length
from aimcalc.scene.mistakes import FILE, MISSING, UNKNOWN, Log, SceneError, Where, Wrong
from aimcalc.scene.model import Point

MEGABYTES = 5
MOST_POINTS = 20_000
AXES = ("x", "y", "z")
MARKS = ",;\t"


def read_points(path: str, unit: str) -> list[Point]:
    """The points of a CSV file in metres; bare numbers are in `unit`.

    The first row may name the columns, in any order and with others among them; without names, x, y and z
    are the first three. Empty rows are passed over.

    Raises:
        SceneError: with every mistake of the file, its row and its column.
    """
    name, log = os.path.basename(path), Log()
    try:
        points = _points(_rows(as_text(read_whole(path, MEGABYTES))), name, unit, log)
    except Wrong as wrong:
        log.add(Where(name, ""), "", wrong, name)
        points = []
    if log.mistakes:
        raise SceneError(name, log.mistakes)
    return points


def _rows(text: str) -> list[tuple[int, list[str]]]:
    """Every row that holds something, with its number, split at whichever mark gives the most cells."""
    first = next((line for line in text.splitlines() if line.strip()), "")
    mark = max(MARKS, key=first.count)
    rows = csv.reader(io.StringIO(text, newline=""), delimiter=mark)
    try:
        found = [(rows.line_num, row) for row in rows if any(cell.strip() for cell in row)]
    except csv.Error as error:
        came = f"{error} in line {rows.line_num}"
        raise Wrong("CSV that can be read", came=came, rank=FILE) from None
    if len(found) > MOST_POINTS:
        raise Wrong(f"at most {MOST_POINTS} points", came=f"{len(found)} rows", rank=FILE)
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
    found = [
        _point(row, columns, unit, Where(name, "", f"row {n}", letters), log) for n, row in rows
    ]
    return [point for point in found if point is not None]


def _is_heading(row: list[str], unit: str) -> bool:
    """Whether no cell of a first row is a length: then it names the columns."""
    return not any(_is_length(cell, unit) for cell in row)


def _is_length(cell: str, unit: str) -> bool:
    try:
        parse_length(cell, unit, "any")
    except Wrong:
        return False
    return True


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


def _point(
    row: list[str], columns: tuple[int, int, int], unit: str, where: Where, log: Log
) -> Point | None:
    """The point of one row; None, and its mistakes noted, where a cell is no length."""
    found: list[float] = []
    for axis, column in zip(AXES, columns, strict=True):
        cell = row[column] if column < len(row) else ""
        try:
            found.append(parse_length(cell, unit, axis if axis in "xy" else ""))
        except Wrong as wrong:
            log.add(where, axis, wrong, cell)
    return (found[0], found[1], found[2]) if len(found) == len(AXES) else None
