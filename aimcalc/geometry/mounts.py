"""How a unit is held: the stem it turns about, and the direction its turn is counted from.

Every mount comes down to a clamp point, a stem **a** (unit direction from clamp towards unit), a
reference **r** at right angles to the stem, and a drop. The third direction **b** = a x r is where a
positive turn goes. All arrays have shape (3, N); angles are radians.
"""

from __future__ import annotations

import numpy as np

from aimcalc.geometry.vectors import Array, cross, dot, level_direction, turned


def plumb_stem(count: int, *, up: bool) -> Array:
    """Stems of units hung under (`up` false) or standing over a level clamp, shape (3, count)."""
    stem = np.zeros((3, count))
    stem[2] = 1.0 if up else -1.0
    return stem


def swung_out(
    under: Array, along: Array, square: Array, towards: Array, angle: Array
) -> tuple[Array, Array]:
    """Stem and reference of clamps swung round their pipe by `angle` from hanging under it.

    `along` is the pipe's unit direction, `under` the stem of a unit hung under it, `square` the level
    direction at right angles to both, and `towards` a plan direction on the side the clamp is swung to.
    Stem and reference turn together about the pipe, so they stay at right angles even where the stem is
    level (angle 90 degrees); beyond, the reference points away from `square` in plan.
    """
    # A small positive turn about the pipe moves `under` by along x under.
    sense = np.where(dot(cross(along, under), towards) < 0, -1.0, 1.0)
    return turned(under, along, sense * angle), turned(square, along, sense * angle)


def direct(stem_heading: Array) -> tuple[Array, Array]:
    """Stem and reference of units clamped straight to a boom, the stem level.

    The reference is level too, a quarter turn clockwise (seen from above) from the stem, so that a
    turn at the clamp tips the nose up or down from level.
    """
    return level_direction(stem_heading), level_direction(stem_heading + np.pi / 2)


def pose(stem: Array, reference: Array, turn: Array, yoke: Array) -> tuple[Array, Array]:
    """Lens axis and body-up of units at given clamp turns and yoke angles, each shape (3, N).

    h = r turned by p about a;  f = cos t h + sin t a;  u = sin t h - cos t a.
    """
    h = reference * np.cos(turn) + cross(stem, reference) * np.sin(turn)
    c, s = np.cos(yoke), np.sin(yoke)
    return np.asarray(h * c + stem * s), np.asarray(h * s - stem * c)
