"""Light, areas, channels and new aims in words."""

from __future__ import annotations

from math import radians

import pytest

from aimcalc.text.light import cover_lists as lw
from tests.lit import a_rig, a_unit


def test_areas_are_square_metres_or_square_feet():
    assert lw.area(1.0, "m") == "1.00 m2"
    assert lw.area(1.0, "ft") == "10.8 ft2"  # 1 / 0.3048^2 = 10.7639


@pytest.mark.parametrize(
    ("value", "text"), [(836.4, "836 lx"), (9.96, "10.0 lx"), (0.2, "0.2 lx"), (1e-16, "0 lx")]
)
def test_lux_keeps_a_figure_that_means_something(value, text):
    assert lw.lux(value) == text


def test_channels_go_by_number_and_units_without_one_by_name():
    units = [a_unit(1, 1.0, channel="10"), a_unit(2, 0.5, channel="9"), a_unit(3, 0.0)]
    rig = a_rig(units)
    assert lw.channels(rig, [0, 1, 2]) == "ch 9, 10, p/3"
    assert lw.channels(rig, [2]) == "p/3"
    assert lw.named(rig, 0) == "p/1 (ch 10)"
    assert lw.named(rig, 2) == "p/3"


def test_a_new_aim_is_a_place_a_heading_and_a_tip():
    text = lw.new_aim(-1.0, 2.0, radians(20), radians(30), "m")
    assert text == "1.00 m SR, 2.00 m US (20° SL of US, DOWN 30°)"
    assert lw.new_aim(0.0, 0.0, 0.0, 0.0, "m") == "CENTRE LINE, PLASTER LINE (US, LEVEL)"
