"""Figures of kinds that the answers rest on: those that nobody has measured, and two that contradict."""

from __future__ import annotations

from collections.abc import Iterator
from math import degrees, radians

from aimcalc.light.profiles import flux_per_candela
from aimcalc.rig.answers import Finding
from aimcalc.rig.findings.telling import NOTE, WARN
from aimcalc.rig.sizes import missing, size_of
from aimcalc.rig.solve import Rig
from aimcalc.rig.tube import lens_in_tube
from aimcalc.rig.wording import count, length

SAME_FILE = 1.1  # of lumens for the same candela (estimates, no source)
SAME_ANGLES = 1.5
PEAKED, FLAT = 0.4, 0.95  # beam over field


def typical_kinds(rig: Rig) -> Iterator[Finding]:
    """Notes once which kinds are generic."""
    names = sorted({kind.name for kind in rig.kinds if kind.typical})
    if names:
        says = f"Figures of {count(names, 'kind')} are typical; yours are not measured."
        do = "Put your maker's figures in [[kind]], or measure one of each."
        yield Finding(NOTE, "typical-kind", says, do)


def no_drop(rig: Rig) -> Iterator[Finding]:
    """Warns once of kinds used without a drop: the pipe's height is then taken for the lens's."""
    names = sorted(
        {kind.name for kind, drop in zip(rig.kinds, rig.arrays.drop, strict=True) if drop == 0}
    )
    if names:
        says = (
            f"No drop from pipe to pivot is known for {count(names, 'kind')} as hung: taken as 0."
        )
        if lens_in_tube(rig).any():
            says += " A lens in the pipe casts no light: what stands in its way is not checked."
        do = "Measure one of each, clamp to yoke bolts, and give drop_under or drop_over."
        yield Finding(WARN, "no-drop", says, do)


def body_not_known(rig: Rig) -> Iterator[Finding]:
    """Warns of each kind without a length or a width: what its body touches goes by its family's."""
    kinds = {kind.name: kind for kind in rig.kinds}
    for name, kind in kinds.items():
        if keys := missing(kind):
            unit, size = rig.scene.settings.unit, size_of(kind)
            says = (
                f"Kind {name} has no {' and no '.join(keys)}: light that its body stops, the order to set it "
                "in and its own yoke are not checked; what it touches goes by a typical "
                f"{kind.family}, {length(size.length, unit)} long and {length(size.width, unit)} wide."
            )
            do = f"Measure one and add {' and '.join(keys)} to its [[kind]]."
            yield Finding(WARN, "body-not-known", says, do)


def candela_and_lumens(rig: Rig) -> Iterator[Finding]:
    """Warns of kinds whose candela and lumens cannot both be right: a wrong digit, or the bare lamp's lumens.

    Lumens are the smooth profile integrated over all directions, or a file's own light scaled; see `_likely`
    for how far they may be off.
    """
    for name in dict.fromkeys(unit.kind for unit in rig.units):
        kind = rig.scene.kinds[name]
        if not kind.peak_cd or not kind.lumens:
            continue
        made, least, most = _likely(rig, name, kind.peak_cd)
        if least <= kind.lumens <= most:
            continue
        says = (
            f"Kind {name} is given {kind.peak_cd:.0f} cd and {kind.lumens:.0f} lm, but these candela over "
            f"its field make about {float(f'{made:.3g}'):.0f} lm. Its light goes by the candela."
        )
        do = "Correct peak_cd or lumens (of the unit, not of its bare lamp), or leave one out."
        yield Finding(WARN, "candela-lumens-disagree", says, do)


def _likely(rig: Rig, name: str, peak: float) -> tuple[float, float, float]:
    """Lumens that a kind's candela make, and the least and the most that they may be.

    A file's shape is known, and typed figures of it are rounded. The smooth profile goes through half and a
    tenth only, and no real unit is dark beyond its field. Where the beam is not given either, any from a
    peaked one to a flat field may be meant: 0.9 to 2.0 times the lumens of the one that is taken.
    """
    file = rig.photometry.get(name)
    if file is not None:
        made = peak * file.lumens / file.peak_cd
        return made, made / SAME_FILE, made * SAME_FILE
    k = next(k for k, unit in enumerate(rig.units) if unit.kind == name)
    field, beam = float(rig.arrays.field[k]), float(rig.arrays.beam[k])
    narrow, wide = (radians(full) for full in rig.kinds[k].oval or (degrees(field),) * 2)
    ends = (beam / field,) * 2 if rig.kinds[k].beam else (PEAKED, FLAT)
    made, least, most = (
        peak * float(flux_per_candela(beam=share * field, field=field, narrow=narrow, wide=wide))
        for share in (min(beam / field, FLAT), *(min(end, FLAT) for end in ends))
    )
    return made, least / SAME_ANGLES, most * SAME_ANGLES
