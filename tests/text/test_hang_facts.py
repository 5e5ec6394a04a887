"""What is told at the head of a position's hang sheet."""

from __future__ import annotations

import pytest

from aimcalc.hang.plan import hang_plan
from aimcalc.hang.records import WedgePlan
from aimcalc.scene.model import Boom, Stand, Unit
from aimcalc.solid.rig import solve_rig
from aimcalc.text.hang_rows import position_lines
from aimcalc.text.wedges import wedge_words
from tests.rigs import a_kind, a_pipe, a_scene


def lines(units, length="m", **scene):
    rig = solve_rig(a_scene(units, **scene))
    plan = hang_plan(rig)
    told = position_lines(rig, plan.positions[0], length)
    return dict(line.split(": ", 1) for line in told)


def unit(number, at, point=(0.0, 5.0, 1.0), **values):
    return Unit(position="p", number=number, kind="k", at=at, point=point, **values)


KIND = [a_kind(weight=10.0)]


def test_weights_are_sums_beside_the_posted_rating():
    # 20 m of pipe at 4 kg/m and two units of 10 kg.
    pipe = a_pipe(pipe_weight=4.0, rating=250.0)
    told = lines([unit("1", 1.0), unit("2", -1.0)], pipes=[pipe], kinds=KIND)
    assert told["WEIGHT"] == (
        "100.0 kg: pipe 80.0 kg and 2 units. Not counted: clamps, safety cables and cable. "
        "Posted rating 250.0 kg."
    )


def test_the_weight_says_what_of_the_gear_is_in_it():
    # 10 kg, clamp 0.7, safety 0.3; one of two in colour with a frame of 0.2: 22.2 kg.
    kind = a_kind(weight=10.0, clamp_weight=0.7, safety_weight=0.3, frame_weight=0.2)
    told = lines([unit("1", 1.0, colour="straw"), unit("2", -1.0)], kinds=[kind])["WEIGHT"]
    assert told.startswith(
        "at least 22.2 kg: 2 units with clamps, colour frames and safety cables. Not counted: cable."
    )


def test_gear_that_is_typed_for_some_only_says_of_how_many():
    boom = Boom(name="p", x=-6.0, y=0.0, height=5.0)
    arm = {"mount": "arm", "arm": 0.5, "arm_to": 90.0}
    units = [unit("1", 3.0, **arm, arm_weight=1.5), unit("2", 2.0, **arm)]
    told = lines(units, pipes=[], booms=[boom], kinds=KIND)["WEIGHT"]
    assert told == (
        "21.5 kg: 2 units with 1 of 2 side arms. "
        "Not counted: clamps, 1 of 2 side arms, safety cables and cable."
    )


def test_a_missing_rating_is_asked_for_and_a_missing_weight_said():
    told = lines([unit("1", 1.0)], kinds=KIND)["WEIGHT"]
    assert told.startswith("at least 10.0 kg: 1 unit.")
    assert told.endswith("No rating is posted: ask a qualified person before it is loaded.")


def test_lift_lines_have_their_loads():
    # One unit midway between two lines: half each.
    pipe = a_pipe(pipe_weight=0.0, lines=(-2.0, 2.0))
    told = lines([unit("1", 0.0)], pipes=[pipe], kinds=KIND)["LINES"]
    assert told == "2.00 m SR 5.0 kg, 2.00 m SL 5.0 kg. Worked out, not measured."
    feet = lines([unit("1", 0.0)], "ft", pipes=[pipe], kinds=KIND)["LINES"]
    assert feet.startswith("6'-7\" SR 11.0 lb, ")


def test_a_slack_line_is_named():
    # Two spans of 2 m, all weight at the middle of the first: the far line would push.
    pipe = a_pipe(pipe_weight=0.0, lines=(-2.0, 0.0, 2.0))
    told = lines([unit("1", -1.0)], pipes=[pipe], kinds=KIND)["LINES"]
    assert told.startswith("2.00 m SR 5.0 kg, CENTRE 5.0 kg, 2.00 m SL SLACK.")


@pytest.mark.parametrize("length", ["m", "ft"])
def test_no_forearm_stands_on_the_sheet(length):
    # What stepping out by forearm gets wrong belongs to the class; its key stays in `hang --json`.
    units = [unit("1", 4.572), unit("2", 0.0), unit("3", -4.572)]
    assert "FOREARM" not in lines(units, length)


def test_wedges_in_words():
    rig = solve_rig(a_scene([unit("1", 0.0), unit("2", 1.0)]))
    wedge = WedgePlan("US", "SL", 24.0, ["p/1", "p/2"])
    assert wedge_words(rig, [wedge]) == "24° SL of US for 1, 2"


def test_a_wedge_is_flipped_for_the_other_swing_and_not_for_the_other_side():
    # Seen from above, US to SL and DS to SR both run clockwise, US to SR runs the other way.
    rig = solve_rig(a_scene([unit(number, 0.0) for number in "123"]))
    first = WedgePlan("US", "SL", 24.0, ["p/1"])
    behind = WedgePlan("DS", "SR", 24.0, ["p/2"])
    mirrored = WedgePlan("US", "SR", 24.0, ["p/3"])
    told = "24° SL of US for 1; SR of DS for 2; flipped, SR of US for 3"
    assert wedge_words(rig, [first, behind, mirrored]) == told


def test_a_boom_and_a_stand_say_where_they_are_put():
    boom = Boom(name="p", x=-5.64, y=1.52, height=5.0)
    arm = unit("1", 3.0, mount="arm", arm=0.5, arm_to=90.0)
    assert lines([arm], pipes=[], booms=[boom])["PLACE"].startswith("5.64 m SR, 1.52 m US, from")
    stand = Stand(name="p", x=1.0, y=-2.0, z=1.2)
    told = lines([unit("1", None, mount="stand")], pipes=[], stands=[stand])["PLACE"]
    assert told.startswith("1.00 m SL, 2.00 m DS")
    assert "its top 1.20 m above the deck" in told
    assert "PLACE" not in lines([unit("1", 0.0)])
