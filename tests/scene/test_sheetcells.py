"""Cells in error and hidden rows: told by place, in every format and every column."""

from __future__ import annotations

import csv
import zipfile
from pathlib import Path
from typing import Any

import pytest
from odf.namespaces import TABLENS
from odf.opendocument import OpenDocumentSpreadsheet
from odf.style import Style, TextProperties
from odf.table import Table, TableCell, TableRow
from odf.text import P
from xlsxwriter import Workbook

from aimcalc.findings.numbering import hidden
from aimcalc.scene.hanglist.table.sheetcells import sheet_parts, strikes, unseen
from aimcalc.scene.loading import load_scene
from aimcalc.solid.rig import solve_rig
from tests.scene.written import only, refused, write_scene

ERRORS = ("#N/A", "#REF!", "#DIV/0!", "#VALUE!", "#NAME?", "#NULL!", "#NUM!")
HEADS = ["position", "number", "at", "kind", "target", "mount", "channel"]
ROWS = [
    ["LX 1", 1, 1.0, "spot", "A", "over", 11],
    ["LX 1", 2, 2.0, "spot", "A", "over", 12],
    ["LX 1", 3, 3.0, "spot", "A", "", 13],
]


class Broken(str):
    """What a cell in error shows."""


def xlsx(path: Path, rows: list[list[Any]], hide: tuple[int, ...] = (), first: str = "") -> None:
    with Workbook(path) as book:
        sheet = book.add_worksheet("Hang")
        other = book.add_worksheet("Notes")
        other.write_formula(0, 0, "=NA()", None, "#N/A")  # another sheet is nobody's business
        grey = book.add_format({"bg_color": "#DDDDDD"})
        for number, row in enumerate(rows):
            for column, cell in enumerate(row):
                if isinstance(cell, Broken):
                    sheet.write_formula(number, column, "=1", None, cell)
                elif cell == "":
                    sheet.write_blank(number, column, None, grey)
                else:
                    sheet.write(number, column, cell)
        for number in hide:
            sheet.set_row(number, None, None, {"hidden": True})


def ods(path: Path, rows: list[list[Any]], hide: tuple[int, ...] = ()) -> None:
    """As LibreOffice writes it: an error is an empty text that shows something."""
    book = OpenDocumentSpreadsheet()
    table = Table(name="Hang")
    for number, row in enumerate(rows):
        line = TableRow()
        if number in hide:
            line.setAttrNS(TABLENS, "visibility", "collapse" if number % 2 else "filter")
        for cell in row:
            line.addElement(_ods_cell(cell))
        table.addElement(line)
    book.spreadsheet.addElement(table)
    book.save(path)


def _ods_cell(value: Any) -> TableCell:
    if value == "":
        return TableCell()
    if isinstance(value, Broken):
        cell = TableCell(valuetype="string", stringvalue="", formula="of:=NA()")
    elif isinstance(value, (int, float)):
        cell = TableCell(valuetype="float", value=str(value))
    else:
        cell = TableCell(valuetype="string")
    cell.addElement(P(text=str(value)))
    return cell


def text(path: Path, rows: list[list[Any]], hide: tuple[int, ...] = ()) -> None:
    with open(path, "w", newline="", encoding="utf-8") as file:
        csv.writer(file).writerows(rows)


WRITERS = {"xlsx": xlsx, "ods": ods, "csv": text}


def scene(folder: Path, ending: str, rows: list[list[Any]], hide: tuple[int, ...] = ()) -> str:
    WRITERS[ending](folder / f"hang.{ending}", [HEADS, *rows], hide)
    return write_scene(folder, settings=f'hang = "hang.{ending}"')


def with_cell(column: int, cell: object, row: int = 1) -> list[list[Any]]:
    rows = [list(one) for one in ROWS]
    rows[row][column] = cell
    return rows


@pytest.mark.parametrize("ending", WRITERS)
@pytest.mark.parametrize("column", range(len(HEADS)))
def test_a_cell_in_error_is_refused_by_its_place_in_any_column(tmp_path, ending, column):
    """(mount = #N/A used to be read as no mount at all: a unit over its pipe became one under it.)"""
    mistakes = refused(scene(tmp_path, ending, with_cell(column, Broken("#N/A"))))
    (told,) = [m for m in mistakes if m.came == '"#N/A"']
    letter = "ABCDEFG"[column]
    sheet = "" if ending == "csv" else "sheet Hang, "
    assert told.place() == f"hang.{ending}, {sheet}row 3, column {letter} ({HEADS[column]})"
    assert "formula" in told.expected


@pytest.mark.parametrize("ending", WRITERS)
@pytest.mark.parametrize("error", [*ERRORS, "Err:502"])
def test_every_error_of_a_spreadsheet_is_refused(tmp_path, ending, error):
    told = only(scene(tmp_path, ending, with_cell(6, Broken(error))))
    assert told.came == f'"{error}"'


@pytest.mark.parametrize("ending", WRITERS)
def test_an_error_pasted_as_text_is_refused_and_what_only_resembles_one_is_not(tmp_path, ending):
    assert only(scene(tmp_path, ending, with_cell(5, " #N/A "))).came.strip('" ') == "#N/A"
    units = load_scene(scene(tmp_path, ending, with_cell(6, "#12"))).units
    assert [unit.channel for unit in units] == ["11", "#12", "13"]


def test_a_formatted_empty_cell_hides_no_error_beside_it(tmp_path):
    rows = with_cell(6, Broken("#REF!"), row=2)  # its neighbour is an empty grey cell
    told = only(scene(tmp_path, "xlsx", rows))
    assert told.place() == "hang.xlsx, sheet Hang, row 4, column G (channel)"


@pytest.mark.parametrize("ending", ["xlsx", "ods"])
def test_units_of_hidden_rows_are_told(tmp_path, ending):
    rig = solve_rig(load_scene(scene(tmp_path, ending, ROWS, hide=(2, 3))))
    (finding,) = hidden(rig)
    assert finding.severity == "warn"
    assert "rows of units LX 1/2 and LX 1/3" in finding.says
    assert list(hidden(solve_rig(load_scene(scene(tmp_path, ending, ROWS))))) == []


@pytest.mark.parametrize("ending", WRITERS)
def test_a_list_without_errors_reads_alike_in_every_format(tmp_path, ending):
    units = load_scene(scene(tmp_path, ending, ROWS)).units
    assert [(unit.number, unit.mount) for unit in units] == [
        ("1", "over"),
        ("2", "over"),
        ("3", "under"),
    ]


@pytest.mark.parametrize("first", ["sep=;", '"sep=;"', "sep=;\r"])
def test_a_first_line_may_say_what_parts_the_cells(tmp_path, first):
    lines = [first.rstrip("\r"), ";".join(HEADS), *(";".join(map(str, row)) for row in ROWS)]
    end = "\r\n" if first.endswith("\r") else "\n"
    (tmp_path / "hang.csv").write_bytes(end.join(lines).encode())
    units = load_scene(write_scene(tmp_path, settings='hang = "hang.csv"')).units
    assert [unit.number for unit in units] == ["1", "2", "3"]
    assert units[0].source == "hang.csv, row 3"


@pytest.mark.parametrize("count", ["many", "-5", "9&#48;0000000", "1.5", ""])
def test_a_repeat_that_is_no_count_is_refused(tmp_path, count):

    scene(tmp_path, "ods", ROWS)
    path = tmp_path / "hang.ods"
    with zipfile.ZipFile(path) as archive:
        parts = {name: archive.read(name) for name in archive.namelist()}
    odd = f'<table:table-row table:number-rows-repeated="{count}">'.encode()
    parts["content.xml"] = parts["content.xml"].replace(b"<table:table-row>", odd, 1)
    with zipfile.ZipFile(path, "w") as archive:
        for name, data in parts.items():
            archive.writestr(name, data)
    assert only(str(tmp_path)).expected == "a workbook (.xlsx or .ods)"


@pytest.mark.parametrize("name", ["meshes\\set.obj", "meshes/set.obj"])
def test_a_file_in_a_folder_below_is_found_however_the_name_is_parted(tmp_path, name):
    (tmp_path / "meshes").mkdir()
    (tmp_path / "meshes" / "set.obj").write_text("v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 3\n")
    path = write_scene(tmp_path, f"[[solid]]\nname = 'set'\nmesh = '{name}'\n")
    rig = solve_rig(load_scene(path))
    assert rig.scenery.faces.shape[1] == 1


@pytest.mark.parametrize(
    "tag",
    [
        *(b"<c>", b'<c t="e">', b"<c ", b"<row ", b'<row hidden="1"', b'<sheet id="x"', b"<v "),
        *(b"<font ", b"<font>", b"<strike ", b"cellXfs<xf ", b"<xf fontId="),
    ],
)
def test_a_tag_that_is_never_closed_is_looked_through_once(tag):
    # A megabyte; each tag alone might look for its end through all of it.
    xml = b'<c t="e"><v>#N/A</v></c> hidden="1"' + tag * (1_000_000 // len(tag))
    files = {
        "xl/worksheets/sheet1.xml": xml,
        "xl/workbook.xml": xml,
        "xl/styles.xml": b"strike" + xml,
    }
    for part in sheet_parts(files, ["Hang"]).values():
        unseen(part, strikes(files))


@pytest.mark.parametrize("ending", ["xlsx", "ods"])
def test_a_line_through_a_row_or_a_cell_is_asked_about(ending: str, tmp_path: Path) -> None:
    struck = {(2, k) for k in range(7)} | {(3, 2)}
    file = tmp_path / f"hang.{ending}"
    (_lined_xlsx if ending == "xlsx" else _lined_ods)(file, [HEADS, *ROWS], struck)
    path = write_scene(tmp_path, settings=f'hang = "{file.name}"')
    told = sorted(mistake.text() for mistake in refused(path))
    assert len(told) == 2
    assert "row 3\n" in told[0]
    assert "columns A, B, C, D, E, F, G" in told[0]
    assert "row 4\n" in told[1]
    assert "column C" in told[1]


def _lined_xlsx(path: Path, rows: list[list[Any]], struck: set[tuple[int, int]]) -> None:
    with Workbook(path) as book:
        sheet = book.add_worksheet("Hang")
        bold, line = book.add_format({"bold": True}), book.add_format({"font_strikeout": True})
        for r, row in enumerate(rows):
            for c, cell in enumerate(row):
                sheet.write(r, c, cell, line if (r, c) in struck else bold)


def _lined_ods(path: Path, rows: list[list[Any]], struck: set[tuple[int, int]]) -> None:
    book = OpenDocumentSpreadsheet()
    line, plain = (Style(name=name, family="table-cell") for name in ("ce1", "ce2"))
    line.addElement(TextProperties(textlinethroughstyle="solid"))
    plain.addElement(TextProperties(textlinethroughstyle="none"))
    table = Table(name="Hang")
    for r, row in enumerate(rows):
        cells = TableRow()
        for c, value in enumerate(row):
            cell = _ods_cell(value)
            cell.setAttrNS(TABLENS, "style-name", "ce1" if (r, c) in struck else "ce2")
            cells.addElement(cell)
        table.addElement(cells)
    book.automaticstyles.addElement(line)
    book.automaticstyles.addElement(plain)
    book.spreadsheet.addElement(table)
    book.save(path)


@pytest.mark.parametrize(("worked", "unvalued"), [((-2, -1, 0, 1), 0), ((0, 0, 0, 1), 3)])
def test_a_nought_among_formulas_that_are_worked_out_is_one(
    tmp_path: Path, worked: tuple[int, ...], unvalued: int
) -> None:
    with Workbook(tmp_path / "hang.xlsx") as book:
        sheet = book.add_worksheet("Hang")
        for k, value in enumerate(worked):
            sheet.write_formula(k, 0, f"={k}*$K$1", None, value)
    with zipfile.ZipFile(tmp_path / "hang.xlsx") as archive:
        files = {name: archive.read(name) for name in archive.namelist()}
    parts = sheet_parts(files, ["Hang"])
    assert len(unseen(next(iter(parts.values()))).unworked) == unvalued
