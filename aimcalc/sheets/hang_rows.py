"""What each unit's row says about hanging and plugging it: the hang sheets and lists only show these."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from aimcalc.rig.hang.counts import cable_name
from aimcalc.rig.hang.findings.saying import short, weight
from aimcalc.rig.hang.tubes import ways
from aimcalc.scene.model import Pipe, Position, Stand
from aimcalc.sheets import words as w
from aimcalc.sheets.rows import LONGEST_KIND, along, hangs
from aimcalc.sheets.typeset import shorten

if TYPE_CHECKING:
    from aimcalc.rig.answers import Finding
    from aimcalc.rig.hang.records import CableRun, Connector, HangPlan, PositionPlan, UnitPlan
    from aimcalc.rig.solve import Rig

PRINTED = ("stop", "warn")
NOTHING: tuple[str, ...] = ("",)


class HangRow(NamedTuple):
    """One unit at the pipe, in words; what is not known is empty."""

    k: int  # its place in the rig's hang order
    number: str
    channel: str
    kind: str
    weight: str
    mark: str  # from the zero mark
    how: str  # OVER PIPE, DIRECT, ARM ...; empty for a unit that hangs under its pipe
    ends: tuple[str, ...]  # from both ends
    spacing: str
    before: str  # the unit that the spacing is from
    circuit: str
    load: str
    cable: tuple[str, ...]
    connector: tuple[str, ...]
    findings: tuple[str, ...] = ()
    clamp: str = ""


def hang_rows(
    rig: Rig, plan: HangPlan, findings: Sequence[Finding], length: w.LengthUnit
) -> dict[str, list[HangRow]]:
    """Rows of every position in ladder order; `length` is the length unit of the paper."""
    printed: dict[str, list[str]] = {}
    for found in findings:
        if found.unit and found.severity in PRINTED:
            printed.setdefault(found.unit, []).append(f"{found.severity.upper()}: {found.says}")
    rows: dict[str, list[HangRow]] = {}
    for position in plan.positions:
        before = ""
        rows[position.position] = mine = []
        for k, unit in zip(rig.rows[position.position], position.units, strict=True):
            told = tuple(printed.get(unit.unit, ()))
            mine.append(_row(rig, k, position, unit, before, length)._replace(findings=told))
            before = unit.number
    return rows


def _row(
    rig: Rig, k: int, position: PositionPlan, plan: UnitPlan, before: str, length: w.LengthUnit
) -> HangRow:
    unit, kind, here = rig.units[k], rig.kinds[k], rig.positions[k]
    mark, how = hangs(unit, here, length)
    return HangRow(
        k=k,
        number=unit.number,
        channel=f"ch {unit.channel}" if unit.channel else "",
        kind=shorten(kind.name, LONGEST_KIND),
        weight="" if plan.weight is None else weight(plan.weight, length),
        mark=mark,
        how=how,
        ends=_ends(position, plan, length),
        spacing="" if plan.spacing is None else w.length(plan.spacing, length, w.HANG),
        before=f"from {before}" if plan.spacing is not None else "",
        circuit=unit.circuit or "",
        load="" if kind.watts is None else f"{kind.watts:g} W",
        cable=cable_words(rig, here, plan.cable, length),
        connector=connector_words(rig, k, plan.connector, length),
    )


def _ends(position: PositionPlan, unit: UnitPlan, length: w.LengthUnit) -> tuple[str, ...]:
    """How far the mark is from each end of its position: ("SR 12.20 m", "SL 0.610 m")."""
    ends = ((position.start_word, unit.from_start), (position.end_word, unit.from_end))
    return tuple(
        f"{word.removesuffix(' END')} {'OFF BY ' if far < 0 else ''}{w.length(far, length, w.HANG)}"
        for word, far in ends
        if far is not None
    )


def cable_words(
    rig: Rig, position: Position, run: CableRun, length: w.LengthUnit
) -> tuple[str, ...]:
    """Which cable serves a unit, where it is doubled back, and its ties."""
    if run.with_unit is not None:
        return "TWOFER", f"with unit {short(run.with_unit)}"
    if run.plugs_in:
        return "AT OUTLET", "no cable"
    if run.need is None:
        return NOTHING
    ties = w.count(run.ties or 0, "tie")
    if run.stock is None:
        return "NO CABLE", f"needs {w.length(run.need, length, w.SIZE)}", ties
    return f"{cable_name(rig, run.stock)} cable", _double_back(position, run, length), ties


def _double_back(position: Position, run: CableRun, length: w.LengthUnit) -> str:
    """Where a cable turns back on itself: "back at 3.18 m SL"."""
    if run.double_back is None or isinstance(position, Stand):
        return "spare at the unit"
    if run.folds is False:
        return "double back twice"
    return f"back at {place_words(position, run.double_back, length)}"


def place_words(position: Position, at: float, length: w.LengthUnit) -> str:
    """A place along a position: "3.18 m SL", "1.20 m UP"."""
    if isinstance(position, Pipe):
        return w.mark(at, along(position), "ZERO", length, w.SIZE)
    return f"{w.length(at, length, w.SIZE)} UP"


def connector_words(
    rig: Rig, k: int, connector: Connector, length: w.LengthUnit
) -> tuple[str, ...]:
    """Where the tail's connector is tied, and how far along that side its loop lasts."""
    place, side = connector.place, connector.side
    if place is None:
        return NOTHING
    if abs(place) < w.HANG.metres / 2:
        return "AT CLAMP", _loop(connector.furthest, side, length)
    way = side if rig.units[k].mount == "arm" else ways(rig.positions[k])[place < 0]
    reach = connector.furthest if way == side else connector.other
    return f"{way} SIDE", w.length(place, length, w.HANG), _loop(reach, "", length)


def _loop(reach: float | None, side: str | None, length: w.LengthUnit) -> str:
    """How far from the clamp the focus loop lasts: "loop to 0.50 m SL"."""
    if reach is None:
        return ""
    return f"loop to {w.length(reach, length, w.SIZE)} {side or ''}".rstrip()
