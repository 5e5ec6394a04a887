"""Pool sizes against printed factors, and pools against a cone cut by another library's geometry."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
import trimesh

from aimcalc.geometry.pools import level_pools
from aimcalc.scene.model import Stand, Unit
from aimcalc.solid.rig import solve_rig
from tests.rigs import a_kind, a_scene

# Multiplying factors printed by a theatre technician's public answer (wyzant.com/resources/answers/881291).
# The same list prints .31 for a nominal 19, which is not 2 tan 9.5: a nominal angle is not a geometric one.
FACTORS = [(50, 0.93), (36, 0.65), (26, 0.46), (10, 0.17), (5, 0.09)]


def field_diameter_at_10_m(field: float) -> float:
    unit = Unit(position="s", number="1", kind="k", mount="stand", point=(0.0, 10.0, 0.0))
    kind = a_kind(field=float(field), drop_over=0.0)
    stand = Stand(name="s", x=0.0, y=0.0, z=0.0)
    (told,) = solve_rig(a_scene([unit], stands=[stand], pipes=[], kinds=[kind])).answers
    return told.field_diameter


@pytest.mark.parametrize(("angle", "factor"), FACTORS)
def test_field_diameter_agrees_with_the_printed_factor(angle, factor):
    assert field_diameter_at_10_m(angle) / 10 == pytest.approx(factor, abs=0.005)


SIDES = (
    4000  # of the cone as trimesh builds it: its cuts are inside the true ones by 3 in ten million
)


def cut(lens, axis, half, level):
    """The outline that trimesh's section of a solid cone makes with a level plane, plan points (N, 2)."""
    long = 400.0
    cone = trimesh.creation.cone(radius=long * np.tan(half), height=long, sections=SIDES)
    cone.apply_translation((0, 0, -long))  # the apex at the origin, the cone below it
    cone.apply_transform(trimesh.geometry.align_vectors((0, 0, -1), axis))
    cone.apply_translation(lens)
    (rim,) = cone.section(plane_normal=(0, 0, 1), plane_origin=(0, 0, level)).discrete
    return rim[:, :2]


def test_closed_pools_are_the_cuts_of_another_librarys_cone():
    """trimesh cuts the cone, shapely measures the cut."""
    rng = np.random.default_rng(8)
    for upside in [-1, 1] * 20:  # the plane below the lens and above it
        half, heading = np.radians(rng.uniform((3, 0), (30, 360)))
        down = rng.uniform(half + np.radians(6), np.pi / 2)
        axis = np.array((np.sin(heading), np.cos(heading), upside * np.tan(down))) * np.cos(down)
        lens, level = rng.uniform(-5, 5, 3), rng.uniform(1, 8)
        level = lens[2] + upside * level
        rim = cut(lens, axis, half, level)
        pool = level_pools(lens[:, None], axis[:, None], np.array([half]), np.array([level]))
        assert pool.closed[0]
        shape = shapely.Polygon(rim)
        assert pool.area[0] == pytest.approx(shape.area, rel=1e-5)
        along = (rim - lens[:2]) @ (np.sin(heading), np.cos(heading))
        across = (rim - lens[:2]) @ (np.cos(heading), -np.sin(heading))
        reach = pool.length[0]
        assert pool.near[0] == pytest.approx(along.min(), abs=1e-5 * reach)
        assert pool.far[0] == pytest.approx(along.max(), abs=1e-5 * reach)
        assert pool.width[0] == pytest.approx(np.ptp(across), rel=1e-5)
        assert pool.centre[:2, 0] == pytest.approx(shape.centroid.coords[0], abs=1e-5 * reach)
