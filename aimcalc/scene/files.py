"""Files named by a scene: kept in its folder, of a bearable size, read whole."""

from __future__ import annotations

import os
import stat
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


def csv_rows(text: str, mark: str) -> Iterator[list[str]]:
    """The rows of CSV whose cells `mark` parts.

    Raises:
        Wrong: where it cannot be split into cells.
    """
    import csv
    import io

    rows = csv.reader(io.StringIO(text, newline=""), delimiter=mark)
    try:
        yield from rows
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
