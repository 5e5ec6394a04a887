"""Every unit as a solid in its pose: body, top hat, yoke and clamp, each convex.

The body lies along the lens axis, its front at the lens; the yoke is a U of flat bars whose ends hold
the body at the pivot and whose bottom hangs on the clamp; the clamp sits round the pipe. Only length,
width, nose, rise, drop and top hat are known of a unit. The rest is not measured: a yoke of flat bar
that stands `YOKE_CLEAR` outside the body on each side, bolts and knobs included, and a clamp of at most
`CLAMP` from pipe centre to yoke (common practice, no source).

    h = f cos t + u sin t,  sin t = f . a,  cos t = -u . a        (yoke's own level direction)
"""

from __future__ import annotations

import numpy as np

from aimcalc.geometry.aim import pose
from aimcalc.geometry.hulls import Hulls, hulls
from aimcalc.geometry.rays import Flags
from aimcalc.geometry.solids import BOX_FACES, Indices, Soup
from aimcalc.geometry.vectors import Array, cross, dot
from aimcalc.named import NamedTuple

PART_NAMES = ("body", "top hat", "yoke", "yoke", "yoke", "clamp")
BODY, TOP_HAT, ARM, OTHER_ARM, BAR, CLAMP_BLOCK = range(6)
PARTS = len(PART_NAMES)
CORNERS = 16  # of every part; a box says its eight twice
LIP = 2e-3  # the lens lies this far in front of the body, so that its rays start outside
YOKE_CLEAR = 0.05
YOKE_FLAT, YOKE_THICK = 0.04, 0.006  # a flat bar's own width and thickness
YOKE_PASSES = 0.015  # between the back of the body and the bar, where the drop leaves room for it
CLAMP, CLOSEST_CLAMP = 0.11, 0.06
CLAMP_HOOK, CLAMP_WIDE, CLAMP_DEEP = 0.04, 0.05, 0.09  # over the pipe's centre; along; across

_ROUND = np.exp(2j * np.pi * (np.arange(8) + 0.5) / 8) / np.cos(np.pi / 8)
_SQUARE = np.array([1, 1 + 1j, 1j, -1 + 1j, -1, -1 - 1j, -1j, 1 - 1j])
_BOX = np.indices((2, 2, 2)).reshape(3, 8) * 2 - 1


class Build(NamedTuple):
    """What N units are made of, each (N,), metres. `boxy` marks bodies of square section.

    `length` and `width` are the body's; NaN where nothing is known, and the unit then has no solid.
    `hat` is the length of the top hat, 0 for none; it is as wide as the body.
    """

    length: Array
    width: Array
    nose: Array
    rise: Array
    drop: Array
    hat: Array
    boxy: Flags


class Hung(NamedTuple):
    """How N units hang and how they are set: directions (3, N) of unit length, angles (N,) radians.

    `stem` is the pan axis, `reference` where the yoke faces with the unit square, `turn` the signed
    right-handed turn about the stem from there to the aim, `level` the yoke angle with the lens at right
    angles to the stem (0, or half a turn for a body turned over in its yoke), `yoke` the yoke angle.
    """

    build: Build
    clamp: Array
    stem: Array
    reference: Array
    turn: Array
    level: Array
    yoke: Array


def hung(build: Build, *, clamp: Array, stem: Array, square: Array, axis: Array, up: Array) -> Hung:
    """How units hang, from their aims: lens axis and body-up, and the direction they face when square.

    All (3, N), directions of unit length, `square` at right angles to the stem.
    """
    sine, cosine = dot(axis, stem), -dot(up, stem)
    yoke = np.arctan2(sine, cosine)
    facing = axis * cosine + up * sine
    turned_over = np.abs(yoke) > np.pi / 2 + 1e-9
    reference = np.where(turned_over, -square, square)
    turn = np.arctan2(dot(facing, cross(stem, reference)), dot(facing, reference))
    level = np.where(turned_over, np.copysign(np.pi, yoke), 0.0)
    return Hung(build, clamp, stem, reference, turn, level, yoke)


def rows(units: Hung, pick: Indices | Flags) -> Hung:
    """Some of the units, by indices (K,) or flags (N,), in that order."""
    build = Build._make(values[pick] for values in units.build)
    clamp, stem, reference = (values[:, pick] for values in units[1:4])
    return Hung(
        build, clamp, stem, reference, units.turn[pick], units.level[pick], units.yoke[pick]
    )


def pivots(units: Hung) -> Array:
    """Where each unit tips, on its stem a drop away from the clamp, (3, N), m."""
    return np.asarray(units.clamp + units.build.drop * units.stem)


def set_parts(units: Hung) -> Array:
    """Corners of every part with each unit at its aim, shape (3, N, PARTS, CORNERS)."""
    return parts(units, units.turn, units.yoke)


def square_parts(units: Hung) -> Array:
    """The same corners, (3, N, PARTS, CORNERS), m, with each unit square and its lens square to the stem."""
    return parts(units, np.zeros_like(units.level), units.level)


def tipped_parts(units: Hung) -> Array:
    """The corners (3, N, PARTS, CORNERS), m, with each unit square and already tipped to its aim."""
    return parts(units, np.zeros_like(units.turn), units.yoke)


def parts(units: Hung, turn: Array, yoke: Array) -> Array:
    """The corners (3, N, PARTS, CORNERS), m, with each unit turned and tipped as said, (N,) radians each.

    NaN where a unit's size is unknown.
    """
    build, a = units.build, units.stem
    axis, up = pose(a, units.reference, turn, yoke)
    h = axis * np.cos(yoke) + up * np.sin(yoke)
    side = cross(a, h)
    pivot = pivots(units)
    lens = pivot + build.nose * axis + build.rise * up
    ring = np.where(build.boxy[:, None], _SQUARE, _ROUND) * build.width[:, None] / 2
    girth = up[:, :, None] * ring.real + side[:, :, None] * ring.imag
    # No top hat is one of no length, inside the body, where it is nearest to nothing.
    hat_from = lens - np.where(build.hat > 0, 0.0, build.length / 2) * axis
    outer = build.width / 2 + YOKE_CLEAR
    reach = yoke_reach(build)
    arm_middle, arm_out = pivot - a * reach / 2, side * (outer - YOKE_THICK / 2)
    arm_half = YOKE_FLAT / 2, YOKE_THICK / 2, (reach + YOKE_FLAT) / 2
    clamp_top, clamp_end = -CLAMP_HOOK, build.drop - reach
    clamp_middle = units.clamp + a * (clamp_top + clamp_end) / 2
    clamp_half = CLAMP_DEEP / 2, CLAMP_WIDE / 2, (clamp_end - clamp_top) / 2
    along = cross(a, units.reference)
    return np.stack(
        (
            _prism(lens - build.length * axis, lens - LIP * axis, girth),
            _prism(hat_from, hat_from + build.hat * axis, girth),
            _block(arm_middle + arm_out, (h, side, a), arm_half),
            _block(arm_middle - arm_out, (h, side, a), arm_half),
            _block(pivot - a * reach, (h, side, a), (YOKE_FLAT / 2, outer, YOKE_THICK / 2)),
            _block(clamp_middle, (units.reference, along, a), clamp_half),
        ),
        axis=2,
    )


def yoke_reach(build: Build) -> Array:
    """From the pivot to the bar of the yoke, (N,).

    A yoke is made for its body to pass, as far as the drop leaves room for it above a clamp between
    CLAMP and CLOSEST_CLAMP long; and it is never taken for shorter than half the drop.
    """
    behind = np.abs(build.length - build.nose)
    passing = np.hypot(behind, build.width / 2 + np.abs(build.rise)) + YOKE_PASSES
    room = np.clip(passing, build.drop - CLAMP, build.drop - CLOSEST_CLAMP)
    return np.asarray(np.maximum(room, build.drop / 2))


def swing_radius(units: Hung) -> Array:
    """How far any part that turns can get from the pivot, (N,)."""
    build = units.build
    behind = np.abs(build.length - build.nose)
    along = np.maximum(behind, np.abs(build.nose + build.hat))
    # Corners of a square section stand out by sqrt 2, of the eight-sided one by 1 / cos(pi / 8).
    across = np.abs(build.rise) + build.width / 2 * np.where(build.boxy, np.sqrt(2), 1.0824)
    outer = build.width / 2 + YOKE_CLEAR
    return np.asarray(
        np.maximum(np.hypot(along, across), np.hypot(outer, yoke_reach(build)) + 0.03)
    )


def part_hulls(corners: Array) -> Hulls:
    """Every part as a convex body, from `corners` (3, N, PARTS, CORNERS), m: row = unit * PARTS + part.

    The owner of a body is its unit's row. A part of unknown size keeps its NaN and is near nothing.
    """
    count = corners.shape[1]
    return hulls(corners.reshape(3, -1, CORNERS), owner=np.repeat(np.arange(count), PARTS))


def body_soup(corners: Array, build: Build, owner: Indices) -> Soup:
    """The triangles of all units, each unit's with its `owner` number (N,).

    A top hat is a tube, open in front, as light leaves through it. Units of unknown size have none.
    """
    count = corners.shape[1]
    first = np.arange(count) * PARTS * CORNERS
    faces = _FACES[:, None, :] + first[None, :, None]
    known = np.isfinite(corners).all(axis=(0, 2, 3))
    hatted = (build.hat > 0)[:, None] | (_FACE_PART != TOP_HAT)
    there = np.reshape(known, (count, 1)) & hatted
    vertices = np.where(np.isfinite(corners), corners, 0.0).reshape(3, -1)
    return Soup(vertices, faces[:, there], np.broadcast_to(owner[:, None], there.shape)[there])


def _prism(back: Array, front: Array, girth: Array) -> Array:
    """A prism between two middles (3, N) of the same girth (3, N, 8): back ring, then front ring."""
    return np.concatenate((back[:, :, None] + girth, front[:, :, None] + girth), axis=2)


def _block(
    middle: Array, axes: tuple[Array, Array, Array], half: tuple[float | Array, ...]
) -> Array:
    """A box about its middle, its eight corners said twice, shape (3, N, CORNERS)."""
    corners = middle[:, :, None] + sum(
        (axis * size)[:, :, None] * sign for axis, size, sign in zip(axes, half, _BOX, strict=True)
    )
    return np.concatenate((corners, corners), axis=2)


def _part_faces() -> tuple[Indices, Indices]:
    """Triangles of one unit's parts, (3, F), outward, and the part each belongs to, (F,)."""
    ring, turn = np.arange(8), np.roll(np.arange(8), -1)
    tube = np.concatenate(((ring, turn, turn + 8), (ring, turn + 8, ring + 8)), axis=1)
    fan = np.stack((np.zeros(6, dtype=np.int64), np.arange(1, 7), np.arange(2, 8)))
    caps = np.concatenate((fan[[0, 2, 1]], fan + 8), axis=1)
    shapes = [np.concatenate((tube, caps), axis=1), tube, *[BOX_FACES] * 4]
    faces = [shape + part * CORNERS for part, shape in enumerate(shapes)]
    return np.concatenate(faces, axis=1), np.repeat(range(PARTS), [s.shape[1] for s in shapes])


_FACES, _FACE_PART = _part_faces()
