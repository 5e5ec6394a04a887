"""What each unit's row says about hanging and plugging it: the hang sheets and lists only show these."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from aimcalc.findings.report import in_hang_order
from aimcalc.hang.plan import twofers
from aimcalc.named import NamedTuple
from aimcalc.rig.wording import listed, weight
from aimcalc.scene.model import Boom, Pipe, Position, Stand
from aimcalc.text import words as w
from aimcalc.text.cables import (
    cable_words,
    connector_words,
    outlet_words,
    place_words,
    twofer_words,
)
from aimcalc.text.facts import noun
from aimcalc.text.names import LONGEST_KIND, short
from aimcalc.text.rows import clip_words, hangs, lines_under, remarks_of
from aimcalc.text.wedges import wedge_words, wedges_to_cut

if TYPE_CHECKING:
    from aimcalc.hang.records import (
        CircuitPlan,
        HangPlan,
        PositionPlan,
        UnitPlan,
    )
    from aimcalc.solid.answers import Finding
    from aimcalc.solid.rig import SolidRig


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
