"""What targets stand for as points."""

from __future__ import annotations

import numpy as np

from aimcalc.coverage.areas import aimed_at, target_points
from aimcalc.scene.model import Solid, Target
from tests.lit import FACE, a_rig, a_unit

TARGETS = [
    Target(name="standing", x=1.0, y=0.0),
    Target(name="seated", x=1.0, y=1.0, face_height=0.7),
    Target(name="raised", x=-1.0, y=0.0),
    Target(name="spot", x=-1.0, y=0.0, plane="deck"),
    Target(name="clock", x=0.0, y=1.5, z=2.5, plane="point"),
]
TOP = Solid(name="top", box=(-2.0, -1.0, 0.0, -0.5, 1.0, 0.4), stand_on=True)


def test_every_plane_has_its_own_height():
    rig = a_rig([], TARGETS, solids=[TOP])
    np.testing.assert_allclose(target_points(rig)[2], [FACE, 0.7, FACE + 0.4, 0.4, 2.5])


def test_they_are_the_points_that_units_aimed_at_them_are_pointed_at():
    units = [a_unit(k, 0.5 * k, target=t.name) for k, t in enumerate(TARGETS)]
    rig = a_rig(units, TARGETS, solids=[TOP])
    points = dict(zip((t.name for t in TARGETS), target_points(rig).T, strict=True))
    for k, unit in enumerate(rig.units):
        np.testing.assert_allclose(rig.arrays.point[:, k], points[unit.target])


def test_units_pointed_at_one_bare_point_share_a_name():
    rig = a_rig([a_unit(1, 0.0, to=(1.0, 0.0)), a_unit(2, 1.0, to=(1.0, 0.0)), a_unit(3, 2.0)])
    names = [aimed_at(rig, k) for k in range(3)]
    assert len(set(names)) == 2
    assert "the point 1.00 m SL, on the plaster line, 1.00 m up" in names


def test_a_bare_point_is_named_in_the_scenes_own_unit_and_without_a_minus_sign():
    rig = a_rig([a_unit(1, 0.0, to=(-1.8288, 1.8288))], unit="ft")  # 6 ft; 1 m is 3'-3 3/8"
    assert aimed_at(rig, 0) == "the point 6'-0\" SR, 6'-0\" US, 3'-3 1/4\" up"


def test_without_targets_there_are_no_points():
    assert target_points(a_rig([])).shape == (3, 0)
