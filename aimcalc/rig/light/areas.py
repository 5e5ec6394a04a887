"""Which channels light each target, from where, how steeply and how much; and what each channel lights."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from aimcalc.geometry.vectors import Array
from aimcalc.light.balance import targets_lit
from aimcalc.light.lamps import Indices
from aimcalc.rig.light.balances import ON_TARGET
from aimcalc.rig.light.faces import target_points
from aimcalc.rig.light.sight import seen_from
from aimcalc.rig.light.square_on import square_on
from aimcalc.rig.light.study import Study

SHARE = (
    0.1  # of the brightest unit's light at a target: a unit with less does not count as lighting it
)


class Comes(NamedTuple):
    """One unit's light at one target. Angles in degrees.

    `bearing` is the plan direction from the target to the unit (0 = US, 90 = SL), `down` how steeply its
    light comes, `lux` that of a card held square to it, `share` its part of all light told of there.
    """

    unit: int
    bearing: float
    down: float
    lux: float
    share: float
    aimed: bool  # the unit is aimed at this very target


class Area(NamedTuple):
    """One target and the units that light it, the brightest first."""

    target: str
    light: list[Comes]


class Lights(NamedTuple):
    """What one channel lights: its units and the targets, those with most of its light first."""

    channel: str
    units: list[int]
    targets: list[str]


def areas_of(study: Study) -> list[Area]:
    """Every target of the scene with the units that light it: its own, and what is as bright as a tenth of
    its brightest."""
    targets = study.rig.scene.targets
    if not targets or not study.rig.units:
        return [Area(target.name, []) for target in targets]
    points = target_points(study.rig)
    lamps = study.sources.lamps
    light = square_on(lamps, points, seen_from(study.sight, lamps.lens, points, short=ON_TARGET)).T
    lit = targets_lit(light, SHARE)
    return [
        Area(target.name, _comes(study, target.name, points[:, t], light[t], lit[t]))
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
    """Targets that some units light, brightest first."""
    lux = {
        area.target: sum(comes.lux for comes in area.light if comes.unit in units) for area in areas
    }
    lit = [target for target, value in lux.items() if value > 0]
    return sorted(lit, key=lambda target: -lux[target])


def _comes(study: Study, target: str, point: Array, light: Array, lit: Indices) -> list[Comes]:
    aimed = np.array([unit.target == target for unit in study.rig.units], dtype=np.bool_)
    units = np.union1d(lit, np.flatnonzero(aimed & (light > 0)))
    units = units[np.argsort(-light[units], kind="stable")]
    to_lens = study.sources.lamps.lens[:, units] - point[:, None]
    bearing = np.degrees(np.arctan2(to_lens[0], to_lens[1])) % 360.0
    down = np.degrees(np.arctan2(to_lens[2], np.hypot(to_lens[0], to_lens[1])))
    share = light[units] / light[units].sum()
    columns = (column.tolist() for column in (units, bearing, down, light[units], share))
    return [Comes(k, b, d, lx, s, bool(aimed[k])) for k, b, d, lx, s in zip(*columns, strict=True)]


def channel_key(channel: str) -> tuple[int, float, str]:
    """Sorts channels as numbers are sorted, words last."""
    try:
        return (0, float(channel), channel)
    except ValueError:
        return (1, 0.0, channel)
