"""What to know of the light before the crew touches the rig: holes, unlike levels, light nobody has given.

These are told by `cover` and on the sheets made from it, not by `check`: they need grids and a search, and
`check` answers at once.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import numpy as np

from aimcalc.light.gaps import Gap
from aimcalc.rig.answers import Finding
from aimcalc.rig.findings.numbering import no_units
from aimcalc.rig.findings.telling import NOTE, WARN
from aimcalc.rig.light.angles import CUBE_DIAGONAL, FaceLight, face_lights
from aimcalc.rig.light.helpers import Helper
from aimcalc.rig.light.measured import file_findings
from aimcalc.rig.light.sources import kinds_without_candela
from aimcalc.rig.light.systems import ALL
from aimcalc.rig.light.tries import mark_step
from aimcalc.rig.wording import angle, count, plan, tip

if TYPE_CHECKING:
    from aimcalc.rig.light.survey import Survey
    from aimcalc.rig.solve import Rig

UNLIKE = 2.0  # most over least at equal level (common practice, no source)
NEAR_45 = 10.0  # degrees (our choice)
SQUARE_FOOT = 0.3048**2  # m2


def light_findings(found: Survey) -> list[Finding]:
    """All that is found in a rig's light: warnings first, then notes."""
    rig = found.study.rig
    if not rig.units:
        return list(no_units(rig))
    warnings = [*_no_candela(rig), *_holes(found), *_unlike(found)]
    return [*warnings, *_front_angles(rig), *file_findings(rig)]


def area(m2: float, unit: str) -> str:
    """An area in the scene's own unit: "0.82 m2", "8.8 ft2"."""
    return f"{m2 / SQUARE_FOOT:.1f} ft2" if unit in ("ft", "in") else f"{m2:.2f} m2"


def _no_candela(rig: Rig) -> Iterator[Finding]:
    kinds = kinds_without_candela(rig)
    if kinds:
        dark = sum(unit.kind in kinds for unit in rig.units)
        has = "has" if len(kinds) == 1 else "have"
        says = (
            f"{count(kinds, 'Kind')} {has} no peak_cd, no lumens and no photometric file: "
            f"the light of {dark} of {len(rig.units)} units is not known."
        )
        yield Finding(WARN, "no-candela", says, "Give one of the three from the maker's sheet.")


def _holes(found: Survey) -> Iterator[Finding]:
    rig = found.study.rig
    unit = rig.scene.settings.unit
    for name, system in found.study.systems.items():
        if name == ALL or not system.gaps:
            continue
        says = f"System {name} has {_told(system.gaps, system.below, unit)}."
        yield Finding(WARN, "hole-in-system", says, _do(rig, found.helpers[name]))


def _told(gaps: list[Gap], below: float, unit: str) -> str:
    total, first = area(sum(gap.area for gap in gaps), unit), gaps[0]
    head = f"a hole of {total}"
    if len(gaps) > 1:
        head = f"{len(gaps)} holes, {total} together, the largest {area(first.area, unit)}"
    step = mark_step(unit)
    x, y = (round(v / step) * step for v in first.centre)
    dark = f"{first.least:.0f} lx at its darkest, {below:.0f} lx wanted"
    return f"{head} with its middle {plan(x, y, unit)}: {dark}"


def _do(rig: Rig, holes: list[list[Helper]]) -> str:
    """The best re-aim of the largest hole that has one."""
    hole, best = next(((k, h[0]) for k, h in enumerate(holes) if h), (0, None))
    if best is None:
        return "No re-aim in the system closes more than it uncovers: add a unit, or a wider lens."
    unit = rig.scene.settings.unit
    opens = area(best.uncovers, unit) if best.uncovers else "nothing"
    return (
        f"Re-aim {rig.names[best.unit]} to the face {plan(*best.face[:2], unit)}, "
        f"{tip(float(np.degrees(best.down)))}: closes {area(best.gain, unit)} of "
        f"{'it' if len(holes) == 1 else f'hole {hole + 1}'}, uncovers {opens}."
    )


def _unlike(found: Survey) -> Iterator[Finding]:
    for balance in found.balances:
        if balance.spread_at_full <= UNLIKE:
            continue
        bright = balance.targets[int(np.argmax(balance.at_full))]
        dim = balance.targets[int(np.argmin(balance.at_full))]
        says = (
            f"System {balance.system} at equal levels is {balance.spread_at_full:.1f} times "
            f"as bright at {bright} as at {dim}."
        )
        do = "Set the levels listed under Balance, or choose lenses nearer in light."
        yield Finding(WARN, "levels-unlike", says, do)


def _front_angles(rig: Rig) -> Iterator[Finding]:
    """A note on how the front light stands to 45 and 45, in both readings of it."""
    front = [light for light in face_lights(rig) if light.from_front]
    if not front:
        return
    true, cube = _near(front, 45.0), _near(front, CUBE_DIAGONAL)
    units = "1 unit" if len(front) == 1 else f"{len(front)} units"
    says = (
        f"Of {units} lighting a face from the front, {true} come {angle(45 - NEAR_45)} to "
        f"{angle(45 + NEAR_45)} up (45° as the true elevation) and {cube} come "
        f"{angle(CUBE_DIAGONAL - NEAR_45)} to {angle(CUBE_DIAGONAL + NEAR_45)} up "
        f"(45° on plan and section, a cube's diagonal: {angle(CUBE_DIAGONAL)} true elevation)."
    )
    yield Finding(NOTE, "front-angles", says, "Ask the designer which 45° is meant.")


def _near(lights: list[FaceLight], elevation: float) -> int:
    return sum(abs(light.elevation - elevation) <= NEAR_45 for light in lights)
