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
    aligned,
    cross,
    dot,
    in_blocks,
    level_direction,
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
    room = aligned(20, count)  # in one piece: fewer pages for the system to hand out
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
        local, case = _local(given, told.pivot)
        root = _chosen_root(given, local, case, told)
        _dial(given, local, root, case, told)
        _attitude(given, local, root, case, told)
        axis = _axis(given, local, root, case)
        level = _place(given, local, axis, told)
        _land(given, deck, (axis, level), told)
        _sight_leaning(given, axis, told)


class _Case(NamedTuple):
    """What some unit of a block asks for besides the common sums."""

    offset: bool  # an axis that passes beside the yoke bolts
    along: bool  # a point straight along the stem


class _Local(NamedTuple):
    """Pivot to point: the vector v (3, N) and its parts in the unit's own directions r, b, a, each (N,)."""

    v: Array
    vr: Array
    vb: Array
    va: Array
    vh: Array
    lift: Array  # (v x a) . z: how far the stem leans across the way to the point
    square: Array  # |v|^2
    s: Array  # along the axis, from the foot of the pivot on it to the point
    spare: Array  # (3, N), for what is needed on the way


class _Root(NamedTuple):
    """One way to hit: +-vh, sine and cosine of the yoke angle, each times `size`; each (N,)."""

    signed: Array
    sin: Array
    cos: Array
    size: Array
    k: Array  # of `_chosen_root`, negative for the less upright way


def _local(given: Mounted, pivot: Array) -> tuple[_Local, _Case]:
    room = aligned(15, given.drop.size)
    v, across_both, spare = room[0:3], room[3:6], room[6:9]
    vr, vb, va, vh, square, s = room[9:]
    np.add(given.clamp, np.multiply(given.stem, given.drop, out=spare), out=pivot)
    np.subtract(given.point, pivot, out=v)
    _cross_into(across_both, v, given.stem, spare)
    _dot_into(vb, given.reference, across_both, spare)  # v . b = v . (a x r) = r . (v x a)
    _dot_into(vr, given.reference, v, spare)
    _dot_into(va, given.stem, v, spare)
    _sum_of_squares(vh, vr, vb, spare[0])
    np.add(vh, np.multiply(va, va, out=spare[0]), out=square)
    np.sqrt(vh, out=vh)
    offset = bool(given.rise.any())
    if offset:
        np.subtract(square, np.multiply(given.rise, given.rise, out=s), out=s)
    np.sqrt(s if offset else square, out=s)
    along = not vh.min() > ALONG_STEM
    if along:
        for across in (vr, vb, vh):
            across[vh <= ALONG_STEM] = 0.0
        va[square == 0.0] = np.nan  # in the pivot: no way to point
    return _Local(v, vr, vb, va, vh, across_both[2], square, s, spare), _Case(offset, along)


def _dot_into(out: Array, a: Array, b: Array, spare: Array) -> None:
    """Scalar products of two (3, N) arrays, into `out` (N,)."""
    np.multiply(a, b, out=spare)
    np.add(spare[0], spare[1], out=out)
    out += spare[2]


def _cross_into(out: Array, a: Array, b: Array, spare: Array) -> None:
    """Vector products of two (3, N) arrays, into `out` (3, N)."""
    for k in range(3):
        i, j = (k + 1) % 3, (k + 2) % 3
        np.multiply(a[i], b[j], out=out[k])
        out[k] -= np.multiply(a[j], b[i], out=spare[k])


def _sum_of_squares(out: Array, a: Array, b: Array, spare: Array) -> None:
    """a^2 + b^2 of two (N,) arrays, into `out` (N,)."""
    np.multiply(a, a, out=out)
    out += np.multiply(b, b, out=spare)


def _chosen_root(given: Mounted, local: _Local, case: _Case, told: Aims) -> _Root:
    """The more upright way to hit, unless only the other one is within the yoke's travel; the yoke angle.

    u . z of the two ways is (+-s k / vh + rise v . z) / |v|^2 with k = va (v . z) - |v|^2 (a . z): the
    sign of k settles which body is the more upright, before any angle is known.
    """
    signed, k = aligned(2, given.drop.size)
    np.multiply(local.va, local.v[2], out=k)
    k -= np.multiply(local.square, given.stem[2], out=local.spare[0])
    if case.along:  # left square: h = r
        np.copyto(k, local.va * given.reference[2], where=local.vh == 0)
    k += 0.0  # no -0
    np.copysign(local.vh, k, out=signed)
    root = _root(given, local, (signed, np.abs(k, out=k)), case)
    np.arctan2(root.sin, root.cos, out=told.yoke)
    if _limited(given):
        told.in_travel[...] = _within(given, told.yoke)
        _prefer_within(given, local, root, case, told)
    else:
        np.isfinite(told.yoke, out=told.in_travel)
    return root


def _root(given: Mounted, local: _Local, way: tuple[Array, Array], case: _Case) -> _Root:
    """Equation (1) for one way, its `signed` and `k`, without working out an angle.

    The yoke angle is a sum of two: sine and cosine of a sum, with |v|^2 = s^2 + rise^2.
    """
    signed, k = way
    if not case.offset:  # the sum is one angle
        return _Root(signed, local.va, signed, local.s, k)
    (sin, cos), spare = aligned(2, signed.size), local.spare[0]
    np.multiply(local.va, local.s, out=sin)
    sin += np.multiply(signed, given.rise, out=spare)
    np.multiply(signed, local.s, out=cos)
    cos -= np.multiply(local.va, given.rise, out=spare)
    return _Root(signed, sin, cos, local.square, k)


def _limited(given: Mounted) -> bool:
    """True where any yoke has less travel than a whole turn."""
    return bool(given.yoke_min.max() > -np.pi or given.yoke_max.min() < np.pi)


def _within(given: Mounted, yoke: Array) -> Flags:
    """True where the yoke angle is within the unit's travel."""
    return np.asarray((yoke >= given.yoke_min - ROUNDING) & (yoke <= given.yoke_max + ROUNDING))


def _prefer_within(given: Mounted, local: _Local, root: _Root, case: _Case, told: Aims) -> None:
    """Put the other way in place of `root` where that alone brings the yoke within its travel."""
    stuck = np.flatnonzero(~told.in_travel)
    some, way = cut(given, stuck), (-root.signed[stuck], -root.k[stuck])
    other = _root(some, cut(local, stuck), way, case)
    yoke = np.arctan2(other.sin, other.cos)
    better = np.flatnonzero(_within(some, yoke))
    rows = stuck[better]
    told.yoke[rows], told.in_travel[rows] = yoke[better], True
    for column, theirs in zip(root, other, strict=True):
        column[rows] = theirs[better]


def _dial(given: Mounted, local: _Local, root: _Root, case: _Case, told: Aims) -> None:
    """Pan from square, its words' signs, and the sight tape of a plumb stem (at + sight_out tan(pan)).

    The lens faces along v across the stem, save where `rise` leans the axis past the stem.
    """
    to_r, to_b = local.vr, local.vb
    ahead, aside, slope = local.spare
    np.arctan2(np.abs(to_b, out=aside), np.abs(to_r, out=ahead), out=told.pan)
    if case.offset:
        past = ~(np.multiply(root.cos, root.signed, out=slope) >= 0)
        for part in (to_r, to_b) if past.any() else ():
            np.negative(part, out=part, where=past)
    np.multiply(np.signbit(to_r).view(np.int8), -2, out=told.square_sign)
    np.add(told.square_sign, 1, out=told.square_sign)
    if case.along:
        free = local.vh == 0
        told.square_sign[free] = np.copysign(1.0, root.signed[free])
    np.subtract((to_b > 0).view(np.int8), (to_b < 0).view(np.int8), out=told.swing_sign)
    np.divide(to_b, ahead, out=slope)
    np.multiply(slope, given.sight_out, out=aside)
    aside *= given.tape_sense
    aside += given.tape_at
    np.add(aside, _nan_where_steep(slope), out=told.sight)
    np.multiply(given.tolerance, root.size, out=aside)
    np.divide(aside, np.abs(root.cos, out=ahead), out=told.pan_tolerance)


def _nan_where_steep(slope: Array) -> Array:
    """0 in place of a slope within the limit of a sight tape, NaN in place of a steeper one: to be added.

    Multiplied so that only the steeper ones are beyond all numbers; 0 times that is NaN.
    """
    slope *= np.finfo(np.float64).max / SIGHT_SLOPE_LIMIT
    slope *= 0.0
    return slope


def _attitude(given: Mounted, local: _Local, root: _Root, case: _Case, told: Aims) -> None:
    """Roll of the body about the axis, and its word; a body reported tail up is turned over.

    The axis, u and a x h are square to each other, so straight up shows its roll as u . z against
    (a x h) . z, with h = +-(v - va a) / vh; here both times vh and `size`. Straight along a leaning stem,
    left square, h = +-r.
    """
    aside, up_z = np.abs(local.lift, out=local.lift), root.k
    aside *= root.size
    if case.offset:
        up_z *= local.s
        off = np.multiply(given.rise, local.v[2], out=local.spare[0])
        up_z += np.multiply(off, local.vh, out=off)
    if case.along:
        free = local.vh == 0
        aside[free] = np.abs(cross(given.stem, given.reference)[2, free]) * root.size[free]
        h_z = np.copysign(1.0, root.signed) * given.reference[2]
        up_z[free] = (root.sin * h_z - root.cos * given.stem[2])[free]
    roll = np.arctan2(aside, up_z, out=told.roll)
    if given.tail_up.any():
        np.copyto(roll, np.pi - roll, where=given.tail_up)
    turned_over = roll > to_radians(135.0)
    np.add((roll >= to_radians(45.0)).view(np.int8), turned_over.view(np.int8), out=told.attitude)


def _axis(given: Mounted, local: _Local, root: _Root, case: _Case) -> Array:
    """Lens axis (3, N), in the room of v: f = (cos t v + rise a) / +-vh, without rise v / s.

    From v = s f + rise u and f = cos t h + sin t a, with h of equation (2).
    """
    axis, share = local.v, local.lift  # nobody reads that any more
    if not case.offset:
        axis *= np.divide(1.0, local.s, out=share)
        return axis
    np.divide(root.cos, np.multiply(root.size, root.signed, out=share), out=share)
    axis *= share
    np.divide(given.rise, root.signed, out=share)
    axis += np.multiply(given.stem, share, out=local.spare)
    if case.along:  # left square: h = +-r
        free = local.vh == 0
        h = given.reference[:, free] * np.copysign(1.0, root.signed[free])
        axis[:, free] = h * root.cos[free] + given.stem[:, free] * root.sin[free]
        axis[:, free] /= root.size[free]
        axis[:, free] += 0.0  # no -0
    return axis


def _place(given: Mounted, local: _Local, axis: Array, told: Aims) -> Array:
    """Throw, lens, diameters, heading and down; no roll for what points up or down.

    Returns the level part of the axis, (N,).
    """
    np.subtract(local.s, given.nose, out=told.throw)  # (3)
    np.multiply(axis, told.throw, out=told.lens)
    np.subtract(given.point, told.lens, out=told.lens)  # from the point back along the axis
    level, spare, double = local.spare
    if not told.throw.min() > 0:
        told.throw[told.throw <= 0] = np.nan
    np.multiply(told.throw, 2.0, out=double)
    for angle, diameter in ((given.beam, told.beam_diameter), (given.field, told.field_diameter)):
        np.tan(np.multiply(angle, 0.5, out=diameter), out=diameter)
        diameter *= double
    np.arctan2(axis[0], axis[1], out=told.heading)
    _sum_of_squares(level, axis[0], axis[1], spare)
    np.sqrt(level, out=level)
    np.arctan2(np.negative(axis[2], out=spare), level, out=told.down)
    plumb = np.abs(told.down, out=spare) >= np.pi / 2 - PLUMB_WITHIN
    if plumb.any():
        told.roll[plumb] = np.nan
        told.attitude[plumb] = PLUMB
    return np.asarray(level)


def _land(given: Mounted, deck: Deck, light: tuple[Array, Array], told: Aims) -> None:
    """LANDS: from the point onwards along the axis; and how far that is in plan from who stands there."""
    axis, level = light
    reach, lands = landing(deck, given.point, axis), told.lands
    np.multiply(axis, reach, out=lands)
    lands += given.point
    level *= reach
    level += np.multiply(0.0, given.stand[2], out=reach)  # NaN: nobody
    told.past_stand[...] = level


def _sight_leaning(given: Mounted, axis: Array, told: Aims) -> None:
    """Where the plan line of a unit on a leaning stem crosses its tape: by its heading, not by its dial.

    None where heading or dial is over 60 degrees from square.
    """
    leaning = np.abs(given.stem[2]) < 1.0
    leaning &= given.tape_at == given.tape_at  # not NaN
    if not leaning.any():
        return
    rows = np.flatnonzero(leaning)
    r, f = given.reference[:, rows], axis[:, rows]
    aside = (f[1] * r[0] - f[0] * r[1]) * np.sign(given.stem[2, rows])
    slope = np.abs(aside / (f[0] * r[0] + f[1] * r[1]))
    sight = given.tape_sense[rows] * np.copysign(given.sight_out[rows] * slope, aside)
    sight += given.tape_at[rows] + _nan_where_steep(slope)
    told.sight[rows] = sight + 0.0 * told.sight[rows]
