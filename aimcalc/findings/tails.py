"""Connectors tied where the tail cannot follow its body."""

from __future__ import annotations

from collections.abc import Iterator

from aimcalc.findings.report import NOTE, STOP, WARN, about, by_position, in_hang_order, subject
from aimcalc.hang.circuits import FAR
from aimcalc.hang.records import HangPlan, UnitPlan
from aimcalc.hang.tubes import span
from aimcalc.rig.wording import by_typical, count, length
from aimcalc.solid.answers import Finding
from aimcalc.solid.rig import SolidRig

TAUT = 1e-6  # metres
OFF = 0.001  # metres past an end
MUCH = 0.05  # metres by which one side must reach farther to be worth a change (our choice)


def tail_findings(rig: SolidRig, plan: HangPlan) -> Iterator[Finding]:
    """Connectors that would be pulled out or are badly placed, then tails that are not known."""
    units = in_hang_order(plan)
    for k, unit in enumerate(units):
        if unit.connector.typed:
            yield from _typed(rig, unit, k)
    yield from _no_place(rig, units)
    yield from _not_known(rig, units)


def _over(distance: float | None, usable: float | None) -> bool:
    return distance is not None and usable is not None and distance > usable + TAUT


def _typed(rig: SolidRig, unit: UnitPlan, k: int) -> Iterator[Finding]:
    if _over(unit.tail.focus, unit.tail.usable) or _over(unit.tail.aim, unit.tail.usable):
        yield _pulls(rig, unit, k)
    elif _over(unit.tail.tipping, unit.tail.usable):
        yield _on_the_way(rig, unit, k)
    yield from _off_the_tube(rig, unit, k)
    yield from _far(rig, unit, k)
    yield from _wrong_side(rig, unit, k)


def _reach(rig: SolidRig, unit: UnitPlan, worst: float) -> str:
    unit_of_length = rig.scene.settings.unit
    return (
        f"{length(worst, unit_of_length)} from where the tail leaves the body to the connector, "
        f"{length(unit.tail.usable or 0.0, unit_of_length)} of tail to reach with"
    )


def _pulls(rig: SolidRig, unit: UnitPlan, k: int) -> Finding:
    worst = max(d for d in (unit.tail.focus, unit.tail.aim) if d is not None)
    reach = _reach(rig, unit, worst)
    says = f"Unit {unit.number} pulls its connector out as it is focused: {reach}."
    kind = rig.kinds[k]
    sure = not kind.typical and _over(unit.tail.aim, kind.tail)
    if kind.typical:
        says += by_typical("tails", [kind.name])
    elif not sure:
        says += " It reaches its aim, with no loop and no room to focus."
    return about(
        rig, [k], STOP if sure else WARN, "tail-pulls-out", says=says, do=_better(rig, unit)
    )


def _on_the_way(rig: SolidRig, unit: UnitPlan, k: int) -> Finding:
    says = (
        f"Unit {unit.number} draws its tail taut on the way from square and level to its aim: "
        f"{_reach(rig, unit, unit.tail.tipping or 0.0)}."
    )
    do = f"Turn and tip it before it is plugged in. {_better(rig, unit)}"
    return about(rig, [k], WARN, "tail-taut", says=says, do=do)


def _better(rig: SolidRig, unit: UnitPlan) -> str:
    if unit.connector.side is None or unit.connector.furthest is None:
        return "No tie here leaves a loop: use a longer tail, or an extension with its own tie."
    side, furthest = unit.connector.side, unit.connector.furthest
    place = length(furthest, rig.scene.settings.unit)
    if furthest < FAR:
        return f"Tie the connector on the {side} side, within {place} of the clamp."
    usual = "9 to 12 in" if rig.scene.settings.unit in ("ft", "in") else "23 to 30 cm"
    return f"Tie the connector on the {side} side, {usual} from the clamp (up to {place} leaves a loop)."


def _off_the_tube(rig: SolidRig, unit: UnitPlan, k: int) -> Iterator[Finding]:
    ends, place, at = span(rig.positions[k]), unit.connector.place or 0.0, unit.at or 0.0
    if unit.mount == "arm":
        off = place > rig.units[k].arm + OFF
    elif ends is not None:
        low, high = min(ends.start, ends.end), max(ends.start, ends.end)
        off = not low - OFF <= at + place <= high + OFF
    else:
        off = abs(place) > OFF
    if off:
        says = f"The connector of unit {unit.number} is tied past the end of what holds it."
        yield about(rig, [k], WARN, "connector-off", says=says, do=_better(rig, unit))


def _far(rig: SolidRig, unit: UnitPlan, k: int) -> Iterator[Finding]:
    place, unit_of_length = abs(unit.connector.place or 0.0), rig.scene.settings.unit
    if place > FAR:
        says = (
            f"The connector of unit {unit.number} is tied {length(place, unit_of_length)} from its "
            f"clamp, past {length(0.3048 if unit_of_length in ('ft', 'in') else 0.3, unit_of_length)}."
        )
        do = "Tie it nearer, so that the loop hangs where a hand on the unit can see it."
        yield about(rig, [k], WARN, "connector-far", says=says, do=do)


def _wrong_side(rig: SolidRig, unit: UnitPlan, k: int) -> Iterator[Finding]:
    place, side = unit.connector.place or 0.0, unit.connector.side
    if side is None or place == 0 or unit.mount == "arm":
        return
    plus = side in ("SL", "US", "UP")
    gain = (unit.connector.furthest or 0.0) - (unit.connector.other or 0.0)
    if (place > 0) != plus and gain > MUCH:
        says = (
            f"The connector of unit {unit.number} is tied on the side that the back swings away from; on "
            f"the {side} side the tail reaches {length(gain, rig.scene.settings.unit)} farther."
        )
        yield about(rig, [k], WARN, "connector-side", says=says, do=_better(rig, unit))


def _no_place(rig: SolidRig, units: list[UnitPlan]) -> Iterator[Finding]:
    """Tails too short for any place within the focus swing, where the scene has not chosen one."""
    stuck = [unit.connector.place is None and _known(rig, unit) for unit in units]
    for rows in by_position(rig, stuck):
        has = subject(rig, rows, "has", "have")
        says = f"{has} too short a tail: no tie leaves a loop all through the focus swing."
        do = "Use a longer tail, or an extension with its own tie, and try it before it flies."
        yield about(rig, rows, WARN, "tail-short", says=says, do=do)


def _known(rig: SolidRig, unit: UnitPlan) -> bool:
    kind = rig.scene.kinds[unit.kind]
    return kind.tail_exit is not None and unit.tail.usable is not None


def _not_known(rig: SolidRig, units: list[UnitPlan]) -> Iterator[Finding]:
    kinds = list(dict.fromkeys(u.kind for u in units if not _known(rig, u)))
    if kinds:
        says = f"Tail or tail_exit is not given for {count(kinds, 'kind')}: their focus loop is not checked."
        yield Finding(
            NOTE, "tail-not-known", says, "Measure one unit of each and add both to the kind."
        )
