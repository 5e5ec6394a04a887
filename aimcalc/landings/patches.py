"""Jobs that change places by patch: a unit that already lights what another is plotted to light.

Of one kind on one position, by a least-cost matching: what counts first is units touched, then jobs moved.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import dist
from operator import mul

import msgspec

from aimcalc.geometry.vectors import angles_between, points, to_degrees
from aimcalc.landings.changes import WORK, Side
from aimcalc.named import NamedTuple

WORKS = ("strike", "hang", "move", "aim", "colour", "plug")
CENTIMETRES = 100.0  # in a metre: how far a unit is carried decides last
Costs = Sequence[Sequence[tuple[int, ...]]]


class Pair(NamedTuple):
    """An old unit in a new one's place, and the work that it takes."""

    was: str
    unit: str
    to_do: tuple[str, ...]


class Patch(msgspec.Struct, frozen=True):
    """A job that changes places: `unit` of the plot is done by what hangs as `by`, on `channel`.

    `apart` is how far from its plotted clamp the light comes, metres; `to_do` is left to do at `by`.
    """

    unit: str
    by: str
    channel: str | None
    apart: float
    to_do: tuple[str, ...]


def by_patch(
    old: Side, new: Side, news: list[str], pairs: dict[str, Pair]
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


def _done_at(old: Side, new: Side, pair: Pair, job: str, hit: bool) -> tuple[str, ...]:
    """The work at one mark, where what comes to hang there does the job of another, which it may hit."""
    works = {
        work for work in pair.to_do if work in ("move", "plug")
    }  # a circuit stays with its mark
    works |= written_work(old, new, pair.was, job) - {"plug"}
    if not hit:
        works.add("aim")
    return tuple(work for work in WORKS if work in works)


def _hits(old: Side, new: Side, news: list[str], pairs: dict[str, Pair]) -> list[list[bool]]:
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


def written_work(old: Side, new: Side, was: str, unit: str) -> set[str]:
    """The work at what only scenes tell: colour, circuit, the turn of a pattern, the edge."""
    a, b = old.written.get(was), new.written.get(unit)
    if a is None or b is None:
        return set()
    keys = ("colour", "circuit", "turn", "edge")
    return {WORK[key] for key in keys if getattr(a, key) != getattr(b, key)}


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
