"""Cable lengths, turns and ties; the assignment against every possible one and against scipy."""

from itertools import permutations
from math import inf

import numpy as np
import pytest
from scipy.optimize import linear_sum_assignment

from aimcalc.hang.cables import assign, laid, ties


def best_by_trying_all(needs, lengths):
    """Most needs served, then least length: every way to give each need its own cable or none."""
    slots = list(lengths) + [None] * len(needs)
    best = (0, 0.0)
    for choice in set(permutations(range(len(slots)), len(needs))):
        given = [slots[k] for k in choice]
        if all(g is None or g >= n for g, n in zip(given, needs, strict=True)):
            served = [g for g in given if g is not None]
            best = min(best, (-len(served), sum(served)))
    return -best[0], best[1]


@pytest.mark.parametrize("seed", range(12))
def test_no_assignment_serves_more_or_uses_shorter_cables(seed):
    rng = np.random.default_rng(seed)
    needs = rng.uniform(1, 9, 3).round(1).tolist()
    lengths = rng.uniform(2, 10, 4).round(1).tolist()
    given = assign(needs, [(length, 1) for length in lengths])
    used = [lengths[k] for k in given if k is not None]
    most, least = best_by_trying_all(needs, lengths)
    assert len(used) == most
    if most == len(needs):
        assert sum(used) == pytest.approx(least)
    for need, k in zip(needs, given, strict=True):
        assert k is None or lengths[k] >= need


@pytest.mark.parametrize("seed", range(8))
def test_a_whole_rig_of_cables_agrees_with_the_assignment_solver(seed):
    rng = np.random.default_rng(seed)
    needs = np.sort(rng.uniform(1, 20, 40))
    lengths = np.concatenate((rng.uniform(1, 22, 40), np.full(40, 25.0)))
    cost = np.where(lengths >= needs[:, None], lengths, 1e6)
    rows, columns = linear_sum_assignment(cost)
    given = assign(needs.tolist(), [(length, 1) for length in lengths.tolist()])
    total = sum(lengths[k] for k in given if k is not None)
    assert None not in given
    assert total == pytest.approx(cost[rows, columns].sum())


def test_counts_are_used_up():
    assert assign([3, 3, 3], [(5, 2), (10, 1)]) == [0, 0, 1]
    assert assign([3, 3, 3], [(5, 2), (10, 0)]).count(None) == 1


def test_a_run_that_nothing_reaches_takes_nothing_from_the_others():
    assert assign([12, 4], [(5, 1)]) == [None, 0]
    assert assign([2], []) == [None]


def test_a_cable_of_exactly_the_need_serves():
    assert assign([5.0], [(5.0, 1)]) == [0]


@pytest.mark.parametrize("outlet", [-3.0, 0.0, 4.0])
def test_the_turn_lands_the_connector_in_its_place(outlet):
    connector, length = 1.5, 10.0
    lie = laid(outlet, connector, length, (-20, 20))
    assert lie.folds
    assert abs(lie.turn - outlet) + abs(lie.turn - connector) == pytest.approx(length)
    # Past the unit, seen from the outlet.
    assert (lie.turn - connector) * (connector - outlet) > 0


def test_a_cable_with_nothing_to_spare_turns_at_the_connector():
    assert laid(0.0, 4.0, 4.0, (-5, 5)).turn == 4.0


def test_where_the_pipe_ends_too_soon_it_is_doubled_back_behind_the_outlet():
    # 6 to spare, 3 each way: 7 is off a pipe that ends at 6, 3 the other way from the outlet is -3.
    lie = laid(0.0, 4.0, 10.0, (-4, 6))
    assert lie.turn == -3.0
    assert lie.folds
    assert lie.covers == 7.0


def test_a_cable_with_no_room_to_double_back_is_said_so():
    lie = laid(0.0, 4.0, 30.0, (-4, 6))
    assert not lie.folds
    assert lie.turn == -4.0
    assert lie.covers == 8.0
    assert lie.again is None  # 4 + 17 would take the second turn to 13


@pytest.mark.parametrize(
    ("outlet", "connector", "length", "ends", "turn", "again", "covers"),
    [
        # A boom from 0 to 16, outlet 1, connector 15.5, cable 20: 15 up, 2.75 down to 13.25, 2.25 up again.
        (1.0, 15.5, 20.0, (0.0, 16.0), 16.0, 13.25, 15.0),
        # Back past the outlet: 3 up to 3, 5 down to its foot, 2 up.
        (0.0, 0.0, 10.0, (-2.0, 3.0), 3.0, -2.0, 5.0),
        # The other way round: 5 to -3, 3.5 back to 0.5, 1.5 on to -1; it covers 5.
        (2.0, -1.0, 10.0, (-3.0, 2.5), -3.0, 0.5, 5.0),
    ],
)
def test_a_cable_too_long_for_one_turn_turns_twice(
    outlet, connector, length, ends, turn, again, covers
):
    lie = laid(outlet, connector, length, ends)
    assert (lie.turn, lie.again, lie.covers, lie.folds) == (turn, again, covers, False)
    way = abs(turn - outlet) + abs(again - turn) + abs(connector - again)
    assert way == pytest.approx(length)


def test_a_stand_has_the_whole_deck_to_lay_on():
    assert laid(5.0, 0.0, 9.0, (-inf, inf)).turn == -2.0


def test_ties_are_never_farther_apart_than_declared():
    assert ties(3.0, 0.6) == 6  # 0, 0.6, 1.2, 1.8, 2.4, 3.0
    assert ties(3.01, 0.6) == 7
    assert ties(0.1, 0.6) == 2
    assert ties(0.0, 0.6) == 1


def test_spare_cable_is_doubled_back_past_the_unit_and_ends_at_the_connector():
    # Common practice, no source: spare cable lies doubled back along the pipe, never coiled. Outlet
    # at centre line, connector 14 ft SL, a 20 ft cable: 3 ft past the connector and 3 ft back.
    lie = laid(0.0, 14.0, 20.0, (-21.0, 21.0))
    assert lie.turn == 17.0
    assert lie.covers == 17.0


def test_a_tie_every_two_feet_holds_ten_feet_with_six():
    assert ties(10.0, 2.0) == 6


def test_three_runs_and_the_four_cables_of_a_small_store():
    # By hand: 23 needs the 25, 9 the 10, 12 the 15; the second 10 stays in the box. Taking the
    # short runs first would serve them too, but never with less cable.
    assert assign([12, 9, 23], [(10, 2), (15, 1), (25, 1)]) == [1, 0, 2]
