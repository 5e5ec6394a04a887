"""Neighbours within each other's swing."""

from aimcalc.findings.hanging import spacing_findings
from aimcalc.hang.plan import hang_plan
from aimcalc.scene.model import Unit
from aimcalc.solid.rig import solve_rig
from tests.rigs import a_kind, a_scene

LONG = a_kind(length=1.1, width=0.3, nose=0.6)  # sweeps hypot(0.6, 0.15) = 0.618


def rules(gap, kind=LONG, mounts=("under", "under")):
    units = [
        Unit(
            position="p", number=str(k), at=gap * (2 - k), kind="k", mount=mount, point=(0, 4, 1.6)
        )
        for k, mount in enumerate(mounts, 1)
    ]
    rig = solve_rig(a_scene(units, kinds=[kind]))
    return [(f.severity, f.rule) for f in spacing_findings(rig, hang_plan(rig))]


def test_a_gap_under_the_swept_circle_is_noted():
    assert rules(0.61) == [("note", "inside-swing")]
    assert rules(0.62) == []


def test_units_over_and_under_pass_each_other():
    assert rules(0.5, mounts=("under", "over")) == []


def test_bodies_of_unknown_size_are_left_alone():
    assert rules(0.1, a_kind()) == []
