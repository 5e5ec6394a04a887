"""How high pipes are, and whether anybody has put a tape on them."""

from __future__ import annotations

from collections.abc import Iterator
from math import hypot

from aimcalc.rig.answers import Finding
from aimcalc.rig.findings.places import sides
from aimcalc.rig.findings.telling import WARN, hung
from aimcalc.rig.solve import Rig
from aimcalc.rig.wording import length
from aimcalc.scene.model import Pipe

LEVEL_WITHIN = (
    0.05  # m; ends further apart than 2 in or 5 cm are not level (common practice, no source)
)
MEANT_SLOPE = 1 / 20  # rise per run from which a slope is no accident (common practice, no source)


def _hung_pipes(rig: Rig) -> Iterator[Pipe]:
    """Pipes that hold units."""
    for pipe, _ in hung(rig):
        if isinstance(pipe, Pipe):
            yield pipe


def not_measured(rig: Rig) -> Iterator[Finding]:
    """Warns of pipes whose trim nobody has marked as measured."""
    for pipe in _hung_pipes(rig):
        if not pipe.measured:
            trim = length((pipe.start[2] + pipe.end[2]) / 2, rig.scene.settings.unit)
            says = f"Trim {trim} is as plotted, not measured: every down-angle depends on it."
            do = "Measure at both ends and the middle, put the figure in, and set measured = true."
            yield Finding(WARN, "trim-not-measured", says, do, position=pipe.name)


def out_of_level(rig: Rig) -> Iterator[Finding]:
    """Warns of pipes that look meant to be level and are not: off by over 5 cm, yet flatter than 1 in 20."""
    for pipe in _hung_pipes(rig):
        run = hypot(pipe.end[0] - pipe.start[0], pipe.end[1] - pipe.start[1])
        rise = abs(pipe.end[2] - pipe.start[2])
        if LEVEL_WITHIN + 1e-6 < rise < MEANT_SLOPE * run:
            says = (
                f"Its {_low_end(pipe)} end is {length(rise, rig.scene.settings.unit)} lower than the other; "
                "a level pipe should be within 5 cm (2 in)."
            )
            do = "Have it levelled and measured again, or keep the two ends as they are if that is meant."
            yield Finding(WARN, "out-of-level", says, do, position=pipe.name)


def _low_end(pipe: Pipe) -> str:
    plus, minus = sides(pipe)
    axis = 0 if plus == "SL" else 1
    start, end = (plus, minus) if pipe.start[axis] > pipe.end[axis] else (minus, plus)
    return start if pipe.start[2] < pipe.end[2] else end
