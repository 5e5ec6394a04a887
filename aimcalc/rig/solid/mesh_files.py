"""The mesh files that a scene names, read once and placed."""

from __future__ import annotations

import os
from functools import lru_cache
from typing import TYPE_CHECKING

from aimcalc.scene.mistakes import Mistake, SceneError
from aimcalc.scene.model import Point, Scene, Solid

if TYPE_CHECKING:
    from aimcalc.rig.meshes import Mesh

KEPT = 16  # meshes kept in memory


def meshes_of(scene: Scene) -> dict[str, Mesh]:
    """The mesh of every solid that is one, by the solid's name, metres, in the stage's frame.

    Raises SceneError, with every file that cannot be used in one report.
    """
    named = [solid for solid in scene.solids if solid.mesh is not None]
    if not named:
        return {}
    from aimcalc.rig.meshes import MeshError

    found, mistakes = {}, []
    for solid in named:
        try:
            found[solid.name] = _mesh(scene, solid)
        except MeshError as wrong:
            mistakes.append(_mistake(scene, solid, str(wrong)))
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
    return _read(path, solid.scale, solid.move, stamp)


@lru_cache(maxsize=KEPT)
def _read(path: str, scale: float, move: Point, stamp: tuple[int, int]) -> Mesh:
    """One file; a file that has changed has another stamp, and is read anew."""
    from aimcalc.rig.meshes import load_mesh

    return load_mesh(path, scale=scale, move=move)


def _mistake(scene: Scene, solid: Solid, came: str) -> Mistake:
    expected = "a mesh file with triangles that rays can be cast at"
    what, _, do = came.partition(". ")
    return Mistake(scene.file, "[[solid]]", f'"{solid.name}"', "mesh", expected, what, do)
