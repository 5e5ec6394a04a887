"""Cells of a hang list changed in its file, all else in it byte for byte as it was.

Text keeps its encoding, its marks between cells, its quotes and line ends. Of a workbook (XLSX) only the
XML of the cells is written anew: formats, formulas and what they last gave, pictures, other sheets and
macros are not looked at.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterator
from typing import Any

from aimcalc.named import NamedTuple
from aimcalc.scene.files import column_number
from aimcalc.scene.hanglist.table.linedup import lined_up
from aimcalc.scene.hanglist.table.sheetfile import decoded, file_of_sheet
from aimcalc.scene.hanglist.table.textmarks import parted_by, with_dittos

ENCODINGS = ("utf-8", "utf-16-le", "utf-16-be", "cp1252", "mac_roman")
AGAIN = "save it as XLSX or CSV, name that file in [scene] as hang, and try again"
TEXTS = (".csv", ".tsv", ".txt")
WORKBOOKS = (".xlsx", ".xlsm")


class SaveError(Exception):
    """Something that cannot be saved: one sentence or two, with what to do."""


class Cell(NamedTuple):
    """What is to stand in a cell: text, a number, or nothing (None)."""

    sheet: str  # "" of text
    row: int  # counted from 1
    column: str  # its letters
    value: str | int | float | None


def with_cells(name: str, data: bytes, cells: list[Cell]) -> bytes:
    """A hang list with some of its cells changed.

    Args:
        name: the file's own, which says what sort it is.
        data: its bytes.
        cells: each once.

    Raises:
        SaveError: where the file is of a sort that is not written, or a cell cannot be changed in it.
    """
    lower = name.lower()
    if lower.endswith(TEXTS):
        return _text_with(name, data, cells)
    if lower.endswith(WORKBOOKS):
        return _workbook_with(name, data, cells)
    raise SaveError(f"{name} cannot be changed here: open it in a spreadsheet program, {AGAIN}.")


# --- text ---


def _text_with(name: str, data: bytes, cells: list[Cell]) -> bytes:
    plain, _ = decoded(data)
    if lined_up(plain) is not None:
        raise SaveError(f"{name} parts its columns by spaces and cannot be changed here: {AGAIN}.")
    codec, text = _encoded(name, data, plain)
    marked = len(text) - len(plain)  # a byte-order mark
    mark, begin, framed = parted_by(plain)
    if len(mark) > 1 or framed:
        raise SaveError(f"{name} is no list of plain cells and cannot be changed here: {AGAIN}.")
    if with_dittos(plain, mark) != plain:
        raise SaveError(f"{name} has ditto marks and cannot be changed here: {AGAIN}.")
    rows = list(_fields(plain, mark, begin))
    read = csv.reader(io.StringIO(plain[begin:], newline=""), delimiter=mark)
    if [row or [""] for row in read] != [[_plain(plain[a:b]) for a, b in row] for row in rows]:
        raise SaveError(f"{name} has quotes where none belong and cannot be changed here: {AGAIN}.")
    wanted: dict[int, dict[int, Cell]] = {}
    for cell in cells:
        wanted.setdefault(cell.row - 1, {})[column_number(cell.column.encode()) - 1] = cell
    for number in sorted(wanted, reverse=True):
        row = rows[number]
        fields = [plain[a:b] for a, b in row]
        fields += [""] * (max(wanted[number]) + 1 - len(fields))
        for k, cell in wanted[number].items():
            fields[k] = _field(cell.value, mark, fields[k])
        text = text[: row[0][0] + marked] + mark.join(fields) + text[row[-1][1] + marked :]
    try:
        return text.encode(codec)
    except UnicodeEncodeError as error:
        letter = text[error.start]
        raise SaveError(
            f'{name} is no UTF-8 and has no "{letter}": save it as UTF-8, or write without that letter.'
        ) from None


def _encoded(name: str, data: bytes, plain: str) -> tuple[str, str]:
    """How text is encoded, and all of it, a byte-order mark included."""
    for codec in ENCODINGS:
        try:
            text = data.decode(codec)
        except UnicodeDecodeError:
            continue
        if text.lstrip("\ufeff") == plain:
            return codec, text
    raise SaveError(
        f"{name} has bytes that are no letters: save it as text in UTF-8, and try again."
    )


def _fields(text: str, mark: str, begin: int) -> Iterator[list[tuple[int, int]]]:
    """Where the cells of each row of text begin and end, quotes included, as the csv module parts them."""
    pattern = re.compile(rf'("(?:[^"]|"")*"?)?[^{re.escape(mark)}\r\n]*')
    at, row = begin, []
    while at < len(text):
        found = pattern.match(text, at)
        assert found is not None  # it may be empty
        row.append(found.span())
        at = found.end()
        if at < len(text) and text[at] == mark:
            at += 1
            if at == len(text):
                row.append((at, at))
            continue
        yield row
        row = []
        at += 2 if text.startswith("\r\n", at) else 1
    if row:
        yield row


def _plain(field: str) -> str:
    if not field.startswith('"'):
        return field
    end = re.match(r'"((?:[^"]|"")*)"?', field)
    assert end is not None
    return end[1].replace('""', '"') + field[end.end() :]


def _field(value: str | float | None, mark: str, was: str) -> str:
    text = "" if value is None else str(value)
    if was.startswith('"') or re.search(rf'["\r\n{re.escape(mark)}]|^\s|\s$', text):
        return '"' + text.replace('"', '""') + '"'
    return text


# --- workbooks ---

_ROW = rb"<(\w+:)?row\b([^<>]*[^<>/])>"
_CELL = rb"(?s)<(\w+:)?c\b([^<>]*?)(?:/>|>((?:(?!<(?:\w+:)?c\b).)*?)</(?:\w+:)?c>)"
_PLACE = rb"\br\s*=\s*[\"']([A-Z]*)(\d+)[\"']"
_SORT = rb"\s+t\s*=\s*[\"'][^\"']*[\"']"
_AS_NUMBER = rb"\s+t\s*=\s*[\"']n[\"']"
_FORMULA = rb"<(?:\w+:)?f\b"
_WORKED_OUT = rb"(<(?:\w+:)?calcPr\b)(?![^<>]*fullCalcOnLoad)"
SIGNED = "_xmlsignatures"
BOOK = "xl/workbook.xml"


def _workbook_with(name: str, data: bytes, cells: list[Cell]) -> bytes:
    import zipfile

    members = {cell.sheet: file_of_sheet(data, cell.sheet) for cell in cells}
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as book, zipfile.ZipFile(out, "w") as copy:
        if any(info.filename.startswith(SIGNED) for info in book.infolist()):
            raise SaveError(
                f"{name} is signed, and a change would break that: sign a copy instead."
            )
        files = {file: book.read(file) for file in {BOOK, *members.values()}}
        sheets = [i.filename for i in book.infolist() if i.filename.startswith("xl/worksheets/")]
        if any(re.search(_FORMULA, book.read(sheet)) for sheet in sheets):
            files[BOOK] = re.sub(_WORKED_OUT, rb'\1 fullCalcOnLoad="1"', files[BOOK], count=1)
        for cell in cells:
            member = members[cell.sheet]
            files[member] = _sheet_with(name, files[member], cell)
        for info in book.infolist():
            copy.writestr(info, files.get(info.filename) or book.read(info), info.compress_type)
    return out.getvalue()


def _sheet_with(name: str, xml: bytes, cell: Cell) -> bytes:
    """The XML of a sheet with one cell changed; a cell that was not there is put among its neighbours."""
    for row in re.finditer(_ROW, xml):
        place = re.search(_PLACE, row[2])
        if place is None:
            break
        if int(place[2]) == cell.row:
            end = re.search(rb"</(?:\w+:)?row>", xml[row.end() :])
            assert end is not None
            stop = row.end() + end.start()
            inside = _row_with(name, xml[row.end() : stop], row[1] or b"", cell)
            return xml[: row.end()] + inside + xml[stop:]
    raise SaveError(f"{name} does not number its rows: save it once in a spreadsheet program.")


def _row_with(name: str, row: bytes, prefix: bytes, cell: Cell) -> bytes:
    mine = column_number(cell.column.encode())
    at = len(row)
    for found in re.finditer(_CELL, row):
        place = re.search(_PLACE, found[2])
        if place is None or not place[1]:
            raise SaveError(
                f"{name} does not number its cells: save it once in a spreadsheet program."
            )
        column = column_number(place[1])
        if column == mine:
            if re.search(_FORMULA, found[3] or b""):
                raise SaveError(
                    f"{cell.column}{cell.row} of {name} is a formula: change what it reads from, in the list."
                )
            kept = re.sub(_SORT, b"", found[2])
            return row[: found.start()] + _cell_xml(prefix, kept, cell, found) + row[found.end() :]
        if column > mine:
            at = found.start()
            break
    place_words = f' r="{cell.column}{cell.row}"'.encode()
    return row[:at] + _cell_xml(prefix, place_words, cell, None) + row[at:]


def _cell_xml(prefix: bytes, attributes: bytes, cell: Cell, was: re.Match[bytes] | None) -> bytes:
    from xml.sax.saxutils import escape

    p, words = prefix.decode(), attributes.decode()
    value: Any = cell.value
    if value is None:
        return f"<{p}c{words}/>".encode()
    if (
        isinstance(value, str)
        and was is not None
        and _is_number(was)
        and re.fullmatch(r"\d+", value)
    ):
        value = int(value)
    if not isinstance(value, str):
        return f"<{p}c{words}><{p}v>{value!r}</{p}v></{p}c>".encode()
    text = f'<{p}is><{p}t xml:space="preserve">{escape(value)}</{p}t></{p}is>'
    return f'<{p}c{words} t="inlineStr">{text}</{p}c>'.encode()


def _is_number(was: re.Match[bytes]) -> bool:
    return was[3] is not None and not re.search(_SORT, re.sub(_AS_NUMBER, b"", was[2]))
