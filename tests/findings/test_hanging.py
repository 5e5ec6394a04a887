"""Pipes over their rating, without one, and lines that do not share."""

import pytest

from aimcalc.findings.hanging import weight_findings
from aimcalc.hang.plan import hang_plan
from aimcalc.scene.model import Unit
from aimcalc.solid.rig import solve_rig
from tests.rigs import a_kind, a_pipe, a_scene


def found(places, *, weight=10.0, typical=False, settings=None, **pipe):
    """Rules told about one pipe with 10 kg units."""
    pipe = {"rating": 500.0, "pipe_weight": 0.5, **pipe}
    units = [
        Unit(position="p", number=str(k), at=at, kind="k", point=(at, 4, 1.6))
        for k, at in enumerate(places, 1)
    ]
    scene = a_scene(
        units,
        pipes=[a_pipe(**pipe)],
        kinds=[a_kind(weight=weight, typical=typical)],
        **(settings or {}),
    )
    rig = solve_rig(scene)
    return list(weight_findings(rig, hang_plan(rig)))


def rules(*args, **kwargs):
    return [(f.severity, f.rule) for f in found(*args, **kwargs)]


def test_a_pipe_within_its_rating_says_nothing():
    assert found([1.0, -1.0]) == []


def test_over_the_posted_rating_stops():
    told = found([1.0, -1.0], rating=29.9)  # 20 of units and 10 of pipe
    assert [(f.severity, f.rule) for f in told] == [("stop", "over-rating")]
    assert "30.0 kg" in told[0].says
    assert "29.9 kg" in told[0].says
    assert told[0].says.endswith(" Not counted: clamps, safety cables and cable.")
    assert told[0].position == "p"
    assert rules([1.0, -1.0], rating=30.0) == []


def test_typical_weights_over_a_rating_warn_and_say_so_and_what_is_typed_alone_stops():
    (told,) = found([1.0, -1.0], rating=29.9, typical=True)
    assert (told.severity, told.rule) == ("warn", "over-rating")
    assert told.says.endswith(" By typical weights of k.")
    assert rules([1.0, -1.0], rating=9.9, typical=True) == [
        ("stop", "over-rating")
    ]  # the pipe's own 10


def test_no_rating_asks_for_a_qualified_person_and_assumes_none():
    told = found([1.0], rating=None)
    assert [(f.severity, f.rule) for f in told] == [("warn", "no-rating")]
    assert "qualified person" in told[0].do
    assert told[0].says.endswith(" Not counted: clamps, safety cables and cable.")


def test_a_pipe_without_units_needs_no_rating():
    assert found([], rating=None) == []


def test_missing_weights_are_said_and_the_sum_is_at_least():
    told = found([1.0, 0.0], weight=None, rating=None, pipe_weight=None)
    assert [f.rule for f in told] == ["weight-missing", "no-rating"]
    assert "the pipe itself and units 1 and 2" in told[0].says
    assert told[1].says.endswith("to carry a weight that is not given.")
    some = found([1.0, 0.0], rating=None, pipe_weight=None)  # two units of 10 kg
    assert "to carry at least 20.0 kg." in some[1].says


def test_over_the_rating_even_without_what_is_missing_stops():
    assert ("stop", "over-rating") in rules([1.0, 0.0], rating=15.0, pipe_weight=None)


@pytest.mark.parametrize(("unit", "words"), [("ft", "66.1 lb"), ("m", "30.0 kg")])
def test_weights_are_told_in_the_scenes_own_system(unit, words):
    # 30 kg / 0.45359237 = 66.14 lb (international pound, exact).
    assert words in found([1.0, -1.0], rating=None, settings={"unit": unit})[0].says


def test_a_line_that_goes_slack_is_named():
    told = found([-4.0], pipe_weight=0.0, lines=(-8.0, 0.0, 8.0))
    assert [(f.severity, f.rule) for f in told] == [("warn", "line-slack")]
    assert "8.00 m SL" in told[0].says
    assert "5.0 kg" in told[0].says


def test_weight_beyond_the_lines_stops():
    assert rules([9.0], pipe_weight=0.0, lines=(-8.0, 8.0)) == [("stop", "pipe-tips")]


def test_one_line_alone_warns():
    assert rules([0.0], lines=(0.0,)) == [("warn", "one-line")]


def test_a_line_past_the_end_of_the_pipe_warns():
    assert rules([0.0], lines=(-8.0, 10.5)) == [("warn", "line-off-pipe")]
    assert rules([0.0], lines=(-10.0, 10.0)) == []


def test_two_lines_at_one_place_are_noted():
    assert rules([0.0], lines=(-8.0, -8.0, 8.0)) == [("note", "lines-together")]
