"""Meshes as GLB files, read back by another library and by hand."""

from __future__ import annotations

import io
import json
import struct

import numpy as np
import pytest
import trimesh

from aimcalc.geometry.models import Painted, glb, y_up, z_up
from aimcalc.geometry.solids import Shape, box, fan, panel

GREY = (0.5, 0.5, 0.5, 1.0)
LIGHT = (1.0, 0.9, 0.6, 0.3)
MESHES = [
    Painted("platform", box((0, 2, 0), (4, 5, 1)), GREY),
    Painted(
        "field of LX 1/1", fan((0, 0, 6), np.array([[0.0, 1, 0], [2, 3, 4], [0, 0, 0]])), LIGHT
    ),
]


def chunks(data):
    """Header and chunks of a GLB file, as glTF 2.0 section 4 lays them out."""
    magic, version, length = struct.unpack_from("<4sII", data)
    assert (magic, version, length) == (b"glTF", 2, len(data))
    found, at = {}, 12
    while at < len(data):
        size, kind = struct.unpack_from("<I4s", data, at)
        assert size % 4 == 0
        found[kind] = data[at + 8 : at + 8 + size]
        at += 8 + size
    return found


def test_another_library_reads_back_names_places_and_triangles():
    scene = trimesh.load_scene(io.BytesIO(glb(MESHES)), file_type="glb")
    assert set(scene.geometry) == {"platform", "field of LX 1/1"}
    platform = scene.geometry["platform"]
    assert platform.volume == pytest.approx(12.0)
    assert z_up(platform.vertices.T).min(axis=1) == pytest.approx([0, 2, 0])
    assert z_up(platform.vertices.T).max(axis=1) == pytest.approx([4, 5, 1])
    assert len(scene.geometry["field of LX 1/1"].faces) == 3


def test_up_on_the_stage_is_up_in_the_file_and_handedness_is_kept():
    axes = np.eye(3)
    turned = y_up(axes)
    assert turned[:, 2].tolist() == [0, 1, 0]  # z becomes y
    assert np.linalg.det(turned) == pytest.approx(1)
    assert z_up(turned) == pytest.approx(axes)


def test_the_file_is_laid_out_as_the_standard_says():
    found = chunks(glb(MESHES))
    assert list(found) == [b"JSON", b"BIN\0"]
    document = json.loads(found[b"JSON"])
    assert document["asset"]["version"] == "2.0"
    assert document["buffers"] == [{"byteLength": len(found[b"BIN\0"])}]
    for accessor in document["accessors"]:
        view = document["bufferViews"][accessor["bufferView"]]
        width = {"VEC3": 12, "SCALAR": 4}[accessor["type"]]
        assert view["byteLength"] == accessor["count"] * width
        assert view["byteOffset"] % 4 == 0
    ends = [view["byteOffset"] + view["byteLength"] for view in document["bufferViews"]]
    assert ends[-1] == len(found[b"BIN\0"])
    position = document["accessors"][0]
    assert (position["min"], position["max"]) == ([0, 0, -5], [4, 1, -2])


def test_what_light_passes_through_is_drawn_so():
    document = json.loads(chunks(glb(MESHES))[b"JSON"])
    by_colour = {
        tuple(m["pbrMetallicRoughness"]["baseColorFactor"]): m for m in document["materials"]
    }
    assert by_colour[LIGHT]["alphaMode"] == "BLEND"
    assert "alphaMode" not in by_colour[GREY]
    used = [mesh["primitives"][0]["material"] for mesh in document["meshes"]]
    assert [document["materials"][k] for k in used] == [by_colour[GREY], by_colour[LIGHT]]


def test_the_same_meshes_give_the_same_bytes():
    assert glb(MESHES) == glb(MESHES)


def test_meshes_without_triangles_are_left_out_and_none_at_all_is_still_a_file():
    empty = Painted("nothing", Shape(np.zeros((3, 0)), np.zeros((3, 0), dtype=int)))
    document = json.loads(chunks(glb([empty, *MESHES]))[b"JSON"])
    assert [node["name"] for node in document["nodes"]] == [mesh.name for mesh in MESHES]
    assert list(chunks(glb([empty]))) == [b"JSON"]


def test_names_in_any_script_are_kept():
    flat = panel([(0, 0, 0), (1, 0, 0), (1, 0, 1), (0, 0, 1)])
    document = json.loads(chunks(glb([Painted('décor 1/2"', flat)]))[b"JSON"])
    assert document["nodes"][0]["name"] == 'décor 1/2"'
