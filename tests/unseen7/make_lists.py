"""Writes the forty lists, their expectations (NAME.toml) and the scenes (NAME.house) beside this file.

`python make_lists.py` needs openpyxl, xlsxwriter and odfpy. Lists are typed in `lists_a.py`, `lists_b.py`, scenes in `houses.py`.
Cells of a workbook: `'text` text even if it looks a number; `=formula=>cached`; `@2025-11-04` a date.
"""
# ruff: noqa: E501, B905 - lists typed as they stand

from __future__ import annotations

import datetime
import json
import re
from pathlib import Path

import openpyxl
import xlsxwriter
from houses import HOUSES
from lists_b import LISTS
from odf.opendocument import OpenDocumentSpreadsheet
from odf.table import CoveredTableCell, Table, TableCell, TableRow
from odf.text import P

HERE = Path(__file__).parent
FIELDS = ["position", "number", "at", "kind", "target", "channel", "circuit", "colour"]
ENDS = {
    "csv": "csv",
    "csv-bom": "csv",
    "csv-latin1": "csv",
    "csv-utf16": "csv",
    "tsv": "tsv",
    "tsv-utf16": "txt",
    "xlsx-openpyxl": "xlsx",
    "xlsx-xlsxwriter": "xlsx",
    "ods": "ods",
}
CODES = {
    "csv": "utf-8",
    "csv-bom": "utf-8-sig",
    "csv-latin1": "latin-1",
    "csv-utf16": "utf-16",
    "tsv": "utf-8",
    "tsv-utf16": "utf-16",
}


def cell(text):
    """(value, formula or None) of a typed cell."""
    if text.startswith("'"):
        return text[1:], None
    if text.startswith("@"):
        return datetime.date.fromisoformat(text[1:]), None
    if text.startswith("=") and "=>" in text:
        formula, cached = text.split("=>")
        return float(cached), formula
    if re.fullmatch(r"-?\d+", text):
        return int(text), None
    if re.fullmatch(r"-?\d+\.\d+", text):
        return float(text), None
    return text or None, None


def rows_of(text):
    return [[cell(part) for part in line.split("|")] for line in text.rstrip("\n").split("\n")]


def corners(span):
    (c0, r0, c1, r1) = re.fullmatch(r"([A-Z])(\d+):([A-Z])(\d+)", span).groups()
    return ord(c0) - 65, int(r0) - 1, ord(c1) - 65, int(r1) - 1


def write_openpyxl(path, rows, opts):
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = "Hang"
    for i, row in enumerate(rows, 1):
        for j, (value, formula) in enumerate(row, 1):
            assert formula is None
            if value is not None:
                where = sheet.cell(i, j, value)
                form = opts.get("formats", {}).get(where.column_letter)
                if isinstance(value, (int, float)) and form:
                    where.number_format = form
    for span in opts.get("merges", []):
        sheet.merge_cells(span)
    if "extra" in opts:
        other = book.create_sheet(opts["extra"][0])
        for line in opts["extra"][1].split("\n"):
            other.append([line])
    book.save(path)


def write_xlsxwriter(path, rows, opts):
    book = xlsxwriter.Workbook(str(path))
    sheet = book.add_worksheet("Hang")
    bold, two = book.add_format({"bold": True}), book.add_format({"num_format": "0.00"})
    for i, row in enumerate(rows):
        for j, (value, formula) in enumerate(row):
            if formula is not None:
                sheet.write_formula(
                    i, j, formula, two, int(value) if value == int(value) else value
                )
            elif isinstance(value, (int, float)):
                sheet.write_number(i, j, value)
            elif value is not None:
                sheet.write_string(i, j, value, bold if i == 0 else None)
    book.close()


def write_ods(path, rows, opts):
    book = OpenDocumentSpreadsheet()
    table = Table(name="Hang")
    spans, covered = {}, set()
    for span in opts.get("merges", []):
        c0, r0, c1, r1 = corners(span)
        spans[r0, c0] = (r1 - r0 + 1, c1 - c0 + 1)
        covered |= {(r, c) for r in range(r0, r1 + 1) for c in range(c0, c1 + 1)} - {(r0, c0)}
    for i, row in enumerate(rows):
        line = TableRow()
        for j, (value, _) in enumerate(row):
            if (i, j) in covered:
                line.addElement(CoveredTableCell())
                continue
            more = {}
            if (i, j) in spans:
                more = {"numberrowsspanned": spans[i, j][0], "numbercolumnsspanned": spans[i, j][1]}
            if isinstance(value, (int, float)):
                one = TableCell(valuetype="float", value=str(value), **more)
            else:
                one = TableCell(valuetype="string", **more) if value else TableCell(**more)
            if value is not None:
                one.addElement(P(text=str(value)))
            line.addElement(one)
        table.addElement(line)
    book.spreadsheet.addElement(table)
    book.save(str(path))


def expected(text):
    """The units, each a dict of what is compared; `unread` names what is not."""
    units, above = [], [""] * 8
    for line in text.strip().split("\n"):
        parts = [p.strip() for p in line.split("|")]
        parts += [""] * (8 - len(parts))
        assert len(parts) == 8, line
        parts = [above[i] if p == '"' else p for i, p in enumerate(parts)]
        above = parts
        unit, unread = {}, []
        for key, part in zip(FIELDS, parts):
            if part == "?":
                unread.append(key)
            elif part and key == "at":
                unit[key] = (
                    round(float(part[:-1]) * 0.3048, 4) if part.endswith("f") else float(part)
                )
            elif part:
                unit[key] = part
        if unread:
            unit["unread"] = unread
        units.append(unit)
    return units


def main():
    for one in LISTS:
        name, form, opts = one["name"], one["form"], one["opts"]
        file = f"{name}.{ENDS[form]}"
        text = one["text"]
        if form in CODES:
            if form.startswith("tsv"):
                text = text.replace("|", "\t")
            (HERE / file).write_bytes(text.replace("\n", "\r\n").encode(CODES[form]))
        else:
            {
                "xlsx-openpyxl": write_openpyxl,
                "xlsx-xlsxwriter": write_xlsxwriter,
                "ods": write_ods,
            }[form](HERE / file, rows_of(text), opts)
        out = [
            f"# {one['what']}.",
            f"list = {json.dumps(file)}",
            f"house = {json.dumps(one['house'] + '.house')}",
        ]
        if one["asked"]:
            out.append(f"asked = {json.dumps(one['asked'])}")
        for unit in expected(one["expect"]):
            out += ["", "[[unit]]"] + [
                f"{key} = {json.dumps(value)}" for key, value in unit.items()
            ]
        (HERE / f"{name}.toml").write_text("\n".join(out) + "\n", encoding="utf-8")
    for house, text in HOUSES.items():
        (HERE / f"{house}.house").write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
