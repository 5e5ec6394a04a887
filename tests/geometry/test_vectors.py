"""Room for numbers; the least and the most along a last axis are numpy's own, however few or many."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.geometry.vectors import FEW, aligned, among, distinct, least, most


@pytest.mark.parametrize("count", [1, 2, 8, FEW, FEW + 1])
def test_least_and_most_are_those_of_numpy(count):
    values = np.random.default_rng(count).normal(size=(3, 5, 4, count))
    values[1, 2, 3, count // 2] = np.nan
    np.testing.assert_array_equal(least(values), values.min(axis=-1))
    np.testing.assert_array_equal(most(values), values.max(axis=-1))


def test_of_nothing_there_is_no_least():
    with pytest.raises(ValueError, match="zero-size"):
        least(np.zeros((3, 0)))


@pytest.mark.parametrize("count", [1, 8, 1003])
def test_every_row_of_a_room_starts_with_a_line_of_the_cache_and_is_its_own(count):
    room = aligned(3, count)
    assert room.shape == (3, count)
    room[...] = [[1.0], [2.0], [3.0]]
    assert room.sum() == 6.0 * count
    assert [row.ctypes.data % 64 for row in room] == [0, 0, 0]


@pytest.mark.parametrize("count", [0, 1, 2, 50])
def test_numbers_each_once_and_among_others_are_those_of_numpy(count):
    rng = np.random.default_rng(count)
    numbers, others = rng.integers(-5, 5, count), rng.integers(0, 4, count // 2)
    for ours, theirs in zip(
        distinct(numbers), np.unique(numbers, return_inverse=True), strict=True
    ):
        np.testing.assert_array_equal(ours, theirs)
    np.testing.assert_array_equal(among(numbers, others), np.isin(numbers, others))
