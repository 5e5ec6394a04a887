"""Writes the messy workbooks: XLSX by two libraries, ODS by a third. What they should read as is typed in the
TOML beside each.

    python -m tests.messy.workbooks

Run it after a change here; the files are kept with the tests. (`old-workbook.xls` was written once, by hand.)
"""

from __future__ import annotations

import datetime
from pathlib import Path
from typing import Any

import openpyxl
from odf.opendocument import OpenDocumentSpreadsheet
from odf.table import CoveredTableCell, Table, TableCell, TableRow
from odf.text import P
from openpyxl.styles import Font
from xlsxwriter import Workbook

HERE = Path(__file__).parent
MADE = datetime.datetime(2000, 1, 1)  # the same list gives the same bytes


def merged() -> None:
    """openpyxl: a merged title, merged positions, merged colours, a hidden helper column's worth of text."""
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = "Plot"
    sheet.append(["Hang list, revision B"])
    sheet.merge_cells("A1:G1")
    sheet["A1"].font = Font(bold=True, size=16)
    sheet.append([])
    sheet.append(["Position", "Unit #", "From CL", "Type", "Area", "Ch", "Gel"])
    sheet.append(["FOH Pipe", 1, "12' SL", "ERS 20", "A1", 1, "L103"])
    sheet.append([None, 2, "4' SL", "ERS 20", "A2", 2, None])
    sheet.append([None, 3, "12' SR", "ERS 20", "A3", 3, None])
    sheet.append(["LX 1", 1, "6' SL", "ERS 40", "A4", 11, "L201"])
    sheet.append([None, 2, "6' SR", "ERS 40", "A6", 12, "L202"])
    sheet.merge_cells("A4:A6")
    sheet.merge_cells("A7:A8")
    sheet.merge_cells("G4:G6")
    book.save(HERE / "merged.xlsx")


def formulas() -> None:
    """xlsxwriter: numbers, places and totals that are formulas, with the values that they show."""
    with Workbook(HERE / "formulas.xlsx") as book:
        book.set_properties({"created": MADE})
        sheet = book.add_worksheet("Hang")
        sheet.merge_range("A1:F1", "Hang list")
        sheet.write_row("A2", ["Position", "Unit", "At", "Kind", "Target", "Channel"])
        sheet.merge_range("A3:A5", "LX 2")
        rows = [
            (1, 8.5, "ers-30", "area 4", 21),
            (2, 0.5, "ers-30", "area 5", 22),
            (3, -7.5, "ers-30", "area 6", 23),
        ]
        for line, (number, at, kind, target, channel) in enumerate(rows, start=3):
            sheet.write_formula(f"B{line}", "=ROW()-2", None, number)
            sheet.write_formula(f"C{line}", f"=16.5-8*B{line}", None, at)
            sheet.write_string(f"D{line}", kind)
            sheet.write_formula(f"E{line}", f'="area "&{target[-1]}', None, target)
            sheet.write_formula(f"F{line}", f"=20+B{line}", None, channel)
        sheet.write_string("A6", "Units in all")
        sheet.write_formula("B6", "=COUNT(B3:B5)", None, 3)


def never_worked_out() -> None:
    """openpyxl writes formulas without the values that they would show."""
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = "Hang"
    sheet.append(["position", "number", "at", "kind", "target"])
    sheet.append(["LX 1", 1, "8' SL", "ers-30", "area 1"])
    sheet.append(["=A2", "=B2+1", "8' SR", "ers-30", "area 3"])
    book.save(HERE / "never-worked-out.xlsx")


def zeros() -> None:
    """xlsxwriter writes 0 where a formula's value is not given."""
    with Workbook(HERE / "zeros.xlsx") as book:
        book.set_properties({"created": MADE})
        sheet = book.add_worksheet("Hang")
        sheet.write_row("A1", ["position", "number", "at", "kind", "target"])
        sheet.write_row("A2", ["LX 1", 1, 8, "ers-30", "area 1"])
        sheet.write_row("A3", ["LX 1", 2, None, "ers-30", "area 3"])
        sheet.write_formula("C3", "=C2-16")


def several_sheets() -> None:
    """xlsxwriter: a cover, the list, the stock."""
    with Workbook(HERE / "several-sheets.xlsx") as book:
        book.set_properties({"created": MADE})
        cover = book.add_worksheet("Cover")
        cover.write("B3", "The Orchard Clock")
        cover.write("B4", "position of the van: dock")
        plot = book.add_worksheet("Plot")
        plot.write_row("B2", ["Position", "Unit", "At", "Type", "Area"])
        plot.write_row("B3", ["LX 1", 1, 8, "ers-30", "area 1"])
        plot.write_row("B4", ["LX 1", 2, -8, "ers-30", "area 3"])
        stock = book.add_worksheet("Stock")
        stock.write_row("A1", ["Type", "Count"])
        stock.write_row("A2", ["ers-30", 12])


def two_lists() -> None:
    """openpyxl: two sheets that are hang lists."""
    book = openpyxl.Workbook()
    for title, at in (("Monday", "8' SL"), ("Tuesday", "9' SL")):
        sheet = book.create_sheet(title)
        sheet.append(["position", "number", "at", "kind", "target"])
        sheet.append(["LX 1", 1, at, "ers-30", "area 1"])
    del book["Sheet"]
    book.save(HERE / "two-lists.xlsx")


def hidden_sheet() -> None:
    """openpyxl: last week's list on a hidden sheet."""
    book = openpyxl.Workbook()
    old, new = book.active, book.create_sheet("Now")
    old.title, old.sheet_state = "Last week", "hidden"
    for sheet, at in ((old, "8' SL"), (new, "9' SL")):
        sheet.append(["position", "number", "at", "kind", "target"])
        sheet.append(["LX 1", 1, at, "ers-30", "area 1"])
    book.active = 1
    book.save(HERE / "hidden-sheet.xlsx")


def dates() -> None:
    """xlsxwriter: unit numbers 1/1, 1/2, 2/1, 2/3 that a spreadsheet took for days."""
    with Workbook(HERE / "dates.xlsx") as book:
        book.set_properties({"created": MADE})
        sheet = book.add_worksheet("Hang")
        day = book.add_format({"num_format": "d-mmm"})
        sheet.write_row("A1", ["position", "number", "at", "kind", "target"])
        rows = [
            ("LX 1", 1, 1, 8, "area 1"),
            ("LX 1", 1, 2, -8, "area 3"),
            ("LX 2", 2, 1, 8, "area 4"),
            ("LX 2", 2, 3, -8, "area 6"),
        ]
        for line, (position, first, second, at, target) in enumerate(rows, start=1):
            sheet.write_row(line, 0, [position, None, at, "ers-30", target])
            sheet.write_datetime(line, 1, datetime.datetime(2026, first, second), day)


def date_in_doubt() -> None:
    """openpyxl: 6-2 that became a day in June or in February; a 3-14 that can only be 14 ft 3 in."""
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.append(["position", "number", "at", "kind", "target"])
    sheet.append(["LX 1", 1, datetime.date(2026, 6, 2), "ers-30", "area 1"])
    sheet.append(["LX 1", datetime.date(2026, 4, 3), "8' SR", "ers-30", "area 3"])
    book.save(HERE / "date-in-doubt.xlsx")


def numbers_as_text() -> None:
    """openpyxl: numbers kept as text, text as numbers, spaces that do not show."""
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = "Hang"
    sheet.append(["position", "number", "at", "kind", "target", "channel"])
    sheet.append(["LX 1\u00a0", "1", "'8' SL", "ers-30 ", "area\u00a01", "11"])
    sheet.append(["LX 1", "02", "8' SR", " ers-30", "area 3", 12.0])
    sheet.append(["LX 1", 3.0, "9.5", "ers-30", "area 3", "13.0"])
    book.save(HERE / "numbers-as-text.xlsx")


def _row(cells: list[Any], spans: dict[int, int], covered: set[int]) -> TableRow:
    line = TableRow()
    for column, value in enumerate(cells):
        if column in covered:
            line.addElement(CoveredTableCell())
            continue
        more: dict[str, Any] = {}
        if column in spans:
            more = {"numberrowsspanned": spans[column], "numbercolumnsspanned": 1}
        if value is None:
            cell = TableCell(**more)
        elif isinstance(value, (int, float)):
            cell = TableCell(valuetype="float", value=str(value), **more)
            cell.addElement(P(text=str(value)))
        else:
            cell = TableCell(valuetype="string", **more)
            cell.addElement(P(text=value))
        line.addElement(cell)
    return line


def merged_ods() -> None:
    """odfpy: merged positions and targets, a list below a title."""
    book = OpenDocumentSpreadsheet()
    table = Table(name="Hang")
    table.addElement(_row(["Show: messy lists"], {}, set()))
    table.addElement(_row(["Position", "No", "At", "Type", "Focus", "Colour"], {}, set()))
    table.addElement(_row(["bar 1", 1, 2.5, "ers-30", "mark 1", "L201"], {0: 3, 4: 2}, set()))
    table.addElement(_row([None, 2, 1, "ers-30", None, "L201"], {}, {0, 4}))
    table.addElement(_row([None, 3, -1, "ers-30", "mark 3", None], {}, {0}))
    table.addElement(_row(["bar 2", 1, 0, "fresnel-40", "bench", None], {}, set()))
    book.spreadsheet.addElement(table)
    book.save(HERE / "merged.ods")


def second_sheet_ods() -> None:
    """odfpy: notes on the first sheet, the list on the second."""
    book = OpenDocumentSpreadsheet()
    notes = Table(name="Notes")
    notes.addElement(_row(["Bring the tall ladder"], {}, set()))
    table = Table(name="Lights")
    table.addElement(_row(["Bar", "Number", "From centre (m)", "Lantern", "Purpose"], {}, set()))
    table.addElement(_row(["Bar 1", 1, 2, "Profile 26", "Mark 1"], {}, set()))
    table.addElement(_row(["Bar 1", 2, -2, "Profile 26", "Mark 3"], {}, set()))
    book.spreadsheet.addElement(notes)
    book.spreadsheet.addElement(table)
    book.save(HERE / "second-sheet.ods")


if __name__ == "__main__":
    for write in (
        *(merged, formulas, never_worked_out, zeros, several_sheets, two_lists, hidden_sheet),
        *(dates, date_in_doubt, numbers_as_text, merged_ods, second_sheet_ods),
    ):
        write()
