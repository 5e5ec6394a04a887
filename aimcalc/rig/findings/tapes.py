"""Sight tapes: whether they can be laid where they were asked for, or anywhere."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from aimcalc.rig.answers import Finding
from aimcalc.rig.findings.telling import NOTE, WARN
from aimcalc.rig.solve import Rig
from aimcalc.rig.tapes import FOOT, Tape, in_feet, lies_at
from aimcalc.rig.wording import joined, length


def cannot_lie(rig: Rig) -> Iterator[Finding]:
    """Warns of tapes that cannot lie at the distance typed for them."""
    for tape in rig.tapes.every:
        if tape.typed and tape.in_the_way:
            yield Finding(
                WARN, "tape-cannot-lie", _says(rig, tape), _do(rig, tape), position=tape.position
            )


def no_tape(rig: Rig) -> Iterator[Finding]:
    """Notes sides of pipes along which no tape can lie at any whole distance."""
    for tape in rig.tapes.every:
        if np.isnan(tape.out):
            says = f"{_says(rig, tape)} No other whole distance is clear, so there is no tape."
            do = "Set the swing by the dial, or by the line on the hang strip."
            yield Finding(NOTE, "no-tape", says, do, position=tape.position)


def _says(rig: Rig, tape: Tape) -> str:
    out = length(tape.asked, rig.scene.settings.unit)
    return f"The sight tape {out} {tape.side} of the pipe {joined(tape.in_the_way)}."


def _do(rig: Rig, tape: Tape) -> str:
    """The nearest distance that serves every side of the pipe, since one key speaks for both."""
    better = lies_at(rig, tape.position)
    if better is None:
        return (
            "No one whole distance does: take sight_out out of the pipe and of [scene]; each side then has "
            "the nearest that does, or where there is none the dial leads."
        )
    written = f"{better / FOOT:.0f}'" if in_feet(rig.scene) else f"{better:.0f} m"
    return f'Give the pipe sight_out = "{written}", the nearest that can be laid.'
