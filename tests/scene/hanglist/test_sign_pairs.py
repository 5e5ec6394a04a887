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


SINGLE_RIGHT = [
    "SR of centre is +",
    "all dims SR of CL are positive",
    "negative numbers indicate stage left",
    "A plus sign means stage right of centre",
    "those with minus signs are stage left of centre",
    "Stage left measurements are negative",
    "SL dims have a minus",
    "minus before a figure = SL",
    "The plus side is SR",
    "+ve going SR",
    "SR+ve",
    "+x is stage right",
    "+ -> SR",
    "+ or - from CL (SR is +)",
    "plus and minus from centre line, plus being SR",
    "we use + for stage right",
    "I've put minus for stage left",
    "+ to the left as seen from the stalls",
]
SINGLE_LEFT = [
    "SL of centre is +",
    "a minus sign means SR",
    "plus side = stage left",
    "negative is left of the centre line as you face the stage",
    "+ is to your left when facing the audience",
    "Negative dims are house left",
]
NOT_KNOWN = [
    "+ = moon",
    "+ = their left",
    "Dock side is plus",
    "window side +",
    "the loading bay is on the positive side",
    "- = the other side",
    "distances left of centre are negative",
    "L + R -",
    "+L / -R",
    "R is negative",
    "SR units are not plus",
]
OF_ELSE = [
    "+ = with barndoors",
    "X = practical, + = non-dim",
    "All profiles plus 2 spares",
    "Rig plan - stage right is prompt",
    "SL tower plus SR tower: 6 lamps",
    "Left + right masking to be hung first",
    "all times +/- 15 min; doors are stage left",
]


@pytest.mark.parametrize("line", SINGLE_RIGHT)
def test_one_sign_and_one_side_in_a_part_of_a_line_are_read(tmp_path: Path, line: str) -> None:
    assert _places(tmp_path, line) == [3.0, 1.0, -2.0]


@pytest.mark.parametrize("line", SINGLE_LEFT)
def test_one_sign_that_makes_plus_left_is_read(tmp_path: Path, line: str) -> None:
    assert _places(tmp_path, line) == [-3.0, -1.0, 2.0]


@pytest.mark.parametrize("line", NOT_KNOWN)
def test_what_a_line_says_of_a_sign_and_nobody_understands_is_asked(
    tmp_path: Path, line: str
) -> None:
    rows = [f"Bar 1;{n};{cell};Spot;Altar" for n, cell in enumerate(("-3", "-1", "2"), 1)]
    assert "place" in asked_in(tmp_path, HOUSE, [line, "", HEAD, *rows])


@pytest.mark.parametrize("line", OF_ELSE)
def test_a_line_on_a_sign_that_is_none_of_places_is_passed_over(tmp_path: Path, line: str) -> None:
    assert _places(tmp_path, line) == [-3.0, -1.0, 2.0]


@pytest.mark.parametrize(
    "line", ["negative is left of the centre line as you face the stage", "SL of centre is +"]
)
def test_a_heading_with_such_a_sign_is_read_alike(tmp_path: Path, line: str) -> None:
    rows = [f"Bar 1;{n};{cell};Spot;Altar" for n, cell in enumerate(("-3", "2"), 1)]
    head = HEAD.replace("Place", f"Place ({line})")
    assert [unit.at for unit in scene_in(tmp_path, HOUSE, [head, *rows]).units] == [-3.0, 2.0]
