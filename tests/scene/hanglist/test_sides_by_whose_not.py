"""Left and right that a heading or a line says by whose they are not: "opposite of stage L/R", "not stage
left/right"; and from where the desk sees them.

By hand: the audience's left is SR, so 2 L is at -2.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.hanglist.pagelines.titles import said_by
from tests.scene.hanglist.places import HEADINGS, listed, places, read, units
from tests.scene.written import refused

PLACES = units("LX 1", "2 L", "1.5 R")


def _rows(heading: str, *lines: str) -> list[list[str]]:
    heads = [heading if head == "Distance" else head for head in HEADINGS]
    return [*([line] for line in lines), heads, *PLACES]


@pytest.mark.parametrize(
    "heading",
    [
        "Place (L/R opposite of stage L/R)",
        "Place (L/R are opposite to stage left/right)",
        "Place (mirror of stage L/R)",
        "Place, L/R reverse of actor's left/right",
        "Place (left/right are opposite to the performer's)",
        "m from CL (L/R contrary to stage left/right)",
        "Place (L/R opposite SL/SR)",
        "Place (L/R, not stage L/R)",
        "Place (not stage L/R)",
        "Place (house L/R, not stage L/R)",
        "Place (L/R as seen from the desk)",
    ],
)
def test_a_heading_says_that_they_are_the_audiences(tmp_path: Path, heading: str) -> None:
    assert places(read(tmp_path, _rows(heading))) == [-2, 1.5]


@pytest.mark.parametrize(
    "heading",
    [
        "Place (L/R opposite to house L/R)",
        "Place (not house left/right)",
        "Place (stage L/R, not house)",
    ],
)
def test_a_heading_says_that_they_are_the_stages(tmp_path: Path, heading: str) -> None:
    assert places(read(tmp_path, _rows(heading))) == [2, -1.5]


@pytest.mark.parametrize(
    "heading",
    [
        "Place (stage L/R reversed)",
        "Place (L/R mirrored)",
        "Place (L/R not always stage L/R)",
        "Place (L/R seen from the prompt desk)",
    ],
)
def test_nobody_knows_whose_and_it_is_asked(tmp_path: Path, heading: str) -> None:
    assert refused(listed(tmp_path, _rows(heading)))


@pytest.mark.parametrize(
    ("line", "whose"),
    [
        ("L and R are the opposite of stage left and right", "house"),
        ("Left and right are the mirror image of stage left and right", "house"),
        ("All L/R are reverse of the actors' left/right", "house"),
        ("L/R = not stage L/R", "house"),
        ("L/R are never stage L/R", "house"),
        ("Do not confuse with stage left/right: L/R are from the front", "house"),
        ("Left and right as seen from the desk", "house"),
        ("Left and right the other way round from house left and right", "stage"),
        ("L/R are the same as stage L/R, not the opposite", "stage"),
        ("left/right are not opposite to stage left/right", ""),
        ("L/R are not always stage L/R", ""),
        ("Left and right are the wrong way round", ""),
        ("L/R seen from the prompt desk", ""),
        ("Places from CL are not SL/SR", "house"),
        ("All dims are mirror of the actors' left and right", "house"),
        ("Places mirrored SL/SR", "house"),
        ("All mirrored SL/SR", ""),
        ("Focus is mirrored SL/SR", ""),
        ("Gobos reversed SL/SR", ""),
        ("LX 2 is a mirror image SL/SR", ""),
        ("Looks swapped SL/SR in act 2", ""),
        ("Side lights mirrored SL/SR", ""),
        ("Booms are not SL/SR, they are US/DS", ""),
    ],
)
def test_a_line_says_whose_they_are(line: str, whose: str) -> None:
    assert said_by([(1, [line])]).bare == whose


def test_a_line_over_places(tmp_path: Path) -> None:
    rows = _rows("Place", "L/R are opposite to stage left/right")
    assert places(read(tmp_path, rows)) == [-2, 1.5]


def test_a_desk_that_moved_sees_nobody_knows_which(tmp_path: Path) -> None:
    lines = ("L/R as seen from the desk", "NB the desk moved upstage, facing the audience.")
    assert refused(listed(tmp_path, _rows("Place", *lines)))
    assert places(read(tmp_path, _rows("Place", lines[0]))) == [-2, 1.5]
