"""The marks of our plans: unit symbols, crosses, dots, arrow heads, and lines cut at a frame.

Everything is millimetres on paper, points (n, 2). A unit symbol is a box with a pointed nose that lies
along the heading; strokes inside it tell the family.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from aimcalc.geometry.vectors import Array

CROSS = 1.7  # half the span of a STAND cross
DOT = 0.9  # radius of a LANDS dot
HEAD = 2.6  # length of an arrow head

FAMILIES = {
    "ers": "ellipsoidal",
    "fresnel": "fresnel",
    "pc": "plano-convex",
    "par": "par",
    "flood": "flood",
    "cyc": "cyc",
}

# Outlines in units of the symbol's length, nose towards +x, middle at 0.
_BODY = np.array([(-0.5, -0.2), (0.25, -0.2), (0.5, 0.0), (0.25, 0.2), (-0.5, 0.2)])
_WIDE = np.array([(-0.3, -0.2), (0.3, -0.42), (0.3, 0.42), (-0.3, 0.2)])
_STROKES: dict[str, list[Array]] = {
    "ers": [np.array([(-0.5, 0.0), (0.25, 0.0)])],
    "fresnel": [np.array([(0.25, -0.2), (0.25, 0.2)])],
    "pc": [np.array([(0.25, -0.2), (0.25, 0.2)]), np.array([(0.05, -0.2), (0.05, 0.2)])],
    "par": [np.array([(-0.2, -0.2), (-0.2, 0.2)])],
    "flood": [],
    "cyc": [np.array([(0.1, -0.35), (0.1, 0.35)])],
}
_ROUND = np.linspace(0.0, 2 * np.pi, 17)


class Symbol(NamedTuple):
    """A unit on the plan: its outline and the strokes inside."""

    outline: Array
    strokes: list[Array]


class Run(NamedTuple):
    """The part of a line inside a frame, and whether the frame cut it at its start and its end."""

    points: Array
    cut_start: bool
    cut_end: bool


def unit_symbol(family: str, x: float, y: float, heading: float | None, length: float) -> Symbol:
    """The symbol of a unit centred at (x, y); `heading` in degrees clockwise from up the page.

    A unit that points straight down or up (`heading` None) is drawn as a ring with a cross in it.
    """
    if heading is None:
        ring = circle(x, y, 0.35 * length)
        bars = cross(x, y, 0.35 * length)
        return Symbol(ring, bars)
    outline = _WIDE if family in ("flood", "cyc") else _BODY
    turned = _turn(heading) * length
    here = np.array([x, y])
    return Symbol(outline @ turned + here, [s @ turned + here for s in _STROKES[family]])


def circle(x: float, y: float, radius: float) -> Array:
    """A circle as an outline."""
    return np.stack([x + radius * np.cos(_ROUND), y + radius * np.sin(_ROUND)], axis=1)


def square(x: float, y: float, half: float) -> Array:
    """An upright square as an outline."""
    sides = np.array([(-half, -half), (half, -half), (half, half), (-half, half)])
    return np.asarray(sides + np.array([x, y]))


def cross(x: float, y: float, half: float = CROSS) -> list[Array]:
    """The two strokes of an upright cross."""
    return [
        np.array([(x - half, y), (x + half, y)]),
        np.array([(x, y - half), (x, y + half)]),
    ]


def arrow_head(tip: Array, before: Array, size: float = HEAD) -> Array:
    """A solid arrow head at `tip` on a line that comes from `before`."""
    along = (tip - before) / max(float(np.hypot(*(tip - before))), 1e-9)
    side = np.array([-along[1], along[0]])
    back = tip - along * size
    return np.array([tip, back + side * size * 0.36, back - side * size * 0.36])


def inside(points: Array, frame: tuple[float, float, float, float]) -> list[Run]:
    """The runs of a line that lie inside a frame (left, bottom, right, top).

    Each straight piece is cut by Liang and Barsky's method (ACM Transactions on Graphics 3, 1984).
    """
    low, high = np.array(frame[:2]), np.array(frame[2:])
    if len(points) == 0:
        return []
    if np.all((points >= low) & (points <= high)):
        return [Run(points, False, False)]
    start, step = points[:-1], np.diff(points, axis=0)
    with np.errstate(divide="ignore", invalid="ignore"):
        to_low, to_high = (low - start) / step, (high - start) / step
    still = step == 0
    out = still & ((start < low) | (start > high))
    enter = np.where(still, -np.inf, np.minimum(to_low, to_high)).max(axis=1)
    leave = np.where(still, np.inf, np.maximum(to_low, to_high)).min(axis=1)
    enter, leave = np.maximum(enter, 0.0), np.minimum(leave, 1.0)
    kept: list[int] = np.flatnonzero((enter < leave) & ~out.any(axis=1)).tolist()
    return _join(points, kept, enter, leave)


def _join(points: Array, kept: list[int], enter: Array, leave: Array) -> list[Run]:
    """Runs from the pieces kept: a piece goes on where the last one ended uncut."""
    following = {k - 1 for k in kept}
    runs: list[Run] = []
    parts: list[Array] = []
    for k in kept:
        step = points[k + 1] - points[k]
        if not parts:
            parts = [points[k] + step * enter[k]]
            cut_start = bool(enter[k] > 0)
        parts.append(points[k] + step * leave[k])
        if leave[k] < 1 or k not in following:
            runs.append(Run(np.array(parts), cut_start, bool(leave[k] < 1)))
            parts = []
    return runs


def _turn(heading: float) -> Array:
    """Matrix that lays +x along a heading, for rows of points."""
    angle = np.radians(90.0 - heading)
    c, s = np.cos(angle), np.sin(angle)
    return np.array([(c, s), (-s, c)])
