"""Positions and numbers put together in one mark, letters that may be two positions, and several units
with a target each."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.hanglist.listed import asked_in, scene_in

AREAS = tuple(f"Area {k}" for k in range(1, 7))


def _house(
    pipes: tuple[str, ...], booms: tuple[str, ...] = (), stands: tuple[str, ...] = ()
) -> str:
    parts = ['[scene]\ntitle = "House"\nunit = "m"\nhang = "list.csv"']
    parts += [
        f'[[pipe]]\nname = "{n}"\ntrim = 6\ny = {k}\nfrom = -6\nto = 6' for k, n in enumerate(pipes)
    ]
    parts += [
        f'[[boom]]\nname = "{n}"\nx = {6 - 12 * k}\ny = 1\nheight = 5' for k, n in enumerate(booms)
    ]
    parts += [f'[[stand]]\nname = "{n}"\nx = {k}\ny = 1\nz = 1' for k, n in enumerate(stands)]
    parts += [
        f'[[target]]\nname = "{n}"\nx = {1 - k % 3}\ny = {k // 3}' for k, n in enumerate(AREAS)
    ]
    parts += ['[[kind]]\nname = "ERS 26"\nfamily = "ers"\nfield = 26']
    return "\n\n".join(parts) + "\n"


PIPES = ("Pipe A", "Pipe B", "Pipe C")
LX = ("LX1", "LX2", "LX3")
ELECTRICS = ("1st Electric", "2nd Electric", "3rd Electric")


def _marked(root: Path, house: str, heading: str, marks: list[str]) -> list[tuple[str, str]]:
    rows = [f"{mark},{2 - k} m SL,ERS 26,Area {k + 1},{k + 1}" for k, mark in enumerate(marks)]
    units = scene_in(root, house, [f"{heading},Place,Type,Focus,Ch", *rows]).units
    return [(unit.position, unit.number or "") for unit in units]


@pytest.mark.parametrize(
    "heading", ["Unit", "No", "Mark", "Label", "Hung at", "#", "Position", "Ref"]
)
def test_a_letter_and_a_number(tmp_path: Path, heading: str) -> None:
    read = _marked(tmp_path, _house(PIPES), heading, ["A1", "A2", "C1"])
    assert read == [("Pipe A", "1"), ("Pipe A", "2"), ("Pipe C", "1")]


@pytest.mark.parametrize(
    ("pipes", "marks", "meant"),
    [
        (ELECTRICS, ["1E1", "1E4", "3E2"], [(0, "1"), (0, "4"), (2, "2")]),
        (ELECTRICS, ["1E#1", "1E#4", "3E#2"], [(0, "1"), (0, "4"), (2, "2")]),
        (ELECTRICS, ["1st Elec 1", "1st Elec 4", "3rd Elec 2"], [(0, "1"), (0, "4"), (2, "2")]),
        (LX, ["LX1_1", "LX1_4", "LX3_2"], [(0, "1"), (0, "4"), (2, "2")]),
        (LX, ["LX1 (1)", "LX1 (4)", "LX3 (2)"], [(0, "1"), (0, "4"), (2, "2")]),
        (LX, ["LX1A", "LX1B", "LX3A"], [(0, "A"), (0, "B"), (2, "A")]),
        (("FOH Truss", "LX 1"), ["FT1", "FT2", "LX1-1"], [(0, "1"), (0, "2"), (1, "1")]),
        (("Perche 1", "Perche 2"), ["P1 n°1", "P1 n°3", "P2 n°1"], [(0, "1"), (0, "3"), (1, "1")]),
    ],
)
def test_other_marks(
    tmp_path: Path, pipes: tuple[str, ...], marks: list[str], meant: list[tuple[int, str]]
) -> None:
    read = _marked(tmp_path, _house(pipes), "Unit", marks)
    assert read == [(pipes[k], number) for k, number in meant]


def test_a_mark_of_two_readings_is_asked(tmp_path: Path) -> None:
    rows = ["Unit,Place,Type,Focus", "B11,2 m SL,ERS 26,Area 1", "B12,1 m SL,ERS 26,Area 2"]
    assert "position" in asked_in(tmp_path, _house(("Bar 1", "Bar 2", "Pipe B")), rows)


@pytest.mark.parametrize(
    ("pipes", "marks"),
    [
        (("LX1", "LX11"), ("LX111", "LX112")),  # LX1 no. 12, or LX11 no. 2
        (("FOH", "LX1"), ("LX3", "LX4")),  # no unit of LX1
        (("Front Bar", "Bar 1"), ("Bar 3", "Bar 4")),
    ],
)
def test_marks_that_may_name_another_position(
    tmp_path: Path, pipes: tuple[str, ...], marks: tuple[str, ...]
) -> None:
    rows = [f"{mark},2 m SL,ERS 26,Area {k + 1}" for k, mark in enumerate(marks)]
    assert "position" in asked_in(tmp_path, _house(pipes), ["Unit,Place,Type,Focus", *rows])


def test_targets_in_short_are_no_marks(tmp_path: Path) -> None:
    rows = ["Light,Place,Hits", "Pipe A,,", "ERS 26,2 m SL,A1", "ERS 26,1 m SL,A2", "Pipe B,,"]
    units = scene_in(tmp_path, _house(PIPES), [*rows, "ERS 26,2 m SL,A3"]).units
    assert [(unit.position, unit.target) for unit in units] == [
        ("Pipe A", "Area 1"),
        ("Pipe A", "Area 2"),
        ("Pipe B", "Area 3"),
    ]


def test_a_mark_with_a_place_is_on_no_stand(tmp_path: Path) -> None:
    house = _house(("Pipe E", "Pipe F"), stands=("Floor 1", "Floor 2"))
    assert _marked(tmp_path, house, "Unit", ["E1", "E2", "F2"])[2] == ("Pipe F", "2")


BARS_AND_BOOMS = _house(("Bar 1", "Bar 2"), booms=("Boom 1", "Boom 2"))


@pytest.mark.parametrize(
    ("house", "heading", "cells", "meant"),
    [
        (BARS_AND_BOOMS, "Place", ("B1,1,2 m SL", "B1,2,center"), "Bar 1"),
        (BARS_AND_BOOMS, "Height", ("B1,1,2", "B1,2,1"), "Boom 1"),
        (BARS_AND_BOOMS, "Place", ("B1,1,h 2.0 m", "B1,2,1 m above deck"), "Boom 1"),
        (
            _house(("Perche 1",), stands=("Pied 1",)),
            "Place",
            ('P1,1,"1,60 m jardin"', "P1,2,axe"),
            "Perche 1",
        ),
    ],
)
def test_letters_of_two_positions_by_their_places(
    tmp_path: Path, house: str, heading: str, cells: tuple[str, ...], meant: str
) -> None:
    rows = [f"{cell},ERS 26,Area {k + 1}" for k, cell in enumerate(cells)]
    units = scene_in(tmp_path, house, [f"Position,Unit,{heading},Type,Area", *rows]).units
    assert [unit.position for unit in units] == [meant] * len(cells)


def test_letters_of_two_positions_that_nothing_tells_apart(tmp_path: Path) -> None:
    rows = ["Position,Unit,Place,Type,Area", "B1,1,2.0,ERS 26,Area 1", "B1,2,1.0,ERS 26,Area 2"]
    assert "B1" in asked_in(tmp_path, BARS_AND_BOOMS, rows)


RUN = ["Position,Units,Off center,Type,Focus"]


@pytest.mark.parametrize(
    "said",
    [
        "Areas 4, 5, 6",
        "Areas 4-6",
        "A4-6",
        "Areas 4/5/6",
        "Areas 4 5 6",
        "4, 5, 6",
        "areas 4, 5 and 6",
    ],
)
def test_as_many_targets_as_units(tmp_path: Path, said: str) -> None:
    row = f'LX1,1-3,"2 m SL, center, 2 m SR",ERS 26,"{said}"'
    units = scene_in(tmp_path, _house(LX), [*RUN, row]).units
    assert [unit.target for unit in units] == ["Area 4", "Area 5", "Area 6"]


@pytest.mark.parametrize("said", ["Areas 4, 5", "Areas 1-4"])
def test_other_than_as_many_targets_as_units(tmp_path: Path, said: str) -> None:
    row = f'LX1,1-3,"2 m SL, center, 2 m SR",ERS 26,"{said}"'
    assert said in asked_in(tmp_path, _house(LX), [*RUN, row])
