"""Where every connector is tied, which units share a cable, and what the tails make of it."""

from __future__ import annotations

from math import isfinite, nan

import numpy as np

from aimcalc.geometry.vectors import Array
from aimcalc.hang.circuits import FAR, Joint, Range, joints, outlets_of
from aimcalc.hang.records import Connector, HangOptions, Tail
from aimcalc.hang.tails import (
    Stretches,
    allowed_places,
    poses,
    stretches,
    tail_bodies,
    usable_tails,
)
from aimcalc.hang.tubes import tubes
from aimcalc.named import NamedTuple
from aimcalc.rig.rig import Rig
from aimcalc.scene.model import Circuit, Unit

ALIKE = 0.01  # metres; sides that reach within this of each other are alike


class Tied(NamedTuple):
    """Connectors and tails of every unit in hang order, and the cables that they share."""

    connectors: list[Connector]
    tails: list[Tail]
    joints: list[Joint]


def tied(rig: Rig, options: HangOptions) -> Tied:
    """Every connector at the place the scene gives, else at its outlet or twofer, else where it suits."""
    body, swings, held = tail_bodies(rig), poses(rig, options), rig.kept.ask(tubes)
    usable = usable_tails(rig, options)
    low, high = allowed_places(body, swings, held, usable)
    allowed = list(zip(low.tolist(), high.tolist(), strict=True))
    outlets = rig.kept.ask(outlets_of)
    movable = [_movable(unit, reach) for unit, reach in zip(rig.units, allowed, strict=True)]
    shared = rig.kept.ask(joints, outlets, movable)
    sides = [
        best_side(*reach, _outlet_way(unit, outlet))
        for unit, outlet, reach in zip(rig.units, outlets, allowed, strict=True)
    ]
    places = _places(rig, options, allowed, sides, shared)
    stretched = stretches(body, swings, held, np.array(places, dtype=float))
    rows = zip(rig.units, held.words, allowed, sides, places, strict=True)
    return Tied([_connector(*row) for row in rows], _tails(usable, stretched), shared)


def known(value: float) -> float | None:
    """The number itself, None where it does not exist (NaN)."""
    return value if isfinite(value) else None


def typed_place(unit: Unit) -> float | None:
    """Where the scene says a connector is tied, from the clamp; along a side arm there is one way only."""
    if unit.connector is None:
        return None
    return abs(unit.connector) if unit.mount == "arm" else unit.connector


def best_side(low: float, high: float, outlet_way: float) -> int:
    """+1 or -1: the side of the clamp whose allowed places go farther out, 0 where there is none.

    Of sides that are alike the one towards the outlet (`outlet_way`, signed) wins, then the + side.
    """
    plus, minus = max(0.0, high), max(0.0, -low)
    if not (low <= high) or plus == minus == 0:
        return 0
    if abs(plus - minus) < ALIKE and outlet_way:
        return 1 if outlet_way > 0 else -1
    return 1 if plus >= minus else -1


def _movable(unit: Unit, allowed: Range) -> Range:
    """Where a connector may be put to reach an outlet or a twofer: as typed, or near its clamp."""
    typed = typed_place(unit)
    if typed is not None:
        return typed, typed
    return max(allowed[0], -FAR), min(allowed[1], FAR)


def _outlet_way(unit: Unit, outlet: Circuit | None) -> float:
    """Which way along the position the outlet lies from a unit; 0 where that is not known."""
    return 0.0 if outlet is None or unit.at is None else outlet.at - unit.at


def _places(
    rig: Rig,
    options: HangOptions,
    allowed: list[Range],
    sides: list[int],
    shared: list[Joint],
) -> list[float]:
    """Places of the connectors from their clamps, signed; NaN where none is allowed."""
    usual = [_usual(reach, side, options) for reach, side in zip(allowed, sides, strict=True)]
    for joint in shared:
        if joint.place is not None:
            for k in joint.units:
                usual[k] = joint.place - (rig.units[k].at or 0.0)
    typed = [typed_place(unit) for unit in rig.units]
    return [u if t is None else t for u, t in zip(usual, typed, strict=True)]


def _usual(allowed: Range, side: int, options: HangOptions) -> float:
    """The allowed place on a side that is nearest to the usual one; NaN where nothing is allowed."""
    low, high = allowed
    return min(max(side * options.tie_at, low), high) if low <= high else nan


def _connector(
    unit: Unit, words: tuple[str, str], allowed: Range, side: int, place: float
) -> Connector:
    reach = allowed[1], -allowed[0]
    best, other = (0, 1) if side > 0 else (1, 0)
    return Connector(
        side=words[best] if side else None,
        furthest=known(reach[best]) if side else None,
        other=max(0.0, reach[other]) if side else None,
        place=known(place),
        typed=unit.connector is not None,
    )


def _tails(usable: Array, stretched: Stretches) -> list[Tail]:
    rows = np.stack((stretched.worst, usable, stretched.aim, stretched.tipping, stretched.focus))
    return [Tail(*(known(v) for v in row)) for row in rows.T.tolist()]
