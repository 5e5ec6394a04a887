"""Everything found in a rig, in one list."""

from __future__ import annotations

import pytest

from aimcalc.findings import WORST_FIRST, findings, hang_findings
from aimcalc.hang.plan import hang_plan
from aimcalc.scene.model import Circuit, Unit
from aimcalc.solid.rig import solve_rig
from tests.rigs import a_kind, a_pipe, a_scene
from tests.shows import a_show, rig_of


@pytest.mark.parametrize("scene", ["studio", "playhouse", "raked"])
def test_aims_and_the_work_at_the_pipe_are_both_told_worst_first(scene):
    rig = rig_of(scene)
    found = a_show(rig).findings
    for part in (findings(rig), hang_findings(rig, hang_plan(rig))):
        assert all(finding in found for finding in part)
    ranks = [WORST_FIRST[finding.severity] for finding in found]
    assert ranks == sorted(ranks)


def test_an_overloaded_circuit_is_a_stop_before_the_warnings_of_the_aims():
    pipe = a_pipe(circuits=(Circuit(name="A", at=0.0, limit_watts=500.0),))
    unit = Unit(position="p", number="1", kind="k", at=0.0, point=(0, 5, 1), circuit="A")
    found = a_show(solve_rig(a_scene([unit], pipes=[pipe], kinds=[a_kind(watts=750.0)]))).findings
    assert (found[0].severity, found[0].rule) == ("stop", "circuit-over")
    assert {"trim-not-measured", "no-rating"} <= {finding.rule for finding in found}
