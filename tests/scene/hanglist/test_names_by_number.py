"""Positions that numbers say, "2-1" for unit 1 of Bar 2, or a column headed by how units hang; heights of
stands; parts of the stage in the middle, whoever's left is meant."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.hanglist.listed import ALTAR, HALL, asked_in, scene_in

HOUSE = """
[scene]
title = "Numbers"
unit = "m"
hang = "list.csv"

[[kind]]
name = "spot"
family = "ers"
field = 26

[[boom]]
name = "Boom SL"
x = 5
y = 2
height = 4
"""
AREAS = "".join(
    f'\n[[target]]\nname = "{row}S{side}"\nx = {x}\ny = {y}\n'
    for row, y in (("D", 1), ("U", 4))
    for side, x in (("L", 3), ("C", 0), ("R", -3))
)


def _house(bars: str, stands: str = "") -> str:
    hung = (
        f'[[pipe]]\nname = "{n}"\ntrim = 6\ny = {y}\nfrom = -6\nto = 6'
        for y, n in enumerate(bars.split("; "))
    )
    stood = (
        f'[[stand]]\nname = "{n}"\nx = {x}\ny = 5\nz = 2.5'
        for x, n in enumerate(filter(None, stands.split("; ")))
    )
    return "\n\n".join([HOUSE, AREAS, *hung, *stood])


def _lines(numbers: str, line: str = "") -> list[str]:
    rows = (f"{n},{k} m SL,spot,DSC" for k, n in enumerate(numbers.split("; ")))
    return ["ID,Place,Type,Focus", *rows, *([",,,", f"{line},,,"] if line else [])]


BARS = "Bar 1; Bar 2"


@pytest.mark.parametrize(
    ("stands", "line"),
    [("", ""), ("Floor 1; Floor 2", "ID = bar and then unit on the bar"), ("Floor 1", "")],
)
def test_a_number_that_says_the_bar_and_the_unit(tmp_path: Path, stands: str, line: str) -> None:
    scene = scene_in(tmp_path, _house(BARS, stands), _lines("1-1; 1-2; 2-1; 2-2", line))
    read = [(unit.position, unit.number) for unit in scene.units]
    assert read == [("Bar 1", "1"), ("Bar 1", "2"), ("Bar 2", "1"), ("Bar 2", "2")]
    assert any("position Bar 2, number 1" in taken.says for taken in scene.taken)


@pytest.mark.parametrize(
    ("stands", "numbers"),
    [
        ("Floor 1; Floor 2", "1-1; 1-2; 2-1"),  # of bars or of the floor
        ("", "1-2; 3-4; 5-6"),  # pairs of units
        ("", "1-1; 1-2; 3-1"),  # there is no Bar 3
    ],
)
def test_numbers_that_may_say_other_things_are_asked(
    tmp_path: Path, stands: str, numbers: str
) -> None:
    asked = asked_in(tmp_path, _house(BARS, stands), _lines(numbers))
    assert "position, which this entry needs" in asked


def test_a_column_of_how_units_hang_names_positions(tmp_path: Path) -> None:
    lines = ["Hung,Unit,Place,Type,To", "Bar 1,1,1 m SL,spot,DSC", ",2,2 m SL,spot,DSC"]
    lines += [",3,3 m SL,spot,DSC", "Bar 2,1,1 m SL,spot,DSC", ",2,2 m SR,spot,DSC"]
    scene = scene_in(tmp_path, _house(BARS), lines)
    assert [unit.position for unit in scene.units] == ["Bar 1"] * 3 + ["Bar 2"] * 2


def test_a_column_of_how_units_hang_that_names_none_is_asked(tmp_path: Path) -> None:
    lines = ["Hung,Unit,Place,Type,To", "yoke up,1,1 m SL,spot,DSC", "yoke down,2,2 m SL,spot,DSC"]
    assert "position, which" in asked_in(tmp_path, _house(BARS), lines)


@pytest.mark.parametrize("height", ["2.5 m", "250 cm"])
def test_the_height_of_a_stand_says_nothing_new(tmp_path: Path, height: str) -> None:
    lines = ["Position,No,Height / place,Type,Focus", f"Stand A,1,{height},spot,DSC"]
    scene = scene_in(tmp_path, _house(BARS, "Stand A"), lines)
    assert [(unit.position, unit.at) for unit in scene.units] == [("Stand A", None)]
    assert height in (scene.units[0].note or "")


@pytest.mark.parametrize("height", ["1.2 m", "2.5 m SL"])
def test_another_height_of_a_stand_is_asked(tmp_path: Path, height: str) -> None:
    lines = ["Position,No,Height / place,Type,Focus", f"Stand A,1,{height},spot,DSC"]
    assert "a stand is a point" in asked_in(tmp_path, _house(BARS, "Stand A"), lines)


@pytest.mark.parametrize(
    ("said", "meant"),
    [("front center", "DSC"), ("back center", "USC"), ("front, house right", "DSL")],
)
def test_the_middle_is_nobodys_left(tmp_path: Path, said: str, meant: str) -> None:
    lines = ["Left and right as the audience sees them,,,,", "Position,No,Place,Type,Lights"]
    lines += [f'Bar 1,1,1 m HL,spot,"{said}"', 'Bar 1,2,2 m HL,spot,"front, house left"']
    scene = scene_in(tmp_path, _house(BARS), lines)
    assert [unit.target for unit in scene.units] == [meant, "DSR"]


def test_a_column_headed_at_holds_what_units_are_aimed_at(tmp_path: Path) -> None:
    lines = ["Where,No,ft,SL/SR,Type,At", "Bar 1,1,5,SL,spot,DSC", "Bar 1,2,10,SR,spot,USL"]
    scene = scene_in(tmp_path, _house(BARS), lines)
    read = [(unit.target, round(unit.at or 0, 3)) for unit in scene.units]
    assert read == [("DSC", 1.524), ("USL", -3.048)]


def test_a_column_headed_at_of_places_too_is_asked(tmp_path: Path) -> None:
    lines = ["Where,No,ft,Type,At", "Bar 1,1,5,spot,DSC", "Bar 1,2,10,spot,2 m SL"]
    assert "target" in asked_in(tmp_path, _house(BARS), lines)


@pytest.mark.parametrize("heading", ["Count from SL", "Unit count from SR"])
def test_a_count_from_an_end_numbers_units(tmp_path: Path, heading: str) -> None:
    lines = [f"Where,{heading},Place,Type,Focus", "Bar 1,1,1 m SL,spot,DSC"]
    scene = scene_in(tmp_path, _house(BARS), [*lines, "Bar 1,2,2 m SL,spot,USL"])
    assert [unit.number for unit in scene.units] == ["1", "2"]


def test_an_ordinal_under_the_sort_that_its_name_has_is_no_boom_of_that_side(
    tmp_path: Path,
) -> None:
    """Boom L1 and Boom R1 have the number too, and a column of sides beside it."""
    booms = "".join(
        f'[[boom]]\nname = "Boom {side}1"\nx = {x}\ny = 1\nheight = 4\n'
        for side, x in (("L", 6), ("R", -6))
    )
    pipe = '[[pipe]]\nname = "1st Electric"\ntrim = 5\ny = 2\nfrom = -6\nto = 6\n'
    rows = [f"1st;{n};{side};2;Spot;Altar" for n, side in ((1, "SL"), (2, "SR"))]
    for heading in ("Electric", "Boom"):
        lines = [f"{heading};No;Side;Place;Lamp;Focus", *rows]
        units = scene_in(tmp_path, HALL + pipe + booms + ALTAR, lines).units
        of_pipe = heading == "Electric"
        found = ["1st Electric", "1st Electric"] if of_pipe else ["Boom L1", "Boom R1"]
        assert [unit.position for unit in units] == found
