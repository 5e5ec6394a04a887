"""Worked cases of the trade (common practice, no source), recomputed here by plain trigonometry.

Feet and inches as worked by hand; the pivot hangs 14 in from the pipe's centre unless said.
"""

from __future__ import annotations

from math import atan, atan2, cos, degrees, hypot, radians, sin, tan

import pytest

from aimcalc.scene.model import Boom, Pipe, Solid, Stage, Target, Unit
from aimcalc.solid.rig import solve_rig
from tests.rigs import FOOT, INCH, a_kind, a_pipe, a_scene

DROP = 14 / 12  # feet


def solved(pipe_y, trim, at, target, **extra):
    """One unit on a level pipe across the stage; places in feet, the target as (x, y, face)."""
    mount, plane = extra.pop("mount", "under"), extra.pop("plane", "face")
    kind = a_kind(**extra.pop("kind", {}))
    x, y, face = target
    aim = Target(name="t", x=x * FOOT, y=y * FOOT, face_height=face * FOOT, plane=plane)
    unit = Unit(position="p", number="1", at=at * FOOT, kind="k", target="t", mount=mount)
    pipe = a_pipe(y=pipe_y * FOOT, trim=trim * FOOT)
    scene = a_scene([unit], [aim], pipes=[pipe], kinds=[kind], **extra)
    return solve_rig(scene).answers[0]


def feet(point):
    return tuple(value / FOOT for value in point)


def test_case_1_two_ways_to_hit_and_the_upright_one_is_told():
    told = solved(-16, 20, 6, (-2, 6, 5.5))
    reach, fall = hypot(8, 22), 20 - DROP - 5.5
    assert (told.square, told.swing, told.attitude) == ("US", "SR", "upright")
    assert told.pan == pytest.approx(degrees(atan2(8, 22)))  # 20
    assert told.down == pytest.approx(degrees(atan2(fall, reach)))  # 29.7
    assert told.throw / FOOT == pytest.approx(hypot(reach, fall))  # 26'-11"
    past = 5.5 * reach / fall  # 9'-8"
    assert told.past_stand / FOOT == pytest.approx(past)
    assert feet(told.lands) == pytest.approx((-2 - past * 8 / reach, 6 + past * 22 / reach, 0))
    assert told.throw == pytest.approx(8.21, abs=0.005)
    assert told.lands == pytest.approx((-1.62, 4.59, 0), abs=0.006)


def test_case_2_a_target_behind_the_pipe_is_square_downstage():
    told = solved(10, 18, -3, (-1, 3, 5.5))
    assert (told.square, told.swing) == ("DS", "SL")
    assert told.pan == pytest.approx(degrees(atan2(2, 7)))  # 16, not 164
    assert told.down == pytest.approx(degrees(atan2(18 - DROP - 5.5, hypot(2, 7))))  # 57.3
    assert told.throw == pytest.approx(4.11, abs=0.005)
    assert told.lands[1] == pytest.approx(-0.12, abs=0.005)


def test_case_3_nearly_straight_down_is_plumb_and_exactly_so_leaves_pan_free():
    near = solved(12, 18, 4, (4, 12 + 2 / 12, 0), plane="deck")
    assert (near.attitude, near.roll, near.square) == ("plumb", None, "US")
    assert near.down == pytest.approx(degrees(atan2(18 - DROP, 2 / 12)))
    exact = solved(12, 18, 4, (4, 12, 0), plane="deck")
    assert (exact.attitude, exact.pan, exact.swing, exact.heading) == ("plumb", None, None, None)
    assert exact.down == pytest.approx(90)
    assert exact.lands == pytest.approx(exact.stand)


def test_case_4_over_and_under_differ_by_twice_the_drop():
    under = solved(0, 20, 0, (0, 12, 5.5))
    over = solved(0, 20, 0, (0, 12, 5.5), mount="over")
    assert under.down == pytest.approx(degrees(atan((20 - DROP - 5.5) / 12)))  # 48.0
    assert over.down == pytest.approx(degrees(atan((20 + DROP - 5.5) / 12)))  # 52.5
    assert (under.attitude, over.attitude) == ("upright", "upright")
    assert abs(over.yoke) == pytest.approx(180 - over.down)  # the body is turned over in its yoke
    long = (20 + DROP - 5.5) / tan(radians(under.down)) - 12
    assert long * FOOT == pytest.approx(0.64, abs=0.005)  # 2'-1" past


def test_case_5_a_pool_that_never_closes_is_open():
    told = solved(0, 12 + DROP, 0, (0, 30, 5.5))
    assert told.down == pytest.approx(degrees(atan2(6.5, 30)))  # 12.2
    pool = told.deck_pool
    assert (pool.closed, pool.far, pool.length, pool.area, pool.centre) == (False, *[None] * 4)
    assert pool.near / FOOT == pytest.approx(12 / tan(radians(told.down + 13)))  # 25'-6"
    assert told.lands[1] / FOOT == pytest.approx(30 * 12 / 6.5)  # 55'-5"


def test_case_6_a_platform_carries_the_face_and_ends_before_the_light_comes_down():
    top = Solid(name="riser", box=(-3.0, 11 * FOOT, 0, 3.0, 18 * FOOT, 4 * FOOT), stand_on=True)
    told = solved(0, 18, 0, (0, 12, 5.5), solids=[top])
    fall = 18 - DROP - 9.5
    assert told.stand == pytest.approx((0, 12 * FOOT, 4 * FOOT))
    assert told.down == pytest.approx(degrees(atan2(fall, 12)))  # 31.4, not 43.4
    assert told.past_stand / FOOT == pytest.approx(9.5 * 12 / fall)  # 15'-7" on the main deck
    assert told.lands[2] == pytest.approx(0, abs=1e-9)
    wide = Solid(name="riser", box=(-3.0, 11 * FOOT, 0, 3.0, 30 * FOOT, 4 * FOOT), stand_on=True)
    upon = solved(0, 18, 0, (0, 12, 5.5), solids=[wide])
    assert upon.past_stand / FOOT == pytest.approx(5.5 * 12 / fall)  # 9'-0" on the platform itself
    assert upon.lands[2] == pytest.approx(4 * FOOT)


def boom_unit(arm_to, mount="direct", yoke_range=(-90.0, 90.0), **arm):
    boom = Boom(name="b", x=-20 * FOOT, y=4 * FOOT, height=12 * FOOT)
    face = Target(name="t", x=0, y=6 * FOOT, face_height=5.5 * FOOT)
    unit = Unit(
        position="b",
        number="1",
        at=8 * FOOT,
        kind="k",
        target="t",
        mount=mount,
        arm_to=arm_to,
        **arm,
    )
    kind = a_kind(yoke_range=yoke_range, drop_under=0.0)
    return solve_rig(a_scene([unit], [face], pipes=[], booms=[boom], kinds=[kind])).answers[0]


def test_case_7_straight_on_a_boom_the_stem_s_side_decides():
    straight = boom_unit(180.0)
    assert straight.heading == pytest.approx(
        90 - degrees(atan2(2, 20))
    )  # 5.7 US of straight across
    assert straight.down == pytest.approx(degrees(atan2(2.5, hypot(2, 20))))  # 7.1
    assert straight.throw / FOOT == pytest.approx(hypot(20, 2, 2.5))  # 20'-3"
    assert straight.yoke == pytest.approx(-5.7, abs=0.05)  # 96 from the stem: reachable ...
    assert straight.attitude == "on its side"  # ... with the body sideways
    offstage, onstage = boom_unit(270.0), boom_unit(90.0)
    assert offstage.yoke == pytest.approx(-(171 - 90), abs=0.5)  # back through its own boom
    assert onstage.yoke == pytest.approx(90 - 9, abs=0.5)  # nearly along the stem
    arm = boom_unit(90.0, mount="arm", arm=1.5 * FOOT)
    assert arm.attitude == "upright"
    assert arm.heading == pytest.approx(90 - degrees(atan2(2, 18.5)))
    assert (arm.square, arm.swing) == ("SL", "US")


def test_case_11_a_trim_found_wrong_changes_down_and_not_pan():
    plotted, measured = solved(0, 18, 0, (0, 10, 5.5)), solved(0, 16.75, 0, (0, 10, 5.5))
    assert plotted.down == pytest.approx(degrees(atan((18 - DROP - 5.5) / 10)))  # 48.6
    assert measured.down == pytest.approx(degrees(atan((16.75 - DROP - 5.5) / 10)))  # 45.2
    assert (plotted.pan, measured.pan) == (0, 0)
    change = abs(plotted.down - measured.down)
    wide = solved(0, 18, 0, (0, 10, 5.5)).down_tolerance
    narrow = solved(0, 18, 0, (0, 10, 5.5), kind={"field": 10.0}).down_tolerance
    assert (wide, narrow) == (6.5, 2.5)
    assert narrow < change < wide  # the 26 may stay, the 10 is set again


def test_case_12_a_rake_lifts_the_face():
    told = solved(-16, 20, 0, (0, 20, 5.5), stage=Stage(rake=1 / 16))
    face = 5.5 + 20 / 16  # 6'-9"
    assert told.face[2] / FOOT == pytest.approx(face)
    assert told.down == pytest.approx(degrees(atan2(20 - DROP - face, 36)))  # 18.6, not 20.3
    # LANDS: the ray meets z = y / 16.
    slope = (20 - DROP - face) / 36
    y = (face + slope * 20) / (slope + 1 / 16)
    assert feet(told.lands) == pytest.approx((0, y, y / 16))


def test_case_13_on_a_skewed_pipe_dial_and_heading_differ():
    skew = radians(15)
    end = (10 * cos(skew), -10 * sin(skew), 6.0)
    pipe = Pipe(name="p", start=(-end[0], -end[1], 6.0), end=end, zero="middle")
    heading = radians(-20)  # 20 SR of US; square faces 15 SL of US
    point = (5 * sin(heading), 5 * cos(heading), 1.65)
    unit = Unit(position="p", number="1", at=0.0, kind="k", point=point)
    told = solve_rig(a_scene([unit], pipes=[pipe])).answers[0]
    assert told.heading == pytest.approx(340)
    assert (told.square, told.swing) == ("US", "SR")
    assert told.pan == pytest.approx(35)
    assert told.sight == pytest.approx(-3.0 * tan(radians(35)))


def test_a_pivot_below_its_pipe_is_what_lands_short():
    """Trim 18 ft taken as the lens height: 51.3 for 48.6, 11 in short of a face 10 ft out."""
    told = solved(0, 18, 0, (0, 10, 5.5))
    naive = atan2(18 - 5.5, 10)
    assert degrees(naive) - told.down == pytest.approx(51.3 - 48.6, abs=0.1)  # each printed to 0.1
    short = 10 - (18 - DROP - 5.5) / tan(naive)
    assert short * FOOT == pytest.approx(11 * INCH, abs=0.5 * INCH)


@pytest.mark.parametrize(
    ("turn", "width", "length"), [(90.0, 8 + 7 / 12, 28 + 3 / 12), (0.0, 16 + 5 / 12, 11 + 4 / 12)]
)
def test_case_14_the_same_oval_lamp_makes_two_very_different_pools(turn, width, length):
    """Field 24 x 48, down 45, pivot 12'-9" over the deck: 8'-7" x 28'-3" or 16'-5" x 11'-4"."""
    unit = Unit(
        position="p", number="1", at=0.0, kind="k", turn=turn, point=(0.0, 12.75 * FOOT, 0.0)
    )
    kind = a_kind(oval=(24.0, 48.0), field=(24.0 * 48.0) ** 0.5)
    pipe = a_pipe(trim=(12.75 + DROP) * FOOT)
    told = solve_rig(a_scene([unit], pipes=[pipe], kinds=[kind])).answers[0]
    assert told.down == pytest.approx(45)
    assert told.deck_pool.width / FOOT == pytest.approx(width, abs=0.08)
    assert told.deck_pool.length / FOOT == pytest.approx(length, abs=0.08)
