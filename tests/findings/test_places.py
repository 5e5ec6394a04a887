"""Clamps on the pipe, off the lift lines, apart from each other."""

from __future__ import annotations

import pytest

from tests.findings.clean import (
    a_kind,
    a_unit,
    says,
    told,
    with_kind,
    with_pipe,
    with_settings,
    with_special,
    with_unit,
    with_units,
)

STRAIGHT = (-4.0, 2.0, 1.65)  # 4 m DS of back/4, on the plan; 41 degrees down


@pytest.mark.parametrize(("at", "stops"), [(6.0, False), (6.01, True)])
def test_a_clamp_past_the_pipes_end_stops(at: float, stops: bool) -> None:
    assert told(with_unit("front/1", at=at)) == (
        [("stop", "off-the-end", "front/1")] if stops else []
    )


def test_the_end_and_the_distance_past_it_are_named() -> None:
    scene = with_unit("front/1", at=6.25)
    assert says(scene, "off-the-end") == "Unit 1 would hang 0.25 m past the SL end of the pipe."
    feet = with_settings(scene, unit="ft")  # 0.25 m = 9.84 in
    assert "0'-9 3/4\" past the SL end" in says(feet, "off-the-end")


def test_units_past_one_end_are_told_together() -> None:
    scene = with_unit("front/1", with_unit("front/2", at=6.1), at=6.6)
    (first,) = [t for t in told(scene) if t[1] == "off-the-end"]
    assert first == ("stop", "off-the-end", "front")
    assert (
        says(scene, "off-the-end")
        == "Units 1 and 2 would hang up to 0.60 m past the SL end of the pipe."
    )


@pytest.mark.parametrize(("at", "stops"), [(6.0, False), (6.01, True)])
def test_a_clamp_above_the_top_of_its_boom_stops(at: float, stops: bool) -> None:
    assert told(with_unit("boom/1", at=at)) == (
        [("stop", "off-the-end", "boom/1")] if stops else []
    )


def test_a_clamp_below_the_foot_of_its_boom_stops() -> None:
    assert ("stop", "off-the-end", "boom/1") in told(with_unit("boom/1", at=-0.01))
    assert "past the foot of the boom" in says(with_unit("boom/1", at=-0.5), "off-the-end")


@pytest.mark.parametrize(
    ("line", "severity"),
    [
        (2.0, "stop"),
        (2.004, "stop"),  # the same mark
        (
            2.006,
            "warn",
        ),  # told by the 6 cm that a clamp is taken to be wide: it used to stop the print
        (2.029, "warn"),
        (1.971, "warn"),
        (2.031, None),
        (1.969, None),
    ],
)
def test_a_clamp_at_a_lift_line_stops_and_one_within_3_cm_warns(
    line: float, severity: str | None
) -> None:
    scene = with_pipe("back", lines=(-5.0, line, 5.0))
    assert told(scene) == ([(severity, "on-lift-line", "back/1")] if severity else [])


def test_the_lift_line_is_named_by_its_place() -> None:
    scene = with_pipe("back", lines=(-1.98,))
    assert says(scene, "on-lift-line") == (
        "Unit 3 is on a pick point: 0.02 m from the lift line at 1.98 m SR. A clamp is taken 0.06 m wide."
    )


@pytest.mark.parametrize(("at", "warns"), [(-2.4575, False), (-2.456, True)])
def test_neighbours_nearer_than_18_in_warn(at: float, warns: bool) -> None:
    # Usual spacing 18 in = 0.457 m, clamp to clamp (common practice, no source).
    scene = with_special((at, 2.0, 1.65))
    assert told(with_unit("back/4", scene, at=at)) == (
        [("warn", "too-close", "back")] if warns else []
    )


@pytest.mark.parametrize(("at", "warns"), [(-2.61, False), (-2.59, True)])
def test_wide_bodies_need_half_of_each_between_them(at: float, warns: bool) -> None:
    wide = with_kind(a_kind("scoop", width=0.6, length=0.35, family="flood"))
    scene = with_unit("back/3", with_special((at, 2.0, 1.65), wide, kind="scoop"), kind="scoop")
    assert told(with_unit("back/4", scene, at=at)) == (
        [("warn", "too-close", "back")] if warns else []
    )


def test_units_over_and_under_a_pipe_pass_each_other_a_clamp_apart() -> None:
    scene = with_special((-2.0, 2.0, 1.65), mount="over")
    assert told(with_unit("back/4", scene, at=-2.06)) == []
    # (Both at one place used to be nothing: two clamps cannot grip the same spot of a tube.)
    assert told(with_unit("back/4", scene, at=-2.0)) == [("stop", "one-spot", "back")]


@pytest.mark.parametrize("mount", ["under", "over"])
@pytest.mark.parametrize(
    ("apart", "severity"), [(0.0, "stop"), (0.05, "stop"), (0.051, "warn"), (0.058, "warn")]
)
def test_clamps_on_one_spot_stop_and_those_a_clamp_apart_warn(
    mount: str, apart: float, severity: str
) -> None:
    scene = with_special((-2.0, 2.0, 1.65), mount=mount)
    assert told(with_unit("back/4", scene, at=-2.0 - apart)) == [(severity, "one-spot", "back")]


def test_units_of_one_spot_are_told_together_however_many() -> None:
    more = [a_unit("back", 4 + n, -2.0, None, point=(-2.0, 2.0, 1.65)) for n in range(5)]
    assert says(with_units(*more), "one-spot") == (
        "Units 3, 4, 5, 6, 7 and 8 at 2.00 m SR are clamped on one spot, within 0.05 m: a tube has room for "
        "one clamp there."
    )


def test_thousands_on_one_spot_are_told_once() -> None:
    # back/3 hangs at -2.0: a list filled down puts 5000 more there.
    more = [a_unit("back", 4 + n, -2.0, None, point=(-2.0, 2.0, 1.65)) for n in range(5000)]
    scene = with_units(*more)
    assert told(scene) == [("stop", "one-spot", "back")]
    assert says(scene, "one-spot").startswith(
        "Units 3, 4, 5, 6, 7, 8, 9 and 4994 more at 2.00 m SR are clamped on one spot"
    )


def test_units_clamped_straight_to_one_spot_of_a_boom_stop() -> None:
    both = [
        a_unit("boom", n, 3.0, "B", mount="direct", arm_to=way) for n, way in ((2, 0.0), (3, 180.0))
    ]
    assert ("stop", "one-spot", "boom") in told(with_units(*both))


def test_every_crowded_pair_of_a_pipe_is_in_one_finding() -> None:
    more = [
        a_unit("back", 4 + n, -2.3 - 0.3 * n, None, point=(-2.3 - 0.3 * n, 2.0, 1.65))
        for n in range(5)
    ]
    scene = with_units(*more)
    assert told(scene) == [("warn", "too-close", "back")]
    assert says(scene, "too-close") == (
        "Little room between units 3 and 4; 4 and 5; 5 and 6; and 2 more pairs: 0.30 m from clamp to "
        "clamp at the closest, under 0.46 m."
    )


def test_arms_of_a_boom_that_reach_different_ways_may_share_a_height() -> None:
    arm = a_unit("boom", 2, 5.5, "B", mount="arm", arm=0.4, arm_to=0.0)
    assert told(with_units(arm)) == []
    same = a_unit("boom", 2, 5.2, "B", mount="arm", arm=0.4, arm_to=270.0)
    assert told(with_units(same)) == [("warn", "too-close", "boom")]


def test_standing_over_a_pipe_that_flies_warns() -> None:
    scene = with_special(STRAIGHT, mount="over")
    assert told(scene) == []  # dead-hung: no lift lines
    assert told(with_pipe("back", scene, lines=(-5.0, 5.0))) == [
        ("warn", "over-on-flown", "back/4")
    ]


@pytest.mark.parametrize(
    ("at", "end"),
    # A pipe of 6 m either way. 6.5 m: hardly past its end. 12 m: 12 ft are 3.66 m. 40 m: 40 ft are 12.2 m,
    # 40 cm are on it.
    [(6.5, "pipe."), (12.0, "pipe. Feet read as metres?"), (40.0, "pipe. Inches read as metres?")],
)
def test_a_place_far_past_the_end_names_the_slip_of_unit_that_would_fit(
    at: float, end: str
) -> None:
    assert says(with_unit("front/1", at=at), "off-the-end").endswith(end)
