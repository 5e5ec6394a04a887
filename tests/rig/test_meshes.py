"""Mesh files of scenery: what is read, where it is put, and what is refused in which words."""

from __future__ import annotations

import json
import struct

import numpy as np
import pytest
import trimesh

from aimcalc.geometry.models import Painted, glb
from aimcalc.geometry.solids import box
from aimcalc.rig import meshes
from aimcalc.rig.meshes import MeshError, load_mesh

CUBE = box((0, 0, 0), (1, 2, 3))


def stl(path, shape=CUBE):
    """A binary STL file: 80 bytes, a count, then fifty bytes a triangle."""
    corners = shape.vertices.T[shape.faces.T].astype("<f4")
    rows = [struct.pack("<3f", 0, 0, 0) + c.tobytes() + b"\0\0" for c in corners]
    path.write_bytes(bytes(80) + struct.pack("<I", len(rows)) + b"".join(rows))
    return path


def obj(path, shape=CUBE, *, first=0, extra=""):
    """A text OBJ file; `first` shifts the corner numbers of its faces."""
    lines = [f"v {x} {y} {z}" for x, y, z in shape.vertices.T]
    lines += [f"f {a + 1 + first} {b + 1 + first} {c + 1 + first}" for a, b, c in shape.faces.T]
    path.write_text(extra + "\n".join(lines) + "\n")
    return path


def ply(path, shape=CUBE):
    """A text PLY file."""
    head = [
        *("ply", "format ascii 1.0", f"element vertex {shape.vertices.shape[1]}"),
        *(f"property float {axis}" for axis in "xyz"),
        *(f"element face {shape.faces.shape[1]}", "property list uchar int vertex_indices"),
        "end_header",
    ]
    rows = [f"{x} {y} {z}" for x, y, z in shape.vertices.T]
    rows += [f"3 {a} {b} {c}" for a, b, c in shape.faces.T]
    path.write_text("\n".join(head + rows) + "\n")
    return path


def a_glb(path, shape=CUBE):
    path.write_bytes(glb([Painted("cube", shape)]))
    return path


WRITERS = {"cube.stl": stl, "cube.obj": obj, "cube.ply": ply, "cube.glb": a_glb, "CUBE.STL": stl}


@pytest.mark.parametrize("name", WRITERS)
def test_every_kind_of_file_gives_the_same_solid(tmp_path, name):
    told = load_mesh(WRITERS[name](tmp_path / name))
    assert told.note == ""
    assert told.shape.faces.shape == (3, 12)
    corners = told.shape.vertices[:, told.shape.faces]
    assert corners.min(axis=(1, 2)) == pytest.approx([0, 0, 0])
    assert corners.max(axis=(1, 2)) == pytest.approx([1, 2, 3])
    a, b, c = corners.transpose(1, 2, 0)
    # Volume by the divergence theorem: positive where the faces look outward.
    assert np.einsum("ij,ij->", a, np.cross(b, c)) / 6 == pytest.approx(6)


def test_a_mesh_is_scaled_about_its_own_zero_and_then_moved(tmp_path):
    told = load_mesh(stl(tmp_path / "cube.stl"), scale=0.5, move=(10.0, -4.0, 1.0))
    assert told.shape.vertices.min(axis=1) == pytest.approx([10, -4, 1])
    assert told.shape.vertices.max(axis=1) == pytest.approx([10.5, -3, 2.5])


def test_every_part_of_a_glb_is_read_where_it_stands(tmp_path):
    path = tmp_path / "set.glb"
    path.write_bytes(glb([Painted("a", CUBE), Painted("b", box((5, 5, 5), (6, 6, 6)))]))
    told = load_mesh(path)
    assert told.shape.faces.shape == (3, 24)
    assert told.shape.vertices.max(axis=1) == pytest.approx([6, 6, 6])


def test_an_open_mesh_is_taken_with_a_note(tmp_path):
    lid_off = CUBE._replace(faces=CUBE.faces[:, :-2])
    told = load_mesh(stl(tmp_path / "crate.stl", lid_off))
    assert told.shape.faces.shape == (3, 10)
    assert told.note == "crate.stl is not closed: some of its edges are free"


def test_corners_in_one_place_are_one_corner_also_at_a_negative_zero(tmp_path):
    loose = CUBE.vertices[:, CUBE.faces.T.ravel()]  # every triangle has corners of its own
    loose[:, ::2] = np.where(loose[:, ::2] == 0, -0.0, loose[:, ::2])
    shape = CUBE._replace(vertices=loose, faces=np.arange(36).reshape(12, 3).T)
    assert load_mesh(obj(tmp_path / "cube.obj", shape)).note == ""


def refused(path):
    with pytest.raises(MeshError) as told:
        load_mesh(path)
    return str(told.value)


def test_a_file_that_is_not_there_is_told(tmp_path):
    assert refused(tmp_path / "gone.stl") == "gone.stl cannot be read: No such file or directory."


def test_a_folder_is_no_mesh(tmp_path):
    (tmp_path / "set.stl").mkdir()
    assert refused(tmp_path / "set.stl") == "set.stl is not a file. Name the mesh itself."


def test_a_file_of_another_kind_is_told_with_the_kinds_there_are(tmp_path):
    (tmp_path / "tree.dxf").write_text("0\nSECTION\n")
    assert refused(tmp_path / "tree.dxf") == (
        "tree.dxf is not of a kind that can be read. Expected one of .stl, .obj, .ply, .glb."
    )


def test_an_empty_file_is_told(tmp_path):
    (tmp_path / "tree.stl").write_bytes(b"")
    assert refused(tmp_path / "tree.stl") == "tree.stl is empty. Export it again."


@pytest.mark.parametrize("name", ["a.obj", "a.ply", "a.stl", "a.glb"])
def test_a_file_without_triangles_or_of_rubbish_is_refused_in_words(tmp_path, name):
    (tmp_path / name).write_bytes(b"# nothing of the kind\n" * 20)
    assert refused(tmp_path / name).startswith(f"{name} ")
    (tmp_path / name).write_bytes(np.random.default_rng(3).bytes(4000))
    assert refused(tmp_path / name).startswith(f"{name} ")


@pytest.mark.parametrize("name", WRITERS)
def test_half_a_file_is_refused_or_read_but_never_falls_over(tmp_path, name):
    path = WRITERS[name](tmp_path / name)
    whole = path.read_bytes()
    for share in (0.1, 0.5, 0.9, 0.99):
        path.write_bytes(whole[: int(len(whole) * share)])
        try:
            assert load_mesh(path).shape.faces.size
        except MeshError as told:
            assert str(told).startswith(f"{name} ")  # noqa: PT017


def test_corners_that_are_no_numbers_are_refused(tmp_path):
    spoilt = CUBE._replace(vertices=np.where(CUBE.vertices == 3, np.nan, CUBE.vertices))
    assert refused(stl(tmp_path / "cube.stl", spoilt)).startswith(
        "cube.stl has corners that are not numbers."
    )


def test_faces_that_name_corners_which_are_not_there_are_refused(tmp_path):
    assert refused(obj(tmp_path / "cube.obj", first=5)).startswith("cube.obj ")
    assert refused(ply(tmp_path / "cube.ply", CUBE._replace(faces=CUBE.faces + 5))).startswith(
        "cube.ply names corners that it does not hold."
    )


def test_a_mesh_without_any_area_is_refused(tmp_path):
    flat = CUBE._replace(vertices=CUBE.vertices * 0.0)
    assert "none with any area" in refused(obj(tmp_path / "dot.obj", flat))


def test_too_many_triangles_are_refused_with_both_numbers(tmp_path, monkeypatch):
    monkeypatch.setattr(meshes, "MOST_FACES", 11)
    assert refused(stl(tmp_path / "cube.stl")) == (
        "cube.stl has 12 triangles. The most that is read is 11: simplify the mesh."
    )


def test_a_part_in_many_places_is_counted_before_it_is_unfolded(tmp_path, monkeypatch):
    # A box of 12 triangles in ten places. A few bytes more may name it in millions.
    scene = trimesh.Scene()
    for k in range(10):
        move = trimesh.transformations.translation_matrix([k, 0, 0])
        if k:
            scene.graph.update(frame_to=f"again {k}", matrix=move, geometry="box")
        else:
            scene.add_geometry(trimesh.creation.box(), geom_name="box", transform=move)
    assert len(scene.geometry) == 1
    (tmp_path / "row.glb").write_bytes(scene.export(file_type="glb"))
    monkeypatch.setattr(meshes, "MOST_FACES", 119)
    monkeypatch.setattr(trimesh.Scene, "dump", lambda _: pytest.fail("the parts were unfolded"))
    assert refused(tmp_path / "row.glb").startswith(
        "row.glb has 120 triangles. The most that is read is 119"
    )


def test_too_large_a_file_is_refused_before_it_is_read(tmp_path, monkeypatch):
    monkeypatch.setattr(meshes, "MOST_BYTES", 500)
    monkeypatch.setattr(meshes, "_parts", lambda _: pytest.fail("the file was read"))
    assert refused(stl(tmp_path / "cube.stl")).startswith("cube.stl is 0 MB. The most that is read")


def test_nothing_beside_the_file_is_opened(tmp_path):
    (tmp_path / "wood.mtl").write_text("newmtl wood\nmap_Kd missing.png\n")
    path = obj(tmp_path / "cube.obj", extra="mtllib ../elsewhere.mtl\nusemtl wood\n")
    assert load_mesh(path).shape.faces.shape == (3, 12)


TRIANGLE = b"v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 3\n"


@pytest.mark.parametrize(
    ("scale", "says"),
    [
        (1000.0, None),
        (1001.0, "over 1000 m from the origin"),
        (1e9, "over 1000 m from the origin"),  # (a drawing of it used to ask for 636 GiB)
        (1e-4, None),
        (0.9e-4, "no larger than a tenth of a millimetre"),
        (1e-300, "no larger than a tenth of a millimetre"),
    ],
)
def test_a_mesh_that_its_scale_puts_off_any_stage_is_refused(tmp_path, scale, says):
    path = tmp_path / "set.obj"
    path.write_bytes(TRIANGLE)
    if says is None:
        assert np.ptp(load_mesh(path, scale=scale).shape.vertices) == pytest.approx(scale)
    else:
        with pytest.raises(MeshError, match=says) as caught:
            load_mesh(path, scale=scale)
        assert "0.001 for millimetres" in str(caught.value)


def test_a_mesh_moved_off_any_stage_is_refused(tmp_path):
    path = tmp_path / "set.obj"
    path.write_bytes(TRIANGLE)
    with pytest.raises(MeshError, match="over 1000 m"):
        load_mesh(path, move=(0.0, 0.0, 1e6))


@pytest.mark.parametrize(
    "text", [b"v 0 0\nv 1 0\nv 0 1\nf 1 2 3\n", b"v 0 0\nv 1 0 0\nv 0 1\nf 1 2 3\n"]
)
def test_an_obj_without_heights_is_refused(tmp_path, text):
    path = tmp_path / "flat.obj"
    path.write_bytes(text)
    with pytest.raises(MeshError):
        load_mesh(path)


@pytest.mark.parametrize(("kind", "count"), [("SCALAR", 9), ("VEC2", 4)])
def test_a_glb_without_three_figures_a_corner_is_refused(tmp_path, kind, count):
    """Written by hand from the glTF 2.0 specification: a header, a JSON chunk, a binary chunk."""
    data = struct.pack("<9f3H2x", 0, 0, 0, 1, 0, 0, 0, 1, 0, 0, 1, 2)
    corners = {"bufferView": 0, "componentType": 5126, "count": count, "type": kind}
    faces = {"bufferView": 0, "byteOffset": 36, "componentType": 5123, "count": 3, "type": "SCALAR"}
    told = {
        "asset": {"version": "2.0"},
        "scene": 0,
        "scenes": [{"nodes": [0]}],
        "nodes": [{"mesh": 0}],
        "meshes": [{"primitives": [{"attributes": {"POSITION": 0}, "indices": 1}]}],
        "buffers": [{"byteLength": len(data)}],
        "bufferViews": [{"buffer": 0, "byteLength": len(data)}],
        "accessors": [corners, faces],
    }
    text = json.dumps(told).encode()
    text += b" " * (-len(text) % 4)
    head = struct.pack("<4sII", b"glTF", 2, 28 + len(text) + len(data))
    chunks = ((b"JSON", text), (b"BIN\0", data))
    path = tmp_path / "flat.glb"
    path.write_bytes(head + b"".join(struct.pack("<I4s", len(d), k) + d for k, d in chunks))
    with pytest.raises(MeshError, match="Export it again"):
        load_mesh(path)
