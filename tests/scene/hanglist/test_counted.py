"""Places of a hang list that are counted and not measured, and several places of one row."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.hanglist.counted import is_counted
from aimcalc.scene.hanglist.runs import places_of
from aimcalc.scene.loading import load_scene
from tests.scene.written import refused, write_scene

HEADED = "Position,No,{},Fixture,Focus\nLX 1,1,4 SR,spot,A\nLX 1,2,0,spot,A\nLX 1,3,5 SL,spot,A\n"


def _list(tmp_path: Path, text: str) -> str:
    path = write_scene(tmp_path, settings='hang = "list.csv"')
    (tmp_path / "list.csv").write_text(text, encoding="utf-8")
    return path


@pytest.mark.parametrize("line", ["Units every 50 cm on the rungs", "Rungs are 50 cm apart"])
def test_rungs_are_as_far_apart_as_a_line_says(tmp_path: Path, line: str) -> None:
    units = load_scene(_list(tmp_path, f"{line},,,,\n{HEADED.format('rung')}")).units
    assert [unit.at for unit in units] == pytest.approx([-2.0, 0.0, 2.5])


def test_rungs_of_which_nobody_says_how_far_apart_they_are_are_asked_about(tmp_path: Path) -> None:
    path = _list(tmp_path, HEADED.format("rung"))
    assert ["figures are counted" in mistake.text() for mistake in refused(path)] == [True, True]


def test_a_place_that_is_measured_is_not_counted(tmp_path: Path) -> None:
    line = "Units every 50 cm on the rungs,,,,\n"
    units = load_scene(_list(tmp_path, line + HEADED.format("Place"))).units
    assert [unit.at for unit in units] == pytest.approx([-4.0, 0.0, 5.0])


def test_headings_of_what_is_counted() -> None:
    assert all(map(is_counted, ("Rung", "Holes from CL", "NOTCH #")))
    assert not any(map(is_counted, ("rung height", "distance")))


@pytest.mark.parametrize(
    ("cell", "places"),
    [
        ("10' and 12' SR", ["10' SR", "12' SR"]),
        ("2 m & 3 m left", ["2 m left", "3 m left"]),
        ("2 m SL & 3 m SR", ["2 m SL", "3 m SR"]),
        ("-2; 3", ["-2", "3"]),
        ("CL & 3 m SR", ["CL", "3 m SR"]),
    ],
)
def test_a_side_behind_the_last_of_several_places_is_that_of_all(
    cell: str, places: list[str]
) -> None:
    assert places_of(cell) == places
