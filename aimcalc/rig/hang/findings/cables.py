"""Cable that is short of stock, has no room to be doubled back, or is long for its load."""

from __future__ import annotations

from collections.abc import Iterator

from aimcalc.rig.answers import Finding
from aimcalc.rig.findings.telling import NOTE, WARN, about, by_position, subject
from aimcalc.rig.hang.circuits import conductor
from aimcalc.rig.hang.findings.saying import in_hang_order, of_position
from aimcalc.rig.hang.loads import LONG_DROP, WARM
from aimcalc.rig.hang.records import HangPlan
from aimcalc.rig.solve import Rig
from aimcalc.rig.wording import length


def cable_findings(rig: Rig, plan: HangPlan) -> Iterator[Finding]:
    """Cable over the rig; nothing where the scene lists none."""
    if rig.scene.cables:
        yield from _short(rig, plan)
        yield from _no_room(rig, plan)
    yield from _drops(rig, plan)


def _short(rig: Rig, plan: HangPlan) -> Iterator[Finding]:
    cables = [unit.cable for unit in in_hang_order(plan)]
    for rows in by_position(rig, [bool(c.need) and c.stock is None for c in cables]):
        longest = length(max(cables[k].need or 0.0 for k in rows), rig.scene.settings.unit)
        has = subject(rig, rows, "has", "have")
        says = f"{has} no cable left that reaches (up to {longest} is needed)."
        do = "Find more cable, join two, or use nearer circuits."
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
