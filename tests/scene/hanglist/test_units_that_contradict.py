"""A heading that says one unit of places and a line that says another of all places: somebody is asked, and
not where the line is of other things.

By hand: 2 cm is 0.02 m.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.hanglist.places import HEADINGS, listed, places, read, units
from tests.scene.written import refused

PLACES = units("LX 1", "2 SL", "1.5 SR")


def _rows(heading: str, line: str, cells: list[list[str]] = PLACES) -> list[list[str]]:
    return [[line], [heading if head == "Distance" else head for head in HEADINGS], *cells]


@pytest.mark.parametrize("heading", ["Place (m)", "m from CL", "Dist. from CL (m)"])
@pytest.mark.parametrize(
    "line",
    [
        "Dims in feet",
        "All in feet",
        "All dimensions are in feet and inches",
        "Distances in cm from the centre line",
        "feet from centre",
        "All dims in feet (set out from CL)",
        "Units: feet",
        "in feet",
        "Distances in feet, heights in m",
    ],
)
def test_they_contradict_each_other(tmp_path: Path, heading: str, line: str) -> None:
    mistakes = refused(listed(tmp_path, _rows(heading, line)))
    assert all("one unit of length" in mistake.text() for mistake in mistakes)
    assert all(line in mistake.text() for mistake in mistakes)
    assert all("Take one of the two out." in mistake.text() for mistake in mistakes)


@pytest.mark.parametrize(
    "line",
    [
        "Dims in metres",
        "Trims in feet",
        "All trims in feet",
        "Heights in feet",
        "House dimensions in feet",
        "All gel frames in inches",
        "Trim 20 ft",
        "Stage dimensions in feet",
        "Set dims in feet",
        "Dims of the set in feet",
        "Masking dims are in feet",
        "Dims in feet unless noted",
        "Converted from the plan, where dims are in feet",
    ],
)
def test_the_line_is_of_other_things(tmp_path: Path, line: str) -> None:
    assert places(read(tmp_path, _rows("Place (m)", line))) == [2, -1.5]


def test_a_unit_beside_the_place_settles_it(tmp_path: Path) -> None:
    rows = _rows("Place (m)", "Dims in feet", units("LX 1", "2 m SL", "150 cm SR"))
    assert places(read(tmp_path, rows)) == [2, -1.5]


def test_a_line_without_a_unit_over_the_places(tmp_path: Path) -> None:
    assert places(read(tmp_path, _rows("Place", "Dims in cm"))) == [0.02, -0.015]
