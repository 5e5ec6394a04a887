"""The units that stand for the rest."""

from __future__ import annotations

from aimcalc.scene.model import Stand
from aimcalc.solid.side_view import chosen
from tests.solid.hanging import a_pipe, a_rig, a_unit


def names(rig):
    return [rig.names[k] for k in chosen(rig)]


def test_of_each_pipe_the_one_nearest_to_the_centre_line_each_way():
    units = [
        a_unit(1, 4.0, point=(4.0, 4.0, 1.65)),
        a_unit(2, 0.5, point=(0.5, 4.0, 1.65)),
        a_unit(3, -1.0, point=(-1.0, -4.0, 1.65)),
        a_unit(1, 3.0, position="q", point=(3.0, 9.0, 1.65)),
    ]
    assert names(a_rig(units, pipes=[a_pipe(), a_pipe("q", y=5.0)])) == ["p/2", "p/3", "q/1"]


def test_one_that_is_turned_far_gives_way_to_one_a_little_further_off():
    units = [a_unit(1, 0.0, point=(4.0, 4.0, 1.65)), a_unit(2, 1.0, point=(1.0, 4.0, 1.65))]
    assert names(a_rig(units)) == ["p/2"]


def test_units_that_point_across_or_straight_down_or_stand_on_the_floor_are_left_out():
    units = [
        a_unit(1, 0.0, point=(8.0, 0.5, 1.65)),
        a_unit(2, 1.0, point=(1.0, 0.0, 0.0)),
        a_unit(1, position="floor", mount="stand"),
    ]
    assert names(a_rig(units, stands=[Stand(name="floor", x=0.0, y=1.0)])) == []
