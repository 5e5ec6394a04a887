"""Rows of units hung for tests of bodies: sizes in inches, angles in degrees."""

from __future__ import annotations

import numpy as np

from aimcalc.geometry.aim import pose
from aimcalc.geometry.bodies import Build, Hung, hung

INCH = 0.0254


def a_build(count=1, *, length=26, width=8, nose=13, rise=0, drop=14, hat=0, boxy=False):
    """Units of one make; every size in inches, one or one a unit."""
    sizes = (length, width, nose, rise, drop, hat)
    arrays = [np.broadcast_to(np.asarray(size, dtype=float) * INCH, count) for size in sizes]
    return Build(*arrays, boxy=np.full(count, boxy))


def a_row(pans, downs, *, spacing=18.0, over=False, **build) -> Hung:
    """Units along a pipe across the stage at z = 5 m, square US, panned towards SL by `pans`."""
    pans = np.radians(np.atleast_1d(np.asarray(pans, dtype=float)))
    downs = np.radians(np.broadcast_to(np.asarray(downs, dtype=float), pans.shape))
    count = pans.size
    clamp = np.stack((np.arange(count) * spacing * INCH, np.zeros(count), np.full(count, 5.0)))
    stem = np.zeros((3, count))
    stem[2] = 1.0 if over else -1.0
    square = np.tile([[0.0], [1.0], [0.0]], count)
    if over:  # upright only with the body turned over in its yoke
        turn, yoke = np.pi - pans, np.pi + downs
    else:
        turn, yoke = pans, downs
    axis, up = pose(stem, square, turn, yoke)
    return hung(a_build(count, **build), clamp=clamp, stem=stem, square=square, axis=axis, up=up)
