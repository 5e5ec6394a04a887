"""What to pull from the store: so many of each thing for each position, and for the rig with spare."""

from __future__ import annotations

from collections import Counter
from math import ceil

from aimcalc.rig.hang.records import CableRun, HangOptions, Pull
from aimcalc.rig.solve import Rig


def counts(rig: Rig, runs: list[CableRun], options: HangOptions) -> list[Pull]:
    """Things by position in the scene's order, then the whole rig's with spare, rounded up."""
    by_position: dict[str, Counter[str]] = {name: Counter() for name in rig.scene.positions}
    for k, unit in enumerate(rig.units):
        by_position[unit.position].update(_things(rig, k, runs[k]))
    for (name, _), units in Counter(
        (u.position, u.circuit) for u in rig.units if u.circuit
    ).items():
        if units > 1:
            by_position[name]["twofer"] += units - 1
    pulls = [
        Pull(name, item, count, 0)
        for name, things in by_position.items()
        for item, count in things.items()
    ]
    whole: Counter[str] = Counter()
    for things in by_position.values():
        whole.update(things)
    return pulls + [Pull(None, item, n, ceil(n * options.spare)) for item, n in whole.items()]


def _things(rig: Rig, k: int, run: CableRun) -> Counter[str]:
    """What one unit brings with it. A floor stand needs neither clamp nor safety."""
    unit, kind = rig.units[k], rig.kinds[k]
    things = Counter({f"unit {unit.kind}": 1})
    if unit.mount != "stand":
        things["clamp"] = things["safety cable"] = 1
    if unit.mount == "arm":
        things["side arm"] = 1
    if kind.has_frame:
        things["colour frame"] = 1
    if unit.colour:
        things[f"colour {unit.colour}"] = 1
    if kind.has_gobo:
        things["pattern holder"] = 1
    if kind.top_hat is not None:
        things["top hat"] = 1
    things.update(_cable(rig, run))
    return things


def _cable(rig: Rig, run: CableRun) -> Counter[str]:
    things: Counter[str] = Counter()
    if run.stock is not None:
        things[f"cable {cable_name(rig, run.stock)}"] = 1
    if run.ties:
        things["tie"] = run.ties
    return things


def cable_name(rig: Rig, length: float) -> str:
    """A cable's length in the scene's own system: whole or tenths of feet or metres."""
    if rig.scene.settings.unit in ("ft", "in"):
        return f"{round(length / 0.3048, 1):g} ft"
    return f"{round(length, 2):g} m"
