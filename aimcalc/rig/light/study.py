"""All that is known of a rig's light before anybody asks who could fill a hole."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from aimcalc.rig.light.plane import Plane, figures_plane, holes_plane
from aimcalc.rig.light.sight import Seen, Sight, seen_from, sight_of
from aimcalc.rig.light.sources import Sources, sources_of
from aimcalc.rig.light.systems import ALL, HALF, SystemLight, light_of, system_light, systems_of

if TYPE_CHECKING:
    from aimcalc.rig.solve import Rig


class Study(NamedTuple):
    """A rig's light: its sources, what they see of the fine plane, and each system's light and holes.

    `systems` are in the order of the rig, "all" last. `fine` is the plane of their holes, `coarse` that
    of their figures.
    """

    rig: Rig
    sources: Sources
    sight: Sight
    coarse: Plane
    fine: Plane
    seen: Seen  # from all units, of the fine plane
    systems: dict[str, SystemLight]

    def stakes(self, unit: int) -> list[SystemLight]:
        """The systems that a unit gives light to: its own, if it has one, and all."""
        system = self.rig.units[unit].system
        own = [self.systems[system]] if system and system != ALL else []
        return [*own, self.systems[ALL]]


def study_of(rig: Rig, *, spacing: float | None = None, below: float | None = None) -> Study:
    """The light of every system of a rig over its acting area, and the holes in it.

    `spacing` in metres is that of the figures (EN 12464-1's where None). `below` is the share of a system's
    mean under which a point is dark; where None the scene's `gap_below` or a half. Raises NoAreaError
    for a scene without an area, NoRayEngineError where its solids cannot be asked.
    """
    sources, sight = sources_of(rig), sight_of(rig)
    coarse = figures_plane(rig, spacing)
    fine = holes_plane(rig, coarse)
    seen = seen_from(sight, sources.lamps.lens, fine.points)
    systems = systems_of(rig)
    light = light_of(sources.lamps, seen, fine.points, systems, ("level", "count"))
    level = light
    if coarse is not fine:
        seen_coarse = seen_from(sight, sources.lamps.lens, coarse.points)
        level = light_of(sources.lamps, seen_coarse, coarse.points, systems, ("level",))
    share = below or rig.scene.settings.gap_below or HALF
    found = {
        name: system_light(
            name,
            units,
            fine=fine,
            light=light[name],
            coarse=coarse,
            level=level[name][0],
            share=share,
        )
        for name, units in systems.items()
    }
    return Study(rig, sources, sight, coarse, fine, seen, found)
