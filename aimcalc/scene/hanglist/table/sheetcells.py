"""What a workbook shows a person and its reader does not tell: cells in error, hidden rows, formulas
that nobody has worked out, merged cells, cells with a line through them.

The reader gives a cell in error as an empty one, and a hidden row as any other. All of it is looked up in the
XML of the sheet, whose size has been measured before (`aimcalc.scene.files`).
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.files import ODS_TAG, SHEETS, STYLES, column_number, repeated

# What a spreadsheet shows in a cell whose formula has failed.
ERROR = regex(
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
_XLSX_STYLE = rb"\bs\s*=\s*[\"'](\d+)[\"']"
_ODS_STYLE = rb"table:style-name\s*=\s*[\"']([^\"']+)"
_STRIKE = rb"<(?:\w+:)?strike\b(?![^<>]*\bval\s*=\s*[\"'](?:0|false)[\"'])"
_LINED = rb"text-line-through-(?:style|type)\s*=\s*[\"'](?!none[\"'])"
_PARAGRAPH = rb"(?s)<text:p\b[^>]*>(.*?)</text:p>"


class Unseen(NamedTuple):
    """What a spreadsheet's reader gives as empty or as any other; rows and columns count from 0.

    `errors` are the words that cells in error show, by row and column; `unworked` are formulas without
    a value; `merged` are ranges: first row, first column, last row, last column; `struck` are cells with a
    line through them; `day_first` are dates shown as numbers of the day and the month, and whether the day
    comes first.
    """

    errors: dict[tuple[int, int], str] = {}  # noqa: RUF012 - never changed
    hidden: frozenset[int] = frozenset()
    unworked: frozenset[tuple[int, int]] = frozenset()
    merged: tuple[tuple[int, int, int, int], ...] = ()
    struck: frozenset[tuple[int, int]] = frozenset()
    day_first: dict[tuple[int, int], bool] = {}  # noqa: RUF012 - never changed


def sheet_parts(files: dict[str, bytes], names: Sequence[str]) -> dict[str, bytes]:
    """The XML of each of a workbook's sheets that are named, from that of its files."""
    if "content.xml" in files:
        tables = re.split(rb"(?=<table:table[ >])", files["content.xml"])[1:]
        return dict(zip(names, tables, strict=False))
    # Where it is set, zeros may stand for a value that nobody worked out.
    recalculated = b"fullCalcOnLoad" in files.get("xl/workbook.xml", b"")
    parts = ((name, files.get(file, b"")) for name, file in sheet_files(files, names).items())
    return {name: _RECALCULATED + xml if recalculated else xml for name, xml in parts}


def sheet_files(files: dict[str, bytes], names: Sequence[str]) -> dict[str, str]:
    """The file of each of an XLSX workbook's sheets that are named; one that is nowhere for a chart."""
    book, rels = files.get("xl/workbook.xml", b""), files.get("xl/_rels/workbook.xml.rels", b"")
    targets = {}
    for entry in re.findall(rb"<(?:\w+:)?Relationship\b([^<>]*)>", rels):
        key = re.search(rb"\bId\s*=\s*[\"']([^\"']+)[\"']", entry)
        target = re.search(rb"\bTarget\s*=\s*[\"']([^\"']+)[\"']", entry)
        if key and target:
            file = target[1].decode("utf-8", "replace").removeprefix("/").removeprefix("xl/")
            targets[key[1]] = f"xl/{file}"
    ids = re.findall(rb"<(?:\w+:)?sheet\b[^<>]*\bid\s*=\s*[\"']([^\"']+)[\"']", book)
    found = [targets.get(key, "") for key in ids]
    if not any(file in files for file in found):
        found = [name for name in sorted(files) if name.startswith(SHEETS)]
    return dict(zip(names, found, strict=False))


_RECALCULATED = b"<!--recalculated-->"


def strikes(files: dict[str, bytes]) -> frozenset[bytes]:
    """The styles of a workbook that draw a line through a cell's words: their names (ODS) or their places
    (XLSX), from the XML of its files."""
    if "content.xml" in files:
        head = files["content.xml"].partition(b"<office:body")[0]
        named = re.split(rb"<style:style\b", head)[1:] if b"line-through" in head else ()
        names = (
            re.search(rb"style:name\s*=\s*[\"']([^\"']+)", one)
            for one in named
            if re.search(_LINED, one)
        )
        return frozenset(name[1] for name in names if name)
    styles = files.get(STYLES, b"")
    if b"strike" not in styles:
        return frozenset()
    fonts = re.split(rb"<(?:\w+:)?font(?=[\s/>])", styles.partition(b"fonts>")[0])[1:]
    lined = {b"%d" % k for k, font in enumerate(fonts) if re.search(_STRIKE, font)}
    cells = styles.partition(b"cellXfs")[2].partition(b"cellXfs")[0]
    used = re.findall(rb"<(?:\w+:)?xf\b[^<>]*?\bfontId\s*=\s*[\"'](\d+)", cells)
    return frozenset(b"%d" % k for k, font in enumerate(used) if font in lined)


def date_ways(files: dict[str, bytes]) -> dict[bytes, bool]:
    """The styles of an XLSX, by their places, that show a date as a day and a month in numbers, and whether
    the day comes first: "m-d" shows what was typed as 6-2."""
    styles = files.get(STYLES, b"")
    ways = {}
    for entry in re.findall(rb"<(?:\w+:)?numFmt\b([^<>]*)>", styles):
        key = re.search(rb"\bnumFmtId\s*=\s*[\"'](\d+)", entry)
        code = re.search(rb"\bformatCode\s*=\s*[\"']([^\"']*)", entry)
        plain = re.sub(rb"\\|&quot;|\[[^\]]*\]|;.*", b"", code[1].lower()) if code else b""
        if key and re.fullmatch(rb"m{1,2}\W+d{1,2}|d{1,2}\W+m{1,2}", plain):
            ways[key[1]] = plain.startswith(b"d")
    if not ways:
        return {}
    cells = styles.partition(b"cellXfs")[2].partition(b"cellXfs")[0]
    used = re.findall(rb"<(?:\w+:)?xf\b[^<>]*?\bnumFmtId\s*=\s*[\"'](\d+)", cells)
    return {b"%d" % k: ways[key] for k, key in enumerate(used) if key in ways}


def unseen(
    xml: bytes, strikes: frozenset[bytes] = frozenset(), ways: dict[bytes, bool] | None = None
) -> Unseen:
    """The cells in error, the hidden rows, the formulas without a value, the merged and the struck cells of
    one sheet, from its XML as `sheet_parts` gives it and the styles that `strikes` and `date_ways` found."""
    return (
        _ods(xml, strikes) if xml.startswith(b"<table:table") else _xlsx(xml, strikes, ways or {})
    )


def _xlsx(xml: bytes, strikes: frozenset[bytes], ways: dict[bytes, bool]) -> Unseen:
    hidden = set()
    for attributes in re.findall(_ROW, xml) if b"hidden" in xml else ():
        place = re.search(_PLACE, attributes)
        if place and re.search(_HIDDEN, attributes):
            hidden.add(int(place[2]) - 1)
    errors, unworked, struck, day_first = {}, set(), set(), {}
    zeros, noughts, worked = xml.startswith(_RECALCULATED), set(), 0
    seek = strikes or ways or re.search(_IN_ERROR, xml) or re.search(_FORMULA, xml)
    for attributes, inside in re.findall(_CELL, xml) if seek else ():
        place, value = re.search(_PLACE, attributes), re.search(_VALUE, inside)
        if not place or not place[1]:
            continue
        at = int(place[2]) - 1, column_number(place[1]) - 1
        style = re.search(_XLSX_STYLE, attributes) if strikes or ways else None
        if style and style[1] in strikes:
            struck.add(at)
        if style and style[1] in ways:
            day_first[at] = ways[style[1]]
        if re.search(_IN_ERROR, attributes):
            errors[at] = _text(value[1]) if value else "#N/A"
        elif re.search(_FORMULA, inside) and not re.search(_AS_TEXT, attributes):
            shown = value[1].strip() if value else b""
            if not shown:
                unworked.add(at)
            elif shown == b"0":
                noughts.add(at)
            else:
                worked += 1
    if zeros and worked <= len(noughts):
        unworked |= noughts  # what writes formulas without working them out writes 0 for all
    merged = _xlsx_merged(xml) if b"mergeCell" in xml else ()
    return Unseen(
        errors, frozenset(hidden), frozenset(unworked), merged, frozenset(struck), day_first
    )


def _xlsx_merged(xml: bytes) -> tuple[tuple[int, int, int, int], ...]:
    ranges = re.findall(rb"mergeCell\b[^<>]*\bref\s*=\s*[\"']([A-Z]+)(\d+):([A-Z]+)(\d+)[\"']", xml)
    return tuple(
        (int(top) - 1, column_number(left) - 1, int(bottom) - 1, column_number(right) - 1)
        for left, top, right, bottom in ranges[:MOST_MERGED]
    )


def _ods(xml: bytes, strikes: frozenset[bytes]) -> Unseen:
    """Of one table: cells in error by the words that they show, whatever value stands behind them."""
    xml = xml[: xml.find(b"</table:table>")] if b"</table:table>" in xml else xml
    spanned = b"rows-spanned" in xml
    plain = not re.search(rb">\s*(?:#|Err:)", xml) and not re.search(_COLLAPSED, xml)
    if plain and not spanned and not strikes:
        return Unseen()
    errors: dict[tuple[int, int], str] = {}
    hidden: set[int] = set()
    merged: list[tuple[int, int, int, int]] = []
    struck: set[tuple[int, int]] = set()
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
            style = re.search(_ODS_STYLE, attributes) if strikes else None
            lined = bool(style and style[1] in strikes)
            shown = re.search(_PARAGRAPH, xml[found.end() : xml.find(b"</table:", found.end())])
            words = _text(shown[1]) if shown else ""
            failed = bool(ERROR.fullmatch(words.strip()))
            if (lined or failed) and rows * across <= MOST_ERRORS:
                places = [
                    (r, c) for r in range(row, row + rows) for c in range(column, column + across)
                ]
                errors |= dict.fromkeys(places, words) if failed else {}
                struck.update(places if lined else ())
        column += across
    return Unseen(errors, frozenset(hidden), frozenset(), tuple(merged), frozenset(struck))


def _spanned(attributes: bytes, what: bytes) -> int:
    """How many rows or columns a cell of an ODS reaches over."""
    found = re.search(rb"number-" + what + rb"-spanned\s*=\s*[\"'](\d{1,6})[\"']", attributes)
    return max(1, int(found[1])) if found else 1


def _text(xml: bytes) -> str:
    from html import unescape

    return unescape(re.sub(rb"<[^>]*>", b"", xml).decode("utf-8", "replace")).strip()
