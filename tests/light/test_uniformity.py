"""How even the light is."""

from __future__ import annotations

import numpy as np

from aimcalc.light.evenness import uniformity


def test_a_hand_case():
    # Mean 200; half of it is 100, which counts as above: three of four.
    assert uniformity([100, 50, 250, 400]) == (200, 50, 400, 0.25, 0.75)
    # Mean 100: U0 is 80 / 100 (least over average), not 80 / 120 (least over most).
    assert uniformity([100, 120, 80, 100]).u0 == 0.80


def test_an_even_wash_is_1_and_a_dark_one_0():
    assert uniformity(np.full((3, 4), 7.0)) == (7, 7, 7, 1, 1)
    assert uniformity([0.0, 0.0]) == (0, 0, 0, 0, 0)


def test_no_points_have_no_numbers():
    assert all(np.isnan(uniformity([])))
