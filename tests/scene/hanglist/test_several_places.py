"""Several places in one cell of a hang list."""

from __future__ import annotations

import pytest

from aimcalc.scene.hanglist.rows.runs import places_of


@pytest.mark.parametrize(
    ("cell", "places"),
    [
        ("10' and 12' SR", ["10' SR", "12' SR"]),
        ("2 m & 3 m left", ["2 m left", "3 m left"]),
        ("2 m SL & 3 m SR", ["2 m SL", "3 m SR"]),
        ("-2; 3", ["-2", "3"]),
        ("CL & 3 m SR", ["CL", "3 m SR"]),
    ],
)
def test_a_side_behind_the_last_of_several_places_is_that_of_all(
    cell: str, places: list[str]
) -> None:
    assert places_of(cell) == places
