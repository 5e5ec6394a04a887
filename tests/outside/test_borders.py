"""How high borders may hang, against trimesh's slow rays: those of every field, every line of sight."""

from __future__ import annotations

import numpy as np
import pytest
import trimesh.ray.ray_triangle as slow
from scipy.spatial.transform import Rotation

from aimcalc.findings.in_light import border_trims
from aimcalc.geometry.sightlines import Fields, field_tops
from aimcalc.solid.side_view import borders_of, front_row_of, masked, sight_points
from tests.geometry.test_occlusion import Everything
from tests.other_meshes import mesh_of, upright
from tests.shows import rig_of
from tests.studies import cases

HAIR = 0.001  # m
COARSE = 0.03  # m: what a fan of rays may leave out between two of them
TOP = 60.0  # m: a border is taken to reach up without end
RINGS, TURNS, RIM = 16, 96, 720


@pytest.fixture(scope="module")
def rig():
    return rig_of("playhouse")


@pytest.fixture(scope="module")
def told(rig):
    """Name, corners and range of every border of the playhouse."""
    borders = borders_of(rig.scene)[::-1]  # nothing may hang on their order
    ranges = border_trims(rig, borders, front_row_of(rig.scene))
    solids = [rig.scene.solids[k] for k in borders]
    found = [(s.name, np.array(s.panel), t) for s, t in zip(solids, ranges, strict=True)]
    assert len(found) >= 3
    return found


def first(meshes, start, way):
    """The number of the mesh that each ray meets first (-1: none) and the share of the way to it."""
    triangles = np.concatenate([m.triangles for m in meshes])
    owner = np.repeat(np.arange(len(meshes)), [len(m.triangles) for m in meshes])
    face, ray, place = slow.ray_triangle_id(triangles, start, way, tree=Everything(triangles))
    share = ((place - start[ray]) * way[ray]).sum(axis=1) / (way[ray] ** 2).sum(axis=1)
    met, far = np.full(len(start), -1), np.full(len(start), np.inf)
    for k in np.argsort(-share, kind="stable"):  # the nearest is written last
        if share[k] > 0:
            met[ray[k]], far[ray[k]] = owner[face[k]], share[k]
    return met, far


def fan(lens, axis, face, half):
    """Rays that fill a field, each as long as it is to the plane through the face, (R, 3)."""
    aside = np.cross(axis, (0.3, 0.2, 0.9))
    off = np.linspace(0.05, 1 - 1e-6, RINGS) * half
    tipped = Rotation.from_rotvec(np.outer(off, aside / np.linalg.norm(aside))).apply(axis)
    turns = Rotation.from_rotvec(np.outer(np.arange(TURNS) * 2 * np.pi / TURNS, axis))
    rim = Rotation.from_rotvec(np.outer(np.arange(RIM) * 2 * np.pi / RIM, axis))
    way = np.concatenate([*(turns.apply(ray) for ray in tipped), rim.apply(tipped[-1])])
    way *= ((face - lens) @ axis / (way @ axis))[:, None]
    if lens[2] > face[2]:  # and no lower than the face
        way *= np.minimum(1.0, (face - lens)[2] / np.minimum(way[:, 2], -1e-9))[:, None]
    return np.tile(lens, (len(way), 1)), way


def fan_of(rig, k):
    aims, given = rig.aims, rig.arrays
    return fan(aims.lens[:, k], aims.axis[:, k], given.point[:, k], given.field[k] / 2)


def test_above_its_low_bound_a_border_is_clear_of_every_ray_and_below_it_cuts_the_unit_told(
    rig, told
):
    bounded = [(name, corners, t) for name, corners, t in told if np.isfinite(t.low)]
    assert len(bounded) >= 2
    clear = [upright(corners, t.low + HAIR, TOP) for _, corners, t in bounded]
    for k in range(len(rig.units)):
        start, way = fan_of(rig, k)
        met, share = first(clear, start, way)
        assert not (share < 1).any(), (rig.names[k], bounded[met[share < 1][0]][0])
    for name, corners, t in bounded:
        start, way = fan_of(rig, t.low_unit)
        _, share = first([upright(corners, t.low - COARSE, TOP)], start, way)
        assert (share < 1).any(), name


def test_up_to_its_high_bound_a_border_hides_all_in_its_charge_and_above_it_shows_the_unit_told(
    rig, told
):
    hidden, eyes = masked(rig), front_row_of(rig.scene).eyes
    corners = sight_points(rig, hidden)
    unit = np.tile(np.repeat(hidden, corners.shape[2]), eyes.shape[1])
    points = np.tile(corners.reshape(3, -1).T, (eyes.shape[1], 1))
    start = np.repeat(eyes.T, corners[0].size, axis=0)
    names = {name for name, _, _ in told}
    others = [mesh_of(rig.scene, s) for s in rig.scene.solids if s.name not in names]
    # From the unit towards the eye: the border in charge is the first whose plan it passes, at any height.
    charge, _ = first([upright(c, -TOP, TOP) for _, c, _ in told], points, start - points)
    to_point = (points - start) * (1 - 0.01 / np.linalg.norm(points - start, axis=1))[:, None]
    _, share = first(others, start, to_point)
    free = (share > 1) & (charge >= 0)
    bounded = 0
    for k, (name, panel, t) in enumerate(told):
        mine = np.flatnonzero(free & (charge == k))
        if not mine.size:
            assert t.high == np.inf, name
            continue
        bounded += 1
        rays = start[mine], points[mine] - start[mine]
        _, share = first([upright(panel, t.high - HAIR, TOP)], *rays)
        assert (share < 1).all(), name
        _, share = first([upright(panel, t.high + HAIR, TOP)], *rays)
        assert t.high_unit in unit[mine[share > 1]], name
    assert bounded >= 2


@pytest.mark.long
def test_how_high_a_field_passes_a_border_is_what_its_rays_say_for_units_from_every_side():
    rng, count = np.random.default_rng(12), cases(20, 60)
    lens, face = (
        rng.uniform((-9, -8, 0), (9, 9, 7), (count, 3)),
        rng.uniform((-5, -1, 1), (5, 8, 5), (count, 3)),
    )
    axis = (face - lens) / np.linalg.norm(face - lens, axis=1)[:, None]
    half = np.radians(rng.uniform(5, 25, count))
    some = Fields(lens.T, axis.T, face.T, half)
    passed = near = 0
    for ends in ([(-8, 2), (8, 2)], [(-2, 3), (2, 3)], [(-6, 2.5), (5, 5.5)], [(3, -2), (3.5, 7)]):
        corners = np.array([(*end, z) for z in (5, 8) for end in ends])[[0, 1, 3, 2]]
        tops = field_tops(corners.T, some)
        for k, top in enumerate(tops):
            start, way = fan(lens[k], axis[k], face[k], half[k])
            _, share = first([upright(corners, max(top, -TOP) + HAIR, TOP)], start, way)
            assert not (share < 1 - 1e-9).any()
            if np.isfinite(top):
                passed += 1
                _, share = first([upright(corners, top - 0.1, TOP)], start, way)
                near += (share < 1).any()
    assert 2 / 3 * count < passed < 10 / 3 * count
    # A top at a corner between the border's side and the plane through the face needs a finer fan.
    assert near >= 0.95 * passed
