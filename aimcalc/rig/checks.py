"""Everything there is to know of a rig before the crew touches it: aims, solids, the work at the pipe."""

from __future__ import annotations

from aimcalc.rig.answers import Finding
from aimcalc.rig.findings import findings, in_order
from aimcalc.rig.hang.findings import hang_findings
from aimcalc.rig.hang.plan import usual_plan
from aimcalc.rig.solid.findings import solid_findings
from aimcalc.rig.solve import Rig


def checks(rig: Rig) -> list[Finding]:
    """Findings about aims, solids, weights, circuits, tails and cable, in one list, worst first.

    Raises SceneError where a mesh file cannot be used.
    """
    found = [*findings(rig), *solid_findings(rig), *hang_findings(rig, usual_plan(rig))]
    return in_order(rig, found)
