"""Gaps: how near each unit comes to its neighbours, to its own yoke, to pipes, solids and line sets.

A gap is the shortest distance between two solids, in metres; zero or below means that they touch. Only
gaps under a stated width are looked for: what is farther away has no row.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from aimcalc.geometry.bodies import ARM, BAR, BODY, CORNERS, OTHER_ARM, PARTS, TOP_HAT, part_hulls
from aimcalc.geometry.hulls import Hulls, distance, gap, picked
from aimcalc.geometry.near import bounds, near
from aimcalc.geometry.rays import Flags
from aimcalc.geometry.solids import Indices
from aimcalc.geometry.vectors import Array, square_to

PAIRS_AT_ONCE = 1 << 12  # of units, or of a unit and a body
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
    bodies = part_hulls(corners)
    return _least(bodies, bodies, (first, second), within, other_units=True)


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
    return _least(bodies, others, (unit, other), within, other_units=False)


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


def _least(
    bodies: Hulls,
    others: Hulls,
    pairs: tuple[Indices, Indices],
    within: float,
    *,
    other_units: bool,
) -> Gaps:
    """The least gap of every unit and owner under `within`, from pairs of a unit and a unit or body."""
    boxes = bounds(bodies.points, bodies.radius), bounds(others.points, others.radius)
    found = []
    for k in range(0, max(1, pairs[0].size), PAIRS_AT_ONCE):
        first, second = (rows[k : k + PAIRS_AT_ONCE] for rows in pairs)
        first, second = _part_pairs(first, second, other_units=other_units)
        near = _near_rows(*boxes, first, second, within)
        first, second = first[near], second[near]
        between = gap(picked(bodies, first), picked(others, second))
        close = between < within
        found.append((first[close], second[close], between[close]))
    first, second, between = (np.concatenate(columns) for columns in zip(*found, strict=True))
    unit, other = bodies.owner[first], others.owner[second]
    order = np.lexsort((between, other, unit))
    span = int(other.max(initial=0)) + 1
    _, once = np.unique((unit * span + other)[order], return_index=True)
    best = order[once]
    other_part = second[best] % PARTS if other_units else np.full(best.size, -1)
    return Gaps(unit[best], other[best], between[best], first[best] % PARTS, other_part)


def _part_pairs(first: Indices, second: Indices, *, other_units: bool) -> tuple[Indices, Indices]:
    """Rows of the parts of units, each with the other body, or with each part of the other unit."""
    if not other_units:
        return (first[:, None] * PARTS + PER_UNIT).ravel(), np.repeat(second, PARTS)
    part, other = (grid.ravel() for grid in np.indices((PARTS, PARTS)))
    return (first[:, None] * PARTS + part).ravel(), (second[:, None] * PARTS + other).ravel()


def _near_rows(
    boxes: Array, others: Array, first: Indices, second: Indices, within: float
) -> Indices:
    """Which pairs of boxes come within reach of each other."""
    close = np.ones(first.size, dtype=bool)
    for axis in range(3):
        close &= boxes[0, axis, first] - others[1, axis, second] <= within
        close &= others[0, axis, second] - boxes[1, axis, first] <= within
    return np.flatnonzero(close)


SIDES = 24  # of the cone, which is drawn in by less than a hundredth of its width between them
RINGS = 4
HALVINGS = 14


def nearest_ahead(
    *, lens: Array, axis: Array, half: Array, within: Array, others: Hulls
) -> tuple[Array, Indices]:
    """Distance from each lens to the nearest body inside its field cone, and its owner, each (N,).

    `lens` and `axis` are (3, N), `half` half the field angle (radians, under a right angle) and `within`
    how far to look (metres), both (N,). Infinite and -1 where nothing begins within it, and for a unit
    with a NaN in it.
    """
    fans = _fans(axis, half)
    whole = bounds(lens[:, :, None] + within[:, None] * fans)
    unit, other = near(whole, bounds(others.points, others.radius), 0.0)

    def reaches(reach: Array, rows: Indices) -> Array:
        light = lens[:, unit[rows], None] + reach[:, None] * fans[:, unit[rows]]
        return distance(light, others.points[:, other[rows]]) - others.radius[other[rows]]

    met = np.flatnonzero(reaches(within[unit], np.arange(unit.size)) <= 0)
    low, high = np.zeros(met.size), within[unit[met]]
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        inside = reaches(middle, met) <= 0
        low, high = np.where(inside, low, middle), np.where(inside, middle, high)
    return _nearest(lens.shape[1], unit[met], high, others.owner[other[met]])


def _fans(axis: Array, half: Array) -> Array:
    """The corners of the light up to one metre from lenses at zero: rings of a round cap, and the tip."""
    turn = 2 * np.pi * np.arange(SIDES) / SIDES
    off = half[:, None] * np.arange(1, RINGS + 1) / RINGS
    out = np.sin(off)[:, :, None] * np.stack((np.cos(turn), np.sin(turn)))[:, None, None, :]
    first, second = square_to(axis)
    rays = (
        np.cos(off)[None, :, :, None] * axis[:, :, None, None]
        + out[0] * first[:, :, None, None]
        + out[1] * second[:, :, None, None]
    ).reshape(3, axis.shape[1], RINGS * SIDES)
    return np.concatenate((rays, axis[:, :, None], np.zeros_like(axis)[:, :, None]), axis=2)


def _nearest(count: int, unit: Indices, reach: Array, owner: Indices) -> tuple[Array, Indices]:
    """The least reach of each unit and whose it is."""
    least, whose = np.full(count, np.inf), np.full(count, -1)
    for row in np.argsort(-reach, kind="stable").tolist():
        least[unit[row]], whose[unit[row]] = reach[row], owner[row]
    return least, whose
