"""Where positions are: zero mark, direction, square and the words for them, from the scene's records."""

from __future__ import annotations

from collections.abc import Sequence
from math import acos, atan2, copysign, cos, hypot, pi, sin

import numpy as np

from aimcalc.geometry import polygon
from aimcalc.geometry.aim import Flags
from aimcalc.geometry.deck import Deck, height
from aimcalc.geometry.vectors import Array, to_radians
from aimcalc.named import NamedTuple
from aimcalc.scene.model import (
    Boom,
    Pipe,
    PlanPoint,
    Point,
    Position,
    Stand,
    Target,
    Unit,
    runs_across,
)

WORDS = ("SL", "SR", "US", "DS", "UP", "DOWN")  # opposites differ in the last bit
SL, SR, US, DS, UP, DOWN = range(6)
LEANS = cos(to_radians(0.1))  # a stem within this of plumb is plumb on paper: 17 mm in 10 m of pipe
ARC_STEP = to_radians(
    3.0
)  # of a curved pipe drawn as straight pieces: 2 mm off the arc at 5 m radius
EDGE_TURN = 1e-9  # radians: an arc that ends on the centre line crosses it there
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


def place(position: Position, at: float = 0.0, chord: str | None = None) -> Place:
    """Directions and words of any position; of a truss's chord; of a curved pipe where it is gripped.

    A curved pipe is taken for the straight line that touches it `at` the clamp, its zero mark set so that
    the clamp is `at` along that line.
    """
    if not isinstance(position, Pipe):
        return _on_end(position)
    if position.through is not None:
        return _touching(position, at)
    here = _straight(_zero(position), *_run(position))
    return here if chord is None else _beside(here, position, chord)


def gripped(position: Position, unit: Unit, own: Place) -> Place:
    """The tube at a unit's clamp: its position's `own`, a chord of a truss, or a curved pipe just there."""
    curved = isinstance(position, Pipe) and position.through is not None
    return place(position, unit.at or 0.0, unit.chord) if curved or unit.chord else own


def _run(pipe: Pipe) -> tuple[float, float, float]:
    """The unit direction of a straight pipe towards its SL (or US) end."""
    flip = -1.0 if _runs_to_minus(pipe) else 1.0
    run = [(e - s) * flip for s, e in zip(pipe.start, pipe.end, strict=True)]
    length = hypot(*run)
    return run[0] / length, run[1] / length, run[2] / length


def _straight(zero: Point, x: float, y: float, z: float) -> Place:
    """A tube along the unit direction (x, y, z), which runs to SL (or US where that is nearer)."""
    plan = hypot(x, y)
    dx, dy = x / plan, y / plan
    under = (dx * z, dy * z, -plan)  # a quarter turn down from the tube
    if abs(x) >= abs(y):
        return Place(zero, (x, y, z), (-dy, dx, 0.0), US, (x, y, z), SL, under, True)
    return Place(zero, (x, y, z), (dy, -dx, 0.0), SL, (x, y, z), US, under, True)


def _beside(here: Place, pipe: Pipe, name: str) -> Place:
    """A chord of a truss: as the truss's own line, its side and height away from it."""
    chord = next(each for each in pipe.chords if each.name == name)
    parts = zip(here.zero, here.square, here.under, strict=True)
    x, y, z = (p + chord.side * aside - chord.up * down for p, aside, down in parts)
    return here._replace(zero=(x, y, z))


def chord_side(position: Position, chord: str | None) -> float:
    """How far a chord lies to the square side of its truss's own line; 0 without one."""
    chords = position.chords if isinstance(position, Pipe) else ()
    return next((each.side for each in chords if each.name == chord), 0.0)


class Arc(NamedTuple):
    """A level arc: `angle` of its start from +x, anti-clockwise from above, `sweep` from there to its end.

    Radians and metres. The circle through three points of the plan: its centre is where the perpendicular
    bisectors of two of the chords meet.
    """

    x: float
    y: float
    z: float
    radius: float
    angle: float
    sweep: float

    @property
    def length(self) -> float:
        """Along the arc."""
        return self.radius * abs(self.sweep)

    def at(self, far: float) -> Point:
        """The point so far along the arc from its start; beyond its ends, along its circle."""
        turn = self.angle + copysign(far / self.radius, far * self.sweep)
        return self.x + self.radius * cos(turn), self.y + self.radius * sin(turn), self.z

    def way(self, far: float) -> tuple[float, float]:
        """The level unit direction of the arc there, towards its end."""
        turn = self.angle + copysign(far / self.radius, far * self.sweep)
        sense = copysign(1.0, self.sweep)
        return -sense * sin(turn), sense * cos(turn)


def arc_of(start: Point, through: Point, end: Point) -> Arc:
    """The arc from start to end through a third point, at the height of its start."""
    (ax, ay, z), (bx, by, _), (cx, cy, _) = start, through, end
    bx, by, cx, cy = bx - ax, by - ay, cx - ax, cy - ay
    double = 2.0 * (bx * cy - by * cx)
    b2, c2 = bx * bx + by * by, cx * cx + cy * cy
    ux, uy = (cy * b2 - by * c2) / double, (bx * c2 - cx * b2) / double
    first = atan2(-uy, -ux)
    sense = copysign(1.0, double)  # start, through, end turn anti-clockwise where it is positive
    sweep = sense * ((sense * (atan2(cy - uy, cx - ux) - first)) % (2.0 * pi))
    return Arc(ax + ux, ay + uy, z, hypot(ux, uy), first, sweep)


def _curve(pipe: Pipe) -> tuple[Arc, float, float]:
    """The arc of a curved pipe, how far along it the zero mark is, and +1 where `at` runs to its end."""
    assert pipe.through is not None
    arc = arc_of(pipe.start, pipe.through, pipe.end)
    zero = {"start": 0.0, "middle": 0.5, "end": 1.0}.get(pipe.zero)
    far = _to_centre_line(arc) if zero is None else zero * arc.length
    sense = -1.0 if _runs_to_minus(pipe) else 1.0
    return arc, far + sense * pipe.zero_off, sense


def _to_centre_line(arc: Arc) -> float:
    """How far along an arc that crosses the centre line once it does so."""
    half = acos(max(-1.0, min(1.0, -arc.x / arc.radius)))
    sense = copysign(1.0, arc.sweep)
    turns = [(sense * (turn - arc.angle)) % (2.0 * pi) for turn in (half, -half)]
    return arc.radius * min(turns, key=lambda turn: (turn > abs(arc.sweep) + EDGE_TURN, turn))


def _touching(pipe: Pipe, at: float) -> Place:
    """The straight line that touches a curved pipe at a clamp; it has no tape."""
    arc, zero, sense = _curve(pipe)
    far = zero + sense * at
    (x, y, z), (dx, dy) = arc.at(far), arc.way(far)
    dx, dy = sense * dx, sense * dy
    mark = (x - at * dx, y - at * dy, z)
    turn = 1.0 if (dx if abs(dx) >= abs(dy) else dy) >= 0 else -1.0  # words run to SL, or to US
    words = _straight(mark, turn * dx, turn * dy, 0.0)
    return words._replace(along=(dx, dy, 0.0), has_tape=False)


def body_of(pipe: Pipe) -> tuple[Point, Point, float]:
    """A pipe's middle, the unit direction from its SR to its SL end (DS to US) and its length, metres.

    A curved pipe's middle is that of its arc, its direction and length those from end to end.
    """
    x, y, z = ((a + b) / 2 for a, b in zip(pipe.start, pipe.end, strict=True))
    if pipe.through is not None:
        arc = arc_of(pipe.start, pipe.through, pipe.end)
        x, y, z = arc.at(arc.length / 2)
    sense = -1.0 if _runs_to_minus(pipe) else 1.0
    run = [(e - s) * sense for s, e in zip(pipe.start, pipe.end, strict=True)]
    length = hypot(*run)
    return (x, y, z), (run[0] / length, run[1] / length, run[2] / length), length


def tubes_of(pipe: Pipe) -> list[tuple[str | None, Array]]:
    """The middle lines of a pipe's tubes, (3, V) each with the name of its chord; V is 2 where straight."""
    if pipe.through is not None:
        arc = arc_of(pipe.start, pipe.through, pipe.end)
        steps = np.linspace(0.0, arc.length, 2 + int(abs(arc.sweep) / ARC_STEP))
        return [(None, np.array([arc.at(far) for far in steps.tolist()]).T)]
    ends = np.array((pipe.start, pipe.end)).T
    if not pipe.chords:
        return [(None, ends)]
    own = np.array(_zero(pipe))
    off = [np.array(place(pipe, 0.0, chord.name).zero) - own for chord in pipe.chords]
    return [(chord.name, ends + far[:, None]) for chord, far in zip(pipe.chords, off, strict=True)]


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
    if pipe.zero_off:
        x, y, z = (p + pipe.zero_off * a for p, a in zip((x, y, z), _run(pipe), strict=True))
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
    if pipe.through is not None:
        arc, zero, sense = _curve(pipe)
        low, high = sorted((-sense * zero, sense * (arc.length - zero)))
        return low, high
    here = place(pipe)
    reach = [
        sum((p - z) * a for p, z, a in zip(point, here.zero, here.along, strict=True))
        for point in (pipe.start, pipe.end)
    ]
    return min(reach), max(reach)


def level(heading_degrees: float) -> Point:
    """The level unit direction of a plan heading."""
    turn = to_radians(heading_degrees)
    return (sin(turn), cos(turn), 0.0)


def front_of(target: Target | None) -> Point:
    """The level way that who stands at a target faces: DS, towards the house, unless the scene says."""
    return DIRECTIONS["DS"] if target is None or target.faces is None else level(target.faces)


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
        left = rows[~found[rows]]
        found[left] = _on_edge(corners, plan[:, left])
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
