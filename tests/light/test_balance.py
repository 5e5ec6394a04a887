"""Levels that make the targets of a system read alike."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from aimcalc.light.evenness import balanced, level_alone


def test_throws_of_27_and_16_differ_by_their_squares():
    # The same unit at 27 and 16: (27 / 16)^2 = 2.8477, so the nearer one goes to 1 / 2.8477.
    own = 1 / np.array([27.0, 16.0]) ** 2
    np.testing.assert_allclose(level_alone(own), [1, (16 / 27) ** 2])
    even = balanced(np.diag(own), [0, 1])
    np.testing.assert_allclose(even.level, [1, (16 / 27) ** 2])
    assert even.spread == pytest.approx(1)


def test_spill_on_the_neighbour_counts():
    # Two targets; unit 0 gives 100 and 20, unit 1 gives 40 and 50. By Cramer's rule 100 a + 40 b =
    # 20 a + 50 b gives 80 a = 10 b, so a = 0.125 with b at full; both then read 52.5.
    even = balanced([[100, 40], [20, 50]], [0, 1])
    np.testing.assert_allclose(even.level, [0.125, 1])
    np.testing.assert_allclose(even.reading, [52.5, 52.5])
    np.testing.assert_allclose(even.at_full, [140, 70])


def test_two_units_of_one_target_share_its_level():
    even = balanced([[50, 50, 0], [0, 0, 80]], [0, 0, 1])
    np.testing.assert_allclose(even.level, [0.8, 0.8, 1])


@given(st.integers(2, 9), st.integers(0, 10_000))
def test_targets_read_alike_and_one_is_at_full(size, seed):
    rng = np.random.default_rng(seed)
    light = rng.uniform(0, 0.5 / size, (size, size)) + np.diag(rng.uniform(1, 8, size))
    even = balanced(light, np.arange(size))
    np.testing.assert_allclose(light @ even.level, even.reading)
    assert even.spread == pytest.approx(1, abs=1e-6)
    assert even.level.max() == pytest.approx(1)
    assert (even.level > 0).all()


def test_a_target_over_lit_by_spill_cannot_be_balanced_and_that_is_said():
    # Target 1 gets 100 from target 0's unit, more than target 0 does: with its own unit out it is brighter.
    even = balanced([[60, 0], [100, 30]], [0, 1])
    assert even.spread == pytest.approx(100 / 60, rel=1e-3)
    assert even.level[1] < 1e-3


def test_a_target_that_none_of_its_units_lights_is_refused():
    with pytest.raises(ValueError, match=r"expected a unit that lights each target.*target 1"):
        balanced([[60, 5], [10, 0]], [0, 1])


def test_a_dark_unit_has_no_level():
    np.testing.assert_array_equal(level_alone([0.0, 5, 10]), [np.nan, 1, 0.5])
    assert np.isnan(level_alone([0.0])).all()
