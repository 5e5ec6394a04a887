"""A lens proposal that makes no system worse: what it would do is worked out on the rig as proposed.

A system that would be left with more holes, by a tenth and the area of the smallest hole told of, keeps what
it has, and the rest is settled anew.
"""

from __future__ import annotations

from math import isfinite
from typing import TYPE_CHECKING, NamedTuple

from msgspec.structs import replace

from aimcalc.light.gaps import SMALLEST
from aimcalc.light.uniformity import Uniformity
from aimcalc.rig.light.lens import LensPlan, lens_plan
from aimcalc.rig.light.study import study_of
from aimcalc.rig.light.systems import ALL
from aimcalc.rig.solve import Rig

if TYPE_CHECKING:
    from aimcalc.rig.light.systems import SystemLight

WORSE = 1.1


class Forecast(NamedTuple):
    """One system now and as proposed: its figures, and the m2 of its holes."""

    system: str
    now: Uniformity
    then: Uniformity
    holes_now: float
    holes_then: float


class Outlook(NamedTuple):
    """A proposal, what it would do to each system, and the systems that keep what they have."""

    plan: LensPlan
    systems: list[Forecast]
    kept: list[str]


def lens_outlook(rig: Rig, *, pool: float | None = None) -> Outlook:
    """The proposal for a rig and its outlook; a `pool` (m) that is wanted is proposed whatever it does.

    Raises NoAreaError where the scene has no area to cover.
    """
    kept: list[str] = []
    while True:
        plan = lens_plan(rig, pool=pool, keep=kept)
        systems = forecast(rig, plan)
        known = [
            s for s in systems if isfinite(s.now.mean)
        ]  # the light of the rest may only get known
        worse = [s.system for s in known if s.holes_then > WORSE * s.holes_now + SMALLEST]
        worse = [name for name in worse if name != ALL and name not in kept]
        if pool is not None or not worse:
            return Outlook(plan, systems, kept)
        kept += worse


def forecast(rig: Rig, plan: LensPlan) -> list[Forecast]:
    """Every system's light with the proposed kinds in place of the present ones, aims staying.

    Raises NoAreaError where the scene has no area to cover.
    """
    now, then = study_of(rig).systems, study_of(as_proposed(rig, plan)).systems
    return [
        Forecast(name, now[name].figures, then[name].figures, _holes(now[name]), _holes(then[name]))
        for name in now
    ]


def as_proposed(rig: Rig, plan: LensPlan) -> Rig:
    """The same rig with the proposed kinds; units without a proposal keep theirs."""
    kinds = {id(u): p.proposed or u.kind for u, p in zip(rig.units, plan.units, strict=True)}
    units = tuple(replace(unit, kind=kinds[id(unit)]) for unit in rig.scene.units)
    return Rig(replace(rig.scene, units=units))


def _holes(system: SystemLight) -> float:
    return sum(gap.area for gap in system.gaps)
