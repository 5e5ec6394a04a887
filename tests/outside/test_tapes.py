"""Every sight tape printed for the worked scenes, walked on the plan with shapely and seen with trimesh.

Second methods: shapely for deck, seats and footprints, trimesh's own ray caster for what hides a mark.
"""

from __future__ import annotations

import numpy as np
import pytest
import trimesh
from shapely.geometry import LineString, MultiPoint, Polygon

from aimcalc.rig.places import place
from aimcalc.rig.rig import Rig
from tests.shows import rig_of

SIDE = {"US": (0, 1), "DS": (0, -1), "SL": (1, 0), "SR": (-1, 0)}


def solids(rig: Rig) -> dict[str, trimesh.Trimesh]:
    """The scene's solids as meshes of trimesh, from the corners that the scene gives."""
    found = {}
    for solid in rig.scene.solids:
        if solid.box:
            found[solid.name] = trimesh.creation.box(bounds=np.reshape(solid.box, (2, 3)))
        elif solid.panel:
            found[solid.name] = trimesh.Trimesh(solid.panel, [[0, 1, 2], [0, 2, 3]], process=False)
        else:
            mesh = trimesh.load(f"{rig.scene.folder}/{solid.mesh}", force="mesh")
            mesh.apply_scale(solid.scale)
            mesh.apply_translation(solid.move)
            found[solid.name] = mesh
    return found


def stands_in(mesh: trimesh.Trimesh, tape: LineString) -> bool:
    """Whether a solid that begins under 5 cm over the deck has its footprint on the tape."""
    low = mesh.vertices[mesh.vertices[:, 2] < 0.5]
    if mesh.bounds[0, 2] >= 0.05 or not len(low):
        return False
    return bool(MultiPoint(low[:, :2]).convex_hull.distance(tape) < 0.04)


def carries(box: tuple[float, ...] | None, tape: LineString) -> bool:
    """Whether all of a tape lies on top of a box, clear of its edges."""
    if box is None:
        return False
    top = Polygon([(box[0], box[1]), (box[3], box[1]), (box[3], box[4]), (box[0], box[4])])
    return bool(top.contains(tape) and top.exterior.distance(tape) > 0.04)


def under(mesh: trimesh.Trimesh, boxes: list) -> bool:
    """Whether a mesh is one of these boxes."""
    return any(np.allclose(mesh.bounds.ravel(), box) for box in boxes)


@pytest.mark.parametrize("name", ["studio", "playhouse", "raked"])
def test_every_tape_printed_lies_on_clear_deck_and_every_mark_is_seen(name):
    rig = rig_of(name)
    deck, meshes = Polygon(rig.scene.stage.outline), solids(rig)
    told: dict[tuple[str, str], list] = {}
    for answer in rig.answers:
        if answer.sight is not None and answer.attitude != "plumb":
            told.setdefault((answer.position, answer.square), []).append(answer)
    assert told
    for (position, side), answers in told.items():
        here = place(rig.scene.positions[position])
        along = np.array(here.along[:2]) / np.hypot(*here.along[:2])
        square = np.array(here.square[:2])
        square = square * np.sign(square @ SIDE[side])
        foot = np.array(here.zero[:2]) + answers[0].sight_out * square
        assert {a.sight_out for a in answers} == {answers[0].sight_out}
        reach = [0.0, *(a.sight for a in answers)]
        tape = LineString([foot + min(reach) * along, foot + max(reach) * along])
        assert deck.contains(tape)
        assert deck.exterior.distance(tape) > 0.04
        for block in rig.scene.seats:
            assert not Polygon(block.outline).intersects(tape)
        carrying = [s.box for s in rig.scene.solids if s.stand_on and carries(s.box, tape)]
        others = {n: mesh for n, mesh in meshes.items() if not under(mesh, carrying)}
        assert [n for n, mesh in others.items() if stands_in(mesh, tape)] == []
        top = max((box[5] for box in carrying), default=0.0)
        for answer in answers:
            x, y = foot + answer.sight * along
            rake = rig.scene.stage.rake * max(0.0, y - rig.scene.stage.rake_from)
            z = max(rake, top) + 0.02
            way = np.array([x, y, z]) - answer.pivot
            for mesh in meshes.values():
                hit, _, _ = mesh.ray.intersects_location([answer.pivot], [way])
                near = [h for h in hit if np.linalg.norm(h - answer.pivot) < np.linalg.norm(way)]
                assert not near, (answer.unit, mesh)
