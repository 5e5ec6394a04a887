"""Workbooks that would unfold beyond any memory are refused before they are opened."""

from __future__ import annotations

import io
import zipfile
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from odf.opendocument import OpenDocumentSpreadsheet
from odf.table import Table, TableCell, TableRow
from odf.text import P
from xlsxwriter import Workbook

from aimcalc.scene.files import check_workbook
from aimcalc.scene.loading import load_scene
from aimcalc.scene.mistakes import SceneError, Wrong
from tests.scene.written import only, write_scene
from tests.studies import cases


def _workbook(cells: dict[tuple[int, int], str]) -> bytes:
    data = io.BytesIO()
    with Workbook(data, {"in_memory": True}) as book:
        sheet = book.add_worksheet("Hang")
        for (row, column), text in cells.items():
            sheet.write(row, column, text)
    return data.getvalue()


def _archive(name: str, content: bytes, method: int = zipfile.ZIP_DEFLATED) -> bytes:
    data = io.BytesIO()
    with zipfile.ZipFile(data, "w", method) as archive:
        archive.writestr(name, content)
    return data.getvalue()


def _ods(rows: list[TableRow]) -> bytes:
    book = OpenDocumentSpreadsheet()
    table = Table(name="Hang")
    for row in rows:
        table.addElement(row)
    book.spreadsheet.addElement(table)
    data = io.BytesIO()
    book.write(data)
    return data.getvalue()


def _row(*cells: TableCell, **repeated: int) -> TableRow:
    row = TableRow(**repeated)
    for cell in cells:
        row.addElement(cell)
    return row


def _cell(text: str, **repeated: int) -> TableCell:
    cell = TableCell(valuetype="string", **repeated)
    cell.addElement(P(text=text))
    return cell


def test_a_stray_cell_in_the_last_corner_is_refused_with_its_reach() -> None:
    with pytest.raises(Wrong, match="the hang list alone") as caught:
        check_workbook(_workbook({(0, 0): "position", (1048575, 16383): "x"}))
    assert caught.value.came == "filled cells spread over 1048576 rows and 16384 columns"
    assert "stray cell" in caught.value.do


def test_the_stray_cell_is_told_where_the_scene_is_read(tmp_path: Path) -> None:
    path = write_scene(tmp_path, settings='hang = "hang.xlsx"')
    (tmp_path / "hang.xlsx").write_bytes(_workbook({(0, 0): "position", (1048575, 16383): "x"}))
    assert only(path).file == "hang.xlsx"


def test_a_stray_cell_of_an_open_document_is_refused() -> None:
    gap = _row(TableCell(numbercolumnsrepeated=16384), numberrowsrepeated=1048574)
    last = _row(TableCell(numbercolumnsrepeated=16383), _cell("x"))
    with pytest.raises(Wrong, match="the hang list alone") as caught:
        check_workbook(_ods([_row(_cell("position")), gap, last]))
    assert caught.value.came == "filled cells spread over 1048576 rows and 16384 columns"


def test_a_filled_cell_repeated_without_end_is_refused() -> None:
    rows = [_row(_cell("x", numbercolumnsrepeated=16384), numberrowsrepeated=1048576)]
    with pytest.raises(Wrong, match="the hang list alone"):
        check_workbook(_ods(rows))


def test_the_empty_rest_of_a_sheet_is_nothing() -> None:
    # What office programs write after the last row: the whole rest of the sheet, empty.
    first = _row(_cell("position"), TableCell(numbercolumnsrepeated=16383))
    rest = _row(TableCell(numbercolumnsrepeated=16384), numberrowsrepeated=1048575)
    check_workbook(_ods([first, rest]))
    check_workbook(_workbook({(row, column): "x" for row in range(72) for column in range(14)}))


def test_a_sheet_whose_cells_carry_no_names_is_measured_by_their_number() -> None:
    cells = b"<row><c t='n'><v>1</v></c></row>" * 100
    check_workbook(_archive("xl/worksheets/sheet1.xml", cells))
    many = b"<row>" * 5000 + b"<c><v>1</v></c>" * 5000
    with pytest.raises(Wrong, match="the hang list alone"):
        check_workbook(_archive("xl/worksheets/sheet1.xml", many))


def test_a_stored_sheet_is_measured_too() -> None:
    xml = b'<c r="XFD1048576">'
    with pytest.raises(Wrong, match="the hang list alone"):
        check_workbook(_archive("xl/worksheets/sheet1.xml", xml, zipfile.ZIP_STORED))


@pytest.mark.parametrize("tag", [b'<table:table "', b"<table:table-cell a='", b"<table:table-row "])
def test_tags_that_never_close_are_looked_through_once(tag: bytes) -> None:
    # Three megabytes in which each of 200,000 tags might go on to the end of the file.
    check_workbook(_archive("content.xml", tag * (3_000_000 // len(tag))))


def test_a_sheet_of_more_cells_than_any_list_is_refused_by_the_limit() -> None:
    rows = [_row(_cell("x", numbercolumnsrepeated=100), numberrowsrepeated=10_001)]
    with pytest.raises(Wrong, match="of at most 1,000,000 cells"):
        check_workbook(_ods(rows))


def test_a_workbook_that_unfolds_a_thousandfold_is_refused() -> None:
    with pytest.raises(Wrong, match="unfolds to at most 150 MB"):
        check_workbook(_archive("xl/media/picture.png", bytes(151_000_000)))


@pytest.mark.parametrize("data", [b"", b"PK", b"PK\5\6", b"PK\5\6" + b"\xff" * 18, bytes(1000)])
def test_what_is_no_archive_is_refused(data: bytes) -> None:
    with pytest.raises(Wrong, match="a workbook"):
        check_workbook(data)


@pytest.mark.long
@settings(max_examples=cases(25, 250), deadline=None)
@given(
    st.lists(st.tuples(st.floats(0, 1), st.integers(0, 255)), min_size=1, max_size=6),
    st.floats(0.2, 1),
)
def test_a_damaged_workbook_is_read_or_refused(
    tmp_path_factory: pytest.TempPathFactory, damage: list[tuple[float, int]], kept: float
) -> None:
    data = bytearray(_workbook({(0, 0): "position", (0, 1): "number", (1, 0): "LX 1"}))
    for place, byte in damage:
        data[int(place * (len(data) - 1))] = byte
    folder = tmp_path_factory.mktemp("damaged")
    path = write_scene(folder, settings='hang = "hang.xlsx"')
    (folder / "hang.xlsx").write_bytes(bytes(data[: int(kept * len(data))]))
    with pytest.raises(SceneError):  # what is whole lacks columns
        load_scene(path)
