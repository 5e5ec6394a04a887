"""Photometric files worked out by hand: angles, light on the floor, lumens of ideal sources."""

from __future__ import annotations

from math import acos, cos, degrees, pi, radians

import numpy as np
import pytest
from scipy.integrate import quad

from aimcalc.light.lamps import candela_table, measured_lamps
from tests.printed_lamps import ACROSS, DOWN, DUMMY, at, dummy, level, lm63


# An example file of LM-63-1991, published in the help of two general drafting programs; the angles by hand.
def test_the_two_definitions_differ_where_the_peak_is_off_the_axis(tmp_path):
    read = lm63(
        tmp_path,
        "1 1000 1 8 1 1 1 0 0 0",
        "0 5 10 20 30 45 65 90",
        "0",
        "1000 1100 1300 1150 930 650 350 0",
        first="IESNA91",
    )
    # Of the maximum: 650 is the entry at 45; 130 is passed 220 / 350 of the way from 65 to 90.
    assert read.beam_angle == pytest.approx(90)
    assert read.field_angle == pytest.approx(2 * (65 + 25 * 220 / 350))
    # Of the centre: 500 half-way from 45 to 65; 100 is passed 250 / 350 of the way from 65 to 90.
    assert read.beam_angle_of_centre == pytest.approx(110)
    assert read.field_angle_of_centre == pytest.approx(2 * (65 + 25 * 250 / 350))
    assert (read.peak_cd, read.peak_at, read.centre_cd) == (1300, (10, 0), 1000)


# I0 cos^m with half-angle 10 or 15 at 50 %: m, half-angle at 10 %, flux / I0 = 2 pi / (m + 1).
@pytest.mark.parametrize(
    ("half", "m", "tenth", "flux"),
    [(10, 45.277602, 18.118269, 0.1357716), (15, 19.993727, 26.973204, 0.2992887)],
)
def test_a_power_of_the_cosine_in_a_file(tmp_path, half, m, tenth, flux):
    assert cos(radians(half)) ** m == pytest.approx(0.5, abs=1e-6)
    assert degrees(acos(0.1 ** (1 / m))) == pytest.approx(tenth, abs=1e-5)
    gamma = np.arange(0, 90.1, 0.1)
    candela = 1e6 * np.cos(np.radians(gamma)) ** m
    words = [" ".join(f"{v:.9g}" for v in row) for row in (gamma, candela)]
    read = lm63(tmp_path, f"1 -1 1 {gamma.size} 1 1 2 0 0 0", words[0], "0", words[1])
    assert read.beam_angle == pytest.approx(
        2 * half, abs=1e-3
    )  # linear between steps of 0.1 degrees
    assert read.field_angle == pytest.approx(2 * tenth, abs=1e-3)
    assert read.lumens / 1e6 == pytest.approx(flux, rel=1e-4)


# 4 m straight over the floor; linear in angle, then I cos^3 t / h^2.
def test_light_of_the_dummy_file_on_the_floor(tmp_path):
    table = candela_table(dummy(tmp_path))
    unit = measured_lamps(at(0, 0, 4), DOWN, table=table, across=ACROSS)
    gamma, candela = np.arange(37) * 2.5, np.array(DUMMY.split(), float)
    for aside in (0, 0.5, 1, 2):
        t = np.arctan(aside / 4)
        lux = np.interp(degrees(t), gamma, candela) * np.cos(t) ** 3 / 16
        assert level(unit, aside, 0, 0) == pytest.approx(lux)


def test_lumens_of_the_dummy_file_by_adaptive_quadrature_of_its_lines(tmp_path):
    gamma, candela = np.arange(37) * 2.5, np.array(DUMMY.split(), float)

    def ring(t):
        return 2 * pi * np.interp(degrees(t), gamma, candela) * np.sin(t)

    again, _ = quad(ring, 0, pi / 2, points=np.radians(gamma[1:-1]), limit=200)
    assert dummy(tmp_path).lumens == pytest.approx(again, rel=1e-9)


# 1000 cd everywhere is 4 pi I; a Lambertian disc of 1000 cd is pi I0. 1 % for coarse grids.
def test_lumens_of_ideal_sources(tmp_path):
    ball = lm63(tmp_path, "1 -1 1 3 1 1 2 0 0 0", "0 90 180", "0", "1000 1000 1000")
    assert ball.lumens == pytest.approx(12566.3706, abs=1e-4)
    gamma = np.arange(0, 95, 5)
    candela = " ".join(f"{v:.9g}" for v in 1000 * np.cos(np.radians(gamma)))
    head = f"1 -1 1 {gamma.size} 1 1 2 0 0 0"
    disc = lm63(tmp_path, head, " ".join(map(str, gamma)), "0", candela)
    assert disc.lumens == pytest.approx(3141.5927, rel=0.01)
