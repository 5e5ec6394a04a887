"""Whether the tails of a whole rig reach: on the way to the aim, and over the focus swing."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from aimcalc.geometry.aim import aim, cut
from aimcalc.geometry.vectors import Array, cross, dot, points, to_radians
from aimcalc.hang.records import HangOptions
from aimcalc.hang.tubes import Tubes
from aimcalc.named import NamedTuple
from aimcalc.rig.rig import Rig

ROUNDS = 60  # each closes in as Newton's method does; six or so are the rule
CLOSE = 1e-9  # metres


class Body(NamedTuple):
    """What carries the exit: pivot, the unit's directions (stem, reference), and where the exit is."""

    pivot: Array
    stem: Array
    reference: Array
    back: Array
    below: Array


class Swing(NamedTuple):
    """A block of poses: clamp turns from the reference and yoke angles, each from a low to a high."""

    turn_low: Array
    turn_high: Array
    yoke_low: Array
    yoke_high: Array


def exit_point(body: Body, turn: Array, yoke: Array) -> Array:
    """Where the tail leaves each body at given clamp turns and yoke angles (N,), radians: (3, N), m.

    NaN where the body's tail exit is not known, or the pose does not exist.
    """
    b = cross(body.stem, body.reference)
    reach, lag = _sphere(body)
    h = np.cos(turn) * body.reference + np.sin(turn) * b
    return np.asarray(
        body.pivot - reach * (np.cos(yoke - lag) * h + np.sin(yoke - lag) * body.stem)
    )


def stretch(body: Body, turn: Array, yoke: Array, tie: Array) -> Array:
    """Straight distance from exit to the tied connector (3, N) at one pose of each body, (N,), m.

    NaN where `exit_point` is.
    """
    gap = exit_point(body, turn, yoke) - tie
    return np.sqrt(dot(gap, gap))


def worst_stretch(body: Body, swing: Swing, tie: Array) -> Array:
    """Longest straight distance from exit to the tied connector over a block of poses, shape (N,), m.

    NaN where a pose or the exit is not known.
    """
    found = np.full(body.back.size, np.nan)
    known = np.flatnonzero(np.isfinite(body.back + body.below))
    body, swing = _of_some(body, swing, known)
    found[known] = _worst(body, swing, tie[:, known])[0]
    return found


def tie_places(
    body: Body, swing: Swing, base: Array, along: Array, usable: Array
) -> tuple[Array, Array]:
    """Lowest and highest places k where a connector at base + k along is reached at every pose, (N,) m each.

    `base` and `along` are (3, N), m and of unit length; `usable` (N,) is how much of each tail can be laid,
    m. The distances all are convex in k, so the places form one stretch; NaN where there is none. From far
    outside, each round takes the pose that is worst there and steps to the place that this pose alone would
    allow: never past the answer, and onto it in a few rounds.
    """
    twice = Body._make(np.concatenate((column, column), axis=-1) for column in body)
    swing = Swing._make(np.append(column, column) for column in swing)
    base, ways = np.concatenate((base, base), axis=1), np.concatenate((along, -along), axis=1)
    far = _outermost_tail(twice, swing, base, ways, np.append(usable, usable))
    high, low = far[: usable.size], -far[usable.size :]
    none = ~(low <= high + CLOSE)
    return np.where(none, np.nan, low), np.where(none, np.nan, high)


def _outermost_tail(body: Body, swing: Swing, base: Array, along: Array, usable: Array) -> Array:
    offset = body.pivot - base
    k = np.sqrt(dot(offset, offset)) + _sphere(body)[0] + usable  # no pose reaches beyond
    given = (body, swing, base, along, usable)
    with np.errstate(invalid="ignore"):
        some = np.flatnonzero(~np.isnan(k))  # those that have not come to rest
        for _ in range(ROUNDS):
            nearer = _nearer(k[some], *_of(given, some))
            moves = k[some] - nearer > CLOSE
            k[some] = nearer
            some = some[moves]
            if not some.size:
                break
        some = np.flatnonzero(~np.isnan(k))
        body, swing, base, along, usable = _of(given, some)
        left = _worst(body, swing, base + k[some] * along)[0] - usable
        k[some[~(left <= 1e-6)]] = np.nan
        return k


_Given = tuple[Body, Swing, Array, Array, Array]


def _of(given: _Given, units: NDArray[np.intp]) -> _Given:
    """What is given of some units."""
    body, swing, base, along, usable = given
    return *_of_some(body, swing, units), base[:, units], along[:, units], usable[units]


def _of_some(body: Body, swing: Swing, units: NDArray[np.intp]) -> tuple[Body, Swing]:
    return (
        Body._make(column[..., units] for column in body),
        Swing._make(column[units] for column in swing),
    )


def _nearer(k: Array, body: Body, swing: Swing, base: Array, along: Array, usable: Array) -> Array:
    """The place that the pose that is worst at k alone would allow; NaN where it allows none."""
    gap = _worst(body, swing, base + k * along)[1] - base
    level = dot(gap, along)
    allowed = level + np.sqrt(usable**2 - (dot(gap, gap) - level**2))
    return np.where(np.isnan(allowed), np.nan, np.minimum(k, allowed))


def _sphere(body: Body) -> tuple[Array, Array]:
    """Equation (2): distance of the exit from the pivot, and its lag behind the lens axis."""
    return np.hypot(body.back, body.below), np.arctan2(body.below, body.back)


def _worst(body: Body, swing: Swing, tie: Array) -> tuple[Array, Array]:
    """Longest distance from `tie`, and the exit it is measured to.

    With w = tie - P, |tie - exit|^2 = |w|^2 + rho^2 + 2 rho (cos s w.h + sin s w.a). For one latitude the
    longest lies at either end of the turns or where h runs along or against w in plan; for one turn, at
    either end of the latitudes or at atan2(w.a, w.h).
    """
    b = cross(body.stem, body.reference)
    lag = _sphere(body)[1]
    w = tie - body.pivot
    wr, wb, wa = dot(w, body.reference), dot(w, b), dot(w, body.stem)
    turns = _candidates(swing.turn_low, swing.turn_high, np.arctan2(wb, wr))
    turn = np.stack((*turns, _within(swing.turn_low, swing.turn_high, np.arctan2(-wb, -wr))))
    wh = np.cos(turn) * wr + np.sin(turn) * wb
    low, high = swing.yoke_low - lag, swing.yoke_high - lag
    s = np.stack(_candidates(low, high, np.arctan2(wa, wh)))
    away = (np.cos(s) * wh + np.sin(s) * wa).reshape(12, -1)
    units = np.arange(away.shape[1])
    best = np.where(np.isnan(away), -np.inf, away).argmax(axis=0)
    p, t = turn[best % 4, units], s.reshape(12, -1)[best, units] + lag
    exits = exit_point(body, p, t)
    gap = exits - tie
    return np.sqrt(dot(gap, gap)), exits


def _candidates(low: Array, high: Array, inner: Array) -> tuple[Array, Array, Array]:
    """Both ends of a range of angles, and an angle of it if it lies within (the low end if not)."""
    low, high = np.broadcast_to(low, inner.shape), np.broadcast_to(high, inner.shape)
    return low, high, _within(low, high, inner)


def _within(low: Array, high: Array, angle: Array) -> Array:
    """`angle`, by whole turns, in the range if it lies there at all; else the low end."""
    lifted = low + np.mod(angle - low, 2 * np.pi)
    return np.where(lifted <= high, lifted, low)


MANY_TARGETS = 32  # of one system; beyond that only its outermost count
PAIRS_AT_ONCE = 1 << 14  # of a unit and a target
RAYS = 16
WHOLE = 1e-9  # radians


class Poses(NamedTuple):
    """Aim and swings of N units: turns from the reference, yoke angles, radians."""

    turn: Array
    yoke: Array
    way: Swing  # from square to the aim, at the aim's yoke angle
    tipping: Swing  # the same while the lens is brought from level to the aim
    focus: Swing  # all targets of the unit's system, where its tail exit is known, and `focus_extra` beyond


class Stretches(NamedTuple):
    """Straight distances from exit to connector, (N,) each; NaN where not known."""

    aim: Array
    worst: Array
    tipping: Array
    focus: Array


def tail_bodies(rig: Rig) -> Body:
    """Where every unit's tail leaves its body; NaN for kinds without `tail_exit`."""
    exits = [kind.tail_exit or (np.nan, np.nan) for kind in rig.kinds]
    back, below = np.array(exits, dtype=float).reshape(-1, 2).T
    mounted = rig.arrays
    return Body(rig.aims.pivot, mounted.stem, mounted.reference, back, below)


def usable_tails(rig: Rig, options: HangOptions) -> Array:
    """Tails less the allowance for tie and bend, (N,), m; NaN where no length is given."""
    tails = [np.nan if kind.tail is None else kind.tail for kind in rig.kinds]
    return np.maximum(0.0, np.array(tails, dtype=float) - options.allowance)


def poses(rig: Rig, options: HangOptions) -> Poses:
    """Aims and swings of every unit as the tail sees them (a body reported tail up: turned over)."""
    turn, yoke = _turned_over(rig.aims.turn, rig.aims.yoke, rig.arrays.tail_up)
    from_square = np.where(np.abs(turn) > np.pi / 2, turn - np.copysign(np.pi, turn), turn)
    square = turn - from_square
    way = Swing(np.minimum(square, turn), np.maximum(square, turn), yoke, yoke)
    level = np.where(np.abs(yoke) > np.pi / 2, np.copysign(np.pi, yoke), 0.0)
    tipping = way._replace(yoke_low=np.minimum(level, yoke), yoke_high=np.maximum(level, yoke))
    return Poses(turn, yoke, way, tipping, _focus(rig, options, turn, yoke))


def allowed_places(body: Body, swings: Poses, tied: Tubes, usable: Array) -> tuple[Array, Array]:
    """Lowest and highest places on each tube where the connector may be tied, from the clamp, signed.

    Each (N,) m, as `usable` is, what can be laid of each tail. Every pose of the way, the tipping and the
    focus swing leaves the loop. NaN where no place does.
    """
    twice = Body._make(np.concatenate((column, column), axis=-1) for column in body)
    swing = Swing._make(
        map(np.append, swings.tipping, swings.focus)
    )  # the way is part of the first
    base, along = (np.concatenate((column, column), axis=1) for column in tied[:2])
    first, last = tie_places(twice, swing, base, along, np.append(usable, usable))
    count = usable.size
    low = np.maximum(np.maximum(tied.low, first[:count]), first[count:])
    high = np.minimum(np.minimum(tied.high, last[:count]), last[count:])
    none = ~(low <= high)
    return np.where(none, np.nan, low), np.where(none, np.nan, high)


def stretches(body: Body, swings: Poses, tied: Tubes, place: Array) -> Stretches:
    """Straight distances with the connector tied at `place` (N,) from the clamp, all m; NaN where unknown."""
    tie = tied.base + place * tied.along
    return Stretches(
        stretch(body, swings.turn, swings.yoke, tie),
        worst_stretch(body, swings.way, tie),
        worst_stretch(body, swings.tipping, tie),
        worst_stretch(body, swings.focus, tie),
    )


def _turned_over(turn: Array, yoke: Array, tail_up: NDArray[np.bool_]) -> tuple[Array, Array]:
    """A body rolled half over about its lens axis: half a turn at the clamp, yoke at 180 - t."""
    over = np.where(yoke < 0, -np.pi, np.pi) - yoke
    return np.where(tail_up, _half_turn(turn + np.pi), turn), np.where(tail_up, over, yoke)


def _half_turn(angle: Array) -> Array:
    """Angles brought into [-pi, pi)."""
    return np.asarray(np.mod(angle + np.pi, 2 * np.pi) - np.pi)


def _focus(rig: Rig, options: HangOptions, turn: Array, yoke: Array) -> Swing:
    """The block of turns and yoke angles from the aim to every target of a unit's system, and beyond."""
    swing = [np.zeros(turn.size) for _ in range(4)]
    groups = [group for group in _systems(rig) if group[0].size]
    while groups:
        pairs = np.cumsum([mine.size * targets.shape[1] for mine, targets in groups])
        some = max(1, int(np.searchsorted(pairs, PAIRS_AT_ONCE, "right")))
        _widen(rig, groups[:some], turn, yoke, swing)
        groups = groups[some:]
    extra = to_radians(options.focus_extra)
    turn_low, turn_high, yoke_low, yoke_high = swing
    return _within_travel(
        rig,
        yoke,
        Swing(
            turn + turn_low - extra,
            turn + turn_high + extra,
            yoke + yoke_low - extra,
            yoke + yoke_high + extra,
        ),
    )


_System = tuple[NDArray[np.intp], Array]


def _systems(rig: Rig) -> list[_System]:
    """Units of each system whose tail exits are known (indices), with the points it is aimed at, (3, T)."""
    rows: dict[str, list[int]] = {}
    for k, unit in enumerate(rig.units):
        if unit.system is not None:
            rows.setdefault(unit.system, []).append(k)
    groups = []
    for members in rows.values():
        mine = np.array(members, dtype=np.intp)
        targets = sorted(set(map(tuple, rig.arrays.point[:, mine].T.tolist())))
        known = [k for k in members if rig.kinds[k].tail_exit is not None]
        groups.append((np.array(known, dtype=np.intp), _outermost(points(targets))))
    return groups


def _outermost(targets: Array) -> Array:
    """The targets themselves, or where they are many, those farthest out in 16 plan directions."""
    if targets.shape[1] <= MANY_TARGETS:
        return targets
    angle = np.arange(RAYS) * (2 * np.pi / RAYS)
    reach = np.outer(np.cos(angle), targets[0]) + np.outer(np.sin(angle), targets[1])
    keep = {*reach.argmax(axis=1).tolist(), int(targets[2].argmin()), int(targets[2].argmax())}
    return targets[:, sorted(keep)]


def _widen(
    rig: Rig, groups: Sequence[_System], turn: Array, yoke: Array, swing: list[Array]
) -> None:
    """Widen the swing of the units of some systems, counted from their aims, to take in its targets."""
    mine = np.concatenate([members for members, _ in groups])
    many = np.concatenate([np.full(members.size, t.shape[1]) for members, t in groups])
    units, first = np.repeat(mine, many), np.cumsum(many) - many
    points = np.concatenate([np.tile(t, members.size) for members, t in groups], axis=1)
    pairs = cut(rig.arrays, units)._replace(point=points)
    there = aim(pairs, rig.deck)
    to, tip = _turned_over(there.turn, there.yoke, pairs.tail_up)
    turns = np.nan_to_num(_half_turn(to - turn[units]))
    tips = np.nan_to_num(_half_turn(tip - yoke[units]))
    for values, low, high in ((turns, swing[0], swing[1]), (tips, swing[2], swing[3])):
        low[mine] = np.minimum(0.0, np.minimum.reduceat(values, first))
        high[mine] = np.maximum(0.0, np.maximum.reduceat(values, first))


def _within_travel(rig: Rig, yoke: Array, swing: Swing) -> Swing:
    """The part of a swing that the yoke allows; the aim itself stays in it.

    A yoke whose travel is a whole turn (none typed) is stopped nowhere: 180 degrees is where angles are
    counted anew, and a body that stands over its clamp is focused through it.
    """
    given = rig.arrays
    whole = given.yoke_max - given.yoke_min >= 2 * np.pi - WHOLE
    free = whole | given.tail_up | ~rig.aims.in_travel
    low = np.where(free, swing.yoke_low, np.maximum(swing.yoke_low, given.yoke_min))
    high = np.where(free, swing.yoke_high, np.minimum(swing.yoke_high, given.yoke_max))
    return swing._replace(yoke_low=np.minimum(low, yoke), yoke_high=np.maximum(high, yoke))
