"""What each unit's row says about hanging and plugging it: the hang sheets and lists only show these."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil, floor
from typing import TYPE_CHECKING

from aimcalc.findings.report import in_hang_order
from aimcalc.hang.plan import Twofer, cable_name, twofers
from aimcalc.hang.tubes import ways
from aimcalc.named import NamedTuple
from aimcalc.rig.wording import listed, weight
from aimcalc.scene.model import Boom, Pipe, Position, Stand, Unit
from aimcalc.text import words as w
from aimcalc.text.facts import noun
from aimcalc.text.names import LONGEST_KIND, short
from aimcalc.text.rows import along, clip_words, hangs, lines_under, remarks_of, zero_mark
from aimcalc.text.wedges import wedge_words, wedges_to_cut

if TYPE_CHECKING:
    from aimcalc.hang.records import (
        CableRun,
        CircuitPlan,
        Connector,
        HangPlan,
        PositionPlan,
        UnitPlan,
    )
    from aimcalc.solid.answers import Finding
    from aimcalc.solid.rig import SolidRig


MOST_IN_CELL = 100  # numbers of units
NOTHING: tuple[str, ...] = ("",)


class HangRow(NamedTuple):
    """One unit at the pipe, in words; what is not known is empty."""

    k: int  # its place in the rig's hang order
    number: str
    channel: str
    kind: str
    weight: str
    mark: str  # from the zero mark
    how: str  # OVER PIPE, ARM ...; DIRECT, CLIP SL (on its side); empty for one that simply hangs under
    ends: tuple[str, ...]  # from both ends
    spacing: str
    before: str  # the unit that the spacing is from
    circuit: str
    load: str
    outlet: str  # where the circuit's outlet is, along the position
    cable: tuple[str, ...]
    connector: tuple[str, ...]
    twofer: tuple[str, ...] = ()  # with whom it shares its circuit, and where
    findings: tuple[str, ...] = ()  # lines under the row, `twofer` first
    clamp: str = ""
    remarks: tuple[str, ...] = ()  # what the user wrote of it


def hang_rows(
    rig: SolidRig, plan: HangPlan, findings: Sequence[Finding], length: w.LengthUnit
) -> dict[str, list[HangRow]]:
    """Rows of every position in ladder order; `length` is the length unit of the paper."""
    printed = lines_under(findings)
    shared = twofers(rig, [unit.cable for unit in in_hang_order(plan)])
    rows: dict[str, list[HangRow]] = {}
    for position in plan.positions:
        before = ""
        rows[position.position] = mine = []
        for k, unit in zip(rig.rows[position.position], position.units, strict=True):
            told = printed.get(unit.unit, ())
            row = _row(rig, k, position, unit, before, length)
            twofer = tuple(twofer_words(rig, unit.cable, shared.get(k)))
            under = [words.replace(" ", ": ", 1) for words in twofer]
            mine.append(row._replace(twofer=twofer, findings=(*under, *told)))
            before = unit.number
    return rows


def _row(
    rig: SolidRig,
    k: int,
    position: PositionPlan,
    plan: UnitPlan,
    before: str,
    length: w.LengthUnit,
) -> HangRow:
    unit, kind, here = rig.units[k], rig.kinds[k], rig.positions[k]
    mark, how = hangs(unit, here, length)
    clip = clip_words(rig, k)
    return HangRow(
        k=k,
        number=unit.number,
        channel=f"ch {unit.channel}" if unit.channel else "",
        kind=short(rig, kind.name, LONGEST_KIND),
        weight="" if plan.weight is None else weight(plan.weight, length),
        mark=mark,
        how=", ".join(filter(None, (how, clip))),
        ends=_ends(position, plan, length),
        spacing="" if plan.spacing is None else w.length(plan.spacing, length, w.HANG),
        before=f"from {before}" if plan.spacing is not None else "",
        circuit=unit.circuit or "",
        load="" if kind.watts is None else f"{kind.watts:g} W",
        outlet=outlet_words(here, plan.cable.outlet, length),
        cable=cable_words(rig, k, plan, length),
        connector=connector_words(rig, k, plan.connector, length),
        remarks=remarks_of(unit),
    )


def _ends(position: PositionPlan, unit: UnitPlan, length: w.LengthUnit) -> tuple[str, ...]:
    """How far the mark is from each end of its position: ("SR 12.20 m", "SL 0.610 m")."""
    ends = ((position.start_word, unit.from_start), (position.end_word, unit.from_end))
    return tuple(
        f"{word.removesuffix(' END')} {'OFF BY ' if far < 0 else ''}{w.length(far, length, w.HANG)}"
        for word, far in ends
        if far is not None
    )


def from_start(row: HangRow, start: str) -> str:
    """How far a mark is from the end its rows begin at: "1'-9"" from "SL END"; "OFF BY 0.20 m" beyond it."""
    word = f"{start.removesuffix(' END')} "
    return next((end.removeprefix(word) for end in row.ends if end.startswith(word)), "")


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


def position_lines(rig: SolidRig, plan: PositionPlan, length: w.LengthUnit) -> Iterator[str]:
    """Lines "WORD: sentence" about one position."""
    position = rig.scene.positions[plan.position]
    if isinstance(position, Boom | Stand):
        yield f"PLACE: {_foot(position, length)}"
    if isinstance(position, Pipe) and len(position.trims) > 1:
        heights = (f"{t.act} {w.length(t.trim, length, w.HANG)}" for t in position.trims)
        yield f"TRIMS: {', '.join(heights)}."
    if not isinstance(position, Stand) and position.keep_clear:
        stretches = (
            " to ".join(place_words(position, end, length) for end in stretch)
            for stretch in position.keep_clear
        )
        yield f"CLEAR: clamp nothing from {', nor from '.join(stretches)}."
    yield f"WEIGHT: {_weight(position, plan, length)}"
    if plan.shared == "curved" and isinstance(position, Pipe) and position.lines:
        yield "LINES: not worked out, the pipe is curved: ask a qualified person."
    if plan.lines:
        yield f"LINES: {line_words(position, plan, length)}. Worked out, not measured."
    if plan.wedges:
        cuts = ". ".join(wedge_words(rig, cut) for cut in wedges_to_cut(plan))
        yield f"WEDGES: {cuts}."


def _foot(position: Boom | Stand, length: w.LengthUnit) -> str:
    """Where a boom or a stand is to be put on the deck."""
    foot = w.place(position.x, position.y, length, w.SIZE)
    top = ""
    if isinstance(position, Boom) and position.foot is not None:
        top = f", its foot {w.length(position.foot, length, w.SIZE)} above the deck at the plaster line"
    if isinstance(position, Stand) and position.z is not None:
        top = f", its top {w.length(position.z, length, w.SIZE)} above the deck at the plaster line"
    return f"{foot}, from the centre line and the plaster line{top}."


def _weight(position: Position, plan: PositionPlan, length: w.LengthUnit) -> str:
    """The sum, what is in it and what is not, and the posted rating."""
    own = plan.own_weight
    pipe = "" if own is None else f"{noun(position)} {weight(own, length)} and "
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


def line_words(position: Position, plan: PositionPlan, length: w.LengthUnit) -> str:
    """Every lift line with what it carries: "18'-0" SR 41.1 lb, CENTRE SLACK"."""
    told = [
        f"{place_words(position, line.at, length)} {'SLACK' if line.slack else weight(line.load, length)}"
        for line in plan.lines
    ]
    return ", ".join(told)


def load_words(circuit: CircuitPlan) -> str:
    """ "600 W of 20 A"; "at least" where watts are missing."""
    least = "at least " if circuit.missing else ""
    load = f"{least}{circuit.watts:g} W"
    if circuit.limit is None:
        return load
    return f"{load} of {circuit.limit:g} {circuit.limit_unit}"
