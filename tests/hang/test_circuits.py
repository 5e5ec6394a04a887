"""Circuits of a rig: who is on them and what they carry."""

import pytest

from aimcalc.hang.plan import hang_plan
from aimcalc.hang.records import HangOptions
from aimcalc.scene.model import Circuit, Unit
from aimcalc.solid.rig import solve_rig
from tests.rigs import a_kind, a_pipe, a_scene


def planned(rows, circuits, *, watts=1000.0, options=None, pipes=None, **settings):
    """Units at (position, place, circuit) of kind `k`."""
    units = [
        Unit(position=name, number=str(k), at=at, kind="k", point=(0, 4, 1.6), circuit=circuit)
        for k, (name, at, circuit) in enumerate(rows, 1)
    ]
    pipes = pipes or [a_pipe(circuits=circuits)]
    scene = a_scene(units, pipes=pipes, kinds=[a_kind(watts=watts)], **settings)
    plan = hang_plan(solve_rig(scene), options or HangOptions())
    return {c.circuit: c for c in plan.circuits}


def test_watts_add_up_and_amperes_follow_from_the_volts():
    got = planned([("p", 4.0, "a"), ("p", 1.0, "a")], [Circuit(name="a", at=0)], volts=230.0)["a"]
    assert got.watts == 2000
    assert got.amps == pytest.approx(2000 / 230)
    assert got.units == ["p/1", "p/2"]


def test_a_limit_is_told_as_it_was_typed():
    circuits = [
        Circuit(name="a", at=0, limit_amps=20),
        Circuit(name="w", at=1, limit_watts=2400),
        Circuit(name="n", at=2),
    ]
    got = planned([], circuits, volts=120.0)
    assert (got["a"].limit, got["a"].limit_unit) == (20, "A")
    assert (got["w"].limit, got["w"].limit_unit) == (2400, "W")
    assert (got["n"].limit, got["n"].limit_unit, got["n"].used) == (None, None, None)


def test_the_share_used_is_of_the_limit_as_typed():
    limit = [Circuit(name="a", at=0, limit_watts=2000)]
    assert planned([("p", 1.0, "a")], limit)["a"].used == pytest.approx(0.5)


def test_unused_and_unlisted_circuits_are_both_told():
    got = planned([("p", 1.0, "x")], [Circuit(name="a", at=0)])
    assert got["a"].units == []
    assert got["a"].watts == 0
    assert got["x"].units == ["p/1"]
    assert list(got) == ["a", "x"]


def test_unknown_watts_are_named_and_left_out():
    got = planned([("p", 1.0, "a")], [Circuit(name="a", at=0)], watts=None)["a"]
    assert got.watts == 0
    assert got.missing == ["p/1"]


def test_no_volts_give_no_amperes_and_no_drop():
    got = planned([("p", 4.0, "a")], [Circuit(name="a", at=0, limit_amps=20)])["a"]
    assert (got.amps, got.used, got.drop) == (None, None, None)


def test_one_name_is_one_circuit_wherever_its_outlets_are():
    pipes = [
        a_pipe("p", circuits=(Circuit(name="a", at=0, limit_amps=10),)),
        a_pipe("q", y=2.0, circuits=(Circuit(name="a", at=0, limit_amps=8),)),
    ]
    rows = [("p", 1.0, "a"), ("q", 1.0, "a")]
    got = planned(rows, (), pipes=pipes, volts=100.0)["a"]
    assert got.watts == 2000
    assert got.positions == ["p", "q"]
    assert got.limit == 8  # the tighter of the two


def test_the_drop_is_out_and_back_along_the_longest_cable():
    # 2 L R I by hand: need 4.3 m (no stock listed), 2.5 mm2 at 7.98 ohm/km at 20 °C, times
    # 1 + 0.00393 (75 - 20) = 1.21615 at 75 °C, 1000 W at 230 V.
    got = planned([("p", 4.0, "a")], [Circuit(name="a", at=0)], volts=230.0)["a"]
    assert got.drop == pytest.approx(2 * 4.3 * 7.98e-3 * 1.21615 * 1000 / 230)
    thick = HangOptions(conductor="6 mm2")
    got = planned([("p", 4.0, "a")], [Circuit(name="a", at=0)], volts=230.0, options=thick)["a"]
    assert got.drop == pytest.approx(2 * 4.3 * 3.30e-3 * 1.21615 * 1000 / 230)


def test_a_scene_in_feet_takes_its_own_usual_conductor():
    got = planned([("p", 4.0, "a")], [Circuit(name="a", at=0)], volts=120.0, unit="ft")["a"]
    # NFPA 70 ch. 9 Table 8, 12 AWG: 1.98 ohm per 1000 ft.
    assert got.drop == pytest.approx(2 * 4.3 * 1.98 / 304.8 * 1000 / 120)
