"""Lines that say whose left and right is meant of two at once, of more than one, or of some places only; and
lists that say how far from the centre line and never to which side.

Readings by hand: LX 1 runs from 5 m SR to 5 m SL, so that 2 m left of the centre line is +2 m as the stage
sees it, and -2 m as the house does.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.hanglist.pagelines.titles import said_by
from tests.scene.hanglist.listed import asked_of, places_of

HEAD = "Bar;Unit;Distance;Type;Focus"


def _said(line: str) -> str:
    return said_by([(1, [line])]).bare


@pytest.mark.parametrize(
    ("line", "whose"),
    [
        ("dist is feet from center and L R = stage left and right", "stage"),
        ("L R = SL SR", "stage"),
        ("L-R = stage left and right", "stage"),
        ('"L" and "R" = stage left and stage right', "stage"),
        ("L + R = SL + SR", "stage"),
        ('"Left" and "right" are the ACTOR\'S left and right.', "stage"),
        ("L R = audience's left and right", "house"),
        ("L, R = house left, house right", "house"),
        ("R / L = SL / SR", "house"),
        ("left = stage right, right = stage left", "house"),
    ],
)
def test_left_and_right_that_are_explained_together(line: str, whose: str) -> None:
    assert _said(line) == whose


@pytest.mark.parametrize(
    ("line", "places", "aims"),
    [
        (
            "Left and right are as you SIT in the audience. Shine on: actors' left and right.",
            "house",
            "stage",
        ),
        ("Distances: L/R as the audience. Focus names: stage left and right.", "house", "stage"),
        (
            "Targets have stage left and right, but the distances L/R are from the house.",
            "house",
            "stage",
        ),
        ("Left and right as you sit in the audience. Shine on: who acts there.", "house", ""),
    ],
)
def test_places_and_targets_have_each_their_left_and_right(
    line: str, places: str, aims: str
) -> None:
    said = said_by([(1, [line])])
    assert (said.bare, said.aims) == (places, aims)


@pytest.mark.parametrize(
    "line",
    [
        "NB left/right: some of these I read off the stage and some off my seat in row F.",
        "L/R: some are stage, some house",
        "left and right are mixed, from the stage and from the seats",
        "I am not sure whether L and R are stage or house",
        "L&R partly stage left, partly house left",
        "L/R: stage or house left? ask Ben",
    ],
)
def test_sides_that_nobody_can_tell_apart_are_asked(tmp_path: Path, line: str) -> None:
    text = f"{line}\n{HEAD}\nLX 1;1;2 m L;spot;A\nLX 1;2;2 m R;spot;A\n"
    assert "SL or SR" in asked_of(tmp_path, text)


@pytest.mark.parametrize(
    "line",
    [
        "some lamps are on the left boom. L = stage left",
        "L = stage left. Some places are rounded, others exact.",
        "L and R = stage left and right",
    ],
)
def test_what_is_said_of_something_else_leaves_no_doubt(tmp_path: Path, line: str) -> None:
    text = f"{line}\n{HEAD}\nLX 1;1;2 m L;spot;A\nLX 1;2;2 m R;spot;A\n"
    assert places_of(tmp_path, text) == [2.0, -2.0]


@pytest.mark.parametrize(
    ("line", "unit"),
    [
        ("(all in feet)", "ft"),
        ("(in decimal feet)", "ft"),
        ("(all in inches)", "in"),
        ("[everything in metres]", "m"),
        ("Dims (in) from centre", "in"),
    ],
)
def test_in_before_a_unit_is_no_inch(line: str, unit: str) -> None:
    assert said_by([(1, [line])]).unit == unit


AWAY = "LX 1;1;2;spot;A\nLX 1;2;1;spot;A\nLX 1;3;3;spot;A\nLX 2;1;4;spot;A\n"


@pytest.mark.parametrize(
    "line", ["distance = from center line", "all distances are off centre", "metres from CL"]
)
def test_how_far_and_never_which_way_is_asked(tmp_path: Path, line: str) -> None:
    assert "a line of the list says how far" in asked_of(tmp_path, f"{line}\n{HEAD}\n{AWAY}")


@pytest.mark.parametrize(
    ("line", "at"),
    [
        ("metres from centre, + = SL", [2.0, 1.0, 3.0, 4.0]),
        ("metres from centre; no side = SL", [2.0, 1.0, 3.0, 4.0]),
        ("metres from centre; unmarked is SR", [-2.0, -1.0, -3.0, -4.0]),
    ],
)
def test_a_line_that_says_which_way(tmp_path: Path, line: str, at: list[float]) -> None:
    assert places_of(tmp_path, f"{line}\n{HEAD}\n{AWAY}") == at


@pytest.mark.parametrize("none", ["-", "–", "n/a", "x", "none", "C", "CL", ""])
def test_no_side_beside_nought(tmp_path: Path, none: str) -> None:
    head = "Bar;Unit;Feet;Inches;Side;Type;Focus"
    text = f"{head}\nLX 1;1;3;0;SL;spot;A\nLX 1;2;0;0;{none};spot;A\n"
    assert places_of(tmp_path, text) == pytest.approx([0.9144, 0.0])


def test_no_side_beside_a_length_is_asked(tmp_path: Path) -> None:
    text = "Bar;Unit;Distance;Side;Type;Focus\nLX 1;1;3;SL;spot;A\nLX 1;2;2;-;spot;A\n"
    assert "2 -" in asked_of(tmp_path, text)
