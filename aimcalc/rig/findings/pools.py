"""Light at the face: fields that never close, and light too steep or too flat for a face."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from aimcalc.geometry.aim import Flags
from aimcalc.rig.answers import Finding
from aimcalc.rig.findings.telling import NOTE, WARN, about, angles, by_position, subject
from aimcalc.rig.ovals import upright_halves
from aimcalc.rig.solve import Rig
from aimcalc.rig.wording import tip

STEEP, FLAT = np.radians(60.0), np.radians(25.0)  # at the face (as taught: eye sockets; flat)
FRONT_WITHIN = np.radians(60.0)  # of straight US: light from the front (common practice, no source)
HAIR = 1e-9  # radians


def open_pools(rig: Rig) -> Iterator[Finding]:
    """Warns of pools on the deck that never close: the field's upper edge is level or above.

    Units that look up with their whole field have no pool on the deck at all and are left alone.
    """
    half = upright_halves(rig)
    down = rig.aims.down
    opens = (down - half <= HAIR) & (down + half > HAIR)
    for rows in by_position(rig, opens):
        above = angles(np.degrees(half[rows] - down[rows]))
        edge = subject(rig, rows, "throws", "throw")
        says = f"{edge} an open pool: the top of the field is {above} above level and never comes down."
        do = "Cut the top, hang higher, or use a narrower lens; mind eyes, walls and cloths."
        yield about(rig, rows, WARN, "open-pool", says=says, do=do)


def from_the_front(rig: Rig) -> Flags:
    """Units that light somebody's face from the front: heading within 60 degrees of straight US."""
    faces = {t.name for t in rig.scene.targets if t.plane == "face"}
    at_face = np.array([unit.target in faces for unit in rig.units], dtype=bool)
    heading = np.abs(rig.aims.heading)
    return np.asarray(at_face & (heading <= FRONT_WITHIN + HAIR))


def steep(rig: Rig) -> Iterator[Finding]:
    """Notes front light over 60 degrees down at the face: eye sockets stay dark."""
    for rows in by_position(rig, from_the_front(rig) & (rig.aims.down > STEEP + HAIR)):
        hits = subject(rig, rows, "hits", "hit")
        says = f"{hits} faces {angles(np.degrees(rig.aims.down[rows]))} down: eyes in shadow."
        do = "Light these faces from lower or farther out, or fill them from elsewhere."
        yield about(rig, rows, NOTE, "steep", says=says, do=do)


def flat(rig: Rig) -> Iterator[Finding]:
    """Notes front light under 25 degrees down at the face: flat, with shadows on the drop."""
    for rows in by_position(rig, from_the_front(rig) & (rig.aims.down < FLAT - HAIR)):
        hits = subject(rig, rows, "hits", "hit")
        says = f"{hits} faces only {_down(rig, rows)}: flat; shadows land upstage."
        do = "Run it low, or hang it higher or nearer."
        yield about(rig, rows, NOTE, "flat", says=says, do=do)


def _down(rig: Rig, rows: list[int]) -> str:
    """How far down units come in: "2° to 7° down", "4° up to 7° down"."""
    down = np.degrees(rig.aims.down[rows])
    if down.min() >= 0.5:
        return f"{angles(down)} down"
    low, high = tip(float(down.min())), tip(float(down.max()))
    return low if low == high else f"{low} to {high}"
