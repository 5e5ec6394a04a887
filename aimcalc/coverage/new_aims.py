"""New aims for existing units: which of them can be set at all, and what each adds to the light.

A new aim is one unit pointed at another face. It counts only where the unit can do it as it hangs: within
its yoke's travel, no less upright than it is now, and without its body striking its own pipe, boom, arm
or stand. Faces are rounded to what a person can mark on the deck, so that what is told is what was tried.

What a re-aim leaves alone: units with a job of their own, and the side that a unit lights from. Offered are
units of a system that others share, in a colour that the system is in, without a pattern and not `precise`.
A unit keeps its side: it turns by `TURN` at most, on plan too unless it points nearly straight down, where
headings mean little; and where it comes clearly from the front or back, from SL or SR, it still does. Its new
face lies in the acting area, clear of boxes that nobody stands on, and nothing stands between its lens and
that face.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

from aimcalc.coverage.sources import NewAims, Seen, posed, sees
from aimcalc.coverage.study import Study
from aimcalc.coverage.systems import ALL, acting_area, face_z, inside_boxes, systems_of
from aimcalc.geometry.aim import PLUMB, UPRIGHT, Aims, aim, cut
from aimcalc.geometry.deck import heights_near
from aimcalc.geometry.vectors import Array, dot, to_radians
from aimcalc.light.grid import inside
from aimcalc.light.illuminance import contributions
from aimcalc.light.lamps import Flags, Indices, Lamps, joined
from aimcalc.light.tiles import NEAREST
from aimcalc.rig.wording import DECK
from aimcalc.solid.own_pipe import striking

if TYPE_CHECKING:
    from aimcalc.solid.rig import SolidRig


# Where a place is moved to: a step to each of eight sides.
AROUND = np.array([(1, 0), (1, 1), (0, 1), (-1, 1), (-1, 0), (-1, -1), (0, -1), (1, -1)]).T
TURN = to_radians(30.0)  # our choice: a light from 45 off straight front stays 15 to 75 off it
STEEP = to_radians(80.0)  # down from here on, a light comes from above (our choice)
CLEARLY = np.sin(
    to_radians(15.0)
)  # share of a level heading from which a side is meant (our choice)
Leeway = tuple[Array, Array]  # by how much K axes turn, as a chord, and lenses move, m
OFTEN = 0.5  # a colour is the system's where over half as many units have it as have its commonest


def new_aims_at(study: Study, unit: Indices, x: Array, y: Array, *, bodies: bool = True) -> NewAims:
    """Units `unit` (K,) each pointed at the face over a plan point, m, those left out that cannot be.

    `x` and `y` are (K,). Whether a body strikes what it hangs on is not asked where `bodies` is False.
    """
    return settable(study, unit, x, y, bodies=bodies)[1]


def settable(
    study: Study, unit: Indices, x: Array, y: Array, *, bodies: bool = True
) -> tuple[Indices, NewAims]:
    """The S of K new aims that can be set, after which of those asked for each is, (S,) indices.

    `unit` (K,) rows of the rig; `x`, `y` (K,) metres on plan, rounded to what the deck is marked to.
    """
    rig = study.rig
    step = DECK.size(rig.scene.settings.unit)
    x, y = np.round(x / step) * step, np.round(y / step) * step
    face = np.stack((x, y, face_z(rig, x, y)))
    can = np.flatnonzero(can_be_faced(rig, face))
    given = cut(rig.arrays, unit[can])
    there = face[:, can]
    aims = aim(given._replace(point=there, stand=np.full_like(there, np.nan)), rig.deck)
    fits = np.flatnonzero(_can_be_set(rig, unit[can], aims))
    can, aims = can[fits], cut(aims, fits)
    clear = sees(study.sight, aims.lens, face[:, can])
    if bodies:
        clear &= ~striking(rig, unit[can], aims)
    can, aims = can[clear], cut(aims, np.flatnonzero(clear))
    return can, NewAims(unit[can], face[:, can], posed(study.sources, unit[can], aims), aims)


def _can_be_set(rig: SolidRig, unit: Indices, aims: Aims) -> Flags:
    """Within the yoke's travel, no less upright than now, from the same side."""
    now = rig.aims.attitude[unit]
    upright = aims.attitude <= np.where(now == PLUMB, UPRIGHT, now)
    fits = aims.in_travel & np.isfinite(aims.throw) & (upright | (aims.attitude == PLUMB))
    return np.asarray(fits & keeps_side(rig, unit, aims))


def joined_aims(parts: Sequence[NewAims]) -> NewAims:
    """Several lots of new aims as one; at least one lot."""
    aims = zip(*(part.aims for part in parts), strict=True)
    return NewAims(
        np.concatenate([part.unit for part in parts]),
        np.concatenate([part.face for part in parts], axis=1),
        joined(*(part.lamps for part in parts)),
        Aims._make(np.concatenate(columns, axis=-1) for columns in aims),
    )


def lit(lamps: Lamps, points: Array, seen: Seen) -> Array:
    """Lux of each of N units at each of M points (3, M), (N, M); 0 where a unit does not see the point."""
    lux = np.asarray(contributions(lamps, points)[0])
    if seen.flags is not None:
        lux *= seen.flags
    return lux


def lit_anew(study: Study, lamps: Lamps, points: Array) -> Array:
    """Lux of each new aim at points (3, Q), (K, Q), with rays from the new lenses wherever it has light."""
    if study.sight.ready is None:
        return np.asarray(contributions(lamps, points)[0])

    def visible(k: int, which: Indices) -> Flags:
        start = np.repeat(lamps.lens[:, [k]], which.size, axis=1)
        return sees(study.sight, start, points[:, which])

    asked = lamps._replace(part_blocked=np.ones(lamps.size, np.bool_))
    return np.asarray(contributions(asked, points, visible=visible)[0])


def free_to_re_aim(rig: SolidRig) -> Flags:
    """The units that a re-aim may take from what they light now, (N,)."""
    free = np.zeros(len(rig.units), np.bool_)
    for name, units in systems_of(rig).items():
        if name != ALL and units.size > 1:
            free[units] = _in_its_colours(rig, units)
    own = [unit.precise or kind.has_gobo for unit, kind in zip(rig.units, rig.kinds, strict=True)]
    return np.asarray(free & ~np.array(own, dtype=np.bool_))


def keeps_side(rig: SolidRig, unit: Indices, aims: Aims) -> Flags:
    """Whether units `unit` (K,) set as the K columns of `aims` say still light from their side, (K,)."""
    before, after = rig.axis[:, unit], aims.axis
    turned = dot(before, after) >= np.cos(TURN) - 1e-12
    steep = (rig.aims.down[unit] >= STEEP) | (aims.down >= STEEP)
    then, now = (np.stack((np.sin(h), np.cos(h))) for h in (aims.heading, rig.aims.heading[unit]))
    level = (then * now).sum(axis=0) >= np.cos(TURN) - 1e-12
    sides = ((np.abs(now) < CLEARLY) | (then * now > 0)).all(axis=0)
    return np.asarray(turned & (steep | (level & sides)))


def leeway(rig: SolidRig, new: NewAims, steps: tuple[float, ...]) -> Leeway:
    """By how much axes turn (a chord) and lenses move, m, at most while faces are moved by `steps`."""
    unit = new.unit
    if not steps:
        return np.zeros(unit.size), np.zeros(unit.size)
    mark = DECK.size(rig.scene.settings.unit)
    flat = np.sqrt(2.0) * (sum(steps) + len(steps) * mark / 2)
    far = np.sqrt(((new.face - new.aims.pivot) ** 2).sum(axis=0))
    nose, rise = np.abs(rig.arrays.nose[unit]), np.abs(rig.arrays.rise[unit])
    x, y, z = new.face
    least, most = heights_near(rig.deck, x, y, flat)
    stands = z - rig.scene.settings.face_height
    way = np.hypot(flat, np.maximum(most - stands, stands - least))
    turn = np.arcsin(np.minimum(way / far, 1.0)) * np.where(way < far, 1.0, 2.0)
    off = 2.0 * np.arcsin(np.minimum(rise / np.maximum(far - way, NEAREST), 1.0))
    turned = 2.0 * np.sin(np.minimum(turn + off, np.pi) / 2.0)
    return turned, nose * turned + 2.0 * rise


def can_be_faced(rig: SolidRig, face: Array) -> Flags:
    """Whether faces (3, K), m, are where somebody may stand: in the acting area, in no box, (K,)."""
    return np.asarray(inside(face[0], face[1], acting_area(rig)) & ~inside_boxes(rig, face))


def _in_its_colours(rig: SolidRig, units: Indices) -> list[bool]:
    colours = [(rig.units[k].colour or "").casefold() for k in units.tolist()]
    times = Counter(colours)
    most = max(times.values())
    return [times[colour] > OFTEN * most for colour in colours]
