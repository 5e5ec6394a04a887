"""Places as people write them: feet and inches, metres, heights on booms."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.hanglist.places.along import Along
from aimcalc.scene.hanglist.places.placewords import read_place
from aimcalc.scene.mistakes import Wrong
from tests.scene.hanglist.listed import asked_of, places_of

ACROSS = Along("ft", "x", True, span=(-6.0, 6.0))
UP = Along("m")


@pytest.mark.parametrize(
    "cell",
    [
        "8 ft and 9 in SL",
        "8 ft & 9 ins SL",
        "8 feet, 9 inches SL",
        "8f 9i SL",
        "8f9 SL",
        "8 ft. 9 SL",
        "105 ins SL",
        "SL + 8'9\"",
        "SL+8-9",
    ],
)
def test_feet_and_inches(cell: str) -> None:
    assert read_place(cell, ACROSS).metres == pytest.approx(105 * 0.0254)


@pytest.mark.parametrize(
    ("cell", "metres"),
    [
        ("a foot SL", 0.3048),
        ("an inch SR", -0.0254),
        ("half a foot SL", 0.1524),
        ("bang on centre", 0),
        ("stage centre", 0),
        ("Center Stage", 0),
        ("on centre of the stage", 0),
    ],
)
def test_sizes_in_words(cell: str, metres: float) -> None:
    assert read_place(cell, ACROSS).metres == pytest.approx(metres)


@pytest.mark.parametrize("cell", ["SL - 8'9\" SR", "SL-+8", "8f 14 SL", "8/9 SL", "12/6 SR"])
def test_what_may_be_two_places_is_asked(cell: str) -> None:
    with pytest.raises(Wrong):
        read_place(cell, ACROSS)


@pytest.mark.parametrize("cell", ["2.1 m AFD", "elev 2.1", "2.1 m elev.", "elevation: 2.1 m"])
def test_heights(cell: str) -> None:
    assert read_place(cell, UP).metres == 2.1


def test_feet_and_inches_without_their_mark_in_a_free_line(tmp_path: Path) -> None:
    lines = "boom SR (feet above the floor)\n"
    lines += "  No. 1   8 ft.    spot   focus A\n  No. 2   6 ft. 9   spot   focus A\n"
    assert places_of(tmp_path, lines, "hang.txt") == [2.4384, 2.0574]


LINES = {
    "LX 1 (metres from centre)\n#1  4     spot  focus A\n#2  2.5   spot  focus A\n": [4.0, 2.5],
    "boom SR (metres up)\n#1  3     spot  focus A\n#2  1.5   spot  focus A\n": [3.0, 1.5],
    "boom SR (feet up)\n#1  10    spot  focus A\n#2  6     spot  focus A\n": [3.048, 1.8288],
    "Distances are metres from centre.\nLX 1\n1.  3.0 SR  spot  focus A\n2.  0.0  spot  focus A\n": [
        -3.0,
        0.0,
    ],
}


@pytest.mark.parametrize("text", LINES)
def test_a_figure_alone_in_a_free_line_is_a_place_where_a_line_says_of_what(
    tmp_path: Path, text: str
) -> None:
    assert places_of(tmp_path, text, "hang.txt") == pytest.approx(LINES[text])


@pytest.mark.parametrize(
    "text",
    [
        "LX 1\n#1  4    spot  focus A\n#2  2.5   spot  focus A\n",  # nobody says of what
        "LX 1 (metres from centre)\n#1  4    spot  focus A  12\n#2  2   spot  focus A  13\n",
        "Distances are metres from centre.\nLX 1\n1.  3.0 SR  spot  focus A\n2.  spot  focus A  4\n",
    ],
)
def test_a_figure_of_which_nobody_says_what_it_is_is_asked_about(tmp_path: Path, text: str) -> None:
    assert asked_of(tmp_path, text, "hang.txt")
