"""Labels find room near their marks and never cover one another."""

import numpy as np
import pytest

from aimcalc.paper.labels import LEADER, Room, Wish

FRAME = (0.0, 0.0, 150.0, 150.0)


def boxes_of(wishes, room):
    placed = [(wish, room.place(wish)) for wish in wishes]
    return [
        (p.left, p.bottom, p.left + w.width, p.bottom + w.height)
        for w, p in placed
        if p is not None
    ]


def claimed(room, *box, figure=False):
    return room.claim(np.array([box]), figure=figure) is not None


def overlap(a, b):
    return min(a[2], b[2]) > max(a[0], b[0]) and min(a[3], b[3]) > max(a[1], b[1])


def crowd(count, seed=5):
    rng = np.random.default_rng(seed)
    return [
        Wish(x, y, w, h, 1.5, turn)
        for x, y, w, h, turn in zip(
            rng.uniform(30, 120, count),
            rng.uniform(30, 120, count),
            rng.uniform(4, 14, count),
            rng.uniform(3, 5, count),
            rng.uniform(-3, 3, count),
            strict=True,
        )
    ]


def test_no_label_of_a_crowd_covers_another():
    boxes = boxes_of(crowd(90), Room(FRAME))
    assert len(boxes) == 90
    assert not [1 for i, a in enumerate(boxes) for b in boxes[i + 1 :] if overlap(a, b)]


def test_labels_keep_off_blocks_and_inside_the_frame():
    room = Room(FRAME)
    blocks = [(40.0, 40.0, 60.0, 60.0), (80.0, 70.0, 83.0, 120.0)]
    for block in blocks:
        room.block(*block)
    for box in boxes_of(crowd(60), room):
        assert not any(overlap(box, block) for block in blocks)
        assert box[0] >= 0
        assert box[1] >= 0
        assert box[2] <= 150
        assert box[3] <= 150


@pytest.mark.parametrize(
    ("toward", "sense"),
    [(0.0, (1, 0)), (np.pi / 2, (0, 1)), (np.pi, (-1, 0)), (-np.pi / 2, (0, -1))],
)
def test_a_label_with_room_stands_where_it_was_wanted_touching_its_mark(toward, sense):
    place = Room(FRAME).place(Wish(75.0, 75.0, 10.0, 4.0, 1.5, toward))
    middle = np.array([place.left + 5.0 - 75.0, place.bottom + 2.0 - 75.0])
    half = np.array([5.0, 2.0])
    assert middle == pytest.approx(np.array(sense) * (half + 1.5))
    assert place.leader is None


def test_a_label_far_from_its_mark_gets_a_line_from_the_marks_edge_to_its_own():
    room = Room(FRAME)
    room.block(60.0, 60.0, 74.9, 90.0)
    room.block(75.1, 60.0, 90.0, 90.0)
    place = room.place(Wish(75.0, 75.0, 10.0, 4.0, 0.05, np.pi / 2))
    start, end = place.leader
    assert np.hypot(start[0] - 75.0, start[1] - 75.0) == pytest.approx(0.05)
    assert np.hypot(end[0] - 75.0, end[1] - 75.0) > LEADER
    assert place.left <= end[0] <= place.left + 10.0
    assert place.bottom <= end[1] <= place.bottom + 4.0


def test_the_second_wish_is_taken_where_the_first_finds_no_room():
    room = Room(FRAME)
    room.block(0.0, 0.0, 100.0, 150.0)
    near, far = Wish(20.0, 75.0, 10.0, 4.0, 1.0), Wish(120.0, 75.0, 10.0, 4.0, 1.0)
    assert room.place(near) is None
    assert room.place(near, far).left == pytest.approx(121.0)


def test_a_full_frame_has_no_place():
    room = Room(FRAME)
    room.block(*FRAME)
    assert room.place(Wish(75.0, 75.0, 10.0, 4.0, 1.0)) is None


def test_the_same_wishes_give_the_same_places():
    assert boxes_of(crowd(40), Room(FRAME)) == boxes_of(crowd(40), Room(FRAME))


def test_a_label_without_a_line_is_nearest_to_its_own_mark():
    """A tight row, as on a crowded pipe: each figure must be read with the right unit."""
    marks = [(60.0 + 5.0 * k, 75.0) for k in range(9)]
    room = Room(FRAME)
    for x, y in marks:
        room.block(x - 1.2, y - 3.0, x + 1.2, y + 3.0)
    for k, (x, y) in enumerate(marks):
        rivals = np.array(marks[:k] + marks[k + 1 :])
        place = room.place(Wish(x, y, 6.5, 4.5, 3.0, -np.pi / 2, rivals))
        middle = np.array([place.left + 3.25, place.bottom + 2.25])
        away = np.hypot(*(np.array(marks) - middle).T)
        assert place.leader is not None or away.argmin() == k


def test_a_label_does_not_stand_where_it_would_seem_another_marks():
    """Wanted to the right: its middle would be 4 mm from its own mark and 1 mm from the next one.

    Where it goes its middle is nearer to its own by a fifth at least; alone it goes where it was wanted.
    """
    own, other = np.array([75.0, 75.0]), np.array([80.0, 75.0])
    wish = Wish(*own, 6.0, 4.0, 1.0, toward=0.0)
    alone = Room(FRAME).place(wish)
    assert (alone.left, alone.bottom) == pytest.approx((76.0, 73.0))
    place = Room(FRAME).place(wish._replace(rivals=other[None]))
    middle = np.array([place.left + 3.0, place.bottom + 2.0])
    assert np.hypot(*(middle - own)) < 0.8 * np.hypot(*(middle - other))
    assert Room(FRAME).place(wish._replace(rivals=np.zeros((0, 2)))) == alone


def test_another_mark_beside_which_there_is_room_comes_before_a_line():
    room = Room(FRAME)
    room.block(10.0, 65.0, 40.0, 85.0)  # the first mark lies in it: only a line would help
    place = room.place(Wish(25.0, 75.0, 6.0, 4.0, 1.0), Wish(120.0, 75.0, 6.0, 4.0, 1.0))
    assert place.leader is None
    assert place.left == pytest.approx(121.0)


def dash_before(box, line, gap=1.2, slope=0.7):
    """Whether a line of two points, level or nearly, passes the strip before a box."""
    (x0, y0), (x1, y1) = sorted(line)
    if abs(y1 - y0) > slope * (x1 - x0) or x1 < box[0] - gap or x0 > box[0]:
        return False
    x = np.linspace(max(x0, box[0] - gap), min(x1, box[0]), 9)
    y = y0 + (y1 - y0) * (x - x0) / (x1 - x0)
    return bool(((y > box[1]) & (y < box[3])).any())


def box_of(place, wish):
    return place.left, place.bottom, place.left + wish.width, place.bottom + wish.height


@pytest.mark.parametrize("rise", [0.0, 20.0, -20.0])
def test_no_line_that_is_drawn_runs_level_up_to_a_figure(rise):
    """A figure set on such a line reads as a minus; a name on it does not."""
    line = [(0.0, 75.0 - rise), (150.0, 75.0 + rise)]
    wish = Wish(75.0, 75.0, 8.0, 4.0, 1.5, toward=0.0)
    for figure in (True, False):
        room = Room(FRAME)
        room.draw_lines([np.array(line)])
        place = room.place(wish._replace(figure=figure))
        assert dash_before(box_of(place, wish), line) != figure


def test_a_steep_line_may_run_up_to_a_figure():
    room = Room(FRAME)
    room.draw_lines([np.array([(60.0, 0.0), (90.0, 150.0)])])  # 5 up for 1 across
    place = room.place(Wish(75.0, 75.0, 8.0, 4.0, 1.5, figure=True))
    assert (place.left, place.bottom) == pytest.approx((76.5, 73.0))


def test_a_figures_own_line_never_comes_level_to_its_first_letter():
    """With room only level with the mark, it goes to the side where its line is no minus."""
    wish = Wish(75.0, 75.0, 8.0, 4.0, 1.5, toward=0.0)
    for figure, side in ((False, 1), (True, -1)):
        room = Room(FRAME)
        room.block(0.0, 0.0, 150.0, 72.5)
        room.block(0.0, 77.5, 150.0, 150.0)
        room.block(70.0, 70.0, 80.0, 80.0)
        place = room.place(wish._replace(figure=figure))
        assert np.sign(place.left - 75.0) == side
        assert place.leader is not None


@pytest.mark.parametrize("figure", [True, False])
def test_a_later_labels_line_does_not_pass_before_a_figure(figure):
    """One column is free, x 74.4 to 84.4, from the mark at its foot to over the figure that begins at 80.

    The line would go up at 79.4, through the 1.2 mm before the figure.
    """
    room = Room(FRAME)
    assert claimed(room, 80.0, 73.0, 88.0, 77.0, figure=figure)
    for block in ((0, 0, 74.4, 150), (84.4, 0, 150, 150), (74, 0, 85, 59), (74, 60.6, 85, 72)):
        room.block(*map(float, block))
    place = room.place(Wish(79.4, 60.0, 10.0, 4.0, 0.5, toward=np.pi / 2))
    if figure:
        assert place is None
    else:
        assert place.bottom == pytest.approx(60.0 + 0.5 + 18.0)


def test_a_kept_line_is_never_covered_but_a_labels_line_may_cross_it():
    wall = np.array([(82.0, 0.0), (82.0, 150.0)])
    slope = np.array([(60.0, 150.0), (90.0, 60.0)])
    room = Room(FRAME)
    for line in (wall, slope):
        room.keep_line(line)
    boxes = boxes_of(crowd(60), room)
    assert len(boxes) == 60
    t = np.linspace(0.0, 1.0, 2000)[:, None]
    for line in (wall, slope):
        x, y = (line[0] + t * (line[1] - line[0])).T
        for left, bottom, right, top in boxes:
            assert not ((x > left) & (x < right) & (y > bottom) & (y < top)).any()
    room = Room(FRAME)
    room.keep_line(np.array([(77.5, 0.0), (77.5, 150.0)]))
    room.block(0.0, 0.0, 77.0, 150.0)
    place = room.place(Wish(75.0, 75.0, 10.0, 4.0, 0.5))
    assert place.left > 77.5
    assert place.leader[0][0] < 77.5 < place.leader[1][0]


def test_a_line_to_a_mark_that_crosses_nothing_comes_before_one_that_does():
    """The mark stands in a lane too narrow for its label: a wall on each side, open 9 mm up the page.

    Past the wall there is a place 4 mm off, but its line would cross the wall; where the lane is shut at
    its end every line crosses something, and the nearest place is taken.
    """
    wish = Wish(75.0, 75.0, 10.0, 4.0, 0.5, toward=0.0)
    for shut in (False, True):
        room = Room(FRAME)
        room.block(60.0, 60.0, 73.5, 84.0)
        room.block(76.5, 60.0, 78.0, 84.0)
        room.block(60.0, 50.0, 90.0, 60.0)
        if shut:
            room.block(60.0, 84.0, 90.0, 85.0)
        place = room.place(wish)
        if shut:
            assert (place.left, place.bottom) == pytest.approx((79.0, 73.0))  # 75 + 0.5 + 3.5
        else:
            assert place.bottom > 84.0
            assert 73.5 < place.leader[1][0] < 76.5


def test_a_claimed_place_is_taken_once_and_stays_in_the_frame():
    room = Room(FRAME)
    assert claimed(room, 10.0, 10.0, 20.0, 14.0)
    assert not claimed(room, 15.0, 12.0, 25.0, 16.0)
    assert claimed(room, 30.0, 10.0, 40.0, 14.0)
    for outside in ((-1, 5, 5, 9), (145, 5, 151, 9), (5, -1, 9, 5), (5, 147, 9, 151)):
        assert not claimed(room, *map(float, outside))
    room.draw_lines([np.array([(0.0, 52.0), (60.0, 52.0)])])
    assert not claimed(room, 50.0, 50.0, 58.0, 54.0, figure=True)
    assert claimed(room, 50.0, 50.0, 58.0, 54.0)


def test_a_label_keeps_off_lines_that_it_would_seem_to_name_and_others_do_not():
    line = np.array([[(80.0, 75.0), (140.0, 75.0)]])
    wish = Wish(75.0, 75.0, 10.0, 4.0, 1.0, toward=0.0)
    free = Room(FRAME).place(wish)
    assert (free.left, free.bottom) == pytest.approx((76.0, 73.0))
    place = Room(FRAME).place(wish._replace(strange=line))
    assert not (place.left + 10.0 > 80.0 and place.bottom < 75.0 < place.bottom + 4.0)


def test_of_several_places_the_first_free_one_is_claimed():
    room = Room(FRAME)
    boxes = np.array([(10.0, 10.0, 20.0, 14.0), (30.0, 10.0, 40.0, 14.0), (50.0, 10.0, 60.0, 14.0)])
    assert [room.claim(boxes) for _ in range(4)] == [0, 1, 2, None]


def test_a_drawing_without_lines_leaves_every_place_free():
    room = Room(FRAME)
    room.draw_lines([])
    wish = Wish(75.0, 75.0, 8.0, 4.0, 1.5, figure=True)
    assert room.place(wish).left == pytest.approx(76.5)
