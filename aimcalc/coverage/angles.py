"""How light comes to each face, set beside the practice of 45 and 45; and where the shadow of a head falls.

S. McCandless, A Method of Lighting the Stage (1932), by later accounts (the book was not seen), has two
front lights to an area, along the diagonals of a cube, 45 up and 45 to each side. They read that in two
ways, and both are told here: the true elevation is 45 (and the plan angle 45), or it is 45 on paper, in the
plan and in the section alike, which is the cube's diagonal: then the light itself comes at 35.26, for
atan(1 / sqrt(2)).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.vectors import Array, to_degrees
from aimcalc.named import NamedTuple
from aimcalc.rig.places import WORDS, nearest_word

if TYPE_CHECKING:
    from aimcalc.solid.rig import SolidRig


CUBE_DIAGONAL = float(to_degrees(np.arctan(1 / np.sqrt(2))))  # 35.2644
Point = tuple[float, float, float]


class FaceLight(NamedTuple):
    """How one unit's light comes to the face it is aimed at; degrees and metres.

    `elevation` is the light's own angle above level, `plan` its angle on plan off straight from the way that
    the target faces (0, up to 180 from behind it), `side` SL or SR (US or DS where it faces SL or SR), where
    the unit is as seen from the face ("" straight on), and `section` what a side view shows. `surface` names
    what stops the light. The head's shadow falls on it: `on_deck` where that is a deck or a platform's top,
    `on_drop` where it is upright; neither where the light is stopped before the face.
    """

    unit: int
    target: str
    elevation: float
    plan: float
    side: str
    section: float
    on_deck: Point | None
    on_drop: Point | None
    surface: str | None
    height: float  # of the shadow above the deck; NaN where there is none

    @property
    def drop(self) -> str | None:
        """The upright surface that the head's shadow falls on."""
        return None if self.on_drop is None else self.surface

    @property
    def from_front(self) -> bool:
        """The light comes from the side that the target faces."""
        return self.plan < 90.0


def face_lights(rig: SolidRig) -> list[FaceLight]:
    """Every unit that is aimed at a standing or seated person, in hang order."""
    rows = [k for k in range(len(rig.units)) if _at_a_face(rig, k)]
    if not rows:
        return []
    to_lens = rig.aims.lens[:, rows] - rig.arrays.point[:, rows]
    elevation = to_degrees(np.arctan2(to_lens[2], np.hypot(to_lens[0], to_lens[1])))
    (fx, fy), (x, y, _) = rig.fronts[:, rows], to_lens
    ahead, aside = x * fx + y * fy, y * fx - x * fy  # aside to SL of one who faces the house
    plan = to_degrees(np.arctan2(np.abs(aside), ahead))
    section = to_degrees(np.arctan2(to_lens[2], np.abs(ahead)))
    met = rig.meets
    level, upright = (rig.reaches & sort for sort in (met.top, met.upright))
    return [
        FaceLight(
            unit=k,
            target=rig.units[k].target or "",
            elevation=float(elevation[i]),
            plan=float(plan[i]),
            side=_side(float(aside[i]), float(fx[i]), float(fy[i])),
            section=float(section[i]),
            on_deck=_point(met.point[:, k]) if level[k] else None,
            on_drop=_point(met.point[:, k]) if upright[k] else None,
            height=float(met.height[k]),
            surface=met.names[met.surface[k]] if met.surface[k] >= 0 else None,
        )
        for i, k in enumerate(rows)
    ]


def _side(aside: float, fx: float, fy: float) -> str:
    """The side that light comes from, to one who faces the level way (fx, fy)."""
    if abs(aside) < 1e-9:
        return ""
    sense = 1.0 if aside > 0 else -1.0
    return WORDS[nearest_word((-sense * fy, sense * fx, 0.0))]


def _at_a_face(rig: SolidRig, unit: int) -> bool:
    stands = bool(np.isfinite(rig.arrays.stand[2, unit]) and np.isfinite(rig.aims.throw[unit]))
    return stands and bool(rig.arrays.point[2, unit] > rig.arrays.stand[2, unit])


def _point(values: Array) -> Point | None:
    if not np.isfinite(values).all():
        return None
    x, y, z = (values + 0.0).tolist()
    return (x, y, z)
