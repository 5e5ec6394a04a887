"""Outlets, and which units share one cable to a twofer or need none at all."""

from __future__ import annotations

from typing import NamedTuple

from aimcalc.rig.hang.intervals import stabbed
from aimcalc.rig.solve import Rig
from aimcalc.scene.model import Circuit, Unit

FAR = 0.305  # metres; a connector is tied 9 to 12 in (30 cm) from its clamp: common practice, no source
AT_OUTLET = 0.01  # metres; a connector this near its outlet is at it

Range = tuple[float, float]


class Joint(NamedTuple):
    """Units on one cable: their indices in hang order, the outlet, and where they are plugged.

    `place` is along the position as `at`; None where a single unit is free to choose its own. `plugs_in`
    is true where that is the outlet itself.
    """

    units: tuple[int, ...]
    outlet: Circuit | None
    place: float | None
    plugs_in: bool


def outlets_of(rig: Rig) -> list[Circuit | None]:
    """The outlet of each unit's circuit on its own position, the nearest if there are several."""
    named: dict[tuple[str, str], list[Circuit]] = {}
    for name, position in rig.scene.positions.items():
        for circuit in position.circuits:
            named.setdefault((name, circuit.name), []).append(circuit)
    return [_nearest(unit, named) for unit in rig.units]


def _nearest(unit: Unit, named: dict[tuple[str, str], list[Circuit]]) -> Circuit | None:
    if unit.circuit is None:
        return None
    at = unit.at or 0.0
    mine = named.get((unit.position, unit.circuit), [])
    return min(mine, key=lambda circuit: abs(circuit.at - at), default=None)


def joints(rig: Rig, outlets: list[Circuit | None], reach: list[Range]) -> list[Joint]:
    """Which units are served by one cable, over the rig, in hang order of their first unit.

    `reach` is where each unit's connector may be, from its clamp (low above high: not known). Units on one
    circuit of one position whose connectors can all be at one place take one cable there and a twofer; the
    fewest cables serve. A connector that can be at its outlet is plugged in there. Units without a circuit
    are left out; units under side arms keep a cable each.
    """
    rows: dict[tuple[str, str], list[int]] = {}
    for k, unit in enumerate(rig.units):
        if unit.circuit is not None:
            rows.setdefault((unit.position, unit.circuit), []).append(k)
    found: list[Joint] = []
    for members in rows.values():
        free = [k for k in members if _may_move(rig.units[k], reach[k])]
        found += [Joint((k,), outlets[k], None, False) for k in members if k not in free]
        found += _shared(rig, free, outlets, reach)
    return sorted(found, key=lambda joint: joint.units[0])


def _may_move(unit: Unit, reach: Range) -> bool:
    return unit.mount != "arm" and reach[0] <= reach[1]


def _shared(
    rig: Rig, members: list[int], outlets: list[Circuit | None], reach: list[Range]
) -> list[Joint]:
    at = [rig.units[k].at or 0.0 for k in members]
    ranges = [(a + reach[k][0], a + reach[k][1]) for a, k in zip(at, members, strict=True)]
    found = []
    for group in stabbed(ranges):
        units = tuple(members[i] for i in group)
        common = max(ranges[i][0] for i in group), min(ranges[i][1] for i in group)
        middle = sum(at[i] for i in group) / len(group)
        found.append(_joint(units, outlets[units[0]], common, middle))
    return found


def _joint(units: tuple[int, ...], outlet: Circuit | None, common: Range, middle: float) -> Joint:
    low, high = common
    if outlet is not None and low - AT_OUTLET <= outlet.at <= high + AT_OUTLET:
        return Joint(units, outlet, outlet.at, True)
    place = min(max(middle, low), high) if len(units) > 1 else None
    return Joint(units, outlet, place, False)
