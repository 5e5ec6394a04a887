"""Where a tape measure can lie: on the deck or on one platform, in the clear, and seen from every lens.

A tape is a straight line on the plan. It wants its own width of clear level deck: no edge of the deck, no
seats, no step and nothing standing within CLEAR of it. A mark on it is of use where a straight line from
the unit's pivot reaches it.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from aimcalc.geometry.deck import Deck, bare_height, height
from aimcalc.geometry.first_met import first_met
from aimcalc.geometry.polygon import inside
from aimcalc.geometry.rays import Flags
from aimcalc.geometry.solids import Soup, cut
from aimcalc.geometry.vectors import Array

CLEAR = 0.05  # m from the tape to anything (our choice: a hand's breadth)
LOW = 0.05  # m over the tape: what begins higher lets it lie, what is lower lies under it (our choice)
ON_TOP = 0.01  # m above the deck that a mark is looked at
UP = np.array([0.0, 0.0, 1.0])


class Ground(NamedTuple):
    """What tapes lie on and among: plan polygons (2, V), and S solids in one soup, owners 0 to S - 1.

    An outline without corners: no edge of the deck is known.
    """

    deck: Deck
    outline: Array
    seats: Sequence[Array]
    solids: Soup
    owners: int  # S


class Lines(NamedTuple):
    """C tapes: `start` and `end` (2, C) on the plan, `marks` (2, C, U) of units with pivots `eyes` (3, U)."""

    start: Array
    end: Array
    marks: Array
    eyes: Array


def in_the_way(ground: Ground, lines: Lines) -> Flags:
    """What keeps each tape from being laid, flags (1 + seats + 2 S, C).

    Rows: the edge of the deck; each block of seats; each solid that stands there, or whose edge is a step;
    each solid that hides a mark, which is looked at only where nothing else is in the way.
    """
    level = _level(ground.deck, lines)
    rows = [_off(ground.outline, lines), *(_upon(seats, lines) for seats in ground.seats)]
    lies = np.concatenate((rows, _standing(ground, lines, level)))
    hiding = np.zeros((ground.owners, level.size), dtype=bool)
    free = np.flatnonzero(~lies.any(axis=0))
    if free.size:
        some = lines._replace(marks=lines.marks[:, free])
        hiding[:, free] = _hiding(ground, some, level[free])
    return np.concatenate((lies, hiding))


def _level(deck: Deck, lines: Lines) -> Array:
    """Height of what the middle of each tape lies on, above the bare deck there, (C,)."""
    x, y = (lines.start + lines.end) / 2
    return height(deck, x, y) - bare_height(deck, y)


def _off(outline: Array, lines: Lines) -> Flags:
    if not outline.size:
        return np.zeros(lines.start.shape[1], dtype=bool)
    return ~inside(outline, lines.start) | (_to_edges(outline, lines) < CLEAR)


def _upon(outline: Array, lines: Lines) -> Flags:
    return inside(outline, lines.start) | (_to_edges(outline, lines) < CLEAR)


def _to_edges(outline: Array, lines: Lines) -> Array:
    return np.asarray(
        apart(lines.start, lines.end, outline, np.roll(outline, -1, axis=1)).min(axis=1)
    )


def _standing(ground: Ground, lines: Lines, level: Array) -> Flags:
    """Solids cut, just over or just under what a tape lies on, within CLEAR of the tape, (S, C)."""
    vertices = ground.solids.vertices.copy()
    vertices[2] -= bare_height(ground.deck, vertices[1])
    solids = ground.solids._replace(vertices=vertices)
    standing = np.zeros((ground.owners, level.size), dtype=bool)
    for here in set(np.round(level, 6).tolist()):
        mine = np.flatnonzero(np.abs(level - here) < 1e-5)
        for z in (here + LOW, here - LOW):
            found = cut(solids, point=UP * z, normal=UP)
            some = lines.start[:, mine], lines.end[:, mine]
            near = apart(*some, found.start[:2], found.end[:2]) < CLEAR
            tape, line = np.nonzero(near)
            standing[found.owner[line], mine[tape]] = True
    return standing


def _hiding(ground: Ground, lines: Lines, level: Array) -> Flags:
    """Solids first met on the way from a pivot to its mark, for any mark of each tape, (S, C)."""
    count, units = lines.marks.shape[1:]
    x, y = lines.marks.reshape(2, -1)
    mark = np.stack((x, y, bare_height(ground.deck, y) + np.repeat(level, units) + ON_TOP))
    eye = np.tile(lines.eyes, count)
    met = first_met(ground.solids.corners, eye, mark - eye)
    hidden = np.flatnonzero(met.distance < 1.0)
    hiding = np.zeros((ground.owners, count), dtype=bool)
    hiding[ground.solids.owner[met.face[hidden]], hidden // units] = True
    return hiding


def apart(start: Array, end: Array, first: Array, last: Array) -> Array:
    """Distance between plan segments (2, C) and others (2, E), shape (C, E); 0 where they cross."""
    a, b = start[:, :, None], end[:, :, None]
    c, d = first[:, None, :], last[:, None, :]
    crosses = (_side(a, b, c) * _side(a, b, d) < 0) & (_side(c, d, a) * _side(c, d, b) < 0)
    ends = [_to_segment(p, c, d) for p in (a, b)] + [_to_segment(p, a, b) for p in (c, d)]
    return np.where(crosses, 0.0, np.minimum.reduce(ends))


def _side(a: Array, b: Array, p: Array) -> Array:
    """Twice the area of the triangle a, b, p: its sign says on which side of the line p lies."""
    return np.asarray((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]))


def _to_segment(p: Array, a: Array, b: Array) -> Array:
    """Distance from points to segments; a segment of no length is its point."""
    d = b - a
    share = ((p - a) * d).sum(axis=0) / np.maximum((d * d).sum(axis=0), 1e-300)
    off = p - a - np.clip(share, 0.0, 1.0) * d
    return np.asarray(np.hypot(off[0], off[1]))
