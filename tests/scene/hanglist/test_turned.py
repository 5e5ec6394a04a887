"""Tables turned on their side: a column a unit, a row a key."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.loading import load_scene
from aimcalc.scene.model import Scene
from tests.scene.hanglist.listed import asked_of, scene_of
from tests.scene.written import write_scene

ONE = """LX 1
Unit;1;2;3
From center;2 m SL;0;2 m SR
Type;spot;wide;spot
Focus;Door;A;Table
"""
OTHER = ONE.replace("LX 1", "LX 2")
SIX = [("LX 1", "1", 2.0), ("LX 1", "2", 0.0), ("LX 1", "3", -2.0)]
SIX += [("LX 2", number, at) for _, number, at in SIX]


def _placed(scene: Scene) -> list[tuple[str, str, float]]:
    return [(unit.position, str(unit.number), unit.at) for unit in scene.units]


def _told(scene: Scene) -> str:
    return "\n".join(taken.says for taken in scene.taken)


def _in_corner(block: str) -> str:
    name, _, rest = block.partition("\n")
    return rest.replace("Unit;", f"{name};")


def _beside(block: str) -> str:
    name, _, rest = block.partition("\n")
    return f"{name};" + rest.rstrip("\n").replace("\n", "\n;") + "\n"


@pytest.mark.parametrize(
    "text",
    [
        f"{ONE}\n{OTHER}",
        f"{ONE}{OTHER}",
        f"Turned\nhung on Monday\n\n{ONE}\n\n{OTHER}",
        f"{_in_corner(ONE)}\n{_in_corner(OTHER)}",
        f"{_in_corner(ONE)}{_in_corner(OTHER)}",
        f"{_beside(ONE)}{_beside(OTHER)}",
        f"{ONE}\n{OTHER}".replace("Unit;1;2;3", ";Unit 1;Unit 2;Unit 3"),
        f"{ONE}\n{OTHER}".replace("Unit;1;2;3", "Unit;1;2;3;Unit").replace(
            ";Table", ";Table;Focus"
        ),
        f"{ONE}\n{OTHER}".replace("Unit;", "Unit:;").replace("Type;", "Type:;"),
    ],
)
def test_a_block_a_position(text: str, tmp_path: Path) -> None:
    scene = scene_of(tmp_path, text)
    assert _placed(scene) == SIX
    assert [unit.target for unit in scene.units[:3]] == ["Door", "A", "Table"]
    assert "a table turned on its side" in _told(scene)


def test_blocks_of_other_widths_and_other_rows(tmp_path: Path) -> None:
    other = "LX 2\nUnit;1;2\nType;spot;wide\nGel;L201;\nFrom center;1 m SL;1 m SR\nFocus;A;A\n"
    scene = scene_of(tmp_path, f"{ONE}\n{other}")
    assert _placed(scene)[3:] == [("LX 2", "1", 1.0), ("LX 2", "2", -1.0)]
    assert [unit.colour for unit in scene.units] == [None, None, None, "L201", None]


def test_a_row_for_the_position(tmp_path: Path) -> None:
    lines = "Position;LX 1;LX 1;LX 2\nUnit;1;2;1\nFrom center;2 m SL;0;2 m SR\n"
    lines += "Type;spot;wide;spot\nFocus;Door;A;Table\n"
    wanted = [("LX 1", "1", 2.0), ("LX 1", "2", 0.0), ("LX 2", "1", -2.0)]
    assert _placed(scene_of(tmp_path, lines)) == wanted
    assert _placed(scene_of(tmp_path, lines.replace("LX 1;LX 1", "LX 1;"))) == wanted


def test_a_unit_of_length_beside_the_headings(tmp_path: Path) -> None:
    text = "LX 1\nUnit;;1;2\nFrom center;cm;200 SL;100 SR\nType;;spot;wide\nFocus;;Door;A\n"
    assert _placed(scene_of(tmp_path, text)) == [("LX 1", "1", 2.0), ("LX 1", "2", -1.0)]


def test_a_position_that_goes_on_in_a_block_below(tmp_path: Path) -> None:
    more = ONE.replace("LX 1\n", "").replace("1;2;3", "4;5;6").replace("2 m", "3 m")
    scene = scene_of(tmp_path, f"{ONE}\n{more.replace(';0;', ';1 m SL;')}")
    assert [number for _, number, _ in _placed(scene)] == ["1", "2", "3", "4", "5", "6"]
    assert {unit.position for unit in scene.units} == {"LX 1"}


def test_a_ditto_is_the_cell_beside(tmp_path: Path) -> None:
    scene = scene_of(tmp_path, ONE.replace("spot;wide;spot", 'spot;"";"').replace('""', '"'))
    assert [unit.kind for unit in scene.units] == ["spot", "spot", "spot"]


def test_what_is_asked_names_the_cell_as_it_stands(tmp_path: Path) -> None:
    asked = asked_of(tmp_path, f"{ONE}\n{OTHER.replace('2 m SR', 'somewhere')}")
    assert "hang.csv, row 9, column D (at)" in asked
    asked = asked_of(tmp_path, ONE.replace("Table", "Sofa"))
    assert "hang.csv, row 5, column D (target)" in asked


def test_a_position_that_the_scene_has_not_is_asked(tmp_path: Path) -> None:
    asked = asked_of(tmp_path, f"{ONE}\n{ONE.replace('LX 1', 'LX 9')}")
    assert "column B of rows 8 to 11" in asked
    assert "position" in asked


def test_a_unit_without_a_kind_is_asked(tmp_path: Path) -> None:
    assert "kind" in asked_of(tmp_path, ONE.replace("spot;wide;spot", "spot;;spot"))


def test_particulars_of_the_show_over_a_table_are_not_turned(tmp_path: Path) -> None:
    text = "Unit;m\nChannel;1-48\nFocus;Friday\n\n"
    text += "Position;Unit;From center;Type;Focus\nLX 1;1;2 m SL;spot;A\nLX 1;2;1 m SR;spot;A\n"
    scene = scene_of(tmp_path, text)
    assert _placed(scene) == [("LX 1", "1", 2.0), ("LX 1", "2", -1.0)]
    assert "turned on its side" not in _told(scene)


def test_a_column_that_holds_words_of_headings_is_not_turned(tmp_path: Path) -> None:
    lines = "Bar;No;Side;Off CL;Type;Focus\nLX 1;1;SL;2 m;spot;A\nLX 1;2;SR;1 m;spot;A\n"
    lines += "LX 1;3;SL;1 m;spot;A\nLX 1;4;SR;2 m;spot;A\n"
    assert [at for _, _, at in _placed(scene_of(tmp_path, lines))] == [2.0, -1.0, 1.0, -2.0]


@pytest.mark.parametrize(
    "text",
    [
        "Summer show;1;2;3;4\nBar;LX 1;LX 1;LX 2;LX 2\nDistance;2 m SL;0;2 m SL;3 m SR\n"
        "Lantern;spot;wide;spot;wide\nFocus;Door;A;Table;A\nChannel;1;2;3;4\nColour;L201;;L103;\n",
        "Gala de danse;1;2;3;4\nPerche;LX 1;LX 1;LX 2;LX 2\nCote;2 m cour;axe;2 m cour;3 m jardin\n"
        "Projecteur;spot;wide;spot;wide\nRéglage;Door;A;Table;A\n",
        "Vårrevyn (alla mått i cm);1;2;3;4\nStång;LX 1;LX 1;LX 2;LX 2\nMått;200 SL;0;200 SL;300 SR\n"
        "Lampa;spot;wide;spot;wide\nRiktas mot;Door;A;Table;A\nFilter;L201;;L103;\n",
        ";1;2;3;4\nPipe;LX 1;LX 1;LX 2;LX 2\nOff centre;2 m SL;0;2 m SL;3 m SR\n"
        "Type;spot;wide;spot;wide\nFocus;Door;A;Table;A\n",
    ],
)
def test_numbers_beside_a_title_in_the_corner_are_those_of_units(text: str, tmp_path: Path) -> None:
    scene = scene_of(tmp_path, text)
    assert _placed(scene) == [
        ("LX 1", "1", 2.0),
        ("LX 1", "2", 0.0),
        ("LX 2", "3", 2.0),
        ("LX 2", "4", -3.0),
    ]
    assert [unit.target for unit in scene.units] == ["Door", "A", "Table", "A"]


SIDE_NAMES = """
[[target]]
name = "Stage Left"
x = 2
y = 4

[[target]]
name = "Stage Right"
x = -2
y = 4
"""


def test_targets_that_are_called_as_sides_make_no_row_of_headings(tmp_path: Path) -> None:
    text = (
        "WI revue;1;2;3\nBar;LX 1;LX 1;LX 1\nDistance;2 m SL;0;2 m SR\nLantern;spot;spot;spot\n"
        "Focus;Stage Left;A;Stage Right\nChannel;1;2;3\nColour;L126;;L103\n"
    )
    path = write_scene(tmp_path, SIDE_NAMES, settings='hang = "hang.csv"')
    (tmp_path / "hang.csv").write_text(text, encoding="utf-8")
    units = load_scene(path).units
    assert [(u.number, u.at, u.target, u.channel) for u in units] == [
        ("1", 2.0, "Stage Left", "1"),
        ("2", 0.0, "A", "2"),
        ("3", -2.0, "Stage Right", "3"),
    ]


def test_a_corner_that_is_a_heading_stays_one(tmp_path: Path) -> None:
    text = "Channel;5;6\nBar;LX 1;LX 1\nAt;2 m SL;0\nType;spot;wide\nFocus;Door;A\n"
    assert [str(unit.channel) for unit in scene_of(tmp_path, text).units] == ["5", "6"]
