"""Writes the XLSX and ODS lists of this folder: python -m tests.unseen6.workbooks."""

from __future__ import annotations

from pathlib import Path
from typing import Any

HERE = Path(__file__).parent
Rows = list[list[Any]]


def _openpyxl(name: str, sheets: dict[str, Rows], merged: tuple[str, ...] = ()) -> None:
    """A workbook as office programs save it; `merged` are ranges of its first sheet."""
    from openpyxl import Workbook

    book = Workbook()
    book.remove(book.active)
    for title, rows in sheets.items():
        sheet = book.create_sheet(title)
        for row in rows:
            sheet.append(row)
    for cells in merged:
        book.worksheets[0].merge_cells(cells)
    book.save(HERE / f"{name}.xlsx")


def _xlsxwriter(name: str, sheets: dict[str, Rows]) -> None:
    """A workbook as another program exports it; a row that starts with `*` is bold."""
    import xlsxwriter

    with xlsxwriter.Workbook(HERE / f"{name}.xlsx") as book:
        bold = book.add_format({"bold": True})
        for title, rows in sheets.items():
            sheet = book.add_worksheet(title)
            for index, row in enumerate(rows):
                starred = bool(row) and row[0] == "*"
                sheet.write_row(
                    index, 0, ["", *row[1:]] if starred else row, bold if starred else None
                )


def _ods(name: str, title: str, rows: Rows) -> None:
    """An OpenDocument spreadsheet of one sheet: numbers as numbers, empty cells empty."""
    from odf.opendocument import OpenDocumentSpreadsheet
    from odf.table import Table, TableCell, TableRow
    from odf.text import P

    book = OpenDocumentSpreadsheet()
    table = Table(name=title)
    for row in rows:
        line = TableRow()
        for value in row:
            if value is None:
                line.addElement(TableCell())
                continue
            number = isinstance(value, int | float)
            cell = (
                TableCell(valuetype="float", value=value)
                if number
                else TableCell(valuetype="string")
            )
            cell.addElement(P(text=str(value)))
            line.addElement(cell)
        table.addElement(line)
    book.spreadsheet.addElement(table)
    book.save(HERE / f"{name}.ods")


def _society() -> None:
    rows: Rows = [
        ["Players' Society: the winter play"],
        ["Lighting rig, typed by the stage manager"],
        [],
        ["Bar", "No", "Lantern", "Place (m)", "Channel", "Gel", "Area", "Remarks"],
        ["Front bar", 1, "Profile", "3.5 SL", 1, 103, 1, None],
        [None, 2, "Profile", "1.2 SL", 2, 103, 2, None],
        [None, 3, "Profile", "1.2 SR", 3, 103, 2, None],
        [None, 4, "Profile", "3.5 SR", 4, 103, 3, None],
        ["Bar 1", 1, "Parcan", "2 SL", 5, 106, 4, None],
        [None, 2, "Parcan", "2 SR", 6, 119, 6, "new lamp"],
        [],
        ["Total", 6],
    ]
    _openpyxl("society", {"Rig": rows}, ("A1:H1", "A5:A8", "A9:A10"))


def _opera_lx() -> None:
    head = ["Unit", "Type", "Distance from centre, m (+ SL, - SR)", "Channel", "Colour", "Focus"]
    bridge: Rows = [
        ["Bridge"],
        head,
        [1, "ers-20", 6.4, 101, "L201", "zone 1"],
        [2, "ers-20", 2.1, 102, "L201", "zone 2"],
        [3, "ers-20", -2.1, 103, "L201", "zone 2"],
        [4, "ers-20", -6.4, 104, "L201", "zone 3"],
    ]
    second: Rows = [
        ["LX 2"],
        head,
        [1, "fresnel-20", 5.5, 201, "L203", "zone 4"],
        [2, "fresnel-20", 0, 202, "L203", "throne"],
        [3, "fresnel-20", -5.5, 203, "L203", "zone 6"],
    ]
    _openpyxl("opera-lx", {"Bridge": bridge, "LX 2": second})


def _patch_list() -> None:
    rows: Rows = [
        ["Channel", "Universe", "Address", "Position", "Unit", "Type", "Location", "Focus"]
    ]
    units = [
        ("LX 1", 1, "ERS 30", "10' SL", "DS lane"),
        ("LX 1", 2, "ERS 30", "10' SR", "DS lane"),
        ("LX 2", 1, "ERS 40", "9'-6\" SL", "MS lane"),
        ("LX 2", 2, "ERS 40", "CL", "Centre"),
        ("LX 2", 3, "ERS 40", "9'-6\" SR", "MS lane"),
        ("LX 3", 1, "Fresnel 40", "8' SL", "US lane"),
        ("LX 3", 2, "Fresnel 40", "8' SR", "US lane"),
    ]
    rows += [[i, 1, 10 * i + 1, *unit] for i, unit in enumerate(units, 1)]
    _xlsxwriter("patch-list", {"Patch": rows})


def _dance_workbook() -> None:
    rows: Rows = [
        ["*", "House hang"],
        [],
        ["*", "Unit", "Type", "Where", "Ch", "Colour", "Focus"],
        ["*", "LX 1"],
        ["", 1, "ERS 30", "12'-6\" SL", 1, "L201", "Quarter SL"],
        ["", 2, "ERS 30", "2' SL", 2, "L201", "Centre"],
        ["", 3, "ERS 30", "12'-6\" SR", 3, "L201", "Quarter SR"],
        [],
        ["*", "Boom SL 2"],
        ["", 1, "ERS 40", "9'", 21, "", "MS lane"],
        ["", 2, "ERS 40", "4'-6\"", 22, "", "MS lane"],
        [],
        ["*", "Boom SR 2"],
        ["", 1, "ERS 40", "9'", 23, "", "MS lane"],
        ["", 2, "ERS 40", "4'-6\"", 24, "", "MS lane"],
    ]
    _xlsxwriter("dance-workbook", {"Hang": rows})


def _feet_inches_apart() -> None:
    rows: Rows = [
        ["Position", "Unit", "Instrument", "Feet", "Inches", "SL/SR", "Channel", "Focus"],
        ["LX 1", 1, "ERS 30", 11, 6, "SL", 1, "Area 1"],
        ["LX 1", 2, "ERS 30", 3, 3, "SL", 2, "Area 2"],
        ["LX 1", 3, "ERS 30", 3, 3, "SR", 3, "Area 2"],
        ["LX 1", 4, "ERS 30", 11, 6, "SR", 4, "Area 3"],
        ["LX 2", 1, "Fresnel 40", 7, 0, "SL", 5, "Area 5"],
        ["LX 2", 2, "Fresnel 40", 7, None, "SR", 6, "Area 5"],
    ]
    _openpyxl("feet-inches-apart", {"Sheet1": rows})


def _rig_of_two_days() -> None:
    head = ["Truss", "Unit", "Lamp", "Place", "Channel", "Gel", "On"]
    rows: Rows = [
        head,
        ["Front truss", 1, "Fresnel 40", "5 m SL", 1, "amber", "Bass"],
        ["Front truss", 2, "Fresnel 40", "centre", 2, "straw", "Singer"],
        ["Front truss", 3, "Fresnel 40", "5 m SR", 3, "amber", "Guitar"],
        ["Back truss", 1, "Par 25x50", "4 m SL", 4, "blue", "Horns"],
        ["Back truss", 2, "Par 25x50", "4 m SR", 5, "blue", "Keys"],
        ["Floor 2", 1, "Par 35x70", None, 6, "red", "Drums"],
    ]
    crew: Rows = [
        ["Who", "Call", "Task"],
        ["Rigger", "08:00", "motors"],
        ["Two hands", "09:00", "cable"],
    ]
    _openpyxl("rig-of-two-days", {"Crew": crew, "Hang": rows})


def _church_numbers() -> None:
    rows: Rows = [
        ["Lamps in the church"],
        ["Where", "Lamp no.", "Sort", "How far from the middle", "Socket", "Lights"],
        ["Gallery rail", 1, "Profile", "3 m SL", 1, "Pulpit"],
        [None, 2, "Profile", "1 m SL", 2, "Altar"],
        [None, 3, "Profile", "3 m SR", 3, "Lectern"],
        [None],
        ["Chancel bar", 4, "Fresnel", "1.5 m SL", 4, "Choir"],
        [None, 5, "Fresnel", "2 m SR", 5, "Font"],
        [None],
        ["Floor stand A", 6, "Flood", None, 6, "Altar"],
        ["Floor stand B", 7, "Flood", None, 6, "Altar"],
    ]
    _ods("church-numbers", "Lamps", rows)


def _treasurer_numbers() -> None:
    rows: Rows = [
        ["Bar", "No.", "Lantern", "Position", "Gel", "Area", "Hire per week", "Weeks", "Cost"],
        ["Front bar", 1, "Profile", "2.75 m SL", None, 1, 6.5, 2, 13],
        ["Front bar", 2, "Profile", "centre", None, 2, 6.5, 2, 13],
        ["Front bar", 3, "Profile", "2.75 m SR", None, 3, 6.5, 2, 13],
        ["Bar 2", 1, "Parcan", "2.4 m SL", "red", 4, 3, 2, 6],
        ["Bar 2", 2, "Parcan", "centre", "blue", 5, 3, 2, 6],
        ["Bar 2", 3, "Parcan", "2.4 m SR", "red", 6, 3, 2, 6],
        [None, None, None, None, None, "Grand total", None, None, 57],
    ]
    _ods("treasurer-numbers", "Hire", rows)


def main() -> None:
    """Every workbook of the folder, written again."""
    _society()
    _opera_lx()
    _patch_list()
    _dance_workbook()
    _feet_inches_apart()
    _rig_of_two_days()
    _church_numbers()
    _treasurer_numbers()


if __name__ == "__main__":
    main()
