"""Hang lists: in every format the same units as TOML, and mistakes told by sheet, row and column."""

from __future__ import annotations

import csv
import datetime
from pathlib import Path
from typing import Any

import pytest
from msgspec.structs import replace
from odf.opendocument import OpenDocumentSpreadsheet
from odf.table import Table, TableCell, TableRow
from odf.text import P
from xlsxwriter import Workbook

from aimcalc.scene.hanglist import tablereader
from aimcalc.scene.hanglist.columns.columnkeys import column_letters
from aimcalc.scene.loading import load_scene
from aimcalc.scene.model import Unit
from tests.scene.written import only, write_scene
from tests.studies import cases

HEADINGS = [
    *("Position", "Number", "AT", "kind", "Target", "point", "Mount", "Swing Out", "arm"),
    *("arm_to", "system", "Channel", "colour", "transmission", "precise", "turn", "Connector"),
]
ROWS: list[list[Any]] = [
    ["LX 1", 7, "6'-2\" SR", "spot", "A", "", "", "", "", "", "front warm", 101, "L201", 0.8, "x"],
    ["LX 1", 8, 1.5, "ers-30", "", "1 m SR; 2 m US; 1.5", "over", "", "", "", "", 102, 201],
    ["LX 1", "9A", "centre", "spot", "A", "", "", "30 DS", "", "", "", "", "", "", "", "", '9" SL'],
    [],
    ["side", 1, "½ m DS", "spot", "A", "", "", "", "", "", "", "", "", "", "no", "across"],
    ["boom SR", 1, 3, "spot", "A", "", "", "", "1'-6\"", "SL", "side"],
    ["boom SR", 2, 2.5, "spot", "A", "", "direct", "", "", 45],
    ["floor", 1, "", "spot", "A"],
]
# The same units as TOML, written by hand.
AS_TOML = """
[[unit]]
position = "LX 1"
number = 7
at = "6'-2\\" SR"
kind = "spot"
target = "A"
system = "front warm"
channel = 101
colour = "L201"
transmission = 0.8
precise = true

[[unit]]
position = "LX 1"
number = 8
at = 1.5
kind = "ers-30"
point = ["1 m SR", "2 m US", 1.5]
mount = "over"
channel = "102"
colour = "201"

[[unit]]
position = "LX 1"
number = "9A"
at = "centre"
kind = "spot"
target = "A"
swing_out = "30 DS"
connector = "9\\" SL"

[[unit]]
position = "side"
number = 1
at = "½ m DS"
kind = "spot"
target = "A"
precise = false
turn = "across"

[[unit]]
position = "boom SR"
number = 1
at = 3
kind = "spot"
target = "A"
arm = "1'-6\\""
arm_to = "SL"
system = "side"

[[unit]]
position = "boom SR"
number = 2
at = 2.5
kind = "spot"
target = "A"
mount = "direct"
arm_to = 45

[[unit]]
position = "floor"
number = 1
kind = "spot"
target = "A"
"""


def _write_csv(path: Path, rows: list[list[Any]], mark: str = ",", encoding: str = "utf-8") -> None:
    with open(path, "w", newline="", encoding=encoding) as file:
        csv.writer(file, delimiter=mark).writerows(rows)


def _write_xlsx(path: Path, rows: list[list[Any]]) -> None:
    with Workbook(path) as book:
        sheet = book.add_worksheet("Hang")
        for number, row in enumerate(rows):
            sheet.write_row(number, 0, [None if cell == "" else cell for cell in row])


def _write_ods(path: Path, rows: list[list[Any]]) -> None:
    book = OpenDocumentSpreadsheet()
    table = Table(name="Hang")
    for row in rows:
        line = TableRow()
        for value in row:
            line.addElement(_ods_cell(value))
        table.addElement(line)
    book.spreadsheet.addElement(table)
    book.save(path)


def _ods_cell(value: object) -> TableCell:
    if value == "":
        return TableCell()
    if isinstance(value, (int, float)):
        cell = TableCell(valuetype="float", value=str(value))
    else:
        cell = TableCell(valuetype="string")
    cell.addElement(P(text=str(value)))
    return cell


def _units(path: str) -> list[Unit]:
    """Units without the place they were written at."""
    return [replace(unit, source="") for unit in load_scene(path).units]


def _hang(tmp_path: Path, name: str, rows: list[list[Any]] | None = None, **how: Any) -> str:
    """A scene whose units are in the hang list `name`."""
    path = write_scene(tmp_path, settings=f'hang = "{name}"')
    write = {"xlsx": _write_xlsx, "ods": _write_ods}.get(name.rpartition(".")[2], _write_csv)
    write(tmp_path / name, [HEADINGS, *ROWS] if rows is None else rows, **how)
    return path


@pytest.mark.parametrize(
    ("name", "how"),
    [
        ("hang.csv", {}),
        ("hang.csv", {"mark": ";"}),
        ("hang.csv", {"mark": "\t"}),
        ("hang.csv", {"encoding": "utf-8-sig"}),
        ("hang.CSV", {"mark": ";", "encoding": "utf-8-sig"}),
        ("hang.tsv", {"mark": "\t"}),
        ("hang.xlsx", {}),
        ("hang.ods", {}),
    ],
)
def test_a_hang_list_gives_the_units_of_the_same_toml(
    tmp_path: Path, name: str, how: dict[str, Any]
) -> None:
    toml = _units(write_scene(tmp_path / "toml", AS_TOML))
    assert _units(_hang(tmp_path, name, **how)) == toml
    assert len(toml) == 7


def test_a_hang_list_follows_the_units_of_the_scene(tmp_path: Path) -> None:
    _hang(tmp_path, "hang.csv")
    path = write_scene(tmp_path, AS_TOML, settings='hang = "hang.csv"')
    scene = load_scene(path)
    assert [unit.number for unit in scene.units] == ["7", "8", "9A", "1", "1", "2", "1"] * 2
    assert scene.units[6].source == "scene.toml, [[unit]] no. 7"
    assert scene.units[7].source == "hang.csv, row 2"
    assert scene.units[10].source == "hang.csv, row 6"  # a blank row is a row all the same


def test_the_source_of_a_spreadsheet_row_names_its_sheet(tmp_path: Path) -> None:
    scene = load_scene(_hang(tmp_path, "hang.xlsx"))
    assert scene.units[0].source == "hang.xlsx, sheet Hang, row 2"


@pytest.mark.parametrize("name", ["hang.csv", "hang.xlsx", "hang.ods"])
def test_a_mistake_is_told_by_row_and_column(tmp_path: Path, name: str) -> None:
    rows = [["position", "number", "kind", "at", "target"], ["LX 1", 1, "spot", "two", "A"]]
    place = only(_hang(tmp_path, name, rows)).place()
    sheet = "" if name == "hang.csv" else "sheet Hang, "
    assert place == f"{name}, {sheet}row 2, column D (at)"


def test_a_needed_column_that_is_empty_is_told_by_its_row(tmp_path: Path) -> None:
    rows = [["position", "number", "at", "kind", "target"], ["LX 1", 1, 0, "spot", ""]]
    mistake = only(_hang(tmp_path, "hang.csv", rows))
    assert mistake.place() == "hang.csv, row 2, column E (target)"
    assert mistake.came == "nothing"


def test_a_whole_number_of_a_spreadsheet_is_a_number_without_a_point(tmp_path: Path) -> None:
    rows = [["position", "number", "at", "kind", "target"], ["LX 1", 7.0, 0.0, "spot", "A"]]
    assert load_scene(_hang(tmp_path, "hang.xlsx", rows)).units[0].number == "7"


def test_headings_may_be_spelled_with_capitals_spaces_and_underscores(tmp_path: Path) -> None:
    rows = [
        [" POSITION ", "Number", "At", "Kind", "target", "Swing-Out", "ARM TO"],
        ["LX 1", 1, 0, "spot", "A", 30, "DS"],
    ]
    found = load_scene(_hang(tmp_path, "hang.csv", rows)).units[0]
    assert (found.swing_out, found.out_to) == (30.0, "DS")


@pytest.mark.parametrize("name", ["hang.csv", "hang.xlsx", "hang.ods"])
def test_empty_rows_and_columns_are_nothing(tmp_path: Path, name: str) -> None:
    rows = [
        ["", "", "", "", "", "", ""],
        ["position", "", "number", "at", "kind", "target", ""],
        ["", "", "", "", "", "", ""],
        ["LX 1", " ", 1, 0, "spot", "A", ""],
    ]
    scene = load_scene(_hang(tmp_path, name, rows))
    assert [unit.source.rpartition(" ")[2] for unit in scene.units] == ["4"]


def test_a_filled_cell_without_a_heading_is_kept_as_a_remark(tmp_path: Path) -> None:
    head = ["position", "", "number", "at", "kind", "target"]
    rows = [head, ["LX 1", "spare", 1, 0, "spot", "A"], ["LX 1", "", 2, 0, "spot", "A", "more"]]
    scene = load_scene(_hang(tmp_path, "hang.csv", rows))
    assert [unit.note for unit in scene.units] == ["spare", "more"]
    (taken,) = scene.taken
    assert "column B, without a heading" in taken.says
    assert "column G, without a heading" in taken.says


def test_headings_that_come_twice_are_told_by_their_letters(tmp_path: Path) -> None:
    rows = [["position", "number", "at", "kind", "target", "Color", "Kind"]]
    rows += [["LX 1", 1, 0, "spot", "A", "L201", "spot"]]
    twice = only(_hang(tmp_path, "hang.csv", rows))
    assert twice.place() == "hang.csv, row 1, column G"
    assert twice.expected == (
        'one column that holds the kind, and it may be column D ("kind") or column G ("Kind")'
    )
    assert "[hang_columns] kind = " in twice.do


def test_a_length_that_a_spreadsheet_took_for_a_date_is_told_as_one(tmp_path: Path) -> None:
    path = write_scene(tmp_path, settings='hang = "hang.xlsx"')
    with Workbook(tmp_path / "hang.xlsx") as book:
        sheet = book.add_worksheet("Hang")
        sheet.write_row(0, 0, ["position", "number", "at", "kind", "target"])
        sheet.write_row(1, 0, ["LX 1", 1, None, "spot", "A"])
        day = book.add_format({"num_format": "d-mmm"})
        sheet.write_datetime(1, 2, datetime.datetime(2024, 6, 2), day)
    assert only(path).came.startswith("the date or time 2024-06-02")


@pytest.mark.parametrize(
    ("name", "data", "reason"),
    [
        ("hang.csv", b"", "a row of headings"),
        ("hang.csv", b"\xff\xfeposition,number", "text in UTF-8"),
        ("hang.csv", bytes(range(1, 256)) * 9, "text in UTF-8"),
        ("hang.csv", b"position,num\x00ber\n", "text in UTF-8"),
        ("hang.csv", b"position,number\n" + b"x" * 200_000, "CSV that can be read"),
        ("hang.xlsx", b"position,number\n", "a workbook (.xlsx or .ods)"),
        ("hang.ods", b"PK\x03\x04 and no more", "a workbook (.xlsx or .ods)"),
        ("hang.doc", b"position", "a hang list ending in"),
        ("hang.csv", b"x," * 10_500_000, "a file of at most 20 MB"),
    ],
)
def test_a_file_that_is_no_hang_list_is_refused(
    tmp_path: Path, name: str, data: bytes, reason: str
) -> None:
    path = write_scene(tmp_path, settings=f'hang = "{name}"')
    (tmp_path / name).write_bytes(data)
    mistake = only(path)
    assert (mistake.file, reason in mistake.expected) == (name, True), mistake.text()


def test_a_sheet_without_headings_is_one_mistake_that_says_what_they_are(tmp_path: Path) -> None:
    path = write_scene(tmp_path, settings='hang = "hang.xlsx"')
    with Workbook(tmp_path / "hang.xlsx") as book:
        sheet = book.add_worksheet("Plot")
        sheet.merge_range(0, 0, 0, 4, "Hang list, revision A")
        sheet.write_row(2, 0, ["LX 1", 1, 0, "spot", "A"])
    mistake = only(path)
    assert mistake.came == 'sheet Plot: "Hang list, revision A"'
    assert "Write the headings in one row" in mistake.do


def test_a_sheet_that_is_not_there_is_told_with_those_that_are(tmp_path: Path) -> None:
    settings = 'hang = "hang.xlsx"\nhang_sheet = "Plat"'
    path = write_scene(tmp_path, settings=settings)
    with Workbook(tmp_path / "hang.xlsx") as book:
        book.add_worksheet("Cover").write(2, 1, "Our show")
        book.add_worksheet("Plot").write_row(0, 0, HEADINGS)
    mistake = only(path)
    assert (mistake.came, mistake.advice()) == ('"Plat"', 'Did you mean "Plot"?')


def test_a_broken_quote_is_told_by_its_line(tmp_path: Path) -> None:
    path = write_scene(tmp_path, settings='hang = "hang.csv"')
    text = "position,number,at,kind,target\n" + '"LX 1,1,0,spot,A\n' + "LX 1,1,0,spot,A\n" * 9000
    (tmp_path / "hang.csv").write_text(text)
    assert "in line" in only(path).came


def test_a_hang_list_outside_the_folder_is_refused(tmp_path: Path) -> None:
    _write_csv(tmp_path / "hang.csv", [HEADINGS, *ROWS])
    mistake = only(write_scene(tmp_path / "show", settings='hang = "../hang.csv"'))
    assert mistake.place() == "scene.toml, [scene], hang"
    assert "in the scene's folder" in mistake.expected


@pytest.mark.long
def test_twenty_thousand_rows_are_read_and_no_more(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert tablereader.MOST_ROWS == 20_000
    most = cases(2_000, 20_000)
    monkeypatch.setattr(tablereader, "MOST_ROWS", most)
    rows = [["position", "number", "at", "kind", "target"]]
    rows += [["LX 1", str(n), f"{n % 5} m SL", "spot", "A"] for n in range(most)]
    rows += [["", "", "", "", ""]] * most  # those with nothing in them do not count
    assert len(load_scene(_hang(tmp_path, "hang.csv", rows)).units) == most
    mistake = only(_hang(tmp_path, "hang.csv", [*rows, ["LX 1", "x", "0", "spot", "A"]]))
    assert mistake.expected == f"at most {most:,} rows with a unit in each"


def test_a_thousand_columns_are_kept_in_a_remark_of_bearable_length(tmp_path: Path) -> None:
    head = [["position", "number", "at", "kind", "target"]]
    long_row = [["LX 1", "1", "0", "spot", "A", *["z"] * 1000]]
    (unit,) = load_scene(_hang(tmp_path / "row", "hang.csv", head + long_row)).units
    assert unit.note is not None
    assert len(unit.note) == 200
    long_head = [[*head[0], *(f"more {n}" for n in range(1000))], ["LX 1", "1", "0", "spot", "A"]]
    (taken,) = load_scene(_hang(tmp_path / "head", "hang.csv", long_head)).taken
    assert taken.says.endswith('"more 11" and 988 more.')


def test_columns_have_the_letters_of_a_spreadsheet() -> None:
    letters = {0: "A", 25: "Z", 26: "AA", 51: "AZ", 52: "BA", 701: "ZZ", 702: "AAA", 16383: "XFD"}
    assert {index: column_letters(index) for index in letters} == letters
