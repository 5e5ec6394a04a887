"""Light of bare lamps worked out by hand: inverse square and cosine, nothing else."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.light.illuminance import illuminance
from aimcalc.light.lamps import candela_table, joined, measured_lamps
from tests.printed_lamps import ACROSS, DOWN, at, lamp, level, two_axes


def test_a_polar_curve_on_the_floor():
    # 6 m up: I cos^3 t / 36. At 0: 500 / 36; at 30: 520 x 0.6495190 / 36; at 60: 150 x 0.125 / 36.
    angles = [0, 10, 20, 30, 40, 50, 60, 70]
    candela = [500, 560, 600, 520, 400, 300, 150, 50]
    unit = lamp(candela, 0, 0, 6, gamma=angles)
    out = 6 * np.tan(np.radians([0, 30, 60])) * (1 - 1e-12)
    points = np.stack((out, np.zeros(3), np.zeros(3)))
    lux = [13.88889, 9.38194, 0.52083]
    np.testing.assert_allclose(illuminance(unit, points)[0], lux, atol=1e-5)


def test_below_at_a_corner_between_four_and_in_a_row():
    assert level(lamp(100, 0, 0, 4), 0, 0, 0) == pytest.approx(100 / 16)
    # Corner of a table 3 m square, 2.5 m under the lamp at its middle: d^2 = 1.5^2 + 1.5^2 + 2.5^2.
    corner = level(lamp(100, 1.5, 1.5, 2.5), 0, 0, 0)
    assert corner == pytest.approx(100 * 2.5 / 10.75**1.5)
    four = joined(*(lamp(250, x, y, 6) for x in (-2, 2) for y in (-2, 2)))
    assert level(four, 0, 0, 0) == pytest.approx(4 * 250 * 6 / 44**1.5)
    # Four in a row, 10 m apart and 5 m up, midway between the second and third: two at 5 m, two at 15 m.
    row = joined(*(lamp(200, 10.0 * k, 0, 5) for k in range(4)))
    assert level(row, 15, 0, 0) == pytest.approx(2 * 200 * 5 * (50**-1.5 + 250**-1.5))


def test_imperial_units_need_no_other_formula():
    # 90 cd at 2 ft, 25 from plumb: 90 cos 25 / 4 lm a square foot; 1 ft is 0.3048 m, exact.
    t = np.radians(25)
    feet = lamp(90, 2 * np.sin(t), 0, 2 * np.cos(t))
    metres = lamp(90, 0.6096 * np.sin(t), 0, 0.6096 * np.cos(t))
    assert level(feet, 0, 0, 0) == pytest.approx(90 * np.cos(t) / 4)
    assert level(metres, 0, 0, 0) * 0.3048**2 == pytest.approx(90 * np.cos(t) / 4)


def test_distance_counts_to_the_lamp_and_not_to_the_floor():
    # 200 cd 6 m up, 5 m aside: 200 x 6 / 61^1.5. A published companion code of a textbook prints 4.27.
    assert level(lamp(200, 0, 0, 6), 5, 0, 0) == pytest.approx(2.5187583, abs=1e-7)


@pytest.mark.parametrize(("candela", "distance", "off_plumb"), [(1000, 4, 60), (5000, 5, 35.26439)])
def test_mean_cylindrical_light_of_one_source(candela, distance, off_plumb):
    # The mean of cos over the lit half turn, 0 over the other, is 1 / pi: I sin t / (pi d^2).
    t = np.radians(off_plumb)
    unit = lamp(candela, 0, -distance * np.sin(t), distance * np.cos(t))
    got = illuminance(unit, np.zeros((3, 1)), ("cylindrical", "level"))[:, 0]
    square_on = candela / distance**2
    assert got == pytest.approx([square_on * np.sin(t) / np.pi, square_on * np.cos(t)])


@pytest.mark.parametrize("code", [2, 3])
def test_a_flat_field_of_30_by_30_lights_its_corners(tmp_path, code):
    # 5 m off, square on: the ray to (25, 25) is acos(cos^2 25) off the axis; 1000 cos^3 / 5^2 is 22.2 lx.
    three = np.array([-30.0, 0, 30])
    read = two_axes(tmp_path / "unit.ies", code, three, three, np.full((3, 3), 1000.0))
    unit = measured_lamps(at(0, 0, 5), DOWN, table=candela_table(read), across=ACROSS)
    t = np.radians(25)
    near, far = 5 * np.tan(t), 5 * np.tan(t) / np.cos(t)
    point = (near, far, 0) if code == 3 else (far, near, 0)
    assert level(unit, *point) == pytest.approx(40 * np.cos(t) ** 6, rel=1e-12)
    assert level(unit, *point) == pytest.approx(22.2, abs=0.05)
    assert level(unit, 5 * np.tan(np.radians(30.01)), 0, 0) == 0
