"""Sides and ends that are named after what is there, or after a point of the compass that names in the scene
tell; which of a group a unit is on, under a heading that is no key.

Readings by hand: north is stage right, as Choir North is; the bar runs from 4 m SR to 4 m SL, so that a place
1 m from its north end is 3 m SR.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import pytest

from aimcalc.scene.hanglist.columns.headings import meaning
from aimcalc.scene.hanglist.pagelines.titles import said_by
from tests.scene.hanglist.listed import asked_in, scene_in

TARGETS = {
    "Choir North": (-3, 3),
    "Choir South": (3, 3),
    "Pulpit": (-4, 0),
    "Lectern": (3, 0),
    "Altar": (0, 4),
    "Font": (2, -6),
    "Font Cover": (-3, -6),
}
CHURCH = (
    '[scene]\ntitle = "Church"\nhang = "list.csv"\n'
    '\n[[pipe]]\nname = "Chancel Bar"\ntrim = 5\ny = 1\nfrom = -4\nto = 4\n'
    '\n[[boom]]\nname = "Organ Boom"\nx = 4\ny = 2\nheight = 4\n'
    '\n[[stand]]\nname = "Tripod North"\nx = -4\ny = -2\n'
    '\n[[stand]]\nname = "Tripod South"\nx = 4\ny = -2\n'
    + "".join(f'\n[[target]]\nname = "{n}"\nx = {x}\ny = {y}\n' for n, (x, y) in TARGETS.items())
    + '\n[[kind]]\nname = "Spot"\nfamily = "ers"\nfield = 26\n'
)
HEAD = "Position;No;Distance;Lamp;Focus"


def _places(root: Path, *lines: str) -> list[float]:
    return [round(unit.at or 0.0, 6) for unit in scene_in(root, CHURCH, lines).units]


def _rows(*places: str) -> Sequence[str]:
    return [f"Chancel Bar;{n};{place};Spot;Altar" for n, place in enumerate(places, 1)]


@pytest.mark.parametrize(
    ("line", "places", "at"),
    [
        ("from the middle, pulpit side (P) or lectern side (L)", ("2 m P", "1 m L"), [-2, 1]),
        ("P = pulpit side, L = lectern side", ("2 m P", "1 m L"), [-2, 1]),
        ("metres from the middle", ("2 m pulpit side", "1 m lectern side"), [-2, 1]),
        ("N = north aisle side, S = south aisle side", ("2 m N", "1 m S"), [-2, 1]),
        ("metres from the middle", ("2 m N", "1 m S"), [-2, 1]),
        ("metres from the middle", ("2 m north side", "1 m south side"), [-2, 1]),
        ("O = organ side, P = pulpit side", ("1 m O", "2 m P"), [1, -2]),
    ],
)
def test_a_side_named_after_what_is_there(
    tmp_path: Path, line: str, places: tuple[str, ...], at: list[float]
) -> None:
    assert _places(tmp_path, line, HEAD, *_rows(*places)) == at


@pytest.mark.parametrize(
    ("line", "places"),
    [
        ("F = font side", ("2 m F",)),  # things of that name stand on both sides
        ("A = altar side", ("2 m A",)),  # and that one in the middle
        ("V = vestry side", ("2 m V",)),
        ("metres from the middle", ("2 m font side",)),
    ],
)
def test_a_side_that_nothing_tells_is_asked_about(
    tmp_path: Path, line: str, places: tuple[str, ...]
) -> None:
    assert "at" in asked_in(tmp_path, CHURCH, [line, HEAD, *_rows("1 m SL", *places)])


def test_feet_and_inches_of_two_columns_count_from_the_end_that_a_line_says(tmp_path: Path) -> None:
    rows = ["Chancel Bar;1;3;6;Spot;Pulpit", "Chancel Bar;2;13;0;Spot;Altar"]
    lines = ["Measured from NORTH end of the bar", "Position;No;ft;in;Lamp;Focus", *rows]
    assert _places(tmp_path, *lines) == [-2.9332, -0.0376]


@pytest.mark.parametrize(("said", "at"), [("metres up", 1.5), ("feet up", 0.4572), ("metres", 1.5)])
def test_a_row_over_a_boom_says_the_unit_of_its_heights(
    tmp_path: Path, said: str, at: float
) -> None:
    lines = ["No;Distance;Lamp;Focus", f"ORGAN BOOM ({said});;;", "1;1.5;Spot;Altar"]
    assert _places(tmp_path, *lines) == [at]


def test_which_of_a_group_stands_under_a_heading_that_is_no_key(tmp_path: Path) -> None:
    lines = [
        "Ref;Lamp;Distance;Focus",
        "CHANCEL BAR;;;",
        "CB1;Spot;1 m N;Altar",
        "CB2;Spot;1 m S;Altar",
        "TRIPODS;;;",
        "Nth;Spot;;Altar",
        "Sth;Spot;;Altar",
    ]
    units = scene_in(tmp_path, CHURCH, lines).units
    names = ["Chancel Bar", "Chancel Bar", "Tripod North", "Tripod South"]
    assert [unit.position for unit in units] == names


def test_a_column_of_sides_names_them_after_what_is_there(tmp_path: Path) -> None:
    rows = ["Position;No;Metres from middle;Side;Lamp;Focus"]
    rows += ["Chancel Bar;1;2;pulpit;Spot;Altar", "Chancel Bar;2;1;Lectern;Spot;Altar"]
    assert _places(tmp_path, *rows) == [-2, 1]


def test_a_side_of_the_house_in_one_word_with_its_name(tmp_path: Path) -> None:
    house = CHURCH.replace("Organ Boom", "Toren havenzijde").replace("Tripod North", "Pied")
    rows = ["positie;nr;cm uit midden;zijde;lamp;focus", "Chancel Bar;1;200;haven;Spot;Altar"]
    assert [unit.at for unit in scene_in(tmp_path, house, rows).units] == [2.0]


@pytest.mark.parametrize("word", ["left", "Font"])
def test_a_side_that_nothing_tells_is_asked(word: str, tmp_path: Path) -> None:
    # Both what is called left and the two fonts stand on either side, or on whosever left.
    house = CHURCH.replace('name = "Lectern"', 'name = "Lectern Left"')
    rows = ["Position;No;Metres from middle;Side;Lamp;Focus", f"Chancel Bar;1;2;{word};Spot;Altar"]
    assert "SL or SR" in asked_in(tmp_path, house, rows)


GALLERIES = """
[scene]
title = "t"
hang = "list.csv"

[[pipe]]
name = "Bar"
trim = 6
y = 1
from = -5
to = 5

[[pipe]]
name = "Galerie {}"
start = [6, 0, 5]
end = [6, 4, 5]

[[pipe]]
name = "Galerie {}"
start = [-6, 0, 5]
end = [-6, 4, 5]

[[target]]
name = "Altar"
x = 0
y = 3
"""


@pytest.mark.parametrize(
    ("names", "words"),
    [
        (("Hof", "Straße"), ("Hof", "Straße")),
        (("Hof", "Straße"), ("hofseite", "Straße side")),
        (("Ost", "West"), ("Ost", "West")),
        (("A", "B"), ("A", "B")),
        (("havenzijde", "stadzijde"), ("haven", "stad")),
        (("Chapel", "Cloister"), ("Chapel", "cloister side")),
    ],
)
@pytest.mark.parametrize("column", [False, True])
def test_sides_are_what_the_names_of_two_positions_differ_in(
    names: tuple[str, str], words: tuple[str, str], column: bool, tmp_path: Path
) -> None:
    rows = ["Position;No;From middle;Type;Focus", f"Bar;1;2 m {words[0]};ers-30;Altar"]
    rows += [f"Bar;2;1 m {words[1]};ers-30;Altar"]
    if column:
        rows = ["Position;No;From middle;Side;Type;Focus", f"Bar;1;2 m;{words[0]};ers-30;Altar"]
        rows += [f"Bar;2;1 m;{words[1]};ers-30;Altar"]
    scene = scene_in(tmp_path, GALLERIES.format(*names), rows)
    assert [unit.at for unit in scene.units] == [2.0, -1.0]


@pytest.mark.parametrize("names", [("links", "rechts"), ("1", "2"), ("Left", "Right")])
def test_left_and_numbers_of_names_are_no_sides(names: tuple[str, str], tmp_path: Path) -> None:
    rows = ["Position;No;From middle;Type;Focus", f"Bar;1;2 m {names[0]};ers-30;Altar"]
    assert "row 2" in asked_in(tmp_path, GALLERIES.format(*names), rows)


def test_stage_right_is_no_landmark_beside_targets_called_right(tmp_path: Path) -> None:
    # All targets called Right lie downstage: "right end" had been taken for the downstage end.
    house = GALLERIES.format("A", "B").replace("Altar", "Quarter Right").replace("y = 3", "y = 0.2")
    rows = ["All distances are from the STAGE RIGHT END of the pipe", "Position;No;m;Type;Focus"]
    scene = scene_in(tmp_path, house, [*rows, "Bar;1;2;ers-30;Quarter Right"])
    assert [unit.at for unit in scene.units] == [-3.0]


def test_a_column_of_points_of_the_compass(tmp_path: Path) -> None:
    rows = ["Position;No;Feet;N or S of centre;Lamp;Focus", "Chancel Bar;1;6.5;N;Spot;Altar"]
    at = _places(tmp_path, *rows, "Chancel Bar;2;6.5;S;Spot;Altar")
    assert at == [-1.9812, 1.9812]


@pytest.mark.parametrize(
    ("line", "whose"),
    [
        ("Left and right are the way the AUDIENCE sees it, not the actors!", "house"),
        ("L and R are the actors', not the audience's", "stage"),
        ("left/right = audience's view not stage", "house"),
    ],
)
def test_whose_sides_are_and_whose_not(line: str, whose: str) -> None:
    assert said_by([(1, [line])]).bare == whose


@pytest.mark.parametrize("of", ["barrel", "the fly bar", "each rail", "the beam", "its pole"])
def test_a_heading_names_the_end_of_whatever_it_is(of: str) -> None:
    found = meaning(f"m from SR end of {of}")
    assert (found.keys, found.end, found.unit) == (("at",), "SR", "m")


@pytest.mark.parametrize(
    "line",
    [
        "N = north aisle = stage right. S = south aisle = stage left. All in feet.",
        "N = north side (stage right), S = south side (stage left)",
        "N: north wall = SR; S: south wall = SL",
        "N is the north aisle, stage right; S is the south aisle, stage left",
        "N = north = stage right, S = south = stage left",
        "N = the door end = SR, S = the window side = SL",
    ],
)
def test_what_is_on_a_side_may_stand_before_the_side_of_a_letter(line: str) -> None:
    said = dict(said_by([(1, [line])]).sides)
    assert (said["n"], said["s"]) == ("SR", "SL")


@pytest.mark.parametrize("line", ["N = north aisle, S = south aisle", "N = the left side = SR"])
def test_what_is_on_a_side_and_no_side_of_the_stage_tells_nothing(line: str) -> None:
    assert "n" not in dict(said_by([(1, [line])]).sides)


def test_many_words_for_what_is_on_a_side_are_looked_through_quickly() -> None:
    assert said_by([(1, ["n = " + "on the north aisle, " * 3000])]).sides == ()
