"""Triangles to stand on: heights, a slab at a time."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.geometry import deck
from aimcalc.geometry.deck import highest

# A ramp from z = 0 at x = 4 to z = 1 at x = 6, y from 0 to 2.
RAMP = np.array(
    [[(4, 0, 0), (6, 0, 1), (6, 2, 1)], [(4, 0, 0), (6, 2, 1), (4, 2, 0)]], dtype=float
).transpose(1, 2, 0)
UPRIGHT = np.array([[(0, 0, 0), (0, 1, 0), (0, 1, 3)]], dtype=float).transpose(1, 2, 0)


def test_a_ramp_is_as_high_as_its_slope_and_nothing_beside_it():
    told = highest(RAMP, np.array([4.5, 6.0, 5.0, 7.0]), np.array([0.2, 2.0, 1.0, 1.0]))
    assert told == pytest.approx([0.25, 1.0, 0.5, np.nan], nan_ok=True)


def test_the_highest_of_two_counts_in_either_order():
    over = RAMP + np.array([0.0, 0.0, 2.0])[None, :, None]
    for both in ((RAMP, over), (over, RAMP)):
        told = highest(np.concatenate(both, axis=2), np.array([5.0]), np.array([1.0]))
        assert told == pytest.approx([2.5])


def test_an_upright_triangle_has_no_height():
    assert np.isnan(highest(UPRIGHT, np.array([0.0]), np.array([0.9]))).all()


def test_there_is_no_height_where_there_is_nothing():
    none = np.zeros((3, 3, 0))
    assert np.isnan(highest(none, np.zeros(2), np.zeros(2))).all()
    assert highest(RAMP, np.zeros(0), np.zeros(0)).size == 0


def test_a_step_of_slabs_changes_no_height(monkeypatch):
    rng = np.random.default_rng(2)
    corners = rng.uniform(-3, 3, (3, 3, 60))
    x, y = rng.uniform(-3, 3, (2, 30))
    whole = highest(corners, x, y)
    monkeypatch.setattr(deck, "PAIRS_AT_ONCE", 70)
    assert highest(corners, x, y) == pytest.approx(whole, abs=0, nan_ok=True)
    assert np.isfinite(whole).any()
