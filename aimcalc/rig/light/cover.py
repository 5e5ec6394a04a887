"""The light of a rig as records: systems with figures and holes, re-aims, balance, points."""

from __future__ import annotations

from math import isfinite
from typing import TYPE_CHECKING

import numpy as np

from aimcalc.rig.light import records as r
from aimcalc.rig.light.at_points import PointLight
from aimcalc.rig.light.balances import Balanced
from aimcalc.rig.light.fewest import Fewest
from aimcalc.rig.light.findings import light_findings
from aimcalc.rig.light.helpers import Helper
from aimcalc.rig.light.survey import CoverOptions, Survey, survey

if TYPE_CHECKING:
    from aimcalc.rig.light.systems import SystemLight
    from aimcalc.rig.solve import Rig


def cover(rig: Rig, options: CoverOptions | None = None) -> r.Cover:
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


def _help(rig: Rig, helper: Helper) -> r.Help:
    heading, down = _degrees(helper.heading, helper.down)
    return r.Help(rig.names[helper.unit], helper.face, heading, down, helper.gain, helper.uncovers)


def _degrees(heading: float, down: float) -> tuple[float, float]:
    turn = float(np.degrees(heading)) % 360.0
    return (0.0 if turn == 360.0 else turn), float(np.degrees(down)) + 0.0


def _reaim(rig: Rig, system: str, found: Fewest) -> r.Reaim:
    tries = found.tries
    faces: list[list[float]] = tries.face.T.tolist()
    moves = [
        r.Move(rig.names[unit], (face[0], face[1], face[2]), *_degrees(heading, down))
        for unit, face, heading, down in zip(
            tries.unit.tolist(), faces, tries.aims.heading, tries.aims.down, strict=True
        )
    ]
    return r.Reaim(
        system, moves, found.closed, found.proved, found.at_least, found.left, found.out_of_reach
    )


def _balance(rig: Rig, found: Balanced) -> r.Balance:
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
