"""Where clamps are, which way is square, in what order units come: scenes worked out by hand.

Pivots of kind `k` hang 0.4 m under their clamp or stand 0.3 m over it. Every number is plain arithmetic
or a right triangle; the working stands beside it.
"""

from __future__ import annotations

from math import atan2, cos, degrees, hypot, radians, sin, sqrt

import pytest

from tests.toml_rig import level_pipe, one, table, told, unit

AHEAD = {"point": [0, 4, 3]}  # somewhere upstage


def clamp_on(tmp_path, pipe, at, point=(0, 4, 3)):
    return one(tmp_path, pipe, unit(at=at, point=list(point)))["clamp"]


# `at` that puts the clamp 2 m SL of the centre line, whichever end the pipe was written from.
@pytest.mark.parametrize(
    ("ends", "zero", "at"),
    [
        ((-5, 5), None, 2),
        ((5, -5), None, 2),
        ((-5, 5), "centre line", 2),
        ((-2, 8), "centre line", 2),  # off the middle: the centre line, not the middle, is zero
        ((3, 8), None, 2),  # beside the centre line: counted from it all the same
        ((-2, 8), "middle", -1),  # middle at 3
        ((8, -2), "middle", -1),
        ((-5, 5), "start", 7),
        ((5, -5), "start", -3),  # start is the SL end: + still runs to SL
        ((-5, 5), "end", -3),
        ((5, -5), "end", 7),
        ((-5, 5), None, "2 m SL"),
        ((5, -5), "end", "7 m SL"),
        ((5, -5), "start", "3 m SR"),
    ],
)
def test_at_counts_from_the_zero_mark_towards_stage_left(tmp_path, ends, zero, at):
    pipe = level_pipe(from_=ends[0], to=ends[1], y=-1, **({"zero": zero} if zero else {}))
    assert clamp_on(tmp_path, pipe, at) == pytest.approx([2, -1, 6.4])


# A pipe up and down the stage from y = 1 to 7 at x = 4; `at` that puts the clamp at y = 5.
@pytest.mark.parametrize("flip", [False, True])
@pytest.mark.parametrize(
    ("zero", "at", "at_flipped"),
    [(None, 1, 1), ("middle", "1 m US", "1 m US"), ("start", 4, -2), ("end", "2 m DS", "4 m US")],
)
def test_on_an_up_and_down_pipe_at_counts_upstage(tmp_path, flip, zero, at, at_flipped):
    ends = ([4, 1, 6], [4, 7, 6])
    pipe = table(
        "pipe",
        name="p",
        start=ends[flip],
        end=ends[not flip],
        **({"zero": zero} if zero else {}),
    )
    assert clamp_on(tmp_path, pipe, at_flipped if flip else at) == pytest.approx([4, 5, 6])


def test_start_and_end_count_from_the_middle_unless_said(tmp_path):
    pipe = table("pipe", name="p", start=[6, 2, 6], end=[-2, 2, 6])
    assert clamp_on(tmp_path, pipe, 1) == pytest.approx([3, 2, 6])  # middle at x = 2


def test_start_and_end_may_count_from_the_centre_line(tmp_path):
    """From (-2, 0) to (6, 4): crosses x = 0 a quarter of the way along, at y = 1; 1 m has 2/sqrt(5) of x."""
    pipe = table("pipe", name="p", start=[-2, 0, 6], end=[6, 4, 6], zero="centre line")
    x, y, _ = clamp_on(tmp_path, pipe, sqrt(5))
    assert (x, y) == pytest.approx((2, 2))


@pytest.mark.parametrize("ends", [([-4, 0, 3], [4, 0, 9]), ([4, 0, 9], [-4, 0, 3])])
def test_at_runs_along_the_slope_of_a_sloping_pipe(tmp_path, ends):
    """8 across and 6 up is 10 along: 2.5 m of it are 2 across and 1.5 up.

    The stem is square to the pipe: 0.4 of (0.6, 0, -0.8). (It used to be taken as plumb.)
    """
    pipe = table("pipe", name="p", start=ends[0], end=ends[1])
    answer = one(tmp_path, pipe, unit(at=2.5, **AHEAD))
    assert answer["clamp"] == pytest.approx([2, 0, 7.5])
    assert answer["pivot"] == pytest.approx([2 + 0.24, 0, 7.5 - 0.32])


@pytest.mark.parametrize("ends", [([-3, -3, 6.4], [3, 3, 6.4]), ([3, 3, 6.4], [-3, -3, 6.4])])
def test_a_pipe_at_45_degrees_counts_to_stage_left_and_squares_up_or_down_stage(tmp_path, ends):
    """Clamp at (1, 1). Square on the US side is SR-and-US of it, heading 315; the other is 135."""
    pipe = table("pipe", name="p", start=ends[0], end=ends[1])
    up = one(tmp_path, pipe, unit(at=sqrt(2), point=[-1, 3, 3]))
    down = one(tmp_path, pipe, unit(at=sqrt(2), point=[2, 0, 3]))
    assert up["clamp"] == pytest.approx([1, 1, 6.4])
    assert (up["square"], up["heading"]) == ("US", pytest.approx(315))
    assert (down["square"], down["heading"]) == ("DS", pytest.approx(135))
    assert (up["pan"], down["pan"]) == pytest.approx((0, 0), abs=1e-9)
    assert (up["swing"], down["swing"]) == (None, None)  # square, whatever the last digit says


def test_a_pipe_a_little_steeper_than_45_squares_across_the_stage(tmp_path):
    """Along is 3 SL, 4 US of 5: at 5 is (3, 4). Square on the SL side is (4, -3) / 5, heading 126.87."""
    pipe = table("pipe", name="p", start=[0, 0, 6.4], end=[6, 8, 6.4], zero="start")
    answer = one(tmp_path, pipe, unit(at=5, point=[7, 1, 3]))
    assert answer["clamp"] == pytest.approx([3, 4, 6.4])
    assert answer["square"] == "SL"
    assert answer["heading"] == pytest.approx(126.8698976)
    assert answer["pan"] == pytest.approx(0, abs=1e-9)
    swung = one(tmp_path, pipe, unit(at=5, point=[3 + 5, 4, 3]))  # due SL of the clamp
    assert (swung["square"], swung["swing"]) == ("SL", "US")  # turned from square towards US
    assert swung["pan"] == pytest.approx(126.8698976 - 90)


# Square is the side the unit faces; pan turns from it, never beyond 90.
@pytest.mark.parametrize(
    ("point", "square", "swing"),
    [
        ([3, 4, 3], "US", "SL"),
        ([-3, 4, 3], "US", "SR"),
        ([3, -4, 3], "DS", "SL"),
        ([-3, -4, 3], "DS", "SR"),
    ],
)
def test_across_pan_is_36_87_from_the_side_faced(tmp_path, point, square, swing):
    answer = one(tmp_path, level_pipe(), unit(point=point))
    assert (answer["square"], answer["swing"]) == (square, swing)
    assert answer["pan"] == pytest.approx(36.8698976)  # atan(3 / 4)
    assert answer["heading"] == pytest.approx(degrees(atan2(*point[:2])) % 360)


@pytest.mark.parametrize(
    ("point", "square", "swing", "heading"),
    [
        ([8, 3, 3], "SL", "US", 53.1301024),  # from (4, 0): 4 SL, 3 US
        ([8, -3, 3], "SL", "DS", 126.8698976),
        ([0, 3, 3], "SR", "US", 306.8698976),
        ([0, -3, 3], "SR", "DS", 233.1301024),
    ],
)
def test_up_and_down_pan_is_36_87_from_the_side_faced(tmp_path, point, square, swing, heading):
    pipe = table("pipe", name="p", start=[4, 5, 6.4], end=[4, -5, 6.4])
    answer = one(tmp_path, pipe, unit(point=point))
    assert (answer["square"], answer["swing"]) == (square, swing)
    assert answer["pan"] == pytest.approx(36.8698976)
    assert answer["heading"] == pytest.approx(heading)


def boom(x=-5, y=2, **keys):
    return table("boom", name="p", x=x, y=y, height=5, **keys)


def on_boom(**keys):
    return unit(at=3, **keys)


@pytest.mark.parametrize(
    ("x", "target_x", "square"), [(-5, 0, "SL"), (5, 0, "SR"), (-5, -9, "SR"), (5, 9, "SL")]
)
def test_on_a_boom_square_is_across_towards_the_centre_line_or_its_opposite(
    tmp_path, x, target_x, square
):
    arm = on_boom(mount="arm", arm=0.5, arm_to="US", point=[target_x, 2.5, 1])
    answer = one(tmp_path, boom(x), arm)
    assert answer["square"] == square
    assert answer["pan"] == pytest.approx(0, abs=1e-9)
    assert answer["swing"] is None


@pytest.mark.parametrize(("target_x", "square"), [(3, "SL"), (-3, "SR")])
def test_a_boom_on_the_centre_line_faces_the_side_its_unit_faces(tmp_path, target_x, square):
    arm = on_boom(mount="arm", arm=0.5, arm_to="US", point=[target_x, 6.5, 1])
    answer = one(tmp_path, boom(x=0), arm)
    assert (answer["square"], answer["swing"]) == (square, "US")
    assert answer["pan"] == pytest.approx(53.1301024)  # arm's end (0, 2.5): 3 across, 4 US


@pytest.mark.parametrize(
    ("word", "point_y", "square"), [("US", 5.5, "US"), ("US", -0.5, "DS"), ("DS", 5.5, "US")]
)
def test_a_boom_s_own_square_is_counted_from(tmp_path, word, point_y, square):
    """Arm's end (-5, 2.5). The point is 3 up or down stage of it and 1 SL: atan(1 / 3) from square."""
    arm = on_boom(mount="arm", arm=0.5, arm_to="US", point=[-4, point_y, 1])
    answer = one(tmp_path, boom(square=word), arm)
    assert (answer["square"], answer["swing"]) == (square, "SL")
    assert answer["pan"] == pytest.approx(18.4349488)


@pytest.mark.parametrize(
    ("arm_to", "end"),
    [
        ("SL", [-4.5, 2]),
        ("SR", [-5.5, 2]),
        ("US", [-5, 2.5]),
        ("DS", [-5, 1.5]),
        (90, [-4.5, 2]),
        (0, [-5, 2.5]),
        (270, [-5.5, 2]),
        (30, [-4.75, 2 + 0.5 * sqrt(3) / 2]),  # 30 from US towards SL
        (225, [-5 - 0.5 / sqrt(2), 2 - 0.5 / sqrt(2)]),
    ],
)
def test_a_side_arm_reaches_where_it_says_and_its_unit_hangs_under_the_end(tmp_path, arm_to, end):
    answer = one(tmp_path, boom(), on_boom(mount="arm", arm=0.5, arm_to=arm_to, point=[0, 3, 1]))
    assert answer["clamp"] == pytest.approx([*end, 3])
    assert answer["pivot"] == pytest.approx([*end, 2.6])  # drop_under below
    assert answer["attitude"] == "upright"


def test_at_on_a_boom_is_a_height_above_the_deck_it_stands_on(tmp_path):
    rake = "[stage]\noutline = [[-9, -9], [9, -9], [9, 9], [-9, 9]]\nrake = 0.1\nrake_from = -1\n"
    arm = on_boom(mount="arm", arm=0.5, arm_to="SL", point=[0, 3, 1])
    assert one(tmp_path, rake, boom(), arm)["clamp"] == pytest.approx([-4.5, 2, 3.3])  # 3 + 0.3


@pytest.mark.parametrize(
    ("arm_to", "pivot"),
    [
        ("US", [-5, 2.4, 3]),
        ("DS", [-5, 1.6, 3]),
        ("SL", [-4.6, 2, 3]),
        ("SR", [-5.4, 2, 3]),
        (135, [-5 + 0.4 / sqrt(2), 2 - 0.4 / sqrt(2), 3]),
    ],
)
def test_a_unit_clamped_straight_to_a_boom_has_its_pivot_level_beside_it(tmp_path, arm_to, pivot):
    answer = one(tmp_path, boom(), on_boom(mount="direct", arm_to=arm_to, point=[0, 3, 1]))
    assert answer["clamp"] == pytest.approx([-5, 2, 3])
    assert answer["pivot"] == pytest.approx(pivot)


@pytest.mark.parametrize(("x", "square"), [(-3, "SL"), (3, "SR")])
def test_a_stand_s_stem_points_up_from_the_deck_and_squares_to_the_centre_line(tmp_path, x, square):
    stand = table("stand", name="p", x=x, y=1)
    answer = one(tmp_path, stand, unit(at=None, point=[0, 1, 2]))
    assert answer["mount"] == "stand"
    assert answer["clamp"] == pytest.approx([x, 1, 0])
    assert answer["pivot"] == pytest.approx([x, 1, 0.3])  # drop_over above
    assert (answer["square"], answer["attitude"]) == (square, "upright")
    assert abs(answer["yoke"]) > 90  # the body turned over in its yoke


RAKE = "[stage]\noutline = [[-9, -9], [9, -9], [9, 9], [-9, 9]]\nrake = 0.05\nrake_from = 1\n"
RISER = table("solid", name="riser", box=[-4, 4, 0, -2, 6, 1.2], stand_on=True)


@pytest.mark.parametrize(
    ("keys", "z"),
    [
        ({"x": 0, "y": 5}, 0.2),  # 0.05 x (5 - 1) up the rake
        ({"x": 0, "y": -3}, 0),  # level downstage of where the rake begins
        ({"x": -3, "y": 5}, 1.2),  # on the riser
        ({"x": -3, "y": 5, "z": 0.75}, 0.75),  # as said
    ],
)
def test_a_stand_stands_on_rake_and_platform_unless_its_height_is_given(tmp_path, keys, z):
    stand = table("stand", name="p", **keys)
    answer = one(tmp_path, RAKE, RISER, stand, unit(at=None, point=[0, 8, 3]))
    assert answer["clamp"] == pytest.approx([keys["x"], keys["y"], z])


def test_over_stands_above_and_out_swings_round_the_pipe(tmp_path):
    over = one(tmp_path, level_pipe(), unit(mount="over", **AHEAD))
    assert over["pivot"] == pytest.approx([0, 0, 6.7])  # 6.4 + 0.3
    for side, way in (("US", 1), ("DS", -1)):
        swung = one(tmp_path, level_pipe(), unit(mount="out", swing_out=f"30 {side}", **AHEAD))
        assert swung["clamp"] == pytest.approx([0, 0, 6.4])
        # 0.4 at 30 degrees from straight down: 0.2 to the side, 0.4 cos 30 down.
        assert swung["pivot"] == pytest.approx([0, way * 0.2, 6.4 - 0.4 * cos(radians(30))])


@pytest.mark.parametrize(("side", "way"), [("SL", 1), ("SR", -1)])
def test_out_on_an_up_and_down_pipe_swings_across(tmp_path, side, way):
    pipe = table("pipe", name="p", start=[4, 5, 6.4], end=[4, -5, 6.4])
    swung = one(tmp_path, pipe, unit(mount="out", swing_out=f"60 {side}", **AHEAD))
    assert swung["pivot"] == pytest.approx(
        [4 + way * 0.4 * sin(radians(60)), 0, 6.4 - 0.4 * cos(radians(60))]
    )


def test_lengths_are_read_in_every_spelling(tmp_path):
    """18'-6 1/2" = 222.5 in = 5.6515 m; 5.64 m = 564 cm = 5640 mm; 222 in = 5.6388 m."""
    for trim, metres in (
        ("18'-6 1/2\"", 5.6515),
        ("18' 6.5\"", 5.6515),
        ("222in", 5.6388),
        ("5.64 m", 5.64),
        ("564cm", 5.64),
        ("5640 mm", 5.64),
        ("18.5 ft", 5.6388),
    ):
        answer = one(tmp_path, level_pipe(trim=trim), unit(**AHEAD))
        assert answer["clamp"][2] == pytest.approx(metres, abs=1e-12), trim


@pytest.mark.parametrize(
    ("word", "metres"), [("m", 1.0), ("cm", 0.01), ("mm", 0.001), ("ft", 0.3048), ("in", 0.0254)]
)
def test_bare_numbers_are_in_the_scene_s_unit(tmp_path, word, metres):
    size = {"m": 1, "cm": 100, "mm": 1000, "ft": 4, "in": 48}[word]
    pipe = level_pipe(trim=5 * size, y=size, from_=-3 * size, to=3 * size)
    k = table("kind", name="k", family="ers", field=20, drop_under=size)
    point = [0, 3 * size, size]
    answer = one(tmp_path, pipe, unit(at=2 * size, point=point), scene=f'unit = "{word}"', kinds=k)
    s = size * metres
    assert answer["clamp"] == pytest.approx([2 * s, s, 5 * s])
    assert answer["pivot"][2] == pytest.approx(4 * s)
    assert answer["face"] == pytest.approx([0, 3 * s, s])


def test_stage_words_stand_for_signs(tmp_path):
    pipe = level_pipe(y="2 m DS", from_="5 m SR", to="5 m SL")
    answer = one(tmp_path, pipe, unit(at="1.5 m SR", point=["1 m SL", "3 m US", 0]))
    assert answer["clamp"] == pytest.approx([-1.5, -2, 6.4])
    assert answer["face"] == pytest.approx([1, 3, 0])
    assert (answer["square"], answer["swing"]) == ("US", "SL")


def names(tmp_path, *tables):
    return list(told(tmp_path, *tables))


def row(*pairs):
    return [unit(number=number, at=at, **AHEAD) for number, at in pairs]


def test_units_come_in_hang_order_along_the_pipe_from_the_end_where_numbers_begin(tmp_path):
    from_sl = row((2, 1), (3, -2), (1, 4))
    assert names(tmp_path, level_pipe(), *from_sl) == ["p/1", "p/2", "p/3"]
    from_sr = row((2, 1), (3, 4), (1, -2), (10, 4.8))
    assert names(tmp_path, level_pipe(), *from_sr) == ["p/1", "p/2", "p/3", "p/10"]


def test_a_unit_that_is_named_and_not_numbered_does_not_turn_the_row_round(tmp_path):
    """Numbers run from the SL end; the special hangs beyond unit 1 and is met first."""
    named = row((1, 3), (2, 1), (3, -1), (4, -3), ("special", 4))
    assert names(tmp_path, level_pipe(), *named) == ["p/special", "p/1", "p/2", "p/3", "p/4"]


def test_one_number_of_another_series_does_not_turn_the_row_round(tmp_path):
    odd = row((1, 3), (2, 1), (3, -1), (4, -3), (901, 4))
    assert names(tmp_path, level_pipe(), *odd) == ["p/901", "p/1", "p/2", "p/3", "p/4"]


def test_booms_come_top_to_bottom(tmp_path):
    low, high = (
        unit(number=n, at=at, mount="arm", arm=0.3, arm_to="SL", **AHEAD)
        for n, at in ((2, 2), (1, 4))
    )
    assert names(tmp_path, boom(), low, high) == ["p/1", "p/2"]


def test_positions_come_as_written(tmp_path):
    pipes = [level_pipe(name=n, y=y) for n, y in (("FOH", -4), ("LX 2", 4), ("LX 1", 2))]
    units = [unit(position=n, **AHEAD) for n in ("LX 1", "LX 2", "FOH")]
    assert names(tmp_path, *pipes, *units) == ["FOH/1", "LX 2/1", "LX 1/1"]


def test_the_pivot_is_one_drop_from_the_pipe_s_centre_whatever_its_slope(tmp_path):
    """Over a slope the stem is square to the pipe, in the upright plane through it: 0.3 m of that.

    (It used to be taken as plumb.) The tape has the unit's true plan line, from where its pivot is.
    """
    pipe = table("pipe", name="p", start=[-4, 0, 3], end=[4, 3, 9])
    answer = one(tmp_path, pipe, unit(mount="over", point=[0, 9, 3]))
    plan, length = hypot(8, 3), hypot(8, 3, 6)
    lean = 0.3 * 6 / length  # towards the low end, in plan
    pivot = [-lean * 8 / plan, 1.5 - lean * 3 / plan, 6 + 0.3 * plan / length]
    assert answer["pivot"] == pytest.approx(pivot)
    x, y = 0 - pivot[0], 9 - pivot[1]  # square to (8, 3) in plan is (-3, 8)
    slope = (8 * x + 3 * y) / (-3 * x + 8 * y)
    assert answer["sight"] == pytest.approx(-lean + 3 * slope)
