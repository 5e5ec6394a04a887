"""A show makes each of its results once, whoever asks for them, and gives them to Python."""

from __future__ import annotations

import json
import math
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

import aimcalc
import aimcalc.coverage.study
import aimcalc.findings
import aimcalc.hang.plan
import aimcalc.solid.rig
from aimcalc import cli
from aimcalc.scene.mistakes import SceneError
from aimcalc.sheets import prep
from aimcalc.sheets.pieces import NAMES
from tests.lit import FACE, a_rig, a_unit
from tests.shows import a_show

SCENES = Path(__file__).parent.parent / "scenes"
STUDIO = str(SCENES / "studio")
MADE = (
    (aimcalc.solid.rig, "solve_rig"),
    (aimcalc.hang.plan, "hang_plan"),
    (aimcalc.coverage.study, "study_of"),
    (aimcalc.findings, "checks"),
    (aimcalc.findings, "hang_findings"),
)


@pytest.mark.parametrize(
    ("call", "never"),
    [
        (["prep", STUDIO, "-o", "out"], ()),
        (["check", STUDIO], ("study_of",)),
        (["solve", STUDIO], ("study_of",)),
        (["hang", STUDIO], ("study_of",)),
    ],
    ids=lambda part: part[0] if part else "",
)
def test_a_command_makes_each_result_once(call, never, monkeypatch, tmp_path, capsys):
    counts = {}

    def counted(name, make):
        def once_more(*given, **named):
            counts[name] = counts.get(name, 0) + 1
            return make(*given, **named)

        return once_more

    monkeypatch.setattr(prep, "cores", lambda: 1)  # what another process makes cannot be counted
    for module, name in MADE:
        monkeypatch.setattr(module, name, counted(name, getattr(module, name)))
    monkeypatch.chdir(tmp_path)
    assert cli.run(call) == 0
    assert counts == {name: 1 for _, name in MADE if name not in never}


@pytest.mark.parametrize("scene", ["studio", "playhouse", "raked"])
def test_aims_are_the_numbers_and_words_of_solve(scene, capsys):
    cli.run(["solve", str(SCENES / scene), "--json"])
    units = json.loads(capsys.readouterr().out)["units"]
    aims = aimcalc.read(SCENES / scene).aims
    for key in units[0]:
        cells = [unit[key] for unit in units]
        kinds = {type(cell) for cell in cells if cell is not None}
        if kinds and kinds <= {float, int}:
            expected = [math.nan if cell is None else cell for cell in cells]
            np.testing.assert_array_equal(aims[key], expected)
        elif kinds == {str}:
            assert aims[key].tolist() == [cell or "" for cell in cells]
        elif kinds:
            assert key not in aims
    assert {column.shape for column in aims.values()} == {(len(units),)}


def test_light_at_a_point_by_hand():
    # 16000 cd, 5 m away (3 up the stage, 4 down): on the level 16000/25 * 4/5, facing it 16000/25 * 3/5,
    # on the cylinder 16000/25 * 3/5 / pi; two such units give twice that, one system the half
    units = [a_unit(n, 0.0, to=(0.0, 3.0), system=name) for n, name in ((1, "front"), (2, "other"))]
    show = a_show(a_rig(units))
    points = np.array([[0.0, 3.0, FACE]]).T
    for system, share in (("all", 2.0), ("front", 1.0)):
        lux = show.light.at(points, system)
        np.testing.assert_allclose(lux, share * np.array([[512.0], [384.0], [384.0 / math.pi]]))
    assert show.light.at(np.zeros((3, 0))).level.shape == (0,)


def test_points_of_another_shape_and_systems_that_are_none_are_refused():
    light = a_show(a_rig([a_unit(1, 0.0)])).light
    with pytest.raises(ValueError, match=r"shape \(3, N\): rows x, y, z; got \(2, 4\)"):
        light.at(np.zeros((2, 4)))
    with pytest.raises(ValueError, match=r'no system is called "x"\. There are: wash, all'):
        light.at(np.zeros((3, 1)), "x")


def test_write_makes_the_very_files_of_prep(tmp_path):
    only = ["lists", "plumb-card", "counts", "light-plot"]
    show = aimcalc.read(STUDIO, length="ft")
    plot = {"scale": '1/4"', "sheet": "tabloid"}
    files = show.write(tmp_path / "ours", only, paper="letter", reproducible=True, **plot)
    call = ["prep", STUDIO, "-o", str(tmp_path / "prep"), "--only", ",".join(only)]
    call += ["--scale", plot["scale"], "--sheet", plot["sheet"]]
    assert cli.run([*call, "--length", "ft", "--paper", "letter", "--reproducible"]) == 0
    theirs = {path.name: path.read_bytes() for path in (tmp_path / "prep").iterdir()}
    assert {path.name for path in files} == set(theirs) - {"set.json"}
    for path in (tmp_path / "ours").iterdir():
        assert path.read_bytes() == theirs[path.name]


def test_write_refuses_what_prep_refuses(tmp_path):
    show = aimcalc.read(STUDIO)
    with pytest.raises(ValueError, match=f"There are: {NAMES[0]}"):
        show.write(tmp_path / "out", ["zzz"])
    stop = aimcalc.solid.answers.Finding("stop", "twice", "Two units are called 1.", "Rename one.")
    show.findings = [stop]
    with pytest.raises(ValueError, match=r"stops \(1\): Two units are called 1\."):
        show.write(tmp_path / "out", "lists")
    assert list(tmp_path.iterdir()) == []
    assert len(show.write(tmp_path / "out", "lists", draft=True)) == 3


def test_a_scene_that_cannot_be_read_is_told_with_every_mistake(tmp_path):
    (tmp_path / "scene.toml").write_text('unit = "yard"\n[[pipe]]\nname = 3\n')
    with pytest.raises(SceneError) as refusal:
        aimcalc.read(tmp_path)
    assert "cannot be used" in str(refusal.value)


def test_importing_the_package_loads_nothing_else():
    told = "import sys, aimcalc; print(*(m for m in sys.modules if m.split('.')[0] in ('aimcalc', 'numpy')))"
    ran = subprocess.run([sys.executable, "-c", told], capture_output=True, text=True, check=True)
    assert ran.stdout.split() == ["aimcalc"]
    assert (Path(aimcalc.__file__).parent / "py.typed").exists()
    with pytest.raises(AttributeError, match="no attribute 'reed'"):
        _ = aimcalc.reed
