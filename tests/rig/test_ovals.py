"""Ovals out of photometric files: their two widths and the way they lie, in pools, light and findings."""

from __future__ import annotations

import numpy as np
import pytest
from msgspec.structs import replace

from aimcalc.coverage.sources import sources_of
from aimcalc.findings.pose import no_turn, open_pools
from aimcalc.light.illuminance import illuminance
from aimcalc.light.photometry import intensity
from aimcalc.scene.model import Unit
from aimcalc.solid.rig import solve_rig
from aimcalc.text.rows import rows_of
from tests.rigs import a_kind, a_pipe, a_scene

TRIM, FACE = 5.53, 1.65  # the lens is 3.88 m over the faces


def oval_file(path, across, upright, *, beam=0.55):
    """A Type C file, even on ellipses round the axis: a tenth of 10,000 cd at half these angles, as a field.

    It falls straight from 10,000 cd on the axis to half at `beam` of the way to the field's edge, to a tenth
    there and to 0 at 1.2 times.
    """
    c = np.arange(0, 361, 5.0)
    turn = np.radians(c)
    edge = 1 / np.hypot(np.cos(turn) / (across / 2), np.sin(turn) / (upright / 2))
    gamma = np.unique(np.append(np.arange(0, 91, 0.5), [across / 2, upright / 2]))
    shares = np.interp(gamma[None] / edge[:, None], [0, beam, 1, 1.2], [1, 0.5, 0.1, 0])
    head = f"1 -1 1 {gamma.size} {c.size} 1 2 0 0 0"
    rows = [gamma, c, *(10_000 * shares)]
    text = [" ".join(f"{v:.9g}" for v in row) for row in rows]
    path.write_text("\n".join(["IESNA:LM-63-2002", "TILT=NONE", head, "1 1 500", *text]) + "\n")


def a_rig(folder, across=48.0, upright=24.0, *, down=45.0, trim=TRIM, kind=None, **unit):
    """One unit at the middle of a pipe, heading straight US."""
    oval_file(folder / "oval.ies", across, upright)
    given = {"field": None, "photometry": "oval.ies", **(kind or {})}
    out = (trim - FACE) / np.tan(np.radians(down))
    made = Unit(position="p", number="1", kind="k", at=0.0, point=(0.0, out, FACE), **unit)
    bare = {"drop_under": 0.0, "nose": 0.0, **given}  # the lens is where the clamp is
    scene = a_scene([made], kinds=[a_kind("k", **bare)], pipes=[a_pipe("p", trim=trim)])
    return solve_rig(replace(scene, folder=str(folder)))


def lit_extent(rig):
    """Where the file's own candela is a tenth of its peak or more on the face plane: across, and US."""
    x, y = np.meshgrid(np.linspace(-6, 6, 601), np.linspace(-2, 14, 801))
    points = np.stack((x.ravel(), y.ravel(), np.full(x.size, FACE)))
    lamps = sources_of(rig).lamps
    ray = points - lamps.lens
    square = (ray**2).sum(axis=0)
    lux = illuminance(lamps, points)[0]
    candela = lux * square**1.5 / -ray[2]
    inside = candela >= 0.1 * lamps.peak_cd[0]
    return [np.ptp(v[inside]) for v in (points[0], points[1])]


def test_the_pool_of_an_oval_file_is_as_wide_across_as_the_file_says(tmp_path):
    # 24 by 48, level across, down 45, 3.88 m up: by hand, with B = sin 45:
    # length 2 H sin 12 cos 12 / (sin^2 45 - sin^2 12) = 3.45, and
    # width 2 H tan 24 / sqrt(B^2 - (tan 12 cos 45)^2) = 5.00
    rig = a_rig(tmp_path)
    pool = rig.answers[0].face_pool
    assert (pool.width, pool.length) == pytest.approx((5.00, 3.45), abs=0.01)
    assert lit_extent(rig) == pytest.approx([5.00, 3.45], abs=0.06)
    (row,) = rows_of(rig, [], "m")
    assert (row.field, row.turned) == ("24° x 48°", "OVAL ACROSS")


@pytest.mark.parametrize(
    ("widths", "turn", "told"),
    [
        ((24.0, 48.0), None, "OVAL UP AND DOWN"),  # the file's long way is the body's up
        ((48.0, 24.0), 90.0, "OVAL UP AND DOWN"),
        # `turn` is the long way's, whichever plane of the file it is.
        ((24.0, 48.0), 0.0, "OVAL ACROSS"),
        ((24.0, 48.0), 90.0, "OVAL UP AND DOWN"),
    ],
)
def test_pool_and_light_lie_the_same_way(tmp_path, widths, turn, told):
    rig = a_rig(tmp_path, *widths, down=60.0, turn=turn)
    pool = rig.answers[0].face_pool
    assert lit_extent(rig) == pytest.approx([pool.width, pool.length], abs=0.06)
    assert rows_of(rig, [], "m")[0].turned == told


def test_a_turn_askew_turns_pool_and_light_together(tmp_path):
    rig = a_rig(tmp_path, down=60.0, turn=30.0)
    pool = rig.answers[0].face_pool
    assert lit_extent(rig) == pytest.approx([pool.width, pool.length], abs=0.06)


def test_both_widths_of_the_beam_are_the_files_own(tmp_path):
    rig = a_rig(tmp_path, 48.0, 24.0)
    np.testing.assert_allclose(np.degrees(rig.ovals.field[:, 0]), [24, 48], atol=1e-6)
    # Half at 0.55 of the way to the edge of the field.
    np.testing.assert_allclose(np.degrees(rig.ovals.beam[:, 0]), [13.2, 26.4], atol=0.01)
    assert rig.kinds[0].field == pytest.approx((24 * 48) ** 0.5)


def test_a_field_that_is_nearly_round_stays_round_and_what_the_scene_says_wins(tmp_path):
    assert a_rig(tmp_path, 26.0, 25.0).ovals.rows.size == 0
    assert a_rig(tmp_path, kind={"field": 30.0}).ovals.rows.size == 0
    own = a_rig(tmp_path, kind={"oval": (10.0, 20.0), "field": 14.0})
    assert np.degrees(own.ovals.field[:, 0]) == pytest.approx([10, 20])


@pytest.mark.parametrize(("widths", "opens"), [((60.0, 24.0), False), ((24.0, 60.0), True)])
def test_an_oval_file_opens_its_pool_by_the_width_that_stands_up(tmp_path, widths, opens):
    rig = a_rig(tmp_path, *widths, down=25.0)
    assert bool(list(open_pools(rig))) == opens
    assert rig.answers[0].face_pool.closed != opens


@pytest.mark.parametrize(("family", "told"), [("par", True), ("cyc", False), ("flood", False)])
def test_only_a_lamp_that_turns_in_its_housing_wants_a_turn(tmp_path, family, told):
    rig = a_rig(tmp_path, kind={"family": family})
    assert bool(list(no_turn(rig))) == told
    assert not list(no_turn(a_rig(tmp_path, kind={"family": family}, turn=0.0)))


def test_the_file_of_this_test_is_what_it_says(tmp_path):
    rig = a_rig(tmp_path)
    file = rig.photometry["k"]
    assert intensity(file, np.radians(24), 0.0) == pytest.approx(1000)
    assert intensity(file, np.radians(12), np.pi / 2) == pytest.approx(1000)
