"""Rival single causes of what was measured, each with its chance.

Each says: besides what everything is usually out by, one thing is out by far more, or one thing was done in
another way (mirrored, from plumb, from the wrong end ...). Its evidence is how likely the readings were made
by it, all unknowns at any value (a Gaussian integral about the most likely state, after Laplace); a reading
now and then is gross, and says nothing. Chances follow by Bayes' rule, causes of a sort alike beforehand.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.aim import Flags, Indices
from aimcalc.geometry.vectors import Array
from aimcalc.landings.forward import SIGHT, Held, Set, held, printed, some
from aimcalc.landings.spots import RIG, Problem, System
from aimcalc.named import NamedTuple

if TYPE_CHECKING:
    pass

NONE = "none"
BEFORE = (
    0.25  # chance, before anything is read, that nothing is out by more than usual (our choice)
)
COMMON = {  # how common causes are beside the others (common practice, no source)
    "trim": 4.0,
    **dict.fromkeys(("skew", "kick", "mirrored", "face-for-floor", "wrong-end"), 2.0),
    **dict.fromkeys(("from-plumb", "swapped"), 2.0),
}
FAR_OUT = 5.0  # prior widths: of what is the cause (our choice)
RESTS = (0.3, 1.0)  # prior widths: of all else, where one thing is to be the cause (our choice)
GROSS = 0.05  # share of readings that are gross (our choice)
ROOM = 8.0  # m each way: over which a gross reading may lie anywhere (our choice)
ROUNDS = 2  # of Gauss and Newton
AT_ONCE = 2_000_000  # numbers of the matrices that are taken together


class Cause(NamedTuple):
    """One cause: its word, what it is of, which unknown is far out (-1: none), how units were really set."""

    cause: str
    of: str
    unknown: int = -1
    given: Set | None = None
    units: Held | None = None
    share: float = 1.0  # of the chance of its sort


class Judged(NamedTuple):
    """A cause with its evidence (a logarithm), its most likely state (P,) and which spots it calls gross."""

    cause: Cause
    evidence: float
    chance: float
    state: Array
    gross: Flags


def judged(problem: Problem) -> list[Judged]:
    """Every cause with its chance, the most likely first."""
    causes = [Cause(NONE, ""), *_far_out(problem), *_otherwise(problem)]
    shares: dict[str, float] = {}
    for cause in causes:
        shares[cause.cause] = shares.get(cause.cause, 0.0) + cause.share
    every = sum(COMMON.get(cause, 1.0) for cause in shares if cause != NONE)
    found: list[tuple[float, Array, Flags]] = []
    rows = len(problem.direct) + problem.rows * problem.count
    step = max(1, AT_ONCE // (rows * (rows + len(problem.unknowns)) + 1))
    for first in range(0, len(causes), step):
        found += _evidence(problem, causes[first : first + step])
    before = [
        BEFORE
        if c.cause == NONE
        else (1.0 - BEFORE) * COMMON.get(c.cause, 1.0) / every * c.share / shares[c.cause]
        for c in causes
    ]
    odds = np.array([e for e, _, _ in found]) + np.log(before)
    chances = np.exp(odds - odds.max())
    chances /= chances.sum()
    all_of_them = [
        Judged(cause, e, chance, state, gross)
        for cause, (e, state, gross), chance in zip(causes, found, chances.tolist(), strict=True)
    ]
    return sorted(all_of_them, key=lambda each: -each.chance)


def widths(problem: Problem, cause: Cause, rest: float = 1.0) -> Array:
    """Prior widths (P,) in the unknowns' own: `rest` but for what is the cause."""
    wide = np.full(len(problem.unknowns), rest)
    if cause.unknown >= 0:
        wide[cause.unknown] = FAR_OUT
    return wide


def _far_out(problem: Problem) -> Iterator[Cause]:
    for k, unknown in enumerate(problem.unknowns):
        if unknown.width > 1e-5:
            yield Cause(unknown.what, unknown.of, k)


class _Weighed(NamedTuple):
    """Causes (H,) weighed: evidence, most likely states (H, P), gross spots (H, K)."""

    evidence: Array
    state: Array
    gross: Flags


def _evidence(problem: Problem, causes: Sequence[Cause]) -> list[tuple[float, Array, Flags]]:
    """Evidence, most likely state and gross spots of some causes, all worked out side by side.

    How far out all else is, by its usual widths or by less, is not known: each of `RESTS` has its share.
    """
    how = [(cause.given, cause.units) for cause in causes]
    unknown = np.array([cause.unknown for cause in causes])
    out = np.flatnonzero(unknown >= 0)
    states = np.zeros((len(causes), len(problem.unknowns)))
    system = problem.systems(states, how)
    each = []
    for rest in RESTS:
        wide = np.stack([widths(problem, cause, rest) for cause in causes])
        found = _weighed(problem, system, wide, states)
        for _ in range(
            ROUNDS if out.size else 0
        ):  # what is far out is seen from where it likely is
            moved = np.zeros((out.size, states.shape[1]))
            moved[np.arange(out.size), unknown[out]] = found.state[out, unknown[out]]
            there = problem.systems(moved, [how[k] for k in out])
            again = _weighed(problem, there, wide[out], moved)
            for column, new in zip(found, again, strict=True):
                column[out] = new
        each.append(found)
    best = np.argmax([found.evidence for found in each], axis=0)
    both = np.logaddexp.reduce([found.evidence for found in each], axis=0) - np.log(len(RESTS))
    rows = range(len(causes))
    return [(float(both[k]), each[best[k]].state[k], each[best[k]].gross[k]) for k in rows]


def _weighed(problem: Problem, system: System, wide: Array, states: Array) -> _Weighed:
    """Causes weighed by the linear system at their states (H, P)."""
    off = system.off + np.einsum("hmp,hp->hm", system.moves, states)
    covariance = system.covariance(wide)
    inverse = np.asarray(np.linalg.inv(covariance), dtype=np.float64)
    square = np.einsum("hm,hmn,hn->h", off, inverse, off)
    evidence = np.asarray(-0.5 * (square + np.linalg.slogdet(covariance)[1]), dtype=np.float64)
    gross = _leave_gross(problem, off, inverse, evidence)
    weighed = np.einsum("hmn,hn->hm", inverse, off)
    state = np.einsum("hmp,hm->hp", system.moves, weighed) * wide**2
    return _Weighed(evidence, state, gross)


def _leave_gross(problem: Problem, off: Array, inverse: Array, evidence: Array) -> Flags:
    """Spots that are likelier gross than read, by what the others forecast, taken out one after the other.

    Their rows are taken out of `inverse` (H, M, M), and what they did to the evidence is put right.
    """
    gross = np.zeros((len(evidence), problem.count), dtype=bool)
    used = problem.spots.used.sum(axis=1)
    plain = used * (0.5 * np.log(2 * np.pi))  # what a density of so many rows is left without
    instead = np.log(GROSS / (1 - GROSS)) - used * np.log(ROOM) + plain
    active = np.arange(len(evidence))
    for _ in range(problem.count):
        away, covariance = left_out(problem, off[active], inverse[active])
        square = np.einsum(
            "hki,hki->hk", away, np.linalg.solve(covariance, away[..., None])[..., 0]
        )
        density = -0.5 * (square + np.linalg.slogdet(covariance)[1])
        gain = np.where(gross[active], -np.inf, instead - density)
        worst = gain.argmax(axis=1)
        best = gain[np.arange(active.size), worst]
        active, worst, best = active[best > 0], worst[best > 0], best[best > 0]
        if not active.size:
            break
        gross[active, worst] = True
        evidence[active] += best
        _take_out(problem, inverse, active, worst)
    return gross


def _take_out(problem: Problem, inverse: Array, causes: Indices, spots: Indices) -> None:
    """Take one spot's rows out of each of some inverses: K - K_r (K_rr)^-1 K_r', and 1 on its diagonal."""
    rows = spots[:, None] * problem.rows + np.arange(problem.rows)
    here = inverse[causes]
    side = np.take_along_axis(here, rows[:, None, :], axis=2)
    own = np.take_along_axis(side, rows[:, :, None], axis=1)
    here -= side @ np.linalg.solve(own, np.swapaxes(side, 1, 2))
    each = np.arange(causes.size)[:, None]
    here[each, rows] = 0.0
    here[each, :, rows] = 0.0
    here[each, rows, rows] = 1.0
    inverse[causes] = here


def left_out(problem: Problem, off: Array, inverse: Array) -> tuple[Array, Array]:
    """How far each spot lies from what all others forecast (..., K, R), and the forecast's covariance.

    For a Gaussian of covariance S: C = ((S^-1) of its own rows)^-1, e = C (S^-1 r) of its own rows.
    """
    rows = np.arange(problem.rows * problem.count).reshape(problem.count, problem.rows)
    weighed = np.einsum("...mn,...n->...m", inverse, off)[..., rows]
    own = inverse[..., rows[:, :, None], rows[:, None, :]]
    covariance = np.asarray(np.linalg.inv(own), dtype=np.float64)
    return np.einsum("...ij,...j->...i", covariance, weighed), covariance


def _otherwise(problem: Problem) -> Iterator[Cause]:
    """Causes by which units were set, or hang, in another way than they should."""
    yield from _each(problem, "mirrored", _mirrored(problem))
    yield from _each(problem, "from-plumb", _from_plumb(problem))
    yield from _each(problem, "face-for-floor", _to_floor(problem))
    yield from _wrong_end(problem)
    yield from _swapped(problem)


def _each(problem: Problem, cause: str, given: Set) -> Iterator[Cause]:
    """A cause of each unit, of each position with several, and of the rig where it has several of those."""
    was = problem.spots.given
    pairs = zip(was, given, strict=True)
    differs = np.any([np.atleast_2d(a != b).any(axis=0) for a, b in pairs], axis=0)
    places = np.array([problem.rig.units[k].position for k in problem.spots.unit])
    ofs: list[tuple[str, Flags]] = []
    for name in dict.fromkeys(places.tolist()):
        mine = (places == name) & differs
        ofs += [(problem.names[k], np.arange(mine.size) == k) for k in np.flatnonzero(mine)]
        if mine.sum() > 1:
            ofs.append((name, mine))
    if len({name for name, mine in ofs if mine.sum() > 1}) > 1:
        ofs.append((RIG, differs))
    for of, mine in ofs:
        yield Cause(cause, of, given=_where(mine, given, was), share=1.0 if mine.sum() > 1 else 0.5)


def _where(mine: Flags, given: Set, was: Set) -> Set:
    return Set._make(np.where(mine, new, old) for new, old in zip(given, was, strict=True))


def _mirrored(problem: Problem) -> Set:
    """Every unit swung to the other side of square."""
    given, reference = problem.spots.given, problem.units.reference
    square = np.arctan2(reference[0], reference[1])
    along = problem.units.tube
    aside = np.einsum("ck,ck->k", given.mark, along)
    return given._replace(
        turn=-given.turn,  # square is the reference or its opposite
        heading=2 * square - given.heading,
        mark=given.mark - 2 * along * (aside - _at(problem)),
    )


def _at(problem: Problem) -> Array:
    """How far along its position each unit is from the middle of it, (K,)."""
    return np.asarray(np.einsum("ck,ck->k", problem.units.spot, problem.units.tube))


def _from_plumb(problem: Problem) -> Set:
    """Every level read from plumb where it should be from level, and the other way round."""
    given = problem.spots.given
    return given._replace(down=np.copysign(np.pi / 2 - np.abs(given.down), given.down))


def _to_floor(problem: Problem) -> Set:
    """Every unit tipped at the spot stood on in place of the face; those that were read back as they were."""
    rig, unit, given = problem.rig, problem.spots.unit, problem.spots.given
    stand, pivot = rig.arrays.stand[:, unit], rig.aims.pivot[:, unit]
    way = stand - pivot
    down = np.arctan2(-way[2], np.hypot(way[0], way[1]))
    kept = np.isnan(down) | problem.spots.read_back
    return given._replace(down=np.where(kept, given.down, down))


def _wrong_end(problem: Problem) -> Iterator[Cause]:
    """A position counted from its other end: numbers of the other units set, or the units hung there."""
    rig, unit = problem.rig, problem.spots.unit
    every, all_held = printed(rig), held(rig)
    for name, rows in rig.rows.items():
        mine = np.array([rig.units[k].position == name for k in unit])
        if not mine.any() or len(rows) < 2:
            continue
        other = dict(zip(rows, rows[::-1], strict=True))
        partner = np.array([other.get(k, k) for k in unit])
        yield from _exchanged(problem, "wrong-end", name, mine, partner, (every, all_held))


def _swapped(problem: Problem) -> Iterator[Cause]:
    """Two units of one position, of one of which at least a spot is known, each set or hung as the other."""
    rig, unit = problem.rig, problem.spots.unit
    every, all_held = printed(rig), held(rig)
    known = set(unit.tolist())
    for rows in rig.rows.values():
        for i, a in enumerate(rows):
            for j, b in enumerate(rows[i + 1 :], i + 1):
                both = a in known and b in known
                if both or (j == i + 1 and (a in known or b in known)):
                    mine = (unit == a) | (unit == b)
                    partner = np.where(unit == a, b, np.where(unit == b, a, unit))
                    of = f"{rig.names[a]} and {rig.names[b]}"
                    yield from _exchanged(problem, "swapped", of, mine, partner, (every, all_held))


def _exchanged(
    problem: Problem, cause: str, of: str, mine: Flags, partner: Indices, whole: tuple[Set, Held]
) -> Iterator[Cause]:
    """Units with the numbers of their partners, in the places of their partners, or taken for them.

    Who read back what was set did not set the partner's numbers.
    """
    every, all_held = whole
    was = problem.spots.given
    place = Held._make(
        np.where(mine, new, old)
        for new, old in zip(some(all_held, partner), problem.units, strict=True)
    )
    yield Cause(cause, of, units=place)
    if not problem.spots.read_back[mine].any() and (was.by[mine] != SIGHT).all():
        theirs = _where(mine, some(every, partner), was)
        yield Cause(cause, of, given=theirs)
        yield Cause(cause, of, given=theirs, units=place)
