"""Photometric files against published definitions, published example data and other readers.

ANG-*: what beam and field angle mean. CIE ILV 17-27-077: 50 % of the centre-beam intensity, a full angle.
CIE S 017:2011 17-514 and ANSI/IES LS-1: shares of the maximum.
PHO-*: the dummy curve of 37 values comes from the test data of photompy 0.3.1 (MIT licence); its results are
that package's (`IESFile.read`, `LDTFile.read`), with a second method where one is named.
"""

from __future__ import annotations

from math import acos, cos, degrees, pi, radians

import numpy as np
import pytest
from scipy.integrate import quad

from aimcalc.light import profiles
from aimcalc.light.illuminance import illuminance
from aimcalc.light.lamps import measured_lamps
from aimcalc.light.photometry import intensity, read_photometry
from aimcalc.light.tables import candela_table

VERTICAL = " ".join(f"{2.5 * k:g}" for k in range(37))
DUMMY = """2200.0 2000.2 1950.0 1700.1 1328.4 1115.1 900.5 700.4 600.3 501.2 400.1 398.3 380.9 400.2 390.5
320.0 185.0 100.6 40.1 20.0 15.2 15.0 14.0 11.0 10.8 10.8 10.0 7.0 4.0 1.2 0 0 0 0 0 1.0 0"""


def lm63(
    tmp_path, head, vertical, horizontal, candela, *, first="IESNA:LM-63-1995", after="1 1 15"
):
    path = tmp_path / "example.ies"
    text = [first, "[TEST] TESTREP1", "TILT=NONE", head, after, vertical, horizontal, candela]
    path.write_text("\n".join(text) + "\n")
    return read_photometry(str(path))


def dummy(tmp_path, *, lumens="-1", multiplier="1"):
    head = f"1 {lumens} {multiplier} 37 1 1 2 0 0 0"
    return lm63(tmp_path, head, VERTICAL, "0", DUMMY)


# ANG-10 and ANG-11: published LM-63-1991 example data (help topics of two general drafting programs).
def test_the_two_definitions_differ_where_the_peak_is_off_the_axis(tmp_path):
    read = lm63(
        tmp_path,
        "1 1000 1 8 1 1 1 0 0 0",
        "0 5 10 20 30 45 65 90",
        "0",
        "1000 1100 1300 1150 930 650 350 0",
        first="IESNA91",
    )
    assert read.beam_angle == pytest.approx(90.0, abs=1e-5)  # of the maximum
    assert read.field_angle == pytest.approx(161.42857, abs=1e-5)
    assert read.beam_angle_of_centre == pytest.approx(110.0, abs=1e-5)  # of the centre
    assert read.field_angle_of_centre == pytest.approx(165.71429, abs=1e-5)
    assert (read.peak_cd, read.peak_at, read.centre_cd) == (1300, (10, 0), 1000)


# ANG-14: a Gaussian's half-angle at 10 % is 1.8226157 times that at 50 % (algebra).
def test_field_over_beam_of_a_gaussian():
    assert pytest.approx(1.8226157, abs=1e-7) == profiles.GAUSSIAN_RATIO


# ANG-15: I0 cos^m with half-angle 10 or 15 at 50 %: m, half-angle at 10 %, flux / I0 = 2 pi / (m + 1).
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


# PHO-1 to PHO-3: photompy `beam_angle`, `field_angle`; interpolated by hand to the same.
def test_peak_and_angles_of_the_dummy_file(tmp_path):
    read = dummy(tmp_path)
    assert (read.peak_cd, read.centre_cd) == (2200, 2200)
    # By hand: 1100 lies between 1115.1 at 12.5 and 900.5 at 15; 220 between 320 at 37.5 and 185 at 40.
    assert read.beam_angle == pytest.approx(2 * (12.5 + 2.5 * 15.1 / 214.6), abs=1e-9)
    assert read.beam_angle == pytest.approx(25.3518173, abs=1e-6)
    assert read.field_angle == pytest.approx(78.7037037, abs=1e-6)


# PHO-4 and PHO-5: photompy `total` 903.50 by bands, 906.57 by zonal means; 904.52 by a fine integral.
def test_lumens_of_the_dummy_file(tmp_path):
    read = dummy(tmp_path)
    assert read.lumens == pytest.approx(903.50, rel=0.005)
    assert read.lumens == pytest.approx(904.52, abs=0.01)
    gamma, candela = np.arange(37) * 2.5, np.array(DUMMY.split(), float)

    def ring(t):
        return 2 * pi * np.interp(degrees(t), gamma, candela) * np.sin(t)

    again, _ = quad(ring, 0, pi / 2, points=np.radians(gamma[1:-1]), limit=200)
    assert read.lumens == pytest.approx(again, rel=1e-9)


# PHO-6: multiplier 1.5. Candela of a file with rated lumens are candela, not candela for 1000 lm.
@pytest.mark.parametrize("lumens", ["-1", "500"])
def test_the_multiplier_scales_light_and_leaves_angles(tmp_path, lumens):
    once, more = (dummy(tmp_path, lumens=lumens, multiplier=m) for m in ("1", "1.5"))
    assert more.peak_cd == pytest.approx(3300, rel=1e-6)
    assert more.lumens == pytest.approx(1.5 * once.lumens, rel=1e-6)
    assert (more.beam_angle, more.field_angle) == pytest.approx((25.3518173, 78.7037037), abs=1e-6)
    assert more.lamp_lumens == (None if lumens == "-1" else 500)


# PHO-7: 4 m straight over the floor, 0, 0.5, 1 and 2 m from its foot; linear in angle, then I cos^3 t / h^2.
def test_light_of_the_dummy_file_on_the_floor(tmp_path):
    table = candela_table(dummy(tmp_path))
    down, across = np.array([[0.0], [0], [-1]]), np.array([[1.0], [0], [0]])
    unit = measured_lamps(np.array([[0.0], [0], [4]]), down, table=table, across=across)
    points = np.array([[0, 0.5, 1, 2], [0, 0, 0, 0], [0, 0, 0, 0]], float)
    expected = [137.5, 106.10249, 56.11012, 17.84262]
    np.testing.assert_allclose(illuminance(unit, points)[0], expected, atol=1e-4)


# PHO-8: 1000 cd everywhere is 4 pi I; a Lambertian disc of 1000 cd is pi I0. 1 % for coarse grids.
def test_lumens_of_ideal_sources(tmp_path):
    ball = lm63(tmp_path, "1 -1 1 3 1 1 2 0 0 0", "0 90 180", "0", "1000 1000 1000")
    assert ball.lumens == pytest.approx(12566.3706, abs=1e-4)
    gamma = np.arange(0, 95, 5)
    candela = " ".join(f"{v:.9g}" for v in 1000 * np.cos(np.radians(gamma)))
    head = f"1 -1 1 {gamma.size} 1 1 2 0 0 0"
    disc = lm63(tmp_path, head, " ".join(map(str, gamma)), "0", candela)
    assert disc.lumens == pytest.approx(3141.5927, rel=0.01)


# PHO-10: photompy's synthetic Type B (25000 cd, 200 W) and Type A (15000 cd, 50 W) files, as it reads them.
@pytest.mark.parametrize(
    ("code", "layout", "rows", "watts"),
    [
        (
            2,
            "B",
            "5000 8000 25000 8000 5000\n4500 7500 24000 7500 4500\n3500 6000 20000 6000 3500\n"
            "2500 4500 15000 4500 2500\n1000 2000 8000 2000 1000",
            200,
        ),
        (
            3,
            "A",
            "15000 12000 8000 4000 1000\n14000 11000 7500 3500 900\n10000 8000 5000 2500 600\n"
            "6000 5000 3000 1500 400\n2000 1500 1000 500 150",
            50,
        ),
    ],
)
def test_types_a_and_b_have_their_peak_at_0_0(tmp_path, code, layout, rows, watts):
    upright = "-90 -45 0 45 90" if layout == "B" else "0 22.5 45 67.5 90"
    read = lm63(
        tmp_path,
        f"1 -1 1.0 5 5 {code} 1 0.5 0.6 0",
        upright,
        "0 22.5 45 67.5 90",
        rows,
        first="IES:LM-63-2019",
        after=f"1.0 1.00001 {watts}",
    )
    peak = 25000 if layout == "B" else 15000
    assert (read.layout, read.peak_cd, read.peak_at, read.watts) == (layout, peak, (0, 0), watts)
    # On the level plane the file's own row of entries stands: C = 0, all verticals 0.
    level = [float(row.split()[2 if layout == "B" else 0]) for row in rows.split("\n")]
    gamma = np.radians([0, 22.5, 45, 67.5, 90])
    np.testing.assert_allclose(intensity(read, gamma), level, rtol=1e-9)


# PHO-11: photompy `header.tilt` of its TILT=INCLUDE file.
def test_the_tilt_table(tmp_path):
    path = tmp_path / "tilt.ies"
    path.write_text(
        "IES:LM-63-2019\n[TEST] TILT-TEST-001\nTILT=INCLUDE\n1\n7\n0 15 30 45 60 75 90\n"
        "1.0 0.98 0.95 0.90 0.85 0.80 0.75\n1 -1 1.0 5 3 1 2 0.5 0.6 0\n1.0 1.10000 400\n"
        "0 22.5 45 67.5 90\n0 45 90\n10000 8000 5000 2000 500\n10000 7500 4500 1800 400\n"
        "10000 7000 4000 1500 300\n"
    )
    read = read_photometry(str(path))
    assert read.tilt.geometry == 1
    assert read.tilt.angles.tolist() == [0, 15, 30, 45, 60, 75, 90]
    assert read.tilt.factors.tolist() == [1, 0.98, 0.95, 0.90, 0.85, 0.80, 0.75]
    assert read.peak_cd == 10000


# PHO-12: photompy `ies_header`, LM-63-2019: 1.10000 accredited laboratory, 1.00001 undefined. No factor.
@pytest.mark.parametrize("code", ["1.10000", "1.00001", "1.01000"])
def test_the_file_generation_code_of_2019_multiplies_nothing(tmp_path, code):
    head, first = "1 -1 1 37 1 1 2 0 0 0", "IES:LM-63-2019"
    read = lm63(tmp_path, head, VERTICAL, "0", DUMMY, first=first, after=f"1 {code} 15")
    assert read.peak_cd == 2200


# LM63-8, LM63-15: C counts anti-clockwise from above about a downward axis; checked against another reader in
# test_illuminance.py. LM63-13: the rule of the last horizontal angle: tests/light/photometry/test_lm63.py.


# LDT-1, LDT-2, LDT-4: photompy `LDTFile.read` of its dummy: 2200 cd/klm on axis, 500 lm.
def test_eulumdat_intensities_are_for_1000_lumens(tmp_path):
    path = tmp_path / "relative.ldt"
    head = ["ACME Inc.", "1", "1", "1", "0", "37", "2.5", "TESTREP1", "Dummy LDT file", "BD0150"]
    head += ["BD0150.ldt", "2023-05-01", "120", "0", "120", "0", "0", "0", "0", "0", "0"]
    head += ["100", "100.0", "1.0", "0.0", "1", "2", "LED Module", "500", "3000", "90", "15"]
    lines = [*head, *["0.9"] * 10, "0", *VERTICAL.split(), *DUMMY.split()]
    path.write_text("\n".join(lines) + "\n")
    read = read_photometry(str(path))
    assert read.peak_cd == 1100
    assert read.lumens == pytest.approx(451.75, rel=0.005)  # by bands
    assert read.beam_angle == pytest.approx(25.3518173, abs=1e-6)
    assert (read.lamp_lumens, read.watts) == (500, 15)
