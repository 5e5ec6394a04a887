"""Solids as line drawings."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.geometry.models import camera, drawn_edges, visible
from aimcalc.geometry.rays import caster
from aimcalc.geometry.solids import Shape, box, panel, soup, tube

FROM_HOUSE = camera(heading=0.0, down=0.0)  # an eye in the house that looks upstage, level
ASLANT = camera(heading=np.radians(-30.0), down=np.radians(25.0))


def lengths(lines):
    return np.linalg.norm(lines[:, 1] - lines[:, 0], axis=0)


def test_an_eye_in_the_house_sees_stage_left_on_its_right_and_height_as_it_is():
    # The eye faces upstage; stage left is on the right of somebody who faces upstage.
    seen = FROM_HOUSE.seen(np.array([[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]]))
    assert seen == pytest.approx(np.array([[1.0, 0.0, 0.0], [0.0, 0.0, 1.0]]))
    assert FROM_HOUSE.toward == pytest.approx([0, -1, 0])


@pytest.mark.parametrize(("heading", "down"), [(-30, 25), (140, 5), (77, 60)])
def test_a_view_keeps_lengths_square_to_it(heading, down):
    view = camera(heading=np.radians(heading), down=np.radians(down))
    frame = np.stack((view.right, view.up, view.toward))
    assert frame @ frame.T == pytest.approx(np.eye(3))
    assert np.linalg.det(frame) == pytest.approx(1.0)


def test_a_box_is_drawn_with_its_twelve_edges_and_no_diagonal():
    edges = drawn_edges(box((0, 0, 0), (1, 2, 3)), ASLANT.toward)
    assert sorted(lengths(edges)) == pytest.approx([1.0] * 4 + [2.0] * 4 + [3.0] * 4)


def test_a_panel_is_drawn_with_its_four_sides():
    edges = drawn_edges(panel([(0, 0, 0), (4, 0, 0), (4, 0, 2), (0, 0, 2)]), ASLANT.toward)
    assert sorted(lengths(edges)) == pytest.approx([2, 2, 4, 4])


def test_a_round_thing_is_drawn_with_its_two_outlines_only():
    # Twelve strips at 30 degrees to each other are no corners; its ends are open, and drawn as rings.
    pillar = tube((0, 0, 0), (0, 0, 5), radius=0.3)
    long = lengths(drawn_edges(pillar, FROM_HOUSE.toward))
    assert (long > 4.9).sum() == 2
    assert (long < 0.3).sum() == 24


def test_faces_that_share_a_place_but_no_vertex_make_one_edge():
    # As in an STL file, where every triangle has corners of its own.
    whole = box((0, 0, 0), (1, 1, 1))
    corners = whole.vertices[:, whole.faces]
    loose = Shape(corners.reshape(3, -1), np.arange(36).reshape(3, 12))
    assert drawn_edges(loose, ASLANT.toward).shape[2] == 12


def test_nothing_has_no_edges():
    assert (
        drawn_edges(Shape(np.zeros((3, 0)), np.zeros((3, 0), dtype=int)), ASLANT.toward).size == 0
    )


def test_a_line_behind_a_wall_is_cut_where_the_wall_begins():
    # A wall from x = 0 on hides half of a line 2 m behind it; the line in front is whole.
    ready = caster(soup([panel([(0, 0, -5), (9, 0, -5), (9, 0, 5), (0, 0, 5)])]))
    behind, before = [(-3, 2, 1), (3, 2, 1)], [(-3, -2, 1), (3, -2, 1)]
    lines = np.array([behind, before], dtype=float).transpose(2, 1, 0)
    shown = visible(ready, lines, FROM_HOUSE.toward, step=0.01)
    assert lengths(shown) == pytest.approx([3.0, 6.0], abs=0.02)
    assert shown[0].min() == pytest.approx(-3.0)


def test_a_line_that_passes_behind_a_post_is_shown_on_both_sides():
    ready = caster(soup([panel([(-0.5, 0, -5), (0.5, 0, -5), (0.5, 0, 5), (-0.5, 0, 5)])]))
    lines = np.array([[(-3, 2, 1), (3, 2, 1)]], dtype=float).transpose(2, 1, 0)
    shown = visible(ready, lines, FROM_HOUSE.toward, step=0.01)
    assert lengths(shown) == pytest.approx([2.5, 2.5], abs=0.02)


def test_the_edges_of_a_solid_are_not_hidden_by_its_own_near_faces():
    # Seen aslant from above, nine of a box's twelve edges are in sight, those of the far corner are not.
    block = box((0, 0, 0), (1, 2, 3))
    shown = visible(
        caster(soup([block])), drawn_edges(block, ASLANT.toward), ASLANT.toward, step=0.01
    )
    assert lengths(shown).sum() == pytest.approx(24 - (1 + 2 + 3), abs=0.4)


def test_without_lines_nothing_is_shown():
    ready = caster(soup([box((0, 0, 0), (1, 1, 1))]))
    assert visible(ready, np.zeros((3, 2, 0)), ASLANT.toward, step=0.1).shape == (3, 2, 0)
