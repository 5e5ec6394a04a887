"""The field angle a job asks for: a pool of a wanted size, or one that meets its neighbour half-way down.

Full angles in radians.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import ArrayLike

from aimcalc.coverage.areas import aimed_at
from aimcalc.coverage.systems import ALL, systems_of
from aimcalc.geometry.vectors import Array, angles_between, dot
from aimcalc.light.lamps import Flags, Indices
from aimcalc.light.profiles import GAUSSIAN_RATIO, LN2, LN10, SHARPEST
from aimcalc.named import NamedTuple

if TYPE_CHECKING:
    from aimcalc.solid.rig import SolidRig


HALF = 0.5


def pool_diameter(field: ArrayLike, throw: ArrayLike) -> Array:
    """Diameter of the pool square to the axis: 2 throw tan(field / 2); in the unit of `throw`.

    `field` is the full angle; the arguments broadcast. One of half a turn or more has no pool: the figure is
    then negative.
    """
    return np.asarray(2 * np.asarray(throw) * np.tan(np.asarray(field) / 2))


def field_for_pool(diameter: ArrayLike, throw: ArrayLike) -> Array:
    """Full field angle that makes a pool of `diameter` square to the axis at `throw`: `pool_diameter` undone.

    Both in one unit; the arguments broadcast. Half a turn where the throw is nothing.
    """
    return np.asarray(2 * np.arctan2(np.asarray(diameter, np.float64), 2 * np.asarray(throw)))


def field_to_meet(
    lens: Array,
    face: Array,
    neighbour: Array,
    *,
    ratio: ArrayLike = GAUSSIAN_RATIO,
    normal: ArrayLike = (0.0, 0.0, 1.0),
) -> Array:
    """Full field angle at which a unit gives half its middle's light half-way to the neighbouring face.

    Then two alike units together make up at the seam what each gives in its middle. `lens`, `face` (where the
    axis goes) and `neighbour` (the next unit's) are (3, N); `ratio` is field over beam, which sets how the
    profile falls; `normal` is that of the plane the light is measured on. The nearer or further edge's
    own inverse square and cosine are counted. NaN where no lens does it: where even the same candela would
    give half or less there, or where the faces are the same or the lens is not in front of the plane.
    """
    middle = (face + neighbour) / 2
    n = np.asarray(normal, np.float64).reshape(3, 1)
    with np.errstate(divide="ignore", invalid="ignore"):
        even = _per_candela(lens, middle, n) / _per_candela(lens, face, n)
        wanted = -np.log(HALF / even)  # (theta / w)^n that leaves half the light of the middle
        power = np.log(LN10 / LN2) / np.log(np.asarray(ratio, np.float64))
        theta = angles_between(face - lens, middle - lens)
        # (theta / w)^n = wanted at the seam and ln 10 at the field's edge
        field = 2 * theta * (LN10 / wanted) ** (1 / power)
    possible = (wanted > 0) & (theta > 0) & (even > 0) & np.isfinite(field)
    return np.where(possible, field, np.nan)


TOO_SMALL = 2.0  # how much worse a pool too small is than one too large by as much (our choice)


def mismatch(field: ArrayLike, wanted: ArrayLike) -> Array:
    """How badly a lens of `field` does for the `wanted` field, 0 = exactly right; the arguments broadcast.

    Full angles under half a turn; NaN where either is.

    The natural logarithm of the ratio of their pools' diameters, times TOO_SMALL where the pool is smaller
    than wanted: an overlap can be cut, a hole cannot be filled.
    """
    ratio = np.log(np.tan(np.asarray(field) / 2) / np.tan(np.asarray(wanted) / 2))
    return np.asarray(np.where(ratio < 0, -TOO_SMALL * ratio, ratio))


def _per_candela(lens: Array, point: Array, normal: Array) -> Array:
    """Lux on the plane at `point` for each candela towards it: cos t / d^2; NaN from behind the plane."""
    ray = lens - point
    height, square = dot(ray, normal), dot(ray, ray)
    return np.asarray(np.where(height > 0, height, np.nan) / square**1.5)


NONE = -1  # a place for which the stock holds nothing


class Assignment(NamedTuple):
    """What each of N places gets from K kinds; see `assigned`."""

    kind: Indices  # (N,), NONE where nothing is left that may go there
    cost: Array  # (N,), NaN where nothing goes
    first_choice: (
        Indices  # (N,), the kind that would be best with stock without end; NONE: no kind may
    )
    next_best: Indices  # (N,), the best other kind with some left over; NONE: there is none
    next_cost: Array  # (N,), its cost, NaN where there is none
    short: Indices  # (K,), how many more of each kind its first choosers wanted than there are
    left: Indices  # (K,), how many of each are not used

    @property
    def total(self) -> float:
        """Cost of the whole, unfilled places left out."""
        return float(np.nansum(self.cost))


def assigned(cost: ArrayLike, count: ArrayLike) -> Assignment:
    """The assignment that fills the most places, and of those the one of least total cost.

    `cost` (N, K), 0 or more, infinite where a kind may not go; `count` (K,) how many of each there are.
    Solved exactly, as a flow of least cost over the kinds (`_solved`). Raises ValueError for costs or counts
    below 0.
    """
    costs, counts = np.asarray(cost, np.float64), np.asarray(count, np.intp)
    if np.any(costs < 0) or np.any(np.isnan(costs)) or np.any(counts < 0):
        raise ValueError("expected costs and counts of 0 or more")
    kind = _solved(costs, counts)
    places = np.arange(kind.size)
    paid = np.where(kind == NONE, np.nan, costs[places, kind]) if costs.shape[1] else _nan(kind)
    first = _best(costs)
    wanted = np.bincount(first[first != NONE], minlength=counts.size)
    left = counts - np.bincount(kind[kind != NONE], minlength=counts.size)
    other = np.where(left > 0, costs, np.inf)
    filled = kind != NONE
    other[places[filled], kind[filled]] = np.inf
    following = _best(other)
    next_cost = _nan(kind)
    has = following != NONE
    next_cost[has] = costs[places[has], following[has]]
    return Assignment(kind, paid, first, following, next_cost, np.maximum(wanted - counts, 0), left)


def _solved(costs: Array, counts: Indices) -> Indices:
    """The kind of each place, NONE where it stays empty.

    Every place begins with its cheapest kind. Then, while a kind has more places than there are units of it,
    one place is moved on along the cheapest chain of kinds to one with units left (successive shortest
    paths: each step leaves the cheapest way of having that much less of the excess). To stay empty is a kind
    of which there is no end, dearer than any way of paying for all the others. Only the kinds are nodes, with
    the cheapest move from each to each: there is no table of places by single units.
    """
    finite = costs[np.isfinite(costs)]
    empty = np.full((costs.shape[0], 1), 1.0 + finite.sum())
    whole = np.hstack((costs, empty))
    room = np.append(counts, costs.shape[0])
    kind = whole.argmin(axis=1) if whole.size else np.zeros(0, np.intp)
    held = np.bincount(kind, minlength=room.size)
    size = room.size
    step, mover = np.full((size, size), np.inf), np.zeros((size, size), np.intp)
    _renew(range(size), whole, kind, step, mover)
    for over in range(size):
        while held[over] > room[over]:
            chain = _cheapest_chain(step, over, held < room)
            for here, there in pairwise(chain):
                kind[mover[here, there]] = there
            held[over] -= 1
            held[chain[-1]] += 1
            _renew(chain, whole, kind, step, mover)
    return np.where(kind == size - 1, NONE, kind)


def _renew(kinds: Iterable[int], costs: Array, kind: Indices, step: Array, mover: Indices) -> None:
    """Fill in the rows of `kinds`: what the cheapest move of a place to each other kind costs, and which."""
    for k in kinds:
        places = np.flatnonzero(kind == k)
        step[k] = np.inf
        if places.size:
            places = places[::-1]  # of equals the last in hang order moves on
            more = costs[places] - costs[places, k][:, None]
            first = more.argmin(axis=0)
            step[k], mover[k] = more[first, np.arange(step.shape[0])], places[first]


def _cheapest_chain(step: Array, start: int, ends: Flags) -> list[int]:
    """Kinds from `start` to one of `ends` over which a place is moved on for the least (Bellman and Ford)."""
    best = np.full(step.shape[0], np.inf)
    best[start] = 0.0
    before = np.full(step.shape[0], -1)
    for _ in range(step.shape[0]):
        through = best[:, None] + step
        by = through.argmin(axis=0)
        least = through[by, np.arange(by.size)]
        better = least < best - ROUNDING
        if not better.any():
            break
        best[better], before[better] = least[better], by[better]
    chain = [int(np.where(ends, best, np.inf).argmin())]
    while chain[-1] != start:
        chain.append(int(before[chain[-1]]))
    return chain[::-1]


def _best(costs: Array) -> Indices:
    """Cheapest kind of each place, NONE where all are infinite."""
    if not costs.shape[1]:
        return np.full(costs.shape[0], NONE)
    best = costs.argmin(axis=1)
    return np.where(np.isfinite(costs[np.arange(best.size), best]), best, NONE)


def _nan(like: Indices) -> Array:
    return np.full(like.size, np.nan)


ROUNDING = 1e-12
NEIGHBOUR = 1.25  # times as far off as the nearest face (our choice)
MEETS, POOL, AS_IS, KEPT = "meets", "pool", "as it is", "kept"


class Wanted(NamedTuple):
    """One unit: `field` (full angle, radians), why, and the targets that it is to meet."""

    field: float
    why: str
    meets: tuple[str, ...] = ()


def wanted_of(rig: SolidRig, pool: float | None = None, keep: Collection[str] = ()) -> list[Wanted]:
    """What is wanted of every unit, in hang order; `pool` is a diameter in metres, wanted of all systems.

    Units without a system, with a pattern or without an aim are wanted as they are, and so are those that
    have no neighbour or that no lens can make meet one. Units of the systems `keep` are kept.
    """
    found = [Wanted(float(field), AS_IS) for field in rig.arrays.field]
    for system, units in systems_of(rig).items():
        if system == ALL:
            continue
        if system in keep:
            for k in units.tolist():
                found[k] = found[k]._replace(why=KEPT)
            continue
        faces = _faces(rig, units)
        for k in units.tolist():
            if rig.kinds[k].has_gobo or not rig.aims.throw[k] > 0:
                continue
            if pool is not None:
                found[k] = Wanted(float(field_for_pool(pool, rig.aims.throw[k])), POOL)
            else:
                found[k] = _to_meet(rig, k, faces) or found[k]
    return found


class _Faces(NamedTuple):
    """The faces that a system lights: names, the column of each, and the points of the axes, (3, F)."""

    names: list[str]
    column: dict[str, int]
    point: Array


def _faces(rig: SolidRig, units: Indices) -> _Faces:
    rows = {aimed_at(rig, k): k for k in units.tolist()}
    columns = {name: column for column, name in enumerate(rows)}
    return _Faces(list(rows), columns, rig.arrays.point[:, list(rows.values())])


def _to_meet(rig: SolidRig, unit: int, faces: _Faces) -> Wanted | None:
    """The field with which a unit meets its neighbours; None where it has none or no lens does."""
    apart = np.hypot(*(faces.point - rig.arrays.point[:, [unit]])[:2])
    apart[apart == 0] = np.inf
    apart[faces.column[aimed_at(rig, unit)]] = np.inf
    nearest = float(apart.min())
    if not np.isfinite(nearest):
        return None
    rows = np.flatnonzero(apart <= NEIGHBOUR * nearest).tolist()
    there = faces.point[:, rows]
    near = [faces.names[row] for row in rows]
    lens, face = (np.repeat(v[:, [unit]], len(near), 1) for v in (rig.aims.lens, rig.arrays.point))
    beam_share = min(float(rig.arrays.beam[unit] / rig.arrays.field[unit]), SHARPEST)
    field = field_to_meet(lens, face, there, ratio=1 / beam_share)
    possible = np.isfinite(field) & (field < np.pi)
    if not possible.any():
        return None
    least = float(field_for_pool(nearest, rig.aims.throw[unit]))
    met = tuple(name for name, can in zip(near, possible.tolist(), strict=True) if can)
    return Wanted(max(float(field[possible].max()), least), MEETS, met)
