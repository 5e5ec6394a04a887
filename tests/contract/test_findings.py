"""Stops where a head electrician would stop, and none where nothing is wrong: rigs as a user writes them."""

from __future__ import annotations

from math import hypot

import pytest

from aimcalc.findings import findings
from tests.toml_rig import kind, level_pipe, rig, table, unit

# A unit as big as most: its lens 0.3 m ahead of the pivot, 0.6 m long, 0.25 m wide.
BODY = {"nose": 0.3, "length": 0.6, "width": 0.25, "drop_under": 0.4, "drop_over": 0.4}
TARGET = table("target", name="t", x=0, y=4, plane="face")
BOOM = table("boom", name="b", x=-5, y=2, height=5)
BOOM_SL = table("boom", name="b", x=5, y=2, height=5)
STAND = table("stand", name="s", x=-3, y=1)


def stops(folder, *tables, scene="", **keys):
    solved = rig(
        folder,
        *tables,
        scene=scene,
        kinds=kind(**{k: v for k, v in {**BODY, **keys}.items() if v is not None}),
    )
    return {(f.rule, f.unit or f.position) for f in findings(solved) if f.severity == "stop"}


CLEAN = {
    "under": (level_pipe(), unit(target="t")),
    "back light": (level_pipe(y=8), unit(target="t")),
    "over": (level_pipe(), unit(target="t", mount="over")),
    "swung out": (level_pipe(), unit(target="t", mount="out", swing_out="30 US")),
    "swung out, facing back": (level_pipe(), unit(target="t", mount="out", swing_out="30 DS")),
    "arm": (BOOM, unit(position="b", at=4, mount="arm", arm=0.6, arm_to="SL", target="t")),
    "arm, other side": (
        BOOM_SL,
        unit(position="b", at=4, mount="arm", arm=0.6, arm_to=225, target="t"),
    ),
    "direct": (BOOM, unit(position="b", at=4, mount="direct", arm_to="DS", target="t")),
    "direct, other side": (BOOM_SL, unit(position="b", at=4, arm_to="US", target="t")),
    "stand, looking up": (STAND, unit(position="s", at=None, point=[0, 4, 3])),
    "straight down": (level_pipe(), unit(at=1, point=[1, 0, 1])),
    "nearly straight down": (level_pipe(), unit(at=1, point=[1, 0.1, 1])),
    "along the pipe": (level_pipe(), unit(at=-4, point=[4, 0, 1])),
    "up-and-down pipe": (
        table("pipe", name="p", start=[4, 7, 6], end=[4, 1, 6]),
        unit(at=2, target="t"),
    ),
    "sloping pipe": (
        table("pipe", name="p", start=[-4, 0, 5], end=[4, 0, 8]),
        unit(at=2, target="t"),
    ),
    "pattern": (level_pipe(), unit(target="t", precise=True)),
}


@pytest.mark.parametrize("name", CLEAN)
def test_nothing_is_stopped_in_a_plain_rig(tmp_path, name):
    assert stops(tmp_path, TARGET, *CLEAN[name]) == set()


# Both ends of a pipe from 2 m SR to 8 m SL, as `at` from each zero mark.
ENDS = [
    ((-2, 8), "centre line", -2, 8),
    ((8, -2), "centre line", -2, 8),
    ((-2, 8), "middle", -5, 5),
    ((-2, 8), "start", 0, 10),
    ((8, -2), "start", -10, 0),
    ((-2, 8), "end", -10, 0),
    ((8, -2), "end", 0, 10),
]


@pytest.mark.parametrize(("ends", "zero", "low", "high"), ENDS)
def test_a_unit_is_off_the_end_only_past_the_end(tmp_path, ends, zero, low, high):
    pipe = level_pipe(from_=ends[0], to=ends[1], zero=zero)
    on = [unit(number=n, at=at, target="t") for n, at in ((1, low), (2, high))]
    assert stops(tmp_path, TARGET, pipe, *on) == set()
    off = [unit(number=n, at=at, target="t") for n, at in ((1, low - 0.02), (2, high + 0.02))]
    assert stops(tmp_path, TARGET, pipe, *off) == {("off-the-end", "p/1"), ("off-the-end", "p/2")}


def test_lift_lines_are_measured_as_units_are(tmp_path):
    """Written from the SL end at 5: zero = start puts x = 2 at -3."""
    pipe = level_pipe(from_=5, to=-5, zero="start", lines=[-3, "8 m SR"])
    hung = [unit(number=n, at=at, target="t") for n, at in ((1, -1), (2, -3), (3, -8))]
    assert stops(tmp_path, TARGET, pipe, *hung) == {
        ("on-lift-line", "p/2"),
        ("on-lift-line", "p/3"),
    }


def test_top_and_foot_of_a_boom_are_its_ends(tmp_path):
    arms = {"mount": "arm", "arm": 0.6, "arm_to": "SL", "target": "t", "position": "b"}
    on = [unit(number=n, at=at, **arms) for n, at in ((1, 5), (2, 0.9))]
    assert stops(tmp_path, TARGET, BOOM, *on) == set()
    off = unit(number=1, at=5.02, **arms)
    assert stops(tmp_path, TARGET, BOOM, off) == {("off-the-end", "b/1")}


def test_a_unit_reported_tail_up_is_stopped(tmp_path):
    hung = unit(target="t", hung="tail up")
    assert stops(tmp_path, TARGET, level_pipe(), hung) == {("upside-down", "p/1")}


def test_a_yoke_that_cannot_go_there_is_stopped(tmp_path):
    """Down is 4 US and 4.35 down: yoke 47.4, or 132.6 upside down."""
    one = unit(target="t")
    assert stops(tmp_path, TARGET, level_pipe(), one, yoke_range=[-90, 60]) == set()
    neither = stops(tmp_path, TARGET, level_pipe(), one, yoke_range=[-90, 40])
    assert neither == {("yoke-travel", "p/1")}
    other = stops(tmp_path, TARGET, level_pipe(), one, yoke_range=[90, 180])
    assert other == {("upside-down", "p/1")}


def test_standing_over_wants_a_yoke_that_turns_over(tmp_path):
    over = unit(target="t", mount="over")
    assert stops(tmp_path, TARGET, level_pipe(), over, yoke_range=[-180, 180]) == set()
    stuck = stops(tmp_path, TARGET, level_pipe(), over, yoke_range=[-90, 90])
    assert stuck == {("upside-down", "p/1")}


@pytest.mark.parametrize(("far", "stopped"), [(0.29, True), (0.31, False)])
def test_a_point_inside_the_unit_is_stopped(tmp_path, far, stopped):
    near = unit(point=[0, 0.8 * far, 6 - 0.6 * far])
    found = stops(tmp_path, level_pipe(), near, length=None, width=None)  # its body strikes nothing
    assert found == ({("target-too-near", "p/1")} if stopped else set())


def test_two_units_of_one_number_are_stopped(tmp_path):
    twice = [unit(at=at, target="t") for at in (-2, 2)]
    assert stops(tmp_path, TARGET, level_pipe(), *twice) == {("number-twice", "p")}


def test_whole_degrees_are_good_enough_for_a_26_and_told_where_they_are_not(tmp_path):
    """10.27 m out, 3.1 aside: pan 16.80, down 22.07. A field of 1 may miss by 0.25."""
    far = table("target", name="t", x=3.1, y=10.27, plane="face")
    assert hypot(3.1, 10.27) == pytest.approx(10.73, abs=0.005)
    assert stops(tmp_path, far, level_pipe(), unit(target="t"), field=26) == set()
    # Pan 16.797 is printed 17: 0.203 cos 22 = 0.19 off; half of 0.25 is allowed to a precise unit.
    tight = stops(tmp_path, far, level_pipe(), unit(target="t", precise=True), field=1)
    assert tight == {("printed-miss", "p/1")}
