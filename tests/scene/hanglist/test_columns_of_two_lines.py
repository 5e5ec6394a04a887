"""Places from the centre line in one column, and from the plaster line in another: on pipes across the stage
the one, on rails up and down it the other.

By hand: the rail runs from y = -6 to 8, its zero in the middle at y = 1, so that 1.25 m US of the line is
0.25 and 1.25 m DS of it -2.25.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.hanglist.listed import ALTAR, BAR_AND_RAIL, HALL, asked_in, scene_in

HOUSE = HALL + BAR_AND_RAIL + ALTAR
ROWS = ["Bar 1;1;2;;Spot;Altar", "Bar 1;2;-3;;Spot;Altar", "North Rail;1;;1.25;Spot;Altar"]


def _lines(across: str, along: str) -> list[str]:
    return [f"Position;No;{across};{along};Lamp;Focus", *ROWS]


@pytest.mark.parametrize(
    ("across", "along", "places"),
    [
        ("m from CL (SL +)", "m upstage of zero", [2, -3, 0.25]),
        ("Metres from CL (SL +)", "Metres upstage of plaster line", [2, -3, 0.25]),
        ("m from CL (+ = SR)", "m downstage of plaster line", [-2, 3, -2.25]),
        ("m from CL (SL +)", "m DS of PL", [2, -3, -2.25]),
    ],
)
def test_each_position_has_its_column(
    tmp_path: Path, across: str, along: str, places: list[float]
) -> None:
    scene = scene_in(tmp_path, HOUSE, _lines(across, along))
    assert [unit.at for unit in scene.units] == places


def test_a_minus_is_the_other_way(tmp_path: Path) -> None:
    lines = _lines("m from CL (SL +)", "m upstage of zero")
    scene = scene_in(tmp_path, HOUSE, [*lines[:3], lines[3].replace("1.25", "-1.25")])
    assert scene.units[2].at == -2.25


def test_the_column_of_the_others_is_asked(tmp_path: Path) -> None:
    lines = _lines("m from CL (SL +)", "m upstage of zero")
    rail = "North Rail;1;1.25;;Spot;Altar"
    assert "end or side SL" in asked_in(tmp_path, HOUSE, [*lines[:3], rail, lines[3]])
    bar = "Bar 1;2;;3;Spot;Altar"
    assert "SL or SR" in asked_in(tmp_path, HOUSE, [*lines[:2], bar, lines[3]])


def test_a_row_with_both_is_asked(tmp_path: Path) -> None:
    lines = _lines("m from CL (SL +)", "m upstage of zero")
    both = lines[1].replace(";;Spot", ";1;Spot")
    assert "one column that holds the at" in asked_in(tmp_path, HOUSE, [lines[0], both, *lines[2:]])
