"""Lines by which the writer of a list doubts its places: these are asked about, whatever they are."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.hanglist.listed import asked_of, places_of

ROWS = "Bar;Unit;Distance;Type;Focus\nLX 1;1;2 m SL;spot;A\nLX 1;2;1 m SR;spot;Door\n"


@pytest.mark.parametrize(
    "line",
    [
        "L and R may be either. Ask before you hang!",
        "I can't remember which end this was measured from",
        "measured some from the SL end, the rest from centre",
        "Sides: not sure which",
    ],
)
def test_places_that_their_writer_doubts_are_asked_about(tmp_path: Path, line: str) -> None:
    asked = asked_of(tmp_path, f"{ROWS};;;;\n{line};;;;\n")
    assert "places that whoever wrote them is sure of" in asked


@pytest.mark.parametrize("line", ["Ask the chief about gels", "The door may be either colour"])
def test_a_doubt_about_something_else_leaves_the_places(tmp_path: Path, line: str) -> None:
    assert places_of(tmp_path, f"{ROWS};;;;\n{line};;;;\n") == [2.0, -1.0]
