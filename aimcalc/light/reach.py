"""Which unit could fill a hole: what each new aim closes and what it uncovers."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike

from aimcalc.geometry.ovals import level_across
from aimcalc.geometry.vectors import Array
from aimcalc.light.illuminance import Visible, contributions
from aimcalc.light.lamps import Indices, Lamps

SHARES = (0.25, 0.5, 0.75, 1.0)
AS_BEFORE = (
    1 - 1e-9
)  # a point counts as uncovered when its light falls below this share of the threshold
BATCH_VALUES = 2_000_000  # trial aims times points at a time


class Trials(NamedTuple):
    """What K new aims would do, one unit changed in each; areas in m2, (K,)."""

    gain: Array  # below the threshold now, not then
    uncovers: Array  # not below the threshold now, but then
    here: Array  # the part of `gain` in the hole asked about


def try_aims(
    lamps: Lamps,
    unit: ArrayLike,
    turned: Lamps,
    *,
    points: Array,
    level: Array,
    below: float,
    cell_area: float,
    hole: Indices | None = None,
    visible: Visible | None = None,
    visible_turned: Visible | None = None,
) -> Trials:
    """What changes when unit `unit[k]` of `lamps` is set as the k-th of `turned`, the others staying.

    `level` (M,) is the light of all of `lamps` on the level plane at `points` (3, M); only the changed unit's
    own part is worked out again. The threshold `below` stays what it was: it does not follow the new mean.
    `hole` holds the points of the hole asked about. `visible` and `visible_turned` as in `illuminance`.
    """
    which = np.asarray(unit, np.intp)
    asked = np.zeros(points.shape[1], np.bool_)
    asked[np.arange(points.shape[1]) if hole is None else hole] = True
    dark = level < below
    rows = [
        (
            np.count_nonzero(dark & (then >= below)),
            np.count_nonzero(~dark & (then < below * AS_BEFORE)),
            np.count_nonzero(dark & asked & (then >= below)),
        )
        for change in changes(
            lamps, which, turned, points, visible=visible, visible_turned=visible_turned
        )
        for then in level + change
    ]
    cells = np.array(rows, np.float64).reshape(-1, 3)
    return Trials(*(cells * cell_area).T)


def changes(
    lamps: Lamps,
    unit: ArrayLike,
    turned: Lamps,
    points: Array,
    *,
    visible: Visible | None = None,
    visible_turned: Visible | None = None,
) -> Iterator[Array]:
    """Light added (or lost) at the M points by each change of one unit, in batches (k, M), in order."""
    which = np.asarray(unit, np.intp)
    batch = max(1, BATCH_VALUES // max(1, points.shape[1]))
    for first in range(0, which.size, batch):
        rows = np.arange(first, min(first + batch, which.size))
        own, back = np.unique(which[rows], return_inverse=True)
        now = contributions(lamps.take(own), points, visible=_renamed(visible, own))[0]
        then = contributions(turned.take(rows), points, visible=_renamed(visible_turned, rows))[0]
        yield then - now[back]


def pointed(lamps: Lamps, unit: ArrayLike, faces: Array) -> Lamps:
    """Units `unit` (K,) with their axes turned through the points `faces` (3, K), lenses staying.

    A first guess: a lens that moves with the aim (nose, rise) is for the mount's own geometry to place.
    Ovals are left level across.
    """
    chosen = lamps.take(np.asarray(unit, np.intp))
    axis = faces - chosen.lens
    axis = axis / np.sqrt((axis * axis).sum(axis=0))
    return chosen.moved(chosen.lens, axis, level_across(axis))


def points_between(now: Array, centre: Array, shares: tuple[float, ...] = SHARES) -> Array:
    """Points to try on the way from the present face point (3,) to the hole's centre (3,), (3, shares)."""
    return np.asarray(now[:, None] + (centre - now)[:, None] * np.array(shares))


def _renamed(visible: Visible | None, names: Indices) -> Visible | None:
    """The same question asked about units that now go by their place in `names`."""
    if visible is None:
        return None
    ask = visible
    return lambda unit, which: ask(int(names[unit]), which)
