"""Cables and tails in words: which serves a unit, where it is folded and tied, on which side its tail is."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, floor
from typing import TYPE_CHECKING

from aimcalc.hang.plan import Twofer, cable_name
from aimcalc.hang.tubes import ways
from aimcalc.named import NamedTuple
from aimcalc.scene.model import Pipe, Position, Stand, Unit
from aimcalc.text import words as w
from aimcalc.text.names import short
from aimcalc.text.rows import along, zero_mark

if TYPE_CHECKING:
    from aimcalc.hang.records import CableRun, Connector, HangPlan, UnitPlan
    from aimcalc.solid.answers import Answer
    from aimcalc.solid.rig import SolidRig


MOST_IN_CELL = 100  # numbers of units
NOTHING: tuple[str, ...] = ("",)


def cable_words(rig: SolidRig, k: int, plan: UnitPlan, length: w.LengthUnit) -> tuple[str, ...]:
    """Which cable serves a unit, where it is folded back, and its ties."""
    run = plan.cable
    if run.plugs_in:
        return ("TAIL REACHES OUTLET",)
    if run.with_unit is not None:
        return "TWOFER", f"with unit {rig.number(run.with_unit)}"
    if run.need is None:
        return NOTHING
    ties = w.count(run.ties or 0, "tie")
    if run.stock is None:
        return "NO CABLE", f"needs {w.length_up(run.need, length, w.SIZE)}", ties
    fold = " ".join(fold_words(rig, k, plan, length))
    return f"{cable_name(rig, run.stock)} cable", fold, ties


def folded_lines(cable: tuple[str, ...]) -> tuple[str, ...]:
    """The words for a cable, as `cable_words` has them, with the second of two folds on a line of its own."""
    if len(cable) < 3 or THEN not in cable[1]:
        return cable
    first, _, second = cable[1].partition(THEN)
    return cable[0], f"{first},", f"then {second}, {cable[2]}"


def twofer_words(rig: SolidRig, run: CableRun, twofer: Twofer | None) -> list[str]:
    """Which twofers a unit is on: "TWOFER with 2", "TWOFERS at the outlet with 3, 4", one less than units.

    The words for the cable of a guest say the first.
    """
    if twofer is None:
        return []
    here = [] if run.with_unit is not None else twofer.here
    places = (
        ("", here, twofer.more_here),
        (" at the outlet", twofer.at_outlet, twofer.more_at_outlet),
    )
    return [
        f"TWOFER{'S' if len(ks) > 1 else ''}{where} with "
        f"{', '.join(rig.units[j].number for j in ks)}{_and_more(more)}"
        for where, ks, more in places
        if ks
    ]


def in_one_cell(numbers: Sequence[str]) -> str:
    """Numbers of units in a row: "1, 2, 3"; past MOST_IN_CELL, which no circuit comes near, a count.

    A cell makes its column as wide in every row.
    """
    return f"{', '.join(numbers[:MOST_IN_CELL])}{_and_more(len(numbers) - MOST_IN_CELL)}"


def _and_more(more: int) -> str:
    return f" and {more} more" if more > 0 else ""


THEN = ", then "
SPARE = ("spare", "at the unit")


def fold_words(rig: SolidRig, k: int, plan: UnitPlan, length: w.LengthUnit) -> tuple[str, str]:
    """Where a cable is folded back on itself: "back at" and "3.18 m SL"; what to do, and where.

    "first to" where that is away from the unit; both places where it is folded twice.
    """
    position = rig.positions[k]
    if plan.cable.double_back is None or isinstance(position, Stand):
        return SPARE
    turns = _printed_turns(rig.units[k], plan, length)
    if turns is None:
        return SPARE if plan.cable.folds else ("fold back", "more than twice")
    how = "first to" if plan.folds_away else "back at"
    return how, THEN.join(place_words(position, turn, length) for turn in turns)


def _printed_turns(unit: Unit, plan: UnitPlan, length: w.LengthUnit) -> list[float] | None:
    """Where a cable turns, by the places that are printed and rounded towards its outlet.

    So whoever lays it from the outlet printed, round these places and on to the tie printed never runs short
    of what is kept at the unit. None where nothing is left to fold, and where two folds do not take it up.
    """
    outlet, turn = plan.cable.outlet or 0.0, plan.cable.double_back or 0.0
    clamp, place = unit.at or 0.0, plan.connector.place or 0.0
    told_clamp, told_place = (w.rounded(x, length, w.HANG) for x in (clamp, place))
    tie, told_tie, beyond, told_beyond = clamp + place, told_clamp + told_place, 0.0, 0.0
    if unit.mount == "arm":
        tie, told_tie = clamp, told_clamp
        beyond = max(0.0, unit.arm - place)
        told_beyond = max(0.0, w.rounded(unit.arm, length, w.SIZE) - told_place)
    told_outlet = w.rounded(outlet, length, w.SIZE)
    sense = 1.0 if turn >= outlet else -1.0
    step, again = w.SIZE.size(length), plan.cable.fold_again
    if plan.cable.folds is False:
        if again is None:
            return None
        told = sense * floor(sense * turn / step + 1e-6) * step
        again += told - turn + (told_tie - tie - told_outlet + outlet) / 2
        again += sense * (told_beyond - beyond) / 2
        return [told, sense * ceil(sense * again / step - 1e-6) * step]
    turn += (told_outlet - outlet + told_tie - tie - sense * (told_beyond - beyond)) / 2
    turn = sense * floor(sense * turn / step + 1e-6) * step
    low, high = min(told_outlet, told_tie), max(told_outlet, told_tie)
    return None if low <= turn <= high else [turn]


class CableEnd(NamedTuple):
    """One end of a cable, as its label says it."""

    end: str  # OUTLET or UNIT
    cable: str  # "5 ft"
    start: str  # "A4, 8'-9" SL, pipe 1"
    goal: str  # "unit 3, pipe 1"
    fold: str  # "back at 6'-4" SL"
    units: list[str]  # by name, "position/number"


def cable_ends(rig: SolidRig, plan: HangPlan, length: w.LengthUnit) -> list[CableEnd]:
    """Both ends of every cable in laying order, the outlet's first."""
    plans = {unit.unit: unit for position in plan.positions for unit in position.units}
    ends = []
    for cable in plan.cables:
        unit, k = plans[cable.units[0]], rig.by_name[cable.units[0]]
        name = short(rig, cable.position)
        numbers = in_one_cell([rig.number(each) for each in cable.units])
        outlet = outlet_words(rig.positions[k], unit.cable.outlet, length)
        long = f"needs {w.length_up(cable.need, length, w.SIZE)}"
        if cable.stock is not None:
            long = cable_name(rig, cable.stock)
        ends += [
            CableEnd(
                end=end,
                cable=long,
                start=", ".join(filter(None, (cable.circuit, outlet, name))),
                goal=f"{'unit' if len(cable.units) == 1 else 'units'} {numbers}, {name}",
                fold="" if cable.stock is None else " ".join(fold_words(rig, k, unit, length)),
                units=cable.units,
            )
            for end in ("OUTLET", "UNIT")
        ]
    return ends


def outlet_words(position: Position, outlet_m: float | None, length: w.LengthUnit) -> str:
    """Where an outlet is: along its position as `at`, or how far along the deck from a stand.

    `outlet_m` counts as `at`; None where no outlet is given.
    """
    if outlet_m is None:
        return ""
    if not isinstance(position, Stand):
        return place_words(position, outlet_m, length)
    return f"{w.length(outlet_m, length, w.SIZE)} off" if outlet_m else "at stand"


def place_words(position: Position, at_m: float, length: w.LengthUnit) -> str:
    """A place along a position, metres as `at`: "3.18 m SL", "1.20 m UP"."""
    if isinstance(position, Pipe):
        return w.mark(at_m, along(position), zero_mark(position), length, w.SIZE)
    return f"{w.length(at_m, length, w.SIZE)} UP"


def connector_words(
    rig: SolidRig, k: int, connector: Connector, length: w.LengthUnit
) -> tuple[str, ...]:
    """Where the tail's connector is tied, and within how far on that side the loop lasts."""
    place, side = connector.place, connector.side
    if place is None:
        return NOTHING
    if abs(place) < w.HANG.metres / 2:
        return "AT CLAMP", _within(connector.furthest, side, length)
    way = side if rig.units[k].mount == "arm" else ways(rig.positions[k])[place < 0]
    reach = connector.furthest if way == side else connector.other
    return f"{way} SIDE", w.length(place, length, w.HANG), _within(reach, "", length)


def _within(reach: float | None, side: str | None, length: w.LengthUnit) -> str:
    """How far from the clamp the focus loop lasts, rounded down: "tie within 0.50 m SL"."""
    if reach is None:
        return ""
    step = w.SIZE.size(length)
    least = floor(reach / step + 1e-6) * step
    return f"tie within {w.length(least, length, w.SIZE)} {side or ''}".rstrip()


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
        _tail(rig, k, connector, answer, length)
        for k, (connector, answer) in enumerate(zip(connectors, rig.answers, strict=True))
    ]


def _tail(
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
