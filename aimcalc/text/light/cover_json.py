"""The light of a rig by system as JSON: what `aimcalc cover --json` prints."""

from __future__ import annotations

from math import isfinite
from typing import TYPE_CHECKING

from aimcalc.coverage import records as r
from aimcalc.coverage.survey import CoverOptions, PointLight, Survey, survey
from aimcalc.findings.light import light_findings
from aimcalc.geometry.vectors import heading_degrees, to_degrees
from aimcalc.text.lists import json_bytes

if TYPE_CHECKING:
    from aimcalc.coverage.areas import Balanced
    from aimcalc.coverage.fewest import Fewest
    from aimcalc.coverage.helpers import Helper
    from aimcalc.coverage.systems import SystemLight
    from aimcalc.solid.rig import SolidRig


def cover_json(found: Survey) -> bytes:
    """The whole answer as one JSON object, indented; metres, lux, degrees. What does not exist is null."""
    return json_bytes(as_record(found))


def cover(rig: SolidRig, options: CoverOptions | None = None) -> r.Cover:
    """The light of a rig by system; see `survey` for what it raises."""
    return as_record(survey(rig, options))


def as_record(found: Survey) -> r.Cover:
    """A survey as the records that are printed as JSON."""
    rig = found.study.rig
    return r.Cover(
        scene=rig.scene.settings.title,
        unit_of_length="m",
        systems=[_system(found, system) for system in found.study.systems.values()],
        reaims=[_reaim(rig, name, each) for name, each in found.fewest.items()],
        balance=[_balance(rig, each) for each in found.balances],
        findings=light_findings(found),
        points=[_reading(each) for each in found.points] or None,
    )


def _system(found: Survey, system: SystemLight) -> r.System:
    rig, figures = found.study.rig, system.figures
    numbers = (v if isfinite(v) else None for v in figures)
    mean, least, most, u0, share = numbers
    helpers = found.helpers[system.name]
    helpers = helpers + [[]] * (len(system.gaps) - len(helpers))
    return r.System(
        system=system.name,
        plane_z=rig.scene.settings.face_height,
        spacing=system.spacing,
        mean=mean,
        least=least,
        most=most,
        u0=u0,
        share_above_half=share,
        gaps=[
            r.Hole(gap.centre, gap.area, gap.least, [_help(rig, each) for each in mine])
            for gap, mine in zip(system.gaps, helpers, strict=True)
        ],
    )


def _help(rig: SolidRig, helper: Helper) -> r.Help:
    way = _way(helper.heading, helper.down)
    return r.Help(rig.names[helper.unit], helper.face, *way, helper.gain, helper.uncovers)


def _way(heading: float, down: float) -> tuple[float, float]:
    """Heading and down in degrees, without a minus sign on nothing."""
    return float(heading_degrees(heading)), float(to_degrees(down)) + 0.0


def _reaim(rig: SolidRig, system: str, found: Fewest) -> r.Reaim:
    tries = found.new
    faces: list[list[float]] = tries.face.T.tolist()
    moves = [
        r.Move(rig.names[unit], (face[0], face[1], face[2]), *_way(heading, down))
        for unit, face, heading, down in zip(
            tries.unit.tolist(), faces, tries.aims.heading, tries.aims.down, strict=True
        )
    ]
    return r.Reaim(
        system, moves, found.closed, found.proved, found.at_least, found.left, found.out_of_reach
    )


def _balance(rig: SolidRig, found: Balanced) -> r.Balance:
    readings = zip(found.targets, found.at_full.tolist(), found.reading.tolist(), strict=True)
    levels = zip(found.unit.tolist(), found.level.tolist(), strict=True)
    return r.Balance(
        system=found.system,
        spread_at_full=found.spread_at_full,
        spread=found.spread,
        alike=found.alike,
        targets=[r.Reading(*row) for row in readings],
        units=[r.Level(rig.names[k], rig.units[k].channel, level) for k, level in levels],
    )


def _reading(found: PointLight) -> r.PointReading:
    light = (v if isfinite(v) else None for v in (found.level, found.house, found.cylindrical))
    return r.PointReading(*found.point, found.system, *light)
