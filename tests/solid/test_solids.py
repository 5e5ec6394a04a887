"""The solids of a rig: who is who, and where the bodies are."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.spatial.transform import Rotation

from aimcalc.geometry.bodies import BODY, LIP
from aimcalc.geometry.clearance import between_units
from aimcalc.hang.tails import tail_bodies
from aimcalc.scene.model import Boom, Pipe
from aimcalc.solid.own_pipe import own_gaps
from aimcalc.solid.solids import ARM, PIPE, SOLID, builds
from tests.rigs import thrown
from tests.solid.hanging import BODY as SIZES
from tests.solid.hanging import a_body, a_panel, a_rig, a_unit

MOUNTS = ("under", "over", "out")


@pytest.fixture(scope="module")
def mixed():
    boom = Boom(name="boom", x=5.0, y=2.0, height=5.0)
    units = [a_unit(n, 2.0 * n, mount=mount, swing_out=40.0) for n, mount in enumerate(MOUNTS)]
    units.append(a_unit(1, 4.0, position="boom", mount="arm", arm=0.5, arm_to=270.0))
    units.append(a_unit(2, 2.0, position="boom", mount="direct", arm_to=270.0))
    return a_rig(units, booms=[boom], solids=[a_panel("wall", 9, 0, 4)])


def test_owners_are_things_first_and_then_the_units_in_hang_order(mixed):
    solids = mixed.solids
    assert solids.names == ["wall", "p", "boom", "arm of boom/1", *mixed.names]
    assert solids.own.tolist() == [4, 5, 6, 7, 8]
    assert solids.of(SOLID).tolist() == [0]
    assert solids.of(PIPE, ARM).tolist() == [1, 3]


def test_each_unit_knows_the_tubes_that_hold_it(mixed):
    held = dict(zip(mixed.names, mixed.solids.held_by().T.tolist(), strict=True))
    assert held["p/0"] == [1, -1]
    assert held["boom/1"] == [2, 3]
    assert held["boom/2"] == [2, -1]


def test_every_body_begins_at_its_lens_and_lies_along_its_axis_whatever_the_mount(mixed):
    # Second method: lens and axis that follow from what is told of the unit, by scipy's rotations.
    for k, answer in enumerate(mixed.answers):
        lens, axis, _ = thrown(answer, mixed.scene)
        back, front = mixed.solids.corners[:, k, BODY].reshape(3, 2, 8).mean(axis=2).T
        assert front == pytest.approx(lens - LIP * axis, abs=1e-9)
        assert lens - back == pytest.approx(SIZES["length"] * axis, abs=1e-9)


def test_a_unit_square_and_level_keeps_its_stem_and_turns_from_its_square_side(mixed):
    hung = mixed.solids.hung
    for k, answer in enumerate(mixed.answers):
        assert abs(np.degrees(hung.turn[k])) == pytest.approx(answer.pan, abs=1e-9)
        assert np.dot(hung.stem[:, k], hung.reference[:, k]) == pytest.approx(0, abs=1e-12)


def test_kinds_without_a_size_have_no_triangles():
    rig = a_rig(
        [a_unit(1), a_unit(2, 1.0, kind="bare")], kinds=[a_body(), a_body("bare", length=None)]
    )
    assert np.isnan(builds(rig).length).tolist() == [name.endswith("2") for name in rig.names]
    assert set(rig.solids.bodies.owner.tolist()) == {int(rig.solids.own[rig.names.index("p/1")])}


def test_floods_and_cycs_are_square_and_the_rest_round():
    kinds = [a_body("c", family="cyc"), a_body("f", family="flood"), a_body("e")]
    rig = a_rig([a_unit(n, n, kind=name) for n, name in enumerate("cfe")], kinds=kinds)
    boxy = dict(zip([k.name for k in rig.kinds], builds(rig).boxy.tolist(), strict=True))
    assert boxy == {"c": True, "f": True, "e": False}


def test_tubes_and_scenery_are_told_apart(mixed):
    rods = mixed.solids.rods(PIPE, ARM)
    assert rods.owner.tolist() == [1, 3]
    assert rods.points[:, 0].T.tolist() == [[-10.0, 0.0, 6.0], [10.0, 0.0, 6.0]]
    assert mixed.solids.rods().points.shape[1] == 0
    assert mixed.solids.scenery_triangles.owner.tolist() == [0, 0]


def test_a_rig_tipped_as_a_whole_keeps_its_dials_its_bodies_and_its_gaps():
    """Pipe, units and points turned 8 degrees about a level line square to the pipe, by scipy.

    Clamps grip square to the tube, so every unit goes along as one piece: same dial, same yoke, bodies
    turned as the pipe was, as near to pipe and neighbours as before.
    """
    slope = Rotation.from_euler("y", -8.0, degrees=True)
    middle = np.array((0.0, 0.0, 6.0))
    points = [(-2.0, 5.0, 1.6), (0.5, 4.0, 1.6), (3.0, -5.0, 1.6)]

    def rig_at(turn):
        def put(point):
            return tuple((middle + turn.apply(np.subtract(point, middle))).tolist())

        pipe = Pipe(name="p", start=put((-10, 0, 6)), end=put((10, 0, 6)), zero="middle")
        units = [
            a_unit(n, 0.5 * n, mount=mount, swing_out=40.0, out_to="US", point=put(point))
            for n, (mount, point) in enumerate(zip(MOUNTS, points, strict=True))
        ]
        return a_rig(units, pipes=[pipe])

    level, tipped = rig_at(Rotation.identity()), rig_at(slope)
    for one, other in zip(level.answers, tipped.answers, strict=True):
        assert (one.square, one.swing) == (other.square, other.swing)
        assert (one.pan, one.yoke) == pytest.approx((other.pan, other.yoke))
    carried = slope.apply((level.solids.corners - middle.reshape(3, 1, 1, 1)).reshape(3, -1).T).T
    there = (tipped.solids.corners - middle.reshape(3, 1, 1, 1)).reshape(3, -1)
    np.testing.assert_allclose(there, carried, atol=1e-9)
    every = np.arange(len(MOUNTS))
    gaps = [own_gaps(rig, every, rig.aims, within=9.0) for rig in (level, tipped)]
    assert gaps[0] == pytest.approx(gaps[1], abs=1e-6)
    near = [between_units(rig.solids.corners, within=9.0).gap for rig in (level, tipped)]
    assert near[0].size == 3
    assert near[0] == pytest.approx(near[1])
    exits = [tail_bodies(rig) for rig in (level, tipped)]
    np.testing.assert_allclose(exits[1].stem, slope.apply(exits[0].stem.T).T, atol=1e-12)
