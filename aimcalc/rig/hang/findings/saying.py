"""Weights and units as a sentence about the work at the pipe says them."""

from __future__ import annotations

from collections.abc import Iterable

from aimcalc.rig.answers import Finding
from aimcalc.rig.hang.records import UnitPlan
from aimcalc.rig.solve import Rig
from aimcalc.scene.quantities import POUND


def weight(kilograms: float, unit: str) -> str:
    """A weight in the system of the scene's unit of length: "203.5 kg", "448.6 lb"."""
    if unit in ("ft", "in"):
        return f"{kilograms / POUND:.1f} lb"
    return f"{kilograms:.1f} kg"


def short(name: str) -> str:
    """A unit's number from its full name."""
    return name.rpartition("/")[2]


def by_row(rig: Rig, units: Iterable[UnitPlan]) -> list[list[int]]:
    """Indices in the rig of some of its units, a list for each position, in hang order."""
    index = {name: k for k, name in enumerate(rig.names)}
    rows: dict[str, list[int]] = {}
    for unit in units:
        k = index[unit.unit]
        rows.setdefault(rig.units[k].position, []).append(k)
    return list(rows.values())


def of_position(position: str, severity: str, rule: str, *, says: str, do: str) -> Finding:
    """A finding about a whole position."""
    return Finding(severity, rule, says, do, position=position)
