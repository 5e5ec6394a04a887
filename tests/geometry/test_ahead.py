"""The nearest thing in front of a lens."""

from __future__ import annotations

from math import cos, radians

import numpy as np
import pytest

from aimcalc.geometry.ahead import nearest_ahead
from aimcalc.geometry.occlusion import caster
from aimcalc.geometry.solids import panel, soup
from tests.lenses import lenses

DRAPE = panel([(-9, 1.2, 0), (9, 1.2, 0), (9, 1.2, 9), (-9, 1.2, 9)])


def test_a_drape_square_to_the_axis_is_as_far_as_the_axis_says():
    distance, owner = nearest_ahead(caster(soup([DRAPE])), lenses((0, 0, 4), (0, 5, 4)), within=3.0)
    assert distance == pytest.approx([1.2], rel=1e-3)
    assert owner.tolist() == [0]


def test_a_drape_beside_the_beam_is_nearest_at_the_edge_of_the_field():
    # Light runs along a leg 0.5 m to its side, field 50: first met where the edge of the cone gets there.
    leg = panel([(0.5, 0, 0), (0.5, 9, 0), (0.5, 9, 9), (0.5, 0, 9)])
    distance, _ = nearest_ahead(
        caster(soup([leg])), lenses((0, 0, 4), (0, 5, 4), field=50, beam=30, rays=4000), within=3.0
    )
    assert distance == pytest.approx([0.5 / cos(radians(65))], rel=0.02)


def test_what_is_farther_than_asked_or_behind_is_not_told():
    units = lenses([(0, 0, 4), (0, 2, 4)], [(0, 5, 4), (0, 5, 4)])
    distance, owner = nearest_ahead(caster(soup([DRAPE])), units, within=1.0)
    assert np.isinf(distance).all()
    assert owner.tolist() == [-1, -1]


def test_a_unit_that_is_not_solved_has_nothing_ahead_and_spoils_no_other():
    units = lenses([(np.nan, 0, 0), (0, 0, 4)], [(0, 5, 4), (0, 5, 4)])
    distance, owner = nearest_ahead(caster(soup([DRAPE])), units, within=3.0)
    assert np.isinf(distance[0])
    assert owner.tolist() == [-1, 0]


def test_without_units_there_is_nothing_to_tell():
    distance, owner = nearest_ahead(caster(soup([DRAPE])), lenses([], []), within=3.0)
    assert distance.size == owner.size == 0
