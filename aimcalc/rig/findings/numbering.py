"""That there are units, and the numbers that tell one from another: along a position, and channels."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator

from aimcalc.rig.answers import Finding
from aimcalc.rig.findings.telling import STOP, WARN, about, hung
from aimcalc.rig.order import number_key
from aimcalc.rig.solve import Rig
from aimcalc.rig.wording import count, listed
from aimcalc.scene.model import HIDDEN, Boom, Pipe


def no_units(rig: Rig) -> Iterator[Finding]:
    """Warns where there is nothing to aim: every other rule would be silent too."""
    if not rig.units:
        says = "The scene has no units, so there is nothing to hang, to aim or to check."
        do = 'Add [[unit]] entries, or name a hang list in [scene]: hang = "hang.csv".'
        yield Finding(WARN, "no-units", says, do)


def hidden(rig: Rig) -> Iterator[Finding]:
    """Warns once of units whose rows the hang list hides: they were read as any other."""
    names = [
        n for n, unit in zip(rig.names, rig.units, strict=True) if unit.source.endswith(HIDDEN)
    ]
    if names:
        says = f"The hang list hides the {count(names, 'row of unit', 'rows of units')}: read as any other."
        do = "Show the rows and look; delete what is not to hang."
        yield Finding(WARN, "hidden-rows", says, do)


def twice(rig: Rig) -> Iterator[Finding]:
    """Stops for unit numbers used more than once on a position."""
    for position, rows in hung(rig):
        found = Counter(rig.units[k].number for k in rows)
        again = [number for number, times in found.items() if times > 1]
        for number in again:
            says = f"{found[number]} units here have the number {number}."
            do = "Give each its own number, on the plot, the list and the unit."
            yield Finding(STOP, "number-twice", says, do, position=position.name)


def out_of_order(rig: Rig) -> Iterator[Finding]:
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


def _breaks(rig: Rig, rows: list[int]) -> list[tuple[str, str]]:
    """Neighbours whose numbers fall, walking along `rows`."""
    names = [rig.units[k].number for k in rows]
    keys = [number_key(name) for name in names]
    return [(names[j], names[j + 1]) for j in range(len(keys) - 1) if keys[j] > keys[j + 1]]


def _from_other_end(rig: Rig, rows: list[int]) -> list[int]:
    """The same units walked backwards; those at one place stay in the order of their numbers."""
    back = rows[0] if rows else 0
    sign = -1.0 if rows and (rig.units[back].at or 0.0) < (rig.units[rows[-1]].at or 0.0) else 1.0
    return sorted(
        rows, key=lambda k: (sign * (rig.units[k].at or 0.0), number_key(rig.units[k].number))
    )


def shared_channels(rig: Rig) -> Iterator[Finding]:
    """Warns of channels whose units do different jobs, where that is not plainly meant.

    Meant: units on one circuit (paired by cable), and systems where most of the channels hold
    several units.
    """
    holds: dict[str, list[int]] = defaultdict(list)
    for k, unit in enumerate(rig.units):
        if unit.channel:
            holds[unit.channel].append(k)
    ganged = _ganged_systems(rig, holds)
    for channel, rows in holds.items():
        if len(rows) > 1 and _differ(rig, rows, ganged):
            names = listed([f"{rig.names[k]} ({_job(rig, k)})" for k in rows])
            says = f"Channel {channel} holds units with different jobs: {names}."
            do = (
                "Give each its own channel, or put them on one circuit if they are meant to be one."
            )
            yield about(rig, rows[:1], WARN, "channel-shared", says=says, do=do)


def _ganged_systems(rig: Rig, holds: dict[str, list[int]]) -> set[str | None]:
    """Systems where most of the channels hold several of its units."""
    every: Counter[str | None] = Counter()
    several: Counter[str | None] = Counter()
    for rows in holds.values():
        for system, units in Counter(rig.units[k].system for k in rows).items():
            every[system] += 1
            several[system] += units > 1
    return {system for system in every if system and 2 * several[system] > every[system]}


def _differ(rig: Rig, rows: list[int], ganged: set[str | None]) -> bool:
    units = [rig.units[k] for k in rows]
    circuits = {(unit.position, unit.circuit) for unit in units}
    if len(circuits) == 1 and units[0].circuit:
        return False
    systems = {unit.system for unit in units}
    aims = {(unit.target, unit.point) for unit in units}
    return len(systems) > 1 or (len(aims) > 1 and not systems <= ganged)


def _job(rig: Rig, k: int) -> str:
    unit = rig.units[k]
    return ", ".join(filter(None, (unit.system, unit.target or "a point of its own")))
