"""Zero marks, directions and words of positions."""

from __future__ import annotations

import msgspec
import numpy as np
import pytest
from shapely import LineString

from aimcalc.rig.places import (
    DS,
    SL,
    SR,
    US,
    WORDS,
    across,
    nearest_word,
    pipe_ends,
    place,
    tubes_of,
)
from aimcalc.scene.model import Boom, Chord, Pipe, Stand
from tests.rigs import a_pipe, circle_of, random_arc


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


# --- curved pipes and trusses ---------------------------------------------------------------------


def _along_by_walking(pipe, far):
    """The point so far along an arc from its start, by walking 100,000 straight pieces of its circle."""
    centre = circle_of(pipe)
    turns = [
        np.arctan2(*(np.array(p[:2]) - centre)[::-1]) for p in (pipe.start, pipe.through, pipe.end)
    ]
    way = np.array(turns)
    up = (way[1] - way[0]) % (2 * np.pi) < (way[2] - way[0]) % (2 * np.pi)
    sweep = (way[2] - way[0]) % (2 * np.pi) if up else -((way[0] - way[2]) % (2 * np.pi))
    turn = way[0] + np.linspace(0, sweep, 100_001)
    radius = np.hypot(*(np.array(pipe.start[:2]) - centre))
    line = LineString(
        np.stack((centre[0] + radius * np.cos(turn), centre[1] + radius * np.sin(turn)), axis=1)
    )
    return np.array(line.interpolate(max(far, 0.0)).coords[0]), line.length


@pytest.mark.parametrize("zero", ["start", "middle", "end"])
@pytest.mark.parametrize("seed", range(6))
def test_a_place_on_a_curved_pipe_is_so_far_along_it_by_walking(zero, seed):
    pipe = msgspec.structs.replace(random_arc("p", np.random.default_rng(seed)), zero=zero)
    low, high = pipe_ends(pipe)
    _, long = _along_by_walking(pipe, 0.0)
    assert high - low == pytest.approx(long, abs=1e-8)
    axis = 0 if across(pipe) else 1
    to_end = 1 if pipe.end[axis] > pipe.start[axis] else -1
    zero_far = {"start": 0.0, "middle": long / 2, "end": long}[zero]
    for at in np.linspace(low, high, 7).tolist():
        here = place(pipe, at)
        point, _ = _along_by_walking(pipe, zero_far + to_end * at)
        np.testing.assert_allclose(
            np.add(here.zero, np.multiply(here.along, at))[:2], point, atol=1e-7
        )
        ahead = place(pipe, at + 1e-6)
        step = np.add(ahead.zero, np.multiply(ahead.along, at + 1e-6)) - np.add(
            here.zero, np.multiply(here.along, at)
        )
        np.testing.assert_allclose(step * 1e6, here.along, atol=1e-5)


def test_a_quarter_circle_by_hand():
    """Radius 5 round (0, 5), from straight DS of it to SL of it: 7.854 m long."""
    root = 5 / np.sqrt(2)
    pipe = Pipe(name="p", start=(0, 0, 6), through=(root, 5 - root, 6), end=(5, 5, 6), zero="start")
    assert pipe_ends(pipe) == pytest.approx((0.0, 7.853982), abs=1e-6)
    first, middle, last = (place(pipe, at) for at in (0.0, 3.0, 7.853982))
    assert (WORDS[first.square_word], WORDS[first.plus_word]) == ("US", "SL")
    assert (WORDS[middle.square_word], WORDS[middle.plus_word]) == ("US", "SL")
    assert (WORDS[last.square_word], WORDS[last.plus_word]) == ("SL", "US")
    np.testing.assert_allclose(first.square, (0, 1, 0), atol=1e-12)
    np.testing.assert_allclose(last.along, (0, 1, 0), atol=1e-6)
    assert not first.has_tape


def test_an_arc_counts_from_where_it_crosses_the_centre_line():
    """A rail bowed DS by 1 m in the middle, 3 m to SR and 4 m to SL of it."""
    pipe = Pipe(name="p", start=(-3, 0, 3), through=(0, -1, 3), end=(4, 0, 3), zero="centre line")
    np.testing.assert_allclose(place(pipe).zero, (0, -1, 3), atol=1e-9)


def test_a_chord_is_beside_and_above_its_trusss_line():
    """On a truss that climbs 3 m in 4 m SL, up is square to it: 0.5 m up is 0.3 m SR and 0.4 m up."""
    chord = Chord(name="top", side=0.2, up=0.5)
    pipe = Pipe(name="p", start=(0, 0, 5), end=(4, 0, 8), zero="start", chords=(chord,))
    np.testing.assert_allclose(place(pipe, 0.0, "top").zero, (-0.3, 0.2, 5.4), atol=1e-12)
    ((name, line),) = tubes_of(pipe)
    assert name == "top"
    np.testing.assert_allclose(line.T, [(-0.3, 0.2, 5.4), (3.7, 0.2, 8.4)], atol=1e-12)
