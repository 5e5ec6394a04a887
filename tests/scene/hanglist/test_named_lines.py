"""Places up and down the stage from a line, a step or a mark that a line of the list names, and "out" and
"in" from the plaster line. The pipe "side" has its zero 3 m upstage of the plaster line, and 1 m downstage of
it where it reaches over the seats."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.hanglist.listed import asked_in, scene_in
from tests.scene.written import BASE

HOUSE = BASE.format(settings='hang = "list.csv"')
OUT = HOUSE.replace("start = [4, 0, 5]", "start = [4, -8, 5]")
HEAD = "Position;No;Place;Lamp;Focus"


def _places(root: Path, house: str, cells: list[str], line: str) -> list[float]:
    rows = [f"side;{k};{cell};spot;A" for k, cell in enumerate(cells, 1)]
    return [round(u.at or 0.0, 3) for u in scene_in(root, house, [HEAD, *rows, line]).units]


def _asked(root: Path, house: str, cell: str, line: str) -> str:
    return asked_in(root, house, [HEAD, f"side;1;{cell};spot;A", line])


@pytest.mark.parametrize(
    ("cell", "line"),
    [
        ("2 m upstage of the line", "(line = plaster line)"),
        ("2 m US of line", "By line we mean the plaster line"),
        ("2 m behind the line", "line: plaster line"),
        ("2 m US of the line", "the line is the curtain line"),
        ("2 m US of the mark", "the mark is the plaster line"),
        ("2 m US of the tape", "The tape is on the plaster line"),
        ("2 m US of the step", "the step is the plaster line"),
        ("2 m US of the lip", "plaster line = the lip of the stage"),
        ("2 m hinter der Linie", "Linie = Portallinie"),
        ("2 m achter de lijn", "lijn = portaallijn"),
        ("2 m US of the edge", "edge = plaster line"),
    ],
)
def test_what_a_line_says_to_be_the_plaster_line_is_counted_from(
    tmp_path: Path, cell: str, line: str
) -> None:
    assert _places(tmp_path, HOUSE, [cell, cell.replace("2 m", "4 m")], line) == [-1.0, 1.0]
    assert "a length such as" in _asked(tmp_path, HOUSE, cell, "")


@pytest.mark.parametrize(
    "line", ["line = tape on the floor", "the line is the centre line", "the step is plaster line"]
)
def test_a_line_that_says_something_else_leaves_it_open(tmp_path: Path, line: str) -> None:
    assert "a length such as" in _asked(tmp_path, HOUSE, "2 m US of the line", line)


@pytest.mark.parametrize(
    "line",
    [
        "Side pipes: metres out into the house from the plaster line",
        "metres out from the plaster line into the house",
        "All from the curtain line, out into the auditorium",
        "out toward the seats from plaster",
    ],
)
def test_out_is_into_the_house_and_in_the_other_way_where_a_line_says_so(
    tmp_path: Path, line: str
) -> None:
    cells = ["2 m out", '"', "2 m outward", "2 m in", "2 m up", "2 m"]
    assert _places(tmp_path, OUT, cells, line) == [-1.0, -1.0, -1.0, 3.0, 3.0, -1.0]


@pytest.mark.parametrize("heading", ["m out from plaster line", "Out from PL (m)"])
def test_a_heading_says_out_of_its_figures(tmp_path: Path, heading: str) -> None:
    rows = [HEAD.replace("Place", heading), "side;1;2;spot;A"]
    assert [round(u.at or 0.0, 3) for u in scene_in(tmp_path, OUT, rows).units] == [-1.0]


@pytest.mark.parametrize("line", ["", "Places from the plaster line"])
def test_a_bare_out_is_asked_about(tmp_path: Path, line: str) -> None:
    assert "a length such as" in _asked(tmp_path, OUT, "2 m out", line)


def test_which_way_out_is_says_nothing_of_figures_alone(tmp_path: Path) -> None:
    line = "out = into the house from the plaster line"
    assert _places(tmp_path, OUT, ["2 m out", "2 m in"], line) == [-1.0, 3.0]
    assert "US or DS of the plaster line" in _asked(tmp_path, OUT, "2 m", line)
