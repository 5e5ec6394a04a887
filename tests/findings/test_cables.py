"""Cable short of stock, too long for its position, or losing volts."""

import msgspec
import pytest

from aimcalc.findings.power import cable_findings
from aimcalc.findings.report import at_least
from aimcalc.hang.plan import hang_plan
from aimcalc.hang.records import HangOptions
from aimcalc.scene.model import Cable, Circuit, Stock, Unit
from aimcalc.solid.rig import solve_rig
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


@pytest.mark.parametrize(("need", "unit", "words"), [(6.2, "m", "6.20 m"), (6.2001, "m", "6.21 m")])
def test_the_length_that_is_needed_is_never_told_short(need, unit, words):
    assert at_least(need, unit) == words


def test_the_length_that_is_needed_goes_up_to_the_next_inch():
    # 19 ft 8 1/4 in is 19 * 0.3048 + 8.25 * 0.0254 = 6.00075 m; the nearest inch would be 8 in.
    assert at_least(6.00075, "ft") == "19'-9\""


def test_cable_without_room_to_be_doubled_back_is_noted():
    assert rules(4.0, (Cable(length=40.0, count=1),)) == [("note", "cable-long")]


def test_a_long_thin_run_notes_its_drop():
    # 2 x 10.3 m x 13.3 ohm/km x 1.216 (75 °C) x 16 A = 5.3 V of 48: 11 %. With 6 mm2: 1.3 V, 2.8 %.
    thin, thick = HangOptions(conductor="1.5 mm2"), HangOptions(conductor="6 mm2")
    long = {"watts": 16 * 48.0, "volts": 48.0}
    assert rules(10.0, (), options=thin, **long) == [("note", "voltage-drop")]
    assert rules(10.0, (), options=thick, **long) == []


def told(units, **scene):
    pipe = a_pipe(circuits=[Circuit(name=c, at=0.0, plug=plug) for c, plug in PLUGS.items()])
    rig = solve_rig(msgspec.structs.replace(a_scene(units, pipes=[pipe]), **scene))
    return [(f.severity, f.rule, f.says) for f in cable_findings(rig, hang_plan(rig))]


PLUGS = {"a": "pin", "b": None}


def hung(number, at, circuit):
    return Unit(position="p", number=number, at=at, kind="k", point=(0, 4, 1.6), circuit=circuit)


def test_short_cable_names_the_plug_that_is_missing():
    units = [hung("1", 6.0, "a"), hung("2", 4.0, "b"), hung("3", 2.0, "a")]
    cables = (Cable(length=3.0, count=1, plug="pin"), Cable(length=5.0, count=1))
    assert told(units, cables=cables) == [
        (
            "warn",
            "cable-short",
            "Unit 1 has no cable with a pin plug left that reaches (6.30 m is needed).",
        )
    ]
    # Cables without a plug serve outlets of any plug that none is listed for; where they run out, the
    # outlet's plug is still what has to be found.
    short = told(units, cables=(Cable(length=5.0, count=1),))
    assert [says for _, _, says in short] == [
        "Units 1 and 3 have no cable with a pin plug left that reaches (up to 6.30 m is needed)."
    ]


def test_kinds_that_the_store_is_short_of_are_said_with_how_many():
    units = [hung(str(n), 4.0 - n, None) for n in range(5)]
    for owned, has in ((3, "3: 2 short"), (0, "none: 5 short")):
        assert told(units, stock=(Stock(kind="k", count=owned),)) == [
            ("warn", "stock-short", f"The plot needs 5 of k, the store has {has}.")
        ]
    assert told(units, stock=(Stock(kind="k", count=5),)) == []
    assert told(units, stock=(Stock(kind="l", count=0),)) == []  # nothing is listed of k
