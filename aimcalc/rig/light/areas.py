"""Which channels light each target, from where, how steeply and how much; and what each channel lights."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from aimcalc.geometry.vectors import Array
from aimcalc.light.illuminance import contributions
from aimcalc.rig.light.faces import ON_TARGET, target_points, uprights
from aimcalc.rig.light.sight import seen_from
from aimcalc.rig.light.sources import units_without_candela
from aimcalc.rig.light.square_on import square_on
from aimcalc.rig.light.study import Study

USEFUL = (
    0.02  # of all the light at a target: units that give less are told of together (our choice)
)


class Comes(NamedTuple):
    """One unit's light at one target. Angles in degrees.

    `bearing` is the plan direction from the target to the unit (0 = US, 90 = SL), `down` how steeply its
    light comes, `lux` that of a card held square to it, `share` its part of all the light there, so
    measured, `upright` lux on an upright card that faces as the area says. The last three are NaN for a
    unit whose light nobody has given.
    """

    unit: int
    bearing: float
    down: float
    lux: float
    share: float
    aimed: bool  # the unit is aimed at this very target
    upright: float


class Area(NamedTuple):
    """One target and the units that light it, the brightest first, those of unknown light last.

    `rest` is the share of all units that are too faint to be told of; `faces` is the heading, in
    degrees, that its upright card faces.
    """

    target: str
    light: list[Comes]
    rest: float
    faces: float


class Lights(NamedTuple):
    """What one channel lights: its units and the targets, those with most of its light first."""

    channel: str
    units: list[int]
    targets: list[str]


def areas_of(study: Study) -> list[Area]:
    """Every target of the scene with the units that light it: its own, and what gives a useful share."""
    targets = study.rig.scene.targets
    points, faces = target_points(study.rig), uprights(study.rig)
    lamps = study.sources.lamps
    seen = seen_from(study.sight, lamps.lens, points, short=ON_TARGET)
    upright, field = contributions(lamps, points, (faces, "count"))
    reaches = np.ones_like(field, np.bool_) if seen.flags is None else seen.flags
    unknown = np.isin(np.arange(lamps.size), units_without_candela(study.rig))[:, None]
    unknown = unknown & reaches & (field > 0)
    square = np.where(unknown, np.nan, square_on(lamps, points, seen))
    upright = np.where(unknown, np.nan, upright * reaches)
    ways = np.degrees(np.arctan2(faces[0], faces[1])) % 360.0
    return [
        _area(study, target.name, points[:, t], square[:, t], upright[:, t], float(ways[t]))
        for t, target in enumerate(targets)
    ]


def channels_of(study: Study, areas: list[Area]) -> list[Lights]:
    """What every channel lights, in the order of the channels' numbers; units without one are left out."""
    units: dict[str, list[int]] = {}
    for k, unit in enumerate(study.rig.units):
        if unit.channel:
            units.setdefault(unit.channel, []).append(k)
    return [
        Lights(channel, units[channel], _targets(areas, units[channel]))
        for channel in sorted(units, key=channel_key)
    ]


def _targets(areas: list[Area], units: list[int]) -> list[str]:
    """Targets that some units light, brightest first, those of unknown light last."""
    lux = {
        area.target: [comes.lux for comes in area.light if comes.unit in units] for area in areas
    }
    lit = {target: float(np.nansum(mine)) for target, mine in lux.items() if mine}
    return sorted(lit, key=lambda target: -lit[target])


def _area(
    study: Study, target: str, point: Array, light: Array, upright: Array, faces: float
) -> Area:
    """One target from the light (N,) of every unit there, NaN where not known."""
    aimed = np.array([unit.target == target for unit in study.rig.units], dtype=np.bool_)
    total = float(np.nansum(light))
    share = light / total if total else np.where(np.isnan(light), np.nan, 0.0)
    told = np.flatnonzero(np.isnan(light) | (share >= USEFUL) | (aimed & (light > 0)))
    told = told[np.argsort(-light[told], kind="stable")]
    to_lens = study.sources.lamps.lens[:, told] - point[:, None]
    bearing = np.degrees(np.arctan2(to_lens[0], to_lens[1])) % 360.0
    down = np.degrees(np.arctan2(to_lens[2], np.hypot(to_lens[0], to_lens[1])))
    values = (told, bearing, down, light[told], share[told], aimed[told], upright[told])
    columns = (column.tolist() for column in values)
    rest = float(np.delete(share, told).sum())
    return Area(target, [Comes(*row) for row in zip(*columns, strict=True)], rest, faces)


def channel_key(channel: str) -> tuple[int, float, str]:
    """Sorts channels as numbers are sorted, words last."""
    try:
        return (0, float(channel), channel)
    except ValueError:
        return (1, 0.0, channel)
