"""A show of a rig that a test has solved already, with findings of its own choice where it gives some."""

from __future__ import annotations

from collections.abc import Iterable

from aimcalc.show import Show
from aimcalc.solid.answers import Finding
from aimcalc.solid.rig import SolidRig


def a_show(rig: SolidRig, findings: Iterable[Finding] | None = None) -> Show:
    """The show of this rig; its findings are made on first use where none are given."""
    show = Show(rig.scene)
    show.rig = rig
    if findings is not None:
        show.findings = list(findings)
    return show
