"""The solids of a scene as trimesh builds them from what the scene says; nothing of ours is in them."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import trimesh

from aimcalc.scene.model import Scene, Solid


def mesh_of(scene: Scene, solid: Solid) -> trimesh.Trimesh:
    if solid.box:
        low, high = np.reshape(solid.box, (2, 3))
        at = trimesh.transformations.translation_matrix((low + high) / 2)
        return trimesh.creation.box(np.abs(high - low), at)
    if solid.panel:
        return trimesh.Trimesh(solid.panel, [(0, 1, 2), (0, 2, 3)], process=False)
    mesh = trimesh.load_mesh(Path(scene.folder) / solid.mesh)
    mesh.apply_scale(solid.scale)
    mesh.apply_translation(solid.move)
    return mesh


def upright(corners: np.ndarray, low: float, high: float) -> trimesh.Trimesh:
    """The panel over the two plan ends of an upright panel (4, 3) between two heights."""
    first = corners[0, :2]
    last = corners[np.linalg.norm(corners[:, :2] - first, axis=1).argmax(), :2]
    ring = [(*first, low), (*last, low), (*last, high), (*first, high)]
    return trimesh.Trimesh(ring, [(0, 1, 2), (0, 2, 3)], process=False)
