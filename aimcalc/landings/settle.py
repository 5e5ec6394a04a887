"""What would settle the cause where none has most of the chance: a measurement, or angles read back.

A thing that is measured lies by each cause where its fit says, as far off as that leaves open and the tape
adds. Whoever then names the likeliest cause is right with the chance

    sum over x of the most that a cause has of (chance of the cause) (density of x by it)

A cause that is another way of setting shows in the angles themselves, far beyond how well they are read.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

import msgspec
import numpy as np

from aimcalc.geometry.vectors import Array
from aimcalc.landings.spots import Problem

if TYPE_CHECKING:
    from aimcalc.landings.fit import Fitted

MOST = 0.5  # chance from which on a cause is told as it is (our choice)
RIVAL = 0.1  # chance from which on another way of setting is asked about (our choice)
SETTLED = 0.75  # chance to be right that makes a measurement worth while (our choice)
GAINED = 0.05  # of that chance, at the least (our choice)
STEPS, FAR = 2000, 5.0  # of the sum, and how many widths it goes out


class Settles(msgspec.Struct, frozen=True):
    """What would tell the cause: to measure `what` of `of`, or to read back the angles of `units`.

    Neither: more landings would, of other units.
    """

    what: str = ""
    of: str = ""
    units: tuple[str, ...] = ()


def settles(
    problem: Problem, fits: Sequence[Fitted], measurable: Sequence[tuple[int, float]]
) -> Settles:
    """What would settle which of the causes fitted it is; `measurable` are unknowns with their widths."""
    unread = ~problem.spots.read_back
    names = [name for name, mine in zip(problem.names, unread, strict=True) if mine]
    way = any(f.cause.given is not None and f.chance >= RIVAL for f in fits)
    if way and names:
        return Settles(units=tuple(_of(problem, fits, names)))
    every = [(right(problem, fits, k, width), k) for k, width in measurable]
    best, k = max(every, default=(0.0, -1))
    now = max(_labels(fits).values())
    unknown = problem.unknowns[k]
    if best >= SETTLED and best >= now + GAINED:
        return Settles(unknown.what, unknown.of)
    if names:
        return Settles(units=tuple(names))
    return Settles(unknown.what, unknown.of) if best >= now + GAINED else Settles()


def _of(problem: Problem, fits: Sequence[Fitted], names: list[str]) -> Iterator[str]:
    """The units that were set otherwise by one of the causes."""
    for name in names:
        k = problem.names.index(name)
        for fit in fits:
            if fit.cause.given is None:
                continue
            pairs = zip(fit.cause.given, problem.spots.given, strict=True)
            if any((a[..., k] != b[..., k]).any() for a, b in pairs):
                yield name
                break


def _labels(fits: Sequence[Fitted]) -> dict[tuple[str, str], float]:
    found: dict[tuple[str, str], float] = {}
    for fit in fits:
        key = fit.cause.cause, fit.cause.of
        found[key] = found.get(key, 0.0) + fit.chance
    return found


def right(problem: Problem, fits: Sequence[Fitted], k: int, width: float) -> float:
    """The chance that the likeliest cause is the right one, once unknown `k` is measured to `width`."""
    own = problem.widths[k]
    means = np.array([fit.state[k] for fit in fits]) * own
    wide = np.sqrt([fit.covariance[k, k] * own**2 + width**2 for fit in fits])
    x = np.linspace((means - FAR * wide).min(), (means + FAR * wide).max(), STEPS)
    by: dict[tuple[str, str], Array] = {}
    for fit, mean, size in zip(fits, means, wide, strict=True):
        density = fit.chance * np.exp(-0.5 * ((x - mean) / size) ** 2) / (size * np.sqrt(2 * np.pi))
        key = fit.cause.cause, fit.cause.of
        by[key] = by.get(key, 0.0) + density
    return float(np.max(list(by.values()), axis=0).sum() * (x[1] - x[0]))
