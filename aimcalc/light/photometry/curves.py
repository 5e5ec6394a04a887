"""What a candela table says in a few numbers: peak, centre, beam and field angle, lumens.

Beam and field angle are the full angles between the two directions, in a plane through the lens axis,
where the intensity falls to 50 % and to 10 % (full angles: CIE ILV 17-27-077, note 1). Sources differ on
what it is a share **of**: of the centre-beam intensity (CIE ILV 17-27-077) or of the maximum (CIE S
017:2011 17-514, ANSI/IES LS-1, and for stage units ANSI E1.9 clause 2.15). They differ where the peak is off
the axis. Both are given here; this project aims and draws by the **maximum**, the stage trade's own, and
about the lens axis, because the barrel is what the crew can point.
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


def spread(c: Array, gamma: Array, candela: Array, level: float) -> Spread:
    """Full angle within which the intensity is at least `level` candela, over all planes of the table.

    In each plane, from the highest intensity on each side outwards to the first fall below the level,
    linear between the table's angles; where one side never reaches the level, from the other side's highest
    through the axis. A table that ends above the level ends the angle there.
    """
    planes = np.array([_plane_angle(gamma, *pair, level) for pair in _pairs(c, candela)])
    return Spread(float(planes.mean()), float(planes.min()), float(planes.max()))


def _pairs(c: Array, candela: Array) -> list[tuple[Array, Array]]:
    """The two half-planes, C and C + 180, of every plane that the table names below C = 180."""
    if c.size == 1:
        return [(candela[0], candela[0])]
    opposite = np.stack([np.interp((c + 180.0) % 360.0, c, column) for column in candela.T], axis=1)
    return [(candela[k], opposite[k]) for k in range(c.size) if c[k] < 180.0]


def _plane_angle(gamma: Array, here: Array, there: Array, level: float) -> float:
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
    turn = _mean_over_turn(c, candela)
    g = np.radians(gamma)
    slope = np.diff(turn) / np.diff(g)
    # integral of (a + s (x - x0)) sin x: -(a + s (x - x0)) cos x + s sin x
    parts = turn[:-1] * np.cos(g[:-1]) - turn[1:] * np.cos(g[1:])
    parts += slope * np.diff(np.sin(g))
    return float(2 * np.pi * parts.sum())


def _mean_over_turn(c: Array, candela: Array) -> Array:
    if c.size == 1:
        return np.asarray(candela[0])
    return np.asarray(np.trapezoid(candela, c, axis=0) / 360.0)
