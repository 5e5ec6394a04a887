"""Candela tables of every layout brought to one: half-planes C round the lens axis, angles gamma off it.

The common form: gamma in degrees from the lens axis, rising from 0; C in degrees, rising from 0 to 360 with
both ends given, or the one value 0 where the table is the same all round. Seen from behind the unit, along
the beam, C runs anti-clockwise from the unit's own right-hand side (with the body upright, C = 90 is up).
That is the sense of LM-63 Type C and of EULUMDAT for a file's straight-down axis seen from above.
"""

from __future__ import annotations

import numpy as np

from aimcalc.geometry.vectors import Array

Table = tuple[Array, Array, Array]  # c, gamma, candela (C, gamma)


def mirrored(c: Array, candela: Array, about: float) -> tuple[Array, Array]:
    """Half-planes and their mirror images about the plane C = `about`, sorted, without repeats."""
    both = np.concatenate((c, 2 * about - c)) % 360.0
    table = np.concatenate((candela, candela))
    angles, first = np.unique(np.round(both, 9), return_index=True)
    return angles, table[first]


def full_turn(c: Array, candela: Array) -> tuple[Array, Array]:
    """Half-planes from 0 to 360 with both ends given, from half-planes that go all the way round."""
    angles, first = np.unique(np.round(c % 360.0, 9), return_index=True)
    table = candela[first]
    if angles[0] > 0:  # the plane at 0 lies between the last and the first
        gap = angles[0] + 360.0 - angles[-1]
        share = (360.0 - angles[-1]) / gap
        start = (1 - share) * table[-1] + share * table[0]
        angles, table = np.append(0.0, angles), np.vstack((start, table))
    return np.append(angles, 360.0), np.vstack((table, table[:1]))


def from_upward(c: Array, gamma: Array, candela: Array) -> Table:
    """A table about straight up turned over about its C = 0 line, so that its axis is gamma = 0."""
    angles, table = full_turn(-c, candela) if c.size > 1 else (c, candela)
    return angles, 180.0 - gamma[::-1], table[:, ::-1]


def from_axis(c: Array, gamma: Array, candela: Array, notes: list[str]) -> Table:
    """A table about the file's vertical with its first angle on the lens axis; `notes` says what was done.

    Upward angles only (from 90): turned over. A first angle off the axis: level from there inwards.
    """
    if gamma[0] >= 90.0 - 1e-6:
        notes.append("all its light goes up: the lens axis is taken straight up")
        c, gamma, candela = from_upward(c, gamma, candela)
    if gamma[0] > 1e-6:
        notes.append(f"begins {gamma[0]:g} degrees off the axis: taken as level from there inwards")
        gamma, candela = np.append(0.0, gamma), np.hstack((candela[:, :1], candela))
    return c, gamma, candela


def from_type_a(level: Array, upright: Array, candela: Array) -> Table:
    """The common form of a Type A table: `level` angles about the upright axis, then `upright` ones.

    The lens axis is taken at (0, 0), which LM-63 calls photometric horizontal: lamps measured in Type A look
    level. Angles in degrees, + to the right and up as seen along the beam; `candela` is (level, upright).
    """
    c, gamma, right, up, along = _grid(level, upright)
    at_level = np.degrees(np.arctan2(right, along))
    at_upright = np.degrees(np.arcsin(np.clip(up, -1.0, 1.0)))
    return c, gamma, _sampled(level, upright, candela, at_level, at_upright)


def from_type_b(level: Array, upright: Array, candela: Array) -> Table:
    """The common form of a Type B table: `upright` angles about the level axis, then `level` ones.

    The lens axis is at (0, 0). Angles as `from_type_a`.
    """
    c, gamma, right, up, along = _grid(level, upright)
    at_upright = np.degrees(np.arctan2(up, along))
    at_level = np.degrees(np.arcsin(np.clip(right, -1.0, 1.0)))
    return c, gamma, _sampled(level, upright, candela, at_level, at_upright)


def _grid(level: Array, upright: Array) -> tuple[Array, Array, Array, Array, Array]:
    """C, gamma and the directions (right, up, along) of every pair, for tables on two other axes.

    Gamma takes every angle that the table names, so that the two principal planes stay exact.
    """
    far = max(float(np.abs(level).max()), float(np.abs(upright).max()))
    named = np.abs(np.concatenate((level, upright)))
    gamma = np.unique(np.round(np.concatenate((named, np.arange(0.0, far, 1.0))), 6))
    c = np.arange(0.0, 361.0, 5.0)
    turn, off = np.radians(c)[:, None], np.radians(gamma)
    right, up = np.cos(turn) * np.sin(off), np.sin(turn) * np.sin(off)
    return c, gamma, right, up, np.broadcast_to(np.cos(off), right.shape)


def _sampled(level: Array, upright: Array, table: Array, x: Array, y: Array) -> Array:
    """The table, linear in both angles, at (x, y); mirrored where it gives one side only, 0 outside it."""
    x = np.abs(x) if level[0] >= 0 else x
    y = np.abs(y) if upright[0] >= 0 else y
    slack = 1e-7  # degrees: the rounding of arcsin at the table's edge
    inside = (x <= level[-1] + slack) & (x >= level[0] - slack)
    inside &= (y <= upright[-1] + slack) & (y >= upright[0] - slack)
    return np.where(inside, bilinear(level, upright, table, x, y), 0.0)


def bilinear(first: Array, second: Array, table: Array, x: Array, y: Array) -> Array:
    """`table` (first, second), linear in both angles, at (x, y); held at its edges beyond them."""
    i, fx = _between(first, x)
    j, fy = _between(second, y)
    i1, j1 = np.minimum(i + 1, first.size - 1), np.minimum(j + 1, second.size - 1)
    low = table[i, j] * (1 - fy) + table[i, j1] * fy
    high = table[i1, j] * (1 - fy) + table[i1, j1] * fy
    return np.asarray(low * (1 - fx) + high * fx)


def _between(
    angles: Array, at: Array
) -> tuple[np.ndarray[tuple[int, ...], np.dtype[np.intp]], Array]:
    """Index of the angle at or below `at`, and how far `at` is on the way to the next, 0 to 1."""
    k = np.clip(np.searchsorted(angles, at, side="right") - 1, 0, max(0, angles.size - 2))
    if angles.size == 1:
        return k, np.zeros_like(at)
    return k, np.clip((at - angles[k]) / (angles[k + 1] - angles[k]), 0.0, 1.0)
