"""Cable runs of a rig, worked by hand."""

import msgspec
import pytest

from aimcalc.hang.plan import hang_plan
from aimcalc.hang.records import HangOptions
from aimcalc.scene.model import Boom, Cable, Circuit, Stand, Unit
from aimcalc.solid.rig import solve_rig
from tests.rigs import a_kind, a_pipe, a_scene

# Without a tail the connector's place is not known and taken at the clamp.
BARE = a_kind()
STOCK = (Cable(length=2.0, count=1), Cable(length=5.0, count=2), Cable(length=10.0, count=1))


def planned(units, circuits, *, cables=STOCK, kinds=(BARE,), options=None, **positions):
    scene = a_scene(units, pipes=[a_pipe(circuits=circuits)], kinds=list(kinds), **positions)
    scene = msgspec.structs.replace(scene, cables=cables)
    return hang_plan(solve_rig(scene), options or HangOptions())


def unit(number, at, circuit, **values):
    return Unit(
        position="p", number=number, at=at, kind="k", point=(0, 4, 1.6), circuit=circuit, **values
    )


def cables_of(plan):
    return {u.number: u.cable for p in plan.positions for u in p.units}


def test_a_run_goes_along_the_pipe_from_outlet_to_clamp():
    cable = cables_of(planned([unit("1", 4.0, "a")], [Circuit(name="a", at=-0.5)]))["1"]
    assert cable.run == 4.5
    assert cable.need == pytest.approx(4.8)  # and 0.3 kept at the unit
    assert cable.stock == 5.0
    assert cable.extra == pytest.approx(0.5)
    # 0.5 to spare, 0.3 of it kept at the unit: 0.1 past the clamp and back, so 0.3 are left there.
    assert cable.double_back == pytest.approx(4.1)
    assert cable.ties == 9  # 4.6 covered, ties 0.6 apart: 8 gaps


def test_the_connectors_place_counts_towards_the_need():
    tied = unit("1", 4.0, "a", connector=0.2)
    cable = cables_of(planned([tied], [Circuit(name="a", at=0.0)]))["1"]
    assert cable.run == 4.0
    assert cable.need == pytest.approx(4.5)
    assert cable.double_back == pytest.approx((0.0 + 4.2 + 4.7) / 2)


def test_a_connector_on_the_outlets_side_still_lets_the_cable_reach_the_clamp():
    tied = unit("1", 4.0, "a", connector=-0.2)
    cable = cables_of(planned([tied], [Circuit(name="a", at=0.0)]))["1"]
    assert cable.need == pytest.approx(4.3)
    assert cable.double_back == pytest.approx((0.0 + 3.8 + 4.7) / 2)
    assert cable.extra == pytest.approx(1.2)


def test_stock_is_given_out_over_the_whole_rig():
    units = [unit("1", 1.0, "a"), unit("2", 4.0, "a"), unit("3", 8.0, "a"), unit("4", 4.2, "a")]
    got = cables_of(planned(units, [Circuit(name="a", at=0.0)]))
    assert {number: cable.stock for number, cable in got.items()} == {
        "1": 2.0,
        "2": 5.0,
        "3": 10.0,
        "4": 5.0,
    }


def test_what_no_cable_reaches_says_none_and_keeps_its_need():
    cable = cables_of(planned([unit("1", 9.9, "a")], [Circuit(name="a", at=-5.0)]))["1"]
    assert cable.stock is None
    assert cable.double_back is None
    assert cable.need == pytest.approx(15.2)


def test_cable_of_a_named_plug_serves_that_plug_alone():
    cables = (Cable(length=5.0, count=9, plug="pin"), Cable(length=6.0, count=9))
    circuits = [Circuit(name="a", at=0.0, plug="pin"), Circuit(name="b", at=0.0, plug="twist")]
    got = cables_of(planned([unit("1", 4.0, "a"), unit("2", 4.0, "b")], circuits, cables=cables))
    assert (got["1"].stock, got["2"].stock) == (5.0, 6.0)


def test_down_a_boom_and_along_its_arm():
    boom = Boom(name="b", x=6.0, y=1.0, height=6.0, circuits=(Circuit(name="a", at=0.3),))
    arm = Unit(
        position="b",
        number="1",
        at=3.8,
        kind="k",
        mount="arm",
        arm=0.5,
        arm_to=270.0,
        point=(0, 4, 1.6),
        circuit="a",
    )
    cable = cables_of(planned([arm], (), booms=[boom]))["1"]
    assert cable.run == pytest.approx(4.0)  # 3.5 up the boom, 0.5 out along the arm
    assert cable.need == pytest.approx(4.3)
    # 5.0 less the arm and the 0.3 kept at the unit is 4.2 on the boom, 0.7 more than the 3.5 to the arm.
    assert cable.double_back == pytest.approx(4.15)


def test_a_stands_cable_lies_on_the_deck():
    stand = Stand(name="s", x=1.0, y=2.0, circuits=(Circuit(name="a", at=4.0),))
    row = Unit(position="s", number="1", kind="k", mount="stand", point=(0, 4, 1.6), circuit="a")
    cable = cables_of(planned([row], (), stands=[stand]))["1"]
    assert cable.run == 4.0
    assert cable.stock == 5.0
    assert cable.ties == 1


def test_units_at_one_twofer_pull_one_cable():
    kind = a_kind(tail=0.9, tail_exit=(0.24, 0.1))
    units = [unit("1", 4.2, "a"), unit("2", 3.8, "a")]
    plan = planned(units, [Circuit(name="a", at=0.0)], kinds=(kind,))
    got = cables_of(plan)
    assert got["1"].need == pytest.approx(4.5)  # to the first clamp, and 0.3
    assert got["1"].extra == pytest.approx(
        1.0
    )  # 5.0 less the 4.0 to the place half way between them
    assert got["2"].with_unit == "p/1"
    assert got["2"].stock is None
    assert [u.connector.place for u in plan.positions[0].units] == pytest.approx([-0.2, 0.2])
    assert [c.units for c in plan.cables] == [["p/1", "p/2"]]


def test_a_unit_at_its_outlet_plugs_straight_in():
    kind = a_kind(tail=0.9, tail_exit=(0.24, 0.1))
    plan = planned([unit("1", 4.2, "a")], [Circuit(name="a", at=4.0)], kinds=(kind,))
    cable = cables_of(plan)["1"]
    assert cable.plugs_in
    assert cable.need == 0
    assert cable.stock is None
    assert plan.cables == []


def test_the_pull_list_lays_the_longest_way_first():
    units = [unit("1", 1.0, "a"), unit("2", 4.0, "a"), unit("3", 8.0, "a")]
    plan = planned(units, [Circuit(name="a", at=0.0)])
    assert [c.units for c in plan.cables] == [["p/3"], ["p/2"], ["p/1"]]
    assert [c.stock for c in plan.cables] == [10.0, 5.0, 2.0]


def test_the_habits_can_be_changed():
    options = HangOptions(cable_extra=1.0, tie_spacing=1.2)
    cable = cables_of(planned([unit("1", 3.0, "a")], [Circuit(name="a", at=0.0)], options=options))[
        "1"
    ]
    assert cable.need == pytest.approx(4.0)
    assert cable.ties == 4  # 1.0 of 2.0 to spare is kept: 3.5 covered, 1.2 apart, 3 gaps
