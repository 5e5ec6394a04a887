"""Cells that name a position, the number of a unit and its place together."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.hanglist.listed import asked_of, scene_of


def _unit(tmp_path: Path, cell: str) -> tuple[str, float | None]:
    text = f'where,kind,target\n"{cell}",spot,A\nLX 2 1 m SR,spot,A\n'
    unit = scene_of(tmp_path, text).units[0]
    return unit.position, unit.at


@pytest.mark.parametrize(
    "cell",
    [
        *("LX 1 2 m stage left", "LX 1, 2 m stage left", "LX 1 - 2.0 m SL", "LX 1 @ 2m SL"),
        *("LX 1: 2 m SL", "LX 1 SL 2 m", "2 m SL on LX 1", "LX 1 / 2 m SL", "lx1 at 2000 mm SL"),
        "2 m SL, LX 1",
    ],
)
def test_a_position_and_a_place(tmp_path: Path, cell: str) -> None:
    assert _unit(tmp_path, cell) == ("LX 1", 2.0)


@pytest.mark.parametrize("cell", ["LX 1 centre", "LX 1 on CL", "LX 1, centre line", "LX 1 - C/L"])
def test_a_position_and_its_centre(tmp_path: Path, cell: str) -> None:
    assert _unit(tmp_path, cell) == ("LX 1", 0.0)


@pytest.mark.parametrize(
    "cell", ["boom SR 2 m", "boom SR at 2 m", "boom SR, 2 m high", "boom SR 2m up"]
)
def test_a_boom_and_a_height(tmp_path: Path, cell: str) -> None:
    assert _unit(tmp_path, cell) == ("boom SR", 2.0)


@pytest.mark.parametrize(
    "cell",
    [
        *("LX 1 #7, 2 m SL", "LX 1 #7 2 m SL", "LX 1 no. 7 - 2 m SL", "LX 1 unit 7 at 2 m SL"),
        *("LX 1/7, 2 m SL", "LX 1#7: 2 m SL"),
    ],
)
def test_a_position_a_number_and_a_place(tmp_path: Path, cell: str) -> None:
    units = scene_of(
        tmp_path, f"where,kind,target\n{_quoted(cell)},spot,A\nLX 1 #8 1 m SR,spot,A\n"
    ).units
    assert [(u.position, u.number, u.at) for u in units] == [
        ("LX 1", "7", 2.0),
        ("LX 1", "8", -1.0),
    ]


def _quoted(cell: str) -> str:
    return f'"{cell}"'


def test_a_place_without_a_side_beside_a_pipe_is_no_place(tmp_path: Path) -> None:
    text = "where,kind,target\nLX 1 2 m,spot,A\nLX 2 1 m SR,spot,A\n"
    assert "LX 1 2 m" in asked_of(tmp_path, text)


def test_whose_left_beside_a_position_is_asked(tmp_path: Path) -> None:
    text = "where,kind,target\nLX 1 2 m left,spot,A\nLX 2 1 m SR,spot,A\n"
    assert "SL or SR" in asked_of(tmp_path, text)


def test_another_number_than_in_its_own_column_is_asked(tmp_path: Path) -> None:
    text = 'where,no,kind,target\n"LX 1 #7, 2 m SL",8,spot,A\nLX 2 1 m SR,1,spot,A\n'
    assert "LX 1 #7" in asked_of(tmp_path, text)


@pytest.mark.parametrize(
    "heading",
    ["Position / distance", "Hung", "Hang point", "Ort und Abstand", "Where is it", "Rigging"],
)
def test_positions_with_places_under_any_heading(tmp_path: Path, heading: str) -> None:
    text = f"kind,{heading},target,chan\nspot,LX 1 2 m SL,A,1\nspot,LX 1 centre,A,2\n"
    text += "spot,boom SR at 2 m,A,3\n"
    units = scene_of(tmp_path, text).units
    assert [(unit.position, unit.at) for unit in units] == [
        ("LX 1", 2.0),
        ("LX 1", 0.0),
        ("boom SR", 2.0),
    ]


def test_a_column_of_places_beside_one_of_positions_stays_one(tmp_path: Path) -> None:
    text = "kind,Hang point,pipe,number,target\nspot,2 m SL,LX 1,1,A\nspot,centre,LX 1,2,A\n"
    units = scene_of(tmp_path, text).units
    assert [(unit.position, unit.at) for unit in units] == [("LX 1", 2.0), ("LX 1", 0.0)]
