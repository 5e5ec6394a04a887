"""What a re-aim leaves alone: units with a job of their own, and the side that a unit lights from.

Offered are units of a system that others share, in a colour that the system is in, without a pattern and
not `precise`. A unit keeps its side: it turns by `TURN` at most, on plan too unless it points nearly
straight down, where headings mean little; and where it comes clearly from the front or back, from SL or
SR, it still does. Its new face lies in the acting area, clear of boxes that nobody stands on, and nothing
stands between its lens and that face.
"""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

import numpy as np

from aimcalc.coverage.systems import ALL, acting_area, inside_boxes, systems_of
from aimcalc.geometry.aim import Aims
from aimcalc.geometry.vectors import Array, dot
from aimcalc.light.grid import inside
from aimcalc.light.lamps import Flags, Indices

if TYPE_CHECKING:
    from aimcalc.solid.rig import SolidRig


TURN = np.radians(30.0)  # our choice: a light from 45 off straight front stays 15 to 75 off it
STEEP = np.radians(80.0)  # down from here on, a light comes from above (our choice)
CLEARLY = np.sin(
    np.radians(15.0)
)  # share of a level heading from which a side is meant (our choice)
OFTEN = 0.5  # a colour is the system's where over half as many units have it as have its commonest


def free_to_re_aim(rig: SolidRig) -> Flags:
    """The units that a re-aim may take from what they light now, (N,)."""
    free = np.zeros(len(rig.units), np.bool_)
    for name, units in systems_of(rig).items():
        if name != ALL and units.size > 1:
            free[units] = _in_its_colours(rig, units)
    own = [unit.precise or kind.has_gobo for unit, kind in zip(rig.units, rig.kinds, strict=True)]
    return np.asarray(free & ~np.array(own, dtype=np.bool_))


def keeps_side(rig: SolidRig, unit: Indices, aims: Aims) -> Flags:
    """Whether units `unit` (K,) set as the K columns of `aims` say still light from their side."""
    before, after = rig.axis[:, unit], aims.axis
    turned = dot(before, after) >= np.cos(TURN) - 1e-12
    steep = (rig.aims.down[unit] >= STEEP) | (aims.down >= STEEP)
    then, now = (np.stack((np.sin(h), np.cos(h))) for h in (aims.heading, rig.aims.heading[unit]))
    level = (then * now).sum(axis=0) >= np.cos(TURN) - 1e-12
    sides = ((np.abs(now) < CLEARLY) | (then * now > 0)).all(axis=0)
    return np.asarray(turned & (steep | (level & sides)))


def can_be_faced(rig: SolidRig, face: Array) -> Flags:
    """Whether faces (3, K) are where somebody may stand: in the acting area, in no box."""
    return np.asarray(inside(face[0], face[1], acting_area(rig)) & ~inside_boxes(rig, face))


def _in_its_colours(rig: SolidRig, units: Indices) -> list[bool]:
    colours = [(rig.units[k].colour or "").casefold() for k in units.tolist()]
    times = Counter(colours)
    most = max(times.values())
    return [times[colour] > OFTEN * most for colour in colours]
