"""Bodies that would have to pass through the tube they hang on.

A body is a cylinder with flat ends about its lens axis: from its lens, `nose` in front of the pivot,
back over its `length`, `width` across. The tube is the pipe, boom, side arm or stand that holds it.
The distance from a point to a cylinder is convex, so the nearest point of a tube is found by narrowing.
Kinds without a nose or a drop cannot be judged and are left alone.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from aimcalc.geometry.aim import Aims, Flags, Indices
from aimcalc.geometry.vectors import Array, cross, dot
from aimcalc.named import NamedTuple
from aimcalc.rig.kept import Each, each
from aimcalc.rig.places import TUBE_RADIUS, pipe_ends, place, tubes_of, upright
from aimcalc.rig.rig import Rig
from aimcalc.rig.solve import hung
from aimcalc.scene.model import Boom, Pipe, Unit

MIDDLE = 0.001  # m; a body this near to the middle line of a tube is on it
BEND = 0.5  # m each way of a clamp that a curved pipe is taken for straight: 4 cm at 3 m radius
PLACES = 7  # of a piece of tube that are tried at once; a quarter of it is kept
ROUNDS = 14  # 40 m come down to a tenth of a micrometre


def striking(rig: Rig, which: Indices, aims: Aims) -> Flags:
    """Whether bodies strike their own tube, of units `which` (K,) set as the K columns of `aims` say."""
    return np.asarray(own_gaps(rig, which, aims, within=0.0) < 0)


def own_gaps(rig: Rig, which: Indices, aims: Aims, *, within: float) -> Array:
    """Gap between body and own tube, metres, of units set as for `striking`, (K,); negative: it strikes.

    Infinite where it is more than `within`, and for kinds without all their sizes.
    """
    return _least(_bodies(rig, which, aims), _tubes(rig, which), within)


def all_own_gaps(rig: Rig, *, within: float) -> Array:
    """The same of all units at their aims, (N,)."""
    every = np.arange(len(rig.units))
    bodies, tubes = _bodies(rig, every, rig.aims), _tubes(rig, every)
    columns = [np.moveaxis(column, -1, 0) for column in (*bodies, *tubes)]
    return rig.kept.of_units(_least_of_each, columns, within).value


def _least_of_each(*given: Any) -> Each:
    *columns, within = given
    columns = [np.moveaxis(column, 0, -1) for column in columns]
    count = len(_Bodies._fields)
    return each(_least(_Bodies(*columns[:count]), _Tubes(*columns[count:]), within))


def _least(bodies: _Bodies, tubes: _Tubes, within: float) -> Array:
    gap = _gaps_under(within, bodies, tubes.start, tubes.end, bodies.sized)
    arm = tubes.on_arm & bodies.sized
    if arm.any():
        gap = np.minimum(gap, _gaps_under(within, bodies, tubes.arm_start, tubes.arm_end, arm))
    return gap


class _Bodies(NamedTuple):
    """Cylinders: `middle`, beside the pivot, and `axis` (3, K); the rest (K,). `sized`: all is known."""

    middle: Array
    axis: Array
    front: Array  # metres from the middle
    back: Array
    radius: Array
    sized: Flags


class _Tubes(NamedTuple):
    """Ends (3, K) of the tube that each unit's position is, and of its side arm, where it is on one, (K,)."""

    start: Array
    end: Array
    on_arm: Flags
    arm_start: Array
    arm_end: Array


def _tubes(rig: Rig, which: Indices) -> _Tubes:
    arm = np.array([rig.units[k].mount == "arm" for k in which.tolist()], dtype=bool)
    return _Tubes(*_held_by(rig, which), arm, *_arms(rig, which))


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
    given = within, bodies, start, end
    near = np.flatnonzero(asked & _lines_near(*given) & _balls_near(*given))
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


def _balls_near(within: float, bodies: _Bodies, start: Array, end: Array) -> Flags:
    """False where even the ball about a body is farther off its tube than `within`."""
    way, long = end - start, (bodies.front + bodies.back) / 2
    off = bodies.middle + (bodies.front - long) * bodies.axis - start
    share = np.clip(dot(off, way) / np.maximum(dot(way, way), 1e-12), 0.0, 1.0)
    off = off - share * way
    ball = np.hypot(long, bodies.radius)
    return np.asarray(np.sqrt(dot(off, off)) <= ball + TUBE_RADIUS + within + 1e-9)


def _gap(bodies: _Bodies, start: Array, end: Array) -> Array:
    """Distance between each body and the middle line of its tube, (K,)."""

    start, way, middle, axis = (
        a[:, None] for a in (start, end - start, bodies.middle, bodies.axis)
    )

    def distance(share: Array) -> Array:
        """From the places at some shares (S, K) of the tubes, (S, K)."""
        d = start + share * way - middle
        ahead = dot(d, axis)
        off = d - ahead * axis
        beside = np.maximum(np.sqrt(dot(off, off)) - bodies.radius, 0.0)
        beyond = np.maximum(np.maximum(ahead - bodies.front, -bodies.back - ahead), 0.0)
        return np.asarray(np.hypot(beside, beyond))

    steps = np.arange(PLACES + 2)[:, None] / (PLACES + 1)
    low, high = np.zeros(axis.shape[-1]), np.ones(axis.shape[-1])
    for _ in range(ROUNDS):
        places = low + steps * (high - low)
        least = 1 + distance(places[1:-1]).argmin(axis=0)
        low, high = np.take_along_axis(places, np.stack((least - 1, least + 1)), axis=0)
    return np.asarray(distance((low + high)[None] / 2)[0])
