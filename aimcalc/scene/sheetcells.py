"""What a workbook shows a person and its reader does not tell: cells in error, hidden rows, formulas
that nobody has worked out, merged cells.

The reader gives a cell in error as an empty one, and a hidden row as any other. All of it is looked up in the
XML of the sheet, whose size has been measured before (`aimcalc.scene.files`).
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from aimcalc.named import NamedTuple
from aimcalc.scene.files import ODS_TAG, SHEETS, column_number, repeated

# What a spreadsheet shows in a cell whose formula has failed.
ERROR = re.compile(
    r"#(N/A|REF!|DIV/0!|VALUE!|NAME\?|NULL!|NUM!|SPILL!|CALC!|GETTING_DATA|FIELD!|BUSY!|CONNECT!|BLOCKED!)"
    r"|#ERROR!|Err:\d+",
    re.IGNORECASE,
)
MOST_MERGED = 5000  # ranges
MOST_ERRORS = 100_000  # cells of one run that are told; past that something else is wrong

# No search goes on past the next tag of its own sort: what is not closed is not looked for to the end.
_ROW = rb"<(?:\w+:)?row\b([^<>]*)>"
_CELL = rb"(?s)<(?:\w+:)?c\b([^<>]*?)(?:/>|>((?:(?!<(?:\w+:)?c\b).)*?)</(?:\w+:)?c>)"
_PLACE = rb"\br\s*=\s*[\"']([A-Z]*)(\d+)[\"']"
_VALUE = rb"(?s)<(?:\w+:)?v\b[^>]*>(.*?)<"
_IN_ERROR = rb"\bt\s*=\s*[\"']e[\"']"
_FORMULA = rb"<(?:\w+:)?f\b"
_AS_TEXT = rb"\bt\s*=\s*[\"']str[\"']"
_HIDDEN = rb"\bhidden\s*=\s*[\"'](?:1|true)[\"']"
_COLLAPSED = rb"table:visibility\s*=\s*[\"'](?:collapse|filter)[\"']"
_PARAGRAPH = rb"(?s)<text:p\b[^>]*>(.*?)</text:p>"


class Unseen(NamedTuple):
    """What a spreadsheet's reader gives as empty or as any other; rows and columns count from 0.

    `errors` are the words that cells in error show, by row and column; `unworked` are formulas without
    a value; `merged` are ranges: first row, first column, last row, last column.
    """

    errors: dict[tuple[int, int], str] = {}  # noqa: RUF012 - never changed
    hidden: frozenset[int] = frozenset()
    unworked: frozenset[tuple[int, int]] = frozenset()
    merged: tuple[tuple[int, int, int, int], ...] = ()


def sheet_parts(files: dict[str, bytes], names: Sequence[str]) -> dict[str, bytes]:
    """The XML of each of a workbook's sheets that are named, from that of its files."""
    if "content.xml" in files:
        tables = re.split(rb"(?=<table:table[ >])", files["content.xml"])[1:]
        return dict(zip(names, tables, strict=False))
    book, rels = files.get("xl/workbook.xml", b""), files.get("xl/_rels/workbook.xml.rels", b"")
    targets = {}
    for entry in re.findall(rb"<(?:\w+:)?Relationship\b([^<>]*)>", rels):
        key = re.search(rb"\bId\s*=\s*[\"']([^\"']+)[\"']", entry)
        target = re.search(rb"\bTarget\s*=\s*[\"']([^\"']+)[\"']", entry)
        if key and target:
            file = target[1].decode("utf-8", "replace").removeprefix("/").removeprefix("xl/")
            targets[key[1]] = f"xl/{file}"
    ids = re.findall(rb"<(?:\w+:)?sheet\b[^<>]*\bid\s*=\s*[\"']([^\"']+)[\"']", book)
    parts = [files.get(targets.get(key, ""), b"") for key in ids]
    if not any(parts):
        parts = [files[name] for name in sorted(files) if name.startswith(SHEETS)]
    recalculated = (
        b"fullCalcOnLoad" in book
    )  # its zeros may stand for a value that nobody worked out
    return {n: _RECALCULATED + x if recalculated else x for n, x in zip(names, parts, strict=False)}


_RECALCULATED = b"<!--recalculated-->"


def unseen(xml: bytes) -> Unseen:
    """The cells in error, the hidden rows, the formulas without a value and the merged cells of one
    sheet, from its XML as `sheet_parts` gives it."""
    return _ods(xml) if xml.startswith(b"<table:table") else _xlsx(xml)


def _xlsx(xml: bytes) -> Unseen:
    hidden = set()
    for attributes in re.findall(_ROW, xml) if b"hidden" in xml else ():
        place = re.search(_PLACE, attributes)
        if place and re.search(_HIDDEN, attributes):
            hidden.add(int(place[2]) - 1)
    errors, unworked = {}, set()
    zeros = xml.startswith(_RECALCULATED)
    seek = re.search(_IN_ERROR, xml) or re.search(_FORMULA, xml)
    for attributes, inside in re.findall(_CELL, xml) if seek else ():
        place, value = re.search(_PLACE, attributes), re.search(_VALUE, inside)
        if not place or not place[1]:
            continue
        at = int(place[2]) - 1, column_number(place[1]) - 1
        if re.search(_IN_ERROR, attributes):
            errors[at] = _text(value[1]) if value else "#N/A"
        elif re.search(_FORMULA, inside) and not re.search(_AS_TEXT, attributes):
            shown = value[1].strip() if value else b""
            if not shown or (zeros and shown == b"0"):
                unworked.add(at)
    merged = _xlsx_merged(xml) if b"mergeCell" in xml else ()
    return Unseen(errors, frozenset(hidden), frozenset(unworked), merged)


def _xlsx_merged(xml: bytes) -> tuple[tuple[int, int, int, int], ...]:
    ranges = re.findall(rb"mergeCell\b[^<>]*\bref\s*=\s*[\"']([A-Z]+)(\d+):([A-Z]+)(\d+)[\"']", xml)
    return tuple(
        (int(top) - 1, column_number(left) - 1, int(bottom) - 1, column_number(right) - 1)
        for left, top, right, bottom in ranges[:MOST_MERGED]
    )


def _ods(xml: bytes) -> Unseen:
    """Of one table: cells in error by the words that they show, whatever value stands behind them."""
    xml = xml[: xml.find(b"</table:table>")] if b"</table:table>" in xml else xml
    spanned = b"rows-spanned" in xml
    if not spanned and not re.search(rb">\s*(?:#|Err:)", xml) and not re.search(_COLLAPSED, xml):
        return Unseen()
    errors: dict[tuple[int, int], str] = {}
    hidden: set[int] = set()
    merged: list[tuple[int, int, int, int]] = []
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
        if spanned and (down := _spanned(attributes, b"rows")) > 1 and len(merged) < MOST_MERGED:
            merged.append(
                (row, column, row + down - 1, column + _spanned(attributes, b"columns") - 1)
            )
        if not attributes.endswith(b"/"):
            shown = re.search(_PARAGRAPH, xml[found.end() : xml.find(b"</table:", found.end())])
            words = _text(shown[1]) if shown else ""
            if ERROR.fullmatch(words.strip()) and rows * across <= MOST_ERRORS:
                places = (
                    (r, c) for r in range(row, row + rows) for c in range(column, column + across)
                )
                errors |= dict.fromkeys(places, words)
        column += across
    return Unseen(errors, frozenset(hidden), frozenset(), tuple(merged))


def _spanned(attributes: bytes, what: bytes) -> int:
    """How many rows or columns a cell of an ODS reaches over."""
    found = re.search(rb"number-" + what + rb"-spanned\s*=\s*[\"'](\d{1,6})[\"']", attributes)
    return max(1, int(found[1])) if found else 1


def _text(xml: bytes) -> str:
    from html import unescape

    return unescape(re.sub(rb"<[^>]*>", b"", xml).decode("utf-8", "replace")).strip()
