"""How a pipe's load is shared among its lift lines: a continuous beam on level, rigid supports.

Nothing here rates a pipe or a line. Places are metres along the pipe, loads kilograms (any one unit of
force does). A sloping pipe shares its load as its plan does, so places along it serve as they are.

The pipe's height above level, times its stiffness, obeys z'''' = upward load per length. One point load R
at s adds R |x - s|^3 / 12, and the pipe is straight beyond its outermost loads as soon as forces and
moments balance; so

    z(x) = c0 + c1 x + sum R_i |x - s_i|^3 / 12 - sum P_j |x - p_j|^3 / 12 - w G(x)              (1)
    G(x) = ((x - a) |x - a|^3 + (b - x) |b - x|^3) / 48   for a uniform load from a to b         (2)

with z = 0 at every line, sum R = sum of loads and the same for moments: one small symmetric set of
equations. It is the natural cubic spline's, written for reactions instead of heights.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from aimcalc.named import NamedTuple

Array = NDArray[np.float64]

SAME_PLACE = 0.01  # metres; lines nearer than this are one line
NOTHING = 1e-9  # of the whole load, or of the pipe's length: taken as none


class Load(NamedTuple):
    """What hangs on a pipe: point loads and the pipe's own uniform weight between its ends."""

    at: Sequence[float] | Array
    weight: Sequence[float] | Array
    start: float = 0.0
    end: float = 0.0
    per_length: float = 0.0

    @property
    def total(self) -> float:
        """The whole weight."""
        return float(np.sum(self.weight)) + self.per_length * abs(self.end - self.start)

    @property
    def centre(self) -> float:
        """Where the whole weight would balance; the middle of the pipe when nothing weighs."""
        middle = (self.start + self.end) / 2
        if self.total == 0:
            return middle
        own = self.per_length * abs(self.end - self.start) * middle
        return (float(np.dot(self.at, self.weight)) + own) / self.total


class Shares(NamedTuple):
    """What each line carries, in the order given, and how that came about.

    `how` is "shared", "slack" (a line carries nothing, the others were worked out again without it),
    "one line", "tips" (the weight lies beyond the outermost line: the pipe tips until it hangs from
    that line alone) or "no lines".
    """

    load: Array
    slack: NDArray[np.bool_]
    how: str


def reactions(lines: Sequence[float] | Array, load: Load) -> Array:
    """What each line carries when it could also push, shape (n,); a negative share is a push.

    `lines` are two or more distinct places in any order. Raises ValueError for fewer.
    """
    places = np.asarray(lines, dtype=np.float64)
    if places.size < 2 or len(set(places.tolist())) < places.size:
        raise ValueError("a beam needs two or more supports at different places")
    return _solved(_Beam(places, load), np.arange(places.size))[0]


def line_loads(lines: Sequence[float] | Array, load: Load) -> Shares:
    """What each of L lines carries, (L,), in the unit of `load`, when lines can pull but never push.

    Lines within a centimetre of each other share alike: what each of them takes cannot be known.
    """
    places = np.asarray(lines, dtype=np.float64)
    if places.size == 0:
        return Shares(np.zeros(0), np.zeros(0, np.bool_), "no lines")
    distinct, which, many = _distinct(places)
    share, how = _distinct_loads(distinct, load)
    each = (share / many)[which]
    return Shares(each, np.asarray(each <= NOTHING * abs(load.total)), how)


def _distinct(places: Array) -> tuple[Array, NDArray[np.intp], NDArray[np.intp]]:
    """Distinct places in order, which of them each line is at, and how many lines are at each."""
    order = np.argsort(places, kind="stable")
    new = np.diff(places[order], prepend=-np.inf) > SAME_PLACE
    which = np.empty(places.size, dtype=np.intp)
    which[order] = np.cumsum(new) - 1
    return places[order][new], which, np.bincount(which)


def _distinct_loads(places: Array, load: Load) -> tuple[Array, str]:
    """Shares of lines at different places in rising order, and the word for how."""
    if load.total <= 0:
        return np.zeros(places.size), "shared"
    near = NOTHING * max(float(np.ptp(places)), abs(load.end - load.start), 1.0)
    for k, outward in ((0, -1.0), (-1, 1.0)):
        beyond = outward * (load.centre - places[k])
        if places.size == 1 or beyond > -near:
            alone = np.zeros(places.size)
            alone[k] = load.total
            return alone, "one line" if places.size == 1 else "tips" if beyond > near else "slack"
    share = reactions(places, load)
    if share.min() >= -NOTHING * load.total:
        return np.maximum(share, 0.0), "shared"
    return _taut(_Beam(places, load)), "slack"


class _Beam:
    """Equation (1) for given lines, with lengths scaled so that the lines lie within -1 and 1."""

    def __init__(self, places: Array, load: Load) -> None:
        middle, half = (places.min() + places.max()) / 2, max(float(np.ptp(places)) / 2, 1e-300)
        x = (places - middle) / half
        at = (np.asarray(load.at, dtype=np.float64) - middle) / half
        weight = np.asarray(load.weight, dtype=np.float64)
        ends = sorted(((load.start - middle) / half, (load.end - middle) / half))
        self.x, self.total = x, load.total
        self.moment = load.total * (load.centre - middle) / half
        self.kernel = np.abs(x[:, None] - x) ** 3 / 12
        self.pressed = (np.abs(x[:, None] - at) ** 3 / 12) @ weight + (
            load.per_length * half * _uniform(x, ends[0], ends[1])
        )


def _uniform(x: Array, a: float, b: float) -> Array:
    """Equation (2)."""
    return np.asarray(((x - a) * np.abs(x - a) ** 3 + (b - x) * np.abs(b - x) ** 3) / 48)


def _solved(beam: _Beam, on: NDArray[np.intp]) -> tuple[Array, Array]:
    """Shares of the lines `on`, and the pipe's height above level at every line of the beam."""
    n, x = on.size, beam.x[on]
    matrix = np.zeros((n + 2, n + 2))
    matrix[:n, :n] = beam.kernel[np.ix_(on, on)]
    matrix[:n, n] = matrix[n, :n] = 1.0
    matrix[:n, n + 1] = matrix[n + 1, :n] = x
    known = np.concatenate((beam.pressed[on], (beam.total, beam.moment)))
    answer = np.linalg.solve(matrix, known)
    share: Array = answer[:n].astype(np.float64, copy=False)
    c0, c1 = answer[n:]
    height: Array = c0 + c1 * beam.x + beam.kernel[:, on] @ share - beam.pressed
    return share, height


def _taut(beam: _Beam) -> Array:
    """Shares when some lines are slack: none pushes, and the pipe is above level at each slack one.

    The shares make the strain energy least with no share negative, a convex problem with one answer.
    It starts from the outermost two lines, which always balance the pipe, and adds the line where the
    pipe has sunk most; a share that would turn negative on the way is stopped at zero and its line let
    go (the active-set method of C. L. Lawson and R. J. Hanson, Solving Least Squares Problems, 1974,
    ch. 23, for a quadratic form). Energy falls at every round, so no set of lines comes up twice.
    """
    last = beam.x.size - 1
    share = np.zeros(last + 1)
    on = np.array([0, last])
    share[on], height = _solved(beam, on)
    for _ in range(20 * share.size):  # a bound against rounding; a few rounds are the rule
        sunk = np.where(share > 0, 0.0, height)
        k = int(np.argmin(sunk))
        if sunk[k] >= -NOTHING * beam.total:
            break
        on = np.flatnonzero(share > 0)
        on, share, height = _let_go(beam, np.union1d(on, [k]), share)
    return share


def _let_go(
    beam: _Beam, on: NDArray[np.intp], share: Array
) -> tuple[NDArray[np.intp], Array, Array]:
    """Move `share` towards the answer on the lines `on`, dropping each line that would push."""
    while True:
        wanted, height = _solved(beam, on)
        pushing = wanted <= NOTHING * beam.total
        if not pushing.any():
            done = np.zeros(share.size)
            done[on] = wanted
            return on, done, height
        now = share[on]
        with np.errstate(divide="ignore", invalid="ignore"):
            steps = np.where(pushing, now / (now - wanted), np.inf)
        step = float(np.nanmin(steps))
        moved = now + step * (wanted - now)
        stays = ~(pushing & (steps <= step))
        share = np.zeros(share.size)
        share[on[stays]] = moved[stays]
        on = on[stays]
