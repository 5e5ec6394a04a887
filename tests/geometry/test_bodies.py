"""Units as solids: where each part of a posed unit is, and that it is a solid."""

from __future__ import annotations

import numpy as np
import pytest
import trimesh

from aimcalc.geometry import bodies
from aimcalc.geometry.aim import pose
from tests.hung import INCH, a_build, a_row

SQUARE_SIDED = 26 * 8 * 8 * INCH**3
# The eight-sided prism about a circle of radius r has a section of 8 tan(pi / 8) r^2.
EIGHT_SIDED = 26 * 8 * np.tan(np.pi / 8) * 4**2 * INCH**3


def part(row, number, unit=0):
    """Corners (3, 16) of one part of a unit at its aim."""
    return bodies.set_parts(row)[:, unit, number]


def axis_of(pan, down):
    pan, down = np.radians([pan, down])
    return np.array([np.cos(down) * np.sin(pan), np.cos(down) * np.cos(pan), -np.sin(down)])


def solids_of(row):
    """Every part of the first unit in another library's hands."""
    soup = bodies.body_soup(bodies.set_parts(row), row.build, np.arange(row.turn.size))
    number = soup.faces[0] // bodies.CORNERS
    return [
        trimesh.Trimesh(soup.vertices.T, soup.faces[:, number == k].T, process=True)
        for k in range(bodies.PARTS)
        if (number == k).any()
    ]


@pytest.mark.parametrize("boxy", [False, True])
@pytest.mark.parametrize("over", [False, True])
def test_every_part_but_the_top_hat_is_closed_and_faces_outward(boxy, over):
    shapes = solids_of(a_row(30, 50, boxy=boxy, over=over, hat=6))
    closed = [shape.is_watertight for shape in shapes]
    assert closed == [True, False, True, True, True, True]
    assert all(shape.volume > 0 for shape in shapes)
    assert shapes[0].volume == pytest.approx(SQUARE_SIDED if boxy else EIGHT_SIDED, rel=0.01)


def test_the_body_lies_along_the_axis_from_the_lens_back():
    row, axis = a_row(25, 40), axis_of(25, 40)
    pivot = np.array([0, 0, 5.0 - 14 * INCH])
    along = axis @ (part(row, bodies.BODY) - pivot[:, None])
    assert along.max() == pytest.approx(13 * INCH, abs=2 * bodies.LIP)
    assert along.min() == pytest.approx(-13 * INCH)
    assert along.max() < 13 * INCH  # the lens itself lies just outside


def test_the_body_is_as_wide_as_it_is_whichever_way_it_is_measured():
    row = a_row(0, 0)
    corners = part(row, bodies.BODY)
    assert np.ptp(corners[0]) == pytest.approx(8 * INCH)
    assert np.ptp(corners[2]) == pytest.approx(8 * INCH)


def test_a_top_hat_stands_in_front_of_the_lens_and_none_is_hidden_in_the_body():
    axis = axis_of(0, 35)
    pivot = np.array([[0], [0], [5.0 - 14 * INCH]])
    hatted = axis @ (part(a_row(0, 35, hat=6), bodies.TOP_HAT) - pivot)
    assert [hatted.min(), hatted.max()] == pytest.approx([13 * INCH, 19 * INCH])
    bare = axis @ (part(a_row(0, 35), bodies.TOP_HAT) - pivot)
    assert np.abs(bare).max() < 12 * INCH


@pytest.mark.parametrize("over", [False, True])
def test_the_yoke_turns_with_the_pan_and_its_bar_is_on_the_clamps_side(over):
    row = a_row(30, 45, over=over)
    pivot_z = 5.0 + (14 if over else -14) * INCH
    bar, clamp = part(row, bodies.BAR), part(row, bodies.CLAMP_BLOCK)
    assert (bar[2].mean() < pivot_z) == over
    assert clamp[2].min() < 5.0 < clamp[2].max()  # the pipe's centre is inside the clamp
    # The bar lies square to the heading: from end to end along SL turned 30 to DS (or its opposite).
    along = np.array([np.cos(np.radians(30)), -np.sin(np.radians(30))])
    assert np.ptp(along @ bar[:2]) == pytest.approx(8 * INCH + 2 * bodies.YOKE_CLEAR)
    assert np.ptp(part(row, bodies.CLAMP_BLOCK)[0]) == pytest.approx(bodies.CLAMP_WIDE)


def test_the_arms_stand_on_either_side_of_the_body():
    row = a_row(0, 35)
    arm, other = part(row, bodies.ARM), part(row, bodies.OTHER_ARM)
    assert abs(arm[0]).min() > 4 * INCH
    assert arm[0].mean() == pytest.approx(-other[0].mean())
    assert arm[2].min() < 5.0 - 14 * INCH < arm[2].max()  # the pivot is between the ends


def test_turn_and_tip_are_found_from_the_aim():
    row = a_row([0, 35, -70], [10, 50, 0])
    assert np.degrees(row.turn) == pytest.approx([0, 35, -70])
    assert np.degrees(row.yoke) == pytest.approx([10, 50, 0])
    assert row.level.tolist() == [0, 0, 0]


def test_a_unit_over_its_pipe_is_square_with_its_body_turned_over():
    row = a_row([20], [30], over=True)
    assert abs(row.level[0]) == pytest.approx(np.pi)
    assert abs(np.degrees(row.turn[0])) == pytest.approx(20)
    assert abs(np.degrees(row.yoke - row.level))[0] == pytest.approx(30)
    square = bodies.square_parts(row)[:, 0, bodies.BODY]
    assert np.ptp(square[1]) == pytest.approx(26 * INCH, abs=0.003)  # along the stage's depth
    assert square[1].max() == pytest.approx(13 * INCH, abs=0.003)  # nose upstage


@pytest.mark.parametrize("over", [False, True])
def test_parts_turned_and_tipped_by_their_own_angles_are_the_set_parts(over):
    row = a_row([25], [40], over=over)
    assert bodies.parts(row, row.turn, row.yoke) == pytest.approx(bodies.set_parts(row))
    assert not np.allclose(bodies.square_parts(row), bodies.set_parts(row))


def test_a_body_that_points_along_its_stem_has_a_pose_all_the_same():
    stem, square = np.array([[0.0], [0], [-1]]), np.array([[0.0], [1], [0]])
    axis, up = pose(stem, square, np.array([0.3]), np.array([np.pi / 2]))
    row = bodies.hung(a_build(), clamp=-stem, stem=stem, square=square, axis=axis, up=up)
    assert np.degrees(row.yoke) == pytest.approx(90)
    assert row.turn == pytest.approx(0.3)


def test_no_corner_gets_farther_from_the_pivot_than_the_swing_radius():
    row = a_row([60], [55], rise=1, hat=5, boxy=True)
    pivot = np.array([0, 0, 5.0 - 14 * INCH])
    moving = bodies.set_parts(row)[:, 0, : bodies.CLAMP_BLOCK].reshape(3, -1)
    reach = np.linalg.norm(moving - pivot[:, None], axis=0).max()
    assert reach <= bodies.swing_radius(row)[0] <= 1.05 * reach


def test_a_yoke_lets_its_body_pass_where_the_drop_leaves_room():
    short, long = a_build(nose=19, drop=14), a_build(nose=13, drop=14)
    # Seven inches behind the pivot and four aside: the corner passes at sqrt(7^2 + 4^2) = 8.06 in.
    assert bodies.yoke_reach(short)[0] == pytest.approx(14 * INCH - bodies.CLAMP)
    assert bodies.yoke_reach(long)[0] == pytest.approx(14 * INCH - bodies.CLOSEST_CLAMP)
    middling = bodies.yoke_reach(a_build(nose=17, drop=14))[0]  # corner at sqrt(9^2 + 4^2)
    assert middling == pytest.approx(np.hypot(9, 4) * INCH + bodies.YOKE_PASSES)


def test_a_unit_of_unknown_size_has_no_triangles_and_spoils_no_other():
    row = a_row([0, 0, 0], 30, length=[26, np.nan, 26])
    soup = bodies.body_soup(bodies.set_parts(row), row.build, np.array([5, 6, 7]))
    assert set(soup.owner) == {5, 7}
    assert np.isfinite(soup.vertices).all()


def test_a_rig_without_units_has_no_bodies():
    row = a_row([], [])
    corners = bodies.set_parts(row)
    assert corners.shape == (3, 0, bodies.PARTS, bodies.CORNERS)
    assert bodies.body_soup(corners, row.build, np.zeros(0, dtype=int)).owner.size == 0
