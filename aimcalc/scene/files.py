"""Files named by a scene: kept in its folder, of a bearable size, read whole."""

from __future__ import annotations

import os
import re
import stat
import struct
import zlib
from collections.abc import Iterator

from aimcalc.scene.mistakes import FILE, Wrong

MEGABYTE = 1_000_000
_NO_TEXT = "A workbook, PDF or picture is not text, whatever its name: check which file this is."


def named_file(folder: str, name: str, endings: tuple[str, ...] = ()) -> str:
    """The path of a file that a scene names, inside the scene's folder.

    Raises:
        Wrong: when the path is absolute or leaves the folder (links followed), is no plain file, or
            has none of the `endings`.
    """
    expected = "a file in the scene's folder or below it"
    parts = name.replace("\\", "/").split("/")
    if not parts[0] or ".." in parts or ":" in parts[0]:
        raise Wrong(expected, "Put the file beside the scene and give its name alone.")
    if endings and not name.lower().endswith(endings):
        raise Wrong(f"a file ending in {' or '.join(endings)}")
    root = os.path.realpath(folder)
    path = os.path.realpath(os.path.join(root, *parts))
    if os.path.commonpath([root, path]) != root:
        raise Wrong(expected, "This name is a link that leaves it.")
    _size(path)
    return path


def read_whole(path: str, megabytes: int, do: str = "") -> bytes:
    """The bytes of a plain file.

    Raises:
        Wrong: when it is missing, no plain file, not allowed to be read, or over the limit.
    """
    size = _size(path)
    if size > megabytes * MEGABYTE:
        came = f"a file of {size / MEGABYTE:.1f} MB"
        raise Wrong(f"a file of at most {megabytes} MB", do, came=came, rank=FILE)
    try:
        with open(path, "rb") as file:
            return file.read(megabytes * MEGABYTE + 1)
    except OSError as error:
        raise _unreadable(path, error) from None


def as_text(data: bytes) -> str:
    """The text of UTF-8 bytes, with or without a byte-order mark.

    Raises:
        Wrong: when the bytes are no UTF-8, or hold a NUL: another encoding, or no text at all.
    """
    again = "Save it again as plain text in UTF-8."
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        raise Wrong("text in UTF-8", again, came="UTF-16", rank=FILE)
    if b"\0" in data:
        raise Wrong("text in UTF-8", _NO_TEXT, came="binary data", rank=FILE)
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        came = f"byte {data[error.start]:#04x} in line {line}, which is not UTF-8"
        raise Wrong("text in UTF-8", again, came=came, rank=FILE) from None


MOST_COLUMNS = 16_384  # of a row of CSV: as wide as a spreadsheet is


def csv_rows(text: str, mark: str) -> Iterator[list[str]]:
    """The rows of CSV whose cells `mark` parts.

    Raises:
        Wrong: where it cannot be split into cells, or before a row of more than MOST_COLUMNS is.
    """
    import csv
    import io

    marks = 0

    def lines() -> Iterator[str]:
        nonlocal marks
        for line in io.StringIO(text, newline=""):
            marks += line.count(mark)  # those within quotes too: no row of people's has so many
            if marks >= MOST_COLUMNS:
                came = f"over {marks:,} cells in line {rows.line_num + 1}"
                raise Wrong(f"rows of at most {MOST_COLUMNS:,} cells", came=came, rank=FILE)
            yield line

    rows = csv.reader(lines(), delimiter=mark)
    try:
        for row in rows:
            marks = 0
            yield row
    except csv.Error as error:
        came = f"{error} in line {rows.line_num}"
        raise Wrong("CSV that can be read", came=came, rank=FILE) from None


def _size(path: str) -> int:
    """Bytes of a plain file."""
    try:
        about = os.stat(path)
    except OSError as error:
        raise _unreadable(path, error) from None
    if not stat.S_ISREG(about.st_mode):
        came = "a folder" if stat.S_ISDIR(about.st_mode) else "a device or a pipe"
        raise Wrong("a plain file", came=came, rank=FILE)
    return about.st_size


def _unreadable(path: str, error: OSError) -> Wrong:
    name = os.path.basename(path)
    reason = os.strerror(error.errno) if error.errno else "it cannot be read"
    return Wrong("a file that can be read", came=f'"{name}": {reason.lower()}', rank=FILE)


MOST_UNFOLDED = 150_000_000  # bytes
MOST_CELLS = 1_000_000  # of the rectangle: 20 000 rows of 50 columns

# A tag of an ODS table with its attributes, whose values may hold ">" and never "<".
ODS_TAG = rb"""<table:(table-row|table-cell|covered-table-cell|table)\b((?:[^<>"']|"[^"<]*"|'[^'<]*')*)>"""
SHEETS = "xl/worksheets/"
STYLES = "xl/styles.xml"
NAMING = ("content.xml", "xl/workbook.xml", "xl/_rels/workbook.xml.rels", STYLES)

_STORED, _DEFLATED = 0, 8


def check_workbook(data: bytes) -> dict[str, bytes]:
    """The XML of the sheets and of what names and styles them, by file, of a workbook (XLSX or ODS bytes).

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
                f"a sheet with the hang list alone, of at most {MOST_CELLS:,} cells",
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
    """Name and XML of each sheet (XLSX) and of what names and styles them, or of the content (ODS)."""
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
    for tag, rest in (found.groups() for found in re.finditer(ODS_TAG, xml)):
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
