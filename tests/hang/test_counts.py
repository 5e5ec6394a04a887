"""What to pull from the store."""

import msgspec

from aimcalc.hang.plan import Twofer, hang_plan, twofers
from aimcalc.hang.records import HangOptions
from aimcalc.scene.model import Boom, Cable, Circuit, Stand, Stock, Unit
from aimcalc.solid.rig import solve_rig
from tests.rigs import a_kind, a_pipe, a_scene


def unit(number, at, **values):
    row = {"position": "p", "kind": "k", "point": (0, 4, 1.6), "number": number, "at": at}
    return Unit(**{**row, **values})


def pulled(scene, options=None):
    plan = hang_plan(solve_rig(scene), options or HangOptions())
    return {(pull.position, pull.item): pull for pull in plan.counts}


def test_every_unit_brings_clamp_safety_frame_and_colour():
    kind = a_kind(has_frame=True, has_gobo=True, top_hat=0.2)
    got = pulled(a_scene([unit("1", 1.0, colour="straw"), unit("2", 0.0)], kinds=[kind]))
    counts = {item: pull.count for (position, item), pull in got.items() if position == "p"}
    assert counts == {
        "unit k": 2,
        "clamp": 2,
        "safety cable": 2,
        "colour frame, k": 1,  # one unit has a colour; it was counted for every kind that takes one
        "colour straw": 1,
        "pattern holder": 2,
        "top hat": 2,
    }


def test_the_whole_rig_comes_with_spare_rounded_up():
    units = [unit(str(k), 9.0 - k / 2) for k in range(11)]
    got = pulled(a_scene(units))
    assert (got[None, "clamp"].count, got[None, "clamp"].spare) == (11, 2)  # a tenth of 11 is 1.1
    got = pulled(a_scene(units), HangOptions(spare=0.0))
    assert got[None, "clamp"].spare == 0


def test_a_floor_stand_needs_neither_clamp_nor_safety():
    stand = Stand(name="s", x=1.0, y=2.0)
    row = unit("1", None, position="s", mount="stand")
    got = pulled(a_scene([row], stands=[stand]))
    assert {item for position, item in got if position == "s"} == {"unit k"}


def test_a_side_arm_is_pulled_with_its_unit():
    boom = Boom(name="b", x=6.0, y=1.0, height=4.0)
    got = pulled(a_scene([unit("1", 3.0, position="b", mount="arm", arm=0.5)], booms=[boom]))
    assert got["b", "side arm"].count == 1


def test_cables_are_counted_by_length_with_their_ties():
    circuits = (Circuit(name="a", at=0.0), Circuit(name="b", at=0.0))
    units = [unit("1", 4.0, circuit="a"), unit("2", -4.0, circuit="b")]
    scene = a_scene(units, pipes=[a_pipe(circuits=circuits)])
    got = pulled(msgspec.structs.replace(scene, cables=(Cable(length=5.0, count=9),)))
    assert got["p", "cable 5 m"].count == 2
    # Each covers 4 m and 0.35 past it and back (5 - 4.3 + 0.3 = 1, halved 0.5): 4.5 m, 0.6 apart.
    assert got["p", "tie"].count == 2 * 9


def test_units_beyond_the_first_on_a_circuit_take_a_twofer_each():
    circuits = (Circuit(name="a", at=0.0),)
    units = [unit(str(k), 6.0 - 2 * k, circuit="a") for k in range(3)]
    got = pulled(a_scene(units, pipes=[a_pipe(circuits=circuits)]))
    assert got["p", "twofer"].count == 2


def test_cables_of_a_scene_in_feet_are_named_in_feet():
    circuits = (Circuit(name="a", at=0.0),)
    scene = a_scene([unit("1", 2.0, circuit="a")], pipes=[a_pipe(circuits=circuits)], unit="ft")
    got = pulled(msgspec.structs.replace(scene, cables=(Cable(length=3.048, count=9),)))
    assert got["p", "cable 10 ft"].count == 1


def test_the_pull_list_never_takes_more_than_the_store_has():
    units = [unit(str(k), 9.0 - k / 2) for k in range(20)]  # a tenth of spare: 2
    for owned, spare, take, short in (
        (30, 2, 22, 0),
        (21, 1, 21, 0),
        (20, 0, 20, 0),
        (17, 0, 17, 3),
    ):
        scene = msgspec.structs.replace(a_scene(units), stock=(Stock(kind="k", count=owned),))
        pull = pulled(scene)[None, "unit k"]
        assert (pull.count, pull.spare, pull.take, pull.short) == (20, spare, take, short), owned
        assert pull.owned == owned
    assert (
        pulled(a_scene(units))[None, "unit k"].take == 22
    )  # no stock listed: nothing to hold it to


def test_spare_cable_is_cut_to_what_there_is_of_its_length_and_plug():
    circuits = (Circuit(name="a", at=0.0, plug="pin"), Circuit(name="b", at=0.0))
    units = [unit("1", 4.0, circuit="a"), unit("2", -4.0, circuit="b")]
    scene = a_scene(units, pipes=[a_pipe(circuits=circuits)])
    cables = (Cable(length=5.0, count=1, plug="pin"), Cable(length=5.0, count=9))
    got = pulled(msgspec.structs.replace(scene, cables=cables))
    assert (got[None, "cable 5 m, pin"].count, got[None, "cable 5 m, pin"].take) == (1, 1)
    assert (got[None, "cable 5 m"].count, got[None, "cable 5 m"].take) == (1, 2)


def test_two_outlets_of_one_circuit_need_no_twofer():
    circuits = (Circuit(name="a", at=5.0), Circuit(name="a", at=-5.0))
    units = [unit("1", 4.0, circuit="a"), unit("2", -4.0, circuit="a")]
    assert ("p", "twofer") not in pulled(a_scene(units, pipes=[a_pipe(circuits=circuits)]))


def test_colours_are_cut_by_the_size_of_their_frame():
    kinds = [a_kind("k", frame_size="190 mm"), a_kind("l", frame_size="190 mm"), a_kind("m")]
    rows = [("k", "straw"), ("l", "straw"), ("m", "straw"), ("k", "straw + frost"), ("m", None)]
    units = [unit(str(n), 5.0 - n, kind=kind, colour=c) for n, (kind, c) in enumerate(rows)]
    plan = hang_plan(solve_rig(a_scene(units, kinds=kinds)))
    got = [(cut.frame, cut.colour, cut.count, cut.spare) for cut in plan.cuts]
    assert got == [("190 mm", "frost", 1, 1), ("190 mm", "straw", 3, 1), ("m", "straw", 1, 1)]
    frames = {p.item: p.count for p in plan.counts if p.position is None and "frame" in p.item}
    assert frames == {"colour frame, 190 mm": 3, "colour frame, m": 1}


def test_units_on_one_outlet_are_told_who_shares_it_and_where():
    # All on one outlet at 0. 1 and 2 hang together and share a cable: a twofer at the units. 3 has a cable
    # of its own: a twofer at the outlet.
    kinds = [a_kind("k", tail=0.9, tail_exit=(0.2, 0.1))]
    units = [unit(n, at, circuit="a") for n, at in (("1", 6.0), ("2", 5.7), ("3", 3.0))]
    rig = solve_rig(
        a_scene(units, pipes=[a_pipe(circuits=(Circuit(name="a", at=0.0),))], kinds=kinds)
    )
    runs = [u.cable for u in hang_plan(rig).positions[0].units]
    assert [run.with_unit for run in runs] == [None, "p/1", None]
    assert twofers(rig, runs) == {
        0: Twofer([1], [2]),
        1: Twofer([0], [2]),
        2: Twofer([], [0, 1]),
    }


def test_of_a_crowd_on_one_outlet_the_first_are_told_and_the_rest_counted():
    # Forty at the outlet itself, where every tail plugs in, and forty far off on one cable.
    kinds = [a_kind("k", tail=0.9, tail_exit=(0.2, 0.1))]
    ats = [0.0] * 40 + [6.0] * 40
    units = [unit(str(n), at, circuit="a") for n, at in enumerate(ats)]
    rig = solve_rig(
        a_scene(units, pipes=[a_pipe(circuits=(Circuit(name="a", at=0.0),))], kinds=kinds)
    )
    near = [k for k in range(80) if rig.units[k].at == 0.0]
    far = [k for k in range(80) if k not in near]
    found = twofers(rig, [u.cable for u in hang_plan(rig).positions[0].units])
    first = [k for k in range(80) if k != near[0]][:24]
    assert found[near[0]] == Twofer([], first, 0, 79 - 24)
    assert found[far[0]] == Twofer(far[1:25], near[:24], 39 - 24, 40 - 24)
    assert found[far[-1]] == Twofer(far[:24], near[:24], 39 - 24, 40 - 24)
