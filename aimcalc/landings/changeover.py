"""The changeover between two shows that share a rig: the fewest units that must be touched.

Units of one kind on one position stand in for each other, whatever their numbers. What hangs where the new
show wants one of its kind stays there, so the rest is matched: which unit moves to which mark. Then jobs may
change places by patch: a unit that already lights what another is plotted to light is patched as that other.
Each is a least-cost matching; what counts first is units touched, then the work at them.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import dist
from typing import Any

import msgspec

from aimcalc.landings.changes import WORK, Side
from aimcalc.landings.compare import angles, at_the_pipe
from aimcalc.landings.patches import (
    CENTIMETRES,
    WORKS,
    Pair,
    Patch,
    by_patch,
    matched,
    written_work,
)
from aimcalc.landings.written import most_shared, mount_words, shifts_of
from aimcalc.rig.wording import HANG, rounded
from aimcalc.scene.model import Point

STILL = (0.0, 0.0, 0.0)


class Job(msgspec.Struct, frozen=True):
    """One unit of the new show, `was` the one that does it as the old show had it; None: none hangs there.

    `unit` is None of a unit that is struck. `to_do` is empty where it serves as it is. A channel is None
    where no scene tells it.
    """

    unit: str | None
    was: str | None
    position: str
    to_do: tuple[str, ...]
    channel: str | None = None
    channel_was: str | None = None


class Changeover(msgspec.Struct, frozen=True):
    """The fewest units to touch: `jobs` in the order of the new show, what is struck last.

    `patched` has the jobs that could change places, where that leaves fewer to touch, `touch_patched`.
    """

    jobs: tuple[Job, ...]
    patched: tuple[Patch, ...] = ()
    touch_patched: int | None = None

    @property
    def touch(self) -> int:
        """Units to touch where all light comes from where it is plotted."""
        return sum(bool(job.to_do) for job in self.jobs)


def changeover(old: Side, new: Side, length: str = "m") -> Changeover:
    """The fewest units to touch from `old` to `new`; marks are those printed in `length`, m or ft."""
    if old.scene is None or new.scene is None:
        old, new = Side(old.units.values()), Side(new.units.values())
        shifts = _shifts(old, new)
    else:
        shifts = shifts_of(old, new)
    groups: dict[tuple[str, str], tuple[list[str], list[str]]] = {}
    for which, side in enumerate((old, new)):
        for name, unit in side.units.items():
            groups.setdefault((unit.position, unit.kind), ([], []))[which].append(name)
    pairs, patched, saved = {}, [], 0
    for (position, _), (olds, news) in groups.items():
        shift = shifts.get(position, STILL)
        mine = _group(old, new, olds, news, length, shift)
        pairs.update({pair.unit: pair for pair in mine})
        better, fewer = by_patch(old, new, news, {pair.unit: pair for pair in mine})
        patched += better
        saved += fewer
    jobs = tuple(_jobs(old, new, pairs))
    found = Changeover(jobs, tuple(patched))
    return msgspec.structs.replace(found, touch_patched=found.touch - saved if saved else None)


def _shifts(old: Side, new: Side) -> dict[str, Point]:
    """How far each position has moved, by its clamps alone: what brings most of them onto each other."""
    clamps: dict[str, tuple[list[Point], list[Point]]] = {}
    for which, side in enumerate((old, new)):
        for unit in side.units.values():
            clamps.setdefault(unit.position, ([], []))[which].append(unit.clamp)
    found: dict[str, Point] = {}
    for position, (was, now) in clamps.items():
        offs = [_off(here, there) for here in was for there in now]
        shift = most_shared(offs) if offs else STILL
        found[position] = shift if offs.count(shift) > 1 else STILL
    return found


def _off(here: Point, there: Point) -> Point:
    return tuple(round(b - a, 6) + 0.0 for a, b in zip(here, there, strict=True))  # type: ignore[return-value]


def _jobs(old: Side, new: Side, pairs: dict[str, Pair]) -> Iterator[Job]:
    def channel(side: Side, name: str) -> str | None:
        return side.written[name].channel if name in side.written else None

    for name, unit in new.units.items():
        pair = pairs.get(name)
        if pair is None:
            yield Job(name, None, unit.position, ("hang",), channel(new, name))
        else:
            channels = channel(new, name), channel(old, pair.was)
            yield Job(name, pair.was, unit.position, pair.to_do, *channels)
    kept = {pair.was for pair in pairs.values()}
    for name, unit in old.units.items():
        if name not in kept:
            yield Job(None, name, unit.position, ("strike",), None, channel(old, name))


def _group(
    old: Side, new: Side, olds: list[str], news: list[str], length: str, shift: Point
) -> list[Pair]:
    """Who stays and who moves, of one kind on one position."""
    places: dict[Any, tuple[list[str], list[str]]] = {}
    for name in olds:
        places.setdefault(_place(old, name, length, shift), ([], []))[0].append(name)
    for name in news:
        places.setdefault(_place(new, name, length, STILL), ([], []))[1].append(name)
    pairs = []
    for here, there in places.values():
        works = [[_work(old, new, was, unit) for unit in there] for was in here]
        costs = [
            [
                (int(bool(work)), len(work), int(was != unit))
                for unit, work in zip(there, row, strict=True)
            ]
            for was, row in zip(here, works, strict=True)
        ]
        pairs += [Pair(here[i], there[j], works[i][j]) for i, j in matched(costs)]
    left = [[name for name in olds if name not in {p.was for p in pairs}]]
    left.append([name for name in news if name not in {p.unit for p in pairs}])
    works = [[_moved(old, new, was, unit) for unit in left[1]] for was in left[0]]
    costs = [
        [
            (len(work), int(was != unit), _carried(old, new, was, unit, shift))
            for unit, work in zip(left[1], row, strict=True)
        ]
        for was, row in zip(left[0], works, strict=True)
    ]
    return pairs + [Pair(left[0][i], left[1][j], works[i][j]) for i, j in matched(costs)]


def _place(side: Side, name: str, length: str, shift: Point) -> tuple[Any, ...]:
    """How and where it hangs, as its mark is printed; of a print where its clamp is, moved by `shift`."""
    unit = side.written.get(name)
    if unit is not None:
        at = None if unit.at is None else rounded(unit.at, length, HANG)
        return mount_words(unit), at
    told = side.units[name]
    clamp = (round(told.clamp[k] + shift[k], 6) for k in range(3))
    return told.mount, *(rounded(value, length, HANG) for value in clamp)


def _work(old: Side, new: Side, was: str, unit: str) -> tuple[str, ...]:
    """What is to be done at an old unit that stays where it hangs and does the job of a new one."""
    a, b = old.units[was], new.units[unit]
    then, now = (
        side.hung and side.hung.units.get(name) for side, name in ((old, was), (new, unit))
    )
    works = {WORK[each.figure] for each in (*angles(a, b), *at_the_pipe(then, now, b)) if each.left}
    works |= written_work(old, new, was, unit)
    return tuple(work for work in WORKS if work in works - {"hang"})  # a wedge goes with the pan


def _moved(old: Side, new: Side, was: str, unit: str) -> tuple[str, ...]:
    """What is to be done at an old unit that is moved to the mark of a new one, which may keep its angles."""
    works = {"move", *_work(old, new, was, unit)}
    return tuple(work for work in WORKS if work in works)


def _carried(old: Side, new: Side, was: str, unit: str, shift: Point) -> int:
    """How far an old unit is carried to a new one's clamp, whole centimetres."""
    there = [value + by for value, by in zip(old.units[was].clamp, shift, strict=True)]
    return round(CENTIMETRES * dist(there, new.units[unit].clamp))
