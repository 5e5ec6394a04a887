"""What stands beside the figure of a place: the letter of its axis, the initials of its side, the end
that it counts from, and what a line says of a sign.

By hand, in the house of `test_stagelines`: the zero of the rails is 1 m upstage of the plaster line, the bar
runs 6 m to each side, and the tower is 5 m high, its top 5 m over the deck.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.hanglist.listed import asked_in, scene_in
from tests.scene.hanglist.test_stagelines import HEAD, HOUSE

TOWER = """
[[boom]]
name = "Tower"
x = 5
y = 2
height = 5
"""


def _rows(position: str, *cells: str) -> list[str]:
    return [f"{position};{n};{cell};Spot;Altar" for n, cell in enumerate(cells, 1)]


def _places(root: Path, *lines: str) -> list[float]:
    return [round(unit.at or 0.0, 6) for unit in scene_in(root, HOUSE + TOWER, lines).units]


@pytest.mark.parametrize(
    ("line", "cells", "read"),
    [
        ("X from centre, + SL", ("X -3.25", "X +0.5", "X 0", "X 2"), [-3.25, 0.5, 0.0, 2.0]),
        ("X from centre, + SR", ("X -3.25", "x=2", "X: 1"), [3.25, -2.0, -1.0]),
        ("", ("X 2 SL", "x = 3 SR"), [2.0, -3.0]),
    ],
)
def test_the_letter_of_an_axis_stands_before_a_place_across_the_stage(
    line: str, cells: tuple[str, ...], read: list[float], tmp_path: Path
) -> None:
    assert _places(tmp_path, line, HEAD, *_rows("Bar 1", *cells)) == read


def test_y_is_from_the_plaster_line_beside_x(tmp_path: Path) -> None:
    line = "X from centre, + SL. Y upstage from setting line (plaster line)."
    rows = [*_rows("Bar 1", "X -3.25"), *_rows("North Rail", "Y 1.5")]
    assert _places(tmp_path, line, HEAD, *rows) == [-3.25, 0.5]


@pytest.mark.parametrize("position", ["North Rail", "Tower"])
def test_x_is_no_place_up_the_stage_or_up_a_boom(position: str, tmp_path: Path) -> None:
    for cell in ("X 2", "x = 2", "X -2"):
        assert cell in asked_in(tmp_path, HOUSE + TOWER, [HEAD, *_rows(position, cell)])


@pytest.mark.parametrize(
    ("cell", "at"),
    [("@ 1.2 m SL", 1.2), ("@ 2 SR", -2.0), ("@1.2m SL", 1.2), ("@ CL", 0.0)],
)
def test_an_at_sign_says_nothing_of_a_place(cell: str, at: float, tmp_path: Path) -> None:
    assert _places(tmp_path, HEAD, *_rows("Bar 1", cell)) == [at]
    assert _places(tmp_path, HEAD, *_rows("Tower", "@ 1.2 m")) == [1.2]


def test_an_at_sign_says_not_from_where_a_place_counts(tmp_path: Path) -> None:
    asked = asked_in(tmp_path, HOUSE, [HEAD, *_rows("North Rail", "@ 1.2 m", "@ 2 m")])
    assert "where the places on North Rail count from" in asked


@pytest.mark.parametrize(
    ("cell", "at"),
    [
        ("4 m below top of boom", 1.0),
        ("4 m down from the top of the tower", 1.0),
        ("0.5 m off top", 4.5),
    ],
)
def test_a_height_counts_down_from_the_top_of_its_boom(
    cell: str, at: float, tmp_path: Path
) -> None:
    assert _places(tmp_path, HEAD, *_rows("Tower", cell)) == [at]


def test_the_top_of_another_thing_is_asked_about(tmp_path: Path) -> None:
    rows = _rows("Tower", "1 m below top of curtain")
    assert "top of curtain" in asked_in(tmp_path, HOUSE + TOWER, [HEAD, *rows])


@pytest.mark.parametrize(
    ("cells", "read"),
    [
        (("2 m toward the seats", "4 m upstage"), [-3.0, 3.0]),
        (("2 m DS", "4 m toward the stage"), [-3.0, 3.0]),
        # No place says US or DS: each way is one from the middle.
        (("2 m toward the seats", "4 m towards the altar"), [-2.0, 4.0]),
    ],
)
def test_ways_and_sides_of_one_list_count_from_one_line(
    cells: tuple[str, str], read: list[float], tmp_path: Path
) -> None:
    assert _places(tmp_path, HEAD, *_rows("North Rail", *cells)) == read


@pytest.mark.parametrize(
    "line", ["+ = the moon", "plus is the moon", "- = the fire exit", "minus means our kitchen"]
)
def test_what_a_sign_is_that_nobody_places_is_asked_about(line: str, tmp_path: Path) -> None:
    asked = asked_in(tmp_path, HOUSE, [line, "", HEAD, *_rows("Bar 1", "2", "-1")])
    assert "the list says" in asked
    assert _places(tmp_path, line, "", HEAD, *_rows("Bar 1", "2 SL", "1 SR")) == [2.0, -1.0]


@pytest.mark.parametrize("line", ["+ = SL", "+ = new gel", "+ = the same lamp as last year"])
def test_what_else_a_sign_is_is_no_side(line: str, tmp_path: Path) -> None:
    assert _places(tmp_path, line, "", HEAD, *_rows("Bar 1", "2", "-1")) == [2.0, -1.0]


def test_out_in_quotes_is_into_the_house(tmp_path: Path) -> None:
    line = 'Rails: metres from the plaster line, "out" toward the house, "up" upstage. Bar 1: from centre.'
    rows = [*_rows("North Rail", "4 out", "2 up"), *_rows("Bar 1", "2 SL")]
    assert _places(tmp_path, f"'{line}'", "", HEAD, *rows) == [-5.0, 1.0, 2.0]
    bare = [HEAD, *_rows("North Rail", "4", "2 up")]
    assert '"4"' in asked_in(tmp_path, HOUSE, [f"'{line}'", "", *bare])


SIDES = "Position;No;Uit het midden (cm);{};Lamp;Focus"


def _sided(*cells: str) -> list[str]:
    return [f"Bar 1;{n};{cell};Spot;Altar" for n, cell in enumerate(cells, 1)]


@pytest.mark.parametrize(
    ("heading", "read"),
    [("Zaal links / zaal rechts", [-3.6, 1.2]), ("Zuschauer links, Zuschauer rechts", [-3.6, 1.2])],
)
def test_initials_of_two_sides_that_the_heading_says(
    heading: str, read: list[float], tmp_path: Path
) -> None:
    head = SIDES.format(heading)
    assert _places(tmp_path, head, *_sided("360;ZL", "120;ZR")) == read


def test_initials_that_no_heading_says_are_asked_about(tmp_path: Path) -> None:
    for heading in ("Side", "Links / rechts"):
        assert asked_in(tmp_path, HOUSE, [SIDES.format(heading), *_sided("360;ZL", "120;ZR")])


def test_centimetres_are_cms(tmp_path: Path) -> None:
    head = HEAD.replace("Place", "cms from centre")
    assert _places(tmp_path, head, *_rows("Bar 1", "SR 380", "SL 120")) == [-3.8, 1.2]


def test_p_and_o_head_places_from_the_centre_line(tmp_path: Path) -> None:
    head = HEAD.replace("Place", '"P/O from C/L, m"')
    assert _places(tmp_path, head, *_rows("Bar 1", "P 2.4", "C/L", "O 1.5")) == [2.4, 0.0, -1.5]
    alone = HEAD.replace("Place", '"O/P from C/L, m"')
    assert asked_in(tmp_path, HOUSE, [alone, *_rows("Bar 1", "2.4", "1.5")])


def test_from_j_is_from_the_jardin_end_that_a_line_names(tmp_path: Path) -> None:
    head = HEAD.replace("Place", "from J")
    line = "Every bar: metres from its JARDIN end"
    assert _places(tmp_path, line, "", head, *_rows("Bar 1", "1.0", "7.5")) == [-5.0, 1.5]
    assert asked_in(tmp_path, HOUSE, [head, *_rows("Bar 1", "1.0", "7.5")])


def test_a_column_a_side_may_hold_the_middle(tmp_path: Path) -> None:
    lines = ["sx e dx dal pubblico", "", "Position;No;sx;dx;Lamp;Focus"]
    rows = ["Bar 1;1;4;;Spot;Altar", "Bar 1;2;;1.3;Spot;Altar", "Bar 1;3;centro;;Spot;Altar"]
    assert _places(tmp_path, *lines, *rows) == [-4.0, 1.3, 0.0]
    assert asked_in(tmp_path, HOUSE, [*lines[1:], *rows])
    words = [*rows[:2], "Bar 1;3;tower;;Spot;Altar"]
    assert asked_in(tmp_path, HOUSE, [*lines, *words])


PAIR = "Position;No;Place;Lamp;Focus;Chs;Dims"


def test_units_of_a_row_may_be_joined_by_plus(tmp_path: Path) -> None:
    row = "Bar 1;1 + 2;OP 3.0 + PS 2.0;Spot;Altar;11 + 12;5 + 6"
    scene = scene_in(tmp_path, HOUSE, [PAIR, row])
    found = [(u.number, u.at, str(u.channel), str(u.circuit)) for u in scene.units]
    assert found == [("1", -3.0, "11", "5"), ("2", 2.0, "12", "6")]


@pytest.mark.parametrize("place", ["CL + 2.0", "3.0 + 2.0", "SL 3.0 + 2.0"])
def test_a_plus_without_a_side_for_each_place_is_asked(place: str, tmp_path: Path) -> None:
    row = f"Bar 1;1 + 2;{place};Spot;Altar;11 + 12;5 + 6"
    assert asked_in(tmp_path, HOUSE, [PAIR, row])
