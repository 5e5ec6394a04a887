"""What stands in the light: what counts, what does not, who is named and how high."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.geometry import blocked as module
from aimcalc.geometry.blocked import blocked
from aimcalc.geometry.rays import caster, run_rows
from aimcalc.geometry.solids import box, panel, soup, tube
from tests.lenses import lenses

LENS, FACE = (0.0, -6.0, 6.0), (0.0, 0.0, 1.65)  # down 36, throw 7.4 m


def upright(y, low, high, *, half=20.0):
    """A panel across the stage."""
    return panel([(-half, y, low), (half, y, low), (half, y, high), (-half, y, high)])


def lost(*shapes, lens=LENS, face=FACE, **extra):
    """Share lost by one unit to some solids."""
    return blocked(caster(soup(list(shapes))), lenses(lens, face, **extra))


def test_an_open_stage_takes_nothing():
    told = lost()
    assert told.share.tolist() == [0.0]
    assert told.unit.size == 0


def test_a_wall_between_lens_and_face_takes_all_the_light():
    told = lost(upright(-3, 0, 20))
    assert told.share.tolist() == [1.0]
    assert told.part.tolist() == [1.0]


@pytest.mark.parametrize("y", [1.05, 2.0, 30.0])
def test_a_wall_behind_the_face_takes_nothing(y):
    # Down 36, throw 7.4 m: square to the axis the field reaches 7.4 tan 13 sin 36 = 1.00 m behind the
    # face at its upper edge; on the level plane it would reach 4.3 m behind.
    assert lost(upright(y, 0, 20)).share.tolist() == [0.0]


def test_a_floor_under_the_face_takes_nothing():
    floor = panel([(-50, -50, 1.5), (50, -50, 1.5), (50, 50, 1.5), (-50, 50, 1.5)])
    assert lost(floor).share.tolist() == [0.0]


def test_a_level_unit_loses_only_what_stands_before_its_face():
    lens, face = (0, -6, 1.65), (0, 0, 1.65)
    assert lost(upright(0.2, 0, 20), lens=lens, face=face).share.tolist() == [0.0]
    assert lost(upright(-0.3, 0, 20), lens=lens, face=face).share.tolist() == [1.0]


def test_a_floor_unit_pointing_up_loses_what_stands_before_its_face():
    lens, face = (0, -4, 0.2), (0, 0, 1.65)
    assert lost(upright(-0.5, 0, 20), lens=lens, face=face).share.tolist() == [1.0]
    assert lost(upright(0.8, 0, 20), lens=lens, face=face).share.tolist() == [0.0]


def test_the_drop_that_is_itself_lit_takes_nothing_and_what_hangs_before_it_does():
    face = (0.0, 0.0, 3.0)
    drop, border = upright(0, 0, 8), upright(-0.5, 3.2, 8)
    assert lost(drop, face=face).share.tolist() == [0.0]
    told = lost(drop, border, face=face)
    assert told.owner.tolist() == [1]
    assert 0.1 < told.share[0] < 0.9


def test_a_unit_does_not_stand_in_its_own_light_but_in_a_neighbours():
    own = box((-0.2, -6.2, 5.6), (0.2, -5.8, 6.2))  # round the lens itself
    assert lost(own, own=0).share.tolist() == [0.0]
    assert lost(own, own=1).share.tolist() == [1.0]


def test_what_stands_behind_its_own_solid_counts():
    own, wall = box((-0.2, -6.2, 5.6), (0.2, -5.8, 6.2)), upright(-3, 0, 20)
    told = lost(own, wall, own=0)
    assert told.share.tolist() == [1.0]
    assert told.owner.tolist() == [1]


def test_a_pipe_in_the_light_counts():
    pipe = tube((-5, -4, 4.5), (5, -4, 4.5), radius=0.024)
    assert 0.01 < lost(pipe).share[0] < 0.2


def test_each_solid_is_named_with_its_share_and_height_the_largest_first():
    border, leg = upright(-3, 3.9, 20), panel([(0.3, -2, 0), (9, -2, 0), (9, -2, 9), (0.3, -2, 9)])
    told = lost(leg, border, rays=4000)
    assert told.unit.tolist() == [0, 0]
    assert told.owner.tolist() == [1, 0]
    assert told.part.sum() == pytest.approx(told.share[0])
    assert told.part[0] > told.part[1]
    # The border is met from its bottom edge upward; nearly the lowest ray met lies along it.
    assert told.lowest[0] == pytest.approx(3.9, abs=0.02)
    assert told.height[0] > told.lowest[0]


def test_each_unit_has_its_own_rows():
    wall = panel([(-20, -3, 0), (0, -3, 0), (0, -3, 20), (-20, -3, 20)])
    lens = [(4, -6, 6), (-4, -6, 6), (0, -6, 6)]
    face = [(4, 0, 1.65), (-4, 0, 1.65), (0, 0, 1.65)]
    told = blocked(caster(soup([wall])), lenses(lens, face))
    assert told.share == pytest.approx([0, 1, 0.5], abs=0.01)
    assert told.unit.tolist() == [1, 2]


def test_the_answer_does_not_depend_on_how_many_rays_are_cast_at_once(monkeypatch):
    wall = tube((-5, -4, 4.5), (5, -4, 4.7), radius=0.2)
    lens = np.random.default_rng(0).uniform((-3, -7, 5), (3, -5, 7), (9, 3))
    units = lenses(lens, np.zeros((9, 3)) + FACE)
    whole = blocked(caster(soup([wall])), units)
    monkeypatch.setattr(module, "RAYS_AT_ONCE", 1300)
    parts = blocked(caster(soup([wall])), units)
    for one, other in zip(whole, parts, strict=True):
        assert one.tolist() == other.tolist()


def test_a_unit_that_is_not_solved_has_no_share_and_spoils_no_other():
    lens = [LENS, (np.nan, 0, 0), LENS]
    told = blocked(caster(soup([upright(-3, 0, 20)])), lenses(lens, [FACE] * 3))
    assert told.share[[0, 2]].tolist() == [1.0, 1.0]
    assert np.isnan(told.share[1])


def test_a_face_behind_the_lens_has_no_share():
    units = lenses(LENS, FACE)
    told = blocked(caster(soup([])), units._replace(axis=-units.axis))
    assert np.isnan(told.share).all()


def test_no_units_make_no_rows():
    told = blocked(caster(soup([upright(-3, 0, 20)])), lenses([], []))
    assert told.share.size == told.unit.size == 0


def test_light_from_a_whole_lens_passes_a_thing_smaller_than_the_lens():
    button = box((-0.02, -5.42, 5.57), (0.02, -5.41, 5.61))  # 4 cm, on the axis 0.7 m from the lens
    point, whole = lost(button).share[0], lost(button, radius=0.075).share[0]
    assert 0 < whole < point < 0.2


def test_the_occlusion_query_on_the_same_rays_says_the_same():
    pipe = tube((-5, -4, 4.5), (5, -4, 4.5), radius=0.024)
    ready, units = caster(soup([pipe])), lenses(LENS, FACE, radius=0.08)
    rays = module.field_rays(units, np.arange(1), ready.centre)
    stands = run_rows(ready, *rays, "OCCLUDED") >= 0
    assert blocked(ready, units).share[0] == stands.mean()
