"""What is told of photometric files."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from aimcalc.coverage.survey import CoverOptions, survey
from aimcalc.findings.light import file_findings, light_findings
from aimcalc.solid.rig import solve_rig
from tests.lit import a_lamp, a_unit, a_wash

PLAIN = ("0 10 20 30", "1000 500 100 0")  # half at 10 degrees, a tenth at 20
# Published LM-63-1991 example data (help topics of two general drafting programs): the peak is at 10.
OFF_AXIS = ("0 5 10 20 30 45 65 90", "1000 1100 1300 1150 930 650 350 0")


def a_rig(folder, table=PLAIN, *, tilt="TILT=NONE", to=None, **kind):
    angles, candela = table
    count = len(angles.split())
    rows = ["IESNA91", tilt, f"1 -1 1 {count} 1 1 2 0 0 0", "1 1 500", angles, "0", candela]
    (folder / "lens.ies").write_text("\n".join(rows) + "\n")
    given = {"field": None, "peak_cd": None, "photometry": "lens.ies", **kind}
    scene = a_wash([a_unit(1, 0.0, to)], kinds=[a_lamp(**given)])
    return solve_rig(replace(scene, folder=str(folder)))


def told(*args, **more):
    (found,) = file_findings(a_rig(*args, **more))
    assert (found.severity, found.rule) == ("note", "photometric-file")
    return found.says


def test_a_file_is_named_with_its_edition_and_its_angles(tmp_path):
    says = told(tmp_path)
    assert says.startswith("Kind k has its light from lens.ies (LM-63-1991, Type C): 1000 cd")
    assert "beam 20°, field 40°" in says
    assert says.count(". ") == 0  # nothing odd, one sentence


# By the maximum 90 and 161.43, by the centre 110 and 165.71 (linear between the file's angles).
def test_a_peak_off_the_axis_is_told_with_both_definitions_of_the_angles(tmp_path):
    says = told(tmp_path, OFF_AXIS)
    assert "1300 cd at most, beam 90°, field 161°" in says
    assert "The peak is 10° off the lens axis; on the axis it gives 1000 cd" in says
    assert "half and a tenth of the peak: 90° and 161°, the mean all round" in says
    assert "By the light on the axis they would be 110° and 166°" in says


def test_an_oval_file_is_told_with_both_its_widths_and_how_it_lies(tmp_path):
    # Straight falls, to nothing at 20 in plane C 0 and at 40 in C 90 (half there at 20): tenths at 18 and 36.
    rig = a_rig(tmp_path)
    rows = ["IESNA91", "TILT=NONE", "1 -1 1 4 2 1 2 0 0 0", "1 1 9", "0 20 40 90", "0 90"]
    (tmp_path / "lens.ies").write_text("\n".join([*rows, "100 0 0 0", "100 50 0 0"]) + "\n")
    (found,) = file_findings(solve_rig(rig.scene))
    assert "beam 20° x 40°, field 36° x 72°, the long way up and down the body" in found.says


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ({"peak_cd": 5000.0}, "It is scaled to the 5000 cd given with the kind."),
        ({"lumens": 700.0}, "It is scaled to the 700 lm given with the kind."),
        ({"field": 26.0}, "Pools go by the field given with the kind, 26°."),
        (
            {"tilt": "TILT=INCLUDE\n1\n2\n0 90\n1 0.75"},
            "Its TILT table takes it from 0.75 to 1 of that as the unit is tipped off straight down, "
            "its lamp along the lens axis.",
        ),
        (
            {"tilt": "TILT=INCLUDE\n2\n2\n0 90\n1 0.75"},
            "taken to lie along the yoke bolts, it stays level as the unit tips.",
        ),
        (
            {"tilt": "TILT=INCLUDE\n3\n2\n0 90\n1 0.75"},
            "taken to lie square to the yoke bolts, it tips with the unit.",
        ),
        (
            # 1000 to 0 cd in a hundredth of a degree, between two of the even steps of 0.02.
            {"table": ("0 10.0051 10.0151 30", "1000 1000 0 0")},
            "Its angles have no common step: read on even ones,",
        ),
        (
            {"table": ("0 10 20 30", "1000 500 100 -1")},
            "Negative candela (down to -1, line 7) taken as 0.",
        ),
    ],
)
def test_what_changes_the_light_is_told(tmp_path, given, said):
    assert said in told(tmp_path, **given)


@pytest.mark.parametrize(("last", "held"), [(60, True), (70, False)])
def test_units_that_tip_beyond_the_table_are_told(tmp_path, last, held):
    # From 5 m up to a face 1 m high, 8 m off: 63.4 degrees off straight down.
    rig = a_rig(tmp_path, tilt=f"TILT=INCLUDE\n1\n2\n0 {last}\n1 0.75", to=(0.0, 8.0))
    (found,) = file_findings(rig)
    assert (
        "tilts its lamp by 63°, past the table's end at 60°: the last factor is used" in found.says
    ) == held


def test_cover_tells_it(tmp_path):
    found = light_findings(survey(a_rig(tmp_path), CoverOptions(fewest=False)))
    assert "photometric-file" in [each.rule for each in found]


def test_a_rig_without_files_has_none():
    assert list(file_findings(solve_rig(a_wash([a_unit(1, 0.0)])))) == []
