"""A sign whose side a heading or a line names after a point of the compass, or after what stands there."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.mistakes import SceneError
from tests.scene.hanglist.listed import scene_in

# One boom and one target to each side; east is stage left or right, or no name tells where it is.
HOUSE = """[scene]
title = "Hall"
hang = "list.csv"
unit = "m"
[stage]
outline = [[-9, -3], [9, -3], [9, 12], [-9, 12]]
[[pipe]]
name = "LX1"
trim = 6
y = 3
from = -8
to = 8
[[boom]]
name = "{left}"
x = 7
y = 2
height = 5
[[boom]]
name = "{right}"
x = -7
y = 2
height = 5
[[target]]
name = "{pulpit}"
x = 3
y = 4
[[target]]
name = "{font}"
x = -3
y = 4
[[kind]]
name = "Spot"
family = "ers"
field = 30
drop_under = 0.5
"""
EAST = {"left": "Tower East", "right": "Tower West", "pulpit": "Pulpit", "font": "Font"}
TORRES = {**EAST, "left": "Torre Norte", "right": "Torre Sur"}
NEITHER = {**EAST, "left": "Boom 1", "right": "Boom 2"}


def _places(root: Path, names: dict[str, str], heading: str, line: str = "") -> list[float]:
    house = HOUSE.format(**names)
    rows = [f"LX1;1;3;Spot;{names['font']};1", f"LX1;2;-2;Spot;{names['pulpit']};2"]
    rows = [f"Position;No;{heading};Type;Focus;Ch", *rows]
    scene = scene_in(root, house, [line, "", *rows] if line else rows)
    return [float(unit.at or 0) for unit in scene.units]


SAYS = [
    ("Position (m, + = east)", EAST, 1),
    ("Position (m, + = west)", EAST, -1),
    ("Dist (m, + to the east)", EAST, 1),
    ("m from CL, W is plus", EAST, -1),
    ("m from CL (W+ / E-)", EAST, -1),
    ("m from centre, - = east", EAST, -1),
    ("m from centre, minus is west", EAST, 1),
    ("Offset m (+E)", EAST, 1),
    ("Maß ab Mitte (m, + = Ost)", EAST, 1),
    ("Maß ab Mitte (m, + Richtung Westen)", EAST, -1),
    ("cote m depuis l'axe (+ vers l'est)", EAST, 1),
    ("m dal centro (+ Ovest, - Est)", EAST, -1),
    ("Dist. m (+ = Tower West)", EAST, -1),
    ("Dist. m (+ towards tower east)", EAST, 1),
    ("Dist. m (+ = pulpit)", EAST, 1),
    ("Dist. m (+ towards the font)", EAST, -1),
    ("Dist. m (plus is the pulpit side)", EAST, 1),
    ("Dist. m (font side is minus)", EAST, 1),
    ("X en metros (+ hacia Torre Norte)", TORRES, 1),
    ("X en metros (+ hacia Torre Sur)", TORRES, -1),
    ("m dal centro (+ Nord, - Sud)", TORRES, 1),
    ("m dal centro (+ Sud, - Nord)", TORRES, -1),
    ("X (m, + = al sur)", TORRES, -1),
]


@pytest.mark.parametrize(("heading", "names", "plus"), SAYS)
def test_a_sign_of_a_heading_is_the_side_of_what_stands_there(
    tmp_path: Path, heading: str, names: dict[str, str], plus: int
) -> None:
    assert _places(tmp_path, names, heading) == [3 * plus, -2 * plus]


@pytest.mark.parametrize(
    ("line", "names", "plus"),
    [
        ("Places in metres, + = west", EAST, -1),
        ("Plus is towards the east wall", EAST, 1),
        ("positive figures go to the font side", EAST, -1),
        ("Positive = Tower West", EAST, -1),
        ("Maße in m, plus = Westseite", EAST, -1),
        ("+ hacia Torre Sur", TORRES, -1),
    ],
)
def test_a_sign_of_a_line_is_the_side_of_what_stands_there(
    tmp_path: Path, line: str, names: dict[str, str], plus: int
) -> None:
    assert _places(tmp_path, names, "Place", line) == [3 * plus, -2 * plus]


@pytest.mark.parametrize(
    "heading", ["Dist (m, + = east)", "Dist (m, + = the window)", "X en metros (+ hacia el sur)"]
)
def test_a_sign_whose_side_no_name_tells_is_asked(tmp_path: Path, heading: str) -> None:
    with pytest.raises(SceneError, match="SL"):
        _places(tmp_path, NEITHER, heading)


@pytest.mark.parametrize(
    ("line", "plus"),
    [
        ("x in m ab Mitte, Plus = links aus Sicht der Darsteller", 1),
        ("x in m ab Mitte, Plus = rechts aus Sicht der Darsteller", -1),
        ("m from centre, + = left as the actors see it", 1),
        ("mètres depuis l'axe, + = droite du comédien", -1),
    ],
)
@pytest.mark.parametrize("words", [("links", "rechts"), ("left", "right"), ("gauche", "droite")])
def test_left_and_right_beside_a_sign_are_those_of_whom_the_line_names_and_no_tower(
    tmp_path: Path, line: str, plus: int, words: tuple[str, str]
) -> None:
    """The house calls the towers as they are seen from the seats."""
    left, right = words
    names = {**EAST, "left": f"Tower {right}", "right": f"Tower {left}"}
    assert _places(tmp_path, names, "Place", line) == [3 * plus, -2 * plus]


@pytest.mark.parametrize(
    "heading", ["Dist (m, + = street)", "Offset, positive to the kitchen", "Offset +=W"]
)
def test_a_sign_that_is_not_understood_is_asked_without_a_minus(
    tmp_path: Path, heading: str
) -> None:
    house = HOUSE.format(**NEITHER)
    rows = [f"LX1;{n};{at};Spot;{NEITHER['pulpit']};{n}" for n, at in ((1, "3"), (2, "0.5"))]
    with pytest.raises(SceneError, match="not understood"):
        scene_in(tmp_path, house, [f"Position;No;{heading};Type;Focus;Ch", *rows])


@pytest.mark.parametrize(
    "line", ["+ = east", "plus is east", "minus is the river side", "Plus is towards the river"]
)
def test_a_sign_of_a_line_whose_side_no_name_tells_is_asked(tmp_path: Path, line: str) -> None:
    with pytest.raises(SceneError, match="SL"):
        _places(tmp_path, NEITHER, "Place", line)


@pytest.mark.parametrize(
    ("line", "plus"),
    [
        ("All dims from centre, + towards Side B", -1),
        ("Figures with a minus are on the Boom 1 side", -1),
        ("+ means Side B side of the stage", -1),
        ("plus = Side B", -1),
    ],
)
def test_a_position_whose_name_begins_with_a_side_is_a_side_of_a_sign(
    tmp_path: Path, line: str, plus: int
) -> None:
    names = {**EAST, "left": "Boom 1", "right": "Side B"}
    assert _places(tmp_path, names, "Place", line) == [3 * plus, -2 * plus]


@pytest.mark.parametrize(
    ("line", "read"),
    [("FOH: + = SL, - = SR", True), ("FOH: + = SR, - = SL", False), ("FOH: + = moon", False)],
)
def test_a_sign_told_of_other_positions_is_what_it_is_without_a_word(
    tmp_path: Path, line: str, read: bool
) -> None:
    """LX1 hangs beside a bar over the house of which a line says what plus is."""
    pipe = '[[pipe]]\nname = "FOH"\ntrim = 6\ny = -3\nfrom = -8\nto = 8\n'
    house = HOUSE.format(**NEITHER) + pipe
    rows = ["LX1;1;3;Spot;Pulpit;1", "LX1;2;-2;Spot;Font;2", "FOH;1;1;Spot;Pulpit;3"]
    table = [line, "", "Position;No;Place;Type;Focus;Ch", *rows]
    if not read:
        with pytest.raises(SceneError, match="SR"):
            scene_in(tmp_path, house, table)
        return
    assert [unit.at for unit in scene_in(tmp_path, house, table).units] == [3, -2, 1]
