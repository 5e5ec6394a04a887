"""Everything there is to know of a rig before the crew touches it: aims, solids, the work at the pipe."""

from __future__ import annotations

from aimcalc.rig.answers import Finding
from aimcalc.rig.findings import findings, in_order
from aimcalc.rig.hang.findings import hang_findings
from aimcalc.rig.hang.plan import usual_plan
from aimcalc.rig.solid.findings import body_findings, solid_findings
from aimcalc.rig.solve import Rig


def checks(rig: Rig, *, rays: bool = True) -> list[Finding]:
    """Findings about aims, solids, weights, circuits, tails and cable, in one list, worst first.

    Without `rays`, what takes the longest is left out: light that is cut, and what the audience sees. Every
    stop is found without them. Raises SceneError where a mesh file cannot be used.
    """
    solids = solid_findings(rig) if rays else body_findings(rig)
    return in_order(rig, [*findings(rig), *solids, *hang_findings(rig, usual_plan(rig))])
