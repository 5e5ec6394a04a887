"""The fewest wedges, against trying every choice of settings."""

from itertools import combinations

import numpy as np
import pytest

from aimcalc.rig.hang.wedges import fewest_wedges


def fewest_by_trying_all(pans, tolerances):
    """Some best set uses only upper ends of ranges: try every set of them, smallest first."""
    ends = [pan + tol for pan, tol in zip(pans, tolerances, strict=True)]
    for count in range(1, len(pans) + 1):
        for choice in combinations(ends, count):
            if all(
                any(abs(w - pan) <= tol + 1e-12 for w in choice)
                for pan, tol in zip(pans, tolerances, strict=True)
            ):
                return count
    return 0


@pytest.mark.parametrize("seed", range(40))
def test_no_choice_of_settings_needs_fewer(seed):
    rng = np.random.default_rng(seed)
    pans = rng.uniform(12, 70, rng.integers(1, 9)).tolist()
    tolerances = rng.uniform(0.5, 12, len(pans)).tolist()
    wedges = fewest_wedges(pans, tolerances)
    assert len(wedges) == fewest_by_trying_all(pans, tolerances)
    for wedge in wedges:
        for k in wedge.rows:
            assert abs(wedge.pan - pans[k]) <= tolerances[k] + 1e-12
    assert sorted(k for wedge in wedges for k in wedge.rows) == list(range(len(pans)))


def test_settings_are_whole_degrees_where_the_rows_allow_one():
    assert fewest_wedges([10.3, 13.9], [2.5, 2.5])[0].pan == 12.0
    assert fewest_wedges([10.4], [0.2])[0].pan == pytest.approx(10.4)


def test_settings_stay_between_square_and_along_the_pipe():
    # Cut to 0..4 and 86..90; their middles are 2 and 88.
    assert [w.pan for w in fewest_wedges([1.0, 89.0], [3.0, 3.0])] == [2.0, 88.0]


def test_units_without_a_pan_need_no_wedge():
    wedges = fewest_wedges([float("nan"), 20.0], [5.0, 5.0])
    assert [w.rows for w in wedges] == [(1,)]
    assert fewest_wedges([], []) == []
