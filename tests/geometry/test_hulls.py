"""Distances between convex bodies, against closed forms and a least-squares solver."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.optimize import nnls

from aimcalc.geometry import hulls
from aimcalc.geometry.solids import panel, soup

CORNERS = np.indices((2, 2, 2)).reshape(3, 8) * 2 - 1


def boxes(middle, half):
    """Level boxes as bodies of eight points, from middles and half sizes (3, P)."""
    return middle[:, :, None] + half[:, :, None] * CORNERS[:, None, :]


def by_least_squares(a, b):
    """Distance of two hulls of points (3, K): weights that sum to one, the residual made least."""
    heavy = 1e4  # enforces the two sums
    left = np.block(
        [
            [a, -b],
            [np.full((1, a.shape[1]), heavy), np.zeros((1, b.shape[1]))],
            [np.zeros((1, a.shape[1])), np.full((1, b.shape[1]), heavy)],
        ]
    )
    weights, _ = nnls(left, np.array([0, 0, 0, heavy, heavy]), maxiter=10_000)
    first, second = weights[: a.shape[1]], weights[a.shape[1] :]
    return np.linalg.norm(a @ first / first.sum() - b @ second / second.sum())


@pytest.mark.parametrize(
    ("ka", "kb", "apart"), [(16, 16, 1.5), (8, 8, 2.0), (2, 2, 1.0), (2, 8, 1.5), (3, 16, 1.5)]
)
def test_distances_agree_with_a_least_squares_solver(ka, kb, apart):
    rng = np.random.default_rng(ka * 100 + kb)
    a, b = rng.normal(0, 0.5, (3, 150, ka)), rng.normal(0, 0.5, (3, 150, kb))
    b += rng.normal(0, apart, (3, 150, 1))
    expected = [by_least_squares(a[:, k], b[:, k]) for k in range(150)]
    assert hulls.distance(a, b) == pytest.approx(expected, abs=1e-6)


@pytest.mark.parametrize("step", [None, 0.25, 0.5])
def test_level_boxes_are_as_far_apart_as_their_sides_say(step):
    """Sizes and places on a coarse grid make every degenerate meeting: corner, edge and face."""
    rng = np.random.default_rng(7)
    middle, half = rng.uniform(-1, 1, (2, 3, 4000)), rng.uniform(0.1, 0.5, (2, 3, 4000))
    if step:
        middle, half = np.round(middle / step) * step, np.round(half / step) * step + step / 2
    apart = np.maximum(np.abs(middle[0] - middle[1]) - half[0] - half[1], 0)
    found = hulls.distance(boxes(middle[0], half[0]), boxes(middle[1], half[1]))
    assert found == pytest.approx(np.linalg.norm(apart, axis=0), abs=2e-7)


def test_turning_both_bodies_changes_nothing():
    rng = np.random.default_rng(8)
    a, b = rng.normal(0, 0.5, (3, 300, 8)), rng.normal(0, 0.5, (3, 300, 8)) + 1.0
    turn = np.linalg.qr(rng.normal(size=(3, 3)))[0]
    turned = hulls.distance(np.einsum("ij,jpk->ipk", turn, a), np.einsum("ij,jpk->ipk", turn, b))
    assert turned == pytest.approx(hulls.distance(a, b), abs=1e-7)


def test_a_body_inside_another_is_at_no_distance():
    big, small = np.full((3, 1), 1.0), np.full((3, 1), 0.1)
    assert hulls.distance(boxes(small * 0, big), boxes(small, small)) == [0.0]


def test_the_order_of_the_two_does_not_matter():
    rng = np.random.default_rng(9)
    a, b = rng.normal(0, 0.5, (3, 300, 8)), rng.normal(0, 0.5, (3, 300, 3)) + 0.8
    assert hulls.distance(a, b) == pytest.approx(hulls.distance(b, a), abs=1e-8)


def test_rods_are_as_far_apart_as_their_middle_lines_less_both_radii():
    start, end = np.array([[0.0], [0], [0]]), np.array([[4.0], [0], [0]])
    up = np.array([[0.0], [0], [1]])
    first = hulls.rods(start, end, radius=0.1, owner=np.array([0]))
    second = hulls.rods(start + up, end + up, radius=0.2, owner=np.array([1]))
    assert hulls.gap(first, second) == pytest.approx(0.7)
    beside = hulls.rods(start + 0.25 * up, end + 0.25 * up, radius=0.2, owner=np.array([1]))
    assert hulls.gap(first, beside) == pytest.approx(-0.05)


def test_bodies_of_unlike_counts_of_points_can_be_joined():
    rod = hulls.rods(np.zeros((3, 1)), np.ones((3, 1)), radius=0.1, owner=np.array([5]))
    wall = panel([(0, 2, 0), (1, 2, 0), (1, 2, 1), (0, 2, 1)])
    both = hulls.joined(rod, hulls.triangles(soup([wall])))
    assert both.points.shape == (3, 3, 3)
    assert both.owner.tolist() == [5, 0, 0]
    self_gap = hulls.gap(hulls.take(both, np.array([0])), hulls.take(both, np.array([1])))
    assert self_gap == pytest.approx(1.0 - 0.1)  # from (1, 1, 1) to the plane y = 2


def test_the_space_of_a_line_set_is_an_upright_slab():
    start, end = np.array([[-5.0], [2.0], [6.0]]), np.array([[5.0], [2.0], [6.0]])
    slab = hulls.spaces(start, end, half_width=0.15, low=0.0, high=20.0)
    point = hulls.hulls(np.array([[[1.0]], [[3.0]], [[2.0]]]), owner=np.array([0]))
    assert hulls.gap(point, slab) == pytest.approx(1.0 - 0.15)
