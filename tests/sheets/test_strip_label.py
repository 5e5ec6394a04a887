"""Words beside clamp marks keep off lines, neighbours and joints."""

from __future__ import annotations

from math import cos, radians, sin

import pytest

from aimcalc.paper.true_scale import BAND, TALL, half_bar
from aimcalc.sheets.strip.label import labels, marks_on
from aimcalc.sheets.strip.marks import Mark, Tiling

OVER = Tiling(-0.125, 0.25, 9)  # joints at -0.125, 0.125, 0.375 ...


def mark(place, bar=None, number="1"):
    return Mark(place, number, "C", "kind", bar, "", "")


@pytest.mark.parametrize(
    ("place", "bar", "upper", "after"),
    [
        (
            0.0,
            -20.0,
            True,
            True,
        ),  # line from upper first to lower second quarter: words after, above
        (0.0, 20.0, True, False),
        (0.1, -20.0, False, False),  # 25 mm to the joint: words before the mark, below
        (-0.1, 20.0, False, True),
        (0.0, None, True, True),
        (0.1, None, True, False),
        (0.1, 0.0, True, False),
    ],
)
def test_words_take_a_quarter_that_the_bar_line_leaves_free(place, bar, upper, after):
    (label,) = labels([mark(place, bar)], OVER)
    assert label.tile == 0
    assert label.upper is upper
    assert (label.start > label.x) is after
    assert label.start >= 0
    assert label.start + label.width <= 250


def test_words_stay_half_way_to_the_neighbours_and_bars_too():
    marks = [mark(0.0, -30.0), mark(0.08, 30.0, "2"), mark(0.3, -60.0, "3")]
    first, second, third = labels(marks, OVER)
    assert first.start + first.width <= 40 + 1e-9 + first.x or first.start < first.x
    assert second.x - 40 <= second.start
    assert second.start + second.width <= second.x + 110
    assert third.tile == 1
    for line in marks_on(marks[:2], OVER, 0):
        assert line.half * cos(radians(line.angle)) <= 40 + 1e-9


def test_words_keep_off_check_lines():
    # The line would be 30 mm after the mark; the quarter before it, below the bar line, is wide enough.
    (label,) = labels([mark(0.0, -20.0)], OVER, keep_off=[0.03])
    assert not label.upper
    assert label.start + label.width < label.x
    (label,) = labels([mark(0.0, -20.0)], OVER, keep_off=[0.0])  # hidden by the mark itself
    assert label.upper
    assert label.width == pytest.approx(67.0)  # 120 mm to the end of the strip, 50 for END, 3 away


def test_marks_close_together_share_their_words():
    (label,) = labels([mark(0.0, None, "3"), mark(0.01, None, "4")], OVER)
    assert [m.number for m in label.marks] == ["3", "4"]
    assert label.start > label.x + 10  # beyond the second mark


@pytest.mark.parametrize("angle", [0.0, 10.0, 37.0, 89.0, 90.0, -45.0])
def test_a_bar_line_stays_on_its_tile_and_is_as_long_as_it_may_be(angle):
    half = half_bar(angle, 1000.0)
    assert half * abs(sin(radians(angle))) <= TALL / 2 - BAND
    assert half >= 34.0
    assert half_bar(None, 1000.0) == 0.0


def test_a_bar_line_that_reaches_over_a_joint_is_on_both_tiles():
    marks = [mark(0.11, -20.0)]
    assert [line.x for line in marks_on(marks, OVER, 0)] == pytest.approx([235.0])
    assert [line.x for line in marks_on(marks, OVER, 1)] == pytest.approx([-15.0])
    assert marks_on(marks, OVER, 2) == []
    assert marks_on([mark(0.11)], OVER, 1) == []
