"""What lies nearest in front of each lens, inside its field: for the distance a unit's label asks for.

The light of a field up to some distance is a convex body, so that whether a solid reaches into it is
told by the distance of two hulls; how far away the solid begins is closed in on by halving.
"""

from __future__ import annotations

import numpy as np

from aimcalc.geometry.hulls import Hulls, distance
from aimcalc.geometry.near import bounds, near
from aimcalc.geometry.solids import Indices
from aimcalc.geometry.vectors import Array, square_to

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
