"""Where a person's shadow falls."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.light.shadow import shadow_on_plane

UP, UPSTAGE = (0, 0, 1), (0, 1, 0)


def at(*xyz):
    return np.array(xyz, float).reshape(-1, 3).T


def on_deck(lens, head):
    return shadow_on_plane(lens, head, point=(0, 0, 0), normal=UP)


def on_drop(lens, head, y):
    return shadow_on_plane(lens, head, point=(0, y, 0), normal=UPSTAGE)


def test_at_45_degrees_the_shadow_is_as_long_as_the_person():
    # Lens 5 m DS of and 5 m over a head at 1.8 m: the shadow of the head is 1.8 m upstage of the feet.
    hit = on_deck(at(0, -5, 6.8), at(0, 0, 1.8))
    np.testing.assert_allclose(hit, at(0, 1.8, 0), atol=1e-12)


def test_down_30_throws_the_face_plus_root_three_times_its_height():
    # Similar triangles: height / tan(30) = 1.7 x sqrt(3).
    lens = at(-4 * np.cos(np.pi / 6), 0, 1.7 + 4 * np.sin(np.pi / 6))
    np.testing.assert_allclose(on_deck(lens, at(0, 0, 1.7)), at(1.7 * np.sqrt(3), 0, 0), atol=1e-12)


def test_on_a_drop_the_shadow_is_higher_the_flatter_the_light():
    lens = at([0, -6, 3.8], [0, -6, 7.8])
    head = at([0, 0, 1.8], [0, 0, 1.8])
    # A drop 1.5 m behind: down by 1.5 * 2 / 6 = 0.5 and 1.5 * 6 / 6 = 1.5 m.
    np.testing.assert_allclose(on_drop(lens, head, 1.5), at([0, 1.5, 1.3], [0, 1.5, 0.3]))


def test_the_shadow_is_on_the_far_side_whichever_way_the_light_comes():
    back = on_deck(at(3, 8, 6), at(1, 2, 1.5))
    # From (3, 8, 6) past (1, 2, 1.5): 4.5 m of height for (-2, -6), a third more to the deck.
    np.testing.assert_allclose(back, at(1 - 2 / 3, 0, 0), atol=1e-12)


@pytest.mark.parametrize(
    ("lens", "drop"),
    [((0, -5, 5), -1.0), ((0, 5, 5), 1.5), ((3, 0, 5), 1.0)],
    ids=["drop before the head", "light from the drop's side", "light along the drop"],
)
def test_there_is_no_shadow_on_a_drop_that_is_not_behind(lens, drop):
    assert np.isnan(on_drop(at(lens), at(0, 0, 1.8), drop)).all()


def test_there_is_no_shadow_on_the_deck_from_below_nor_from_level_light():
    assert np.isnan(on_deck(at(0, -5, 0.3), at(0, 0, 1.8))).all()
    assert np.isnan(on_deck(at(0, -5, 1.8), at(0, 0, 1.8))).all()


def test_any_plane_serves_and_each_head_may_have_its_own():
    lens, head = at([0, -4, 6], [2, -4, 6]), at([0, 0, 2], [2, 0, 2])
    # A rake of 1 in 10 from y = 0: z = y / 10. Down 45: 2 - t = t / 10, t = 2 / 1.1.
    hit = shadow_on_plane(lens, head, point=(0, 0, 0), normal=(0, -0.1, 1))
    t = 2 / 1.1
    np.testing.assert_allclose(hit, at([0, t, t / 10], [2, t, t / 10]))
    each = shadow_on_plane(lens, head, point=at([0, 0, 0], [2, 0, 1]), normal=UP)
    np.testing.assert_allclose(each, at([0, 2, 0], [2, 1, 1]))
