"""What lenses see past the scenery, against the plain equation of a panel's plane."""

from __future__ import annotations

import sys

import numpy as np
import pytest

from aimcalc.coverage.sources import Seen, Sight, seen_from, sight_of
from aimcalc.coverage.systems import plane_of
from aimcalc.geometry.rays import NoRayEngineError
from aimcalc.scene.model import Solid
from tests.lit import LENS, a_rig, a_unit, lamps_of

# An upright panel half-way between the lens at x = 0 and points at x > 0: it hides what lies behind it.
PANEL = Solid(
    name="flat", panel=((1.0, -1.0, 0.0), (1.0, 1.0, 0.0), (1.0, 1.0, 4.0), (1.0, -1.0, 4.0))
)


def hidden(lens, points):
    """Whether each ray crosses x = 1 within the panel."""
    with np.errstate(divide="ignore"):
        share = (1.0 - lens[0]) / (points[0] - lens[0])
    share[np.isinf(share)] = -1.0
    y = lens[1] + share * (points[1] - lens[1])
    z = lens[2] + share * (points[2] - lens[2])
    return (share > 0) & (share < 1) & (np.abs(y) <= 1) & (z >= 0) & (z <= 4)


def test_a_panel_hides_exactly_what_lies_behind_it():
    rig = a_rig([a_unit(1, 0.0), a_unit(2, -2.0)], solids=[PANEL])
    points = plane_of(rig, 0.11).points
    lens = lamps_of(rig).lens
    seen = seen_from(sight_of(rig), lens, points)
    expected = np.array([hidden(one, points) for one in lens.T])
    assert 0 < expected.sum() < expected.size
    np.testing.assert_array_equal(seen.flags, ~expected)


def test_without_scenery_everything_is_seen_and_no_ray_is_cast():
    rig = a_rig([a_unit(1, 0.0)])
    assert sight_of(rig) == Sight(None)
    seen = seen_from(Sight(None), lamps_of(rig).lens, np.zeros((3, 4)))
    assert seen == Seen(None)
    assert seen.visible is None
    assert seen.of(np.array([0])) == seen
    lamps = lamps_of(rig)
    assert seen.mark(lamps) is lamps


def test_pipes_throw_no_shadow():
    # the second unit stands over the pipe: its own pipe is straight below its lens
    units = [a_unit(1, 0.0), a_unit(2, 2.0, mount="over")]
    far = Solid(name="far", box=(50.0, 50.0, 0.0, 51.0, 51.0, 1.0))
    rig = a_rig(units, solids=[far])
    seen = seen_from(sight_of(rig), lamps_of(rig).lens, plane_of(rig).points)
    assert seen.flags.all()


def test_only_units_that_something_hides_a_point_from_are_marked():
    rig = a_rig([a_unit(1, 0.0), a_unit(2, 3.9)], solids=[PANEL])
    lamps = lamps_of(rig)
    points = np.array([[3.0, 2.0], [0, 0], [1, 1]])
    marked = seen_from(sight_of(rig), lamps.lens, points).mark(lamps)
    by_x = dict(zip(lamps.lens[0].tolist(), marked.part_blocked.tolist(), strict=True))
    assert by_x == {0.0: True, 3.9: False}


def test_a_point_on_a_solid_is_seen_where_the_last_bit_of_the_way_does_not_count():
    rig = a_rig([a_unit(1, 0.0)], solids=[PANEL])
    behind = np.array([[1.01], [0.0], [2.0]])  # 3 cm behind it along the ray
    lens = lamps_of(rig).lens
    assert not seen_from(sight_of(rig), lens, behind).flags.any()
    assert seen_from(sight_of(rig), lens, behind, short=0.05).flags.all()


def test_many_rays_are_cast_in_lots_with_the_same_answer():
    rig = a_rig([a_unit(k, k / 10) for k in range(40)], solids=[PANEL])
    points = plane_of(rig, 0.05).points
    lens = lamps_of(rig).lens
    assert lens.shape[1] * points.shape[1] > 400_000
    seen = seen_from(sight_of(rig), lens, points)
    for k in (0, 21, 39):
        np.testing.assert_array_equal(
            seen.flags[k], seen_from(sight_of(rig), lens[:, [k]], points).flags[0]
        )


def test_without_the_ray_engine_it_says_so(monkeypatch):
    for name in ("embreex", "embreex.mesh_construction", "embreex.rtcore_scene"):
        monkeypatch.setitem(sys.modules, name, None)
    with pytest.raises(NoRayEngineError, match="embreex"):
        sight_of(a_rig([a_unit(1, 0.0)], solids=[PANEL]))


def test_the_lens_is_where_the_test_takes_it_to_be():
    assert lamps_of(a_rig([a_unit(1, 0.0)])).lens[2, 0] == LENS
