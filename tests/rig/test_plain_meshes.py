"""The plainest mesh files read without the library, exactly as the library reads them."""

from __future__ import annotations

import io
import sys

import numpy as np
import pytest
import trimesh

from aimcalc.rig import meshes
from aimcalc.rig.meshes import plain_mesh

HILL = trimesh.creation.icosphere(subdivisions=1)


def by_library(kind, data):
    """Corners of every triangle as trimesh reads them, (F, 3, 3)."""
    scene = trimesh.load_scene(io.BytesIO(data), file_type=kind, process=False)
    return np.concatenate([mesh.triangles for mesh in scene.dump()])


def by_us(kind, data):
    vertices, faces = plain_mesh(f".{kind}", data)
    return vertices[faces]


OBJ = b"""# a roof, drawn in feet
mtllib roof.mtl
o roof
v -1 -1 0
v 1.5e0 -1 0
v 1 1 0
v -1 1 0
v 0 0 2
vt 0 0
vn 0 0 1
g sides
usemtl red
s off
f 1/1/1 2//1 5/1
f 2 3 5
f 3 4 5
f 4 1 5
f 4 3 2 1
"""


def test_triangles_of_obj_are_read_as_the_library_reads_them():
    data = HILL.export(file_type="obj").encode()
    assert by_us("obj", data) == pytest.approx(by_library("obj", data))


@pytest.mark.parametrize("ends", [b"\n", b"\r\n"])
def test_faces_of_four_corners_enclose_what_the_library_says(ends):
    # It may cut a face along its other diagonal; of a flat face that changes neither area nor volume.
    data = OBJ.replace(b"\n", ends)
    ours, theirs = (
        trimesh.Trimesh(**trimesh.triangles.to_kwargs(t))
        for t in (by_us("obj", data), by_library("obj", data))
    )
    assert len(ours.faces) == len(theirs.faces) == 6
    assert ours.area == pytest.approx(theirs.area)
    assert ours.volume == pytest.approx(theirs.volume)


def test_words_after_a_corner_and_corners_counted_back_are_read():
    # Wavefront's format: "#" begins a remark; a number below zero counts back from the last vertex.
    told = by_us(
        "obj", OBJ.replace(b"v 1 1 0\n", b"v 1 1 0  # a corner\n").replace(b"f 3 4 5", b"f -3 4 5")
    )
    assert told.tolist() == by_us("obj", OBJ).tolist()


def test_binary_stl_is_read_as_the_library_reads_it():
    data = HILL.export(file_type="stl")
    assert by_us("stl", data) == pytest.approx(by_library("stl", data))


@pytest.mark.parametrize(
    ("ending", "data"),
    [
        (".obj", b""),
        (".obj", b"nothing here\n"),
        (".obj", b"v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 9\n"),  # a corner that is not there
        (".obj", b"v 0 0 0\nv 1 0 0\nv 0 1 0\nf 0 1 2\n"),  # corners count from 1
        (".obj", b"v 0 0 0\nv 1 0 0\nv 0 1 0\nf -9 1 2\n"),
        (".obj", b"v 0 0 0 1 1 1\nv 1 0 0 1 1 1\nv 0 1 0 1 1 1\nf 1 2 3\n"),  # colours
        (".obj", b"v 0 0 zero\nf 1 1 1\n"),
        (".obj", b"v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 3\ncurv 0 1\n"),  # a curve
        (".obj", b"\xff\xfe\x00"),
        (".stl", b"solid s\nendsolid s\n"),
        (".stl", bytes(84)),
        (".stl", HILL.export(file_type="stl")[:-3]),  # cut short
        (".ply", b"ply\n"),
    ],
)
def test_anything_else_is_left_to_the_library(ending, data):
    assert plain_mesh(ending, data) is None


def test_a_plain_file_loads_no_library(tmp_path, monkeypatch):
    (tmp_path / "roof.obj").write_bytes(OBJ)
    monkeypatch.setitem(sys.modules, "trimesh", None)  # to import it is now an error
    assert meshes.load_mesh(tmp_path / "roof.obj").shape.faces.shape == (3, 6)
