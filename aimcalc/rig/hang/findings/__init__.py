"""What the work at the pipe runs into: weights, circuits, tails, cable and what the crew has reported."""

from __future__ import annotations

from aimcalc.rig.answers import Finding
from aimcalc.rig.findings import WORST_FIRST
from aimcalc.rig.hang.findings.cables import cable_findings
from aimcalc.rig.hang.findings.power import circuit_findings
from aimcalc.rig.hang.findings.progress import progress_findings
from aimcalc.rig.hang.findings.spacing import spacing_findings
from aimcalc.rig.hang.findings.tails import tail_findings
from aimcalc.rig.hang.findings.weights import weight_findings
from aimcalc.rig.hang.records import HangPlan
from aimcalc.rig.solve import Rig


def hang_findings(rig: Rig, plan: HangPlan) -> list[Finding]:
    """Everything about hanging and plugging that somebody must know, worst first."""
    found = [
        *weight_findings(rig, plan),
        *circuit_findings(rig, plan),
        *tail_findings(rig, plan),
        *cable_findings(rig, plan),
        *spacing_findings(rig, plan),
        *progress_findings(rig, plan),
    ]
    return sorted(found, key=lambda finding: WORST_FIRST[finding.severity])
