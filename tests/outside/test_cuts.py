"""Fall plans and sections: where cones and planes cut scenery, by trimesh and shapely.

The cones are trimesh's own, many-sided. What they cut from a plane is what shapely leaves of it once the
shadow of what stands before it is taken off.
"""

from __future__ import annotations

import numpy as np
import pytest
import shapely
import trimesh
import trimesh.ray.ray_triangle as slow
from shapely.geometry import LineString, MultiPoint
from shapely.geometry import box as rectangle

from aimcalc.geometry.rays import caster
from aimcalc.geometry.solids import box, cut, deck_strips, panel, soup, tube
from aimcalc.solid.light_fall import fall_outlines, light_falls
from aimcalc.solid.side_view import centre_plane, cut_solids, plane_of
from tests.geometry.test_occlusion import Everything
from tests.lenses import facing
from tests.other_meshes import mesh_of
from tests.shows import rig_of
from tests.studies import cases

NEAR = 2e-3  # m
LOW, HIGH = np.array([-1.5, 2.0, 0.0]), np.array([1.2, 4.0, 0.8])  # a platform


def cone_of(lens, axis, up, half, stretch):
    """A field as a solid cone of trimesh, 60 m long, drawn out towards `up` and to the side."""
    made = trimesh.creation.cone(radius=60 * np.tan(half), height=60, sections=4000)
    made.apply_translation((0, 0, -60))  # the apex at the origin, the cone below it
    made.apply_scale((stretch[0], stretch[1], 1.0))
    turn = np.eye(4)
    turn[:3, :3] = np.stack((up, np.cross(-axis, up), -axis), axis=1)
    made.apply_transform(turn)
    made.apply_translation(lens)
    return made


def rim_on(cone, point, normal, keep):
    """The curve that a plane cuts from a cone, seen in its two coordinates `keep`."""
    path = cone.section(plane_normal=normal, plane_origin=point)
    if path is None:
        return shapely.MultiLineString()
    return shapely.union_all([LineString(np.asarray(line)[:, keep]) for line in path.discrete])


def shadow_on_deck(lens):
    """What the platform keeps from the deck: its base and its corners as the lens throws them."""
    corners = np.array(np.meshgrid(*zip(LOW, HIGH, strict=True))).reshape(3, -1).T
    reach = lens[2] / (lens[2] - corners[:, 2])
    return MultiPoint((lens + reach[:, None] * (corners - lens))[:, :2]).convex_hull


def outline_by_surface(lens, cone):
    """The field's edge on the deck, the platform's top and the sides that face the lens."""
    top = rectangle(LOW[0], LOW[1], HIGH[0], HIGH[1])
    yield (
        "deck",
        0.0,
        (0, 1),
        rim_on(cone, (0, 0, 0), (0, 0, 1), (0, 1)).difference(shadow_on_deck(lens)),
    )
    yield "platform", HIGH[2], (0, 1), rim_on(cone, HIGH, (0, 0, 1), (0, 1)).intersection(top)
    for k, other in ((0, 1), (1, 0)):
        side = rectangle(LOW[other], LOW[2], HIGH[other], HIGH[2])
        for at, faces in ((LOW[k], lens[k] < LOW[k]), (HIGH[k], lens[k] > HIGH[k])):
            if faces:
                keep, normal = (other, 2), np.eye(3)[k]
                point = np.eye(3)[k] * at
                yield (
                    "platform",
                    (k, at),
                    keep,
                    rim_on(cone, point, normal, keep).intersection(side),
                )


def ours_on(pieces, at, keep):
    """The pieces of our outline that lie in one plane, as lines."""
    k, at = at if isinstance(at, tuple) else (2, at)
    lines = []
    for piece in pieces:
        points = piece.points
        if piece.closed:
            points = np.concatenate((points, points[:, :1]), axis=1)
        if np.abs(points[k] - at).max() < 1e-4:
            lines.append(LineString(points[list(keep)].T))
    return shapely.union_all(lines)


@pytest.mark.long
@pytest.mark.parametrize("stretch", [(1.0, 1.0), (0.5, 1.6)])
def test_outlines_on_deck_and_platform_are_the_cuts_of_another_librarys_cone(stretch):
    rng = np.random.default_rng(31)
    room = caster(soup([box(LOW, HIGH), deck_strips(rake=0, rake_from=0)]))
    told = dict.fromkeys(("deck", "platform"), 0)
    fields = cases(8, 25)
    for _ in range(fields):
        lens = rng.uniform((-4, -5, 3.5), (4, 9, 6))
        face = rng.uniform(LOW, HIGH)
        half = np.radians(rng.uniform(4, 14))
        axis, up = facing(lens[:, None], face[:, None])
        cone = cone_of(lens, axis[:, 0], up[:, 0], half, stretch)
        pieces = fall_outlines(
            room,
            lens=lens[:, None],
            axis=axis,
            up=up,
            field=np.array([2 * half]),
            stretch=np.array(stretch)[:, None],
            rays=1440,
        )
        whole = 0.0
        for name, at, keep, theirs in outline_by_surface(lens, cone):
            mine = [p for p in pieces if (p.owner == 0) == (name == "platform")]
            ours = ours_on(mine, at, keep)
            whole += ours.length
            assert ours.length == pytest.approx(theirs.length, abs=0.02)
            if theirs.length > 0.02:
                told[name] += 1
                assert theirs.difference(ours.buffer(NEAR)).length < 0.01
                assert ours.difference(theirs.buffer(NEAR)).length < 0.01
        lines = [np.concatenate((p.points, p.points[:, : int(p.closed)]), axis=1) for p in pieces]
        drawn = sum(np.linalg.norm(np.diff(line), axis=0).sum() for line in lines)
        assert whole == pytest.approx(drawn, abs=1e-3)  # and nothing lies anywhere else
    assert min(told.values()) > 0.6 * fields


def test_the_playhouses_fall_plan_is_where_another_engines_rays_fall():
    rig = rig_of("playhouse")
    scene = rig.scene
    solids = [*scene.solids]
    meshes = [mesh_of(scene, s) for s in solids]
    ground = trimesh.creation.box((600, 600, 0.5))
    ground.apply_translation((0, 0, -0.25))
    meshes.append(ground)
    names = [s.name for s in solids] + ["deck"]
    triangles = np.concatenate([m.triangles for m in meshes])
    seen = 0
    for fall in light_falls(rig):
        lens = rig.aims.lens[:, fall.unit]
        points = fall.points.T[2:-2:7]  # the ends lie on edges, where either surface is met
        if not len(points):
            continue
        way = points - lens
        way = way / np.linalg.norm(way, axis=1)[:, None]
        _, ray, place = slow.ray_triangle_id(
            triangles, np.tile(lens, (len(way), 1)), way, tree=Everything(triangles)
        )
        reach = ((place - lens) * way[ray]).sum(axis=1)
        nearest = np.full(len(way), np.inf)
        np.minimum.at(nearest, ray[reach > 0], reach[reach > 0])
        assert nearest == pytest.approx(np.linalg.norm(points - lens, axis=1), abs=1e-3), fall
        surface = meshes[names.index(fall.surface)]
        _, off, _ = trimesh.proximity.closest_point(surface, points)
        assert off.max() < 1e-4
        seen += len(points)
    assert seen > 1000


def segments(lines):
    """Two-dimensional lines (2, 2 ends, K) as shapely has them, those of no length left out."""
    ends = [line for line in lines.transpose(2, 1, 0) if np.linalg.norm(line[0] - line[1]) > 1e-9]
    return shapely.union_all([LineString(line) for line in ends])


@pytest.mark.parametrize(("name", "least"), [("playhouse", 100), ("raked", 8)])
def test_sections_of_the_worked_scenes_are_another_librarys(name, least):
    rig = rig_of(name)
    planes = [centre_plane(), *(plane_of(rig, k) for k in range(len(rig.units)))]
    cuts = 0
    for plane in planes:
        normal = np.array([plane.along[1], -plane.along[0], 0.0])
        ours = dict(cut_solids(rig, plane))
        for solid in rig.scene.solids:
            mesh = mesh_of(rig.scene, solid)
            if np.abs((mesh.vertices - plane.origin) @ normal).min() < 1e-6:
                continue  # an edge in the plane itself: one rule or another
            lines = trimesh.intersections.mesh_plane(mesh, normal, plane.origin)
            theirs = segments(plane.seen(lines.transpose(2, 1, 0)))
            if solid.name not in ours:
                assert theirs.is_empty, solid.name
                continue
            cuts += 1
            mine = segments(ours[solid.name])
            assert mine.length == pytest.approx(theirs.length, abs=1e-6), solid.name
            assert mine.hausdorff_distance(theirs) < 1e-6
    assert cuts >= least


def test_random_planes_cut_random_solids_as_another_library_does():
    rng = np.random.default_rng(2)
    shapes = [box(p, p + rng.uniform(0.2, 2, 3)) for p in rng.uniform(-3, 3, (12, 3))]
    shapes += [tube(p, p + rng.normal(0, 2, 3), radius=0.2) for p in rng.uniform(-3, 3, (12, 3))]
    leaning = np.array([(0, 0, 0), (2, 0, 0), (2, 1, 2), (0, 1, 2)])
    shapes += [panel(p + leaning) for p in rng.uniform(-3, 3, (6, 3))]
    whole = soup(shapes)
    crossed = 0
    for _ in range(30):
        normal, point = rng.normal(0, 1, 3), rng.uniform(-2, 2, 3)
        normal /= np.linalg.norm(normal)
        ours = cut(whole, point=point, normal=normal)
        for k, shape in enumerate(shapes):
            mesh = trimesh.Trimesh(shape.vertices.T, shape.faces.T, process=False)
            theirs = trimesh.intersections.mesh_plane(mesh, normal, point)
            mine = np.stack((ours.start, ours.end), axis=2)[:, ours.owner == k].transpose(1, 2, 0)
            assert len(mine) == len(theirs)
            crossed += bool(len(mine))
            if len(mine):
                # each line by its middle and the square of its length, in one order
                keys = [
                    np.column_stack((x.mean(axis=1), ((x[:, 0] - x[:, 1]) ** 2).sum(axis=1)))
                    for x in (mine, theirs)
                ]
                a, b = (k[np.lexsort(k.round(6).T)] for k in keys)
                assert a == pytest.approx(b, abs=1e-9)
    assert crossed > 100
