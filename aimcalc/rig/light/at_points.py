"""Light at points that the user lists: what a meter check on stage is compared with."""

from __future__ import annotations

from collections.abc import Sequence
from math import isnan
from typing import NamedTuple

import numpy as np

from aimcalc.geometry.vectors import Array
from aimcalc.geometry.vectors import points as as_points
from aimcalc.light.illuminance import contributions
from aimcalc.light.lamps import Indices
from aimcalc.rig.light.sight import seen_from
from aimcalc.rig.light.sources import units_without_candela
from aimcalc.rig.light.study import Study
from aimcalc.scene.model import Point

MEASURES = ("level", "house", "cylindrical")
STRONGEST = 3  # units told of at a point
AT_ONCE = 2_000_000  # units times points


class PointLight(NamedTuple):
    """One system at one point: lux on the level plane, facing the house, on the cylinder.

    All three are NaN where the light is not known: where all of the system's units, or one that has the
    point in its field, come without candela. `strongest` are the units with the most cylindrical light
    there, and each one's share of it.
    """

    point: Point
    system: str
    level: float
    house: float
    cylindrical: float
    strongest: list[tuple[int, float]]


def light_at(study: Study, points: Sequence[Point]) -> list[PointLight]:
    """Every system's light at every point, point by point."""
    places = as_points(points)
    step = max(1, AT_ONCE // max(1, study.sources.lamps.size))
    found: list[PointLight] = []
    for first in range(0, len(points), step):
        some = slice(first, first + step)
        light = _each(study, places[:, some])
        for k, point in enumerate(points[some]):
            found += [
                _told(point, name, system.units, light[:, system.units, k])
                for name, system in study.systems.items()
            ]
    return found


def _each(study: Study, points: Array) -> Array:
    """Light of each unit, (3 measures, N, M); NaN in the fields of those without candela."""
    lamps = study.sources.lamps
    *light, field = contributions(lamps, points, (*MEASURES, "count"))
    seen = seen_from(study.sight, lamps.lens, points).flags
    reaches = np.ones_like(field, np.bool_) if seen is None else seen
    unknown = np.isin(np.arange(lamps.size), units_without_candela(study.rig))[:, None]
    lit = np.where(unknown & reaches & (field > 0), np.nan, np.asarray(light) * reaches)
    for system in study.systems.values():  # one of which nothing is known is known nowhere
        if system.units.size and unknown[system.units].all():
            lit[:, system.units] = np.nan
    return lit


def _told(point: Point, system: str, units: Indices, light: Array) -> PointLight:
    """One system from the light (3, U) of its units."""
    level, house, cylindrical = light.sum(axis=1).tolist()
    if isnan(level):
        return PointLight(point, system, level, house, cylindrical, [])
    order = np.argsort(-light[2], kind="stable")[:STRONGEST]
    strongest = [
        (int(units[k]), float(light[2, k] / cylindrical)) for k in order if light[2, k] > 0
    ]
    return PointLight(point, system, level, house, cylindrical, strongest)
