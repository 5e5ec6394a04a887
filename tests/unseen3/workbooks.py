"""The workbooks of this folder, as they were typed: three libraries write them.

`python -m tests.unseen3.workbooks` writes them again. A cell is a text or a number; None is an empty one.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import openpyxl
from odf.opendocument import OpenDocumentSpreadsheet
from odf.table import CoveredTableCell, Table, TableCell, TableRow
from odf.text import P
from openpyxl.styles import Alignment, Font
from xlsxwriter import Workbook

HERE = Path(__file__).parent
Rows = Sequence[Sequence[Any]]


def typed(text: str) -> list[list[Any]]:
    """Rows of comma separated text, as a person types them into cells: numbers become numbers."""
    return [[_cell(cell) for cell in row] for row in csv.reader(io.StringIO(text.strip("\n")))]


def _cell(text: str) -> str | float | None:
    try:
        return float(text) if text else None
    except ValueError:
        return text


def by_openpyxl(name: str, sheets: dict[str, Rows], merged: dict[str, Sequence[str]]) -> None:
    """XLSX with a bold first row and merged ranges, sheet by sheet."""
    book = openpyxl.Workbook()
    book.remove(book.active)
    for title, rows in sheets.items():
        sheet = book.create_sheet(title)
        for row in rows:
            sheet.append(list(row))
        for cell in sheet[1]:
            cell.font = Font(bold=True)
        for cells in merged.get(title, ()):
            sheet.merge_cells(cells)
            sheet[cells.split(":")[0]].alignment = Alignment(vertical="top")
    book.save(HERE / name)


def by_xlsxwriter(name: str, sheets: dict[str, Rows], merged: dict[str, Sequence[str]]) -> None:
    """XLSX whose first row stays in view; a merged range takes the value of its first cell."""
    with Workbook(HERE / name) as book:
        for title, rows in sheets.items():
            sheet = book.add_worksheet(title)
            sheet.freeze_panes(1, 0)
            for number, row in enumerate(rows):
                for column, value in enumerate(row):
                    if value is not None:
                        sheet.write(number, column, value)
            for cells in merged.get(title, ()):
                row = int("".join(c for c in cells.split(":")[0] if c.isdigit())) - 1
                column = ord(cells[0]) - ord("A")
                sheet.merge_range(cells, rows[row][column])


def by_odf(name: str, sheets: dict[str, Rows], spans: dict[tuple[int, int], int]) -> None:
    """ODS; `spans`: how many rows the cell at (row, column), from 0, stands for."""
    book = OpenDocumentSpreadsheet()
    for title, rows in sheets.items():
        table = Table(name=title)
        covered = {(r + k, c) for (r, c), rows_of in spans.items() for k in range(1, rows_of)}
        for r, row in enumerate(rows):
            line = TableRow()
            for c, value in enumerate(row):
                line.addElement(_ods_cell(value, spans.get((r, c), 1), (r, c) in covered))
            table.addElement(line)
        book.spreadsheet.addElement(table)
    book.save(str(HERE / name))


def _ods_cell(value: Any, rows: int, covered: bool) -> Any:
    if covered:
        return CoveredTableCell()
    span = {"numberrowsspanned": rows, "numbercolumnsspanned": 1} if rows > 1 else {}
    if value is None:
        return TableCell(**span)
    if isinstance(value, float):
        cell = TableCell(valuetype="float", value=value, **span)
        cell.addElement(P(text=f"{value:g}"))
        return cell
    cell = TableCell(valuetype="string", **span)
    cell.addElement(P(text=str(value)))
    return cell


INCHES_AND_SIDE = """
Pipe,Unit No.,Fixture,Inches from CL,SL/SR,Focus point,Channel No.,Patch,Remarks
1st Electric,1,ERS 36,186,SL,Area 1,1,101,
1st Electric,2,ERS 36,94.5,SL,Area 2,2,102,shutter off border
1st Electric,3,ERS 36,12,SL,Park Bench,30,103,"special, check height"
1st Electric,4,ERS 36,94.5,SR,Area 2,3,104,
1st Electric,5,ERS 36,186,SR,Area 3,4,105,
2nd Electric,1,6in Fresnel,120,SL,Area 4,21,106,
2nd Electric,2,6in Fresnel,0,,Area 5,22,107,
2nd Electric,3,6in Fresnel,120,SR,Area 6,23,108,
"""

GROUP_TOTALS = """
Position,Unit,At,Type,Watts,Focus,Ch
FOH Pipe,1,11' SL,ERS 19,575,Area 1,1
FOH Pipe,2,11' SR,ERS 19,575,Area 3,2
FOH Pipe Total,2,,,1150,,
,,,,,,
1st Electric,1,14' SL,ERS 36,575,Area 1,11
1st Electric,2,5' SL,ERS 36,575,Area 2,12
1st Electric,3,14' SR,ERS 36,575,Area 3,13
1st Electric Total,3,,,1725,,
,,,,,,
Grand Total,5,,,2875,,
"""

BARS_AS_ROWS = """
Lamplighter's Daughter - hang,,,,,
,,,,,
Unit,Place,Type,Focus,Ch,Gel
FOH PIPE,,,,,
1,12' SL,ERS 19,Area 1,1,02
2,2' SL,ERS 19,Area 2,2,02
3,12' SR,ERS 19,Area 3,3,02
,,,,,
1ST ELECTRIC,,,,,
1,16' SL,ERS 36,Area 1,11,60
2,8' SL,6in Fresnel,Area 2,21,
3,8' SR,6in Fresnel,Area 2,22,
4,16' SR,ERS 36,Area 3,13,60
,,,,,
2ND ELECTRIC,,,,,
1,10' SL,PAR64 MFL,Area 4,51,80
2,CL,PAR64 MFL,Area 5,52,80
3,10' SR,PAR64 MFL,Area 6,53,80
"""

SHORT_HEADINGS = """
Posn,U#,Loc,Typ,Foc,Ch,Dm,Clr,Notes
1st Electric,1,18' SL,ERS 26,A1,1,1,02,
1st Electric,2,9' SL,ERS 26,A2,2,2,02,
1st Electric,3,3' SR,ERS 36,Bench,30,3,,focus seated
1st Electric,4,9' SR,ERS 26,A2,3,4,60,
1st Electric,5,18' SR,ERS 26,A3,4,5,60,
2nd Electric,1,13' SL,6in Fresnel,A4,21,6,80,
2nd Electric,2,C/L,6in Fresnel,A5,22,7,80,
2nd Electric,3,13' SR,6in Fresnel,A6,23,8,80,
"""

CENTIMETRES_SIGNED = """
Position,No,cm from centre (SR negative),Type,Purpose,Channel
LX 1,1,410,Profile 36,DSL,1
LX 1,2,205,Profile 36,DSC,2
LX 1,3,-55,PC 1k,jetty,30
LX 1,4,-205,Profile 36,DSC,3
LX 1,5,-410,Profile 36,DSR,4
LX 3,1,250,Par 64,USL,41
LX 3,2,0,Par 64,USC,42
LX 3,3,-250,Par 64,USR,43
"""

SPARE_AND_NOTES = """
LX HANG,,,,,,
Drawn by: lighting designer,,,Date: 14 March,,,
"NB all distances are from centre line, US of the pipe is behind you",,,,,,
,,,,,,
Position,Unit,Dist,Type,Focus,Chan,Remarks
FOH Pipe,1,9-0 SL,ERS 19,Area 1,1,
FOH Pipe,2,3-6 SL,ERS 19,Area 2,2,iris if we have one
FOH Pipe,3,3-6 SR,ERS 19,Area 2,3,
FOH Pipe,4,9-0 SR,ERS 19,Area 3,4,
2nd Electric,1,12-3 SL,PAR64 MFL,Area 4,21,
2nd Electric,2,0-0,PAR64 MFL,Area 5,22,turn the bubble
2nd Electric,3,12-3 SR,PAR64 MFL,Area 6,23,
,,,,,,
Still to come: two specials for Act 2 (positions to be confirmed),,,,,,
"""

LOWER_CASE_TARGETS = """
Position,Unit,Distance,Type,Area,System,Channel,Qty
LX 1,1,4.40 m S.L.,Profile 36,down stage left,front,1,1
LX 1,2,0.45 m S.L.,Profile 36,down stage centre,front,2,1
LX 1,3,4.40 m S.R.,Profile 36,down stage right,front,3,1
LX 3,1,4.40 m S.L.,Par 64,up stage left,back,11,1
LX 3,2,0.45 m S.R.,Par 64,up stage centre,back,12,1
LX 3,3,4.40 m S.R.,Par 64,up stage right,back,13,1
"""

A_TARGET_NOT_THERE = """
Position,Unit,Distance,Type,Focus,Channel
LX 1,1,3.5 m SL,Profile 36,DSL,1
LX 1,2,1.0 m SL,Profile 36,piano,30
LX 1,3,3.5 m SR,Profile 36,DSR,3
"""

BAR_1 = """
LOW TIDE - FOH BAR,,,,,
Unit,Distance,Lantern,Focus,Ch,Gel
1,4.6 m SL,Profile 26,DSL,1,103
2,1.6 m SL,Profile 26,DSC,2,103
3,1.6 m SR,Profile 26,DSC,3,103
4,4.6 m SR,Profile 26,DSR,4,103
"""

BAR_2 = """
LOW TIDE - LX 1,,,,,
Unit,Distance,Lantern,Focus,Ch,Gel
1,4.0 m SL,Profile 36,DSL,11,202
2,0.5 m SL,PC 1k,jetty,12,
3,4.0 m SR,Profile 36,DSR,13,202
"""

BAR_3 = """
LOW TIDE - LX 3,,,,,
Unit,Distance,Lantern,Focus,Ch,Gel
1,2.5 m SL,Flood 500,backcloth,90,132
2,2.5 m SR,Flood 500,backcloth,91,132
"""

TO_DO = """
Before the rig,,
Order 103 and 202,done,
Ask about the cherry picker,,
"""

MERGED = """
Position,Unit,Distance,Type,Focus,Channel,Notes
1st Electric,1,17'-0 SL,ERS 36,Area 1,1,
,2,8'-6 SL,ERS 36,Area 2,2,soft edges
,3,8'-6 SR,ERS 36,Area 2,3,
,4,17'-0 SR,ERS 36,Area 3,4,
3rd Electric,1,9'-0 SL,PAR64 MFL,Area 4,11,
,2,0,PAR64 MFL,Area 5,12,
,3,9'-0 SR,PAR64 MFL,Area 6,13,
"""

MILLIMETRES = """
POSITION,UNIT,OFFSET (mm),SIDE,FIXTURE,FOCUS,CHANNEL,MODE,WATTAGE
FOH Bar,1,4350,SL,Profile 26,DSL,1,,750
FOH Bar,2,1450,SL,Profile 26,DSC,2,,750
FOH Bar,3,1450,SR,Profile 26,DSC,3,,750
FOH Bar,4,4350,SR,Profile 26,DSR,4,,750
LX 2,1,3000,SL,Fresnel 1k,USL,11,,1000
LX 2,2,0,CL,Fresnel 1k,USC,12,,1000
LX 2,3,3000,SR,Fresnel 1k,USR,13,,1000
"""

WORKSHEET = """
Year 12 Technical Theatre - Unit 4 - Our lighting plot,,,,,,,
"Names: group 3. Tick the box when your lamp is hung. Pipes B and D only!",,,,,,,
,,,,,,,
Pipe,Lamp,How far from the middle?,Which side?,What sort of lamp?,What does it light?,Channel,Hung?
B,1,2.5 m,stage left,30 degree profile,zone 1,1,
B,2,0.5 m,stage left,30 degree profile,armchair,2,
B,3,2.5 m,stage right,30 degree profile,zone 3,3,
D,1,2 m,stage left,60 degree fresnel,zone 4,4,
D,2,in the middle,,60 degree fresnel,zone 5,5,
D,3,2 m,stage right,60 degree fresnel,hatstand,6,
"""

ODS_MERGED = """
Three One-Act Plays: hang,,,,,,
Pipe,Unit,Place,Type,Target,Channel,Circuit
A,1,3.0 SL,ers-30,zone 1,1,1
,2,1.0 SL,ers-30,zone 2,2,2
,3,1.0 SR,ers-30,zone 2,3,3
,4,3.0 SR,ers-30,zone 3,4,4
C,1,2.2 SL,pc-30,zone 4,11,5
,2,2.2 SR,pc-30,zone 6,12,6
"""


def write_all() -> None:
    """Every workbook of this folder."""
    by_openpyxl("inches-and-side.xlsx", {"Sheet1": typed(INCHES_AND_SIDE)}, {})
    by_xlsxwriter("group-totals.xlsx", {"Instruments": typed(GROUP_TOTALS)}, {})
    by_odf("bars-as-rows.ods", {"Hang": typed(BARS_AS_ROWS)}, {})
    by_xlsxwriter("short-headings.xlsx", {"Sheet1": typed(SHORT_HEADINGS)}, {})
    by_openpyxl("centimetres-signed.xlsx", {"rig": typed(CENTIMETRES_SIGNED)}, {})
    by_openpyxl(
        "spare-and-notes.xlsx", {"Hang plot": typed(SPARE_AND_NOTES)}, {"Hang plot": ["A1:G1"]}
    )
    by_odf("lower-case-targets.ods", {"Sheet1": typed(LOWER_CASE_TARGETS)}, {})
    by_xlsxwriter("a-target-not-there.xlsx", {"LX": typed(A_TARGET_NOT_THERE)}, {})
    bars = {
        "FOH Bar": typed(BAR_1),
        "LX 1": typed(BAR_2),
        "LX 3": typed(BAR_3),
        "to do": typed(TO_DO),
    }
    by_openpyxl("sheet-for-each-bar.xlsx", bars, {})
    by_xlsxwriter("merged-positions.xlsx", {"Hang": typed(MERGED)}, {"Hang": ["A2:A5", "A6:A8"]})
    by_xlsxwriter("millimetres-and-side.xlsx", {"FIXTURES": typed(MILLIMETRES)}, {})
    by_openpyxl(
        "school-worksheet.xlsx", {"Our plot": typed(WORKSHEET)}, {"Our plot": ["A1:H1", "A2:H2"]}
    )
    by_odf("merged-pipes.ods", {"Sheet1": typed(ODS_MERGED)}, {(2, 0): 4, (6, 0): 2})


if __name__ == "__main__":
    write_all()
