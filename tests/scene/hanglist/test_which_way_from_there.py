"""Which way places count: by what a house's pipe reaches, by where north is, by what units are aimed at."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.model import Scene
from tests.scene.hanglist.listed import asked_in, scene_in
from tests.scene.written import BASE

HOUSE = BASE.format(settings='hang = "list.csv"')
# Up and down the stage from the plaster line, or on both sides of it, and two targets beside the middle.
RAILS = """
[[pipe]]
name = "Aisle"
start = [-5, -8, 4]
end = [-5, 0, 4]

[[pipe]]
name = "Through"
start = [5, -4, 4]
end = [5, 4, 4]

[[target]]
name = "Bed"
x = 3
y = 2

[[target]]
name = "Desk"
x = -3
y = 2
"""


def _scene(root: Path, *lines: str) -> Scene:
    return scene_in(root, HOUSE + RAILS, lines)


def _places(scene: Scene) -> list[float]:
    return [round(unit.at or 0.0, 6) for unit in scene.units]


def _on(position: str, line: str, *cells: str) -> list[str]:
    units = [f"{position};{n};{cell};spot;A" for n, cell in enumerate(cells, 1)]
    return [line, "Position;No;Measure;Lamp;Focus", *units]


@pytest.mark.parametrize(
    "line",
    [
        "Metres back from the step, towards the doors (the step is the plaster line)",
        "Metres from the plaster line",
        "Places are metres off the plaster line, back along the aisle",
    ],
)
def test_a_pipe_that_ends_at_the_plaster_line_has_places_on_its_own_side_alone(
    line: str, tmp_path: Path
) -> None:
    assert _places(_scene(tmp_path, *_on("Aisle", line, "2 m", "7.5 m"))) == [2.0, -3.5]


def test_a_sign_or_a_way_of_its_own_says_it_better(tmp_path: Path) -> None:
    line = "Metres from the plaster line"
    assert _places(_scene(tmp_path, *_on("Aisle", line, "2 m DS", "-7.5 m"))) == [2.0, -3.5]


def test_a_pipe_on_both_sides_of_the_plaster_line_is_read_as_before(tmp_path: Path) -> None:
    line = "Metres from the plaster line"
    assert _places(_scene(tmp_path, *_on("Through", line, "2 m DS", "3 m US"))) == [-2.0, 3.0]


def test_towards_what_nobody_knows_is_asked_about_on_such_a_pipe(tmp_path: Path) -> None:
    rows = _on("Through", "Metres from the plaster line, towards the doors", "2 m", "3 m")
    assert "towards the doors" in asked_in(tmp_path, HOUSE + RAILS, rows)


@pytest.mark.parametrize(
    "line",
    [
        "Tape reads from the SOUTH end going north (upstage).",
        "Tape from the south end; upstage is north",
        "Measured from the south end (north = US)",
        "Taped from the south end, north/upstage is away from you",
    ],
)
def test_north_is_where_a_line_says_beside_it(line: str, tmp_path: Path) -> None:
    assert _places(_scene(tmp_path, *_on("Through", line, "1 m", "6 m"))) == [-3.0, 2.0]


def test_nobody_knows_where_north_is_else(tmp_path: Path) -> None:
    rows = _on("Through", "Tape reads from the SOUTH end going north", "1 m", "6 m")
    assert "where it counts from" in asked_in(tmp_path, HOUSE + RAILS, rows)


def _halves(*aims: str) -> list[str]:
    sides = ("4;", "3;", ";3", ";4")
    units = [f"LX 1;{n};{s};spot;{a}" for n, (s, a) in enumerate(zip(sides, aims, strict=True), 1)]
    return ["Position;No;Left of CL (m);Right of CL (m);Lamp;Focus", *units]


def test_a_left_and_a_right_column_are_the_stages_where_units_are_aimed_so(tmp_path: Path) -> None:
    scene = _scene(tmp_path, *_halves("Bed", "Bed", "Desk", "Desk"))
    assert _places(scene) == [4.0, 3.0, -3.0, -4.0]
    assert any("aimed to their own side" in taken.says for taken in scene.taken)


@pytest.mark.parametrize(
    "aims", [("Desk", "Desk", "Bed", "Bed"), ("Bed", "Desk", "Bed", "Desk"), ("A",) * 4]
)
def test_they_are_asked_about_where_units_do_not_say(aims: tuple[str, ...], tmp_path: Path) -> None:
    assert "may hold it" in asked_in(tmp_path, HOUSE + RAILS, _halves(*aims))


def test_left_in_swedish_is_the_stages_where_a_line_says_so(tmp_path: Path) -> None:
    line = "Vänster = scenens vänster. Mått i cm från mittlinjen."
    head, *units = _halves("A", "A", "A", "A")
    head = head.replace("Left of CL (m)", "Vänster cm").replace("Right of CL (m)", "Höger cm")
    assert _places(_scene(tmp_path, line, head, *units)) == [0.04, 0.03, -0.03, -0.04]


@pytest.mark.parametrize(
    "form", ["To {}", "Metres to {}", "Dist. {}", "{} side", "Out {}", "Distance {} (m)"]
)
def test_little_words_beside_a_left_and_a_right(form: str, tmp_path: Path) -> None:
    head, *units = _halves("A", "A", "A", "A")
    head = head.replace("Left of CL (m)", form.format("left"))
    head = head.replace("Right of CL (m)", form.format("right"))
    line = "Left and right are as the actor sees them"
    assert _places(_scene(tmp_path, line, head, *units)) == [4.0, 3.0, -3.0, -4.0]


def test_distances_from_either_end_are_no_sides(tmp_path: Path) -> None:
    head, *_ = _halves("A", "A", "A", "A")
    head = head.replace("Left of CL (m)", "Dist left").replace("Right of CL (m)", "Dist right")
    rows = [
        "Left and right are as the actor sees them",
        head,
        "LX 1;1;4;6;spot;A",
        "LX 1;2;3;7;spot;A",
    ]
    assert "may hold it" in asked_in(tmp_path, HOUSE + RAILS, rows)


@pytest.mark.parametrize(
    "line",
    [
        "Downstage end is on the plaster line. Tape reads from the upstage end",
        "Pipes have their downstage end at plaster line; measure from the upstage end",
        "Measured from the US end; the DS end of the pipe is over the pit",
    ],
)
def test_an_end_of_which_a_line_says_where_it_is_is_none_that_places_count_from(
    line: str, tmp_path: Path
) -> None:
    assert _places(_scene(tmp_path, *_on("Through", line, "1 m", "6 m"))) == [3.0, -2.0]


def test_where_an_end_is_does_not_say_from_where_places_count(tmp_path: Path) -> None:
    rows = _on("Through", "All pipes: downstage end at plaster line", "1 m", "6 m")
    assert "where the places on Through count from" in asked_in(tmp_path, HOUSE + RAILS, rows)
