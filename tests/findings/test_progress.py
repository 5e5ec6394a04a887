"""What the crew has reported."""

from aimcalc.findings.hanging import progress_findings
from aimcalc.hang.plan import hang_plan
from aimcalc.scene.model import Unit
from aimcalc.solid.rig import solve_rig
from tests.rigs import a_scene


def found(*reports):
    units = [
        Unit(position="p", number=str(k), at=4.0 - k, kind="k", point=(0, 4, 1.6), **report)
        for k, report in enumerate(reports, 1)
    ]
    rig = solve_rig(a_scene(units))
    return list(progress_findings(rig, hang_plan(rig)))


def test_nothing_is_told_before_anybody_reports():
    assert found({}, {}) == []


def test_what_is_left_is_counted():
    told = found({"hung": "tail down", "works": True}, {"hung": "tail down"}, {}, {})
    assert [(f.severity, f.rule) for f in told] == [("note", "left-to-do")]
    assert "2 of 4 units hung, 1 tested" in told[0].says
    assert told[0].do == "Hang 2, test 3."


def test_when_all_is_done_it_says_so():
    told = found({"hung": "tail down", "works": True})
    assert told[0].do == "Nothing more to hang or to test."


def test_a_unit_that_did_not_come_on_warns():
    told = found({"hung": "tail down", "works": False}, {})
    assert [(f.severity, f.rule, f.unit) for f in told] == [
        ("warn", "does-not-work", "p/1"),
        ("note", "left-to-do", None),
    ]
