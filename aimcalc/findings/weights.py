"""What hangs on a pipe against what was posted for it, and how its lift lines share it.

Limits are what the scene says and nothing else; where nothing is posted a qualified person is asked for.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from aimcalc.findings.report import NOTE, STOP, WARN, about, by_position, of_position, subject
from aimcalc.hang.records import HangPlan, PositionPlan
from aimcalc.hang.tubes import ways
from aimcalc.rig.crowds import ONE_SPOT
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
    words = ways(rig.scene.positions[name])
    slack = [along(line.at, words, unit) for line in position.lines if line.slack]
    if position.shared == "tips":
        says = f"The weight on {name} lies beyond its outermost lift line: the pipe would tip."
        do = "Move units inwards or weight to the other end; only a qualified person moves the lines."
        kinds, _ = _typical(rig, position)
        says += by_typical("weights", kinds)
        yield of_position(name, WARN if kinds else STOP, "pipe-tips", says=says, do=do)
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
