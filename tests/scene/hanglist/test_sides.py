"""The sides of places: a column a side, letters that a line explains, left and right as somebody looks."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from aimcalc.scene.hanglist.pagelines.titles import said_by
from tests.scene.hanglist.listed import asked_in, asked_of, scene_in, scene_of
from tests.scene.hanglist.places import HEADINGS, listed, places, read, told, units
from tests.scene.written import BASE, refused

ROWS: list[list[Any]] = [
    ["LX 1", 1, 2.5, "", "spot", "A"],
    ["LX 1", 2, 0, "", "spot", "A"],
    ["LX 1", 3, "", 1.5, "spot", "A"],
]


@pytest.mark.parametrize(
    ("line", "one", "other", "first"),
    [
        ("Our show, 3 nights", "PS (m)", "OP (m)", 2.5),
        ("Our show, 3 nights", "Cour", "Jardin", 2.5),
        ("Our show, 3 nights", "Court", "Garden", 2.5),
        ("Our show, 3 nights", "HL", "HR", -2.5),
        ("left = stage left, right = stage right", "left", "right", 2.5),
        ("left and right seen from the hall", "left", "right", -2.5),
        ("PS = stage right", "PS", "OP", -2.5),
    ],
)
def test_a_column_a_side(tmp_path: Path, line: str, one: str, other: str, first: float) -> None:
    scene = read(tmp_path, [[line], ["Bar", "Unit", one, other, "Type", "Focus"], *ROWS])
    assert places(scene) == [first, 0.0, -first * 0.6]


@pytest.mark.parametrize(("one", "other"), [("PS", "OP"), ("PS m", "OP m"), ("m SL", "m SR")])
@pytest.mark.parametrize("empty", ["", "-", "–"])
@pytest.mark.parametrize("middle", ["C", "CL", "c/l", "on centre", "0"])
def test_the_middle_in_a_column_of_one_side_and_dashes_in_the_other(
    tmp_path: Path, one: str, other: str, empty: str, middle: str
) -> None:
    head = ["Bar", "Unit", one, other, "Type", "Focus"]
    rows = [["LX 1", 1, 2.5, empty, "spot", "A"], ["LX 1", 3, empty, 1.5, "spot", "A"]]
    for both in (empty, middle):
        scene = read(tmp_path, [head, *rows, ["LX 1", 2, middle, both, "spot", "A"]])
        assert places(scene) == [2.5, 0.0, -1.5]


def test_places_in_both_columns_of_sides_are_asked_about(tmp_path: Path) -> None:
    head = ["Bar", "Unit", "PS", "OP", "Type", "Focus"]
    rows = [*ROWS, ["LX 1", 4, 3, "CL", "spot", "A"]]
    assert refused(listed(tmp_path, [head, *rows]))


def test_left_and_right_of_nobody_is_asked(tmp_path: Path) -> None:
    rows = [["Bar", "Unit", "left", "right", "Type", "Focus"], *ROWS]
    assert all("place" in mistake.expected for mistake in refused(listed(tmp_path, rows)))


@pytest.mark.parametrize(
    ("line", "one", "other", "first"),
    [
        ("left and right = stage left and stage right", "left", "right", 250.0),
        ("left and right seen from the hall", "left", "right", -250.0),
    ],
)
def test_a_column_a_side_with_its_unit_and_from_where_it_counts(
    tmp_path: Path, line: str, one: str, other: str, first: float
) -> None:
    head = ["Bar", "Unit", f"cm {one} of centre", f"cm {other} of centre", "Type", "Focus"]
    rows = [["LX 1", 1, 250, "", "spot", "A"], ["LX 1", 2, "", 150, "spot", "A"]]
    assert places(read(tmp_path, [[line], head, *rows])) == [first / 100, -first * 0.6 / 100]


def test_house_left_and_right_with_the_middle_between_them(tmp_path: Path) -> None:
    head = ["Bar", "Unit", "House Left", "Center", "House Right", "Type", "Focus"]
    rows = [
        ["LX 1", 1, 2.5, "", "", "spot", "A"],
        ["LX 1", 2, "", "x", "", "spot", "A"],
        ["LX 1", 3, "", "", 1.5, "spot", "A"],
    ]
    assert places(read(tmp_path, [head, *rows])) == [-2.5, 0.0, 1.5]


def test_a_column_of_the_middle_between_them(tmp_path: Path) -> None:
    head = ["Bar", "Unit", "PS", "centre", "OP", "Type", "Focus"]
    rows = [
        ["LX 1", 1, 2.5, "", "", "spot", "A"],
        ["LX 1", 2, "", "x", "", "spot", "A"],
        ["LX 1", 3, "", "", 1.5, "spot", "A"],
    ]
    scene = read(tmp_path, [head, *rows])
    assert places(scene) == [2.5, 0.0, -1.5]
    assert told(scene, '"PS" is read as the places to SL')


@pytest.mark.parametrize(
    ("line", "cells"),
    [
        ("J = jardin (SR)  C = cour (SL)  A = axe", ("J 2m50", "A", "C 1m50")),
        ("C = court side = stage left, J = garden side (jardin) = SR", ("J 2.5", "axis", "C 1.5")),
        ("P = prompt side   O = opp. prompt", ("O 2.5", "0", "P 1.5")),
        ("P = prompt  O = opposite prompt", ("2.5 O", "CL", "1.5 P")),
        ("dims in metres from C/L", ("2m50 jardin", "in axis", "1m50 cour (SL)")),
        ("L/R as you stand on the steps looking at the people", ("2.5 right", "0", "1.5 left")),
        ("left + right = seen FROM THE HALL", ("2.5 left", "middle", "1.5 right")),
        ("left/right looking from the pews at the altar", ("2.5 left", "middle", "1.5 right")),
    ],
)
def test_letters_and_words_of_a_side(tmp_path: Path, line: str, cells: tuple[str, ...]) -> None:
    scene = read(tmp_path, [[line], HEADINGS, *units("LX 1", *cells)])
    assert places(scene) == [-2.5, 0.0, 1.5]


def test_a_line_in_parts_explains_too(tmp_path: Path) -> None:
    line = ["J = jardin (stage right)", "C = cour (stage left)", "axe = centre line"]
    scene = read(tmp_path, [line, HEADINGS, *units("LX 1", "J 2m50", "axe", "C 1m50")])
    assert places(scene) == [-2.5, 0.0, 1.5]


@pytest.mark.parametrize(
    "line", ["left and right, mind the steps", "L/R seen from the house and from the stage"]
)
def test_nobody_says_whose(line: str) -> None:
    assert said_by([(1, [line])]).bare == ""


@pytest.mark.parametrize(
    "line",
    [
        "tape hooked on STAGE RIGHT END of pipe, read to the clamp",
        "zero at SR end of the bar",
        "all measured from the OP end",
    ],
)
def test_a_line_says_the_end(tmp_path: Path, line: str) -> None:
    scene = read(tmp_path, [[line], HEADINGS, *units("LX 1", 1, 4.5, 9)])
    assert places(scene) == [-4.0, -0.5, 4.0]


def test_the_row_over_units_says_the_end(tmp_path: Path) -> None:
    head = ["Unit", "Distance", "Type", "Focus"]
    rows = [[1, 1, "spot", "A"], [2, 4.5, "spot", "A"]]
    over = ["POSITION:", "LX 1", "", "from SR end"]
    assert places(read(tmp_path / "a", [over, head, *rows])) == [-4.0, -0.5]
    over = ["POSITION:", "LX 1", "", "numbered from SR end"]
    assert places(read(tmp_path / "b", [over, head, *rows])) == [1.0, 4.5]


def test_dim_beside_dimmer_is_the_dimension(tmp_path: Path) -> None:
    head = ["Bar", "Unit", "Dim", "Type", "Focus", "Dimmer"]
    rows = [["LX 1", 1, "O 2.5", "spot", "A", 7], ["LX 1", 2, "P 1.5", "spot", "A", 8]]
    scene = read(tmp_path, [["P = prompt side, O = opposite prompt"], head, *rows])
    assert places(scene) == [-2.5, 1.5]
    assert [unit.circuit for unit in scene.units] == ["7", "8"]


def test_marks_to_each_side_of_the_middle(tmp_path: Path) -> None:
    line = "marks painted on bars: 0 in the middle, then 1 2 3 ... to each side, every half metre"
    head = ["Bar", "Unit", "Mark", "Type", "Focus"]
    legend = "P = prompt  O = opposite prompt"
    scene = read(tmp_path, [[line], [legend], head, *units("LX 1", "O4", "0", "P3")])
    assert places(scene) == [-2.0, 0.0, 1.5]


@pytest.mark.parametrize("line", ["no number = in the middle of the bar", "blank = centre line"])
def test_no_place_is_the_middle_where_a_line_says_so(tmp_path: Path, line: str) -> None:
    scene = read(tmp_path / "a", [[line], HEADINGS, *units("LX 1", "2 SR", "", "2 SL")])
    assert places(scene) == [-2.0, 0.0, 2.0]
    rows = [["blank sheets are in the office"], HEADINGS, *units("LX 1", "2 SR", "", "2 SL")]
    assert refused(listed(tmp_path / "b", rows))[0].expected.startswith("at,")


def test_broken_figures_under_an_unknown_heading_may_be_the_places(tmp_path: Path) -> None:
    head = ["Bar", "Unit", "Wymiar", "Type", "Focus"]
    mistakes = refused(listed(tmp_path / "a", [head, *units("LX 1", "2.5", "0.5", "1.75")]))
    assert '"Wymiar"' in mistakes[0].expected
    head[2] = "Weight"
    assert len(read(tmp_path / "b", [head, *units("LX 1", "2.5", "0.5", "1.75")]).units) == 3


def test_a_unit_that_is_not_hung_is_left_out(tmp_path: Path) -> None:
    head = [*HEADINGS, "Circuit"]
    rows = [[*row, n] for n, row in enumerate(units("LX 1", "2 SR", "1 SL"), 1)]
    off = ["LX 1", 3, "", "spot", "A", "NOT HUNG - client cut"]
    scene = read(tmp_path, [head, *rows, off])
    assert places(scene) == [-2.0, 1.0]
    assert told(scene, "called cut")


@pytest.mark.parametrize(("side", "sign"), [("right", 1), ("left", -1)])
def test_north_and_south_are_the_sides_that_a_line_says(
    tmp_path: Path, side: str, sign: float
) -> None:
    cells = ["2 and a half m north of middle", "middle", "1 m south of middle"]
    rows = [[f"(North is stage {side} on the drawing.)"], HEADINGS, *units("LX 1", *cells)]
    assert places(read(tmp_path, rows)) == [-2.5 * sign, 0.0, 1.0 * sign]


def test_north_of_nobody_is_asked(tmp_path: Path) -> None:
    rows = [HEADINGS, *units("LX 1", "2 m north of middle", "1 m south of middle")]
    assert refused(listed(tmp_path, rows))


def test_a_column_of_sides_called_pos_with_a_total_below(tmp_path: Path) -> None:
    rows: list[list[Any]] = [
        ["Bar", "Pos.", "Metres", "Type", "Focus"],
        ["LX 1", "SR", 4, "spot", "A"],
        ["LX 1", "SR", 2.5, "spot", "A"],
        ["LX 1", "CL", 0, "spot", "A"],
        ["LX 1", "SL", 2, "spot", "A"],
        ["", "Units", 4, "", ""],
    ]
    assert places(read(tmp_path, rows)) == [-4.0, -2.5, 0.0, 2.0]


def test_a_target_above_the_headings_of_its_units(tmp_path: Path) -> None:
    heads = ["Light", "Bar", "No", "Place"]
    rows: list[list[Any]] = [["A"], heads, ["spot", "LX 1", 1, "2 SL"], ["spot", "LX 1", 2, "1 SR"]]
    scene = read(tmp_path, rows)
    assert [unit.target for unit in scene.units] == ["A", "A"]


@pytest.mark.parametrize("end", ["NORTH", "organ", "left-hand"])
def test_an_end_that_is_of_no_side_is_asked(tmp_path: Path, end: str) -> None:
    rows = [[f"Measured from the {end} end of the bar"], HEADINGS, *units("LX 1", 2, 3)]
    assert "where it counts from" in refused(listed(tmp_path, rows))[0].expected


def test_an_end_of_a_side_is_read(tmp_path: Path) -> None:
    rows = [["Measured from the SL end of the bar"], HEADINGS, *units("LX 1", 2, 3)]
    assert len(places(read(tmp_path, rows))) == 2


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        ("SR side", [-3.0, -1.0]),
        ("CL / SL half", [3.0, 1.0]),
        ("stage right side", [-3.0, -1.0]),
        ("SR side bar", None),
    ],
)
def test_a_title_says_the_side_of_all_its_places(
    tmp_path: Path, line: str, expected: list[float] | None
) -> None:
    scene = read(tmp_path, [[line], HEADINGS, *units("LX 1", 3, 1)])
    assert places(scene) == (expected or [3.0, 1.0])


@pytest.mark.parametrize(
    ("line", "end"),
    [
        ("Units numbered from SR end", ""),
        ("units count from the SL end of each bar", ""),
        ("Units numbered and measured from SR end", "SR"),
        ("numbers run from SL; measured from SR end", "SR"),
    ],
)
def test_an_end_that_numbers_count_from_is_none_of_places(line: str, end: str) -> None:
    assert said_by([(1, [line])]).end == end


_TWO_SIDES = """
[scene]
title = "t"
hang = "list.csv"

[[pipe]]
name = "Bar"
trim = 6
y = 0
from = -6
to = 6

[[target]]
name = "Left"
x = 3
y = 4

[[target]]
name = "Right"
x = -3
y = 4
"""


def test_units_to_their_own_side_by_two_tell_whose_a_bare_left_is(tmp_path: Path) -> None:
    rows = ["Bar;No;From centre;Type;Focus", "Bar;1;4 m L;ers-30;Left", "Bar;2;1 m L;ers-30;Right"]
    rows += ["Bar;3;2 m R;ers-30;Right"]
    assert "SL or SR" in asked_in(tmp_path, _TWO_SIDES, rows)
    scene = scene_in(tmp_path, _TWO_SIDES, [*rows, "Bar;4;4 m R;ers-30;Right"])
    assert [unit.at for unit in scene.units] == [4.0, 1.0, -2.0, -4.0]
    assert any("a bare L or R is read as stage" in taken.says for taken in scene.taken)


@pytest.mark.parametrize(
    ("line", "whose"),
    [
        ("left, right: speaker's own", "stage"),
        ("Left = dancer's left", "stage"),
        ("R = performers' right", "stage"),
        ("left is the preacher's left", "stage"),
        ("L = audience left", "house"),
        ("left is the actor's right", "house"),
        ("L/R = dancer's left and right", "stage"),
        ("left right actors view", "stage"),
        ("left is the conductor's left", ""),  # who looks upstage
        ("L and R as the pianist sees it", ""),
        ("left/right from the lectern", ""),
    ],
)
def test_whose_left_and_right(line: str, whose: str) -> None:
    assert said_by([(1, [line])]).bare == whose


def test_left_and_right_of_centre_as_a_line_says_whose(tmp_path: Path) -> None:
    cells = ("2.5 m right of centre", "1.5 left of CL", "2 m right")
    rows = [HEADINGS, *units("LX 1", *cells)]
    assert places(read(tmp_path / "a", [["L = actor's left"], *rows])) == [-2.5, 1.5, -2.0]
    assert places(read(tmp_path / "b", [["L = audience left"], *rows])) == [2.5, -1.5, 2.0]
    assert refused(listed(tmp_path / "c", rows))


OFF = [
    "Bar,No,Side,{},Type,Focus",
    "LX 1,1,SL,2,spot,A",
    "LX 1,2,SR,1,spot,A",
    "LX 1,3,SL,1,spot,A",
]


@pytest.mark.parametrize("word", ["Off", "Out", "Amount", "How far"])
def test_lengths_beside_sides_are_the_places_and_no_numbers(word: str, tmp_path: Path) -> None:
    text = "\n".join(OFF).format(word) + "\n"
    units = scene_of(tmp_path, text).units
    assert [(str(u.number), u.at) for u in units] == [("1", 2.0), ("2", -1.0), ("3", 1.0)]


def test_numbers_beside_sides_are_no_places(tmp_path: Path) -> None:
    assert "at" in asked_of(tmp_path, "\n".join(OFF).format("Wibble") + "\n")


@pytest.mark.parametrize(
    ("parts", "bare", "plus"),
    [
        (("Distances in m", "from centre", "plus is house left"), "", "SR"),
        (("Maße in m", "ab Mitte", "+ = links vom Publikum"), "house", "SR"),
        (
            ("All in feet", "heights off the deck", "left and right as seen from the seats"),
            "house",
            "",
        ),
    ],
)
def test_a_line_that_its_commas_part_is_heard(parts: tuple[str, ...], bare: str, plus: str) -> None:
    # In a file of commas nobody puts a line of words in quotes.
    said = said_by([(1, [*parts, "", ""])])
    assert (said.bare, said.plus) == (bare, plus)


@pytest.mark.parametrize(
    "row",
    [
        ["Bar", "No", "Distance", "Lamp", "plus is house left of it"],
        ["plus is house left", "", "", "", "page 2 of the plot"],
    ],
)
def test_cells_apart_or_of_figures_are_no_line(row: list[str]) -> None:
    assert said_by([(1, [row[0], 2, *row[1:]])]).plus == ""


@pytest.mark.parametrize("heading", ["Off center", "Dist. from C/L", "From centre (m)"])
def test_how_far_from_the_centre_and_never_which_way_is_asked(heading: str, tmp_path: Path) -> None:
    head = [HEADINGS[0], HEADINGS[1], heading, *HEADINGS[3:]]
    rows = [head, *units("LX 1", 1, 2, 3, 4)]
    (mistake,) = refused(listed(tmp_path / "none", rows))
    assert "no place says which way" in mistake.expected
    rows = [head, *units("LX 1", 1, 2, 3, "4 SR")]
    assert places(read(tmp_path / "one", rows)) == [1.0, 2.0, 3.0, -4.0]
    rows = [["position", "number", "at", "kind", "target"], *units("LX 1", 1, 2, 3, 4)]
    assert places(read(tmp_path / "own", rows)) == [1.0, 2.0, 3.0, 4.0]


@pytest.mark.parametrize(
    ("line", "plus"),
    [
        ("Rails: feet downstage of the plaster line. Truss: feet from centre.", "DS"),
        ("Side bars measured DS from plaster line", "DS"),
        ("metres in front of the plaster line", "DS"),
        ("from the plaster line, running downstage", "DS"),
        ("metres upstage of the plaster line", ""),
    ],
)
def test_which_way_places_count_from_the_plaster_line(line: str, plus: str) -> None:
    # They had been read upstage of it whichever way the line said.
    said = said_by([(1, [line])])
    assert said.plaster
    assert said.upstage.plus == plus


def test_what_you_see_from_the_pews_is_the_houses() -> None:
    assert said_by([(1, ["Left and right are what you see from the pews."])]).bare == "house"


@pytest.mark.parametrize(
    ("heading", "first"),
    [
        ("Distance (left = stage left)", 2.0),
        ("Distance from centre (L = stage left, R = stage right)", 2.0),
        ("Distance [left is house left]", -2.0),
    ],
)
def test_a_heading_explains_in_brackets_whose_left_it_is(
    heading: str, first: float, tmp_path: Path
) -> None:
    head = [HEADINGS[0], HEADINGS[1], heading, *HEADINGS[3:]]
    scene = read(tmp_path, [head, *units("LX 1", "2 m left", "1 m right")])
    assert places(scene)[0] == first
    told_of = " ".join(taken.says for taken in scene.taken)
    assert '"2 m left" is' in told_of


def test_a_heading_that_explains_something_else_leaves_it_asked(tmp_path: Path) -> None:
    head = [HEADINGS[0], HEADINGS[1], "Distance (zero = the middle)", *HEADINGS[3:]]
    (first, *_) = refused(listed(tmp_path, [head, *units("LX 1", "2 m left", "1 m right")]))
    assert first.expected.startswith("SL or SR")


@pytest.mark.parametrize("heading", ["Spot", "Lamp", "Light"])
def test_places_with_a_bare_side_under_a_word_for_kinds(heading: str, tmp_path: Path) -> None:
    text = f"pipe,kind,{heading},target\nLX 1,spot,L 2.5 m,A\nLX 1,spot,C,A\nLX 1,spot,R 1 m,A\n"
    assert "seen by the performer" in asked_of(tmp_path, text)
    said = "L and R are stage left and right\n"
    assert [unit.at for unit in scene_of(tmp_path, said + text).units] == [2.5, 0.0, -1.0]


def test_plugs_with_a_bare_side_are_no_places(tmp_path: Path) -> None:
    text = "pipe,unit,kind,Lamp,target\nLX 1,1,spot,L 2,A\nLX 1,2,spot,R 1,A\n"
    assert {unit.note for unit in scene_of(tmp_path, text).units} == {"Lamp: L 2", "Lamp: R 1"}


def _under_one(over: str, right: str, left: str, line: str) -> list[str]:
    """A list with a heading over the columns of both sides: 10 to the right one, 5 to the left one."""
    return [
        line,
        f"Position;Unit;{over};;Luminaire;Subject;Control;",
        f";;{right};{left};;;Channel;Circuit",
        "LX 1;1;10;;spot;A;1;11",
        "LX 1;2;;5;spot;A;2;12",
    ]


@pytest.mark.parametrize(
    ("over", "right", "left", "line"),
    [
        ("Offset (ft)", "SR", "SL", ""),
        ("Offset, ft", "SR", "SL", ""),
        ("Offset", "SR (ft)", "SL (ft)", ""),
        ("Feet", "SR", "SL", ""),  # the left one was read in metres
        ("Feet from centre", "SR", "SL", ""),
        ("Distance from CL (ft)", "Stage right", "Stage left", ""),
        ("Place [feet]", "OP", "PS", ""),
        ("Distance (ft)", "Right", "Left", "Left and right are stage left and right"),
        ("Distance (ft)", "Left", "Right", "All sides as seen from the house"),
    ],
)
def test_a_heading_over_the_columns_of_both_sides(
    over: str, right: str, left: str, line: str, tmp_path: Path
) -> None:
    house = BASE.format(settings='hang = "list.csv"')
    found = scene_in(tmp_path, house, _under_one(over, right, left, line)).units
    assert [round(unit.at or 0.0, 6) for unit in found] == [-3.048, 1.524]
    assert [(str(u.channel), u.circuit) for u in found] == [("1", "11"), ("2", "12")]


@pytest.mark.parametrize(
    ("over", "right", "left"),
    [("Distance (ft)", "Right", "Left"), ("Offset (ft)", "SR (m)", "SL (m)")],
)
def test_a_heading_over_both_sides_is_asked_about_where_two_readings_fit(
    over: str, right: str, left: str, tmp_path: Path
) -> None:
    house = BASE.format(settings='hang = "list.csv"')
    assert over in asked_in(tmp_path, house, _under_one(over, right, left, "Tuesday"))
