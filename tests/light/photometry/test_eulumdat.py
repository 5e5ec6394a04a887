"""EULUMDAT files: symmetries, scaling and what is said about bad ones. The files are invented."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from aimcalc.light.photometry import PhotometryError, read_photometry

GAMMA = [0, 30, 90]
LUMENS = 2000.0


def eulumdat(tmp_path, *, symmetry, c, rows, changes=None, name="unit.ldt", lamps=1):
    head = ["Nobody Ltd", "1", str(symmetry), str(len(c)), "0", str(len(GAMMA)), "0"]
    head += ["R1", "invented unit", "N1", name, "today"]
    head += ["300", "200", "100", "0", "80", "0", "0", "0", "0"]  # lengths
    head += ["100", "100", "1", "0"]  # DFF, LORL, conversion, tilt: lines 22 to 25
    head += ["1", str(lamps), "lamp", f"{LUMENS:g}", "3200", "1A", "750"] + ["0"] * 10
    lines = head + [str(v) for v in (*c, *GAMMA)] + [str(v) for row in rows for v in row]
    for number, text in (changes or {}).items():
        lines[number - 1] = text
    path = tmp_path / name
    path.write_text("\n".join(lines) + "\n")
    return str(path)


def ring(tmp_path, symmetry, c, middles, **more):
    """Reads a file whose intensity at 30 degrees in each stored plane is given; candela there by C."""
    path = eulumdat(tmp_path, symmetry=symmetry, c=c, rows=[(100, m, 0) for m in middles], **more)
    read = read_photometry(path)
    return dict(zip(read.c_deg.tolist(), (read.candela[:, 1] / 2).tolist(), strict=True))


def test_intensities_are_candela_for_every_1000_lumens_of_the_lamps(tmp_path):
    path = eulumdat(tmp_path, symmetry=1, c=[0], rows=[(100, 40, 0)])
    read = read_photometry(path)
    np.testing.assert_allclose(read.candela, [[200, 80, 0]])  # 2000 lm: twice
    assert (read.standard, read.lamp_lumens, read.watts) == ("EULUMDAT", 2000, 750)
    assert read.opening == (0.08, 0.0, 0.0)


def test_each_symmetry_is_unfolded_to_the_whole_turn(tmp_path):
    eighths = list(range(0, 360, 45))
    whole = {0: 1, 45: 2, 90: 3, 135: 4, 180: 5, 225: 6, 270: 7, 315: 8, 360: 1}
    assert ring(tmp_path, 0, eighths, range(1, 9)) == whole
    about_0 = {0: 1, 45: 2, 90: 3, 135: 4, 180: 5, 225: 4, 270: 3, 315: 2, 360: 1}
    assert ring(tmp_path, 2, eighths, range(1, 6)) == about_0
    # Stored from 270 through 0 to 90: 1 2 3 4 5; 135 is the image of 45.
    about_90 = {270: 1, 315: 2, 0: 3, 45: 4, 90: 5, 135: 4, 180: 3, 225: 2, 360: 3}
    assert ring(tmp_path, 3, eighths, range(1, 6)) == about_90
    both = {0: 1, 45: 2, 90: 3, 135: 2, 180: 1, 225: 2, 270: 3, 315: 2, 360: 1}
    assert ring(tmp_path, 4, eighths, range(1, 4)) == both


def test_a_rotational_file_may_still_list_many_planes(tmp_path):
    read = read_photometry(eulumdat(tmp_path, symmetry=1, c=[0, 90, 180, 270], rows=[(100, 40, 0)]))
    assert read.c_deg.tolist() == [0]


def test_decimal_commas_empty_fields_and_absolute_photometry_are_read(tmp_path):
    changes = {5: "", 8: "", 24: "0,5", 39: ""}
    read = read_photometry(
        eulumdat(tmp_path, symmetry=1, c=[0], rows=[("100,0", 40, 0)], changes=changes, lamps=-1)
    )
    np.testing.assert_allclose(read.candela, [[100, 40, 0]])  # conversion factor 0.5
    assert read.lamp_lumens is None


def test_the_first_of_several_sets_of_lamps_is_taken_and_said(tmp_path):
    path = eulumdat(tmp_path, symmetry=1, c=[0], rows=[(100, 40, 0)])
    lines = Path(path).read_text().split("\n")
    lines[25] = "2"
    lines[32:32] = ["1", "other lamp", "5000", "5600", "1A", "1200"]
    Path(path).write_text("\n".join(lines))
    read = read_photometry(path)
    assert (read.peak_cd, read.watts) == (200, 750)
    assert read.notes == ("2 sets of lamps: the first is taken, 2000 lm",)


def test_it_is_known_by_its_counts_where_the_name_says_nothing(tmp_path):
    path = eulumdat(tmp_path, symmetry=1, c=[0], rows=[(100, 40, 0)], name="unit.txt")
    assert read_photometry(path).standard == "EULUMDAT"


# Lines: 43 the C angle, 44 to 46 gamma, 47 to 49 intensities (26 + 6 of lamps + 10 ratios before them).
@pytest.mark.parametrize(
    ("changes", "line", "says"),
    [
        ({3: "7"}, 3, r"whole number from 0 to 4 \(symmetry indicator\), found 7"),
        ({3: "x"}, 3, "expected a number"),
        ({3: "4"}, 4, "number of C planes that divides by 4 for symmetry 4, found 1"),
        ({46: "200"}, 46, "expected gamma angles within 0 to 180, found 0 to 200"),
        ({26: "0"}, 26, "number of sets of lamps"),
        ({29: "0"}, 29, "expected lumens over 0, found 0"),
        ({45: "95"}, 46, "gamma angles that rise, found 90 after 95"),
        ({47: "much"}, 47, r"expected a number \(intensities\), found 'much'"),
        ({47: "inf"}, 47, "found 'inf'"),
        ({47: "0", 48: "0"}, 49, "found all intensities 0"),
    ],
)
def test_bad_files_are_refused_with_the_line(tmp_path, changes, line, says):
    path = eulumdat(tmp_path, symmetry=1, c=[0], rows=[(100, 40, 0)], changes=changes)
    with pytest.raises(PhotometryError, match=says) as caught:
        read_photometry(path)
    assert (caught.value.line, caught.value.path) == (line, path)


def test_too_few_and_too_many_intensities_are_refused(tmp_path):
    with pytest.raises(PhotometryError, match="expected intensities, the file ends"):
        read_photometry(eulumdat(tmp_path, symmetry=0, c=[0, 90], rows=[(100, 40, 0)]))
    with pytest.raises(PhotometryError, match=r"expected the file to end .*found more: '100'"):
        read_photometry(eulumdat(tmp_path, symmetry=1, c=[0], rows=[(100, 40, 0)] * 2))
