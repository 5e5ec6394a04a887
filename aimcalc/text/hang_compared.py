"""What the hang sheets of a show print, in the words that a comparison puts side by side."""

from __future__ import annotations

from typing import TYPE_CHECKING

from aimcalc.landings.changes import Hung, HungUnit
from aimcalc.rig.wording import weight
from aimcalc.text import words as w
from aimcalc.text.hang_rows import HangRow, hang_rows, place_words, wedges_to_cut

if TYPE_CHECKING:
    from aimcalc.hang.records import PositionPlan, WedgePlan
    from aimcalc.show import Show


def hung_of(show: Show, length: w.LengthUnit) -> Hung:
    """Cable, tail and wedge of every unit, weight and lift lines of every position, printed in `length`."""
    rig, plan = show.rig, show.hang
    rows = hang_rows(rig, plan, (), length)
    wedges = {
        unit: wedge
        for position in plan.positions
        for wedge in position.wedges
        for unit in wedge.units
    }
    units = {
        rig.names[row.k]: _unit(row, wedges.get(rig.names[row.k]))
        for mine in rows.values()
        for row in reversed(mine)
    }
    positions = {each.position: _lines(show, each, length) for each in plan.positions}
    return Hung(units, positions)


def _unit(row: HangRow, wedge: WedgePlan | None) -> HungUnit:
    return HungUnit(
        outlet=row.outlet,
        cable=", ".join(filter(None, (*row.cable, *row.twofer))),
        tail=", ".join(filter(None, row.connector)),
        tied=", ".join(row.connector[:2]),
        wedge=f"{w.angle(wedge.pan)} {wedge.swing} of {wedge.square}" if wedge else "",
        pan=wedge.pan if wedge else None,
        ways=(wedge.swing, wedge.square) if wedge else ("", ""),
    )


def _lines(show: Show, plan: PositionPlan, length: w.LengthUnit) -> dict[str, str]:
    """The lines about one position: what it weighs, the wedges to cut, and what each lift line carries."""
    least = "at least " if plan.missing else ""
    told = {"weight": f"{least}{weight(plan.weight, length)}"} if plan.units else {}
    if plan.wedges:
        told["wedges"] = ", ".join(w.angle(cut[0].pan) for cut in wedges_to_cut(plan))
    position = show.scene.positions[plan.position]
    for line in plan.lines:
        load = "SLACK" if line.slack else weight(line.load, length)
        told[f"line at {place_words(position, line.at, length)}"] = load
    return told
