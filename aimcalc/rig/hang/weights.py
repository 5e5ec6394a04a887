"""What hangs on a position: the units, and what comes with them as far as its weight is typed.

A unit weighs what its kind says by itself; its clamp, its colour frame, its safety cable and its side arm are
added where their weights are typed, and named as left out where they are not. Cable is never counted.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from aimcalc.rig.hang.tubes import span
from aimcalc.rig.solve import Rig
from aimcalc.scene.model import Kind, Pipe, Position, Unit

PARTS = ("clamps", "side arms", "colour frames", "safety cables")
PIPE = "the pipe"


class Counted(NamedTuple):
    """The weight of a position and of each of its units in hang order (None: the unit's is not typed).

    `counted` and `left_out` name what of the units' gear is in the sums and what is not; a part that is
    typed for some only is in both, with how many.
    """

    weight: float
    units: list[float | None]
    own: float | None
    counted: list[str]
    left_out: list[str]
    missing: list[str]


def counted(rig: Rig, position: Position, mine: Sequence[int]) -> Counted:
    """The weight of what hangs on a position, the position itself (a pipe) included."""
    own = _own_weight(position)
    gear = [_gear(rig.units[k], rig.kinds[k]) for k in mine]
    weights = [
        None if rig.kinds[k].weight is None else (rig.kinds[k].weight or 0.0) + _sum(parts)
        for k, parts in zip(mine, gear, strict=True)
    ]
    known, unknown = _named(gear)
    missing = [PIPE] if isinstance(position, Pipe) and own is None else []
    return Counted(
        weight=sum(w for w in weights if w is not None) + (own or 0.0),
        units=weights,
        own=own,
        counted=known,
        left_out=[*unknown, "cable"],
        missing=missing + [rig.names[k] for k in mine if rig.kinds[k].weight is None],
    )


def _own_weight(position: Position) -> float | None:
    """A pipe's own weight, from its weight per metre."""
    if not isinstance(position, Pipe) or position.pipe_weight is None:
        return None
    ends = span(position)
    return position.pipe_weight * abs(ends.end - ends.start) if ends else None


def _gear(unit: Unit, kind: Kind) -> dict[str, float | None]:
    """What a unit brings with it and what each weighs. A floor stand needs neither clamp nor safety."""
    parts: dict[str, float | None] = {}
    if unit.mount != "stand":
        parts |= {"clamps": kind.clamp_weight, "safety cables": kind.safety_weight}
    if unit.mount == "arm":
        parts["side arms"] = unit.arm_weight
    if unit.colour:
        parts["colour frames"] = kind.frame_weight
    return parts


def _sum(parts: dict[str, float | None]) -> float:
    return sum(weight for weight in parts.values() if weight is not None)


def _named(gear: Sequence[dict[str, float | None]]) -> tuple[list[str], list[str]]:
    """Names of the parts that are counted, and of those that are not."""
    known, unknown = [], []
    for part in PARTS:
        all_of = [parts[part] for parts in gear if part in parts]
        typed = sum(weight is not None for weight in all_of)
        if typed:
            known.append(part if typed == len(all_of) else f"{typed} of {len(all_of)} {part}")
        if typed < len(all_of):
            rest = len(all_of) - typed
            unknown.append(f"{rest} of {len(all_of)} {part}" if typed else part)
    return known, unknown
