"""What is told of a whole position at its hang sheet's head: weight, lines, wedges, forearms."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from aimcalc.rig.hang.findings.saying import short, weight
from aimcalc.scene.model import Position
from aimcalc.sheets import words as w
from aimcalc.sheets.hang_rows import place_words

if TYPE_CHECKING:
    from aimcalc.rig.hang.records import ByForearm, PositionPlan, WedgePlan
    from aimcalc.rig.solve import Rig

OFF = 0.05  # metres by which the forearm must be wrong over a row to be worth telling


def position_lines(rig: Rig, plan: PositionPlan, length: w.LengthUnit) -> Iterator[str]:
    """Lines "WORD: sentence" about one position."""
    position = rig.scene.positions[plan.position]
    yield f"WEIGHT: {_weight(plan, length)}"
    if plan.lines:
        yield f"LINES: {_lines(position, plan, length)}"
    if plan.wedges:
        yield f"WEDGES: {'; '.join(wedge_words(wedge) for wedge in plan.wedges)}."
    if plan.by_forearm is not None and _much(plan.by_forearm):
        yield f"FOREARM: {_forearm(plan.by_forearm, length)}"


def _weight(plan: PositionPlan, length: w.LengthUnit) -> str:
    parts = [w.count(len(plan.units), "unit")]
    if plan.own_weight is not None:
        parts.insert(0, f"the pipe's own {weight(plan.own_weight, length)}")
    least = "at least " if plan.missing else ""
    told = f"{least}{weight(plan.weight, length)}, {' and '.join(parts)}; cable is not counted."
    if plan.sort != "pipe":
        return told
    if plan.rating is None:
        return f"{told} No rating is posted: ask a qualified person before it is loaded."
    return f"{told} Posted rating {weight(plan.rating, length)}."


def _lines(position: Position, plan: PositionPlan, length: w.LengthUnit) -> str:
    """Every lift line with what it carries."""
    told = [
        f"{place_words(position, line.at, length)} {'SLACK' if line.slack else weight(line.load, length)}"
        for line in plan.lines
    ]
    return f"{', '.join(told)}. Worked out, not measured."


def wedge_words(wedge: WedgePlan) -> str:
    """ "24° SL of US for units 1, 2 and 3"."""
    numbers = [short(unit) for unit in wedge.units]
    told = ", ".join(numbers)
    return f"{w.angle(wedge.pan)} {wedge.swing} of {wedge.square} for {told}"


def _much(arm: ByForearm) -> bool:
    return max(abs(arm.men), abs(arm.women)) > OFF


def _forearm(arm: ByForearm, length: w.LengthUnit) -> str:
    def off(metres: float) -> str:
        return f"{w.length(metres, length, w.SIZE)} {'too far' if metres > 0 else 'short'}"

    step = "18 in" if length == "ft" else "46 cm"
    return (
        f"stepped out by forearm as {step} each, this row's far clamp lands {off(arm.men)} (mean of men), "
        f"{off(arm.women)} (mean of women). Use the tape."
    )
