"""A unit of length that a heading or a line says of positions by their names, "LX 1 m, LX 2 ft", or of
heights alone: it is theirs, and no measure, nor the unit of the rest.

By hand: 2 ft is 0.6096 m, 4 ft 1.2192 m, 4 cm 0.04 m.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.loading import load_scene
from tests.scene.hanglist.places import HEADINGS, listed, places, told, units
from tests.scene.written import refused

SECOND = '\n[[pipe]]\nname = "LX 2"\ntrim = 6\ny = 4\nfrom = -5\nto = 5\n'
PLACES = [*units("LX 1", "2 SL"), *units("LX 2", "2 SL"), *units("boom SR", 4)]


def _listed(root: Path, heading: str, *lines: str) -> str:
    heads = [heading if head == "Distance" else head for head in HEADINGS]
    path = listed(root, [*([line] for line in lines), heads, *PLACES])
    scene = root / "scene.toml"
    scene.write_text(scene.read_text(encoding="utf-8") + SECOND, encoding="utf-8")
    return path


def _read(root: Path, heading: str, *lines: str) -> list[float]:
    scene = load_scene(_listed(root, heading, *lines))
    return [at for name in ("LX 1", "LX 2", "boom SR") for at in places(scene, name)]


@pytest.mark.parametrize(
    "heading",
    [
        "Place (m, LX 2 ft)",
        "Place (LX 1: m, LX 2: ft)",
        "Place (LX 2 in ft)",
        "m (LX 2 ft)",
        "Place (LX 2 ft, rest m)",
        "Place: LX 1 m, LX 2 ft",
        "Place (LX 1 m and LX 2 ft)",
        "m on LX 1, ft on LX 2",
        "Dist (LX1 m / LX2 ft)",
    ],
)
def test_a_heading_says_the_unit_of_a_pipe(tmp_path: Path, heading: str) -> None:
    assert _read(tmp_path, heading) == [2, 0.6096, 4]


def test_a_heading_says_that_of_booms_too(tmp_path: Path) -> None:
    assert _read(tmp_path, "Place (LX 1 m, LX 2 ft, booms ft)") == [2, 0.6096, 1.2192]


@pytest.mark.parametrize("line", ["LX 1 m, LX 2 ft", "LX 2 ft", "All in m; LX 2 ft"])
def test_a_line_says_it(tmp_path: Path, line: str) -> None:
    assert _read(tmp_path, "Place", line) == [2, 0.6096, 4]


@pytest.mark.parametrize("line", ["LX 2 ft apart", "LX 1 6 m", "LX 2 trim 6 ft"])
def test_a_measure_is_no_unit_of_a_pipe(tmp_path: Path, line: str) -> None:
    assert _read(tmp_path, "Place", line) == [2, 2, 4]


@pytest.mark.parametrize("heading", ["Place", "Place (m)"])
@pytest.mark.parametrize(
    "line",
    [
        "LX 1: overall length in feet",
        "LX 2: drops in feet; LX 1: masking in feet",
        "LX 1: border heights in feet",
        "LX 1 heights in feet",
    ],
)
def test_the_unit_of_another_measure_of_a_pipe(tmp_path: Path, heading: str, line: str) -> None:
    assert _read(tmp_path, heading, line) == [2, 2, 4]


@pytest.mark.parametrize("line", ["LX 1: dims in feet", "LX 1 in feet", "LX 1: taped in feet"])
def test_a_line_of_places_is_no_other_measure_and_is_told(tmp_path: Path, line: str) -> None:
    scene = load_scene(_listed(tmp_path, "Place (m)", line))
    assert places(scene) == [0.6096]
    assert told(scene, "row 1 says how places are read", line)
    assert not told(scene, "passed over")


def test_a_unit_of_nobody_knows_what_is_asked(tmp_path: Path) -> None:
    mistakes = refused(_listed(tmp_path, "Place (m)", "LX 1: sightline in feet"))
    assert "one unit of length" in mistakes[0].text()
    assert "LX 1" in mistakes[0].text()


def test_a_heading_and_a_line_that_do_not_agree(tmp_path: Path) -> None:
    mistakes = refused(_listed(tmp_path, "Place (m, LX 2 ft)", "LX 2 in cm"))
    assert "one unit of length" in mistakes[0].text()


def test_a_heading_that_says_two_of_one(tmp_path: Path) -> None:
    mistakes = refused(_listed(tmp_path, "Place (LX 2 ft, LX 2 m)"))
    assert "one unit of length" in mistakes[0].text()


@pytest.mark.parametrize("heading", ["Place", "Place (m)"])
@pytest.mark.parametrize(
    "line",
    [
        "Heights in feet",
        "Heights: ft",
        "All heights in feet",
        "Heights above the deck (ft)",
        "Hts in ft",
        "Feet for heights",
        "Heights in feet and inches",
    ],
)
def test_heights_alone_are_those_of_booms(tmp_path: Path, heading: str, line: str) -> None:
    assert _read(tmp_path, heading, line) == [2, 2, 1.2192]


@pytest.mark.parametrize(
    "line", ["dims and heights in ft", "Heights and dims in ft", "Distances/heights in feet"]
)
def test_heights_and_the_rest_are_all(tmp_path: Path, line: str) -> None:
    assert _read(tmp_path, "Place", line) == [0.6096, 0.6096, 1.2192]


@pytest.mark.parametrize(
    ("line", "at"),
    [
        ("Offsets cm, heights m", [0.02, 0.02, 4]),
        ("Distances in feet, heights in m", [0.6096, 0.6096, 4]),
        ("Trim heights in feet", [2, 2, 4]),
        ("Pipe heights in feet", [2, 2, 4]),
        ("Grid heights: ft", [2, 2, 4]),
        ("LX heights in feet", [2, 2, 4]),
        ("Pipe heights in metres, heights in feet", [2, 2, 1.2192]),
        ("Pipe and boom heights in feet", [2, 2, 1.2192]),
        ("Tower heights in feet", [2, 2, 1.2192]),
    ],
)
def test_heights_beside_the_rest(tmp_path: Path, line: str, at: list[float]) -> None:
    assert _read(tmp_path, "Place", line) == at
