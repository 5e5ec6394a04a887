"""How far the spot moves on the level plane through its point when the unit is turned by one degree.

The whole unit turns about a line through its pivot: about the stem for the pan, about the level line
square to its heading for the down. Turned so, the point goes from v to v' (both from the pivot) and the
axis from f to f'; along f' the spot then slides back to the plane:

    move = v' - v + k f',  k = (v - v') . z / f' . z
"""

from __future__ import annotations

import numpy as np

from aimcalc.geometry.aim import Aims, Mounted
from aimcalc.geometry.ovals import level_across
from aimcalc.geometry.vectors import Array, dot, turned

ONE = np.radians(1.0)


def per_degree(given: Mounted, aims: Aims) -> tuple[Array, Array]:
    """Metres that the spot of each unit moves for one degree of pan and for one of down, each (N,).

    Of the two senses the larger move is told: for the down the one towards level. NaN where the axis, a
    degree on in either sense, no longer meets the plane in front of the lens, or where no aim exists.
    """
    return _moved(given, aims, aims.stem), _moved(given, aims, level_across(aims.axis))


def _moved(given: Mounted, aims: Aims, about: Array) -> Array:
    v, axis = given.point - aims.pivot, aims.axis
    ahead = dot(v, axis) - given.nose
    plumb = np.abs(about[2]) == 1.0  # turned about a plumb stem the point keeps its height
    moves = []
    with np.errstate(divide="ignore", invalid="ignore"):
        for angle in (ONE, -ONE):
            turn = np.full(ahead.size, angle)
            step, light = turned(v, about, turn) - v, turned(axis, about, turn)
            slid = np.where(plumb, 0.0, -step[2] / light[2])
            move = step + slid * light
            moves.append(np.where(ahead + slid > 0, np.hypot(move[0], move[1]), np.nan))
    return np.asarray(np.maximum(*moves))  # keeps NaN
