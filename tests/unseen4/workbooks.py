"""The workbooks of this folder, as they were typed: three libraries write them.

`python -m tests.unseen4.workbooks` writes them again. A cell is a text or a number; None is an empty one.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from xlsxwriter import Workbook

from tests.unseen3.workbooks import by_odf, by_openpyxl, by_xlsxwriter, typed

HERE = Path(__file__).parent

HOUSE_PLOT = """
CIVIC PLAYHOUSE HOUSE HANG - do not strike,,,,,,,
Position,Unit,Feet,Inches,Side,Instrument,Focus,Channel
Cove,1,18,0,SL,ERS 19,Area 1,101
,2,6,6,SL,ERS 19,Area 2,102
,3,6,6,SR,ERS 19,Area 2,103
,4,18,0,SR,ERS 19,Area 3,104
1st Electric,1,14,3,SL,ERS 36,Area 4,111
,2,0,0,,ERS 36,Area 5,112
,3,14,3,SR,ERS 36,Area 6,113
2nd Electric,1,10,0,SL,8in Fresnel,Area 7,121
,2,10,0,SR,8in Fresnel,Area 9,123
"""

COVE = """
Unit,Distance,Type,Focus,Channel
1,16'-0 SL,ERS 19,Area 1,1
2,16'-0 SR,ERS 19,Area 3,3
"""

FIRST = """
Unit,Distance,Type,Focus,Channel
1,13'-6 SL,ERS 36,Area 4,11
2,1'-0 SL,8in Fresnel,Area 5,12
3,13'-6 SR,ERS 36,Area 6,13
"""

SECOND = """
Unit,Distance,Type,Focus,Channel
1,9'-3 SL,PAR64 MFL,Area 7,21
2,9'-3 SR,PAR64 MFL,Area 9,22
"""

PHONES = """
Who,Phone
Stage door,ext. 20
Shop,ext. 31
"""

REP_PLOT = """
Position,Unit,Distance,Type,Focus,Color,Channel
Cove,1,15' SL,ERS 19,Area 1,02,1
Cove,2,0,ERS 19,Area 2,02,2
Cove,3,15' SR,ERS 19,Area 3,02,3
Units: 3,,,,,,
,,,,,,
1st Electric,1,12'-6 SL,ERS 36,Area 4,02,11
1st Electric,2,12'-6 SR,ERS 36,Area 6,02,13
Units: 2,,,,,,
,,,,,,
3rd Electric,1,11' SL,PAR64 MFL,Area 7,80,31
3rd Electric,2,0,PAR64 MFL,Area 8,80,32
3rd Electric,3,11' SR,PAR64 MFL,Area 9,80,33
Units: 3,,,,,,
Total units: 8,,,,,,
"""

FLOOR_AND_BARS = """
Position,Unit,Place,Type,Focus,Channel
LX 1,1,4.2 m SL,Fresnel 1.2k,DSL,1
LX 1,2,4.2 m SR,Fresnel 1.2k,DSR,2
LX 2,1,3.5 m SL,PC 1k,MSL,11
LX 2,2,CL,PC 1k,MSC,12
LX 2,3,3.5 m SR,PC 1k,MSR,13
Floor SL,1,-,Flood 500,Cloth,21
Floor SR,1,-,Flood 500,Cloth,22
"""

BAR_HEADINGS = """
Salt and Sand - hang sheet,,,,
,,,,
No.,Distance from CL,Lantern,Focus,Channel
LX 1 (trim 6 m),,,,
1,4.1 m SL,Fresnel 1.2k,DSL,1
2,0 m,Fresnel 1.2k,DSC,2
3,4.1 m SR,Fresnel 1.2k,DSR,3
LX 2 (trim 6 m),,,,
1,3.0 m SL,PC 1k,MSL,11
2,3.0 m SR,PC 1k,MSR,12
LX 3 (trim 6 m),,,,
1,2.4 m SL,Par 64,USL,21
2,2.4 m SR,Par 64,USR,22
"""

FORMULAS = """
Position,Unit,From CL (m),SL/SR,Type,Focus,Channel,Circuit,Watts,Amps
LX 1,1,4.4,SL,Fresnel 1.2k,DSL,1,L1,1200
LX 1,2,1.4,SL,Fresnel 1.2k,DSC,2,L2,1200
LX 1,3,1.4,SR,Fresnel 1.2k,DSC,3,L3,1200
LX 1,4,4.4,SR,Fresnel 1.2k,DSR,4,L4,1200
LX 2,1,2.75,SL,PC 1k,MSL,5,L5,1000
LX 2,2,2.75,SR,PC 1k,MSR,6,L6,1000
"""

LEGEND = """
Type,How many,Frame
Fresnel 1.2k,4,190
PC 1k,2,190
"""

SCHOOL = """
Drama room - hang list (tick when hung!),,,,,,
Bar,Lamp no.,Distance,Type,Lights up,Channel,Done
Bar 1,1,3.0 m SL,ers-30,area 1,1,
,2,1.0 m SL,ers-30,area 2,2,
,3,1.0 m SR,ers-30,area 2,3,
,4,3.0 m SR,ers-30,area 3,4,
Bar 3,1,2.2 m SL,fresnel-60,area 4,5,
,2,0 m,fresnel-60,area 5,6,
,3,2.2 m SR,fresnel-60,area 6,7,
"""

SIDE_BY_SIDE = """
Downstage Truss,,,,,,Upstage Truss,,,,
Unit,Distance,Type,Focus,Channel,,Unit,Distance,Type,Focus,Channel
1,10' SL,26 deg Profile,Guitar,1,,1,9' SL,LED Wash,Drums,11
2,0',26 deg Profile,Lead Vocal,2,,2,0',LED Wash,Drums,12
3,10' SR,26 deg Profile,Bass,3,,3,9' SR,LED Wash,Keys,13
"""

VERSION_1 = """
Position,Unit,Distance,Type,Focus,Channel
1st Electric,1,14' SL,ERS 36,Area 1,1
1st Electric,2,0,ERS 36,Area 2,2
1st Electric,3,14' SR,ERS 36,Area 3,3
2nd Electric,1,9' SL,8in Fresnel,Area 4,11
2nd Electric,2,9' SR,8in Fresnel,Area 6,12
"""

VERSION_2 = """
Position,Unit,Distance,Type,Focus,Channel
1st Electric,1,16' SL,ERS 36,Area 1,1
1st Electric,2,1' SR,ERS 36,Area 2,2
1st Electric,3,16' SR,ERS 36,Area 3,3
2nd Electric,1,9' SL,8in Fresnel,Area 4,11
2nd Electric,2,8' SR,8in Fresnel,Area 6,12
"""


def _at(name: str) -> str:
    return str(HERE / name)


def with_formulas(name: str) -> None:
    """XLSX with the amps of each row and the sum of the watts as formulas with their values."""
    rows: Sequence[Sequence[str | float | None]] = typed(FORMULAS)
    with Workbook(_at(name)) as book:
        sheet = book.add_worksheet("Hang")
        for number, row in enumerate(rows):
            for column, value in enumerate(row):
                if value is not None:
                    sheet.write(number, column, value)
            watts = row[8]
            if isinstance(watts, float):
                sheet.write_formula(number, 9, f"=I{number + 1}/230", None, round(watts / 230, 2))
        sheet.write(len(rows), 7, "Total")
        sheet.write_formula(len(rows), 8, "=SUM(I2:I7)", None, 6800)
        sheet.autofilter(0, 0, len(rows) - 1, 9)
        legend = book.add_worksheet("Legend")
        for number, row in enumerate(typed(LEGEND)):
            legend.write_row(number, 0, row)


def write_all() -> None:
    """Every workbook of this folder."""
    by_xlsxwriter(
        _at("house-plot.xlsx"),
        {"Rep": typed(HOUSE_PLOT)},
        {"Rep": ["A1:H1", "A3:A6", "A7:A9", "A10:A11"]},
    )
    electrics = {
        "Cove": typed(COVE),
        "1st Electric": typed(FIRST),
        "2nd Electric": typed(SECOND),
        "Phone list": typed(PHONES),
    }
    by_openpyxl(_at("sheet-for-each-electric.xlsx"), electrics, {})
    by_odf(_at("rep-plot-totals.ods"), {"Rep plot": typed(REP_PLOT)}, {})
    by_xlsxwriter(_at("floor-and-bars.xlsx"), {"Sheet1": typed(FLOOR_AND_BARS)}, {})
    by_odf(_at("bar-headings.ods"), {"Sheet1": typed(BAR_HEADINGS)}, {})
    with_formulas("formulas-and-filters.xlsx")
    by_openpyxl(
        _at("merged-school.xlsx"),
        {"Our hang": typed(SCHOOL)},
        {"Our hang": ["A1:G1", "A3:A6", "A7:A9"]},
    )
    by_openpyxl(
        _at("side-by-side.xlsx"),
        {"Trusses": typed(SIDE_BY_SIDE)},
        {"Trusses": ["A1:E1", "G1:K1"]},
    )
    versions = {"Hang v1": typed(VERSION_1), "Hang v2": typed(VERSION_2)}
    by_xlsxwriter(_at("two-versions.xlsx"), versions, {})


if __name__ == "__main__":
    write_all()
