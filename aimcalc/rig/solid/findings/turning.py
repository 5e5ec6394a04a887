"""Can each unit be turned from square to its aim beside what hangs there, and in which order?"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from aimcalc.geometry.clearance import to_others
from aimcalc.geometry.hulls import joined
from aimcalc.geometry.setting_order import Order, setting_order
from aimcalc.geometry.solids import Indices
from aimcalc.geometry.sweep import Neighbours, past_fixed, past_neighbours
from aimcalc.rig.answers import Finding
from aimcalc.rig.findings.telling import NOTE, WARN, about, numbers, subject
from aimcalc.rig.solid.findings.pairs import grouped, name_beside, of_pair
from aimcalc.rig.solid.solids import TOUCH
from aimcalc.rig.solid.things import ARM, BOOM, PIPE, STAND
from aimcalc.rig.solve import Rig
from aimcalc.rig.wording import listed

SPREAD = "Spread them, or hang one of them the other way."


def setting(rig: Rig) -> Iterator[Finding]:
    """Notes the order in which rows have to be set, warns of units that no order lets through.

    Units that touch as they are aimed are told by the rules for bodies, and have no order.
    """
    turns = past_neighbours(rig.solids.hung)
    order = setting_order(len(rig.units), turns)
    yield from _orders(rig, order, turns)
    touching = _touching(rig)
    for i, j in order.impossible:
        if (i, j) not in touching:
            says = (
                f"Unit {rig.units[i].number} and unit {name_beside(rig, i, j)} cannot be turned past each "
                "other to their aims, whichever is set first."
            )
            yield of_pair(rig, i, j, WARN, "no-way-past", says=says, do=SPREAD)
    yield from _fixed(rig)


def _orders(rig: Rig, order: Order, turns: Neighbours) -> Iterator[Finding]:
    """One note for each position with a unit that has to wait for another."""
    waiting: dict[str, list[tuple[int, int]]] = {}
    for first, then in order.before:
        waiting.setdefault(rig.units[then].position, []).append((first, then))
    for position, pairs in waiting.items():
        if any(unit in order.knot for pair in pairs for unit in pair):
            rows = sorted({unit for pair in pairs for unit in pair} & set(order.knot))
            names = listed(rig.names[k] for k in rows)
            says = f"Units {names} block each other: each has to be set before another of them."
            yield Finding(WARN, "no-way-past", says, SPREAD, position=position)
            continue
        told = [f"{rig.units[i].number} before {name_beside(rig, i, j)}" for i, j in pairs]
        says = f"Set {listed(told)}: turned in another order, their bodies would touch."
        row = [k for k in order.order if rig.units[k].position == position]
        do = f"Set the row in this order: {', '.join(numbers(rig, row))}."
        yield Finding(NOTE, "set-in-order", says, do, position=position)


def _touching(rig: Rig) -> set[tuple[int, int]]:
    """Pairs of units that touch at their aims."""
    close = rig.solids.close_units
    touch = close.gap <= TOUCH
    return _pairs(close.unit[touch], close.other[touch])


def _fixed(rig: Rig) -> Iterator[Finding]:
    """Notes units that cannot be turned to their aims without touching pipes or scenery."""
    blocked = sorted(_in_the_way(rig))
    for group in grouped(rig, [k for k, _ in blocked], [owner for _, owner in blocked]):
        rows = [blocked[j][0] for j in group]
        thing = rig.solids.things[blocked[group[0]][1]].name
        says = (
            f"{subject(rig, rows, 'touches', 'touch')} {thing} on the way from square to the aim, "
            "tipped first or turned first."
        )
        do = "Set it before that is in its place, or work it round by hand with the clamp loose."
        yield about(rig, rows, NOTE, "touches-on-the-way", says=says, do=do)


def _in_the_way(rig: Rig) -> set[tuple[int, int]]:
    """Units and the owners that are in their way, but for those that they touch at their aims as well."""
    solids = rig.solids
    others = joined(solids.rods(PIPE, BOOM, STAND, ARM), solids.scenery_triangles)
    unit, row, path = past_fixed(solids.hung, others, passed_over=solids.held_by())
    stopped = np.flatnonzero(~path.clear)
    if not stopped.size:
        return set()
    found = _pairs(unit[stopped], others.owner[row[stopped]])
    at_aim = to_others(solids.corners, others, within=TOUCH)
    return found - _pairs(at_aim.unit, at_aim.other)


def _pairs(first: Indices, second: Indices) -> set[tuple[int, int]]:
    return set(zip(first.tolist(), second.tolist(), strict=True))
