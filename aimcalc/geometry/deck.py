"""The deck: how high it is under a point, and where a ray comes down on it.

The deck is level up to the line y = `rake_from` and rises upstage from there by `rake` per metre, so its
height is ``rake * max(0, y - rake_from)`` everywhere; platforms stand on it. It has no edge: light that
misses the stage is still given a landing, and whoever asks is told that it is off the stage.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np

from aimcalc.geometry.first_met import EDGE, first_met
from aimcalc.geometry.vectors import Array, nan_where_negative

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
    """Height of the deck itself at depth `y`, platforms apart; any shape."""
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
    closing = -direction[2] / np.maximum(start[2], 1e-300)
    beneath = start[2] < -TOUCH
    if deck.rake:
        above = start[2] - deck.rake * (start[1] - deck.rake_from)
        fall = deck.rake * direction[1] - direction[2]
        closing = np.maximum(closing, fall / np.maximum(above, 1e-300))
        beneath |= above < -TOUCH
    reach = 1.0 / closing
    reach += nan_where_negative(reach)  # a ray that never comes down
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
