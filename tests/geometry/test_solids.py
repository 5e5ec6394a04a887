"""Solids as triangles: what each shape encloses, and whose every triangle is."""

from __future__ import annotations

import numpy as np
import pytest
import trimesh

from aimcalc.geometry import solids


def mesh(shape):
    """The shape in another library's hands."""
    return trimesh.Trimesh(shape.vertices.T, shape.faces.T, process=False)


def silhouette(shape, angle):
    """Width of a shape seen along a level direction, from its own corners."""
    across = shape.vertices[0] * np.cos(angle) + shape.vertices[1] * np.sin(angle)
    return across.max() - across.min()


def test_a_box_is_closed_faces_outward_and_holds_its_volume_whichever_corners_are_given():
    for low, high in (((0, 0, 0), (1, 2, 3)), ((1, 0, 3), (0, 2, 0))):
        box = mesh(solids.box(low, high))
        assert box.is_watertight
        assert box.volume == pytest.approx(6.0)  # 1 x 2 x 3, positive: normals outward


def test_a_flat_panel_has_the_area_of_its_outline():
    shape = solids.panel([(0, 1, 0), (4, 1, 0), (5, 1, 2), (0, 1, 2)])
    assert mesh(shape).area == pytest.approx((4 + 5) / 2 * 2)  # a trapezium


def test_a_panel_out_of_plane_is_folded_along_its_first_diagonal():
    shape = solids.panel([(0, 0, 0), (1, 0, 0), (1, 1, 1), (0, 1, 0)])
    for face in shape.faces.T:
        assert {0, 2} <= set(face)


def test_a_tube_seen_from_all_round_is_as_wide_as_the_round_tube():
    shape = solids.tube((0, 0, 0), (0, 0, 4), radius=0.5)
    widths = [silhouette(shape, angle) for angle in np.linspace(0, np.pi, 720, endpoint=False)]
    assert np.mean(widths) == pytest.approx(1.0, abs=1e-5)  # 720 views
    assert mesh(shape).area == pytest.approx(2 * np.pi * 0.5 * 4)


def test_a_sloping_tube_keeps_to_its_line():
    start, end = np.array([1.0, 2, 3]), np.array([4.0, 0, 5])
    shape = solids.tube(start, end, radius=0.03)
    along = (end - start) / np.linalg.norm(end - start)
    off = np.cross(shape.vertices.T - start, along)
    assert np.linalg.norm(off, axis=1) == pytest.approx(0.03, rel=0.02)
    assert sorted({round(v, 9) for v in (shape.vertices.T - start) @ along}) == pytest.approx(
        [0, np.linalg.norm(end - start)]
    )


def test_every_triangle_of_a_soup_knows_its_solid():
    panel = solids.panel([(0, 0, 0), (1, 0, 0), (1, 0, 1), (0, 0, 1)])
    soup = solids.soup([solids.box((0, 0, 0), (1, 1, 1)), panel])
    assert soup.owner.tolist() == [0] * 12 + [1] * 2
    assert soup.corners[:, 1, soup.owner == 1] == pytest.approx(0)  # the panel's plane, y = 0
    assert solids.soup([panel, panel], [7, 3]).owner.tolist() == [7, 7, 3, 3]


def test_the_size_of_each_solid_is_that_of_the_box_round_it():
    far = solids.box((10, 0, 0), (10, 0.5, 4))
    soup = solids.soup([solids.box((0, 0, 0), (1, 2, 3)), far], [2, 0])
    np.testing.assert_array_equal(soup.sizes(3), [4, np.nan, 3])


def test_soups_joined_keep_owners_and_corners():
    first = solids.soup([solids.box((0, 0, 0), (1, 1, 1))], [4])
    second = solids.soup([solids.box((5, 5, 5), (6, 6, 6))], [9])
    both = solids.merged(first, second)
    assert both.corners[:, :, both.owner == 9].min() == 5


def test_no_solids_make_an_empty_soup():
    soup = solids.soup([])
    assert soup.faces.shape == (3, 0)
    assert soup.corners.shape == (3, 3, 0)


def test_the_deck_is_level_to_the_rake_and_climbs_from_there():
    strips = solids.deck_strips(rake=1 / 16, rake_from=2.0)
    by_y = dict(zip(strips.vertices[1].tolist(), strips.vertices[2].tolist(), strict=True))
    assert by_y == pytest.approx({-498.0: 0, 2.0: 0, 502.0: 31.25})


def test_one_solid_comes_out_of_a_soup_with_its_own_vertices_only():
    first, second = solids.box((0, 0, 0), (1, 2, 3)), solids.box((5, 5, 5), (6, 6, 6))
    told = solids.part(solids.soup([first, second], [7, 4]), 4)
    assert told.vertices.shape == (3, 8)
    assert told.vertices[:, told.faces].tolist() == second.vertices[:, second.faces].tolist()
    assert solids.part(solids.soup([first]), 9).faces.shape == (3, 0)
