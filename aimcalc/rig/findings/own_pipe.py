"""Bodies that would have to pass through the tube they hang on.

A body is a cylinder with flat ends about its lens axis: from its lens, `nose` in front of the pivot,
back over its `length`, `width` across. The tube is the pipe, boom, side arm or stand that holds it.
The distance from a point to a cylinder is convex, so the nearest point of a tube is found by narrowing.
Kinds without length, width, nose or drop cannot be judged and are left alone.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from aimcalc.geometry.aim import Flags, Indices
from aimcalc.geometry.deck import height
from aimcalc.geometry.vectors import Array, cross, dot
from aimcalc.rig.answers import Finding
from aimcalc.rig.findings.telling import STOP, about, hung
from aimcalc.rig.solve import Rig
from aimcalc.rig.wording import length, tip
from aimcalc.scene.model import Boom, Pipe

TUBE_RADIUS = 0.0483 / 2  # m; NPS 1-1/2, 1.900 in outside diameter (ASME B36.10M)
ROUNDS = 48  # each keeps two thirds of the tube: 40 m come down to a tenth of a micrometre


def strikes(rig: Rig) -> Iterator[Finding]:
    """Stops for bodies that strike their own pipe, boom, arm or stand at their aim."""
    sized = _sized(rig)
    hit = sized & _meets(rig, *_held_by(rig), sized)
    arm = np.array([unit.mount == "arm" for unit in rig.units], dtype=bool)
    if (arm & sized).any():
        hit |= _meets(rig, *_arms(rig), arm & sized)
    for k in np.flatnonzero(hit).tolist():
        yield _told(rig, k)


def _told(rig: Rig, k: int) -> Finding:
    unit, kind, position = rig.units[k], rig.kinds[k], rig.positions[k]
    tube = (
        "pipe"
        if isinstance(position, Pipe)
        else "boom or arm"
        if isinstance(position, Boom)
        else "stand"
    )
    drop = length(float(rig.arrays.drop[k]), rig.scene.settings.unit)
    wide = length(kind.width or 0.0, rig.scene.settings.unit)
    says = (
        f"Unit {unit.number}, {tip(float(np.degrees(rig.aims.down[k])))} with a drop of {drop} and a body "
        f"{wide} across, strikes its own {tube}."
    )
    do = (
        "Hang it the other way (under or over), swing it out, move it, or correct its kind's sizes."
    )
    return about(rig, [k], STOP, "strikes-own-pipe", says=says, do=do)


def _sized(rig: Rig) -> Flags:
    known = [bool(kind.length and kind.width and kind.nose > 0) for kind in rig.kinds]
    return np.array(known, dtype=bool) & (rig.arrays.drop > 0) & ~np.isnan(rig.aims.yoke)


def _held_by(rig: Rig) -> tuple[Array, Array]:
    """The two ends of the tube that each unit's position is, each (3, N)."""
    start, end = rig.arrays.clamp.copy(), rig.arrays.clamp.copy()
    for position, rows in hung(rig):
        if isinstance(position, Pipe):
            start[:, rows] = np.array(position.start)[:, None]
            end[:, rows] = np.array(position.end)[:, None]
            continue
        foot = float(height(rig.deck, np.array([position.x]), np.array([position.y]))[0])
        top = foot + position.height if isinstance(position, Boom) else start[2, rows]
        start[:, rows] = np.array([[position.x], [position.y], [foot]])
        end[:2, rows], end[2, rows] = start[:2, rows], top
    return start, end


def _arms(rig: Rig) -> tuple[Array, Array]:
    """Side arms: from the boom, level, to the clamp at their end."""
    start = rig.arrays.clamp.copy()
    for position, rows in hung(rig):
        if isinstance(position, Boom):
            start[:2, rows] = np.array([[position.x], [position.y]])
    return start, rig.arrays.clamp


def _meets(rig: Rig, start: Array, end: Array, asked: Flags) -> Flags:
    """Where body and tube overlap, of the units `asked`."""
    hit = np.zeros(asked.size, dtype=bool)
    near = np.flatnonzero(asked & _lines_near(rig, start, end))
    if near.size:
        hit[near] = _gap(rig, near, start[:, near], end[:, near]) < TUBE_RADIUS
    return hit


def _widths(rig: Rig) -> Array:
    return np.array([kind.width or 0.0 for kind in rig.kinds])


def _lines_near(rig: Rig, start: Array, end: Array) -> Flags:
    """False where even the endless lines of body and tube pass each other clear."""
    normal = cross(rig.aims.axis, end - start)
    size = np.sqrt(dot(normal, normal))
    apart = np.abs(dot(_middle(rig) - start, normal))
    return np.asarray(apart <= (_widths(rig) / 2 + TUBE_RADIUS) * size + 1e-9)


def _middle(rig: Rig) -> Array:
    """The point of the lens axis beside the pivot."""
    return np.asarray(rig.aims.pivot + rig.arrays.rise * rig.aims.up)


def _gap(rig: Rig, rows: Indices, start: Array, end: Array) -> Array:
    """Distance between a body and the middle line of a tube, (len(rows),)."""
    middle, axis = _middle(rig)[:, rows], rig.aims.axis[:, rows]
    kinds = [rig.kinds[k] for k in rows.tolist()]
    front = rig.arrays.nose[rows]
    back = np.array([kind.length or 0.0 for kind in kinds]) - front
    radius = np.array([kind.width or 0.0 for kind in kinds]) / 2

    def distance(share: Array) -> Array:
        d = start + share * (end - start) - middle
        ahead = dot(d, axis)
        off = d - ahead * axis
        beside = np.maximum(np.sqrt(dot(off, off)) - radius, 0.0)
        beyond = np.maximum(np.maximum(ahead - front, -back - ahead), 0.0)
        return np.asarray(np.hypot(beside, beyond))

    low, high = np.zeros(rows.size), np.ones(rows.size)
    for _ in range(ROUNDS):
        third = (high - low) / 3
        nearer = distance(low + third) <= distance(high - third)
        high = np.where(nearer, high - third, high)
        low = np.where(nearer, low, low + third)
    return distance((low + high) / 2)
