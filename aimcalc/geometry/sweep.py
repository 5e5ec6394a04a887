"""Can a unit be turned from square to its aim without touching what hangs beside it?

A unit is set in two moves: tipped in its yoke from level, and turned at its clamp from square; either
may come first. A stretch of the way is clear where the gap in its middle is more than any part gets about
in half of it: a point that turns by an angle moves by no more than that angle times its distance from the
axis. A stretch that is not clear so is cut in two, down to moves of `HAIR`: so no touch is stepped over,
however short. Two bodies that pass within `TOUCH` count as touching (those that pass within TOUCH by less
than HAIR may count as clear).
"""

from __future__ import annotations

import heapq
from collections.abc import Iterator

import numpy as np

from aimcalc.geometry.bodies import (
    ARM,
    CLAMP_BLOCK,
    CORNERS,
    PARTS,
    Hung,
    parts,
    pivots,
    rows,
    set_parts,
    square_parts,
    swing_radius,
    tipped_parts,
)
from aimcalc.geometry.clearance import balls, bounds, counts, near, near_each
from aimcalc.geometry.hulls import Hulls, distance
from aimcalc.geometry.rays import Flags
from aimcalc.geometry.solids import Indices
from aimcalc.geometry.vectors import Array, among, distinct, dot, most
from aimcalc.named import NamedTuple

TOUCH = 2e-3  # metres
HAIR = 2e-4  # metres
WORTH_EXACT = 0.05  # metres: where parts get about by more, the distance of bounding boxes will do
MOVING = CLAMP_BLOCK  # parts before the clamp move, the clamp does not
LONGEST = 0.5  # radians: a stretch to begin with
PAIRS_AT_ONCE = 1 << 13  # of a unit and what it is turned past


class Path(NamedTuple):
    """What became of M turns, each (M,): `clear`, and where a touch came (NaN, -1 where there was none).

    `tip_first` says that it is clear tipped first and then turned, `turn_first` the other way round, which
    is looked at only where the first touches (or where `both` are asked for); `turn` (signed, radians from
    square), `yoke` (radians) and `part` (as numbered in `bodies`) are those of a touch when tipped first,
    or of the `earliest`, where that is asked for.
    """

    clear: Flags
    tip_first: Flags
    turn_first: Flags
    turn: Array
    yoke: Array
    part: Indices


class _Asked(NamedTuple):
    """M turns: `unit` (M,) of the units past `row` (M,) of obstacles of Q convex parts, (3, R, Q, K).

    `radius` (R,) fattens the obstacles. For `both` and `earliest` see `Path`.
    """

    units: Hung
    unit: Indices
    obstacles: Array
    radius: Array
    row: Indices
    both: bool
    earliest: bool

    def some(self, which: Indices | slice) -> _Asked:
        """Some of the turns."""
        return self._replace(unit=self.unit[which], row=self.row[which])


_YES, _ANGLE = np.zeros(0, np.bool_), np.zeros(0)
_NOBODY = Path(_YES, _YES, _YES, _ANGLE, _ANGLE, np.zeros(0, np.int64))


_Ways = dict[tuple[object, ...], tuple[object, ...]]


class Tried:
    """Ways that were tried, by all that goes into each, for units that change little from time to time.

    All of it is compared to the last bit: a way that is given again is what would be found. `before` is what
    was tried before a change; what is not asked for again is let go.
    """

    only_remembers = True
    _old: _Ways
    _kept: _Ways

    def __init__(self, before: Tried | None = None) -> None:
        self._old = {} if before is None else before._kept or before._old
        self._kept = {}

    def past(self, asked: _Asked) -> Path:
        """As `_past`."""
        units, unit, obstacles, radius, row, *ask = asked
        columns = (*units.build, *units[1:])
        mine = np.concatenate([np.atleast_2d(column) for column in columns]).T.copy()
        beside, place = distinct(row)
        things = obstacles[:, beside].transpose(1, 0, 2, 3).copy()
        each = [line.tobytes() for line in mine], [thing.tobytes() for thing in things]
        keys = [
            (each[0][k], each[1][j], fat, things.shape, *ask)
            for k, j, fat in zip(unit.tolist(), place.tolist(), radius[row].tolist(), strict=True)
        ]
        self._kept |= {key: self._old[key] for key in keys if key in self._old}
        new = np.array([k for k, key in enumerate(keys) if key not in self._kept], dtype=np.int64)
        found = _past(asked.some(new)) if new.size else _NOBODY
        told = zip(*(column.tolist() for column in found), strict=True)
        self._kept |= {keys[k]: path for k, path in zip(new.tolist(), told, strict=True)}
        rows = zip(*(self._kept[key] for key in keys), strict=True) if keys else [()] * len(found)
        return Path._make(
            np.array(column, dtype=like.dtype) for column, like in zip(rows, found, strict=True)
        )


class Neighbours(NamedTuple):
    """Ordered pairs of units near enough to matter: `unit` turns beside `other`, (M,) each.

    `beside_square` is what becomes of it while the other still hangs square, be it level or already
    tipped to its aim; `beside_set` when the other has been set.
    """

    unit: Indices
    other: Indices
    beside_square: Path
    beside_set: Path


class Beside(NamedTuple):
    """Ordered pairs of units that could reach each other, (M,) each, and all units as they hang, square."""

    unit: Indices
    other: Indices
    square: Array


def beside_of(units: Hung) -> Beside:
    """What stands beside what, however the units are aimed; parts (3, N, PARTS, CORNERS), m.

    The parts of a unit that is beside no other are NaN.
    """
    pivot, reach = pivots(units), swing_radius(units)
    unit, other = near(balls(pivot, reach), balls(pivot, reach), 0.0)
    apart = np.linalg.norm(pivot[:, unit] - pivot[:, other], axis=0)
    keep = (unit != other) & (apart < reach[unit] + reach[other])
    unit, other = unit[keep], other[keep]
    stands, _ = distinct(other)
    square = np.full((3, reach.size, PARTS, CORNERS), np.nan)
    square[:, stands] = square_parts(rows(_level(units), stands))
    return Beside(unit, other, square)


def _level(units: Hung) -> Hung:
    """The units as they hang: their aims are not asked for, so that what comes of this outlasts them."""
    return Hung(units.build, units.clamp, units.stem, units.reference, *[units.level] * 3)


def past_neighbours(
    units: Hung,
    *,
    touching: Indices | None = None,
    some: Flags | None = None,
    both: bool = False,
    earliest: bool = False,
    tried: Tried | None = None,
    beside: Beside | None = None,
) -> Neighbours:
    """Every unit turned past every other that it or the other could reach; of `some` (N,), only theirs.

    What was `tried` before is not tried again, and what stands `beside` is not worked out where it is known.

    Pairs that touch at their aims, rows (2, T) of either unit first, have no way past and are left out.
    """
    unit, other, square = beside or beside_of(units)
    count = square.shape[1]
    keep = np.ones(unit.size, np.bool_) if some is None else some[unit]
    if touching is not None:
        told = np.concatenate((touching, touching[::-1]), axis=1)
        keep = keep & ~among(unit * count + other, told[0] * count + told[1])
    unit, other = unit[keep], other[keep]
    stands, place = distinct(other)
    those = rows(units, stands)
    every = np.concatenate((square[:, stands], tipped_parts(those), set_parts(those)), axis=1)
    row = np.concatenate([place + k * stands.size for k in range(3)])
    fat = np.zeros(every.shape[1])
    asked = _Asked(units, np.tile(unit, 3), every, fat, row, both, earliest)
    path = _past(asked) if tried is None else tried.past(asked)
    level, tipped, done = (
        Path._make(column[k * unit.size : (k + 1) * unit.size] for column in path) for k in range(3)
    )
    return Neighbours(unit, other, _both(level, tipped), done)


def _both(first: Path, second: Path) -> Path:
    """One path past either of two things: clear where both are, the touch told that of the first."""
    touch = np.isnan(first.turn)
    told = [np.where(touch, b, a) for a, b in zip(first[3:], second[3:], strict=True)]
    return Path(
        first.clear & second.clear,
        first.tip_first & second.tip_first,
        first.turn_first & second.turn_first,
        *told,
    )


def past_fixed(
    units: Hung,
    others: Hulls,
    *,
    passed_over: Indices | None = None,
    both: bool = False,
    earliest: bool = False,
    tried: Tried | None = None,
    reached: tuple[Indices, Indices] | None = None,
) -> tuple[Indices, Indices, Path]:
    """Every unit turned past every body among `others` (pipes, solids) that it could reach.

    Gives the unit's row, the row of `others` and what becomes of it, one row each. `passed_over` (N,)
    or (K, N) names for each unit the owners that do not count for it: its own pipe. What is `reached`
    (`fixed_in_reach`) is not worked out where it is known.
    """
    unit, other = reached or fixed_in_reach(units, others, passed_over)
    parts_of_one = others.points[:, :, None]
    asked = _Asked(units, unit, parts_of_one, others.radius, other, both, earliest)
    return unit, other, _past(asked) if tried is None else tried.past(asked)


def fixed_in_reach(
    units: Hung, others: Hulls, passed_over: Indices | None = None
) -> tuple[Indices, Indices]:
    """Units and the rows of `others` that they could reach, however they are aimed, (M,) each."""
    pivot, reach = pivots(units), swing_radius(units)
    boxes = bounds(others.points, others.radius)
    none = np.zeros(0, dtype=np.int64)
    found = [(none, none)]
    for unit, other in near_each(balls(pivot, reach), boxes, 0.0):
        if passed_over is not None:
            keep = counts(others.owner[other], unit, passed_over)
            unit, other = unit[keep], other[keep]
        # A slanting body's box is far larger than the body.
        far = reach[unit] + others.radius[other]
        keep = distance(pivot[:, unit, None], others.points[:, other], within=far) < far
        found.append((unit[keep], other[keep]))
    unit, other = (np.concatenate(rows) for rows in zip(*found, strict=True))
    order = np.lexsort((other, unit))
    return unit[order], other[order]


def _past(asked: _Asked) -> Path:
    """`turned_past` for each unit and the row of `obstacles` beside it, some pairs at a time.

    What no turn reaches by the box about all of it is clear.
    """
    units, unit, obstacles, radius, row, both, earliest = asked
    pivot, (low, high) = pivots(units), bounds(obstacles)
    low, high = low.min(axis=2), high.max(axis=2)
    away = np.maximum(np.maximum(low[:, row] - pivot[:, unit], pivot[:, unit] - high[:, row]), 0.0)
    near = np.flatnonzero(
        np.sqrt(dot(away, away)) - radius[row] <= swing_radius(units)[unit] + TOUCH
    )
    path = Path(
        clear=np.ones(unit.size, np.bool_),
        tip_first=np.ones(unit.size, np.bool_),
        turn_first=np.full(unit.size, both),
        turn=np.full(unit.size, np.nan),
        yoke=np.full(unit.size, np.nan),
        part=np.full(unit.size, -1),
    )
    for k in range(0, near.size, PAIRS_AT_ONCE):
        some = near[k : k + PAIRS_AT_ONCE]
        given = units, unit[some], obstacles[:, row[some]], radius[row[some]]
        found = turned_past(*given, both=both, earliest=earliest)
        for column, part in zip(path, found, strict=True):
            column[some] = part
    return path


def turned_past(
    units: Hung,
    unit: Indices,
    obstacle: Array,
    radius: Array,
    *,
    both: bool = False,
    earliest: bool = False,
) -> Path:
    """Units `unit` (M,) turned past obstacles of Q convex parts each, `obstacle` (3, M, Q, K).

    `radius` (M,) fattens the obstacles. Tipping first is tried first.
    """
    given = units, unit, obstacle, radius
    turn, yoke, part = _touched(*given, tip_first=True, earliest=earliest)
    tip_first = np.isnan(turn)
    turn_first = np.zeros(unit.size, dtype=np.bool_)
    again = np.arange(unit.size) if both else np.flatnonzero(~tip_first)
    given = units, unit[again], obstacle[:, again], radius[again]
    other_way, _, _ = _touched(*given, tip_first=False, earliest=False)
    turn_first[again] = np.isnan(other_way)
    return Path(tip_first | turn_first, tip_first, turn_first, turn, yoke, part)


class _Stretches(NamedTuple):
    """Stretches of paths, each (K,): the row of the path, the middle of the stretch and half its length.

    In radians along the path; `tips` where the body is tipped there, else the unit is turned.
    """

    row: Indices
    middle: Array
    half: Array
    tips: Flags

    def pick(self, which: Indices | Flags | slice) -> _Stretches:
        """Some of them."""
        return _Stretches._make(column[which] for column in self)


def _touched(
    units: Hung,
    unit: Indices,
    obstacle: Array,
    radius: Array,
    *,
    tip_first: bool,
    earliest: bool,
) -> tuple[Array, Array, Indices]:
    """Turn, yoke and part at a touch of each path, or the `earliest`; NaN, NaN and -1 for none."""
    beside = _beside(obstacle, radius)
    touch = np.full(unit.size, np.inf)
    part = np.full(unit.size, -1)
    left = _whole(units, unit, _in_reach(units, unit, beside), tip_first=tip_first)
    while left.row.size:
        found = [_judged(units, unit, beside, some, tip_first=tip_first) for some in _in_turn(left)]
        open_still, touching, where = (
            np.concatenate(column) for column in zip(*found, strict=True)
        )
        order = np.lexsort((left.middle, left.row))
        order = order[touching[order]]
        row, place = distinct(left.row[order])
        first = np.flatnonzero(np.diff(place, prepend=-1))
        nearer = left.middle[order[first]] < touch[row]
        row, best = row[nearer], order[first[nearer]]
        touch[row], part[row] = left.middle[best], where[best]
        before = (
            left.middle - left.half < touch[left.row] if earliest else np.isinf(touch[left.row])
        )
        left = _halves(left, open_still & before)
    met = np.isfinite(touch)
    turn, yoke = _on_path(rows(units, unit), np.where(met, touch, np.nan), tip_first=tip_first)
    return turn, yoke, part


class _Beside(NamedTuple):
    """What M paths lead past: convex `parts` (3, M, Q, K), fattened by `radius` (M,).

    With the `boxes` (2, 3, M, Q) of the parts, and those about the `whole`, with what fattens it, (2, 3, M).
    """

    parts: Array
    radius: Array
    boxes: Array
    whole: Array


def _beside(obstacle: Array, radius: Array) -> _Beside:
    boxes = bounds(obstacle)
    low, high = np.fmin.reduce(boxes[0], axis=-1), np.fmax.reduce(boxes[1], axis=-1)
    return _Beside(obstacle, radius, boxes, np.stack((low - radius, high + radius)))


def _in_reach(units: Hung, unit: Indices, beside: _Beside) -> Indices:
    """The paths, of units of known size, whose obstacles any turn could reach by their boxes."""
    pivot = pivots(units)[:, unit, None]
    low, high = beside.boxes
    away = np.maximum(np.maximum(low - pivot, pivot - high), 0.0)
    nearest = np.sqrt((away**2).sum(axis=0)).min(axis=1) - beside.radius
    return np.flatnonzero(nearest <= swing_radius(units)[unit] + TOUCH)


def _whole(units: Hung, unit: Indices, row: Indices, *, tip_first: bool) -> _Stretches:
    """Both moves of some paths as stretches, none over LONGEST, and their very beginnings and ends."""
    tip, turn = np.abs(units.yoke - units.level)[unit], np.abs(units.turn)[unit]
    row = row[np.isfinite(tip + turn)[row]]
    first, second = (tip, turn) if tip_first else (turn, tip)
    none = np.zeros(row.size)
    ends = (none, first[row] + second[row])
    found = [_Stretches(row, end, none, np.full(row.size, tip_first)) for end in ends]
    for begin, length, tips in (
        (none, first[row], tip_first),
        (first[row], second[row], not tip_first),
    ):
        pieces = np.ceil(length / LONGEST).astype(np.int64)
        mine = np.repeat(np.arange(row.size), pieces)
        place = np.arange(mine.size) - np.repeat(np.cumsum(pieces) - pieces, pieces)
        half = length[mine] / (2 * pieces[mine])
        middle = begin[mine] + (2 * place + 1) * half
        found.append(_Stretches(row[mine], middle, half, np.full(mine.size, tips)))
    return _Stretches._make(np.concatenate(column) for column in zip(*found, strict=True))


def _in_turn(left: _Stretches) -> Iterator[_Stretches]:
    """Some at a time."""
    for k in range(0, left.row.size, PAIRS_AT_ONCE):
        yield left.pick(slice(k, k + PAIRS_AT_ONCE))


def _halves(left: _Stretches, pick: Flags) -> _Stretches:
    """Some of the stretches, each cut in two."""
    row, middle, half, tips = left.pick(pick)
    quarter = half / 2
    both = np.concatenate((middle - quarter, middle + quarter))
    return _Stretches(np.tile(row, 2), both, np.tile(quarter, 2), np.tile(tips, 2))


def _judged(
    units: Hung, unit: Indices, beside: _Beside, some: _Stretches, *, tip_first: bool
) -> tuple[Flags, Flags, Indices]:
    """Whether each stretch has to be cut in two, whether its middle is a touch, and the part that touches.

    What a unit is turned past, it passes in the same poses: each is made once.
    """
    first, pose = _poses(unit, some)
    once = some.pick(first)
    here = rows(units, unit[once.row])
    moving = parts(here, *_on_path(here, once.middle, tip_first=tip_first))[:, :, :MOVING]
    about = _gets_about(here, moving, once)
    near, bound = TOUCH + about, bounds(moving)
    meets = _meets((bound[0] - near, bound[1] + near), pose, beside.whole[:, :, some.row])
    pose, row = pose[meets], some.row[meets]
    fat = beside.radius[row]
    close = _close(bound[:, :, pose], near[pose] + fat[:, None], beside.boxes[:, :, row])
    exact = (about <= WORTH_EXACT)[pose, :, None]
    stretch, part, piece = np.nonzero(close & exact)
    pose, still = pose[stretch], beside.parts[:, row[stretch], piece]
    reach = near[pose, part]
    gap = distance(moving[:, pose, part], still, within=reach + fat[stretch]) - fat[stretch]
    open_still = np.zeros(some.row.size, dtype=bool)
    open_still[meets] = (close & ~exact).any(axis=(1, 2))
    open_still[meets[stretch[(gap <= reach) & (about[pose, part] > HAIR)]]] = True
    touching = np.zeros(some.row.size, dtype=bool)
    where = np.full(some.row.size, -1)
    order = np.argsort(-gap, kind="stable")
    order = order[gap[order] <= TOUCH]
    touched = meets[stretch[order]]
    touching[touched], where[touched] = True, part[order]
    return open_still, touching, where


def _close(one: Array, reach: Array, other: Array) -> Flags:
    """Which boxes, (2, 3, K, P) and (2, 3, K, Q), come within reach (K, P) of each other, (K, P, Q)."""
    one, other = one[..., None], other[:, :, :, None]
    apart = np.maximum(np.maximum(one[0] - other[1], other[0] - one[1]), 0.0)
    return np.asarray((apart**2).sum(axis=0) <= (reach**2)[:, :, None])


def _poses(unit: Indices, some: _Stretches) -> tuple[Indices, Indices]:
    """The first of all stretches of one unit that are alike, (U,), and which of these each is, (K,)."""
    alike = np.stack((unit[some.row], some.middle, some.half, some.tips))
    order = np.lexsort(alike)
    rising = alike[:, order]
    new = np.append(True, (rising[:, 1:] != rising[:, :-1]).any(axis=0))
    pose = np.empty(order.size, dtype=np.int64)
    pose[order] = np.cumsum(new) - 1
    return order[new], pose


def _meets(reached: tuple[Array, Array], pose: Indices, whole: Array) -> Indices:
    """Stretches where the box about all that a unit reaches in its pose meets that of its obstacle.

    The one from parts, (3, U, parts) for its low and high corners, the other (2, 3, K).
    """
    low, high = np.fmin.reduce(reached[0], axis=-1), np.fmax.reduce(reached[1], axis=-1)
    meet = (low[:, pose] <= whole[1]) & (whole[0] <= high[:, pose])
    return np.flatnonzero(meet.all(axis=0))


def _gets_about(units: Hung, moving: Array, some: _Stretches) -> Array:
    """How far any point of each part gets from where it is in the middle of its stretch, (K, parts), metres.

    Tipped, only body and top hat move.
    """
    away = moving - pivots(units)[:, :, None, None]
    stem = units.stem[:, :, None, None]
    off = dot(away, away) - np.where(some.tips[:, None, None], 0.0, dot(away, stem) ** 2)
    reach = np.sqrt(np.maximum(most(off), 0.0))
    reach[some.tips, ARM:] = 0.0
    return np.asarray(reach * some.half[:, None])


def _on_path(units: Hung, gone: Array, *, tip_first: bool) -> tuple[Array, Array]:
    """Turn and yoke angle of units that have come `gone` radians along their path."""
    tip, turn = units.yoke - units.level, units.turn
    first, second = (tip, turn) if tip_first else (turn, tip)
    done = np.minimum(gone, np.abs(first)) * np.sign(first)
    rest = np.clip(gone - np.abs(first), 0.0, np.abs(second)) * np.sign(second)
    tipped, turned = (done, rest) if tip_first else (rest, done)
    return turned, units.level + tipped


class Order(NamedTuple):
    """`order`: every unit's row, to be set one after the other; `before`: pairs that had to be kept.

    `impossible` are pairs that can be set neither way round; `knot` are units left over because the
    pairs contradict each other (they come last in `order`, in hang order).
    """

    order: tuple[int, ...]
    before: tuple[tuple[int, int], ...]
    impossible: tuple[tuple[int, int], ...]
    knot: tuple[int, ...]


def setting_order(count: int, turns: Neighbours) -> Order:
    """An order in which `count` units can be set, as near to hang order as the pairs allow.

    Unit i can go before j when i clears j still square, and j then clears i already set.
    """
    square, done = {}, {}
    for i, j, beside_square, beside_set in zip(
        turns.unit.tolist(),
        turns.other.tolist(),
        turns.beside_square.clear.tolist(),
        turns.beside_set.clear.tolist(),
        strict=True,
    ):
        square[i, j], done[i, j] = beside_square, beside_set
    before, impossible = [], []
    for i, j in sorted(pair for pair in square if pair[0] < pair[1]):
        first, second = square[i, j] and done[j, i], square[j, i] and done[i, j]
        if not (first or second):
            impossible.append((i, j))
        elif not (first and second):
            before.append((i, j) if first else (j, i))
    order, knot = _sorted(count, before)
    return Order(tuple(order + knot), tuple(before), tuple(impossible), tuple(knot))


def _sorted(count: int, before: list[tuple[int, int]]) -> tuple[list[int], list[int]]:
    """Units in an order that keeps every pair, lowest row first where free, and those that cannot."""
    after: dict[int, list[int]] = {}
    waits = [0] * count
    for i, j in before:
        after.setdefault(i, []).append(j)
        waits[j] += 1
    ready = [unit for unit in range(count) if not waits[unit]]
    order = []
    while ready:
        unit = heapq.heappop(ready)
        order.append(unit)
        for j in after.get(unit, ()):
            waits[j] -= 1
            if not waits[j]:
                heapq.heappush(ready, j)
    return order, sorted(set(range(count)) - set(order))
