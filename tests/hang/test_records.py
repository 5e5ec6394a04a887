"""Habits that mean nothing are refused by name."""

import math

import pytest

from aimcalc.hang.records import HangOptions


@pytest.mark.parametrize("name", ["allowance", "focus_extra", "tie_at", "cable_extra", "spare"])
@pytest.mark.parametrize("value", [-0.1, math.nan, math.inf])
def test_a_habit_below_nothing_or_without_end_is_refused(name, value):
    with pytest.raises(ValueError, match=f"{name}: expected a number from 0 upwards"):
        HangOptions(**{name: value})


@pytest.mark.parametrize("value", [0.0, -1.0, 0.001, math.nan, math.inf])
def test_ties_need_room_between_them(value):
    with pytest.raises(ValueError, match=r"tie_spacing: expected 0.05 m or more"):
        HangOptions(tie_spacing=value)


def test_an_unknown_conductor_is_refused_with_the_known_ones():
    with pytest.raises(ValueError, match=r"conductor: expected one of 14 AWG, .* got '13 AWG'"):
        HangOptions(conductor="13 AWG")
    assert HangOptions(conductor="10 AWG").conductor == "10 AWG"
