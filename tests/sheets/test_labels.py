"""Labels find room near their marks and never cover one another."""

import numpy as np
import pytest

from aimcalc.sheets.labels import LEADER, Room, Wish

FRAME = (0.0, 0.0, 150.0, 150.0)


def boxes_of(wishes, room):
    placed = [(wish, room.place(wish)) for wish in wishes]
    return [
        (p.left, p.bottom, p.left + w.width, p.bottom + w.height)
        for w, p in placed
        if p is not None
    ]


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


def test_another_mark_beside_which_there_is_room_comes_before_a_line():
    room = Room(FRAME)
    room.block(10.0, 65.0, 40.0, 85.0)  # the first mark lies in it: only a line would help
    place = room.place(Wish(25.0, 75.0, 6.0, 4.0, 1.0), Wish(120.0, 75.0, 6.0, 4.0, 1.0))
    assert place.leader is None
    assert place.left == pytest.approx(121.0)
