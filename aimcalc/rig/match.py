"""MATCH: which unit of the same row may be copied by eye once it is set.

A follower set parallel to its leader misses its own target by the angle between the two axes. That
angle takes pan and down together, so it is compared with the follower's own tolerance, the least of any
way it may be off: half of it, the other half being left to the eye that copies. And a follower's own row
never says another thing: its printed pan, down and heading are its leader's.
"""

from __future__ import annotations

import numpy as np

from aimcalc.geometry.aim import PLUMB
from aimcalc.geometry.vectors import Array, cross, dot
from aimcalc.rig.solve import Rig
from aimcalc.scene.model import Pipe

SHARE = 0.5  # of the follower's tolerance (common practice, no source)
MOST_LEADERS = 64  # the last before a unit on the ladder's way, which hang nearest to it
SAME_STEM = 1.0 - 1e-9  # cosine between stems that count as parallel


def match_leaders(rig: Rig) -> list[int | None]:
    """For each unit the index of the unit it may be matched to, None where it is set by its numbers.

    The leader comes earlier on the ladder's way along the same position, is of the same kind and mount,
    prints the same figures, and is itself set by its numbers; of several near enough the one that hangs
    nearest, for the eye that compares them. Units that point straight down or up, or that have no aim, take
    no part.
    """
    leaders: dict[tuple[str, str, str, tuple[int, ...]], list[int]] = {}
    found: list[int | None] = [None] * len(rig.units)
    taking_part = ((rig.aims.attitude != PLUMB) & ~np.isnan(rig.aims.yoke)).tolist()
    printed = _printed(rig)
    for k, unit in enumerate(rig.units):
        if taking_part[k]:
            ahead = leaders.setdefault((unit.position, unit.kind, unit.mount, printed[k]), [])
            found[k] = _nearest(rig, k, ahead[-MOST_LEADERS:])
            if found[k] is None:
                ahead.append(k)
    return found


def _printed(rig: Rig) -> list[tuple[int, ...]]:
    """What a unit's row prints of its pose, as whole degrees and codes: what a follower must share."""
    aims = rig.aims
    heading = whole(np.degrees(aims.heading)) % 360
    leaning = np.abs(rig.arrays.stem[2]) < SAME_STEM
    told = leaning | np.array([not isinstance(p, Pipe) for p in rig.positions], dtype=bool)
    rows = np.stack(
        (
            aims.square_sign,
            aims.swing_sign * whole(np.degrees(aims.pan)),
            whole(np.degrees(aims.down)),
            np.where(leaning, whole(np.degrees(aims.yoke)), 0),
            np.where(told, heading, 0),
        )
    )
    return [tuple(row) for row in np.nan_to_num(rows).astype(int).T.tolist()]


def whole(degrees: Array) -> Array:
    """Whole degrees as paper prints them: to the nearest, halves away from zero."""
    return np.asarray(np.copysign(np.floor(np.abs(degrees) + 0.5 + 1e-9), degrees))


def _nearest(rig: Rig, follower: int, leaders: list[int]) -> int | None:
    """The nearest leader that the follower may copy, None where it would miss by too much of any."""
    if not leaders:
        return None
    apart = angles_between(rig.axis[:, leaders], rig.axis[:, [follower]])
    stems = dot(rig.arrays.stem[:, leaders], rig.arrays.stem[:, [follower]])
    fits = (stems >= SAME_STEM) & (apart <= SHARE * rig.tolerances.least[follower])
    away = rig.arrays.clamp[:, leaders] - rig.arrays.clamp[:, [follower]]
    best = int(np.argmin(np.where(fits, dot(away, away), np.inf)))
    return leaders[best] if fits[best] else None


def angles_between(a: Array, b: Array) -> Array:
    """Angles in radians, 0 to pi, between directions of shape (3, N) or (3, 1)."""
    across = cross(a, b)
    return np.asarray(np.arctan2(np.sqrt(dot(across, across)), dot(a, b)))
