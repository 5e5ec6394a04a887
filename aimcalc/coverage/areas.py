"""Which channels light each target, from where, how steeply and how much; and what each channel lights."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

from aimcalc.coverage.sources import Seen, seen_from, units_without_candela
from aimcalc.coverage.study import Study
from aimcalc.coverage.systems import ALL
from aimcalc.geometry.deck import height
from aimcalc.geometry.vectors import Array, heading_degrees, to_degrees
from aimcalc.geometry.vectors import points as as_points
from aimcalc.light.evenness import balanced, level_alone
from aimcalc.light.illuminance import contributions
from aimcalc.light.lamps import Indices, Lamps
from aimcalc.named import NamedTuple
from aimcalc.rig.places import front_of
from aimcalc.rig.wording import level, plan
from aimcalc.scene.model import Point, Target

if TYPE_CHECKING:
    from aimcalc.solid.rig import SolidRig


ON_TARGET = 0.05  # m: what stands so near to a target is the thing that is lit


def target_points(rig: SolidRig) -> Array:
    """What each of T targets of the scene stands for: a face, a spot of the deck or a thing, (3, T), m."""
    return as_points([_point(rig, target) for target in rig.scene.targets])


def uprights(rig: SolidRig) -> Array:
    """The way that an upright card at each target faces, unit level directions (3, T).

    To the audience, DS unless the target says; where it does not, and a unit's target lies on an upright
    surface (a drop, a flat), as that faces towards the unit.
    """
    targets = rig.scene.targets
    ways = as_points([front_of(target) for target in targets])
    row = {target.name: t for t, target in enumerate(targets)}
    off = np.abs(rig.meets.reach - rig.aims.throw)
    for k in np.flatnonzero(rig.meets.upright & (off <= ON_TARGET)).tolist():
        level, t = rig.meets.normal[:2, k], row.get(rig.units[k].target or "")
        if t is not None and targets[t].faces is None and level.any():
            ways[:2, t] = level / np.hypot(*level)
    return ways


def _point(rig: SolidRig, target: Target) -> Point:
    z = target.z
    if z is None:
        z = float(height(rig.deck, np.array([target.x]), np.array([target.y]))[0])
    if target.plane == "face":
        own = target.face_height
        z += rig.scene.settings.face_height if own is None else own
    return (target.x, target.y, z)


def aimed_at(rig: SolidRig, unit: int) -> str:
    """A name for what a unit is aimed at; two units aimed at one bare point share it."""
    target = rig.units[unit].target
    if target:
        return target
    x, y, z = rig.arrays.point[:, unit].tolist()
    own = rig.scene.settings.unit
    return f"the point {plan(x, y, own)}, {level(z, own)}"


DOWN = np.array([0.0, 0.0, -1.0])


def card_lux(lamps: Lamps, points: Array, seen: Seen) -> Array:
    """Lux of each of N units at M points on a card that faces it, (N, M).

    From the level plane's I cos t / d^2, from above or below, and the cylinder's I sin t / (pi d^2).
    """
    above, below, around = contributions(lamps, points, ("level", DOWN, "cylindrical"))
    lux = np.hypot(above + below, np.pi * around)
    return np.asarray(lux if seen.flags is None else lux * seen.flags)


USEFUL = (
    0.02  # of all the light at a target: units that give less are told of together (our choice)
)


class Comes(NamedTuple):
    """One unit's light at one target. Angles in degrees.

    `bearing` is the plan direction from the target to the unit (0 = US, 90 = SL), `down` how steeply its
    light comes, `lux` that of a card held square to it, `share` its part of all the light there, so
    measured, `upright` lux on an upright card that faces as the area says, `level` on a level one. These four
    are NaN for a unit whose light nobody has given.
    """

    unit: int
    bearing: float
    down: float
    lux: float
    share: float
    aimed: bool  # the unit is aimed at this very target
    upright: float
    level: float


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
    names = [target.name for target in study.rig.scene.targets]
    return areas_at(study, names, target_points(study.rig), uprights(study.rig))


def areas_at(study: Study, names: Sequence[str], points: Array, faces: Array) -> list[Area]:
    """The same of any points (3, T), m, with a name each, whose upright cards face `faces` (3, T)."""
    lamps = study.sources.lamps
    seen = seen_from(study.sight, lamps.lens, points, short=ON_TARGET)
    upright, flat, field = contributions(lamps, points, (faces, "level", "count"))
    reaches = np.ones_like(field, np.bool_) if seen.flags is None else seen.flags
    unknown = np.isin(np.arange(lamps.size), units_without_candela(study.rig))[:, None]
    unknown = unknown & reaches & (field > 0)
    lux = np.stack((card_lux(lamps, points, seen), upright * reaches, flat * reaches))
    lux = np.where(unknown, np.nan, lux)
    ways = heading_degrees(np.arctan2(faces[0], faces[1]))
    return [
        _area(study, name, points[:, t], lux[:, :, t], float(ways[t]))
        for t, name in enumerate(names)
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


def _area(study: Study, target: str, point: Array, lux: Array, faces: float) -> Area:
    """One target from the light (3, N) of every unit there: square on, upright, level; NaN: not known."""
    light, upright, flat = lux
    aimed = np.array([unit.target == target for unit in study.rig.units], dtype=np.bool_)
    total = float(np.nansum(light))
    share = light / total if total else np.where(np.isnan(light), np.nan, 0.0)
    told = np.flatnonzero(np.isnan(light) | (share >= USEFUL) | (aimed & (light > 0)))
    told = told[np.argsort(-light[told], kind="stable")]
    to_lens = study.sources.lamps.lens[:, told] - point[:, None]
    bearing = heading_degrees(np.arctan2(to_lens[0], to_lens[1]))
    down = to_degrees(np.arctan2(to_lens[2], np.hypot(to_lens[0], to_lens[1])))
    sizes = (light[told], share[told], aimed[told], upright[told], flat[told])
    values = (told, bearing, down, *sizes)
    columns = (column.tolist() for column in values)
    rest = float(np.delete(share, told).sum())
    return Area(target, [Comes(*row) for row in zip(*columns, strict=True)], rest, faces)


def channel_key(channel: str) -> tuple[int, float, str]:
    """Sorts channels as numbers are sorted, words last."""
    try:
        return (0, float(channel), channel)
    except ValueError:
        return (1, 0.0, channel)


ALIKE = 1.01  # most over least that counts as alike


class Balanced(NamedTuple):
    """One system: its T targets with what they read at full and once balanced (lux square on), (T,).

    `unit` (U,) are its units, `level` (U,) their levels, 1 = full, light being in proportion to level;
    units that give their own target nothing are not among them, and those whose light nobody has given
    are `unknown`: their targets are left out. Light that one target's units spill on another counts, and
    units of one target then share a level; where spill alone over-lights a target (`alike` false), each
    unit is levelled by what it gives its own target.
    """

    system: str
    targets: list[str]
    at_full: Array
    reading: Array
    unit: Indices
    level: Array
    alike: bool
    unknown: Indices

    @property
    def spread_at_full(self) -> float:
        """Most over least of the readings with every unit at full."""
        return float(self.at_full.max() / self.at_full.min())

    @property
    def spread(self) -> float:
        """Most over least of the readings once balanced."""
        return float(self.reading.max() / self.reading.min())


def balances(study: Study) -> list[Balanced]:
    """The balance of every named system that lights at least one target."""
    named = [system for name, system in study.systems.items() if name != ALL]
    found = (_balance(study, system.name, system.units) for system in named)
    return [balance for balance in found if balance is not None]


def _balance(study: Study, system: str, units: Indices) -> Balanced | None:
    names = [aimed_at(study.rig, k) for k in units.tolist()]
    first = dict(zip(reversed(names), reversed(units.tolist()), strict=True))
    targets = list(dict.fromkeys(names))
    points = study.rig.arrays.point[:, [first[name] for name in targets]]
    lamps = study.sources.lamps.take(units)
    light = card_lux(lamps, points, seen_from(study.sight, lamps.lens, points, short=ON_TARGET)).T
    own = np.array([targets.index(name) for name in names])
    unknown = np.isin(units, units_without_candela(study.rig))
    lit = (light[own, np.arange(units.size)] > 0) & ~np.isin(own, own[unknown])
    if not lit.any():
        return None
    kept = np.unique(own[lit])
    some, aim = light[kept][:, lit], np.searchsorted(kept, own[lit])
    found = balanced(some, aim)
    alike = found.spread <= ALIKE
    level = found.level if alike else level_alone(some[aim, np.arange(aim.size)])
    return Balanced(
        system=system,
        targets=[targets[k] for k in kept.tolist()],
        at_full=found.at_full,
        reading=some @ level,
        unit=units[lit],
        level=level,
        alike=alike,
        unknown=units[unknown],
    )
