"""What `aimcalc hang` prints: marks, cable, loads, circuits, counts and wedges in words, or as JSON."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

import msgspec

from aimcalc.sheets.counts import (
    CABLES,
    CIRCUITS,
    CUTS,
    MARKS,
    PULLS,
    cable_rows,
    circuit_rows,
    cut_rows,
    heads,
    mark_cells,
    pull_rows,
)
from aimcalc.sheets.test_sheet import to_do_words
from aimcalc.solid.answers import Finding
from aimcalc.text import words as w
from aimcalc.text.columns import folded, table
from aimcalc.text.facts import headline, trim_words
from aimcalc.text.hang_rows import hang_rows, position_lines
from aimcalc.text.lists import json_bytes
from aimcalc.text.trims_text import trims_json, trims_line

if TYPE_CHECKING:
    from aimcalc.hang.records import HangPlan
    from aimcalc.landings.trims import Trims
    from aimcalc.solid.rig import SolidRig


SECOND_LINE = ("circuit",)  # where a row about a unit goes on, on a narrow terminal


def hang_json(
    rig: SolidRig, plan: HangPlan, findings: Sequence[Finding], trims: Sequence[Trims] = ()
) -> bytes:
    """The whole plan as one JSON object, indented, in metres, kilograms, watts. Unknown is null.

    `trims` has how far off its trim each pipe may hang; null: no limit within the 2 m that are looked at.
    """
    told = {
        "scene": rig.scene.settings.title,
        "unit_of_length": "m",
        **msgspec.structs.asdict(plan),
        "trims": [trims_json(each) for each in trims],
        "findings": findings,
    }
    return json_bytes(told)


def hang_text(
    rig: SolidRig,
    plan: HangPlan,
    length: w.LengthUnit,
    width: int | None = None,
    trims: Sequence[Trims] = (),
) -> str:
    """The work at the pipe as tables: every position, then cable, circuits, what to pull, what is left.

    `trims` are told with their pipes. `width` is the terminal's, see `aimcalc.text.columns`.
    """
    cables, circuits = cable_rows(rig, plan, length), circuit_rows(rig, plan)
    parts = [[headline(rig)], *_positions(rig, plan, trims, length, width)]
    if cables:
        parts.append(["Cable, in laying order", *table(heads(CABLES[:-1]), cables, width)])
    if circuits:
        parts.append(["Circuits in use", *table(heads(CIRCUITS), circuits, width)])
    if plan.counts:
        parts.append(["Pull for the whole show", *table(PULLS, pull_rows(plan), width)])
    if plan.cuts:
        parts.append(["Colour to cut", *table(heads(CUTS[:-2]), cut_rows(plan), width)])
    if rig.units:
        parts.append([to_do_words(plan)])
    return "\n\n".join(folded("\n".join(lines), width) for lines in parts)


def _positions(
    rig: SolidRig,
    plan: HangPlan,
    trims: Sequence[Trims],
    length: w.LengthUnit,
    width: int | None,
) -> Iterator[list[str]]:
    told = {each.pipe: f"  {trims_line(rig, each, length)}" for each in trims}
    rows = hang_rows(rig, plan, (), length)
    for position in plan.positions:
        if not position.units:
            continue
        trim = trim_words(rig.scene.positions[position.position], length)
        yield [
            f"{position.position}: {w.count(len(position.units), 'unit')}, {trim}",
            *(f"  {line}" for line in position_lines(rig, position, length)),
            *filter(None, [told.get(position.position)]),
            *table(MARKS[1:], [mark_cells(r) for r in rows[position.position]], width, SECOND_LINE),
        ]
