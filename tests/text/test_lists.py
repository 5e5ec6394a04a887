"""The lists: every key of the answer, numbers with their units, and nothing a spreadsheet would run."""

import csv
import io
import json
import zipfile
from functools import cache
from pathlib import Path

import pytest
import python_calamine

from aimcalc.findings import findings
from aimcalc.scene.model import Target, Unit
from aimcalc.solid.answers import Finding
from aimcalc.solid.rig import solve_rig
from aimcalc.text import lists
from aimcalc.text.stamp import PaperOptions
from tests.rigs import ANSWER_KEYS, a_kind, a_scene
from tests.shows import a_show, rig_of

SCENES = Path(__file__).parents[2] / "scenes"

# The public keys of a unit, in the order in which they are promised.
POOL_KEYS = ["closed", "length", "width", "centre", "near", "far", "area"]
FINDING_KEYS = ["severity", "rule", "says", "do", "unit", "position", "row"]


@cache
def solved(name):
    rig = rig_of(name)
    return rig, findings(rig)


def mischief():
    """Names that a spreadsheet would take for formulas, as the user may well have typed them."""
    unit = Unit(
        position="p",
        number="=1+1",
        kind="+cmd|x",
        at=0.0,
        target="@SUM(A1)",
        system="-2+3",
        colour="\tR02",
        channel="12",
    )
    scene = a_scene([unit], [Target(name="@SUM(A1)", x=0.0, y=3.0)], kinds=[a_kind("+cmd|x")])
    return solve_rig(scene)


def workbook(rig, found=(), options=None):
    stream = io.BytesIO()
    lists.write_workbook(rig, list(found), stream, options or PaperOptions())
    return stream.getvalue()


def sheet(data, name):
    book = python_calamine.CalamineWorkbook.from_filelike(io.BytesIO(data))
    return book.get_sheet_by_name(name).to_python()


def csv_rows(rig, found=()):
    return list(csv.DictReader(io.StringIO(lists.as_csv(rig, list(found)).decode(), newline="")))


@pytest.mark.parametrize("name", ["studio", "playhouse", "raked"])
def test_json_has_the_promised_keys_and_no_number_that_is_none(name):
    rig, found = solved(name)
    text = lists.as_json(rig, found).decode()

    def refuse(word):
        raise AssertionError(f"{word} is no JSON")

    data = json.loads(text, parse_constant=refuse)
    assert list(data) == ["scene", "unit_of_length", "units", "findings"]
    assert data["unit_of_length"] == "m"
    assert data["scene"] == rig.scene.settings.title
    assert len(data["units"]) == len(rig.scene.units)
    for unit in data["units"]:
        assert list(unit) == ANSWER_KEYS
        for pool in (unit["face_pool"], unit["deck_pool"]):
            assert pool is None or sorted(pool) == sorted(POOL_KEYS)
    for finding in data["findings"]:
        assert sorted(finding) == sorted(FINDING_KEYS)


def test_what_does_not_exist_is_null_in_json_and_empty_in_csv():
    kind = a_kind(drop_under=0.0)
    unit = Unit(position="p", number="1", kind="k", at=0.0, point=(0.0, 0.0, 6.0))  # its own pivot
    rig = solve_rig(a_scene([unit], kinds=[kind]))
    (told,) = json.loads(lists.as_json(rig, []))["units"]
    (row,) = csv_rows(rig)
    for key in ("yoke", "pan", "throw", "lands", "face_pool", "blocked", "blocked_by"):
        assert told[key] is None
    for column in ("yoke (deg)", "throw (m)", "lands x (m)", "face_pool length (m)", "blocked"):
        assert row[column] == ""


@pytest.mark.parametrize("name", ["studio", "raked"])
def test_csv_holds_the_numbers_of_the_json(name):
    rig, found = solved(name)
    units = json.loads(lists.as_json(rig, found))["units"]
    rows = csv_rows(rig, found)
    assert [row["unit"] for row in rows] == [unit["unit"] for unit in units]
    for row, unit in zip(rows, units, strict=True):
        pairs = [
            ("heading (deg)", unit["heading"]),
            ("down (deg)", unit["down"]),
            ("pan (deg)", unit["pan"]),
            ("throw (m)", unit["throw"]),
            ("face z (m)", unit["face"][2]),
            ("clamp x (m)", unit["clamp"][0]),
            ("face_pool length (m)", (unit["face_pool"] or {}).get("length")),
            ("per_degree_down (m)", unit["per_degree_down"]),
        ]
        for column, value in pairs:
            if value is None:
                assert row[column] == ""
            else:
                assert float(row[column]) == pytest.approx(value, abs=1e-6)


def test_every_column_with_a_length_or_an_angle_names_its_unit():
    rig, _ = solved("studio")
    plain = set(ANSWER_KEYS) - set(lists.POINTS) - set(lists.POOLS)
    for header in lists.headers():
        numbers = header.split(" (")[0] in plain and header.split(" (")[0] in lists.UNITS
        assert not numbers or header.endswith((" (m)", " (deg)"))
    for row in csv_rows(rig):
        for header, cell in row.items():
            if cell.replace(".", "").replace("-", "").isdigit() and "(" not in header:
                assert header in ("number", "channel", "circuit", "colour", "blocked")


def test_csv_text_that_looks_like_a_formula_is_text_and_numbers_are_numbers():
    (row,) = csv_rows(mischief())
    assert row["number"] == "'=1+1"
    assert row["kind"] == "'+cmd|x"
    assert row["target"] == "'@SUM(A1)"
    assert row["system"] == "'-2+3"
    assert row["colour"] == "'\tR02"
    assert row["channel"] == "12"
    assert row["unit"] == "p/=1+1"  # does not start like one
    assert float(row["pivot y (m)"]) == 0.0
    assert not any(cell.startswith(tuple("=+@")) for cell in row.values())


def test_a_negative_number_stays_a_number_in_csv():
    (row,) = csv_rows(
        solve_rig(a_scene([Unit(position="p", number="1", kind="k", at=-2.5, point=(0, 3, 1))]))
    )
    assert row["clamp x (m)"] == "-2.5"


def test_workbook_cells_are_text_or_numbers_never_formulas():
    data = workbook(mischief())
    with zipfile.ZipFile(io.BytesIO(data)) as parts:
        sheets = [parts.read(name).decode() for name in parts.namelist() if "worksheets" in name]
    assert len(sheets) == 3
    assert not [xml for xml in sheets if "<f>" in xml or "<f " in xml]
    header, row = sheet(data, "numbers")
    cells = dict(zip(header, row, strict=True))
    assert cells["number"] == "=1+1"
    assert cells["target"] == "@SUM(A1)"
    assert cells["system"] == "-2+3"
    assert isinstance(cells["throw (m)"], float)


def test_workbook_numbers_are_those_of_the_csv():
    rig, found = solved("raked")
    header, *rows = sheet(workbook(rig, found), "numbers")
    for cells, expected in zip(rows, csv_rows(rig, found), strict=True):
        row = dict(zip(header, cells, strict=True))
        for column in ("heading (deg)", "throw (m)", "sight (m)", "lands y (m)"):
            if expected[column]:
                assert row[column] == pytest.approx(float(expected[column]), abs=1e-6)


def test_workbook_opens_with_the_aims_in_the_words_of_the_sheets():
    rig, found = solved("playhouse")
    data = workbook(rig, found, PaperOptions(length="ft"))
    book = python_calamine.CalamineWorkbook.from_filelike(io.BytesIO(data))
    assert book.sheet_names == ["aims", "numbers", "findings"]
    header, *rows = sheet(data, "aims")
    first = dict(zip(header, rows[0], strict=True))
    assert (first["position"], first["unit"], first["square"]) == ("house pipe", "1", "US")
    assert first["down or up"].startswith("DOWN ")
    assert first["throw"].endswith('"')
    assert len(rows) == len(rig.units)
    assert len(sheet(data, "findings")) == 1 + len(found)


def test_findings_of_a_unit_are_told_on_its_row():
    rig = mischief()
    found = [Finding("warn", "tight", "says", "do", unit="p/=1+1"), Finding("note", "x", "s", "d")]
    assert csv_rows(rig, found)[0]["findings"] == "warn tight"


def test_the_same_rig_gives_the_same_bytes():
    rig, found = solved("studio")
    assert workbook(rig, found) == workbook(rig, found)
    assert lists.as_csv(rig, found) == lists.as_csv(rig, found)
    assert lists.as_json(rig, found) == lists.as_json(rig, found)


def test_an_empty_rig_gives_headers_alone():
    rig = solve_rig(a_scene([]))
    assert csv_rows(rig) == []
    assert json.loads(lists.as_json(rig, []))["units"] == []
    assert len(sheet(workbook(rig), "numbers")) == 1


def test_lists_writes_all_three():
    rig, found = solved("studio")
    streams = [io.BytesIO() for _ in range(3)]
    lists.lists(a_show(rig, found), *streams, PaperOptions())
    assert streams[0].getvalue() == lists.as_csv(rig, found)
    assert streams[1].getvalue() == workbook(rig, found)
    assert streams[2].getvalue() == lists.as_json(rig, found)
