"""Borders, the front row, and the units that borders are meant to hide from it."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from aimcalc.geometry.aim import Indices
from aimcalc.geometry.bodies import BODY
from aimcalc.geometry.seats import front_row
from aimcalc.geometry.vectors import Array, points
from aimcalc.rig.solve import Rig
from aimcalc.scene.model import Pipe, Scene, Solid

EYES_APART = 1.0  # m along a row
BORDER_WORDS = ("border", "teaser")
UPRIGHT = 0.17  # sine of what a panel may lean and still be upright


class Row(NamedTuple):
    """The front row of a block of seats: the block's name and the eyes along it, (3, M)."""

    name: str
    eyes: Array


def borders_of(scene: Scene) -> list[int]:
    """The places among the scene's solids of its borders: upright panels whose name says so.

    A scene has no other word for what a panel is for; `border` or `teaser` in its name makes it one.
    """
    return [k for k, solid in enumerate(scene.solids) if _is_border(solid)]


def _is_border(solid: Solid) -> bool:
    named = any(word in solid.name.lower() for word in BORDER_WORDS)
    if solid.panel is None or not named:
        return False
    corners = points(solid.panel)
    normal = np.cross(corners[:, 2] - corners[:, 0], corners[:, 3] - corners[:, 1])
    return bool(abs(normal[2]) <= UPRIGHT * np.linalg.norm(normal))


def front_row_of(scene: Scene) -> Row | None:
    """The front row of the block of seats that comes nearest to the stage; None without seats."""
    if not scene.seats:
        return None
    block = max(scene.seats, key=lambda seats: max(y for _, y in seats.outline))
    return Row(block.name, front_row(np.array(block.outline).T, eye=block.eye, spacing=EYES_APART))


def masked(rig: Rig) -> Indices:
    """The units that borders are meant to hide: on pipes, upstage of the first border, of known size."""
    borders = borders_of(rig.scene)
    if not borders:
        return np.zeros(0, dtype=int)
    first = min(_depth(rig.scene.solids[k]) for k in borders)
    on_pipe = np.array([isinstance(p, Pipe) for p in rig.positions], dtype=bool)
    known = np.isfinite(rig.solids.corners).all(axis=(0, 2, 3))
    return np.flatnonzero(on_pipe & known & (rig.arrays.clamp[1] > first))


def sight_points(rig: Rig, units: Indices) -> Array:
    """The corners of some units' bodies, (3, N, Q)."""
    return rig.solids.corners[:, units, BODY]


def border_before(rig: Rig, rows: list[int]) -> str:
    """The name of the last border downstage of some units of one position."""
    y = float(rig.arrays.clamp[1, rows].min())
    solids = [rig.scene.solids[k] for k in borders_of(rig.scene)]
    return max((s for s in solids if _depth(s) < y), key=_depth).name


def _depth(solid: Solid) -> float:
    """Mean y of a panel."""
    return sum(corner[1] for corner in solid.panel or ()) / 4
