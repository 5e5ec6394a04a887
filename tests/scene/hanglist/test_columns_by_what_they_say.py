"""Columns, units of length and positions that words and cells around them tell apart."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.loading import load_scene
from aimcalc.scene.mistakes import SceneError
from tests.scene.hanglist.listed import MORE, places_of, scene_of, units_of
from tests.scene.hanglist.places import listed, places, read, units
from tests.scene.written import refused, write_scene


def test_a_line_may_say_what_somebody_works_in(tmp_path: Path) -> None:
    rows = "Bar,No,Dist,Lantern,Focus\nLX 1,1,250 SL,spot,A\n"
    assert places_of(tmp_path, f"LX HANG - red house; we work in cm,,,,\n{rows}") == [2.5]
    assert places_of(tmp_path / "b", f"Everything in centimetres!,,,,\n{rows}") == [2.5]


def test_work_in_a_house_says_no_unit_of_length(tmp_path: Path) -> None:
    rows = "Bar,No,Dist,Lantern,Focus\nLX 1,1,2.5 SL,spot,A\n"
    assert places_of(tmp_path, f"We work in cold weather,,,,\n{rows}") == [2.5]


def test_dim_over_figures_with_a_minus_is_a_dimension(tmp_path: Path) -> None:
    rows = "Pos,No,Dim,Type,Target\nLX 1,1,-2.8,spot,A\nLX 1,2,+1.2,spot,Door\n"
    assert places_of(tmp_path, rows) == [-2.8, 1.2]


def test_dim_over_plain_numbers_is_a_dimmer(tmp_path: Path) -> None:
    rows = "Pos,No,At,Dim,Type,Target\nLX 1,1,1 m SL,12,spot,A\nLX 1,2,2 m SR,13,spot,Door\n"
    assert [unit.circuit for unit in scene_of(tmp_path, rows).units] == ["12", "13"]


@pytest.mark.parametrize("unit", ["Metres", "m", "METRES", "(m)", "metres"])
@pytest.mark.parametrize("side", ["Side", "SL/SR", "Stage L/R"])
def test_a_column_of_sides_may_stand_anywhere_in_its_row(
    unit: str, side: str, tmp_path: Path
) -> None:
    rows = f"Bar,No,{unit},Lantern,{side},Focus\nLX 1,1,2.8,spot,SL,A\nLX 1,2,1.2,spot,SR,Door\n"
    assert places_of(tmp_path, rows) == [2.8, -1.2]


@pytest.mark.parametrize("unit", ["Ft-In", "Ft/In", "Feet & inches"])
def test_feet_and_inches_far_from_their_sides_are_the_places(unit: str, tmp_path: Path) -> None:
    rows = f"{unit},Lantern,Stage L/R,Focus,Bar,No\n6' 6,spot,SL,A,LX 1,1\n3',spot,SR,Door,LX 1,2\n"
    assert places_of(tmp_path, rows) == pytest.approx([1.9812, -0.9144])


def test_of_two_lengths_far_from_the_sides_somebody_must_say_which(tmp_path: Path) -> None:
    rows = "m,Bar,No,Side,Lantern,Focus,cm\n2,LX 1,1,SL,spot,A,150\n1,LX 1,2,SR,spot,Door,150\n"
    with pytest.raises(SceneError):
        places_of(tmp_path, rows)


def test_a_cable_far_from_the_sides_is_no_place(tmp_path: Path) -> None:
    rows = "Cable (m),Bar,No,Side,Lantern,Focus\n2,LX 1,1,SL,spot,A\n1,LX 1,2,SR,spot,Door\n"
    with pytest.raises(SceneError):
        places_of(tmp_path, rows)


@pytest.mark.parametrize("use", ["Use", "Purpose", "Job"])
@pytest.mark.parametrize("on", ["On", "For", "Lit"])
@pytest.mark.parametrize("first", [True, False])
def test_targets_are_in_the_column_that_holds_them_beside_one_of_systems(
    use: str, on: str, first: bool, tmp_path: Path
) -> None:
    cells = [(use, on), ("key", "Door"), ("fill", "A"), ("back", "Table"), ("Table", "Table")]
    ends = [",".join(each if first else each[::-1]) for each in cells]
    starts = ["Bar,No,At,Lantern", *(f"LX 1,{n},{n} m SL,spot" for n in range(1, 5))]
    rows = "\n".join(f"{a},{b}" for a, b in zip(starts, ends, strict=True))
    units = scene_of(tmp_path, rows).units
    assert [unit.target for unit in units] == ["Door", "A", "Table", "Table"]
    assert [unit.system for unit in units] == ["key", "fill", "back", "Table"]


@pytest.mark.parametrize("heading", ["Foil", "Foils", "Colour foil", "Foil no."])
def test_a_foil_is_a_colour_where_only_some_have_one(heading: str, tmp_path: Path) -> None:
    rows = f"Bar,No,At,Lantern,Focus,{heading}\nLX 1,1,1 m SL,spot,A,\nLX 1,2,2 m SL,spot,A,amber 104\n"
    assert [unit.colour for unit in scene_of(tmp_path, rows).units] == [None, "amber 104"]


@pytest.mark.parametrize("heading", ["Frame", "CC", "Scroller frame"])
def test_a_frame_is_a_colour_where_it_holds_some(heading: str, tmp_path: Path) -> None:
    rows = f"Bar,No,At,Lantern,Focus,{heading}\nLX 1,1,1 m SL,spot,A,{{}}\nLX 1,2,2 m SL,spot,A,\n"
    assert [u.colour for u in scene_of(tmp_path, rows.format("R33")).units] == ["R33", None]
    units = scene_of(tmp_path / "b", rows.format("wood, 2 m")).units
    assert [u.colour for u in units] == [None, None]


@pytest.mark.parametrize("heading", ["LX no", "Bar no", "Pipe No."])
def test_a_number_of_a_bar_that_counts_the_units_below_its_name_is_theirs(
    heading: str, tmp_path: Path
) -> None:
    units = "1,1 m SL,spot,A\n2,1 m SR,spot,Door\n"
    rows = f"{heading},At,Lantern,Focus\nLX 1,,,\n{units}LX 2,,,\n{units}"
    found = [unit[:2] for unit in units_of(tmp_path, rows)]
    assert found == [("LX 1", "1"), ("LX 1", "2"), ("LX 2", "1"), ("LX 2", "2")]


@pytest.mark.parametrize("on", ["on", "Rig", "Thing"])
@pytest.mark.parametrize("heading", ["LX no", "Bar no"])
def test_a_number_of_a_bar_that_counts_the_units_beside_its_name_is_theirs(
    on: str, heading: str, tmp_path: Path
) -> None:
    rows = f"{on},{heading},At,Lantern,Focus\n"
    rows += "LX 1,1,1 m SL,spot,A\nLX 1,2,1 m SR,spot,Door\nLX 2,1,1 m SL,spot,A\nLX 2,2,0,spot,A\n"
    found = [unit[:2] for unit in units_of(tmp_path, rows)]
    assert found == [("LX 1", "1"), ("LX 1", "2"), ("LX 2", "1"), ("LX 2", "2")]


def test_a_number_of_a_bar_again_and_again_is_that_of_the_bar(tmp_path: Path) -> None:
    rows = "LX no,No,At,Lantern,Focus\n1,1,1 m SL,spot,A\n1,2,0,spot,A\n2,1,0,spot,A\n"
    found = [unit[:2] for unit in units_of(tmp_path, rows)]
    assert found == [("LX 1", "1"), ("LX 1", "2"), ("LX 2", "1")]


def test_lanterns_that_count_beside_lights_that_are_targets_leave_the_kind_to_lamps(
    tmp_path: Path,
) -> None:
    rows = "Bar,Lantern,Lamp,At,Lights\nLX 1,1,spot,2 m SL,A\nLX 1,2,wide,1 m SL,Door\nLX 2,1,spot,0,Table\n"
    assert units_of(tmp_path, rows) == [
        ("LX 1", "1", "spot", "A"),
        ("LX 1", "2", "wide", "Door"),
        ("LX 2", "1", "spot", "Table"),
    ]


NAMED = """
[[target]]
name = "Centre"
x = 0
y = 3

[[pipe]]
name = "Grid A"
trim = 6
y = 2
from = -5
to = 5

[[boom]]
name = "Wieża lewa"
x = 6
y = 2
height = 4

[[boom]]
name = "Wieża prawa"
x = -6
y = 2
height = 4
"""


def _named(folder: Path, rows: str) -> list[tuple[str, float | None, str]]:
    path = write_scene(folder, MORE + NAMED, settings='hang = "hang.csv"')
    (folder / "hang.csv").write_text(rows, encoding="utf-8")
    return [(unit.position, unit.at, str(unit.target)) for unit in load_scene(path).units]


@pytest.mark.parametrize("heading", ["lights", "LIGHTS"])
def test_targets_of_which_most_are_the_centre_are_no_sides(heading: str, tmp_path: Path) -> None:
    rows = f"Bar,Unit,m from centre,Instrument,{heading}\nLX 1,1,SR 2,spot,Centre\n"
    rows += "LX 1,2,SL 2,spot,Centre\nLX 1,3,SL 3,spot,Centre\nLX 1,4,SL 4,spot,Door\n"
    found = _named(tmp_path, rows)
    assert [unit[2] for unit in found] == ["Centre", "Centre", "Centre", "Door"]
    assert [unit[1] for unit in found] == [-2.0, 2.0, 3.0, 4.0]


@pytest.mark.parametrize("last", ["Thanks! Maria,,,,\n", "Total,2,,,\n", ",,,,\nPage 1 of 1,,,,\n"])
def test_a_last_row_is_none_of_the_letters_of_positions(last: str, tmp_path: Path) -> None:
    rows = f"Grid,Unit,At,What,Area\nA,1,2 m SL,spot,A\nA,2,1 m SL,spot,A\n{last}"
    assert [unit[:2] for unit in _named(tmp_path, rows)] == [("Grid A", 2.0), ("Grid A", 1.0)]


@pytest.mark.parametrize("heading", ["Strona", "Side", "Seite"])
def test_sides_below_the_names_of_positions_are_no_positions(heading: str, tmp_path: Path) -> None:
    rows = (
        f"{{}}Nr,Od osi,{heading},Reflektor,Kierunek\nLX 1,,,,\n1,2,lewa,spot,A\n2,1,prawa,spot,A\n"
    )
    over = "lewa i prawa strona z perspektywy aktora,,,,\n"
    assert [unit[:2] for unit in _named(tmp_path, rows.format(over))] == [
        ("LX 1", 2.0),
        ("LX 1", -1.0),
    ]
    with pytest.raises(SceneError, match="SL or SR"):
        _named(tmp_path / "b", rows.format(""))


BARS = """
[[pipe]]
name = "Bar 1"
trim = 6
y = 2
from = -5
to = 5

[[boom]]
name = "Tower SL 1"
x = 6
y = 2
height = 4
"""


def test_a_number_under_bar_is_that_bar_on_whatever_side_its_unit_hangs(tmp_path: Path) -> None:
    path = write_scene(tmp_path, MORE + BARS, settings='hang = "hang.csv"')
    rows = "bar,nr,side,cm from middle,lamp,to\n1,1,SL,150,spot,A\n1,2,SR,150,spot,Door\n"
    (tmp_path / "hang.csv").write_text(rows)
    units = load_scene(path).units
    assert [(unit.position, unit.at) for unit in units] == [("Bar 1", 1.5), ("Bar 1", -1.5)]


def test_an_id_of_letters_of_its_position_is_the_number_and_the_other_the_channel(
    tmp_path: Path,
) -> None:
    rows = (
        "Bar,Fixture ID,Fixture,At,Focus,Fix No\nLX 1,{0}1,spot,1 m SL,A,1\n"
        "LX 1,{0}2,spot,2 m SL,A,2\nLX 2,{0}1,wide,1 m SL,A,11\n"
    )
    units = scene_of(tmp_path, rows.format("LX")).units
    assert [(str(unit.number), unit.channel) for unit in units] == [
        ("LX1", "1"),
        ("LX2", "2"),
        ("LX1", "11"),
    ]
    units = scene_of(tmp_path, rows.format("Q")).units
    assert [str(unit.number) for unit in units] == ["1", "2", "11"]


def test_a_unit_whose_status_is_strike_does_not_hang(tmp_path: Path) -> None:
    rows = "Bar,No,At,Type,Focus,Status\nLX 1,1,1 m SL,spot,A,as is\nLX 1,2,2 m SR,spot,Door,{}\n"
    assert len(scene_of(tmp_path, rows.format("STRIKE")).units) == 1
    assert len(scene_of(tmp_path / "b", rows.format("strike the door frame")).units) == 2


def test_x_location_is_the_place_across_the_stage(tmp_path: Path) -> None:
    rows = "Position,Unit Number,X Location,Device Type,Focus\nLX 1,1,-2200,spot,A\nLX 1,2,1100,spot,Door\n"
    assert places_of(tmp_path, rows) == [-2.2, 1.1]


def test_loc_over_places_from_an_end_is_the_place_beside_a_column_of_pipes(tmp_path: Path) -> None:
    rows = (
        "Truss,#,Loc,Light,Aim\nLX 1,1,1 m from SL end,spot,A\nLX 1,2,2 m from SR end,spot,Door\n"
    )
    assert places_of(tmp_path, rows) == [4, -3]


def test_a_height_may_be_said_in_another_tongue(tmp_path: Path) -> None:
    rows = "Pos,No,Dist,Unit,Focus\nboom SR,1,2.5 m haut,spot,A\nboom SR,2,1.5 m hoch,spot,Door\n"
    assert places_of(tmp_path, rows) == [2.5, 1.5]


@pytest.mark.parametrize(
    ("figures", "colours"),
    [
        (("202", "202", "119", "119"), ["202", "202", "119", "119"]),
        (("500", "500", "650", "650"), [None] * 4),  # watts
        (("201", "202", "203", "204"), [None] * 4),  # each another: addresses may be
    ],
)
def test_figures_without_a_heading_that_come_again_are_filters(
    tmp_path: Path, figures: tuple[str, ...], colours: list[str | None]
) -> None:
    rows = "".join(
        f"LX 1,{n},{n} m SL,spot,A,{figure},{n + 10}\n" for n, figure in enumerate(figures, 1)
    )
    units = scene_of(tmp_path, f"Bar,No,At,Type,Focus,,Channel\n{rows}").units
    assert [unit.colour for unit in units] == colours


def test_headings_in_words_that_a_line_explains(tmp_path: Path) -> None:
    line = "Width from centre (L = stage left, R = stage right), reach above deck"
    head = ["Bar", "Unit", "Width", "L/R", "Reach", "Type", "Direction"]
    rows = [
        ["LX 1", 1, 2.5, "R", "", "spot", "A"],
        ["LX 1", 2, 1.5, "L", "", "spot", "A"],
        ["boom SR", 1, "", "", 1.8, "spot", "A"],
    ]
    scene = read(tmp_path / "a", [[line], head, *rows])
    assert places(scene) == [-2.5, 1.5]
    assert places(scene, "boom SR") == [1.8]
    assert refused(listed(tmp_path / "b", [["Gala"], head, *rows]))


@pytest.mark.parametrize(
    ("heading", "line", "expected"),
    [
        ("Tab", "tab = from SL end", [4.5, 3.0]),
        ("Run (cm)", "Run is measured from the SR end", [-4.995, -4.98]),
        ("Lay", "lay: distance from CL", [0.5, 2.0]),
    ],
)
def test_a_heading_that_a_line_explains(
    tmp_path: Path, heading: str, line: str, expected: list[float]
) -> None:
    head = ["Bar", "Unit", heading, "Type", "Focus"]
    scene = read(tmp_path, [[line], head, *units("LX 1", 0.5, 2)])
    assert places(scene) == expected


def test_a_heading_of_its_own_is_not_explained_away(tmp_path: Path) -> None:
    head = ["Bar", "Unit", "Distance", "Type", "Focus", "Colour"]
    rows = [[*row, "L201"] for row in units("LX 1", "0.5 SL", "2 SR")]
    scene = read(tmp_path, [["colour from stage store"], head, *rows])
    assert [unit.colour for unit in scene.units] == ["L201", "L201"]


_NO_HEADINGS = """LX 1,1,3 m SL,spot,A,{},R54
LX 1,2,1 m SL,spot,A,{},R54
LX 2,1,1 m SR,wide,Door,{},R02
LX 2,2,2 m SR,wide,Table,{},R39
"""


def test_figures_of_a_list_without_headings_are_its_channels(tmp_path: Path) -> None:
    text = _NO_HEADINGS.format(41, 42, 51, 52)
    scene = scene_of(tmp_path, text)
    assert [str(unit.channel) for unit in scene.units] == ["41", "42", "51", "52"]
    assert any("channel: it holds 41 to 52" in taken.says for taken in scene.taken)


@pytest.mark.parametrize("each", [("41/1", "42/1", "51/1", "52/1"), ("41", "42", "", "")])
def test_what_is_no_figure_of_each_unit_is_no_channel(
    tmp_path: Path, each: tuple[str, ...]
) -> None:
    scene = scene_of(tmp_path, _NO_HEADINGS.format(*each))
    assert [unit.channel for unit in scene.units] == [None] * 4


@pytest.mark.parametrize(
    ("first", "second", "cells"),
    [
        ("Où", "Position", ("150 cm SL", "centre", "150 cm SR", "h 2,80 m", "h 1,60 m")),
        ("Where", "Position", ("1.5 m SL", "C", "1.5 m SR", "2.8 m up", "h 1.6 m")),
        ("Bar", "Position", ("1.5 m SL", "CL", "1.5 m SR", "2.8 m", "1.6 m")),
        ("Location", "Hang", ("1.5 m SL", "centre", "1.5 m SR", "2.8 m", "1.6 m")),
        ("Wo", "Position", ("1,5 m SL", "Mitte", "1,5 m SR", "H 2,8 m", "H 1,6 m")),
        ("Dove", "Posizione", ("1,5 m SL", "centro", "1,5 m SR", "h 2,8 m", "h 1,6 m")),
        ("Position", "Var", ("1,5 m SL", "mitten", "1,5 m SR", "2,8 m", "1,6 m")),
        ("Onto what", "Position", ("1.5 m SL", "centre", "1.5 m SR", "h 2.8 m", "h 1.6 m")),
    ],
)
def test_of_two_headings_of_positions_the_cells_tell_which_has_the_places(
    first: str, second: str, cells: tuple[str, ...], tmp_path: Path
) -> None:
    positions = ("LX 1", "LX 1", "LX 1", "boom SR", "boom SR")
    rows = [f"{one};{cell};spot;A" for one, cell in zip(positions, cells, strict=True)]
    path = write_scene(tmp_path, settings='hang = "hang.csv"')
    lines = [f"{first};{second};Kind;Focus", *rows]
    (tmp_path / "hang.csv").write_text("\n".join(lines) + "\n", encoding="utf-8")
    found = [(unit.position, unit.at) for unit in load_scene(path).units]
    assert found == list(zip(positions, (1.5, 0.0, -1.5, 2.8, 1.6), strict=True))


def test_two_headings_of_positions_without_a_position_under_either_are_asked(
    tmp_path: Path,
) -> None:
    path = write_scene(tmp_path, settings='hang = "hang.csv"')
    text = "Où;Position;Kind;Focus\nLX 7;1.5 m SL;spot;A\nLX 8;1.5 m SR;spot;A\n"
    (tmp_path / "hang.csv").write_text(text, encoding="utf-8")
    assert any(mistake.key == "position" for mistake in refused(path))


def test_the_letters_of_court_and_garden_stand_behind_centimetres(tmp_path: Path) -> None:
    named = '[[boom]]\nname = "Pied jardin"\nx = -5\ny = 2\nheight = 3\n'
    path = write_scene(tmp_path, named, settings='hang = "hang.csv"')
    text = "Où;Position;Projecteur;Éclaire\nLX 1;150 cm J;spot;A\nLX 1;150 cm C;spot;A\n"
    (tmp_path / "hang.csv").write_text(text, encoding="utf-8")
    assert [unit.at for unit in load_scene(path).units] == [-1.5, 1.5]


OVER = "LX 1,,,,\n{0}1,2 m,{1},spot,A\n{0}2,1 m,{2},spot,A\nLX 2,,,,\n{3}1,1 m,{1},spot,Door\n"


@pytest.mark.parametrize("heading", ["Which", "Side", "Which one"])
def test_sides_under_a_loose_word_below_the_names_of_positions(
    heading: str, tmp_path: Path
) -> None:
    rows = "L and R are stage left and right,,,,\nUnit,Off centre,{},What,Aimed at\n"
    rows = rows.format(heading) + OVER.format("", "left", "right", "")
    assert _named_places(tmp_path, rows) == [("LX 1", 2.0), ("LX 1", -1.0), ("LX 2", 1.0)]


def _named_places(folder: Path, rows: str) -> list[tuple[str, float | None]]:
    return [unit[:2] for unit in _named(folder, rows)]


def test_an_id_of_letters_of_the_position_over_it_is_the_number(tmp_path: Path) -> None:
    rows = "Fixture ID,At,Fix No,What,Focus\n" + OVER.format("LX", "11", "12", "LX")
    rows = (
        rows.replace("2 m", "2 m SL")
        .replace("1 m", "1 m SR")
        .replace("LX1,1 m SR,11", "LX1,1 m SR,21")
    )
    units = scene_of(tmp_path, rows).units
    found = [(unit.position, str(unit.number), unit.channel) for unit in units]
    assert found == [("LX 1", "LX1", "11"), ("LX 1", "LX2", "12"), ("LX 2", "LX1", "21")]


@pytest.mark.parametrize("heading", ["Ref", "Ref.", "Label"])
def test_letters_below_the_names_of_positions_number_the_units_beside_positions_on_them(
    heading: str, tmp_path: Path
) -> None:
    rows = f"{heading},Position,Lantern,Lighting\nLX 1,,,\nA,2 m SL,spot,A\nB,1 m SR,spot,Door\n"
    rows += "LX 2,,,\nA,1 m SL,spot,A\nB,0,spot,A\n"
    found = [unit[:2] for unit in units_of(tmp_path, rows)]
    assert found == [("LX 1", "A"), ("LX 1", "B"), ("LX 2", "A"), ("LX 2", "B")]
