"""What `aimcalc hang` prints: marks, cable, loads, circuits, counts and wedges in words, or as JSON."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

import msgspec

from aimcalc.rig.answers import Finding
from aimcalc.rig.hang.records import CircuitPlan, HangOptions, Left, PositionPlan, Pull, PullCable
from aimcalc.sheets import words as w
from aimcalc.sheets.check_out import left_words
from aimcalc.sheets.facts import trim_words
from aimcalc.sheets.hang_facts import position_lines
from aimcalc.sheets.hang_lists import (
    CABLES,
    CIRCUITS,
    cable_rows,
    circuit_rows,
    heads,
    sorted_pulls,
)
from aimcalc.sheets.hang_rows import HangRow, hang_rows

if TYPE_CHECKING:
    from aimcalc.rig.hang.records import HangPlan
    from aimcalc.rig.solve import Rig

HEADS = (
    "unit",
    "kind",
    "mark",
    "hung",
    "from ends",
    "spacing",
    "circuit",
    "cable",
    "tail tied",
    "weight",
)


class Hung(msgspec.Struct, frozen=True):
    """What `hang --json` prints: the plan, with the title before it and the findings after it."""

    scene: str
    unit_of_length: str
    positions: list[PositionPlan]
    circuits: list[CircuitPlan]
    cables: list[PullCable]
    counts: list[Pull]
    left: Left
    options: HangOptions
    findings: list[Finding]


def hang_json(rig: Rig, plan: HangPlan, findings: Sequence[Finding]) -> bytes:
    """The whole plan as one JSON object, indented, in metres, kilograms, watts. Unknown is null."""
    every = {name: getattr(plan, name) for name in plan.__struct_fields__}
    hung = Hung(
        scene=rig.scene.settings.title, unit_of_length="m", findings=list(findings), **every
    )
    return msgspec.json.format(msgspec.json.encode(hung), indent=1) + b"\n"


def hang_text(rig: Rig, plan: HangPlan, length: w.LengthUnit) -> str:
    """The work at the pipe as tables: every position, then cable, circuits, what to pull, what is left."""
    settings = rig.scene.settings
    revision = f", revision {settings.revision}" if settings.revision else ""
    parts = [f"{settings.title}{revision}: {w.count(len(rig.units), 'unit')}"]
    parts += _positions(rig, plan, length)
    if cables := cable_rows(rig, plan, length):
        parts.append(f"Cable, in laying order\n{text_table(heads(CABLES[:-1]), cables)}")
    if circuits := circuit_rows(plan):
        parts.append(f"Circuits in use\n{text_table(heads(CIRCUITS), circuits)}")
    parts.append(_pulls(plan))
    parts.append(left_words(plan))
    return "\n\n".join(parts)


def _positions(rig: Rig, plan: HangPlan, length: w.LengthUnit) -> Iterator[str]:
    rows = hang_rows(rig, plan, (), length)
    for position in plan.positions:
        if not position.units:
            continue
        trim = trim_words(rig.scene.positions[position.position], length)
        head = f"{position.position}: {w.count(len(position.units), 'unit')}, {trim}"
        told = [f"  {line}" for line in position_lines(rig, position, length)]
        table = text_table(HEADS, [_cells(row) for row in rows[position.position]])
        yield "\n".join([head, *told, table])


def _cells(row: HangRow) -> list[str]:
    return [
        row.number,
        row.kind,
        row.mark,
        row.how,
        ", ".join(row.ends),
        row.spacing,
        row.circuit,
        ", ".join(part for part in row.cable if part),
        ", ".join(part for part in row.connector if part),
        row.weight,
    ]


def _pulls(plan: HangPlan) -> str:
    """What to pull for the whole show, with spare."""
    whole = sorted_pulls([pull for pull in plan.counts if pull.position is None])
    rows = [[p.item, str(p.count), str(p.spare), str(p.count + p.spare)] for p in whole]
    return f"Pull for the whole show\n{text_table(('item', 'needed', 'spare', 'take'), rows)}"


def text_table(names: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    """Rows under their heads, each column as wide as its widest cell; empty columns are left out."""
    columns = [column for column in zip(names, *rows, strict=True) if any(column[1:])]
    widths = [max(map(len, column)) for column in columns]
    return "\n".join(
        "  " + "  ".join(map(str.ljust, line, widths)).rstrip()
        for line in zip(*columns, strict=True)
    )
