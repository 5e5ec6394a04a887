"""Which kind goes where, against trying every way."""

from __future__ import annotations

from itertools import product

import numpy as np
import pytest
from scipy.optimize import linear_sum_assignment

from aimcalc.coverage.lens_wanted import NONE, assigned


def best_by_trying_all(cost, count):
    """Most places filled, then least cost, over every way of giving kinds (or nothing) to places."""
    best = None
    for kinds in product(range(-1, cost.shape[1]), repeat=cost.shape[0]):
        used = np.bincount([k for k in kinds if k >= 0], minlength=cost.shape[1])
        paid = [cost[place, k] for place, k in enumerate(kinds) if k >= 0]
        if (used > count).any() or not np.all(np.isfinite(paid)):
            continue
        value = (-len(paid), sum(paid))
        best = value if best is None or value < best else best
    return -best[0], best[1]


def test_no_way_of_using_the_stock_is_better():
    rng = np.random.default_rng(8)
    for _ in range(60):
        cost = np.round(rng.uniform(0, 3, (5, 3)), 2)
        cost[rng.uniform(size=cost.shape) < 0.2] = np.inf
        count = rng.integers(0, 7, 3)  # of some there are as many as places, of some not
        got = assigned(cost, count)
        filled = got.kind != NONE
        assert (filled.sum(), got.total) == pytest.approx(best_by_trying_all(cost, count))
        used = np.bincount(got.kind[filled], minlength=3)
        assert (used <= count).all()
        np.testing.assert_array_equal(got.left, count - used)
        np.testing.assert_array_equal(got.cost[filled], cost[filled, got.kind[filled]])


def test_what_is_short_and_what_would_be_next_is_told():
    # Three places want kind 0, there is one; the first would suffer most from kind 1.
    cost = [[0, 2, 9], [0, 0.5, 9], [0, 0.4, 0.7]]
    got = assigned(cost, [1, 1, 5])
    assert got.kind.tolist() == [0, 1, 2]
    assert got.first_choice.tolist() == [0, 0, 0]
    assert got.short.tolist() == [2, 0, 0]
    assert got.left.tolist() == [0, 0, 4]
    assert got.next_best.tolist() == [2, 2, NONE]  # only kind 2 is left over
    np.testing.assert_array_equal(got.next_cost, [9, 9, np.nan])


def test_a_place_for_which_nothing_is_left_is_said_to_be_empty():
    got = assigned([[1.0, np.inf], [2.0, np.inf]], [1, 7])
    assert sorted(got.kind.tolist()) == [NONE, 0]
    assert got.kind[0] == 0
    assert np.isnan(got.cost[1])
    assert got.total == 1


def test_filling_a_place_comes_before_any_saving():
    got = assigned([[0.0, 1e6], [0.0, np.inf]], [1, 1])
    assert got.kind.tolist() == [1, 0]


def test_no_places_and_no_kinds_are_an_empty_answer():
    assert assigned(np.zeros((0, 2)), [3, 3]).kind.size == 0
    assert assigned(np.zeros((2, 0)), np.zeros(0, int)).kind.tolist() == [NONE, NONE]


@pytest.mark.parametrize(("cost", "count"), [([[-1.0]], [1]), ([[np.nan]], [1]), ([[1.0]], [-1])])
def test_negative_and_missing_numbers_are_refused(cost, count):
    with pytest.raises(ValueError, match="costs and counts of 0 or more"):
        assigned(cost, count)


def test_kinds_of_which_there_are_enough_are_not_dealt_out_one_by_one():
    # Twenty thousand places and as many of each kind: one by one that table would be 13 GB.
    cost = np.random.default_rng(4).uniform(0, 2, (20_000, 4))
    assert assigned(cost, [20_000] * 4).kind.tolist() == cost.argmin(axis=1).tolist()


def test_thousands_that_run_short_are_dealt_out_as_cheaply_as_single_units_are():
    # the same table place by place and unit by unit, by scipy's assignment
    rng = np.random.default_rng(7)
    cost, count = rng.uniform(0, 2, (400, 5)), [60, 70, 80, 90, 100]
    single = np.repeat(np.arange(5), count)
    rows, columns = linear_sum_assignment(cost[:, single])
    assert assigned(cost, count).total == pytest.approx(cost[rows, single[columns]].sum())


def test_of_equals_the_last_in_hang_order_moves_on():
    assert assigned(np.array([[0.0, 0.5]] * 4), [2, 9]).kind.tolist() == [0, 0, 1, 1]


def test_a_large_rig_is_quick():
    rng = np.random.default_rng(2)
    got = assigned(rng.uniform(0, 2, (600, 8)), np.full(8, 80))
    assert (got.kind != NONE).all()
