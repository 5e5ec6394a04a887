"""What lights one place, or what one channel lights: what goes dark without a unit, and who could fill in.

A place is lit from where its units hang. A unit could fill in for another where its light comes from nearly
the same way, `LIKE` at most between the two; units in the same colour come before others, then the nearer
in direction. It does so either as it is, or turned there: by what `new_aims` lets be turned and set.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

from aimcalc.coverage.areas import (
    ON_TARGET,
    USEFUL,
    Area,
    Comes,
    areas_at,
    areas_of,
    balances,
    card_lux,
    target_points,
    uprights,
)
from aimcalc.coverage.new_aims import free_to_re_aim, lit, settable
from aimcalc.coverage.sources import seen_from, units_without_candela
from aimcalc.coverage.study import Study, facing
from aimcalc.coverage.systems import ALL, face_z
from aimcalc.geometry.vectors import Array, angles_between, to_degrees
from aimcalc.geometry.vectors import points as as_points
from aimcalc.named import NamedTuple

if TYPE_CHECKING:
    from aimcalc.scene.model import Point

LIKE = (
    30.0  # degrees between two ways that light a face alike (our choice, that of a re-aim's turn)
)
FAINT = 0.5  # lx: a place with less light than this is told of as dark (our choice)
HALF_AS_MUCH = 0.5  # of what the unit gives there: less does not fill in for it (our choice)
LAWS = {"linear": 1.0, "square": 2.0}  # light goes as the level to this power
HOUSE = (0.0, -1.0, 0.0)
AT_ONCE = 16_000  # re-aims worked out together: more take much memory, and no less time each


class Fill(NamedTuple):
    """A unit that could fill in: how far off its way is, degrees, whether its colour is the same, and the lux
    it gives on a card square to it, `turned` there or as it is."""

    unit: int
    off: float
    same_colour: bool
    lux: float
    turned: bool


class Gone(NamedTuple):
    """Of one system: m2 of the acting area that fall below its threshold."""

    system: str
    area: float


class Contributor(NamedTuple):
    """One unit at a place: its light, the share of full that evens its system (None: in no balance), what
    goes dark without it, system by system, and who could fill in, best first."""

    comes: Comes
    even: float | None
    gone: list[Gone]
    fills: list[Fill]


class Place(NamedTuple):
    """What lights a place, brightest first; `lux` is all the light there, square on, `rest` the share of
    units too faint to be told of; `reach` those who could be turned there where nothing lights it."""

    name: str
    point: Point
    faces: float
    lux: float
    light: list[Contributor]
    rest: float
    reach: list[Fill]


class ChannelUnit(NamedTuple):
    """One unit of a channel: the share of full that evens its system, and who could fill in where it aims."""

    unit: int
    even: float | None
    fills: list[Fill]


class LitArea(NamedTuple):
    """A target that a channel lights: its lux there, square on, and its share of all the light."""

    target: str
    lux: float
    share: float


class Channel(NamedTuple):
    """What a channel lights, most first, and what goes dark without all of its units."""

    channel: str
    units: list[ChannelUnit]
    areas: list[LitArea]
    gone: list[Gone]


def fader(even: float, law: str) -> float:
    """The level at which a unit gives a share `even` of its light, by one of `LAWS`."""
    return float(even ** (1.0 / LAWS[law]))


def at_target(study: Study, name: str) -> Place:
    """What lights a target of the scene; raises KeyError where it has none of that name."""
    names = [target.name for target in study.rig.scene.targets]
    if name not in names:
        raise KeyError(name)
    t = names.index(name)
    points, ways = target_points(study.rig)[:, [t]], uprights(study.rig)[:, [t]]
    return _Asking(study).places(areas_at(study, [name], points, ways), points)[0]


def at_targets(study: Study) -> list[Place]:
    """What lights each target of the scene, in its order: `at_target` of each, shared work done once."""
    return _Asking(study).places(areas_of(study), target_points(study.rig))


def at_point(study: Study, x: float, y: float, z: float | None = None) -> Place:
    """What lights a point, m; where z is None, a standing face over x, y."""
    if z is None:
        z = float(face_z(study.rig, np.array([x]), np.array([y]))[0])
    point = as_points([(x, y, z)])
    way = facing(study.rig, point)
    ways = as_points([HOUSE]) if isinstance(way, str) else way
    return _Asking(study).places(areas_at(study, [""], point, ways), point)[0]


def of_channel(study: Study, channel: str) -> Channel:
    """What a channel lights; raises KeyError where no unit has it."""
    mine = [k for k, unit in enumerate(study.rig.units) if unit.channel == channel]
    if not mine:
        raise KeyError(channel)
    even = _even(study)
    areas = []
    for area in areas_of(study):
        light = [comes for comes in area.light if comes.unit in mine]
        if light:
            lux, share = (sum(getattr(comes, key) for comes in light) for key in ("lux", "share"))
            areas.append(LitArea(area.target, lux, share))
    units = []
    for k in mine:
        (offers,) = _offers(study, study.rig.arrays.point[:, [k]])
        units.append(ChannelUnit(k, even.get(k), _fills(study, k, offers, mine)))
    areas.sort(key=lambda each: -np.nan_to_num(each.lux))
    return Channel(channel, units, areas, gone_without(study, mine))


def gone_without(study: Study, units: Sequence[int]) -> list[Gone]:
    """What falls below each system's threshold, as it is, without some units; most first."""
    rows = np.array(units, dtype=np.intp)
    light = lit(study.sources.lamps.take(rows), study.plane.points, study.seen.of(rows))
    found = []
    for name, system in study.systems.items():
        theirs = np.isin(rows, system.units)
        left = system.level - light[theirs].sum(axis=0)
        dark = (system.level >= system.below) & (left < system.below)
        if theirs.any() and dark.any():
            found.append(Gone(name, float(np.count_nonzero(dark) * study.plane.grid.cell_area)))
    return sorted(found, key=lambda each: (each.system == ALL, -each.area))


class _Asking:
    """What the answers about many places share: what evens each system, what goes dark without each unit."""

    def __init__(self, study: Study) -> None:
        self._study = study
        self._even = _even(study)
        self._gone: dict[int, list[Gone]] = {}

    def places(self, areas: Sequence[Area], points: Array) -> list[Place]:
        """What lights each place (3, T), of what its units give there."""
        return [
            self._place(*each) for each in zip(areas, _offers(self._study, points), strict=True)
        ]

    def _place(self, area: Area, offers: _Offers) -> Place:
        x, y, z = offers.point.tolist()
        known = float(np.nansum([comes.lux for comes in area.light]))
        whole = known / (1.0 - area.rest) if area.rest < 1.0 else known
        told = area.light if whole >= FAINT or np.isnan([c.lux for c in area.light]).any() else []
        light = [self._contributor(comes, offers) for comes in told]
        could = [] if light else np.flatnonzero(offers.turned > 0).tolist()
        reach = [Fill(k, 0.0, False, float(offers.turned[k]), True) for k in could]
        reach.sort(key=lambda fill: -fill.lux)
        rest = area.rest if light else 0.0
        return Place(area.target, (x, y, z), area.faces, whole, light, rest, reach)

    def _contributor(self, comes: Comes, offers: _Offers) -> Contributor:
        k = comes.unit
        if k not in self._gone:
            self._gone[k] = gone_without(self._study, [k])
        return Contributor(
            comes, self._even.get(k), self._gone[k], _fills(self._study, k, offers, [k])
        )


def _even(study: Study) -> dict[int, float]:
    """The share of full at which each unit evens its system."""
    return {
        unit: level
        for each in balances(study)
        for unit, level in zip(each.unit.tolist(), each.level.tolist(), strict=True)
    }


class _Offers(NamedTuple):
    """What each of N units gives at a point, m, on a card square to it, lux: as it is, and turned there (0
    where it cannot be, or is not free to be)."""

    point: Array
    now: Array
    turned: Array


def _offers(study: Study, points: Array) -> list[_Offers]:
    """What every unit offers at each point (3, T), m."""
    lamps, many = study.sources.lamps, points.shape[1]
    known = np.ones(lamps.size, np.bool_)
    known[units_without_candela(study.rig)] = False
    free = np.flatnonzero(known & free_to_re_aim(study.rig))
    most = max(AT_ONCE // max(free.size, 1), 1)
    if many > most:
        lots = [points[:, t : t + most] for t in range(0, many, most)]
        return [offers for lot in lots for offers in _offers(study, lot)]
    x, y = (np.repeat(points[axis], free.size) for axis in range(2))
    set_of, every = settable(study, np.tile(free, many), x, y)
    set_of //= max(free.size, 1)
    found = []
    for t in range(many):
        spot, new = points[:, [t]], every.take(np.flatnonzero(set_of == t))
        seen = seen_from(study.sight, lamps.lens, spot, short=ON_TARGET)
        now = np.where(known, card_lux(lamps, spot, seen)[:, 0], 0.0)
        seen = seen_from(study.sight, new.lamps.lens, spot, short=ON_TARGET)
        turned = np.zeros(lamps.size)
        turned[new.unit] = card_lux(new.lamps, spot, seen)[:, 0]
        found.append(_Offers(points[:, t], now, turned))
    return found


def _fills(study: Study, unit: int, offers: _Offers, without: Sequence[int]) -> list[Fill]:
    """Who could fill in for a unit at a point, with none of `without`, best first."""
    ways = study.sources.lamps.lens - offers.point[:, None]
    off = to_degrees(angles_between(ways, ways[:, [unit]]))
    there = offers.now >= max(USEFUL * float(offers.now.sum()), FAINT)
    lux = np.where(there, offers.now, offers.turned)
    enough = (off <= LIKE) & (lux > 0) & (lux >= HALF_AS_MUCH * offers.now[unit])
    enough[list(without)] = False
    colours = [(own.colour or "").casefold() for own in study.rig.units]
    found = [
        Fill(k, float(off[k]), colours[k] == colours[unit], float(lux[k]), not there[k])
        for k in np.flatnonzero(enough).tolist()
    ]
    return sorted(found, key=lambda fill: (not fill.same_colour, fill.off, fill.unit))
