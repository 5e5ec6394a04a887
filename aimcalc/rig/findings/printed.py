"""Whether the numbers as printed still hit: the forward ray of rounded figures, against the tolerance."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from aimcalc.geometry import mounts
from aimcalc.geometry.vectors import Array, cross, dot, points
from aimcalc.rig.answers import Finding
from aimcalc.rig.findings.telling import STOP, about
from aimcalc.rig.match import whole
from aimcalc.rig.places import place
from aimcalc.rig.solve import Rig
from aimcalc.rig.tolerances import allowed
from aimcalc.rig.wording import INCH, angle, length

METRIC_MARK = 0.005  # m; a hang mark is set to 5 mm or a quarter inch
INCH_MARK = INCH / 4


def misses(rig: Rig) -> Iterator[Finding]:
    """Stops for units that miss by more than their tolerance when hung and set by the printed figures.

    Pan and down (for a stem that is not plumb: dial and yoke) go to the whole degree, the hang mark to
    5 mm or a quarter inch. An oval field allows what it is wide along the miss.
    """
    miss, (axis, to_point) = printed_miss(rig), _set_as_printed(rig)
    way = to_point / np.sqrt(dot(to_point, to_point)) - axis
    limit = allowed(rig, np.arange(len(rig.units)), way)
    for k in np.flatnonzero(miss > limit).tolist():
        off, most = np.degrees(miss[k]), np.degrees(limit[k])
        wide = length(float(np.tan(miss[k]) * rig.aims.throw[k]), rig.scene.settings.unit)
        says = (
            f"Set by the printed whole degrees and hang mark, unit {rig.units[k].number} misses by "
            f"{angle(off, 2)} ({wide} at the face); its tolerance is {angle(most, 2)}."
        )
        do = "Raise tolerance in [scene] or take precise off the unit; or print with --draft and aim it live."
        yield about(rig, [k], STOP, "printed-miss", says=says, do=do)


def printed_miss(rig: Rig) -> Array:
    """Angle in radians by which each unit misses its point when set by printed figures; NaN: no aim.

    A point inside the unit cannot be missed by a turn: NaN too.
    """
    axis, to_point = _set_as_printed(rig)
    off = cross(axis, to_point)
    miss = np.arctan2(np.sqrt(dot(off, off)), dot(axis, to_point))
    return np.asarray(np.where(np.isnan(rig.aims.throw), np.nan, miss))


def _set_as_printed(rig: Rig) -> tuple[Array, Array]:
    """Axis of each unit set by its printed figures, and what its lens then has to its point, each (3, N)."""
    given, aims = rig.arrays, rig.aims
    turn = aims._replace(pan=_whole(aims.pan)).turn
    axis, up = mounts.pose(given.stem, given.reference, turn, _whole(aims.yoke))
    lens = aims.pivot + _moved(rig) + given.nose * axis + given.rise * up
    return axis, given.point - lens


def _whole(radians: Array) -> Array:
    """Angles rounded to whole degrees as on paper."""
    return np.asarray(np.radians(whole(np.degrees(radians))))


def _moved(rig: Rig) -> Array:
    """How far each unit hangs from its exact place when it hangs at its printed mark, (3, N)."""
    step = INCH_MARK if rig.scene.settings.unit in ("ft", "in") else METRIC_MARK
    at = np.array([unit.at or 0.0 for unit in rig.units])
    mark = np.copysign(np.floor(np.abs(at) / step + 0.5 + 1e-9) * step, at)
    ways = {name: place(position).along for name, position in rig.scene.positions.items()}
    return np.asarray(points([ways[unit.position] for unit in rig.units]) * (mark - at))
