"""The sight tapes: one along each side of a pipe that its units face, where a tape can lie.

How far out a tape lies is what the user typed for the pipe, or for the whole scene. Where nothing was
typed it is the whole distance nearest to the usual one at which the tape and all its marks lie on clear
deck; where there is none, there is no tape.

A tape is a straight line on the plan. It wants its own width of clear level deck: no edge of the deck, no
seats, no step and nothing standing within CLEAR of it. A mark on it is of use where a straight line from
the unit's pivot reaches it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import cached_property
from itertools import groupby
from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.aim import PLUMB, Flags, Indices
from aimcalc.geometry.deck import Boxes, Deck, bare_height, boxed, first_met, height
from aimcalc.geometry.polygon import inside
from aimcalc.geometry.solids import Slice, Soup, cut
from aimcalc.geometry.vectors import Array
from aimcalc.named import NamedTuple
from aimcalc.rig.arrays import FOOT, asked_out, in_feet
from aimcalc.rig.places import WORDS, place
from aimcalc.scene.model import Pipe, Position, Scene

if TYPE_CHECKING:
    from aimcalc.rig.rig import Rig


CLEAR = 0.05  # m from the tape to anything (our choice: a hand's breadth)
LOW = 0.05  # m over the tape: what begins higher lets it lie, what is lower lies under it (our choice)
ON_TOP = 0.01  # m above the deck that a mark is looked at
UP = np.array([0.0, 0.0, 1.0])
BOXES_AT_ONCE = 1 << 19  # of a tape and a line on the plan


class Ground:
    """What tapes lie on and among: plan polygons (2, V) and S solids in one soup, owners 0 to S - 1, metres.

    An outline without corners: no edge of the deck is known. What many tapes ask for is made once.
    """

    def __init__(
        self, deck: Deck, outline: Array, seats: Sequence[Array], solids: Soup, owners: int
    ) -> None:
        self.deck, self.outline, self.seats = deck, outline, seats
        self.solids, self.owners = solids, owners
        self._cuts: dict[float, Slice] = {}

    @cached_property
    def above_deck(self) -> Soup:
        """The solids, their heights counted from the bare deck under each corner."""
        vertices = self.solids.vertices.copy()
        vertices[2] -= bare_height(self.deck, vertices[1])
        return self.solids._replace(vertices=vertices)

    @cached_property
    def boxes(self) -> Boxes:
        """The solids as they are, ready for rays."""
        return boxed(self.solids.corners)

    def cut_at(self, z: float) -> Slice:
        """Where the solids are cut at a height above the bare deck."""
        if z not in self._cuts:
            self._cuts[z] = cut(self.above_deck, point=UP * z, normal=UP)
        return self._cuts[z]


class Lines(NamedTuple):
    """C tapes on the plan, `start` and `end` (2, C), and M marks on them, metres.

    `marks` (2, M) on the plan, `eyes` (3, M) the pivots they are sighted from, `tape` (M,) whose they are.
    """

    start: Array
    end: Array
    marks: Array
    eyes: Array
    tape: Indices


def in_the_way(ground: Ground, lines: Lines) -> Flags:
    """What keeps each tape from being laid, flags (1 + seats + 2 S, C).

    Rows: the edge of the deck; each block of seats; each solid that stands there, or whose edge is a step;
    each solid that hides a mark, which is looked at only where nothing else is in the way.
    """
    level = _level(ground.deck, lines)
    lies = np.concatenate((_off_or_upon(ground, lines), _standing(ground, lines, level)))
    free = np.asarray(~lies.any(axis=0))
    return np.concatenate((lies, _hiding(ground, lines, level, free[lines.tape])))


def _level(deck: Deck, lines: Lines) -> Array:
    """Height of what the middle of each tape lies on, above the bare deck there, (C,)."""
    x, y = (lines.start + lines.end) / 2
    return height(deck, x, y) - bare_height(deck, y)


def _off_or_upon(ground: Ground, lines: Lines) -> Flags:
    """Tapes that are not on the deck and CLEAR of its edge; in each block of seats or not CLEAR of it."""
    outlines = [ground.outline, *ground.seats]
    within = [inside(o, lines.start) if o.size else np.zeros(0, dtype=bool) for o in outlines]
    first = np.concatenate(outlines, axis=1)
    last = np.concatenate([np.roll(outline, -1, axis=1) for outline in outlines], axis=1)
    tape, edge = _close(lines.start, lines.end, first, last)
    found = np.zeros((len(outlines), lines.start.shape[1]), dtype=bool)
    found[np.repeat(np.arange(len(outlines)), [o.shape[1] for o in outlines])[edge], tape] = True
    for row, (outline, is_within) in enumerate(zip(outlines, within, strict=True)):
        if outline.size:
            found[row] |= is_within if row else ~is_within
    return found


def _standing(ground: Ground, lines: Lines, level: Array) -> Flags:
    """Solids cut, just over or just under what a tape lies on, within CLEAR of the tape, (S, C)."""
    standing = np.zeros((ground.owners, level.size), dtype=bool)
    for here in set(np.round(level, 6).tolist()):
        mine = np.flatnonzero(np.abs(level - here) < 1e-5)
        for z in (here + LOW, here - LOW):
            found = ground.cut_at(z)
            some = lines.start[:, mine], lines.end[:, mine]
            tape, line = _close(*some, found.start[:2], found.end[:2])
            standing[found.owner[line], mine[tape]] = True
    return standing


def _hiding(ground: Ground, lines: Lines, level: Array, asked: Flags) -> Flags:
    """Solids first met on the way from a pivot to its mark, for any of the marks `asked` (M,), (S, C)."""
    x, y = lines.marks[:, asked]
    eye, tape = lines.eyes[:, asked], lines.tape[asked]
    mark = np.stack((x, y, bare_height(ground.deck, y) + level[tape] + ON_TOP))
    met = first_met(ground.boxes, eye, mark - eye)
    hidden = np.flatnonzero(met.distance < 1.0)
    hiding = np.zeros((ground.owners, level.size), dtype=bool)
    hiding[ground.solids.owner[met.face[hidden]], tape[hidden]] = True
    return hiding


def _close(start: Array, end: Array, first: Array, last: Array) -> tuple[Indices, Indices]:
    """Pairs, row and row, of plan segments (2, C) and others (2, E) nearer to each other than CLEAR.

    Only where the boxes round two come within CLEAR is their distance worked out.
    """
    low, high = np.minimum(start, end) - CLEAR, np.maximum(start, end) + CLEAR
    least, most = np.minimum(first, last), np.maximum(first, last)
    step = max(1, BOXES_AT_ONCE // max(1, first.shape[1]))
    found = [(np.zeros(0, dtype=np.intp),) * 2]
    for k in range(0, start.shape[1], step):
        some = slice(k, k + step)
        meet = (low[0, some, None] <= most[0]) & (least[0] <= high[0, some, None])
        meet &= (low[1, some, None] <= most[1]) & (least[1] <= high[1, some, None])
        row, other = np.nonzero(meet)
        row += k
        near = _between(start[:, row], end[:, row], first[:, other], last[:, other]) < CLEAR
        found.append((row[near], other[near]))
    rows, others = (np.concatenate(column) for column in zip(*found, strict=True))
    return rows, others


def apart(start: Array, end: Array, first: Array, last: Array) -> Array:
    """Distance between plan segments (2, C) and others (2, E), metres, shape (C, E); 0 where they cross."""
    return _between(start[:, :, None], end[:, :, None], first[:, None, :], last[:, None, :])


def _between(a: Array, b: Array, c: Array, d: Array) -> Array:
    """The same for segments a b and c d that are paired as numpy pairs their shapes."""
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


AT_ONCE = (
    16  # distances of a side looked at together, and tapes of all sides: most need the first few
)
TAPES_AT_ONCE = 256
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
    """All tapes of a rig, and for each unit how far out its tape lies and its mark, (N,); NaN: none.

    `laid` has where each side's tape lies by all that it comes from, for the rig after a change.
    """

    every: tuple[Tape, ...]
    out: Array
    sight: Array
    laid: dict[_Key, _Laid]


_Key = tuple[object, ...]
_Laid = tuple[float, tuple[str, ...]]  # how far out, and what is in the way where it was asked for


def tapes_of(rig: Rig, solids: Soup, before: Tapes | None = None) -> Tapes:
    """Every sight tape of a rig. Raises SceneError where a mesh file cannot be used.

    A side all of whose input is the same to the last bit has its tape where it was `before`.
    """
    sides = [_Side(rig, name, *side) for name in rig.rows for side in _sides(rig, name)]
    ground = rig.kept.ask(_ground, solids)
    asked = [asked_out(rig.scene, side.position) for side in sides]
    keys = _keys(rig, ground, sides, asked)
    laid = {} if before is None else {k: before.laid[k] for k in keys if k in before.laid}
    new = [k for k, key in enumerate(keys) if key not in laid]
    if new:
        found = _laid(rig, ground, [sides[k] for k in new], [asked[k] for k in new])
        laid |= {keys[k]: each for k, each in zip(new, found, strict=True)}
    every = tuple(
        Tape(side.name, side.word, side.units, _typed(rig.scene, side.position), wish, *laid[key])
        for side, wish, key in zip(sides, asked, keys, strict=True)
    )
    out = np.full(len(rig.units), np.nan)
    for tape in every:
        out[tape.units] = tape.out
    units = np.arange(len(rig.units))
    along = (out - rig.tape_off) * _per_metre(rig, units)
    return Tapes(every, out, rig.arrays.tape_at + along, laid)


def _keys(rig: Rig, ground: Ground, sides: Sequence[_Side], asked: Sequence[float]) -> list[_Key]:
    """All that the place of each side's tape comes from."""
    deck, solids = ground.deck, ground.solids
    arrays = (deck.boxes, deck.triangles, ground.outline, *ground.seats, *solids)
    names = [block.name for block in rig.scene.seats], [solid.name for solid in rig.scene.solids]
    floor = (
        *(float(value).hex() for value in (deck.rake, deck.rake_from)),
        *(array.tobytes() for array in arrays),
        *(array.shape for array in arrays),
        *map(tuple, names),
        in_feet(rig.scene),
    )
    return [
        (floor, wish, _typed(rig.scene, side.position), *(array.tobytes() for array in side.arrays))
        for side, wish in zip(sides, asked, strict=True)
    ]


def _per_metre(rig: Rig, units: Indices) -> Array:
    """How far along a tape the marks of units (K,) move for each metre that it lies farther out, (K,)."""
    off = rig.aims.sight[units] - rig.arrays.tape_at[units]
    return np.asarray(off / (rig.arrays.sight_out[units] - rig.tape_off[units]))


def lies_at(rig: Rig, solids: Soup, position: str) -> float | None:
    """The whole distance nearest to that asked for at which tapes on every side of a pipe can lie, metres.

    None where there is no such distance.
    """
    sides = [_Side(rig, position, *side) for side in _sides(rig, position)]
    asked = asked_out(rig.scene, rig.scene.positions[position])
    return _nearest(rig, _ground(rig, solids), [(asked, sides)])[0]


def _laid(
    rig: Rig, ground: Ground, sides: Sequence[_Side], asked: Sequence[float]
) -> Iterator[_Laid]:
    """Where the tapes of some sides lie, tried at the distances asked for; the rest farther and nearer."""
    wanted = [(side, np.array([out])) for side, out in zip(sides, asked, strict=True)]
    wrong = in_the_way(ground, _lines(wanted))
    typed = [_typed(rig.scene, side.position) for side in sides]
    seeking = [k for k in range(len(sides)) if wrong[:, k].any() and not typed[k]]
    out = list(asked)
    found = _nearest(rig, ground, [(asked[k], [sides[k]]) for k in seeking])
    for k, nearest in zip(seeking, found, strict=True):
        out[k] = np.nan if nearest is None else nearest
    for k in range(len(sides)):
        yield out[k], _told(rig, wrong[:, k])


def _typed(scene: Scene, position: Position) -> bool:
    """Whether the distance of a position's tape is typed, for it or for the whole scene."""
    own = isinstance(position, Pipe) and position.sight_out is not None
    return own or scene.settings.sight_out is not None


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
        Deck._make(rig.deck),
        np.array(rig.scene.stage.outline, dtype=float).reshape(-1, 2).T,
        [np.array(block.outline).T for block in rig.scene.seats],
        solids,
        len(rig.scene.solids),
    )


class _Side:
    """One side of one position: its units, and where its tapes run."""

    def __init__(self, rig: Rig, name: str, sign: int, units: Indices) -> None:
        self.name, self.units, self.position = name, units, rig.scene.positions[name]
        here = place(self.position)
        self.along = np.array(here.along[:2]) / np.hypot(*here.along[:2])
        self.zero = np.array(here.zero[:2])
        self.square = sign * np.array(here.square[:2])
        self.word = WORDS[here.square_word if sign > 0 else here.square_word ^ 1]
        self.tape_at = rig.arrays.tape_at[units]
        self.tape_off, self.per_metre = rig.tape_off[units], _per_metre(rig, units)
        self.eyes = rig.aims.pivot[:, units]

    @property
    def arrays(self) -> tuple[Array, ...]:
        """All that its tapes run by."""
        where = self.along, self.zero, self.square
        return *where, self.tape_at, self.tape_off, self.per_metre, self.eyes

    def lines(self, out: Array) -> Lines:
        """Tapes at some distances `out` (C,): from the pipe's zero mark to the marks of the units."""
        foot = self.zero[:, None] + np.outer(self.square, out)
        mark = self.tape_at + (out[:, None] - self.tape_off) * self.per_metre
        low, high = np.minimum(mark.min(axis=1), 0.0), np.maximum(mark.max(axis=1), 0.0)
        return Lines(
            start=foot + np.outer(self.along, low),
            end=foot + np.outer(self.along, high),
            marks=(foot[:, :, None] + self.along[:, None, None] * mark).reshape(2, -1),
            eyes=np.tile(self.eyes, out.size),
            tape=np.repeat(np.arange(out.size), self.units.size),
        )


def _lines(wanted: Iterable[tuple[_Side, Array]]) -> Lines:
    """Tapes of some sides, each at some distances, one after the other."""
    each = [side.lines(out) for side, out in wanted]
    counts = np.cumsum([0, *(lines.start.shape[1] for lines in each[:-1])])
    tape = np.concatenate([lines.tape + k for lines, k in zip(each, counts, strict=True)])
    start, end, marks, eyes = (np.concatenate([t[k] for t in each], axis=1) for k in range(4))
    return Lines(start, end, marks, eyes, tape)


def _nearest(
    rig: Rig, ground: Ground, wanted: Sequence[tuple[float, Sequence[_Side]]]
) -> list[float | None]:
    """For sides that lie alike and the distance asked of them: the nearest whole one at which tapes on all of
    them can lie; of two the farther, the finer one. None where there is none."""
    step = FOOT if in_feet(rig.scene) else 1.0
    every = np.arange(1.0, FARTHEST / step) * step
    tries = [every[np.lexsort((-every, np.round(np.abs(every - a), 6)))] for a, _ in wanted]
    found: list[float | None] = [None] * len(wanted)
    left = list(range(len(wanted)))
    first = 0
    while left and first < every.size:
        at_once = min(AT_ONCE, max(2, TAPES_AT_ONCE // len(left)))
        some = [(k, side, tries[k][first : first + at_once]) for k in left for side in wanted[k][1]]
        wrong = in_the_way(ground, _lines((side, out) for _, side, out in some)).any(axis=0)
        size = some[0][2].size
        for k, of_side in _together([k for k, _, _ in some], wrong.reshape(-1, size)):
            clear = np.flatnonzero(~of_side)
            if clear.size:
                found[k] = float(tries[k][first + clear[0]])
        left = [k for k in left if found[k] is None]
        first += at_once
    return found


def _together(keys: Sequence[int], wrong: Flags) -> Iterator[tuple[int, Flags]]:
    """Each key once, with where any of its rows of `wrong` (K, C) is true."""
    for key, rows in groupby(range(len(keys)), keys.__getitem__):
        yield key, np.asarray(wrong[list(rows)].any(axis=0))


def _told(rig: Rig, wrong: Flags) -> tuple[str, ...]:
    """What is in the way, in words that follow "the tape"."""
    if not wrong.any():
        return ()
    scene = rig.scene
    solids = [solid.name for solid in scene.solids]
    rows = [
        "runs off the deck",
        *(f"lies in the seats ({block.name})" for block in scene.seats),
        *(f"meets {name}" for name in solids),
        *(f"is hidden by {name}" for name in solids),
    ]
    return tuple(rows[k] for k in np.flatnonzero(wrong).tolist())
