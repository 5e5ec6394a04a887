"""Circuits of a rig: who is on them, their load against the limit typed, the drop along the run."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from aimcalc.rig.hang.loads import CONDUCTORS, Posted, amps, used, voltage_drop
from aimcalc.rig.hang.records import CableRun, CircuitPlan, HangOptions
from aimcalc.rig.solve import Rig
from aimcalc.scene.model import Circuit


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
