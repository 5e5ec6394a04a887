"""The figures of the units on a section, a row each."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.vectors import Array
from aimcalc.rig.solid.side_view import Beams
from aimcalc.sheets import words as w

if TYPE_CHECKING:
    from aimcalc.rig.solve import Rig

HEADERS = (
    "unit",
    "kind",
    "field",
    "pivot",
    "square",
    "pan",
    "tip",
    "plumb",
    "throw",
    "field edges",
    "aimed at",
)


def rows_of(rig: Rig, shown: Beams, length: w.LengthUnit) -> list[list[str]]:
    """The header and a row for each unit shown: what it is, how it is set, how far its light goes."""
    answers = rig.answers()
    rows = [list(HEADERS)]
    for row, k in enumerate(shown.unit.tolist()):
        a, unit = answers[k], rig.units[k]
        tip = w.tip(a.down or 0.0)
        rows.append(
            [
                a.unit,
                a.kind,
                _field(rig, k),
                w.length(a.pivot[2], length, w.HANG),
                a.square or "",
                w.turn(a.pan, a.swing),
                f"{tip.word} {tip.angle}".rstrip(),
                tip.plumb,
                w.length(a.throw or 0.0, length, w.SIZE),
                _edges(rig, shown, row),
                unit.target or "a point",
            ]
        )
    return rows


def _field(rig: Rig, k: int) -> str:
    """The field's full angle, both of an oval's."""
    oval = rig.kinds[k].oval or (float(np.degrees(rig.arrays.field[k])),)
    return " x ".join(w.angle(full) for full in oval)


def _edges(rig: Rig, shown: Beams, row: int) -> str:
    """The field's two edges as angles from level, the lower first: "DOWN 41° to DOWN 15°"."""
    axis = rig.aims.axis[:, shown.unit[row]]
    told = [
        _edge(axis, end[:, row] - rig.aims.lens[:, shown.unit[row]])
        for end in (shown.lower, shown.upper)
    ]
    return " to ".join(told)


def _edge(axis: Array, way: Array) -> str:
    """An edge's tip; one that has gone past straight down or up says so, as it then points the other way."""
    tip = w.tip(float(np.degrees(np.arctan2(-way[2], np.hypot(way[0], way[1])))))
    past = " past plumb" if axis[:2] @ way[:2] < 0 else ""
    return f"{tip.word} {tip.angle}".rstrip() + past
