"""That there are units, and the numbers that tell one from another: along a position, and channels."""

from __future__ import annotations

from bisect import bisect_left, bisect_right, insort
from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence

import numpy as np

from aimcalc.findings.report import STOP, WARN, about
from aimcalc.geometry.vectors import Array
from aimcalc.rig.places import across, pipe_ends, place
from aimcalc.rig.solve import hung, number_key
from aimcalc.rig.wording import count, listed
from aimcalc.scene.model import HIDDEN, Boom, Pipe
from aimcalc.solid.answers import Finding
from aimcalc.solid.rig import SolidRig


def no_units(rig: SolidRig) -> Iterator[Finding]:
    """Warns where there is nothing to aim: every other rule would be silent too."""
    if not rig.units:
        says = "The scene has no units, so there is nothing to hang, to aim or to check."
        do = 'Add [[unit]] entries, or name a hang list in [scene]: hang = "hang.csv".'
        yield Finding(WARN, "no-units", says, do)


def hidden(rig: SolidRig) -> Iterator[Finding]:
    """Warns once of units whose rows the hang list hides: they were read as any other."""
    names = [
        n for n, unit in zip(rig.names, rig.units, strict=True) if unit.source.endswith(HIDDEN)
    ]
    if names:
        says = f"The hang list hides the {count(names, 'row of unit', 'rows of units')}: read as any other."
        do = "Show the rows and look; delete what is not to hang."
        yield Finding(WARN, "hidden-rows", says, do)


def taken(rig: SolidRig) -> Iterator[Finding]:
    """What was taken for granted in reading the hang list, one finding each."""
    for told in rig.scene.taken:
        of = {"unit": told.unit, "position": told.position}
        yield Finding(told.severity, told.rule, told.says, told.do, **of)


def twice(rig: SolidRig) -> Iterator[Finding]:
    """Stops for unit numbers used more than once on a position."""
    for position, rows in hung(rig):
        found = Counter(rig.units[k].number for k in rows)
        again = [number for number, times in found.items() if times > 1]
        for number in again:
            says = f"{found[number]} units here have the number {number}."
            do = "Give each its own number, on the plot, the list and the unit."
            yield Finding(STOP, "number-twice", says, do, position=position.name)


def out_of_order(rig: SolidRig) -> Iterator[Finding]:
    """Warns of positions whose unit numbers neither rise nor fall all the way along.

    Numbers that do not begin with a digit are left out.
    """
    for position, rows in hung(rig):
        if not isinstance(position, Pipe | Boom):
            continue
        counted = [k for k in rows if rig.units[k].number[:1].isdigit()]
        broken = _breaks(rig, counted)
        if broken and _breaks(rig, _from_other_end(rig, counted)):
            told = listed([f"{b} comes after {a}" for a, b in broken[:3]])
            says = f"Unit numbers are out of order: {told}."
            do = "Renumber in the order they hang, or correct the place of the odd one."
            yield Finding(WARN, "numbers-out-of-order", says, do, position=position.name)


def _breaks(rig: SolidRig, rows: list[int]) -> list[tuple[str, str]]:
    """Neighbours whose numbers fall, walking along `rows`."""
    names = [rig.units[k].number for k in rows]
    keys = [number_key(name) for name in names]
    return [(names[j], names[j + 1]) for j in range(len(keys) - 1) if keys[j] > keys[j + 1]]


def _from_other_end(rig: SolidRig, rows: list[int]) -> list[int]:
    """The same units walked backwards; those at one place stay in the order of their numbers."""
    back = rows[0] if rows else 0
    sign = -1.0 if rows and (rig.units[back].at or 0.0) < (rig.units[rows[-1]].at or 0.0) else 1.0
    return sorted(
        rows, key=lambda k: (sign * (rig.units[k].at or 0.0), number_key(rig.units[k].number))
    )


def shared_channels(rig: SolidRig) -> Iterator[Finding]:
    """Warns of channels whose units do different jobs, where that is not plainly meant.

    Meant: units on one circuit (paired by cable), and systems where most of the channels hold
    several units.
    """
    times = Counter(unit.channel for unit in rig.units if unit.channel)
    holds: dict[str, list[int]] = defaultdict(list)
    for k, unit in enumerate(rig.units):
        if unit.channel and times[unit.channel] > 1:
            holds[unit.channel].append(k)
    ganged = _ganged_systems(rig)
    for channel, rows in holds.items():
        if _differ(rig, rows, ganged):
            names = listed([f"{rig.names[k]} ({_job(rig, k)})" for k in rows])
            says = f"Channel {channel} holds units with different jobs: {names}."
            do = (
                "Give each its own channel, or put them on one circuit if they are meant to be one."
            )
            yield about(rig, rows[:1], WARN, "channel-shared", says=says, do=do)


def _ganged_systems(rig: SolidRig) -> set[str | None]:
    """Systems where most of the channels hold several of its units."""
    held = Counter((unit.system, unit.channel) for unit in rig.units if unit.channel)
    every = Counter(system for system, _ in held)
    several = Counter(system for (system, _), times in held.items() if times > 1)
    return {system for system in every if system and 2 * several[system] > every[system]}


def _differ(rig: SolidRig, rows: list[int], ganged: set[str | None]) -> bool:
    units = [rig.units[k] for k in rows]
    circuits = {(unit.position, unit.circuit) for unit in units}
    if len(circuits) == 1 and units[0].circuit:
        return False
    systems = {unit.system for unit in units}
    aims = {(unit.target, unit.point) for unit in units}
    return len(systems) > 1 or (len(aims) > 1 and not systems <= ganged)


def _job(rig: SolidRig, k: int) -> str:
    unit = rig.units[k]
    return ", ".join(filter(None, (unit.system, unit.target or "a point of its own")))


FEWEST_UNITS = 4


def mirrored(rig: SolidRig) -> Iterator[Finding]:
    """Warns of pipes whose aims cross less than half as often with SL and SR of its places swapped.

    Two units of one system cross where the one further SL has the target further SR. Swapping turns every
    such pair round, so what is asked is whether over two thirds of the pairs cross; and whether the light
    then also travels less along the pipe. A pipe focused across itself on purpose keeps each half in
    order and so stays below. Units without a system are specials, which cross as they please; they count
    only where no unit of the scene has one.
    """
    told = any(unit.system for unit in rig.units)
    for pipe, row in hung(rig):
        rows = [k for k in row if rig.units[k].system or not told]
        if len(rows) < FEWEST_UNITS or not isinstance(pipe, Pipe) or not across(pipe):
            continue
        if pipe.through is not None:  # light from a bend may cross as it likes
            continue
        at, to = _along(rig, pipe, rows)
        crossed, pairs = _crossings(rig, rows, at, to)
        after = pairs - crossed
        if pairs >= FEWEST_UNITS and 2 * after < crossed and _less_travel(pipe, at, to):
            says = (
                f"Mirrored? {crossed} pairs of units cross their aims; with SL and SR of their places "
                f"swapped, {after} would."
            )
            do = "Check which end the places were counted from. If the crossing is meant, leave it."
            yield Finding(WARN, "mirrored", says, do, position=pipe.name)


def _along(rig: SolidRig, pipe: Pipe, rows: list[int]) -> tuple[Array, Array]:
    """Places of units, and of the points they aim at, measured along the pipe."""
    here = place(pipe)
    way, zero = np.array(here.along), np.array(here.zero)
    at = np.array([rig.units[k].at or 0.0 for k in rows])
    return at, way @ (rig.arrays.point[:, rows] - zero[:, None])


def _less_travel(pipe: Pipe, at: Array, to: Array) -> bool:
    """Whether light has less way to go along the pipe with every place counted from the other end."""
    low, high = pipe_ends(pipe)
    swapped = low + high - at
    return bool(np.abs(to - swapped).sum() < np.abs(to - at).sum())


def _crossings(rig: SolidRig, rows: list[int], at: Array, to: Array) -> tuple[int, int]:
    """Pairs of units of one system whose aims cross, and pairs that could: (crossed, pairs)."""
    systems: dict[str | None, list[int]] = defaultdict(list)
    for j, k in enumerate(rows):
        systems[rig.units[k].system].append(j)
    crossed = pairs = 0
    for mine in systems.values():
        crosses, clear = count_crossings(at[mine].tolist(), to[mine].tolist())
        crossed, pairs = crossed + crosses, pairs + crosses + clear
    return crossed, pairs


def count_crossings(at: Sequence[float], to: Sequence[float]) -> tuple[int, int]:
    """How many pairs have `at` and `to` in opposite order, and in the same order; ties are neither."""
    apart = 0.001  # a millimetre: targets in one line up and down the stage
    order = sorted(zip(at, to, strict=True))
    seen: list[float] = []
    opposite = same = 0
    for _, target in order:
        opposite += len(seen) - bisect_right(seen, target + apart)
        same += bisect_left(seen, target - apart)
        insort(seen, target)
    return opposite, same
