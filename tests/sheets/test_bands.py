"""Dimensions beside a drawing."""

import numpy as np
import pytest

from aimcalc.paper.drawing import Drawing, text_width
from aimcalc.paper.planpage import View
from aimcalc.sheets.plans.sectiondraw import Place, distances, heights, spread

VIEW = View((20.0, 50.0, 220.0, 150.0), 50.0, (-5.0, -1.0))  # 10 m by 5 m at 1:50


def test_marks_far_enough_apart_stay_where_they_are():
    assert spread([10.0, 20.0, 40.0], 5.0, 0.0, 100.0).tolist() == [10.0, 20.0, 40.0]


def test_crowded_marks_are_set_side_by_side_about_their_middle():
    assert spread([50.0, 50.0, 50.0], 4.0, 0.0, 100.0) == pytest.approx([46, 50, 54])
    assert spread([10.0, 50.0, 51.0], 4.0, 0.0, 100.0) == pytest.approx([10, 48.5, 52.5])


@pytest.mark.parametrize("seed", range(20))
def test_words_keep_order_and_distance_and_stay_inside(seed):
    rng = np.random.default_rng(seed)
    marks = sorted(rng.uniform(0, 60, rng.integers(1, 12)).tolist())
    placed = spread(marks, 4.0, 0.0, 60.0)
    assert (np.diff(placed) >= 4.0 - 1e-9).all()
    assert placed.min() >= -1e-9
    assert placed.max() <= 60 + 1e-9
    # No other placing is nearer, all in all: the least squares solution under the same rules, by scipy.
    from scipy.optimize import minimize

    best = minimize(
        lambda x: ((x - marks) ** 2).sum(),
        placed,
        constraints=[
            {"type": "ineq", "fun": lambda x: np.diff(x) - 4.0},
            {"type": "ineq", "fun": lambda x: x},
            {"type": "ineq", "fun": lambda x: 60 - x},
        ],
    ).x
    assert ((placed - marks) ** 2).sum() <= ((best - marks) ** 2).sum() + 1e-3


def test_more_marks_than_there_is_room_for_are_set_closer():
    placed = spread([5.0] * 20, 4.0, 0.0, 38.0)
    assert np.diff(placed) == pytest.approx(2.0)
    assert (placed[0], placed[-1]) == pytest.approx((0.0, 38.0))
    assert spread([], 4.0, 0.0, 10.0).size == 0


def test_a_height_is_told_beside_the_frame_at_its_place():
    page = Drawing(300.0, 200.0)
    heights(page, VIEW, [Place(2.0, "trim 2.00 m")], 60.0)
    (words,) = page.words
    # 2 m over the deck, which is 1 m over the frame's foot: 50 + 3000 / 50 = 110 mm.
    assert words.y == pytest.approx(110.0, abs=2.0)
    assert words.x > 220.0
    assert page.lines[0].points[0].tolist() == pytest.approx([220.0, 110.0])


def test_a_distance_is_told_on_end_under_the_frame_at_its_place():
    page = Drawing(300.0, 200.0)
    distances(page, VIEW, [Place(1.0, "1.00 m US")], 44.0, 30.0)
    (words,) = page.words
    # 1 m past zero, which is 5 m from the frame's left: 20 + 6000 / 50 = 140 mm.
    assert page.lines[0].points[0].tolist() == pytest.approx([140.0, 44.0])
    assert words.turn == 90.0
    assert words.start[1] == pytest.approx(words.y - text_width(words.text, words.size))
    assert words.start[1] > 44.0 - 30.0


def test_places_outside_the_frame_are_left_out_and_long_words_are_made_to_fit():
    page = Drawing(300.0, 200.0)
    heights(page, VIEW, [Place(-3.0, "under"), Place(9.0, "over"), Place(1.0, "x" * 80)], 60.0)
    (words,) = page.words
    assert text_width(words.text, words.size) <= 55.0 + 1e-6
    distances(page, VIEW, [Place(-9.0, "before"), Place(9.0, "past")], 44.0, 30.0)
    assert len(page.words) == 1
