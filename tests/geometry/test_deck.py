"""The deck: heights under points and landings of rays."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.geometry.deck import Deck, height, heights_near, landing

BOX = np.array([[-2.0, 4.0, 0.0, 2.0, 6.0, 1.2]]).T
# A ramp from z = 0 at x = 4 to z = 1 at x = 6, as two triangles: (corner, xyz, triangle).
RAMP = np.array(
    [[(4, 0, 0), (6, 0, 1), (6, 2, 1)], [(4, 0, 0), (6, 2, 1), (4, 2, 0)]], dtype=float
).transpose(1, 2, 0)


def down_from(x, y, z, direction=(0, 0, -1)):
    """One ray as (3, 1) arrays."""
    f = np.array(direction, float)
    return np.array([[x], [y], [z]], float), (f / np.linalg.norm(f))[:, None]


def test_the_deck_is_level_downstage_of_the_rake_and_climbs_upstage_of_it():
    deck = Deck(rake=1 / 12, rake_from=2.0)
    y = np.array([-5.0, 2.0, 14.0])
    assert height(deck, np.zeros(3), y) == pytest.approx([0, 0, 1.0])


def test_a_platform_is_as_high_as_its_top_and_no_wider_than_its_box():
    deck = Deck(boxes=BOX)
    x, y = np.array([0.0, 2.0, 2.1, 0.0]), np.array([5.0, 6.0, 5.0, 3.9])
    assert height(deck, x, y) == pytest.approx([1.2, 1.2, 0, 0])


def test_a_ramp_is_as_high_as_its_slope():
    deck = Deck(triangles=RAMP)
    x, y = np.array([4.5, 6.0, 5.0, 7.0]), np.array([0.2, 2.0, 1.0, 1.0])
    assert height(deck, x, y) == pytest.approx([0.25, 1.0, 0.5, 0.0])


def test_heights_nearby_are_those_of_platforms_and_slopes_within_reach():
    deck = Deck(rake=0.1, rake_from=0.0, boxes=BOX)
    x, y = np.array([0.0, 3.0, 3.5]), np.array([5.0, 5.0, 2.0])
    least, most = heights_near(deck, x, y, 1.0)
    # on the platform and 1 m from its edge: nothing but its top, 1.2, while the rake there is 0.4 to 0.6
    assert (least[0], most[0]) == pytest.approx((1.2, 1.2))
    assert (least[1], most[1]) == pytest.approx((0.4, 1.2))  # the platform is just in reach
    assert (least[2], most[2]) == pytest.approx((0.1, 0.3))
    # 45 degrees off its corner (2, 4): 1.1 m on either side is 1.56 m away
    _, most = heights_near(Deck(boxes=BOX), np.array([3.1]), np.array([2.9]), 1.5)
    assert most == pytest.approx([0.0])
    _, most = heights_near(Deck(triangles=RAMP), np.zeros(1), np.zeros(1), 0.1)
    assert most == pytest.approx([1.0])


@pytest.mark.parametrize("reach", [0.3, 1.0])
def test_no_height_within_reach_is_outside_what_is_told(reach):
    rng = np.random.default_rng(1)
    low = rng.uniform((-3, 0, 0), (3, 6, 0.2), (5, 3))
    size = rng.uniform((0.5, 0.5, 0.1), (3, 3, 1.0), (5, 3))
    deck = Deck(rake=1 / 15, rake_from=1.0, boxes=np.hstack((low, low + size)).T)
    x, y = rng.uniform((-4, -1), (4, 8), (400, 2)).T
    least, most = heights_near(deck, x, y, reach)
    for turn in rng.uniform(0, 2 * np.pi, 30):
        there = height(deck, x + reach * np.cos(turn), y + reach * np.sin(turn))
        assert (least <= there + 1e-12).all()
        assert (there <= most + 1e-12).all()


@pytest.mark.parametrize(
    ("direction", "lands"),
    [
        ((0, 0, -1), (1.0, 1.0, 0.0)),
        ((0, 1, -1), (1.0, 4.0, 0.0)),  # 3 m down, 3 m up the stage: the plain deck
        ((0, 1, 1), None),
        ((1, 0, 0), None),
    ],
)
def test_rays_land_on_a_level_deck_or_never(direction, lands):
    start, ray = down_from(1, 1, 3, direction)
    reach = landing(Deck(), start, ray)[0]
    if lands is None:
        assert np.isnan(reach)
    else:
        assert start[:, 0] + reach * ray[:, 0] == pytest.approx(lands)


def test_a_level_ray_upstage_meets_the_rake():
    start, ray = down_from(0, 0, 1, (0, 1, 0))
    assert landing(Deck(rake=0.1, rake_from=2.0), start, ray) == pytest.approx([12.0])


def test_a_ray_lands_on_the_nearer_of_deck_and_rake():
    """From 2 m up at y = 0: 45 down lands at y = 2, before the rake begins at y = 3."""
    start, ray = down_from(0, 0, 2, (0, 1, -1))
    assert landing(Deck(rake=0.5, rake_from=3.0), start, ray) == pytest.approx([2 * np.sqrt(2)])
    # From 4 m up it meets z = 0.5 (y - 3) where 4 - y = 0.5 y - 1.5: y = 11/3.
    start, ray = down_from(0, 0, 4, (0, 1, -1))
    assert landing(Deck(rake=0.5, rake_from=3.0), start, ray) == pytest.approx(
        [11 / 3 * np.sqrt(2)]
    )


def test_rays_land_on_a_platform_s_top_and_on_its_side():
    deck = Deck(boxes=BOX)
    start, ray = down_from(0, 5, 3)
    assert landing(deck, start, ray) == pytest.approx([1.8])
    start, ray = down_from(0, 0, 1.0, (0, 1, -0.05))
    assert landing(deck, start, ray) == pytest.approx([4.0 * np.hypot(1, 0.05)])


def test_a_ray_that_starts_on_a_platform_lands_there():
    start, ray = down_from(0, 5, 1.2, (0, 0.3, -1))
    assert landing(Deck(boxes=BOX), start, ray) == pytest.approx([0], abs=1e-9)


def test_a_ray_that_leaves_a_platform_goes_on_to_the_deck():
    start, ray = down_from(0, 5.5, 2.2, (0, 1, -1))  # passes y = 6 at z = 1.7, over the edge
    assert landing(Deck(boxes=BOX), start, ray) == pytest.approx([2.2 * np.sqrt(2)])


def test_a_ray_lands_on_a_ramp():
    start, ray = down_from(5, 1, 3)
    assert landing(Deck(triangles=RAMP), start, ray) == pytest.approx([2.5])


@pytest.mark.parametrize("z", [0.0, 1e-17, -1e-17])
def test_a_ray_that_starts_on_the_deck_lands_at_its_start_unless_it_rises(z):
    start, ray = down_from(0, 0, z, (0, 1, -1))
    assert landing(Deck(), start, ray) == pytest.approx([0.0], abs=1e-12)
    start, ray = down_from(0, 0, z, (0, 1, 1))
    assert np.isnan(landing(Deck(), start, ray))


def test_a_ray_from_beneath_the_deck_has_no_landing():
    start, ray = down_from(0, 0, -0.5, (0, 1, -1))
    assert np.isnan(landing(Deck(), start, ray))


def test_no_rays_give_no_landings():
    assert landing(Deck(), np.zeros((3, 0)), np.zeros((3, 0))).shape == (0,)
