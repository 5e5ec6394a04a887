"""How light comes to each face, set beside the practice of 45 and 45; and where the shadow of a head falls.

S. McCandless, A Method of Lighting the Stage (1932), has two front lights to an area, "on the diagonals of
a cube, 45 up and 45 to each side". Later accounts read that in two ways, and both are told here:
the true elevation is 45 (and the plan angle 45), or it is 45 on paper, in the plan and in the section
alike, which is the cube's diagonal: then the light itself comes at 35.26, for atan(1 / sqrt(2)).
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from aimcalc.geometry.vectors import Array, cross, dot
from aimcalc.light.shadow import shadow_on_plane

if TYPE_CHECKING:
    from aimcalc.rig.solve import Rig
    from aimcalc.scene.model import Solid

CUBE_DIAGONAL = float(np.degrees(np.arctan(1 / np.sqrt(2))))  # 35.2644
UPRIGHT_WITHIN = 1e-6  # |z| of a panel's unit normal up to which it hangs upright
Point = tuple[float, float, float]


class FaceLight(NamedTuple):
    """How one unit's light comes to the face it is aimed at; degrees and metres.

    `elevation` is the light's own angle above level, `plan` its angle on plan off straight from the
    house (0, up to 180 from straight US), `side` SL or SR, where the unit is as seen from the face ("" on
    the centre), and `section` what a side view shows. `on_deck` is where the head's shadow falls on deck
    or platform, `on_drop` where on an upright panel that it meets before that, `drop` the panel's name.
    """

    unit: int
    target: str
    elevation: float
    plan: float
    side: str
    section: float
    on_deck: Point | None
    on_drop: Point | None
    drop: str | None

    @property
    def from_front(self) -> bool:
        """The light comes from the house's side."""
        return self.plan < 90.0


def face_lights(rig: Rig) -> list[FaceLight]:
    """Every unit that is aimed at a standing or seated person, in hang order."""
    rows = [k for k in range(len(rig.units)) if _at_a_face(rig, k)]
    if not rows:
        return []
    to_lens = rig.aims.lens[:, rows] - rig.arrays.point[:, rows]
    elevation = np.degrees(np.arctan2(to_lens[2], np.hypot(to_lens[0], to_lens[1])))
    plan = np.degrees(np.arctan2(np.abs(to_lens[0]), -to_lens[1]))
    section = np.degrees(np.arctan2(to_lens[2], np.abs(to_lens[1])))
    drops = shadow_on_drops(rig, rows)
    return [
        FaceLight(
            unit=k,
            target=rig.units[k].target or "",
            elevation=float(elevation[i]),
            plan=float(plan[i]),
            side="" if abs(to_lens[0, i]) < 1e-9 else "SL" if to_lens[0, i] > 0 else "SR",
            section=float(section[i]),
            on_deck=_point(rig.aims.lands[:, k]),
            on_drop=drops[i][0],
            drop=drops[i][1],
        )
        for i, k in enumerate(rows)
    ]


def shadow_on_drops(rig: Rig, rows: list[int]) -> list[tuple[Point | None, str | None]]:
    """Where the shadow of each unit's head meets an upright panel before the deck, and the panel's name."""
    lens, head = rig.aims.lens[:, rows], rig.arrays.point[:, rows]
    lands = rig.aims.lands[:, rows] - head
    nearest = np.where(np.isfinite(lands[0]), np.sqrt(dot(lands, lands)), np.inf)
    found: list[tuple[Point | None, str | None]] = [(None, None)] * len(rows)
    for solid in rig.scene.solids:
        hit = _on_panel(solid, lens, head)
        if hit is None:
            continue
        way = hit - head
        reach = np.sqrt(dot(way, way))
        for i in np.flatnonzero(reach < nearest).tolist():
            nearest[i] = reach[i]
            found[i] = (_point(hit[:, i]), solid.name)
    return found


def _on_panel(solid: Solid, lens: Array, head: Array) -> Array | None:
    """Where shadows fall on an upright panel, (3, N), NaN beside it; None for any other solid."""
    if solid.panel is None:
        return None
    corners = np.array(solid.panel, dtype=np.float64).T
    normal = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    size = float(np.sqrt(normal @ normal))
    if size == 0 or abs(normal[2]) > UPRIGHT_WITHIN * size:
        return None
    normal = normal / size
    hit = shadow_on_plane(lens, head, point=corners[:, 0], normal=normal)
    return np.where(_within(corners, normal[:, None], hit), hit, np.nan)


def _within(corners: Array, normal: Array, hit: Array) -> Array:
    """Whether points of a panel's plane lie within its four corners (which go round a convex outline)."""
    sides = [
        dot(cross(np.broadcast_to(b - a, hit.T.shape).T, hit - a[:, None]), normal)
        for a, b in zip(corners.T, np.roll(corners, -1, axis=1).T, strict=True)
    ]
    return np.asarray((np.min(sides, axis=0) >= 0) | (np.max(sides, axis=0) <= 0))


def _at_a_face(rig: Rig, unit: int) -> bool:
    stands = bool(np.isfinite(rig.arrays.stand[2, unit]) and np.isfinite(rig.aims.throw[unit]))
    return stands and bool(rig.arrays.point[2, unit] > rig.arrays.stand[2, unit])


def _point(values: Array) -> Point | None:
    if not np.isfinite(values).all():
        return None
    x, y, z = (values + 0.0).tolist()
    return (x, y, z)
