"""Can a unit be turned from square to its aim without touching what hangs beside it?

A unit is set in two moves: tipped in its yoke from level, and turned at its clamp from square; either
may come first. Along the way its gap to an obstacle is worked out, and the unit is moved on by no more
than that gap allows (no point of it goes faster than the swing radius times the angle), so that no touch
is stepped over, however short. Two bodies that pass within `TOUCH` count as touching.
"""

from __future__ import annotations

import heapq
from typing import NamedTuple

import numpy as np

from aimcalc.geometry.bodies import (
    CLAMP_BLOCK,
    Hung,
    parts,
    rows,
    set_parts,
    square_parts,
    swing_radius,
    tipped_parts,
)
from aimcalc.geometry.clearance import bounds, counts, near, near_each
from aimcalc.geometry.hulls import Hulls, distance
from aimcalc.geometry.rays import Flags
from aimcalc.geometry.solids import Indices
from aimcalc.geometry.vectors import Array

TOUCH = 2e-3  # metres
WORTH_EXACT = 0.05  # metres: beyond this the distance of bounding boxes will do
MOVING = CLAMP_BLOCK  # parts before the clamp move, the clamp does not
STEPS = 2000
PAIRS_AT_ONCE = 1 << 13  # of a unit and what it is turned past


class Path(NamedTuple):
    """What became of M turns, each (M,): `clear`, and where a touch first came (NaN where clear).

    `tip_first` says that it is clear tipped first and then turned, `turn_first` the other way round, which
    is looked at only where the first touches (or where `both` are asked for); `turn` (signed, radians from
    square), `yoke` and `part` (as numbered in `bodies`) are those of the first touch when tipped first.
    """

    clear: Flags
    tip_first: Flags
    turn_first: Flags
    turn: Array
    yoke: Array
    part: Indices


class Neighbours(NamedTuple):
    """Ordered pairs of units near enough to matter: `unit` turns beside `other`, (M,) each.

    `beside_square` is what becomes of it while the other still hangs square, be it level or already
    tipped to its aim; `beside_set` when the other has been set.
    """

    unit: Indices
    other: Indices
    beside_square: Path
    beside_set: Path


def past_neighbours(
    units: Hung, *, touching: Indices | None = None, some: Flags | None = None, both: bool = False
) -> Neighbours:
    """Every unit turned past every other that it or the other could reach; of `some` (N,), only theirs.

    Pairs that touch at their aims, rows (2, T) of either unit first, have no way past and are left out.
    """
    reach = swing_radius(units)
    pivot = units.clamp + units.build.drop * units.stem
    unit, other = near(_ball(pivot, reach), _ball(pivot, reach), 0.0)
    apart = np.linalg.norm(pivot[:, unit] - pivot[:, other], axis=0)
    keep = (unit != other) & (apart < reach[unit] + reach[other])
    if some is not None:
        keep &= some[unit]
    if touching is not None:
        told = np.concatenate((touching, touching[::-1]), axis=1)
        keep &= ~np.isin(unit * reach.size + other, told[0] * reach.size + told[1])
    unit, other = unit[keep], other[keep]
    ways = square_parts(units), tipped_parts(units), set_parts(units)
    every = np.concatenate(ways, axis=1)
    row = np.concatenate([other + k * reach.size for k in range(3)])
    path = _past(units, np.tile(unit, 3), every, np.zeros(every.shape[1]), row, both=both)
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
    units: Hung, others: Hulls, *, passed_over: Indices | None = None, both: bool = False
) -> tuple[Indices, Indices, Path]:
    """Every unit turned past every body among `others` (pipes, solids) that it could reach.

    Gives the unit's row, the row of `others` and what becomes of it, one row each. `passed_over` (N,)
    or (K, N) names for each unit the owners that do not count for it: its own pipe.
    """
    pivot, reach = units.clamp + units.build.drop * units.stem, swing_radius(units)
    boxes = bounds(others.points, others.radius)
    none = np.zeros(0, dtype=np.int64)
    found = [(none, none)]
    for unit, other in near_each(_ball(pivot, reach), boxes, 0.0):
        if passed_over is not None:
            keep = counts(others.owner[other], unit, passed_over)
            unit, other = unit[keep], other[keep]
        # A slanting body's box is far larger than the body.
        apart = distance(pivot[:, unit, None], others.points[:, other]) - others.radius[other]
        keep = apart < reach[unit]
        found.append((unit[keep], other[keep]))
    unit, other = (np.concatenate(rows) for rows in zip(*found, strict=True))
    order = np.lexsort((other, unit))
    unit, other = unit[order], other[order]
    path = _past(units, unit, others.points[:, :, None], others.radius, other, both=both)
    return unit, other, path


def _past(
    units: Hung, unit: Indices, obstacles: Array, radius: Array, row: Indices, *, both: bool
) -> Path:
    """`turned_past` for each unit and the row of `obstacles` beside it, some pairs at a time."""
    paths = []
    for k in range(0, max(1, unit.size), PAIRS_AT_ONCE):
        some, here = unit[k : k + PAIRS_AT_ONCE], row[k : k + PAIRS_AT_ONCE]
        paths.append(turned_past(units, some, obstacles[:, here], radius[here], both=both))
    return Path._make(np.concatenate(column) for column in zip(*paths, strict=True))


def turned_past(
    units: Hung, unit: Indices, obstacle: Array, radius: Array, *, both: bool = False
) -> Path:
    """Units `unit` (M,) turned past obstacles of Q convex parts each, `obstacle` (3, M, Q, K).

    `radius` (M,) fattens the obstacles. Tipping first is tried first.
    """
    turn, yoke, part = _first_touch(units, unit, obstacle, radius, tip_first=True)
    tip_first = np.isnan(turn)
    turn_first = np.zeros(unit.size, dtype=np.bool_)
    again = np.arange(unit.size) if both else np.flatnonzero(~tip_first)
    other_way, _, _ = _first_touch(
        units, unit[again], obstacle[:, again], radius[again], tip_first=False
    )
    turn_first[again] = np.isnan(other_way)
    return Path(tip_first | turn_first, tip_first, turn_first, turn, yoke, part)


def _ball(middle: Array, reach: Array) -> Array:
    """Bounding boxes (2, 3, N) of balls."""
    return np.stack((middle - reach, middle + reach))


def _first_touch(
    units: Hung, unit: Indices, obstacle: Array, radius: Array, *, tip_first: bool
) -> tuple[Array, Array, Indices]:
    """Turn, yoke and part at the first touch of each path, NaN, NaN and -1 for none."""
    at_turn, at_yoke = np.full(unit.size, np.nan), np.full(unit.size, np.nan)
    at_part = np.full(unit.size, -1)
    reach = swing_radius(units)[unit]
    length = np.abs(units.yoke - units.level)[unit] + np.abs(units.turn)[unit]
    alive = np.flatnonzero(np.isfinite(length + reach))
    gone = np.zeros(unit.size)
    for _ in range(STEPS):
        if not alive.size:
            break
        some = rows(units, unit[alive])
        turn, yoke = _on_path(some, gone[alive], tip_first=tip_first)
        between, part = _lower_gap(parts(some, turn, yoke), obstacle[:, alive])
        between -= radius[alive]
        touch = between <= TOUCH
        here = alive[touch]
        at_turn[here], at_yoke[here], at_part[here] = turn[touch], yoke[touch], part[touch]
        gone[alive] += between / reach[alive]
        alive = alive[~touch & (gone[alive] < length[alive])]
    return at_turn, at_yoke, at_part


def _on_path(units: Hung, gone: Array, *, tip_first: bool) -> tuple[Array, Array]:
    """Turn and yoke angle of units that have come `gone` radians along their path."""
    tip, turn = units.yoke - units.level, units.turn
    first, second = (tip, turn) if tip_first else (turn, tip)
    done = np.minimum(gone, np.abs(first)) * np.sign(first)
    rest = np.clip(gone - np.abs(first), 0.0, np.abs(second)) * np.sign(second)
    tipped, turned = (done, rest) if tip_first else (rest, done)
    return turned, units.level + tipped


def _lower_gap(moving: Array, obstacle: Array) -> tuple[Array, Indices]:
    """A bound from below on the gap of parts (3, M, PARTS, K) to obstacles, and the part it is of.

    Exact where the gap is under WORTH_EXACT.
    """
    moving = moving[:, :, :MOVING]
    bound = np.stack((moving.min(axis=3), moving.max(axis=3)))[..., None]
    other = np.stack((obstacle.min(axis=3), obstacle.max(axis=3)))[:, :, :, None]
    apart = np.maximum(np.maximum(bound[0] - other[1], other[0] - bound[1]), 0.0)
    least = np.sqrt((apart**2).sum(axis=0))
    pair, part, piece = np.nonzero(least < WORTH_EXACT)
    least[pair, part, piece] = distance(moving[:, pair, part], obstacle[:, pair, piece])
    per_part = least.min(axis=2)
    return per_part.min(axis=1), per_part.argmin(axis=1)


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
