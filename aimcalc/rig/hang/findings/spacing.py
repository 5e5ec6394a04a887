"""Neighbours nearer than the circle that one of their bodies sweeps."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from aimcalc.rig.answers import Finding
from aimcalc.rig.crowds import ONE_SPOT
from aimcalc.rig.findings.telling import NOTE
from aimcalc.rig.hang.findings.saying import of_position
from aimcalc.rig.hang.records import HangPlan, PositionPlan
from aimcalc.rig.solve import Rig
from aimcalc.rig.wording import length, listed


def spacing_findings(rig: Rig, plan: HangPlan) -> Iterator[Finding]:
    """One note a position; that clamps are closer than 18 in is told with the other clamp rules."""
    for position in plan.positions:
        yield from _swept(rig, position)


def _swept(rig: Rig, position: PositionPlan) -> Iterator[Finding]:
    near = [
        (before.number, unit)
        for before, unit in pairwise(position.units)
        if unit.spacing is not None and unit.envelope is not None
        if ONE_SPOT < unit.spacing < unit.envelope and before.mount == unit.mount
    ]
    if near:
        widest = max(unit.envelope or 0.0 for _, unit in near)
        says = (
            f"Units {listed(f'{number} and {unit.number}' for number, unit in near)} hang closer than a "
            f"body sweeps as it turns, {length(widest, rig.scene.settings.unit)}."
        )
        do = "Turn one at a time with a hand on the other, or spread them."
        yield of_position(position.position, NOTE, "inside-swing", says=says, do=do)
