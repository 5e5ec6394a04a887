"""Light on a card held square to each unit: candela over distance squared, from anywhere."""

from __future__ import annotations

import numpy as np

from aimcalc.coverage.areas import card_lux
from aimcalc.coverage.sources import Seen
from aimcalc.light.lamps import smooth_lamps


def test_it_is_candela_over_distance_squared_from_above_below_and_level():
    rng = np.random.default_rng(8)
    lens = rng.uniform(-5, 5, (3, 60))
    point = np.array([[0.3], [-0.2], [0.1]])
    lamps = smooth_lamps(lens, point - lens, peak_cd=2000.0, beam=0.3, field=0.5)
    square = ((point - lens) ** 2).sum(axis=0)
    np.testing.assert_allclose(card_lux(lamps, point, Seen(None))[:, 0], 2000 / square, rtol=1e-6)


def test_it_falls_off_the_axis_as_the_candela_do():
    lamps = smooth_lamps(
        np.array([[0.0], [0], [4]]),
        np.array([[0.0], [0], [-1]]),
        peak_cd=1000.0,
        beam=0.5,
        field=0.9,
    )
    edge = np.array([[4 * np.tan(0.45)], [0.0], [0.0]])
    d = 4 / np.cos(0.45)
    np.testing.assert_allclose(card_lux(lamps, edge, Seen(None)), [[100 / d**2]])


def test_what_is_hidden_gets_nothing():
    lamps = smooth_lamps(
        np.array([[0.0], [0], [4]]), np.array([[0.0], [0], [-1]]), peak_cd=1.0, beam=0.5, field=0.9
    )
    points = np.zeros((3, 2))
    lux = card_lux(lamps, points, Seen(np.array([[True, False]])))
    np.testing.assert_allclose(lux, [[1 / 16, 0]])
