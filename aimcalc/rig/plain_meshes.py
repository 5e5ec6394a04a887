"""The plainest mesh files, read without the mesh library: loading it takes longer than solving a rig.

Only files of which every line or byte is understood are read here: OBJ text of nothing but vertices,
faces and names, and binary STL. Everything else, broken files too, is left to the library.
"""

from __future__ import annotations

from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

Part = tuple[NDArray[np.float64], NDArray[np.int64]]  # vertices (V, 3), faces (F, 3)

PASSED_OVER = {"o", "g", "s", "vn", "vt", "usemtl", "mtllib"}
STL_HEAD, STL_FACE = (
    84,
    np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("more", "<u2")]),
)


def plain_mesh(ending: str, data: bytes) -> Part | None:
    """Vertices and faces of a plain OBJ (`.obj`) or binary STL (`.stl`); None for anything else."""
    try:
        if ending == ".obj":
            return _obj(data.decode("utf-8"))
        if ending == ".stl":
            return _stl(data)
    except (ValueError, IndexError):
        pass
    return None


def _obj(text: str) -> Part | None:
    vertices: list[list[float]] = []
    faces: list[tuple[int, int, int]] = []
    for line in text.splitlines():
        word, *values = line.partition("#")[0].split() or ["#"]
        if word == "v" and len(values) == 3:
            vertices.append([float(value) for value in values])
        elif word == "f" and len(values) >= 3:
            first, *rest = (_place(value, len(vertices)) for value in values)
            faces += [(first, a, b) for a, b in pairwise(rest)]
        elif word != "#" and word not in PASSED_OVER:
            return None
    if not faces or max(max(face) for face in faces) >= len(vertices):
        return None
    return np.array(vertices, dtype=np.float64), np.array(faces, dtype=np.int64)


def _place(word: str, so_far: int) -> int:
    """The vertex that a corner names: counted from 1, or back from the last one written."""
    number = int(word.partition("/")[0])
    place = number - 1 if number > 0 else so_far + number
    if place < 0 or number == 0:
        raise IndexError(word)
    return place


def _stl(data: bytes) -> Part | None:
    count = int.from_bytes(data[80:STL_HEAD], "little")
    if not count or len(data) != STL_HEAD + count * STL_FACE.itemsize:
        return None
    corners = np.frombuffer(data, STL_FACE, offset=STL_HEAD)["corners"]
    return corners.reshape(-1, 3).astype(np.float64), np.arange(3 * count).reshape(-1, 3)
