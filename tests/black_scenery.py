"""The scenery of a scene as black polygons for the ray tracer of `tests.ray_tracer`."""

from __future__ import annotations

import numpy as np

from aimcalc.rig.meshes import meshes_of
from tests import ray_tracer


def black(rig):
    """The solids of a rig's scene as text for the tracer: panels, the sides of boxes, triangles of meshes."""
    meshes = meshes_of(rig.scene)
    parts = []
    for solid in rig.scene.solids:
        for k, corners in enumerate(outlines(solid, meshes)):
            parts.append(ray_tracer.black_panel(corners, f"{solid.name.replace(' ', '_')}.{k}"))
    return "".join(parts)


def outlines(solid, meshes):
    """Corners (K, 3) of every flat part of a solid."""
    if solid.panel:
        return [np.array(solid.panel)]
    if solid.mesh:
        shape = meshes[solid.name].shape
        return list(shape.vertices.T[shape.faces.T])
    (x0, y0, z0, x1, y1, z1) = solid.box
    low, high = np.array([x0, y0, z0]), np.array([x1, y1, z1])
    sides = []
    for axis in range(3):
        a, b = (axis + 1) % 3, (axis + 2) % 3
        for end in (low, high):
            corners = np.repeat(end[None], 4, axis=0)
            corners[:, a] = low[a], high[a], high[a], low[a]
            corners[:, b] = low[b], low[b], high[b], high[b]
            sides.append(corners)
    return sides
