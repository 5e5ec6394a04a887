"""Solids as a line drawing: which of their edges are worth a line, and which parts of lines are hidden.

The view is parallel: everything is seen in one direction. An edge is drawn where its two faces make a
corner, where it has only one face, and where one face is turned to the eye and the other away from it.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from aimcalc.geometry.occlusion import Caster, Flags, occluded
from aimcalc.geometry.solids import Indices, Shape
from aimcalc.geometry.vectors import Array, cross, dot

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
