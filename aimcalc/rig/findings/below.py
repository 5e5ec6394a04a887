"""Positions and units under the deck: a height with the wrong sign, or a trap that nobody drew."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from aimcalc.geometry.aim import Flags
from aimcalc.geometry.deck import bare_height
from aimcalc.geometry.vectors import Array
from aimcalc.rig.answers import Finding
from aimcalc.rig.findings.places import TOUCH
from aimcalc.rig.findings.telling import STOP, WARN, about, by_position, subject
from aimcalc.rig.outlines import inside
from aimcalc.rig.solve import Rig
from aimcalc.rig.wording import by_typical, length
from aimcalc.scene.model import Boom, Pipe, Position

DO = "Correct the height; a unit in a trap or a pit needs that left out of the stage's outline."


def depth(rig: Rig, points: Array) -> Array:
    """How far points (3, N) are under the deck itself, metres, (N,); negative above it and beside it.

    The deck lies within the stage's outline; without one, everywhere upstage of the plaster line.
    """
    x, y, z = points
    outline = rig.scene.stage.outline
    over: Flags = inside(outline, x, y) if outline else np.asarray(y >= 0.0)
    return np.where(over, bare_height(rig.deck, y) - z, -np.inf)


def positions(rig: Rig) -> Iterator[Finding]:
    """Stops for pipes and stands that are under the deck, all or in part."""
    for position in rig.scene.positions.values():
        under = _under(rig, position)
        if under > TOUCH:
            says = f"It is {length(under, rig.scene.settings.unit)} under the deck."
            yield Finding(STOP, "under-deck", says, DO, position=position.name)


def _under(rig: Rig, position: Position) -> float:
    """How far the deepest of a position's ends is under the deck; a boom stands on it."""
    if isinstance(position, Boom):
        return 0.0
    if isinstance(position, Pipe):
        ends = np.array([position.start, position.end]).T
    elif position.z is None:
        return 0.0
    else:
        ends = np.array([[position.x], [position.y], [position.z]])
    return float(depth(rig, ends).max())


def pivots(rig: Rig) -> Iterator[Finding]:
    """Stops for pivots under the deck, their position above it; warnings where the drop is a typical one."""
    held = {name: _under(rig, position) > TOUCH for name, position in rig.scene.positions.items()}
    under = depth(rig, rig.aims.pivot)
    fires = (under > TOUCH) & ~np.array([held[u.position] for u in rig.units], dtype=bool)
    typical = np.array([kind.typical for kind in rig.kinds], dtype=bool)
    for severity, some in ((STOP, fires & ~typical), (WARN, fires & typical)):
        for rows in by_position(rig, some):
            deepest = length(float(under[rows].max()), rig.scene.settings.unit)
            most = "" if len(rows) == 1 else "up to "
            have = subject(rig, rows, "has its pivot", "have their pivots")
            says = f"{have} {most}{deepest} under the deck."
            if severity == WARN:
                says += by_typical("drops", list(dict.fromkeys(rig.units[k].kind for k in rows)))
            yield about(rig, rows, severity, "under-deck", says=says, do=DO)
