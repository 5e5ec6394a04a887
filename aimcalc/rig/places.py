"""Where positions are: zero mark, direction, square and the words for them, from the scene's records."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, hypot, radians, sin
from typing import NamedTuple

import numpy as np

from aimcalc.geometry import polygon
from aimcalc.geometry.aim import Flags
from aimcalc.geometry.deck import Deck, height
from aimcalc.geometry.vectors import Array
from aimcalc.scene.model import Boom, Pipe, PlanPoint, Point, Position, Stand, runs_across

WORDS = ("SL", "SR", "US", "DS", "UP", "DOWN")  # opposites differ in the last bit
SL, SR, US, DS, UP, DOWN = range(6)
DIRECTIONS: dict[str, Point] = {
    "SL": (1.0, 0.0, 0.0),
    "SR": (-1.0, 0.0, 0.0),
    "US": (0.0, 1.0, 0.0),
    "DS": (0.0, -1.0, 0.0),
}


class Place(NamedTuple):
    """One position as directions and words.

    `zero` is the point `at` counts from and `along` the unit direction it counts in. `square` is the
    level direction that turns are counted from, with its word; `plus` is the way along that a turn away
    from square leads, with its word. `under` is the stem of a unit hung under: square to a pipe, in the
    upright plane through it, since that is how a clamp grips; straight down where the pipe is level.
    """

    zero: Point
    along: Point
    square: Point
    square_word: int
    plus: Point
    plus_word: int
    under: Point
    has_tape: bool


def across(pipe: Pipe) -> bool:
    """True for a pipe that runs more across the stage than up and down it."""
    return runs_across(pipe.start, pipe.end)


def place(position: Position) -> Place:
    """Directions and words of any position."""
    if isinstance(position, Pipe):
        return _pipe(position)
    return _on_end(position)


def _pipe(pipe: Pipe) -> Place:
    flip = -1.0 if _runs_to_minus(pipe) else 1.0
    run = [(e - s) * flip for s, e in zip(pipe.start, pipe.end, strict=True)]
    length, plan = hypot(*run), hypot(run[0], run[1])
    along = (run[0] / length, run[1] / length, run[2] / length)
    dx, dy = run[0] / plan, run[1] / plan
    under = (dx * along[2], dy * along[2], -plan / length)  # a quarter turn down from `along`
    if across(pipe):
        return Place(_zero(pipe), along, (-dy, dx, 0.0), US, along, SL, under, True)
    return Place(_zero(pipe), along, (dy, -dx, 0.0), SL, along, US, under, True)


def _runs_to_minus(pipe: Pipe) -> bool:
    """True where the user wrote the SL (or US) end first."""
    axis = 0 if across(pipe) else 1
    return pipe.end[axis] < pipe.start[axis]


def _zero(pipe: Pipe) -> Point:
    """The zero mark: a point on the pipe's own line."""
    share = {"start": 0.0, "middle": 0.5, "end": 1.0}.get(pipe.zero)
    if share is None:  # where the line crosses x = 0; the reader refuses a pipe that never does
        share = pipe.start[0] / (pipe.start[0] - pipe.end[0])
    x, y, z = (s + share * (e - s) for s, e in zip(pipe.start, pipe.end, strict=True))
    return (x, y, z)


def _on_end(position: Boom | Stand) -> Place:
    """A boom or a stand: square is straight across towards the centre line unless the user says."""
    given = position.square if isinstance(position, Boom) else None
    word = given or ("SR" if position.x > 0 else "SL")
    up = (0.0, 0.0, 1.0)
    foot = (position.x, position.y, 0.0)
    plus = "US" if word in ("SL", "SR") else "SL"
    codes = WORDS.index(word), WORDS.index(plus)
    down = (0.0, 0.0, -1.0)
    return Place(foot, up, DIRECTIONS[word], codes[0], DIRECTIONS[plus], codes[1], down, False)


class Upright(NamedTuple):
    """Heights above z = 0 of a boom or stand: what `at` counts from, and the ends of its tube."""

    zero: float
    foot: float
    top: float


def upright(deck: Deck, position: Boom | Stand) -> Upright:
    """Where a boom's or stand's tube is: on the deck or platform under it, or from a boom's own foot up."""
    if isinstance(position, Boom) and position.foot is not None:
        return Upright(0.0, position.foot, position.height)
    under = float(height(deck, np.array([position.x]), np.array([position.y]))[0])
    if isinstance(position, Boom):
        return Upright(under, under, under + position.height)
    top = under if position.z is None else position.z
    return Upright(top, under, top)


def tube_ends(position: Position) -> tuple[float, float] | None:
    """The ends of a pipe's or a boom's tube, measured as `at`, the lesser first; None for a stand."""
    if isinstance(position, Boom):
        return position.foot or 0.0, position.height
    return pipe_ends(position) if isinstance(position, Pipe) else None


def pipe_ends(pipe: Pipe) -> tuple[float, float]:
    """Where the pipe's ends are, measured as `at`: (the minus end, the plus end)."""
    here = _pipe(pipe)
    reach = [
        sum((p - z) * a for p, z, a in zip(point, here.zero, here.along, strict=True))
        for point in (pipe.start, pipe.end)
    ]
    return min(reach), max(reach)


def level(heading_degrees: float) -> Point:
    """The level unit direction of a plan heading."""
    turn = radians(heading_degrees)
    return (sin(turn), cos(turn), 0.0)


def nearest_word(direction: Point) -> int:
    """The stage word nearest to a plan direction; stage left and right win a tie."""
    x, y = direction[0], direction[1]
    if abs(x) >= abs(y) - 1e-9:
        return SL if x >= 0 else SR
    return US if y >= 0 else DS


TUBE_RADIUS = 0.0483 / 2  # m; NPS 1-1/2, 1.900 in outside diameter (ASME B36.10M)


EDGE = 0.01  # m; a point this near to an edge is on it, and counts as inside


def inside(outline: Sequence[PlanPoint], x: Array, y: Array) -> Flags:
    """True for plan points in the polygon or within a centimetre of its edge, shape (N,)."""
    corners, plan = np.array(outline, dtype=float).T, np.stack((x, y))
    found = polygon.inside(corners, plan)
    for rows in polygon.in_box(corners, plan, room=EDGE):
        found[rows] |= _on_edge(corners, plan[:, rows])
    return found


def _on_edge(corners: Array, plan: Array) -> Flags:
    """Whether plan points (2, M) lie within EDGE of an outline (2, V)."""
    way = np.roll(corners, -1, axis=1) - corners
    off = plan[:, :, None] - corners[:, None]
    share = (off * way[:, None]).sum(axis=0) / np.maximum((way * way).sum(axis=0), 1e-300)
    off -= np.clip(share, 0.0, 1.0) * way[:, None]
    return np.asarray((np.hypot(off[0], off[1]) <= EDGE).any(axis=1))


def downstage_of(outline: Sequence[PlanPoint], x: Array, y: Array) -> Flags:
    """True for plan points outside the polygon and downstage of all of it at their x, shape (N,).

    Beside the polygon, downstage of the nearer end of it. Nothing is downstage of an empty outline but
    what is downstage of the plaster line.
    """
    if not outline:
        return np.asarray(y < 0.0)
    return np.asarray(~inside(outline, x, y) & (y < front(outline, x)))


def front(outline: Sequence[PlanPoint], x: Array) -> Array:
    """The y of the polygon's furthest downstage edge at each x (clamped to its width), shape (N,)."""
    xs = [p[0] for p in outline]
    at = np.clip(x, min(xs), max(xs))
    y = np.full(x.size, np.inf)
    for (x0, y0), (x1, y1) in zip(outline, (*outline[1:], outline[0]), strict=True):
        beside = (at >= min(x0, x1)) & (at <= max(x0, x1))
        slope = (y1 - y0) / (x1 - x0) if x1 != x0 else 0.0
        here = y0 + (at - x0) * slope if x1 != x0 else np.full(x.size, min(y0, y1))
        y = np.where(beside, np.minimum(y, here), y)
    return y
