"""Gaps: how near each unit comes to its neighbours, to its own yoke, to pipes, solids and line sets.

A gap is the shortest distance between two solids, in metres; zero or below means that they touch. Only
gaps under a stated width are looked for: what is farther away has no row.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from aimcalc.geometry.bodies import ARM, BAR, BODY, CORNERS, OTHER_ARM, PARTS, TOP_HAT, part_hulls
from aimcalc.geometry.hulls import Hulls, gap, picked
from aimcalc.geometry.occlusion import Flags
from aimcalc.geometry.solids import Indices
from aimcalc.geometry.vectors import Array

PAIRS_AT_ONCE = 1 << 22  # bounding boxes compared in one go
PER_UNIT = np.arange(PARTS)


class Gaps(NamedTuple):
    """M pairs nearer than was asked, one row each: `unit`, `other`, `gap`, `part`, `other_part`.

    `unit` is the unit's row; `other` the other unit's row, or the owner number of what else it is.
    `part` and `other_part` (-1 for what is no unit) say which parts are nearest to each other, as
    numbered in `bodies`.
    """

    unit: Indices
    other: Indices
    gap: Array
    part: Indices
    other_part: Indices


def between_units(corners: Array, *, within: float) -> Gaps:
    """Every two units nearer than `within`; corners are (3, N, PARTS, CORNERS), `unit` < `other`."""
    whole = _whole(corners)
    first, second = near(whole, whole, within)
    first, second = first[first < second], second[first < second]
    part, other_part = (grid.ravel() for grid in np.indices((PARTS, PARTS)))
    bodies = part_hulls(corners)
    return _least(
        bodies,
        bodies,
        ((first[:, None] * PARTS + part).ravel(), (second[:, None] * PARTS + other_part).ravel()),
        within,
        other_units=True,
    )


def to_others(
    corners: Array, others: Hulls, *, within: float, passed_over: Indices | None = None
) -> Gaps:
    """Every unit and every owner among `others` that are nearer than `within`.

    `passed_over` (N,) or (K, N) names for each unit the owners that do not count for it: its own pipe,
    say, where it is the space of the line sets that is asked about.
    """
    bodies = part_hulls(corners)
    whole = _whole(corners)
    unit, other = near(whole, bounds(others.points, others.radius), within)
    if passed_over is not None:
        keep = counts(others.owner[other], unit, passed_over)
        unit, other = unit[keep], other[keep]
    rows = (unit[:, None] * PARTS + PER_UNIT).ravel(), np.repeat(other, PARTS)
    return _least(bodies, others, rows, within, other_units=False)


def counts(owner: Indices, unit: Indices, passed_over: Indices) -> Flags:
    """Whether each owner counts for the unit beside it: is none of those passed over, (N,) or (K, N)."""
    return np.asarray((owner != np.atleast_2d(passed_over)[:, unit]).all(axis=0))


def to_own_yoke(corners: Array, *, within: float = np.inf) -> Array:
    """Gap between each unit's body or top hat and the bar and arms of its own yoke, shape (N,).

    Infinite where it is more than `within`, NaN for a unit of unknown size. The yoke is the assumed one
    of `bodies`: a gap of nothing says that length, width, nose and drop leave this pose no room, and is
    no measurement.
    """
    pairs = [(a, b) for a in (BODY, TOP_HAT) for b in (ARM, OTHER_ARM, BAR)]
    part, other = np.array(pairs).T
    bodies, first = part_hulls(corners), np.arange(corners.shape[1])[:, None] * PARTS
    part, other = (first + part).ravel(), (first + other).ravel()
    a, b = bounds(bodies.points[:, part]), bounds(bodies.points[:, other])
    far = (np.maximum(a[0] - b[1], b[0] - a[1]) > within).any(axis=0)
    near = np.flatnonzero(~far)
    between = np.full(part.size, np.inf)
    between[near] = gap(picked(bodies, part[near]), picked(bodies, other[near]))
    between[between > within] = np.inf
    return np.asarray(between.reshape(-1, len(pairs)).min(axis=1, initial=np.inf))


def _whole(corners: Array) -> Array:
    """Bounding boxes of whole units."""
    return bounds(corners.reshape(3, -1, PARTS * CORNERS))


def bounds(points: Array, radius: Array | float = 0.0) -> Array:
    """Bounding boxes (2, 3, P) of bodies (3, P, K): lowest and highest corner."""
    return np.stack((points.min(axis=2) - radius, points.max(axis=2) + radius))


def near(first: Array, second: Array, within: float) -> tuple[Indices, Indices]:
    """Rows of two sets of bounding boxes that come within reach of each other; NaN never does."""
    if not first.size or not second.size:
        return np.zeros(0, dtype=np.int64), np.zeros(0, dtype=np.int64)
    known = np.isfinite(first).all(axis=(0, 1))
    low = first[0].min(axis=1, initial=np.inf, where=known) - within
    high = first[1].max(axis=1, initial=-np.inf, where=known) + within
    inside = ((second[1] >= low[:, None]) & (second[0] <= high[:, None])).all(axis=0)
    candidates = np.flatnonzero(inside)
    second = second[:, :, candidates]
    step = max(1, PAIRS_AT_ONCE // max(1, candidates.size))
    found = [(np.zeros(0, dtype=np.int64), np.zeros(0, dtype=np.int64))]
    for k in range(0, first.shape[2], step):
        some = first[:, :, k : k + step, None]
        near = (some[0] <= second[1][:, None] + within) & (second[0][:, None] <= some[1] + within)
        row, column = np.nonzero(near.all(axis=0))
        found.append((row + k, candidates[column]))
    rows, columns = zip(*found, strict=True)
    return np.concatenate(rows), np.concatenate(columns)


def _least(
    bodies: Hulls,
    others: Hulls,
    rows: tuple[Indices, Indices],
    within: float,
    *,
    other_units: bool,
) -> Gaps:
    """The least gap of every unit and owner among pairs of bodies, those under `within` only."""
    a, b = bounds(bodies.points, bodies.radius), bounds(others.points, others.radius)
    apart = np.maximum(a[0][:, rows[0]] - b[1][:, rows[1]], b[0][:, rows[1]] - a[1][:, rows[0]])
    near = (apart <= within).all(axis=0)
    first, second = rows[0][near], rows[1][near]
    between = gap(picked(bodies, first), picked(others, second))
    unit, other = bodies.owner[first], others.owner[second]
    order = np.lexsort((between, other, unit))
    order = order[between[order] < within]
    span = int(other.max(initial=0)) + 1
    _, once = np.unique((unit * span + other)[order], return_index=True)
    best = order[once]
    other_part = second[best] % PARTS if other_units else np.full(best.size, -1)
    return Gaps(unit[best], other[best], between[best], first[best] % PARTS, other_part)
