"""Lift lines, circuits and voltage drop against published and twice-worked values.

Lift lines: tolerance 1e-5. Where a case was worked twice, a frame model of PyNiteFEA 3.2.0 and a separate
three-moment solution agree to 1e-6. A second three-moment solution is in this file.
"""

import numpy as np
import pytest

from aimcalc.rig.hang.beams import Load, reactions
from aimcalc.rig.hang.loads import ALPHA, ARTICLE_SHARE, CONDUCTORS, Posted, used, voltage_drop

TOLERANCE = 1e-5
FEET_1000 = 304.8  # metres, exact


def uniform(length, weight, start=0.0):
    return Load([], [], start, start + length, weight)


FIVE_LINES = [1, 11, 21, 31, 41]  # on a 42 ft pipe of 2.72 lb/ft
CASES = {
    # Two equal spans, P at the middle of the first: 13/32, 11/16, -3/32 P. piping-designer.com,
    # beam articles 2400 and 2401, general formula at a = b.
    "BEAM-1": ([0, 10, 20], Load([5], [32]), [13, 22, -3]),
    # P at both middles: 5/16, 11/8, 5/16 P. M. R. Lindeburg, Civil Engineering Reference Manual, 15th ed.
    "BEAM-2": ([0, 10, 20], Load([5, 15], [16, 16]), [5, 22, 5]),
    # Equal spans of 10, uniform load; worked twice.
    "BEAM-3 two": ([0, 10, 20], uniform(20, 1.6), [6, 20, 6]),
    "BEAM-3 three": ([0, 10, 20, 30], uniform(30, 1), [4, 11, 11, 4]),
    "BEAM-3 four": (
        [0, 10, 20, 30, 40],
        uniform(40, 1),
        [3.928571, 11.428571, 9.285714, 11.428571, 3.928571],
    ),
    # P = 100 at 3 from the left; the same general formula as BEAM-1.
    "BEAM-6": ([0, 10, 20], Load([3], [100]), [63.175, 43.65, -6.825]),
    # Spans 8 and 12; piping-designer.com, beam article 2398 (its printed R3 has a for b in one term).
    "BEAM-7": ([0, 8, 20], uniform(20, 1), [2.25, 12.916667, 4.833333]),
    # Statics.
    "BEAM-8": ([2, 12], Load([0, 7], [50, 100], 0, 14), [110, 40]),
    # Worked twice.
    "BEAM-9": (
        FIVE_LINES,
        Load([3, 6, 9, 12, 15, 18, 24, 27, 30, 33, 36, 39], [20] * 12, 0, 42, 2.72),
        [36.226286, 107.318286, 67.150857, 107.318286, 36.226286],
    ),
    "BEAM-10": (
        FIVE_LINES,
        Load([2.5, 4, 5.5, 7, 8.5, 16, 40], [24] * 5 + [35] * 2, 0, 42, 2.72),
        [67.357982, 126.788107, 29.806571, 36.070607, 44.216732],
    ),
}


def three_moments(lines, load):
    """Reactions from Clapeyron's three-moment equation, overhangs included; lines in rising order.

    The second method: support moments from M[i-1] L + 2 M[i] (L + L') + M[i+1] L' = -6 A a / L - 6 A' b' / L'
    (sagging positive), then shears of each span by statics.
    """
    lines = np.asarray(lines, dtype=float)
    n, spans = lines.size, np.diff(lines)
    at, weight = np.asarray(load.at, dtype=float), np.asarray(load.weight, dtype=float)
    w = load.per_length
    reaction, moments = np.zeros(n), np.zeros(n)
    for side, edge in ((0, load.start), (-1, load.end)):
        out = abs(edge - lines[side]) if w else 0.0
        beyond = at < lines[0] if side == 0 else at > lines[-1]
        moments[side] = -(weight[beyond] @ np.abs(at[beyond] - lines[side])) - w * out**2 / 2
        reaction[side] += weight[beyond].sum() + w * out
    inside = [(at >= lines[k]) & (at < lines[k + 1]) for k in range(n - 1)]
    inside[-1] |= at == lines[-1]
    left = [  # 6 A b / L of each span: what the three-moment equation wants at its left support
        w * L**3 / 4
        + sum(
            p * (L - x) * (L**2 - (L - x) ** 2) / L
            for p, x in zip(weight[i], at[i] - s, strict=True)
        )
        for L, i, s in zip(spans, inside, lines[:-1], strict=True)
    ]
    right = [
        w * L**3 / 4
        + sum(p * x * (L**2 - x**2) / L for p, x in zip(weight[i], at[i] - s, strict=True))
        for L, i, s in zip(spans, inside, lines[:-1], strict=True)
    ]
    matrix, known = np.eye(n), moments.copy()
    for k in range(1, n - 1):
        matrix[k, k - 1 : k + 2] = spans[k - 1], 2 * (spans[k - 1] + spans[k]), spans[k]
        known[k] = -right[k - 1] - left[k]
    moments = np.linalg.solve(matrix, known)
    for k, (L, i, s) in enumerate(zip(spans, inside, lines[:-1], strict=True)):
        lean = (moments[k + 1] - moments[k]) / L
        reaction[k] += w * L / 2 + weight[i] @ (1 - (at[i] - s) / L) + lean
        reaction[k + 1] += w * L / 2 + weight[i] @ ((at[i] - s) / L) - lean
    return reaction


@pytest.mark.parametrize("case", CASES)
def test_lift_line_shares_are_the_published_ones(case):
    lines, load, expected = CASES[case]
    assert reactions(lines, load) == pytest.approx(expected, abs=TOLERANCE)


@pytest.mark.parametrize("case", CASES)
def test_the_three_moment_equation_gives_the_same_shares(case):
    lines, load, expected = CASES[case]
    assert three_moments(lines, load) == pytest.approx(expected, abs=TOLERANCE)
    assert reactions(lines, load) == pytest.approx(
        three_moments(lines, load), abs=1e-9 * load.total
    )


def test_the_sum_is_the_whole_weight():
    # BEAM-9 and BEAM-10: sums 354.24 and 304.24.
    for case, whole in (("BEAM-9", 354.24), ("BEAM-10", 304.24)):
        lines, load, _ = CASES[case]
        assert reactions(lines, load).sum() == pytest.approx(whole)
        assert load.total == pytest.approx(whole)


def test_conductors_are_those_of_the_tables():
    # ELE-1: NFPA 70 ch. 9 Table 8, copper at 75 C, uncoated, stranded, ohm per 1000 ft.
    for name, ohms in (("14 AWG", 3.14), ("12 AWG", 1.98), ("10 AWG", 1.24)):
        assert CONDUCTORS[name] * FEET_1000 == pytest.approx(ohms, rel=1e-12)
    # ELE-5: IEC 60228:2004, flexible class 5, plain copper at 20 C, ohm per km; warmed to 75 C with 0.393 % a
    # degree: 1.21615 times.
    for name, ohms in (("1.5 mm2", 13.3), ("2.5 mm2", 7.98), ("4 mm2", 4.95), ("6 mm2", 3.30)):
        assert CONDUCTORS[name] * 1000 == pytest.approx(ohms * 1.21615, rel=1e-12)


@pytest.mark.parametrize(
    ("mils", "ohms"), [(4110, 3.07), (6530, 1.93), (10380, 1.21)], ids=["14", "12", "10"]
)
def test_the_temperature_coefficient_gives_the_printed_resistance_at_75(
    mils: int, ohms: float
) -> None:
    # ELE-1: ohm per 1000 ft of solid copper at 75 C and its circular mils, as printed. From the other end:
    # copper of 1.7241e-8 ohm m at 20 C (the international standard of annealed copper, from memory).
    area = mils * np.pi / 4 * (0.0254e-3) ** 2
    at_75 = 1.7241e-8 / area * (1 + ALPHA * 55)
    assert at_75 * FEET_1000 == pytest.approx(ohms, rel=0.005)  # three printed digits
    # Without it the same sum misses the table by far more than its last digit.
    assert abs(1.7241e-8 / area * FEET_1000 - ohms) > 0.1


def test_voltage_drop_out_and_back():
    # ELE-7: 12 AWG, 100 ft, 16 A, 120 V.
    lost = voltage_drop(FEET_1000 / 10, CONDUCTORS["12 AWG"], 16)
    assert lost == pytest.approx(6.336, abs=1e-9)
    assert 100 * lost / 120 == pytest.approx(5.28, abs=1e-9)
    # ELE-8: 2.5 mm2 at 20 C (7.98 ohm/km), 30 m, 10 A, 230 V.
    lost = voltage_drop(30, 7.98e-3, 10)
    assert lost == pytest.approx(4.788, abs=1e-4)
    assert 100 * lost / 230 == pytest.approx(2.0817, abs=1e-4)


def test_the_continuous_load_rule():
    # ELE-10: NFPA 70 210.19(A)(1), 210.20(A). ELE-11, arithmetic: 16 A and 1920 W on 20 A at 120 V, 2400 W
    # otherwise.
    assert used(1920, Posted(20, "A"), 120) == pytest.approx(ARTICLE_SHARE, abs=1e-12)
    assert used(2400, Posted(20, "A"), 120) == pytest.approx(1.0, abs=1e-12)
