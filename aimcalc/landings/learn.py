"""Everything learned from what was measured: corrections, causes, what fits, and what would tell more.

The corrections are those of the likeliest cause; their intervals hold 95 % of what all likely causes together
leave open, each with its chance. Metres and degrees.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cached_property

import msgspec
import numpy as np

from aimcalc.geometry.aim import Flags
from aimcalc.geometry.vectors import Array, to_degrees, to_radians
from aimcalc.landings.causes import NONE, Judged, judged
from aimcalc.landings.fit import Fitted, fitted
from aimcalc.landings.forward import BY_TAPE
from aimcalc.landings.settle import MOST, Settles, settles
from aimcalc.landings.spots import ANGLES, Problem
from aimcalc.named import NamedTuple
from aimcalc.scene.corrected import AT_THE_RIG

TOLD = 0.005  # chance from which on a cause is told
MOST_TOLD = 8
ESTABLISHED = 0.9  # chance from which on a cause is told however little it moves (our choice)
INSEPARABLE = 0.6  # correlation from which on two things are not told apart (our choice)
WELL_KNOWN = 0.5  # share of its prior width to which a thing is known well (our choice)
WORTH = 1.0  # standard deviations from which on a correction is worth making (our choice)
FEW = 3  # spots of which over half do not fit: they contradict each other
CHECKED = to_radians(0.2)  # rad: of a tool that was held to a known level or square (estimate)


class ContradictError(ValueError):
    """Landings that no state of the rig explains together, told in a sentence."""


class Correction(msgspec.Struct, frozen=True):
    """One thing as it is minus as plotted, and the interval that holds it with 95 %. `unit` is m or deg."""

    what: str
    of: str
    value: float
    low: float
    high: float
    unit: str

    @property
    def width(self) -> float:
        """A standard deviation, by the interval."""
        return (self.high - self.low) / (2 * 1.96)

    @property
    def stands_out(self) -> bool:
        """Whether its interval leaves out zero."""
        return self.low > 0.0 or self.high < 0.0


class Likely(msgspec.Struct, frozen=True):
    """One cause and its chance. None: what is out moves no landing past its tolerance."""

    cause: str
    of: str
    chance: float


class Compared(msgspec.Struct, frozen=True):
    """One landing: how far from where it should be, before and after the corrections, and how far from what
    all others forecast of it, which is within `forecast` in 95 of 100. Metres."""

    unit: str
    miss_before: float
    miss_after: float
    left_out: float
    forecast: float


class Apart(msgspec.Struct, frozen=True):
    """Two things that the landings do not tell apart, and the one measurement that would."""

    between: tuple[tuple[str, str], tuple[str, str]]
    correlation: float
    measure: tuple[str, str]


class Learned(NamedTuple):
    """All that is learned."""

    corrections: tuple[Correction, ...]
    causes: tuple[Likely, ...]
    landings: tuple[Compared, ...]
    doubted: tuple[str, ...]
    tell_apart: tuple[Apart, ...]
    settles: Settles | None = None  # where no cause has most of the chance

    @property
    def worth_making(self) -> tuple[Correction, ...]:
        """The corrections that a scene can make, and that are more than their uncertainty."""
        return tuple(
            c
            for c in self.corrections
            if c.what not in AT_THE_RIG and abs(c.value) > max(WORTH * c.width, 1e-4)
        )

    @property
    def to_put_right(self) -> tuple[Correction, ...]:
        """What is wrong of a tool or a clamp beyond doubt: no number is changed for it."""
        return tuple(c for c in self.corrections if c.what in AT_THE_RIG and c.stands_out)


def learn(problem: Problem) -> Learned:
    """What the measurements of a rig tell. Raises ContradictError where they contradict each other."""
    causes = judged(problem)
    fits = fitted(problem, causes)
    best = fits[0]
    _check(problem, best.doubted)
    mixed = _Mixed(problem, fits)
    told = tuple(_told(causes))
    open_ = told[0].chance < MOST
    return Learned(
        corrections=tuple(mixed.corrections()),
        causes=told,
        landings=tuple(_landings(problem, best)),
        doubted=tuple(problem.names[k] for k in np.flatnonzero(best.doubted)),
        tell_apart=tuple(_apart(problem, mixed)),
        settles=settles(problem, fits, _measurable(problem)) if open_ else None,
    )


def _told(causes: Sequence[Judged]) -> Iterator[Likely]:
    """Causes of one word and thing as one, the likeliest first; one too small to matter counts as none.

    Unless it is all but certain: who knows that a pipe hangs low is told so, whether or not a landing misses.
    """
    whole: dict[tuple[str, str], float] = {}
    for each in causes:
        key = each.cause.cause, each.cause.of
        whole[key] = whole.get(key, 0.0) + each.chance
    chances: dict[tuple[str, str], float] = {}
    for each in causes:
        key = each.cause.cause, each.cause.of
        slight = 0.0 if whole[key] >= ESTABLISHED else each.slight
        for told, share in ((key, 1.0 - slight), ((NONE, ""), slight)):
            chances[told] = chances.get(told, 0.0) + each.chance * share
    ranked = sorted(chances.items(), key=lambda item: -item[1])
    for k, ((cause, of), chance) in enumerate(ranked[:MOST_TOLD]):
        if k == 0 or chance >= TOLD:
            yield Likely(cause, of, chance)


def _check(problem: Problem, doubted: Flags) -> None:
    """Refuse landings of which too few fit together."""
    places = np.array([problem.rig.units[k].position for k in problem.spots.unit])
    groups = [("", np.ones(doubted.size, dtype=bool))]
    groups += [(name, places == name) for name in dict.fromkeys(places.tolist())]
    for name, mine in groups:
        wrong, count = int((doubted & mine).sum()), int(mine.sum())
        share = 1 / 3 if not name else 1 / 2
        if count >= FEW and wrong >= (FEW if name else 2) and wrong > share * count:
            units = [problem.names[k] for k in np.flatnonzero(doubted & mine)]
            of = f"of {name} " if name else ""
            raise ContradictError(
                f"The landings {of}contradict each other: expected {count} that one rig explains, got "
                f"{wrong} that do not fit the others ({', '.join(units)}). Measure these again: unit, "
                "x, y, and what was set."
            )


class _Mixed:
    """The unknowns under all likely causes together, in metres and radians."""

    def __init__(self, problem: Problem, fits: Sequence[Fitted]) -> None:
        self.problem = problem
        self.chances = np.array([fit.chance for fit in fits])
        self.means = np.stack([fit.state for fit in fits]) * problem.widths
        scale = problem.widths[:, None] * problem.widths
        self.covariances = np.stack([fit.covariance for fit in fits]) * scale

    @cached_property
    def mean(self) -> Array:
        return np.asarray(self.chances @ self.means)

    @cached_property
    def covariance(self) -> Array:
        off = self.means - self.mean
        spread = self.covariances + off[:, :, None] * off[:, None, :]
        return np.asarray(np.einsum("h,hij->ij", self.chances, spread))

    def quantile(self, share: float) -> Array:
        """Where each unknown lies below with this share, (P,), found by halving."""
        from scipy.special import ndtr

        widths = np.sqrt(np.einsum("hii->hi", self.covariances))
        low, high = ((self.means + s * 9 * widths) for s in (-1, 1))
        low, high = low.min(axis=0), high.max(axis=0)
        for _ in range(60):
            middle = (low + high) / 2
            below = self.chances @ ndtr((middle - self.means) / widths)
            low, high = np.where(below < share, middle, low), np.where(below < share, high, middle)
        return np.asarray((low + high) / 2)

    def corrections(self) -> Iterator[Correction]:
        low, high = self.quantile(0.025), self.quantile(0.975)
        value = np.clip(self.means[0], low, high)
        columns = (value, low, high)
        for unknown, *values in zip(self.problem.unknowns, *columns, strict=True):
            turns = unknown.what in ANGLES
            told: list[float] = [to_degrees(float(v)) if turns else float(v) for v in values]
            unit = "deg" if turns else "m"
            yield Correction(unknown.what, unknown.of, told[0], told[1], told[2], unit)


def _landings(problem: Problem, best: Fitted) -> Iterator[Compared]:
    """Every spot, in metres along its surface."""
    rows = problem.rows * problem.count
    nothing = problem.system(np.zeros(len(problem.unknowns)))
    before, after = (s.off[:rows].reshape(problem.count, -1)[:, :2] for s in (nothing, best.after))
    used = problem.spots.used[:, :2]
    away = np.where(used, best.away[:, :2], 0.0)
    spread = np.where(used[:, :, None] & used[:, None, :], best.forecast[:, :2, :2], 0.0)
    size = [np.hypot(*column.T).tolist() for column in (before, after, away)]
    for name, *values in zip(problem.names, *size, radius(spread).tolist(), strict=True):
        yield Compared(name, *values)


def radius(spread: Array, share: float = 0.95) -> Array:
    """The distance that a Gaussian error of covariance (..., 2, 2) stays within with this share, (...).

    Its square is taken for a chi-square of as many degrees as give it its mean and variance (F. E.
    Satterthwaite, Biometrics Bulletin 2, 1946).
    """
    from scipy.special import chdtri

    first = np.trace(spread, axis1=-2, axis2=-1)
    second = np.trace(spread @ spread, axis1=-2, axis2=-1)
    degrees = np.maximum(first**2 / np.maximum(second, 1e-300), 1e-6)
    return np.asarray(np.sqrt(first / degrees * chdtri(degrees, 1.0 - share)))


def _apart(problem: Problem, mixed: _Mixed) -> Iterator[Apart]:
    """The two of all things but kicks that are most mixed up, and what single measurement helps most."""
    unknowns, spread = problem.unknowns, mixed.covariance
    mine = [k for k, u in enumerate(unknowns) if u.what != "kick"]
    width = np.sqrt(np.diag(spread))
    unknown = width / problem.widths > WELL_KNOWN
    best: tuple[float, int, int] | None = None
    for i, a in enumerate(mine):
        for b in mine[i + 1 :]:
            together = abs(float(spread[a, b])) / float(width[a] * width[b])
            if (unknown[a] or unknown[b]) and together >= INSEPARABLE:
                best = max(best or (0.0, 0, 0), (together, a, b))
    if best is None:
        return
    together, a, b = best
    measure = max(_measurable(problem), key=lambda m: _gain(spread, problem.widths, (a, b), m))
    names = [(unknowns[k].what, unknowns[k].of) for k in (a, b)]
    chosen = unknowns[measure[0]]
    sign = np.sign(spread[a, b])
    yield Apart((names[0], names[1]), float(sign * together), (chosen.what, chosen.of))


def _measurable(problem: Problem) -> list[tuple[int, float]]:
    """What can be measured directly, and how well: tapes for lengths, a known level or square for tools."""
    widths = {"trim": BY_TAPE, "moved": BY_TAPE, "drop": BY_TAPE, "level": CHECKED, "dial": CHECKED}
    return [(k, widths[u.what]) for k, u in enumerate(problem.unknowns) if u.what in widths]


def _gain(spread: Array, widths: Array, pair: tuple[int, int], measure: tuple[int, float]) -> float:
    """By how much a measurement shrinks the variances of two unknowns, in their prior widths."""
    k, width = measure
    shrunk = spread[:, k] ** 2 / (spread[k, k] + width**2)
    return float(sum(shrunk[j] / widths[j] ** 2 for j in pair))
