"""Can each unit be turned from square to its aim beside what hangs there, and in which order?"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np

from aimcalc.geometry.clearance import to_others
from aimcalc.geometry.hulls import Hulls, joined
from aimcalc.geometry.setting_order import Order, setting_order
from aimcalc.geometry.solids import Indices
from aimcalc.geometry.sweep import Neighbours, Path, past_fixed, past_neighbours
from aimcalc.rig.answers import Finding
from aimcalc.rig.findings.telling import NOTE, WARN, about, numbers, subject
from aimcalc.rig.solid.findings.pairs import grouped, name_beside, of_pair
from aimcalc.rig.solid.solids import TOUCH
from aimcalc.rig.solid.things import ARM, BOOM, PIPE, STAND
from aimcalc.rig.solve import Rig
from aimcalc.rig.wording import listed

BY_HAND = "Work it round by hand with the clamp loose."
MOST_IN_ORDER = 24  # units of a row whose order is told whole
SPREAD = "Spread them, or hang one of them the other way."


def setting(rig: Rig) -> Iterator[Finding]:
    """Warns of units that wait for others, must be turned before they are tipped, or are let past by nothing.

    Units that touch as they are aimed are told by the rules for bodies, and have no order.
    """
    close = rig.solids.close_units
    touch = close.gap <= TOUCH
    together = np.stack((close.unit[touch], close.other[touch]))
    turns = past_neighbours(rig.solids.hung, touching=together)
    order = setting_order(len(rig.units), turns)
    yield from _orders(rig, order)
    for i, j in order.impossible:
        says = (
            f"Unit {rig.units[i].number} and unit {name_beside(rig, i, j)} cannot be turned past each "
            "other to their aims, whichever is set first."
        )
        yield of_pair(rig, i, j, WARN, "no-way-past", says=says, do=SPREAD)
    fixed = _past_fixed(rig)
    yield from _fixed(rig, fixed)
    yield from _turned_first(rig, order, turns, fixed, together)


def _orders(rig: Rig, order: Order) -> Iterator[Finding]:
    """A warning on the row of every unit that has to wait for another."""
    waiting: dict[int, list[int]] = {}
    for first, then in order.before:
        waiting.setdefault(then, []).append(first)
    knots: dict[str, list[int]] = {}
    for k in sorted({k for pair in order.before for k in pair} & set(order.knot)):
        knots.setdefault(rig.units[k].position, []).append(k)
    for position, rows in knots.items():
        names = listed(rig.names[k] for k in rows)
        says = f"Units {names} block each other: each has to be set before another of them."
        yield Finding(WARN, "no-way-past", says, SPREAD, position=position)
    in_order: dict[str, list[int]] = {}
    for k in order.order:
        in_order.setdefault(rig.units[k].position, []).append(k)
    place = {k: j for rows in in_order.values() for j, k in enumerate(rows)}
    knotted = set(order.knot)
    for then, firsts in waiting.items():
        if then in knotted:
            continue
        before = listed(name_beside(rig, then, first) for first in firsts)
        says = (
            f"Set {before} before {rig.units[then].number}: turned in another order, their bodies "
            "would touch."
        )
        row, whose = in_order[rig.units[then].position], "the row"
        if len(row) > MOST_IN_ORDER:  # of a long row what comes just before it
            row, whose = row[max(0, place[then] - MOST_IN_ORDER) : place[then] + 1], "these"
        do = f"Set {whose} in this order: {', '.join(numbers(rig, row))}."
        yield about(rig, [then], WARN, "set-in-order", says=says, do=do)


def _turned_first(
    rig: Rig, order: Order, turns: Neighbours, fixed: Fixed, together: Indices
) -> Iterator[Finding]:
    """Warns of units that clear what is beside them only if they are turned before they are tipped.

    Which way the rest of what is near lets through is looked at only where there is such a unit.
    """
    some = np.zeros(len(rig.units), dtype=bool)
    for way in _ways(rig, order, turns, fixed):
        some[way.unit] |= way.clear and not way.tip_first
    if not some.any():
        return
    turns = past_neighbours(rig.solids.hung, touching=together, some=some, both=True)
    fixed = _past_fixed(rig, both=True)
    passed: dict[int, list[_Way]] = {}
    for way in _ways(rig, order, turns, fixed):
        if way.clear:
            passed.setdefault(way.unit, []).append(way)
    for k, ways in passed.items():
        turned = list(dict.fromkeys(way.beside for way in ways if not way.tip_first))
        tipped = list(dict.fromkeys(way.beside for way in ways if not way.turn_first))
        number = rig.units[k].number
        if turned and tipped:
            says = (
                f"Unit {number} clears {listed(turned)} only when it is turned first, and {listed(tipped)} "
                "only when it is tipped first."
            )
            yield about(rig, [k], WARN, "turn-first", says=says, do=BY_HAND)
        elif turned:
            says = f"Turn unit {number} before it is tipped: tipped first, it touches {listed(turned)}."
            do = "Pan it to its mark with the lens level, lock the pan, then tip it."
            yield about(rig, [k], WARN, "turn-first", says=says, do=do)


class _Way(NamedTuple):
    """One unit past one thing beside it, as that is when its turn comes."""

    unit: int
    beside: str
    clear: bool
    tip_first: bool
    turn_first: bool


def _ways(rig: Rig, order: Order, turns: Neighbours, fixed: Fixed) -> Iterator[_Way]:
    """Every unit past its neighbours, set before it or still square by the order, and past what is fixed."""
    place = {k: i for i, k in enumerate(order.order)}
    pairs = zip(turns.unit.tolist(), turns.other.tolist(), strict=True)
    for row, (i, j) in enumerate(pairs):
        path = turns.beside_set if place[j] < place[i] else turns.beside_square
        yield _Way(i, f"unit {name_beside(rig, i, j)}", *_told(path, row))
    for row, (i, owner) in enumerate(zip(fixed.unit.tolist(), fixed.owner.tolist(), strict=True)):
        yield _Way(i, rig.solids.things[owner].name, *_told(fixed.path, row))


def _told(path: Path, row: int) -> tuple[bool, bool, bool]:
    return bool(path.clear[row]), bool(path.tip_first[row]), bool(path.turn_first[row])


class Fixed(NamedTuple):
    """Units past pipes and scenery: the unit's row, the owner of what it passes, what becomes of it."""

    unit: Indices
    owner: Indices
    path: Path
    others: Hulls


def _past_fixed(rig: Rig, *, both: bool = False) -> Fixed:
    solids = rig.solids
    others = joined(solids.rods(PIPE, BOOM, STAND, ARM), solids.scenery_triangles)
    unit, row, path = past_fixed(solids.hung, others, passed_over=solids.held_by(), both=both)
    return Fixed(unit, others.owner[row], path, others)


def _fixed(rig: Rig, fixed: Fixed) -> Iterator[Finding]:
    """Notes units that cannot be turned to their aims without touching pipes or scenery."""
    blocked = sorted(_in_the_way(rig, fixed))
    for group in grouped(rig, [k for k, _ in blocked], [owner for _, owner in blocked]):
        rows = [blocked[j][0] for j in group]
        thing = rig.solids.things[blocked[group[0]][1]].name
        says = (
            f"{subject(rig, rows, 'touches', 'touch')} {thing} on the way from square to the aim, "
            "tipped first or turned first."
        )
        do = f"Set it before that is in its place, or {BY_HAND[0].lower()}{BY_HAND[1:]}"
        yield about(rig, rows, NOTE, "touches-on-the-way", says=says, do=do)


def _in_the_way(rig: Rig, fixed: Fixed) -> set[tuple[int, int]]:
    """Units and the owners that are in their way, but for those that they touch at their aims as well."""
    stopped = np.flatnonzero(~fixed.path.clear)
    if not stopped.size:
        return set()
    found = _pairs(fixed.unit[stopped], fixed.owner[stopped])
    at_aim = to_others(rig.solids.corners, fixed.others, within=TOUCH)
    return found - _pairs(at_aim.unit, at_aim.other)


def _pairs(first: Indices, second: Indices) -> set[tuple[int, int]]:
    return set(zip(first.tolist(), second.tolist(), strict=True))
