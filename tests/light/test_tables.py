"""Measured candela on an even grid."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.light.photometry import Photometry, intensity
from aimcalc.light.tables import candela_table


def record(gamma, candela, c):
    return Photometry(
        path="invented",
        standard="EULUMDAT",
        layout="C",
        c_deg=np.array(c, float),
        gamma_deg=np.array(gamma, float),
        candela=np.array(candela, float),
    )


def read_back(table, gamma, c):
    """Linear in the even table, by numpy's own interpolation, times the peak."""
    steps = np.arange(table.values.shape[1]) * table.step
    if table.values.shape[0] == 1:
        return table.peak_cd * np.interp(gamma, steps, table.values[0])
    rows = np.array([np.interp(gamma, steps, row) for row in table.values])
    turns = np.arange(rows.shape[0]) * table.turn_step
    each = zip(c % (2 * np.pi), rows.T, strict=True)
    return table.peak_cd * np.array([np.interp(at, turns, row) for at, row in each])


@pytest.mark.parametrize("gamma", [[0, 2.5, 5, 40, 90], [0, 0.5, 7, 30.5, 180], [0, 0.06, 90]])
def test_a_rotational_file_with_a_common_step_is_kept_exactly(gamma):
    candela = 1000 * np.exp(-np.array(gamma) / 30)
    candela[-1] = 0
    lamp = record(gamma, [candela], [0])
    at = np.radians(np.linspace(0, 180, 1441))
    np.testing.assert_allclose(
        read_back(candela_table(lamp), at, 0 * at), intensity(lamp, at), atol=1e-9
    )


def test_a_file_all_round_is_kept_exactly():
    rng = np.random.default_rng(4)
    gamma, c = np.arange(0, 185, 5), np.arange(0, 382.5, 22.5)
    candela = rng.uniform(0, 1000, (c.size, gamma.size))
    candela[-1], candela[:, 0] = candela[0], 700
    lamp = record(gamma, candela, c)
    at, turn = np.radians(rng.uniform(0, 180, 500)), np.radians(rng.uniform(-360, 720, 500))
    got = read_back(candela_table(lamp), at, turn)
    np.testing.assert_allclose(got, intensity(lamp, at, turn), rtol=1e-9)


def test_a_file_of_uneven_angles_is_resampled_to_within_its_own_bends():
    # Angles with no common step: linear between 0.02 degree steps differs only next to a bend, by at most
    # the change of slope (under 100 cd a degree) times half a step.
    gamma = np.array([0, 7.1234, 19.8765, 33.3333, 90])
    lamp = record(gamma, [[1000, 900, 500, 60, 0]], [0])
    table = candela_table(lamp)
    assert np.degrees(table.step) == pytest.approx(0.02)
    at = np.radians(np.linspace(0, 90, 7001))
    assert np.abs(read_back(table, at, 0 * at) - intensity(lamp, at)).max() < 100 * 0.01


def test_a_file_that_ends_lit_goes_dark_within_a_degree():
    lamp = record([0, 45, 90], [[100, 100, 100]], [0])
    got = read_back(candela_table(lamp), np.radians([89.9, 91.01]), np.zeros(2))
    np.testing.assert_allclose(got, [100, 0])


def test_the_table_carries_the_peak_and_the_field():
    lamp = record([0, 20, 40], [[500, 250, 0]], [0])
    table = candela_table(lamp)
    assert table.peak_cd == 500
    assert np.degrees(table.field) == pytest.approx(
        72
    )  # 50 cd lies at 20 + 20 (250 - 50) / 250 = 36
