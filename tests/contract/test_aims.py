"""Heading, down, dial and yoke of every mount: scenes worked out by hand.

Pivots of kind `k` hang at 6 m under the plain pipe at y = 0. Most triangles are 3-4-5; the others are worked
out beside the number. Where a stem is not plumb, a point is put out along a chosen pose
f = cos t h + sin t a (t the yoke, h the turned square, a the stem), written out in components.
"""

from __future__ import annotations

from math import acos, asin, atan, atan2, cos, degrees, dist, hypot, radians, sin, sqrt, tan

import pytest

from tests.toml_rig import kind, level_pipe, one, table, told, unit

C30, S30 = sqrt(3) / 2, 0.5


def test_a_3_4_5_throw_under_a_pipe(tmp_path):
    """4 US and 3 down: 36.87 down, throw 5, field 2 x 5 tan 10, and it lands 3 / 3 x 4 m on."""
    target = table("target", name="t", x=0, y=4, face_height=3)
    answer = one(tmp_path, level_pipe(), target, unit(target="t"))
    assert (answer["heading"], answer["square"]) == (0, "US")
    assert answer["down"] == pytest.approx(36.8698976)
    assert answer["yoke"] == pytest.approx(36.8698976)  # plumb stem: the yoke reads down
    assert (answer["pan"], answer["swing"], answer["roll"]) == (0, None, pytest.approx(0, abs=1e-9))
    assert answer["throw"] == pytest.approx(5)
    assert answer["field_diameter"] == pytest.approx(10 * tan(radians(10)))
    assert answer["lands"] == pytest.approx([0, 8, 0], abs=1e-12)
    assert answer["past_stand"] == pytest.approx(4)
    assert answer["stand"] == [0, 4, 0]
    assert answer["face"] == [0, 4, 3]
    assert answer["blocked"] is None


@pytest.mark.parametrize("x", [4, -4])
def test_heading_runs_clockwise_from_upstage(tmp_path, x):
    answer = one(tmp_path, level_pipe(), unit(point=[x, 0, 3]))
    assert answer["heading"] == pytest.approx(90 if x > 0 else 270)
    assert answer["pan"] == pytest.approx(90)  # along the pipe: a quarter turn from either square
    assert answer["swing"] == ("SL" if x > 0 else "SR")
    assert answer["sight"] is None


def test_a_hair_to_stage_right_of_upstage_is_under_360(tmp_path):
    answer = one(tmp_path, level_pipe(), unit(point=[-1e-16, 4, 3]))
    assert 0 <= answer["heading"] < 360


def test_nose_shortens_the_throw_and_moves_the_lens_along_the_axis(tmp_path):
    answer = one(tmp_path, level_pipe(), unit(point=[0, 4, 3]), kinds=kind(nose=0.5))
    assert answer["throw"] == pytest.approx(4.5)
    assert answer["lens"] == pytest.approx([0, 0.4, 5.7])  # 0.5 along (4, -3) / 5
    assert answer["down"] == pytest.approx(36.8698976)
    assert answer["beam_diameter"] < answer["field_diameter"] == pytest.approx(9 * tan(radians(10)))


def test_rise_lifts_the_axis_off_the_pivot(tmp_path):
    """Level shot: pivot at 6, point at 6, rise 0.3: the axis dips by asin(0.3 / 5); s = sqrt(25 - 0.09)."""
    answer = one(tmp_path, level_pipe(), unit(point=[0, 5, 6]), kinds=kind(rise=0.3))
    dip = asin(0.3 / 5)
    assert answer["down"] == pytest.approx(degrees(dip))
    assert answer["throw"] == pytest.approx(sqrt(25 - 0.09))
    assert answer["lens"] == pytest.approx([0, 0.3 * sin(dip), 6 + 0.3 * cos(dip)])


def test_rise_counts_towards_the_body_s_own_top_over_a_pipe_too(tmp_path):
    """Standing over: pivot 6.7, point level with it. Right way up the rise is upward again."""
    over = unit(mount="over", point=[0, 5, 6.7])
    answer = one(tmp_path, level_pipe(), over, kinds=kind(rise=0.3))
    assert answer["down"] == pytest.approx(degrees(asin(0.06)))
    assert answer["lens"][2] > 6.7
    assert answer["attitude"] == "upright"


def test_the_other_way_to_hit_has_the_clip_underneath_and_is_not_taken(tmp_path):
    """Yoke 36.87 with pan 0 upright; 143.13 with the clamp half round is upside down."""
    free = one(tmp_path, level_pipe(), unit(point=[0, 4, 3]))
    assert (free["attitude"], free["yoke"]) == ("upright", pytest.approx(36.8698976))


@pytest.mark.parametrize(
    ("travel", "yoke", "attitude"),
    [
        ([-90, 90], 36.8698976, "upright"),  # one way within travel, the upright one
        ([90, 180], 143.1301024, "upside down"),  # only the other one is within travel
        ([-90, 30], 36.8698976, "upright"),  # neither: the upright one is told
        ([0, 36.8698976], 36.8698976, "upright"),  # at the stop is still within
    ],
)
def test_travel_of_the_yoke_decides_between_the_two_ways(tmp_path, travel, yoke, attitude):
    answer = one(tmp_path, level_pipe(), unit(point=[0, 4, 3]), kinds=kind(yoke_range=travel))
    assert answer["yoke"] == pytest.approx(yoke)
    assert answer["attitude"] == attitude
    assert answer["square"] == "US"  # the lens faces upstage either way
    assert answer["lands"] == pytest.approx([0, 8, 0], abs=1e-9)


def test_over_turns_the_body_over_in_its_yoke(tmp_path):
    """Pivot 6.7; 4 US, 3 below: down 36.87. The stem points up: yoke 180 - 36.87 the other way round."""
    answer = one(tmp_path, level_pipe(), unit(mount="over", point=[2, 4, 3.7]))
    reach = hypot(2, 4)
    assert answer["down"] == pytest.approx(degrees(atan(3 / reach)))
    assert answer["yoke"] == pytest.approx(-(180 - degrees(atan(3 / reach))))  # towards the clamp
    assert (answer["square"], answer["swing"]) == ("US", "SL")
    assert answer["pan"] == pytest.approx(degrees(atan(2 / 4)))
    assert (answer["attitude"], answer["roll"]) == ("upright", pytest.approx(0, abs=1e-6))
    assert answer["sight"] == pytest.approx(3 * 2 / 4)


def test_over_and_looking_up_is_yoke_past_90_away_from_the_clamp(tmp_path):
    """4 US, 3 above the pivot: the lens is away from the clamp, 180 - 36.87."""
    answer = one(tmp_path, level_pipe(), unit(mount="over", point=[0, 4, 9.7]))
    assert answer["down"] == pytest.approx(-36.8698976)
    assert answer["yoke"] == pytest.approx(143.1301024)
    assert (answer["lands"], answer["past_stand"]) == (None, None)


def put(pivot, direction, far=5.0):
    """A point `far` out along a direction."""
    return [p + far * d for p, d in zip(pivot, direction, strict=True)]


def posed(stem, square, aside, pan, yoke):
    """f = cos t (cos p square + sin p aside) + sin t stem."""
    ct, st, cp, sp = cos(yoke), sin(yoke), cos(pan), sin(pan)
    return [ct * (cp * s + sp * b) + st * a for s, b, a in zip(square, aside, stem, strict=True)]


@pytest.mark.parametrize(
    ("facing", "yoke"),
    [("US", 20), ("DS", 80)],  # swung 30 DS, level-with-the-dial US already looks 30 down, DS 30 up
)
def test_swung_out_yoke_is_counted_from_the_stem_and_down_from_level(tmp_path, facing, yoke):
    """Stem (0, -1/2, -cos 30); the point is 50 down in the plane square to the pipe."""
    pivot = [0, -0.2, 6.4 - 0.4 * C30]
    way = 1 if facing == "US" else -1
    point = put(pivot, (0, way * cos(radians(50)), -sin(radians(50))))
    answer = one(tmp_path, level_pipe(), unit(mount="out", swing_out="30 DS", point=point))
    assert answer["down"] == pytest.approx(50)
    assert answer["yoke"] == pytest.approx(yoke)
    assert (answer["square"], answer["swing"]) == (facing, None)
    assert answer["pan"] == pytest.approx(0, abs=1e-9)
    assert answer["attitude"] == "upright"
    assert answer["sight"] is None  # the stem is not plumb


@pytest.mark.parametrize(("swing", "side"), [("SL", 1), ("SR", -1)])
def test_swung_out_dial_and_heading_are_separate_numbers(tmp_path, swing, side):
    """Pan 40 at the dial, yoke 25, stem 30 towards DS. Square US turns with the clamp: (0, cos 30, -1/2)."""
    stem, square = (0, -S30, -C30), (0, C30, -S30)
    f = posed(stem, square, (side, 0, 0), radians(40), radians(25))
    point = put([0, -0.2, 6.4 - 0.4 * C30], f)
    answer = one(tmp_path, level_pipe(), unit(mount="out", swing_out="30 DS", point=point))
    assert (answer["square"], answer["swing"], answer["attitude"]) == ("US", swing, "upright")
    assert (answer["pan"], answer["yoke"]) == pytest.approx((40, 25))
    assert answer["heading"] == pytest.approx(degrees(atan2(f[0], f[1])) % 360)
    assert answer["down"] == pytest.approx(degrees(asin(-f[2])))
    # The clip's lean: body-up u = sin t h - cos t a against the highest direction square to the axis.
    h_z, a_z = cos(radians(40)) * -S30, -C30
    u_z = sin(radians(25)) * h_z - cos(radians(25)) * a_z
    assert answer["roll"] == pytest.approx(degrees(acos(u_z / sqrt(1 - f[2] ** 2))))


def test_swung_out_by_arm_to_is_swung_to_that_side(tmp_path):
    swung = unit(mount="out", swing_out=30, arm_to="DS", point=[0, 4, 3])
    assert one(tmp_path, level_pipe(), swung)["pivot"][1] == pytest.approx(-0.2)


def boom(x=-5, y=2, **keys):
    return table("boom", name="p", x=x, y=y, height=5, **keys)


def direct(**keys):
    return unit(at=3, mount="direct", **keys)


# Stem level towards US or DS: across the stage, 3 on and 2.25 down is a nose 36.87 DOWN, yoke 0, on its side.
@pytest.mark.parametrize("arm_to", ["US", "DS"])
@pytest.mark.parametrize(("x", "square", "heading"), [(-5, "SL", 90), (5, "SR", 270)])
@pytest.mark.parametrize(("fall", "swing"), [(2.25, "DOWN"), (-2.25, "UP"), (0, None)])
def test_straight_on_a_boom_the_dial_tips_the_nose(
    tmp_path, arm_to, x, square, heading, fall, swing
):
    pivot_y = 2 + (0.4 if arm_to == "US" else -0.4)
    way = 1 if square == "SL" else -1
    point = [x + 3 * way, pivot_y, 3 - fall]
    answer = one(tmp_path, boom(x), direct(arm_to=arm_to, point=point))
    assert (answer["square"], answer["swing"]) == (square, swing)
    assert answer["pan"] == pytest.approx(36.8698976 if fall else 0, abs=1e-7)
    assert answer["heading"] == pytest.approx(heading)
    assert answer["down"] == pytest.approx(0 if not fall else 36.8698976 * (1 if fall > 0 else -1))
    assert abs(answer["yoke"]) == pytest.approx(0, abs=1e-9) or abs(
        answer["yoke"]
    ) == pytest.approx(180)
    assert answer["roll"] == pytest.approx(90)
    assert answer["attitude"] == "on its side"
    assert answer["sight"] is None


@pytest.mark.parametrize(
    ("arm_to", "stem", "squares"),
    [("SL", (1, 0), ("US", "DS")), ("SR", (-1, 0), ("US", "DS")), ("US", (0, 1), ("SL", "SR"))],
)
def test_straight_on_a_boom_the_yoke_sets_the_heading(tmp_path, arm_to, stem, squares):
    """Level shots: yoke 0 is square to the stem, 30 is 30 towards where the stem points."""
    pivot = [-5 + 0.4 * stem[0], 2 + 0.4 * stem[1], 3]
    aside = (-stem[1], stem[0])  # level, a quarter turn anticlockwise from the stem
    for sign in (1, -1):
        f = [C30 * sign * b + S30 * s for b, s in zip(aside, stem, strict=True)]
        answer = one(tmp_path, boom(), direct(arm_to=arm_to, point=put(pivot, (*f, 0))))
        assert answer["square"] in squares
        assert answer["pan"] == pytest.approx(0, abs=1e-9)
        assert answer["heading"] == pytest.approx(degrees(atan2(*f)) % 360)
        assert answer["yoke"] == pytest.approx(30) or answer["yoke"] == pytest.approx(150)


def test_straight_on_a_boom_within_plain_travel_both_angles_are_told(tmp_path):
    """Stem US; 3 SL, 2 US, 2.25 down. Yoke atan2(2, 3.75), nose DOWN atan(2.25 / 3); travel stops at 90."""
    point = [-5 + 3, 2.4 + 2, 3 - 2.25]
    answer = one(
        tmp_path, boom(), direct(arm_to="US", point=point), kinds=kind(yoke_range=[-90, 90])
    )
    assert answer["yoke"] == pytest.approx(degrees(atan2(2, 3.75)))
    assert (answer["square"], answer["swing"]) == ("SL", "DOWN")
    assert answer["pan"] == pytest.approx(36.8698976)
    assert answer["heading"] == pytest.approx(degrees(atan2(3, 2)))
    assert answer["down"] == pytest.approx(degrees(asin(2.25 / hypot(3, 2, 2.25))))
    assert answer["throw"] == pytest.approx(hypot(3, 2, 2.25))
    assert answer["attitude"] == "on its side"


def test_straight_on_a_boom_a_diagonal_stem_tips_from_level_too(tmp_path):
    """Stem towards heading 45; square to it, heading 135: 3 on and 2.25 down."""
    r = 1 / sqrt(2)
    pivot = [-5 + 0.4 * r, 2 + 0.4 * r, 3]
    point = [pivot[0] + 3 * r, pivot[1] - 3 * r, 0.75]
    answer = one(tmp_path, boom(), direct(arm_to=45, point=point))
    assert answer["heading"] == pytest.approx(135)
    assert (answer["pan"], answer["swing"]) == (pytest.approx(36.8698976), "DOWN")
    assert answer["square"] in ("SL", "DS")  # level at heading 135 is between the two


@pytest.mark.parametrize("heading", [45, 135, 225, 315])
def test_a_diagonal_stem_breaks_its_tie_the_same_way_all_round(tmp_path, heading):
    """Square is at 45 to both words; it goes by the across one."""
    r = radians(heading)
    pivot = [-5 + 0.4 * sin(r), 2 + 0.4 * cos(r), 3]
    turned = radians(heading + 90)
    point = put(pivot, (sin(turned), cos(turned), 0))
    answer = one(tmp_path, boom(), direct(arm_to=heading, point=point))
    assert answer["square"] == ("SL" if sin(turned) > 0 else "SR")


def test_pointing_along_a_level_stem_any_pan_will_do(tmp_path):
    answer = one(tmp_path, boom(), direct(arm_to="SL", point=[0, 2, 3]))
    assert answer["yoke"] == pytest.approx(90)
    assert (answer["heading"], answer["down"]) == pytest.approx((90, 0))
    assert (answer["pan"], answer["swing"], answer["pan_tolerance"]) == (None, None, None)


def test_straight_down_by_the_dial_of_a_level_stem_has_a_pan_and_no_heading(tmp_path):
    """Stem US, point straight under the pivot: nose a quarter turn DOWN; straight down has no heading."""
    answer = one(tmp_path, boom(), direct(arm_to="US", point=[-5, 2.4, 0]))
    assert (answer["pan"], answer["swing"]) == (pytest.approx(90), "DOWN")
    assert answer["down"] == pytest.approx(90)
    assert (answer["heading"], answer["attitude"], answer["roll"]) == (None, "plumb", None)


@pytest.mark.parametrize(
    ("x", "y", "square", "swing", "pan"),
    [
        (3, 4, "SL", "US", 53.1301024),  # from (0, 0): 3 SL, 4 US
        (3, -4, "SL", "DS", 53.1301024),
        (-3, 4, "SR", "US", 53.1301024),
        (4, 3, "SL", "US", 36.8698976),
    ],
)
def test_a_stand_pans_from_straight_across(tmp_path, x, y, square, swing, pan):
    """Stem up, pivot at 0.3; 5 in plan and 1.7 up: UP atan(1.7 / 5)."""
    stand = table("stand", name="p", x=0, y=0)
    answer = one(tmp_path, stand, unit(at=None, point=[x, y, 2]))
    assert (answer["square"], answer["swing"]) == (square, swing)
    assert answer["pan"] == pytest.approx(pan)
    assert answer["down"] == pytest.approx(-degrees(atan(1.7 / 5)))
    assert (answer["attitude"], answer["sight"]) == ("upright", None)


@pytest.mark.parametrize(
    "y", [0.0, 0.0866]
)  # 1.65 under the deck's plumb: within 3 of plumb is 0.231
def test_within_3_of_straight_down_there_is_no_roll(tmp_path, y):
    answer = one(tmp_path, level_pipe(), unit(point=[0, y, 1.65]))
    assert (answer["attitude"], answer["roll"]) == ("plumb", None)


@pytest.mark.parametrize(("off", "attitude"), [(2.99, "plumb"), (3.01, "upright")])
def test_plumb_ends_at_3_degrees(tmp_path, off, attitude):
    answer = one(tmp_path, level_pipe(), unit(point=[0, 6 * tan(radians(off)), 0]))
    assert answer["attitude"] == attitude
    assert answer["down"] == pytest.approx(90 - off)


@pytest.mark.parametrize("mount", ["under", "over"])
def test_exactly_straight_down_any_pan_will_do(tmp_path, mount):
    answer = one(tmp_path, level_pipe(), unit(mount=mount, at=1.1, point=[1.1, 0, 1]))
    for key in ("heading", "pan", "swing", "roll", "sight", "pan_tolerance"):
        assert answer[key] is None, key
    assert answer["down"] == pytest.approx(90)
    assert answer["lands"] == pytest.approx([1.1, 0, 0])
    assert answer["per_degree_pan"] == pytest.approx(0, abs=1e-9)


def test_straight_down_under_a_skewed_pipe_leaves_pan_free_in_spite_of_rounding(tmp_path):
    """2.7 m along (7, 2.3) from (-3, 1), the point typed to a dozen places under it."""
    pipe = table("pipe", name="p", start=[-3, 1, 6], end=[4, 3.3, 6], zero="start")
    share = 2.7 / hypot(7, 2.3)
    x, y = -3 + 7 * share, 1 + 2.3 * share
    for point in ([x, y, 0], [round(x, 12), round(y, 12), 0]):
        answer = one(tmp_path, pipe, unit(at=2.7, point=point))
        assert (answer["pan"], answer["heading"], answer["swing"]) == (None, None, None)
        assert (answer["attitude"], answer["pan_tolerance"]) == ("plumb", None)


def test_straight_up_from_a_stand_is_plumb(tmp_path):
    stand = table("stand", name="p", x=1, y=1)
    answer = one(tmp_path, stand, unit(at=None, point=[1, 1, 5]))
    assert (answer["attitude"], answer["down"]) == ("plumb", pytest.approx(-90))
    assert (answer["deck_pool"], answer["lands"]) == (None, None)


@pytest.mark.parametrize("far", [0.3, 0.5, 0.0])
def test_a_point_nearer_than_the_nose_has_no_throw(tmp_path, far):
    point = [0, 0.8 * far, 6 - 0.6 * far]
    answer = one(tmp_path, level_pipe(), unit(point=point), kinds=kind(nose=0.5))
    for key in ("throw", "field_diameter", "beam_diameter"):
        assert answer[key] is None


def test_a_point_nearer_than_the_rise_cannot_be_hit(tmp_path):
    answer = one(tmp_path, level_pipe(), unit(point=[0, 0.1, 6]), kinds=kind(rise=0.2))
    for key in ("heading", "down", "pan", "yoke", "throw", "lands", "attitude", "face_pool"):
        assert answer[key] is None, key
    assert answer["pivot"] == [0, 0, 6]


def test_tail_up_is_rolled_half_over(tmp_path):
    """Same axis, same lens; the clip that was as high as can be is underneath."""
    down, up = (
        one(tmp_path, level_pipe(), unit(point=[1, 4, 3], hung=hung))
        for hung in ("tail down", "tail up")
    )
    assert (down["attitude"], down["roll"]) == ("upright", pytest.approx(0, abs=1e-6))
    assert (up["attitude"], up["roll"]) == ("upside down", pytest.approx(180))
    assert {key for key in up if up[key] != down[key]} == {"attitude", "roll"}


def test_tail_up_on_a_level_stem_turns_70_degrees_into_110(tmp_path):
    """Roll is counted 0 to 180, so half over of r is 180 - r."""
    point = [-5 + 3, 2.4 + 2, 3 - 2.25]
    down, up = (
        one(tmp_path, boom(), direct(arm_to="US", point=point, hung=hung))
        for hung in ("tail down", "tail up")
    )
    assert up["roll"] == pytest.approx(180 - down["roll"])


@pytest.mark.parametrize(
    ("pan", "there"), [(0, True), (59, True), (60, True), (60.01, False), (61, False)]
)
@pytest.mark.parametrize("side", [1, -1])
@pytest.mark.parametrize("facing", [1, -1])
def test_the_sight_mark_is_at_plus_sight_out_times_tan_pan(tmp_path, pan, there, side, facing):
    point = [1 + side * 5 * sin(radians(pan)), facing * 5 * cos(radians(pan)), 2]
    answer = one(tmp_path, level_pipe(), unit(at=1, point=point), scene="sight_out = 2")
    assert answer["pan"] == pytest.approx(pan, abs=1e-9)
    expected = pytest.approx(1 + side * 2 * tan(radians(pan))) if there else None
    assert answer["sight"] == expected


@pytest.mark.parametrize(("word", "out"), [("m", 3.0), ("ft", 3.048), ("in", 3.048), ("cm", 3.0)])
def test_the_sight_tape_lies_3_m_or_10_ft_out_unless_said(tmp_path, word, out):
    point = ["1 m SL", "1 m US", "2 m"]
    pipe = level_pipe(trim="6 m", from_="5 m SR", to="5 m SL")
    answer = one(tmp_path, pipe, unit(at=0, point=point), scene=f'unit = "{word}"', kinds=TINY_DROP)
    assert answer["sight"] == pytest.approx(out)  # tan 45 = 1


TINY_DROP = table("kind", name="k", family="ers", field=20, drop_under="0.4 m")


def test_on_a_sloping_pipe_the_tape_lies_under_it_in_plan_and_takes_the_true_heading(tmp_path):
    """Clamp 2.5 m along a 3-4-5 slope is 2 m along the tape, its pivot 0.24 more; 45 in plan adds 3.

    The dial differs: pivot (2.24, 0, 7.18), point 2 SL, 2 US, 6.18 below. Along the pipe that is
    2 x 0.8 - 6.18 x 0.6 = -2.108: the dial goes to SR, atan(2.108 / 2).
    """
    pipe = table("pipe", name="p", start=[-4, 0, 3], end=[4, 0, 9])
    answer = one(tmp_path, pipe, unit(at=2.5, point=[4.24, 2, 1]))
    assert answer["heading"] == pytest.approx(45)
    assert answer["sight"] == pytest.approx(5.24)
    assert (answer["square"], answer["swing"]) == ("US", "SR")
    assert answer["pan"] == pytest.approx(degrees(atan(2.108 / 2)))


def test_straight_along_the_stem_of_a_sloping_pipe_any_pan_will_do_and_there_is_no_tape(tmp_path):
    """3 m on along the stem (0.6, 0, -0.8) from the zero mark at (0, 0, 6)."""
    pipe = table("pipe", name="p", start=[-4, 0, 3], end=[4, 0, 9])
    answer = one(tmp_path, pipe, unit(point=[1.8, 0, 6 - 2.4]))
    assert (answer["pan"], answer["swing"], answer["pan_tolerance"]) == (None, None, None)
    assert (answer["heading"], answer["down"]) == pytest.approx((90, degrees(asin(0.8))))
    assert answer["sight"] is None


@pytest.mark.parametrize(
    ("heading", "dial", "there"), [(59, 59, True), (61, 50, False), (50, 61, False)]
)
def test_a_sloping_pipe_has_a_tape_where_heading_and_dial_are_within_60(
    tmp_path, heading, dial, there
):
    """Slope 3-4-5, pivot (0.24, 0, 5.68): the point 2 m US of it, so high that the dial is as wanted."""
    pipe = table("pipe", name="p", start=[-4, 0, 3], end=[4, 0, 9])
    x = 2 * tan(radians(heading))  # along the pipe: 0.8 x + 0.6 z = 2 tan(dial)
    z = (2 * tan(radians(dial)) - 0.8 * x) / 0.6
    answer = one(tmp_path, pipe, unit(point=[0.24 + x, 2, 5.68 + z]))
    assert (answer["heading"], answer["pan"]) == pytest.approx((heading, dial))
    assert answer["sight"] == (pytest.approx(0.24 + 3 * tan(radians(heading))) if there else None)


@pytest.mark.parametrize("side", [1, -1])
@pytest.mark.parametrize(
    ("out", "to"), [(120, "US"), (120, "DS"), (95, "US"), (150, "DS"), (179, "US")]
)
def test_a_clamp_swung_past_level_names_the_side_the_unit_faces(tmp_path, out, to, side):
    """Level, 15 to SL of US or of DS: square is that side, whichever way the clamp is swung.

    Stem (0, m sin, -cos), m +1 to US. At pan 0 the unit faces square to it and to the pipe, on the side
    named: plus or minus (0, cos, m sin).
    """
    m, a = (1 if to == "US" else -1), radians(out)
    stem = (0, m * sin(a), -cos(a))
    pivot = [0, 0.4 * stem[1], 6.4 + 0.4 * stem[2]]
    point = [5 * sin(radians(15)), pivot[1] + side * 5 * cos(radians(15)), pivot[2]]
    answer = one(tmp_path, level_pipe(), unit(mount="out", swing_out=f"{out} {to}", point=point))
    assert answer["pivot"] == pytest.approx(pivot)
    assert answer["square"] == ("US" if side > 0 else "DS")
    assert answer["swing"] == "SL"
    sign = 1 if cos(a) * side > 0 else -1
    facing = (0, sign * cos(a), sign * m * sin(a))
    # Turned from there to SL by the pan and tipped towards the stem by the yoke, the axis is level, 15 off.
    # Where the yoke is beyond 90 the body is turned over, and h is the other way round.
    p, t = radians(answer["pan"]), radians(answer["yoke"])
    h = (sin(p), cos(p) * facing[1], cos(p) * facing[2])
    sense = 1 if abs(answer["yoke"]) <= 90 else -1
    axis = [sense * cos(t) * hk + sin(t) * sk for hk, sk in zip(h, stem, strict=True)]
    assert axis == pytest.approx([sin(radians(15)), side * cos(radians(15)), 0], abs=1e-9)
    assert 0 <= answer["pan"] <= 90


def test_on_an_up_and_down_pipe_the_tape_counts_upstage(tmp_path):
    pipe = table("pipe", name="p", start=[4, 1, 6.4], end=[4, 7, 6.4], zero="start")
    for x, y, sight in ((2, 7, 4 + 3), (2, 3, 4 - 3), (6, 3, 4 - 3)):  # clamp at y = 5, pan 45
        answer = one(tmp_path, pipe, unit(at=4, point=[x, y, 2]))
        assert answer["pan"] == pytest.approx(45)
        assert answer["sight"] == pytest.approx(sight)


def test_tolerances_are_shares_of_the_field_and_pan_has_more(tmp_path):
    """Field 20: a quarter is 5. At 60 down, pan has 5 / cos 60 = 10."""
    point = [0, 5 / tan(radians(60)), 1]
    plain = one(tmp_path, level_pipe(), unit(point=point))
    assert plain["down"] == pytest.approx(60)
    assert (plain["down_tolerance"], plain["pan_tolerance"]) == pytest.approx((5, 10))
    tight = one(tmp_path, level_pipe(), unit(point=point), scene="tolerance = 0.1")
    assert (tight["down_tolerance"], tight["pan_tolerance"]) == pytest.approx((2, 4))


def test_a_precise_unit_has_less_tolerance(tmp_path):
    """Half of it: common practice, no source."""
    answer = one(tmp_path, level_pipe(), unit(point=[0, 4, 3], precise=True))
    assert answer["down_tolerance"] == pytest.approx(2.5)


@pytest.mark.parametrize("z", [3, 5.5, 5.85, 5.95])
def test_per_degree_is_how_far_the_spot_moves_on_the_level_face_plane(tmp_path, z):
    """Turned and tipped by one whole degree, thrown again by hand: 5 m out in plan, 6 - z below.

    The larger of both senses: towards level. (A hundredth of a degree, scaled, used to be told; at 1.1
    degrees of down, z = 5.9, that is a tenth of it.) Below 1 degree the axis misses the plane.
    """
    answer = one(tmp_path, level_pipe(), unit(point=[3, 4, z]), kinds=kind(nose=0.5))
    pan, down, degree, fall = atan2(3, 4), atan((6 - z) / 5), radians(1), 6 - z

    def spot(p, d):  # from the pivot
        return fall / tan(d) * sin(p), fall / tan(d) * cos(p)

    turned = dist(spot(pan + degree, down), spot(pan, down))
    assert answer["per_degree_pan"] == pytest.approx(turned)
    assert answer["per_degree_pan"] == pytest.approx(2 * 5 * sin(radians(0.5)))  # a chord
    if down <= degree:
        assert answer["per_degree_down"] is None
        return
    here = spot(pan, down)
    tipped = max(dist(spot(pan, down - degree), here), dist(spot(pan, down + degree), here))
    assert answer["per_degree_down"] == pytest.approx(tipped)


def test_a_nose_up_moves_its_spot_most_towards_level_too(tmp_path):
    """Face plane 3 above the pivot, 5 out: up 30.96; a degree less runs out to 3 / tan(29.96)."""
    answer = one(tmp_path, level_pipe(), unit(point=[3, 4, 9]))
    up = atan(3 / 5)
    assert answer["per_degree_down"] == pytest.approx(3 / tan(up - radians(1)) - 5)


def test_a_level_axis_has_no_travel_by_down(tmp_path):
    answer = one(tmp_path, level_pipe(), unit(point=[0, 4, 6]))
    assert answer["per_degree_down"] is None
    assert answer["per_degree_pan"] == pytest.approx(2 * 4 * sin(radians(0.5)))


# fmt: off
KEYS = {
    "unit", "position", "number", "kind", "target", "mount", "clamp", "pivot", "lens", "face", "stand",
    "heading", "down", "square", "pan", "swing", "yoke", "roll", "attitude", "throw", "beam_diameter",
    "field_diameter", "lands", "meets", "past_stand", "face_pool", "deck_pool", "sight", "down_tolerance",
    "pan_tolerance", "per_degree_pan", "per_degree_down", "blocked",
}
# fmt: on


def test_every_unit_answers_with_the_keys_of_the_contract(tmp_path):
    answers = told(tmp_path, level_pipe(), unit(point=[0, 4, 3], number="7a"))
    assert list(answers) == ["p/7a"]
    answer = answers["p/7a"]
    assert set(answer) >= KEYS  # more may come, none may go
    assert (answer["position"], answer["number"], answer["kind"]) == ("p", "7a", "k")
    assert (answer["target"], answer["stand"], answer["mount"]) == (None, None, "under")
    assert set(answer["face_pool"]) == {
        "closed",
        "length",
        "width",
        "centre",
        "near",
        "far",
        "area",
    }
