"""Gaps and plan polygons against shapely (GEOS): areas, centres, counts, insides, parts and triangles."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from shapely.geometry import LineString, Point, Polygon, box

from aimcalc.geometry import polygon
from aimcalc.light import grid as g
from aimcalc.light.evenness import find_gaps, open_area
from tests.lit import FACE, a_lamp, a_rig, a_unit
from tests.shows import a_show, rig_of

SMALLEST = 0.1  # m2
TOUCH = 1e-7  # m: cells that meet at a corner only are one hole


def holes_of(cells):
    """Dark cells as polygons joined by shapely, those of `SMALLEST` m2 or more, largest first."""
    joined = shapely.union_all([cell.buffer(TOUCH, join_style="mitre") for cell in cells])
    parts = joined.geoms if hasattr(joined, "geoms") else [joined]
    return sorted((p for p in parts if p.area >= SMALLEST), key=lambda p: -p.area)


def dark_cells(grid, values, below):
    x, y = grid.plan()
    half_x, half_y = grid.dx / 2, grid.dy / 2
    rows = np.flatnonzero(values < below)
    return [box(x[k] - half_x, y[k] - half_y, x[k] + half_x, y[k] + half_y) for k in rows]


def same_holes(grid, values, below):
    ours, theirs = find_gaps(grid, values, below), holes_of(dark_cells(grid, values, below))
    assert [gap.area for gap in ours] == pytest.approx([p.area for p in theirs], abs=1e-4)
    left = list(theirs)
    for gap in ours:
        match = next(p for p in left if p.buffer(1e-5).covers(Point(gap.darkest)))
        left.remove(match)
        assert gap.area == pytest.approx(match.area, abs=1e-4)
        assert gap.box == pytest.approx(match.bounds, abs=1e-5)
        assert match.buffer(1e-5).covers(Point(gap.centre))
        middle = match.centroid
        if match.buffer(-max(grid.dx, grid.dy)).covers(middle):
            assert gap.centre == pytest.approx((middle.x, middle.y), abs=1e-4)
    assert open_area(grid, values < below) == pytest.approx(sum(p.area for p in theirs), abs=1e-3)
    return ours


@pytest.mark.parametrize("scene", ["studio", "raked", "playhouse"])
def test_the_holes_of_the_worked_scenes_are_those_of_joined_cells(scene):
    study = a_show(rig_of(scene)).light
    told = 0
    for system in study.systems.values():
        told += len(same_holes(study.plane.grid, system.level, system.below))
    assert told > 3


def test_the_holes_of_random_light_on_random_ground_are_those_of_joined_cells():
    rng = np.random.default_rng(21)
    for _ in range(40):
        outline = ring(rng, 7)
        made = g.grid_over(outline, spacing=0.2)
        x, y = made.plan()
        waves = rng.uniform(0.5, 3.0, (2, 3))
        light = sum(np.sin(a * x + 1) + np.cos(b * y) for a, b in waves.T)
        same_holes(made, light, float(np.quantile(light, rng.uniform(0.05, 0.5))))


# One lamp straight down from 4 m over the face plane, Gaussian, field 60, 16000 cd: E(t) = 1000 cos^3 t
# 10^-(t / 30)^2 with t the angle off plumb. Under 300 lx it is dark outside a circle, whose radius scipy's
# root finder has; the hole is the square of 8 by 4 m less that circle. The cells' area is off by at most
# half a cell along the edge.
def test_the_area_of_a_hole_is_that_of_the_real_outline_to_half_a_cell():
    from scipy.optimize import brentq

    def short(t):
        return 1000 * np.cos(t) ** 3 * 10 ** -((np.degrees(t) / 30) ** 2) - 300

    radius = 4 * np.tan(brentq(short, 0.01, 1.0))
    hole = box(-4, -2, 4, 2).difference(Point(0, 0).buffer(radius, quad_segs=400))
    study = a_show(a_rig([a_unit(1, 0.0)])).light
    wash = study.systems["wash"]
    dark = dark_cells(study.plane.grid, wash.level, 300.0)
    gaps = find_gaps(study.plane.grid, wash.level, 300.0)
    edge = 2 * np.pi * radius
    assert abs(sum(gap.area for gap in gaps) - hole.area) < 0.5 * study.plane.grid.spacing * edge
    assert shapely.union_all(dark).symmetric_difference(hole).area < study.plane.grid.spacing * edge
    assert FACE == 1.0
    assert a_lamp().peak_cd == 16000.0


def ring(rng, corners):
    """A simple polygon: corners at growing turns about the middle, at uneven distances."""
    turn = np.sort(rng.uniform(0, 2 * np.pi, corners)) + np.linspace(0, 1e-3, corners)
    reach = rng.uniform(1.0, 5.0, corners)
    return list(zip((reach * np.cos(turn)).tolist(), (reach * np.sin(turn)).tolist(), strict=True))


@pytest.fixture(scope="module")
def rings():
    rng = np.random.default_rng(4)
    made = [ring(rng, int(n)) for n in rng.integers(3, 12, 150)]
    return [r for r in made if Polygon(r).is_valid and Polygon(r).area > 0.5]


def test_areas_are_shapelys(rings):
    assert len(rings) > 80
    for corners in rings:
        assert g.area(corners) == pytest.approx(Polygon(corners).area, rel=1e-12)


def test_what_is_inside_is_what_shapely_covers(rings):
    rng = np.random.default_rng(5)
    x, y = rng.uniform(-5, 5, (2, 400))
    for corners in rings:
        theirs = shapely.covers(Polygon(corners), shapely.points(x, y))
        np.testing.assert_array_equal(g.inside(x, y, corners), theirs)
        np.testing.assert_array_equal(polygon.inside(np.array(corners).T, np.stack((x, y))), theirs)


def test_triangles_make_up_the_polygon_and_do_not_overlap(rings):
    for corners in rings:
        outline = np.array(corners).T
        faces = polygon.triangulated(outline)
        parts = [Polygon(outline[:, face].T) for face in faces.T]
        whole = Polygon(corners)
        assert faces.shape[1] == len(corners) - 2
        assert sum(p.area for p in parts) == pytest.approx(whole.area, rel=1e-9)
        assert shapely.union_all(parts).symmetric_difference(whole).area < 1e-9


def test_a_cut_across_the_stage_gives_shapelys_two_parts(rings):
    rng = np.random.default_rng(6)
    for corners in rings:
        whole, at = Polygon(corners), float(rng.uniform(-3, 3))
        sides = [box(-9, -9, 9, at), box(-9, at, 9, 9)]
        for part, side in zip(polygon.split(np.array(corners).T, at), sides, strict=True):
            theirs = whole.intersection(side)
            if part.shape[1] < 3:
                assert theirs.area < 1e-12
                continue
            # parts on one side may be joined by a cut along the line, of no area: by the shoelace rule
            assert g.area(part.T) == pytest.approx(theirs.area, abs=1e-9)
            assert all(LineString([p, p]).distance(whole) < 1e-9 for p in part.T)
