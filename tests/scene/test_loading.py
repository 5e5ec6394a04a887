"""A scene from a file or a folder: whole and right, or refused in one report, quickly."""

from __future__ import annotations

import os
import subprocess
import sys
import time
from pathlib import Path

import pytest

from aimcalc.scene.loading import load_scene
from aimcalc.scene.mistakes import SceneError
from tests.scene.written import BASE, UNIT, only, refused, unit, write_scene


def test_a_scene_is_a_folder_or_its_file(tmp_path: Path) -> None:
    path = write_scene(tmp_path, UNIT)
    scene = load_scene(path)
    assert load_scene(os.path.join(path, "scene.toml")) == scene
    assert load_scene(tmp_path) == scene
    assert scene.folder == path
    assert [p.name for p in (*scene.pipes, *scene.booms, *scene.stands)] == list(scene.positions)


def test_a_file_of_any_name_is_a_scene_of_the_folder_one_is_in(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write_scene(tmp_path, UNIT)
    os.rename(tmp_path / "scene.toml", tmp_path / "tour.toml")
    monkeypatch.chdir(tmp_path)
    assert load_scene("tour.toml").folder == "."


def test_a_scene_without_units_is_a_scene(tmp_path: Path) -> None:
    scene = load_scene(write_scene(tmp_path, base='[scene]\ntitle = "Empty"\n'))
    assert (scene.units, scene.pipes, scene.stage.outline) == ((), (), ())


def test_settings_are_kept(tmp_path: Path) -> None:
    settings = 'volts = "230 V"\nrevision = "B"\nnote = """one\ntwo"""\ngap_below = 0.4\n'
    found = load_scene(write_scene(tmp_path, settings=settings)).settings
    assert (found.title, found.volts, found.revision) == ("Read me", 230.0, "B")
    assert (found.note, found.gap_below) == ("one\ntwo", 0.4)


@pytest.mark.parametrize(
    ("name", "came"),
    [
        ("none.toml", '"none.toml": no such file or directory'),
        ("folder", "a folder without scene.toml"),
        ("scene.toml/x", '"x": not a directory'),
    ],
)
def test_a_scene_that_is_not_there_is_told(tmp_path: Path, name: str, came: str) -> None:
    write_scene(tmp_path, UNIT)
    (tmp_path / "folder").mkdir()
    assert only(os.path.join(tmp_path, name)).came == came


def test_a_scene_one_may_not_read_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = write_scene(tmp_path, UNIT)

    def denied(*args: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr("builtins.open", denied)
    assert only(path).came == '"scene.toml": permission denied'


@pytest.mark.parametrize("data", [b"\0", b"\xff", b"no toml", b"[scene]\n[scene]\n"])
def test_a_file_that_cannot_be_read_is_named_itself_not_its_folder(
    tmp_path: Path, data: bytes
) -> None:
    (tmp_path / "scene.toml").write_bytes(data)
    assert only(os.fspath(tmp_path)).place() == os.fspath(tmp_path / "scene.toml")


def test_a_document_renamed_to_toml_is_told_as_no_text(tmp_path: Path) -> None:
    path = tmp_path / "show.toml"
    path.write_bytes(b"%PDF-1.4\n\0\xe2\xe3")
    mistake = only(os.fspath(path))
    assert mistake.came == "binary data"
    assert "PDF" in mistake.do


@pytest.mark.parametrize("path", ["", "a\0b", "/dev/null/x", "x" * 5000])
def test_a_path_that_is_none_is_refused(path: str) -> None:
    assert only(path).expected


@pytest.mark.parametrize(
    ("data", "expected"),
    [
        (bytes(range(256)) * 50, "text in UTF-8"),
        ("[scene]\ntitle = 'Café'\n".encode("latin-1"), "text in UTF-8"),
        (b"x" * 50_000_000, "a file of at most 3 MB"),
        (b"a = " + b"[" * 400_000, "lists in lists"),
    ],
)
def test_a_file_that_is_no_scene_is_refused_at_once(
    tmp_path: Path, data: bytes, expected: str
) -> None:
    path = tmp_path / "scene.toml"
    path.write_bytes(data)
    begun = time.process_time()
    assert expected in only(os.fspath(path)).expected
    assert time.process_time() - begun < 2.0


def test_a_scene_full_of_mistakes_is_refused_in_bounded_time(tmp_path: Path) -> None:
    targets = "".join(f'[[target]]\nname = "T{n}"\nx = 0\ny = 0\n' for n in range(5000))
    units = "".join(f'[[unit]]\nposition = "P{n}"\ntarget = "X{n}"\n' for n in range(20_000))
    path = write_scene(tmp_path, targets, units)
    begun = time.process_time()
    with pytest.raises(SceneError) as caught:
        load_scene(path)
    report = caught.value.report()
    assert time.process_time() - begun < 5.0
    assert "reading stopped here" in report
    assert len(report) < 50_000


def test_mistakes_of_every_table_come_in_one_report_worst_first(tmp_path: Path) -> None:
    base = BASE.replace("trim = 6", 'trim = "6 furlongs"').replace("height = 4", "heigth = 4")
    path = write_scene(
        tmp_path,
        unit(target='"a"'),
        '[[boom]]\nname = "LX 1"\nx = 1\ny = 1\nheight = 3\n',
        "[lights]\n",
        settings="face_height = -1",
        base=base,
    )
    assert [(m.table, m.key, m.came) for m in refused(path)] == [
        ("", "", '"lights"'),
        ("[[boom]]", "", '"heigth"'),
        ("[[unit]]", "target", '"a"'),
        ("[[boom]]", "height", "nothing"),
        ("[scene]", "face_height", "-1"),
        ("[[pipe]]", "trim", '"6 furlongs"'),
        ("[[boom]]", "name", '"LX 1"'),
    ]


def test_a_report_reads_as_plain_sentences(tmp_path: Path) -> None:
    path = write_scene(tmp_path, unit(at='"2 m US"'))
    with pytest.raises(SceneError) as caught:
        load_scene(path)
    assert str(caught.value) == (
        f"{path} cannot be used: 1 mistake. Nothing was written.\n"
        "\n"
        '1. scene.toml, [[unit]] "LX 1/1", at\n'
        '   expected: a length such as "18\'-6 1/2\\"", "5.64 m" or a number of m, with SL or SR\n'
        '   got:      "2 m US"\n'
        "   do:       Leave out US: it does not go with this key."
    )


def test_reading_a_right_scene_loads_nothing_that_only_mistakes_or_lists_need(
    tmp_path: Path,
) -> None:
    path = write_scene(tmp_path, UNIT)
    code = (
        "import sys; from aimcalc.scene.loading import load_scene; load_scene(sys.argv[1]);"
        "print(sorted({'difflib', 'csv', 'zipfile', 'python_calamine', 'numpy'} & set(sys.modules)))"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, path], capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == "[]"
