"""Names and places that a cell says in two languages or two units, points of the compass by their letter, the
sides of a stage in French, and what a title of several cells says in brackets."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from aimcalc.scene.hanglist.names.meant import Names
from aimcalc.scene.hanglist.names.namewords import POSITION_SPARE, POSITION_WORDS
from aimcalc.scene.mistakes import SceneError
from tests.scene.hanglist.listed import asked_of, scene_of
from tests.scene.hanglist.places import HEADINGS, places, read, told, units


@pytest.mark.parametrize(
    ("said", "at"),
    [
        ("Mitte / middle", 0.0),
        ("centre / Mitte", 0.0),
        ("CL / 0", 0.0),
        ("2.44 m SL / 8' SL", 2.44),
        ("2.44 m SR (8')", -2.44),
        ("2.44 m (8') SR", -2.44),
        ("2.44 m / 8' SR", -2.44),
        ("8'/2.44m SL", 2.4384),
    ],
)
def test_a_place_in_two_ways(tmp_path: Path, said: str, at: float) -> None:
    assert places(read(tmp_path, [HEADINGS, *units("LX 1", "3 m SL", said)]))[1] == at


@pytest.mark.parametrize(
    "said", ["1.5 m SL / 2 m SL", "1 SL / 2 SL", "8' (2 m) SL", "L 2.44 m / 8'"]
)
def test_two_places_are_asked_about(tmp_path: Path, said: str) -> None:
    with pytest.raises(SceneError):
        read(tmp_path, [HEADINGS, *units("LX 1", "3 m SL", said)])


@pytest.mark.parametrize("heading", ["ft / m", "m (ft)", "Dist", "Where", "Metric / imperial"])
def test_a_column_of_places_in_two_units(tmp_path: Path, heading: str) -> None:
    said = ("10'-0\" SL / 3.05 m", "6'-0\" SR / 1.83 m", "3'-0\" SR (0.91 m)")
    rows = [[*HEADINGS[:2], heading, *HEADINGS[3:]], *units("LX 1", *said)]
    assert places(read(tmp_path, rows)) == [3.048, -1.8288, -0.9144]


@pytest.mark.parametrize("said", ["10'-0\" SL / 2.05 m", "10'-0\" SL / 3.05 m SR"])
def test_a_column_of_places_that_do_not_agree_is_asked_about(tmp_path: Path, said: str) -> None:
    rows = [[*HEADINGS[:2], "ft / m", *HEADINGS[3:]], *units("LX 1", "1'-0\" SL / 0.30 m", said)]
    with pytest.raises(SceneError):
        read(tmp_path, rows)


ONE = "position,number,at,kind,target\n{},1,1,spot,A\n"


@pytest.mark.parametrize("said", ["Laufsteg / LX 2", "LX 2 / Electric 2", "LX 2 (2nd Electric)"])
def test_a_position_in_two_languages(tmp_path: Path, said: str) -> None:
    assert scene_of(tmp_path, ONE.format(said)).units[0].position == "LX 2"


@pytest.mark.parametrize("said", ["Zug 9 / LX 2", "LX 1 / LX 2", "behind / LX 2", "Laufsteg / Bar"])
def test_two_positions_in_a_cell_are_asked_about(tmp_path: Path, said: str) -> None:
    assert "position" in asked_of(tmp_path, ONE.format(said))


def _names(*names: str) -> Names:
    return Names(names, POSITION_WORDS, POSITION_SPARE)


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        ("Tower E", "Tower East"),
        ("TOWER W", "Tower West"),
        ("tower n", "Tower North"),
        ("Tower", None),
    ],
)
def test_a_point_of_the_compass_by_its_letter(said: str, meant: str | None) -> None:
    names = _names("Tower East", "Tower West", "Tower North", "LX 1")
    assert names.find(said).name == meant


def test_a_letter_that_begins_two_names_is_asked_about() -> None:
    assert len(_names("Tower East", "Tower Entrance", "Tower West").find("Tower E").several) > 1


ROWS: list[list[Any]] = [["LX 1", 1, "J 2m50", "spot", "A"], ["LX 1", 2, "C 1m50", "spot", "A"]]


@pytest.mark.parametrize(
    "line",
    [
        "J = jardin, C = cour, from axis",
        "places: jardin (J), cour (C)",
        "J: côté jardin / C: côté cour",
    ],
)
def test_letters_of_garden_and_court(tmp_path: Path, line: str) -> None:
    assert places(read(tmp_path, [[line], HEADINGS, *ROWS])) == [-2.5, 1.5]


def test_a_legend_of_its_own_comes_before_custom(tmp_path: Path) -> None:
    rows = [["J = jardin (SL), C = cour (SR)"], HEADINGS, *ROWS]
    assert places(read(tmp_path, rows)) == [2.5, -1.5]


@pytest.mark.parametrize(
    ("said", "first"),
    [
        ("(metres from the middle, L and R are stage left / right)", 2.5),
        ("[metres, left and right seen from the house]", -2.5),
    ],
)
def test_what_a_title_says_in_brackets(tmp_path: Path, said: str, first: float) -> None:
    rows = [["SUMMER SHOW", "", "rig list", "June", said], HEADINGS, *units("LX 1", "L 2.5")]
    scene = read(tmp_path, rows)
    assert places(scene) == [first]
    assert told(scene, "row 1")


def test_a_title_without_brackets_says_nothing_of_sides(tmp_path: Path) -> None:
    rows = [["SUMMER SHOW", "L and R", "rig list", "stage"], HEADINGS, *units("LX 1", "L 2.5")]
    with pytest.raises(SceneError):
        read(tmp_path, rows)
