"""The crew's own reports: what did not come on, and what is left to do."""

from __future__ import annotations

from collections.abc import Iterator

from aimcalc.rig.answers import Finding
from aimcalc.rig.findings.telling import NOTE, WARN, about, by_position, subject
from aimcalc.rig.hang.records import HangPlan
from aimcalc.rig.solve import Rig


def progress_findings(rig: Rig, plan: HangPlan) -> Iterator[Finding]:
    """Nothing until somebody has reported something."""
    failed = [unit.works is False for unit in rig.units]
    for rows in by_position(rig, failed):
        says = f"{subject(rig, rows, 'has', 'have')} not come on when tested."
        do = "Isolate it, then try lamp, tail, cable and circuit, in that order; test it again."
        yield about(rig, rows, WARN, "does-not-work", says=says, do=do)
    if plan.left.hung:
        yield from _left(rig, plan)


def _left(rig: Rig, plan: HangPlan) -> Iterator[Finding]:
    whole, left = len(rig.units), plan.left
    tested = sum(unit.works is not None for unit in rig.units)
    says = f"Reported so far: {len(left.hung)} of {whole} units hung, {tested} tested."
    rest = (("hang", len(left.to_hang)), ("test", len(left.to_test)))
    waiting = ", ".join(f"{what} {number}" for what, number in rest if number)
    do = f"{waiting.capitalize()}." if waiting else "Nothing more to hang or to test."
    yield Finding(NOTE, "left-to-do", says, do)
