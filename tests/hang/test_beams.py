"""Shares of lift lines: an independent stiffness method, every choice of slack lines, odd pipes."""

from itertools import combinations

import numpy as np
import pytest

from aimcalc.hang.beams import Load, line_loads, reactions


def stiffness_model(lines, load):
    """Reactions at `lines` and heights at every node of a frame of Hermite beam elements, EI = 1.

    The common textbook element (12, 6L, 4L^2, 2L^2 over L^3) with consistent end forces of a uniform
    load: a second method, which shares nothing with the closed form under test.
    """
    nodes = np.unique(np.concatenate((lines, load.at, (load.start, load.end))))
    stiff = np.zeros((2 * nodes.size, 2 * nodes.size))
    force = np.zeros(2 * nodes.size)
    for k, length in enumerate(np.diff(nodes)):
        L, here = length, slice(2 * k, 2 * k + 4)
        stiff[here, here] += (
            np.array(
                [
                    [12, 6 * L, -12, 6 * L],
                    [6 * L, 4 * L**2, -6 * L, 2 * L**2],
                    [-12, -6 * L, 12, -6 * L],
                    [6 * L, 2 * L**2, -6 * L, 4 * L**2],
                ]
            )
            / L**3
        )
        own = load.per_length if load.start <= nodes[k] and nodes[k + 1] <= load.end else 0.0
        force[here] += own * np.array([-L / 2, -(L**2) / 12, -L / 2, L**2 / 12])
    for at, weight in zip(load.at, load.weight, strict=True):
        force[2 * np.searchsorted(nodes, at)] -= weight
    held = 2 * np.searchsorted(nodes, lines)
    free = np.setdiff1d(np.arange(force.size), held)
    moved = np.zeros(force.size)
    moved[free] = np.linalg.solve(stiff[np.ix_(free, free)], force[free])
    return (stiff @ moved - force)[held], nodes, moved[::2]


def slack_by_trying_every_set(lines, load):
    """The one choice of taut lines where none pushes and the pipe is above level at the others."""
    found = []
    for count in range(2, len(lines) + 1):
        for on in combinations(range(len(lines)), count):
            share, nodes, height = stiffness_model(lines[list(on)], load)
            off = np.setdiff1d(np.arange(len(lines)), on)
            above = np.interp(lines[off], nodes, height) if off.size else np.zeros(0)
            if share.min() >= -1e-9 and (above >= -1e-9).all():
                whole = np.zeros(len(lines))
                whole[list(on)] = share
                found.append(whole)
    return found


def random_pipe(rng):
    length = rng.uniform(4, 14)
    lines = np.sort(rng.uniform(0.2, length - 0.2, rng.integers(2, 6)))
    lines += np.arange(lines.size) * 0.05
    count = rng.integers(1, 9)
    at = np.concatenate((rng.uniform(0, length, count), lines))  # nodes for the second method
    weight = np.concatenate((rng.uniform(3, 40, count), np.zeros(lines.size)))
    return lines, Load(at, weight, 0.0, length + 0.5, rng.choice([0.0, 4.05]))


@pytest.mark.parametrize("seed", range(25))
def test_shares_agree_with_a_frame_of_beam_elements(seed):
    lines, load = random_pipe(np.random.default_rng(seed))
    expected, _, _ = stiffness_model(lines, load)
    assert reactions(lines, load) == pytest.approx(expected, abs=1e-6 * load.total)


@pytest.mark.parametrize("seed", range(25))
def test_slack_lines_are_those_found_by_trying_every_set(seed):
    rng = np.random.default_rng(100 + seed)
    lines, load = random_pipe(rng)
    while not lines[0] < load.centre < lines[-1]:  # tips: no set of lines holds it level
        lines, load = random_pipe(rng)
    answers = slack_by_trying_every_set(lines, load)
    assert answers, "the second method found no set"
    shares = line_loads(lines, load)
    assert shares.load == pytest.approx(answers[0], abs=1e-6 * load.total)


def test_forces_and_moments_balance_whatever_goes_slack():
    rng = np.random.default_rng(7)
    for _ in range(200):
        lines, load = random_pipe(rng)
        shares = line_loads(lines, load)
        assert shares.load.min() >= 0
        assert shares.load.sum() == pytest.approx(load.total)
        if shares.how != "tips":
            assert shares.load @ lines == pytest.approx(load.total * load.centre, abs=1e-6)


def test_a_line_that_would_push_goes_slack_and_the_rest_is_worked_out_again():
    # Two equal spans, 32 at the middle of the first: 13, 22, -3 if the far line could push. It
    # cannot, so the near two carry the load as a simple beam: 16 each (statics).
    shares = line_loads([0, 10, 20], Load([5], [32]))
    assert shares.load == pytest.approx([16, 16, 0])
    assert shares.slack.tolist() == [False, False, True]
    assert shares.how == "slack"


def test_lines_may_be_given_in_any_order():
    shares = line_loads([20, 0, 10], Load([5], [32]))
    assert shares.load == pytest.approx([0, 16, 16])


def test_one_line_carries_everything_and_says_so():
    shares = line_loads([3.0], Load([1.0], [20.0], 0.0, 4.0, 2.0))
    assert shares.load == pytest.approx([28.0])
    assert shares.how == "one line"


def test_no_lines_is_an_answer():
    shares = line_loads([], Load([1.0], [20.0]))
    assert shares.load.size == 0
    assert shares.how == "no lines"


def test_weight_beyond_the_outermost_line_tips_the_pipe_onto_it():
    shares = line_loads([2, 6], Load([9.0], [50.0]))
    assert shares.how == "tips"
    assert shares.load == pytest.approx([0, 50])


def test_weight_right_under_the_outermost_line_is_carried_by_it_alone():
    shares = line_loads([2, 6], Load([6.0], [50.0]))
    assert shares.how == "slack"
    assert shares.load == pytest.approx([0, 50])


def test_two_lines_at_one_place_share_alike():
    # Statics: 30 in the middle of 0 and 10 puts 15 at each end; two lines at 10 take 7.5 each.
    shares = line_loads([0, 10, 10], Load([5], [30]))
    assert shares.load == pytest.approx([15, 7.5, 7.5])
    assert shares.how == "shared"


def test_a_bare_pipe_without_weight_loads_nothing():
    assert line_loads([0, 5], Load([], [])).load == pytest.approx([0, 0])


def test_fewer_than_two_places_is_refused():
    with pytest.raises(ValueError, match="two or more supports"):
        reactions([4.0], Load([1.0], [1.0]))
    with pytest.raises(ValueError, match="different places"):
        reactions([4.0, 4.0, 5.0], Load([1.0], [1.0]))
