"""The light of one system as a page shows it: lines of equal light, holes, and who could fill them."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from aimcalc.coverage.survey import CoverOptions, Survey, survey_of
from aimcalc.coverage.systems import (
    HALF,
    Below,
    GridError,
    NoAreaError,
    SystemLight,
    system_light,
)
from aimcalc.desk.told import length_unit
from aimcalc.geometry.rays import NoRayEngineError
from aimcalc.geometry.vectors import Array
from aimcalc.paper import marks
from aimcalc.sheets.plans.gapdraw import contour_levels
from aimcalc.text import words as w
from aimcalc.text.light import cover_lists as lw

if TYPE_CHECKING:
    from aimcalc.coverage.study import Study
    from aimcalc.desk.asked import Look
    from aimcalc.light.evenness import Gap
    from aimcalc.show import Show

HATCH = 0.25  # m from hatch line to hatch line
OFFERED = 3  # units that could fill a hole, told of each


def light_told(show: Show, look: Look) -> dict[str, Any]:
    """Lines of equal light and the holes; a sentence under "says" where the light is not known."""
    try:
        study, system = _seen(show, look)
    except (NoAreaError, GridError, NoRayEngineError) as error:
        return {"says": str(error), "lines": [], "holes": [], "system": look.system}
    return {
        "system": system.name,
        "plane": look.plane,
        "share": _share(show, look),
        "says": _figures(study, system, look),
        "lines": _lines(study, system),
        "holes": [_hole(study, gap, length_unit(show)) for gap in system.gaps],
    }


def helpers_told(show: Show, look: Look) -> list[dict[str, Any]]:
    """For each hole of that light who could fill it, and why nobody could; it takes long."""
    try:
        study, system = _seen(show, look)
    except (NoAreaError, GridError, NoRayEngineError):
        return []
    study = study._replace(systems={**study.systems, system.name: system})
    found = survey_of(study, CoverOptions(fewest=False))
    return [_offer(found, system, k, length_unit(show)) for k in range(len(system.gaps))]


def _share(show: Show, look: Look) -> float:
    return look.share or show.scene.settings.gap_below or HALF


def _seen(show: Show, look: Look) -> tuple[Study, SystemLight]:
    """The light of a system on the plane that is looked at, its holes under the share asked for."""
    study = show.light
    system = study.systems.get(look.system or "") or list(study.systems.values())[-1]
    if look.plane == "level" and look.share is None:
        return study, system
    level = system.level
    if look.plane == "house":
        level = study.at(study.plane.points, system.name).house
    below = Below(share=_share(show, look))
    return study, system_light(system.name, system.units, study.plane, level, system.counts, below)


def _figures(study: Study, system: SystemLight, look: Look) -> str:
    if not system.known:
        return lw.unknown_light(study.rig, system)
    mean, least, most = (lw.lux(v) for v in system.figures[:3])
    plane = "Level, at face height" if look.plane == "level" else "Towards the house"
    said = f"{plane}: mean {mean}, least {least}, most {most}. Hole: under {lw.lux(system.below)}."
    return f"{said} {lw.unknown_light(study.rig, system)}".rstrip()


def _lines(study: Study, system: SystemLight) -> list[dict[str, Any]]:
    """Lines of equal light outside the holes, plan points in metres, with what they are worth."""
    import contourpy

    grid = study.plane.grid
    if not system.known or min(grid.inside.shape) < 2:
        return []
    raster = np.ma.masked_invalid(grid.raster(system.level))
    found = contourpy.contour_generator(grid.x, grid.y, raster)
    return [
        {"worth": lw.lux(level), "points": _rounded(np.asarray(run, np.float64))}
        for level in contour_levels(system.below, system.figures.most)
        for run in found.lines(level)
    ]


def _hole(study: Study, gap: Gap, unit: w.LengthUnit) -> dict[str, Any]:
    grid = study.plane.grid
    sheet = marks.flags_of(grid, gap.cells)
    return {
        "edge": [_rounded(line) for line in marks.outline_lines(grid, sheet)],
        "hatch": [_rounded(line) for line in marks.cross_hatch(grid, sheet, HATCH)],
        "centre": [round(part, 3) for part in gap.centre],
        "says": f"{lw.area(gap.area, unit)} at {w.place(*gap.centre, unit)}, darkest {lw.lux(gap.least)}",
    }


def _offer(found: Survey, system: SystemLight, hole: int, unit: w.LengthUnit) -> dict[str, Any]:
    """Who could fill a hole, the best first, each with its new point; else why nobody could."""
    every = found.helpers[system.name]
    if hole >= len(every):
        return {"says": "nobody was looked for: other holes are larger", "units": []}
    if not every[hole]:
        return {"says": lw.why_no_help(found, system, hole), "units": []}
    rig = found.study.rig
    return {
        "says": "",
        "units": [
            {
                "unit": rig.names[each.unit],
                "point": [float(part) for part in each.face],
                "says": f"{lw.named(rig, each.unit)} to "
                f"{lw.new_aim(*each.face[:2], each.heading, each.down, unit)}: closes "
                f"{lw.area(each.gain, unit)}, uncovers "
                f"{lw.area(each.uncovers, unit) if each.uncovers else 'nothing'}",
            }
            for each in every[hole][:OFFERED]
        ],
    }


def _rounded(points: Array) -> list[list[float]]:
    """Plan points (n, 2), metres to the millimetre."""
    told: list[list[float]] = np.round(points, 3).tolist()
    return told
