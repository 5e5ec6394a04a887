"""Units that share a cable, or need none."""

import pytest

from aimcalc.hang.circuits import joints, outlets_of
from aimcalc.scene.model import Boom, Circuit, Unit
from aimcalc.solid.rig import solve_rig
from tests.rigs import a_pipe, a_scene

NEAR = (-0.3, 0.3)
TWO = (Circuit(name="1", at=4.0), Circuit(name="2", at=-4.0))


def rig_of(*rows, circuits=TWO):
    """Units at (place, circuit) of one pipe, numbered from SL."""
    units = [
        Unit(position="p", number=str(k + 1), at=at, kind="k", point=(0, 4, 1.6), circuit=circuit)
        for k, (at, circuit) in enumerate(rows)
    ]
    return solve_rig(a_scene(units, pipes=[a_pipe(circuits=circuits)]))


def found(rig, reach=None):
    return joints(rig, outlets_of(rig), reach or [NEAR] * len(rig.units))


def test_neighbours_on_one_circuit_share_a_cable_between_them():
    joint = found(rig_of((1.0, "1"), (0.5, "1")))[0]
    assert joint.units == (0, 1)
    assert joint.place == pytest.approx(0.75)
    assert joint.outlet.at == 4.0


def test_units_too_far_apart_take_a_cable_each():
    assert [j.units for j in found(rig_of((1.0, "1"), (0.3, "1")))] == [(0,), (1,)]


def test_three_in_a_row_take_the_fewest_cables():
    # 0.5 apart with 0.3 either way: the first two meet, the third meets only the second.
    assert len(found(rig_of((1.0, "1"), (0.5, "1"), (0.0, "1")))) == 2


def test_a_connector_that_reaches_its_outlet_needs_no_cable():
    joint = found(rig_of((3.8, "1")))[0]
    assert joint.plugs_in
    assert joint.place == 4.0
    assert not found(rig_of((3.6, "1")))[0].plugs_in


def test_a_tied_connector_is_plugged_in_only_at_the_outlet_itself():
    rig = rig_of((3.8, "1"))
    assert found(rig, [(0.2, 0.2)])[0].plugs_in
    assert not found(rig, [(0.1, 0.1)])[0].plugs_in


def test_an_unknown_tail_is_given_a_cable_of_its_own():
    rig = rig_of((4.0, "1"), (3.9, "1"))
    joint = found(rig, [(float("nan"), float("nan")), NEAR])
    assert [j.units for j in joint] == [(0,), (1,)]
    assert not joint[0].plugs_in


def test_units_without_a_circuit_have_no_cable():
    assert found(rig_of((1.0, None))) == []


def test_a_circuit_that_the_position_does_not_list_has_no_outlet():
    assert found(rig_of((1.0, "9")))[0].outlet is None


def test_the_nearest_of_several_outlets_of_a_circuit_is_used():
    twice = (Circuit(name="1", at=4.0), Circuit(name="1", at=-4.0))
    rig = rig_of((3.0, "1"), (-3.0, "1"), circuits=twice)
    assert [outlet.at for outlet in outlets_of(rig)] == [4.0, -4.0]


def test_units_under_side_arms_keep_a_cable_each():
    boom = Boom(name="b", x=6.0, y=1.0, height=4.0, circuits=(Circuit(name="1", at=0.2),))
    units = [
        Unit(
            position="b",
            number=str(k),
            at=3.0,
            kind="k",
            mount="arm",
            arm=0.5,
            arm_to=270.0 - 180 * k,
            point=(0, 4, 1.6),
            circuit="1",
        )
        for k in (0, 1)
    ]
    rig = solve_rig(a_scene(units, booms=[boom]))
    assert len(joints(rig, outlets_of(rig), [(0.0, 0.5)] * 2)) == 2
