"""What the figures rest on that nobody has measured: sizes of units."""

from __future__ import annotations

from collections.abc import Iterator

from aimcalc.rig.answers import Finding
from aimcalc.rig.findings.telling import NOTE, WARN
from aimcalc.rig.solve import Rig
from aimcalc.rig.wording import count


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
        do = "Measure one of each, clamp to yoke bolts, and give drop_under or drop_over."
        yield Finding(WARN, "no-drop", says, do)
