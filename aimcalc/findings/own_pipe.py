"""Bodies that would have to pass through the tube they hang on, told of each unit."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from aimcalc.findings.report import STOP, WARN, about
from aimcalc.rig.kinds import rests_on
from aimcalc.rig.places import TUBE_RADIUS
from aimcalc.rig.wording import length, tip
from aimcalc.scene.model import Boom, Pipe
from aimcalc.solid.answers import Finding
from aimcalc.solid.own_pipe import MIDDLE, own_gaps
from aimcalc.solid.rig import SolidRig


def strikes(rig: SolidRig) -> Iterator[Finding]:
    """Bodies that strike their own pipe, boom, arm or stand at their aim.

    A stop where a body of typed size is in the tube's very middle, however thick it may be; else a warning.
    """
    gaps = own_gaps(rig, np.arange(len(rig.units)), rig.aims, within=0.0)
    sure = rig.sizes.typed & (gaps <= MIDDLE - TUBE_RADIUS)
    for k in np.flatnonzero(gaps < 0).tolist():
        yield _told(rig, k, STOP if sure[k] else WARN)


def _told(rig: SolidRig, k: int, severity: str) -> Finding:
    unit, position = rig.units[k], rig.positions[k]
    tube = (
        "pipe"
        if isinstance(position, Pipe)
        else "boom or arm"
        if isinstance(position, Boom)
        else "stand"
    )
    drop = length(float(rig.arrays.drop[k]), rig.scene.settings.unit)
    wide = length(float(rig.sizes.width[k]), rig.scene.settings.unit)
    says = (
        f"Unit {unit.number}, {tip(float(np.degrees(rig.aims.down[k])))} with a drop of {drop} and a body "
        f"{wide} across, strikes its own {tube}."
    )
    says += "" if severity == STOP else rests_on(rig, [k])
    do = (
        "Hang it the other way (under or over), swing it out, move it, or correct its kind's sizes."
    )
    return about(rig, [k], severity, "strikes-own-pipe", says=says, do=do)
