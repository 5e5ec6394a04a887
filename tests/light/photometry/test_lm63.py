"""LM-63 files of every edition and oddity, and what is said about bad ones. The files are invented."""

from __future__ import annotations

import time

import numpy as np
import pytest

from aimcalc.light.photometry import PhotometryError, intensity, read_photometry

VERTICAL = "0 10 20 40 90"
CURVE = "1000 900 500 100 0"


def lm63(
    tmp_path,
    *,
    first="IESNA:LM-63-2002",
    tilt="TILT=NONE",
    head="1 -1 1 5 1 1 2 0.2 0.1 0",
    factors="1 1 750",
    vertical=VERTICAL,
    horizontal="0",
    candela=CURVE,
    end="\n",
    name="unit.ies",
):
    lines = [first, "[TEST] invented", tilt, head, factors, vertical, horizontal, candela]
    path = tmp_path / name
    path.write_bytes(end.join([line for line in lines if line is not None] + [""]).encode())
    return str(path)


@pytest.mark.parametrize(
    ("first", "edition"),
    [
        ("IESNA91", "LM-63-1991"),
        ("IESNA:LM-63-1995", "LM-63-1995"),
        ("IESNA:LM-63-2002", "LM-63-2002"),
        ("IES:LM-63-2019", "LM-63-2019"),
        ("An old label, as 1986 had them", "LM-63-1986"),
        (None, "LM-63-1986"),
        ("\ufeffIESNA:LM-63-1995", "LM-63-1995"),
    ],
)
def test_every_edition_is_known_by_its_first_line(tmp_path, first, edition):
    read = read_photometry(lm63(tmp_path, first=first))
    assert read.standard == edition
    np.testing.assert_array_equal(read.candela, [[1000, 900, 500, 100, 0]])
    assert (read.watts, read.lamp_lumens, read.opening) == (750, None, (0.2, 0.1, 0.0))


@pytest.mark.parametrize(
    "changes",
    [
        {"end": "\r\n"},
        {"end": "\r"},
        {"vertical": "0,10, 20,\t40 ,90", "candela": "1000,900,500,100,0"},
        {"vertical": "0\n10\n20 40\n\n90", "candela": "1000\n\n900 500\n   100\n0"},
        {"head": "1 -1 1 5 1\n1 2 0.2\n0.1 0", "factors": "1\n1\n750"},
        {"head": "1 -1 1 5 1 1 2 0.2 0.1 0 1 1 750", "factors": None},
        {"tilt": "  tilt = none  "},
        {"candela": "1.0e3 9E2 500. +100 0.0"},
        {"candela": CURVE + "\x1a\x1a"},
    ],
)
def test_line_ends_wraps_commas_and_spaces_make_no_difference(tmp_path, changes):
    read = read_photometry(lm63(tmp_path, **changes))
    np.testing.assert_array_equal(read.gamma_deg, [0, 10, 20, 40, 90])
    np.testing.assert_array_equal(read.candela, [[1000, 900, 500, 100, 0]])
    assert read.watts == 750


@pytest.mark.parametrize("encoding", ["latin-1", "utf-16", "utf-8"])
def test_labels_in_any_encoding_are_read(tmp_path, encoding):
    path = tmp_path / "old.ies"
    text = "IESNA91\nr\u00e9flecteur \u00e0 facettes\nTILT=NONE\n1 -1 1 5 1 1 2 0 0 0\n1 1 5\n"
    path.write_bytes(f"{text}{VERTICAL}\n0\n{CURVE}".encode(encoding))
    read = read_photometry(str(path))
    assert read.labels == ("IESNA91", "r\u00e9flecteur \u00e0 facettes")
    assert read.peak_cd == 1000


def test_factors_of_the_file_multiply_the_candela_and_the_later_future_use_does_not(tmp_path):
    # 2 x multiplier, 0.5 x ballast factor, and in 1991 the third factor, 1.1 (1986 and 1991 only).
    changes = {"head": "1 2000 2 5 1 1 2 0 0 0", "factors": "0.5 1.1 750"}
    old = read_photometry(lm63(tmp_path, first="IESNA91", **changes))
    new = read_photometry(lm63(tmp_path, first="IES:LM-63-2019", **changes))
    assert old.peak_cd == pytest.approx(1100)
    assert new.peak_cd == pytest.approx(1000)
    assert new.lamp_lumens == 2000


def test_feet_become_metres_and_round_openings_have_no_sign(tmp_path):
    read = read_photometry(lm63(tmp_path, head="1 -1 1 5 1 1 1 -0.5 -0.5 0"))
    assert read.opening == pytest.approx((0.1524, 0.1524, 0))  # 0.5 ft = 6 in


QUARTERS = {0: "100 10 0 0 0", 45: "100 20 0 0 0", 90: "100 30 0 0 0"}
HALVES = {**QUARTERS, 135: "100 40 0 0 0", 180: "100 50 0 0 0"}


def planes(tmp_path, rows, **changes):
    head = f"1 -1 1 5 {len(rows)} 1 2 0 0 0"
    horizontal = " ".join(str(angle) for angle in rows)
    return read_photometry(
        lm63(
            tmp_path, head=head, horizontal=horizontal, candela="\n".join(rows.values()), **changes
        )
    )


def test_quarter_half_and_full_tables_are_unfolded_by_the_last_horizontal_angle(tmp_path):
    def at_ten(read):
        return dict(zip(read.c_deg.tolist(), read.candela[:, 1].tolist(), strict=True))

    # Each quadrant alike: C = 135 is the image of 45 in the 90 plane, 315 of 45 in the 0 plane.
    quarter = at_ten(planes(tmp_path, QUARTERS))
    assert quarter == {0: 10, 45: 20, 90: 30, 135: 20, 180: 10, 225: 20, 270: 30, 315: 20, 360: 10}
    half = at_ten(planes(tmp_path, HALVES))
    assert half == {0: 10, 45: 20, 90: 30, 135: 40, 180: 50, 225: 40, 270: 30, 315: 20, 360: 10}
    other = at_ten(planes(tmp_path, {90: HALVES[0], 180: HALVES[90], 270: HALVES[180]}))
    assert other == {0: 30, 90: 10, 180: 30, 270: 50, 360: 30}
    full = at_ten(planes(tmp_path, {**HALVES, 270: "100 60 0 0 0", 360: "100 10 0 0 0"}))
    assert full == {0: 10, 45: 20, 90: 30, 135: 40, 180: 50, 270: 60, 360: 10}


def test_a_full_table_without_its_last_plane_is_closed(tmp_path):
    rows = {**HALVES, 225: "100 60 0 0 0", 270: "100 70 0 0 0", 315: "100 80 0 0 0"}
    read = planes(tmp_path, rows)
    assert read.c_deg[-1] == 360
    np.testing.assert_array_equal(read.candela[-1], read.candela[0])


def test_a_file_of_upward_light_only_is_taken_about_straight_up(tmp_path):
    read = read_photometry(
        lm63(tmp_path, vertical="90 140 160 170 180", candela="0 100 500 900 1000")
    )
    np.testing.assert_array_equal(read.gamma_deg, [0, 10, 20, 40, 90])
    np.testing.assert_array_equal(read.candela, [[1000, 900, 500, 100, 0]])
    assert read.notes == ("all its light goes up: the lens axis is taken straight up",)


def test_a_tilt_table_is_read_from_the_file_and_from_a_file_beside_it(tmp_path):
    table = "2\n3\n0 45 90\n1 0.9 0.7\n"
    inside = read_photometry(lm63(tmp_path, tilt="TILT=INCLUDE\n" + table))
    (tmp_path / "lamp.tlt").write_text(table)
    beside = read_photometry(lm63(tmp_path, tilt="TILT=lamp.tlt"))
    for read in (inside, beside):
        assert read.tilt.geometry == 2
        # Half-way between 45 and 90 degrees the factor is half-way between 0.9 and 0.7.
        np.testing.assert_allclose(read.tilt.factor(np.radians([0, 67.5, 120])), [1, 0.8, 0.7])
        assert read.peak_cd == 1000


DOWN, LEVEL, RISING = (0, 0, -1), (0, 1, 0), (0, 3**0.5 / 2, 0.5)  # heading US; RISING by 30


# Tips about level bolts: body-up is square to the axis in the upright plane. The factors fall by 0.1 for
# every 45 degrees of the lamp's own tilt. 1: the lamp is along the axis; 2: along the bolts, level all the
# way; 3: square to both, level when the unit points straight down.
@pytest.mark.parametrize(
    ("geometry", "axis", "up", "factor"),
    [
        (1, DOWN, (0, 1, 0), 1.0),
        (1, LEVEL, (0, 0, 1), 0.8),
        (1, RISING, (0, -0.5, 3**0.5 / 2), 1 - 120 / 450),
        (2, DOWN, (0, 1, 0), 1.0),
        (2, LEVEL, (0, 0, 1), 1.0),
        (2, RISING, (0, -0.5, 3**0.5 / 2), 1.0),
        (3, DOWN, (0, 1, 0), 1.0),
        (3, LEVEL, (0, 0, 1), 0.8),
        (3, RISING, (0, -0.5, 3**0.5 / 2), 1 - 120 / 450),
        # On its side the bolts stand upright, and the lamp square to them lies level.
        (1, LEVEL, (1, 0, 0), 0.8),
        (2, LEVEL, (1, 0, 0), 0.8),
        (3, LEVEL, (1, 0, 0), 1.0),
    ],
)
def test_what_tips_with_the_unit_is_the_lamp(tmp_path, geometry, axis, up, factor):
    table = f"{geometry}\n5\n0 45 90 135 180\n1 0.9 0.8 0.7 0.6\n"
    tilt = read_photometry(lm63(tmp_path, tilt="TILT=INCLUDE\n" + table)).tilt
    got = tilt.factor(tilt.lamp_angle(np.array(axis, float), np.array(up, float)))
    assert got == pytest.approx(factor)


ANGLES = np.array([-60, -30, 0, 30, 60])


@pytest.mark.parametrize(("code", "layout"), [(3, "A"), (2, "B")])
def test_type_a_turns_about_the_upright_axis_and_type_b_about_the_level_one(tmp_path, code, layout):
    # A table that is linear in both angles stays exact between its entries: right is +, up is +.
    table = 10 + 0.1 * ANGLES[:, None] + 0.02 * ANGLES
    text = " ".join(map(str, ANGLES))
    rows = "\n".join(" ".join(map(str, row)) for row in table)
    head = f"1 -1 1 5 5 {code} 2 0 0 0"
    read = read_photometry(lm63(tmp_path, head=head, vertical=text, horizontal=text, candela=rows))
    assert (read.layout, read.centre_cd, read.notes) == (layout, pytest.approx(10), ())
    for c in (0, 17, 45, 90, 135, 270):
        right, up = np.sin(np.radians(50)) * np.array(
            [np.cos(np.radians(c)), np.sin(np.radians(c))]
        )
        along = np.cos(np.radians(50))
        if layout == "A":  # about the upright axis first
            level, upright = np.arctan2(right, along), np.arcsin(up)
        else:
            level, upright = np.arcsin(right), np.arctan2(up, along)
        expected = 10 + 0.1 * np.degrees(level) + 0.02 * np.degrees(upright)
        got = intensity(read, np.radians(50), np.radians(c))
        assert got == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize("code", [2, 3])
def test_a_corner_of_a_type_a_or_b_table_is_lit_to_the_table_s_own_edges(tmp_path, code):
    """30 by 30 degrees to either side, 1000 cd all over. The corners are further than 30 off the axis."""
    text = {"vertical": "-30 0 30", "horizontal": "-30 0 30", "candela": "1000 " * 9}
    read = read_photometry(lm63(tmp_path, head=f"1 -1 1 3 3 {code} 2 0 0 0", **text))
    t = np.radians(25)
    # (25, 25): the cosine of the angle off the axis is cos^2 25, in Type A and in Type B alike, and in
    # either the file's two angles of that direction are 25 and 25.
    off = np.arccos(np.cos(t) ** 2)
    level, upright = (np.sin(t) * np.cos(t), np.sin(t))[:: 1 if code == 3 else -1]
    assert intensity(read, off, np.arctan2(upright, level)) == 1000
    # Just past the edge at level 30 there is nothing.
    np.testing.assert_array_equal(intensity(read, np.radians([30, 30.01]), 0.0), [1000, 0])
    # Lumens: 1000 cd over the solid angle (pi / 3) (2 sin 30) = pi / 3 sr.
    assert read.lumens == pytest.approx(1000 * np.pi / 3, rel=1e-12)


def test_type_b_given_on_one_side_is_alike_on_the_other_and_says_so(tmp_path):
    head = "1 -1 1 3 2 2 2 0 0 0"
    rows = "1 5 3\n0 2 1"
    text = {"vertical": "-30 0 30", "horizontal": "0 30", "candela": rows}
    read = read_photometry(lm63(tmp_path, head=head, **text))
    at = {c: float(intensity(read, np.radians(30), np.radians(c))) for c in (0, 90, 180, 270)}
    assert at == pytest.approx({0: 2, 90: 3, 180: 2, 270: 1})
    assert read.notes == ("horizontal angles on one side only: taken alike on the other",)


def test_a_type_b_table_of_one_plane_is_refused(tmp_path):
    path = lm63(tmp_path, head="1 -1 1 3 1 2 2 0 0 0", vertical="-30 0 30", candela="1 5 3")
    with pytest.raises(
        PhotometryError, match="two horizontal angles or more for Type B, found one"
    ):
        read_photometry(path)


@pytest.mark.parametrize(
    ("changes", "line", "says"),
    [
        ({"tilt": "TILT NONE"}, 8, "expected a line that begins TILT="),
        ({"candela": "1000 900 5oo 100 0"}, 8, r"expected a number \(candela\), found '5oo'"),
        ({"candela": "1000 900 nan 100 0"}, 8, "found 'nan'"),
        ({"candela": "1000 900 5_0 100 0"}, 8, "found '5_0'"),
        ({"candela": "1000 900 500"}, 8, r"5 numbers \(candela\), the file ends after 3"),
        ({"candela": CURVE + "\n7 8"}, 9, "expected the file to end after the last candela"),
        ({"candela": "1000 900 -500 100 0"}, 8, "candela of 0 or more, found -500"),
        ({"candela": "0 0 0 0 0"}, 8, "expected light, found all candela 0"),
        ({"vertical": "0 10 10 40 90"}, 6, "vertical angles that rise, found 10 after 10"),
        ({"vertical": "0 10 20 40 190"}, 6, "within 0 to 180 for Type C, found 0 to 190"),
        ({"head": "1 -1 1 5 1 4 2 0 0 0"}, 4, "whole number from 1 to 3 .photometric type"),
        ({"head": "1 -1 1 5 1 1 3 0 0 0"}, 4, "whole number from 1 to 2 .unit of length"),
        ({"head": "1 -1 1 5.5 1 1 2 0 0 0"}, 4, "number of vertical angles.*found 5.5"),
        ({"head": "1 -1 1 7200 7200 1 2 0 0 0"}, 4, "at most 4000000 candela values"),
        (
            {"head": "1 -1 1 9999 1 1 2 0 0 0"},
            4,
            "number from 2 to 7200 .number of vertical angles",
        ),
        ({"head": "1 -1 1 1 1 1 2 0 0 0"}, 4, "number of vertical angles.*found 1"),
        ({"head": "1 -1 0 5 1 1 2 0 0 0"}, 4, "candela multiplier over 0, found 0"),
        ({"factors": "0 1 750"}, 5, "ballast factor over 0"),
        ({"tilt": "TILT=INCLUDE\n7"}, 4, "lamp-to-luminaire geometry"),
        ({"tilt": "TILT=../lamp.tlt"}, 3, "in the same folder, without a path"),
        ({"tilt": "TILT=C:\\lamp.tlt"}, 3, "in the same folder, without a path"),
        ({"tilt": "TILT=lamp.tlt"}, 3, "the tilt file 'lamp.tlt' beside this one"),
    ],
)
def test_bad_files_are_refused_with_the_line_and_what_was_expected(tmp_path, changes, line, says):
    path = lm63(tmp_path, **changes)
    with pytest.raises(PhotometryError, match=says) as caught:
        read_photometry(path)
    assert caught.value.line == line
    assert str(caught.value).startswith(f"{path}, line {line}: ")


@pytest.mark.parametrize(
    ("rows", "says"),
    [
        ({10: CURVE, 90: CURVE}, "expected horizontal angles from 0 to 90, to 180 or further"),
        ({0: CURVE, 120: CURVE}, "to 180 or further round .or 90 to 270., found 0 to 120"),
        ({0: CURVE, 400: CURVE}, "expected horizontal angles from 0 to 90, to 180 or further"),
    ],
)
def test_horizontal_angles_that_mean_no_symmetry_are_refused(tmp_path, rows, says):
    with pytest.raises(PhotometryError, match=says):
        planes(tmp_path, rows)


def test_noise_a_little_below_zero_is_taken_as_zero_and_noted(tmp_path):
    read = read_photometry(lm63(tmp_path, candela="1000 900 500 -0.4 0"))
    assert read.candela.min() == 0
    assert read.notes == ("negative candela (down to -0.4, line 8) taken as 0",)


@pytest.mark.filterwarnings("error")
def test_factors_too_large_for_any_number_are_refused(tmp_path):
    path = lm63(tmp_path, head="1 -1 1e300 5 1 1 2 0.2 0.1 0", factors="1e300 1 750")
    with pytest.raises(PhotometryError, match="expected a peak over 0 and up to 1e"):
        read_photometry(path)


def test_a_large_broken_file_is_refused_quickly(tmp_path):
    path = lm63(tmp_path, candela="7 " * 2_000_000)
    started = time.perf_counter()
    with pytest.raises(PhotometryError, match="expected the file to end"):
        read_photometry(path)
    assert time.perf_counter() - started < 10
