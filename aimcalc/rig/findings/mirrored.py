"""A pipe whose places were counted from the wrong end.

The crossing may be meant, so this warns and says what gave rise to it.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right, insort
from collections import defaultdict
from collections.abc import Iterator, Sequence

import numpy as np

from aimcalc.geometry.vectors import Array
from aimcalc.rig.answers import Finding
from aimcalc.rig.findings.telling import WARN, hung
from aimcalc.rig.places import across, pipe_ends, place
from aimcalc.rig.solve import Rig
from aimcalc.scene.model import Pipe

FEWEST_UNITS = 4


def mirrored(rig: Rig) -> Iterator[Finding]:
    """Warns of pipes whose aims cross less than half as often with SL and SR of its places swapped.

    Two units of one system cross where the one further SL has the target further SR. Swapping turns every
    such pair round, so what is asked is whether over two thirds of the pairs cross; and whether the light
    then also travels less along the pipe. A pipe focused across itself on purpose keeps each half in
    order and so stays below. Units without a system are specials, which cross as they please; they count
    only where no unit of the scene has one.
    """
    told = any(unit.system for unit in rig.units)
    for pipe, row in hung(rig):
        rows = [k for k in row if rig.units[k].system or not told]
        if len(rows) < FEWEST_UNITS or not isinstance(pipe, Pipe) or not across(pipe):
            continue
        at, to = _along(rig, pipe, rows)
        crossed, pairs = _crossings(rig, rows, at, to)
        after = pairs - crossed
        if pairs >= FEWEST_UNITS and 2 * after < crossed and _less_travel(pipe, at, to):
            says = (
                f"Mirrored? {crossed} pairs of units cross their aims; with SL and SR of their places "
                f"swapped, {after} would."
            )
            do = "Check which end the places were counted from. If the crossing is meant, leave it."
            yield Finding(WARN, "mirrored", says, do, position=pipe.name)


def _along(rig: Rig, pipe: Pipe, rows: list[int]) -> tuple[Array, Array]:
    """Places of units, and of the points they aim at, measured along the pipe."""
    here = place(pipe)
    way, zero = np.array(here.along), np.array(here.zero)
    at = np.array([rig.units[k].at or 0.0 for k in rows])
    return at, way @ (rig.arrays.point[:, rows] - zero[:, None])


def _less_travel(pipe: Pipe, at: Array, to: Array) -> bool:
    """Whether light has less way to go along the pipe with every place counted from the other end."""
    low, high = pipe_ends(pipe)
    swapped = low + high - at
    return bool(np.abs(to - swapped).sum() < np.abs(to - at).sum())


def _crossings(rig: Rig, rows: list[int], at: Array, to: Array) -> tuple[int, int]:
    """Pairs of units of one system whose aims cross, and pairs that could: (crossed, pairs)."""
    systems: dict[str | None, list[int]] = defaultdict(list)
    for j, k in enumerate(rows):
        systems[rig.units[k].system].append(j)
    crossed = pairs = 0
    for mine in systems.values():
        crosses, clear = count_crossings(at[mine].tolist(), to[mine].tolist())
        crossed, pairs = crossed + crosses, pairs + crosses + clear
    return crossed, pairs


def count_crossings(at: Sequence[float], to: Sequence[float]) -> tuple[int, int]:
    """How many pairs have `at` and `to` in opposite order, and in the same order; ties are neither."""
    apart = 0.001  # a millimetre: targets in one line up and down the stage
    order = sorted(zip(at, to, strict=True))
    seen: list[float] = []
    opposite = same = 0
    for _, target in order:
        opposite += len(seen) - bisect_right(seen, target + apart)
        same += bisect_left(seen, target - apart)
        insort(seen, target)
    return opposite, same
