"""What `aimcalc hang` prints: marks, cable, loads, circuits, counts and wedges in words, or as JSON."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import floor
from typing import TYPE_CHECKING

import msgspec

from aimcalc.landings.trims import REACH, Trims
from aimcalc.scene.model import Pipe
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

if TYPE_CHECKING:
    from aimcalc.hang.records import HangPlan
    from aimcalc.solid.rig import SolidRig


STEP = w.Step(0.01, 1.0)  # what a trim is told to, inwards: never farther than it may be
EDGE = 1e-6  # of a step
SLANTED = 0.5  # m from end to end: nobody leaves a pipe farther out of level (our choice)
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


def trims_line(rig: SolidRig, trims: Trims, length: w.LengthUnit) -> str:
    """ "TRIM, by the light alone: units hit untouched from 5.62 m to 6.35 m (7 misses first); ..." """
    pipe = rig.scene.positions[trims.pipe]
    assert isinstance(pipe, Pipe)
    first = list(dict.fromkeys(rig.number(name) for name in trims.first))
    told = f"{' and '.join(first)} {'miss' if len(first) > 1 else 'misses'} first"
    untouched = f"units hit untouched {_span(pipe, trims.lower, trims.higher, length)} ({told})"
    if min(trims.lower, trims.higher) <= 0:
        untouched = f"untouched, no other trim will do ({told})"
    tipped = _span(pipe, trims.lower_tipped, trims.higher_tipped, length)
    level = w.length(_inwards(min(trims.level, SLANTED), length), length, STEP)
    more = " or more" if trims.level >= SLANTED else ""
    return (
        f"TRIM, by the light alone: {untouched}; re-tilted, {tipped}; out of level, one end up to "
        f"{level}{more} over the other."
    )


def trims_json(trims: Trims) -> dict[str, object]:
    """The same as JSON tells it, metres: how far lower and higher; None where there is no limit in reach."""
    told: dict[str, object] = {
        key: None if isinstance(value, float) and value >= REACH else value
        for key, value in trims._asdict().items()
        if key != "first"
    }
    return {**told, "misses_first_lower": trims.first[0], "misses_first_higher": trims.first[1]}


def _span(pipe: Pipe, lower: float, higher: float, length: w.LengthUnit) -> str:
    """A range of trims: "from 5.62 m to 6.35 m"; of a pipe that slopes, how far lower and higher."""
    down, up = (_inwards(size, length) for size in (lower, higher))
    if min(lower, higher) >= REACH:
        return f"{w.length(down, length, STEP)} or more, lower or higher"
    if pipe.start[2] != pipe.end[2]:
        low, high = (w.length(size, length, STEP) for size in (down, up))
        return f"from {low} lower to {high} higher"
    size = STEP.size(length)
    lowest = -_inwards(-(pipe.start[2] - lower), length) if lower else pipe.start[2]
    highest = floor((pipe.start[2] + higher) / size + EDGE) * size
    return f"from {w.length(lowest, length, STEP)} to {w.length(highest, length, STEP)}"


def _inwards(size: float, length: w.LengthUnit) -> float:
    """A length in whole steps, down."""
    step = STEP.size(length)
    return floor(size / step + EDGE) * step
