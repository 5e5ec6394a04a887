"""Photometric files against another reader of them, run apart: photompy 0.3.1 (PyPI, MIT licence).

The curve of 37 values (`tests.printed_lamps`) and the other examples come from its test data; the numbers are
what its `IESFile.read` and `LDTFile.read` tell of them. CIE ILV 17-27-077 and ANSI/IES LS-1 have the beam
angle at 50 % and the field angle at 10 % as full angles.
"""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.light.photometry import intensity, read_photometry
from tests.printed_lamps import DUMMY, VERTICAL, dummy, lm63


# photompy `beam_angle` and `field_angle`, linear between entries.
def test_peak_and_angles_of_the_dummy_file(tmp_path):
    read = dummy(tmp_path)
    assert (read.peak_cd, read.centre_cd) == (2200, 2200)
    assert read.beam_angle == pytest.approx(25.3518173, abs=1e-6)
    assert read.field_angle == pytest.approx(78.7037037, abs=1e-6)


# photompy `total`: 903.50 lm by bands, 906.57 by zonal means. Ours integrates the lines between the entries.
def test_lumens_of_the_dummy_file(tmp_path):
    assert dummy(tmp_path).lumens == pytest.approx(903.50, rel=0.005)
    assert dummy(tmp_path).lumens == pytest.approx(906.57, rel=0.005)


# photompy, multiplier 1.5: peak 3300, light 1.5 times, angles as they were. Candela of a file with rated
# lumens are candela, not candela for 1000 lm.
@pytest.mark.parametrize("lumens", ["-1", "500"])
def test_the_multiplier_scales_light_and_leaves_angles(tmp_path, lumens):
    once, more = (dummy(tmp_path, lumens=lumens, multiplier=m) for m in ("1", "1.5"))
    assert more.peak_cd == pytest.approx(3300, rel=1e-6)
    assert more.lumens == pytest.approx(1.5 * once.lumens, rel=1e-6)
    assert (more.beam_angle, more.field_angle) == pytest.approx((25.3518173, 78.7037037), abs=1e-6)
    assert more.lamp_lumens == (None if lumens == "-1" else 500)


# photompy's synthetic Type B (25000 cd, 200 W) and Type A (15000 cd, 50 W) files, as it reads them.
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


# photompy `header.tilt` of its TILT=INCLUDE file.
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


# photompy `ies_header`, LM-63-2019: 1.10000 accredited laboratory, 1.00001 undefined. No factor.
@pytest.mark.parametrize("code", ["1.10000", "1.00001", "1.01000"])
def test_the_file_generation_code_of_2019_multiplies_nothing(tmp_path, code):
    head, first = "1 -1 1 37 1 1 2 0 0 0", "IES:LM-63-2019"
    read = lm63(tmp_path, head, VERTICAL, "0", DUMMY, first=first, after=f"1 {code} 15")
    assert read.peak_cd == 2200


# photompy `LDTFile.read` of its dummy: 2200 cd/klm on axis, 500 lm.
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
