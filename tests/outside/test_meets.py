"""Where light stops: trimesh's own slow rays, a triangle at a time, and shapely's outline of the deck.

The meshes are built by trimesh from what the scene says; nothing of ours is in them.
"""

from __future__ import annotations

from pathlib import Path

import msgspec
import numpy as np
import pytest
import trimesh
import trimesh.ray.ray_triangle
from shapely.geometry import Point as ShapelyPoint
from shapely.geometry import Polygon

from aimcalc.scene.loading import load_scene
from aimcalc.scene.model import Solid, Stage
from aimcalc.solid.rig import solve_rig
from tests.other_meshes import mesh_of
from tests.rigs import random_scene

SCENES = Path(__file__).parents[2] / "scenes"
SQUARE = ((-5.0, 0.0), (5.0, 0.0), (5.0, 8.0), (-5.0, 8.0))


def room(scene):
    """The solids of a scene as meshes of another library, and the name of each of their triangles."""
    meshes = [mesh_of(scene, solid) for solid in scene.solids]
    names = [s.name for s, mesh in zip(scene.solids, meshes, strict=True) for _ in mesh.faces]
    far, stage = 2e4, scene.stage
    for y0, y1 in ((-far, stage.rake_from), (stage.rake_from, far)):
        z0, z1 = (deck_at(scene, y) for y in (y0, y1))
        corners = [(-far, y0, z0), (far, y0, z0), (far, y1, z1), (-far, y1, z1)]
        meshes.append(trimesh.Trimesh(corners, [(0, 1, 2), (0, 2, 3)], process=False))
        names += ["deck"] * 2
    return trimesh.util.concatenate(meshes), names


def first_of_all(scene, answers):
    """The name and point that the other engine gives for every lens axis; None: nothing."""
    whole, names = room(scene)
    lens = np.array([a.lens for a in answers])
    way = np.array([a.face for a in answers]) - lens
    way /= np.linalg.norm(way, axis=1)[:, None]
    engine = trimesh.ray.ray_triangle.RayMeshIntersector(whole)
    points, rays, faces = engine.intersects_location(lens, way)
    # A point within a centimetre of the deck's edge is on the deck.
    stage = Polygon(scene.stage.outline) if scene.stage.outline else None
    found = [(np.inf, None)] * len(answers)
    for point, ray, face in zip(points, rays, faces, strict=True):
        far = float(np.linalg.norm(point - lens[ray]))
        off = names[face] == "deck" and stage and stage.distance(ShapelyPoint(point[:2])) > 0.01
        if far < found[ray][0] and not off:
            found[ray] = (far, (names[face], point))
    return [what for _, what in found]


def deck_at(scene, y):
    return scene.stage.rake * max(0.0, y - scene.stage.rake_from)


def assert_alike(scene):
    rig = solve_rig(scene)
    under = {a.unit for a in rig.answers if a.lens and a.lens[2] < deck_at(scene, a.lens[1])}
    answers = [a for a in rig.answers if a.lens and a.throw and a.unit not in under]
    met = 0
    for answer, other in zip(answers, first_of_all(scene, answers), strict=True):
        if other is None:
            assert answer.meets is None, answer.unit
            continue
        name, point = other
        assert answer.meets.name == name, answer.unit
        assert answer.meets.point == pytest.approx(tuple(point), rel=1e-9, abs=1e-6)
        met += 1
    return met


@pytest.mark.parametrize(("name", "least"), [("playhouse", 70), ("raked", 12), ("studio", 9)])
def test_the_worked_scenes_stop_light_where_another_engine_does(name, least):
    assert assert_alike(load_scene(SCENES / name)) >= least


@pytest.mark.parametrize("mount", ["under", "over", "out", "arm", "direct", "stand"])
@pytest.mark.parametrize("outline", [(), SQUARE])
def test_random_rigs_stop_light_where_another_engine_does(mount, outline):
    rng = np.random.default_rng(len(mount) + len(outline))
    scene = random_scene(mount, 60, 11)
    low = rng.uniform((-7, -2, 0), (6, 9, 2), (12, 3))
    boxes = np.concatenate((low, low + rng.uniform(0.05, 2.0, (12, 3))), axis=1)
    flats = rng.uniform((-7, -2, 0), (7, 9, 4), (12, 3))[:, None] + rng.normal(0, 1.5, (12, 3, 3))
    fourth = flats[:, 0] + flats[:, 2] - flats[:, 1]
    solids = [Solid(name=f"box {k}", box=tuple(b)) for k, b in enumerate(boxes.tolist())]
    solids += [
        Solid(name=f"flat {k}", panel=tuple(map(tuple, np.vstack((p, q[None])).tolist())))
        for k, (p, q) in enumerate(zip(flats, fourth, strict=True))
    ]
    stage = Stage(outline=outline, rake=0.08, rake_from=1.0)
    scene = msgspec.structs.replace(scene, solids=tuple(solids), stage=stage)
    assert assert_alike(scene) > 20
