"""Which side the clamps of a pipe open to.

A pipe's units mostly face one side. As taught, a clamp's bolt faces away from the direction of focus, and
the bolt is on the open side of the clamp: so clamps open away from the side that is lit, towards whoever
stands behind the unit.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from aimcalc.rig.answers import Finding
from aimcalc.rig.findings.telling import NOTE, WARN, hung
from aimcalc.rig.places import WORDS
from aimcalc.rig.solve import Rig
from aimcalc.rig.wording import listed
from aimcalc.scene.model import Pipe

Openings = dict[str, dict[str, list[str]]]  # side faced -> side opened to -> pipes


def clamp_openings(rig: Rig) -> Iterator[Finding]:
    """Warns where pipes that light one way have clamps opening both ways; notes clamps that open that way."""
    for facing, opens in _openings(rig).items():
        if len(opens) > 1:
            told = " and ".join(f"{side} on {listed(pipes)}" for side, pipes in opens.items())
            says = f"Clamps open {told}, though all these pipes light towards {facing}."
            do = f"Hang them all one way, best opening {_opposite(facing)}: bolts away from what they light."
            yield Finding(WARN, "clamps-mixed", says, do)
        elif facing in opens:
            pipes = opens[facing]
            says = f"Clamps on {listed(pipes)} open {facing}, towards what they light."
            do = f"Open them {_opposite(facing)}: bolts away from the light, within the hanger's reach."
            yield Finding(
                NOTE,
                "clamps-open-to-light",
                says,
                do,
                position=pipes[0] if len(pipes) == 1 else None,
            )


def _opposite(side: str) -> str:
    return WORDS[WORDS.index(side) ^ 1]


def _openings(rig: Rig) -> Openings:
    """Pipes with a known clamp opening whose units mostly face one side."""
    faces = np.where(rig.aims.square_sign < 0, rig.words.square ^ 1, rig.words.square)
    found: Openings = {}
    for pipe, rows in hung(rig):
        if not isinstance(pipe, Pipe) or pipe.clamp_opens is None:
            continue
        most = int(np.bincount(faces[rows]).argmax())
        if 2 * int((faces[rows] == most).sum()) > len(rows):
            found.setdefault(WORDS[most], {}).setdefault(pipe.clamp_opens, []).append(pipe.name)
    return found
