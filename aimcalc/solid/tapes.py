"""The sight tapes: one along each side of a pipe that its units face, where a tape can lie.

How far out a tape lies is what the user typed for the pipe, or for the whole scene. Where nothing was
typed it is the whole distance nearest to the usual one at which the tape and all its marks lie on clear
deck; where there is none, there is no tape.

A tape is a straight line on the plan. It wants its own width of clear level deck: no edge of the deck, no
seats, no step and nothing standing within CLEAR of it. A mark on it is of use where a straight line from
the unit's pivot reaches it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from aimcalc.geometry.aim import PLUMB, Flags, Indices
from aimcalc.geometry.deck import Deck, bare_height, first_met, height
from aimcalc.geometry.polygon import inside
from aimcalc.geometry.solids import Soup, cut
from aimcalc.geometry.vectors import Array
from aimcalc.rig.arrays import FOOT, asked_out, in_feet
from aimcalc.rig.places import WORDS, place
from aimcalc.scene.model import Pipe

if TYPE_CHECKING:
    from aimcalc.rig.rig import Rig


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


AT_ONCE = 8  # distances looked at together
FARTHEST = 18.3  # m; 60 ft: a mark farther off is hardly seen (our choice)


class Tape(NamedTuple):
    """One side of one pipe: the units sighted on its tape, and how far out it lies (NaN: there is none).

    `in_the_way` says what keeps a tape from lying at `asked`, the distance typed, else the usual one.
    """

    position: str
    side: str
    units: Indices
    typed: bool
    asked: float
    out: float
    in_the_way: tuple[str, ...]


class Tapes(NamedTuple):
    """All tapes of a rig, and for each unit how far out its tape lies and its mark, (N,); NaN: none."""

    every: tuple[Tape, ...]
    out: Array
    sight: Array


def tapes_of(rig: Rig, solids: Soup) -> Tapes:
    """Every sight tape of a rig. Raises SceneError where a mesh file cannot be used."""
    every = tuple(_laid(rig, solids))
    out = np.full(len(rig.units), np.nan)
    for tape in every:
        out[tape.units] = tape.out
    at, per_metre = rig.arrays.tape_at, _per_metre(rig)
    return Tapes(every, out, at + (out - rig.tape_off) * per_metre)


def _per_metre(rig: Rig) -> Array:
    """How far along a tape a mark moves for each metre that the tape lies farther out, (N,)."""
    off = rig.arrays.sight_out - rig.tape_off
    return np.asarray((rig.aims.sight - rig.arrays.tape_at) / off)


def lies_at(rig: Rig, solids: Soup, position: str) -> float | None:
    """The whole distance nearest to that asked for at which tapes on every side of a pipe can lie."""
    sides = list(_sides(rig, position))
    return _nearest(
        rig,
        position,
        _ground(rig, solids),
        asked_out(rig.scene, rig.scene.positions[position]),
        sides,
    )


def _laid(rig: Rig, solids: Soup) -> Iterator[Tape]:
    sides = [(name, *side) for name in rig.rows for side in _sides(rig, name)]
    if sides:
        ground = _ground(rig, solids)
        for name, sign, units in sides:
            yield _tape(rig, name, ground, sign, units)


def _sides(rig: Rig, name: str) -> Iterator[tuple[int, Indices]]:
    """The sides of a position that units with a mark face: +1 for its square side, and the units."""
    rows = np.array(rig.rows[name], dtype=np.intp)
    rows = rows[~np.isnan(rig.aims.sight[rows]) & (rig.aims.attitude[rows] != PLUMB)]
    for sign in (1, -1):
        facing = rows[rig.aims.square_sign[rows] == sign]
        if facing.size:
            yield sign, facing


def _ground(rig: Rig, solids: Soup) -> Ground:
    return Ground(
        rig.deck,
        np.array(rig.scene.stage.outline, dtype=float).reshape(-1, 2).T,
        [np.array(block.outline).T for block in rig.scene.seats],
        solids,
        len(rig.scene.solids),
    )


def _tape(rig: Rig, name: str, ground: Ground, sign: int, units: Indices) -> Tape:
    scene, position = rig.scene, rig.scene.positions[name]
    asked = asked_out(scene, position)
    own = isinstance(position, Pipe) and position.sight_out is not None
    typed = own or scene.settings.sight_out is not None
    wrong = in_the_way(ground, _lines(rig, name, sign, units, np.array([asked])))[:, 0]
    out: float | None = asked
    if wrong.any() and not typed:
        out = _nearest(rig, name, ground, asked, [(sign, units)])
    square = place(position).square_word
    word = WORDS[square if sign > 0 else square ^ 1]
    return Tape(name, word, units, typed, asked, np.nan if out is None else out, _told(rig, wrong))


def _nearest(
    rig: Rig, name: str, ground: Ground, asked: float, sides: list[tuple[int, Indices]]
) -> float | None:
    """The nearest whole distance at which tapes on these sides can lie; of two the farther, the finer one."""
    step = FOOT if in_feet(rig.scene) else 1.0
    out = np.arange(1.0, FARTHEST / step) * step
    out = out[np.lexsort((-out, np.round(np.abs(out - asked), 6)))]
    for some in np.split(out, range(AT_ONCE, out.size, AT_ONCE)):
        wrong = [in_the_way(ground, _lines(rig, name, *side, some)).any(axis=0) for side in sides]
        clear = np.flatnonzero(~np.logical_or.reduce(wrong))
        if clear.size:
            return float(some[clear[0]])
    return None


def _lines(rig: Rig, name: str, sign: int, units: Indices, out: Array) -> Lines:
    """Tapes at some distances `out` (C,): from the pipe's zero mark to the marks of the units."""
    here = place(rig.scene.positions[name])
    along = np.array(here.along[:2]) / np.hypot(*here.along[:2])
    foot = np.array(here.zero[:2])[:, None] + sign * np.outer(here.square[:2], out)
    from_tube = out[:, None] - rig.tape_off[units]
    mark = rig.arrays.tape_at[units] + from_tube * _per_metre(rig)[units]
    low, high = np.minimum(mark.min(axis=1), 0.0), np.maximum(mark.max(axis=1), 0.0)
    return Lines(
        start=foot + np.outer(along, low),
        end=foot + np.outer(along, high),
        marks=foot[:, :, None] + along[:, None, None] * mark,
        eyes=rig.aims.pivot[:, units],
    )


def _told(rig: Rig, wrong: Flags) -> tuple[str, ...]:
    """What is in the way, in words that follow "the tape"."""
    scene = rig.scene
    solids = [solid.name for solid in scene.solids]
    rows = [
        "runs off the deck",
        *(f"lies in the seats ({block.name})" for block in scene.seats),
        *(f"meets {name}" for name in solids),
        *(f"is hidden by {name}" for name in solids),
    ]
    return tuple(rows[k] for k in np.flatnonzero(wrong).tolist())
