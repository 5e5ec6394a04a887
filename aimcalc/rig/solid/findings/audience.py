"""The audience: eyes that a field reaches, and units that the front row sees under a border."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from aimcalc.geometry.seats import Reached, reached, seat_grid, seen
from aimcalc.geometry.vectors import Array
from aimcalc.rig.answers import Finding
from aimcalc.rig.findings.telling import WARN, about, by_position, numbers, subject
from aimcalc.rig.solid.findings.pairs import percent
from aimcalc.rig.solid.sights import border_before, front_row_of, masked, sight_points
from aimcalc.rig.solve import Rig
from aimcalc.rig.wording import level, plan
from aimcalc.scene.model import Seats

EYES_APART = 1.0  # m, each way


def in_eyes(rig: Rig) -> Iterator[Finding]:
    """Warns of fields that reach seats at eye height, how many of them, and where it is worst."""
    half = rig.arrays.field / 2
    for block in rig.scene.seats:
        eyes = seat_grid(np.array(block.outline).T, eye=block.eye, spacing=EYES_APART)
        found = reached(
            rig.solids.whole, lens=rig.aims.lens, axis=rig.aims.axis, field=2 * half, eyes=eyes
        )
        share = np.bincount(found.unit, minlength=len(rig.units)) / eyes.shape[1]
        for rows in by_position(rig, share > 0):
            yield _reach(rig, rows, block, share, found, eyes)


def _reach(
    rig: Rig, rows: list[int], block: Seats, share: Array, found: Reached, eyes: Array
) -> Finding:
    worst = max(rows, key=lambda k: float(share[k]))
    mine = np.flatnonzero(found.unit == worst)
    x, y, z = eyes[:, found.eye[mine[np.argmin(found.angle[mine])]]].tolist()
    unit = rig.scene.settings.unit
    throws = subject(rig, rows, "throws its field", "throw their fields")
    most, who = ("", "") if len(rows) == 1 else ("up to ", f" (unit {numbers(rig, [worst])[0]})")
    says = (
        f"{throws} into the eyes of {most}{percent(share[worst])} of {block.name}{who}; worst at "
        f"{plan(x, y, unit)}, eyes {level(z, unit)}."
    )
    do = "Cut that edge with a shutter or a door, hang it steeper, or use a narrower lens."
    return about(rig, rows, WARN, "field-in-seats", says=says, do=do)


def seen_under_borders(rig: Rig) -> Iterator[Finding]:
    """Warns of units that borders are meant to hide and that the front row sees all the same."""
    row = front_row_of(rig.scene)
    hidden = masked(rig)
    if row is None or not hidden.size:
        return
    found = seen(rig.solids.scenery, points=sight_points(rig, hidden), eyes=row.eyes)
    most = np.zeros(len(rig.units))
    np.maximum.at(most, hidden[found.unit], found.share)
    for rows in by_position(rig, most > 0):
        part = percent(max(most[rows]))
        upto = "" if len(rows) == 1 else "up to "
        show = subject(rig, rows, "shows", "show")
        says = (
            f"{show} under {border_before(rig, rows)} from the front row of {row.name}: {upto}{part} of a "
            "body."
        )
        do = "Bring the border in, trim the pipe higher, or agree that they show."
        yield about(rig, rows, WARN, "seen-under-border", says=says, do=do)
