"""Where the yoke's top bar lies on a strip of paper along the pipe.

The bar runs along the bolts, at right angles to the stem and to the way the unit faces. So it lies
along the pipe while the unit stands square, and turns with the pan. The lens is a quarter turn from it.
"""

from __future__ import annotations

import numpy as np

from aimcalc.geometry.vectors import Array, cross, dot
from aimcalc.rig.solve import Rig


def yoke_bars(rig: Rig) -> Array:
    """Unit directions along the top bar of every yoke, either way along it, shape (3, N).

    NaN where a unit has no aim. A unit that points along its stem is taken as standing square.
    """
    stem, reference = rig.arrays.stem, rig.arrays.reference
    turn = np.where(np.isnan(rig.aims.yoke), np.nan, rig.aims.turn)
    across = cross(stem, reference)
    return np.asarray(across * np.cos(turn) - reference * np.sin(turn))  # stem x h


def bars_on_paper(bars: Array, stem: Array, along: Array) -> Array:
    """Angle of each bar on a paper that lies along the pipe, radians in (-pi/2, pi/2], shape (N,).

    The reader looks straight along the stem, from above where the stem is plumb, and lines the bar up
    with a line on the paper. `along` (3, N) is the pipe's unit direction towards the end of the paper's
    lines, square to the stem; angles run anticlockwise from it as the reader sees the paper. A unit whose
    stem runs along its own position (on an arm) has no such line: its angle means nothing.
    """
    up_the_page = cross(along, np.where(stem[2] > 0, -stem, stem))
    angle = np.arctan2(dot(bars, up_the_page), dot(bars, along))
    half = np.pi / 2
    return np.asarray(half - (half - angle) % np.pi)
