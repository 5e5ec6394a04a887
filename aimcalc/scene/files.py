"""Files named by a scene: kept in its folder, of a bearable size, read whole."""

from __future__ import annotations

import os
import stat

from aimcalc.scene.mistakes import Wrong

MEGABYTE = 1_000_000


def named_file(folder: str, name: str, endings: tuple[str, ...] = ()) -> str:
    """The path of a file that a scene names, inside the scene's folder.

    Raises:
        Wrong: when the path is absolute, leaves the folder (links followed), or is no file, or has
            none of the `endings`.
    """
    expected = "a file in the scene's folder or below it"
    parts = name.replace("\\", "/").split("/")
    if os.path.isabs(name) or parts[0] == "" or ".." in parts or ":" in parts[0]:
        raise Wrong(expected, "Put the file beside the scene and give its name alone.")
    if endings and not name.lower().endswith(endings):
        raise Wrong(f"a file ending in {', '.join(endings)}")
    root = os.path.realpath(folder)
    path = os.path.realpath(os.path.join(folder, *parts))
    if os.path.commonpath([root, path]) != root:
        raise Wrong(expected, "This name is a link to a place outside it.")
    try:
        mode = os.stat(path).st_mode
    except OSError as error:
        raise Wrong("a file that can be read", f"{os.strerror(error.errno or 0)}.") from None
    if not stat.S_ISREG(mode):
        raise Wrong("a file", "This is a folder or a device.")
    return path


def read_whole(path: str, megabytes: int) -> bytes:
    """The bytes of a plain file.

    Raises:
        Wrong: when it is missing, no plain file, not allowed to be read, or over the limit.
    """
    try:
        about = os.stat(path)
        if not stat.S_ISREG(about.st_mode):
            raise Wrong("a plain file")
        if about.st_size > megabytes * MEGABYTE:
            size = about.st_size / MEGABYTE
            raise Wrong(f"a file of at most {megabytes} MB", f"This one has {size:.1f} MB.")
        with open(path, "rb") as file:
            return file.read()
    except OSError as error:
        raise Wrong("a file that can be read", f"{os.strerror(error.errno or 0)}.") from None


def as_text(data: bytes) -> str:
    """The text of UTF-8 bytes, with or without a byte-order mark.

    Raises:
        Wrong: when the bytes are no UTF-8, or hold a NUL: another encoding or no text at all.
    """
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        raise Wrong("text in UTF-8; this is UTF-16", "Save it again as UTF-8.")
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise Wrong(
            f"text in UTF-8; byte {data[error.start]:#04x} in line {line} is not",
            "Save it again as UTF-8.",
        ) from None
    if "\0" in text:
        raise Wrong("a text file; this one holds binary data")
    return text
