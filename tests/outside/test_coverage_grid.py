"""Grids and uniformity against EN 12464-1:2011 as public guides print it (the standard was not seen)."""

from __future__ import annotations

from math import ceil

import pytest

from aimcalc.light.grid import MOST_SPACING, grid_over, in_step, largest_spacing
from aimcalc.light.uniformity import uniformity


# COV-1 and COV-2: p = 0.2 * 5^(log10 d); a luminaire maker's public guide, "Number of calculation points".
@pytest.mark.parametrize(
    ("d", "spacing", "tolerance"),
    [
        (1, 0.2, 1e-12),
        (10, 1.0, 1e-12),
        (100, 5.0, 1e-12),
        (2, 0.32467, 1e-5),
        (5, 0.61601, 1e-5),
        (25, 1.89735, 1e-5),
        (50, 3.08006, 1e-5),
    ],
)
def test_largest_spacing(d, spacing, tolerance):
    assert largest_spacing(d) == pytest.approx(spacing, abs=tolerance)


# COV-4: p is 10 m at most; the formula alone passes that at d = 10^(log5 50) = 270 m.
def test_the_spacing_is_capped_at_10_metres():
    assert largest_spacing(1000) == MOST_SPACING == 10.0


# COV-5: the guide's table of the fewest points along d. Its own spacings are rounded, so its counts are the
# fewest allowed: ours may be more and never fewer.
@pytest.mark.parametrize(
    ("d", "fewest"),
    [(0.4, 3), (0.6, 3), (1, 5), (2, 6), (5, 8), (10, 10), (25, 12), (50, 17), (100, 20)],
)
def test_a_grid_never_has_fewer_points_than_the_table(d, fewest):
    made = grid_over([(0, 0), (d, 0), (d, d), (0, d)])
    assert made.x.size == made.y.size == ceil(d / largest_spacing(d) - 1e-9)
    assert made.x.size >= fewest


# COV-6: the grid's spacing must not coincide with that of the units.
def test_a_grid_that_coincides_with_the_units_is_known_and_avoided():
    assert in_step(1.0, 1.0)
    made = grid_over([(0, 0), (10, 0), (10, 10), (0, 10)], avoid=[1.0])
    assert not in_step(made.dx, 1.0)
    assert made.spacing < 1.0


# COV-8 and COV-9: U0 is least / average; 100, 120, 80, 100 lx by hand. Least / most would be 0.6667.
def test_uniformity_is_least_over_average():
    got = uniformity([100.0, 120, 80, 100])
    assert (got.mean, got.u0) == (100, 0.80)
    assert got.least / got.most == pytest.approx(0.6667, abs=5e-5)
