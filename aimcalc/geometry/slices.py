"""Solids cut by a plane, for drawing a section."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from aimcalc.geometry.solids import Indices, Soup
from aimcalc.geometry.vectors import Array


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
