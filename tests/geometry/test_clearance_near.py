"""What comes near what: the grid against every pair looked at, and places packed beyond counting."""

from __future__ import annotations

import tracemalloc

import numpy as np
import pytest
from scipy.spatial import cKDTree

from aimcalc.geometry import clearance as subject


def boxes(rng, count, *, room, sizes):
    middle = rng.uniform(-room, room, (3, count))
    half = rng.choice(sizes, count) * rng.uniform(0.2, 1.0, (3, count))
    return np.stack((middle - half, middle + half))


def every_pair(first, second, within):
    a, b = first[:, :, :, None], second[:, :, None, :]
    with np.errstate(invalid="ignore"):
        touch = ((a[0] <= b[1] + within) & (b[0] <= a[1] + within)).all(axis=0)
    return np.nonzero(touch)


@pytest.mark.parametrize("few", [0, subject.FEW_PAIRS])
@pytest.mark.parametrize("seed", range(6))
def test_the_grid_finds_what_looking_at_every_pair_finds(seed, few, monkeypatch):
    rng = np.random.default_rng(seed)
    monkeypatch.setattr(subject, "FEW_PAIRS", few)
    monkeypatch.setattr(subject, "BOXES_AT_ONCE", 37)
    first = boxes(rng, 70, room=4.0, sizes=[0.01, 0.2, 3.0])
    second = boxes(rng, 50, room=4.0, sizes=[0.0, 0.4, 20.0])
    first[:, :, 5] = np.nan
    within = rng.uniform(0.0, 0.5)
    found = subject.near(first, second, within)
    expected = every_pair(first, second, within)
    assert expected[0].size > 20
    assert [rows.tolist() for rows in found] == [rows.tolist() for rows in expected]


def test_far_apart_places_do_not_overflow_the_grid():
    middle = np.array([[0.0, 1e12, 1e12 + 0.05], [0, 0, 0], [0, 0, 0]])
    some = np.stack((middle - 0.1, middle + 0.1))
    first, second = subject.near(some, some, 0.0)
    assert set(zip(first.tolist(), second.tolist(), strict=True)) == {
        (0, 0),
        (1, 1),
        (2, 2),
        (1, 2),
        (2, 1),
    }


def test_memory_goes_with_what_is_near_and_not_with_every_pair():
    # 20 000 boxes in a row, each touching the next two: 20 000^2 flags alone would be 400 MB.
    x = np.arange(20_000) * 0.5
    middle = np.stack((x, 0 * x, 0 * x))
    some = np.stack((middle - 0.5, middle + 0.5))
    tracemalloc.start()
    first, _ = subject.near(some, some, 0.0)
    _, most = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert first.size == 5 * 20_000 - 6
    assert most < 300e6


@pytest.mark.parametrize("seed", range(4))
def test_crowded_balls_are_those_that_more_than_so_many_meet(seed):
    rng = np.random.default_rng(seed)
    centre, reach = rng.normal(0, 1.0, (3, 300)), np.full(300, 0.4)
    # scipy counts the neighbours of each within twice the reach, itself included.
    met = cKDTree(centre.T).query_ball_point(centre.T, 0.8, return_length=True) - 1
    assert 0 < (met > 12).sum() < 300
    assert subject.most_crowded(centre, reach, 12).tolist() == np.flatnonzero(met > 12).tolist()


def test_balls_packed_in_one_place_are_crowded_without_counting_pairs():
    centre, reach = np.zeros((3, 200_000)), np.full(200_000, 0.5)
    centre[:, -1] = 30.0
    reach[:2] = (
        np.nan,
        0.7,
    )  # no number, and one of another size: with the packed left out it is alone
    assert subject.most_crowded(centre, reach, 60).tolist() == list(range(2, 199_999))
