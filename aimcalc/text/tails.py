"""The side that each unit's tail is tied on, in words: one answer for every sheet that names it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from aimcalc.scene.model import Pipe, Stand
from aimcalc.text import words as w
from aimcalc.text.hang_rows import connector_words

if TYPE_CHECKING:
    from aimcalc.hang.records import Connector, HangPlan
    from aimcalc.solid.answers import Answer
    from aimcalc.solid.rig import SolidRig


def tail_words(rig: SolidRig, plan: HangPlan, length: w.LengthUnit) -> list[str]:
    """For every unit in hang order "tail SL", "tail at clamp" or, where nothing can be said, "".

    The side is the one the connector is tied on. Where a kind's tail is not known nothing is worked out
    for the hang sheet, and the side is the one that the back of the unit swings to.
    """
    connectors: list[Connector | None] = [None] * len(rig.units)
    for position in plan.positions:
        for k, unit in zip(rig.rows[position.position], position.units, strict=True):
            connectors[k] = unit.connector
    return [
        _words(rig, k, connector, answer, length)
        for k, (connector, answer) in enumerate(zip(connectors, rig.answers, strict=True))
    ]


def _words(
    rig: SolidRig, k: int, connector: Connector | None, answer: Answer, length: w.LengthUnit
) -> str:
    if isinstance(rig.positions[k], Stand):
        return ""
    where = connector_words(rig, k, connector, length)[0] if connector else ""
    if where:
        return "tail at clamp" if where == "AT CLAMP" else f"tail {where.removesuffix(' SIDE')}"
    kind = rig.kinds[k]
    return _by_swing(rig, k, answer) if kind.tail is None or kind.tail_exit is None else ""


def _by_swing(rig: SolidRig, k: int, answer: Answer) -> str:
    """The side that the back of a unit under (or over) its pipe swings to."""
    upright = isinstance(rig.positions[k], Pipe) and answer.mount in ("under", "over")
    if not upright or answer.attitude == "plumb":
        return ""
    if answer.swing is None or w.turn(answer.pan, answer.swing) == w.SQUARE:
        return "tail either"
    return f"tail {w.OPPOSITE[answer.swing]}"
