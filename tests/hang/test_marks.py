"""Hang marks, spacing and forearms."""

from math import isnan

import pytest

from aimcalc.hang.position import by_forearm, from_ends, swept_radius


@pytest.mark.parametrize(("start", "end"), [(-6.0, 6.0), (6.0, -6.0)])
def test_marks_from_both_ends_add_up_to_the_pipe(start, end):
    first, second = from_ends(1.5, start, end)
    assert first + second == pytest.approx(12.0)
    assert first == pytest.approx(abs(1.5 - start))


def test_a_mark_beyond_the_end_is_negative_there():
    assert from_ends(6.25, -6.0, 6.0) == pytest.approx((12.25, -0.25))


def test_the_swept_circle_goes_through_the_farthest_corner():
    # 0.3 ahead and 0.4 behind the pivot, 0.2 wide: the back corner at hypot(0.4, 0.1).
    assert swept_radius(length=0.7, width=0.2, nose=0.3) == pytest.approx(0.4123105625617661)
    # A 0.3 top hat makes the front the longer end: hypot(0.6, 0.1).
    longer = swept_radius(length=0.7, width=0.2, nose=0.3, ahead=0.3)
    assert longer == pytest.approx(0.608276253029822)


def test_an_unknown_size_sweeps_an_unknown_circle():
    assert isnan(swept_radius(length=None, width=0.2, nose=0.3))
    assert isnan(swept_radius(length=0.7, width=None, nose=0.3))


def test_the_forearm_error_grows_with_the_row():
    one, ten = by_forearm(0.4572), by_forearm(4.572)
    for name in one.__struct_fields__:
        assert getattr(ten, name) == pytest.approx(10 * getattr(one, name))
    assert ten.shortest < ten.women < 0 < ten.men < ten.longest
