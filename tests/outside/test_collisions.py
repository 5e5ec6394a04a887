"""Gaps and turns to the aim against a collision library: FCL (python-fcl), on hulls that trimesh builds.

Only the bodies' shapes are ours, square and level. On the way to the aim they are posed by rotations of
scipy, and every distance is FCL's.
"""

from __future__ import annotations

from itertools import combinations, product

import fcl
import numpy as np
import pytest
import trimesh
from scipy.spatial.transform import Rotation

from aimcalc.geometry import bodies, sweep
from aimcalc.geometry.clearance import between_units, to_others
from aimcalc.geometry.hulls import rods, triangles
from aimcalc.geometry.solids import box, panel, soup, tube
from tests.hung import a_row
from tests.shows import rig_of
from tests.studies import cases

CLOSE = 1e-6  # m
TIPS, TURNS = (bodies.BODY, bodies.TOP_HAT), (bodies.ARM, bodies.OTHER_ARM, bodies.BAR)


def model(meshes):
    """One FCL body of several of trimesh's meshes."""
    whole = trimesh.util.concatenate(meshes)
    made = fcl.BVHModel()
    made.beginModel(len(whole.vertices), len(whole.faces))
    made.addSubModel(whole.vertices, whole.faces)
    made.endModel()
    return fcl.CollisionObject(made)


def hulls(corners, parts):
    """Some parts of a unit, corners (3, PARTS, K), as convex meshes; a top hat of no length is none."""
    flat = np.linalg.matrix_rank(corners[:, bodies.TOP_HAT] - corners[:, bodies.TOP_HAT, :1]) < 3
    some = [k for k in parts if not (k == bodies.TOP_HAT and flat)]
    return [trimesh.convex.convex_hull(corners[:, k].T) for k in some]


def distance(a, b):
    """Nothing where their surfaces cross."""
    return max(fcl.distance(a, b, fcl.DistanceRequest(), fcl.DistanceResult()), 0.0)


def rigs():
    crowded = np.random.default_rng(3).uniform((-75, 10), (75, 60), (14, 2)).T
    return {
        "playhouse": rig_of("playhouse").solids.hung,
        "crowded": a_row(*crowded, spacing=13.0),
        "crowded, top hats": a_row(*crowded, spacing=15.0, hat=8, boxy=True),
        "crowded, over": a_row(*crowded, spacing=14.0, over=True, rise=1),
    }


RIGS = rigs()


@pytest.mark.parametrize("name", RIGS)
def test_gaps_between_units_are_the_collision_librarys(name):
    units, within = RIGS[name], 0.25
    corners = bodies.set_parts(units)
    told = between_units(corners, within=within)
    ours = {(a, b): gap for a, b, gap in zip(told.unit, told.other, told.gap, strict=True)}
    made = [model(hulls(corners[:, k], range(bodies.PARTS))) for k in range(units.turn.size)]
    middle, reach = corners.mean(axis=(2, 3)), np.ptp(corners, axis=(2, 3)).max()
    theirs = {}
    for a, b in combinations(range(len(made)), 2):
        if np.linalg.norm(middle[:, a] - middle[:, b]) < 2 * reach:
            theirs[a, b] = distance(made[a], made[b])
    near = {pair for pair, gap in theirs.items() if gap < within - CLOSE}
    assert near <= ours.keys()
    assert len(near) >= 5
    for pair, gap in ours.items():
        assert gap == pytest.approx(theirs[pair], abs=CLOSE)


def test_gaps_to_tubes_boxes_and_panels_are_the_collision_librarys():
    rng = np.random.default_rng(9)
    units = a_row(*rng.uniform((-80, -20), (80, 70), (12, 2)).T, spacing=24.0, hat=6)
    corners = bodies.set_parts(units)
    start = rng.uniform((0, -1, 4), (7, 1, 6), (12, 3)).T
    end = start + rng.normal(0, 1, (3, 12))
    tubes = rods(start, end, radius=0.0, owner=np.arange(12))
    lines = [
        trimesh.Trimesh([a, b, b], [(0, 1, 2)], process=False)
        for a, b in zip(start.T, end.T, strict=True)
    ]
    low = rng.uniform((0, -1, 3.5), (7, 1, 5), (8, 3))
    shapes = [box(p, p + rng.uniform(0.05, 0.6, 3)) for p in low]
    shapes += [
        panel(p + np.array([(0, 0, 0), (0.8, 0, 0), (0.8, 0.3, 1), (0, 0.3, 1)])) for p in low
    ]
    solids = triangles(soup(shapes))
    meshes = [trimesh.Trimesh(s.vertices.T, s.faces.T, process=False) for s in shapes]
    made = [model(hulls(corners[:, k], range(bodies.PARTS))) for k in range(12)]
    near = 0
    for others, theirs in ((tubes, lines), (solids, meshes)):
        told = to_others(corners, others, within=0.5)
        gaps = dict(zip(zip(told.unit, told.other, strict=True), told.gap, strict=True))
        for k, (owner, mesh) in product(range(12), enumerate(theirs)):
            gap = distance(made[k], model([mesh]))
            if gap < 0.5 - CLOSE or (k, owner) in gaps:
                near += 1
                assert gaps[k, owner] == pytest.approx(gap, abs=CLOSE)
    assert near > 40


def poses(units, k):
    """FCL bodies of unit k, what tips and what only turns, and how to put them at a turn and a yoke angle."""
    square = bodies.square_parts(units)[:, k]
    tips, turns = model(hulls(square, TIPS)), model(hulls(square, TURNS))
    stem, facing = units.stem[:, k], units.reference[:, k]
    pivot = units.clamp[:, k] + units.build.drop[k] * stem

    def put(turn, yoke):
        about = Rotation.from_rotvec(stem * turn)
        tip = about * Rotation.from_rotvec(np.cross(facing, stem) * (yoke - units.level[k]))
        for made, move in ((tips, tip), (turns, about)):
            matrix = move.as_matrix()
            made.setTransform(fcl.Transform(matrix, pivot - matrix @ pivot))

    return (tips, turns), put


def walk(units, k, obstacle, *, tip_first):
    """Least distance on the way from square to the aim, both moves in even steps."""
    moving, put = poses(units, k)
    steps = cases(20, 60)
    tip, turn = units.yoke[k] - units.level[k], units.turn[k]
    first = [(s * tip, 0.0) if tip_first else (0.0, s * turn) for s in np.linspace(0, 1, steps)]
    rest = [(tip, s * turn) if tip_first else (s * tip, turn) for s in np.linspace(0, 1, steps)]
    least = np.inf
    for tipped, turned in first + rest:
        put(turned, units.level[k] + tipped)
        least = min(least, *(distance(m, obstacle) for m in moving))
    return least


def assert_path(units, k, obstacle, path, row):
    """A path told as clear never comes near; a touch told is one, where it is told."""
    if path.tip_first[row]:
        assert walk(units, k, obstacle, tip_first=True) > sweep.TOUCH - CLOSE
    else:
        moving, put = poses(units, k)
        put(path.turn[row], path.yoke[row])
        assert min(distance(m, obstacle) for m in moving) <= sweep.TOUCH + CLOSE
    if path.turn_first[row]:
        assert walk(units, k, obstacle, tip_first=False) > sweep.TOUCH - CLOSE


@pytest.mark.long
@pytest.mark.parametrize("name", [name for name in RIGS if name != "playhouse"])
def test_turns_past_neighbours_touch_where_told_and_nowhere_else(name):
    units = RIGS[name]
    told = sweep.past_neighbours(units, both=True)
    parts = bodies.set_parts(units)
    set_there = [model(hulls(parts[:, k], range(bodies.PARTS))) for k in range(units.turn.size)]
    path = told.beside_set
    rng = np.random.default_rng(1)
    some = rng.permutation(told.unit.size)[:32]
    for row in some:
        assert_path(units, told.unit[row], set_there[told.other[row]], path, row)
    assert 5 < np.count_nonzero(path.tip_first[some]) < some.size - 5


@pytest.mark.long
def test_turns_past_solids_touch_where_told_and_nowhere_else():
    rng = np.random.default_rng(17)
    units = a_row(*rng.uniform((-80, -20), (80, 70), (10, 2)).T, spacing=30.0, hat=6)
    shapes = [
        tube(p, p + rng.normal(0, 0.7, 3), radius=0.01)
        for p in rng.uniform((0, -0.7, 4.2), (7, 0.7, 5), (20, 3))
    ]
    still = triangles(soup(shapes))
    unit, row, path = sweep.past_fixed(units, still, both=True)
    touched = {}
    for k, owner, j in zip(unit, still.owner[row], range(unit.size), strict=True):
        touched.setdefault((k, owner), []).append(j)
    kinds = []
    for (k, owner), mine in touched.items():
        made = model(
            [trimesh.Trimesh(shapes[owner].vertices.T, shapes[owner].faces.T, process=False)]
        )
        for first in (True, False):
            clear = (path.tip_first if first else path.turn_first)[mine].all()
            least = walk(units, k, made, tip_first=first)
            # steps may pass a touch by, and never make one up
            assert least > sweep.TOUCH - CLOSE if clear else least < 0.02
            kinds.append(clear)
        for j in mine:
            if not path.tip_first[j]:
                moving, put = poses(units, k)
                put(path.turn[j], path.yoke[j])
                assert min(distance(m, made) for m in moving) <= sweep.TOUCH + CLOSE
    assert 5 < sum(kinds) < len(kinds) - 5
