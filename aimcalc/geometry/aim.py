"""Pointing a unit at a point: clamp turn, yoke angle and what follows from them, in closed form.

Stem **a**, turn p from reference **r**: **h** = r turned by p about a. Lens axis f = cos t h + sin t a,
body-up u = sin t h - cos t a, with t the yoke angle. Clamp C, pivot P = C + drop a, lens
L = P + nose f + rise u. With v = T - P, va = v . a, vh = |v - va a| and s = sqrt(|v|^2 - rise^2):

    t = atan2(va, +-vh) + atan2(rise, s)                                              (1)
    h = +- (v - va a) / vh                                                            (2)
    throw = s - nose                                                                  (3)

Both signs put the axis on the point; the body is upright in one and upside down in the other. The sign
is chosen before any angle is worked out, from u . z, so that one pass serves nearly every unit.
Everything is done in the unit's own directions (r, b = a x r, a) and turned into the world's at the end.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from typing import NamedTuple, TypeVar

import numpy as np
from numpy.typing import NDArray

from aimcalc.geometry.deck import Deck, landing
from aimcalc.geometry.vectors import Array, cross, dot

Flags = NDArray[np.bool_]
Signs = NDArray[np.int8]
Indices = NDArray[np.intp]

UPRIGHT, ON_ITS_SIDE, UPSIDE_DOWN, PLUMB = 0, 1, 2, 3
PLUMB_WITHIN = np.radians(3.0)
SIGHT_PAN_LIMIT = np.radians(60.0)
BLOCK = 8192  # units at a time: what a core's own cache holds
STEM_PLUMB = 1.0 - 1e-12


class Mounted(NamedTuple):
    """What is given about N units: points (3, N), the rest (N,); lengths metres, angles radians.

    `reference` is at right angles to `stem`, both unit length. `field` and `beam` are full angles.
    `tolerance` is the angle by which the axis may miss. `tape_at` is the plan distance of the clamp from
    the zero of the sight tape (NaN: no tape), `tape_sense` +1 where a positive turn goes towards the
    tape's + end, and `sight_out` how far the tape lies from the pipe. `tail_up` marks bodies reported
    rolled half over. `stand` is NaN where nobody stands.
    """

    clamp: Array
    stem: Array
    reference: Array
    drop: Array
    nose: Array
    rise: Array
    point: Array
    stand: Array
    field: Array
    beam: Array
    yoke_min: Array
    yoke_max: Array
    tolerance: Array
    tape_at: Array
    tape_sense: Array
    sight_out: Array
    tail_up: Flags


class Aims(NamedTuple):
    """How N units are set and where their light goes. NaN: the thing does not exist.

    `heading` is clockwise from upstage in (-pi, pi], `down` below level. `pan` is 0 to pi/2 from square;
    `square_sign` is +1 where square is the reference and -1 where it is its opposite, `swing_sign` +1
    where the unit swings the way of b = a x r, -1 the other way, 0 where it stands square. `pan`,
    `heading` and the signs are those of one allowed turn (square) where the unit points along its stem.
    `roll` is 0 to pi, NaN where the unit is plumb. `per_degree_*` are metres on the level plane through
    the point. All fields are NaN where no aim exists, and `throw` where the point is inside the unit.
    """

    pivot: Array
    lens: Array
    axis: Array
    up: Array
    lands: Array
    heading: Array
    down: Array
    pan: Array
    yoke: Array
    roll: Array
    throw: Array
    past_stand: Array
    sight: Array
    pan_tolerance: Array
    per_degree_pan: Array
    per_degree_down: Array
    beam_diameter: Array
    field_diameter: Array
    square_sign: Signs
    swing_sign: Signs
    attitude: Signs
    in_travel: Flags

    @property
    def turn(self) -> Array:
        """Turn of h at the clamp from the reference, signed about the stem, in (-pi, pi]."""
        faces = np.where(np.cos(self.yoke) < 0, -1, 1)
        side = faces * self.square_sign
        return np.arctan2(faces * self.swing_sign * np.sin(self.pan), side * np.cos(self.pan))


Table = TypeVar("Table", "Mounted", "Aims", "_Local", "_Root")


def empty_aims(count: int) -> Aims:
    """Room for the aims of `count` units, not yet filled."""
    places = [np.empty((3, count)) for _ in range(5)]
    numbers = [np.empty(count) for _ in range(13)]
    codes = [np.empty(count, np.int8) for _ in range(3)]
    return Aims._make([*places, *numbers, *codes, np.empty(count, np.bool_)])


def aim(units: Mounted, deck: Deck) -> Aims:
    """Aims of N units at their points: of both ways to hit, the upright one within the yoke's travel.

    Where no way is both, one within travel is preferred, then the one whose body-up is higher;
    `in_travel` and `attitude` say what came of it. A point straight along the stem leaves the turn free:
    the unit is then left square. A point nearer to the pivot than `rise` cannot be hit (all NaN).
    """
    aims = empty_aims(units.drop.size)
    blocks = list(_blocks(units.drop.size))
    if len(blocks) < 4:
        for block in blocks:
            _aim_block(units, deck, aims, block)
        return aims
    from concurrent.futures import ThreadPoolExecutor

    with ThreadPoolExecutor(min(8, os.cpu_count() or 1)) as pool:
        list(pool.map(lambda block: _aim_block(units, deck, aims, block), blocks))
    return aims


def _blocks(count: int) -> Iterator[slice]:
    return (slice(k, min(k + BLOCK, count)) for k in range(0, count, BLOCK))


def cut(table: Table, units: slice | Indices) -> Table:
    """The same table for some of its units: views for a slice, copies for indices."""
    return type(table)._make(column[..., units] for column in table)


def _aim_block(units: Mounted, deck: Deck, aims: Aims, block: slice) -> None:
    """Fill one block of `aims`; everything it needs on the way stays within the core's cache."""
    given, told = cut(units, block), cut(aims, block)
    with np.errstate(all="ignore"):
        local = _local(given, told.pivot)
        roots = _chosen_root(given, local)
        _place(given, local, roots, told)
        _dial(given, roots, told)
        _attitude(given, told)
        _land(given, deck, told)
        _travel(given, local, roots, told)


class _Local(NamedTuple):
    """Pivot to point in the unit's own directions: v = vr r + vb b + va a."""

    b: Array
    vr: Array
    vb: Array
    va: Array
    vh: Array
    square: Array  # |v|^2
    s: Array  # lens-axis distance from the pivot's foot on it to the point


class _Root(NamedTuple):
    """One way to hit: h = (hr, hb) in the plane across the stem, and the yoke angle by sine, cosine."""

    hr: Array
    hb: Array
    sin: Array
    cos: Array


def _local(given: Mounted, pivot: Array) -> _Local:
    np.multiply(given.stem, given.drop, out=pivot)
    pivot += given.clamp
    v = given.point - pivot
    r, a = given.reference, given.stem
    b = cross(a, r)
    vr, vb, va = dot(v, r), dot(v, b), dot(v, a)
    across = vr * vr + vb * vb
    square = across + va * va
    s = np.sqrt(square - given.rise * given.rise)
    return _Local(b, vr, vb, va, np.sqrt(across), square, s)


def _root(given: Mounted, local: _Local, sign: Array) -> _Root:
    """Equations (1) and (2) for the upper (+1) or lower (-1) sign, without a single angle."""
    free = local.vh == 0  # straight along the stem: leave the unit square
    scale = sign / np.where(free, 1.0, local.vh)
    hr = np.where(free, sign, local.vr * scale)
    signed, rise = local.vh * sign, given.rise
    # The yoke angle is the sum of two: sine and cosine of a sum, each over |v|.
    sin = (local.va * local.s + signed * rise) / local.square
    cos = (signed * local.s - local.va * rise) / local.square
    return _Root(hr, local.vb * scale, sin, cos)


def _up_z(given: Mounted, local: _Local, root: _Root) -> Array:
    """How far the body's own up points up: u . z."""
    h_z = root.hr * given.reference[2] + root.hb * local.b[2]
    return np.asarray(root.sin * h_z - root.cos * given.stem[2])


def _chosen_root(given: Mounted, local: _Local) -> _Root:
    """The upright way, unless it is outside the yoke's travel or on its side: then the better one.

    With rise = 0 the two ways have opposite u . z, of the sign of va h . z - vh a . z.
    """
    r, b, a = given.reference, local.b, given.stem
    upward = local.va * (local.vr * r[2] + local.vb * b[2]) - local.vh * local.vh * a[2]
    free_upward = np.where(local.vh == 0, local.va * r[2], upward)
    first = np.where(free_upward < 0, -1.0, 1.0)
    root = _root(given, local, first)
    unsure = np.flatnonzero(~_good(given, local, root))
    if unsure.size:
        _try_other(given, local, root, first, unsure)
    return root


def _good(given: Mounted, local: _Local, root: _Root) -> Flags:
    """Upright for certain and within travel.

    cos(roll) = u.z / cos(down) is at least u.z, so u.z over cos 45 needs no closer look. A plumb stem
    gives no roll at all.
    """
    up_z = _up_z(given, local, root)
    upright = (up_z > np.sqrt(0.5)) | ((up_z > 0) & (np.abs(given.stem[2]) > STEM_PLUMB))
    return np.asarray(upright & _within(given, root))


def _within(given: Mounted, root: _Root) -> Flags:
    yoke = np.arctan2(root.sin, root.cos)
    slack = 1e-12
    return np.asarray((yoke >= given.yoke_min - slack) & (yoke <= given.yoke_max + slack))


def _try_other(given: Mounted, local: _Local, root: _Root, first: Array, unsure: Indices) -> None:
    """Put the other way in place of `root` for those of the `unsure` units where it is better."""
    some, near, one = cut(given, unsure), cut(local, unsure), cut(root, unsure)
    two = _root(some, near, -first[unsure])
    better = _merit(some, near, two) > _merit(some, near, one) + 1e-9
    for column, other in zip(root, two, strict=True):
        column[unsure[better]] = other[better]


def _merit(given: Mounted, local: _Local, root: _Root) -> Array:
    """Ranks the ways: within travel counts most, then upright, then how far the body's up points up."""
    up_z = _up_z(given, local, root)
    h_z = root.hr * given.reference[2] + root.hb * local.b[2]
    level = np.sqrt(np.maximum(0.0, 1.0 - (root.cos * h_z + root.sin * given.stem[2]) ** 2))
    upright = up_z > np.sqrt(0.5) * level
    return np.asarray(4.0 * _within(given, root) + 2.0 * upright + up_z)


def _place(given: Mounted, local: _Local, root: _Root, told: Aims) -> None:
    """Axis and body-up in the world, lens, heading, down, yoke, throw and the sizes at the throw."""
    r, b, a = given.reference, local.b, given.stem
    h = root.hr * r + root.hb * b
    np.multiply(h, root.cos, out=told.axis)
    told.axis[...] += root.sin * a
    np.multiply(h, root.sin, out=told.up)
    told.up[...] -= root.cos * a
    np.multiply(told.axis, given.nose, out=told.lens)
    told.lens[...] += told.pivot
    told.lens[...] += given.rise * told.up
    x, y, z = told.axis
    np.arctan2(x, y, out=told.heading)
    np.arctan2(-z, np.sqrt(x * x + y * y), out=told.down)
    np.arctan2(root.sin, root.cos, out=told.yoke)
    np.subtract(local.s, given.nose, out=told.throw)
    told.throw[told.throw <= 0] = np.nan
    np.multiply(2 * np.tan(given.beam / 2), told.throw, out=told.beam_diameter)
    np.multiply(2 * np.tan(given.field / 2), told.throw, out=told.field_diameter)
    told.in_travel[...] = _within(given, root)


def _dial(given: Mounted, root: _Root, told: Aims) -> None:
    """Pan from square, its words' signs, and the sight tape (at + sight_out tan(pan))."""
    to_r, to_b = root.cos * root.hr, root.cos * root.hb
    free = (to_r == 0) & (to_b == 0)
    ahead, aside = np.where(free, 1.0, np.abs(to_r)), np.abs(to_b)
    np.arctan2(aside, ahead, out=told.pan)
    told.pan[np.isnan(told.yoke)] = np.nan
    told.square_sign[...] = np.where(to_r < 0, -1, 1)
    told.swing_sign[...] = np.sign(to_b)
    way = given.tape_sense * np.sign(to_b)
    np.multiply(way * given.sight_out, aside / ahead, out=told.sight)
    told.sight[...] += given.tape_at
    told.sight[told.pan > SIGHT_PAN_LIMIT] = np.nan
    np.divide(given.tolerance, np.abs(root.cos), out=told.pan_tolerance)


def _attitude(given: Mounted, told: Aims) -> None:
    """Roll of the body about the axis, and the word for it; a body reported tail up is turned over."""
    told.up[:, given.tail_up] *= -1.0
    x, y, _ = told.axis
    level_part = told.up[0] * y - told.up[1] * x
    np.arctan2(np.abs(level_part), told.up[2], out=told.roll)
    plumb = np.abs(told.down) >= np.pi / 2 - PLUMB_WITHIN
    told.roll[plumb] = np.nan
    code = (told.roll >= np.radians(45.0)).astype(np.int8)
    code += told.roll > np.radians(135.0)
    code[plumb] = PLUMB
    told.attitude[...] = code


def _land(given: Mounted, deck: Deck, told: Aims) -> None:
    """LANDS: from the point onwards along the axis; and how far that is from STAND, in plan."""
    reach = landing(deck, given.point, told.axis)
    np.multiply(told.axis, reach, out=told.lands)
    told.lands[...] += given.point
    dx, dy = told.lands[0] - given.stand[0], told.lands[1] - given.stand[1]
    np.sqrt(dx * dx + dy * dy, out=told.past_stand)


def _travel(given: Mounted, local: _Local, root: _Root, told: Aims) -> None:
    """How far the spot moves on the level plane through the point for one degree, each way.

    Turning the axis by a small angle about direction k moves its point by k x v, then the spot slides
    along the axis back to the plane. For the tip, k is level and square to the heading: s / sin(down).
    """
    f = told.axis
    v = given.point - told.pivot
    moved = cross(given.stem, v)
    slide = np.where(moved[2] == 0, 0.0, moved[2] / f[2])
    dx, dy = moved[0] - slide * f[0], moved[1] - slide * f[1]
    np.multiply(np.radians(1.0), np.sqrt(dx * dx + dy * dy), out=told.per_degree_pan)
    np.divide(np.radians(1.0) * local.s, np.abs(f[2]), out=told.per_degree_down)
    told.per_degree_down[f[2] == 0] = np.nan
