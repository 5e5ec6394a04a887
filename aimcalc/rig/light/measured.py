"""What photometric files say, told back: their angles, what was odd in them and how it was taken."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import numpy as np

from aimcalc.rig.answers import Finding
from aimcalc.rig.findings.telling import NOTE
from aimcalc.rig.photometry import oval_of
from aimcalc.rig.wording import angle

if TYPE_CHECKING:
    from aimcalc.light.photometry import Photometry
    from aimcalc.rig.solve import Rig
    from aimcalc.scene.model import Kind

# The ways a lamp may lie, by LM-63's lamp-to-luminaire geometry; 2 and 3 leave open which way across a body.
LAMPS = {
    1: "as the unit is tipped off straight down, its lamp along the lens axis",
    2: "as its lamp is tilted off level; taken to lie along the yoke bolts, it stays level as the unit tips",
    3: "as its lamp is tilted off level; taken to lie square to the yoke bolts, it tips with the unit",
}
WORTH_TELLING = 0.1  # % of the peak
DO = "Check these figures against the maker's sheet."


def file_findings(rig: Rig) -> Iterator[Finding]:
    """A note for every kind in use that has its light from a file."""
    for name, file in rig.photometry.items():
        says = [*_told(rig.scene.kinds[name], file), *_tipped(rig, name, file)]
        yield Finding(NOTE, "photometric-file", " ".join(says), DO)


def _told(kind: Kind, file: Photometry) -> Iterator[str]:
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


def _tipped(rig: Rig, name: str, file: Photometry) -> Iterator[str]:
    """How a TILT table is used: which way the lamp is taken to lie, and units that tip beyond the table."""
    tilt = file.tilt
    if tilt is None:
        return
    low, high = float(tilt.factors.min()), float(tilt.factors.max())
    yield f"Its TILT table takes it from {low:g} to {high:g} of that {LAMPS[tilt.geometry]}."
    rows = [k for k, unit in enumerate(rig.units) if unit.kind == name]
    poses = [(rig.axis[:, k], rig.up[:, k]) for k in rows if rig.aims.throw[k] > 0]
    furthest = max((tilt.lamp_angle(*pose) for pose in poses), default=0.0)
    if np.degrees(furthest) > tilt.angles[-1] + 0.5:
        yield (
            f"A unit tilts its lamp by {angle(np.degrees(furthest))}, past the table's end at "
            f"{angle(float(tilt.angles[-1]))}: the last factor is used."
        )


def _resampled(file: Photometry) -> Iterator[str]:
    """Where a file's angles have no common step: how far off the light is for it."""
    from aimcalc.light.tables import candela_table

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
