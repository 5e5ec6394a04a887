"""What each lens can see: the points of a plane that no scenery hides from it.

The solids do not move while light is asked for, so one ray from the middle of each lens to each point
settles it for good: a unit that sees every point is summed up with the others as if there were no solids.
The scene's own solids count. Pipes, booms and other units do not: what is narrower than a lens, or stands
close to it, dims a pool and throws no shadow, which one ray cannot tell; `blocked` has those.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from aimcalc.geometry.vectors import Array
from aimcalc.light.illuminance import Visible
from aimcalc.light.lamps import Flags, Indices, Lamps

if TYPE_CHECKING:
    from aimcalc.geometry.occlusion import Caster
    from aimcalc.rig.solve import Rig

RAYS_AT_ONCE = 200_000
SHORT = (
    2e-4  # share of the way left out at a ray's end, which lies on no solid but may come near one
)


class Sight(NamedTuple):
    """The solids of a scene made ready for rays; None where it has none."""

    ready: Caster | None


def sight_of(rig: Rig) -> Sight:
    """The scenery of a rig; raises NoRayEngineError, and SceneError where a mesh cannot be used."""
    if not rig.scene.solids:
        return Sight(None)
    from aimcalc.geometry.occlusion import caster
    from aimcalc.geometry.solids import Soup
    from aimcalc.rig.solid.things import SOLID

    whole = rig.solids.soup
    mine = np.isin(whole.owner, rig.solids.of(SOLID))
    return Sight(caster(Soup(whole.vertices, whole.faces[:, mine], whole.owner[mine])))


class Seen(NamedTuple):
    """Which points N lenses see: flags (N, M), or None where nothing hides any."""

    flags: Flags | None

    def of(self, units: Indices) -> Seen:
        """The same of some of the units."""
        return self if self.flags is None else Seen(self.flags[units])

    def mark(self, lamps: Lamps) -> Lamps:
        """The units, those that something hides a point from marked as part blocked."""
        if self.flags is None:
            return lamps
        return lamps._replace(part_blocked=np.asarray(~self.flags.all(axis=1)))

    @property
    def visible(self) -> Visible | None:
        """The question that `illuminance` asks."""
        flags = self.flags
        return None if flags is None else lambda unit, which: flags[unit, which]


def sees(sight: Sight, lens: Array, points: Array) -> Flags:
    """Whether each of K lenses (3, K) sees its own one of K points (3, K)."""
    if sight.ready is None:
        return np.ones(lens.shape[1], np.bool_)
    return _clear(sight.ready, lens, points - lens, 0.0)


def seen_from(sight: Sight, lens: Array, points: Array, *, short: float = 0.0) -> Seen:
    """Which of M points (3, M) each of N lenses (3, N) sees.

    The last `short` metres of the way do not count: a point on a painted drop is seen.
    """
    if sight.ready is None:
        return Seen(None)
    count, size = lens.shape[1], points.shape[1]
    flags = np.empty((count, size), np.bool_)
    step = max(1, RAYS_AT_ONCE // max(1, size))
    for first in range(0, count, step):
        rows = slice(first, first + step)
        start = np.repeat(lens[:, rows], size, axis=1)
        way = (points[:, None, :] - lens[:, rows, None]).reshape(3, -1)
        flags[rows] = _clear(sight.ready, start, way, short).reshape(-1, size)
    return Seen(flags)


def _clear(ready: Caster, start: Array, way: Array, short: float) -> Flags:
    """Whether the ways (3, R) from `start` (3, R) meet nothing, their last `short` metres left out."""
    from aimcalc.geometry.occlusion import occluded

    reach = np.sqrt((way * way).sum(axis=0))
    limit = reach * (1 - SHORT) - short
    return np.asarray(~occluded(ready, start, way / np.maximum(reach, 1e-300), limit))
