"""Connectors that the tail cannot follow; the unit is that of test_tail_triangles."""

import math

import msgspec
from msgspec.structs import replace

from aimcalc.findings.hanging import tail_findings
from aimcalc.hang.plan import hang_plan
from aimcalc.scene.model import Boom, Unit
from aimcalc.solid.rig import solve_rig
from tests.rigs import INCH, a_kind, a_pipe, a_scene

KIND = a_kind(tail=36 * INCH, tail_exit=(10 * INCH, 4 * INCH))
PIVOT_Z = 6.0 - 14 * INCH


def aimed(down, pan, **unit):
    """A unit at the zero mark of a pipe, square US, so many degrees down and swung SL."""
    t, p = math.radians(down), math.radians(pan)
    level = 5 * math.cos(t)
    point = (level * math.sin(p), level * math.cos(p), PIVOT_Z - 5 * math.sin(t))
    return Unit(position="p", number="1", at=0.0, kind="k", point=point, **unit)


def found(unit, kind=KIND):
    rig = solve_rig(a_scene([unit], pipes=[a_pipe()], kinds=[kind]))
    return list(tail_findings(rig, hang_plan(rig)))


def rules(unit, kind=KIND):
    return [(f.severity, f.rule) for f in found(unit, kind)]


def test_a_connector_nobody_placed_says_nothing():
    assert rules(aimed(50, 60)) == []


def test_nine_inches_on_the_side_the_back_swings_to_says_nothing():
    assert rules(aimed(50, 60, connector=-9 * INCH)) == []


def test_a_far_connector_that_the_back_swings_from_has_no_loop_and_no_focus_swing():
    # 34 in with 30 of 36 to use, the worked case: the loop is gone, but the tail reaches. It used to stop a
    # print on the 6 in that we keep for the loop.
    told = found(aimed(50, 60, connector=24 * INCH))
    assert told[0].says.endswith("It reaches its aim, with no loop and no room to focus.")
    assert [(f.severity, f.rule) for f in told] == [
        ("warn", "tail-pulls-out"),
        ("warn", "connector-far"),
        ("warn", "connector-side"),
    ]
    assert told[0].unit == "p/1"
    assert "SR side" in told[0].do


def test_a_tail_that_does_not_reach_at_its_aim_stops():
    # 33.77 in from the exit to the connector at the aim (tests/rig/hang/test_tail_triangles.py).
    for tail, severity, kind in (
        (33, "stop", {}),
        (34.5, "warn", {}),
        (33, "warn", {"typical": True}),
    ):
        told = found(aimed(50, 60, connector=24 * INCH), replace(KIND, tail=tail * INCH, **kind))
        assert (told[0].severity, told[0].rule) == (severity, "tail-pulls-out")


def test_a_far_connector_on_the_good_side_is_taut_only_on_the_way():
    # At the aim 19 in; square and level sqrt(24^2 + 10^2 + 18^2) = 31.6 in, over the 30 to use.
    told = found(aimed(50, 60, connector=-24 * INCH))
    assert [(f.severity, f.rule) for f in told] == [
        ("warn", "tail-taut"),
        ("warn", "connector-far"),
    ]
    assert "0.80 m" in told[0].says


def test_twelve_inches_is_not_far_and_more_is():
    assert ("warn", "connector-far") not in rules(aimed(50, 60, connector=-12 * INCH))
    assert ("warn", "connector-far") in rules(aimed(50, 60, connector=-13 * INCH))


def test_the_other_side_warns_though_it_reaches():
    assert rules(aimed(50, 60, connector=9 * INCH)) == [("warn", "connector-side")]


def test_square_units_have_no_wrong_side():
    assert rules(aimed(50, 0, connector=9 * INCH)) == []
    assert rules(aimed(50, 0, connector=-9 * INCH)) == []


def test_a_connector_past_the_end_of_its_tube_warns():
    near_the_end = msgspec.structs.replace(aimed(50, 0, connector=9 * INCH), at=9.9)
    assert ("warn", "connector-off") in rules(near_the_end)
    inside = msgspec.structs.replace(aimed(50, 0, connector=9 * INCH), at=9.7)
    assert ("warn", "connector-off") not in rules(inside)


def test_a_connector_longer_than_its_side_arm_warns():
    boom = Boom(name="p", x=0.0, y=0.0, height=6.0)
    for connector, told in ((0.2, False), (0.4, True)):
        arm = aimed(50, 0, mount="arm", arm=0.3, arm_to=270.0, connector=connector)
        rig = solve_rig(
            a_scene([msgspec.structs.replace(arm, at=5.0)], pipes=[], booms=[boom], kinds=[KIND])
        )
        rule = [f.rule for f in tail_findings(rig, hang_plan(rig))]
        assert ("connector-off" in rule) is told


def test_a_tail_too_short_for_any_place_warns():
    short = msgspec.structs.replace(KIND, tail=16 * INCH)
    assert rules(aimed(50, 60), short) == [("warn", "tail-short")]


def test_an_unknown_tail_is_noted():
    told = found(aimed(50, 60), a_kind())
    assert [(f.severity, f.rule) for f in told] == [("note", "tail-not-known")]
    assert "kind k" in told[0].says
