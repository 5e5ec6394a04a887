"""`aimcalc learn` as a person calls it: words, JSON, the files made, and landings that are wrong."""

from __future__ import annotations

import json
import shutil
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

from aimcalc.landings import forward as f
from aimcalc.scene.loading import load_scene
from aimcalc.sheets.learned import outcome_of
from aimcalc.show import Show
from aimcalc.solid.rig import solve_rig
from tests.shows import rig_of

ROOT = Path(__file__).parents[2]
PIPE = "pipe 2"
LOW = -0.60  # m


def called(*arguments: object) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "aimcalc", "learn", *map(str, arguments)]
    return subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)


def side(value: float, plus: str, minus: str) -> str:
    return f"{abs(value):.3f} m {plus if value >= 0 else minus}"


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy of the playhouse, and landings of a pipe that hangs low, its trim measured."""
    folder = tmp_path_factory.mktemp("learn") / "playhouse"
    shutil.copytree(ROOT / "scenes" / "playhouse", folder)
    rig = rig_of("playhouse")
    units, off = f.held(rig), np.zeros((9, len(rig.units)))
    off[f.TRIM] = LOW
    level = np.tile([[0.0], [0.0], [1.0]], len(rig.units))
    told = f.landed(units, f.printed(rig), f.plane_at(rig.aims.lands, level), off)
    rows = ["unit,x,y,trim"]
    for k in rig.rows[PIPE][:5]:
        x, y, _ = told.point[:, k]
        rows.append(f"{rig.names[k]},{side(x, 'SL', 'SR')},{side(y, 'US', 'DS')},")
    rows.append(f"{PIPE},,,{rig.scene.positions[PIPE].start[2] + LOW:.3f} m")
    (folder / "landings.csv").write_text("\n".join(rows) + "\n", encoding="utf-8")
    return folder


def test_the_words_name_the_cause_the_correction_and_whose_rows(
    folder: Path, tmp_path: Path
) -> None:
    ran = called(folder, folder / "landings.csv", "-o", tmp_path / "out")
    assert ran.returncode == 0, ran.stderr
    assert f"{PIPE} hangs at another trim than plotted" in ran.stdout
    assert "lower" in ran.stdout
    assert sorted(p.name for p in (tmp_path / "out").iterdir())[0] == "corrections.toml"
    assert "Written to" in ran.stdout
    words = ran.stdout.replace("wrong", "")
    assert not any(f" {bare} " in words for bare in ("left", "right"))
    assert "-0" not in words.replace("'-0", "")


def test_the_json_has_the_keys_promised(folder: Path) -> None:
    ran = called(folder, folder / "landings.csv", "--json")
    told = json.loads(ran.stdout)
    assert list(told) == ["corrections", "causes", "landings", "doubted", "tell_apart"]
    assert set(told["corrections"][0]) == {"what", "of", "value", "low", "high", "unit"}
    assert set(told["causes"][0]) == {"cause", "of", "chance"}
    keys = {"unit", "miss_before", "miss_after", "left_out", "forecast"}
    assert set(told["landings"][0]) == keys
    trim = next(c for c in told["corrections"] if (c["what"], c["of"]) == ("trim", PIPE))
    assert trim["value"] == pytest.approx(LOW, abs=0.03)
    assert trim["low"] < LOW < trim["high"]
    assert (told["causes"][0]["cause"], told["causes"][0]["of"]) == ("trim", PIPE)
    chances = [each["chance"] for each in told["causes"]]
    assert chances == sorted(chances, reverse=True)


def test_the_scene_that_includes_the_corrections_is_solved_as_it_hangs(folder: Path) -> None:
    """A wrong trim changes downs and no pan; the scene's own file stays as it was."""
    before = (folder / "scene.toml").read_bytes()
    assert called(folder, folder / "landings.csv", "-o", folder).returncode == 0
    assert (folder / "scene.toml").read_bytes() == before
    text = before.decode().replace("[scene]", '[scene]\ncorrections = "corrections.toml"', 1)
    (folder / "scene.toml").write_text(text, encoding="utf-8")
    try:
        now = solve_rig(load_scene(folder))
        findings = [
            each for each in Show(load_scene(folder)).quick_findings if each.rule == "corrected"
        ]
    finally:
        (folder / "scene.toml").write_bytes(before)
    was = rig_of("playhouse")
    rows = was.rows[PIPE]
    assert now.scene.positions[PIPE].start[2] - was.scene.positions[PIPE].start[2] == pytest.approx(
        LOW, abs=0.03
    )
    assert np.allclose(now.aims.pan[rows], was.aims.pan[rows], atol=np.radians(0.5))
    assert np.all(now.aims.down[rows] < was.aims.down[rows])
    others = [k for k in range(len(was.units)) if k not in rows]
    assert np.array_equal(now.aims.down[others], was.aims.down[others])
    assert len(findings) == 1


def test_only_rows_whose_numbers_leave_their_tolerance_are_set_again(folder: Path) -> None:
    outcome = outcome_of(Show(load_scene(folder)), str(folder / "landings.csv"))
    changed = {
        row.unit: [x.figure for x in row.figures if x.left] for row in outcome.found.changes.rows
    }
    assert all(unit.startswith(f"{PIPE}/") for unit in changed)
    assert not any("pan" in figures for figures in changed.values())
    was, now = rig_of("playhouse"), outcome.show.rig
    for k in was.rows[PIPE]:
        downs = [round(float(np.degrees(rig.aims.down[k]))) for rig in (was, now)]
        tolerance = float(np.degrees(was.tolerances.down[k]))
        if abs(downs[0] - downs[1]) > tolerance:
            assert "down" in changed[was.names[k]]


@pytest.mark.parametrize(
    ("rows", "says"),
    [
        ("LX 99/1,1 m SL,2 m US", "a unit of the scene"),
        ("pipe 2/1,60 m SL,2 m US", "a spot on the deck or on something of the scene"),
        ("pipe 2/1,1 m SL,2 m US\npipe 2/1,3 m SL,2 m US", "one spot of pipe 2/1"),
        (
            "pipe 2/1,5 m SL,0 m US\npipe 2/2,3 m SR,4 m US\npipe 2/3,2 m SL,3.5 m US",
            "contradict each other",
        ),
    ],
)
def test_what_cannot_be_used_is_told_and_nothing_is_written(
    rows: str, says: str, tmp_path: Path
) -> None:
    (tmp_path / "l.csv").write_text(f"unit,x,y\n{rows}\n", encoding="utf-8")
    ran = called("scenes/playhouse", tmp_path / "l.csv", "-o", tmp_path / "out")
    assert ran.returncode == 2
    assert says in ran.stderr
    assert "Nothing was written" in ran.stderr
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (
            '[[correction]]\nwhat = "trim"\nof = "pipe 99"\nvalue = "1 cm"\n',
            "the name of a position",
        ),
        ('[[correction]]\nwhat = "trmi"\nof = "pipe 2"\nvalue = "1 cm"\n', 'Did you mean "trim"?'),
        ('[[correction]]\nwhat = "trim"\nof = "pipe 2"\n', "value, which this entry needs"),
        ('[[corrections]]\nwhat = "trim"\n', "[[correction]]"),
        (
            '[[correction]]\nwhat = "kick"\nof = "pipe 2/99"\nvalue = 3\n',
            "the name of a unit",
        ),
        (
            '[[correction]]\nwhat = "level"\nof = "pipe 2"\nvalue = 3\n',
            '"rig": a level is wrong everywhere',
        ),
        ("landings = 3\n", "the landings as learn wrote them"),
    ],
)
def test_a_corrections_file_that_is_wrong_is_told(folder: Path, text: str, says: str) -> None:
    (folder / "mine.toml").write_text(text, encoding="utf-8")
    command = [
        sys.executable,
        "-m",
        "aimcalc",
        "check",
        str(folder),
        "--set",
        "scene.corrections=mine.toml",
    ]
    ran = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
    assert ran.returncode == 2
    assert says in ran.stderr


def test_a_trim_that_is_corrected_and_then_measured_is_not_changed_twice_unnoticed(
    folder: Path,
) -> None:
    text = f'[[correction]]\nwhat = "trim"\nof = "{PIPE}"\nvalue = "-0.2 m"\n'
    (folder / "trim.toml").write_text(text, encoding="utf-8")
    for measured in ("false", "true"):
        changes = ("scene.corrections=trim.toml", f"{PIPE}.measured={measured}")
        found = Show(load_scene(folder, changes)).quick_findings
        mine = {each.rule: each for each in found if each.position == PIPE}
        assert ("corrected-twice" in mine) == (measured == "true")
        if measured == "true":
            assert "take its trim out of trim.toml" in mine["corrected-twice"].do
        else:
            assert " is from landings, not measured" in mine["trim-not-measured"].says
            assert "take its trim out of trim.toml" in mine["trim-not-measured"].do


def test_what_is_to_be_put_right_at_the_rig_is_a_warning_and_changes_no_number(
    folder: Path,
) -> None:
    (folder / "tools.toml").write_text(
        '[[correction]]\nwhat = "level"\nof = "rig"\nvalue = 1.4\n'
        '[[correction]]\nwhat = "dial"\nof = "rig"\nvalue = -2.4\n'
        f'[[correction]]\nwhat = "kick"\nof = "{PIPE}/3"\nvalue = 6\n',
        encoding="utf-8",
    )
    scene = load_scene(folder, ("scene.corrections=tools.toml",))
    assert solve_rig(Show(scene).scene).answers == rig_of("playhouse").answers
    told = {each.rule: each for each in scene.taken}
    assert "corrected" not in told
    assert [told[rule].severity for rule in ("level-off", "dial-off", "kicked")] == ["warn"] * 3
    assert "1.4° lower" in told["level-off"].says
    assert "2.4° anticlockwise" in told["dial-off"].says
    assert told["kicked"].unit == f"{PIPE}/3"
    assert all(
        "take its entry out of tools.toml" in each.do
        for each in told.values()
        if each.severity == "warn"
    )
