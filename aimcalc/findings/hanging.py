"""What hangs on a pipe against what was posted for it, how its lift lines share it, tails that do not reach.

Limits are what the scene says and nothing else; where nothing is posted a qualified person is asked for.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from aimcalc.findings.report import (
    NOTE,
    STOP,
    WARN,
    about,
    by_position,
    in_hang_order,
    of_position,
    subject,
)
from aimcalc.hang.circuits import FAR
from aimcalc.hang.records import HangPlan, PositionPlan, UnitPlan
from aimcalc.hang.tubes import span, ways
from aimcalc.rig.rig import ONE_SPOT
from aimcalc.rig.wording import along, by_typical, count, length, listed, weight
from aimcalc.solid.answers import Finding
from aimcalc.solid.rig import SolidRig

TOGETHER = 0.01  # metres; as `beams` counts two lines as one


def weight_findings(rig: SolidRig, plan: HangPlan) -> Iterator[Finding]:
    """Weights of every pipe that carries a unit."""
    for position in plan.positions:
        if position.sort == "pipe" and position.units:
            yield from _missing(rig, position)
            yield from _rating(rig, position)
            yield from _lines(rig, position)


def _missing(rig: SolidRig, position: PositionPlan) -> Iterator[Finding]:
    if not position.missing:
        return
    units = [rig.number(name) for name in position.missing if name != "the pipe"]
    parts = ["the pipe itself"] if "the pipe" in position.missing else []
    parts += [count(units, "unit")] if units else []
    what = " and ".join(parts)
    says = f"No weight is given for {what}: the weights of {position.position} leave it out."
    do = "Add pipe_weight to the pipe, or weight to the kinds, from the makers' sheets or a scale."
    yield of_position(position.position, WARN, "weight-missing", says=says, do=do)


def _rating(rig: SolidRig, position: PositionPlan) -> Iterator[Finding]:
    unit = rig.scene.settings.unit
    least = "at least " if position.missing else ""
    carried = (
        f"{least}{weight(position.weight, unit)}"
        if position.weight
        else "a weight that is not given"
    )
    left_out = f" Not counted: {listed(position.left_out)}." if position.weight else ""
    if position.rating is None:
        says = (
            f"No rating is posted for {position.position}, which is to carry {carried}.{left_out}"
        )
        do = "Ask a qualified person before anything is hung; add the posted rating to the pipe."
        yield of_position(position.position, WARN, "no-rating", says=says, do=do)
    elif position.weight > position.rating:
        says = (
            f"{position.position} is to carry {carried}, over its posted rating of "
            f"{weight(position.rating, unit)}.{left_out}"
        )
        do = "Take units off it, or ask a qualified person; do not load it."
        kinds, guessed = _typical(rig, position)
        sure = position.weight - guessed > position.rating
        says += "" if sure else by_typical("weights", kinds)
        severity = STOP if sure else WARN
        yield of_position(position.position, severity, "over-rating", says=says, do=do)


def _typical(rig: SolidRig, position: PositionPlan) -> tuple[list[str], float]:
    """The typical kinds on a position, and what they weigh together in kilograms."""
    kinds = [rig.scene.kinds[unit.kind] for unit in position.units]
    typical = [kind for kind in kinds if kind.typical and kind.weight is not None]
    names = list(dict.fromkeys(kind.name for kind in typical))
    return names, sum(kind.weight or 0.0 for kind in typical)


def _lines(rig: SolidRig, position: PositionPlan) -> Iterator[Finding]:
    name, unit = position.position, rig.scene.settings.unit
    words, lines = ways(rig.scene.positions[name]), getattr(rig.scene.positions[name], "lines", ())
    slack = [along(line.at, words, unit) for line in position.lines if line.slack]
    if position.shared == "tips":
        says = f"The weight on {name} lies beyond its outermost lift line: the pipe would tip."
        do = "Move units inwards or weight to the other end; only a qualified person moves the lines."
        kinds, _ = _typical(rig, position)
        says += by_typical("weights", kinds)
        yield of_position(name, WARN if kinds else STOP, "pipe-tips", says=says, do=do)
    elif position.shared == "curved" and lines:
        says = f"{name} is curved: what each of its lift lines carries is not worked out."
        do = "Have a qualified person look at the lines before it is loaded."
        yield of_position(name, WARN, "curved-lines", says=says, do=do)
    elif position.shared == "one line":
        says = f"{name} hangs from one lift line: it is level only where its weight balances there."
        do = "Give all the lift lines of the pipe, or ask a qualified person."
        yield of_position(name, WARN, "one-line", says=says, do=do)
    elif slack and position.weight > 0:
        most = max(position.lines, key=lambda line: line.load)
        says = (
            f"{name}: the lift line{'' if len(slack) == 1 else 's'} at {listed(slack)} would go slack; "
            f"worked out again without, the line at {along(most.at, words, unit)} carries "
            f"{weight(most.load, unit)}."
        )
        do = "Spread the units, and have a qualified person look at the lines before it flies."
        yield of_position(name, WARN, "line-slack", says=says, do=do)
    yield from _together(rig, position)
    yield from _off_the_pipe(rig, position)


def _together(rig: SolidRig, position: PositionPlan) -> Iterator[Finding]:
    places = sorted(line.at for line in position.lines)
    if any(b - a <= TOGETHER for a, b in pairwise(places)):
        says = (
            f"Two lift lines of {position.position} are at one place: each is taken to carry half."
        )
        do = "Correct the lines if they are apart; what each of two takes cannot be worked out."
        yield of_position(position.position, NOTE, "lines-together", says=says, do=do)


def _off_the_pipe(rig: SolidRig, position: PositionPlan) -> Iterator[Finding]:
    ends = sorted(end for end in (position.start, position.end) if end is not None)
    off = [x.at for x in position.lines if not ends[0] - TOGETHER <= x.at <= ends[1] + TOGETHER]
    if off:
        words, unit = ways(rig.scene.positions[position.position]), rig.scene.settings.unit
        where = listed(along(at, words, unit) for at in off)
        says = f"{position.position}: a lift line at {where} is past the end of the pipe."
        do = "Correct the lines, or the ends of the pipe; the shares are worked out as written."
        yield of_position(position.position, WARN, "line-off-pipe", says=says, do=do)


def progress_findings(rig: SolidRig, plan: HangPlan) -> Iterator[Finding]:
    """Nothing until somebody has reported something."""
    failed = [unit.works is False for unit in rig.units]
    for rows in by_position(rig, failed):
        says = f"{subject(rig, rows, 'has', 'have')} not come on when tested."
        do = "Isolate it, then try lamp, tail, cable and circuit, in that order; test it again."
        yield about(rig, rows, WARN, "does-not-work", says=says, do=do)
    if plan.left.hung:
        yield from _left(rig, plan)


def _left(rig: SolidRig, plan: HangPlan) -> Iterator[Finding]:
    whole, left = len(rig.units), plan.left
    tested = sum(unit.works is not None for unit in rig.units)
    says = f"Reported so far: {len(left.hung)} of {whole} units hung, {tested} tested."
    rest = (("hang", len(left.to_hang)), ("test", len(left.to_test)))
    waiting = ", ".join(f"{what} {number}" for what, number in rest if number)
    do = f"{waiting.capitalize()}." if waiting else "Nothing more to hang or to test."
    yield Finding(NOTE, "left-to-do", says, do)


def spacing_findings(rig: SolidRig, plan: HangPlan) -> Iterator[Finding]:
    """One note a position; that clamps are closer than 18 in is told with the other clamp rules."""
    for position in plan.positions:
        yield from _swept(rig, position)


def _swept(rig: SolidRig, position: PositionPlan) -> Iterator[Finding]:
    near = [
        (before.number, unit)
        for before, unit in pairwise(position.units)
        if unit.spacing is not None and unit.envelope is not None
        if ONE_SPOT < unit.spacing < unit.envelope and before.mount == unit.mount
    ]
    if near:
        widest = max(unit.envelope or 0.0 for _, unit in near)
        says = (
            f"Units {listed(f'{number} and {unit.number}' for number, unit in near)} hang closer than a "
            f"body sweeps as it turns, {length(widest, rig.scene.settings.unit)}."
        )
        do = "Turn one at a time with a hand on the other, or spread them."
        yield of_position(position.position, NOTE, "inside-swing", says=says, do=do)


TAUT = 1e-6  # metres
OFF = 0.001  # metres past an end
MUCH = 0.05  # metres by which one side must reach farther to be worth a change (our choice)


def tail_findings(rig: SolidRig, plan: HangPlan) -> Iterator[Finding]:
    """Connectors that would be pulled out or are badly placed, then tails that are not known."""
    units = in_hang_order(plan)
    for k, unit in enumerate(units):
        if unit.connector.typed:
            yield from _typed(rig, unit, k)
    yield from _no_place(rig, units)
    yield from _not_known(rig, units)


def _over(distance: float | None, usable: float | None) -> bool:
    return distance is not None and usable is not None and distance > usable + TAUT


def _typed(rig: SolidRig, unit: UnitPlan, k: int) -> Iterator[Finding]:
    if _over(unit.tail.focus, unit.tail.usable) or _over(unit.tail.aim, unit.tail.usable):
        yield _pulls(rig, unit, k)
    elif _over(unit.tail.tipping, unit.tail.usable):
        yield _on_the_way(rig, unit, k)
    yield from _off_the_tube(rig, unit, k)
    yield from _far(rig, unit, k)
    yield from _wrong_side(rig, unit, k)


def _reach(rig: SolidRig, unit: UnitPlan, worst: float) -> str:
    unit_of_length = rig.scene.settings.unit
    return (
        f"{length(worst, unit_of_length)} from where the tail leaves the body to the connector, "
        f"{length(unit.tail.usable or 0.0, unit_of_length)} of tail to reach with"
    )


def _pulls(rig: SolidRig, unit: UnitPlan, k: int) -> Finding:
    worst = max(d for d in (unit.tail.focus, unit.tail.aim) if d is not None)
    reach = _reach(rig, unit, worst)
    says = f"Unit {unit.number} pulls its connector out as it is focused: {reach}."
    kind = rig.kinds[k]
    sure = not kind.typical and _over(unit.tail.aim, kind.tail)
    if kind.typical:
        says += by_typical("tails", [kind.name])
    elif not sure:
        says += " It reaches its aim, with no loop and no room to focus."
    return about(
        rig, [k], STOP if sure else WARN, "tail-pulls-out", says=says, do=_better(rig, unit)
    )


def _on_the_way(rig: SolidRig, unit: UnitPlan, k: int) -> Finding:
    says = (
        f"Unit {unit.number} draws its tail taut on the way from square and level to its aim: "
        f"{_reach(rig, unit, unit.tail.tipping or 0.0)}."
    )
    do = f"Turn and tip it before it is plugged in. {_better(rig, unit)}"
    return about(rig, [k], WARN, "tail-taut", says=says, do=do)


def _better(rig: SolidRig, unit: UnitPlan) -> str:
    if unit.connector.side is None or unit.connector.furthest is None:
        return "No tie here leaves a loop: use a longer tail, or an extension with its own tie."
    side, furthest = unit.connector.side, unit.connector.furthest
    place = length(furthest, rig.scene.settings.unit)
    if furthest < FAR:
        return f"Tie the connector on the {side} side, within {place} of the clamp."
    usual = "9 to 12 in" if rig.scene.settings.unit in ("ft", "in") else "23 to 30 cm"
    return f"Tie the connector on the {side} side, {usual} from the clamp (up to {place} leaves a loop)."


def _off_the_tube(rig: SolidRig, unit: UnitPlan, k: int) -> Iterator[Finding]:
    ends, place, at = span(rig.positions[k]), unit.connector.place or 0.0, unit.at or 0.0
    if unit.mount == "arm":
        off = place > rig.units[k].arm + OFF
    elif ends is not None:
        low, high = min(ends.start, ends.end), max(ends.start, ends.end)
        off = not low - OFF <= at + place <= high + OFF
    else:
        off = abs(place) > OFF
    if off:
        says = f"The connector of unit {unit.number} is tied past the end of what holds it."
        yield about(rig, [k], WARN, "connector-off", says=says, do=_better(rig, unit))


def _far(rig: SolidRig, unit: UnitPlan, k: int) -> Iterator[Finding]:
    place, unit_of_length = abs(unit.connector.place or 0.0), rig.scene.settings.unit
    if place > FAR:
        says = (
            f"The connector of unit {unit.number} is tied {length(place, unit_of_length)} from its "
            f"clamp, past {length(0.3048 if unit_of_length in ('ft', 'in') else 0.3, unit_of_length)}."
        )
        do = "Tie it nearer, so that the loop hangs where a hand on the unit can see it."
        yield about(rig, [k], WARN, "connector-far", says=says, do=do)


def _wrong_side(rig: SolidRig, unit: UnitPlan, k: int) -> Iterator[Finding]:
    place, side = unit.connector.place or 0.0, unit.connector.side
    if side is None or place == 0 or unit.mount == "arm":
        return
    plus = side in ("SL", "US", "UP")
    gain = (unit.connector.furthest or 0.0) - (unit.connector.other or 0.0)
    if (place > 0) != plus and gain > MUCH:
        says = (
            f"The connector of unit {unit.number} is tied on the side that the back swings away from; on "
            f"the {side} side the tail reaches {length(gain, rig.scene.settings.unit)} farther."
        )
        yield about(rig, [k], WARN, "connector-side", says=says, do=_better(rig, unit))


def _no_place(rig: SolidRig, units: list[UnitPlan]) -> Iterator[Finding]:
    """Tails too short for any place within the focus swing, where the scene has not chosen one."""
    stuck = [unit.connector.place is None and _known(rig, unit) for unit in units]
    for rows in by_position(rig, stuck):
        has = subject(rig, rows, "has", "have")
        says = f"{has} too short a tail: no tie leaves a loop all through the focus swing."
        do = "Use a longer tail, or an extension with its own tie, and try it before it flies."
        yield about(rig, rows, WARN, "tail-short", says=says, do=do)


def _known(rig: SolidRig, unit: UnitPlan) -> bool:
    kind = rig.scene.kinds[unit.kind]
    return kind.tail_exit is not None and unit.tail.usable is not None


def _not_known(rig: SolidRig, units: list[UnitPlan]) -> Iterator[Finding]:
    kinds = list(dict.fromkeys(u.kind for u in units if not _known(rig, u)))
    if kinds:
        says = f"Tail or tail_exit is not given for {count(kinds, 'kind')}: their focus loop is not checked."
        yield Finding(
            NOTE, "tail-not-known", says, "Measure one unit of each and add both to the kind."
        )
