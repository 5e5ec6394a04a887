"""The deck: how high it is under a point, and the first surface that a ray meets on its way to it.

The deck is level up to the line y = `rake_from` and rises upstage from there by `rake` per metre, so its
height is ``rake * max(0, y - rake_from)`` everywhere; platforms stand on it. It has no edge: light that
misses the stage is still given a landing, and whoever asks is told that it is off the stage.

`first_met` works in double precision without a library that casts rays. Triangles that lie near each other
share a box. A ray looks only into the boxes on its way, the nearest first, and no further once what it has
met is nearer than the next box; and in a box only at those triangles that a small box of a few is on its way.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from aimcalc.geometry.solids import Indices
from aimcalc.geometry.vectors import Array, cross, dot
from aimcalc.named import NamedTuple

EDGE = 1e-9  # of a triangle's own lengths: a point this far outside an edge is on it
PARALLEL = 1e-15
IN_A_BOX = 128  # triangles that share a box
A_FEW = 4  # and of those a small box
CELLS = 1024  # along each side of the room, when triangles are put in order of where they are
RAYS_AND_BOXES_AT_ONCE = 1 << 20  # of ray and box
ROWS_AT_ONCE = 1 << 10  # rays that look into a box at the same time; more would leave the cache


class Met(NamedTuple):
    """The first triangle each ray meets, -1 for none, and how far away it is (NaN), each (N,)."""

    face: Indices
    distance: Array


class Boxes(NamedTuple):
    """Triangles made ready for `first_met`: B boxes of G small boxes of A_FEW triangles each, metres.

    `corners` (3 corners, 3, B, G, A_FEW), `face` (B, G, A_FEW) their place among the triangles; `low` and
    `high` (3, B) of the boxes, `low_few` and `high_few` (3, B, G) of the small ones.
    """

    corners: Array
    face: Indices
    low: Array
    high: Array
    low_few: Array
    high_few: Array


def first_met(triangles: Array | Boxes, start: Array, direction: Array) -> Met:
    """The first triangle each ray meets from either side; a ray with a NaN in it meets none.

    `triangles` is (3, 3, T): corner, coordinate, triangle, or the same `boxed`; `start` (metres) and
    `direction` (of any length, which distances then count in) are (3, N).
    """
    count = start.shape[1]
    met = Met(np.full(count, -1), np.full(count, np.inf))
    boxes = triangles if isinstance(triangles, Boxes) else boxed(triangles)
    if count and boxes.face.size:
        step = max(1, RAYS_AND_BOXES_AT_ONCE // boxes.face.shape[0])
        for k in range(0, count, step):
            part = slice(k, k + step)
            _look(
                boxes, start[:, part], direction[:, part], Met(met.face[part], met.distance[part])
            )
    return Met(met.face, np.where(met.face < 0, np.nan, met.distance))


def boxed(triangles: Array) -> Boxes:
    """Triangles (3, 3, T) in boxes, neighbours together; the last is repeated until its box is full."""
    count = triangles.shape[2]
    if not count:
        none = np.zeros((3, 0))
        face = np.zeros((0, 0, A_FEW), dtype=np.int64)
        return Boxes(
            np.zeros((3, 3, *face.shape)), face, none, none, none[..., None], none[..., None]
        )
    order = _by_place(triangles) if count > IN_A_BOX else np.arange(count)
    size = min(count, IN_A_BOX)
    size += -size % A_FEW
    full = np.append(order, np.repeat(order[-1:], -count % size))
    face = full.reshape(-1, size // A_FEW, A_FEW)
    corners = triangles[:, :, face]
    low, high = corners.min(axis=(0, 4)), corners.max(axis=(0, 4))
    # A little room, so that a triangle that lies in the side of its box is not passed over.
    room = EDGE * (1.0 + np.maximum(-low, high).max(axis=2))
    few = room[:, :, None] * 8  # the edges of a triangle may be longer than it is far away
    return Boxes(
        corners, face, low.min(axis=2) - room, high.max(axis=2) + room, low - few, high + few
    )


def _by_place(triangles: Array) -> Indices:
    """Triangles in an order that keeps neighbours together.

    The bits of the cell that a middle lies in are dealt out in turn (G. M. Morton, IBM, 1966).
    """
    middle = triangles.mean(axis=0)
    low = middle.min(axis=1, keepdims=True)
    size = max(float((middle - low).max()), 1e-300)
    cell = np.minimum((middle - low) / size * CELLS, CELLS - 1).astype(np.int64)
    code = np.zeros(middle.shape[1], dtype=np.int64)
    for bit in range(CELLS.bit_length() - 1):
        for axis in range(3):
            code |= ((cell[axis] >> bit) & 1) << (3 * bit + axis)
    return np.argsort(code, kind="stable")


def _look(boxes: Boxes, start: Array, direction: Array, met: Met) -> None:
    """Fill in what some rays meet, box by box, the nearest first."""
    slope = np.where(direction == 0.0, 1e-300, direction)
    for ray, box, enter in _rounds(boxes, start, slope):
        still = np.flatnonzero(enter < met.distance[ray])
        for k in range(0, still.size, ROWS_AT_ONCE):
            part = still[k : k + ROWS_AT_ONCE]
            rows, here = ray[part], box[part]
            into, out_of = _passed(
                boxes.low_few[:, here], boxes.high_few[:, here], start[:, rows], slope[:, rows]
            )
            row, few = np.nonzero(into <= out_of)
            rows, here = rows[row], here[row]
            far = _distances(boxes.corners[:, :, here, few], start[:, rows], direction[:, rows])
            best = far.argmin(axis=1)
            reach = far[np.arange(rows.size), best]
            # The nearest of each ray, of several as near the one that stands first in the box.
            order = np.lexsort((reach, row))
            order = order[np.diff(row[order], prepend=-1) > 0]
            nearer = order[reach[order] < met.distance[rows[order]]]
            met.distance[rows[nearer]] = reach[nearer]
            met.face[rows[nearer]] = boxes.face[here, few, best][nearer]


def _rounds(boxes: Boxes, start: Array, slope: Array) -> Iterator[tuple[Indices, Indices, Array]]:
    """Rays, the nearest box on the way of each and the distance to it; then the second nearest ..."""
    enter, leave = _passed(boxes.low[:, None], boxes.high[:, None], start, slope)
    ray, box = np.nonzero(enter <= leave)
    near = enter[ray, box]
    order = np.lexsort((near, ray))
    ray, box, near = ray[order], box[order], near[order]
    turn = np.arange(ray.size) - np.searchsorted(ray, ray)
    by_turn = np.argsort(turn, kind="stable")
    for some in np.split(by_turn, np.flatnonzero(np.diff(turn[by_turn])) + 1):
        yield ray[some], box[some], near[some]


def _passed(low: Array, high: Array, start: Array, slope: Array) -> tuple[Array, Array]:
    """Where rays (3, N) enter boxes (3, N or 1, B) and leave them, (N, B) each; `slope` has no naught."""
    enter, leave = 0.0, np.inf
    with np.errstate(over="ignore", invalid="ignore"):
        for axis in range(3):
            sides = [
                (edge[axis] - start[axis][:, None]) / slope[axis][:, None] for edge in (low, high)
            ]
            enter = np.maximum(enter, np.minimum(*sides))
            leave = np.minimum(leave, np.maximum(*sides))
    return np.asarray(enter), np.asarray(leave)


def _distances(corners: Array, start: Array, direction: Array) -> Array:
    """Distance along each of N rays to each of K triangles of its own, (N, K); infinite if it misses.

    T. Moller and B. Trumbore, Journal of Graphics Tools 2, 1997. `corners` is (3, 3, N, K).
    """
    origin, second, third = corners
    start, direction = start[:, :, None], direction[:, :, None]
    e1, e2 = second - origin, third - origin
    p = cross(direction, e2)
    s = start - origin
    q = cross(s, e1)
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        determinant = dot(e1, p)
        b, c = dot(s, p) / determinant, dot(direction, q) / determinant
        far = dot(e2, q) / determinant
        meets = (b >= -EDGE) & (c >= -EDGE) & (b + c <= 1 + EDGE) & (far >= -EDGE)
        meets &= np.abs(determinant) > PARALLEL
    return np.where(meets, np.maximum(far, 0.0), np.inf)


NO_AREA = 1e-12  # m2 in plan; an upright triangle has no height
PAIRS_AT_ONCE = 1 << 17  # pairs of triangle and point in a slab; more would not stay in the cache


def highest(triangles: Array, x: Array, y: Array) -> Array:
    """Height of the highest triangle over plan points (x, y), shape (N,); NaN where there is none.

    `triangles` is (3, 3, T): corner, coordinate, triangle. Upright triangles count for nothing.
    """
    top = np.full(x.shape, np.nan)
    if x.size and triangles.size:
        beside = _beside(triangles[:, :2], np.stack((x, y)))
        for (x0, y0, z0), (x1, y1, z1), (x2, y2, z2) in _slabs(triangles[:, :, ~beside], x.size):
            with np.errstate(divide="ignore", invalid="ignore"):
                area = (x1 - x0) * (y2 - y0) - (x2 - x0) * (y1 - y0)
                b = ((x - x0) * (y2 - y0) - (x2 - x0) * (y - y0)) / area
                c = ((x1 - x0) * (y - y0) - (x - x0) * (y1 - y0)) / area
                on = (b >= -EDGE) & (c >= -EDGE) & (b + c <= 1 + EDGE) & (np.abs(area) >= NO_AREA)
                z = np.where(on, z0 + b * (z1 - z0) + c * (z2 - z0), -np.inf).max(axis=0)
            top = np.fmax(top, np.where(z == -np.inf, np.nan, z))
    return top


def _slabs(triangles: Array, points: int) -> Iterator[Array]:
    """Some triangles at a time, (3, 3, t, 1), so that a slab has at most PAIRS_AT_ONCE pairs."""
    step = max(1, PAIRS_AT_ONCE // max(1, points))
    for k in range(0, triangles.shape[2], step):
        yield triangles[:, :, k : k + step, None]


def _beside(corners: Array, plan: Array) -> np.ndarray:
    """Whether triangles, their corners (3, 2, T), are beside the whole spread of some points (2, N)."""
    low, high = np.nanmin(plan, axis=1)[:, None], np.nanmax(plan, axis=1)[:, None]
    return np.asarray(((corners.max(axis=0) < low) | (corners.min(axis=0) > high)).any(axis=0))


TOUCH = 1e-9  # metres: a ray starting this little under a surface starts on it


class Deck(NamedTuple):
    """A stage floor. `boxes` (6, B): low corner, high corner; `triangles` (3, 3, T): corner, xyz."""

    rake: float = 0.0
    rake_from: float = 0.0
    boxes: Array = np.zeros((6, 0))
    triangles: Array = np.zeros((3, 3, 0))


def bare_height(deck: Deck, y: Array) -> Array:
    """Height in metres of the deck itself at depth `y` in metres, platforms apart.

    Any shape, NaN stays NaN.
    """
    return np.asarray(deck.rake * np.maximum(0.0, y - deck.rake_from)) + 0.0


def height(deck: Deck, x: Array, y: Array) -> Array:
    """Height of the highest surface to stand on at plan points (x, y), shape (N,)."""
    top = bare_height(deck, y)
    for box in deck.boxes.T:
        on = (x >= box[0]) & (x <= box[3]) & (y >= box[1]) & (y <= box[4])
        top = np.where(on, np.maximum(top, box[5]), top)
    if deck.triangles.size:
        top = np.fmax(top, highest(deck.triangles, x, y))
    return np.asarray(top)


def heights_near(deck: Deck, x: Array, y: Array, reach: float) -> tuple[Array, Array]:
    """Least and most that `height` can be within `reach` metres of plan points (x, y), each (N,).

    Meshes count for their highest corner wherever they are.
    """
    bare, slope = bare_height(deck, y), abs(deck.rake) * reach
    least, most = bare - slope, bare + slope
    for box in deck.boxes.T:
        off_x, off_y = np.maximum(box[0] - x, x - box[3]), np.maximum(box[1] - y, y - box[4])
        near = np.hypot(np.maximum(off_x, 0.0), np.maximum(off_y, 0.0)) <= reach
        most = np.where(near, np.maximum(most, box[5]), most)
        within = np.maximum(off_x, off_y) <= -reach
        least = np.where(within, np.maximum(least, box[5]), least)
    return least, np.maximum(most, deck.triangles[:, 2].max(initial=-np.inf))


def landing(deck: Deck, start: Array, direction: Array) -> Array:
    """Distance along each ray to where it first meets deck or platform, shape (N,); NaN if never.

    `start` and `direction` are (3, N). A ray that meets the side of a platform lands there. A ray that
    starts on a surface and points into it lands at its start; one that starts beneath the deck has no
    landing.
    """
    with np.errstate(divide="ignore", invalid="ignore"):
        reach = (
            _falling(deck, start, direction) if deck.rake < 0 else _rising(deck, start, direction)
        )
        for box in deck.boxes.T:
            reach = np.fmin(reach, _box(box, start, direction))
        if deck.triangles.size:
            reach = np.fmin(reach, first_met(deck.triangles, start, direction).distance)
    return np.asarray(reach)


def _rising(deck: Deck, start: Array, direction: Array) -> Array:
    """Distance to a level deck, or to one that rises upstage: to the first of its two planes."""
    # Shares of the height lost per metre of the way; a start on the surface counts as just above.
    closing = -direction[2]
    closing /= np.maximum(start[2], 1e-300)
    beneath = start[2] < -TOUCH
    if deck.rake:
        above = (start[1] - deck.rake_from) * -deck.rake
        above += start[2]
        beneath |= above < -TOUCH
        fall = deck.rake * direction[1]
        fall -= direction[2]
        fall /= np.maximum(above, 1e-300, out=above)
        np.maximum(closing, fall, out=closing)
    np.maximum(closing, 0.0, out=closing)
    reach = np.divide(1.0, closing, out=closing)
    reach += 0.0 * reach  # never met, infinitely far on: NaN
    if beneath.any():
        reach[beneath] = np.nan
    return np.asarray(reach)


def _falling(deck: Deck, start: Array, direction: Array) -> Array:
    """Distance to a deck that falls upstage: to where the ray is under both of its planes."""
    slope = (
        start[2] - deck.rake * (start[1] - deck.rake_from),
        direction[2] - deck.rake * direction[1],
    )
    enter, leave = np.full_like(start[0], -np.inf), np.full_like(start[0], np.inf)
    for over, rate in ((start[2], direction[2]), slope):
        crossing = -over / rate
        beside = np.where((rate == 0) & (over > 0), np.inf, -np.inf)
        enter = np.maximum(enter, np.where(rate < 0, crossing, beside))
        leave = np.minimum(leave, np.where(rate > 0, crossing, np.inf))
    above = np.maximum(start[2], slope[0]) >= -TOUCH
    meets = above & (enter <= leave) & (leave > 0) & np.isfinite(enter)
    return np.asarray(np.where(meets, np.maximum(enter, 0.0), np.nan))


def _box(box: Array, start: Array, direction: Array) -> Array:
    """Distance to where rays enter one box (slab method); its top counts for a start upon it."""
    enter, leave = np.full_like(start[0], -np.inf), np.full_like(start[0], np.inf)
    for axis in range(3):
        to_low = (box[axis] - start[axis]) / direction[axis]
        to_high = (box[axis + 3] - start[axis]) / direction[axis]
        parallel = direction[axis] == 0
        outside = parallel & ((start[axis] < box[axis]) | (start[axis] > box[axis + 3]))
        near = np.where(parallel, -np.inf, np.minimum(to_low, to_high))
        far = np.where(parallel, np.inf, np.maximum(to_low, to_high))
        enter = np.maximum(enter, np.where(outside, np.inf, near))
        leave = np.minimum(leave, far)
    meets = (enter <= leave) & (enter >= -TOUCH) & (leave > TOUCH)
    return np.where(meets, np.maximum(enter, 0.0), np.nan)
