"""The file of a hang list as sheets of cells: text in any usual encoding and with any usual mark
between cells, XLSX, XLS and ODS with every sheet, and what a workbook's reader does not show."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from itertools import chain, islice
from typing import TYPE_CHECKING, Any

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.files import as_text, check_workbook, read_whole
from aimcalc.scene.hanglist.table.linedup import lined_up
from aimcalc.scene.hanglist.table.sheetcells import (
    Unseen,
    date_ways,
    sheet_files,
    sheet_parts,
    strikes,
    unseen,
)
from aimcalc.scene.hanglist.table.textmarks import (
    FEWEST_ALIKE,
    LOOKED_AT,
    text_rows,
    without_leaders,
)
from aimcalc.scene.mistakes import FILE, Wrong

if TYPE_CHECKING:
    from aimcalc.scene.hanglist.table.turned import Turned
    from aimcalc.scene.hanglist.table.turnedblocks import Fits

HANG_MEGABYTES = 20
MOST_SHEETS = 50
MOST_OLD_CELLS = 2_000_000  # of an XLS, whose rectangle nothing measures beforehand
WORKBOOKS = (".xlsx", ".xlsm", ".ods")
OLD_WORKBOOKS = (".xls",)
TEXTS = (".csv", ".tsv", ".txt")
ENDINGS = ".csv, .tsv, .txt, .xlsx, .xls or .ods"


class Sheet(NamedTuple):
    """One sheet: its cells row by row, and what its reader gives as empty or as any other."""

    name: str  # "" for text
    rows: Iterable[list[Any]]
    behind: Unseen = Unseen()
    hidden: bool = False
    turned: Turned | None = None  # where its cells stood, of a table turned on its side

    def upright(self, fits: Callable[[], Fits]) -> Sheet:
        """The sheet with its blocks that are turned on their side as rows."""
        from aimcalc.scene.hanglist.table.turned import MOST_ROWS, turned

        rows = iter(self.rows)
        looked = list(islice(rows, MOST_ROWS + 1))
        found = turned(looked, self.behind, fits)
        if found is not None:
            return self._replace(rows=found[0], behind=found[1], turned=found[2])
        return self if isinstance(self.rows, list) else self._replace(rows=chain(looked, rows))


class ListFile(NamedTuple):
    """The sheets of a hang list, and what was taken for granted in reading its bytes."""

    sheets: list[Sheet]
    by_spaces: bool = False  # text whose columns are lined up with spaces
    encoding: str = ""  # where it is not UTF-8, told with a sample of what it gave
    text: str = ""  # of a text file

    def afresh(self) -> ListFile:
        """The same, to be read from its first row again."""
        if not self.text or self.by_spaces or self.sheets[0].turned:
            return self
        return self._replace(sheets=[Sheet("", text_rows(self.text))])


def read_sheets(path: str, name: str) -> ListFile:
    """The sheets of a hang list.

    Raises:
        Wrong: when the file cannot be read, is too large, or is none of `ENDINGS`.
    """
    lower = name.lower()
    if lower.endswith(WORKBOOKS):
        return ListFile(_workbook(read_whole(path, HANG_MEGABYTES)))
    if lower.endswith(OLD_WORKBOOKS):
        return ListFile(_old_workbook(read_whole(path, HANG_MEGABYTES)))
    if lower.endswith(TEXTS):
        text, encoding = decoded(read_whole(path, HANG_MEGABYTES))
        text = without_leaders(without_senders(text.replace("\ufeff", "")))
        by_spaces = lined_up(text)
        if by_spaces is not None:
            return ListFile([Sheet("", by_spaces)], True, encoding, text)
        return ListFile([Sheet("", text_rows(text))], False, encoding, text)
    raise Wrong(f"a hang list ending in {ENDINGS}", rank=FILE)


# --- Text -----------------------------------------------------------------------------------------

# What people write who do not write in ASCII alone; whatever else an encoding gives speaks against it.
_LIKELY = set("äöüÄÖÜßéèêëÉÈàâáãåÀÅÁçÇñÑíìîïóòôõúùûøØæÆœ°º½¼¾²³–—’‘“”′″×±…·•€£§©®™«»´")
_ENCODINGS = {"cp1252": "Windows-1252 (Latin-1)", "mac_roman": "Mac Roman"}


def decoded(data: bytes) -> tuple[str, str]:
    """The text of bytes, and how it was encoded: "" for UTF-8, with or without a byte-order mark.

    Bytes that are no UTF-8 are UTF-16 where a mark or their zeros say so, else whichever of Windows-1252 and
    Mac Roman gives more letters and signs that people write. (Detectors that go by language take the
    halves and foot marks of a short list for letters.)

    Raises:
        Wrong: when they are no text.
    """
    wide = _utf_16(data)
    if wide:
        try:
            text = data.decode(wide).lstrip("\ufeff")
        except UnicodeDecodeError:
            return as_text(data), ""
        if "\0" not in text:
            return text, "UTF-16"
    try:
        return as_text(data), ""
    except Wrong:
        if b"\0" in data or data[:2] in (b"\xff\xfe", b"\xfe\xff"):
            raise
    readings = {how: data.decode(how, "replace") for how in _ENCODINGS}
    best = min(readings, key=lambda how: _unlikely(readings[how]))
    text = readings[best]
    if sum(not (c.isprintable() or c.isspace()) for c in text) > len(text) // 100:
        return as_text(data), ""  # refused: whatever it is, it is no text
    return text, f"{_ENCODINGS[best]}, which gives {_sample(text)}"


def without_senders(text: str) -> str:
    """The text of a chat without the day, hour and name before each message, and that of a mail that is
    quoted for its most part without the marks of that; any other text as it is."""
    lines = text.splitlines(keepends=True)
    sent = [_SENDER.match(line) for line in lines]
    if sum(map(bool, sent)) < FEWEST_ALIKE:
        sent = [re.match(r"[ \t]*>[ \t]?", line) for line in lines]
    if 2 * sum(map(bool, sent)) < sum(not line.isspace() for line in lines):
        return text
    return "".join(line[m.end() :] if m else line for line, m in zip(lines, sent, strict=True))


# Who wrote a line of a chat, and when.
_SENDER = regex(
    r"\[?(?:\d{1,4}[./-]\d{1,2}[./-]\d{1,4},?\s+)?\d{1,2}[:.]\d\d(?:[:.]\d\d)?(?:\s*[ap]m)?\]?\s*[-–]?\s+"
    r"[^\W\d][^:,\d]{0,30}:\s+",
    re.IGNORECASE,
)


def _utf_16(data: bytes) -> str:
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        return "utf-16"
    head = data[:2000]
    even, odd = head[::2], head[1::2]
    if len(head) < 4 or len(data) % 2:
        return ""
    if odd.count(0) > 0.9 * len(odd) and not even.count(0):
        return "utf-16-le"
    return "utf-16-be" if even.count(0) > 0.9 * len(even) and not odd.count(0) else ""


def _unlikely(text: str) -> int:
    return sum(ord(c) > 127 and c not in _LIKELY for c in text)


def _sample(text: str) -> str:
    """The first words that are not ASCII alone, for somebody to see that they are right."""
    words = dict.fromkeys(re.findall(r"[^\s,;\t|]*[^\x00-\x7f][^\s,;\t|]*", text[:LOOKED_AT]))
    return ", ".join(f'"{word[:30]}"' for word in list(words)[:3])


# --- Workbooks ------------------------------------------------------------------------------------


def _workbook(data: bytes) -> list[Sheet]:
    files = check_workbook(data)
    book = _open(data)
    names = book.sheet_names
    parts, lined = sheet_parts(files, names[:MOST_SHEETS]), strikes(files)
    ways = date_ways(files)
    found = []
    for name, meta in zip(names[:MOST_SHEETS], book.sheets_metadata, strict=False):
        sheet = _sheet(book, name)
        if sheet is not None:
            rows = sheet.to_python(skip_empty_area=False)
            found.append(
                Sheet(name, rows, unseen(parts.get(name, b""), lined, ways), _hidden(meta))
            )
    if not found:
        raise Wrong("a workbook with a sheet of cells", came="none", rank=FILE)
    return found


def file_of_sheet(data: bytes, name: str) -> str:
    """The file of an XLSX workbook that holds a sheet; "" for none. Raises Wrong as `read_sheets` does."""
    files = check_workbook(data)
    return sheet_files(files, _open(data).sheet_names).get(name, "")


def _old_workbook(data: bytes) -> list[Sheet]:
    book = _open(data)
    found = []
    for name, meta in zip(book.sheet_names[:MOST_SHEETS], book.sheets_metadata, strict=False):
        sheet = _sheet(book, name)
        if sheet is None:
            continue
        if sheet.total_height * sheet.total_width > MOST_OLD_CELLS:
            came = f"filled cells spread over {sheet.total_height} rows and {sheet.total_width} columns"
            raise Wrong("a sheet with the hang list alone", came=came, rank=FILE)
        merged = tuple((*a, *b) for a, b in sheet.merged_cell_ranges or ())
        rows = sheet.to_python(skip_empty_area=False)
        found.append(Sheet(name, rows, Unseen(merged=merged), _hidden(meta)))
    if not found:
        raise Wrong("a workbook with a sheet of cells", came="none", rank=FILE)
    return found


def _open(data: bytes) -> Any:
    import io

    import python_calamine

    return _unbroken(lambda: python_calamine.CalamineWorkbook.from_filelike(io.BytesIO(data)))


def _sheet(book: Any, name: str) -> Any:
    """A sheet by name; None for a chart or a dialog."""
    meta = next(m for m in book.sheets_metadata if m.name == name)
    if "Work" not in str(meta.typ):
        return None
    return _unbroken(lambda: book.get_sheet_by_name(name))


def _unbroken(work: Any) -> Any:
    """What the spreadsheet reader gives; whatever it raises is a workbook that cannot be read."""
    try:
        return work()
    except (KeyboardInterrupt, SystemExit, MemoryError):
        raise
    except BaseException as error:  # its panics are no Exception
        reason = str(error).splitlines()[0] if str(error) else "it is damaged"
        raise Wrong("a workbook that can be read", came=reason[:200], rank=FILE) from None


def _hidden(meta: Any) -> bool:
    return not str(meta.visible).endswith(".Visible")
