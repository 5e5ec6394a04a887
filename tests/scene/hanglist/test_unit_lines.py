"""Units of length that a line beside the table says without "in"."""

from __future__ import annotations

import pytest

from aimcalc.scene.hanglist.pagelines.titles import said_by


@pytest.mark.parametrize(
    ("line", "unit"),
    [
        ("h = height of hook from the dance floor, meters", "m"),
        ("all offsets mm from CL", "mm"),
        ("distances cm off the centre line", "cm"),
        ("places as hung, feet, from the centre", "ft"),
        ("offsets as on the plan, from CL", ""),
        ("the offset sheets in the office, ins and outs of it", ""),
    ],
)
def test_a_line_says_the_unit_of_places(line: str, unit: str) -> None:
    assert said_by([(1, [line])]).unit == unit
