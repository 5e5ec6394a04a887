"""Sets of moves: growing, settling, widening and thinning never make a system worse."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.coverage.helpers import helpers_for
from aimcalc.coverage.moves import Wanted, best_of, grown, settled, thinned, widened
from aimcalc.coverage.new_aims import joined_aims
from aimcalc.coverage.study import study_of
from aimcalc.light.illuminance import contributions
from tests.coverage.holes import FLAT, STRIP, a_row


def wanted_and_tries(wrong, **more):
    study = study_of(a_row(wrong, **more))
    home = study.systems["wash"]
    new = joined_aims([helpers_for(study, home, gap)[1] for gap in home.gaps])
    wanted = Wanted(study, home.level, home.below)
    return wanted, wanted.moves(new)


def test_growing_never_leaves_more_missing_and_takes_each_unit_once():
    wanted, tries = wanted_and_tries({1: (0.0, 0.0), 4: (0.0, 0.0)}, acting=STRIP)
    moves = grown(wanted, tries)
    assert wanted.missing(wanted.after(moves)) < wanted.missing(wanted.level)
    assert len(set(moves.unit.tolist())) == moves.unit.size


def test_settling_never_leaves_more_missing():
    wanted, tries = wanted_and_tries({2: (3.0, 0.0)})
    one = tries.take(np.array([0]))
    for step in (0.4, 0.1):
        again = settled(wanted, one, (step,))
        assert wanted.missing(wanted.after(again)) <= wanted.missing(wanted.after(one))


def test_widening_moves_units_that_had_no_move_and_thinning_sends_idle_ones_back():
    wanted, tries = wanted_and_tries({1: (0.0, 0.0), 4: (0.0, 0.0)})
    wide = widened(wanted, tries.take(np.array([0])), np.arange(4))
    assert wanted.area(wanted.after(wide)) <= wanted.area(wanted.level)
    thin = thinned(wanted, wide)
    assert wanted.area(wanted.after(thin)) <= wanted.area(wanted.after(wide))
    for k in range(thin.unit.size):  # none of those left is idle
        without = thin.take(np.delete(np.arange(thin.unit.size), k))
        assert wanted.area(wanted.after(without)) > wanted.area(wanted.after(thin))


def test_missing_counts_dark_points_and_how_dark_they_are():
    wanted = Wanted(study_of(a_row({})), np.zeros(3), 10.0)
    assert wanted.missing(np.array([10.0, 11, 12])) == 0
    assert wanted.missing(np.array([0.0, 11, 12])) == pytest.approx(1.3)
    assert wanted.missing(np.array([5.0, 11, 12])) == pytest.approx(1.15)


@pytest.mark.parametrize("step", [0.4, 0.1])
def test_what_is_missing_at_places_near_by_is_what_their_light_leaves(step):
    wanted, tries = wanted_and_tries({2: (3.0, 0.0)}, solids=[FLAT])
    points, seen = wanted.study.plane.points, wanted.study.seen.flags
    assert not seen.all()
    need = wanted.below - np.random.default_rng(1).uniform(0, 2 * wanted.below, points.shape[1])
    for near in wanted.near(tries, step, (0.4, 0.1)):
        new = near.new.take(near.rows)
        assert 0 < new.unit.size <= 8
        off = np.abs(new.face[:2] - tries.place[:, [tries.unit.tolist().index(new.unit[0])]])
        assert np.max(off) < 1.5
        light = contributions(new.lamps, points)[0] * seen[new.unit]
        expected = wanted.missing(wanted.below - need + light)
        np.testing.assert_allclose(wanted.missing_at(need, near), expected, atol=0.05)


def test_the_best_try_is_the_first_of_those_that_leave_least_missing():
    wanted, tries = wanted_and_tries({1: (0.0, 0.0), 4: (0.0, 0.0)})
    twice = tries.joined(tries)
    for free in (np.arange(twice.unit.size), np.array([3, 1, twice.unit.size - 1])):
        missing = [wanted.missing(wanted.level + twice.change[k]) for k in free.tolist()]
        best, least = best_of(wanted, wanted.level, twice, free)
        assert (best, least) == (min(free[np.array(missing) == min(missing)]), min(missing))
    assert best_of(wanted, wanted.level, tries, np.zeros(0, int)) == (-1, np.inf)
