"""How often the cause named is right, beside the most that anybody could name right from the same landings.

    python -m tests.landings.named 300

Rigs have one cause or none, drawn as often as `causes` takes them to be common and as large as it takes them
to be, all else out as usual or nearly right, one reading in ten a blunder of a metre or two. A cause that
moves no landing past its tolerance may be named or be called none. The most is Bayes' rule under those very
odds, each cause's evidence by importance sampling: states are drawn from Gaussians about the likeliest ones,
and weighed by what is true of them, light thrown by the whole model.
"""

from __future__ import annotations

import sys
from collections import defaultdict
from typing import NamedTuple

import numpy as np

from aimcalc.landings import causes as c
from aimcalc.landings import forward as f
from aimcalc.landings.learn import _told
from aimcalc.landings.spots import Problem, Spots
from aimcalc.landings.ways import Cause
from tests.landings.noisy import Array, a_rig

BLUNDERS, BLUNDER = 0.1, 1.5  # share of readings, and how far off each way they are, m
DRAWS = 150  # states of each cause
WIDER = 1.15  # than the Gaussians about the likeliest states
ASKED = 2e-3  # chance, as we tell it, from which on a cause is asked
STEPS = np.linspace(-4.0, 4.0, 81)  # of what is far out, in its own widths

Label = tuple[str, str]


class Rig(NamedTuple):
    """A rig with what was read of it, and what there is to name."""

    problem: Problem
    label: Label
    true: Label  # what there is, however little it moves: to name it is right too
    every: list[Cause]
    before: Array
    matter: list[Array]  # whether a cause moves a landing past its tolerance, at each of STEPS


def drawn(seed: int, back: bool) -> Rig:
    """One rig of three pipes of six, 8 to 12 of its landings known."""
    rng = np.random.default_rng([29, seed])
    rig = a_rig(rng)
    unit = np.sort(rng.choice(len(rig.units), int(rng.integers(8, 13)), replace=False))
    errors, count = rig.scene.errors, unit.size
    pan, down = (errors.read_pan, errors.read_down) if back else (errors.set_pan, errors.set_down)
    spots = Spots(
        unit=unit,
        given=f.some(f.printed(rig), unit),
        plane=f.plane_at(np.zeros((3, count)), np.tile([[0.0], [0.0], [1.0]], count)),
        point=np.zeros((3, count)),
        rows=np.tile(np.eye(3)[:2], (count, 1, 1)),
        used=np.tile([True, True, False], (count, 1)),
        throw=np.zeros(count),
        pan=np.full(count, np.radians(pan)),
        down=np.full(count, np.radians(down)),
        read_back=np.full(count, back),
    )
    blank = Problem(rig, spots)
    every, before = c.rivals(blank)
    mine = int(rng.choice(len(every), p=before))
    cause = every[mine]
    state = rng.normal(size=len(blank.unknowns)) * c.widths(blank, cause, rng.choice(c.RESTS))
    off = blank._at(state[None])[:, 0]
    off[[f.PAN, f.DOWN, f.MARKS]] += blank.own.T * rng.normal(size=(3, count))
    told = f.landed(cause.units or blank.units, cause.given or spots.given, spots.plane, off)
    point = told.point.copy()
    point[:2] += errors.landing * rng.normal(size=(2, count))
    point[:2] += BLUNDER * (rng.random(count) < BLUNDERS) * rng.normal(size=(2, count))
    problem = Problem(rig, spots._replace(point=point))
    matter = _matters(blank, every)
    own = state[cause.unknown] / c.FAR_OUT if cause.unknown >= 0 else 0.0
    label = (cause.cause, cause.of) if _at(matter[mine], own) else (c.NONE, "")
    return Rig(problem, label, (cause.cause, cause.of), every, before, matter)


def _at(matter: Array, value: Array | float) -> Array:
    """Whether it matters at these values, in widths of what is far out."""
    return matter[np.clip(np.rint((np.asarray(value) + 4.0) * 10).astype(int), 0, 80)]


def _matters(problem: Problem, every: list[Cause]) -> list[Array]:
    """Whether each cause alone moves a landing past its unit's tolerance, at each of STEPS (81,)."""
    lens = problem.rig.aims.lens[:, problem.spots.unit].T
    allowed = problem.rig.arrays.tolerance[problem.spots.unit]

    def ways(states: Array, how: list[tuple[f.Set | None, f.Held | None]]) -> Array:
        flat = -problem.systems(states, how).off.reshape(len(states), problem.count, 2)
        way = np.concatenate((flat, np.zeros((*flat.shape[:2], 1))), axis=2) - lens
        return np.asarray(way / np.linalg.norm(way, axis=2, keepdims=True))

    plain = ways(np.zeros((1, len(problem.unknowns))), [(None, None)])
    found = []
    for cause in every:
        states = np.zeros((len(STEPS) if cause.unknown >= 0 else 1, len(problem.unknowns)))
        if cause.unknown >= 0:
            states[:, cause.unknown] = STEPS * c.FAR_OUT
        there = ways(states, [(cause.given, cause.units)] * len(states))
        angle = np.arccos(np.clip((there * plain).sum(axis=2), -1, 1))
        found.append(np.broadcast_to((angle > allowed).any(axis=1), len(STEPS)))
    return found


def best(rig: Rig, rng: np.random.Generator) -> tuple[dict[Label, float], float]:
    """The chance of each label by Bayes' rule, and the least share of draws that count."""
    problem, labels, least = rig.problem, defaultdict(float), 1.0
    judged = {id(each.cause): each for each in c.judged(problem, (rig.every, rig.before))}
    logs, shares = [], []
    for k, cause in enumerate(rig.every):
        told = judged[id(cause)]
        if told.chance < ASKED:
            continue
        log, matters, draws = _evidence(rig, k, told, rng)
        logs.append(log + np.log(rig.before[k]))
        shares.append(((cause.cause, cause.of), matters))
        if told.chance > 0.05:
            least = min(least, draws)
    chances = np.exp(np.array(logs) - max(logs))
    for (label, matters), chance in zip(shares, chances / chances.sum(), strict=True):
        labels[label] += chance * matters
        labels[c.NONE, ""] += chance * (1 - matters)
    return labels, least


def _evidence(
    rig: Rig, k: int, told: c.Judged, rng: np.random.Generator
) -> tuple[float, float, float]:
    """A cause's evidence (a logarithm), the share of it where it matters, the share of draws that count."""
    problem, cause = rig.problem, rig.every[k]
    size = len(problem.unknowns)
    count = problem.count
    system = problem.system(told.state, cause.given, cause.units)
    at = system.off + system.moves @ told.state
    flags = [told.gross, *(told.gross ^ (np.arange(count) == j) for j in range(count))]
    parts = []
    for rest in c.RESTS:
        wide = c.widths(problem, cause, rest)
        for gross in flags:
            noise = system.noise + (BLUNDER**2 * gross)[:, None, None] * np.eye(2)
            inverse = np.linalg.inv(noise)
            moves = system.moves.reshape(count, 2, size)
            precision = np.diag(wide**-2.0) + np.einsum("krp,krs,ksq->pq", moves, inverse, moves)
            covariance = np.linalg.inv(precision)
            pull = np.einsum("krp,krs,ks->p", moves, inverse, at.reshape(count, 2))
            mean = covariance @ pull
            left = at.reshape(count, 2) - (moves @ mean)
            log = -0.5 * np.einsum("kr,krs,ks->", left, inverse, left) - 0.5 * (mean / wide) @ (
                mean / wide
            )
            log += (
                0.5 * (np.linalg.slogdet(covariance)[1] - 2 * np.log(wide).sum())
                - 0.5 * np.linalg.slogdet(noise)[1].sum()
            )
            log += gross.sum() * np.log(BLUNDERS) + (~gross).sum() * np.log(1 - BLUNDERS)
            parts.append((log, mean, np.linalg.cholesky(covariance) * WIDER))
    weight = np.exp([p[0] for p in parts] - np.max([p[0] for p in parts]))
    weight = 0.8 * weight / weight.sum() + 0.2 * (weight > 1e-6) / (weight > 1e-6).sum()
    used = np.flatnonzero(weight)
    which = rng.choice(used, DRAWS, p=weight[used])
    states = np.stack([parts[j][1] + parts[j][2] @ rng.normal(size=size) for j in which])
    proposal = np.logaddexp.reduce(
        [np.log(weight[j]) + _normal(states - parts[j][1], parts[j][2]) for j in used], axis=0
    )
    prior = np.logaddexp.reduce(
        [
            -0.5 * ((states / w) ** 2).sum(axis=1) - np.log(w).sum()
            for w in (c.widths(problem, cause, rest) for rest in c.RESTS)
        ],
        axis=0,
    ) - np.log(len(c.RESTS))
    thrown = problem.systems(states, [(cause.given, cause.units)] * DRAWS)
    off = thrown.off.reshape(DRAWS, count, 2)
    plain = _spot(off, thrown.noise) + np.log(1 - BLUNDERS)
    wrong = _spot(off, thrown.noise + BLUNDER**2 * np.eye(2)) + np.log(BLUNDERS)
    log = np.logaddexp(plain, wrong).sum(axis=1) + prior - proposal
    weights = np.exp(log - log.max())
    own = states[:, cause.unknown] / c.FAR_OUT if cause.unknown >= 0 else np.zeros(DRAWS)
    matters = float((weights * _at(rig.matter[k], own)).sum() / weights.sum())
    counted = float(weights.sum() ** 2 / (weights**2).sum() / DRAWS)
    return float(log.max() + np.log(weights.mean())), matters, counted


def _normal(off: Array, lower: Array) -> Array:
    """The logarithm of a normal density (H,) without its 2 pi."""
    return -0.5 * (np.linalg.solve(lower, off.T) ** 2).sum(axis=0) - np.log(np.diag(lower)).sum()


def _spot(off: Array, noise: Array) -> Array:
    square = np.einsum("hkr,hkr->hk", off, np.linalg.solve(noise, off[..., None])[..., 0])
    return -0.5 * (square + np.linalg.slogdet(noise)[1])


def told(rig: Rig) -> dict[Label, float]:
    """The chances that the program tells."""
    causes = c.judged(rig.problem, (rig.every, rig.before))
    return {(each.cause, each.of): each.chance for each in _told(causes)}


def study(count: int, back: bool, first: int = 0) -> dict[str, Array]:
    """Of each rig: whether ours and the best are right, the chance each gives what it names, its draws."""
    rows = defaultdict(list)
    for seed in range(first, first + count):
        rig = drawn(seed, back)
        ours = told(rig)
        exact, draws = best(rig, np.random.default_rng([31, seed]))
        for name, chances in (("ours", ours), ("best", exact)):
            named = max(chances, key=lambda label: chances[label])
            rows[name].append(named in (rig.label, rig.true))
            rows[f"{name} word"].append(named[0] in (rig.label[0], rig.true[0]))
            rows[f"{name} chance"].append(chances[named])
        rows["draws"].append(draws)
        rows["none"].append(rig.label[0] == c.NONE)
        rows["sort"].append(rig.label[0])
    return {name: np.array(values) for name, values in rows.items()}


def main() -> None:
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 100
    for back in (True, False):
        found = study(count, back)
        print("angles read back" if back else "nothing read back")
        for name in ("ours", "best"):
            right, chance = found[name], found[f"{name} chance"]
            word = found[f"{name} word"].mean()
            print(
                f"  {name}: {right.mean():.1%} right, {word:.1%} the word; chance told {chance.mean():.1%}"
            )
            for low, high in ((0, 0.5), (0.5, 0.7), (0.7, 0.9), (0.9, 1.01)):
                here = (chance >= low) & (chance < high)
                if here.any():
                    print(
                        f"    told {low:.0%} to {min(high, 1):.0%} ({chance[here].mean():.0%}): "
                        f"{right[here].mean():.0%} right of {here.sum()}"
                    )
            some = ~found["none"]
            print(
                f"    where there is a cause: {right[some].mean():.1%} of {some.sum()}; "
                f"where there is none: {right[~some].mean():.1%}"
            )
        print(f"  draws that count: {np.median(found['draws']):.0%}")


if __name__ == "__main__":
    main()
