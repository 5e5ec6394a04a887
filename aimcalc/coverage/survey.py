"""Everything there is to say of a rig's light, worked out once: what records, sheets and text are made of."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import isnan
from typing import TYPE_CHECKING

import msgspec
import numpy as np

from aimcalc.coverage.areas import Area, Balanced, areas_of, balances
from aimcalc.coverage.study import Study, study_of
from aimcalc.coverage.systems import Below
from aimcalc.geometry.vectors import Array
from aimcalc.geometry.vectors import points as as_points
from aimcalc.light.lamps import Indices
from aimcalc.named import NamedTuple
from aimcalc.scene.model import Point
from aimcalc.solid.rig import SolidRig

if TYPE_CHECKING:
    from aimcalc.coverage.fewest import Fewest
    from aimcalc.coverage.helpers import Helper
    from aimcalc.coverage.sources import NewAims


STRONGEST = 3  # units told of at a point


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
    found: list[PointLight] = []
    for lot, light in study.of_each(as_points(points)):
        for k, point in enumerate(points[lot]):
            found += [
                _told(point, name, system.units, light[:, system.units, k])
                for name, system in study.systems.items()
            ]
    return found


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


MOST_HOLES = 12  # of a system, the largest: helpers are looked for as far as that

Progress = Callable[[str, float], None]  # what is being done, the share done


class CoverOptions(msgspec.Struct, frozen=True, kw_only=True):
    """What the user asks for beside the scene; lengths in metres."""

    spacing: float | None = None  # of the grid; `plane_of`'s own where None
    below: Below | None = None  # the scene's or half of each system's mean where None
    points: tuple[Point, ...] = ()
    helpers: bool = True  # whether who could fill each hole is searched for
    fewest: bool = True  # whether the smallest set of re-aims is, of those who could


class Survey(NamedTuple):
    """The light of a rig. `helpers` has a list for each hole of each system, in the order of its gaps.

    Lists are empty where nobody asked. Every unit is in one of a system's lists only; `elsewhere` has for
    each hole the units that could help with it and are offered for another, with the number of that hole,
    from 0. `fewest` has the systems that a re-aim could help, where it was asked for.
    """

    study: Study
    helpers: dict[str, list[list[Helper]]]
    elsewhere: dict[str, list[dict[int, int]]]
    fewest: dict[str, Fewest]
    balances: list[Balanced]
    areas: list[Area]
    points: list[PointLight]


def survey(
    rig: SolidRig, options: CoverOptions | None = None, progress: Progress | None = None
) -> Survey:
    """The light of a rig by system, its holes and who fills them, its balance and its areas.

    Raises NoAreaError for a scene without an area to cover, NoRayEngineError and SceneError where its solids
    cannot be asked.
    """
    wish = options or CoverOptions()
    return survey_of(study_of(rig, spacing=wish.spacing, below=wish.below), wish, progress)


def survey_of(study: Study, wish: CoverOptions, progress: Progress | None = None) -> Survey:
    """The same of light that is known already, whatever grid and threshold are wished for."""
    helpers: dict[str, list[list[Helper]]] = {name: [] for name in study.systems}
    elsewhere: dict[str, list[dict[int, int]]] = {name: [] for name in study.systems}
    fewest: dict[str, Fewest] = {}
    if wish.helpers:
        from aimcalc.coverage.fewest import fewest_for  # what a list of areas does without
        from aimcalc.coverage.helpers import each_once

        for name, found in _helpers(study, wish.fewest, progress).items():
            every = [each for each, _ in found]
            helpers[name] = once = each_once(every)
            hole_of = {each.unit: hole for hole, mine in enumerate(once) for each in mine}
            elsewhere[name] = [
                {each.unit: hole_of[each.unit] for each in mine if hole_of[each.unit] != hole}
                for hole, mine in enumerate(every)
            ]
            tries = [tried for _, tried in found if tried.unit.size]
            if wish.fewest and tries:
                fewest[name] = fewest_for(study, study.systems[name], tries, progress)
    points = light_at(study, wish.points)
    return Survey(study, helpers, elsewhere, fewest, balances(study), areas_of(study), points)


def _helpers(
    study: Study, sets: bool, progress: Progress | None
) -> dict[str, list[tuple[list[Helper], NewAims]]]:
    """Helpers for the holes of each system, or its largest; for `sets` of re-aims what they start from."""
    from aimcalc.coverage.helpers import helpers_of
    from aimcalc.coverage.outcomes import Hole

    if progress is not None:
        progress("who could fill a hole", 0.0)
    holes = [
        Hole(system, gap) for system in study.systems.values() for gap in system.gaps[:MOST_HOLES]
    ]
    found: dict[str, list[tuple[list[Helper], NewAims]]] = {name: [] for name in study.systems}
    for hole, each in zip(holes, helpers_of(study, holes, sets=sets), strict=True):
        found[hole.system.name].append(each)
    return found
