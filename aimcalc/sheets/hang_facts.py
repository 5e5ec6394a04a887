"""What is told of a whole position at its hang sheet's head: place, weight, lines, wedges."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from aimcalc.rig.wording import listed, weight
from aimcalc.scene.model import Boom, Position, Stand
from aimcalc.sheets import words as w
from aimcalc.sheets.hang_rows import place_words

if TYPE_CHECKING:
    from aimcalc.rig.hang.records import PositionPlan, WedgePlan
    from aimcalc.rig.solve import Rig


def position_lines(rig: Rig, plan: PositionPlan, length: w.LengthUnit) -> Iterator[str]:
    """Lines "WORD: sentence" about one position."""
    position = rig.scene.positions[plan.position]
    if isinstance(position, Boom | Stand):
        yield f"PLACE: {_foot(position, length)}"
    yield f"WEIGHT: {_weight(plan, length)}"
    if plan.lines:
        yield f"LINES: {_lines(position, plan, length)}"
    if plan.wedges:
        yield f"WEDGES: {'. '.join(wedge_words(rig, cut) for cut in wedges_to_cut(plan))}."


def _foot(position: Boom | Stand, length: w.LengthUnit) -> str:
    """Where a boom or a stand is to be put on the deck."""
    foot = w.place(position.x, position.y, length, w.SIZE)
    top = ""
    if isinstance(position, Stand) and position.z is not None:
        top = f", its top {w.length(position.z, length, w.SIZE)} above the deck at the plaster line"
    return f"{foot}, from the centre line and the plaster line{top}."


def _weight(plan: PositionPlan, length: w.LengthUnit) -> str:
    """The sum, what is in it and what is not, and the posted rating."""
    pipe = "" if plan.own_weight is None else f"pipe {weight(plan.own_weight, length)} and "
    gear = f" with {listed(plan.counted)}" if plan.counted else ""
    least = "at least " if plan.missing else ""
    told = (
        f"{least}{weight(plan.weight, length)}: {pipe}{w.count(len(plan.units), 'unit')}{gear}. "
        f"Not counted: {listed(plan.left_out)}."
    )
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


def wedge_words(rig: Rig, cut: Sequence[WedgePlan]) -> str:
    """One wedge: "24° SR of US for 1, 2; flipped, SL of US for 3"."""
    return f"{w.angle(cut[0].pan)} {'; '.join(way_words(rig, wedge, cut[0]) for wedge in cut)}"


def way_words(rig: Rig, wedge: WedgePlan, first: WedgePlan) -> str:
    """How a wedge is laid for some units: as for the first of them, or flipped."""
    over = "flipped, " if _clockwise(wedge) != _clockwise(first) else ""
    numbers = ", ".join(rig.number(unit) for unit in wedge.units)
    return f"{over}{wedge.swing} of {wedge.square} for {numbers}"


def _clockwise(wedge: WedgePlan) -> bool:
    """Whether units turn clockwise from square, seen from above; the yoke bar turns with them."""
    return (w.SIDES.index(wedge.swing) - w.SIDES.index(wedge.square)) % 4 == 1
