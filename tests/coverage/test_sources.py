"""Units as sources: candela from every way of giving it, turned and dimmed as they hang."""

from __future__ import annotations

import math

import numpy as np
import pytest
from msgspec.structs import replace
from scipy.integrate import quad

from aimcalc.coverage.sources import kinds_without_candela, posed, sources_of
from aimcalc.light.illuminance import contributions
from aimcalc.solid.rig import solve_rig
from tests.lit import FACE, LENS, PEAK, a_lamp, a_rig, a_unit, a_wash, candela, lamps_of

DOWN_4 = LENS - FACE  # m from lens to face straight below


def under(rig, x=0.0, y=0.0):
    """Lux of each unit at the face over (x, y)."""
    point = np.array([[x], [y], [FACE]])
    return contributions(lamps_of(rig), point)[0, :, 0]


def test_units_come_in_hang_order_with_lens_axis_and_candela():
    rig = a_rig([a_unit(2, -2.0), a_unit(1, 3.0)])
    lamps = lamps_of(rig)
    assert rig.names == ["p/1", "p/2"]
    np.testing.assert_allclose(lamps.lens, [[3, -2], [0, 0], [LENS, LENS]])
    np.testing.assert_allclose(lamps.axis, [[0, 0], [0, 0], [-1, -1]], atol=1e-12)
    np.testing.assert_allclose(lamps.peak_cd, PEAK)


# E = I / d^2 straight below: 16000 / 16 = 1000 lx; colour of 40 % leaves 400.
def test_straight_below_is_candela_over_distance_squared_times_the_colours_transmission():
    rig = a_rig([a_unit(1, 0.0), a_unit(2, 0.0, transmission=0.4)])
    np.testing.assert_allclose(under(rig), [1000, 400])


def test_the_profile_goes_through_a_tenth_at_the_edge_of_the_field_and_a_half_at_the_beams():
    beam = 60 / math.sqrt(math.log(10) / math.log(2))  # of a Gaussian
    for half, share in ((30.0, 0.1), (beam / 2, 0.5)):
        t = math.radians(half)
        expected = share * PEAK * math.cos(t) ** 3 / DOWN_4**2  # I cos^3 t / h^2 (IES, p. 8-39)
        assert under(a_rig([a_unit(1, 0.0)]), x=DOWN_4 * math.tan(t))[0] == pytest.approx(expected)


def test_lumens_are_shared_out_over_the_profile():
    flux, _ = quad(
        lambda t: 2 * math.pi * math.sin(t) * candela(math.degrees(t), peak=1.0), 0, math.pi / 2
    )
    rig = a_rig([a_unit(1, 0.0)], kinds=[a_lamp(peak_cd=None, lumens=5000.0)])
    assert lamps_of(rig).peak_cd[0] == pytest.approx(5000 / flux, rel=1e-8)


def test_peak_cd_wins_over_lumens():
    rig = a_rig([a_unit(1, 0.0)], kinds=[a_lamp(lumens=5000.0)])
    assert lamps_of(rig).peak_cd[0] == PEAK


def test_an_oval_is_wide_across_unless_its_turn_says_otherwise():
    oval = a_lamp(field=34.0, oval=(20.0, 60.0))
    units = [a_unit(1, 0.0), a_unit(2, 0.0, turn=0.0), a_unit(3, 0.0, turn=90.0)]
    rig = a_rig(units, kinds=[oval])
    edge = DOWN_4 * math.tan(math.radians(30))
    tenth = 0.1 * PEAK * math.cos(math.radians(30)) ** 3 / DOWN_4**2
    across, upstage = under(rig, x=edge), under(rig, y=edge)
    np.testing.assert_allclose(across[:2], tenth)
    np.testing.assert_allclose(upstage[2], tenth)
    assert (upstage[:2] < tenth / 100).all()
    assert across[2] < tenth / 100


def test_a_kind_without_any_candela_is_dark_and_named():
    units = [a_unit(1, 0.0), a_unit(2, 1.0, kind="dim")]
    rig = a_rig(units, kinds=[a_lamp(), a_lamp("dim", peak_cd=None)])
    assert kinds_without_candela(rig) == ["dim"]
    lux = dict(zip(rig.names, under(rig).tolist(), strict=True))
    assert lux == pytest.approx({"p/1": 1000, "p/2": 0})


def test_a_unit_without_an_aim_is_dark_and_harms_no_other():
    inside = a_unit(1, 0.0, point=(0.0, 0.0, LENS - 0.05))  # nearer than its nose
    rig = a_rig([inside, a_unit(2, 0.0)], kinds=[a_lamp(nose=0.1)])
    assert np.isnan(rig.aims.throw[0])
    lux = under(rig)
    assert lux[0] == 0
    assert lux[1] == pytest.approx(PEAK / (DOWN_4 - 0.1) ** 2)


def test_a_beam_as_wide_as_its_field_is_taken():
    # No smooth profile does that; the sharpest that is taken is full up to 0.98 of the way to the edge.
    rig = a_rig([a_unit(1, 0.0)], kinds=[a_lamp(beam=60.0)])
    t = math.radians(0.98 * 30)
    assert under(rig, DOWN_4 * math.tan(t))[0] == pytest.approx(1000 * math.cos(t) ** 3, rel=1e-6)


def test_a_beam_a_twentieth_narrower_than_its_field_is_taken_as_it_is():
    rig = a_rig([a_unit(1, 0.0)], kinds=[a_lamp(beam=57.0)])
    t = math.radians(28.5)
    assert under(rig, DOWN_4 * math.tan(t))[0] == pytest.approx(500 * math.cos(t) ** 3)


def write_file(folder, *, tilt="TILT=NONE", name="unit.ies"):
    """A file of 2000 cd within 20 degrees falling to nothing at 40, C = 0 half as bright as C = 180."""
    rows = ["IESNA:LM-63-2002", tilt, "1 -1 1 4 2 1 2 0 0 0", "1 1 500", "0 20 40 90", "0 180"]
    rows += ["2000 1000 0 0", "2000 2000 0 0"]
    (folder / name).write_text("\n".join(rows) + "\n")


def a_measured(tmp_path, units, **kind):
    kinds = [a_lamp(**{"field": None, "peak_cd": None, "photometry": "unit.ies", **kind})]
    return solve_rig(replace(a_wash(units, kinds=kinds), folder=str(tmp_path)))


def test_a_photometric_file_gives_the_candela_and_lies_as_the_body_does(tmp_path):
    # LM-63: C = 0 is the unit's own right as seen along the beam. Aimed straight US and 45 down, that is SL.
    write_file(tmp_path)
    rig = a_measured(tmp_path, [a_unit(1, 0.0, to=(0.0, 4.0))])
    side = math.sqrt(32) * math.tan(math.radians(10))
    right, left = under(rig, x=side, y=4.0)[0], under(rig, x=-side, y=4.0)[0]
    # 10 off the axis, half-way to 20: 1500 cd on the right, 2000 on the left
    assert right / left == pytest.approx(0.75, rel=1e-9)
    square = 32 + side**2
    assert left == pytest.approx(2000 * 4 / square**1.5, rel=1e-9)


def test_peak_cd_and_lumens_beside_a_file_scale_it(tmp_path):
    write_file(tmp_path)
    plain = a_measured(tmp_path, [a_unit(1, 0.0)])
    assert under(plain)[0] == pytest.approx(2000 / 16)
    assert under(a_measured(tmp_path, [a_unit(1, 0.0)], peak_cd=500.0))[0] == pytest.approx(
        500 / 16
    )
    by_lumens = a_measured(tmp_path, [a_unit(1, 0.0)], lumens=100.0)
    share = 100 / plain.photometry["k"].lumens
    assert under(by_lumens)[0] == pytest.approx(share * 2000 / 16)


def test_a_files_tilt_table_counts_by_the_angle_off_straight_down(tmp_path):
    write_file(tmp_path, tilt="TILT=INCLUDE\n1\n3\n0 30 90\n1 0.8 0.2")
    rig = a_measured(tmp_path, [a_unit(1, 0.0), a_unit(2, 1.0, to=(1.0, 4.0))])
    # 45 off plumb: half of the way from 30 to 60 of the 60 degrees between: 0.8 - 0.6 / 4
    by_number = dict(zip(rig.names, lamps_of(rig).transmission, strict=True))
    assert by_number["p/1"] == pytest.approx(1.0)
    assert by_number["p/2"] == pytest.approx(0.65)


def test_smooth_and_measured_units_keep_their_places(tmp_path):
    write_file(tmp_path)
    kinds = [a_lamp("file", field=None, peak_cd=None, photometry="unit.ies"), a_lamp()]
    units = [a_unit(k, 2.0 - k, kind="file" if k % 2 else "k") for k in range(4)]
    rig = solve_rig(replace(a_wash(units, kinds=kinds), folder=str(tmp_path)))
    assert [unit.kind for unit in rig.units] == ["k", "file", "k", "file"]
    np.testing.assert_allclose(lamps_of(rig).peak_cd, [PEAK, 2000, PEAK, 2000])


def test_posed_at_its_own_aim_a_unit_is_what_it_was():
    rig = a_rig([a_unit(1, 0.0), a_unit(2, 1.0, to=(3.0, 1.0))], kinds=[a_lamp(oval=(30.0, 60.0))])
    sources = sources_of(rig)
    again = posed(sources, np.arange(2), rig.aims)
    for one, other in zip(sources.lamps, again, strict=True):
        np.testing.assert_array_equal(one, other)


def test_a_rig_without_units_has_no_sources():
    assert lamps_of(a_rig([])).size == 0
