"""What to know of the light before the crew touches the rig: holes, unlike levels, light nobody has given.

These are told by `cover` and on the sheets made from it, not by `check`: they need grids and a search, and
`check` answers at once.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import numpy as np

from aimcalc.coverage.angles import CUBE_DIAGONAL, FaceLight, face_lights
from aimcalc.coverage.helpers import Helper
from aimcalc.coverage.sources import kinds_without_candela
from aimcalc.coverage.systems import ALL
from aimcalc.findings.numbering import no_units
from aimcalc.findings.report import NOTE, WARN
from aimcalc.geometry.vectors import to_degrees
from aimcalc.rig.solve import oval_of
from aimcalc.rig.wording import DECK, angle, area, count, plan, tip
from aimcalc.solid.answers import Finding

if TYPE_CHECKING:
    from aimcalc.coverage.survey import Survey
    from aimcalc.coverage.systems import SystemLight
    from aimcalc.light.photometry import Photometry
    from aimcalc.scene.model import Kind
    from aimcalc.solid.rig import SolidRig


# The ways a lamp may lie, by LM-63's lamp-to-luminaire geometry; 2 and 3 leave open which way across a body.
LAMPS = {
    1: "as the unit is tipped off straight down, its lamp along the lens axis",
    2: "as its lamp is tilted off level; taken to lie along the yoke bolts, it stays level as the unit tips",
    3: "as its lamp is tilted off level; taken to lie square to the yoke bolts, it tips with the unit",
}
WORTH_TELLING = 0.1  # % of the peak
DO = "Check these figures against the maker's sheet."


def file_findings(rig: SolidRig) -> Iterator[Finding]:
    """A note for every kind in use that has its light from a file."""
    for name, file in rig.photometry.items():
        says = [*_told_measured(rig.scene.kinds[name], file), *_tipped(rig, name, file)]
        yield Finding(NOTE, "photometric-file", " ".join(says), DO)


def _told_measured(kind: Kind, file: Photometry) -> Iterator[str]:
    """Sentences about one file; `kind` as the scene has it."""
    yield (
        f"Kind {kind.name} has its light from {kind.photometry} ({file.standard}, Type {file.layout}): "
        f"{file.peak_cd:.0f} cd at most, {_spread(file)}, {file.lumens:.0f} lm."
    )
    yield from _off_axis(file)
    if kind.peak_cd or kind.lumens:
        given = f"{kind.peak_cd:.0f} cd" if kind.peak_cd else f"{kind.lumens:.0f} lm"
        yield f"It is scaled to the {given} given with the kind."
    if kind.field is not None and angle(kind.field) != angle(file.field_angle):
        yield f"Pools go by the field given with the kind, {angle(kind.field)}."
    yield from _resampled(file)
    yield from (f"{note[0].upper()}{note[1:]}." for note in file.notes)


def _spread(file: Photometry) -> str:
    """Beam and field; of an oval in its two principal planes, narrow then wide."""
    oval = oval_of(file)
    if oval is None:
        return f"beam {angle(file.beam_angle)}, field {angle(file.field_angle)}"
    beam, field = (" x ".join(angle(full) for full in pair) for pair in (oval.beam, oval.field))
    lies = "up and down" if oval.upright else "across"
    return f"beam {beam}, field {field}, the long way {lies} the body"


def _tipped(rig: SolidRig, name: str, file: Photometry) -> Iterator[str]:
    """How a TILT table is used: which way the lamp is taken to lie, and units that tip beyond the table."""
    tilt = file.tilt
    if tilt is None:
        return
    low, high = float(tilt.factors.min()), float(tilt.factors.max())
    yield f"Its TILT table takes it from {low:g} to {high:g} of that {LAMPS[tilt.geometry]}."
    rows = [k for k, unit in enumerate(rig.units) if unit.kind == name]
    poses = [(rig.axis[:, k], rig.up[:, k]) for k in rows if rig.aims.throw[k] > 0]
    furthest = max((tilt.lamp_angle(*pose) for pose in poses), default=0.0)
    if to_degrees(furthest) > tilt.angles[-1] + 0.5:
        yield (
            f"A unit tilts its lamp by {angle(to_degrees(furthest))}, past the table's end at "
            f"{angle(float(tilt.angles[-1]))}: the last factor is used."
        )


def _resampled(file: Photometry) -> Iterator[str]:
    """Where a file's angles have no common step: how far off the light is for it."""
    from aimcalc.light.lamps import candela_table

    off = 100.0 * candela_table(file).error
    if off >= WORTH_TELLING:
        yield f"Its angles have no common step: read on even ones, at most {off:.1f} % of the peak off."


def _off_axis(file: Photometry) -> Iterator[str]:
    """Where the peak is off the lens axis: the angles by the other definition, if they are others."""
    ours = [angle(file.beam_angle), angle(file.field_angle)]
    theirs = [angle(file.beam_angle_of_centre), angle(file.field_angle_of_centre)]
    if ours != theirs:
        yield (
            f"The peak is {angle(file.peak_at[0])} off the lens axis; on the axis it gives "
            f"{file.centre_cd:.0f} cd. Beam and field go to half and a tenth of the peak: {ours[0]} and "
            f"{ours[1]}, the mean all round. By the light on the axis they would be {theirs[0]} and "
            f"{theirs[1]}. Pools are drawn even about the axis."
        )


UNLIKE = 2.0  # most over least at equal level (common practice, no source)
NEAR_45 = 10.0  # degrees (our choice)


def light_findings(found: Survey) -> list[Finding]:
    """All that is found in a rig's light: warnings first, then notes."""
    rig = found.study.rig
    if not rig.units:
        return list(no_units(rig))
    warnings = [*_no_candela(rig), *_holes(found), *_unlike(found)]
    return [*warnings, *_front_angles(rig), *file_findings(rig)]


def _no_candela(rig: SolidRig) -> Iterator[Finding]:
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
        says = f"System {name} has {_told(system, unit)}."
        yield Finding(WARN, "hole-in-system", says, _do(rig, found.helpers[name]))


def _told(system: SystemLight, unit: str) -> str:
    gaps, total, first = system.gaps, area(system.dark_area, unit), system.gaps[0]
    head = f"a hole of {total}"
    if len(gaps) > 1:
        head = f"{len(gaps)} holes, {total} together, the largest {area(first.area, unit)}"
    step = DECK.size(unit)
    x, y = (round(v / step) * step for v in first.centre)
    dark = f"{first.least:.0f} lx at its darkest, {system.below:.0f} lx wanted"
    return f"{head} with its middle {plan(x, y, unit)}: {dark}"


def _do(rig: SolidRig, holes: list[list[Helper]]) -> str:
    """The best re-aim of the largest hole that has one."""
    hole, best = next(((k, h[0]) for k, h in enumerate(holes) if h), (0, None))
    if best is None:
        return "No re-aim in the system closes more than it uncovers: add a unit, or a wider lens."
    unit = rig.scene.settings.unit
    opens = area(best.uncovers, unit) if best.uncovers else "nothing"
    return (
        f"Re-aim {rig.names[best.unit]} to the face {plan(*best.face[:2], unit)}, "
        f"{tip(float(to_degrees(best.down)))}: closes {area(best.gain, unit)} of "
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


def _front_angles(rig: SolidRig) -> Iterator[Finding]:
    """A note on how the front light stands to 45 and 45, in both readings of it."""
    front = [light for light in face_lights(rig) if light.from_front]
    if not front:
        return
    true, cube = _near(front, 45.0), _near(front, CUBE_DIAGONAL)
    units = "1 unit" if len(front) == 1 else f"{len(front)} units"
    says = (
        f"Of {units} lighting a face from the front, {_come(true)} {angle(45 - NEAR_45)} to "
        f"{angle(45 + NEAR_45)} up (45° as the true elevation) and {_come(cube)} "
        f"{angle(CUBE_DIAGONAL - NEAR_45)} to {angle(CUBE_DIAGONAL + NEAR_45)} up "
        f"(45° on plan and section, a cube's diagonal: {angle(CUBE_DIAGONAL)} true elevation)."
    )
    yield Finding(NOTE, "front-angles", says, "Ask the designer which 45° is meant.")


def _come(lights: int) -> str:
    return f"{lights} comes" if lights == 1 else f"{lights} come"


def _near(lights: list[FaceLight], elevation: float) -> int:
    return sum(abs(light.elevation - elevation) <= NEAR_45 for light in lights)
