"""What a candela table says in a few numbers: peak, centre, beam and field angle, lumens.

Beam and field angle, wherever this project says them: the **full** angle between the two directions, in a
plane through the lens axis, where the **candela** falls to 50 % (beam) and to 10 % (field) of the **highest
candela of the file** (half-peak divergence, CIE S 017:2011 17-514, and its tenth; beam and field angle in the
sense of ANSI/IES LS-1, read at second hand). Two other things go by like names and are not meant: shares of
the candela **on the axis** (CIE ILV 17-27-077), which differ where the peak is off it and are told beside
ours then; and the tenth-peak angle of **illuminance** on a flat surface, which loses by distance and slant
as well (ANSI E1.9). The angles are taken about the lens axis, because the barrel is what the crew can point.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from aimcalc.geometry.vectors import Array


class Spread(NamedTuple):
    """Full angles in degrees at one level: over all planes the mean, the narrowest, the widest."""

    mean: float
    narrow: float
    wide: float


def plane_angle(gamma: Array, here: Array, there: Array, level: float) -> float:
    """Full angle within which the intensity is at least `level` candela, in one plane through the lens axis.

    `gamma` rises from the axis (degrees), `here` and `there` are the candela of its two halves. From the
    highest intensity on each side outwards to the first fall below the level, linear between the angles;
    where one side never reaches the level, from the other side's highest through the axis. A curve that ends
    above the level ends the angle there.
    """
    angle = np.concatenate((-gamma[:0:-1], gamma))
    value = np.concatenate((there[:0:-1], here))
    right = _edge(angle, value, level)
    left = _edge(-angle[::-1], value[::-1], level)
    return right + left


def _edge(angle: Array, value: Array, level: float) -> float:
    """Where the curve first falls below the level, going to the right from the highest right of the axis.

    From the highest of the whole plane where the right side never reaches the level; that edge may then be
    left of the axis (negative).
    """
    middle = angle.size // 2
    start = middle + int(value[middle:].argmax())
    if value[start] < level:
        start = int(value.argmax())
        if value[start] < level:
            return 0.0
    below = np.flatnonzero(value[start:] < level)
    if not below.size:
        return float(angle[-1])
    k = start + int(below[0])
    share = (value[k - 1] - level) / (value[k - 1] - value[k])
    return float(angle[k - 1] + share * (angle[k] - angle[k - 1]))


def flux(c: Array, gamma: Array, candela: Array) -> float:
    """Lumens in all: the table, linear in both angles, integrated exactly over its directions."""
    turn = _round_the_pole(c, candela)
    g = np.radians(gamma)
    slope = np.diff(turn) / np.diff(g)
    # integral of (a + s (x - x0)) sin x: -(a + s (x - x0)) cos x + s sin x
    parts = turn[:-1] * np.cos(g[:-1]) - turn[1:] * np.cos(g[1:])
    parts += slope * np.diff(np.sin(g))
    return float(parts.sum())


def _round_the_pole(c: Array, candela: Array) -> Array:
    """Candela summed over C in radians, at each gamma."""
    if c.size == 1:
        return np.asarray(2 * np.pi * candela[0])
    return np.asarray(np.trapezoid(candela, np.radians(c), axis=0))
