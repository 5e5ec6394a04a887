"""Where a tape can lie, against shapely and by hand."""

from __future__ import annotations

import numpy as np
import pytest
from shapely.geometry import LineString, Polygon

from aimcalc.geometry.deck import Deck
from aimcalc.geometry.solids import box, soup
from aimcalc.solid.tapes import CLEAR, Ground, Lines, apart, in_the_way

NOWHERE = np.zeros((2, 0))
LEVEL = Deck()


def lines(start, end, eye=(0.0, 0.0, 6.0)):
    """Tapes with a mark at each end, seen from one eye."""
    ends, tape = np.stack((start, end), axis=2).reshape(2, -1), np.repeat(range(start.shape[1]), 2)
    return Lines(start, end, ends, np.repeat(np.array(eye)[:, None], tape.size, axis=1), tape)


def ground(outline=NOWHERE, seats=(), solids=(), deck=LEVEL):
    return Ground(deck, outline, list(seats), soup(list(solids)), len(solids))


def random_segments(count, seed):
    rng = np.random.default_rng(seed)
    return rng.uniform(-4, 4, (2, count)), rng.uniform(-4, 4, (2, count))


def test_segments_are_as_far_apart_as_shapely_says():
    first, second = random_segments(40, 1), random_segments(30, 2)
    found = apart(*first, *second)
    for i, a in enumerate(zip(first[0].T, first[1].T, strict=True)):
        for j, b in enumerate(zip(second[0].T, second[1].T, strict=True)):
            assert found[i, j] == pytest.approx(LineString(a).distance(LineString(b)), abs=1e-12)


# A deck with an apron and a bay cut out of it upstage: a tape between two points of it may leave it.
BAY = np.array([(-4, -3), (4, -3), (4, 3), (1, 3), (1, 0), (-1, 0), (-1, 3), (-4, 3)], float).T


def test_a_tape_is_on_the_deck_where_shapely_has_it_within_the_deck_drawn_in_by_the_clearance():
    start, end = random_segments(400, 3)
    told = in_the_way(ground(BAY), lines(start, end))[0]
    deck = Polygon(BAY.T)
    tapes = [LineString((a, b)) for a, b in zip(start.T, end.T, strict=True)]
    off = [not deck.contains(t) or deck.exterior.distance(t) < CLEAR for t in tapes]
    assert told.tolist() == off
    assert 50 < told.sum() < 390  # the case is no empty one


def test_a_tape_is_in_the_seats_where_shapely_has_it_near_their_outline():
    start, end = random_segments(400, 4)
    told = in_the_way(ground(seats=[BAY]), lines(start, end))[1]
    seats = Polygon(BAY.T)
    tapes = [LineString((a, b)) for a, b in zip(start.T, end.T, strict=True)]
    assert told.tolist() == [seats.distance(t) < CLEAR for t in tapes]
    assert 50 < told.sum() < 399


def one(solid, a, b, deck=LEVEL, eye=(0.0, 0.0, 6.0)):
    """Whether one solid stands in the way of one tape, and whether it hides a mark of it."""
    tape = lines(np.array(a, float)[:, None], np.array(b, float)[:, None], eye)
    return tuple(in_the_way(ground(solids=[solid], deck=deck), tape)[1:, 0].tolist())


ROSTRUM = (1.0, 2.0, 0.0, 3.0, 4.0, 0.6)  # x 1 to 3, y 2 to 4, 0.6 m high


@pytest.mark.parametrize(
    ("a", "b", "expected"),
    [
        ((-2, 3), (0.9, 3), (False, False)),  # 10 cm short of it
        ((-2, 3), (0.96, 3), (True, False)),  # 4 cm short of it
        ((-2, 3), (2, 3), (True, False)),  # up over its edge
        ((-2, 1.9), (2, 1.9), (False, False)),  # past its front
        # From an eye 6 m up over (0, 0) to a mark at y = 5, over the rostrum's back edge at y = 4: at
        # x = 2 the line is 6 (1 - 4/5) = 1.2 m up there; at y = 4.3 6 (1 - 4/4.3) = 0.42 m, under 0.6.
        ((-2, 5), (2.5, 5), (False, False)),
        ((-2, 4.3), (2.5, 4.3), (False, True)),
    ],
)
def test_a_box_that_is_no_platform_is_met_or_hides(a, b, expected):
    assert one(box(ROSTRUM[:3], ROSTRUM[3:]), a, b) == expected


@pytest.mark.parametrize(
    ("a", "b", "stands"),
    [
        ((1.2, 3), (2.8, 3), False),  # all of it on top
        ((1.03, 3), (2.8, 3), True),  # an end within a hand's breadth of the edge
        ((-2, 3), (0.9, 3), False),
        ((-2, 3), (2, 3), True),  # half on it
    ],
)
def test_a_platform_carries_a_tape_that_keeps_clear_of_its_edge(a, b, stands):
    deck = Deck(boxes=np.array(ROSTRUM)[:, None])
    assert one(box(ROSTRUM[:3], ROSTRUM[3:]), a, b, deck) == (stands, False)


def test_what_hangs_clear_of_the_deck_or_lies_flat_on_it_lets_a_tape_lie():
    cloth = box((-3, 1, 0.0), (3, 5, 0.01))
    hem = box((-3, 2.9, 0.3), (3, 3.1, 0.5))
    assert one(cloth, (-2, 3), (2, 3))[0] is False
    assert one(hem, (-2, 2), (2, 4)) == (False, False)  # its marks are clear of it either side
    assert one(hem, (-2, 3.2), (2, 3.2)) == (False, True)  # 6 (1 - 3.1 / 3.2) = 0.19: through it


def test_a_rake_is_no_step():
    # Deck rising 1 in 10 from y = 0: at y = 3 it is 0.3 m up, and the box stands on it from there.
    deck = Deck(rake=0.1)
    thing = box((1, 2.9, 0.29), (2, 3.1, 0.9))
    assert one(thing, (-2, 3), (0.5, 3), deck) == (False, False)
    assert one(thing, (-2, 3), (1.5, 3), deck)[0] is True
