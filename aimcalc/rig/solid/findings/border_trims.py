"""For each border the heights at which it neither cuts a field nor shows a unit to the front row."""

from __future__ import annotations

from collections.abc import Iterator
from math import isfinite

import numpy as np

from aimcalc.geometry.borders import Fields, Sights, Trim
from aimcalc.geometry.borders import trims as heights
from aimcalc.geometry.occlusion import caster
from aimcalc.geometry.solids import Soup
from aimcalc.geometry.vectors import points
from aimcalc.rig.answers import Finding
from aimcalc.rig.findings.telling import NOTE, WARN
from aimcalc.rig.solid.sights import Row, borders_of, front_row_of, masked, sight_points
from aimcalc.rig.solve import Rig
from aimcalc.rig.wording import level


def trims(rig: Rig) -> Iterator[Finding]:
    """A note for each border: its range of heights; a warn where there is none."""
    borders = borders_of(rig.scene)
    if not borders:
        return
    row = front_row_of(rig.scene)
    for k, trim in zip(borders, border_trims(rig, borders, row), strict=True):
        yield _told(rig, k, trim, row)


def border_trims(rig: Rig, borders: list[int], row: Row | None) -> list[Trim]:
    """The range of heights of each border's bottom edge; without seats nothing bounds it from above."""
    hidden = masked(rig)
    eyes = np.zeros((3, 0)) if row is None else row.eyes
    soup = rig.solids.soup
    others = ~np.isin(soup.owner, borders)
    found = heights(
        [points(rig.scene.solids[k].panel or ()) for k in borders],
        Fields(rig.aims.lens, rig.aims.axis, rig.arrays.point, rig.arrays.field / 2),
        Sights(sight_points(rig, hidden), eyes),
        caster(Soup(soup.vertices, soup.faces[:, others], soup.owner[others])),
    )
    return [
        t._replace(high_unit=int(hidden[t.high_unit])) if t.high_unit >= 0 else t for t in found
    ]


def _told(rig: Rig, border: int, trim: Trim, row: Row | None) -> Finding:
    solid, unit = rig.scene.solids[border], rig.scene.settings.unit
    bottom = min(corner[2] for corner in solid.panel or ())
    hangs = f"{solid.name} hangs {level(bottom, unit)}"
    bounds = "; ".join(_bounds(rig, trim, row))
    if trim.low > trim.high:
        says = f"{_capital(hangs)}; no trim satisfies both: {bounds}."
        do = "Decide which matters more; re-aim, shutter, or trim the pipe behind it higher."
        return Finding(WARN, "border-no-trim", says, do)
    says = f"{_capital(hangs)}; {bounds or 'nothing depends on its height'}."
    return Finding(NOTE, "border-trim", says, _move(trim, bottom, unit))


def _bounds(rig: Rig, trim: Trim, row: Row | None) -> Iterator[str]:
    """What bounds a border from below and from above; a bound that does not exist has no words."""
    unit = rig.scene.settings.unit
    if isfinite(trim.low):
        yield f"below {level(trim.low, unit)} it cuts the field of {rig.names[trim.low_unit]}"
    if isfinite(trim.high):
        where = f"the front row of {row.name} sees" if row else "the audience sees"
        yield f"above {level(trim.high, unit)} {where} {rig.names[trim.high_unit]}"


def _move(trim: Trim, bottom: float, unit: str) -> str:
    """Which way the border has to go, if at all."""
    if bottom < trim.low:
        return f"Take it out to {level(trim.low, unit)} or a little higher."
    if bottom > trim.high:
        return f"Bring it in to {level(trim.high, unit)} or a little lower."
    return "Leave it there."


def _capital(text: str) -> str:
    return text[0].upper() + text[1:]
