"""Units turned to their mark on the sight tape in place of their dial: where it lies, how well one is hit."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.vectors import Array, to_radians
from aimcalc.landings.forward import SIGHT, Set, held
from aimcalc.rig.places import body_of, place
from aimcalc.rig.wording import rounded
from aimcalc.scene.model import Pipe

if TYPE_CHECKING:
    from aimcalc.rig.solve import Solved


def mark_at(rig: Solved, k: int, sight: float, out: float) -> Array:
    """A mark (3,) on the sight tape of unit `k`, `out` from its pipe, seen from its middle, metres."""
    position = rig.positions[k]
    assert isinstance(position, Pipe)
    here = place(position)
    along = np.array(here.along) * (1.0, 1.0, 0.0)
    along /= np.sqrt(along @ along)
    square = np.array(here.square) * float(rig.aims.square_sign[k])
    middle = np.array(body_of(position)[0])
    return np.asarray(np.array(here.zero) - middle + sight * along + out * square)


def sighted(rig: Solved, given: Set, sight: Array, out: Array) -> Set:
    """N units that are set as `given`, those with a mark turned to it as it is printed.

    `sight` (N,) is where the marks are on tapes `out` (N,) from their pipes, metres; NaN: no mark.
    """
    by, marks = given.by.copy(), given.mark.copy()
    for k in np.flatnonzero(np.isfinite(sight)).tolist():
        printed = rounded(float(sight[k]), rig.scene.settings.unit)
        by[k], marks[:, k] = SIGHT, mark_at(rig, k, printed, float(out[k]))
    return given._replace(by=by, mark=marks)


def hand_widths(rig: Solved, given: Set) -> Array:
    """One standard deviation (N,) of the turn of N units as a hand makes it, radians: by the dial `set_pan`.

    By the tape a mark is missed by `sight` along it: seen from the pivot, out from the tape and s aside, that
    is an angle of sight out / (out^2 + s^2).
    """
    errors = rig.scene.errors
    widths = np.full(given.by.size, to_radians(errors.set_pan))
    rows = np.flatnonzero(given.by == SIGHT)
    if rows.size and errors.sight is not None:
        units = held(rig)
        tube = units.tube[:2, rows] / np.hypot(*units.tube[:2, rows])
        way = (units.middle[:, rows] + given.mark[:, rows] - rig.aims.pivot[:, rows])[:2]
        aside = np.abs(way[0] * tube[1] - way[1] * tube[0])
        widths[rows] = errors.sight * aside / (way**2).sum(axis=0)
    return widths
