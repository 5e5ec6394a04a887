"""A unit of length that a heading or a line says of booms, or of a position, alone: it is theirs, whatever
unit the heading says of the rest.

By hand: 4 ft is 1.2192 m, and 4 cm 0.04 m.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import pytest

from aimcalc.scene.hanglist.columns.boomunits import boom_unit_out
from tests.scene.hanglist.places import HEADINGS, listed, places, read, units
from tests.scene.written import refused

PLACES = [*units("LX 1", "2 SL", "1.5 SR"), *units("boom SR", 4)]


def _read(root: Path, heading: str, *lines: str) -> tuple[list[float], list[float]]:
    heads = [heading if head == "Distance" else head for head in HEADINGS]
    scene = read(root, [*([line] for line in lines), heads, *PLACES])
    return places(scene), places(scene, "boom SR")


@pytest.mark.parametrize(
    "heading",
    [
        "m off centre (booms: ft up)",
        "m off centre (ft up on booms)",
        "m; booms ft up",
        "Metres from CL (booms ft)",
        "m (booms in ft)",
        "Place (booms in ft)",
        "Place m (booms ft)",
        "Dist (m), booms (ft)",
        "m from CL or ft up boom",
        "m off centre (height on booms, ft)",
        "m from centre - booms: feet from floor",
        "Place (m from CL; ft above deck for booms)",
        "Abstand Mitte (m), Boom: ft",
    ],
)
def test_a_heading_says_the_unit_of_booms(tmp_path: Path, heading: str) -> None:
    assert _read(tmp_path, heading) == ([2, -1.5], [1.2192])


def test_a_heading_says_it_in_another_language(tmp_path: Path) -> None:
    assert _read(tmp_path, "m od osi (wieże: cm)") == ([2, -1.5], [0.04])


@pytest.mark.parametrize("heading", ["Place", "Place (m)"])
@pytest.mark.parametrize(
    "line",
    [
        "Booms in ft",
        "Booms are in feet",
        "m; booms ft up",
        "ft up on the booms",
        "Boom heights in feet",
        "All in metres except booms (feet)",
        "Feet on the booms, metres everywhere else",
        "boom SR in ft",
    ],
)
def test_a_line_says_it_beside_the_unit_of_a_heading(
    tmp_path: Path, heading: str, line: str
) -> None:
    assert _read(tmp_path, heading, line) == ([2, -1.5], [1.2192])


@pytest.mark.parametrize("heading", ["Place", "Place (m)"])
@pytest.mark.parametrize("line", ["LX 1 in ft", "LX 1: ft", "LX 1 is in feet, booms in metres"])
def test_a_line_says_the_unit_of_one_pipe(tmp_path: Path, heading: str, line: str) -> None:
    assert _read(tmp_path, heading, line) == ([0.6096, -0.4572], [4])


@pytest.mark.parametrize(
    "line", ["Booms 4 ft apart", "Trim heights in feet", "Boom bases: 2 ft up"]
)
def test_other_lengths_in_a_line_are_no_unit_of_booms(tmp_path: Path, line: str) -> None:
    assert _read(tmp_path, "Place (m)", line) == ([2, -1.5], [4])


@pytest.mark.parametrize("heading", ["m off centre (booms: up)", "m off centre (booms: m up)"])
def test_booms_in_the_unit_of_all(tmp_path: Path, heading: str) -> None:
    assert _read(tmp_path, heading) == ([2, -1.5], [4])


@pytest.mark.parametrize("heading", ["m (LX 7 in ft)", "m/ft"])
def test_two_units_of_nobody_knows_what_are_asked(tmp_path: Path, heading: str) -> None:
    heads = [heading if head == "Distance" else head for head in HEADINGS]
    mistakes = refused(listed(tmp_path, [heads, *PLACES]))
    assert "one unit of length" in mistakes[0].text()


def test_a_heading_and_a_line_that_do_not_agree_of_booms(tmp_path: Path) -> None:
    heads = ["m off centre (booms: ft up)" if head == "Distance" else head for head in HEADINGS]
    mistakes = refused(listed(tmp_path, [["Booms in cm"], heads, *PLACES]))
    assert "one unit of length" in mistakes[0].text()


@pytest.mark.parametrize("words", ["boom height in m", "ft up the mast; trim in m", "4 ft boom, m"])
def test_words_without_two_units_stay(words: str) -> None:
    assert boom_unit_out(words).rest in (words, "boom height ")


TWO = [("all in feet", "metres"), ("All dims in feet", "places: metres from centre")]


@pytest.mark.parametrize("lines", TWO)
def test_two_lines_that_say_two_units_of_all_are_asked(
    tmp_path: Path, lines: tuple[str, str]
) -> None:
    """A unit beside each place, or over them, settles it."""
    assert _read(tmp_path, "Place (m)", *lines) == ([2, -1.5], [4])
    mistakes = refused(listed(tmp_path, [*([line] for line in lines), HEADINGS, *PLACES]))
    assert all("one unit of length" in mistake.text() for mistake in mistakes)


@pytest.mark.parametrize(
    "lines",
    [
        ("Metres throughout", "Booms in cm"),
        ("all in metres", "trims in feet", "boom SR in cm"),
        ("Bars in metres", "Booms: cm from floor"),
    ],
)
def test_two_lines_of_their_own_positions_are_not(tmp_path: Path, lines: Sequence[str]) -> None:
    assert _read(tmp_path, "Place", *lines) == ([2, -1.5], [0.04])
