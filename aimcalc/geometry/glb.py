"""Triangle meshes as the bytes of a GLB file (glTF 2.0, Khronos Group, sections 3.6, 3.7 and 4).

glTF is y up and looks along z; the stage is z up: (x, y, z) becomes (x, z, -y). The same meshes give the
same bytes.
"""

from __future__ import annotations

import json
import struct
from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from aimcalc.geometry.solids import Shape
from aimcalc.geometry.vectors import Array

FLOAT, UNSIGNED_INT = 5126, 5125  # component types
ARRAY_BUFFER, ELEMENT_ARRAY_BUFFER = 34962, 34963
MAGIC, JSON_CHUNK, BINARY_CHUNK = 0x46546C67, 0x4E4F534A, 0x004E4942


class Painted(NamedTuple):
    """One named mesh and its colour: red, green, blue and opacity, 0 to 1."""

    name: str
    shape: Shape
    colour: tuple[float, float, float, float] = (0.6, 0.6, 0.6, 1.0)


def glb(meshes: Sequence[Painted]) -> bytes:
    """A GLB file that holds each mesh as a node of its own, metres, y up. Empty meshes are left out."""
    meshes = [mesh for mesh in meshes if mesh.shape.faces.size]
    colours = sorted({mesh.colour for mesh in meshes})
    binary, views, accessors = b"", [], []
    for mesh in meshes:
        vertices = y_up(mesh.shape.vertices).T.astype("<f4")
        faces = mesh.shape.faces.T.astype("<u4")
        bounds = {"min": vertices.min(axis=0).tolist(), "max": vertices.max(axis=0).tolist()}
        for data, target in ((vertices, ARRAY_BUFFER), (faces, ELEMENT_ARRAY_BUFFER)):
            views.append(_view(len(binary), data.nbytes, target))
            binary += data.tobytes()
        view = len(views) - 2
        accessors.append(_accessor(view, FLOAT, "VEC3", len(vertices)) | bounds)
        accessors.append(_accessor(view + 1, UNSIGNED_INT, "SCALAR", faces.size))
    document = {
        "asset": {"version": "2.0", "generator": "aimcalc"},
        "scene": 0,
        "scenes": [{"nodes": list(range(len(meshes)))} if meshes else {}],
    }
    if meshes:
        document |= {
            "nodes": [{"name": m.name, "mesh": k} for k, m in enumerate(meshes)],
            "meshes": [_mesh(k, m, colours.index(m.colour)) for k, m in enumerate(meshes)],
            "materials": [_material(colour) for colour in colours],
            "accessors": accessors,
            "bufferViews": views,
            "buffers": [{"byteLength": len(binary)}],
        }
    return _container(json.dumps(document, separators=(",", ":")).encode(), binary)


def y_up(vertices: Array) -> Array:
    """Stage points (3, V), z up, in glTF's frame, y up."""
    return np.stack((vertices[0], vertices[2], -vertices[1]))


def z_up(vertices: Array) -> Array:
    """glTF points (3, V), y up, in the stage's frame, z up."""
    return np.stack((vertices[0], -vertices[2], vertices[1]))


def _view(offset: int, length: int, target: int) -> dict[str, int]:
    return {"buffer": 0, "byteOffset": offset, "byteLength": length, "target": target}


def _accessor(view: int, component: int, kind: str, count: int) -> dict[str, object]:
    return {"bufferView": view, "componentType": component, "type": kind, "count": count}


def _mesh(number: int, mesh: Painted, material: int) -> dict[str, object]:
    primitive = {
        "attributes": {"POSITION": 2 * number},
        "indices": 2 * number + 1,
        "material": material,
    }
    return {"name": mesh.name, "primitives": [primitive]}


def _material(colour: tuple[float, float, float, float]) -> dict[str, object]:
    material: dict[str, object] = {
        "pbrMetallicRoughness": {
            "baseColorFactor": list(colour),
            "metallicFactor": 0.0,
            "roughnessFactor": 1.0,
        },
        "doubleSided": True,
    }
    return material if colour[3] == 1 else material | {"alphaMode": "BLEND"}


def _container(document: bytes, binary: bytes) -> bytes:
    """The two chunks, each filled up to four bytes, behind the twelve-byte header."""
    document += b" " * (-len(document) % 4)
    chunks = struct.pack("<II", len(document), JSON_CHUNK) + document
    if binary:
        chunks += struct.pack("<II", len(binary), BINARY_CHUNK) + binary
    return struct.pack("<III", MAGIC, 2, 12 + len(chunks)) + chunks
