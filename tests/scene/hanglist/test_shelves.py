"""Heights on booms with the name of their shelf, and shelves that number units. The boom is 4 m."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.hanglist.listed import asked_in, scene_in
from tests.scene.written import BASE

HEAD = "Boom;No;Height;Lamp;Focus"


def _units(root: Path, *lines: str) -> list[tuple[str, str, float, str]]:
    scene = scene_in(root, BASE.format(settings='hang = "list.csv"'), lines)
    return [(u.position, str(u.number), round(u.at or 0, 4), str(u.note)) for u in scene.units]


def _asked(root: Path, *lines: str) -> str:
    return asked_in(root, BASE.format(settings='hang = "list.csv"'), lines)


@pytest.mark.parametrize(
    ("cell", "metres", "shelf"),
    [
        ("Head 7'-6\"", 2.286, "Head"),
        ("top 3.2 m", 3.2, "top"),
        ("top 3.2", 3.2, "top"),
        ("shin (0.4)", 0.4, "shin"),
        ("mid (2)", 2.0, "mid"),
        ("oben 3,1", 3.1, "oben"),
        ("Mitte 1,5 m", 1.5, "Mitte"),
        ("haut : 3,20 m", 3.2, "haut"),
        ("bajo = 0,4", 0.4, "bajo"),
        ("high mid 2.1 m", 2.1, "high mid"),
        ("Head @ 3.2m", 3.2, "Head"),
        ("Mid - 4'9\"", 1.4478, "Mid"),
        ("3.2 m head", 3.2, "head"),
        ("0.4 (shin)", 0.4, "shin"),
        ("1'6\" - shin", 0.4572, "shin"),
        ("shin 0.4 m off deck", 0.4, "shin"),
        ("Head 1 3.2 m", 3.2, "Head 1"),
        ("floor 0", 0.0, "floor"),
    ],
)
def test_a_height_with_its_shelf(tmp_path: Path, cell: str, metres: float, shelf: str) -> None:
    (unit,) = _units(tmp_path, HEAD, f"boom SR;1;{cell};spot;A")
    assert unit == ("boom SR", "1", metres, shelf)


@pytest.mark.parametrize("cell", ["top 0.3 m", "shin 3.4", "Head 3", "mid -2", "mid 2 of 3"])
def test_a_shelf_with_another_figure_is_asked_about(tmp_path: Path, cell: str) -> None:
    assert "column C (at)" in _asked(tmp_path, HEAD, f"boom SR;1;{cell};spot;A")


def test_a_bare_figure_is_a_height_where_the_heading_has_a_unit(tmp_path: Path) -> None:
    head = HEAD.replace("Height", "Height (m)")
    (unit,) = _units(tmp_path, head, "boom SR;1;Head 3;spot;A")
    assert unit == ("boom SR", "1", 3.0, "Head")


def test_shelves_number_units_that_have_no_number_where_each_has_its_own(tmp_path: Path) -> None:
    rows = ["boom SR;top 3.2 m;spot;A", "boom SR;shin 0.4 m;spot;A"]
    head = "Boom;Height;Lamp;Focus"
    assert [unit[1] for unit in _units(tmp_path, head, *rows)] == ["top", "shin"]
    rows.append("boom SR;top 3.6 m;spot;A")
    assert [unit[1] for unit in _units(tmp_path, head, *rows)] == ["1", "2", "3"]
    for said in ("3.2 m high", "alto 3,2 m"):
        assert [unit[1:3] for unit in _units(tmp_path, head, f"boom SR;{said};spot;A")] == [
            ("1", 3.2)
        ]


def test_a_shelf_with_its_height_under_a_number_is_the_place(tmp_path: Path) -> None:
    rows = ["Boom;Unit;Lamp;Focus", "boom SR;top 3.2 m;spot;A", "boom SR;mid 1.8 m;spot;A"]
    assert [unit[1:3] for unit in _units(tmp_path, *rows)] == [("top", 3.2), ("mid", 1.8)]


@pytest.mark.parametrize("names", ["top mid shin", "oben Mitte unten", "tête hanche tibia"])
def test_a_column_of_shelves_beside_one_of_heights_numbers_the_units(
    tmp_path: Path, names: str
) -> None:
    rows = [
        f"boom SR;{name};{at};spot;A" for name, at in zip(names.split(), (3, 2, 0.4), strict=True)
    ]
    read = _units(tmp_path, "Boom;Slot;Height;Lamp;Focus", *rows)
    assert [unit[1] for unit in read] == names.split()


def test_a_shelf_behind_a_boom_numbers_its_unit_or_is_a_remark(tmp_path: Path) -> None:
    rows = ["boom SR top;3.2;spot;A", "boom SR - shin;0.4;spot;A", "boom SR (mid);1.8;spot;A"]
    read = _units(tmp_path, "Boom;Height;Lamp;Focus", *rows)
    assert [unit[:3] for unit in read] == [
        ("boom SR", "top", 3.2),
        ("boom SR", "shin", 0.4),
        ("boom SR", "mid", 1.8),
    ]
    (unit,) = _units(tmp_path, HEAD, "boom SR top;1;3.2;spot;A")
    assert unit == ("boom SR", "1", 3.2, "top")
