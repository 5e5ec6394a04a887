"""Everything there is to know of a rig before the crew touches it: its aims and the work at the pipe."""

from __future__ import annotations

from aimcalc.rig.answers import Finding
from aimcalc.rig.findings import findings, in_order
from aimcalc.rig.hang.findings import hang_findings
from aimcalc.rig.hang.plan import usual_plan
from aimcalc.rig.solve import Rig


def checks(rig: Rig) -> list[Finding]:
    """Findings about aims, weights, circuits, tails and cable, in one list, worst first."""
    return in_order(rig, [*findings(rig), *hang_findings(rig, usual_plan(rig))])
