"""Gaps: how near each unit comes to its neighbours, to its own yoke, to pipes, solids and line sets.

A gap is the shortest distance between two solids, in metres; zero or below means that they touch. Only
gaps under a stated width are looked for: what is farther away has no row.

Which boxes come near each other takes time that goes with their count and with what is near: boxes are
gathered in the cells of a grid, cells as large as the larger of the two boxes, so that what is near lies in
the same cell or in one beside it. Boxes of different size have grids of their own: one pipe of forty metres
does not make every cell as large. Pairs are looked at some at a time.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from aimcalc.geometry.bodies import ARM, BAR, BODY, CORNERS, OTHER_ARM, PARTS, TOP_HAT, part_hulls
from aimcalc.geometry.hulls import Hulls, distance, gap, take
from aimcalc.geometry.rays import Flags
from aimcalc.geometry.solids import Indices, Soup
from aimcalc.geometry.vectors import Array, cross, distinct, dot, least, most, square_to
from aimcalc.named import NamedTuple

BOXES_AT_ONCE = 1 << 21  # of boxes
FEW_PAIRS = 1 << 16  # fewer than these are all looked at, without a grid
SMALLEST = 0.125  # m; a grid is no finer
MOST_CELLS = 1 << 20  # along each side of the room
ASIDE = np.array([(i, j) for i in (-1, 0, 1) for j in (-1, 0, 1)])  # columns of cells, x and y


def bounds(points: Array, radius: Array | float = 0.0) -> Array:
    """Bounding boxes (2, 3, ...) of bodies of K points, (3, ..., K): lowest and highest corner."""
    return np.stack((least(points) - radius, most(points) + radius))


def balls(centre: Array, reach: Array) -> Array:
    """Bounding boxes (2, 3, N) of balls (3, N), (N,)."""
    return np.stack((centre - reach, centre + reach))


def near(first: Array, second: Array, within: float) -> tuple[Indices, Indices]:
    """Rows of two sets of bounding boxes that come within a distance in metres of each other, by row.

    Each set is (2 corners, 3, N), low corners first, m. A box with a NaN in it comes near nothing.
    """
    none = np.zeros(0, dtype=np.int64)
    found = [(none, none), *near_each(first, second, within)]
    rows, columns = zip(*found, strict=True)
    row, column = np.concatenate(rows), np.concatenate(columns)
    order = np.lexsort((column, row))
    return row[order], column[order]


def near_each(first: Array, second: Array, within: float) -> Iterator[tuple[Indices, Indices]]:
    """The same rows as `near`, some at a time and in no order: however many there are, few are held.

    Sets of boxes (2, 3, N), m.
    """
    for row, column in _candidates(first, second, within):
        for (low, high), (other_low, other_high) in zip(
            first.swapaxes(0, 1), second.swapaxes(0, 1), strict=True
        ):  # x, y, z: few pairs are left after the first
            touch = low[row] <= other_high[column] + within
            touch &= other_low[column] <= high[row] + within
            row, column = row[touch], column[touch]
        yield row, column


def most_crowded(centre: Array, reach: Array, most: int) -> Indices:
    """Balls (3, N), (N,) that more than `most` others meet, rising; a ball with a NaN in it meets none.

    Where so many lie in one cell that they all meet, they are not counted one by one, nor for the rest.
    """
    whole = np.flatnonzero(np.isfinite(centre).all(axis=0) & np.isfinite(reach))
    packed = np.zeros(reach.size, dtype=bool)
    level = _levels(2 * reach[whole])
    for size in _every(level):
        some = whole[level == size]
        # Reaches are over a quarter of the size: two together are over twice the side of such a cell.
        keys = _keys(np.floor(centre[:, some] / 2.0 ** (size - 2)))[0]
        cell = distinct(keys)[1]
        packed[some] = np.bincount(cell)[cell] > most + 1
    left = np.where(packed, np.nan, reach)
    boxes = balls(centre, left)
    met = np.zeros(reach.size, dtype=np.int64)
    for one, other in near_each(boxes, boxes, 0.0):
        away = centre[:, one] - centre[:, other]
        meet = (away * away).sum(axis=0) < (reach[one] + reach[other]) ** 2
        met += np.bincount(one[meet & (one != other)], minlength=reach.size)
    return np.flatnonzero(packed | (met > most))


def _candidates(first: Array, second: Array, within: float) -> Iterator[tuple[Indices, Indices]]:
    """Pairs of rows that may be near, some at a time; all that are near are among them."""
    rows, columns = (np.flatnonzero(np.isfinite(b).all(axis=(0, 1))) for b in (first, second))
    if rows.size * columns.size <= FEW_PAIRS:
        yield np.repeat(rows, columns.size), np.tile(columns, rows.size)
        return
    levels = (
        _levels((first[1] - first[0])[:, rows].max(axis=0) + 2 * within),
        _levels((second[1] - second[0])[:, columns].max(axis=0)),
    )
    middles = (first[0] + first[1])[:, rows] / 2, (second[0] + second[1])[:, columns] / 2
    for one in _every(levels[0]):
        for other in _every(levels[1]):
            a, b = np.flatnonzero(levels[0] == one), np.flatnonzero(levels[1] == other)
            for k, j in _in_one_grid(middles[0][:, a], middles[1][:, b], 2.0 ** max(one, other)):
                yield rows[a[k]], columns[b[j]]


def _levels(size: Array) -> Indices:
    """Sizes as powers of two, none under SMALLEST, each at least as large as what it stands for."""
    return np.ceil(np.log2(np.maximum(size, SMALLEST))).astype(np.int64)


def _every(levels: Indices) -> list[int]:
    """Each level once, rising."""
    least = int(levels.min(initial=0))
    return (np.flatnonzero(np.bincount(levels - least)) + least).tolist()


def _in_one_grid(first: Array, second: Array, size: float) -> Iterator[tuple[Indices, Indices]]:
    """Pairs of points (3, A) and (3, B) in one cell or in neighbouring ones, some at a time."""
    every = np.concatenate((first, second), axis=1)
    spread = float((every.max(axis=1) - every.min(axis=1)).max())
    keys, step = _keys(np.floor(every / max(size, spread / MOST_CELLS)))
    mine, theirs = keys[: first.shape[1]], keys[first.shape[1] :]
    order = np.argsort(theirs, kind="stable")
    theirs = theirs[order]
    for x, y in ASIDE.tolist():
        column = mine + x * step[0] + y * step[1]  # the three cells of a column are neighbours
        begin = np.searchsorted(theirs, column - 1, "left")
        count = np.searchsorted(theirs, column + 1, "right") - begin
        yield from _spelled_out(begin, count, order)


def _keys(cells: Array) -> tuple[Indices, tuple[int, int]]:
    """One number for each cell (3, N), neighbours along z next to each other, and the steps along x and y."""
    if not cells.size:
        return np.zeros(0, dtype=np.int64), (1, 1)
    place = (cells - cells.min(axis=1, keepdims=True)).astype(np.int64) + 1
    high, wide = (int(place[axis].max()) + 2 for axis in (2, 1))
    return (place[0] * wide + place[1]) * high + place[2], (wide * high, high)


def _spelled_out(
    begin: Indices, count: Indices, order: Indices
) -> Iterator[tuple[Indices, Indices]]:
    """Every row with each of the `count` entries of `order` from `begin` on, some rows at a time."""
    ends = np.cumsum(count)
    row = 0
    while row < count.size:
        past = int(ends[row - 1]) if row else 0
        end = max(row + 1, int(np.searchsorted(ends, past + BOXES_AT_ONCE, "right")))
        some = count[row:end]
        turn = np.arange(int(some.sum())) - np.repeat(np.cumsum(some) - some, some)
        yield (
            np.repeat(np.arange(row, end), some),
            order[np.repeat(begin[row:end], some) + turn],
        )
        row = end


# m, and the sine of an angle: triangles nearer and more alike than that lie in one plane
ONE_PLANE = 1e-4
EDGE = 1e-6  # m; what triangles share that is no wider is an edge


def in_one_plane(soup: Soup, closed: Flags) -> Array:
    """Boxes about where triangles of two owners lie on each other, or nearly, in one plane, (K, 2, 3).

    Lowest and highest corner, one box for two owners, where light gets to. It gets to none between two owners
    that are `closed` (owners,), whose triangles face outward, and that touch there from either side.
    """
    corners = soup.corners
    boxes = np.stack((corners.min(axis=0), corners.max(axis=0)))
    normal = cross(corners[1] - corners[0], corners[2] - corners[0])
    normal = normal / np.maximum(np.sqrt(dot(normal, normal)), 1e-300)
    rows = [np.flatnonzero(soup.owner == k) for k in range(closed.size)]
    nothing = np.full((2, 3, 1), np.nan)
    whole = [boxes[:, :, mine] if mine.size else nothing for mine in rows]
    owners = np.stack([(b[0].min(axis=1), b[1].max(axis=1)) for b in whole], axis=2)
    found = []
    for some, others in near_each(owners, owners, ONE_PLANE):
        for k, j in zip(some[some < others].tolist(), others[some < others].tolist(), strict=True):
            near_j = rows[k][_meets(boxes[:, :, rows[k]], owners[:, :, [j]])]
            near_k = rows[j][_meets(boxes[:, :, rows[j]], owners[:, :, [k]])]
            one, other = np.repeat(near_j, near_k.size), np.tile(near_k, near_j.size)
            along = dot(normal[:, one], normal[:, other])
            turned = cross(normal[:, one], normal[:, other])
            off = np.abs(dot(corners[0][:, other] - corners[0][:, one], normal[:, one]))
            flat = (dot(turned, turned) < ONE_PLANE**2) & (off < ONE_PLANE)
            flat &= ~(closed[k] & closed[j] & (along < 0))
            one, other = one[flat], other[flat]
            on = _overlap(corners[:, :, one], corners[:, :, other], normal[:, one])
            if on.any():
                low, high = (boxes[end][:, [one[on], other[on]]] for end in (0, 1))
                found.append((low.max(axis=1).min(axis=1), high.min(axis=1).max(axis=1)))
    return np.array(found).reshape(-1, 2, 3)


def _meets(boxes: Array, other: Array) -> Flags:
    touch = (boxes[0] <= other[1] + ONE_PLANE) & (other[0] <= boxes[1] + ONE_PLANE)
    return np.asarray(touch.all(axis=0))


def _overlap(first: Array, second: Array, normal: Array) -> Flags:
    """Whether triangles (3 corners, 3, P) of one plane share more than an edge, (P,).

    They do where no side of either has all of one on its one hand and all of the other on its other hand.
    """
    apart = np.zeros(normal.shape[1], dtype=bool)
    for triangle in (first, second):
        for k in range(3):
            out = cross(triangle[(k + 1) % 3] - triangle[k], normal)
            out = out / np.maximum(np.sqrt(dot(out, out)), 1e-300)
            one, other = (np.stack([dot(c, out) for c in each]) for each in (first, second))
            past = one.max(axis=0) - other.min(axis=0), other.max(axis=0) - one.min(axis=0)
            apart |= np.minimum(*past) < EDGE
    return np.asarray(~apart)


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


class Bodies(NamedTuple):
    """The parts of N units as convex bodies, row = unit * PARTS + part, with the boxes about them.

    `boxes` (2, 3, N * PARTS) of the parts and `whole` (2, 3, N) of the units: lowest and highest corner, m.
    """

    hulls: Hulls
    boxes: Array
    whole: Array


def bodies_of(corners: Array) -> Bodies:
    """The bodies of N units by their corners (3, N, PARTS, CORNERS), m, for whoever asks for them often."""
    boxes = bounds(corners.reshape(3, -1, CORNERS))
    each = boxes.reshape(2, 3, -1, PARTS)
    return Bodies(part_hulls(corners), boxes, np.stack((least(each[0]), most(each[1]))))


def _bodies(units: Array | Bodies) -> Bodies:
    return units if isinstance(units, Bodies) else bodies_of(units)


def between_units(units: Array | Bodies, *, within: float) -> Gaps:
    """Every two units nearer than `within`, `unit` < `other`; by corners (3, N, PARTS, CORNERS) or bodies."""
    bodies = _bodies(units)
    first, second = near(bodies.whole, bodies.whole, within)
    first, second = first[first < second], second[first < second]
    both = bodies.hulls, bodies.boxes
    return _least(both, both, (first, second), within, other_units=True)


def to_others(
    units: Array | Bodies, others: Hulls, *, within: float, passed_over: Indices | None = None
) -> Gaps:
    """Every unit and every owner among `others` that are nearer than `within`; units as in `between_units`.

    `passed_over` (N,) or (K, N) names for each unit the owners that do not count for it: its own pipe,
    say, where it is the space of the line sets that is asked about.
    """
    bodies, boxes = _bodies(units), bounds(others.points, others.radius)
    unit, other = near(bodies.whole, boxes, within)
    if passed_over is not None:
        keep = counts(others.owner[other], unit, passed_over)
        unit, other = unit[keep], other[keep]
    mine = bodies.hulls, bodies.boxes
    return _least(mine, (others, boxes), (unit, other), within, other_units=False)


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
    boxes = bounds(bodies.points)
    a, b = boxes[:, :, part], boxes[:, :, other]
    far = (np.maximum(a[0] - b[1], b[0] - a[1]) > within).any(axis=0)
    near = np.flatnonzero(~far)
    between = np.full(part.size, np.inf)
    between[near] = gap(take(bodies, part[near]), take(bodies, other[near]), within=within)
    return np.asarray(between.reshape(-1, len(pairs)).min(axis=1, initial=np.inf))


def _least(
    mine: tuple[Hulls, Array],
    theirs: tuple[Hulls, Array],
    pairs: tuple[Indices, Indices],
    within: float,
    *,
    other_units: bool,
) -> Gaps:
    """The least gap of every unit and owner under `within`, from pairs of a unit and a unit or body.

    `mine` and `theirs` are bodies and their boxes.
    """
    (bodies, boxes), (others, other_boxes) = mine, theirs
    found = []
    for k in range(0, max(1, pairs[0].size), PAIRS_AT_ONCE):
        first, second = (rows[k : k + PAIRS_AT_ONCE] for rows in pairs)
        first, second = _part_pairs(first, second, other_units=other_units)
        near = _near_rows(boxes, other_boxes, first, second, within)
        first, second = first[near], second[near]
        between = gap(take(bodies, first), take(others, second), within=within)
        close = between < within
        found.append((first[close], second[close], between[close]))
    first, second, between = (np.concatenate(columns) for columns in zip(*found, strict=True))
    unit, other = bodies.owner[first], others.owner[second]
    order = np.lexsort((between, other, unit))
    span = int(other.max(initial=0)) + 1
    keys = (unit * span + other)[order]
    best = order[np.append(True, keys[1:] != keys[:-1])[: keys.size]]
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
        fat = others.radius[other[rows]]
        return distance(light, others.points[:, other[rows]], within=fat) - fat

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
