"""What hangs over the house, and light that comes down in it."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from aimcalc.geometry.aim import Flags
from aimcalc.geometry.vectors import Array
from aimcalc.rig.answers import Finding
from aimcalc.rig.findings.telling import WARN, about, by_position, numbers, subject
from aimcalc.rig.outlines import downstage_of, front, inside
from aimcalc.rig.solve import Rig
from aimcalc.rig.wording import length, listed
from aimcalc.scene.model import Pipe


def over_people(rig: Rig) -> Iterator[Finding]:
    """Warns of units that hang on a pipe over seats, or over the house where no seats are given."""
    on_pipe = np.array([isinstance(p, Pipe) for p in rig.positions], dtype=bool)
    x, y, _ = rig.arrays.clamp
    over = _seats(rig, x, y) if rig.scene.seats else _house(rig, x, y)
    for rows in by_position(rig, on_pipe & over):
        below = _blocks_under(rig, rows) or "the house"
        says = f"{subject(rig, rows, 'hangs', 'hang')} over {below}."
        do = "Fit safety cables and secure frames first; keep the seats below clear while working."
        yield about(rig, rows, WARN, "over-people", says=says, do=do)


def _seats(rig: Rig, x: Array, y: Array) -> Flags:
    over = np.zeros(x.size, dtype=bool)
    for block in rig.scene.seats:
        over |= inside(block.outline, x, y)
    return over


def _house(rig: Rig, x: Array, y: Array) -> Flags:
    outline = rig.scene.stage.outline
    return downstage_of(outline, x, y) if outline else np.zeros(x.size, dtype=bool)


def _blocks_under(rig: Rig, rows: list[int]) -> str:
    x, y = rig.arrays.clamp[0, rows], rig.arrays.clamp[1, rows]
    names = [block.name for block in rig.scene.seats if inside(block.outline, x, y).any()]
    return f"seats ({listed(names)})" if names else ""


def lands_in_house(rig: Rig) -> Iterator[Finding]:
    """Warns of light that is meant for the stage and comes down in the house, axis for axis.

    What a wall, a drop or a platform stops on its way comes down nowhere else.
    """
    outline = rig.scene.stage.outline
    x, y = rig.aims.lands[0], rig.aims.lands[1]
    lost = np.isnan(x) | rig.meets.on_solid
    x, y = np.where(lost, 0.0, x), np.where(lost, 0.0, y)
    meant = ~downstage_of(outline, rig.arrays.point[0], rig.arrays.point[1])
    edge = front(outline, x) if outline else np.zeros(x.size)
    past = edge - y
    for rows in by_position(rig, downstage_of(outline, x, y) & meant & ~lost):
        worst = max(rows, key=lambda k: float(past[k]))
        far = length(float(past[worst]), rig.scene.settings.unit)
        most = "" if len(rows) == 1 else f" (unit {numbers(rig, [worst])[0]}, the furthest)"
        where = "the stage's edge" if outline else "the plaster line"
        says = f"{subject(rig, rows, 'lands', 'land')} in the house, {far} DS of {where}{most}."
        do = "Cut the DS edge of the beam, or hang steeper; look from the front row."
        yield about(rig, rows, WARN, "lands-in-house", says=says, do=do)
