"""Cable short of stock, too long for its position, or losing volts."""

import msgspec

from aimcalc.rig.hang.findings.cables import cable_findings
from aimcalc.rig.hang.plan import hang_plan
from aimcalc.rig.hang.records import HangOptions
from aimcalc.rig.solve import solve_rig
from aimcalc.scene.model import Cable, Circuit, Unit
from tests.rigs import a_kind, a_pipe, a_scene


def rules(at, cables, *, watts=500.0, volts=230.0, options=None):
    unit = Unit(position="p", number="1", at=at, kind="k", point=(0, 4, 1.6), circuit="a")
    pipe = a_pipe(circuits=(Circuit(name="a", at=0.0, limit_amps=16.0),))
    scene = a_scene([unit], pipes=[pipe], kinds=[a_kind(watts=watts)], volts=volts)
    rig = solve_rig(msgspec.structs.replace(scene, cables=cables))
    plan = hang_plan(rig, options or HangOptions())
    return [(f.severity, f.rule) for f in cable_findings(rig, plan)]


def test_cable_that_reaches_says_nothing():
    assert rules(4.0, (Cable(length=5.0, count=1),)) == []


def test_cable_that_is_short_warns_where_cables_are_listed():
    assert rules(6.0, (Cable(length=5.0, count=1),)) == [("warn", "cable-short")]
    assert rules(6.0, ()) == []


def test_cable_without_room_to_be_doubled_back_is_noted():
    assert rules(4.0, (Cable(length=40.0, count=1),)) == [("note", "cable-long")]


def test_a_long_thin_run_notes_its_drop():
    # 2 x 10.3 m x 13.3 ohm/km x 1.216 (75 °C) x 16 A = 5.3 V of 48: 11 %. With 6 mm2: 1.3 V, 2.8 %.
    thin, thick = HangOptions(conductor="1.5 mm2"), HangOptions(conductor="6 mm2")
    long = {"watts": 16 * 48.0, "volts": 48.0}
    assert rules(10.0, (), options=thin, **long) == [("note", "voltage-drop")]
    assert rules(10.0, (), options=thick, **long) == []
