"""Units that a list gives no target: they hang, and point straight down, from a boom level to the centre."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from aimcalc.scene.loading import load_scene
from aimcalc.solid.rig import solve_rig
from tests.scene.hanglist.listed import MORE, asked_of, scene_of, told_of
from tests.scene.written import write_scene

HEAD = "Bar;Unit;Distance;Type;Focus\n"
AIMED = "LX 1;1;2 m SL;spot;A\nLX 1;2;1 m SR;spot;Door\n"


@pytest.mark.parametrize(
    "none", ["", "-", "n/a", "TBC", "tba", "?", "not focused", "unfocused", "—"]
)
def test_units_of_a_kind_that_is_nowhere_aimed_point_straight_down(
    tmp_path: Path, none: str
) -> None:
    text = f"{HEAD}{AIMED}LX 2;1;3 m SR;wide;{none}\nLX 2;2;1 m SL;wide;{none}\n"
    units = scene_of(tmp_path, text).units
    assert [unit.point for unit in units] == [None, None, (-3.0, 4.0, 0.0), (1.0, 4.0, 0.0)]
    said = f"{none}; " if none not in ("", "-", "?", "—") else ""
    assert [unit.note for unit in units[2:]] == [f"{said}no target in the list"] * 2
    told = " ".join(told_of(tmp_path / "told", text).split())
    assert "the units of rows 4, 5 (wide) have no target: read as pointed straight down" in told


@pytest.mark.parametrize("words", ["Stage wash", "all over", "N/A (moves)", "general", "überall"])
def test_words_for_all_of_the_stage_are_no_target_and_kept_as_a_remark(
    tmp_path: Path, words: str
) -> None:
    unit = scene_of(tmp_path, f"{HEAD}{AIMED}LX 2;1;3 m SR;wide;{words}\n").units[-1]
    assert (unit.point, unit.note) == ((-3.0, 4.0, 0.0), f"{words}; no target in the list")


@pytest.mark.parametrize("column", ["", ";Mode", ";Remark", ";Supplied by"])
def test_a_list_without_targets_is_one_of_what_hangs(tmp_path: Path, column: str) -> None:
    more = ";plain" if column else ""
    text = f"Bar;Unit;Distance;Type{column}\nLX 1;1;2 m SL;spot{more}\nLX 2;1;1 m SR;wide{more}\n"
    assert [unit.point for unit in scene_of(tmp_path, text).units] == [(2, 2, 0), (-1, 4, 0)]


@pytest.mark.parametrize(
    "text",
    [
        f"{HEAD}{AIMED}LX 1;3;0;spot;\n",  # others of its kind are aimed
        "Bar;Unit;Distance;Type;Richtwert\nLX 1;1;2 m SL;spot;dorthin\nLX 2;1;1 m SR;wide;hierhin\n",
    ],
)
def test_what_may_be_a_slip_or_stand_elsewhere_is_asked(tmp_path: Path, text: str) -> None:
    assert "target" in asked_of(tmp_path, text)


PIPES = {
    "across": "start = [-6, 3, 6]\nend = [6, 3, 6]\nzero = 'centre line'",
    "askew": "start = [-6, 2, 6]\nend = [5, 4, 6]\nzero = 'centre line'",
    "backwards": "start = [6, 3, 6]\nend = [-4, 3, 6]\nzero = 'end'",
    "from its start": "start = [-6, 3, 6]\nend = [5, 3, 6]\nzero = 'start'",
    "up and down": "start = [4, 0, 6]\nend = [4, 7, 6]",
    "leaning": "start = [-6, 3, 5]\nend = [6, 3, 6]\nzero = 'middle'",
}


@pytest.mark.parametrize("pipe", PIPES.values(), ids=PIPES)
def test_it_is_straight_under_its_clamp_whatever_the_pipe_counts_from(
    tmp_path: Path, pipe: str
) -> None:
    """Held to where the solver has the clamp, which does not read this."""
    side = "US" if "up" in pipe or "[4, 7" in pipe else "SL"
    text = f"{HEAD}{AIMED}Odd;1;1.25 m {side};wide;\n"
    more = f'{MORE}\n[[pipe]]\nname = "Odd"\n{pipe}\n'
    path = write_scene(tmp_path, more, settings='hang = "hang.csv"')
    (tmp_path / "hang.csv").write_text(text, encoding="utf-8")
    scene = load_scene(path)
    unit, answer = scene.units[-1], solve_rig(scene).answers[-1]
    assert unit.point is not None
    np.testing.assert_allclose(unit.point[:2], answer.clamp[:2], atol=1e-6)


def test_from_a_stand_it_points_level_at_the_height_that_the_stand_has(tmp_path: Path) -> None:
    scene = scene_of(tmp_path, f"{HEAD}{AIMED}floor;1;;wide;\n")
    stand = next(each for each in scene.stands if each.name == "floor")
    point = scene.units[-1].point
    assert point is not None
    assert point[2] == (1.0 if stand.z is None else stand.z)
    assert point[:2] == ((0.0, stand.y) if abs(stand.x) >= 0.5 else (stand.x, stand.y + 2.0))


def test_from_a_boom_it_points_level_across_to_the_centre_line(tmp_path: Path) -> None:
    text = f"{HEAD}{AIMED}boom SR;1;2 m;wide;\n"
    scene = scene_of(tmp_path, text)
    boom = next(each for each in scene.booms if each.name == "boom SR")
    assert scene.units[-1].point == (0.0, boom.y, 2.0)
    assert "level across, to the centre line" in told_of(tmp_path / "told", text)
