"""Rows of a hang list that are two units each, one on either side of the stage."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.hanglist.table.pairs import named_along
from tests.scene.hanglist.listed import asked_in, scene_in

HOUSE = """
[scene]
title = "t"
hang = "list.csv"

[[boom]]
name = "{left} Boom 1"
x = {x}
y = 2
height = 4

[[boom]]
name = "{right} Boom 1"
x = -{x}
y = 2
height = 4

[[target]]
name = "Lane 1"
x = 0
y = 2

[[target]]
name = "Lane 2"
x = 0
y = 4
"""
BY_NAME = [("SL", "SR"), ("Left", "Right"), ("PS", "OP")]
UNDER = ["Boom 1;1;3 m;ers-30;11;21;Lane 1", "Boom 1;2;1 m;ers-30;12;22;Lane 2"]


def _units(root: Path, house: str, lines: list[str]) -> list[tuple[str, str, str]]:
    units = scene_in(root, house, lines).units
    return [(unit.position, str(unit.number), str(unit.channel)) for unit in units]


@pytest.mark.parametrize(("left", "right"), BY_NAME)
@pytest.mark.parametrize("head", ["Ch {}", "{} Ch", "Channel ({})", "{}: channel"])
def test_a_channel_a_side_makes_a_unit_on_each(
    left: str, right: str, head: str, tmp_path: Path
) -> None:
    house = HOUSE.format(left=left, right=right, x=5)
    headings = f"Boom;No;Height;Type;{head.format(left)};{head.format(right)};Focus"
    assert _units(tmp_path, house, [headings, *UNDER]) == [
        (f"{left} Boom 1", "1", "11"),
        (f"{right} Boom 1", "1", "21"),
        (f"{left} Boom 1", "2", "12"),
        (f"{right} Boom 1", "2", "22"),
    ]


def test_left_is_whose_the_booms_are_named_for(tmp_path: Path) -> None:
    # House left is SR: the booms called Left stand there.
    house = HOUSE.format(left="Left", right="Right", x=-5).replace("--", "")
    found = _units(tmp_path, house, ["Boom;No;Height;Type;Ch L;Ch R;Focus", *UNDER])
    assert found[:2] == [("Right Boom 1", "1", "21"), ("Left Boom 1", "1", "11")]


def test_the_sides_may_stand_over_columns_that_come_twice(tmp_path: Path) -> None:
    lines = ["Side light;;;;;;;", ";;;;STAGE LEFT;;STAGE RIGHT;"]
    lines += ["Boom;No;Height;Type;Ch;Focus;Ch;Focus", "1;1;3 m;ers-30;11;Lane 1;21;Lane 2"]
    scene = scene_in(tmp_path, HOUSE.format(left="SL", right="SR", x=5), lines)
    assert [(u.position, str(u.channel), u.target) for u in scene.units] == [
        ("SL Boom 1", "11", "Lane 1"),
        ("SR Boom 1", "21", "Lane 2"),
    ]
    says = "each row is two units: column E is of the one on SL, column G of the one on SR."
    assert any(says in taken.says for taken in scene.taken)


def test_a_side_that_has_nothing_has_no_unit(tmp_path: Path) -> None:
    lines = ["Boom;No;Height;Type;Ch SL;Ch SR;Focus", *UNDER, ";3;2 m;ers-30;;23;Lane 1"]
    found = _units(tmp_path, HOUSE.format(left="SL", right="SR", x=5), lines)
    assert found[-1] == ("SR Boom 1", "3", "23")
    assert len(found) == 5


def test_a_boom_that_has_none_on_the_other_side_stays_one_unit(tmp_path: Path) -> None:
    lines = ["Boom;No;Height;Type;Ch SL;Ch SR;Focus", "SL Boom 1;1;3 m;ers-30;11;21;Lane 1"]
    house = HOUSE.format(left="SL", right="SR", x=5).replace("SR Boom 1", "Ladder")
    (unit,) = scene_in(tmp_path, house, lines).units
    assert unit.position == "SL Boom 1"
    assert unit.note == "Ch SL: 11; Ch SR: 21"


def test_a_position_is_that_of_the_row_above_where_it_is_blank() -> None:
    assert list(named_along([["A"], [""], ["B"], ["ditto"]], 0)) == ["A", "A", "B", "B"]


OVER = [
    "No;Height;Type;Ch SL;Ch SR;Focus",
    "1;3 m;ers-30;11;21;Lane 1",
    "2;1 m;ers-30;12;22;Lane 2",
]
PAIR = [("SL Boom 1", "1", "11"), ("SR Boom 1", "1", "21")]
PAIR += [("SL Boom 1", "2", "12"), ("SR Boom 1", "2", "22")]


@pytest.mark.parametrize(
    "title",
    [
        "Boom 1 (SL and SR)",
        "BOOM 1 - both sides",
        "Booms 1 SL/SR",
        "Boom 1 L & R",
        "Boom 1;SL and SR",
        "Boom 1",
        "Pair of Boom 1",
    ],
)
def test_a_pair_that_stands_over_its_units(title: str, tmp_path: Path) -> None:
    house = HOUSE.format(left="SL", right="SR", x=5)
    assert _units(tmp_path, house, [f"{title};", *OVER]) == PAIR
    assert _units(tmp_path, house, [OVER[0], f"{title};", *OVER[1:]]) == PAIR


def _two_booms() -> str:
    house = HOUSE.format(left="SL", right="SR", x=5)
    booms = house[house.index("[[boom]]") : house.index("[[target]]")]
    return house + booms.replace("Boom 1", "Boom 2").replace("y = 2", "y = 4")


def test_pairs_one_below_the_other(tmp_path: Path) -> None:
    more = [line.replace(";1", ";3").replace(";2", ";4") for line in OVER[1:]]
    lines = ["Sides;", "", "Boom 1 (SL and SR);", *OVER, "", "Boom 2 (SL and SR);", OVER[0], *more]
    found = _units(tmp_path, _two_booms(), lines)
    assert found[:4] == PAIR
    assert [position for position, _, _ in found[4:]] == ["SL Boom 2", "SR Boom 2"] * 2


def test_a_pair_over_its_units_is_told(tmp_path: Path) -> None:
    house = HOUSE.format(left="SL", right="SR", x=5)
    told = "\n".join(
        taken.says for taken in scene_in(tmp_path, house, ["Boom 1 (both);", *OVER]).taken
    )
    assert '"Boom 1 (both)" in row 1 stands over its units' in told
    assert "each row is two units" in told


def test_a_bar_over_units_of_the_same_table_is_no_pair(tmp_path: Path) -> None:
    house = HOUSE.format(left="SL", right="SR", x=5)
    house += '\n[[pipe]]\nname = "Bar 1"\ntrim = 6\ny = 3\nfrom = -4\nto = 4\n'
    lines = ["Boom 1 (SL and SR);", *OVER, "", "Bar 1;", "1;;ers-30;31;;Lane 1"]
    assert _units(tmp_path, house, lines) == [*PAIR, ("Bar 1", "1", "31")]


def test_a_pair_of_which_the_scene_has_one_is_asked(tmp_path: Path) -> None:
    house = HOUSE.format(left="SL", right="SR", x=5).replace("SR Boom 1", "Ladder")
    assert "position" in asked_in(tmp_path, house, ["Boom 1 (SL and SR);", *OVER])


def test_a_pair_that_the_scene_has_not_is_asked(tmp_path: Path) -> None:
    house = HOUSE.format(left="SL", right="SR", x=5)
    lines = ["Boom 1 (SL and SR);", *OVER, "", "Boom 2 (SL and SR);", *OVER]
    assert "position" in asked_in(tmp_path, house, lines)
