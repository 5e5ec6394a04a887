"""Candela tables in the file's own planes: half-planes C round a pole, angles gamma off it.

What the pole is, and where C = 0 lies, goes by the layout; seen from behind the unit, along the beam:

    C, EULUMDAT   pole the lens axis, C anti-clockwise from the unit's own right-hand side (90 is up)
    A             pole the body's up, C the file's horizontal angle (0 the lens axis, + to the right)
    B             pole the body's right-hand side, C the file's vertical angle (0 the lens axis, + up)

Degrees, both rising. Gamma is 90 less the file's other angle in Types A and B, and from 0 on in Type C,
whose C goes from 0 to 360 with both ends given, or is the one value 0 where the table is the same all round.
That is the sense of LM-63 Type C and of EULUMDAT for a file's straight-down axis seen from above.
Tables are never resampled: intensity is linear in the file's own two angles, and zero outside them.
"""

from __future__ import annotations

from typing import TypeVar

import numpy as np

from aimcalc.geometry.vectors import Array, to_degrees

Table = tuple[Array, Array, Array]  # c, gamma, candela (C, gamma)
T = TypeVar("T")

SLACK = 1e-7  # degrees: the rounding of an angle at the table's edge


def mirrored(c: Array, candela: Array, about: float) -> tuple[Array, Array]:
    """Half-planes and their mirror images about the plane C = `about`, sorted, without repeats.

    `c` (C,) degrees, `candela` (C, G); of a plane that comes twice the first table is kept.
    """
    both = np.concatenate((c, 2 * about - c)) % 360.0
    table = np.concatenate((candela, candela))
    angles, first = np.unique(np.round(both, 9), return_index=True)
    return angles, table[first]


def full_turn(c: Array, candela: Array) -> tuple[Array, Array]:
    """Half-planes from 0 to 360 with both ends given, from half-planes that go all the way round.

    `c` (C,) degrees in any order, `candela` (C, G). A plane at 0 that is not among them is linear in C
    between its neighbours.
    """
    angles, first = np.unique(np.round(c % 360.0, 9), return_index=True)
    table = candela[first]
    if angles[0] > 0:  # the plane at 0 lies between the last and the first
        gap = angles[0] + 360.0 - angles[-1]
        share = (360.0 - angles[-1]) / gap
        start = (1 - share) * table[-1] + share * table[0]
        angles, table = np.append(0.0, angles), np.vstack((start, table))
    return np.append(angles, 360.0), np.vstack((table, table[:1]))


def from_upward(c: Array, gamma: Array, candela: Array) -> Table:
    """A table about straight up turned over about its C = 0 line, so that its axis is gamma = 0.

    `c` (C,) and `gamma` (G,) degrees, `candela` (C, G).
    """
    angles, table = full_turn(-c, candela) if c.size > 1 else (c, candela)
    return angles, 180.0 - gamma[::-1], table[:, ::-1]


def from_axis(c: Array, gamma: Array, candela: Array, notes: list[str]) -> Table:
    """A table about the file's vertical with its first angle on the lens axis; `notes` says what was done.

    `c` (C,) and `gamma` (G,) degrees, `candela` (C, G). Upward angles only (from 90): turned over. A first
    angle off the axis: level from there inwards.
    """
    if gamma[0] >= 90.0 - 1e-6:
        notes.append("all its light goes up: the lens axis is taken straight up")
        c, gamma, candela = from_upward(c, gamma, candela)
    if gamma[0] > 1e-6:
        notes.append(f"begins {gamma[0]:g} degrees off the axis: taken as even from there inwards")
        gamma, candela = np.append(0.0, gamma), np.hstack((candela[:, :1], candela))
    return c, gamma, candela


def from_type_a(level: Array, upright: Array, candela: Array) -> Table:
    """The common form of a Type A table: `level` angles about the upright axis, then `upright` ones.

    The lens axis is taken at (0, 0), which LM-63 calls photometric horizontal: lamps measured in Type A
    look level. Angles (L,) and (U,) in degrees, + to the right and up as seen along the beam; `candela` is
    (L, U). A table that gives one side only is alike on the other.
    """
    level, candela = _both_sides(level, candela)
    upright, turned = _both_sides(upright, candela.T)
    return level, 90.0 - upright[::-1], turned[::-1].T


def from_type_b(level: Array, upright: Array, candela: Array) -> Table:
    """The common form of a Type B table: `upright` angles about the level axis, then `level` ones.

    The lens axis is at (0, 0). Angles and `candela` as in `from_type_a`.
    """
    return from_type_a(upright, level, candela.T)


def _both_sides(angles: Array, table: Array) -> tuple[Array, Array]:
    """Angles that begin at 0 with their images below 0; `table` goes by them."""
    if angles[0] < 0:
        return angles, table
    return np.concatenate((-angles[:0:-1], angles)), np.concatenate((table[:0:-1], table))


def own_angles(layout: str, right: Array, up: Array, along: Array) -> tuple[Array, Array]:
    """C and gamma in degrees of directions given by their parts, of any one length; C from -180 to 180.

    The three parts have any one shape, and so have the angles.
    """
    pole, x, y = axes(layout, right, up, along)
    c, gamma = np.arctan2(y, x), np.arctan2(np.hypot(x, y), pole)
    return to_degrees(c), to_degrees(gamma)


def axes(layout: str, right: T, up: T, along: T) -> tuple[T, T, T]:
    """The pole, the way of C = 0 and the way of C = 90 of a layout, out of the body's three."""
    if layout == "A":
        return up, along, right
    return (right, along, up) if layout == "B" else (along, right, up)


def looked_up(layout: str, table: Table, c_deg: Array, gamma_deg: Array) -> Array:
    """Candela at C and gamma, degrees of any one shape, linear in both, zero outside the table.

    C may have any number of turns in layout C.
    """
    c, gamma, candela = table
    at = c_deg % 360.0 if layout == "C" else c_deg
    value = bilinear(c, gamma, candela, at, gamma_deg)
    inside = (gamma_deg <= gamma[-1] + SLACK) & (gamma_deg >= gamma[0] - SLACK)
    if layout != "C":
        inside = inside & (at <= c[-1] + SLACK) & (at >= c[0] - SLACK)
    return np.where(inside, value, 0.0)


def bilinear(first: Array, second: Array, table: Array, x: Array, y: Array) -> Array:
    """`table` (A, B) over angles (A,) and (B,), linear in both, at (x, y); held at its edges beyond them.

    `x` and `y` of any one shape. The unit of the angles is the caller's.
    """
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
