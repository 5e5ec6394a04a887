"""Heights on booms that count down from the grid. The booms are 4 and 6 m high, the grid is at 6.5 m where a
line says it."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.hanglist.places.fromgrid import grid_heights, grid_out, heads_grid, says_grid
from tests.scene.hanglist.listed import asked_in, scene_in
from tests.scene.written import BASE

HOUSE = BASE.format(settings='hang = "list.csv"') + (
    '\n[[boom]]\nname = "boom SL"\nx = "6 m SL"\ny = 1\nheight = 6\n'
)
HEAD = "Position;No;{};Lamp;Focus"
ROWS = ("boom SR;1;3;spot;A", "boom SR;2;4;spot;A", "boom SL;1;2;spot;A")


def _places(root: Path, heading: str, *lines: str) -> list[float]:
    scene = scene_in(root, HOUSE, [HEAD.format(heading), *lines])
    return [round(unit.at or 0.0, 3) for unit in scene.units]


def _asked(root: Path, heading: str, *lines: str) -> str:
    return asked_in(root, HOUSE, [HEAD.format(heading), *lines])


@pytest.mark.parametrize(
    "line",
    [
        "Boom heights are measured down from the grid. Grid at 6.5 m.",
        "Booms: below the grid (grid is 650 cm above deck)",
        "Heights on booms are from the grid down; grid height 6.5 m",
        "Türme: Höhen ab Schnürboden, Schnürboden 6,5 m",
        "Hauteurs des tours depuis le gril (gril à 6,5 m)",
        "Alturas de las calles desde el peine (peine a 6,5 m)",
        "Altezze delle torri dalla graticcia (graticcia a 6,5 m)",
        "Torens: hoogte onder de rollenzolder, rollenzolder op 6,5 m",
        "Torn: höjd under taket, taket är 6,5 m",
    ],
)
def test_a_line_says_that_heights_count_down_and_how_high_the_grid_is(
    tmp_path: Path, line: str
) -> None:
    assert _places(tmp_path, "Height (m)", *ROWS, line) == [3.5, 2.5, 4.5]


@pytest.mark.parametrize(
    "line",
    [
        "Boom heights are measured down from the grid",
        "Booms: drop from grid",
        "drop from grid (m)",
        "Höhen ab Schnürboden",
        "hauteurs depuis le gril",
        "Boom heights below grid; grid 6.5 m or 7 m?",
        "Boom heights down from the grid, grid at 5 m",  # below the top of a boom
    ],
)
def test_without_the_one_height_of_the_grid_they_are_asked_about(tmp_path: Path, line: str) -> None:
    assert "grid" in _asked(tmp_path, "Height (m)", *ROWS, line)


@pytest.mark.parametrize(
    "line",
    [
        "Booms fed from the grid",
        "Pipes hang 3 ft below the grid",
        "All power from the grid",
        "All pipe trims are measured down from the grid",
        "Grid height 6.5 m",
        "distances from grid line A",
        "heights from the deck up to the grid",
    ],
)
def test_what_else_a_line_says_of_the_grid_leaves_heights_above_the_deck(
    tmp_path: Path, line: str
) -> None:
    assert _places(tmp_path, "Height (m)", *ROWS, line) == [3.0, 4.0, 2.0]


@pytest.mark.parametrize(
    "heading",
    ["Below grid (m)", "Drop from grid (m)", "m ab Schnürboden", "sous gril", "Grid drop"],
)
def test_a_heading_says_it_too(tmp_path: Path, heading: str) -> None:
    assert "how high that is" in _asked(tmp_path, heading, *ROWS)
    assert _places(tmp_path, heading, *ROWS, "Grid 6.5 m") == [3.5, 2.5, 4.5]


def test_dittos_below_such_a_heading_are_the_figure_above(tmp_path: Path) -> None:
    rows = ["boom SR;1;3;spot;A", 'boom SL;1;";spot;A']
    assert _places(tmp_path, "Below grid (m)", *rows, "Grid 6.5 m") == [3.5, 3.5]


def test_a_line_on_one_boom_is_of_that_boom_alone(tmp_path: Path) -> None:
    line = "boom SR: down from grid (6.5 m)"
    assert _places(tmp_path, "Height (m)", *ROWS, line) == [3.5, 2.5, 2.0]


@pytest.mark.parametrize(
    ("line", "places"),
    [
        ("Heights on booms are down from the top", [1.0, 3.0]),
        ("Booms: down from the grid, grid at 6.5 m", [3.5, 3.5]),
    ],
)
def test_down_alone_is_from_where_a_line_says(
    tmp_path: Path, line: str, places: list[float]
) -> None:
    rows = ["boom SR;1;3 m down;spot;A", "boom SL;1;down 3 m;spot;A"]
    assert _places(tmp_path, "Height", *rows, line) == places
    assert "a length such as" in _asked(tmp_path, "Height", *rows)


def test_a_cell_says_it_alone(tmp_path: Path) -> None:
    for k, cell in enumerate(("3 m below grid", "3 m ab Schnürboden", "300 cm down from the grid")):
        (tmp_path / str(k)).mkdir()
        rows = [f"boom SR;1;{cell};spot;A", "boom SL;1;2 m;spot;A"]
        assert _places(tmp_path / str(k), "Height", *rows, "Grid at 6.5 m") == [3.5, 2.0]
    assert "how high that is" in _asked(tmp_path, "Height", "boom SR;1;3 m below grid;spot;A")


def test_words_of_the_grid_in_lines_headings_and_cells() -> None:
    assert says_grid("Tower dims: down from ceiling")
    assert not says_grid("places from the roster")
    assert grid_heights("grid is 28' above the deck, grid = 8.5344 m") == (8.5344, 8.5344)
    assert grid_heights("3 m below grid") == () == grid_heights("grid 12")
    assert heads_grid("Under grid")
    assert not heads_grid("Grid position")
    assert grid_out("9'10\" below grid") == ("9'10\"", True)
    assert grid_out("below grid") == ("below grid", False)
