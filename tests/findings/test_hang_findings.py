"""All findings of the work at the pipe, together."""

from pathlib import Path

import pytest

from aimcalc.findings import hang_findings
from aimcalc.hang.plan import hang_plan
from aimcalc.scene.model import Circuit, Unit
from aimcalc.solid.rig import solve_rig
from tests.rigs import a_kind, a_pipe, a_scene
from tests.shows import rig_of

SCENES = Path(__file__).parents[2] / "scenes"


def test_they_come_worst_first():
    units = [
        Unit(
            position="p", number="1", at=1.0, kind="k", point=(0, 4, 1.6), circuit="a", channel="1"
        ),
        Unit(
            position="p", number="2", at=0.0, kind="k", point=(0, 4, 1.6), circuit="a", channel="2"
        ),
    ]
    pipe = a_pipe(circuits=(Circuit(name="a", at=0.0, limit_amps=20.0),))
    rig = solve_rig(a_scene(units, pipes=[pipe], kinds=[a_kind(watts=600.0)], volts=120.0))
    severities = [f.severity for f in hang_findings(rig, hang_plan(rig))]
    order = {"stop": 0, "warn": 1, "note": 2}
    assert severities == sorted(severities, key=order.__getitem__)
    assert set(severities) == {"stop", "warn", "note"}


def test_a_scene_without_units_has_none():
    rig = solve_rig(a_scene([]))
    assert hang_findings(rig, hang_plan(rig)) == []


@pytest.mark.parametrize("name", ["studio", "playhouse", "raked"])
def test_the_worked_scenes_have_no_stop(name):
    rig = rig_of(name)
    told = hang_findings(rig, hang_plan(rig))
    assert [f for f in told if f.severity == "stop"] == []


def test_nothing_heavy_is_loaded():
    import subprocess
    import sys

    code = (
        "import sys, aimcalc.hang.plan, aimcalc.findings; "
        "print({'scipy', 'matplotlib', 'trimesh', 'reportlab'} & set(sys.modules))"
    )
    told = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert told.stdout.strip() == "set()"
