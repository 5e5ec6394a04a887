"""Mesh files of scenery: STL, OBJ, PLY and GLB, read whole and checked before anything is cast at them.

A file is read by itself: textures, materials and parts kept in other files are left alone. Lengths are
taken as metres before `scale`. GLB files are y up, as their standard says, and are stood up; the others
are taken as z up.
"""

from __future__ import annotations

import os
import stat
from functools import lru_cache
from itertools import pairwise
from typing import Any

import numpy as np
from numpy.typing import NDArray

from aimcalc.geometry.solids import Shape
from aimcalc.named import NamedTuple
from aimcalc.scene.lengths import LONGEST
from aimcalc.scene.mistakes import Mistake, SceneError
from aimcalc.scene.model import Point, Scene, Solid

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


KINDS = (".stl", ".obj", ".ply", ".glb")
MOST_BYTES = 200_000_000
MOST_FACES = 2_000_000
SMALLEST = 1e-4  # m


class MeshError(Exception):
    """A mesh file that cannot be used: what is wrong with it, and what to do."""

    def __init__(self, what: str, do: str = "") -> None:
        super().__init__(f"{what}. {do}" if do else what)
        self.what, self.do = what, do


class _File(NamedTuple):
    path: str
    name: str
    kind: str  # its ending: ".stl"


class Mesh(NamedTuple):
    """A mesh in the stage's frame, metres, and a note for the user where it is not closed ("")."""

    shape: Shape
    note: str


def load_mesh(
    path: str | os.PathLike[str],
    *,
    scale: float = 1.0,
    move: tuple[float, float, float] = (0.0, 0.0, 0.0),
) -> Mesh:
    """The mesh in a file, scaled about its own zero and then moved; raises MeshError.

    A mesh that is not closed is scenery all the same: light is stopped by any triangle. It is taken with
    a note, since the hole may be where something is missing.
    """
    name = os.path.basename(path)
    file = _File(os.fspath(path), name, os.path.splitext(name)[1].lower())
    vertices, faces = _read(file)
    if vertices.shape[1] != 3:
        raise MeshError(
            f"{name} has corners of {vertices.shape[1]} figures", "Export it again, in x, y and z."
        )
    if file.kind == ".glb":
        from aimcalc.geometry.models import z_up

        vertices = np.ascontiguousarray(z_up(vertices.T).T)
    _check(name, vertices, faces)
    note = "" if _closed(vertices, faces) else f"{name} is not closed: some of its edges are free"
    placed = vertices.T * scale + np.array(move, dtype=float)[:, None]
    used = np.bincount(faces.ravel(), minlength=placed.shape[1]) > 0
    _check_size(name, placed[:, used])
    return Mesh(Shape(placed, faces.T.astype(np.int64)), note)


def _read(file: _File) -> tuple[NDArray[np.float64], NDArray[np.int64]]:
    """Vertices (V, 3) and faces (F, 3) of every part of a file, in one."""
    _check_file(file)
    parts = _parts(file)
    if not parts:
        raise MeshError(f"{file.name} holds no triangles", "Export it again, as a mesh.")
    first = np.cumsum([0] + [len(vertices) for vertices, _ in parts[:-1]])
    vertices = np.concatenate([vertices for vertices, _ in parts])
    faces = np.concatenate([faces + k for (_, faces), k in zip(parts, first, strict=True)])
    return vertices, faces


def _check_file(file: _File) -> None:
    """Refuse what is no mesh file of a bearable size."""
    if file.kind not in KINDS:
        raise MeshError(
            f"{file.name} is not of a kind that can be read", f"Expected one of {', '.join(KINDS)}."
        )
    try:
        about = os.stat(file.path)
    except OSError as wrong:
        raise MeshError(f"{file.name} cannot be read: {wrong.strerror}.") from wrong
    if not stat.S_ISREG(about.st_mode):
        raise MeshError(f"{file.name} is not a file", "Name the mesh itself.")
    if not about.st_size:
        raise MeshError(f"{file.name} is empty", "Export it again.")
    if about.st_size > MOST_BYTES:
        raise MeshError(
            f"{file.name} is {about.st_size / 1e6:.0f} MB",
            f"The most that is read is {MOST_BYTES / 1e6:.0f} MB: simplify the mesh.",
        )


def _parts(file: _File) -> list[tuple[NDArray[np.float64], NDArray[np.int64]]]:
    """Every mesh in a file, placed as the file says."""
    try:
        with open(file.path, "rb") as opened:
            data = opened.read()
    except OSError as wrong:
        raise MeshError(f"{file.name} cannot be read: {wrong.strerror}.") from wrong
    plain = plain_mesh(file.kind, data)
    if plain is not None:
        return [plain]
    import io
    import logging

    import trimesh

    logging.getLogger("trimesh").addHandler(logging.NullHandler())  # what it remarks is for us
    kind = file.kind[1:]
    options: dict[str, Any] = {"skip_materials": True} if kind == "obj" else {}
    try:
        stream = io.BytesIO(data)  # without a name, nothing beside it is looked for
        scene = trimesh.load_scene(stream, file_type=kind, process=False, **options)
        drawn = [scene.graph[node][1] for node in scene.graph.nodes_geometry]
        sizes = {each: len(getattr(part, "faces", ())) for each, part in scene.geometry.items()}
        _check_count(file.name, sum(sizes[each] for each in drawn))
        meshes = [mesh for mesh in scene.dump() if isinstance(mesh, trimesh.Trimesh)]
    except MeshError:
        raise
    except Exception as wrong:  # whatever a reader of someone else's file may run into
        raise MeshError(
            f"{file.name} is broken, or is no {kind.upper()} file", "Export it again."
        ) from wrong
    return [
        (np.asarray(mesh.vertices, dtype=float), np.asarray(mesh.faces, dtype=np.int64))
        for mesh in meshes
        if len(mesh.faces)
    ]


def _check_count(name: str, faces: int) -> None:
    """Refuse more triangles than are read; a part that stands in several places counts in each."""
    if faces > MOST_FACES:
        raise MeshError(
            f"{name} has {faces:,} triangles",
            f"The most that is read is {MOST_FACES:,}: simplify the mesh.",
        )


def _check(name: str, vertices: NDArray[np.float64], faces: NDArray[np.int64]) -> None:
    """Refuse what rays cannot be cast at."""
    _check_count(name, len(faces))
    if faces.min() < 0 or faces.max() >= len(vertices):
        raise MeshError(f"{name} names corners that it does not hold", "Export it again.")
    used = np.zeros(len(vertices), dtype=bool)
    used[faces.ravel()] = True
    if not np.isfinite(vertices[used]).all():
        raise MeshError(f"{name} has corners that are not numbers", "Export it again.")
    if not _area(vertices, faces):
        raise MeshError(f"{name} has triangles, but none with any area", "Export it again.")


def _check_size(name: str, placed: NDArray[np.float64]) -> None:
    """Refuse a mesh that is placed off any stage, or smaller than anything on one."""
    how = "Lengths in a mesh are metres: give the solid a scale (0.001 for millimetres)."
    if not np.abs(placed).max() <= LONGEST:
        raise MeshError(f"{name} is placed over {LONGEST:.0f} m from the origin", how)
    if np.ptp(placed, axis=1).max() < SMALLEST:
        raise MeshError(f"{name} is placed no larger than a tenth of a millimetre", how)


def _area(vertices: NDArray[np.float64], faces: NDArray[np.int64]) -> float:
    a, b, c = (vertices[faces[:, k]] for k in range(3))
    return float(np.abs(np.cross(b - a, c - a)).sum())


def _closed(vertices: NDArray[np.float64], faces: NDArray[np.int64]) -> bool:
    """Whether every edge belongs to an even number of triangles, corners in one place being one."""
    corner = _places(vertices)[faces]
    corner = corner[(corner != np.roll(corner, 1, axis=1)).all(axis=1)]
    low, high = (
        np.minimum(corner, np.roll(corner, 1, axis=1)),
        np.maximum(corner, np.roll(corner, 1, axis=1)),
    )
    _, times = np.unique((low * len(vertices) + high).ravel(), return_counts=True)
    return bool((times % 2 == 0).all())


def _places(vertices: NDArray[np.float64]) -> NDArray[np.int64]:
    """A number for each vertex, the same for vertices in the same place."""
    bits = (vertices + 0.0).view(np.uint64)  # + 0.0 makes one zero of two
    # Odd multipliers mix the bits; two places fall together once in some 10^5 meshes of a million.
    mixed = bits * np.array([0x9E3779B97F4A7C15, 0xC2B2AE3D27D4EB4F, 0x165667B19E3779F9], np.uint64)
    mixed ^= mixed >> np.uint64(29)
    key = (mixed * np.array([1, 0xFF51AFD7ED558CCD, 0xC4CEB9FE1A85EC53], np.uint64)).sum(axis=1)
    return np.asarray(np.unique(key, return_inverse=True)[1].ravel(), dtype=np.int64)


KEPT = 16  # meshes kept in memory


def meshes_of(scene: Scene) -> dict[str, Mesh]:
    """The mesh of every solid that is one, by the solid's name, metres, in the stage's frame.

    Raises SceneError, with every file that cannot be used in one report.
    """
    named = [solid for solid in scene.solids if solid.mesh is not None]
    if not named:
        return {}

    found, mistakes = {}, []
    for solid in named:
        try:
            found[solid.name] = _mesh(scene, solid)
        except MeshError as wrong:
            mistakes.append(_mistake(scene, solid, wrong))
    if mistakes:
        raise SceneError(scene.settings.title, mistakes)
    return found


def _mesh(scene: Scene, solid: Solid) -> Mesh:
    path = os.path.join(scene.folder, solid.mesh or "")
    try:
        about = os.stat(path)
        stamp = (about.st_mtime_ns, about.st_size)
    except OSError:
        stamp = (0, 0)  # the reader tells what is wrong with it
    return _read_mesh_files(path, solid.scale, solid.move, stamp)


@lru_cache(maxsize=KEPT)
def _read_mesh_files(path: str, scale: float, move: Point, stamp: tuple[int, int]) -> Mesh:
    """One file; a file that has changed has another stamp, and is read anew."""

    return load_mesh(path, scale=scale, move=move)


def _mistake(scene: Scene, solid: Solid, wrong: MeshError) -> Mistake:
    expected = "a mesh file with triangles that rays can be cast at"
    entry = f'"{solid.name}"'
    return Mistake(scene.file, "[[solid]]", entry, "mesh", expected, wrong.what, wrong.do)
