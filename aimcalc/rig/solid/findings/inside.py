"""Targets where scenery already is: somebody standing through a flat, a point inside a mesh."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from aimcalc.geometry.hulls import Hulls, gap, picked, rods
from aimcalc.geometry.near import bounds, near
from aimcalc.geometry.occlusion import Flags
from aimcalc.geometry.solids import Shape
from aimcalc.geometry.vectors import Array
from aimcalc.rig.answers import Finding
from aimcalc.rig.findings.targets import Aimed, aimed, called, warned
from aimcalc.rig.solve import Rig

BODY_RADIUS = 0.10  # m; somebody who stands, drawn thin (estimate, no source)
OFF_THE_FLOOR = 0.30  # m; a sill or a rail is stepped over (estimate, no source)
NOT_ON_AN_EDGE = np.array(
    [1.7e-7, 2.3e-7, 0.0]
)  # m; a line through an edge would meet it twice or not at all
ON_THE_FACE = 0.05  # m; a point this near to a surface is on it


def in_scenery(rig: Rig) -> Iterator[Finding]:
    """Warns of faces whose owners stand through a panel or mesh, and of points inside a closed mesh.

    Boxes are judged with the targets; what may be stood on is judged by its height.
    """
    places = aimed(rig)
    found = _stood_in(rig, places) | _inside_meshes(rig, places)
    judged = [not solid.stand_on and solid.box is None for solid in rig.scene.solids]
    for solid, j in sorted(found):
        if judged[solid]:
            says = f"{called(rig, places, j)} is inside {rig.scene.solids[solid].name}."
            do = "Move the target clear of it, or correct the solid."
            yield warned(rig, places, j, "target-in-scenery", says, do)


def _stood_in(rig: Rig, places: Aimed) -> set[tuple[int, int]]:
    """Solids and places where somebody with a face there would stand through the solid."""
    face = [target is not None and target.plane == "face" for target in places.targets]
    some = np.flatnonzero(face)
    rows = [places.units[j][0] for j in some.tolist()]
    foot = rig.arrays.stand[:, rows] + np.array([[0.0], [0.0], [OFF_THE_FLOOR + BODY_RADIUS]])
    standing = rods(foot, places.point[:, some], radius=BODY_RADIUS, owner=some)
    return _touching(standing, rig.solids.scenery_triangles)


def _touching(bodies: Hulls, triangles: Hulls) -> set[tuple[int, int]]:
    """Owners of triangles and of the bodies that touch them."""
    first, second = near(
        bounds(bodies.points, bodies.radius), bounds(triangles.points, triangles.radius), 0.0
    )
    touch = gap(picked(bodies, first), picked(triangles, second)) <= 0
    owners = triangles.owner[second[touch]].tolist(), bodies.owner[first[touch]].tolist()
    return set(zip(*owners, strict=True))


def _inside_meshes(rig: Rig, places: Aimed) -> set[tuple[int, int]]:
    """Closed meshes and the places inside them; a point on the face of a mesh is not inside."""
    found: set[tuple[int, int]] = set()
    meshes = [k for k, solid in enumerate(rig.scene.solids) if solid.mesh]
    for k in meshes:
        inside = np.flatnonzero(_within(places.point, rig.solids.things[k].shape))
        found |= {(k, j) for j in inside.tolist()}
    if not found:
        return found
    every = np.arange(places.point.shape[1])
    on = rods(places.point, places.point, radius=ON_THE_FACE, owner=every)
    return found - _touching(on, rig.solids.scenery_triangles)


def _within(points: Array, shape: Shape) -> Flags:
    """Whether points (3, T) are inside a closed mesh: plumb above each it is met an odd number of times."""
    low, high = shape.vertices.min(axis=1)[:, None], shape.vertices.max(axis=1)[:, None]
    inside = ((points > low) & (points < high)).all(axis=0)
    for j in np.flatnonzero(inside).tolist():
        inside[j] = _above(points[:, j], shape) % 2
    return np.asarray(inside)


def _above(point: Array, shape: Shape) -> int:
    """How many triangles lie plumb above a point."""
    a, b, c = (shape.vertices[:, shape.faces[k]] for k in range(3))
    x, y, z = point + NOT_ON_AN_EDGE
    with np.errstate(divide="ignore", invalid="ignore"):  # upright triangles have no area in plan
        area = (b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1])
        s = ((x - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (y - a[1])) / area
        t = ((b[0] - a[0]) * (y - a[1]) - (x - a[0]) * (b[1] - a[1])) / area
        over = a[2] + s * (b[2] - a[2]) + t * (c[2] - a[2]) > z
        return int(np.count_nonzero((s >= 0) & (t >= 0) & (s + t <= 1) & over))
