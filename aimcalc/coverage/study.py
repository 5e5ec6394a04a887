"""All that is known of a rig's light before anybody asks who could fill a hole."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Any

import numpy as np

from aimcalc.coverage.room import Room
from aimcalc.coverage.sources import (
    Seen,
    Sight,
    Sources,
    seen_from,
    sight_of,
    sources_of,
    units_without_candela,
)
from aimcalc.coverage.systems import (
    ALL,
    HALF,
    Below,
    GridError,
    Plane,
    SystemLight,
    light_of,
    plane_of,
    system_light,
    systems_of,
)
from aimcalc.geometry.vectors import Array, same_columns
from aimcalc.geometry.vectors import points as as_points
from aimcalc.geometry.vectors import same as same_bits
from aimcalc.light.illuminance import Sums, contributions, illuminance
from aimcalc.light.lamps import SMOOTH, Flags, Indices, Lamps
from aimcalc.named import NamedTuple
from aimcalc.rig.places import front_of

if TYPE_CHECKING:
    from numpy.typing import ArrayLike

    from aimcalc.solid.rig import SolidRig


MOST_SYSTEMS = 200  # each has a level at every point, and holes to fill
AT_ONCE = 2_000_000  # units times points
LIGHT = ("level", "count")  # of each system, at every point
FEW = 0.4  # of a system's units: where more have changed, all are worked out again


class Lux(NamedTuple):
    """Light at M points, lux, each (M,), as in `cover --points`; NaN where it is not known.

    On a level plane, on an upright one that faces the house (or as the nearest target says, `faces`), on the
    cylinder (the mean of all upright ones).
    """

    level: Array
    house: Array
    cylindrical: Array


MEASURES = Lux._fields


def facing(rig: SolidRig, points: Array) -> Array | str:
    """The way that upright planes at points (3, M) face, (3, M): as the target nearest on plan does.

    "house" where no target says another way.
    """
    targets = rig.scene.targets
    if all(target.faces is None for target in targets):
        return "house"
    x, y = (np.array([getattr(target, axis) for target in targets]) for axis in "xy")
    nearest = np.hypot(points[0, :, None] - x, points[1, :, None] - y).argmin(axis=1)
    return as_points([front_of(target) for target in targets])[:, nearest]


class Study(NamedTuple):
    """A rig's light: its sources, what they see of the fine plane, and each system's light and holes.

    `systems` are in the order of the rig, "all" last; their figures and holes are of the one `plane`.
    """

    rig: SolidRig
    sources: Sources
    sight: Sight
    plane: Plane
    seen: Seen  # from all units, of the plane
    room: Room
    systems: dict[str, SystemLight]
    sums: Sums | None = None  # kept for the study after a change

    def stakes(self, unit: int) -> list[SystemLight]:
        """The systems that a unit gives light to: its own, if it has one, and all."""
        system = self.rig.units[unit].system
        own = [self.systems[system]] if system and system != ALL else []
        return [*own, self.systems[ALL]]

    def at(self, points: ArrayLike, system: str = ALL) -> Lux:
        """The light of a system, or of all units, at full, at points (3, M), m.

        Raises ValueError for points of another shape and for a system that is none.
        """
        places = np.asarray(points, np.float64)
        if places.ndim != 2 or len(places) != 3:
            raise ValueError(
                f"expected points as an array of shape (3, N): rows x, y, z; got {places.shape}"
            )
        if system not in self.systems:
            names = ", ".join(self.systems)
            raise ValueError(f'no system is called "{system}". There are: {names}.')
        light = np.zeros((len(MEASURES), places.shape[1]))
        for lot, each in self.of_each(places):
            light[:, lot] = each[:, self.systems[system].units].sum(axis=1)
        return Lux(*light)

    def of_each(self, points: Array) -> Iterator[tuple[slice, Array]]:
        """The light of each unit at points (3, M), a lot at a time: its slice, and (3 measures, N, lot).

        NaN in the fields of units without candela.
        """
        lamps = self.sources.lamps
        unknown = np.isin(np.arange(lamps.size), units_without_candela(self.rig))[:, None]
        step = max(1, AT_ONCE // max(1, lamps.size))
        for first in range(0, points.shape[1], step):
            lot = slice(first, first + step)
            level, _, cylinder = MEASURES
            wanted = (level, facing(self.rig, points[:, lot]), cylinder, "count")
            *light, field = contributions(lamps, points[:, lot], wanted)
            seen = seen_from(self.sight, lamps.lens, points[:, lot]).flags
            reaches = np.ones_like(field, np.bool_) if seen is None else seen
            lit = np.where(unknown & reaches & (field > 0), np.nan, np.asarray(light) * reaches)
            for system in self.systems.values():  # one of which nothing is known is known nowhere
                if system.units.size and unknown[system.units].all():
                    lit[:, system.units] = np.nan
            yield lot, lit


def study_of(
    rig: SolidRig,
    *,
    spacing: float | None = None,
    below: Below | None = None,
    known: Sequence[Study] = (),
    before: Study | None = None,
    keep: bool = False,
) -> Study:
    """The light of every system of a rig over its acting area, and the holes in it.

    What `known` studies of like rigs hold of systems that are the same there is not worked out again;
    nor what a study `before` some changes holds of single units, if it was to `keep` that.

    `spacing` in metres is that of the grid (`plane_of`'s own where None), `below` the threshold under which
    a point is dark (where None the scene's `gap_below` or half the mean). Raises NoAreaError for a scene
    without an area, GridError for one with more systems than can be worked out, NoRayEngineError where its
    solids cannot be asked.
    """
    systems = systems_of(rig)
    if len(systems) > MOST_SYSTEMS:
        raise GridError(
            f"The light of at most {MOST_SYSTEMS} systems can be worked out, and the scene has "
            f"{len(systems) - 1}. A system is one job that several units do together: say the same word for "
            "all that do it, or leave it out."
        )
    sources, plane, sight = sources_of(rig), rig.kept.ask(plane_of, spacing), sight_of(rig)
    seen = _seen(sight, sources.lamps.lens, plane.points, before)
    sums = Sums(plane.points, LIGHT, before.sums if before else None) if keep else None
    same = _known_light(known, systems, sources.lamps, seen, plane)
    light = light_of(sources.lamps, seen, plane.points, systems, LIGHT, same, sums)
    dark = below or Below(share=rig.scene.settings.gap_below or HALF)
    found = {}
    for name, units in systems.items():
        level, counts = light[name]
        level = np.where(_unknown(rig, sources, seen, plane, units), np.nan, level)
        given = name, units, plane, level, counts, dark
        found[name] = rig.kept.ask(_system_light, *given, key=name)
    return Study(rig, sources, sight, plane, seen, Room(rig), found, sums)


def _system_light(_: SolidRig, *given: Any) -> SystemLight:
    return system_light(*given)


def _seen(sight: Sight, lens: Array, points: Array, before: Study | None) -> Seen:
    """What all lenses see of the points; those that are where they were see what they saw."""
    old = None if before is None else before.seen.flags
    if (
        before is None
        or old is None
        or before.sight is not sight
        or before.sources.lamps.size != lens.shape[1]
        or not same_bits(before.plane.points, points)
    ):
        return seen_from(sight, lens, points)
    moved = np.flatnonzero(~same_columns(before.sources.lamps.lens, lens))
    flags = old.copy()
    flags[moved] = seen_from(sight, lens[:, moved], points).flags
    return Seen(flags)


def _known_light(
    known: Sequence[Study], systems: dict[str, Indices], lamps: Lamps, seen: Seen, plane: Plane
) -> dict[str, Array]:
    """Light (2, M) of the systems that most of is known of: what changed since is taken off and put on."""
    found = {}
    for name, units in systems.items():
        here = lamps.take(units), seen.of(units)
        lots = [(study, _changed(study, name, units, here, plane)) for study in known]
        few = [(study, changed) for study, changed in lots if changed is not None]
        if not few:
            continue
        study, changed = min(few, key=lambda each: each[1].size)
        system = study.systems[name]
        light = np.stack((system.level, system.counts))
        if changed.size:
            mine = units[changed]
            for sign, each, sees_them in ((-1, study.sources.lamps, study.seen), (1, lamps, seen)):
                some = sees_them.of(mine)
                marked = some.mark(each.take(mine))
                light += sign * illuminance(marked, plane.points, LIGHT, visible=some.visible)
            light = np.maximum(light, 0.0)
        found[name] = light
    return found


def _changed(
    study: Study, name: str, units: Indices, here: tuple[Lamps, Seen], plane: Plane
) -> Indices | None:
    """Places in `units` of those whose light is not as in a study; None where little is the same.

    The same is smooth light from the same lens, over the same points, past the same solids. Light that is
    not known, and that of photometric files, is always worked out again.
    """
    system = study.systems.get(name)
    if system is None or not np.array_equal(system.units, units) or np.isnan(system.level).any():
        return None
    if not units.size:
        return None
    lamps, seen = here
    before = study.sources.lamps.take(units)
    smooth = (lamps.table == SMOOTH).all() and (before.table == SMOOTH).all()
    if not smooth or not np.array_equal(plane.points, study.plane.points):
        return None
    other = np.zeros(units.size, np.bool_)
    for one, two in zip(lamps[:9], before[:9], strict=True):
        other |= ~same_columns(one, two)
    now, then = seen.flags, study.seen.of(units).flags
    if now is None or then is None:
        if now is not then:
            return None
    else:
        other |= (now != then).any(axis=1)
    return np.flatnonzero(other) if other.mean() < FEW else None


def _unknown(rig: SolidRig, sources: Sources, seen: Seen, plane: Plane, units: Indices) -> Flags:
    """Points of which some units' light is not known, (M,): in the fields of those without candela.

    All points where none of the units' candela is known.
    """
    mine = np.intersect1d(units, units_without_candela(rig))
    if not mine.size or mine.size == units.size:
        return np.full(plane.grid.size, mine.size > 0)
    some = seen.of(mine)
    lamps = some.mark(sources.lamps.take(mine))
    return np.asarray(illuminance(lamps, plane.points, ("count",), visible=some.visible)[0] > 0)
