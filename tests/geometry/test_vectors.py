"""The least and the most along a last axis are numpy's own, however few or many there are."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.geometry.vectors import FEW, least, most


@pytest.mark.parametrize("count", [1, 2, 8, FEW, FEW + 1])
def test_least_and_most_are_those_of_numpy(count):
    values = np.random.default_rng(count).normal(size=(3, 5, 4, count))
    values[1, 2, 3, count // 2] = np.nan
    np.testing.assert_array_equal(least(values), values.min(axis=-1))
    np.testing.assert_array_equal(most(values), values.max(axis=-1))


def test_of_nothing_there_is_no_least():
    with pytest.raises(ValueError, match="zero-size"):
        least(np.zeros((3, 0)))
