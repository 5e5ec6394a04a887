"""Triangle meshes as the bytes of a GLB file (glTF 2.0, Khronos Group, sections 3.6, 3.7 and 4).

glTF is y up and looks along z; the stage is z up: (x, y, z) becomes (x, z, -y). The same meshes give the
same bytes.
"""

from __future__ import annotations

import json
import struct
from collections.abc import Sequence

import numpy as np

from aimcalc.geometry.rays import Caster, Flags, occluded
from aimcalc.geometry.solids import Indices, Shape
from aimcalc.geometry.vectors import Array, cross, dot
from aimcalc.named import NamedTuple

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


CORNER = (
    0.7  # cosine between two faces' outward ways below which their edge is a corner (45 degrees)
)
LIFT = 0.02  # metres towards the eye: a line on a surface is not hidden by it
SAME = 1e-6  # metres: corners nearer to each other than this are one


class Camera(NamedTuple):
    """A parallel view: unit directions to the right, up the picture and towards the eye, (3,) each."""

    right: Array
    up: Array
    toward: Array

    def seen(self, points: Array) -> Array:
        """Points (3, N) in the picture, right and up, (2, N) metres."""
        return np.stack((self.right @ points, self.up @ points))


def camera(*, heading: float, down: float) -> Camera:
    """The view of an eye that looks along a plan heading, and down by an angle (radians both)."""
    right = np.array([np.cos(heading), -np.sin(heading), 0.0])
    level = np.array([np.sin(heading), np.cos(heading), 0.0])
    toward = -np.cos(down) * level + np.array([0.0, 0.0, np.sin(down)])
    return Camera(right, np.cross(toward, right), toward)


def drawn_edges(shape: Shape, toward: Array) -> Array:
    """The edges of a shape worth a line, seen from `toward` (3,): their two ends, (3, 2, E)."""
    if not shape.faces.size:
        return np.zeros((3, 2, 0))
    corner = _places(shape.vertices)[shape.faces]
    ends = np.concatenate([np.stack((corner[k], corner[(k + 1) % 3])) for k in range(3)], axis=1)
    face = np.tile(np.arange(shape.faces.shape[1]), 3)
    low, high = ends.min(axis=0), ends.max(axis=0)
    order = np.lexsort((high, low))
    low, high, face = low[order], high[order], face[order]
    new = np.append(True, (low[1:] != low[:-1]) | (high[1:] != high[:-1]))
    first = np.flatnonzero(new)
    count = np.diff(np.append(first, low.size))
    second = first + np.where(count > 1, 1, 0)
    draw = (count != 2) | _parts_faces(shape, toward, face[first], face[second])
    rows = first[draw & (low[first] != high[first])]
    used = np.zeros(shape.vertices.shape[1], dtype=np.int64)
    used[corner.ravel()] = shape.faces.ravel()
    return shape.vertices[:, used[np.stack((low[rows], high[rows]))]]


def _parts_faces(shape: Shape, toward: Array, first: Indices, second: Indices) -> Flags:
    """Whether two faces make a corner, or one looks towards the eye and the other away."""
    a, b, c = (shape.vertices[:, shape.faces[k]] for k in range(3))
    normal = cross(b - a, c - a)
    normal /= np.maximum(np.sqrt(dot(normal, normal)), 1e-300)
    turned = toward @ normal
    bent = dot(normal[:, first], normal[:, second]) < CORNER
    return np.asarray(bent | (turned[first] * turned[second] < 0))


def _places(vertices: Array) -> Indices:
    """A number for each vertex, the same for vertices in one place."""
    grid = np.rint(vertices / SAME)
    return np.unique(grid, axis=1, return_inverse=True)[1].ravel()


def visible(ready: Caster, lines: Array, toward: Array, *, step: float) -> Array:
    """The parts of lines (3, 2, L) that nothing hides from an eye far off at `toward`, (3, 2, K).

    Every `step` metres, or oftener, it is asked whether a line is hidden.
    """
    if not lines.size:
        return lines
    length = np.linalg.norm(lines[:, 1] - lines[:, 0], axis=0)
    count = np.maximum(1, np.ceil(length / step)).astype(np.int64)
    line = np.repeat(np.arange(count.size), count)
    number = np.arange(line.size) - np.repeat(np.cumsum(count) - count, count)
    share = (number + 0.5) / count[line]
    middle = lines[:, 0, line] + share * (lines[:, 1] - lines[:, 0])[:, line]
    start = middle + LIFT * toward[:, None]
    way = np.broadcast_to(toward[:, None], start.shape)
    shown = ~occluded(ready, start, way, np.full(line.size, np.inf))
    # A run begins where the piece before it is hidden or of another line.
    before = np.append(False, shown[:-1] & (line[1:] == line[:-1]))
    after = np.append(before[1:] & shown[1:], False)
    begin, end = np.flatnonzero(shown & ~before), np.flatnonzero(shown & ~after)
    low, high = number[begin] / count[line[begin]], (number[end] + 1) / count[line[end]]
    origin, run = lines[:, 0, line[begin]], (lines[:, 1] - lines[:, 0])[:, line[begin]]
    return np.stack((origin + low * run, origin + high * run), axis=1)
