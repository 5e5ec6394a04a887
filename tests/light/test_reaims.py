"""The fewest re-aims, against trying every set."""

from __future__ import annotations

from itertools import combinations

import numpy as np
import pytest
from scipy import ndimage

from aimcalc.light.grid import grid_over
from aimcalc.light.reaims import Problem, Search, fewest_reaims

GRID = grid_over([(0, 0), (6, 0), (6, 4), (0, 4)], spacing=0.25)
X, Y = GRID.plan()
BELOW, SMALLEST = 50.0, 0.1


def holes_left(level):
    """Count of holes of at least the smallest size, worked out afresh on the laid-out sheet."""
    sheet = level.reshape(GRID.inside.shape) < BELOW
    labels, count = ndimage.label(sheet, structure=np.ones((3, 3)))
    return sum(np.sum(labels == k + 1) * GRID.cell_area >= SMALLEST for k in range(count))


def fewest_by_trying_all(level, change, unit):
    for size in range(len(set(unit)) + 1):
        for some in combinations(range(len(unit)), size):
            apart = len({unit[k] for k in some}) == size
            if apart and not holes_left(level + change[list(some)].sum(axis=0)):
                return size
    return None


def blob(x, y, radius, light):
    return light * np.exp(-((X - x) ** 2 + (Y - y) ** 2) / radius**2)


def random_case(rng):
    level = 60 + 8 * np.sin(X * rng.uniform(0.5, 2) + rng.uniform(0, 6)) * np.cos(Y)
    for _ in range(rng.integers(1, 4)):
        level = level - blob(*rng.uniform([0, 0], [6, 4]), rng.uniform(0.4, 0.9), 40)
    unit = np.repeat(np.arange(4), 2)
    change = np.array(
        [
            blob(*rng.uniform([0, 0], [6, 4]), rng.uniform(0.7, 1.6), rng.uniform(20, 60))
            - blob(*rng.uniform([0, 0], [6, 4]), 0.6, rng.uniform(0, 30))
            for _ in unit
        ]
    )
    return level, change, unit


def test_the_search_finds_the_fewest_that_trying_every_set_finds():
    sizes = []
    for seed in range(60):
        level, change, unit = random_case(np.random.default_rng(seed))
        expected = fewest_by_trying_all(level, change, unit)
        got = fewest_reaims(Problem(GRID, level, change, unit, BELOW), looks=10**6)
        assert got.proved
        assert got.closed == (expected is not None), seed
        if expected is not None:
            assert len(got.chosen) == expected == got.at_least, seed
            assert not holes_left(level + change[list(got.chosen)].sum(axis=0))
            assert len(set(unit[list(got.chosen)])) == expected  # a unit takes one new aim
            sizes.append(expected)
        else:
            assert got.left > 0
    assert {1, 2} <= set(sizes)  # the cases are not all of one kind
    assert len(sizes) < 60


def test_greedy_is_not_enough_and_the_search_sees_it():
    # Two holes. One wide candidate half-fills both and looks best at first, but two narrow ones, one to each,
    # close them; with the wide one first three would be needed.
    holes = [(1.5, 2), (4.5, 2)]
    level = 100 - blob(*holes[0], 1, 80) - blob(*holes[1], 1, 80)
    wide = blob(*holes[0], 1.4, 22) + blob(*holes[1], 1.4, 22)
    narrow = [blob(*hole, 1.2, 40) for hole in holes]
    change = np.array([wide, *narrow])
    unit = np.arange(3)
    got = fewest_reaims(Problem(GRID, level, change, unit, BELOW))
    alone = [holes_left(level + one) for one in change]
    assert alone == [2, 1, 1]
    assert np.argmin([np.sum(level + one < BELOW) for one in change]) == 0  # greedy's first choice
    assert fewest_by_trying_all(level, change, unit) == 2
    assert sorted(got.chosen) == [1, 2]
    assert got.proved


def test_no_hole_needs_no_change():
    got = fewest_reaims(
        Problem(GRID, np.full(GRID.size, 60.0), np.zeros((1, GRID.size)), np.zeros(1, int), BELOW)
    )
    assert got == ((), True, True, 0, 0.0, 0)


def test_holes_that_nothing_helps_are_left_and_said():
    level = 60 - blob(3, 2, 0.8, 50)
    none = fewest_reaims(Problem(GRID, level, np.zeros((0, GRID.size)), np.zeros(0, int), BELOW))
    away = fewest_reaims(Problem(GRID, level, blob(0, 0, 0.3, 30)[None], np.zeros(1, int), BELOW))
    for got in (none, away):
        assert (got.chosen, got.closed, got.proved) == ((), False, True)
        assert got.left == pytest.approx(np.sum(level < BELOW) * GRID.cell_area)


def test_running_out_of_looks_is_said_and_the_greedy_set_given():
    level, change, unit = random_case(np.random.default_rng(1))
    told = []
    got = fewest_reaims(
        Problem(GRID, level, change, unit, BELOW),
        looks=1,
        progress=lambda done, most: told.append((done, most)),
    )
    assert told == [(1, 1)]
    assert got.looks == 1
    full = fewest_reaims(Problem(GRID, level, change, unit, BELOW), looks=10**6)
    if len(full.chosen) > 1:
        assert not got.proved


def test_a_row_of_dark_points_is_a_hole_and_other_holes_are_still_found():
    # cells of 0.0625 m2 and holes from 0.25 m2 on: four points side by side, or one above the other
    problem = Problem(
        GRID, np.full(GRID.size, 60.0), np.zeros((1, GRID.size)), np.zeros(1, int), BELOW, 0.25
    )
    search = Search(problem, 10**6, None)
    sheets = np.zeros((5, *GRID.inside.shape), np.bool_)
    columns = GRID.inside.shape[1]
    sheets[0, 3, 5:9] = True
    sheets[1, 3:7, 5] = True
    sheets[2, 3, 5:8] = True
    sheets[3, 3, columns - 2 :] = sheets[3, 4, :2] = (
        True  # the end of a row and the start of the next
    )
    left = search.left(sheets.reshape(5, -1), only_whether=True)
    assert left.tolist() == [np.inf, 0.25, 0, 0, 0]
    assert search.left(sheets.reshape(5, -1)).tolist() == [0.25, 0.25, 0, 0, 0]
    assert search.looks == 10
