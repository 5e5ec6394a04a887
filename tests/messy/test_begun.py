"""`start --from`: a scene begun from somebody's list names what is in it, and asks for the rest in
plain words."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest

from aimcalc import cli
from aimcalc.scene.loading import load_scene
from aimcalc.scene.mistakes import QUESTION, SceneError
from tests.messy import cases

# What somebody with a tape answers, in the words of the house of the lists.
ANSWERS = {
    "title": "Answered",
    "trim": "18'",
    "y": "4' US",
    "from": "21' SR",
    "to": "21' SL",
    "x": "3' SL",
    "height": "14'",
    "family": "ers",
    "field": "26 deg",
    "unit": "ft",
}


def _begun(what: dict[str, object], root: Path) -> str:
    folder = str(root / "show")
    assert cli.run(["start", folder, "--from", str(cases.HERE / str(what["list"]))]) == 0
    return folder


def _answer(folder: str) -> None:
    file = Path(folder) / "scene.toml"
    text = re.sub(
        r'^(\w+) = "\?"',
        lambda key: f'{key[1]} = "{ANSWERS[key[1]]}"',
        file.read_text(),
        flags=re.M,
    )
    file.write_text(text)


def _open(folder: str) -> list[str]:
    """The questions that are open; nothing else may be wrong."""
    with pytest.raises(SceneError) as caught:
        load_scene(folder)
    assert [m.text() for m in caught.value.mistakes if m.rank != QUESTION] == []
    return [f"{mistake.entry} {mistake.key}" for mistake in caught.value.mistakes]


def test_a_scene_begun_from_a_list_asks_what_the_list_cannot_say(tmp_path: Path) -> None:
    folder = _begun(cases.case("merged"), tmp_path)
    scene = tomllib.loads((Path(folder) / "scene.toml").read_text())
    assert scene["scene"]["unit"] == "ft"
    assert scene["scene"]["hang"] == "merged.xlsx"
    assert [pipe["name"] for pipe in scene["pipe"]] == ["FOH Pipe", "LX 1"]
    assert [target["name"] for target in scene["target"]] == ["A1", "A2", "A3", "A4", "A6"]
    assert len(_open(folder)) == 1 + 2 * 4 + 5 * 2  # the title; four of a pipe, two of a target
    _answer(folder)
    units = load_scene(folder).units
    assert [(u.position, u.number, u.kind, u.target) for u in units] == [
        ("FOH Pipe", "1", "ers-20", "A1"),
        ("FOH Pipe", "2", "ers-20", "A2"),
        ("FOH Pipe", "3", "ers-20", "A3"),
        ("LX 1", "1", "ers-40", "A4"),
        ("LX 1", "2", "ers-40", "A6"),
    ]


@pytest.mark.parametrize(
    "name", ["title-above", "section-rows", "blanks-below", "second-page", "merged-ods", "formulas"]
)
def test_once_its_questions_are_answered_a_begun_scene_has_the_units_of_its_list(
    name: str, tmp_path: Path
) -> None:
    what = cases.case(name)
    folder = _begun(what, tmp_path)
    assert _open(folder)
    _answer(folder)
    rows = [[c.strip() for c in line.split("|")] for line in what["units"].strip().splitlines()]
    found = [(unit.position.casefold(), unit.number) for unit in load_scene(folder).units]
    assert found == [(row[0].casefold(), row[1]) for row in rows]


def test_a_kind_that_no_generic_one_is_like_is_guessed_as_far_as_its_name_goes(
    tmp_path: Path,
) -> None:
    list_ = tmp_path / "hang.csv"
    list_.write_text("position,number,at,kind,target\nLX 1,1,2 m SL,Profile 26°,door\n")
    folder = str(tmp_path / "show")
    assert cli.run(["start", folder, "--from", str(list_)]) == 0
    text = (Path(folder) / "scene.toml").read_text()
    (kind,) = tomllib.loads(text)["kind"]
    assert kind == {"name": "Profile 26°", "family": "ers", "field": 26}
    assert text.count("guessed from its name") == 2


def test_nothing_is_written_over_and_no_list_is_begun_from_nothing(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "notes.csv").write_text("Bring the tall ladder\n")
    assert cli.run(["start", str(tmp_path / "show"), "--from", str(tmp_path / "notes.csv")]) == 2
    assert "a row of headings" in capsys.readouterr().err
    assert not (tmp_path / "show").exists()
    folder = _begun(cases.case("merged"), tmp_path)
    assert cli.run(["start", folder, "--from", str(cases.HERE / "merged.xlsx")]) == 2
    assert "exists already" in capsys.readouterr().err


def test_columns_of_a_scene_that_cannot_be_read_are_passed_over(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert cli.run(["check", str(tmp_path), "--columns"]) == 2
    assert "column" not in capsys.readouterr().out.casefold()
    what = cases.case("merged")
    home = cases.write(what, tmp_path / "show")
    assert cli.run(["check", home, "--columns", "--set", "scene.hang="]) in (0, 1)
    assert "names no hang list" in capsys.readouterr().out
