"""Places that are no exact figure, or that a word alone says: "approx 3.2 SL", "SL end", "PL", "top"."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.hanglist.listed import ALTAR, BAR_AND_RAIL, HALL, asked_in, scene_in

HOUSE = f"""{HALL}{BAR_AND_RAIL}
[[boom]]
name = "Boom 1"
x = 6
y = 2
height = 5
{ALTAR}"""


def _lines(position: str, *cells: str) -> list[str]:
    rows = [f"{position};{n};{cell};Spot;Altar" for n, cell in enumerate(cells, 1)]
    return ["Position;No;Place;Lamp;Focus", *rows]


def _read(root: Path, position: str, *cells: str) -> list[float]:
    return [float(unit.at or 0) for unit in scene_in(root, HOUSE, _lines(position, *cells)).units]


@pytest.mark.parametrize(
    "cell",
    [
        "approx 3.2 SL",
        "approx. 3.2 m SL",
        "about 3.2 m SL",
        "ca. 3,2 m SL",
        "roughly 3.2 SL",
        "3.2 SL approx",
        "3.2 SL (approx)",
        "3.2 SL or so",
        "3.2ish SL",
        "SL approx 3.2",
        "env. 3,2 m SL",
        "etwa 3,2 SL",
    ],
)
def test_a_place_that_is_about_right_is_read_and_its_word_kept(tmp_path: Path, cell: str) -> None:
    scene = scene_in(tmp_path, HOUSE, _lines("Bar 1", cell, "1 SR"))
    assert [unit.at for unit in scene.units] == [3.2, -1.0]
    assert scene.units[0].note
    assert any(cell in taken.says for taken in scene.taken)


@pytest.mark.parametrize(
    "cell", ["nearly 3.2 SL", "max 3.2 SL", "± 3.2", "~3.2 SL", "3.2 SL?", "+/- 3.2 SL"]
)
def test_a_place_that_may_be_another_is_asked(tmp_path: Path, cell: str) -> None:
    assert cell in asked_in(tmp_path, HOUSE, _lines("Bar 1", cell, "1 SR"))


@pytest.mark.parametrize(
    ("position", "cells", "read"),
    [
        ("Bar 1", ("SL end", "CL", "SR end"), [6, 0, -6]),
        ("Bar 1", ("at SL tip", "3 SL", "end SR"), [6, 3, -6]),
        ("North Rail", ("US end", "PL + 2 m", "PL - 3 m", "DS end"), [7, 1, -4, -7]),
        ("North Rail", ("PL", "PL + 2.5 m", "2 US of PL"), [-1, 1.5, 1]),
        ("North Rail", ("P.L.", "2 US of PL"), [-1, 1]),
        ("North Rail", ("y 2.5", "y: -1", "y=4"), [1.5, -2, 3]),
        ("Boom 1", ("top", "2 m"), [5, 2]),
        ("Boom 1", ("top of boom", "2 m"), [5, 2]),
        ("Boom 1", ("4,2 m ü. Boden", "2 m üb. Boden"), [4.2, 2]),
        ("Boom 1", ("z 4", "z=2"), [4, 2]),
    ],
)
def test_a_word_says_the_place(
    tmp_path: Path, position: str, cells: tuple[str, ...], read: list[float]
) -> None:
    assert _read(tmp_path, position, *cells) == read


def test_an_end_from_which_no_distance_is_given_is_asked(tmp_path: Path) -> None:
    assert "from SL end" in asked_in(tmp_path, HOUSE, _lines("Bar 1", "from SL end", "1 SR"))


@pytest.mark.parametrize("cell", ["3·2 SL", "3·2m S.L.", "SL 3·20"])
def test_a_raised_point_is_one(tmp_path: Path, cell: str) -> None:
    assert _read(tmp_path, "Bar 1", cell, "1 SR") == [3.2, -1.0]
