"""Points in plan polygons."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from aimcalc.rig.places import downstage_of, front, inside

# A deck with an apron: 12 m wide at y = 0, 8 m wide at y = -2, and a notch cut from its US edge.
DECK = ((-6, 0), (-4, -2), (4, -2), (6, 0), (6, 8), (1, 8), (1, 5), (-1, 5), (-1, 8), (-6, 8))


@pytest.mark.parametrize(
    ("x", "y", "expected"),
    [
        (0, 0, True),
        (0, 6, False),  # in the notch
        (2, 6, True),
        (5.5, -1, False),  # off the apron's corner
        (6.005, 4, True),  # within a centimetre of the edge
        (6.02, 4, False),
        (4, -2, True),  # a corner
        (20, 0, False),  # level with a corner
    ],
)
def test_points_by_hand(x: float, y: float, expected: bool) -> None:
    assert inside(DECK, np.array([float(x)]), np.array([float(y)]))[0] == expected


@pytest.mark.parametrize("turned", [DECK, DECK[::-1], DECK[3:] + DECK[:3]])
def test_the_way_round_and_the_first_corner_do_not_matter(
    turned: tuple[tuple[int, int], ...],
) -> None:
    x, y = np.random.default_rng(0).uniform((-8, -4), (8, 10), (2000, 2)).T
    assert (inside(turned, x, y) == inside(DECK, x, y)).all()


def test_the_share_of_random_points_inside_is_the_polygons_area() -> None:
    # Shoelace by parts: 12 x 8 + (12 + 8) / 2 x 2 - 2 x 3 = 110 m2 of a 16 x 14 m field.
    x, y = np.random.default_rng(1).uniform((-8, -4), (8, 10), (200_000, 2)).T
    share = inside(DECK, x, y).mean()
    assert share == pytest.approx(110 / (16 * 14), abs=0.004)  # 1 % of 0.49, over 3 sigma


def test_points_near_a_star_of_a_thousand_corners_are_inside_where_another_library_says_so() -> (
    None
):
    turn = np.linspace(0, 2 * np.pi, 1000, endpoint=False)
    reach = np.where(np.arange(1000) % 2, 3.0, 1.5)
    star = list(zip(reach * np.cos(turn), reach * np.sin(turn), strict=True))
    x, y = np.random.default_rng(3).uniform(-3.5, 3.5, (2, 3000))
    near = shapely.distance(shapely.Polygon(star), shapely.points(x, y)) <= 0.01
    assert (inside(star, x, y) == near).all()
    assert not inside(star, x + 90.0, y).any()
    assert not inside(star, x + np.nan, y).any()


def test_the_front_edge_follows_the_apron() -> None:
    x = np.array([-6.0, -5.0, 0.0, 5.0, 30.0])
    assert front(DECK, x) == pytest.approx([0.0, -1.0, -2.0, -1.0, 0.0])


def test_only_what_is_out_and_in_front_is_downstage() -> None:
    x, y = np.array([0.0, 0.0, 5.5, 0.0, 20.0]), np.array([-2.5, -1.0, -1.0, 6.0, 3.0])
    assert downstage_of(DECK, x, y).tolist() == [True, False, True, False, False]
    assert downstage_of((), x, y).tolist() == [True, True, True, False, False]
