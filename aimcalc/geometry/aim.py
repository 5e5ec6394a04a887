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

Every mount comes down to a clamp point, a stem **a** (unit direction from clamp towards unit), a
reference **r** at right angles to the stem, and a drop. The third direction **b** = a x r is where a
positive turn goes. All arrays have shape (3, N); angles are radians.
"""

from __future__ import annotations

from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from aimcalc.geometry.deck import Deck, landing
from aimcalc.geometry.vectors import (
    Array,
    cross,
    dot,
    in_blocks,
    level_direction,
    nan_where_negative,
    sine_cosine,
    to_radians,
    turned,
)
from aimcalc.named import NamedTuple


def swung_out(
    under: Array, along: Array, square: Array, towards: Array, angle: Array
) -> tuple[Array, Array]:
    """Stem and reference of clamps swung round their pipe by `angle` from hanging under it.

    `along` is the pipe's unit direction, `under` the stem of a unit hung under it, `square` the level
    direction at right angles to both, and `towards` a plan direction on the side the clamp is swung to.
    Stem and reference turn together about the pipe, so they stay at right angles even where the stem is
    level (angle 90 degrees); beyond, the reference points away from `square` in plan.
    """
    # A small positive turn about the pipe moves `under` by along x under.
    sense = np.where(dot(cross(along, under), towards) < 0, -1.0, 1.0)
    return turned(under, along, sense * angle), turned(square, along, sense * angle)


def direct(stem_heading: Array) -> tuple[Array, Array]:
    """Stem and reference of units clamped straight to a boom, the stem level.

    Unit directions (3, N) from a heading (N,) in radians. The reference is level too, a quarter turn
    clockwise (seen from above) from the stem, so that a turn at the clamp tips the nose up or down from
    level.
    """
    return level_direction(stem_heading), level_direction(stem_heading + np.pi / 2)


def pose(stem: Array, reference: Array, turn: Array, yoke: Array) -> tuple[Array, Array]:
    """Lens axis and body-up of units at given clamp turns and yoke angles, each shape (3, N).

    h = r turned by p about a;  f = cos t h + sin t a;  u = sin t h - cos t a.
    """
    h = reference * np.cos(turn) + cross(stem, reference) * np.sin(turn)
    c, s = np.cos(yoke), np.sin(yoke)
    return np.asarray(h * c + stem * s), np.asarray(h * s - stem * c)


Flags = NDArray[np.bool_]
Signs = NDArray[np.int8]
Indices = NDArray[np.intp]

UPRIGHT, ON_ITS_SIDE, UPSIDE_DOWN, PLUMB = 0, 1, 2, 3
PLUMB_WITHIN = to_radians(3.0)
SIGHT_SLOPE_LIMIT = np.tan(to_radians(60.0)) + 1e-12  # no sight tape beyond 60 degrees of pan
ROUNDING = 1e-12  # radians
ALONG_STEM = 1e-9  # metres: a point no further off the stem's line is straight along it


class Mounted(NamedTuple):
    """What is given about N units: points (3, N), the rest (N,); lengths metres, angles radians.

    `reference` is at right angles to `stem`, both unit length. `field` and `beam` are full angles.
    `tolerance` is the angle by which the axis may miss. `tape_at` is the plan distance of the pivot from
    the zero of the sight tape, along it (NaN: no tape; a `reference` with a tape is level), `tape_sense` +1
    where a positive turn goes towards the tape's + end, and `sight_out` how far the tape lies from the
    pipe. `tail_up` marks bodies reported rolled half over. `stand` is NaN where nobody stands.
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

    The first three columns are the given ones, shared, not copied: what a pose is counted from.
    `heading` is clockwise from upstage in (-pi, pi], `down` below level. `pan` is 0 to pi/2 from square;
    `square_sign` is +1 where square is the reference and -1 where it is its opposite, `swing_sign` +1
    where the unit swings the way of b = a x r, -1 the other way, 0 where it stands square. `pan`,
    `heading` and the signs are those of one allowed turn (square) where the unit points along its stem.
    `roll` is 0 to pi, NaN where the unit is plumb. All fields are NaN where no aim exists, and `throw`
    where the point is inside the unit.
    """

    stem: Array
    reference: Array
    tail_up: Flags
    pivot: Array
    lens: Array
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
    beam_diameter: Array
    field_diameter: Array
    square_sign: Signs
    swing_sign: Signs
    attitude: Signs
    in_travel: Flags

    @property
    def axis(self) -> Array:
        """Unit direction of the lens axis, shape (3, N)."""
        (across, ahead), (fall, level) = sine_cosine(self.heading), sine_cosine(self.down)
        return np.stack((across * level, ahead * level, -fall))

    @property
    def up(self) -> Array:
        """The body's own up, a unit direction, shape (3, N); turned over where reported tail up."""
        _, up = pose(self.stem, self.reference, self.turn, self.yoke)
        return np.where(self.tail_up, -up, up)

    @property
    def turn(self) -> Array:
        """Turn of h at the clamp from the reference, signed about the stem, in (-pi, pi], (N,) radians."""
        faces = np.where(np.cos(self.yoke) < 0, -1, 1)
        side = faces * self.square_sign
        return np.arctan2(faces * self.swing_sign * np.sin(self.pan), side * np.cos(self.pan))


Table = TypeVar("Table", "Mounted", "Aims", "_Local", "_Root")


def empty_aims(units: Mounted) -> Aims:
    """Room for the aims of these units, not yet filled."""
    count = units.drop.size
    room = np.empty((20, count))  # in one piece: fewer pages for the system to hand out
    places, numbers = [room[0:3], room[3:6], room[6:9]], list(room[9:])
    codes = [np.empty(count, np.int8) for _ in range(3)]
    given = (units.stem, units.reference, units.tail_up)
    return Aims._make([*given, *places, *numbers, *codes, np.empty(count, np.bool_)])


def aim(units: Mounted, deck: Deck) -> Aims:
    """Aims of N units at their points: of both ways to hit, the upright one within the yoke's travel.

    Where no way is both, one within travel is preferred, then the one whose body-up is higher;
    `in_travel` and `attitude` say what came of it. A point straight along the stem leaves the turn free:
    the unit is then left square. A point nearer to the pivot than `rise` cannot be hit (all NaN).
    """
    aims = empty_aims(units)
    in_blocks(units.drop.size, lambda block: _aim_block(units, deck, aims, block))
    return aims


def cut(table: Table, units: slice | Indices) -> Table:
    """The same table for some of its units, each column (..., K): views for a slice, copies for indices."""
    return type(table)._make(column[..., units] for column in table)


def _aim_block(units: Mounted, deck: Deck, aims: Aims, block: slice) -> None:
    """Fill one block of `aims`; everything it needs on the way stays within the core's cache."""
    given, told = cut(units, block), cut(aims, block)
    with np.errstate(all="ignore"):
        local = _local(given, told.pivot)
        root = _chosen_root(given, local)
        axis, flat = _place(given, local, root, told)
        _sizes(given, local, told)
        _dial(given, local, root, told)
        _attitude(given, local, root, told)
        _land(given, deck, (axis, flat), told)
        _sight_leaning(given, axis, told)


class _Local(NamedTuple):
    """Pivot to point: the vector v (3, N) and its parts in the unit's own directions r, b, a, each (N,)."""

    v: Array
    vr: Array
    vb: Array
    va: Array
    vh: Array
    lift: Array  # (a x v) . z: how far the stem leans across the way to the point
    square: Array  # |v|^2
    s: Array  # along the axis, from the foot of the pivot on it to the point


class _Root(NamedTuple):
    """One way to hit: the sign in equation (1), the yoke angle by its sine and cosine; each (N,)."""

    sign: Array
    sin: Array
    cos: Array


def _local(given: Mounted, pivot: Array) -> _Local:
    np.multiply(given.stem, given.drop, out=pivot)
    pivot += given.clamp
    v = given.point - pivot
    va, square = dot(v, given.stem), dot(v, v)
    across_both = cross(given.stem, v)  # v . b = v . (a x r) = -r . (a x v)
    vr, vb = dot(v, given.reference), -dot(given.reference, across_both)
    vh = np.sqrt(vr * vr + vb * vb)
    if not vh.min() > ALONG_STEM:
        for across in (vr, vb, vh):
            across[vh <= ALONG_STEM] = 0.0
    s = np.sqrt(square - given.rise * given.rise if given.rise.any() else square)
    return _Local(v, vr, vb, va, vh, across_both[2], square, s)


def _chosen_root(given: Mounted, local: _Local) -> _Root:
    """The more upright way to hit, unless only the other one is within the yoke's travel.

    u . z of the two ways is (+-s k / vh + rise v . z) / |v|^2 with k = va (v . z) - |v|^2 (a . z): the
    sign of k settles which body is the more upright, before any angle is known.
    """
    k = local.va * local.v[2] - local.square * given.stem[2]
    if not local.vh.min() > 0:  # straight along the stem, left square: h = r
        k = np.where(local.vh == 0, local.va * given.reference[2], k)
    root = _root(given, local, np.copysign(1.0, k + 0.0))
    if given.drop.size and _limited(given):
        _prefer_within(given, local, root)
    return root


def _root(given: Mounted, local: _Local, sign: Array) -> _Root:
    """Equation (1) for the upper (+1) or lower (-1) sign, without working out an angle.

    The yoke angle is a sum of two: sine and cosine of a sum, with |v|^2 = s^2 + rise^2.
    """
    signed = local.vh * sign
    if not given.rise.any():
        scale = 1.0 / local.s
        return _Root(sign, local.va * scale, signed * scale)
    scale = 1.0 / local.square
    sin = (local.va * local.s + signed * given.rise) * scale
    cos = (signed * local.s - local.va * given.rise) * scale
    return _Root(sign, sin, cos)


def _limited(given: Mounted) -> bool:
    """True where any yoke has less travel than a whole turn."""
    return bool(given.yoke_min.max() > -np.pi or given.yoke_max.min() < np.pi)


def _within(given: Mounted, yoke: Array) -> Flags:
    """True where the yoke angle is within the unit's travel."""
    return np.asarray((yoke >= given.yoke_min - ROUNDING) & (yoke <= given.yoke_max + ROUNDING))


def _prefer_within(given: Mounted, local: _Local, root: _Root) -> None:
    """Put the other way in place of `root` where that alone brings the yoke within its travel."""
    stuck = np.flatnonzero(~_within(given, np.arctan2(root.sin, root.cos)))
    some = cut(given, stuck)
    other = _root(some, cut(local, stuck), -root.sign[stuck])
    better = np.flatnonzero(_within(some, np.arctan2(other.sin, other.cos)))
    for column, theirs in zip(root, other, strict=True):
        column[stuck[better]] = theirs[better]


def _place(given: Mounted, local: _Local, root: _Root, told: Aims) -> tuple[Array, Array]:
    """Lens, heading, down and yoke; returns the axis (3, N), from v = s f + rise u, and its level part."""
    axis, lens = local.v * (1.0 / local.s), told.lens
    if given.rise.any():
        up = _body_up(given, local, root)
        axis -= up * (given.rise / local.s)
        np.multiply(up, given.rise, out=lens)
        lens += told.pivot
        lens += axis * given.nose
    else:
        np.multiply(axis, given.nose, out=lens)
        lens += told.pivot
    np.arctan2(axis[0], axis[1], out=told.heading)
    flat = np.sqrt(axis[0] * axis[0] + axis[1] * axis[1])
    np.arctan2(-axis[2], flat, out=told.down)
    np.arctan2(root.sin, root.cos, out=told.yoke)
    told.in_travel[...] = _within(given, told.yoke) if _limited(given) else np.isfinite(told.yoke)
    return axis, flat


def _body_up(given: Mounted, local: _Local, root: _Root) -> Array:
    """u = sin t h - cos t a, with h = +-(v - va a) / vh of equation (2); shape (3, N)."""
    up = local.v - given.stem * local.va
    up *= root.sin * root.sign / local.vh
    if not local.vh.min() > 0:  # straight along the stem, left square: h = +-r
        free = local.vh == 0
        up[:, free] = given.reference[:, free] * (root.sin * root.sign)[free]
    up -= given.stem * root.cos
    return up


def _sizes(given: Mounted, local: _Local, told: Aims) -> None:
    """Throw, equation (3), and the diameters square to the axis at the point."""
    np.subtract(local.s, given.nose, out=told.throw)
    if not told.throw.min() > 0:
        told.throw[told.throw <= 0] = np.nan
    double = 2.0 * told.throw
    np.multiply(double, np.tan(given.beam / 2), out=told.beam_diameter)
    np.multiply(double, np.tan(given.field / 2), out=told.field_diameter)


def _dial(given: Mounted, local: _Local, root: _Root, told: Aims) -> None:
    """Pan from square, its words' signs, and the sight tape of a plumb stem (at + sight_out tan(pan)).

    The lens faces along v across the stem, save where `rise` leans the axis past the stem.
    """
    ahead, aside = np.abs(local.vr), np.abs(local.vb)
    np.arctan2(aside, ahead, out=told.pan)
    to_r, to_b = local.vr, local.vb
    if given.rise.any():
        faces = np.copysign(1.0, root.cos * root.sign)
        to_r, to_b = to_r * faces, to_b * faces
    np.multiply(np.signbit(to_r), -2, out=told.square_sign, dtype=np.int8)
    np.add(told.square_sign, 1, out=told.square_sign)
    if not local.vh.min() > 0:
        free = local.vh == 0
        told.square_sign[free] = root.sign[free]
    np.subtract(to_b > 0, to_b < 0, out=told.swing_sign, dtype=np.int8)
    np.divide(given.tolerance, np.abs(root.cos), out=told.pan_tolerance)
    slope, sight = aside / ahead, told.sight
    np.copysign(given.sight_out * slope, to_b, out=sight)
    sight *= given.tape_sense
    sight += given.tape_at
    sight += nan_where_negative(SIGHT_SLOPE_LIMIT - slope)


def _attitude(given: Mounted, local: _Local, root: _Root, told: Aims) -> None:
    """Roll of the body about the axis, and its word; a body reported tail up is turned over.

    The axis, u and a x h are square to each other, so straight up shows its roll as u . z against
    (a x h) . z, with h = +-(v - va a) / vh. Straight along a leaning stem, left square, h = +-r.
    """
    a, climb = given.stem, local.v[2] - local.va * given.stem[2]
    aside, up_z = np.abs(local.lift), root.sin * root.sign * climb - root.cos * local.vh * a[2]
    if not local.vh.min() > 0:
        free = local.vh == 0
        aside[free] = np.abs(cross(a, given.reference)[2, free])
        up_z[free] = (root.sin * root.sign * given.reference[2] - root.cos * a[2])[free]
    roll = np.arctan2(aside, up_z, out=told.roll)
    if given.tail_up.any():
        np.copyto(roll, np.pi - roll, where=given.tail_up)
    turned_over = roll > to_radians(135.0)
    np.add(roll >= to_radians(45.0), turned_over, out=told.attitude, dtype=np.int8)
    plumb = np.abs(told.down) >= np.pi / 2 - PLUMB_WITHIN
    if plumb.any():
        roll[plumb] = np.nan
        told.attitude[plumb] = PLUMB


def _land(given: Mounted, deck: Deck, light: tuple[Array, Array], told: Aims) -> None:
    """LANDS: from the point onwards along the axis; and how far that is in plan from who stands there."""
    axis, flat = light
    reach, lands = landing(deck, given.point, axis), told.lands
    np.multiply(axis, reach, out=lands)
    lands += given.point
    np.multiply(reach, flat, out=told.past_stand)
    np.add(told.past_stand, 0.0 * given.stand[2], out=told.past_stand)  # NaN: nobody


def _sight_leaning(given: Mounted, axis: Array, told: Aims) -> None:
    """Where the plan line of a unit on a leaning stem crosses its tape: by its heading, not by its dial.

    None where heading or dial is over 60 degrees from square.
    """
    if not np.abs(given.stem[2]).min() < 1.0:
        return
    rows = np.flatnonzero((np.abs(given.stem[2]) < 1.0) & ~np.isnan(given.tape_at))
    r, f = given.reference[:, rows], axis[:, rows]
    aside = (f[1] * r[0] - f[0] * r[1]) * np.sign(given.stem[2, rows])
    slope = np.abs(aside / (f[0] * r[0] + f[1] * r[1]))
    sight = given.tape_sense[rows] * np.copysign(given.sight_out[rows] * slope, aside)
    sight += given.tape_at[rows] + nan_where_negative(SIGHT_SLOPE_LIMIT - slope)
    told.sight[rows] = sight + 0.0 * told.sight[rows]
