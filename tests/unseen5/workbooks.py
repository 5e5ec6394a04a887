"""Writes the XLSX and ODS lists of this folder, as they were typed: `python tests/unseen5/workbooks.py`."""

from __future__ import annotations

from pathlib import Path
from typing import Any

HERE = Path(__file__).parent

TEACHER = [
    ["The Autumn Play - LIGHTS"],
    ["Year 10 crew. Ask me before you climb!"],
    [],
    ["Bar", "Light no.", "Kind of light", "How far from the middle", "Points at", "Gel", "Who"],
    ["Front bar", 1, "PC 30", "3.5m stage left", "Area 1", "Straw", "Tom"],
    [None, 2, "PC 30", "1m stage left", "Area 2", "Straw", "Tom"],
    [None, 3, "PC 30", "1m stage right", "Area 2", "Straw", "Amina"],
    [None, 4, "PC 30", "3.5m stage right", "Area 3", "Straw", "Amina"],
    ["Bar 1", 1, "Fresnel 40", "2m stage left", "Area 4", "Pale blue", "Jo"],
    [None, 2, "Fresnel 40", "middle", "Area 5", "Pale blue", "Jo"],
    [None, 3, "Fresnel 40", "2m stage right", "Area 6", "Pale blue", "Jo"],
]
OFFICE = {
    "Legend": [["Colours"], [201, "full C.T. blue"], [204, "full C.T. orange"]],
    "Bridge": [
        ["BRIDGE"],
        ["No.", "Type", "cm from CL", "Side", "Focus", "Colour", "Ch"],
        [1, "ERS 10", 540, "SL", "A", 204, 1],
        [2, "ERS 10", 180, "SL", "B", 204, 2],
        [3, "ERS 10", 180, "SR", "B", 204, 3],
        [4, "ERS 10", 540, "SR", "C", 204, 4],
    ],
    "Bar 2": [
        ["BAR 2"],
        ["No.", "Type", "cm from CL", "Side", "Focus", "Colour", "Ch"],
        [1, "Fresnel 20", 325, "SL", "D", 201, 21],
        [2, "Fresnel 20", 0, None, "Chorus", 201, 22],
        [3, "Fresnel 20", 325, "SR", "F", 201, 23],
    ],
}
HOOKUP = {
    "Notes": [["Bring the spare lamps."], ["Get-in 8 am, dock door on the left."]],
    "Hang": [
        ["Position", "Unit", "Location", "Type", "Lens", "Watts", "Color", "Chan", "Focus", "Acc."],
        ["FOH", 1, "15'-0\" SL", "ERS", "20°", 750, "Straw", 1, "Area 1", "top hat"],
        ["FOH", 2, "5'-0\" SL", "ERS", "20°", 750, "Straw", 2, "Area 2", None],
        ["FOH", 3, "5'-0\" SR", "ERS", "20°", 750, "Straw", 3, "Area 2", None],
        ["FOH", 4, "15'-0\" SR", "ERS", "20°", 750, "Straw", 4, "Area 3", "top hat"],
        ["LX 3", 1, "9'-0\" SL", "Fresnel", "60°", 1000, "Blue", 11, "Area 4", None],
        ["LX 3", 2, "0'-0\"", "Fresnel", "60°", 1000, "Blue", 12, "Area 5", "barn door"],
        ["LX 3", 3, "9'-0\" SR", "Fresnel", "60°", 1000, "Blue", 13, "Area 6", None],
    ],
    "Patch": [["Chan", "Address"], [1, 101], [2, 102], [3, 103], [4, 104], [11, 201]],
}
WELDED = [
    ["Position", "Unit", "Distance", "Instrument", "Focus", "Color"],
    ["Electric 1", 1, "15' SL", "ERS 40", "Lane 1", "R. pink"],
    [None, 2, "6' SL", "ERS 40", None, "R. pink"],
    [None, 3, "6' SR", "ERS 40", None, "R. pink"],
    ["Electric 2", 1, "15' SL", "ERS 40", "Lane 2", "Steel"],
    [None, 2, "15' SR", "ERS 40", None, "Steel"],
    ["Electric 3", 1, "9' SL", "Fresnel 40", "Lane 3", "Steel"],
    [None, 2, "9' SR", "Fresnel 40", None, "Steel"],
]
CHAPEL = [
    ["Carols, lights", None, None, None, None, None],
    ["Pipe", "Lamp #", "Inches from center", "Side", "Lamp", "Pointed at"],
    ["Nave", 1, 138, "SL", "ERS 40", "Pulpit"],
    ["Nave", 2, 54, "SL", "ERS 40", "Pulpit"],
    ["Nave", 3, 54, "SR", "ERS 40", "Reading desk"],
    ["Nave", 4, 138, "SR", "ERS 40", "Font"],
    ["Chancel", 1, 84, "SL", "Fresnel 60", "Choir left"],
    ["Chancel", 2, 0, None, "Fresnel 60", "Altar"],
    ["Chancel", 3, 84, "SR", "Fresnel 60", "Choir right"],
]
TRUSS = [
    ["Truss", "Spot", "Metres from SR end", "From CL", "Fixture", "Hits", "Mode"],
    ["Front truss", 1, 10.5, 4.5, "ERS 20", "Guitar", "-"],
    ["Front truss", 2, 7.5, 1.5, "ERS 20", "Vocal", "-"],
    ["Front truss", 3, 4.5, -1.5, "ERS 20", "Vocal", "-"],
    ["Front truss", 4, 1.5, -4.5, "ERS 20", "Bass", "-"],
    ["Back truss", 1, 8, 2, "Led par", "Drums", "10 ch"],
    ["Back truss", 2, 4, -2, "Led par", "Keys", "10 ch"],
]
TREASURER = {
    "Money": [["What", "In", "Out"], ["Tickets", 1240, None], ["Hall", None, 300]],
    "Lights": [
        ["Lights hired and hung, autumn play", None, None, None, None, None, None],
        [None, None, None, None, None, None, None],
        ["Bar", "No.", "Item", "Position", "Used for", "Colour", "Hire £"],
        ["Front bar", 1, "PC 30", "3.2 m SL", "Area 1", "Straw", 6.5],
        ["Front bar", 2, "PC 30", "1.1 m SL", "Area 2", "Straw", 6.5],
        ["Front bar", 3, "PC 30", "1.1 m SR", "Area 2", "Straw", 6.5],
        ["Front bar", 4, "PC 30", "3.2 m SR", "Area 3", "Straw", 6.5],
        ["Bar 2", 1, "ERS 50", "2 m SR", "Piano", None, 9],
        ["Total hire", None, None, None, None, None, 35],
    ],
}
TWO_LINES = [
    ["", "Unit", "Distance from CL", "", "", "Type of", "Focus", ""],
    ["Position", "No.", "ft", "in", "Side", "Instrument", "Area", "Color"],
    ["LX 1", 1, 13, 6, "SL", "ERS 40", 1, "02"],
    ["LX 1", 2, 4, 6, "SL", "ERS 40", 2, "02"],
    ["LX 1", 3, 4, 6, "SR", "ERS 40", 2, "02"],
    ["LX 1", 4, 13, 6, "SR", "ERS 40", 3, "02"],
    ["LX 2", 1, 10, 0, "SL", "Fresnel 40", 4, "64"],
    ["LX 2", 2, 10, 0, "SR", "Fresnel 40", 6, "64"],
]
AS_TEXT = [
    ["LX number", "Bar", "Lantern", "Metres", "Stage side", "Focus", "Dimmer", "Notes"],
    ["1", "BAR 1", "FRES 40", "3.90", "Left", "area one", "1", ""],
    ["2", "BAR 1", "FRES 40", "1.30", "Left", "area two", "2", ""],
    ["3", "BAR 1", "FRES 40", "1.30", "Right", "area two", "3", ""],
    ["4", "BAR 1", "FRES 40", "3.90", "Right", "area three", "4", "flag off the tabs"],
    ["5", "BAR 2", "FRES 40", "0.00", "", "area five", "5", ""],
]


def _openpyxl(name: str, sheets: dict[str, list[Any]], merged: tuple[str, ...] = ()) -> None:
    import openpyxl

    book = openpyxl.Workbook()
    book.remove(book.active)
    for title, rows in sheets.items():
        sheet = book.create_sheet(title)
        for row in rows:
            sheet.append(row)
        for cells in merged:
            sheet.merge_cells(cells)
    book.save(HERE / name)


def _xlsxwriter(name: str, title: str, rows: list[Any], merged: tuple[Any, ...] = ()) -> None:
    import xlsxwriter

    with xlsxwriter.Workbook(str(HERE / name)) as book:
        sheet = book.add_worksheet(title)
        for r, row in enumerate(rows):
            for c, cell in enumerate(row):
                if cell is not None:
                    sheet.write(r, c, cell)
        for first, column, last in merged:
            sheet.merge_range(first, column, last, column, rows[first][column])
        if name == "truss-with-formulas.xlsx":
            for r, row in enumerate(rows[1:], 1):
                sheet.write_formula(r, 3, f"=C{r + 1}-6", None, row[3])


def _odfpy(name: str, sheets: dict[str, list[Any]]) -> None:
    from odf.opendocument import OpenDocumentSpreadsheet
    from odf.table import Table, TableCell, TableRow
    from odf.text import P

    book = OpenDocumentSpreadsheet()
    for title, rows in sheets.items():
        table = Table(name=title)
        for row in rows:
            line = TableRow()
            for value in row:
                number = isinstance(value, int | float)
                kind = {"valuetype": "float", "value": value} if number else {"valuetype": "string"}
                cell = TableCell(**kind) if value not in (None, "") else TableCell()
                if value not in (None, ""):
                    cell.addElement(P(text=str(value)))
                line.addElement(cell)
            table.addElement(line)
        book.spreadsheet.addElement(table)
    book.save(str(HERE / name))


def main() -> None:
    """Write them all."""
    _openpyxl("school-teacher.xlsx", {"Lights": TEACHER}, ("A1:G1", "A5:A8", "A9:A11"))
    _openpyxl("opera-office.xlsx", OFFICE)
    _openpyxl("hang-and-patch.xlsx", HOOKUP)
    _xlsxwriter(
        "welded-focus.xlsx",
        "Sheet1",
        WELDED,
        ((1, 0, 3), (4, 0, 5), (6, 0, 7), (1, 4, 3), (4, 4, 5), (6, 4, 7)),
    )
    _xlsxwriter("carols.xlsx", "Lights", CHAPEL)
    _xlsxwriter("truss-with-formulas.xlsx", "Truss", TRUSS)
    _odfpy("treasurer.ods", TREASURER)
    _odfpy("headings-on-two-lines.ods", {"Hang": TWO_LINES})
    _odfpy("numbers-as-text.ods", {"Sheet1": AS_TEXT})


if __name__ == "__main__":
    main()
