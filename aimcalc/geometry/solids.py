"""Solids as triangles: boxes, panels, tubes and meshes, gathered into one soup that rays can meet.

A soup is a struct of arrays. Every triangle knows the number of the solid it belongs to (its owner), so
that whatever a ray meets can be named. Triangles have no inside: light is stopped from either side.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from aimcalc.geometry.vectors import Array, points, square_to
from aimcalc.named import NamedTuple

Indices = NDArray[np.int64]

TUBE_SIDES = 12
# Two triangles a side, seen anticlockwise from outside; corner 4 x + 2 y + z of a box, 0 low and 1 high.
BOX_FACES = np.array(
    [
        *((0, 1, 3), (0, 3, 2), (4, 6, 7), (4, 7, 5)),
        *((0, 4, 5), (0, 5, 1), (2, 3, 7), (2, 7, 6)),
        *((0, 2, 6), (0, 6, 4), (1, 5, 7), (1, 7, 3)),
    ]
).T


class Soup(NamedTuple):
    """Triangles of many solids: `vertices` (3, V), `faces` (3, F) rows of V, `owner` (F,)."""

    vertices: Array
    faces: Indices
    owner: Indices

    @property
    def corners(self) -> Array:
        """The corners of every triangle, shape (3 corners, 3 coordinates, F)."""
        return self.vertices[:, self.faces].transpose(1, 0, 2)

    def packed(self) -> Soup:
        """The same triangles, with no other vertices than theirs."""
        used = np.zeros(self.vertices.shape[1], np.bool_)
        used[self.faces] = True
        if used.all():
            return self
        return Soup(self.vertices[:, used], (np.cumsum(used) - 1)[self.faces], self.owner)

    def sizes(self, owners: int) -> Array:
        """The longest side of the box round each owner's triangles, (owners,); NaN for one without any."""
        low, high = np.full((3, owners), np.inf), np.full((3, owners), -np.inf)
        for corner in self.corners:
            for axis in range(3):
                np.minimum.at(low[axis], self.owner, corner[axis])
                np.maximum.at(high[axis], self.owner, corner[axis])
        sides = np.where(high < low, np.nan, high - low)
        return np.asarray(sides.max(axis=0, initial=0.0))


class Shape(NamedTuple):
    """One solid before it is given a number: `vertices` (3, V) and `faces` (3, F)."""

    vertices: Array
    faces: Indices


def box(low: ArrayLike, high: ArrayLike) -> Shape:
    """The twelve triangles of a box given by two opposite corners, (3,) m each, in any order."""
    ends = np.stack((np.asarray(low, dtype=float), np.asarray(high, dtype=float)))
    ends.sort(axis=0)
    pick = np.indices((2, 2, 2)).reshape(3, 8)
    return Shape(ends[pick, np.arange(3)[:, None]], BOX_FACES)


def panel(corners: ArrayLike) -> Shape:
    """The two triangles of a four-cornered panel, its corners (4, 3), m, given going round.

    Four corners that are not in one plane are folded along the line from the first to the third.
    """
    return Shape(points(corners), np.array([(0, 0), (1, 2), (2, 3)]))


def tube(start: ArrayLike, end: ArrayLike, *, radius: float, sides: int = TUBE_SIDES) -> Shape:
    """The side of a round tube as flat strips, open at its ends.

    From `start` to `end`, (3,) m each. The strips' girth is the tube's, so that seen from all round they
    are as wide as the tube is (Cauchy: the mean width of a convex outline is its girth over pi).
    """
    start, end = np.asarray(start, dtype=float), np.asarray(end, dtype=float)
    along = (end - start) / np.linalg.norm(end - start)
    across, out = (way[:, 0] for way in square_to(along[:, None]))
    turn = 2 * np.pi * np.arange(sides) / sides
    reach = radius * (np.pi / sides) / np.sin(np.pi / sides)
    ring = reach * (np.outer(across, np.cos(turn)) + np.outer(out, np.sin(turn)))
    vertices = np.concatenate((start[:, None] + ring, end[:, None] + ring), axis=1)
    here, there = np.arange(sides), (np.arange(sides) + 1) % sides
    faces = np.stack(
        (
            np.concatenate((here, there)),
            np.concatenate((there, there + sides)),
            np.concatenate((here + sides, here + sides)),
        )
    )
    return Shape(vertices, faces)


def fan(tip: ArrayLike, ring: Array) -> Shape:
    """The side of a cone from its tip (3,) to a closed ring of points (3, M)."""
    count = ring.shape[1]
    here = np.arange(count) + 1
    faces = np.stack((np.zeros(count, dtype=np.int64), here, np.roll(here, -1)))
    return Shape(np.concatenate((points(tip), ring), axis=1), faces)


DECK_REACH = 500.0  # m each way: a deck without end, for light that stays in a building


def deck_strips(*, rake: float, rake_from: float) -> Shape:
    """A deck as two large panels: level up to y = `rake_from`, rising upstage from there."""
    far, top = DECK_REACH, rake * DECK_REACH
    y0, y1, y2 = rake_from - far, rake_from, rake_from + far
    level = panel([(-far, y0, 0), (far, y0, 0), (far, y1, 0), (-far, y1, 0)])
    raked = panel([(-far, y1, 0), (far, y1, 0), (far, y2, top), (-far, y2, top)])
    return joined((level, raked))


def joined(shapes: Sequence[Shape]) -> Shape:
    """Several shapes as one solid."""
    both = soup(shapes)
    return Shape(both.vertices, both.faces)


def soup(shapes: Sequence[Shape], owners: Sequence[int] | None = None) -> Soup:
    """All shapes in one soup; owners are the places in the list unless they are given."""
    if not shapes:
        return Soup(np.zeros((3, 0)), np.zeros((3, 0), dtype=np.int64), np.zeros(0, dtype=np.int64))
    numbers = np.arange(len(shapes)) if owners is None else np.asarray(owners)
    first = np.cumsum([0] + [shape.vertices.shape[1] for shape in shapes[:-1]])
    return Soup(
        np.concatenate([shape.vertices for shape in shapes], axis=1),
        np.concatenate([s.faces + k for s, k in zip(shapes, first, strict=True)], axis=1),
        np.repeat(numbers, [shape.faces.shape[1] for shape in shapes]),
    )


def merged(*soups: Soup) -> Soup:
    """Several soups as one, each triangle keeping its owner."""
    first = np.cumsum([0] + [part.vertices.shape[1] for part in soups[:-1]])
    return Soup(
        np.concatenate([part.vertices for part in soups], axis=1),
        np.concatenate([s.faces + k for s, k in zip(soups, first, strict=True)], axis=1),
        np.concatenate([part.owner for part in soups]),
    )


def part(whole: Soup, owner: int) -> Shape:
    """One solid out of a soup, with no vertices but its own."""
    faces = whole.faces[:, whole.owner == owner]
    used = np.zeros(whole.vertices.shape[1], dtype=np.int64)
    used[faces.ravel()] = 1
    return Shape(whole.vertices[:, used > 0], (np.cumsum(used) - 1)[faces])


class Slice(NamedTuple):
    """Lines where a plane cuts solids: `start` and `end` (3, K), and the `owner` (K,) of each."""

    start: Array
    end: Array
    owner: Indices


def cut(soup: Soup, *, point: Array, normal: Array) -> Slice:
    """Where the plane through `point` (3,) square to `normal` (3,) cuts the triangles of a soup.

    A corner that lies in the plane is taken for one just on the normal's side, so that solids that
    touch the plane are cut once or not at all, and a triangle that lies in it is not cut.
    """
    corners = soup.corners
    off = np.einsum("i,kif->kf", normal, corners - point[None, :, None])
    front = off >= 0
    crossed = np.flatnonzero(front.any(axis=0) & ~front.all(axis=0))
    corners, off, front = corners[:, :, crossed], off[:, crossed], front[:, crossed]
    # The one corner that is alone on its side, and the two edges that leave it.
    alone = np.where(front.sum(axis=0) == 1, front.argmax(axis=0), front.argmin(axis=0))
    rows = np.arange(crossed.size)
    ends = []
    for step in (1, 2):
        other = (alone + step) % 3
        a, b = off[alone, rows], off[other, rows]
        here, there = corners[alone, :, rows].T, corners[other, :, rows].T
        ends.append(here + (there - here) * (a / (a - b)))
    return Slice(ends[0], ends[1], soup.owner[crossed])
