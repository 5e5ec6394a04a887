"""What the rules about solids tell of a scene, for their tests."""

from __future__ import annotations

from aimcalc.findings import solid_findings
from aimcalc.scene.model import Scene, Solid
from aimcalc.solid.answers import Finding
from aimcalc.solid.rig import solve_rig
from tests.findings.clean import CLEAN, changed

INCH = 0.0254


def found(scene: Scene) -> list[Finding]:
    return solid_findings(solve_rig(scene))


def told(scene: Scene) -> list[tuple[str, str, str | None]]:
    """Severity, rule and unit or position of everything found."""
    return [(f.severity, f.rule, f.unit or f.position) for f in found(scene)]


def says(scene: Scene, rule: str) -> str:
    """The sentence of the one finding of a rule."""
    (sentence,) = [f.says for f in found(scene) if f.rule == rule]
    return sentence


def with_solids(*solids: Solid, scene: Scene = CLEAN) -> Scene:
    """The scene with more solids."""
    return changed(scene, solids=(*scene.solids, *solids))


def upright(
    name: str, y: float, low: float, high: float, x0: float = -7.0, x1: float = 7.0
) -> Solid:
    """An upright panel across the stage."""
    return Solid(name=name, panel=((x0, y, low), (x1, y, low), (x1, y, high), (x0, y, high)))
