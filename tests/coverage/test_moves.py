"""Sets of moves: growing, settling, widening and thinning never make a system worse."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.coverage.fewest import Wanted, grown, settled, thinned, widened
from aimcalc.coverage.helpers import helpers_for
from aimcalc.coverage.new_aims import joined_aims
from aimcalc.coverage.study import study_of
from tests.coverage.holes import STRIP, a_row


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
