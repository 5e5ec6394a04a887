"""What is told of a whole position at its hang sheet's head: weight, lines, wedges."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from aimcalc.rig.hang.findings.saying import short, weight
from aimcalc.scene.model import Position
from aimcalc.sheets import words as w
from aimcalc.sheets.hang_rows import place_words

if TYPE_CHECKING:
    from aimcalc.rig.hang.records import PositionPlan, WedgePlan
    from aimcalc.rig.solve import Rig


def position_lines(rig: Rig, plan: PositionPlan, length: w.LengthUnit) -> Iterator[str]:
    """Lines "WORD: sentence" about one position."""
    position = rig.scene.positions[plan.position]
    yield f"WEIGHT: {_weight(plan, length)}"
    if plan.lines:
        yield f"LINES: {_lines(position, plan, length)}"
    if plan.wedges:
        yield f"WEDGES: {'. '.join(wedge_words(cut) for cut in wedges_to_cut(plan))}."


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


def wedges_to_cut(plan: PositionPlan) -> list[list[WedgePlan]]:
    """The wedges of one position, each with every way that it is laid: one pan is one wedge."""
    cuts: dict[float, list[WedgePlan]] = {}
    for wedge in plan.wedges:
        cuts.setdefault(wedge.pan, []).append(wedge)
    return list(cuts.values())


def wedge_words(cut: Sequence[WedgePlan]) -> str:
    """One wedge: "24° SR of US for 1, 2; turned over, SL of US for 3"."""
    return f"{w.angle(cut[0].pan)} {'; '.join(way_words(wedge, cut[0]) for wedge in cut)}"


def way_words(wedge: WedgePlan, first: WedgePlan) -> str:
    """How a wedge is laid for some units: as for the first of them, or turned over."""
    over = "turned over, " if _clockwise(wedge) != _clockwise(first) else ""
    numbers = ", ".join(short(unit) for unit in wedge.units)
    return f"{over}{wedge.swing} of {wedge.square} for {numbers}"


def _clockwise(wedge: WedgePlan) -> bool:
    """Whether units turn clockwise from square, seen from above; the yoke bar turns with them."""
    return (w.SIDES.index(wedge.swing) - w.SIDES.index(wedge.square)) % 4 == 1
