"""The strongest test of an aim: from what is told, the ray thrown forward hits the face."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.solid.rig import solve_rig
from tests.rigs import random_scene, thrown
from tests.studies import cases

MOUNTS = ["under", "over", "out", "arm", "direct", "stand"]


CURVED = [(mount, tube) for tube in ("truss", "arc") for mount in MOUNTS[:3]]
LADDERS = [(mount, "foot") for mount in ("arm", "direct")]


@pytest.mark.long
@pytest.mark.parametrize(
    ("mount", "tube"), [*((mount, "straight") for mount in MOUNTS), *CURVED, *LADDERS]
)
def test_what_is_told_throws_the_ray_through_the_point(mount, tube):
    """Aim, then rebuild the unit from its words, pan and yoke alone and throw the ray: 1e-9 m."""
    count = cases(200, 700)
    scene = random_scene(mount, count, seed=MOUNTS.index(mount), tube=tube)
    told = [a for a in solve_rig(scene).answers if a.throw is not None]
    assert len(told) > 6 / 7 * count
    for answer in told:
        lens, axis, up = thrown(answer, scene)
        miss = np.array(answer.face) - (lens + answer.throw * axis)
        assert np.linalg.norm(miss) < 1e-9, answer.unit
        np.testing.assert_allclose(lens, answer.lens, atol=1e-9)
        heading = np.degrees(np.arctan2(axis[0], axis[1])) % 360
        assert abs((heading - answer.heading + 180) % 360 - 180) < 1e-7
        assert np.degrees(np.arcsin(-axis[2])) == pytest.approx(answer.down, abs=1e-6)
        assert answer.pan <= 90
        _assert_roll(answer, axis, up)


def _assert_roll(answer, axis, up):
    """Roll by its meaning: the angle between body-up and the highest direction square to the axis."""
    if answer.attitude == "plumb":
        assert answer.roll is None
        return
    highest = np.array((0, 0, 1.0)) - axis[2] * axis
    highest /= np.linalg.norm(highest)
    roll = np.degrees(np.arctan2(np.linalg.norm(np.cross(up, highest)), np.dot(up, highest)))
    assert answer.roll == pytest.approx(roll, abs=1e-6)
    limits = {"upright": (0, 45), "on its side": (45, 135), "upside down": (135, 180)}
    low, high = limits[answer.attitude]
    assert low - 1e-6 <= answer.roll <= high + 1e-6
