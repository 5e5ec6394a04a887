"""`aimcalc cover` and `aimcalc lens` from the command line: output, files, refusals, exit status."""

from __future__ import annotations

import json
import sys
import tomllib
from pathlib import Path

import pytest

from aimcalc.cli import light, run
from aimcalc.coverage.systems import Below

STUDIO = "scenes/studio"


def called(capsys, *words):
    status = run(list(words))
    shown = capsys.readouterr()
    return status, shown.out, shown.err


def test_cover_prints_figures_holes_and_findings(capsys):
    status, out, err = called(capsys, "cover", STUDIO)
    assert status == 0
    assert "Three Chairs by a Window" in out
    assert "front cool" in out
    assert "0 stops" in out
    assert err == ""  # no progress where nobody watches


def test_cover_json_is_one_object(capsys):
    status, out, _ = called(capsys, "cover", STUDIO, "--json", "--grid", "0.4")
    told = json.loads(out)
    assert status == 0
    assert "points" not in told
    assert all(system["spacing"] <= 0.4 for system in told["systems"])


@pytest.mark.parametrize(("text", "share"), [("0.3", 0.3), ("30%", 0.3), ("30 %", 0.3)])
def test_below_is_a_share_of_the_mean(capsys, text, share):
    _, out, _ = called(capsys, "cover", STUDIO, "--json", "--below", text)
    for system in json.loads(out)["systems"]:
        assert all(gap["least"] < share * system["mean"] for gap in system["gaps"])


@pytest.mark.parametrize("text", ["600 lx", "600lx", " 600 LX ", "600 lux"])
def test_lux_however_it_is_typed(text):
    assert light.below_of(text, "--below") == Below(lux=600.0)


def test_below_is_lux_where_it_says_so(capsys):
    text = " 600 LX "
    _, out, _ = called(capsys, "cover", STUDIO, "--json", "--below", text)
    systems = json.loads(out)["systems"]
    for system in systems:
        assert all(system["least"] <= gap["least"] < 600 for gap in system["gaps"])
    assert any(system["gaps"] for system in systems)
    assert "dark where under 600 lx" in called(capsys, "cover", STUDIO, "--below", text)[1]


def test_points_of_a_file_are_answered(capsys, tmp_path):
    path = tmp_path / "meter.csv"
    path.write_text("x,y,z\n0.5 m SL, 1 m US, 1.2\n0,1,1.2\n")
    status, out, _ = called(capsys, "cover", STUDIO, "--json", "--points", str(path))
    points = json.loads(out)["points"]
    assert status == 0
    assert [(p["x"], p["y"], p["z"]) for p in points[::5]] == [(0.5, 1.0, 1.2), (0.0, 1.0, 1.2)]
    assert {p["system"] for p in points} >= {"all", "front cool"}


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--grid", "wide"), "Invalid value for --grid"),
        (("--grid", "0"), "a length over 0"),
        (("--grid", "-1"), "a length over 0"),
        (("--grid", "1mm"), "Take them further apart"),
        (("--below", "2"), "a share over 0 and up to 1"),
        (("--below", "some"), "a share over 0 and up to 1"),
        (("--below", "300"), "or lux over 0, such as \"300 lx\", got '300'"),
        (("--below", "0 lx"), "or lux over 0"),
        (("--below", "-5 lx"), "or lux over 0"),
        (("--below", "nan lx"), "or lux over 0"),
        (("--below", "inf lx"), "or lux over 0"),
        (("--below", "300 fc"), "or lux over 0"),
        (("--below", "5% lx"), "or lux over 0"),
        (("--points", "nowhere.csv"), "nowhere.csv"),
    ],
)
def test_what_cannot_be_done_is_told_and_ends_with_2(capsys, words, said):
    status, out, err = called(capsys, "cover", STUDIO, *words)
    assert status == 2
    assert said in err
    assert out == ""


def test_a_bad_point_is_told_by_row_and_column(capsys, tmp_path):
    path = tmp_path / "meter.csv"
    path.write_text("1,2,3\n1,x,3\n")
    status, out, err = called(capsys, "cover", STUDIO, "--points", str(path))
    assert (status, out) == (2, "")
    assert "meter.csv, row 2, column B (y)" in err


def a_scene(tmp_path, more=""):
    path = tmp_path / "scene.toml"
    path.write_text(
        '[scene]\ntitle = "One"\n[[pipe]]\nname = "p"\ntrim = 5\ny = 0\nfrom = -2\nto = 2\n'
        '[[kind]]\nname = "k"\nfamily = "ers"\nfield = 30\npeak_cd = 1000\n'
        '[[unit]]\nposition = "p"\nnumber = 1\nat = 0\nkind = "k"\npoint = [0, 0, 1]\n' + more
    )
    return str(path)


def test_a_scene_without_an_area_is_told_what_to_add(capsys, tmp_path):
    status, _, err = called(capsys, "cover", a_scene(tmp_path))
    assert status == 2
    assert "`acting` or `outline` in [stage]" in err


def test_without_the_ray_engine_solids_are_not_passed_over_in_silence(
    capsys, tmp_path, monkeypatch
):
    for name in ("embreex", "embreex.mesh_construction", "embreex.rtcore_scene"):
        monkeypatch.setitem(sys.modules, name, None)
    area = "[stage]\noutline = [[-1, -1], [1, -1], [1, 1], [-1, 1]]\n"
    solid = '[[solid]]\nname = "b"\nbox = [0, 0, 0, 1, 1, 1]\n'
    assert called(capsys, "cover", a_scene(tmp_path, area))[0] == 0
    status, _, err = called(capsys, "cover", a_scene(tmp_path, area + solid))
    assert status == 2
    assert "embreex" in err


def test_lens_prints_a_proposal_and_changes_nothing(capsys):
    before = Path(STUDIO, "scene.toml").read_bytes()
    status, out, _ = called(capsys, "lens", STUDIO)
    assert status == 0
    assert "The scene is not changed." in out
    assert Path(STUDIO, "scene.toml").read_bytes() == before


def test_lens_writes_toml_or_csv_whole(capsys, tmp_path):
    toml, table = tmp_path / "new" / "lens.toml", tmp_path / "lens.CSV"
    assert called(capsys, "lens", STUDIO, "-o", str(toml))[0] == 0
    assert called(capsys, "lens", STUDIO, "-o", str(table), "--pool", "2 m")[0] == 0
    assert len(tomllib.loads(toml.read_text())["unit"]) == 12
    assert table.read_text().startswith("unit,system,kind,proposed,")
    assert sorted(p.name for p in tmp_path.iterdir()) == ["lens.CSV", "new"]


@pytest.mark.parametrize("name", ["lens.xlsx", "lens", "lens.toml.bak"])
def test_a_proposal_is_written_only_under_a_name_that_says_what_it_is(capsys, tmp_path, name):
    status, out, err = called(capsys, "lens", STUDIO, "-o", str(tmp_path / name))
    assert (status, out) == (2, "")
    assert "this writes TOML or CSV: name it " in err
    assert not list(tmp_path.iterdir())


def test_lens_json_is_one_object(capsys):
    _, out, _ = called(capsys, "lens", STUDIO, "--json")
    assert len(json.loads(out)["units"]) == 12


def test_a_proposal_that_cannot_be_written_is_told(capsys, tmp_path):
    (tmp_path / "taken").write_text("a file")
    status, _, err = called(capsys, "lens", STUDIO, "-o", str(tmp_path / "taken" / "lens.toml"))
    assert status == 2
    assert "Cannot write" in err


def test_a_watcher_sees_a_bar_fill_up(capsys, monkeypatch):
    monkeypatch.setattr(sys.stderr, "isatty", lambda: True, raising=False)
    monkeypatch.setattr(light, "REDRAW", 0.0)
    _, _, err = called(capsys, "cover", STUDIO)
    assert "front cool" in err
    assert "#" in err
    assert err.endswith(" \r")  # and is wiped away


def test_a_bar_is_redrawn_at_most_a_few_times_a_second(capsys, monkeypatch):
    monkeypatch.setattr(sys.stderr, "isatty", lambda: True, raising=False)
    clock = iter(range(10_000))
    monkeypatch.setattr(light, "monotonic", lambda: next(clock) / 1000)  # 1000 looks a second
    bar = light.Bar()
    for look in range(2000):
        bar("back", look / 2000)
    bar.wipe()
    assert capsys.readouterr().err.count("back") == 8  # 2 s at four a second
