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
    lines; angles run anticlockwise from it as the reader sees the paper. Where the stem is not at right
    angles to the pipe (a sloping one) the paper looks shorter along the pipe than it is, and the line is
    drawn so that it looks right. NaN where a stem runs along its own position.
    """
    lean = dot(along, stem)
    seen = along - lean * stem
    short = np.sqrt(dot(seen, seen))
    looking = np.where(stem[2] > 0, -stem, stem)
    with np.errstate(divide="ignore", invalid="ignore"):
        up_the_page = cross(seen / short, looking)
        angle = np.arctan2(dot(bars, up_the_page), dot(bars, seen) / short**2)
    half = np.pi / 2
    return np.asarray(half - (half - angle) % np.pi)
