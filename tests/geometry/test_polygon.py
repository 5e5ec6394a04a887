"""Plan polygons as triangles, and cut in two."""

from __future__ import annotations

import numpy as np
import pytest
from matplotlib.path import Path
from scipy.spatial import ConvexHull

from aimcalc.geometry.polygon import hull, split, triangulated

SQUARE = [(0, 0), (4, 0), (4, 3), (0, 3)]
# A stage with an apron, and one with a thrust: neither is convex.
APRON = [(-22, 0), (-16, 0), (-14, -4), (14, -4), (16, 0), (22, 0), (22, 29), (-22, 29)]
THRUST = [
    (-8, 0),
    (-3, 0),
    (-3, -6),
    (3, -6),
    (3, 0),
    (8, 0),
    (8, 5),
    (2, 5),
    (0, 2),
    (-2, 5),
    (-8, 5),
]


def outline(corners):
    return np.array(corners, dtype=float).T


# By hand: the apron is 44 by 29 and a trapezium of 32 and 28 by 4; the thrust 16 by 5, 6 by 6, less a notch.
AREAS = [
    (SQUARE, 12.0),
    (APRON, 1276.0 + 120.0),
    (THRUST, 80.0 + 36.0 - 6.0),
    ([(0, 0), (2, 0), (1, 1)], 1.0),
]


def area(corners):
    """The shoelace formula."""
    x, y = np.array(corners, dtype=float).T
    return abs((x * np.roll(y, -1) - np.roll(x, -1) * y).sum()) / 2


@pytest.mark.parametrize(("corners", "expected"), AREAS)
@pytest.mark.parametrize("turned", [False, True])
def test_the_triangles_cover_the_polygon_once_and_nothing_else(corners, expected, turned):
    corners = corners[::-1] if turned else corners
    parts = [[corners[k] for k in face] for face in triangulated(outline(corners)).T]
    assert len(parts) == len(corners) - 2
    assert sum(map(area, parts)) == pytest.approx(expected)
    points = np.random.default_rng(1).uniform(
        outline(corners).min(), outline(corners).max(), (4000, 2)
    )
    covered = sum(Path(part).contains_points(points).astype(int) for part in parts)
    # Points are compared with what matplotlib says of the whole polygon.
    assert covered.tolist() == Path(corners).contains_points(points).astype(int).tolist()


@pytest.mark.parametrize("turned", [False, True])
def test_all_triangles_are_anticlockwise(turned):
    corners = outline(APRON[::-1] if turned else APRON)
    a, b, c = (corners[:, face] for face in triangulated(corners))
    area = (b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1])
    assert (area > 0).all()


@pytest.mark.parametrize(
    ("y", "below"),
    [(-5.0, 0.0), (-2.0, 28 * 2 + 2**2 / 2), (0.0, 120.0), (12.5, 120 + 44 * 12.5), (40.0, 1396.0)],
)
def test_a_polygon_cut_across_the_stage_keeps_its_parts(y, below):
    down, up = split(outline(APRON), y)
    for part, expected in ((down, below), (up, 1396.0 - below)):
        assert (area(part.T) if part.shape[1] > 2 else 0.0) == pytest.approx(expected)


def test_a_polygon_of_fewer_than_three_corners_has_no_triangle():
    assert triangulated(outline([(0, 0), (1, 1)])).shape == (3, 0)
    assert triangulated(np.zeros((2, 0))).shape == (3, 0)


def test_an_outline_is_what_another_library_says():
    points = np.random.default_rng(3).normal(size=(2, 80))
    told = hull(points)
    reference = ConvexHull(points.T)
    x, y = told
    assert (x * np.roll(y, -1) - np.roll(x, -1) * y).sum() / 2 == pytest.approx(reference.volume)
    assert told.shape[1] == len(reference.vertices)


def test_fewer_than_three_points_are_their_own_outline():
    assert hull(np.array([[1.0, 1.0], [2.0, 2.0]])).tolist() == [[1.0], [2.0]]
    assert hull(np.zeros((2, 0))).shape == (2, 0)
