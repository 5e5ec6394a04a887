"""Eyes that a field reaches, and units that the front row sees."""

from __future__ import annotations

from math import atan2, degrees, radians

import numpy as np
import pytest

from aimcalc.geometry import sightlines as seats
from aimcalc.geometry.rays import caster
from aimcalc.geometry.solids import panel, soup
from tests.lenses import facing

OPEN = caster(soup([]))
BLOCK = np.array([[-6.0, 6, 6, -6], [-12, -12, -4, -4]])  # plan corners, x then y


def wall(y, low, high):
    return panel([(-20, y, low), (20, y, low), (20, y, high), (-20, y, high)])


def reached(eyes, *, ready=OPEN, lens=(0, 3, 6), face=(0, -3, 1.65), field=26):
    lens, face = (np.array(p, dtype=float).reshape(3, 1) for p in (lens, face))
    axis, _ = facing(lens, face)
    eyes = np.array(eyes, dtype=float).reshape(-1, 3).T
    return told(ready, lens, axis, np.array([radians(field)]), eyes)


def told(ready, lens, axis, field, eyes):
    inside = seats.in_fields(lens, axis, field, eyes)
    return seats.reached(lambda *lines: ready, inside, lens=lens, eyes=eyes)


def test_an_eye_in_the_field_is_reached_at_its_angle_off_the_axis():
    # The axis falls 4.35 in 6 (down 35.9); an eye 12 m out and 4 m below is at down 18.4.
    found = reached([(0, -9, 2)], field=50)
    assert (found.unit.tolist(), found.eye.tolist()) == ([0], [0])
    expected = degrees(atan2(4.35, 6) - atan2(4, 12))
    assert np.degrees(found.angle) == pytest.approx([expected])


@pytest.mark.parametrize(("field", "count"), [(34, 0), (36, 1)])
def test_an_eye_beyond_half_the_field_is_not_reached(field, count):
    assert reached([(0, -9, 2)], field=field).unit.size == count  # 17.5 off the axis


def test_an_eye_behind_the_unit_is_not_reached():
    assert reached([(0, 12, 10)], field=120).unit.size == 0


def test_an_eye_in_the_shadow_of_a_border_is_not_reached_and_one_before_the_wall_is():
    eyes = [(0, -9, 2)]
    assert reached(eyes, ready=caster(soup([wall(1, 5, 9)])), field=50).unit.size == 0
    # A wall behind the eye hides nothing.
    assert reached(eyes, ready=caster(soup([wall(-10, 0, 9)])), field=50).unit.size == 1


def test_many_units_and_eyes_at_once_are_told_as_one_by_one(monkeypatch):
    rng = np.random.default_rng(6)
    lens, face = rng.uniform(-5, 5, (2, 3, 8)) + np.array([[0], [0], [6]])
    face[1] -= 8
    axis, _ = facing(lens, face)
    eyes = rng.uniform((-6, -12, 1), (6, -4, 4), (30, 3)).T
    field = np.full(8, radians(50))
    ready = caster(soup([wall(-1, 5, 9)]))
    whole = told(ready, lens, axis, field, eyes)
    monkeypatch.setattr(seats, "LINES_AT_ONCE", 70)
    parts = told(ready, lens, axis, field, eyes)
    assert whole.unit.size > 10
    for one, other in zip(whole, parts, strict=True):
        assert one.tolist() == other.tolist()


def test_a_unit_that_is_not_solved_reaches_nobody():
    nothing = np.full((3, 1), np.nan)
    assert told(OPEN, nothing, nothing, np.ones(1), np.ones((3, 4))).unit.size == 0


def test_a_seat_grid_lies_inside_its_outline_with_its_corners():
    eyes = seats.seat_grid(BLOCK, eye=1.2, spacing=1.0)
    assert eyes.shape == (3, 12 * 8 + 4)
    assert (np.abs(eyes[0]) <= 6).all()
    assert ((eyes[1] >= -12) & (eyes[1] <= -4)).all()
    assert set(eyes[2]) == {1.2}


def test_a_house_of_two_kilometres_has_no_more_eyes_than_can_be_asked():
    side = 1000.0 * np.array([[-1, 1, 1, -1], [-1, -1, 1, 1]])
    eyes = seats.seat_grid(side, eye=1.2, spacing=1.0)
    assert 0.9 * seats.MOST_EYES < eyes.shape[1] <= seats.MOST_EYES + 4  # and the four corners


def test_a_seat_grid_keeps_out_of_a_hollow_in_its_outline():
    bent = np.array([[0.0, 6, 6, 3, 3, 0], [0, 0, 6, 6, 3, 3]])  # an L: the upper left is cut out
    eyes = seats.seat_grid(bent, eye=1.0, spacing=1.0)
    inside = eyes[:, :-6]
    assert inside.shape[1] == 27  # 6 x 6 less 3 x 3
    assert not ((inside[0] < 3) & (inside[1] > 3)).any()


def test_the_front_row_is_the_edge_nearest_the_stage():
    row = seats.front_row(BLOCK, eye=1.2, spacing=0.5)
    assert row[1] == pytest.approx(-4)
    assert [row[0, 0], row[0, -1]] == [-6, 6]
    assert np.diff(row[0]).max() <= 0.5 + 1e-12
    slanted = np.array([[-4.0, 4, 4, -4], [-10, -10, -2, -6]])
    told = seats.front_row(slanted, eye=1.0, spacing=1.0)
    assert told[1] == pytest.approx(-6 + (told[0] + 4) / 2)


def test_a_unit_is_seen_under_a_border_and_hidden_by_one_low_enough():
    # From an eye at (0, -6, 1.2) a point at (0, 4, 6) is seen at 1.2 + 4.8 * 0.7 = 4.56 at y = 1.
    points, eyes = np.array([0.0, 4, 6]).reshape(3, 1, 1), np.array([[0.0], [-6], [1.2]])
    for low, sees in ((4.6, True), (4.5, False)):
        told = seats.seen(caster(soup([wall(1, low, 9)])), points=points, eyes=eyes)
        assert told.unit.tolist() == ([0] if sees else [])


def test_a_unit_half_hidden_is_seen_in_part():
    points = np.stack([np.zeros(4), np.full(4, 4.0), np.array([5.0, 5.5, 6.5, 7.0])])[:, None]
    told = seats.seen(
        caster(soup([wall(1, 4.56, 9)])), points=points, eyes=np.array([[0.0], [-6], [1.2]])
    )
    assert told.share.tolist() == [0.5]


def test_a_unit_without_a_place_is_not_seen():
    told = seats.seen(OPEN, points=np.full((3, 1, 2), np.nan), eyes=np.zeros((3, 1)))
    assert told.unit.size == 0
