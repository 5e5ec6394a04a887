"""The changeover between two shows that share a rig: the fewest units that must be touched.

Units of one kind on one position stand in for each other, whatever their numbers. What hangs where the new
show wants one of its kind stays there, so the rest is matched: which unit moves to which mark. Then jobs may
change places by patch: a unit that already lights what another is plotted to light is patched as that other.
Each is a least-cost matching; what counts first is units touched, then the work at them.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import dist
from operator import mul
from typing import Any

import msgspec

from aimcalc.geometry.vectors import angles_between, points, to_degrees
from aimcalc.landings.changes import WORK, Side
from aimcalc.landings.compare import angles, at_the_pipe
from aimcalc.landings.written import most_shared, mount_words, shifts_of
from aimcalc.named import NamedTuple
from aimcalc.rig.wording import HANG, rounded
from aimcalc.scene.model import Point

WORKS = ("strike", "hang", "move", "aim", "colour", "plug")
STILL = (0.0, 0.0, 0.0)
CENTIMETRES = 100.0  # in a metre: how far a unit is carried decides last
Costs = Sequence[Sequence[tuple[int, ...]]]


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


class Patch(msgspec.Struct, frozen=True):
    """A job that changes places: `unit` of the plot is done by what hangs as `by`, on `channel`.

    `apart` is how far from its plotted clamp the light comes, metres; `to_do` is left to do at `by`.
    """

    unit: str
    by: str
    channel: str | None
    apart: float
    to_do: tuple[str, ...]


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


class _Pair(NamedTuple):
    """An old unit in a new one's place, and the work that it takes."""

    was: str
    unit: str
    to_do: tuple[str, ...]


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
        better, fewer = _by_patch(old, new, news, {pair.unit: pair for pair in mine})
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


def _jobs(old: Side, new: Side, pairs: dict[str, _Pair]) -> Iterator[Job]:
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
) -> list[_Pair]:
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
        pairs += [_Pair(here[i], there[j], works[i][j]) for i, j in matched(costs)]
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
    return pairs + [_Pair(left[0][i], left[1][j], works[i][j]) for i, j in matched(costs)]


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
    works |= _written_work(old, new, was, unit)
    return tuple(work for work in WORKS if work in works - {"hang"})  # a wedge goes with the pan


def _written_work(old: Side, new: Side, was: str, unit: str) -> set[str]:
    """The work at what only scenes tell: colour, circuit, the turn of a pattern, the edge."""
    a, b = old.written.get(was), new.written.get(unit)
    if a is None or b is None:
        return set()
    keys = ("colour", "circuit", "turn", "edge")
    return {WORK[key] for key in keys if getattr(a, key) != getattr(b, key)}


def _moved(old: Side, new: Side, was: str, unit: str) -> tuple[str, ...]:
    """What is to be done at an old unit that is moved to the mark of a new one, which may keep its angles."""
    works = {"move", *_work(old, new, was, unit)}
    return tuple(work for work in WORKS if work in works)


def _carried(old: Side, new: Side, was: str, unit: str, shift: Point) -> int:
    """How far an old unit is carried to a new one's clamp, whole centimetres."""
    there = [value + by for value, by in zip(old.units[was].clamp, shift, strict=True)]
    return round(CENTIMETRES * dist(there, new.units[unit].clamp))


def _by_patch(
    old: Side, new: Side, news: list[str], pairs: dict[str, _Pair]
) -> tuple[list[Patch], int]:
    """Jobs of one kind on one position that change places, and how many fewer units are touched by it."""
    own = [pairs[name].to_do if name in pairs else ("hang",) for name in news]
    if not any(own):
        return [], 0
    hits = _hits(old, new, news, pairs)
    works = [
        [
            own[i] if i == j or place not in pairs else _done_at(old, new, pairs[place], job, hit)
            for j, (job, hit) in enumerate(zip(news, row, strict=True))
        ]
        for i, (place, row) in enumerate(zip(news, hits, strict=True))
    ]
    if not any(own[j] and not work for row in works for j, work in enumerate(row)):
        return [], 0
    clamps = [new.units[name].clamp for name in news]
    costs = [
        [
            (int(bool(work)), int(i != j), round(CENTIMETRES * dist(clamps[i], clamps[j])))
            for j, work in enumerate(row)
        ]
        for i, row in enumerate(works)
    ]
    chosen = matched(costs)
    saved = sum(map(bool, own)) - sum(bool(works[i][j]) for i, j in chosen)
    if not saved:
        return [], 0
    found = []
    for i, j in sorted(chosen, key=lambda pair: pair[1]):
        if i != j:
            job = new.written.get(news[j])
            channel = None if job is None else job.channel
            found.append(Patch(news[j], news[i], channel, dist(clamps[i], clamps[j]), works[i][j]))
    return found, saved


def _done_at(old: Side, new: Side, pair: _Pair, job: str, hit: bool) -> tuple[str, ...]:
    """The work at one mark, where what comes to hang there does the job of another, which it may hit."""
    works = {
        work for work in pair.to_do if work in ("move", "plug")
    }  # a circuit stays with its mark
    works |= _written_work(old, new, pair.was, job) - {"plug"}
    if not hit:
        works.add("aim")
    return tuple(work for work in WORKS if work in works)


def _hits(old: Side, new: Side, news: list[str], pairs: dict[str, _Pair]) -> list[list[bool]]:
    """Whether what comes to hang at each place, pointed as it was, hits each job's face within tolerance.

    A unit that is only now hung hits nothing.
    """
    there = [pairs.get(name) for name in news]
    olds = [None if pair is None else old.units[pair.was] for pair in there]
    lit = [None if was is None else was.lens for was in olds]
    nowhere = (float("nan"),) * 3
    was = [points([each.clamp if each else nowhere for each in olds])]
    was += [points([each.face if each else nowhere for each in olds])]
    lens = points([each or nowhere for each in lit])
    now = [points([getattr(new.units[name], key) for name in news]) for key in ("clamp", "face")]
    axes = (was[1] - lens)[:, :, None]
    ways = now[1][:, None, :] - (lens + now[0] - was[0])[:, :, None]
    apart = to_degrees(angles_between(axes + 0.0 * ways, ways))
    may = [new.units[name].down_tolerance for name in news]
    within = [[min(each.down_tolerance if each else 0.0, most) for most in may] for each in olds]
    return [
        [bool(off <= most) for off, most in zip(*row, strict=True)]
        for row in zip(apart.tolist(), within, strict=True)
    ]


def matched(costs: Costs) -> list[tuple[int, int]]:
    """Row and column of every pair of a matching of least cost, as many pairs as there can be.

    A cost is whole numbers, none negative, the first of which outweighs all that follow. Solved exactly by
    `scipy.optimize.linear_sum_assignment` (the shortest augmenting paths of Crouse, 2016).
    """
    if not costs or not costs[0]:
        return []
    if len(costs) == 1 or len(costs[0]) == 1:  # no library for a choice of one
        every = [(cost, i, j) for i, row in enumerate(costs) for j, cost in enumerate(row)]
        return [min(every)[1:]]
    from scipy.optimize import linear_sum_assignment

    rows, columns = linear_sum_assignment(_weighed(costs))
    return list(zip(rows.tolist(), columns.tolist(), strict=True))


def _weighed(costs: Costs) -> list[list[int]]:
    """Each cost as one number: a step of one part weighs more than all that later parts can sum to."""
    pairs, parts = min(len(costs), len(costs[0])), len(costs[0][0])
    weights, weight = [0] * parts, 1
    for part in reversed(range(parts)):
        weights[part] = weight
        weight *= 1 + pairs * max(cost[part] for row in costs for cost in row)
    return [[sum(map(mul, cost, weights)) for cost in row] for row in costs]
