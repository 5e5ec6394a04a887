"""Solids cut by a plane."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.geometry.solids import box, cut, panel, soup, tube

CENTRE_LINE = {"point": np.zeros(3), "normal": np.array([1.0, 0.0, 0.0])}


def length(told):
    return np.linalg.norm(told.end - told.start, axis=0).sum()


def test_a_box_is_cut_in_its_outline():
    told = cut(soup([box((-1, 2, 0), (3, 5, 1.2))]), **CENTRE_LINE)
    assert told.start[0] == pytest.approx(0)
    assert length(told) == pytest.approx(2 * (3 + 1.2))
    points = np.concatenate((told.start, told.end), axis=1)
    assert [points[1].min(), points[1].max()] == pytest.approx([2, 5])
    assert [points[2].min(), points[2].max()] == pytest.approx([0, 1.2])


def test_every_line_knows_its_solid_and_what_is_not_crossed_is_not_cut():
    border = panel([(-5, 2, 4), (5, 2, 4), (5, 2, 7), (-5, 2, 7)])
    aside = box((1, 0, 0), (2, 1, 1))
    told = cut(soup([aside, border]), **CENTRE_LINE)
    assert set(told.owner) == {1}
    assert length(told) == pytest.approx(3)


def test_a_slanting_plane_cuts_a_round_pipe_along_an_ellipse():
    normal = np.array([1.0, 1.0, 0.0]) / np.sqrt(2)
    told = cut(
        soup([tube((-5, 0, 6), (5, 0, 6), radius=0.5, sides=360)]),
        point=np.array([0, 0, 6.0]),
        normal=normal,
    )
    points = np.concatenate((told.start, told.end), axis=1)
    assert normal @ (points - np.array([[0], [0], [6.0]])) == pytest.approx(0, abs=1e-12)
    assert np.ptp(points[2]) == pytest.approx(1.0, rel=1e-3)
    level = np.hypot(np.ptp(points[0]), np.ptp(points[1]))
    assert level == pytest.approx(np.sqrt(2), rel=1e-3)  # 1 over the sine of 45


def test_solids_that_touch_the_plane_are_cut_once_or_not_at_all():
    before, behind = box((-2, 0, 0), (0, 1, 1)), box((0, 5, 0), (2, 6, 1))
    told = cut(soup([before, behind]), **CENTRE_LINE)
    outline = 4.0
    assert [length(told), set(told.owner)] == [pytest.approx(outline), {0}]
    flat = panel([(0, 0, 0), (0, 1, 0), (0, 1, 1), (0, 0, 1)])
    assert cut(soup([flat]), **CENTRE_LINE).owner.size == 0


def test_an_empty_soup_has_no_section():
    assert cut(soup([]), **CENTRE_LINE).start.shape == (3, 0)
