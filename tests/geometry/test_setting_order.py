"""The order in which a row can be set."""

from __future__ import annotations

from itertools import permutations

import numpy as np

from aimcalc.geometry.sweep import Neighbours, Path, past_neighbours, setting_order
from tests.hung import a_row

BOTH, SQUARE_ONLY, SET_ONLY, NEITHER = (True, True), (True, False), (False, True), (False, False)


def turns(**pairs):
    """Pairs as `u0_1=SQUARE_ONLY`: unit 0 clears unit 1 while that hangs square, not once it is set."""
    keys = [tuple(int(part) for part in key[1:].split("_")) for key in pairs]
    clear = np.array(list(pairs.values()), dtype=bool).reshape(-1, 2)
    nothing = np.zeros(len(keys))
    unit, other = np.array(keys, dtype=int).reshape(-1, 2).T
    paths = [Path(flags, flags, flags, nothing, nothing, nothing.astype(int)) for flags in clear.T]
    return Neighbours(unit, other, *paths)


def test_units_that_pass_each_other_go_in_hang_order():
    told = setting_order(3, turns(u0_1=BOTH, u1_0=BOTH, u1_2=BOTH, u2_1=BOTH))
    assert told.order == (0, 1, 2)
    assert told.before == told.impossible == told.knot == ()


def test_a_unit_that_clears_only_a_square_neighbour_goes_first():
    told = setting_order(2, turns(u1_0=SQUARE_ONLY, u0_1=BOTH))
    assert told.order == (1, 0)
    assert told.before == ((1, 0),)


def test_a_unit_that_clears_only_a_set_neighbour_goes_after():
    told = setting_order(3, turns(u0_1=SET_ONLY, u1_0=BOTH, u1_2=BOTH, u2_1=BOTH))
    assert told.order == (1, 0, 2)


def test_whoever_goes_second_must_clear_the_other_already_set():
    # 0 clears 1 either way, but 1 never clears 0 once that is set: 1 has to go first.
    told = setting_order(2, turns(u0_1=BOTH, u1_0=SQUARE_ONLY))
    assert told.order == (1, 0)


def test_a_pair_that_can_be_set_neither_way_round_is_named():
    told = setting_order(2, turns(u0_1=SQUARE_ONLY, u1_0=SQUARE_ONLY))
    assert told.impossible == ((0, 1),)
    told = setting_order(2, turns(u0_1=NEITHER, u1_0=BOTH))
    assert told.impossible == ((0, 1),)


def test_pairs_that_run_in_a_circle_are_a_knot():
    circle = {"u0_1": SQUARE_ONLY, "u1_0": BOTH, "u1_2": SQUARE_ONLY, "u2_1": BOTH}
    told = setting_order(4, turns(**circle, u2_0=SQUARE_ONLY, u0_2=BOTH, u2_3=BOTH, u3_2=BOTH))
    assert told.knot == (0, 1, 2)
    assert told.order == (3, 0, 1, 2)


def test_every_pair_is_kept_in_a_long_row():
    rng = np.random.default_rng(4)
    rank = rng.permutation(200)
    pairs = {}
    for i in range(199):
        first, second = (i, i + 1) if rank[i] < rank[i + 1] else (i + 1, i)
        pairs[f"u{first}_{second}"] = SQUARE_ONLY
        pairs[f"u{second}_{first}"] = BOTH
    told = setting_order(200, turns(**pairs))
    place = {unit: k for k, unit in enumerate(told.order)}
    assert len(told.before) == 199
    assert all(place[i] < place[j] for i, j in told.before)
    assert sorted(told.order) == list(range(200))


def test_hard_case_8_the_neighbour_is_set_first_where_that_clears_the_way():
    # The neighbour ends panned away (SL) by 60: set first, it leaves room for the other's hat to pass.
    row = a_row([70, 60], 35, hat=6)
    pairs = past_neighbours(row)
    told = setting_order(2, pairs)
    assert told.before == ((1, 0),)
    assert told.order == (1, 0)


def test_the_order_is_the_first_of_all_orders_that_keep_every_pair_by_trying_each():
    """Brute force: of all 120 orders of five units those that keep every pair, the lowest rows first."""
    rng = np.random.default_rng(17)
    knots = 0
    for _ in range(200):
        clear = {
            (i, j): (bool(rng.uniform() < 0.8), bool(rng.uniform() < 0.8))
            for i in range(5)
            for j in range(5)
            if i != j and abs(i - j) <= 2
        }
        told = setting_order(5, turns(**{f"u{i}_{j}": ways for (i, j), ways in clear.items()}))

        def goes(
            first, second, clear=clear
        ):  # past it square, and then the other past this one set
            return clear[first, second][0] and clear[second, first][1]

        pairs = [p for p in clear if p[0] < p[1] and (goes(*p) or goes(*p[::-1]))]
        kept = [
            order
            for order in permutations(range(5))
            if all(
                goes(*p) if order.index(p[0]) < order.index(p[1]) else goes(*p[::-1]) for p in pairs
            )
        ]
        never = {p for p in clear if p[0] < p[1]} - set(pairs)
        assert set(told.impossible) == never
        assert bool(told.knot) == (not kept)
        if kept:
            assert told.order == min(kept)
        knots += not kept
    assert 0 < knots < 150
