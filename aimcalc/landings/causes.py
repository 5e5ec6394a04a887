"""Rival single causes of what was measured, each with its chance.

Each says: besides what everything is usually out by, one thing is out by far more, or one thing was done in
another way (mirrored, from plumb, from the wrong end ...). Its evidence is how likely the readings were made
by it, all unknowns at any value (a Gaussian integral about the most likely state, after Laplace); a reading
now and then is gross, and says nothing. Chances follow by Bayes' rule, causes of a sort alike beforehand.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import erf, sqrt

import numpy as np

from aimcalc.geometry.aim import Flags, Indices
from aimcalc.geometry.vectors import Array
from aimcalc.landings.spots import LEAST, Problem, System
from aimcalc.landings.ways import Cause, otherwise
from aimcalc.named import NamedTuple

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


class Judged(NamedTuple):
    """A cause with its evidence (a logarithm), its most likely state (P,) and which spots it calls gross.

    `slight` is the chance that, if it is the cause, it moves no landing past its tolerance.
    """

    cause: Cause
    evidence: float
    chance: float
    state: Array
    gross: Flags
    slight: float


class _One(NamedTuple):
    """A cause weighed; `spread` is of what is far out, in its prior widths (0: nothing is)."""

    evidence: float
    state: Array
    gross: Flags
    spread: float


def rivals(problem: Problem) -> tuple[list[Cause], Array]:
    """Every cause, H of them, and the chance of each before anything is read, (H,)."""
    causes = [Cause(NONE, ""), *_far_out(problem), *otherwise(problem)]
    shares: dict[str, float] = {}
    for cause in causes:
        shares[cause.cause] = shares.get(cause.cause, 0.0) + cause.share
    every = sum(COMMON.get(cause, 1.0) for cause in shares if cause != NONE)
    before = [
        BEFORE
        if c.cause == NONE
        else (1.0 - BEFORE) * COMMON.get(c.cause, 1.0) / every * c.share / shares[c.cause]
        for c in causes
    ]
    return causes, np.array(before)


def judged(problem: Problem, every: tuple[list[Cause], Array] | None = None) -> list[Judged]:
    """Every cause, those of `rivals` with their chances beforehand (H,), judged, the most likely first."""
    causes, before = every or rivals(problem)
    found: list[_One] = []
    rows = len(problem.direct) + problem.rows * problem.count
    step = max(1, AT_ONCE // (rows * (rows + len(problem.unknowns)) + 1))
    for first in range(0, len(causes), step):
        found += _evidence(problem, causes[first : first + step])
    odds = np.array([one.evidence for one in found]) + np.log(before)
    chances = np.exp(odds - odds.max())
    chances /= chances.sum()
    limits = _limits(problem, causes)
    all_of_them = [
        Judged(cause, one.evidence, chance, one.state, one.gross, _slight(cause, one, limit))
        for cause, one, chance, limit in zip(
            causes, found, chances.tolist(), limits.tolist(), strict=True
        )
    ]
    return sorted(all_of_them, key=lambda each: -each.chance)


def _limits(problem: Problem, causes: Sequence[Cause]) -> Array:
    """How far out, in prior widths (H,), each cause moves no spot past its unit's tolerance at the lens.

    Of a cause that is there or is not: infinite where it moves none past, else 0.
    """
    spots, count = problem.spots, problem.count
    plain = problem.system(np.zeros(len(problem.unknowns)))
    rows = problem.rows * count

    def angles(off: Array) -> Array:
        """Seen from the lenses, of shifts in the rows of each spot (..., M): (..., K), radians."""
        shifts = off[..., :rows].reshape(*off.shape[:-1], count, problem.rows)[..., :2]
        moved = np.einsum("...kr,krc->...kc", shifts, spots.rows)
        aside = moved - np.einsum("...kc,kc->...k", moved, way)[..., None] * way
        return np.asarray(np.sqrt((aside**2).sum(axis=-1)) / throw)

    short = plain.off[:rows].reshape(count, problem.rows)[:, :2]
    ray = spots.point.T - np.einsum("kr,krc->kc", short, spots.rows)
    ray -= problem.rig.aims.lens[:, spots.unit].T
    throw = np.sqrt((ray**2).sum(axis=1))
    way = ray / throw[:, None]
    tolerance = problem.rig.arrays.tolerance[spots.unit]
    shares = np.max(angles(plain.moves.T) / tolerance, axis=1, initial=0.0)
    others = [k for k, cause in enumerate(causes) if cause.unknown < 0]
    how = [(causes[k].given, causes[k].units) for k in others]
    there = problem.systems(np.zeros((len(others), len(problem.unknowns))), how)
    past = (angles(plain.off - there.off) > tolerance).any(axis=1)
    limits = np.array([shares[cause.unknown] for cause in causes])
    limits = 1.0 / np.maximum(limits, 1e-12)
    limits[others] = np.where(past, 0.0, np.inf)
    return np.asarray(limits)


def _slight(cause: Cause, one: _One, limit: float) -> float:
    """The chance that a cause, if it is one, moves no landing past its tolerance."""
    if cause.unknown < 0:
        return float(limit > 0.0)
    at = float(one.state[cause.unknown])
    low, high = ((sign * limit - at) / (one.spread * sqrt(2.0)) for sign in (-1, 1))
    return (erf(high) - erf(low)) / 2


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
    """Causes (H,) weighed: evidence, most likely states (H, P), gross spots (H, K), spread (H,)."""

    evidence: Array
    state: Array
    gross: Flags
    spread: Array


def _evidence(problem: Problem, causes: Sequence[Cause]) -> list[_One]:
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
        found = _weighed(problem, system, wide, states, unknown)
        for _ in range(
            ROUNDS if out.size else 0
        ):  # what is far out is seen from where it likely is
            moved = np.zeros((out.size, states.shape[1]))
            moved[np.arange(out.size), unknown[out]] = found.state[out, unknown[out]]
            there = problem.systems(moved, [how[k] for k in out])
            again = _weighed(problem, there, wide[out], moved, unknown[out])
            for column, new in zip(found, again, strict=True):
                column[out] = new
        each.append(found)
    best = np.argmax([found.evidence for found in each], axis=0)
    both = np.logaddexp.reduce([found.evidence for found in each], axis=0) - np.log(len(RESTS))
    rows = range(len(causes))
    return [
        _One(
            float(both[k]),
            each[best[k]].state[k],
            each[best[k]].gross[k],
            float(each[best[k]].spread[k]),
        )
        for k in rows
    ]


def _weighed(
    problem: Problem, system: System, wide: Array, states: Array, unknown: Indices
) -> _Weighed:
    """Causes weighed by the linear system at their states (H, P)."""
    off = system.off + np.einsum("hmp,hp->hm", system.moves, states)
    covariance = system.covariance(wide)
    inverse = np.asarray(np.linalg.inv(covariance), dtype=np.float64)
    square = np.einsum("hm,hmn,hn->h", off, inverse, off)
    evidence = np.asarray(-0.5 * (square + np.linalg.slogdet(covariance)[1]), dtype=np.float64)
    gross = _leave_gross(problem, off, inverse, evidence)
    off[:, : problem.rows * problem.count][np.repeat(gross, problem.rows, axis=1)] = 0.0
    weighed = np.einsum("hmn,hn->hm", inverse, off)
    state = np.einsum("hmp,hm->hp", system.moves, weighed) * wide**2
    mine = np.arange(len(off))
    told = system.moves[mine, :, unknown] * wide[mine, unknown, None] ** 2
    told[:, : problem.rows * problem.count][np.repeat(gross, problem.rows, axis=1)] = 0.0
    left = wide[mine, unknown] ** 2 - np.einsum("hm,hmn,hn->h", told, inverse, told)
    spread = np.sqrt(np.maximum(left, LEAST**2))
    return _Weighed(evidence, state, gross, np.where(unknown < 0, LEAST, spread))


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
