"""Units and positions as a finding about the work at the pipe names them."""

from __future__ import annotations

from math import ceil

from aimcalc.rig.answers import Finding
from aimcalc.rig.hang.records import HangPlan, UnitPlan
from aimcalc.rig.wording import INCH, length


def at_least(metres: float, unit: str) -> str:
    """A length that something must reach, up to the next centimetre or inch: never told short."""
    step = INCH if unit in ("ft", "in") else 0.01
    return length(ceil(metres / step - 1e-6) * step, unit)


def in_hang_order(plan: HangPlan) -> list[UnitPlan]:
    """The plans of all units, one for each unit of the rig."""
    return [unit for position in plan.positions for unit in position.units]


def of_position(position: str, severity: str, rule: str, *, says: str, do: str) -> Finding:
    """A finding about a whole position."""
    return Finding(severity, rule, says, do, position=position)
