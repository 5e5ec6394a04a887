"""Where a unit's light lands when things are not as plotted, and how far each thing moves it, in closed form.

What is printed is what is set: the dial (or the mark on the sight tape) and the down by a level. So a pipe
that hangs lower than plotted keeps its numbers and lands elsewhere. What may be off, in the order of
`ERRORS`, each true minus plotted:

    trim    height of the pipe at its middle             slope  rise of its plus end over its minus end
    moved   the pipe to US (SL where it runs up stage)   skew   the pipe turned about its middle, clockwise
    marks   the clamp along the pipe, to SL (US)         drop   pivot farther from the clamp
    kick    the clamp round its tube, towards US (SL)    pan    the turn, clockwise seen from above
    down    the lens axis below level

Metres and radians. With R the turn of the pipe (skew, then slope; a kick turns the clamp alone before):

    C = M + moved q + trim z + R (m + marks u) + R w         P = C + (drop + d) R a
    h = R (r turned about a);  cos t h_z + sin t a_z = -sin(down): a level reads gravity, t the yoke angle
    f = cos t h + sin t a;   u = +-(f sin t - a) / |cos t|;   X = L + s f on the plane of the spot

and every line is differentiated as it stands: a small turn about e moves a vector v by e x v. A sighted unit
takes its heading from its pivot to the mark on the tape, which lies along the pipe as it really hangs.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, TypeVar

import numpy as np

from aimcalc.geometry.aim import PLUMB_WITHIN, Flags, Indices
from aimcalc.geometry.vectors import (
    Array,
    cross,
    dot,
    level_direction,
    points,
    to_degrees,
    to_radians,
    turned,
)
from aimcalc.named import NamedTuple
from aimcalc.rig.places import body_of, gripped, level, place, upright
from aimcalc.rig.wording import whole
from aimcalc.scene.model import Boom, Pipe, Position, Stand

if TYPE_CHECKING:
    from aimcalc.rig.solve import Solved

ERRORS = ("trim", "slope", "moved", "skew", "marks", "drop", "kick", "pan", "down")
TRIM, SLOPE, MOVED, SKEW, MARKS, DROP, KICK, PAN, DOWN = range(len(ERRORS))
LOCAL = {what: k for k, what in enumerate(ERRORS[:DROP])}  # what a position has out by itself
BY_TAPE = 0.01  # m, one standard deviation of a length measured by tape (estimate)
DIAL, SIGHT, HEADING = range(3)  # what a unit was turned by
LEANING = 0.5  # of the stem's z: a dial and a level together no longer set what leans farther
FAR = 1e3  # m along an axis that never comes down to the surface: a spot that nobody finds
GRAZING = 1e-9
UP = np.array([[0.0], [0.0], [1.0]])


class Held(NamedTuple):
    """How N units are held, as plotted: points and directions (3, N), the rest (N,).

    `middle` is that of the position, `spot` from there to the tube at the clamp, `arm` from there to the end
    of a side arm. `normal` is the level axis that a slope tips the position about, `flat` and `climb` the
    level and the upright part of its direction, `length` from end to end (infinite: it does not slope).
    `tube` is the direction gripped, `square` that of `moved` (none: it does not), `lifts` 1 where it has
    a trim, `kicks` the sense of a kick about the tube. `faces` is the sign of cos(yoke), `root` says which
    of the two yoke angles of one down is meant.
    """

    middle: Array
    spot: Array
    arm: Array
    normal: Array
    flat: Array
    climb: Array
    length: Array
    tube: Array
    square: Array
    lifts: Array
    kicks: Array
    stem: Array
    reference: Array
    drop: Array
    rise: Array
    faces: Array
    root: Array


class Set(NamedTuple):
    """How N units were set: what each was turned `by`, `turn` at the clamp, `heading`, `down`, all (N,).

    `mark` (3, N) is the mark on the sight tape as seen from the middle of the pipe; only its plan counts.
    """

    by: Indices
    turn: Array
    heading: Array
    down: Array
    mark: Array


class Plane(NamedTuple):
    """The plane of each spot: points X with normal . X = offset; (3, N) and (N,)."""

    normal: Array
    offset: Array


class Landed(NamedTuple):
    """Spots (3, N) in metres, and their moves (9, 3, N) for a metre or a radian of each of `ERRORS`.

    `reach` (N,) is from the foot of the pivot on the axis to the spot, `reach_moves` (9, N) its moves.
    `there` is False where the axis never comes to the plane: the spot is then FAR, and nothing moves it.
    """

    point: Array
    moves: Array
    reach: Array
    reach_moves: Array
    there: Flags


Table = TypeVar("Table", Held, Set, Plane)


def some(table: Table, units: Indices | Sequence[int]) -> Table:
    """The same table for some units (K,), in their order, as often as they are named: columns (..., K)."""
    return type(table)._make(column[..., units] for column in table)


def plane_at(point: Array, normal: Array) -> Plane:
    """The planes through points with these normals, (3, N) each."""
    return Plane(normal, dot(normal, point))


def held(rig: Solved) -> Held:
    """How every unit of a rig is held, as plotted."""
    given, aims = rig.arrays, rig.aims
    scene = rig.scene
    bodies = {name: _Body.of(rig, position) for name, position in scene.positions.items()}
    mine = [bodies[unit.position] for unit in rig.units]
    owns = {name: place(position) for name, position in scene.positions.items()}
    here = [gripped(p, u, owns[u.position]) for u, p in zip(rig.units, rig.positions, strict=True)]
    arms = [u.arm if u.mount == "arm" else 0.0 for u in rig.units]
    arm = points([level(u.arm_to or 0.0) for u in rig.units]) * np.array(arms, dtype=float)
    middle = points([body.middle for body in mine])
    tube, pipe = points([p.along for p in here]), np.array([b.length for b in mine]) < np.inf
    square = points([p.square for p in here])
    towards = dot(cross(tube, points([p.under for p in here])), square)
    with np.errstate(invalid="ignore"):
        root = _root_sign(given.stem, aims.turn, given.reference, aims.yoke)
        faces = np.where(np.cos(aims.yoke) < 0, -1.0, 1.0)
    return Held(
        middle=middle,
        spot=given.clamp - arm - middle,
        arm=arm,
        normal=points([body.normal for body in mine]),
        flat=np.array([body.flat for body in mine]),
        climb=np.array([body.climb for body in mine]),
        length=np.array([body.length for body in mine]),
        tube=tube,
        square=np.where(pipe, points([body.square for body in mine]), 0.0),
        lifts=np.where(pipe, 1.0, 0.0),
        kicks=np.where(pipe, np.where(towards < 0, -1.0, 1.0), -1.0),
        stem=given.stem,
        reference=given.reference,
        drop=given.drop,
        rise=given.rise,
        faces=faces,
        root=root,
    )


class _Body(NamedTuple):
    """One position as a stiff body: its middle, and how it can tip and move."""

    middle: tuple[float, ...]
    normal: tuple[float, float, float]
    flat: float
    climb: float
    length: float
    square: tuple[float, ...]

    @classmethod
    def of(cls, rig: Solved, position: Position) -> _Body:
        if not isinstance(position, Pipe):
            return cls(_foot(rig, position), (1.0, 0.0, 0.0), 1.0, 0.0, np.inf, (0.0, 0.0, 0.0))
        middle, run, length = body_of(position)
        flat = float(np.hypot(run[0], run[1]))
        normal = (run[1] / flat, -run[0] / flat, 0.0)
        across = abs(run[0]) >= abs(run[1])
        square = tuple(-n if across else n for n in normal)
        return cls(middle, normal, flat, run[2], length, square)


def _foot(rig: Solved, position: Boom | Stand) -> tuple[float, ...]:
    return position.x, position.y, upright(rig.deck, position).zero


def _root_sign(stem: Array, turn: Array, reference: Array, yoke: Array) -> Array:
    """Which of the two yoke angles of one down is the plotted one: +1 or -1, (N,)."""
    h = turned(reference, stem, turn)
    off = np.sin(yoke - np.arctan2(stem[2], h[2]))
    return np.where(off < 0, -1.0, 1.0)


def printed(rig: Solved) -> Set:
    """How the units are set that were set as printed: whole degrees of pan and of down, by dial and level.

    A unit whose stem leans far, that points along its stem or nearly straight down or up is set by heading.
    """
    aims = rig.aims
    pan, down = (_whole(angle) for angle in (aims.pan, aims.down))
    leaning = np.abs(rig.arrays.stem[2]) < LEANING
    steep = np.abs(aims.down) >= np.pi / 2 - PLUMB_WITHIN
    free = (aims.pan == 0) & np.isinf(aims.pan_tolerance)
    by = np.where(leaning | steep | free, HEADING, DIAL)
    return Set(by, aims._replace(pan=pan).turn, _whole(aims.heading), down, np.zeros((3, pan.size)))


def exact(rig: Solved) -> Set:
    """How units are set that are set to the last digit of their aims."""
    rough = printed(rig)
    aims = rig.aims
    return rough._replace(turn=aims.turn, heading=aims.heading, down=aims.down)


def _whole(radians: Array) -> Array:
    return to_radians(whole(to_degrees(radians)))


def landed(units: Held, given: Set, plane: Plane, off: Array) -> Landed:
    """Where units land that are set so and off by `off` (9, N), and how each of `ERRORS` moves that."""
    with np.errstate(divide="ignore", invalid="ignore"):
        frame = _frame(units, off)
        pivot, d_pivot = _pivot(units, frame, off)
        stem, d_stem = frame.turned(units.stem, kicked=True)
        axis, d_axis = _axis(units, given, frame, off, (pivot, d_pivot, stem, d_stem))
        start, d_start = pivot, d_pivot
        if units.rise.any():
            up, d_up = _body_up(units, (stem, d_stem), (axis, d_axis))
            start, d_start = pivot + units.rise * up, d_pivot + units.rise * d_up
        return _cut(plane, (start, d_start), (axis, d_axis))


class _Frame(NamedTuple):
    """The turn of each position: angles, and the axes that each is about once all are made."""

    skew: Array
    tip: Array
    kick: Array
    per_slope: Array
    normal: Array  # as plotted
    tube: Array
    axis_normal: Array  # as it really is
    axis_tube: Array

    def whole(self, v: Array, *, kicked: bool) -> Array:
        """Vectors (3, N) of the position, or of its clamps, as they really lie."""
        if kicked:
            v = turned(v, self.tube, self.kick)
        return _skewed(turned(v, self.normal, self.tip), self.skew)

    def turned(self, v: Array, *, kicked: bool) -> tuple[Array, Array]:
        """The same, and their moves (9, 3, N)."""
        real = self.whole(v, kicked=kicked)
        return real, self.moves(real, kicked=kicked)

    def moves(self, real: Array, *, kicked: bool) -> Array:
        """Moves (9, 3, N) of vectors as they really lie."""
        found = np.zeros((len(ERRORS), *real.shape))
        found[SKEW] = (real[1], -real[0], np.zeros_like(real[0]))
        found[SLOPE] = cross(self.axis_normal, real) * self.per_slope
        if kicked:
            found[KICK] = cross(self.axis_tube, real)
        return found


def _skewed(v: Array, skew: Array) -> Array:
    """Vectors turned clockwise seen from above."""
    c, s = np.cos(skew), np.sin(skew)
    return np.stack((v[0] * c + v[1] * s, v[1] * c - v[0] * s, v[2]))


def _frame(units: Held, off: Array) -> _Frame:
    rise = units.climb + off[SLOPE] / units.length
    tip = np.arctan2(rise, units.flat) - np.arctan2(units.climb, units.flat)
    per_slope = units.flat / (units.flat**2 + rise**2) / units.length
    signed = units.tube * units.kicks  # a kick is right-handed about it
    frame = _Frame(off[SKEW], tip, off[KICK], per_slope, units.normal, signed, units.normal, signed)
    return frame._replace(
        axis_normal=_skewed(units.normal, off[SKEW]), axis_tube=frame.whole(signed, kicked=False)
    )


def _pivot(units: Held, frame: _Frame, off: Array) -> tuple[Array, Array]:
    """Pivots (3, N) and their moves (9, 3, N)."""
    spot, d_spot = frame.turned(units.spot + off[MARKS] * units.tube, kicked=False)
    out = units.arm + (units.drop + off[DROP]) * units.stem
    clamped, d_clamped = frame.turned(out, kicked=True)
    pivot = units.middle + units.square * off[MOVED] + UP * (off[TRIM] * units.lifts)
    pivot += spot + clamped
    moves = d_spot + d_clamped
    moves[TRIM] = UP * units.lifts
    moves[MOVED] = units.square
    moves[MARKS] = frame.whole(units.tube, kicked=False)
    moves[DROP] = frame.whole(units.stem, kicked=True)
    return pivot, moves


def _axis(
    units: Held, given: Set, frame: _Frame, off: Array, known: tuple[Array, Array, Array, Array]
) -> tuple[Array, Array]:
    """Lens axes (3, N) and their moves, by whatever each unit was turned by."""
    pivot, d_pivot, stem, d_stem = known
    axis, moves = _by_heading(units, given, frame, off, (pivot, d_pivot))
    dial = np.flatnonzero(given.by == DIAL)
    if dial.size:
        mine = some(units, dial), some(given, dial), type(frame)._make(c[..., dial] for c in frame)
        found = _by_dial(*mine, off[:, dial], (stem[:, dial], d_stem[..., dial]))
        axis[:, dial], moves[..., dial] = found
    return axis, moves


def _by_dial(
    units: Held, given: Set, frame: _Frame, off: Array, stems: tuple[Array, Array]
) -> tuple[Array, Array]:
    """Axes of units turned by their dial and tipped by a level: cos t h_z + sin t a_z = -sin(down)."""
    stem, d_stem = stems
    sense = np.where(units.stem[2] < 0, 1.0, -1.0)  # a turn about the stem, seen from above
    plotted = turned(units.reference, units.stem, given.turn + sense * off[PAN])
    h, d_h = frame.turned(plotted, kicked=True)
    d_h[PAN] = cross(stem, h) * sense
    down = given.down + off[DOWN]
    size = np.hypot(h[2], stem[2])
    share = -np.sin(down) / size
    yoke = np.arctan2(stem[2], h[2]) + units.root * np.arccos(np.clip(share, -1.0, 1.0))
    c, s = np.cos(yoke), np.sin(yoke)
    d_yoke = -(c * d_h[:, 2] + s * d_stem[:, 2])
    d_yoke[DOWN] -= np.cos(down)
    d_yoke /= c * stem[2] - s * h[2]
    steepest = (
        h[2] * d_stem[:, 2] - stem[2] * d_h[:, 2]
    ) / size**2  # it gets no nearer to its down
    d_yoke = np.where(np.abs(share) < 1.0, d_yoke, steepest)
    axis = c * h + s * stem
    across = c * stem - s * h
    return axis, c * d_h + s * d_stem + d_yoke[:, None] * across


def _by_heading(
    units: Held, given: Set, frame: _Frame, off: Array, pivots: tuple[Array, Array]
) -> tuple[Array, Array]:
    """Axes of units turned to a heading, or to a mark on their tape, and tipped by a level."""
    pivot, d_pivot = pivots
    turn, d_turn = given.heading + off[PAN], np.zeros((len(ERRORS), pivot.shape[1]))
    rows = np.flatnonzero(given.by == SIGHT)
    if rows.size:
        mark = _skewed(given.mark, off[SKEW])[:, rows]
        way = units.middle[:, rows] + units.square[:, rows] * off[MOVED, rows] + mark
        way = way - pivot[:, rows]
        d_way = -d_pivot[..., rows]
        d_way[SKEW, :2] += np.stack((mark[1], -mark[0]))
        d_way[MOVED] += units.square[:, rows]
        far = way[0] ** 2 + way[1] ** 2
        turn[rows] = np.arctan2(way[0], way[1]) + off[PAN, rows]
        d_turn[:, rows] = (way[1] * d_way[:, 0] - way[0] * d_way[:, 1]) / far
    d_turn[PAN] += 1.0
    down = given.down + off[DOWN]
    ahead = level_direction(turn)
    axis = ahead * np.cos(down) - UP * np.sin(down)
    aside = np.stack((ahead[1], -ahead[0], np.zeros_like(turn))) * np.cos(down)
    moves = d_turn[:, None] * aside
    moves[DOWN] += -ahead * np.sin(down) - UP * np.cos(down)
    return axis, moves


def _body_up(
    units: Held, stems: tuple[Array, Array], axes: tuple[Array, Array]
) -> tuple[Array, Array]:
    """The bodies' own up (3, N) and its moves: square to the axis, in the plane of axis and stem."""
    (stem, d_stem), (axis, d_axis) = stems, axes
    sine = dot(stem, axis)
    d_sine = np.einsum("jkn,kn->jn", d_stem, axis) + np.einsum("jkn,kn->jn", d_axis, stem)
    cosine = np.sqrt(np.maximum(1.0 - sine * sine, GRAZING**2))
    up = units.faces * (sine * axis - stem) / cosine
    moves = units.faces * (d_sine[:, None] * axis + sine * d_axis - d_stem) / cosine
    return up, moves + up * (d_sine * sine / cosine**2)[:, None]


def _cut(plane: Plane, starts: tuple[Array, Array], axes: tuple[Array, Array]) -> Landed:
    """Where the axes come to their planes: s = (offset - n . L) / (n . f)."""
    (start, d_start), (axis, d_axis) = starts, axes
    slant = dot(plane.normal, axis)
    reach = (plane.offset - dot(plane.normal, start)) / slant
    there = (np.abs(slant) > GRAZING) & (reach > 0) & (reach < FAR)
    reach = np.where(there, reach, FAR)
    lean = np.einsum("kn,jkn->jn", plane.normal, d_start + reach * d_axis)
    slid = np.where(there, -lean / slant, 0.0)
    moves = np.where(there, d_start + reach * d_axis, 0.0) + slid[:, None] * axis
    return Landed(start + reach * axis, moves, reach, slid, np.asarray(there))
