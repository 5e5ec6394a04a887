"""The rig as a GLB file, read back by another library."""

from __future__ import annotations

import io
import sys
from math import radians, tan

import numpy as np
import pytest
import trimesh

from aimcalc.scene.model import Stage
from aimcalc.solid.model import PAST_FACE, field_rings, lit_units, painted, rig_glb
from aimcalc.solid.solids import deck_shape
from tests.solid.hanging import a_body, a_panel, a_rig, a_unit

APRON = (
    (-6.0, 0.0),
    (-3.0, 0.0),
    (-2.0, -2.0),
    (2.0, -2.0),
    (3.0, 0.0),
    (6.0, 0.0),
    (6.0, 8.0),
    (-6.0, 8.0),
)
AREA = 12 * 8 + (6 + 4) / 2 * 2  # by hand: a rectangle and a trapezium


def read(rig):
    """Meshes of the file by name, stood up again: glTF is y up, (x, y, z) is our (x, -z, y)."""
    scene = trimesh.load_scene(io.BytesIO(rig_glb(rig)), file_type="glb")
    return {name: mesh.vertices[:, [0, 2, 1]] * [1, -1, 1] for name, mesh in scene.geometry.items()}


def test_every_solid_is_a_mesh_under_its_own_name():
    rig = a_rig(solids=[a_panel("wall", 8, 0, 4)], stage=Stage(outline=APRON))
    assert set(read(rig)) == {"deck", "wall", "p", "p/1", "light of p/1"}


def test_things_are_where_they_stand():
    meshes = read(a_rig(solids=[a_panel("wall", 8, 0, 4)]))
    assert meshes["wall"].min(axis=0) == pytest.approx([-8, 8, 0])
    assert meshes["wall"].max(axis=0) == pytest.approx([8, 8, 4])
    assert meshes["p"][:, 2].mean() == pytest.approx(6.0)


def test_light_reaches_from_the_lens_to_where_it_falls():
    rig = a_rig([a_unit(point=(0.0, 0.0, 0.0))])
    light = read(rig)["light of p/1"]
    lens = rig.aims.lens[:, 0]
    assert light[np.argmax(light[:, 2])] == pytest.approx(lens, abs=1e-5)
    floor = light[light[:, 2] < 1e-3]
    assert np.hypot(floor[:, 0], floor[:, 1]) == pytest.approx(lens[2] * tan(radians(13)), rel=1e-4)


def test_light_that_falls_on_nothing_ends_past_the_face(monkeypatch):
    rig = a_rig([a_unit(point=(0.0, 4.0, 9.0))])  # pointing up
    reach = np.linalg.norm(field_rings(rig)[:, 0] - rig.aims.lens, axis=0)
    assert reach == pytest.approx(PAST_FACE * rig.aims.throw[0])
    monkeypatch.setitem(sys.modules, "embreex.mesh_construction", None)
    below = a_rig([a_unit(point=(0.0, 0.0, 1.0))])
    reach = np.linalg.norm(field_rings(below)[:, 0] - below.aims.lens, axis=0)
    # Straight down: the edge of a 26 degree field is 13 off plumb. No engine is needed to know the deck.
    assert reach == pytest.approx(below.aims.lens[2, 0] / np.cos(np.radians(13)))


def area(shape):
    a, b, c = (shape.vertices[:, shape.faces[k]] for k in range(3))
    return np.linalg.norm(np.cross(b - a, c - a, axis=0), axis=0).sum() / 2


def test_the_deck_is_the_stages_outline_level_or_raked():
    level = deck_shape(a_rig(stage=Stage(outline=APRON)))
    assert area(level) == pytest.approx(AREA)
    # Raked 1:8 from y = 4: what lies upstage of it is larger by sqrt(1 + 1/64).
    raked = deck_shape(a_rig(stage=Stage(outline=APRON, rake=1 / 8, rake_from=4.0)))
    assert area(raked) == pytest.approx(AREA - 12 * 4 + 12 * 4 * np.sqrt(1 + 1 / 64))
    assert raked.vertices[2].max() == pytest.approx(0.5)
    assert deck_shape(a_rig()) is None


def test_units_without_size_or_aim_are_left_out():
    kinds = [a_body(), a_body("bare", length=None), a_body("still", drop_under=0.0)]
    units = [
        a_unit(1),
        a_unit(2, 2.0, kind="bare"),
        a_unit(3, 0.0, kind="still", point=(0.0, 0.0, 6.0)),
    ]
    rig = a_rig(units, kinds=kinds)
    meshes = {mesh.name: mesh.shape.faces.shape[1] for mesh in painted(rig)}
    assert meshes["p/1"] > 0
    assert meshes["p/2"] == meshes["p/3"] == 0
    assert "light of p/3" not in meshes
    assert [rig.names[k] for k in lit_units(rig)] == [n for n in rig.names if n != "p/3"]


def test_the_same_rig_gives_the_same_bytes():
    assert rig_glb(a_rig()) == rig_glb(a_rig())
