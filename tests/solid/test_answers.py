"""What is told about each unit: the public keys and what they hold."""

from __future__ import annotations

import msgspec
import pytest

from aimcalc.scene.model import Stage, Target, Unit
from aimcalc.solid.rig import solve_rig
from tests.rigs import ANSWER_KEYS, a_kind, a_pipe, a_scene


def told(unit, targets=(), **scene):
    return solve_rig(a_scene([unit], list(targets), **scene)).answers[0]


def test_every_unit_has_exactly_the_public_keys():
    answer = told(Unit(position="p", number="1", at=1.0, kind="k", point=(0, 4, 1)))
    assert list(msgspec.to_builtins(answer)) == ANSWER_KEYS


def test_a_point_has_nobody_standing_there_but_a_deck_beneath_it():
    answer = told(
        Unit(position="p", number="1", at=0.0, kind="k", point=(0, 4, 1)), stage=Stage(rake=0.1)
    )
    assert (answer.stand, answer.past_stand, answer.target) == (None, None, None)
    assert answer.face == (0, 4, 1)
    # The deck under the point is 0.4 m up: the deck pool is cut there.
    assert answer.deck_pool.centre[2] == pytest.approx(0.4)


@pytest.mark.parametrize(
    ("plane", "z", "face", "stand"),
    [
        ("face", None, 1.65, (1, 4, 0)),
        ("face", 0.5, 2.15, (1, 4, 0.5)),
        ("deck", None, 0.0, (1, 4, 0)),
        ("deck", 0.5, 0.5, (1, 4, 0.5)),
        ("point", 2.5, 2.5, None),
        ("point", None, 0.0, None),
    ],
)
def test_face_deck_and_point_targets(plane, z, face, stand):
    unit = Unit(position="p", number="1", at=0.0, kind="k", target="t")
    answer = told(unit, [Target(name="t", x=1.0, y=4.0, z=z, plane=plane)])
    assert answer.face == pytest.approx((1, 4, face))
    assert answer.stand == stand


def test_tolerance_is_a_share_of_the_field_and_half_of_it_where_precise():
    plain = Unit(position="p", number="1", at=0.0, kind="k", point=(0, 4, 1))
    fine = Unit(position="p", number="2", at=1.0, kind="k", point=(0, 4, 1), precise=True)
    one, two = solve_rig(a_scene([plain, fine], tolerance=0.2)).answers
    by_number = {one.number: one.down_tolerance, two.number: two.down_tolerance}
    assert by_number == pytest.approx({"1": 5.2, "2": 2.6})


def test_numbers_that_do_not_exist_are_null_and_never_nan():
    inside = Unit(position="p", number="1", at=0.0, kind="k", point=(0, 0.1, 5.64))
    text = msgspec.json.encode(told(inside, kinds=[a_kind(nose=0.5)])).decode()
    assert '"throw":null' in text
    assert "NaN" not in text
    assert "Infinity" not in text


def test_a_level_beam_never_lands_and_its_open_pool_has_no_size():
    unit = Unit(position="p", number="1", at=0.0, kind="k", point=(0, 8, 3))
    answer = told(unit, kinds=[a_kind(drop_under=0.0)], pipes=[a_pipe(trim=3.0)])
    assert answer.down == pytest.approx(0)
    assert answer.lands is None
    assert answer.face_pool is None  # the lens lies in the level plane through the point
    assert answer.deck_pool.closed is False
    assert (answer.deck_pool.far, answer.deck_pool.area, answer.deck_pool.width) == (
        None,
        None,
        None,
    )
    assert answer.per_degree_down is None


def test_headings_run_from_0_to_360_and_down_is_below_level():
    west = told(Unit(position="p", number="1", at=0.0, kind="k", point=(-5, 0, 9)))
    assert west.heading == pytest.approx(270)
    assert west.down < 0
    assert (west.square, west.swing, west.pan) == ("US", "SR", pytest.approx(90))


def test_a_skewed_unit_on_a_pipe_along_x_has_its_sight_mark_where_the_plan_line_crosses():
    """Clamp 2 m SL, tape 3 m upstage; from (2, 0) towards (5, 4) the line crosses y = 3 at x = 4.25."""
    answer = told(Unit(position="p", number="1", at=2.0, kind="k", point=(5, 4, 1)))
    assert answer.sight == pytest.approx(4.25)


def numbers_in(value):
    """Every number of a record, however deep."""
    if isinstance(value, dict):
        value = list(value.values())
    if isinstance(value, (list, tuple)):
        return [number for part in value for number in numbers_in(part)]
    return [value] if isinstance(value, float) else []


@pytest.mark.parametrize("x", [0.0, -0.0, 1e-300, -1e-300, 5e-17, -5e-17])
def test_rounding_of_a_sum_is_told_as_plain_zero(x):
    answer = told(Unit(position="p", number="1", at=-0.0, kind="k", point=(x, 4.0, 1.0)))
    some = numbers_in(msgspec.to_builtins(answer))
    assert answer.face[0] == 0.0
    assert some.count(0.0) >= 3  # x of clamp, pivot and face at the least
    assert [n for n in some if 0 < abs(n) < 1e-12 or str(n) == "-0.0"] == []


def test_a_small_number_that_means_something_is_kept():
    answer = told(Unit(position="p", number="1", at=0.0, kind="k", point=(1e-9, 4.0, 1.0)))
    assert answer.face[0] == 1e-9
