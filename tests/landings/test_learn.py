"""What is learned from landings: on rigs whose truth is known, and against scipy and brute force."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.optimize import least_squares
from scipy.stats import multivariate_normal, norm

from aimcalc.landings import causes, fit, settle
from aimcalc.landings import forward as f
from aimcalc.landings.learn import ContradictError, Learned, learn, radius
from aimcalc.landings.spots import RIG, Direct, Problem
from aimcalc.landings.ways import Cause
from aimcalc.rig.rig import Rig
from aimcalc.text.learn_text import settles_words
from tests.landings import named
from tests.landings.noisy import Truth, a_rig, read_from
from tests.landings.nudges import shares
from tests.studies import cases

LOW = -15 * 0.0254  # m
INCH = 0.0254
READ_BACK = {"read_down": 0.1, "read_pan": 0.1, "landing": 0.02}
TOOLS_HELD = {**READ_BACK, "level": 0.1, "dial": 0.1}


def low_pipe(seed: int, usual: float, direct: tuple[Direct, ...] = (), **errors: float) -> Truth:
    """One pipe of eight 15 in low, four landings of it with the angles read back."""
    rng = np.random.default_rng([7, seed])
    rig = a_rig(rng, pipes=1, units=8, **errors)
    unit = np.sort(rng.choice(8, 4, replace=False))
    out = {("trim", "pipe 0"): LOW}
    return read_from(rig, rng, unit, usual=usual, back=True, out=out, direct=direct)


def trim(learned: Learned) -> tuple[float, float, float]:
    found = next(c for c in learned.corrections if c.what == "trim")
    return found.value, found.low, found.high


@pytest.mark.long
def test_a_pipe_15_in_low_is_recovered_from_four_landings_within_2_in() -> None:
    """Angles read back to 0.1 degrees, landings to 2 cm, tools that were held to a level and a square."""
    count = cases(12, 200)
    found = [trim(learn(low_pipe(k, 0.0, **TOOLS_HELD).problem)) for k in range(count)]
    assert np.mean([abs(value - LOW) < 2 * INCH for value, _, _ in found]) > 0.95
    assert np.mean([low < LOW < high for _, low, high in found]) > 0.93


@pytest.mark.long
def test_with_ordinary_widths_the_interval_is_wide_and_one_tape_measurement_settles_it() -> None:
    count = cases(8, 100)
    wide, narrow, told = [], [], 0
    for k in range(count):
        learned = learn(low_pipe(k, 1.0, **READ_BACK).problem)
        value, low, high = trim(learned)
        wide.append((low < LOW < high, high - low))
        told += any(each.measure == ("trim", "pipe 0") for each in learned.tell_apart)
        taped = low_pipe(k, 1.0, (Direct("trim", "pipe 0", 0.0),), **READ_BACK)
        value, low, high = trim(learn(taped.problem))
        narrow.append((abs(value - LOW) < 2 * INCH, high - low))
    assert np.mean([held for held, _ in wide]) > 0.85
    assert np.median([size for _, size in wide]) > 8 * INCH
    assert told >= 0.8 * count
    assert np.mean([near for near, _ in narrow]) > 0.95
    assert np.median([size for _, size in narrow]) < 3 * INCH


def a_truth(seed: int, **values: object) -> Truth:
    rng = np.random.default_rng([3, seed])
    rig = a_rig(rng)
    unit = np.sort(rng.choice(len(rig.units), 9, replace=False))
    return read_from(rig, rng, unit, **values)  # type: ignore[arg-type]


def test_the_moves_of_a_system_are_those_of_finite_differences() -> None:
    problem = a_truth(
        1, direct=(Direct("trim", "pipe 0", 0.1, 2.0), Direct("moved", "pipe 1", 0.0, 3.0))
    ).problem
    state = np.random.default_rng(4).normal(size=len(problem.unknowns))
    told, step = problem.system(state), 1e-5
    for k in range(state.size):
        shift = step * (np.arange(state.size) == k)
        sides = [problem.system(state + sign * shift).off for sign in (1, -1)]
        assert np.allclose(told.moves[:, k], -(sides[0] - sides[1]) / (2 * step), atol=1e-6)


def test_state_and_covariance_are_those_of_scipy_with_numerical_differences() -> None:
    problem = a_truth(2).problem
    nothing = np.zeros(problem.count, dtype=bool)
    wide, cause = np.ones(len(problem.unknowns)), Cause(causes.NONE, "")
    start = np.zeros(wide.size)
    state = fit.solve(problem, cause, wide, start, nothing, soft=False)
    noise = problem.system(start).noise
    lower = np.linalg.inv(np.linalg.cholesky(noise))

    def off(at: np.ndarray) -> np.ndarray:
        rows = problem.system(at).off.reshape(problem.count, -1)
        return np.concatenate((np.einsum("kij,kj->ki", lower, rows).ravel(), at))

    other = least_squares(off, start, jac="3-point", xtol=1e-12, ftol=1e-12, gtol=1e-12)
    assert np.allclose(state, other.x, atol=1e-5)
    now = problem.system(state)._replace(noise=noise)
    assert np.allclose(
        fit.posterior(problem, now, wide, nothing),
        np.linalg.inv(other.jac.T @ other.jac),
        atol=1e-5,
    )


def test_left_out_is_what_a_fit_without_the_spot_forecasts() -> None:
    """By brute force: the joint Gaussian of all spots conditioned on all but one."""
    problem = a_truth(5).problem
    system = problem.system(np.zeros(len(problem.unknowns)))
    whole = system.covariance(np.ones(len(problem.unknowns)))
    away, forecast = causes.left_out(problem, system.off, np.linalg.inv(whole))
    for k in range(problem.count):
        mine = np.arange(2 * k, 2 * k + 2)
        rest = np.setdiff1d(np.arange(len(whole)), mine)
        gain = whole[np.ix_(mine, rest)] @ np.linalg.inv(whole[np.ix_(rest, rest)])
        assert np.allclose(away[k], system.off[mine] - gain @ system.off[rest])
        spread = whole[np.ix_(mine, mine)] - gain @ whole[np.ix_(rest, mine)]
        assert np.allclose(forecast[k], spread)


def test_the_evidence_is_the_density_of_all_that_was_read() -> None:
    """Against scipy's Gaussian density, for the cause that nothing is out by more than usual."""
    problem = a_truth(6, usual=0.5).problem
    every = [c for c in causes.judged(problem) if c.cause.cause == "none"]
    system = problem.system(np.zeros(len(problem.unknowns)))
    densities = [
        multivariate_normal(cov=system.covariance(np.full(len(problem.unknowns), rest))).logpdf(
            system.off
        )
        for rest in causes.RESTS
    ]
    rows = len(system.off)
    told = every[0].evidence - 0.5 * rows * np.log(2 * np.pi)
    assert not every[0].gross.any()
    assert told == pytest.approx(np.logaddexp(*densities) - np.log(2), abs=1e-6)


def test_the_radius_holds_its_share_of_a_gaussian_error() -> None:
    rng = np.random.default_rng(8)
    for spread in ([[1.0, 0.0], [0.0, 1.0]], [[4.0, 1.0], [1.0, 0.5]], [[1.0, 0.0], [0.0, 0.0]]):
        drawn = rng.multivariate_normal(np.zeros(2), spread, 40_000)
        held = np.mean(np.hypot(*drawn.T) < radius(np.array(spread)))
        assert held == pytest.approx(0.95, abs=0.012)
    assert radius(np.eye(2)) == pytest.approx(
        np.sqrt(5.991), abs=1e-3
    )  # chi-square tables, 2, 0.95


def test_a_gross_reading_is_doubted_and_named() -> None:
    truth = a_truth(9, usual=0.3, back=True)
    spots = truth.problem.spots
    point = spots.point.copy()
    point[:2, 4] += (1.5, -1.0)
    problem = Problem(truth.problem.rig, spots._replace(point=point))
    assert learn(problem).doubted == (problem.names[4],)


def test_landings_that_contradict_each_other_are_refused_in_a_sentence() -> None:
    rng = np.random.default_rng(11)
    rig = a_rig(rng, pipes=1)
    truth = read_from(rig, rng, np.array([0, 2, 4]), usual=0.0, back=True)
    point = truth.problem.spots.point.copy()
    point[:2] += np.array([[3.0, -3.0, 0.5], [0.0, 2.0, -3.0]])
    problem = Problem(rig, truth.problem.spots._replace(point=point))
    with pytest.raises(
        ContradictError, match=r"contradict each other: expected 3 .* Measure these again"
    ):
        learn(problem)


CAUSED = {
    "trim": 0.4,
    "moved": 0.4,
    "skew": 0.07,
    "marks": 0.3,
    "dial": 0.12,
    "level": 0.06,
}


def of_one_cause(seed: int, what: str, usual: float = 0.0) -> tuple[Truth, str]:
    """A rig of three pipes with one thing out and angles read back, and what that is of."""
    rng = np.random.default_rng([5, seed])
    rig = a_rig(rng)
    unit = np.concatenate([np.sort(rng.choice(6, 4, replace=False)) + 6 * p for p in range(3)])
    of = RIG if what in ("dial", "level") else f"pipe {rng.integers(3)}"
    value = CAUSED[what] * rng.uniform(0.8, 1.2) * rng.choice((-1.0, 1.0))
    return read_from(rig, rng, unit, usual=usual, back=True, out={(what, of): value}), of


@pytest.mark.long
@pytest.mark.parametrize("what", CAUSED)
def test_the_cause_named_is_the_one_there_is(what: str) -> None:
    count = cases(3, 40)
    right = 0
    for seed in range(count):
        truth, of = of_one_cause(seed, what)
        first = causes.judged(truth.problem)[0].cause
        right += (first.cause, first.of) == (what, of)
    assert right >= 0.9 * count


def set_wrongly(rig: Rig, how: str, rng: np.random.Generator) -> tuple[f.Set, str]:
    """How the units of a rig of three pipes of six were set, all of one pipe or two of it wrongly."""
    given, pipe = f.printed(rig), int(rng.integers(3))
    rows = np.arange(6 * pipe, 6 * pipe + 6)
    turn, down = given.turn.copy(), given.down.copy()
    of = f"pipe {pipe}"
    if how == "mirrored":
        turn[rows] = -turn[rows]  # from square SL is as far as SR, on whichever side it faces
    elif how == "from-plumb":
        down[rows] = np.pi / 2 - down[rows]
    elif how == "face-for-floor":
        way = rig.arrays.stand[:, rows] - rig.aims.pivot[:, rows]
        down[rows] = np.arctan2(-way[2], np.hypot(way[0], way[1]))
    elif how == "wrong-end":
        turn[rows], down[rows] = turn[rows[::-1]], down[rows[::-1]]
    else:
        a, b = rows[0] + np.sort(rng.choice(6, 2, replace=False))
        turn[[a, b]], down[[a, b]] = turn[[b, a]], down[[b, a]]
        of = f"{rig.names[a]} and {rig.names[b]}"
    return given._replace(turn=turn, down=down), of


@pytest.mark.long
@pytest.mark.parametrize(
    "how", ["mirrored", "from-plumb", "face-for-floor", "wrong-end", "swapped"]
)
def test_what_was_done_the_wrong_way_is_named(how: str) -> None:
    """Every unit's spot is known, set by hand and nothing read back: the way of setting itself is out."""
    count = cases(4, 40)
    right = 0
    for seed in range(count):
        rng = np.random.default_rng([23, seed])
        rig = a_rig(rng)
        really, of = set_wrongly(rig, how, rng)
        truth = read_from(rig, rng, np.arange(18), usual=0.3, really=really)
        first = causes.judged(truth.problem)[0].cause
        right += (first.cause, first.of) == (how, of)
    assert right >= (0.9 if count > 4 else 0.75) * count


@pytest.mark.long
@pytest.mark.parametrize("back", [True, False], ids=["read back", "as printed"])
def test_the_cause_named_is_as_often_right_as_anybody_could_name_it(back: bool) -> None:
    """Against Bayes' rule by importance sampling on the same rigs, one reading in ten a blunder.

    `python -m tests.landings.named` tells the figures themselves.
    """
    count = cases(4, 120)
    found = named.study(count, back, first=0 if count > 4 else 11)
    slack = 0.05 if count > 4 else 0.5
    assert found["ours"].mean() >= found["best"].mean() - slack
    assert found["ours chance"].mean() == pytest.approx(found["ours"].mean(), abs=slack)
    assert np.median(found["draws"]) > 0.1
    assert found["ours"].mean() >= (0.9 if count > 4 else 0.5)


def test_a_cause_counts_from_where_it_moves_a_landing_past_its_tolerance() -> None:
    """By the forward model, step by step, against the limit that is told beforehand."""
    rig = named.drawn(3, back=True)
    limits = causes._limits(rig.problem, rig.every)
    seen = 0
    for limit, cause, matters in zip(limits, rig.every, rig.matter, strict=True):
        if cause.unknown < 0:
            assert (limit == 0.0) == matters[0]
            continue
        sizes = np.abs(named.STEPS) * causes.FAR_OUT
        if matters.any() and limit < sizes.max() / 2:
            first = sizes[matters].min()
            assert limit == pytest.approx(first, rel=0.15, abs=causes.FAR_OUT * 0.1)
            seen += 1
    assert seen > 5


def test_the_chance_to_be_right_once_something_is_measured_is_that_of_who_measures_it() -> None:
    """Sampled: a cause by its chance, the length measured by its fit, the likeliest cause then named."""
    problem = low_pipe(1, 1.0, **READ_BACK).problem
    fits = fit.fitted(problem, causes.judged(problem))
    assert len(fits) > 1
    fits = [each._replace(chance=1 / len(fits)) for each in fits]
    rng, width = np.random.default_rng(5), 0.01
    for k, unknown in enumerate(problem.unknowns):
        if unknown.what not in ("trim", "level", "drop"):
            continue
        own = problem.widths[k]
        mean = np.array([each.state[k] * own for each in fits])
        wide = np.sqrt([each.covariance[k, k] * own**2 + width**2 for each in fits])
        true = rng.integers(len(fits), size=40_000)
        x = rng.normal(mean[true], wide[true])
        densities = norm.pdf(x[:, None], mean, wide)
        held = np.mean(densities.argmax(axis=1) == true)
        assert settle.right(problem, fits, k, width) == pytest.approx(held, abs=0.012)


def test_where_no_cause_has_most_of_the_chance_it_says_what_would_tell() -> None:
    """Two causes alike beforehand: a trim of one pipe or the level, told apart by a tape on the pipe; a unit
    that was perhaps set from plumb, told by reading it back."""
    truth = low_pipe(1, 1.0, **READ_BACK)
    fits = fit.fitted(truth.problem, causes.judged(truth.problem))
    at = truth.problem.place["trim", "pipe 0"]
    one, other = (
        fits[0]._replace(cause=Cause(what, of), chance=0.5, state=np.where(
            np.arange(fits[0].state.size) == at, value, 0.0
        ))
        for what, of, value in (("trim", "pipe 0", -4.0), ("level", RIG, 0.0))
    )  # fmt: skip
    told = settle.settles(truth.problem, [one, other], [(at, 0.01)])
    assert (told.what, told.of, told.units) == ("trim", "pipe 0", ())
    spots = truth.problem.spots
    unread = Problem(truth.problem.rig, spots._replace(read_back=np.zeros(4, dtype=bool)))
    given = spots.given._replace(down=spots.given.down + np.array([0.0, 0.3, 0.0, 0.0]))
    plumb = one._replace(cause=Cause("from-plumb", unread.names[1], given=given))
    told = settle.settles(unread, [plumb, other], [(at, 0.01)])
    assert told.units == (unread.names[1],)
    assert "read back the dial and the level of 1 unit: " in settles_words(told)
    nothing = settle.settles(truth.problem, [one, one._replace(cause=Cause("level", RIG))], [])
    assert settles_words(nothing).endswith("note more landings, of other units.")


@pytest.mark.long
def test_where_nothing_is_out_nothing_is_named() -> None:
    count = cases(4, 60)
    named = [
        causes.judged(a_truth(100 + k, usual=0.0).problem)[0].cause.cause for k in range(count)
    ]
    assert named.count("none") >= 0.9 * count


@pytest.mark.long
def test_intervals_and_forecasts_hold_as_often_as_they_say() -> None:
    """Random rigs with everything out as usual, one reading in ten gross: the study of the proof."""
    count = cases(12, 1000)
    inside, held = [], []
    for k in range(count):
        rng = np.random.default_rng([17, k])
        rig = a_rig(rng)
        unit = np.sort(rng.choice(len(rig.units), int(rng.integers(6, 14)), replace=False))
        truth = read_from(rig, rng, unit, gross=0.1, back=bool(k % 2))
        try:
            learned = learn(truth.problem)
        except ContradictError:
            continue
        real = truth.state * truth.problem.widths
        for each, value in zip(learned.corrections, real, strict=True):
            value = np.degrees(value) if each.unit == "deg" else value
            inside.append(each.low < value < each.high)
        held += [
            each.left_out < each.forecast
            for each, gross in zip(learned.landings, truth.gross, strict=True)
            if not gross
        ]
    slack = 0.02 if count < 100 else 0.0
    assert 0.93 - slack <= np.mean(inside) <= 0.97 + slack
    assert np.mean(held) > 0.93 - slack


@pytest.mark.long
def test_the_other_half_of_the_landings_is_predicted() -> None:
    """The fit of one half, thrown forward to the spots of the other, against the forecast's own width."""
    count = cases(6, 100)
    before, after = [], []
    for k in range(count):
        rng = np.random.default_rng([19, k])
        rig = a_rig(rng, pipes=1, units=12)
        truth = read_from(rig, rng, np.arange(12), back=True, out={("trim", "pipe 0"): LOW})
        spots = truth.problem.spots
        half = Problem(rig, _some(spots, np.arange(0, 12, 2)))
        fits = fit.fitted(half, causes.judged(half))
        state = np.zeros(len(truth.problem.unknowns))
        for unknown, value in zip(half.unknowns, fits[0].state, strict=True):
            if unknown.what != "kick":
                state[truth.problem.place[unknown.what, unknown.of]] = value
        for found, at in ((before, 0 * state), (after, state)):
            off = truth.problem.system(at).off.reshape(12, 2)[1::2]
            found.append(np.hypot(*off.T).mean())
    assert np.mean(after) < 0.5 * np.mean(before)


def _some(spots, rows):
    """The same spots for some rows."""
    given = type(spots.given)._make(c[..., rows] for c in spots.given)
    plane = type(spots.plane)._make(c[..., rows] for c in spots.plane)
    plain = {
        name: getattr(spots, name)[rows]
        for name in ("unit", "rows", "used", "throw", "pan", "down", "read_back")
    }
    return spots._replace(given=given, plane=plane, point=spots.point[:, rows], **plain)


@pytest.mark.long
def test_landings_leave_fewer_units_that_need_more_than_a_nudge() -> None:
    """Rigs three times as far out as usual; `python -m tests.landings.nudges` tells the figure itself."""
    told = shares(cases(6, 60), usual=3.0)
    assert told["plotted"] < told["3 landings"] < told["6 landings and trims measured"]
