"""Edits saved: what is read back is what they made, and nothing else in the files has changed."""

from __future__ import annotations

import difflib
import errno
import io
import json
import os
import re
import shutil
import zipfile
from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryDirectory

import openpyxl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from openpyxl.styles import Font, PatternFill

from aimcalc import cli
from aimcalc.desk.edits import Edit, changed
from aimcalc.desk.saving import SaveError, save, seen
from aimcalc.scene.loading import load_scene
from aimcalc.scene.mistakes import SceneError
from aimcalc.scene.model import Pipe
from tests.scene.written import UNIT, write_scene
from tests.test_changed import told

SCENES = Path(__file__).parents[2] / "scenes"

EDITS = {
    "playhouse": [
        Edit("area 3", "x", "1'-6\" SL"),
        Edit("area 3", "face_height", "5'"),
        Edit("bench", "face_height", None),
        Edit("pipe 2", "trim", "20'-3\""),
        Edit("floor SR", "x", "17'-6\" SR"),
        Edit("drop 6", "y", "27' US"),
        Edit("pipe 1/2", "at", "11'-9\" SL"),
        Edit("pipe 1/3", "colour", 'blue "9"; pale'),
        Edit("boom SL/1", "at", 15.25),
        Edit("house pipe/4", "channel", 22),
        Edit("house pipe/4", "circuit", None),
    ],
    "raked": [
        Edit("hilltop", "y", "6.7 m US"),
        Edit("mark 6", "x", "2.9 m SR"),
        Edit("roof bar", "start", ["5 m SL", "3.8 m US", "5.65 m"]),
        Edit("house bar/2", "kind", "ers-30"),
        Edit("errors", "trim", 0.02),
    ],
    "studio": [
        Edit("chair SR", "x", "1.55 m SR"),
        Edit("stage", "rake", 0.01),
        Edit("scene", "face_height", 1.25),
        Edit("boom SL/1", "arm", "0.5 m"),
        Edit("back pipe/3", "colour", "amber"),
        Edit("front pipe/1", "colour", None),
        Edit("front pipe/2", "point", ["0.1 m SL", 0.9, "1.2 m"]),
        Edit("front pipe/2", "target", None),
    ],
    "arena": [
        Edit("market bar", "trims", {"market": "4.5 m", "storm": "5.2 m"}),
        Edit("truss/4", "at", "1.45 m SL"),
        Edit("truss/2", "swing_out", "80 DS"),
        Edit("floor", "y", "0.1 m US"),
    ],
}


@pytest.fixture(params=EDITS)
def worked(request: pytest.FixtureRequest, tmp_path: Path) -> tuple[str, Path]:
    """A worked scene's name, and a copy of it."""
    folder = tmp_path / request.param
    shutil.copytree(SCENES / request.param, folder)
    return request.param, folder


def files(folder: Path) -> dict[str, bytes]:
    return {str(p.relative_to(folder)): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


@pytest.fixture
def solved(capfd: pytest.CaptureFixture[str]) -> Callable[..., dict[str, object]]:
    """What `solve --json` prints of a scene, without what was set for it."""

    def run(path: Path, *more: str) -> dict[str, object]:
        assert cli.run(["solve", str(path), "--json", *more]) in (0, 1)
        answer = json.loads(capfd.readouterr().out)
        answer.pop("what_if", None)
        return answer

    return run


def typed(edits: list[Edit]) -> list[str]:
    """The edits as options, written by hand: a text in quotes, a list as in TOML."""
    found: list[str] = []
    for edit in edits:
        value = "" if edit.value is None else json.dumps(edit.value)
        if isinstance(edit.value, dict):
            value = "{" + ", ".join(f"{k} = {json.dumps(v)}" for k, v in edit.value.items()) + "}"
        found += ["--set", f"{edit.name}.{edit.key}={value}"]
    return found


# --- the saved scene ---


def test_the_saved_scene_solved_is_the_what_if_to_the_last_digit(
    worked, solved, tmp_path: Path
) -> None:
    name, folder = worked
    save(seen(str(folder)), EDITS[name], str(tmp_path / "saved"))
    wanted = solved(folder, *typed(EDITS[name]))
    assert solved(tmp_path / "saved") == wanted
    assert solved(folder) != wanted


def test_in_its_own_place_only_what_was_touched_is_another(worked, solved) -> None:
    name, folder = worked
    before = files(folder)
    wanted = solved(folder, *typed(EDITS[name]))
    save(seen(str(folder)), EDITS[name])
    after = files(folder)
    assert solved(folder) == wanted
    assert before.keys() == after.keys()
    lists = {"playhouse": "hang.xlsx", "raked": "hang.csv", "arena": "hang.csv"}
    touched = {"scene.toml", lists.get(name, "scene.toml")}
    assert {file for file in after if after[file] != before[file]} == touched


def test_only_the_lines_of_what_was_edited_change(worked) -> None:
    """In the TOML by a count made by hand; in a list of text, a line for each unit."""
    name, folder = worked
    before = files(folder)
    save(seen(str(folder)), EDITS[name])
    after = files(folder)
    diff = _lines(before["scene.toml"], after["scene.toml"])
    text = [file for file in after if file.endswith(".csv") and after[file] != before[file]]
    for file in text:
        units = {e.name for e in EDITS[name] if "/" in e.name}
        assert len(_lines(before[file], after[file])) == 2 * len(units)
    assert len(diff) == LINES_OF[name]


def _lines(old: bytes, new: bytes) -> list[str]:
    a, b = old.decode().splitlines(), new.decode().splitlines()
    return [line for line in difflib.ndiff(a, b) if line[:2] in ("- ", "+ ")]


# area 3 x (2), face_height (1), bench (1), trim, floor and drop (2 each); hilltop, mark, start (2 each),
# errors with a blank line before (3); chair, scene, arm (2 each), rake, two colours (1 each), a point for
# a target (2); trims and floor (2 each).
LINES_OF = {"playhouse": 10, "raked": 9, "studio": 11, "arena": 4}


def test_comments_behind_values_and_before_the_next_table_stay_where_they_are(
    tmp_path: Path,
) -> None:
    folder = tmp_path / "playhouse"
    shutil.copytree(SCENES / "playhouse", folder)
    edits = [
        Edit("bench", "face_height", "4'-2\""),
        Edit("door", "z", "1'"),
        Edit("scene", "volts", 115),
    ]
    save(seen(str(folder)), edits)
    text = (folder / "scene.toml").read_text()
    assert 'face_height = "4\'-2\\""       # seated\n' in text
    assert 'plane = "face"\nz = "1\'"\n\n# Things rather than people' in text
    assert "\nvolts = 115\n" in text


@pytest.mark.parametrize("ends", ["\r\n", "\n"])
@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
def test_line_ends_and_a_byte_order_mark_are_kept(tmp_path: Path, ends: str, mark: bytes) -> None:
    folder = Path(write_scene(tmp_path / "s", UNIT))
    file = folder / "scene.toml"
    data = mark + file.read_text().rstrip("\n").replace("\n", ends).encode()
    file.write_bytes(data)
    save(seen(str(folder)), [Edit("LX 1", "trim", 6.25), Edit("LX 1/1", "colour", "red")])
    added = f'{ends}colour = "red"{ends}'.encode()
    assert file.read_bytes() == data.replace(b"trim = 6", b"trim = 6.25") + added


def test_tables_written_in_one_line_and_what_only_looks_like_a_header(tmp_path: Path) -> None:
    folder = tmp_path / "s"
    folder.mkdir()
    text = '''target = [ { name = "A", x = 0, y = 3 }, { name = "B", x = 1, y = 2 } ] # two of them
[scene]
title = "Odd"
note = """
[[pipe]]
no table"""
[[pipe]]
name = "p"
trim = 6
y = 0
from = -5
to = 5
lines = [
  -3, # the first
  3
]
[[pipe.circuits]]
name = "c1"
at = 1

[[unit]]
position = "p"
number = 1
at = 0
kind = "ers-20"
target = "A"
'''
    (folder / "scene.toml").write_text(text)
    edits = [
        Edit("B", "y", 2.5),
        Edit("A", "z", 0.1),
        Edit("p", "measured", True),
        Edit("p", "y", 0.2),
    ]
    save(seen(str(folder)), edits)
    after = (folder / "scene.toml").read_text()
    assert after == text.replace("y = 2 }", "y = 2.5 }").replace(
        "y = 3 }", "y = 3, z = 0.1}"
    ).replace("y = 0\n", "y = 0.2\n").replace("  3\n]\n", "  3\n]\nmeasured = true\n")


def test_a_scene_file_of_another_name_becomes_a_folder(tmp_path: Path) -> None:
    folder = Path(write_scene(tmp_path / "s", UNIT))
    (folder / "scene.toml").rename(folder / "plot.toml")
    made = save(seen(str(folder / "plot.toml")), [Edit("A", "x", 1)], str(tmp_path / "new"))
    assert [os.path.basename(path) for path in made] == ["scene.toml"]
    assert load_scene(tmp_path / "new").targets[0].x == 1.0


def test_a_new_folder_has_every_file_that_the_scene_names(tmp_path: Path) -> None:
    folder = tmp_path / "playhouse"
    shutil.copytree(SCENES / "playhouse", folder)
    (folder / "meshes").mkdir()
    (folder / "tree.obj").rename(folder / "meshes" / "tree.obj")
    text = (folder / "scene.toml").read_text()
    (folder / "scene.toml").write_text(text.replace('"tree.obj"', '"meshes/tree.obj"'))
    save(seen(str(folder)), [Edit("area 3", "x", "1'")], str(tmp_path / "a" / "new"))
    new = files(tmp_path / "a" / "new")
    assert new.keys() == {"scene.toml", "hang.xlsx", "meshes/tree.obj"}
    assert new["meshes/tree.obj"] == (SCENES / "playhouse" / "tree.obj").read_bytes()
    assert new["hang.xlsx"] == (SCENES / "playhouse" / "hang.xlsx").read_bytes()
    assert os.listdir(tmp_path / "a") == ["new"]


# --- hang lists of text ---

ROWS = 'position,number,at,kind,target,note\r\nLX 1,1,1.5,spot,A,"says ""hello"", twice"\r\n'
ROWS += "LX 1,2,-1,spot,A,Gänge"


def listed(tmp_path: Path, data: bytes, name: str = "hang.csv", more: str = "") -> Path:
    folder = Path(write_scene(tmp_path / "s", more, settings=f'hang = "{name}"'))
    (folder / name).write_bytes(data)
    return folder


@pytest.mark.parametrize(
    ("codec", "mark"),
    [
        ("utf-8", ","),
        ("utf-8-sig", ";"),
        ("utf-16", "\t"),
        ("cp1252", "|"),
        ("mac_roman", ";"),
        ("utf-16-le", ","),
    ],
)
def test_a_list_of_text_keeps_its_encoding_marks_quotes_and_line_ends(
    tmp_path: Path, codec: str, mark: str
) -> None:
    text = ROWS.replace(",", mark).replace(f"{mark} twice", ", twice")
    folder = listed(tmp_path, text.encode(codec))
    save(seen(str(folder)), [Edit("LX 1/1", "at", "1.75 m SL"), Edit("LX 1/2", "target", "A")])
    after = text.replace(f"1{mark}1.5{mark}spot", f"1{mark}1.75 m SL{mark}spot")
    assert (folder / "hang.csv").read_bytes() == after.encode(codec)


def test_a_cell_is_quoted_where_it_has_to_be_or_was(tmp_path: Path) -> None:
    folder = listed(tmp_path, b'position,number,at,kind,target,colour,note\nLX 1,1,"1",spot,A,x\n')
    edits = [
        Edit("LX 1/1", "at", "2 m"),
        Edit("LX 1/1", "colour", 'a, "b"'),
        Edit("LX 1/1", "note", "n"),
    ]
    save(seen(str(folder)), edits)
    row = (folder / "hang.csv").read_bytes().splitlines()[1]
    assert row == b'LX 1,1,"2 m",spot,A,"a, ""b""",n'


def test_a_first_line_that_names_the_mark_is_passed(tmp_path: Path) -> None:
    folder = listed(tmp_path, b"sep=;\nposition;number;at;kind;target\nLX 1;1;1;spot;A\n")
    save(seen(str(folder)), [Edit("LX 1/1", "at", -2)])
    assert (folder / "hang.csv").read_bytes().endswith(b"\nLX 1;1;-2 m;spot;A\n")


@pytest.mark.parametrize(
    ("head", "rows", "edit", "says"),
    [
        ("", b"LX 1,1,1,spot,A,x\n", Edit("LX 1/1", "colour", "x"), "no column for colour"),
        ("", b"LX 1,1,1,spot,A,\xe9t\xe9\n", Edit("LX 1/1", "note", "1′"), "no UTF-8"),
        (" ", b"LX 1      1       1   spot  A       x\n", Edit("LX 1/1", "at", 2), "by spaces"),
        ("", b'LX 1,1,1,spot,A,\n"",2,2,spot,A,\n', Edit("LX 1/1", "position", "side"), "LX 1/2"),
        ("from SL end (cm)", b"LX 1,1,120,spot,A,\n", Edit("LX 1/1", "at", 2), "LX 1/1"),
    ],
)
def test_what_a_list_cannot_hold_is_told_and_nothing_written(
    tmp_path: Path, head: str, rows: bytes, edit: Edit, says: str
) -> None:
    """A blank position is that of the row above, so a change of that one would move two units."""
    headings = ["position", "number", head.strip() or "at", "kind", "target", "note"]
    line = "  ".join(headings) if head == " " else ",".join(headings)
    folder = listed(tmp_path, line.encode() + b"\n" + rows)
    before = files(folder)
    with pytest.raises(SaveError, match=says):
        save(seen(str(folder)), [edit, Edit("A", "x", 2)])
    assert files(folder) == before


def test_a_value_that_a_list_reads_as_the_cell_above_is_refused(tmp_path: Path) -> None:
    data = b"position,number,at,kind,target,colour\nLX 1,1,1,spot,A,red\nLX 1,2,2,spot,A,blue\n"
    folder = listed(tmp_path, data)
    with pytest.raises(SaveError, match="unit LX 1/2 would read otherwise"):
        save(seen(str(folder)), [Edit("LX 1/2", "colour", '"')])
    assert (folder / "hang.csv").read_bytes() == data


@pytest.mark.parametrize("ending", ["xls", "ods"])
def test_what_no_list_is_written_in_is_told_with_what_to_do(tmp_path: Path, ending: str) -> None:
    """No reader is asked: the ending says it."""
    from aimcalc.desk.savedlist import Cell, with_cells

    with pytest.raises(SaveError, match="save it as XLSX or CSV, name that file in"):
        with_cells(f"hang.{ending}", b"", [Cell("Hang", 2, "C", 1)])


# --- workbooks ---


def a_workbook(formula: bool = False) -> bytes:
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = "Hang & more"
    sheet.append(["position", "number", "at", "kind", "target", "channel", "colour", "sum"])
    sheet.append(["LX 1", 1, 1.5, "spot", "A", 11, "red", None])
    sheet.append(["LX 1", 2, -1.5, "spot", "A", 12])
    sheet["C2"].font = Font(bold=True)
    sheet["C2"].number_format = "0.00"
    sheet["G3"].fill = PatternFill("solid", fgColor="FFFF00")
    sheet.column_dimensions["D"].width = 33
    other = book.create_sheet("Other")
    other["A1"] = "kept"
    if formula:
        sheet["H2"] = "=F2+F3"
        other["A2"] = "=1+1"
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def test_a_workbook_is_changed_in_its_cells_alone(tmp_path: Path) -> None:
    """Read back by another library: values, formats, widths and the other sheet."""
    folder = listed(tmp_path, a_workbook(), "hang.xlsx")
    edits = [
        Edit("LX 1/1", "at", "1.75 m SL"),
        Edit("LX 1/1", "channel", "13"),
        Edit("LX 1/2", "colour", "<b> & c"),
        Edit("LX 1/1", "colour", None),
    ]
    before = zipfile.ZipFile(folder / "hang.xlsx")
    wanted = changed(folder, edits)
    save(seen(str(folder)), edits)
    after = zipfile.ZipFile(folder / "hang.xlsx")
    assert [i.filename for i in after.infolist()] == [i.filename for i in before.infolist()]
    assert [n for n in before.namelist() if before.read(n) != after.read(n)] == [
        "xl/worksheets/sheet1.xml"
    ]
    book = openpyxl.load_workbook(folder / "hang.xlsx")
    sheet = book["Hang & more"]
    assert [[c.value for c in row] for row in sheet.iter_rows(min_row=2, max_col=7)] == [
        ["LX 1", 1, "1.75 m SL", "spot", "A", 13, None],
        ["LX 1", 2, -1.5, "spot", "A", 12, "<b> & c"],
    ]
    assert (sheet["C2"].font.bold, sheet["C2"].number_format) == (True, "0.00")
    assert sheet["G3"].fill.fgColor.rgb == "00FFFF00"
    assert sheet.column_dimensions["D"].width == 33
    assert book["Other"]["A1"].value == "kept"
    assert told(load_scene(folder).units) == told(wanted.units)


def test_formulas_stay_and_are_worked_out_again_when_the_workbook_is_opened(tmp_path: Path) -> None:
    folder = listed(tmp_path, a_workbook(formula=True), "hang.xlsx")
    save(seen(str(folder)), [Edit("LX 1/1", "channel", 20)])
    book = openpyxl.load_workbook(folder / "hang.xlsx")
    assert (book["Hang & more"]["H2"].value, book["Other"]["A2"].value) == ("=F2+F3", "=1+1")
    assert book.calculation.fullCalcOnLoad


def test_a_cell_with_a_formula_is_refused(tmp_path: Path) -> None:
    from aimcalc.desk.savedlist import Cell, with_cells

    with pytest.raises(SaveError, match=r"H2 of hang\.xlsx is a formula"):
        with_cells("hang.xlsx", a_workbook(formula=True), [Cell("Hang & more", 2, "H", 1)])


def test_macros_and_pictures_stay_and_a_signature_is_refused(tmp_path: Path) -> None:
    """They are files in the workbook that nobody looks at; a signature would no longer hold."""

    def with_file(name: str) -> bytes:
        out = io.BytesIO(a_workbook())
        with zipfile.ZipFile(out, "a") as book:
            book.writestr(name, b"\0anything")
        return out.getvalue()

    folder = listed(tmp_path, with_file("xl/media/image1.png"), "hang.xlsx")
    save(seen(str(folder)), [Edit("LX 1/1", "channel", 20)])
    assert zipfile.ZipFile(folder / "hang.xlsx").read("xl/media/image1.png") == b"\0anything"
    (folder / "hang.xlsx").write_bytes(with_file("_xmlsignatures/sig1.xml"))
    with pytest.raises(SaveError, match="is signed"):
        save(seen(str(folder)), [Edit("LX 1/1", "channel", 21)])


# --- whole or not at all ---


@pytest.mark.parametrize("file", ["scene.toml", "hang.csv"])
@pytest.mark.parametrize("how", ["changed", "gone"])
def test_a_file_that_changed_after_it_was_read_is_never_written_over(
    tmp_path: Path, file: str, how: str
) -> None:
    folder = listed(tmp_path, ROWS.encode())
    read = seen(str(folder))
    path = folder / file
    path.write_bytes(path.read_bytes() + b"\n") if how == "changed" else path.unlink()
    before = files(folder)
    for place in (None, str(tmp_path / "new")):
        with pytest.raises(SaveError, match=f"^{re.escape(file)} changed after being read here"):
            save(read, [Edit("LX 1/1", "at", 2)], place)
    assert files(folder) == before
    assert not (tmp_path / "new").exists()


def test_a_change_in_the_last_moment_is_seen_too(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = Path(write_scene(tmp_path / "s", UNIT))
    read = seen(str(folder))
    from aimcalc.desk import saving

    made = saving._saved
    text = (folder / "scene.toml").read_bytes()

    def slow(*args):
        found = made(*args)
        (folder / "scene.toml").write_bytes(text + b"# meanwhile\n")
        return found

    monkeypatch.setattr(saving, "_saved", slow)
    with pytest.raises(SaveError, match="changed after being read here"):
        save(read, [Edit("A", "x", 2)])
    assert files(folder) == {"scene.toml": text + b"# meanwhile\n"}
    assert os.listdir(tmp_path) == ["s"]


@pytest.mark.parametrize(
    ("call_of", "number", "says"),
    [("mkdir", errno.EACCES, "permission denied"), ("replace", errno.ENOSPC, "no space left"),
     ("rename", errno.EROFS, "read-only")],
)  # fmt: skip
def test_a_disk_that_refuses_is_told_and_leaves_all_as_it_was(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, call_of: str, number: int, says: str
) -> None:
    folder = listed(tmp_path, ROWS.encode())
    read, before = seen(str(folder)), files(folder)
    real = getattr(os, call_of)

    def refuses(path, *args, **more):
        if "aimcalc-part-" in str(path) and not str(path).endswith(
            ("moving.part", "old/scene.toml", "old/hang.csv")
        ):
            raise OSError(number, os.strerror(number), str(path))
        return real(path, *args, **more)

    monkeypatch.setattr(os, call_of, refuses)
    with pytest.raises(SaveError, match=f"{says}.*Nothing was saved"):
        save(
            read,
            [Edit("LX 1/1", "at", 2), Edit("A", "x", 1)],
            str(tmp_path / "new") if call_of == "rename" else None,
        )
    monkeypatch.undo()
    assert files(folder) == before
    assert sorted(os.listdir(tmp_path)) == ["s"]


def test_a_full_disk_while_writing_leaves_all_as_it_was(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    import builtins

    folder = listed(tmp_path, ROWS.encode())
    read, before = seen(str(folder)), files(folder)
    real = open

    def full(path, mode="r", *args, **more):
        if "aimcalc-part-" in str(path) and "scene.toml" in str(path):
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC), str(path))
        return real(path, mode, *args, **more)

    monkeypatch.setattr(builtins, "open", full)
    for place in (None, str(tmp_path / "new")):
        with pytest.raises(SaveError, match="no space left"):
            save(read, [Edit("LX 1/1", "at", 2), Edit("A", "x", 1)], place)
    monkeypatch.undo()
    assert files(folder) == before
    assert os.listdir(tmp_path) == ["s"]


def test_a_mistake_is_told_and_nothing_written(tmp_path: Path) -> None:
    folder = Path(write_scene(tmp_path / "s", UNIT))
    before = files(folder)
    with pytest.raises(SceneError, match="A, x"):
        save(seen(str(folder)), [Edit("A", "x", "wide")])
    assert files(folder) == before


def test_a_folder_with_files_a_link_and_two_folders_are_refused(tmp_path: Path) -> None:
    folder = listed(tmp_path, ROWS.encode())
    with pytest.raises(SaveError, match="holds files already"):
        save(seen(str(folder)), [Edit("A", "x", 1)], str(folder))
    (folder / "lists").mkdir()
    (folder / "hang.csv").rename(folder / "lists" / "hang.csv")
    text = (folder / "scene.toml").read_text()
    (folder / "scene.toml").write_text(text.replace('"hang.csv"', '"lists/hang.csv"'))
    both = [Edit("A", "x", 1), Edit("LX 1/1", "at", 2)]
    with pytest.raises(SaveError, match="two folders"):
        save(seen(str(folder)), both)
    save(seen(str(folder)), both[1:])
    assert load_scene(folder).units[0].at == 2.0
    save(seen(str(folder)), both, str(tmp_path / "new"))
    assert load_scene(tmp_path / "new").targets[0].x == 1.0
    (folder / "lists" / "hang.csv").rename(folder / "lists" / "real.csv")
    (folder / "lists" / "hang.csv").symlink_to("real.csv")
    with pytest.raises(SaveError, match="is a link"):
        save(seen(str(folder)), [Edit("LX 1/1", "at", 3)])


def test_nothing_edited_writes_nothing_in_place_and_a_copy_elsewhere(tmp_path: Path) -> None:
    folder = listed(tmp_path, ROWS.encode())
    assert save(seen(str(folder)), []) == []
    assert save(seen(str(folder)), [Edit("LX 1", "trim", 6)]) == []
    save(seen(str(folder)), [], str(tmp_path / "copy"))
    assert files(tmp_path / "copy") == files(folder)


def test_a_file_keeps_who_may_read_it(tmp_path: Path) -> None:
    folder = Path(write_scene(tmp_path / "s", UNIT))
    (folder / "scene.toml").chmod(0o640)
    save(seen(str(folder)), [Edit("A", "x", 1)])
    assert (folder / "scene.toml").stat().st_mode & 0o777 == 0o640


def rewritten(data: bytes, change: Callable[[str], str]) -> bytes:
    """A workbook with the XML of its first sheet changed."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(out, "w") as new:
        for name in old.namelist():
            text = old.read(name)
            is_sheet = name == "xl/worksheets/sheet1.xml"
            new.writestr(name, change(text.decode()).encode() if is_sheet else text)
    return out.getvalue()


def prefixed(xml: str) -> str:
    xml = re.sub(r"<(/?)(?=[a-zA-Z])", r"<\1x:", xml)
    return xml.replace('xmlns="http', 'xmlns:x="http', 1)


def test_a_workbook_whose_xml_has_prefixes_is_changed_in_its_own_way(tmp_path: Path) -> None:
    folder = listed(tmp_path, rewritten(a_workbook(), prefixed), "hang.xlsx")
    edits = [Edit("LX 1/1", "at", "1.75 m SL"), Edit("LX 1/2", "colour", "red")]
    save(seen(str(folder)), edits)
    book = openpyxl.load_workbook(folder / "hang.xlsx")
    assert (book.active["C2"].value, book.active["G3"].value) == ("1.75 m SL", "red")
    assert load_scene(folder).units[1].colour == "red"


def test_a_workbook_without_places_in_its_xml_is_refused(tmp_path: Path) -> None:
    data = rewritten(a_workbook(), lambda xml: re.sub(r'(<row|<c) r="\w+"', r"\1", xml))
    folder = listed(tmp_path, data, "hang.xlsx")
    with pytest.raises(SaveError, match="does not number its rows"):
        save(seen(str(folder)), [Edit("LX 1/1", "at", 2)])


@given(data=st.data())
@settings(max_examples=15, deadline=None)
def test_whatever_is_edited_is_saved_as_it_was_tried(data: st.DataObject) -> None:
    """Random edits of a worked scene with a list of text: saved, read back, and equal to the last bit."""
    name = data.draw(st.sampled_from(["raked", "arena"]))
    with TemporaryDirectory() as place:
        folder = Path(place, "s")
        shutil.copytree(SCENES / name, folder)
        scene = load_scene(folder)
        far = st.floats(-3, 3).map(lambda metres: round(metres, 3))
        marks = st.text("ab ,;\"'#\\/=[]{}é°-", max_size=12)
        text = marks.map(
            lambda rest: f"c{rest}".strip()
        )  # a mark alone may stand for the cell above
        edits = {}
        for k in data.draw(st.lists(st.integers(0, 50), min_size=1, max_size=5)):
            target = scene.targets[k % len(scene.targets)].name
            edits[target, "x"] = Edit(target, "x", data.draw(far))
            unit = scene.units[k % len(scene.units)]
            if isinstance(scene.positions[unit.position], Pipe):
                who = f"{unit.position}/{unit.number}"
                edits[who, "at"] = Edit(who, "at", data.draw(far))
                edits[who, "colour"] = Edit(who, "colour", data.draw(text))
        every = list(edits.values())
        try:
            wanted = changed(folder, every)
        except SceneError:
            return
        save(seen(str(folder)), every)
        found = load_scene(folder)
        plain = [replace(unit, source="") for unit in wanted.units]
        assert told([replace(unit, source="") for unit in found.units]) == told(plain)
        assert told(found.targets) == told(wanted.targets)


def test_a_table_on_its_side_is_changed_in_the_cell_of_its_unit(tmp_path: Path) -> None:
    text = "LX 1;;\nUnit;1;2\nFrom center;1 m SL;2 m SR\nType;spot;spot\nFocus;A;A\n"
    folder = listed(tmp_path, text.encode())
    save(seen(str(folder)), [Edit("LX 1/2", "at", "1.75 m SL")])
    assert (folder / "hang.csv").read_text() == text.replace("2 m SR", "1.75 m SL")
