"""Rays spread over a field cone so that each carries the same share of its light.

A pattern is an array (3, R) of unit directions in the lens's own frame: along the axis, towards body-up,
towards the side (axis x up). The rays lie on a spiral that turns by the golden angle from one to the
next, the k-th at the angle inside which (k + 1/2) / R of the flux is: the same rays every time, no two
alike, and no direction across the cone favoured (H. Vogel, Mathematical Biosciences 44, 1979, gives the
spiral for even area; here it is even flux).
"""

from __future__ import annotations

import numpy as np

from aimcalc.geometry.vectors import Array

GOLDEN = np.pi * (3 - np.sqrt(5.0))
PLASTIC = 1.32471795724474602596  # the real root of x^3 = x + 1


def pattern(rays: int, angle: Array, intensity: Array) -> Array:
    """Directions (3, R) that share out the light of a profile, given from the axis to the cone's edge.

    `angle` rises from 0 (radians), `intensity` is candela on any scale; both (M,), M large enough for
    the trapezium rule.
    """
    through = intensity * np.sin(angle)
    total = np.concatenate(([0.0], np.cumsum((through[1:] + through[:-1]) / 2 * np.diff(angle))))
    shares = (np.arange(rays) + 0.5) / rays
    off = np.interp(shares * total[-1], total, angle)
    round_axis = GOLDEN * np.arange(rays)
    return np.stack(
        (np.cos(off), np.sin(off) * np.cos(round_axis), np.sin(off) * np.sin(round_axis))
    )


def uneven_pattern(rays: int, intensity: Array, widest: float) -> Array:
    """Directions (3, R) that share out light which is not alike all round the axis.

    `intensity` (T, P) is on any scale, at the middles of T even steps from the axis to `widest` (radians) and
    of P even steps round it, from the side (axis x up) towards body-up. The spiral of `pattern`, its turns
    drawn out where there is more light; it is that one where the light is alike all round.
    """
    steps, turns = intensity.shape
    middles = (np.arange(steps) + 0.5) * (widest / steps)
    through = np.append(0.0, np.cumsum(intensity * np.sin(middles)[:, None]))
    total = through[::turns]
    shares = (np.arange(rays) + 0.5) / rays
    off = np.interp(shares * total[-1], total, np.linspace(0.0, widest, steps + 1))
    ring = np.minimum((off * (steps / widest)).astype(np.intp), steps - 1)
    share = (GOLDEN / (2 * np.pi) * np.arange(rays)) % 1.0
    wanted = total[ring] + share * (total[ring + 1] - total[ring])
    cell = np.interp(wanted, through, np.arange(through.size)) - ring * turns
    round_axis = cell * (2 * np.pi / turns)
    return np.stack(
        (np.cos(off), np.sin(off) * np.sin(round_axis), np.sin(off) * np.cos(round_axis))
    )


def lens_points(rays: int) -> Array:
    """Points (2, R) spread evenly over a round lens of radius 1, one for each ray of a pattern.

    Steps of the plastic number's powers (1.3247...) keep them even among themselves and unrelated to
    the golden steps of the rays.
    """
    step = np.arange(1, rays + 1)[None] / np.array([[PLASTIC], [PLASTIC**2]])
    first, second = step % 1.0
    turn = 2 * np.pi * second
    return np.asarray(np.sqrt(first) * np.stack((np.cos(turn), np.sin(turn))))


def rim(count: int, *, field: float) -> Array:
    """`count` directions (3, count) round the edge of a field cone, from body-up towards the side."""
    turn = 2 * np.pi * np.arange(count) / count
    out = np.sin(field / 2)
    return np.stack((np.full(count, np.cos(field / 2)), out * np.cos(turn), out * np.sin(turn)))


def stretched(rays: Array, *, up: float, side: float, turn: float = 0.0) -> Array:
    """Directions made oval: tangents of the angles off axis times `up` and `side`, then turned.

    `turn` (radians) goes from body-up towards the side.
    """
    out, across = rays[1] * up, rays[2] * side
    c, s = np.cos(turn), np.sin(turn)
    oval = np.stack((rays[0], out * c - across * s, out * s + across * c))
    return np.asarray(oval / np.linalg.norm(oval, axis=0))


def lens_frames(axis: Array, up: Array) -> Array:
    """The lens's own frame of each unit, shape (3, N, 3): last index along, up, side."""
    side = np.cross(axis, up, axis=0)
    return np.stack((axis, up, side), axis=2)
