"""Light at points that the user lists: what a meter check on stage is compared with."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from aimcalc.geometry.vectors import Array
from aimcalc.geometry.vectors import points as as_points
from aimcalc.light.illuminance import contributions
from aimcalc.light.lamps import Indices
from aimcalc.rig.light.sight import seen_from
from aimcalc.rig.light.study import Study
from aimcalc.scene.model import Point

MEASURES = ("level", "house", "cylindrical")
STRONGEST = 3  # units told of at a point
AT_ONCE = 2_000_000  # units times points


class PointLight(NamedTuple):
    """One system at one point: lux on the level plane, facing the house, on the cylinder.

    `strongest` are the units with the most cylindrical light there, and each one's share of it.
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
    """Light of each unit, (3 measures, N, M)."""
    lamps = study.sources.lamps
    light = contributions(lamps, points, MEASURES)
    seen = seen_from(study.sight, lamps.lens, points)
    return np.asarray(light if seen.flags is None else light * seen.flags)


def _told(point: Point, system: str, units: Indices, light: Array) -> PointLight:
    level, house, cylindrical = light.sum(axis=1).tolist()
    order = np.argsort(-light[2], kind="stable")[:STRONGEST]
    strongest = [
        (int(units[k]), float(light[2, k] / cylindrical)) for k in order if light[2, k] > 0
    ]
    return PointLight(point, system, level, house, cylindrical, strongest)
