"""How large a workbook unfolds, found before it is opened.

A spreadsheet reader makes room for the whole rectangle that holds the filled cells. One stray cell in the
last row and column of a sheet of a few kilobytes asks for half a terabyte, and ends the process. So the
rectangle is measured first, from the sheets' XML; nothing else of them is read here.

The few fields of a ZIP archive that this needs are read directly: loading `zipfile` would cost every run
with a hang list more than reading the list does.
"""

from __future__ import annotations

import re
import struct
import zlib
from collections.abc import Iterator

from aimcalc.scene.mistakes import FILE, Wrong

MOST_UNFOLDED = 150_000_000  # bytes
MOST_CELLS = 8_000_000  # of the rectangle: 200 000 rows of 40 columns

# A tag of an ODS table with its attributes, whose values may hold ">".
ODS_TAG = (
    rb"""<table:(table-row|table-cell|covered-table-cell|table)\b((?:[^>"']|"[^"]*"|'[^']*')*)>"""
)
SHEETS = "xl/worksheets/"
NAMING = ("content.xml", "xl/workbook.xml", "xl/_rels/workbook.xml.rels")

_STORED, _DEFLATED = 0, 8


def check_workbook(data: bytes) -> dict[str, bytes]:
    """The XML of the sheets and of what names them, by file, of a workbook (XLSX or ODS bytes).

    Raises:
        Wrong: when it is no workbook, or does not unfold to a bearable size.
    """
    try:
        files = dict(_files(data))
        extents = [_extent(name, xml) for name, xml in files.items()]
    except (struct.error, zlib.error, IndexError, ValueError) as error:
        if isinstance(error, Wrong):
            raise
        came = "one that is damaged, or another sort of file"
        raise Wrong("a workbook (.xlsx or .ods)", came=came, rank=FILE) from None
    for rows, columns in extents:
        if rows * columns > MOST_CELLS:
            raise Wrong(
                "a sheet with the hang list alone",
                "Delete the rows and columns around it: a stray cell far off counts too.",
                came=f"filled cells spread over {rows} rows and {columns} columns",
                rank=FILE,
            )
    return files


def _extent(name: str, xml: bytes) -> tuple[int, int]:
    if name == "content.xml":
        return _ods_extent(xml)
    return _xlsx_extent(xml) if name.startswith(SHEETS) else (0, 0)


def _files(data: bytes) -> Iterator[tuple[str, bytes]]:
    """Name and XML of each sheet (XLSX) and of the two files that name them, or of the content (ODS)."""
    end = data.rindex(b"PK\5\6")
    count, _, at = struct.unpack_from("<HII", data, end + 10)
    unfolded = 0
    for _ in range(count):
        method, size, full, lengths, start = _entry(data, at)
        name = data[at + 46 : at + 46 + lengths[0]].decode("utf-8", "replace")
        at += 46 + sum(lengths)
        unfolded += full
        if unfolded > MOST_UNFOLDED:
            most = f"a workbook that unfolds to at most {MOST_UNFOLDED // 1_000_000} MB"
            raise Wrong(most, came="a larger one", rank=FILE)
        if name in NAMING or name.startswith(SHEETS):
            yield name, _content(data, method, size, full, start)


def _entry(data: bytes, at: int) -> tuple[int, int, int, tuple[int, int, int], int]:
    """Method, size, full size, lengths of name, extra and comment, and start of one member."""
    if data[at : at + 4] != b"PK\1\2":
        raise IndexError("no member here")
    (method,) = struct.unpack_from("<H", data, at + 10)
    size, full = struct.unpack_from("<II", data, at + 20)
    lengths = struct.unpack_from("<HHH", data, at + 28)
    (start,) = struct.unpack_from("<I", data, at + 42)
    return method, size, full, lengths, start


def _content(data: bytes, method: int, size: int, full: int, start: int) -> bytes:
    name_length, extra_length = struct.unpack_from("<HH", data, start + 26)
    start += 30 + name_length + extra_length
    packed = data[start : start + size]
    if method == _STORED:
        return packed
    if method != _DEFLATED:
        raise IndexError("packed in a way that workbooks are not")
    return zlib.decompressobj(-15).decompress(packed, full + 1)


def _xlsx_extent(xml: bytes) -> tuple[int, int]:
    """Rows and columns that the cells of a sheet reach, never too few."""
    cells = sum(map(xml.count, (b"<c ", b":c ", b"<c>", b":c>")))
    if cells > MOST_CELLS:
        return cells, 1
    columns = set(re.findall(rb"[<:]c r=\"([A-Z]+)", xml))
    rows = set(re.findall(rb"[<:]c r=\"[A-Z]+([0-9]+)", xml))
    unnamed = cells - xml.count(b'<c r="') - xml.count(b':c r="')
    last_row = max(map(int, rows), default=0)
    last_column = max(map(column_number, columns), default=0)
    if unnamed:
        last_row = max(last_row, xml.count(b"row"))
        last_column = max(last_column, unnamed)
    return last_row, last_column


def column_number(letters: bytes) -> int:
    """A column counted from 1: A is 1, AA is 27."""
    number = 0
    for letter in letters:
        number = number * 26 + letter - 64
    return number


def _ods_extent(xml: bytes) -> tuple[int, int]:
    """Rows and columns that the filled cells of the largest table reach."""
    cells = xml.count(b"table-cell")
    if cells > MOST_CELLS:
        return cells, 1
    reach, row, repeat, column = (0, 0), 0, 1, 0
    for tag, rest in re.findall(ODS_TAG, xml):
        if tag == b"table":
            row, repeat = 0, 0
        elif tag == b"table-row":
            row, repeat, column = row + repeat, repeated(rest, b"rows"), 0
        else:
            column += repeated(rest, b"columns")
            if not rest.endswith(b"/") or b"value" in rest:
                reach = max(reach[0], row + repeat), max(reach[1], column)
    return reach


def repeated(attributes: bytes, what: bytes) -> int:
    """How many times a row or a cell stands there. Raises ValueError where it is no count."""
    found = re.search(rb"number-" + what + rb"-repeated\s*=\s*(\"[^\"]*\"|'[^']*')", attributes)
    if not found:
        return 1
    count = int(found[1][1:-1])
    if count < 0:
        raise ValueError(count)
    return count
