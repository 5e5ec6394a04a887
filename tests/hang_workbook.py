"""Writes a hang list in CSV as the same list in XLSX.

    python tests/hang_workbook.py scenes/playhouse/hang.csv scenes/playhouse/hang.xlsx

Run it after every change of the CSV; a test says when the two differ.
"""

from __future__ import annotations

import csv
import datetime
import io
import sys

from aimcalc.text.lists import own_properties

NUMBERS = ("number", "channel", "transmission")  # cells a person would type as figures
EPOCH = datetime.datetime(2000, 1, 1)  # the same list gives the same bytes


def write_workbook(csv_path: str, xlsx_path: str) -> None:
    """One sheet, a bold heading that stays in sight, a column as wide as its longest cell."""
    import xlsxwriter

    with open(csv_path, newline="", encoding="utf-8-sig") as file:
        rows = list(csv.reader(file))
    data = io.BytesIO()
    with xlsxwriter.Workbook(data) as book:
        book.set_properties({"title": "Hang list", "created": EPOCH})
        sheet = book.add_worksheet("Hang")
        bold = book.add_format({"bold": True})
        sheet.freeze_panes(1, 0)
        for column, heading in enumerate(rows[0]):
            sheet.set_column(column, column, 2 + max(len(row[column]) for row in rows))
            sheet.write_string(0, column, heading, bold)
            for line, row in enumerate(rows[1:], start=1):
                _write(sheet, line, column, heading, row[column])
    with open(xlsx_path, "wb") as file:
        file.write(own_properties(data.getvalue()))


def _write(sheet: object, line: int, column: int, heading: str, cell: str) -> None:
    if not cell:
        return
    if heading in NUMBERS and cell.replace(".", "", 1).isdigit():
        sheet.write_number(line, column, float(cell))  # type: ignore[attr-defined]
    else:
        sheet.write_string(line, column, cell)  # type: ignore[attr-defined]


if __name__ == "__main__":
    write_workbook(*sys.argv[1:3])
