"""The fewest wedges, against every partition of small rows."""

from functools import cache
from statistics import mean

import numpy as np
import pytest

from aimcalc.hang.weights import fewest_wedges


def partitions(items):
    """Every way to part some items into groups."""
    if not items:
        yield []
        return
    first, rest = items[0], items[1:]
    for parts in partitions(rest):
        yield [[first], *parts]
        for k, part in enumerate(parts):
            yield [*parts[:k], [first, *part], *parts[k + 1 :]]


def settings(group, pans, tolerances):
    """Whole degrees within half of each member's tolerance and within 3 of it, or that its own row prints."""
    printed = [int(np.floor(pan + 0.5)) for pan in pans]
    if len(group) == 1:
        return [printed[group[0]]]
    return [
        d
        for d in range(1, 90)
        if all(d == printed[k] or abs(d - pans[k]) <= min(tolerances[k] / 2, 3) for k in group)
    ]


def best_by_trying_all(pans, tolerances):
    """Fewest wedges over every partition of the rows, and then the least sum of squared departures."""

    @cache
    def least_off(group):
        """The least sum of squares of one wedge for a group; none where no wedge serves it."""
        choices = settings(group, pans, tolerances)
        return min((sum((d - pans[k]) ** 2 for k in group) for d in choices), default=None)

    found = []
    for parts in partitions(list(range(len(pans)))):
        off = [least_off(tuple(group)) for group in parts]
        if None not in off:
            found.append((len(parts), sum(off)))
    return min(found)


@pytest.mark.parametrize("seed", range(40))
def test_no_partition_needs_fewer_nor_sets_them_nearer(seed):
    rng = np.random.default_rng(seed)
    pans = rng.uniform(4.5, 40, rng.integers(1, 8)).round(2).tolist()
    tolerances = rng.uniform(0.4, 30, len(pans)).round(2).tolist()
    wedges = fewest_wedges(pans, tolerances)
    off = sum((w.pan - pans[k]) ** 2 for w in wedges for k in w.rows)
    count, least = best_by_trying_all(pans, tolerances)
    assert (len(wedges), off) == (count, pytest.approx(least))
    assert sorted(k for wedge in wedges for k in wedge.rows) == list(range(len(pans)))


@pytest.mark.parametrize("seed", range(40))
def test_rows_of_one_half_degree_lose_nothing_by_going_together(seed):
    rng = np.random.default_rng(seed)
    pans = (rng.integers(40, 48, 7) / 4 + rng.choice([0.0, 0.01, 0.2], 7)).tolist()
    tolerances = rng.choice([0.01, 0.5, 1.0, 2.0, 3.0], 7).tolist()
    wedges = fewest_wedges(pans, tolerances)
    off = sum((w.pan - pans[k]) ** 2 for w in wedges for k in w.rows)
    count, least = best_by_trying_all(pans, tolerances)
    assert (len(wedges), off) == (count, pytest.approx(least))


def test_a_row_of_ten_thousand_is_cut_as_its_half_degrees_are():
    # A hundred rows, and the same hundred a hundred times over: each does as its like does.
    pans = [20 + 0.1 * (k % 100) for k in range(10_000)]
    once = fewest_wedges(pans[:100], [4.0] * 100)
    many = fewest_wedges(pans, [4.0] * 10_000)
    assert [wedge.pan for wedge in many] == [wedge.pan for wedge in once]
    assert [len(wedge.rows) for wedge in many] == [100 * len(wedge.rows) for wedge in once]


@pytest.mark.parametrize("narrow", [1.0, 4.0])
@pytest.mark.parametrize("wide", [12.0, 40.0])
def test_a_wedge_spends_at_most_half_of_any_members_tolerance(narrow, wide):
    pans, tolerances = [20.0, 24.0, 29.0, 33.0], [wide, narrow, wide, narrow]
    for wedge in fewest_wedges(pans, tolerances):
        assert all(abs(wedge.pan - pans[k]) <= tolerances[k] / 2 for k in wedge.rows)


def test_no_wedge_stands_more_than_three_degrees_from_a_row_however_much_it_may_be_off():
    # 8 and 24 within 40 were once given one of 15. Of 8, 14 and 24: 11 is 3 from 8 and from 14.
    assert [w.pan for w in fewest_wedges([8.0, 24.0], [40.0, 40.0])] == [8.0, 24.0]
    assert [w.pan for w in fewest_wedges([8.0, 14.0, 24.0], [40.0] * 3)] == [11.0, 24.0]
    assert [w.pan for w in fewest_wedges([8.0, 15.0], [40.0] * 2)] == [8.0, 15.0]


def test_a_wedge_stands_at_the_mean_of_those_it_serves():
    # Any setting from 11 to 16 would do for all three.
    pans = [14.0, 13.0, 13.0]
    (wedge,) = fewest_wedges(pans, [18.0, 18.0, 18.0])
    assert wedge.pan == round(mean(pans)) == 13


def test_nothing_is_clipped_at_square_or_along_the_pipe():
    # Ranges that run past 0 and 90: the settings stay what the rows print.
    assert [w.pan for w in fewest_wedges([5.0, 89.0], [30.0, 30.0])] == [5.0, 89.0]
    assert [w.pan for w in fewest_wedges([88.0, 89.0], [30.0, 30.0])] == [89.0]


def test_a_wedge_for_one_unit_says_what_its_row_prints():
    assert [w.pan for w in fewest_wedges([10.4], [0.2])] == [10.0]
    assert [w.pan for w in fewest_wedges([10.5], [30.0])] == [11.0]


def test_units_without_a_pan_or_that_print_less_than_5_need_no_wedge():
    wedges = fewest_wedges([float("nan"), 20.0, 0.4, 0.0, 4.4, 4.5], [5.0] * 6)
    assert [(w.pan, w.rows) for w in wedges] == [(5.0, (5,)), (20.0, (1,))]
    assert fewest_wedges([], []) == []
