"""Circuits: over their limit, dead, of another plug, used twice, not listed."""

from __future__ import annotations

from collections.abc import Iterator

from aimcalc.findings.report import (
    NOTE,
    STOP,
    WARN,
    about,
    at_least,
    by_position,
    in_hang_order,
    of_position,
    subject,
)
from aimcalc.hang.circuits import Outlets, conductor, outlets, outlets_of
from aimcalc.hang.records import (
    ARTICLE,
    ARTICLE_SHARE,
    LONG_DROP,
    WARM,
    CircuitPlan,
    HangPlan,
    PullCable,
)
from aimcalc.rig.wording import by_typical, count, listed
from aimcalc.scene.model import Circuit
from aimcalc.solid.answers import Finding
from aimcalc.solid.rig import SolidRig

SLIP = 1e-9  # of a share: what sums of floats may be off


def circuit_findings(rig: SolidRig, plan: HangPlan) -> Iterator[Finding]:
    """Every circuit's load and use, then what units lack."""
    yield from rig.kept.ask(_of_circuits, plan.circuits)


def _of_circuits(rig: SolidRig, circuits: list[CircuitPlan]) -> list[Finding]:
    return list(_told_of(rig, circuits))


def _told_of(rig: SolidRig, circuits: list[CircuitPlan]) -> Iterator[Finding]:
    listed_outlets = outlets(rig)
    for circuit in circuits:
        rows = [rig.by_name[name] for name in circuit.units]
        if rows:
            yield from _load(rig, circuit)
            yield from _shared(rig, circuit, rows)
            yield from _limits(circuit, listed_outlets.get(circuit.circuit))
    here = outlets_of(rig)
    yield from _plugs(rig, here)
    yield from _unplugged(rig, here)
    yield from _without_limit(circuits, listed_outlets)
    yield from _unknown(rig, circuits)
    yield from _full(rig, circuits)


def _load(rig: SolidRig, circuit: CircuitPlan) -> Iterator[Finding]:
    if circuit.limit == 0:  # whatever it carries, known or not
        says = (
            f"Circuit {circuit.circuit} is dead (limit 0 {circuit.limit_unit}); on it: "
            f"{listed(circuit.units)}."
        )
        do = "Use another circuit."
        yield of_position(circuit.positions[0], STOP, "circuit-dead", says=says, do=do)
    elif circuit.limit is not None and circuit.used is not None:
        yield from _against(rig, circuit, circuit.limit, circuit.used)


def _against(rig: SolidRig, circuit: CircuitPlan, limit: float, used: float) -> Iterator[Finding]:
    """A load over the limit that was typed, or over the share of it that was typed too."""
    unit, where = circuit.limit_unit, circuit.positions[0]
    load = (
        f"{circuit.watts:g} W"
        if circuit.amps is None
        else f"{circuit.watts:g} W ({circuit.amps:.1f} A)"
    )
    share = rig.scene.settings.continuous_share
    if used > 1 + SLIP:
        says = (
            f"Circuit {circuit.circuit} carries {load}, over its entered limit of {limit:g} {unit}."
        )
        do = "Move a unit to another circuit. Limits are set by local code and qualified people."
        yield _by_watts(rig, circuit, where, "circuit-over", says, do, most=1.0)
    elif share is not None and used > share * (1 + SLIP):
        says = (
            f"Circuit {circuit.circuit} carries {load}, {100 * used:.0f} % of {limit:g} {unit}; a load kept "
            f"on for hours may take {100 * share:g} % of it here (continuous_share), "
            f"{share * limit:.4g} {unit}."
        )
        do = "Move a unit to another circuit, or ask a qualified person whether that rule applies to it."
        yield _by_watts(rig, circuit, where, "circuit-continuous", says, do, most=share)


def _by_watts(
    rig: SolidRig, circuit: CircuitPlan, where: str, rule: str, says: str, do: str, *, most: float
) -> Finding:
    """A stop where the watts that the user typed are too many by themselves, else a warning."""
    kinds = {name: rig.kinds[k] for k, name in enumerate(rig.names)}
    typical = [kinds[name] for name in circuit.units if kinds[name].typical]
    typed = circuit.watts - sum(kind.watts or 0.0 for kind in typical)
    if (circuit.used or 0.0) * typed > most * (1 + SLIP) * circuit.watts:
        return of_position(where, STOP, rule, says=says, do=do)
    says += by_typical("watts", list(dict.fromkeys(kind.name for kind in typical)))
    return of_position(where, WARN, rule, says=says, do=do)


def _full(rig: SolidRig, circuits: list[CircuitPlan]) -> Iterator[Finding]:
    """Circuits loaded past what one widespread code leaves, where the scene says nothing of its own."""
    if rig.scene.settings.continuous_share is not None:
        return
    full = [c for c in circuits if c.used and ARTICLE_SHARE * (1 + SLIP) < c.used <= 1 + SLIP]
    if full:
        names = count([circuit.circuit for circuit in full], "Circuit")
        says = (
            f"{names} {'takes' if len(full) == 1 else 'take'} over {100 * ARTICLE_SHARE:.0f} % of the limit. "
            f"Some local codes allow a load kept on for three hours or more only that share ({ARTICLE})."
        )
        do = (
            "Ask a qualified person which rule applies here, and put its share into [scene]: "
            f"continuous_share = {ARTICLE_SHARE:g}, or 1 where there is none."
        )
        yield Finding(NOTE, "circuit-continuous", says, do)


def _shared(rig: SolidRig, circuit: CircuitPlan, rows: list[int]) -> Iterator[Finding]:
    """Two channels on one circuit cannot be told apart; one channel on it is a twofer."""
    if len(rows) < 2:
        return
    by_data = [k for k in rows if dimmed_by(rig, k) == "data"]
    dimmed = [k for k in rows if k not in by_data]
    channels = {rig.units[k].channel for k in dimmed} - {None}
    units = listed(circuit.units)
    where = circuit.positions[0]
    if len(channels) > 1:
        says = (
            f"Circuit {circuit.circuit} is used twice: {units} are on it with channels "
            f"{listed(sorted(str(c) for c in channels))}, but they can only come on together."
        )
        do = (
            "Give each channel its own circuit, or the units one channel; a kind whose level comes by data "
            'and not by its circuit says so: dimmed_by = "data".'
        )
        yield of_position(where, STOP, "circuit-twice", says=says, do=do)
        return
    if by_data and channels:
        fed, with_it = (listed(rig.names[k] for k in some) for some in (by_data, dimmed))
        says = (
            f"Circuit {circuit.circuit} dims {with_it} and feeds {fed}, dimmed by data: what fades the one "
            "takes the power from the other."
        )
        do = "Give what is dimmed by data a circuit that stays on."
        yield of_position(where, WARN, "circuit-fades", says=says, do=do)
        return
    apart = {rig.units[k].position for k in rows}
    says = f"Circuit {circuit.circuit} feeds {units} by a twofer"
    if len(apart) > 1:
        says = f"Circuit {circuit.circuit} feeds {units}, on {len(apart)} positions: taken as one circuit"
    do = "Pull the twofers; if it was not meant, give each unit its own circuit."
    yield of_position(where, NOTE, "twofer", says=f"{says}.", do=do)


def dimmed_by(rig: SolidRig, k: int) -> str:
    """What sets a unit's level: "circuit" or "data"."""
    return rig.units[k].dimmed_by or rig.kinds[k].dimmed_by


def _limits(circuit: CircuitPlan, listed_outlets: Outlets | None) -> Iterator[Finding]:
    if listed_outlets is None or len(listed_outlets.limits) < 2:
        return
    limits = listed(f"{value:g} {unit}" for value, unit in sorted(listed_outlets.limits))
    says = f"Circuit {circuit.circuit} is listed with limits of {limits}; the tightest is used."
    do = "Correct the limits, or name the circuits apart."
    yield of_position(circuit.positions[0], WARN, "limits-differ", says=says, do=do)


def _plugs(rig: SolidRig, here: list[Circuit | None]) -> Iterator[Finding]:
    for k, (unit, kind, outlet) in enumerate(zip(rig.units, rig.kinds, here, strict=True)):
        if outlet and outlet.plug and kind.plug and outlet.plug != kind.plug:
            says = (
                f"Unit {unit.number} has a {kind.plug} plug, and circuit {unit.circuit} takes "
                f"{outlet.plug}."
            )
            do = "Use another circuit, or an adapter that local code allows, fitted by a qualified person."
            yield about(rig, [k], STOP, "wrong-plug", says=says, do=do)


def _unplugged(rig: SolidRig, here: list[Circuit | None]) -> Iterator[Finding]:
    """Units without a circuit, or with one that their position does not list, where it lists any."""
    lists = [bool(position.circuits) for position in rig.positions]
    none = [has and unit.circuit is None for has, unit in zip(lists, rig.units, strict=True)]
    for rows in by_position(rig, none):
        says = f"{subject(rig, rows, 'has', 'have')} no circuit."
        do = "Give each unit a circuit of its position."
        yield about(rig, rows, WARN, "no-circuit", says=says, do=do)
    strange = [
        has and unit.circuit is not None and outlet is None
        for has, unit, outlet in zip(lists, rig.units, here, strict=True)
    ]
    for rows in by_position(rig, strange):
        names = listed(sorted({str(rig.units[k].circuit) for k in rows}))
        says = (
            f"{subject(rig, rows, 'has', 'have')} circuit {names}, which {rig.units[rows[0]].position} does "
            "not list: its cable is not worked out."
        )
        do = "Correct the circuit, or list its outlet on the position."
        yield about(rig, rows, WARN, "circuit-not-listed", says=says, do=do)


def _without_limit(circuits: list[CircuitPlan], have: dict[str, Outlets]) -> Iterator[Finding]:
    """Circuits in use whose outlets are listed without a limit."""
    open_ones = [c for c in circuits if c.units and c.limit is None and c.circuit in have]
    rows: dict[str, list[str]] = {}
    for circuit in open_ones:
        rows.setdefault(circuit.positions[0], []).append(circuit.circuit)
    for position, names in rows.items():
        says = f"No limit is posted for {count(names, 'circuit')}: the load is not checked."
        do = "Ask a qualified person; add the posted limit to the circuit."
        yield of_position(position, WARN, "no-limit", says=says, do=do)


def _unknown(rig: SolidRig, circuits: list[CircuitPlan]) -> Iterator[Finding]:
    """What keeps loads from being worked out: watts of kinds, or the volts."""
    kinds = {rig.units[k].kind: None for k, kind in enumerate(rig.kinds) if _needs_watts(rig, k)}
    if kinds:
        says = f"No watts are given for {count(list(kinds), 'kind')}: loads leave these units out."
        yield Finding(
            WARN, "watts-missing", says, "Add watts to the kinds, from the lamps in them."
        )
    in_amps = any(c.limit_unit == "A" and c.units for c in circuits)
    if in_amps and rig.scene.settings.volts is None:
        says = "Circuit limits are in amperes, but the scene gives no volts: the loads are not checked."
        yield Finding(WARN, "volts-missing", says, "Add volts to [scene].")


def _needs_watts(rig: SolidRig, k: int) -> bool:
    return rig.kinds[k].watts is None and rig.units[k].circuit is not None


def cable_findings(rig: SolidRig, plan: HangPlan) -> Iterator[Finding]:
    """Units and cable over the rig; nothing of what the scene lists no stock of."""
    yield from _stock_short(plan)
    if rig.scene.cables:
        yield from _short(rig, plan)
        yield from _no_room(rig, plan)
    yield from _drops(rig, plan)


def _stock_short(plan: HangPlan) -> Iterator[Finding]:
    """Kinds of which more hang than the store owns."""
    for pull in plan.counts:
        if pull.position is None and pull.sort == "unit" and pull.short:
            has = pull.owned or "none"
            says = f"The plot needs {pull.count} of {pull.name}, the store has {has}: {pull.short} short."
            do = f"Borrow or hire {pull.short}, or change kinds: aimcalc lens proposes from the stock."
            yield Finding(WARN, "stock-short", says, do)


def _short(rig: SolidRig, plan: HangPlan) -> Iterator[Finding]:
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


def _no_room(rig: SolidRig, plan: HangPlan) -> Iterator[Finding]:
    for rows in by_position(rig, [unit.cable.folds is False for unit in in_hang_order(plan)]):
        has = subject(rig, rows, "has", "have")
        says = f"{has} cable too long to be folded back once on {rig.units[rows[0]].position}."
        do = "Fold it back more than once, where its sheet says, or find a shorter cable; never coil it."
        yield about(rig, rows, NOTE, "cable-long", says=says, do=do)


def _drops(rig: SolidRig, plan: HangPlan) -> Iterator[Finding]:
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
