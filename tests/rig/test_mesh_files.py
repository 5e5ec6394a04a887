"""Mesh files named by a scene: placed, read once, refused together."""

from __future__ import annotations

import os

import numpy as np
import pytest

from aimcalc.rig import meshes
from aimcalc.rig.meshes import meshes_of
from aimcalc.scene.mistakes import SceneError
from aimcalc.scene.model import Solid
from tests.solid.hanging import a_rig, a_unit

TENT = "v -1 -1 0\nv 1 -1 0\nv 1 1 0\nv -1 1 0\nv 0 0 2\nf 1 2 5\nf 2 3 5\nf 3 4 5\nf 4 1 5\nf 4 3 2 1\n"


def rock(name="rock", **values):
    return Solid(name=name, mesh=f"{name}.obj", **values)


def test_a_mesh_is_read_from_the_scenes_folder_scaled_and_moved(tmp_path):
    (tmp_path / "rock.obj").write_text(TENT)
    rig = a_rig(solids=[rock(scale=0.5, move=(3.0, 4.0, 0.1))], folder=str(tmp_path))
    (mesh,) = meshes_of(rig.scene).values()
    assert mesh.shape.vertices.max(axis=1) == pytest.approx([3.5, 4.5, 1.1])
    assert mesh.shape.vertices.min(axis=1) == pytest.approx([2.5, 3.5, 0.1])


def test_a_mesh_to_stand_on_lifts_the_target_and_the_landing(tmp_path):
    (tmp_path / "rock.obj").write_text(TENT)
    solids = [rock(move=(0.0, 6.0, 0.0), stand_on=True)]
    units = [a_unit(1, point=(0.0, 4.0, 3.0)), a_unit(2, 1.0, point=(0.0, 6.0, 4.0))]
    rig = a_rig(units, solids=solids, folder=str(tmp_path))
    low, high = rig.names.index("p/1"), rig.names.index("p/2")
    # The rock is 2 m high in its middle; its DS face is z = 2 (y - 5).
    assert rig.surface_z[[low, high]] == pytest.approx([0.0, 2.0])
    _, y, z = rig.aims.lands[:, low]
    assert z == pytest.approx(2 * (y - 5.0))
    fall = rig.aims.axis[2, low] / rig.aims.axis[1, low]
    assert z == pytest.approx(3.0 + fall * (y - 4.0))


def test_a_file_is_read_once_until_it_changes(tmp_path, monkeypatch):
    path = tmp_path / "rock.obj"
    path.write_text(TENT)
    rig = a_rig(solids=[rock()], folder=str(tmp_path))
    reads, load = [], meshes.load_mesh
    monkeypatch.setattr(meshes, "load_mesh", lambda *a, **k: reads.append(a) or load(*a, **k))
    for _ in range(3):
        meshes_of(rig.scene)
    assert len(reads) == 1
    path.write_text(TENT.replace("0 0 2", "0 0 3.5"))
    os.utime(path, (1, 1))
    (mesh,) = meshes_of(rig.scene).values()
    assert mesh.shape.vertices.max() == pytest.approx(3.5)
    assert len(reads) == 2


def test_all_files_that_cannot_be_used_are_told_in_one_report(tmp_path):
    (tmp_path / "good.obj").write_text(TENT)
    (tmp_path / "empty.obj").write_text("")
    (tmp_path / "words.obj").write_text("nothing\n")
    solids = [rock("good"), rock("empty"), rock("words"), rock("gone")]
    rig = a_rig(solids=solids, folder=str(tmp_path))
    with pytest.raises(SceneError) as caught:
        meshes_of(rig.scene)
    report = caught.value.report()
    assert "3 mistakes" in report
    for name in ("empty", "words", "gone"):
        assert f'[[solid]] "{name}", mesh' in report
    assert "got:      empty.obj is empty\n   do:       Export it again" in report
    assert "good" not in report


def test_a_scene_without_meshes_loads_no_reader(monkeypatch):
    monkeypatch.setitem(__import__("sys").modules, "aimcalc.rig.meshes", None)
    assert meshes_of(a_rig().scene) == {}
    assert np.isfinite(a_rig().aims.throw).all()
