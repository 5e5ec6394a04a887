"""The store: kinds it is short of; cable that is short, has no room to be folded back, or loses volts."""

from __future__ import annotations

from collections.abc import Iterator

from aimcalc.rig.answers import Finding
from aimcalc.rig.findings.telling import NOTE, WARN, about, by_position, subject
from aimcalc.rig.hang.circuits import conductor
from aimcalc.rig.hang.findings.saying import at_least, in_hang_order, of_position
from aimcalc.rig.hang.loads import LONG_DROP, WARM
from aimcalc.rig.hang.records import HangPlan, PullCable
from aimcalc.rig.solve import Rig


def cable_findings(rig: Rig, plan: HangPlan) -> Iterator[Finding]:
    """Units and cable over the rig; nothing of what the scene lists no stock of."""
    yield from _stock_short(plan)
    if rig.scene.cables:
        yield from _short(rig, plan)
        yield from _no_room(rig, plan)
    yield from _drops(rig, plan)


def _stock_short(plan: HangPlan) -> Iterator[Finding]:
    """Kinds of which more hang than the store owns."""
    for pull in plan.counts:
        if pull.position is None and pull.item.startswith("unit ") and pull.short:
            kind = pull.item.removeprefix("unit ")
            has = pull.owned or "none"
            says = (
                f"The plot needs {pull.count} of {kind}, the store has {has}: {pull.short} short."
            )
            do = f"Borrow or hire {pull.short}, or change kinds: aimcalc lens proposes from the stock."
            yield Finding(WARN, "stock-short", says, do)


def _short(rig: Rig, plan: HangPlan) -> Iterator[Finding]:
    """Cables that the store has none for, by position and plug."""
    missing: dict[tuple[str, str | None], list[PullCable]] = {}
    for cable in plan.cables:
        if cable.stock is None:
            missing.setdefault((cable.position, cable.plug), []).append(cable)
    for (_, plug), cables in missing.items():
        rows = sorted(rig.by_name[cable.units[0]] for cable in cables)
        longest = at_least(max(cable.need for cable in cables), rig.scene.settings.unit)
        needed = f"{longest} is needed" if len(rows) == 1 else f"up to {longest} is needed"
        what = f"cable with a {plug} plug" if plug else "cable"
        says = f"{subject(rig, rows, 'has', 'have')} no {what} left that reaches ({needed})."
        do = "Find more of that cable, join two, or use a nearer circuit."
        yield about(rig, rows, WARN, "cable-short", says=says, do=do)


def _no_room(rig: Rig, plan: HangPlan) -> Iterator[Finding]:
    for rows in by_position(rig, [unit.cable.folds is False for unit in in_hang_order(plan)]):
        has = subject(rig, rows, "has", "have")
        says = f"{has} cable too long to be folded back once on {rig.units[rows[0]].position}."
        do = "Fold it back more than once, or find a shorter cable; never coil it."
        yield about(rig, rows, NOTE, "cable-long", says=says, do=do)


def _drops(rig: Rig, plan: HangPlan) -> Iterator[Finding]:
    volts = rig.scene.settings.volts
    for circuit in plan.circuits:
        if volts and circuit.drop is not None and circuit.drop > LONG_DROP * volts:
            says = (
                f"Circuit {circuit.circuit} loses {circuit.drop:.1f} V "
                f"({100 * circuit.drop / volts:.1f} %) along its longest cable on the position, taken "
                f"as {conductor(rig, plan.options)} copper at {WARM} °C."
            )
            do = "Expect less light; use a nearer circuit or a heavier cable if it matters."
            yield of_position(circuit.positions[0], NOTE, "voltage-drop", says=says, do=do)
