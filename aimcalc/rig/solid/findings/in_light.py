"""Light that does not get to the face: cut by borders, legs and scenery, or by a neighbour."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

import numpy as np

from aimcalc.geometry.solids import Indices
from aimcalc.geometry.vectors import Array
from aimcalc.rig.answers import Finding
from aimcalc.rig.findings.telling import WARN, about, numbers, subject
from aimcalc.rig.solid.findings.pairs import grouped, name_beside, percent
from aimcalc.rig.solve import Rig
from aimcalc.rig.wording import level, listed

WORTH_TELLING = (
    0.01  # of the field's light (common practice, no source: less is not seen on a face)
)
ALL = 0.995  # of the field's light: what is told as 100 %
NEIGHBOUR = 0.02  # of the field's light (estimate, no source)


def neighbours(rig: Rig) -> Iterator[Finding]:
    """Warns of units that lose over 2 % of their field to another unit."""
    first = len(rig.solids.things)
    for j in np.flatnonzero((rig.lost.owner >= first) & (rig.lost.part > NEIGHBOUR)).tolist():
        k, other = int(rig.lost.unit[j]), int(rig.lost.owner[j]) - first
        says = (
            f"Unit {rig.units[k].number} loses {percent(rig.lost.part[j])} of its field to unit "
            f"{name_beside(rig, k, other)}."
        )
        do = "Spread them, set the other one first and look, or turn this one less."
        yield about(rig, [k], WARN, "neighbour-in-light", says=says, do=do)


def scenery(rig: Rig) -> Iterator[Finding]:
    """Warns of fields cut by solids and tubes, a position's units together for each, with heights.

    A field that is lost whole is told by `all_lost`.
    """
    worth = (rig.lost.owner < len(rig.solids.things)) & (rig.lost.part >= WORTH_TELLING)
    worth &= rig.lost.share[rig.lost.unit] < ALL
    rows = np.flatnonzero(worth)
    units, owners = rig.lost.unit[rows].tolist(), rig.lost.owner[rows].tolist()
    for group in grouped(rig, units, owners):
        yield _cut(rig, [units[j] for j in group], owners[group[0]], rows[group])


def all_lost(rig: Rig) -> Iterator[Finding]:
    """Warns of units whose light is all stopped before their point, by one thing or by several."""
    dark = np.flatnonzero(rig.lost.share >= ALL).tolist()
    for _, group in groupby(dark, lambda k: rig.units[k].position):
        rows = list(group)
        owners = dict.fromkeys(rig.lost.owner[np.isin(rig.lost.unit, rows)].tolist())
        names = listed([rig.solids.names[owner] for owner in owners])
        loses = subject(rig, rows, "loses", "lose")
        says = f"{loses} all light on the way to the target, to {names}. Scenery in the wrong place or unit?"
        do = "Correct the solid or the target; look at the section, or at solve --glb."
        yield about(rig, rows, WARN, "all-lost", says=says, do=do)


def _cut(rig: Rig, units: list[int], owner: int, rows: Indices) -> Finding:
    part, lowest = rig.lost.part[rows], rig.lost.lowest[rows]
    thing = rig.solids.things[owner].name
    up = level(float(lowest.min()), rig.scene.settings.unit)
    worst = ""
    if len(units) > 1:
        worst = f", unit {numbers(rig, [units[int(part.argmax())]])[0]} most"
    loses = subject(rig, units, "loses", "lose")
    whose = "its" if len(units) == 1 else "their"
    says = f"{loses} {_shares(part)} of {whose} field to {thing}, from {up}{worst}."
    do = "Trim or move what is in the way, aim past it, or cut that edge with a shutter."
    return about(rig, units, WARN, "field-cut", says=says, do=do)


def _shares(part: Array) -> str:
    low, high = percent(part.min()), percent(part.max())
    return low if low == high else f"{low.removesuffix(' %')} to {high}"
