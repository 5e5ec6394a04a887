"""Marks point where they say, and lines are cut exactly at the frame."""

from itertools import pairwise

import numpy as np
import pytest

from aimcalc.paper import marks

FRAME = (0.0, 0.0, 10.0, 6.0)


@pytest.mark.parametrize("family", marks.FAMILIES)
@pytest.mark.parametrize(
    ("heading", "way"), [(0, (0, 1)), (90, (1, 0)), (180, (0, -1)), (270, (-1, 0))]
)
def test_a_symbol_points_along_its_heading_up_the_page_is_upstage(family, heading, way):
    symbol = marks.unit_symbol(family, 50.0, 40.0, heading, 8.0)
    along = (symbol.outline - (50.0, 40.0)) @ np.array(way, float)
    across = (symbol.outline - (50.0, 40.0)) @ np.array((way[1], -way[0]), float)
    assert across.max() == pytest.approx(-across.min())
    front, back = along >= along.max() - 1e-9, along <= along.min() + 1e-9
    nose, tail = np.ptp(across[front]), np.ptp(across[back])
    # The nose of a long unit is its narrow end; a flood opens towards what it lights.
    assert (nose > tail) if family in ("flood", "cyc") else (nose < tail)


def test_every_family_is_drawn_unlike_the_others():
    drawn = {
        family: tuple(
            part.round(6).tobytes()
            for part in (lambda s: [s.outline, *s.strokes])(marks.unit_symbol(family, 0, 0, 0, 8))
        )
        for family in marks.FAMILIES
    }
    assert len(set(drawn.values())) == len(marks.FAMILIES)


def test_a_unit_straight_down_has_no_nose():
    symbol = marks.unit_symbol("ers", 5.0, 5.0, None, 10.0)
    away = np.hypot(*(symbol.outline - (5.0, 5.0)).T)
    assert away == pytest.approx(np.full(len(away), 3.5))


def test_an_arrow_head_ends_at_its_tip_and_lies_behind_it():
    head = marks.arrow_head(np.array([9.0, 3.0]), np.array([1.0, 3.0]))
    assert head[0] == pytest.approx((9.0, 3.0))
    assert head[1:, 0] == pytest.approx((9.0 - marks.HEAD,) * 2)
    assert head[1:, 1].mean() == pytest.approx(3.0)


def test_a_line_inside_is_left_alone():
    line = np.array([(1.0, 1.0), (9.0, 5.0), (2.0, 3.0)])
    (run,) = marks.inside(line, FRAME)
    assert (run.points == line).all()
    assert not run.cut_start
    assert not run.cut_end


def test_a_line_across_is_cut_at_both_sides():
    (run,) = marks.inside(np.array([(-5.0, 1.0), (15.0, 5.0)]), FRAME)
    # y = 1 + 4 (x + 5) / 20 by hand: 2 at x = 0, 4 at x = 10.
    assert run.points == pytest.approx(np.array([(0.0, 2.0), (10.0, 4.0)]))
    assert run.cut_start
    assert run.cut_end


def test_a_line_that_leaves_and_returns_is_two_runs():
    first, second = marks.inside(np.array([(5.0, 3.0), (5.0, 9.0), (7.0, 9.0), (7.0, 3.0)]), FRAME)
    assert first.points == pytest.approx(np.array([(5.0, 3.0), (5.0, 6.0)]))
    assert second.points == pytest.approx(np.array([(7.0, 6.0), (7.0, 3.0)]))
    assert (first.cut_start, first.cut_end) == (False, True)
    assert (second.cut_start, second.cut_end) == (True, False)


@pytest.mark.parametrize(
    "line", [[(-5.0, -1.0), (15.0, -1.0)], [(11.0, -9.0), (20.0, 9.0)], [(-1.0, 3.0), (-1.0, 3.0)]]
)
def test_a_line_outside_is_gone(line):
    assert marks.inside(np.array(line), FRAME) == []


def test_no_points_make_no_run():
    assert marks.inside(np.zeros((0, 2)), FRAME) == []


def test_what_is_kept_of_a_wandering_line_is_what_lies_inside():
    """Against dense points along the line, each asked for by itself whether it lies inside."""
    rng = np.random.default_rng(11)
    line = rng.uniform((-6, -6), (16, 12), (60, 2))
    runs = marks.inside(line, FRAME)
    kept = sum(np.hypot(*np.diff(run.points, axis=0).T).sum() for run in runs)
    t = (np.arange(4000) + 0.5) / 4000
    expected = 0.0
    for a, b in pairwise(line):
        dots = a + t[:, None] * (b - a)
        share = ((dots >= FRAME[:2]) & (dots <= FRAME[2:])).all(axis=1).mean()
        expected += share * np.hypot(*(b - a))
    assert kept == pytest.approx(expected, rel=1e-3)
    for run in runs:
        assert (run.points >= np.array(FRAME[:2]) - 1e-9).all()
        assert (run.points <= np.array(FRAME[2:]) + 1e-9).all()
