"""The deck: heights under points and landings of rays."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.geometry.deck import Deck, height, landing

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
