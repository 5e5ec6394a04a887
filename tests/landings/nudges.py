"""The goal's own figure: how many units need no more than a nudge, before and after landings are read.

    python -m tests.landings.nudges 1000

Random rigs with everything out as usual and every unit set as a hand sets it. A unit needs more than a nudge
where its spot misses by more than its tolerance, a quarter of its field. Each share is of all units.
"""

from __future__ import annotations

import sys

import numpy as np

from aimcalc.landings import forward as f
from aimcalc.landings.learn import ContradictError, learn
from aimcalc.landings.spots import Direct
from aimcalc.rig.corrected import corrected
from aimcalc.rig.rig import Rig
from aimcalc.scene.model import Correction
from tests.landings.noisy import Truth, a_rig, read_from

WAYS = ("plotted", "measured trim", "3 landings", "6 landings", "6 landings and trims measured")


def shares(count: int, seed: int = 1, *, back: bool = True, usual: float = 1.0) -> dict[str, float]:
    """The share of units that need no more than a nudge, by what was known, over `count` rigs.

    What is out of the rig is drawn from its prior widths times `usual`.
    """
    held: dict[str, list[float]] = {way: [] for way in WAYS}
    for k in range(count):
        for way, share in _one(np.random.default_rng([seed, k]), back, usual).items():
            held[way].append(share)
        if sys.stderr.isatty():
            print(f"\r{k + 1} of {count}", end="", file=sys.stderr)
    return {way: float(np.mean(each)) for way, each in held.items()}


def _one(rng: np.random.Generator, back: bool, usual: float) -> dict[str, float]:
    rig = a_rig(rng, pipes=2, units=8)
    every = np.arange(len(rig.units))
    taped = tuple(Direct("trim", name, 0.0) for name in rig.scene.positions)
    truth = read_from(rig, rng, every, back=back, direct=taped, usual=usual)
    off = truth.problem._at(truth.state[None])[:, 0]
    errors = rig.scene.errors
    off[f.PAN] += np.radians(errors.set_pan) * rng.normal(size=every.size)
    off[f.DOWN] += np.radians(errors.set_down) * rng.normal(size=every.size)
    found = {"plotted": _held(rig, rig, off)}
    known = {
        name: truth.state[truth.problem.place["trim", name]] * 0.1 for name in rig.scene.positions
    }
    trims = tuple(
        Correction(what="trim", of=name, value=float(value + 0.02 * rng.normal()))
        for name, value in known.items()
    )
    found["measured trim"] = _held(rig, Rig(corrected(rig.scene, trims)), off)
    order = rng.permutation(every.size)
    for way, spots, measured in (
        ("3 landings", 3, False),
        ("6 landings", 6, False),
        ("6 landings and trims measured", 6, True),
    ):
        found[way] = _held(rig, _learned(truth, np.sort(order[:spots]), measured=measured), off)
    return found


def _learned(truth: Truth, rows: np.ndarray, *, measured: bool) -> Rig:
    """The rig as it is thought to hang once some of the spots are known."""
    problem, rig = truth.problem, truth.problem.rig
    spots = problem.spots
    some = spots._replace(
        given=f.some(spots.given, rows),
        plane=f.some(spots.plane, rows),
        point=spots.point[:, rows],
        **{
            name: getattr(spots, name)[rows]
            for name in ("unit", "rows", "used", "throw", "pan", "down", "read_back")
        },
    )
    try:
        learned = learn(type(problem)(rig, some, problem.direct if measured else ()))
    except ContradictError:
        return rig
    made = tuple(
        Correction(what=c.what, of=c.of, value=c.value)  # type: ignore[arg-type]
        for c in learned.worth_making
    )
    return Rig(corrected(rig.scene, made))


def _held(rig: Rig, thought: Rig, off: np.ndarray) -> float:
    """The share of units within their tolerance that are set by the numbers of the rig as it is thought."""
    order = [thought.by_name[name] for name in rig.names]
    given = f.some(f.printed(thought), order)
    point = rig.arrays.point
    level = np.tile([[0.0], [0.0], [1.0]], point.shape[1])
    told = f.landed(f.held(rig), given, f.plane_at(point, level), off)
    ways = [p - rig.aims.lens for p in (told.point, point)]
    cosine = (ways[0] * ways[1]).sum(axis=0)
    sine = np.sqrt((np.cross(ways[0].T, ways[1].T) ** 2).sum(axis=1))
    return float(np.mean(np.arctan2(sine, cosine) < rig.arrays.tolerance))


def main() -> None:
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 100
    for usual in (1.0, 3.0):
        for way, share in shares(count, usual=usual).items():
            print(f"out by {usual:g} times the usual widths: {way:<32} {share:6.1%}")


if __name__ == "__main__":
    main()
