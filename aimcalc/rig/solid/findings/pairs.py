"""How findings about solids are told: of pairs, of a position's units together, and shares in words."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from aimcalc.rig.answers import Finding
from aimcalc.rig.solve import Rig


def name_beside(rig: Rig, unit: int, other: int) -> str:
    """How a unit is called in a sentence about another: its number, with its position where that differs."""
    if rig.units[unit].position == rig.units[other].position:
        return rig.units[other].number
    return rig.names[other]


def of_pair(
    rig: Rig, unit: int, other: int, severity: str, rule: str, *, says: str, do: str
) -> Finding:
    """A finding about two units: of their position if they share one, else of the first unit."""
    if rig.units[unit].position == rig.units[other].position:
        return Finding(severity, rule, says, do, position=rig.units[unit].position)
    return Finding(severity, rule, says, do, unit=rig.names[unit])


def grouped(rig: Rig, rows: Iterable[int], keys: Sequence[object]) -> Iterator[list[int]]:
    """Indices into `rows` (units) and `keys`, gathered by the unit's position and the key."""
    groups: dict[tuple[str, object], list[int]] = {}
    for j, (unit, key) in enumerate(zip(rows, keys, strict=True)):
        groups.setdefault((rig.units[unit].position, key), []).append(j)
    return iter(groups.values())


def percent(share: float) -> str:
    """A share as people say it, never less than 1 %: "12 %"."""
    return f"{max(1, round(100 * float(share)))} %"
