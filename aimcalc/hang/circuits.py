"""Circuits of a rig: who is on them, their load against the limit typed, the drop along the run."""

from __future__ import annotations

from collections.abc import Iterable

from aimcalc.hang.records import (
    CONDUCTORS,
    CableRun,
    CircuitPlan,
    HangOptions,
    Posted,
    amps,
    stabbed,
    used,
    voltage_drop,
)
from aimcalc.named import NamedTuple
from aimcalc.rig.rig import Rig
from aimcalc.scene.model import Circuit, Unit


class Outlets(NamedTuple):
    """All outlets of one circuit, with the positions they are on, as the scene lists them."""

    circuits: list[Circuit]
    positions: list[str]

    @property
    def limits(self) -> set[Posted]:
        """The limits that were typed for it, amperes or watts."""
        limits = [_posted(circuit) for circuit in self.circuits]
        return {limit for limit in limits if limit is not None}


def _posted(circuit: Circuit) -> Posted | None:
    if circuit.limit_amps is not None:
        return Posted(circuit.limit_amps, "A")
    return None if circuit.limit_watts is None else Posted(circuit.limit_watts, "W")


def outlets(rig: Rig) -> dict[str, Outlets]:
    """Outlets by circuit name. One name is one circuit, wherever its outlets are."""
    found: dict[str, Outlets] = {}
    for name, position in rig.scene.positions.items():
        for circuit in position.circuits:
            entry = found.setdefault(circuit.name, Outlets([], []))
            entry.circuits.append(circuit)
            entry.positions.append(name)
    return found


def conductor(rig: Rig, options: HangOptions) -> str:
    """The conductor taken for voltage drop: the declared one, or a usual one of the scene's own units."""
    feet = rig.scene.settings.own_unit in ("ft", "in")
    return options.conductor or ("12 AWG" if feet else "2.5 mm2")


def circuit_plans(rig: Rig, runs: list[CableRun], options: HangOptions) -> list[CircuitPlan]:
    """Every circuit that is listed or used: listed ones in the scene's order, then the rest."""
    listed = outlets(rig)
    on: dict[str, list[int]] = {name: [] for name in listed}
    for k, unit in enumerate(rig.units):
        if unit.circuit is not None:
            on.setdefault(unit.circuit, []).append(k)
    return [_plan(rig, runs, options, name, units, listed.get(name)) for name, units in on.items()]


def _plan(
    rig: Rig,
    runs: list[CableRun],
    options: HangOptions,
    name: str,
    units: list[int],
    listed: Outlets | None,
) -> CircuitPlan:
    volts = rig.scene.settings.volts
    watts = float(sum(rig.kinds[k].watts or 0.0 for k in units))
    limit = _least(listed.limits, volts) if listed and listed.limits else None
    here = [rig.units[k].position for k in units]
    return CircuitPlan(
        circuit=name,
        watts=watts,
        amps=amps(watts, volts),
        limit=limit.value if limit else None,
        limit_unit=limit.unit if limit else None,
        used=used(watts, limit, volts),
        drop=_drop(rig, runs, options, units, watts),
        positions=list(dict.fromkeys([*here, *(listed.positions if listed else [])])),
        units=[rig.names[k] for k in units],
        missing=[rig.names[k] for k in units if rig.kinds[k].watts is None],
    )


def _least(limits: Iterable[Posted], volts: float | None) -> Posted:
    """The tightest of several limits; amperes are compared in watts at the volts given."""
    return min(limits, key=lambda limit: limit.value * ((volts or 1.0) if limit.unit == "A" else 1))


def _drop(
    rig: Rig, runs: list[CableRun], options: HangOptions, units: list[int], watts: float
) -> float | None:
    """Volts lost along the longest run with the whole circuit's current; None where not known."""
    current = amps(watts, rig.scene.settings.volts)
    lengths = [_length(runs[k]) for k in units]
    longest = max((length for length in lengths if length is not None), default=None)
    if current is None or longest is None:
        return None
    return voltage_drop(longest, CONDUCTORS[conductor(rig, options)], current)


def _length(run: CableRun) -> float | None:
    return run.stock if run.stock is not None else run.need


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
        free: list[int] = []
        held: list[int] = []
        for k in members:
            (free if _may_move(rig.units[k], reach[k]) else held).append(k)
        found += [Joint((k,), outlets[k], None, False) for k in held]
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
