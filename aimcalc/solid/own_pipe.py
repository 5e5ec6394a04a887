"""Bodies that would have to pass through the tube they hang on.

A body is a cylinder with flat ends about its lens axis: from its lens, `nose` in front of the pivot,
back over its `length`, `width` across. The tube is the pipe, boom, side arm or stand that holds it.
The distance from a point to a cylinder is convex, so the nearest point of a tube is found by narrowing.
Kinds without a nose or a drop cannot be judged and are left alone.
"""

from __future__ import annotations

import numpy as np

from aimcalc.geometry.aim import Aims, Flags, Indices
from aimcalc.geometry.vectors import Array, cross, dot
from aimcalc.named import NamedTuple
from aimcalc.rig.places import TUBE_RADIUS, pipe_ends, place, tubes_of, upright
from aimcalc.rig.rig import Rig
from aimcalc.rig.solve import hung
from aimcalc.scene.model import Boom, Pipe, Unit

MIDDLE = 0.001  # m; a body this near to the middle line of a tube is on it
BEND = 0.5  # m each way of a clamp that a curved pipe is taken for straight: 4 cm at 3 m radius
ROUNDS = 48  # each keeps two thirds of the tube: 40 m come down to a tenth of a micrometre


def striking(rig: Rig, which: Indices, aims: Aims) -> Flags:
    """Whether bodies strike their own tube, of units `which` (K,) set as the K columns of `aims` say."""
    return np.asarray(own_gaps(rig, which, aims, within=0.0) < 0)


def own_gaps(rig: Rig, which: Indices, aims: Aims, *, within: float) -> Array:
    """Gap between body and own tube, metres, of units set as for `striking`, (K,); negative: it strikes.

    Infinite where it is more than `within`, and for kinds without all their sizes.
    """
    bodies = _bodies(rig, which, aims)
    gap = _gaps_under(within, bodies, *_held_by(rig, which), bodies.sized)
    arm = np.array([rig.units[k].mount == "arm" for k in which.tolist()], dtype=bool)
    if (arm & bodies.sized).any():
        gap = np.minimum(gap, _gaps_under(within, bodies, *_arms(rig, which), arm & bodies.sized))
    return gap


class _Bodies(NamedTuple):
    """Cylinders: `middle`, beside the pivot, and `axis` (3, K); the rest (K,). `sized`: all is known."""

    middle: Array
    axis: Array
    front: Array  # metres from the middle
    back: Array
    radius: Array
    sized: Flags


def _bodies(rig: Rig, which: Indices, aims: Aims) -> _Bodies:
    sizes = rig.sizes
    front = sizes.nose[which]
    return _Bodies(
        middle=aims.pivot + rig.arrays.rise[which] * aims.up,
        axis=aims.axis,
        front=front,
        back=sizes.length[which] - front,
        radius=sizes.width[which] / 2,
        sized=(front > 0) & (rig.arrays.drop[which] > 0) & ~np.isnan(aims.yoke),
    )


def _held_by(rig: Rig, which: Indices) -> tuple[Array, Array]:
    """The two ends of the tube that each unit's position is, each (3, K)."""
    start, end = rig.arrays.clamp.copy(), rig.arrays.clamp.copy()
    for position, rows in hung(rig):
        if isinstance(position, Pipe) and position.through is None and not position.chords:
            start[:, rows] = np.array(position.start)[:, None]
            end[:, rows] = np.array(position.end)[:, None]
            continue
        if isinstance(position, Pipe):
            for k in rows:
                start[:, k], end[:, k] = _gripped(position, rig.units[k])
            continue
        _, foot, top = upright(rig.deck, position)
        start[:, rows] = np.array([[position.x], [position.y], [foot]])
        end[:, rows] = np.array([[position.x], [position.y], [top]])
    return start[:, which], end[:, which]


def _gripped(pipe: Pipe, unit: Unit) -> tuple[Array, Array]:
    """The ends of the tube that a unit grips; of a curved one, of the straight line that touches it there."""
    if pipe.through is None:
        _, line = next(tube for tube in tubes_of(pipe) if tube[0] == unit.chord)
        return line[:, 0], line[:, 1]
    here, at = place(pipe, unit.at or 0.0), unit.at or 0.0
    low, high = pipe_ends(pipe)
    ends = max(low, at - BEND), min(high, at + BEND)
    first, last = (np.array(here.zero) + np.array(here.along) * end for end in ends)
    return first, last


def _arms(rig: Rig, which: Indices) -> tuple[Array, Array]:
    """Side arms: from the boom, level, to the clamp at their end."""
    start = rig.arrays.clamp.copy()
    for position, rows in hung(rig):
        if isinstance(position, Boom):
            start[:2, rows] = np.array([[position.x], [position.y]])
    return start[:, which], rig.arrays.clamp[:, which]


def _gaps_under(within: float, bodies: _Bodies, start: Array, end: Array, asked: Flags) -> Array:
    """Gaps between body and tube up to `within`, of those `asked`; infinite for the rest."""
    gap = np.full(asked.size, np.inf)
    near = np.flatnonzero(asked & _lines_near(within, bodies, start, end))
    if near.size:
        some = _Bodies._make(column[..., near] for column in bodies)
        gap[near] = _gap(some, start[:, near], end[:, near]) - TUBE_RADIUS
    return np.where(gap <= within, gap, np.inf)


def _lines_near(within: float, bodies: _Bodies, start: Array, end: Array) -> Flags:
    """False where even the endless lines of body and tube pass each other farther off than `within`."""
    normal = cross(bodies.axis, end - start)
    size = np.sqrt(dot(normal, normal))
    apart = np.abs(dot(bodies.middle - start, normal))
    return np.asarray(apart <= (bodies.radius + TUBE_RADIUS + within) * size + 1e-9)


def _gap(bodies: _Bodies, start: Array, end: Array) -> Array:
    """Distance between each body and the middle line of its tube, (K,)."""

    def distance(share: Array) -> Array:
        d = start + share * (end - start) - bodies.middle
        ahead = dot(d, bodies.axis)
        off = d - ahead * bodies.axis
        beside = np.maximum(np.sqrt(dot(off, off)) - bodies.radius, 0.0)
        beyond = np.maximum(np.maximum(ahead - bodies.front, -bodies.back - ahead), 0.0)
        return np.asarray(np.hypot(beside, beyond))

    low, high = np.zeros(start.shape[1]), np.ones(start.shape[1])
    for _ in range(ROUNDS):
        third = (high - low) / 3
        nearer = distance(low + third) <= distance(high - third)
        high = np.where(nearer, high - third, high)
        low = np.where(nearer, low, low + third)
    return distance((low + high) / 2)
