"""All rules about solids together."""

from __future__ import annotations

import sys

from aimcalc import findings as rules
from aimcalc.findings.report import WORST_FIRST
from aimcalc.solid.answers import Finding
from aimcalc.solid.rig import solve_rig
from tests.findings.clean import CLEAN, changed
from tests.findings.judged import found, told, upright, with_solids

CUT = with_solids(
    upright("flat", 6.2, 0.0, 7.0),  # through the back pipe's units
    upright("border 1", -3.0, 4.7, 7.0),
)


def test_worst_come_first():
    ranks = [WORST_FIRST[f.severity] for f in found(CUT)]
    assert ranks == sorted(ranks)
    assert {0, 1} <= set(ranks)


def test_stops_need_no_rays():
    rig = solve_rig(CUT)
    by_bodies = [f for f in rules.body_findings(rig) if f.severity == "stop"]
    assert by_bodies == [f for f in rules.solid_findings(rig) if f.severity == "stop"] != []
    assert all(f.severity != "stop" for f in rules.ray_findings(rig))


def test_without_the_ray_engine_one_warn_says_so_and_the_bodies_are_judged(monkeypatch):
    monkeypatch.setitem(sys.modules, "embreex.mesh_construction", None)
    assert [f for f in told(CUT) if f[0] == "stop"] != []
    (warn,) = [f for f in found(CUT) if f.rule == "no-ray-engine"]
    assert isinstance(warn, Finding)
    assert warn.severity == "warn"
    assert "embreex, which casts the rays, is not installed" in warn.says
    assert warn.do == "Install it (pip install embreex); run again."
    assert not [f for f in told(CUT) if f[1] == "field-cut"]


def test_an_empty_scene_has_nothing_to_tell():
    assert told(changed(CLEAN, units=(), targets=(), pipes=(), booms=(), seats=())) == []
