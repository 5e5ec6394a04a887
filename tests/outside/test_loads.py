"""What the lift lines of a pipe carry, against printed formulas and a frame program run beside it.

[2400], [2401], [2398]: piping-designer.com, beam articles of those numbers. [CERM] M. R. Lindeburg, Civil
Engineering Reference Manual, 15th ed., as an engineering page on three-support beams cites it.
[PyNite] PyNiteFEA, run in the test (`tests.frame_model`).
"""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.hang.beams import Load, line_loads, reactions
from tests.frame_model import frame_shares


def uniform(length, weight):
    return Load([], [], 0.0, length, weight)


FIVE_LINES = [1, 11, 21, 31, 41]  # of a 42 ft pipe, 2.72 lb/ft
PRINTED = {
    # Two equal spans, P at the middle of the first: 13/32, 11/16 and -3/32 of P; [2400], [2401] at a = b.
    "one span": ([0, 10, 20], Load([5], [32]), [13, 22, -3]),
    # P at both middles: 5/16, 11/8 and 5/16 of P; [CERM].
    "both spans": ([0, 10, 20], Load([5, 15], [16, 16]), [5, 22, 5]),
    # P at a from the left of two spans L: R1 = P b (4 L^2 - a (L + a)) / 4 L^3, R3 = -P a b (L + a) / 4
    # L^3; the same articles. P 100, a 3, b 7, L 10.
    "off the middle": ([0, 10, 20], Load([3], [100]), [63.175, 43.65, -6.825]),
    # Spans 8 and 12, uniform; [2398], whose printed R3 has a for b in one term.
    "spans 8 and 12": ([0, 8, 20], uniform(20, 1), [2.25, 12.916667, 4.833333]),
}
RUN = {
    "two spans, uniform": ([0, 10, 20], uniform(20, 1.6)),
    "three spans, uniform": ([0, 10, 20, 30], uniform(30, 1)),
    "four spans, uniform": ([0, 10, 20, 30, 40], uniform(40, 1)),
    "overhangs": ([2, 12], Load([0, 7], [50, 100], 0, 14)),
    "an even row": (
        FIVE_LINES,
        Load([3, 6, 9, 12, 15, 18, 24, 27, 30, 33, 36, 39], [20] * 12, 0, 42, 2.72),
    ),
    "a crowded end": (
        FIVE_LINES,
        Load([2.5, 4, 5.5, 7, 8.5, 16, 40], [24] * 5 + [35] * 2, 0, 42, 2.72),
    ),
}


@pytest.mark.parametrize("case", PRINTED)
def test_shares_are_those_of_the_printed_formulas(case):
    lines, load, expected = PRINTED[case]
    assert reactions(lines, load) == pytest.approx(expected, abs=1e-5)


@pytest.mark.parametrize("case", PRINTED | RUN)
def test_shares_are_those_of_a_frame_program(case):
    lines, load = (PRINTED | RUN)[case][:2]
    expected = frame_shares(lines, load, push=True)
    assert reactions(lines, load) == pytest.approx(expected, abs=1e-5 * load.total)


def a_pipe(rng):
    """Two to six lines, loads between and beyond them, the pipe's own weight or none."""
    length = rng.uniform(4, 14)
    lines = np.sort(rng.uniform(0.15, 0.85, rng.integers(2, 7)) * length)
    lines += 0.3 * np.arange(lines.size)
    at = rng.uniform(0, length + 2, rng.integers(1, 9))
    own = rng.choice([0.0, 4.05])
    return lines, Load(at, rng.uniform(3, 60, at.size), 0.0, length + 2, own)


def test_slack_lines_and_what_the_others_carry_are_those_of_a_frame_program_whose_lines_cannot_push():
    rng = np.random.default_rng(12)
    slack = overhung = 0
    for _ in range(60):
        lines, load = a_pipe(rng)
        while not lines[0] + 0.05 < load.centre < lines[-1] - 0.05:  # else it tips
            lines, load = a_pipe(rng)
        told = line_loads(lines, load)
        expected = frame_shares(lines, load, push=False)
        assert told.load == pytest.approx(expected, abs=1e-5 * load.total)
        assert told.slack.tolist() == (expected <= 1e-5 * load.total).tolist()
        slack += told.slack.any()
        overhung += np.max(load.at) > lines[-1] or np.min(load.at) < lines[0]
    assert min(slack, overhung) > 15
