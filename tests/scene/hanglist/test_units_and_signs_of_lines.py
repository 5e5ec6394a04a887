"""Units of length, the zero and the signs that lines round a table say, and whose left it is by areas with
more beside their names, by lists that were read otherwise; every place worked out by hand.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.hanglist.rows.rowcuts import lined_are_cut
from tests.scene.hanglist.listed import ALTAR, BAR, HALL, asked_in, scene_in

HOUSE = HALL + BAR + ALTAR
HEAD = "Position;No;Place;Lamp;Focus"
IN_FEET = HOUSE.replace('title = "Hall"', 'title = "Hall"\nunit = "ft"')


def _rows(*cells: str) -> list[str]:
    return [f"Bar 1;{n};{cell};Spot;Altar" for n, cell in enumerate(cells, 1)]


def _places(root: Path, *lines: str, house: str = HOUSE) -> list[float]:
    return [round(float(unit.at or 0), 6) for unit in scene_in(root, house, lines).units]


RAILS = """
[[pipe]]
name = "Left Rail"
start = [5, -6, 4]
end = [5, 6, 4]
[[pipe]]
name = "Right Rail"
start = [-5, -6, 4]
end = [-5, 6, 4]
"""


def test_the_two_rails_taped_in_feet_leave_the_bars_their_metres(tmp_path: Path) -> None:
    line = "Bars in metres off centre. The two rails were taped in feet and inches, from the plaster line."
    rows = ["Bar 1;1;3.9 SL;Spot;Altar", "Left Rail;1;3-6;Spot;Altar"]
    assert _places(tmp_path, line, "", HEAD, *rows, house=HOUSE + RAILS) == [3.9, 1.0668]


def test_metres_please_in_a_house_of_feet(tmp_path: Path) -> None:
    line = "Guest choir (from Leeds). Metres please. Positive numbers are stage left"
    rows = ["Bar 1;1;1.5;Spot;Altar", "Bar 1;2;-1;Spot;Altar"]
    assert _places(tmp_path, line, "", HEAD, *rows, house=IN_FEET) == [1.5, -1.0]


@pytest.mark.parametrize("sign", ["minus = toward the people", "minus is towards the audience"])
def test_minus_towards_the_people_is_downstage(tmp_path: Path, sign: str) -> None:
    line = f"Rails: metres from the chancel step, {sign} (step = zero line)"
    rows = ["Left Rail;1;-2;Spot;Altar", "Left Rail;2;3;Spot;Altar"]
    assert _places(tmp_path, line, "", HEAD, *rows, house=HOUSE + RAILS) == [-2.0, 3.0]


def test_plus_towards_the_people_is_downstage_too(tmp_path: Path) -> None:
    line = "Rails: metres from the chancel step, plus = toward the people (step = zero line)"
    rows = ["Left Rail;1;2;Spot;Altar", "Left Rail;2;-3;Spot;Altar"]
    assert _places(tmp_path, line, "", HEAD, *rows, house=HOUSE + RAILS) == [-2.0, 3.0]


def test_minus_towards_what_nobody_places_is_asked(tmp_path: Path) -> None:
    line = "Rails: metres from the chancel step, minus = toward the vestry (step = zero line)"
    rows = ["Left Rail;1;-2;Spot;Altar", "Left Rail;2;3;Spot;Altar"]
    assert "vestry" in asked_in(tmp_path, HOUSE + RAILS, [line, "", HEAD, *rows])


def test_the_tape_line_that_is_zero(tmp_path: Path) -> None:
    line = "Rails: metres upstage of the tape line on the floor (that's 0)"
    rows = ["Left Rail;1;2;Spot;Altar", "Right Rail;1;3;Spot;Altar"]
    assert _places(tmp_path, line, "", HEAD, *rows, house=HOUSE + RAILS) == [2.0, 3.0]


def test_number_one_at_a_place_and_so_on(tmp_path: Path) -> None:
    line = "All on 1 m centers, #1 at 3 m stage left and so on to stage right"
    rows = ["Bar 1;1;Spot;Altar", "Bar 1;2;Spot;Altar", "Bar 1;3;Spot;Altar"]
    assert _places(tmp_path, line, "", "Position;No;Lamp;Focus", *rows) == [3.0, 2.0, 1.0]


def test_dim_over_feet_and_inches_with_sides_is_the_dimension(tmp_path: Path) -> None:
    line = "Visiting company - dims are in ft-in from CL"
    rows = ["Bar 1;1;15-6 SL;Spot;Altar", "Bar 1;2;5-0 SR;Spot;Altar"]
    assert _places(tmp_path, line, "", "Position;No;Dim;Lamp;Focus", *rows) == [4.7244, -1.524]


AREAS = """
[[target]]
name = "Area 1"
x = 3
y = 2
[[target]]
name = "Area 3"
x = -3
y = 2
"""


def test_whose_left_it_is_by_areas_with_more_beside_their_names(tmp_path: Path) -> None:
    cells = ["4 m;L;Area 1 warm", "3 m;L;Area 1 cool", "3 m;R;Area 3 warm", "4 m;R;Area 3 cool"]
    rows = [
        f"Bar 1;{n};{place};Spot;{aim}"
        for n, cell in enumerate(cells, 1)
        for place, aim in [cell.rsplit(";", 1)]
    ]
    head = "Position;No;Distance;Side;Lamp;Focus"
    assert _places(tmp_path, head, *rows, house=HOUSE + AREAS) == [4.0, 3.0, -3.0, -4.0]


def test_whose_left_it_is_stays_asked_where_such_areas_do_not_agree(tmp_path: Path) -> None:
    cells = ["4 m;L;Area 1 warm", "3 m;L;Area 3 cool", "3 m;R;Area 1 warm", "4 m;R;Area 3 cool"]
    rows = [
        f"Bar 1;{n};{place};Spot;{aim}"
        for n, cell in enumerate(cells, 1)
        for place, aim in [cell.rsplit(";", 1)]
    ]
    head = "Position;No;Distance;Side;Lamp;Focus"
    assert "seen from the house" in asked_in(tmp_path, HOUSE + AREAS, [head, *rows])


@pytest.mark.parametrize(
    ("line", "cut"),
    [
        ("OLIVER! rev C (struck lines are cut)", True),
        ("struck rows do not hang", True),
        ("struck lines are done", False),
        ("the set is struck on Sunday, ladders are out", False),
    ],
)
def test_struck_lines_are_those_with_a_line_through_them(line: str, cut: bool) -> None:
    assert lined_are_cut(line) is cut


@pytest.mark.parametrize(
    "line",
    [
        "metres (the village tape has no feet)",
        "metres unless it says feet",
        "L and R are the stage's. metres.",
    ],
)
def test_a_line_that_says_the_unit_first_and_more_behind_it(tmp_path: Path, line: str) -> None:
    rows = ["Bar 1;1;1.5 SL;Spot;Altar", "Bar 1;2;1 SR;Spot;Altar"]
    assert _places(tmp_path, line, "", HEAD, *rows, house=IN_FEET) == [1.5, -1.0]


def test_rails_in_brackets_and_bars_behind_them(tmp_path: Path) -> None:
    line = "Sweeney (rails taped in feet up from the pros line; bars centre out, metres)"
    rows = ["Bar 1;1;2.8 SL;Spot;Altar", "Left Rail;1;10;Spot;Altar"]
    assert _places(tmp_path, line, "", HEAD, *rows, house=HOUSE + RAILS) == [2.8, 3.048]


def test_all_but_the_rails_which_are_in_feet(tmp_path: Path) -> None:
    lines = [
        "Unit: metres everywhere except on the rails, which are in feet",
        "Rails from the plaster line",
    ]
    rows = ["Bar 1;1;2.8 SL;Spot;Altar", "Left Rail;1;10;Spot;Altar"]
    assert _places(tmp_path, *lines, "", HEAD, *rows, house=HOUSE + RAILS) == [2.8, 3.048]


def test_a_heading_that_says_of_each_sort_without_brackets(tmp_path: Path) -> None:
    head = "Position;No;Bars: ft from centre / Rails: m from plaster line;Side;Lamp;Focus"
    rows = ["Bar 1;1;10;SL;Spot;Altar", "Left Rail;1;2;;Spot;Altar"]
    assert _places(tmp_path, head, *rows, house=HOUSE + RAILS) == [3.048, 2.0]


def test_the_unit_of_one_row_in_its_notes(tmp_path: Path) -> None:
    rows = [
        "Bar 1;1;4 SL;Spot;Altar;metres",
        "Bar 1;2;4 SR;Spot;Altar;feet",
        "Left Rail;1;10;Spot;Altar;feet from plaster",
    ]
    read = _places(tmp_path, f"{HEAD};Notes", *rows, house=HOUSE + RAILS)
    assert read == [4.0, -1.2192, 3.048]


def test_in_the_round_is_no_inches(tmp_path: Path) -> None:
    lines = ["ANNIE (in the round, by the town's tapes)", "Unit: mm everywhere"]
    rows = ["Bar 1;1;1500 SL;Spot;Altar", "Bar 1;2;1000 SR;Spot;Altar"]
    assert _places(tmp_path, *lines, "", HEAD, *rows, house=IN_FEET) == [1.5, -1.0]
    told = ["ANNIE (in, from the centre)"]
    rows = ["Bar 1;1;15 SL;Spot;Altar", "Bar 1;2;10 SR;Spot;Altar"]
    assert _places(tmp_path, *told, "", HEAD, *rows, house=IN_FEET) == [0.381, -0.254]


@pytest.mark.parametrize("pair", ["Was;Now", "Was at;Is now at", "Before;Now"])
def test_the_later_of_two_columns_of_places(tmp_path: Path, pair: str) -> None:
    rows = ["Bar 1;1;3 SL;3.4 SL;Spot;Altar", "Bar 1;2;1 SR;1.2 SR;Spot;Altar"]
    assert _places(tmp_path, f"Position;No;{pair};Lamp;Focus", *rows) == [3.4, -1.2]
    other = f"Position;No;{';'.join(reversed(pair.split(';')))};Lamp;Focus"
    assert _places(tmp_path, other, *rows) == [3.0, -1.0]


def test_a_unit_without_the_later_place_is_asked(tmp_path: Path) -> None:
    rows = [
        "Bar 1;1;3 SL;3.4 SL;Spot;Altar",
        "Bar 1;2;1 SR;;Spot;Altar",
        "Bar 1;3;2 SR;2 SR;Spot;Altar",
    ]
    assert "Was" in asked_in(tmp_path, HOUSE, ["Position;No;Was;Now;Lamp;Focus", *rows])


def test_feet_and_inches_with_a_point_between(tmp_path: Path) -> None:
    line = "Godspell. Distances as feet.inches (7.6 = 7ft 6in) from C"
    rows = ["Bar 1;1;12.6 SL;Spot;Altar", "Bar 1;2;4 SL;Spot;Altar", "Bar 1;3;7.10 SR;Spot;Altar"]
    assert _places(tmp_path, line, "", HEAD, *rows) == [3.81, 1.2192, -2.3876]


@pytest.mark.parametrize("cell", ["12.1 SL", "12.13 SL"])
def test_inches_behind_a_point_that_may_be_others_are_asked(tmp_path: Path, cell: str) -> None:
    line = "Distances as feet.inches from C"
    assert "point" in asked_in(tmp_path, HOUSE, [line, "", HEAD, *_rows(cell)])


def test_initials_in_a_title_are_no_unit(tmp_path: Path) -> None:
    rows = ["Bar 1;1;1.5 SL;Spot;Altar", "Bar 1;2;1 SR;Spot;Altar"]
    assert _places(tmp_path, "Rig list;Two Widows;Dalegate;MM", HEAD, *rows) == [1.5, -1.0]


TOWER = """
[[boom]]
name = "Boom 1"
x = 7
y = 1
height = 5
"""


@pytest.mark.parametrize(
    "line",
    ["Offsets m, heights ft", "Offsets in metres. Booms hung to feet"],
)
def test_heights_have_a_unit_of_their_own(tmp_path: Path, line: str) -> None:
    rows = ["Bar 1;1;4.2 SL;Spot;Altar", "Boom 1;1;10;Spot;Altar"]
    assert _places(tmp_path, line, "", HEAD, *rows, house=HOUSE + TOWER) == [4.2, 3.048]


def test_all_but_one_rail_where_the_tape_was_another(tmp_path: Path) -> None:
    lines = [
        "Lengths in metres except Left Rail, where I only had the old tape: feet",
        "Rails from the plaster line",
    ]
    rows = ["Bar 1;1;2.8 SL;Spot;Altar", "Left Rail;1;10;Spot;Altar"]
    assert _places(tmp_path, *lines, "", HEAD, *rows, house=HOUSE + RAILS) == [2.8, 3.048]


def test_lines_that_say_two_units_of_all_places_are_asked(tmp_path: Path) -> None:
    lines = ["All distances in metres", "All distances in feet"]
    assert "ft or m" in asked_in(tmp_path, HOUSE, [*lines, HEAD, *_rows("2 SL", "1 SR")])
    assert _places(tmp_path, lines[0], "All trims in feet", HEAD, *_rows("2 SL")) == [2.0]
