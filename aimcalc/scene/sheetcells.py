"""What a workbook shows a person and its reader does not tell: cells in error, and hidden rows.

The reader gives a cell in error as an empty one, and a hidden row as any other. Both are looked up in the
XML of the sheet, whose size has been measured before (`aimcalc.scene.files`).
"""

from __future__ import annotations

import re
from typing import NamedTuple

from aimcalc.scene.files import ODS_TAG, SHEETS, column_number, repeated

# What a spreadsheet shows in a cell whose formula has failed.
ERROR = re.compile(
    r"#(N/A|REF!|DIV/0!|VALUE!|NAME\?|NULL!|NUM!|SPILL!|CALC!|GETTING_DATA|FIELD!|BUSY!|CONNECT!|BLOCKED!)"
    r"|#ERROR!|Err:\d+",
    re.IGNORECASE,
)
MOST_ERRORS = 100_000  # cells of one run that are told; past that something else is wrong

# No search goes on past the next tag of its own sort: what is not closed is not looked for to the end.
_ROW = rb"<(?:\w+:)?row\b([^<>]*)>"
_CELL = rb"(?s)<(?:\w+:)?c\b([^<>]*?)(?:/>|>((?:(?!<(?:\w+:)?c\b).)*?)</(?:\w+:)?c>)"
_PLACE = rb"\br\s*=\s*[\"']([A-Z]*)(\d+)[\"']"
_VALUE = rb"(?s)<(?:\w+:)?v\b[^>]*>(.*?)<"
_IN_ERROR = rb"\bt\s*=\s*[\"']e[\"']"
_HIDDEN = rb"\bhidden\s*=\s*[\"'](?:1|true)[\"']"
_COLLAPSED = rb"table:visibility\s*=\s*[\"'](?:collapse|filter)[\"']"
_PARAGRAPH = rb"(?s)<text:p\b[^>]*>(.*?)</text:p>"


class Unseen(NamedTuple):
    """What a spreadsheet's reader gives as empty or as any other: cells in error, hidden rows.

    `errors` are the words that the cells show, by row and column; rows and columns count from 0.
    """

    errors: dict[tuple[int, int], str] = {}  # noqa: RUF012 - never changed
    hidden: frozenset[int] = frozenset()


def unseen(files: dict[str, bytes]) -> Unseen:
    """The cells in error and the hidden rows of a workbook's first sheet, from the XML of its files."""
    if "content.xml" in files:
        return _ods(files["content.xml"])
    return _xlsx(files.get(_first_sheet(files), b""))


def _first_sheet(files: dict[str, bytes]) -> str:
    """The file of the first sheet of an XLSX; the only one where the workbook does not say."""
    sheets = sorted(name for name in files if name.startswith(SHEETS))
    book, rels = files.get("xl/workbook.xml", b""), files.get("xl/_rels/workbook.xml.rels", b"")
    first = re.search(rb"<(?:\w+:)?sheet\b[^<>]*\bid\s*=\s*[\"']([^\"']+)[\"']", book)
    for entry in re.findall(rb"<(?:\w+:)?Relationship\b([^<>]*)>", rels) if first else ():
        key = re.search(rb"\bId\s*=\s*[\"']([^\"']+)[\"']", entry)
        target = re.search(rb"\bTarget\s*=\s*[\"']([^\"']+)[\"']", entry)
        if first and key and target and key[1] == first[1]:
            name = target[1].decode("utf-8", "replace").removeprefix("/").removeprefix("xl/")
            return f"xl/{name}"
    return sheets[0] if sheets else ""


def _xlsx(xml: bytes) -> Unseen:
    hidden = set()
    for attributes in re.findall(_ROW, xml) if b"hidden" in xml else ():
        place = re.search(_PLACE, attributes)
        if place and re.search(_HIDDEN, attributes):
            hidden.add(int(place[2]) - 1)
    errors = {}
    for attributes, inside in re.findall(_CELL, xml) if re.search(_IN_ERROR, xml) else ():
        place, value = re.search(_PLACE, attributes), re.search(_VALUE, inside)
        if place and place[1] and re.search(_IN_ERROR, attributes):
            errors[int(place[2]) - 1, column_number(place[1]) - 1] = (
                _text(value[1]) if value else "#N/A"
            )
    return Unseen(errors, frozenset(hidden))


def _ods(xml: bytes) -> Unseen:
    """Of the first table: cells in error by the words that they show, whatever value stands behind them."""
    xml = xml[: xml.find(b"</table:table>")] if b"</table:table>" in xml else xml
    if not re.search(rb">\s*(?:#|Err:)", xml) and not re.search(_COLLAPSED, xml):
        return Unseen()
    errors: dict[tuple[int, int], str] = {}
    hidden: set[int] = set()
    row, rows, column = 0, 0, 0
    for found in re.finditer(ODS_TAG, xml):
        tag, attributes = found[1], found[2]
        if tag == b"table":
            continue
        if tag == b"table-row":
            row, rows, column = row + rows, repeated(attributes, b"rows"), 0
            if re.search(_COLLAPSED, attributes):
                hidden.update(range(row, row + min(rows, MOST_ERRORS)))
            continue
        across = repeated(attributes, b"columns")
        if not attributes.endswith(b"/"):
            shown = re.search(_PARAGRAPH, xml[found.end() : xml.find(b"</table:", found.end())])
            words = _text(shown[1]) if shown else ""
            if ERROR.fullmatch(words.strip()) and rows * across <= MOST_ERRORS:
                places = (
                    (r, c) for r in range(row, row + rows) for c in range(column, column + across)
                )
                errors |= dict.fromkeys(places, words)
        column += across
    return Unseen(errors, frozenset(hidden))


def _text(xml: bytes) -> str:
    from html import unescape

    return unescape(re.sub(rb"<[^>]*>", b"", xml).decode("utf-8", "replace")).strip()
