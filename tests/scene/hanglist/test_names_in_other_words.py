"""Positions and targets in other words than the scene's: what stands for them, and what does not."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.loading import load_scene
from aimcalc.scene.mistakes import SceneError
from tests.scene.written import write_scene

HOUSE = """
[scene]
title = "Names"
hang = "hang.csv"

[[pipe]]
name = "Bar 1"
trim = 6
y = 2
from = -5
to = 5
"""
KIND = '\n[[kind]]\nname = "spot"\nfamily = "ers"\nfield = 26\n'


def _house(booms: dict[str, float], targets: dict[str, float]) -> str:
    stood = [f'[[boom]]\nname = "{n}"\nx = {x}\ny = 1\nheight = 4' for n, x in booms.items()]
    aimed = [f'[[target]]\nname = "{n}"\nx = {x}\ny = 3' for n, x in targets.items()]
    return "\n".join([HOUSE, *stood, *aimed, KIND])


def _units(folder: Path, base: str, *rows: str) -> list[tuple[str, str]]:
    path = write_scene(folder, base=base)
    (folder / "hang.csv").write_text("position,number,at,kind,target\n" + "\n".join(rows) + "\n")
    return [(unit.position, str(unit.target)) for unit in load_scene(path).units]


@pytest.mark.parametrize(
    ("targets", "said", "meant"),
    [
        (("Apron Centre", "Centre Stage"), "CENTRE", "Centre Stage"),
        (("Apron Centre", "Centre Stage"), "C/S", "Centre Stage"),
        (("CSL", "CSC", "CSR"), "centre stage", "CSC"),
        (("MSL", "MSC", "MSR"), "Center Stage", "MSC"),
        (("Upstage wash", "Front wash"), "Upst. wash", "Upstage wash"),
        (("Staircase", "Cyc"), "STAIRS", "Staircase"),
        (("Cloth", "Table"), "backdrop", "Cloth"),
        (("Area 5", "Area 6"), "A5 bax", "Area 5"),
        (("Area 5", "Area 6"), "A6 sx", "Area 6"),
        (("A5", "A6"), "Area 5", "A5"),
        (("A5", "A6"), "AREA #6", "A6"),
        (("A5", "B5"), "acting area 5", "A5"),
        (("Z1", "Z2", "A1"), "Zone 2", "Z2"),
        (("Wash SL", "Wash SR"), "Wash OP", "Wash SR"),
        (("Wash PS", "Wash OP"), "wash stage left", "Wash PS"),
    ],
)
def test_a_target_in_other_words(
    tmp_path: Path, targets: tuple[str, ...], said: str, meant: str
) -> None:
    base = _house({}, dict.fromkeys(targets, 0))
    assert _units(tmp_path, base, f"Bar 1,1,0,spot,{said}") == [("Bar 1", meant)]


@pytest.mark.parametrize(
    ("targets", "said"),
    [
        (("Apron Centre", "Upper Centre"), "CENTRE"),
        (("CSL", "CSR", "DSC"), "centre stage"),
        (("A5", "A6"), "Zone 5"),
        (("A5", "A6"), "Area 7"),
        (("A5", "A6"), "Arch 5"),
        (("A5 L", "A5 R"), "Area 5"),
        (("Cloth", "Backdrop 2", "Drop 2"), "backcloth 2"),
    ],
)
def test_a_target_that_may_be_several_or_none_is_asked(
    tmp_path: Path, targets: tuple[str, ...], said: str
) -> None:
    with pytest.raises(SceneError):
        _units(tmp_path, _house({}, dict.fromkeys(targets, 0)), f"Bar 1,1,0,spot,{said}")


def test_booms_of_prompt_side_and_of_stage_left_are_the_same(tmp_path: Path) -> None:
    rows = ("Boom 1 SL,1,2,spot,A", "Boom 1 SR,1,2,spot,A")
    base = _house({"Boom 1 PS": 6, "Boom 1 OP": -6}, {"A": 0})
    assert [p for p, _ in _units(tmp_path / "a", base, *rows)] == ["Boom 1 PS", "Boom 1 OP"]
    base = _house({"Boom 1 PS": -6, "Boom 1 OP": 6}, {"A": 0})  # a house with its prompt corner SR
    assert [p for p, _ in _units(tmp_path / "b", base, *rows)] == ["Boom 1 OP", "Boom 1 PS"]


def test_prompt_side_is_where_the_list_says(tmp_path: Path) -> None:
    base = _house({"Perch SL": 6, "Perch SR": -6}, {"A": 0})
    row = "Perch OP,1,2,spot,A"
    assert _units(tmp_path / "a", base, row) == [("Perch SR", "A")]
    assert _units(tmp_path / "b", base, row, "PS = SR,,,,") == [("Perch SL", "A")]


def test_a_word_and_the_letter_of_another(tmp_path: Path) -> None:
    base = _house({}, {"Centre Circle": 0, "Door": 2, "Centre Lane": 1})
    assert _units(tmp_path / "a", base, "Bar 1,1,0,spot,Centre C.") == [("Bar 1", "Centre Circle")]
    with pytest.raises(SceneError):
        _units(tmp_path / "b", base, "Bar 1,1,0,spot,Centre L.")
    with pytest.raises(SceneError):
        _units(tmp_path / "c", base.replace("Door", "Centre Cloth"), "Bar 1,1,0,spot,Centre C.")


def test_side_behind_the_side_of_a_position(tmp_path: Path) -> None:
    base = _house({"Ladder SL": 6, "Ladder SR": -6}, {"Door": 2})
    rows = [
        f"{name},{n},2,spot,Door"
        for n, name in enumerate(("Ladder P side", "Ladder OP side", "Ladder SR side"), 1)
    ]
    hung = [position for position, _ in _units(tmp_path / "a", base, *rows)]
    assert hung == ["Ladder SL", "Ladder SR", "Ladder SR"]
    with pytest.raises(SceneError):
        _units(tmp_path / "b", base, "Ladder side,1,2,spot,Door")


SIDES = {"Ladder SL 1": 6, "Ladder SL 2": 7, "Ladder SR 1": -6, "Boom SL 1": 5, "Boom SR 1": -5}


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        ("LADSL1", "Ladder SL 1"),
        ("ladsl2", "Ladder SL 2"),
        ("LDRSR1", "Ladder SR 1"),
        ("LSL2", "Ladder SL 2"),
        ("BMSL1", "Boom SL 1"),
        ("BM1SR", "Boom SR 1"),
        ("SLLAD2", "Ladder SL 2"),
    ],
)
def test_a_position_without_blanks(tmp_path: Path, said: str, meant: str) -> None:
    base = _house(dict(SIDES), {"Door": 2})
    assert _units(tmp_path, base, f"{said},1,2,spot,Door") == [(meant, "Door")]


@pytest.mark.parametrize("said", ["LADL1", "LADSL3", "LAD1", "XSL1", "track"])
def test_a_code_that_may_be_several_positions_or_none_is_asked(tmp_path: Path, said: str) -> None:
    base = _house({**SIDES, "Truss Rack": 3}, {"Door": 2})
    with pytest.raises(SceneError):
        _units(tmp_path, base, f"{said},1,2,spot,Door")


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        ("DS", "Downstage Truss"),
        ("MS", "Midstage Truss"),
        ("mid", "Midstage Truss"),
        ("Mid stage", "Midstage Truss"),
        ("MS truss", "Midstage Truss"),
        ("CS", "Centre Stage Truss"),
        ("US", "Upstage Truss"),
    ],
)
def test_a_truss_by_how_far_up_the_stage_it_is(tmp_path: Path, said: str, meant: str) -> None:
    names = ("Downstage Truss", "Midstage Truss", "Centre Stage Truss", "Upstage Truss")
    row = f"{said},1,2,spot,Door"
    assert _units(tmp_path / "a", _trusses(*names), row) == [(meant, "Door")]
    others = (name for name in names if name != meant)
    with pytest.raises(SceneError):  # it may be either of two
        _units(tmp_path / "b", _trusses(f"{meant} 1", f"{meant} 2", *others), row)


def _trusses(*names: str) -> str:
    shape = "trim = 6\ny = {y}\nfrom = -5\nto = 5\n"
    each = (f'\n[[pipe]]\nname = "{n}"\n{shape.format(y=y)}' for y, n in enumerate(names, 3))
    return _house({}, {"Door": 2}) + "".join(each)
