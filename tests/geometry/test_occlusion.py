"""Rays and solids: limits, names, distances, and the traps of a single-precision engine."""

from __future__ import annotations

import sys

import numpy as np
import pytest
import trimesh.ray.ray_triangle as slow

from aimcalc.geometry import rays as occlusion
from aimcalc.geometry.solids import Shape, box, panel, soup
from aimcalc.geometry.vectors import points

WALL = panel([(-5, 10, -5), (5, 10, -5), (5, 10, 5), (-5, 10, 5)])
UPSTAGE = points([(0, 1, 0)])
FROM_HERE = points([(0.3, 0, 0.1)])


def rays(count, seed=0):
    """Starts and unit directions into a room of some ten metres."""
    rng = np.random.default_rng(seed)
    start = rng.uniform(-8, 8, (3, count))
    direction = rng.normal(size=(3, count))
    return start, direction / np.linalg.norm(direction, axis=0)


def blobs(count, seed=1):
    """A soup of small loose triangles, each a solid of its own."""
    rng = np.random.default_rng(seed)
    corners = rng.uniform(-8, 8, (count, 1, 3)) + rng.normal(0, 1.0, (count, 3, 3))
    return soup([Shape(c.T, np.array([[0], [1], [2]])) for c in corners])


@pytest.mark.parametrize(("limit", "stands"), [(9.999, False), (10.001, True), (np.inf, True)])
def test_only_what_is_nearer_than_the_limit_stands_in_the_way(limit, stands):
    ready = occlusion.caster(soup([WALL]))
    assert occlusion.occluded(ready, FROM_HERE, UPSTAGE, np.array([limit])) == [stands]
    assert (occlusion.first_hits(ready, FROM_HERE, UPSTAGE, np.array([limit])).face >= 0) == [
        stands
    ]


@pytest.mark.parametrize("limit", [0.0, -1.0, -np.inf, np.nan])
def test_a_ray_without_length_meets_nothing(limit):
    ready = occlusion.caster(soup([WALL]))
    assert not occlusion.occluded(ready, FROM_HERE, UPSTAGE, np.array([limit]))


@pytest.mark.parametrize("row", ["start", "direction"])
def test_a_ray_that_is_not_a_number_meets_nothing_and_spoils_no_other(row):
    ready = occlusion.caster(soup([WALL]))
    start, direction = np.repeat(FROM_HERE, 2, axis=1), np.repeat(UPSTAGE, 2, axis=1)
    (start if row == "start" else direction)[:, 0] = np.nan
    assert occlusion.occluded(ready, start, direction, np.array([50.0, 50.0])).tolist() == [0, 1]


def test_nothing_is_met_where_there_are_no_solids():
    ready = occlusion.caster(soup([]))
    assert not occlusion.occluded(ready, FROM_HERE, UPSTAGE, np.array([99.0]))
    hits = occlusion.first_hits(ready, FROM_HERE, UPSTAGE, np.array([99.0]))
    assert hits.face.tolist() == [-1]
    assert np.isnan(hits.distance).all()
    assert occlusion.owner_of(ready.soup, hits.face).tolist() == [-1]


def test_as_many_limits_as_rays_are_asked_for():
    ready = occlusion.caster(soup([WALL]))
    start, direction = np.repeat(FROM_HERE, 3, axis=1), np.repeat(UPSTAGE, 3, axis=1)
    with pytest.raises(ValueError, match="3 starts, 3 directions, 2 limits"):
        occlusion.occluded(ready, start, direction, np.full(2, 5.0))


def test_the_first_solid_on_the_way_is_named_with_its_distance():
    ready = occlusion.caster(soup([WALL, box((-1, 4, -1), (1, 5, 1))]))
    hits = occlusion.first_hits(ready, FROM_HERE, UPSTAGE, np.array([50.0]))
    assert occlusion.owner_of(ready.soup, hits.face).tolist() == [1]
    assert hits.distance == pytest.approx(4.0, abs=1e-12)


@pytest.mark.parametrize("far", [0.0, 1e4, -3e5])
def test_a_stage_drawn_far_from_zero_loses_no_precision(far):
    there = np.full((3, 1), far)
    moved = Shape(WALL.vertices + there, WALL.faces)
    ready = occlusion.caster(soup([moved]))
    slant = points([(0.1, 0.9, 0.2)]) / np.linalg.norm([0.1, 0.9, 0.2])
    hits = occlusion.first_hits(ready, FROM_HERE + there, slant, np.array([50.0]))
    # The wall is 10 m upstage: 10 over the share of the ray that goes upstage.
    assert hits.distance == pytest.approx(10 / slant[1], abs=1e-9)


def test_no_ray_slips_between_two_triangles_that_share_an_edge():
    ready = occlusion.caster(soup([WALL]))
    share = np.linspace(0.001, 0.999, 4001)
    on_the_fold = np.stack((-5 + 10 * share, np.full(4001, 10.0), -5 + 10 * share))
    way = on_the_fold - FROM_HERE
    length = np.linalg.norm(way, axis=0)
    start = np.repeat(FROM_HERE, 4001, axis=1)
    assert occlusion.occluded(ready, start, way / length, length + 0.01).all()


class Everything:
    """Stands in for a tree of boxes: every triangle is a candidate for every ray."""

    def __init__(self, triangles):
        self.count = len(triangles)
        corners = triangles.reshape(-1, 3)
        self.bounds = np.concatenate((corners.min(axis=0), corners.max(axis=0)))

    def intersection(self, _):
        return range(self.count)


def test_a_slow_engine_of_another_library_agrees_on_every_ray():
    room = blobs(500)
    start, direction = rays(600)
    limit = np.random.default_rng(5).uniform(1, 12, 600)
    triangles = room.corners.transpose(2, 0, 1)
    triangle, ray, place = slow.ray_triangle_id(
        triangles, start.T, direction.T, tree=Everything(triangles)
    )
    distance = np.linalg.norm(place - start.T[ray], axis=1)
    near = distance < limit[ray]
    expected = np.full(600, np.inf)
    np.minimum.at(expected, ray[near], distance[near])

    ready = occlusion.caster(room)
    stands = occlusion.occluded(ready, start, direction, limit)
    hits = occlusion.first_hits(ready, start, direction, limit)
    assert 100 < np.isfinite(expected).sum() < 500  # both kinds are well represented
    assert stands.tolist() == np.isfinite(expected).tolist()
    assert hits.distance[stands] == pytest.approx(expected[stands], abs=1e-9)
    first = {(r, t) for r, t, d in zip(ray, triangle, distance, strict=True) if d == expected[r]}
    assert {(r, hits.face[r]) for r in np.flatnonzero(stands)} == first


def test_without_the_ray_library_the_user_is_told_in_a_sentence(monkeypatch):
    monkeypatch.setitem(sys.modules, "embreex.rtcore_scene", None)
    with pytest.raises(occlusion.NoRayEngineError, match=r"embreex.*is not installed\. Install it"):
        occlusion.caster(soup([WALL]))
