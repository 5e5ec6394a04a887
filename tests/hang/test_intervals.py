"""Stabbing intervals."""

from aimcalc.hang.records import stabbed


def test_intervals_that_meet_share_a_point():
    assert stabbed([(0, 2), (1, 3), (2, 5)]) == [[0, 1, 2]]


def test_touching_ends_count_as_meeting():
    assert stabbed([(0, 1), (1, 2)]) == [[0, 1]]


def test_a_chain_needs_more_than_one_point():
    assert stabbed([(4, 6), (0, 2), (1, 5)]) == [[1, 2], [0]]


def test_no_intervals_need_no_points():
    assert stabbed([]) == []
