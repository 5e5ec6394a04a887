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

_STORED, _DEFLATED = 0, 8


def check_workbook(data: bytes) -> None:
    """Nothing, when the workbook (XLSX or ODS bytes) unfolds to a bearable size.

    Raises:
        Wrong: when it is no workbook, or too large once unfolded.
    """
    try:
        sheets = list(_sheets(data))
    except (struct.error, zlib.error, IndexError, ValueError) as error:
        if isinstance(error, Wrong):
            raise
        came = "one that is damaged, or another sort of file"
        raise Wrong("a workbook (.xlsx or .ods)", came=came, rank=FILE) from None
    for name, xml in sheets:
        rows, columns = _ods_extent(xml) if name == "content.xml" else _xlsx_extent(xml)
        if rows * columns > MOST_CELLS:
            raise Wrong(
                "a sheet with the hang list alone",
                "Delete the rows and columns around it: a stray cell far off counts too.",
                came=f"filled cells spread over {rows} rows and {columns} columns",
                rank=FILE,
            )


def _sheets(data: bytes) -> Iterator[tuple[str, bytes]]:
    """Name and XML of each sheet (XLSX), or of the content (ODS)."""
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
        if name == "content.xml" or name.startswith("xl/worksheets/"):
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
    last_column = max(map(_column, columns), default=0)
    if unnamed:
        last_row = max(last_row, xml.count(b"row"))
        last_column = max(last_column, unnamed)
    return last_row, last_column


def _column(letters: bytes) -> int:
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
    for tag, rest in re.findall(
        rb"<table:(table-row|table-cell|covered-table-cell|table)\b([^>]*)>", xml
    ):
        if tag == b"table":
            row, repeat = 0, 0
        elif tag == b"table-row":
            row, repeat, column = row + repeat, _repeated(rest, b"rows"), 0
        else:
            column += _repeated(rest, b"columns")
            if not rest.endswith(b"/") or b"value" in rest:
                reach = max(reach[0], row + repeat), max(reach[1], column)
    return reach


def _repeated(attributes: bytes, what: bytes) -> int:
    _, found, rest = attributes.partition(b"number-" + what + b'-repeated="')
    return int(rest.partition(b'"')[0]) if found else 1
