"""Two signs and two sides in a line, without more words: which sign is which side.

By hand: a figure of -3 under "(-) stage left (+) stage right" is 3 m to stage left, which is x = +3.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.hanglist.pagelines.signpairs import signs_plain
from tests.scene.hanglist.listed import ALTAR, BAR_AND_RAIL, HALL, asked_in, scene_in

HOUSE = HALL + BAR_AND_RAIL + ALTAR
HEAD = "Position;No;Place;Lamp;Focus"
PLUS_RIGHT = [
    "(-) stage left (+) stage right",
    "(+) stage right (-) stage left",
    "metres off centre: (-) SL   (+) SR",
    "SL (-)  SR (+)",
    "SR + / SL -",
    "- is stage left + is stage right",
    "minus SL plus SR",
    "OP +ve PS -ve",
    "(-ve) SL (+ve) SR",
    "metres from centre (-) house right (+) house left",
    "Metros desde el eje:  (-) izquierda del actor   (+) derecha del actor",
    "mètres de l'axe : (-) cour (+) jardin",
    "cour (-) jardin (+)",
]
PLUS_LEFT = [
    "(-) stage right (+) stage left",
    "SR (-)  SL (+)",
    "Metros desde el eje:  (-) derecha del actor   (+) izquierda del actor",
    "Meter ab Mitte: (-) rechts vom Darsteller (+) links vom Darsteller",
    "jardin (-) cour (+)",
]


def _places(root: Path, line: str) -> list[float]:
    rows = [f"Bar 1;{n};{cell};Spot;Altar" for n, cell in enumerate(("-3", "-1", "2"), 1)]
    return [float(unit.at or 0) for unit in scene_in(root, HOUSE, [line, "", HEAD, *rows]).units]


@pytest.mark.parametrize("line", PLUS_RIGHT)
def test_plus_is_right_where_two_signs_say_so(tmp_path: Path, line: str) -> None:
    assert _places(tmp_path, line) == [3.0, 1.0, -2.0]


@pytest.mark.parametrize("line", PLUS_LEFT)
def test_plus_is_left_where_two_signs_say_so(tmp_path: Path, line: str) -> None:
    assert _places(tmp_path, line) == [-3.0, -1.0, 2.0]


def test_signs_that_contradict_each_other_are_left_alone() -> None:
    for line in ("+ sl + sr", "+ sl - sl", "+ - sl sr", "sl - sr", "+ sl, us. - sr, ds"):
        assert signs_plain(line) == line


def test_left_and_right_of_nobody_beside_two_signs_are_asked_about(tmp_path: Path) -> None:
    rows = [f"Bar 1;{n};{cell};Spot;Altar" for n, cell in enumerate(("-3", "2"), 1)]
    assert "+ = right" in asked_in(tmp_path, HOUSE, ["(-) left (+) right", "", HEAD, *rows])
