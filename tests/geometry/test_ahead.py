"""The nearest thing in front of a lens."""

from __future__ import annotations

from math import cos, hypot, radians

import numpy as np
import pytest

from aimcalc.geometry.clearance import nearest_ahead
from aimcalc.geometry.hulls import rods, triangles
from aimcalc.geometry.solids import box, panel, soup

DRAPE = panel([(-9, 1.2, 0), (9, 1.2, 0), (9, 1.2, 9), (-9, 1.2, 9)])
UPSTAGE = (0, 1, 0)


def ahead(shapes, lens=(0, 0, 4), axis=UPSTAGE, *, field=26.0, within=3.0):
    """Distance and owner for lenses (one or N rows) that all have the same field and limit."""
    lens = np.array(lens, dtype=float).reshape(-1, 3).T
    axis = np.tile(np.array(axis, dtype=float)[:, None], lens.shape[1])
    count = lens.shape[1]
    others = triangles(soup(shapes)) if isinstance(shapes, list) else shapes
    half, reach = np.full(count, radians(field / 2)), np.full(count, within)
    return nearest_ahead(lens=lens, axis=axis, half=half, within=reach, others=others)


def test_a_drape_square_to_the_axis_is_as_far_as_the_axis_says():
    distance, owner = ahead([DRAPE])
    assert distance == pytest.approx([1.2], rel=1e-3)
    assert owner.tolist() == [0]


@pytest.mark.parametrize("field", [10.0, 50.0, 100.0])
def test_a_drape_beside_the_beam_is_nearest_at_the_edge_of_the_field(field):
    # Light runs along a leg 0.3 m to its side: first met where the edge of the cone gets there.
    leg = panel([(0.3, 0, 0), (0.3, 9, 0), (0.3, 9, 9), (0.3, 0, 9)])
    distance, _ = ahead([leg], field=field, within=4.0)
    assert distance == pytest.approx([0.3 / cos(radians(90 - field / 2))], rel=0.01)


def test_a_thing_between_two_rays_is_not_missed():
    wire = rods(
        np.array([[0.123], [0.9], [3.0]]),
        np.array([[0.123], [0.9], [5.0]]),
        radius=0.002,
        owner=np.array([7]),
    )
    distance, owner = ahead(wire)
    assert distance == pytest.approx([hypot(0.123, 0.9) - 0.002], rel=1e-3)
    assert owner.tolist() == [7]


def test_the_nearest_of_several_is_told():
    near = box((-0.1, 0.7, 3.9), (0.1, 0.8, 4.1))
    distance, owner = ahead([DRAPE, near])
    assert distance == pytest.approx([0.7], rel=1e-3)
    assert owner.tolist() == [1]


def test_what_is_farther_than_asked_beside_the_field_or_behind_is_not_told():
    beside = box((1.0, 0.5, 3.9), (1.1, 0.6, 4.1))
    distance, owner = ahead([DRAPE, beside], [(0, 0, 4), (0, 2, 4)], within=1.0)
    assert np.isinf(distance).all()
    assert owner.tolist() == [-1, -1]


def test_each_unit_has_its_own_limit_and_field():
    lens = np.array([[0.0, 0.0], [0.0, 0.0], [4.0, 4.0]])
    axis = np.array([[0.0, 0.0], [1.0, 1.0], [0.0, 0.0]])
    distance, _ = nearest_ahead(
        lens=lens,
        axis=axis,
        half=np.radians([13.0, 13.0]),
        within=np.array([1.0, 1.5]),
        others=triangles(soup([DRAPE])),
    )
    assert distance == pytest.approx([np.inf, 1.2], rel=1e-3)


def test_a_unit_that_is_not_solved_has_nothing_ahead_and_spoils_no_other():
    distance, owner = ahead([DRAPE], [(np.nan, 0, 4), (0, 0, 4)])
    assert np.isinf(distance[0])
    assert owner.tolist() == [-1, 0]


def test_without_units_or_without_solids_there_is_nothing_to_tell():
    distance, owner = ahead([DRAPE], np.zeros((0, 3)))
    assert distance.size == owner.size == 0
    assert ahead([])[1].tolist() == [-1]
