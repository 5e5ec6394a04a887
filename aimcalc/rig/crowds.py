"""Units that cannot all hang where they are told to: clamps on one spot of a tube, bodies in one heap.

A list filled down by mistake puts thousands of units in one place. Each such place is told once, and what
looks at every two units that could touch leaves all but the first of them out.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import numpy as np

from aimcalc.scene.model import Boom, Pipe

if TYPE_CHECKING:
    from aimcalc.geometry.aim import Flags
    from aimcalc.geometry.vectors import Array
    from aimcalc.rig.rig import Rig


# m. The width of an ordinary clamp (common practice, no source): centres nearer than that are one clamp on
# another. It stops although nobody typed it: the few narrower clamps leave no room for two bodies or bolts.
ONE_SPOT = 0.05
CLOSE = 1e-9  # m
MOST_BESIDE = 30  # units whose swing meets that of one; a full pipe has some ten (our choice)


def tubes(rig: Rig) -> Iterator[tuple[str, list[list[int]]]]:
    """The units of every pipe and boom, apart by the tube they grip: the position, or an arm's direction."""
    for position, rows in rig.rows.items():
        if rows and isinstance(rig.positions[rows[0]], Pipe | Boom):
            apart: dict[tuple[float, float] | None, list[int]] = {}
            for k in rows:
                unit = rig.units[k]
                arm = (unit.arm_to or 0.0, round(unit.arm, 2)) if unit.mount == "arm" else None
                apart.setdefault(arm, []).append(k)
            yield position, list(apart.values())


def on_one_spot(rig: Rig, rows: list[int], within: float) -> Iterator[list[int]]:
    """Runs of units along one tube, each within a distance of the one before it."""
    at = places(rig, rows)
    order = np.argsort(at, kind="stable")
    for run in np.split(order, np.flatnonzero(np.diff(at[order]) > within + CLOSE) + 1):
        if run.size > 1:
            yield sorted(rows[j] for j in run.tolist())


def with_room(rig: Rig) -> Flags:
    """Units that have their spot of the tube to themselves, and of others the first on each spot, (N,)."""
    room = np.ones(len(rig.units), dtype=bool)
    for _, every in tubes(rig):
        for run in (run for rows in every for run in on_one_spot(rig, rows, ONE_SPOT)):
            last = np.inf
            for k, at in zip(run, places(rig, run).tolist(), strict=True):
                room[k] = abs(at - last) > ONE_SPOT + CLOSE
                last = at if room[k] else last
    return room


def places(rig: Rig, rows: list[int]) -> Array:
    """Where units are clamped along their position; 0 on a stand."""
    return np.array([rig.units[k].at or 0.0 for k in rows])
