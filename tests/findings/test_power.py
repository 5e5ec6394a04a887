"""Circuits over their limit, dead, used twice, of another plug, not listed."""

from aimcalc.findings.power import circuit_findings
from aimcalc.hang.plan import hang_plan
from aimcalc.scene.model import Circuit, Unit
from aimcalc.solid.rig import solve_rig
from tests.rigs import a_kind, a_pipe, a_scene

TWENTY = Circuit(name="a", at=0.0, limit_amps=20.0)


def found(
    rows, circuits=(TWENTY,), *, watts=600.0, plug=None, volts=120.0, typical=False, **settings
):
    """Units given as dicts, 0.5 m apart from 4 m SL on one pipe."""
    units = [
        Unit(position="p", number=str(k), at=4.0 - k / 2, kind="k", point=(0, 4, 1.6), **values)
        for k, values in enumerate(rows, 1)
    ]
    kind = a_kind(watts=watts, plug=plug, typical=typical)
    rig = solve_rig(
        a_scene(units, pipes=[a_pipe(circuits=circuits)], kinds=[kind], volts=volts, **settings)
    )
    return list(circuit_findings(rig, hang_plan(rig)))


def rules(*args, **kwargs):
    return [(f.severity, f.rule) for f in found(*args, **kwargs)]


ON_A = {"circuit": "a"}


def test_a_circuit_within_its_limit_says_nothing():
    assert found([ON_A]) == []
    assert found([ON_A], watts=1920.0) == []  # 16 A of 20


def test_over_the_typed_limit_stops():
    told = found([ON_A], watts=2401.0)
    assert [(f.severity, f.rule) for f in told] == [("stop", "circuit-over")]
    assert "20 A" in told[0].says


def test_between_four_fifths_and_the_limit_a_rule_that_nobody_typed_is_only_noted():
    told = found([ON_A], watts=2160.0)  # 18 A of 20
    assert [(f.severity, f.rule) for f in told] == [("note", "circuit-continuous")]
    assert "NFPA 70 210.19(A)(1) and 210.20(A)" in told[0].says
    assert "continuous_share = 0.8" in told[0].do


def test_the_share_that_was_typed_is_a_limit():
    told = found([ON_A], watts=2160.0, continuous_share=0.8)
    assert [(f.severity, f.rule) for f in told] == [("stop", "circuit-continuous")]
    assert "90 % of 20 A" in told[0].says  # 18 A
    assert "80 % of it here (continuous_share), 16 A" in told[0].says
    assert rules([ON_A], watts=1920.0, continuous_share=0.8) == []  # 16 A, on the limit
    assert rules([ON_A], watts=1921.0, continuous_share=0.8) == [("stop", "circuit-continuous")]
    assert rules([ON_A], watts=2401.0, continuous_share=0.8) == [("stop", "circuit-over")]


def test_a_load_of_typical_watts_is_a_warning_that_says_so():
    for watts, rule in ((2401.0, "circuit-over"), (2160.0, "circuit-continuous")):
        (told,) = found([ON_A], watts=watts, typical=True, continuous_share=0.8)
        assert (told.severity, told.rule) == ("warn", rule)
        assert told.says.endswith(" By typical watts of k.")


def test_a_hall_without_such_a_rule_says_so_and_hears_no_more_of_it():
    # 230 V, 10 A circuits, two units of 1000 W: 8.7 A, 87 %, ordinary practice.
    ten = (Circuit(name="a", at=0.0, limit_amps=10.0),)
    two = [{"circuit": "a", "channel": "1"}] * 2
    hall = {"watts": 1000.0, "volts": 230.0, "continuous_share": 1.0}
    assert rules(two, ten, **hall) == [("note", "twofer")]


def test_a_limit_in_watts_works_without_volts():
    circuits = (Circuit(name="a", at=0.0, limit_watts=2400.0),)
    assert rules([ON_A], circuits, watts=2401.0, volts=None) == [("stop", "circuit-over")]


def test_limits_in_amperes_without_volts_are_said():
    assert rules([ON_A], volts=None) == [("warn", "volts-missing")]


def test_a_dead_circuit_stops():
    circuits = (Circuit(name="a", at=0.0, limit_amps=0.0),)
    assert rules([ON_A], circuits) == [("stop", "circuit-dead")]
    assert rules([], circuits) == []


def test_a_dead_circuit_stops_where_its_load_cannot_be_worked_out_too():
    circuits = (Circuit(name="a", at=0.0, limit_amps=0.0),)
    assert ("stop", "circuit-dead") in rules([ON_A], circuits, volts=None)
    assert ("stop", "circuit-dead") in rules([ON_A], circuits, watts=None)


def test_two_channels_on_one_circuit_stop():
    rows = [{"circuit": "a", "channel": "1"}, {"circuit": "a", "channel": "2"}]
    told = found(rows)
    assert [(f.severity, f.rule) for f in told] == [("stop", "circuit-twice")]
    assert "p/1 and p/2" in told[0].says
    assert "1 and 2" in told[0].says


def test_one_channel_on_one_circuit_is_a_twofer():
    rows = [{"circuit": "a", "channel": "1"}, {"circuit": "a", "channel": "1"}]
    assert rules(rows) == [("note", "twofer")]
    assert rules([ON_A, ON_A]) == [("note", "twofer")]


def test_another_plug_stops():
    circuits = (Circuit(name="a", at=0.0, limit_amps=20.0, plug="twist"),)
    told = found([ON_A], circuits, plug="pin")
    assert [(f.severity, f.rule) for f in told] == [("stop", "wrong-plug")]
    assert told[0].unit == "p/1"
    assert rules([ON_A], circuits, plug="twist") == []
    assert rules([ON_A], circuits) == []  # the kind's plug is not known


def test_units_without_a_circuit_are_told_where_the_pipe_lists_any():
    assert rules([{}]) == [("warn", "no-circuit")]
    assert rules([{}], ()) == []


def test_a_circuit_that_the_pipe_does_not_list_is_told():
    assert rules([{"circuit": "z"}]) == [("warn", "circuit-not-listed")]


def test_a_circuit_without_a_limit_is_told():
    told = found([ON_A], (Circuit(name="a", at=0.0),))
    assert [(f.severity, f.rule) for f in told] == [("warn", "no-limit")]
    assert "qualified person" in told[0].do


def test_unknown_watts_are_told_and_not_taken_as_none():
    told = found([ON_A], watts=None)
    assert [(f.severity, f.rule) for f in told] == [("warn", "watts-missing")]


def test_outlets_of_one_circuit_with_two_limits_are_told():
    circuits = (TWENTY, Circuit(name="a", at=3.0, limit_amps=10.0))
    assert rules([ON_A], circuits) == [("warn", "limits-differ")]
