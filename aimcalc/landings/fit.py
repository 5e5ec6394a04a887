"""What is out, by Bayesian least squares on everything measured, one cause at a time.

    minimise  |t / w|^2 + sum of rho(|L^-1 r(t)|^2)

over the unknowns t in their prior widths, w the widths of what is the cause; r is measured minus predicted, L
the Cholesky factor of each spot's noise. The first fit takes the spots by a loss rho that grows with the
root (scipy's soft L1), so that a gross one pulls little; the last leaves out those that do not fit. Then the
unknowns lie about the solution with covariance (W^-2 + J' S^-1 J)^-1 (Gauss, Newton and Laplace).
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

import numpy as np

from aimcalc.geometry.aim import Flags
from aimcalc.geometry.vectors import Array
from aimcalc.landings.causes import Judged, left_out, widths
from aimcalc.landings.spots import Problem, System
from aimcalc.landings.ways import Cause
from aimcalc.named import NamedTuple

SOFT_FROM = 2.0  # widths: from where on a spot pulls less and less (our choice)
UNFIT = (
    13.8  # square of the distance in widths past which a spot does not fit: chi-square, 2, 0.001
)
SPREAD = 1e3  # m: of a spot that counts for nothing
NEAR, SOFT_NEAR = 1e-6, 1e-4  # of a step that ends a fit, as a share
MOST = 60  # steps of a fit
STALLED = 2  # steps that are no smaller, after which they end
SMALL_STEP = 1e-4  # as a share
MOST_SETTLED = 6  # times that spots are left out and taken in again
LIKELY = 0.05  # chance from which on a cause is fitted too
MOST_CAUSES = 4


class Fitted(NamedTuple):
    """The unknowns under one cause: `state` (P,) and `covariance` (P, P) in prior widths.

    `doubted` (K,) marks spots that do not fit. `after` is the system there. `away` (K, 3) and `forecast`
    (K, 3, 3): each spot from what all the others forecast of it.
    """

    cause: Cause
    chance: float
    state: Array
    covariance: Array
    doubted: Flags
    after: System
    away: Array
    forecast: Array


def fitted(problem: Problem, causes: Sequence[Judged]) -> list[Fitted]:
    """The unknowns under every likely cause, the likeliest first; chances of those fitted sum to 1."""
    likely = [each for each in causes[:MOST_CAUSES] if each.chance >= LIKELY] or list(causes[:1])
    total = sum(each.chance for each in likely)
    return [_fit(problem, each)._replace(chance=each.chance / total) for each in likely]


def _fit(problem: Problem, judged: Judged) -> Fitted:
    cause, wide = judged.cause, widths(problem, judged.cause)
    nothing = np.zeros(problem.count, dtype=bool)
    state = solve(problem, cause, wide, judged.state, nothing, soft=True)
    doubted = judged.gross
    for _ in range(MOST_SETTLED):
        after = problem.system(state, cause.given, cause.units)
        away, forecast = _left_out(problem, after, wide, state, doubted)
        square = np.einsum("ki,kij,kj->k", away, np.linalg.inv(forecast), away)
        if np.array_equal(square > UNFIT, doubted):
            break
        doubted = np.asarray(square > UNFIT)
    state = solve(problem, cause, wide, state, doubted, soft=False)
    after = problem.system(state, cause.given, cause.units)
    away, forecast = _left_out(problem, after, wide, state, doubted)
    covariance = posterior(problem, after, wide, doubted)
    return Fitted(cause, judged.chance, state, covariance, doubted, after, away, forecast)


def solve(
    problem: Problem, cause: Cause, wide: Array, start: Array, left: Flags, *, soft: bool
) -> Array:
    """The most likely state (P,) by scipy's least squares; spots in `left` count for nothing.

    `soft` takes all spots by a loss that grows with the root of their square.
    """
    now = problem.system(start, cause.given, cause.units)
    lower, weight = _roots(problem, now), np.repeat(~left, problem.rows)
    rows = weight.size
    known: dict[bytes, System] = {start.tobytes(): now}

    def at(state: Array) -> System:
        key = state.tobytes()
        if key not in known:
            known.clear()
            known[key] = problem.system(state, cause.given, cause.units)
        return known[key]

    def whitened(values: Array) -> Array:
        """Rows (M, ...) in their widths, those left out as nothing."""
        blocks = values[:rows].reshape(problem.count, problem.rows, -1)
        plain = (lower @ blocks).reshape(rows, -1) * weight[:, None]
        sized = (values[rows:].T / np.sqrt(now.direct)).T
        return np.concatenate((plain.reshape(rows, *values.shape[1:]), sized))

    def off(state: Array) -> Array:
        return np.concatenate((whitened(at(state).off), state / wide))

    def moves(state: Array) -> Array:
        return np.concatenate((-whitened(at(state).moves), np.diag(1.0 / wide)))

    return least(off, moves, start, soft=rows if soft else 0)


def least(
    off: Callable[[Array], Array],
    moves: Callable[[Array], Array],
    start: Array,
    *,
    soft: int = 0,
    near: float = 0.0,
    most: int = MOST,
) -> Array:
    """The state (P,) at which the sum of squares of `off` (M,) is least; `moves` (M, P) are its derivatives.

    The first `soft` rows count by a loss that grows with the root of their square. `near` ends the search, as
    a share of a step and of the sum. By trust regions; without soft rows the last steps are those of Gauss
    and Newton, down to rounding.
    """
    from scipy.optimize import least_squares

    def loss(square: Array) -> Array:
        found = np.stack((square, np.ones_like(square), np.zeros_like(square)))
        root = np.sqrt(1.0 + square[:soft] / SOFT_FROM**2)
        found[0, :soft] = 2 * SOFT_FROM**2 * (root - 1.0)
        found[1, :soft] = 1.0 / root
        found[2, :soft] = -0.5 / root**3 / SOFT_FROM**2
        return found

    how: dict[str, Any] = {"loss": loss} if soft else {"x_scale": "jac"}
    end = near or (SOFT_NEAR if soft else NEAR)
    found = least_squares(off, start, moves, xtol=end, ftol=end, gtol=end, max_nfev=most, **how)
    return np.asarray(found.x) if soft else _polished(off, moves, np.asarray(found.x))


def _polished(
    off: Callable[[Array], Array], moves: Callable[[Array], Array], state: Array
) -> Array:
    """The state after steps of Gauss and Newton, as long as they are small and do not cease to grow smaller:
    what rounding in sums of squares leaves open."""
    least_size, stalled = SMALL_STEP, 0
    while stalled < STALLED:
        step = np.linalg.lstsq(moves(state), -off(state), rcond=None)[0]
        size = float((np.abs(step) / (np.abs(state) + SMALL_STEP**4)).max())
        if not size <= SMALL_STEP:
            break
        state = state + step
        stalled = stalled + 1 if size >= least_size else 0
        least_size = min(least_size, size)
    return np.asarray(state)


def spread(moves: Array) -> Array:
    """Covariance (P, P) of unknowns from rows (M, P) that are each off by a standard deviation of 1.

    (J' J)^-1 by the triangle of J = Q R, which keeps twice the digits of J' J.
    """
    inverse = np.linalg.inv(np.linalg.qr(moves, mode="r"))
    return np.asarray(inverse @ inverse.T)


def _roots(problem: Problem, system: System) -> Array:
    """What makes the noise of each spot's rows 1: the inverse Cholesky factors (K, R, R)."""
    return np.asarray(np.linalg.inv(np.linalg.cholesky(system.noise)))


def posterior(problem: Problem, system: System, wide: Array, doubted: Flags) -> Array:
    """Covariance (P, P) of the unknowns, in prior widths: (W^-2 + J' S^-1 J)^-1."""
    rows = problem.rows * problem.count
    blocks = system.moves[:rows].reshape(problem.count, problem.rows, -1)
    plain = (_roots(problem, system) @ blocks)[~doubted].reshape(-1, len(wide))
    sized = system.moves[rows:] / np.sqrt(system.direct)[:, None]
    return spread(np.concatenate((plain, sized, np.diag(1.0 / wide))))


def _left_out(
    problem: Problem, system: System, wide: Array, state: Array, doubted: Flags
) -> tuple[Array, Array]:
    """Each spot from what all others that are not doubted forecast, (K, R) and (K, R, R)."""
    covariance = system.covariance(wide)
    rows = np.arange(problem.rows * problem.count)
    covariance[rows, rows] += SPREAD**2 * np.repeat(doubted, problem.rows)
    off = system.off + system.moves @ state
    inverse = np.asarray(np.linalg.inv(covariance), dtype=np.float64)
    away, forecast = left_out(problem, off, inverse)
    return away, forecast - SPREAD**2 * np.eye(problem.rows) * doubted[:, None, None]
