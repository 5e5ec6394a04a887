"""Places up or down of the plaster line under a heading that says so, beside sides of the centre line.

By hand: the pipe "side" runs from the line to 6 m upstage of it, so that 2 m up is 1 m DS of its middle.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.hanglist.places import HEADINGS, listed, places, read, units
from tests.scene.written import refused


def _rows(heading: str, *at: str) -> list[list[str]]:
    heads = [heading if head == "Distance" else head for head in HEADINGS]
    return [heads, *units("LX 1", "2 L", "1.5 R"), *units("side", *at)]


@pytest.mark.parametrize(
    "heading",
    [
        "Stage L or R of center / up or down of zero line",
        "Stage L/R of center, up/down of the plaster line",
        "Stage L/R of center, down or up of the curtain line",
        "Stage L/R of CL, upstage or downstage of the plaster line",
    ],
)
def test_both_are_said_by_the_heading(tmp_path: Path, heading: str) -> None:
    scene = read(tmp_path, _rows(heading, "2 m up", "0.5 m down", "1 m US"))
    assert places(scene) == [2, -1.5]
    assert places(scene, "side") == [-1, -3.5, -2]


def test_up_and_down_of_nobody_knows_what_is_asked(tmp_path: Path) -> None:
    assert refused(listed(tmp_path, _rows("Stage L or R of center", "2 m up")))


def test_left_and_right_of_nobody_is_asked(tmp_path: Path) -> None:
    assert refused(listed(tmp_path, _rows("L/R of center, up/down of zero line", "2 m up")))
