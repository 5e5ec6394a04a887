"""How rules tell what they found: one finding a unit, or one a position where several units share it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby

import numpy as np

from aimcalc.geometry.aim import Flags
from aimcalc.rig.answers import Finding
from aimcalc.rig.solve import Rig
from aimcalc.rig.wording import count, span
from aimcalc.scene.model import Position

STOP, WARN, NOTE = "stop", "warn", "note"
WORST_FIRST = {STOP: 0, WARN: 1, NOTE: 2}


def by_position(rig: Rig, fires: Flags | Sequence[bool]) -> Iterator[list[int]]:
    """The units where `fires` is true, a list for each position, in hang order."""
    rows = np.flatnonzero(fires).tolist()
    for _, group in groupby(rows, lambda k: rig.units[k].position):
        yield list(group)


def hung(rig: Rig) -> Iterator[tuple[Position, list[int]]]:
    """Every position that holds units, with them in ladder order."""
    for position, rows in zip(rig.scene.positions.values(), rig.rows.values(), strict=True):
        if rows:
            yield position, rows


def about(
    rig: Rig, rows: Sequence[int], severity: str, rule: str, *, says: str, do: str
) -> Finding:
    """A finding about units of one position: of the unit if there is one, else of the position."""
    if len(rows) == 1:
        return Finding(severity, rule, says, do, unit=rig.names[rows[0]])
    return Finding(severity, rule, says, do, position=rig.units[rows[0]].position)


def numbers(rig: Rig, rows: Iterable[int]) -> list[str]:
    """Unit numbers, without their position."""
    return [rig.units[k].number for k in rows]


def subject(rig: Rig, rows: Sequence[int], one: str, many: str) -> str:
    """Units of one position with a verb: "Unit 3 points", "Units 3 and 5 point", "All 12 units point"."""
    if 2 < len(rows) == len(rig.rows[rig.units[rows[0]].position]):
        return f"All {len(rows)} units {many}"
    return f"{count(numbers(rig, rows), 'Unit')} {one if len(rows) == 1 else many}"


def angles(values: Iterable[float]) -> str:
    """The span of angles in degrees: "8° to 14°"."""
    every = list(values)
    return span(min(every), max(every))
