"""Whether a unit's power tail reaches its connector at every aim: the loop left for the focus.

The tail leaves the body at its exit, `back` behind the pivot along the lens axis and `below` it along
body-down, and turns with the body. With the unit's own directions h (clamp turn p from the reference)
and a (stem), and f = cos t h + sin t a, u = sin t h - cos t a,

    exit = P - back f - below u = P - rho (cos s h + sin s a)                                     (1)
    rho = hypot(back, below),  s = t - atan2(below, back)                                         (2)

so the exit moves on a sphere about the pivot, with p and s as its longitude and latitude. The point of a
block of longitudes and latitudes farthest from a given place lies at a corner of the block, or where an
edge or the inside runs straight away from the place: a handful of candidates, no sampling.

All lengths are metres, angles radians; N units at a time, points (3, N). A unit without an aim, or whose
exit is not known (NaN), gives NaN.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from aimcalc.geometry.vectors import Array, cross, dot

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
    """Where the tail leaves the body at given clamp turns and yoke angles, shape (3, N)."""
    b = cross(body.stem, body.reference)
    reach, lag = _sphere(body)
    h = np.cos(turn) * body.reference + np.sin(turn) * b
    return np.asarray(
        body.pivot - reach * (np.cos(yoke - lag) * h + np.sin(yoke - lag) * body.stem)
    )


def stretch(body: Body, turn: Array, yoke: Array, tie: Array) -> Array:
    """Straight distance from exit to the tied connector at one pose, shape (N,)."""
    gap = exit_point(body, turn, yoke) - tie
    return np.sqrt(dot(gap, gap))


def worst_stretch(body: Body, swing: Swing, tie: Array) -> Array:
    """Longest straight distance from exit to the tied connector over a block of poses, shape (N,)."""
    return _worst(body, swing, tie)[0]


def tie_places(
    body: Body, swing: Swing, base: Array, along: Array, usable: Array
) -> tuple[Array, Array]:
    """Lowest and highest places k where a connector at base + k along is reached at every pose.

    The distances all are convex in k, so the places form one stretch; NaN where there is none. From far
    outside, each round takes the pose that is worst there and steps to the place that this pose alone
    would allow: never past the answer, and onto it in a few rounds.
    """
    high = _outermost(body, swing, base, along, usable)
    low = -_outermost(body, swing, base, -along, usable)
    none = ~(low <= high + CLOSE)
    return np.where(none, np.nan, low), np.where(none, np.nan, high)


def _outermost(body: Body, swing: Swing, base: Array, along: Array, usable: Array) -> Array:
    offset = body.pivot - base
    k = np.sqrt(dot(offset, offset)) + _sphere(body)[0] + usable  # no pose reaches beyond
    with np.errstate(invalid="ignore"):
        for _ in range(ROUNDS):
            gap = _worst(body, swing, base + k * along)[1] - base
            level = dot(gap, along)
            allowed = level + np.sqrt(usable**2 - (dot(gap, gap) - level**2))
            nearer = np.where(np.isnan(allowed), np.nan, np.minimum(k, allowed))
            done = not np.any(k - nearer > CLOSE)
            k = nearer
            if done:
                break
        left = _worst(body, swing, base + k * along)[0] - usable
        return np.where(left <= 1e-6, k, np.nan)


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
