"""How rules tell what they found: one finding a unit, or one a position where several units share it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby
from math import ceil

import numpy as np

from aimcalc.geometry.aim import Flags
from aimcalc.hang.records import HangPlan, UnitPlan
from aimcalc.named import regex
from aimcalc.rig.wording import INCH, count, length, span
from aimcalc.solid.answers import Finding
from aimcalc.solid.rig import SolidRig

STOP, WARN, NOTE = "stop", "warn", "note"
WORST_FIRST = {STOP: 0, WARN: 1, NOTE: 2}


def by_position(rig: SolidRig, fires: Flags | Sequence[bool]) -> Iterator[list[int]]:
    """The units where `fires` (N,) is true, a list of rows for each position, in hang order."""
    rows = np.flatnonzero(fires).tolist()
    for _, group in groupby(rows, lambda k: rig.units[k].position):
        yield list(group)


def about(
    rig: SolidRig, rows: Sequence[int], severity: str, rule: str, *, says: str, do: str
) -> Finding:
    """A finding about units of one position: of the unit if there is one, else of the position."""
    row = list_row(rig, rows)
    if len(rows) == 1:
        return Finding(severity, rule, says, do, unit=rig.names[rows[0]], row=row)
    return Finding(severity, rule, says, do, position=rig.units[rows[0]].position, row=row)


MOST_ROWS = 8  # of units that a finding names by their rows in the hang list


def list_row(rig: SolidRig, rows: Sequence[int]) -> str | None:
    """Where units are written in the hang list: "hang.xlsx rows 3, 5"; None of others, and of many."""
    found = [_LIST_ROW.match(rig.units[k].source) for k in rows] if len(rows) <= MOST_ROWS else []
    lines = [line for line in found if line]
    if not lines or len(lines) != len(rows):
        return None
    told = ", ".join(line[2] for line in lines)
    return f"{lines[0][1]} {'row' if len(lines) == 1 else 'rows'} {told}"


_LIST_ROW = regex(r"(.*?),(?: sheet .*,)? row (\d+)(?:, hidden)?$")


def numbers(rig: SolidRig, rows: Iterable[int]) -> list[str]:
    """Unit numbers, without their position."""
    return [rig.units[k].number for k in rows]


def subject(rig: SolidRig, rows: Sequence[int], one: str, many: str) -> str:
    """Units of one position with a verb: "Unit 3 points", "Units 3 and 5 point", "All 12 units point"."""
    if 2 < len(rows) == len(rig.rows[rig.units[rows[0]].position]):
        return f"All {len(rows)} units {many}"
    return f"{count(numbers(rig, rows), 'Unit')} {one if len(rows) == 1 else many}"


def angles(values: Iterable[float]) -> str:
    """The span of angles in degrees: "8° to 14°"."""
    every = list(values)
    return span(min(every), max(every))


def name_beside(rig: SolidRig, unit: int, other: int) -> str:
    """How a unit is called in a sentence about another: its number, with its position where that differs."""
    if rig.units[unit].position == rig.units[other].position:
        return rig.units[other].number
    return rig.names[other]


def of_pair(
    rig: SolidRig, unit: int, other: int, severity: str, rule: str, *, says: str, do: str
) -> Finding:
    """A finding about two units: of their position if they share one, else of the first unit."""
    if rig.units[unit].position == rig.units[other].position:
        return Finding(severity, rule, says, do, position=rig.units[unit].position)
    return Finding(severity, rule, says, do, unit=rig.names[unit])


def grouped(rig: SolidRig, rows: Iterable[int], keys: Sequence[object]) -> Iterator[list[int]]:
    """Indices into `rows` (units) and `keys`, gathered by the unit's position and the key."""
    groups: dict[tuple[str, object], list[int]] = {}
    for j, (unit, key) in enumerate(zip(rows, keys, strict=True)):
        groups.setdefault((rig.units[unit].position, key), []).append(j)
    return iter(groups.values())


def percent(share: float) -> str:
    """A share as people say it, never less than 1 %: "12 %"."""
    return f"{max(1, round(100 * float(share)))} %"


def at_least(metres: float, unit: str) -> str:
    """A length that something must reach, up to the next centimetre or inch: never told short."""
    step = INCH if unit in ("ft", "in") else 0.01
    return length(ceil(metres / step - 1e-6) * step, unit)


def in_hang_order(plan: HangPlan) -> list[UnitPlan]:
    """The plans of all units, one for each unit of the rig."""
    return [unit for position in plan.positions for unit in position.units]


def of_position(position: str, severity: str, rule: str, *, says: str, do: str) -> Finding:
    """A finding about a whole position."""
    return Finding(severity, rule, says, do, position=position)
