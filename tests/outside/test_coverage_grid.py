"""Grids of measuring points, as EN 12464-1:2011 has them.

The standard was not seen. [guide] is a luminaire maker's public guide to it, its page "Number of calculation
points": the formula p = 0.2 x 5^(log10 d), at most 10 m, and a table of d, p and the fewest points along d,
whose spacings are rounded for use.
"""

from __future__ import annotations

import pytest

from aimcalc.light.grid import grid_over, in_step, largest_spacing


# The formula gives a round spacing at 1, 10 and 100 m, printed as such.
@pytest.mark.parametrize(("d", "spacing"), [(1, 0.2), (10, 1.0), (100, 5.0)])
def test_the_largest_spacing_where_it_is_round(d, spacing):
    assert largest_spacing(d) == pytest.approx(spacing, abs=1e-12)


# Between them the table is rounded to 0.1 or 1 m: 0.30, 0.60, 2.00 and 3.00 m.
@pytest.mark.parametrize(("d", "printed"), [(2, 0.30), (5, 0.60), (25, 2.00), (50, 3.00)])
def test_the_largest_spacing_rounds_to_the_table(d, printed):
    assert largest_spacing(d) == pytest.approx(printed, rel=0.085)


def test_the_spacing_is_capped_at_10_metres():
    assert largest_spacing(1000) == 10.0  # [guide]; the formula alone gives 25


# The counts of the table are the fewest allowed: ours may be more and never fewer.
@pytest.mark.parametrize(
    ("d", "fewest"),
    [(0.4, 3), (0.6, 3), (1, 5), (2, 6), (5, 8), (10, 10), (25, 12), (50, 17), (100, 20)],
)
def test_a_grid_never_has_fewer_points_than_the_table(d, fewest):
    made = grid_over([(0, 0), (d, 0), (d, d), (0, d)])
    assert made.x.size == made.y.size >= fewest


# [guide]: the spacing of the grid must not coincide with that of the units.
def test_a_grid_that_coincides_with_the_units_is_known_and_avoided():
    assert in_step(1.0, 1.0)
    made = grid_over([(0, 0), (10, 0), (10, 10), (0, 10)], avoid=[1.0])
    assert not in_step(made.dx, 1.0)
    assert made.spacing < 1.0
