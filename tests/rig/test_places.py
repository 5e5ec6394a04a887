"""Zero marks, directions and words of positions."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.rig.places import DS, SL, SR, US, nearest_word, pipe_ends, place
from aimcalc.scene.model import Boom, Pipe, Stand
from tests.rigs import a_pipe


def pipe(start, end, zero="middle"):
    return Pipe(name="p", start=start, end=end, zero=zero)


@pytest.mark.parametrize(
    ("start", "end", "along", "square", "square_word", "plus_word"),
    [
        ((-5, 2, 6), (5, 2, 6), (1, 0, 0), (0, 1, 0), US, SL),
        ((5, 2, 6), (-5, 2, 6), (1, 0, 0), (0, 1, 0), US, SL),  # written from the SL end
        ((4, -3, 6), (4, 3, 6), (0, 1, 0), (1, 0, 0), SL, US),
        ((0, 0, 6), (3, 3, 6), (0.5**0.5, 0.5**0.5, 0), (-(0.5**0.5), 0.5**0.5, 0), US, SL),
        ((0, 0, 4), (4, 0, 7), (0.8, 0, 0.6), (0, 1, 0), US, SL),
    ],
)
def test_a_pipe_counts_to_stage_left_or_upstage_and_is_square_to_itself(
    start, end, along, square, square_word, plus_word
):
    here = place(pipe(start, end))
    assert here.along == pytest.approx(along)
    assert here.square == pytest.approx(square)
    assert (here.square_word, here.plus_word) == (square_word, plus_word)
    assert np.dot(here.square, here.along) == pytest.approx(0)


@pytest.mark.parametrize(
    ("zero", "point", "ends"),
    [
        ("start", (-2, 1, 6), (0, 8)),
        ("end", (6, 1, 6), (-8, 0)),
        ("middle", (2, 1, 6), (-4, 4)),
        ("centre line", (0, 1, 6), (-2, 6)),
    ],
)
def test_the_zero_mark_is_where_the_scene_puts_it(zero, point, ends):
    uneven = pipe((-2, 1, 6), (6, 1, 6), zero)
    assert place(uneven).zero == pytest.approx(point)
    assert pipe_ends(uneven) == pytest.approx(ends)


def test_the_centre_line_crosses_a_sloping_pipe_on_the_pipe_itself():
    sloping = pipe((-3, 1, 4), (1, 1, 8), "centre line")
    assert place(sloping).zero == pytest.approx((0, 1, 7))


@pytest.mark.parametrize(
    ("x", "given", "word", "direction"),
    [
        (-6, None, SL, (1, 0, 0)),
        (6, None, SR, (-1, 0, 0)),
        (6, "US", US, (0, 1, 0)),
        (6, "DS", DS, (0, -1, 0)),
    ],
)
def test_a_boom_is_square_towards_the_centre_line_unless_it_says(x, given, word, direction):
    here = place(Boom(name="b", x=x, y=2, height=4, square=given))
    assert here.square_word == word
    assert here.square == direction
    assert here.plus_word == (US if word in (SL, SR) else SL)


def test_a_stand_is_square_towards_the_centre_line():
    assert place(Stand(name="s", x=2, y=2)).square_word == SR


@pytest.mark.parametrize(
    ("direction", "word"), [((1, 1, 0), SL), ((-1, -1, 0), SR), ((0.1, -2, 0), DS), ((0, 1, 9), US)]
)
def test_the_nearest_word_and_its_ties(direction, word):
    assert nearest_word(direction) == word


def test_ends_of_a_level_pipe_are_its_places():
    assert pipe_ends(a_pipe()) == (-10, 10)
