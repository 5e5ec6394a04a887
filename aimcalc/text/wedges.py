"""Wedges to cut, in words: which, how each is set out, whom each serves and which way round."""

from __future__ import annotations

from collections.abc import Sequence
from math import tan
from typing import TYPE_CHECKING

from aimcalc.geometry.vectors import to_radians
from aimcalc.text import words as w

if TYPE_CHECKING:
    from aimcalc.hang.records import HangPlan, PositionPlan, WedgePlan
    from aimcalc.solid.rig import SolidRig


# Board and thickness: common practice, no source.
MADE_OF = "Of stiff card, foam board or thin plywood, 3 to 6 mm (1/8 to 1/4 in) thick."
HOW_CUT = (
    "Draw both lengths square to each other, join their ends, cut along the lines. Write angle and position "
    "on it; tie it to a lanyard."
)


def wedges_to_cut(plan: PositionPlan) -> list[list[WedgePlan]]:
    """The wedges of one position, each with every way that it is laid: one pan is one wedge."""
    cuts: dict[float, list[WedgePlan]] = {}
    for wedge in plan.wedges:
        cuts.setdefault(wedge.pan, []).append(wedge)
    return list(cuts.values())


def wedges_by_pan(plan: HangPlan) -> dict[float, list[str]]:
    """Every pan (degrees, rising) that wedges are cut for, with the positions that need one each."""
    pans: dict[float, list[str]] = {}
    for position in plan.positions:
        for cut in wedges_to_cut(position):
            pans.setdefault(cut[0].pan, []).append(position.position)
    return dict(sorted(pans.items()))


def rise_words(pan: float, length: w.LengthUnit) -> str:
    """How a wedge is set out: "5 3/8 in out per 12 in along".

    Over 45 degrees the fixed length is the one out from the pipe. To 1/8 in or 1 mm.
    """
    steep = pan > 45.0
    rise = tan(to_radians(90.0 - pan if steep else pan))
    ways = ("along", "out") if steep else ("out", "along")
    if length == "ft":
        return f"{_eighths(12 * rise)} in {ways[0]} per 12 in {ways[1]}"
    return f"{round(300 * rise)} mm {ways[0]} per 300 mm {ways[1]}"


def _eighths(inches: float) -> str:
    whole, rest = divmod(round(inches * 8), 8)
    part = ("", "1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8")[rest]
    return " ".join(piece for piece in (str(whole) if whole or not part else "", part) if piece)


def wedge_words(rig: SolidRig, cut: Sequence[WedgePlan]) -> str:
    """One wedge: "24° SR of US for 1, 2; flipped, SL of US for 3"."""
    ways = (f"{way_words(wedge, cut[0])} for {served(rig, wedge)}" for wedge in cut)
    return f"{w.angle(cut[0].pan)} {'; '.join(ways)}"


def way_words(wedge: WedgePlan, first: WedgePlan) -> str:
    """How a wedge is laid: "SR of US"; "flipped, SL of US" where it is not as for the first of them."""
    over = "flipped, " if _clockwise(wedge) != _clockwise(first) else ""
    return f"{over}{wedge.swing} of {wedge.square}"


def served(rig: SolidRig, wedge: WedgePlan) -> str:
    """The numbers of the units that a wedge serves: "1, 2"."""
    return ", ".join(rig.number(unit) for unit in wedge.units)


def _clockwise(wedge: WedgePlan) -> bool:
    """Whether units turn clockwise from square, seen from above; the yoke bar turns with them."""
    return (w.SIDES.index(wedge.swing) - w.SIDES.index(wedge.square)) % 4 == 1
