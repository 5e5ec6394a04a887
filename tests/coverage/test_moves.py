"""Sets of moves: growing, settling, widening and thinning never make a system worse."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.coverage.fewest import Wanted, grown, moves_of, settled, thinned, widened
from aimcalc.coverage.helpers import helpers_for
from aimcalc.coverage.study import study_of
from aimcalc.coverage.tries import joined_tries
from tests.coverage.holes import STRIP, a_row


def wanted_and_tries(wrong, **more):
    study = study_of(a_row(wrong, **more))
    home = study.systems["wash"]
    tries = joined_tries([helpers_for(study, home, gap)[1] for gap in home.gaps])
    return study, Wanted(study.plane.grid, home.level, home.below), moves_of(study, tries)


def test_growing_never_leaves_more_missing_and_takes_each_unit_once():
    study, wanted, tries = wanted_and_tries({1: (0.0, 0.0), 4: (0.0, 0.0)}, acting=STRIP)
    moves = grown(study, wanted, tries)
    assert wanted.missing(moves.level(wanted)) < wanted.missing(wanted.level)
    assert len(set(moves.unit.tolist())) == moves.unit.size


def test_settling_never_leaves_more_missing():
    study, wanted, tries = wanted_and_tries({2: (3.0, 0.0)})
    one = tries.take(np.array([0]))
    for step in (0.4, 0.1):
        again = settled(study, wanted, one, (step,))
        assert wanted.missing(again.level(wanted)) <= wanted.missing(one.level(wanted))


def test_widening_moves_units_that_had_no_move_and_thinning_sends_idle_ones_back():
    study, wanted, tries = wanted_and_tries({1: (0.0, 0.0), 4: (0.0, 0.0)})
    wide = widened(study, wanted, tries.take(np.array([0])), np.arange(4))
    assert wanted.area(wide.level(wanted)) <= wanted.area(wanted.level)
    thin = thinned(wanted, wide)
    assert wanted.area(thin.level(wanted)) <= wanted.area(wide.level(wanted))
    for k in range(thin.unit.size):  # none of those left is idle
        without = thin.take(np.delete(np.arange(thin.unit.size), k))
        assert wanted.area(without.level(wanted)) > wanted.area(thin.level(wanted))


def test_missing_counts_dark_points_and_how_dark_they_are():
    grid = study_of(a_row({})).plane.grid
    wanted = Wanted(grid, np.zeros(3), 10.0)
    assert wanted.missing(np.array([10.0, 11, 12])) == 0
    assert wanted.missing(np.array([0.0, 11, 12])) == pytest.approx(1.3)
    assert wanted.missing(np.array([5.0, 11, 12])) == pytest.approx(1.15)
