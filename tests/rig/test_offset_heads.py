"""Heads whose axis is off their pivot, and the two readings of "45 and 45": closed forms worked out apart."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.scene.model import Pipe, Stand, Unit
from aimcalc.solid.rig import solve_rig
from tests.rigs import a_kind, a_scene


def lens_at_origin(points: np.ndarray) -> list:
    """Answers of units whose lens is the origin, each pointed at one of `points` (N, 3)."""
    units = [
        Unit(position=f"s{k}", number="1", kind="k", mount="stand", point=tuple(p))
        for k, p in enumerate(points.tolist())
    ]
    stands = [Stand(name=f"s{k}", x=0.0, y=0.0, z=0.0) for k in range(len(points))]
    kind = a_kind(drop_under=0.0, drop_over=0.0)
    return solve_rig(a_scene(units, stands=stands, pipes=[], kinds=[kind])).answers


def test_straight_down_has_no_heading_and_no_pan():
    (told,) = lens_at_origin(np.array([(0.0, 0.0, -20.0)]))
    assert (told.heading, told.pan, told.roll, told.attitude) == (None, None, None, "plumb")
    assert told.down == pytest.approx(90, abs=1e-9)
    assert told.throw == pytest.approx(20)


# Two-axis head: pan at P, tilt pivot `drop` below, beam line `rise` from the pivot towards its own up
# side. Pan counter-clockwise from +y, tilt from straight down, by the closed form of an offset waist; the
# second row is a triangle of sides 120, 160, 200.
GIM = [
    ((0, 0, 240), (0, 120, 66), 0, 0, 0, 34.592289, 211.366979),
    ((0, 0, 240), (0, 120, 66), 14, 0, 0, 36.869898, 200),
    ((0, 0, 240), (72, 120, 66), 14, 0, -30.963757, 41.174331, 212.565284),
    ((0, 0, 240), (72, 120, 66), 14, 2, -30.963757, 40.635234, 212.555875),
    ((60, 0, 216), (-48, -96, 0), 12, 0, 131.633539, 35.311052, 249.992000),
]


@pytest.mark.parametrize(("clamp", "point", "drop", "rise", "pan", "tilt", "distance"), GIM)
def test_offset_heads_agree_with_the_closed_form_rows(
    clamp, point, drop, rise, pan, tilt, distance
):
    x, y, z = clamp
    unit = Unit(position="p", number="1", at=0.0, kind="k", point=tuple(map(float, point)))
    pipe = Pipe(name="p", start=(x - 9.0, y, z), end=(x + 9.0, y, z), zero="middle")
    kind = a_kind(drop_under=drop, rise=rise)
    (told,) = solve_rig(a_scene([unit], pipes=[pipe], kinds=[kind])).answers
    assert told.heading == pytest.approx(-pan % 360, abs=1e-5)
    assert told.down == pytest.approx(90 - tilt, abs=1e-5)
    assert told.throw == pytest.approx(distance, abs=1e-5)


def test_the_cube_diagonal_and_a_true_45_are_not_the_same_elevation():
    """14 above the face: legs of 14/sqrt(2) give 45 down, legs of 14 give 35.264390 (pymap3d agrees)."""
    leg = 14 / np.sqrt(2)
    true_45, diagonal = lens_at_origin(np.array([(leg, leg, -14.0), (14.0, 14.0, -14.0)]))
    assert (true_45.down, true_45.throw) == pytest.approx((45, 19.798990), abs=1e-6)
    assert (diagonal.down, diagonal.throw) == pytest.approx((35.264390, 24.248711), abs=1e-6)
