"""Fields as lines of a picture."""

from __future__ import annotations

from math import radians, tan

import numpy as np
import pytest

from aimcalc.geometry.models import camera
from aimcalc.solid.model import light_edges, where_it_falls
from aimcalc.solid.side_view import chosen
from tests.solid.hanging import a_rig, a_unit

FROM_HOUSE = camera(heading=0.0, down=0.0)
ABOVE = camera(heading=0.0, down=np.radians(90.0))
PLUMB = [a_unit(point=(0.0, 0.0, 0.0))]


def test_a_cone_straight_down_is_seen_from_the_house_with_its_two_sides():
    rig = a_rig(PLUMB)
    lines = light_edges(rig, np.array([0]), FROM_HOUSE)
    lens, reach = rig.aims.lens[:, 0], rig.aims.lens[2, 0] * tan(radians(13))
    starts = lines[:, 0].T
    assert starts == pytest.approx(np.tile(lens, (2, 1)))
    assert sorted(lines[0, 1]) == pytest.approx([-reach, reach], rel=0.01)
    assert lines[2, 1] == pytest.approx([0, 0], abs=1e-5)


def test_a_cone_seen_along_its_axis_has_no_sides():
    assert light_edges(a_rig(PLUMB), np.array([0]), ABOVE).shape == (3, 2, 0)


def test_the_pieces_of_an_outline_join_up_round_a_closed_field():
    (lines,) = where_it_falls(a_rig(PLUMB), np.array([0]))
    assert lines[:, 1] == pytest.approx(np.roll(lines[:, 0], -1, axis=1))


def test_no_units_have_no_light():
    rig = a_rig(PLUMB)
    none = np.zeros(0, dtype=int)
    assert light_edges(rig, none, FROM_HOUSE).shape == (3, 2, 0)
    assert where_it_falls(rig, none) == []


def test_a_unit_whose_point_lies_within_itself_has_no_light_to_draw():
    """The point is 0.2 m level from the pivot, and the nose is 13 in (0.33 m) long."""
    inside = a_unit(2, 2.0, point=(2.0, 0.2, 6.0 - 14 * 0.0254))
    rig = a_rig([a_unit(point=(0.0, 4.0, 0.0)), inside])
    assert np.isnan(rig.aims.throw[rig.by_name["p/2"]])
    every = np.arange(2)
    assert light_edges(rig, every, FROM_HOUSE).shape == (3, 2, 2)
    assert chosen(rig).tolist() == [rig.by_name["p/1"]]
