"""The heights at which borders neither cut nor show."""

from __future__ import annotations

import re
from math import atan2, degrees, radians, tan

import msgspec
import numpy as np
import pytest

from aimcalc.findings.in_light import border_trims
from aimcalc.solid.rig import solve_rig
from aimcalc.solid.side_view import borders_of, front_row_of
from tests.findings.clean import CLEAN, changed, without
from tests.findings.judged import found, says, told, upright, with_solids

FRONT_ONLY = without("back/1", "back/2", "back/3", "boom/1")


def with_border(y: float, low: float, scene=CLEAN):
    return with_solids(upright("border 1", y, low, 9.0), scene=scene)


def trim_of(scene):
    rig = solve_rig(scene)
    (trim,) = border_trims(rig, borders_of(scene), front_row_of(scene))
    return rig, trim


def test_under_the_low_bound_it_cuts_the_upper_edge_of_the_highest_field():
    # A single unit straight US: its upper edge rises from the lens at (down - 13) degrees.
    scene = with_border(-3.0, 6.0, scene=FRONT_ONLY)
    rig, trim = trim_of(scene)
    lens, point = rig.aims.lens, rig.arrays.point
    level = np.hypot(*(point - lens)[:2])
    down = [degrees(atan2(h, d)) for h, d in zip((lens - point)[2], level, strict=True)]
    # Every front unit is turned 27: along its heading the border is (1 - nose) / cos(pan) off, and the
    # upper edge of a turned cone is highest a little to one side: the bound is over that of the middle ray.
    middle = max(
        z - tan(radians(d - 13)) * abs(-3.0 - y) / abs(dy) * h
        for z, y, dy, h, d in zip(lens[2], lens[1], (point - lens)[1], level, down, strict=True)
    )
    assert middle <= trim.low < middle + 0.1
    assert trim.high == np.inf


def test_over_the_high_bound_the_front_row_sees_the_lowest_corner():
    # Second method: the line from each eye to each corner of each back unit's body, at the border.
    scene = with_border(4.0, 3.0)
    rig, trim = trim_of(scene)
    eyes = front_row_of(scene).eyes
    back = [k for k, name in enumerate(rig.names) if name.startswith("back")]
    corners = rig.solids.corners[:, back, 0].reshape(3, -1)
    share = (4.0 - eyes[1]) / (corners[1][:, None] - eyes[1])
    heights = eyes[2] + share * (corners[2][:, None] - eyes[2])
    assert trim.high == pytest.approx(heights.min(), abs=1e-6)
    assert rig.names[trim.high_unit].startswith("back/")


def test_a_range_is_a_note_with_both_bounds_and_what_to_do():
    scene = with_border(4.0, 3.9)
    assert ("note", "border-trim", None) in told(scene)
    text = says(scene, "border-trim")
    assert re.fullmatch(
        r"Border 1 hangs 3\.90 m up; below [\d.]+ m up it cuts the field of \w+/\d; "
        r"above [\d.]+ m up the front row of stalls sees back/\d\.",
        text,
    )


@pytest.mark.parametrize(("low", "do"), [(5.5, "Bring it in to "), (0.5, "Take it out to ")])
def test_a_border_outside_its_range_is_told_which_way_to_go(low: float, do: str):
    (finding,) = [f for f in found(with_border(4.0, low)) if f.rule == "border-trim"]
    assert finding.do.startswith(do)


def test_no_height_that_does_is_a_warn():
    # Trimmed low, the back pipe's units are seen unless the border hangs into the back light.
    low = msgspec.structs.replace(CLEAN.pipes[1], start=(-6.0, 6.0, 3.2), end=(6.0, 6.0, 3.2))
    scene = with_border(5.0, 3.0, scene=changed(pipes=(CLEAN.pipes[0], low)))
    assert ("warn", "border-no-trim", None) in told(scene)
    assert "no trim satisfies both: below " in says(scene, "border-no-trim")


def test_a_border_on_which_nothing_depends_is_told_so():
    scene = changed(with_border(7.5, 6.0, scene=FRONT_ONLY), seats=())
    assert says(scene, "border-trim") == "Border 1 hangs 6.00 m up; nothing depends on its height."
