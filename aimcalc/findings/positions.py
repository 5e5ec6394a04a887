"""Where units are clamped: on the pipe at all, clear of the lift lines, clear of each other."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from math import hypot

import numpy as np

from aimcalc.findings.mixed_units import slip
from aimcalc.findings.report import NOTE, STOP, WARN, about, by_position, numbers, subject
from aimcalc.geometry.aim import Indices
from aimcalc.geometry.vectors import Array
from aimcalc.rig.places import WORDS, across, tube_ends
from aimcalc.rig.rig import ONE_SPOT, on_one_spot, places, tubes
from aimcalc.rig.solve import hung
from aimcalc.rig.wording import along, count, length, listed
from aimcalc.scene.model import Boom, Pipe, Position, Stand, Unit
from aimcalc.solid.answers import Finding
from aimcalc.solid.rig import SolidRig

TOUCH = 0.001  # m; a place this little past the end is the end
SAME_MARK = 0.005  # m; a clamp this near to a line is at its mark, as marks are set
PICK_CLEARANCE = 0.03  # m from a lift line to the middle of a clamp (common practice, no source)
MOST_TOLD = 3  # spots of a position
SPACING = 0.457  # m: 18 in between clamps (common practice, no source), clamp to clamp


def sides(position: Position) -> tuple[str, str]:
    """The words for + and - along a position."""
    if not isinstance(position, Pipe):
        return ("up", "down")
    return ("SL", "SR") if across(position) else ("US", "DS")


def off_the_end(rig: SolidRig) -> Iterator[Finding]:
    """Stops for clamps beyond the end of their pipe or boom."""
    for position, rows in hung(rig):
        ends = tube_ends(position)
        if ends is None:
            continue
        at = places(rig, rows)
        for way, past in ((0, at - ends[1]), (1, ends[0] - at)):
            out = [rows[k] for k in np.flatnonzero(past > TOUCH).tolist()]
            if out:
                fits = partial(_on, at[past > TOUCH], ends)
                yield _off(rig, out, position, way, float(past.max()), slip(rig, fits))


def _on(at: Array, ends: tuple[float, float], share: float) -> bool:
    """Whether places would be on their pipe or boom at a share of their size."""
    return bool(((at * share >= ends[0]) & (at * share <= ends[1])).all())


def _off(
    rig: SolidRig, out: list[int], position: Position, way: int, past: float, likely: str
) -> Finding:
    end = f"{sides(position)[way]} end of the pipe"
    if isinstance(position, Boom):
        end = ("top of the boom", "foot of the boom")[way]
    most = "" if len(out) == 1 else "up to "
    hangs = subject(rig, out, "would hang", "would hang")
    says = f"{hangs} {most}{length(past, rig.scene.settings.unit)} past the {end}.{likely}"
    do = "Correct the place, its unit of length, or the ends of the position."
    return about(rig, out, STOP, "off-the-end", says=says, do=do)


def kept_clear(rig: SolidRig) -> Iterator[Finding]:
    """Stops for clamps in a stretch of their pipe or boom that is to be kept clear; its ends are free."""
    for position, rows in hung(rig):
        stretches = () if isinstance(position, Stand) else position.keep_clear
        at = places(rig, rows)
        for low, high in stretches:
            in_it = np.flatnonzero((at > low + TOUCH) & (at < high - TOUCH))
            if in_it.size:
                yield _kept(rig, [rows[j] for j in in_it.tolist()], (low, high))


def _kept(rig: SolidRig, mine: list[int], stretch: tuple[float, float]) -> Finding:
    position, unit = rig.positions[mine[0]], rig.scene.settings.unit
    ends = [along(end, sides(position), unit) for end in stretch]
    name, (low, high) = position.name, ends
    says = f"{subject(rig, mine, 'is', 'are')} clamped where {name} is to be kept clear, {low} to {high}."
    do = f"Move each to {low} or less, or to {high} or more; if a clamp does fit there, correct keep_clear."
    return about(rig, mine, STOP, "keep-clear", says=says, do=do)


def on_lift_line(rig: SolidRig) -> Iterator[Finding]:
    """Stops for clamps at the mark of a lift line; warns of those too near to one for a clamp 6 cm wide."""
    unit_of_length = rig.scene.settings.unit
    for pipe, rows in hung(rig):
        if not isinstance(pipe, Pipe) or not pipe.lines:
            continue
        lines = np.array(pipe.lines)
        at = places(rig, rows)
        nearest = lines[np.abs(lines - at[:, None]).argmin(axis=1)]
        for j in np.flatnonzero(np.abs(at - nearest) <= PICK_CLEARANCE).tolist():
            where = along(float(nearest[j]), sides(pipe), unit_of_length)
            gap = length(float(at[j] - nearest[j]), unit_of_length)
            number = rig.units[rows[j]].number
            sure = abs(float(at[j] - nearest[j])) <= SAME_MARK
            says = f"Unit {number} is on a pick point: {gap} from the lift line at {where}."
            says += (
                ""
                if sure
                else f" A clamp is taken {length(2 * PICK_CLEARANCE, unit_of_length)} wide."
            )
            do = "Move it along the pipe until clamp and line are clear of each other."
            severity = STOP if sure else WARN
            yield about(rig, [rows[j]], severity, "on-lift-line", says=says, do=do)


def one_spot(rig: SolidRig) -> Iterator[Finding]:
    """Stops for clamps within a clamp's width on one tube; warns of those too near for clamps 6 cm wide.

    Over, under and out alike. Side arms that reach two ways from one height are held by one clamp.
    """
    unit_of_length = rig.scene.settings.unit
    wide = length(2 * PICK_CLEARANCE, unit_of_length)
    for position, apart in tubes(rig):
        every = [group for rows in apart for group in on_one_spot(rig, rows, ONE_SPOT)]
        if every:
            says = (
                f"{_spots(rig, every)} clamped on one spot, "
                f"within {length(ONE_SPOT, unit_of_length)}: a tube has room for one clamp there."
            )
            do = "Correct the places; units over and under a pipe need a place each too."
            yield Finding(STOP, "one-spot", says, do, position=position)
        told = set().union(*every) if every else set()
        near = [
            group
            for rows in apart
            for group in on_one_spot(rig, rows, 2 * PICK_CLEARANCE - TOUCH)
            if not set(group) <= told
        ]
        if near:
            says = f"{_spots(rig, near)} too close for two clamps, each taken {wide} wide."
            do = "Move one along, or measure the clamps and try it on the floor."
            yield Finding(WARN, "one-spot", says, do, position=position)


def _spots(rig: SolidRig, groups: list[list[int]]) -> str:
    """Who is where: "Units 1 and 2 at 1.20 m SL; and at 2 more places are"."""
    position = rig.positions[groups[0][0]]
    unit = rig.scene.settings.unit
    told = [
        f"{count(numbers(rig, rows), 'unit')} at {along(rig.units[rows[0]].at or 0.0, sides(position), unit)}"
        for rows in groups[:MOST_TOLD]
    ]
    more = len(groups) - MOST_TOLD
    tail = f"; and those at {more} more places" if more > 0 else ""
    said = "; ".join(told) + tail
    return f"{said[0].upper()}{said[1:]} are"


def too_close(rig: SolidRig) -> Iterator[Finding]:
    """Warns of neighbours nearer than 18 in, or than half of each body's width together.

    Neighbours are units of one position held the same way (units over and under a pipe pass each other).
    What is nearer than two clamps can be is told as `one_spot`.
    """
    first, second = _neighbours(rig)
    if not first.size:
        return
    apart = rig.arrays.clamp[:, second] - rig.arrays.clamp[:, first]
    gap = np.sqrt((apart * apart).sum(axis=0))
    width = np.array([kind.width or 0.0 for kind in rig.kinds])
    needed = np.maximum(SPACING, (width[first] + width[second]) / 2)
    pairs = np.flatnonzero((gap < needed - 1e-4) & (gap > 2 * PICK_CLEARANCE - TOUCH))
    here: dict[str, list[int]] = {}
    for j in pairs.tolist():
        here.setdefault(rig.units[first[j]].position, []).append(j)
    for name, told in here.items():
        yield _crowded(rig, name, told, (first, second, gap, needed))


def _crowded(
    rig: SolidRig, name: str, told: list[int], pairs: tuple[Indices, Indices, Array, Array]
) -> Finding:
    first, second, gap, needed = pairs
    unit_of_length = rig.scene.settings.unit
    both = sorted(sorted((int(first[j]), int(second[j]))) for j in told)
    shown = both if len(both) <= 4 else both[:3]
    names = "; ".join(f"{rig.units[a].number} and {rig.units[b].number}" for a, b in shown)
    more = f"; and {len(both) - 3} more pairs" if len(both) > 4 else ""
    worst = min(told, key=lambda j: float(gap[j] - needed[j]))
    says = (
        f"Little room between units {names}{more}: {length(float(gap[worst]), unit_of_length)} from "
        f"clamp to clamp at the closest, under {length(float(needed[worst]), unit_of_length)}."
    )
    do = "Spread them, or try their turns against each other before the pipe goes out."
    return Finding(WARN, "too-close", says, do, position=name)


def _neighbours(rig: SolidRig) -> tuple[Indices, Indices]:
    """Pairs of units next to each other along a position, held the same way."""
    order = sorted(
        range(len(rig.units)), key=lambda k: (_held_alike(rig, k), rig.units[k].at or 0.0)
    )
    alike = [_held_alike(rig, k) for k in order]
    pairs = [(order[j], order[j + 1]) for j in range(len(order) - 1) if alike[j] == alike[j + 1]]
    table = np.array(pairs, dtype=np.intp).reshape(-1, 2)
    return table[:, 0], table[:, 1]


def _held_alike(rig: SolidRig, k: int) -> tuple[str, str, float, str, str]:
    unit: Unit = rig.units[k]
    side = unit.out_to or ""
    return (unit.position, unit.mount, unit.arm_to or 0.0, side, unit.chord or "")


def over_on_flown(rig: SolidRig) -> Iterator[Finding]:
    """Warns of units standing over a flown pipe: top-heavy, the pipe wants to roll."""
    over = [
        unit.mount == "over" and isinstance(p, Pipe) and bool(p.lines)
        for unit, p in zip(rig.units, rig.positions, strict=True)
    ]
    for rows in by_position(rig, over):
        hangs = subject(rig, rows, "hangs", "hang")
        says = f"{hangs} over a pipe that flies: top-heavy."
        do = "Hang them under where you can, or have a qualified person keep the pipe from rolling."
        yield about(rig, rows, WARN, "over-on-flown", says=says, do=do)


LEVEL_WITHIN = (
    0.05  # m; ends further apart than 2 in or 5 cm are not level (common practice, no source)
)
MEANT_SLOPE = 1 / 20  # rise per run from which a slope is no accident (common practice, no source)


def _hung_pipes(rig: SolidRig) -> Iterator[Pipe]:
    """Pipes that hold units."""
    for pipe, _ in hung(rig):
        if isinstance(pipe, Pipe):
            yield pipe


def not_measured(rig: SolidRig) -> Iterator[Finding]:
    """Warns of pipes whose trim nobody has marked as measured."""
    for pipe in _hung_pipes(rig):
        if not pipe.measured:
            trim = length((pipe.start[2] + pipe.end[2]) / 2, rig.scene.settings.unit)
            learned = any((c.what, c.of) == ("trim", pipe.name) for c in rig.scene.made)
            told = "from landings" if learned else "as plotted"
            says = f"Trim {trim} is {told}, not measured: every down-angle depends on it."
            do = "Measure at both ends and the middle, put the figure in, and set measured = true."
            if learned:
                do += f" Then take its trim out of {rig.scene.settings.corrections}."
            yield Finding(WARN, "trim-not-measured", says, do, position=pipe.name)


def out_of_level(rig: SolidRig) -> Iterator[Finding]:
    """Warns of pipes that look meant to be level and are not: off by over 5 cm, yet flatter than 1 in 20."""
    for pipe in _hung_pipes(rig):
        run = hypot(pipe.end[0] - pipe.start[0], pipe.end[1] - pipe.start[1])
        rise = abs(pipe.end[2] - pipe.start[2])
        if LEVEL_WITHIN + 1e-6 < rise < MEANT_SLOPE * run:
            says = (
                f"Its {_low_end(pipe)} end is {length(rise, rig.scene.settings.unit)} lower than the other; "
                "a level pipe should be within 5 cm (2 in)."
            )
            do = "Have it levelled and measured again, or keep the two ends as they are if that is meant."
            yield Finding(WARN, "out-of-level", says, do, position=pipe.name)


def _low_end(pipe: Pipe) -> str:
    plus, minus = sides(pipe)
    axis = 0 if plus == "SL" else 1
    start, end = (plus, minus) if pipe.start[axis] > pipe.end[axis] else (minus, plus)
    return start if pipe.start[2] < pipe.end[2] else end


Openings = dict[str, dict[str, list[str]]]  # side faced -> side opened to -> pipes


def clamp_openings(rig: SolidRig) -> Iterator[Finding]:
    """Warns where pipes that light one way have clamps opening both ways; notes clamps that open that way."""
    for facing, opens in _openings(rig).items():
        if len(opens) > 1:
            told = " and ".join(f"{side} on {listed(pipes)}" for side, pipes in opens.items())
            says = f"Clamps open {told}, though all these pipes light towards {facing}."
            do = f"Hang them all one way, best opening {_opposite(facing)}: bolts away from what they light."
            yield Finding(WARN, "clamps-mixed", says, do)
        elif facing in opens:
            pipes = opens[facing]
            says = f"Clamps on {listed(pipes)} open {facing}, towards what they light."
            do = f"Open them {_opposite(facing)}: bolts away from the light, within the hanger's reach."
            yield Finding(
                NOTE,
                "clamps-open-to-light",
                says,
                do,
                position=pipes[0] if len(pipes) == 1 else None,
            )


def _opposite(side: str) -> str:
    return WORDS[WORDS.index(side) ^ 1]


def _openings(rig: SolidRig) -> Openings:
    """Pipes with a known clamp opening whose units mostly face one side."""
    faces = np.where(rig.aims.square_sign < 0, rig.words.square ^ 1, rig.words.square)
    found: Openings = {}
    for pipe, rows in hung(rig):
        if not isinstance(pipe, Pipe) or pipe.clamp_opens is None:
            continue
        most = int(np.bincount(faces[rows]).argmax())
        if 2 * int((faces[rows] == most).sum()) > len(rows):
            found.setdefault(WORDS[most], {}).setdefault(pipe.clamp_opens, []).append(pipe.name)
    return found
