"""Measured candela on an even grid of the file's own angles."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.interpolate import RegularGridInterpolator

from aimcalc.light.lamps import candela_table
from aimcalc.light.photometry import Photometry, intensity


def record(gamma, candela, c, layout="C"):
    return Photometry(
        path="invented",
        standard="EULUMDAT",
        layout=layout,
        c_deg=np.array(c, float),
        gamma_deg=np.array(gamma, float),
        candela=np.array(candela, float),
    )


def read_back(table, gamma, c=0.0):
    """Linear in the even table, by scipy's own interpolation, times the peak; zero outside it."""
    c, gamma = np.broadcast_arrays(c, gamma)
    turn = (c + np.pi) % (2 * np.pi) - np.pi if table.layout == "C" else c
    axes = [
        start + step * np.arange(count)
        for start, step, count in zip(table.start, table.step, table.values.shape, strict=True)
    ]
    if table.values.shape[0] == 1:
        return table.peak_cd * np.interp(gamma, axes[1], table.values[0], right=0.0)
    linear = RegularGridInterpolator(axes, table.values, bounds_error=False, fill_value=0.0)
    return table.peak_cd * linear(np.stack((turn, gamma), axis=-1))


@pytest.mark.parametrize("gamma", [[0, 2.5, 5, 40, 90], [0, 0.5, 7, 30.5, 180], [0, 0.06, 90]])
def test_a_rotational_file_with_a_common_step_is_kept_exactly(gamma):
    candela = 1000 * np.exp(-np.array(gamma) / 30)
    candela[-1] = 0
    lamp = record(gamma, [candela], [0])
    at = np.radians(np.linspace(0, 179.99, 1441))
    table = candela_table(lamp)
    np.testing.assert_allclose(read_back(table, at), intensity(lamp, at), atol=1e-9)
    assert table.error == 0


@pytest.mark.parametrize("step", [22.5, 24.0])  # 24 divides 360 but not 180
def test_a_file_all_round_is_kept_exactly(step):
    rng = np.random.default_rng(4)
    gamma, c = np.arange(0, 185, 5), np.arange(0, 360 + step, step)
    candela = rng.uniform(0, 1000, (c.size, gamma.size))
    candela[-1], candela[:, 0] = candela[0], 700
    lamp = record(gamma, candela, c)
    at, turn = np.radians(rng.uniform(0, 180, 500)), np.radians(rng.uniform(-360, 720, 500))
    table = candela_table(lamp)
    np.testing.assert_allclose(read_back(table, at, turn), intensity(lamp, at, turn), rtol=1e-9)
    assert table.error == 0


@pytest.mark.parametrize("layout", ["A", "B"])
def test_types_a_and_b_keep_their_own_angles(layout):
    rng = np.random.default_rng(4)
    c, gamma = np.array([-40, -20, -5, 0, 7.5, 40]), 90 + np.array([-30, -10, 0, 2.5, 30])
    lamp = record(gamma, rng.uniform(0, 1000, (6, 5)), c, layout)
    table = candela_table(lamp)
    assert np.degrees(table.step) == pytest.approx((2.5, 2.5))
    assert table.ends
    assert table.error == 0
    named = read_back(table, np.radians(gamma)[None], np.radians(c)[:, None])
    np.testing.assert_allclose(named, lamp.candela, rtol=1e-9)


def test_a_file_of_uneven_angles_says_how_far_off_its_even_grid_is():
    # Angles with no common step: linear between 0.02 degree steps differs only next to a bend, by at most
    # the change of slope (under 100 cd a degree) times a quarter of a step.
    gamma = np.array([0, 7.1234, 19.8765, 33.3333, 90])
    lamp = record(gamma, [[1000, 900, 500, 60, 0]], [0])
    table = candela_table(lamp)
    assert np.degrees(table.step[1]) == pytest.approx(0.02)
    at = np.radians(np.concatenate((np.linspace(0, 90, 70_001), gamma)))
    found = np.abs(read_back(table, at) - intensity(lamp, at)).max() / 1000
    assert 0 < found <= table.error * 1.001
    assert table.error < 100 * 0.02 / 4 / 1000
    assert found == pytest.approx(table.error, rel=0.01)


@pytest.mark.parametrize("layout", ["C", "A", "B"])
def test_an_uneven_file_in_two_angles_says_so_too(layout):
    rng = np.random.default_rng(6)
    c = np.unique(np.round(np.append([0, 360], rng.uniform(0, 360, 15)), 3))
    gamma = np.unique(np.round(np.append([0, 90], rng.uniform(0, 90, 20)), 3))
    if layout != "C":
        c, gamma = (c - 180) / 3, 90 + (gamma - 45) / 2
    lamp = record(gamma, rng.uniform(500, 1000, (c.size, gamma.size)), c, layout)
    lamp.candela[-1] = lamp.candela[0]
    table = candela_table(lamp)
    at = np.radians(rng.uniform(gamma[0], gamma[-1], 100_000))
    turn = np.radians(rng.uniform(c[0], c[-1], 100_000))
    own = RegularGridInterpolator((np.radians(c), np.radians(gamma)), lamp.candela)
    apart = np.abs(read_back(table, at, turn) - own(np.stack((turn, at), axis=-1)))
    assert 0.3 * table.error < apart.max() / table.peak_cd <= table.error * 1.001


def test_a_file_that_ends_lit_ends_there():
    lamp = record([0, 45, 90], [[100, 100, 100]], [0])
    table = candela_table(lamp)
    assert table.ends
    np.testing.assert_allclose(read_back(table, np.radians([89.9, 90.01])), [100, 0])


def test_a_file_that_ends_as_good_as_dark_covers_every_direction():
    table = candela_table(record([0, 45, 90], [[100, 50, 1e-9]], [0]))
    assert not table.ends
    assert table.values.shape == (1, 5)


def test_the_table_carries_the_peak_and_the_field():
    lamp = record([0, 20, 40], [[500, 250, 0]], [0])
    table = candela_table(lamp)
    assert table.peak_cd == 500
    # 50 cd lies at 20 + 20 (250 - 50) / 250 = 36
    assert np.degrees(table.field) == pytest.approx(72)
