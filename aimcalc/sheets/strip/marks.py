"""What goes where on a hang strip, in metres along it: tiles, clamp marks, yoke bars, pipe ends.

A strip's lines run the way its reader sees the position: from the stance's first hand to its second,
with the side that the reader faces up the page. A boom's run from its foot up. Zero is the zero mark.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import ceil, floor, isnan, sin
from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.aim import Flags
from aimcalc.geometry.vectors import Array, cross, dot, points, to_degrees, to_radians
from aimcalc.hang.tubes import span, ways
from aimcalc.named import NamedTuple
from aimcalc.paper.stance import Stance, stance_of
from aimcalc.rig.places import gripped, place
from aimcalc.rig.rig import places
from aimcalc.scene.model import Boom, Pipe, Position
from aimcalc.solid.rig import SolidRig
from aimcalc.text import words as w
from aimcalc.text.facts import noun
from aimcalc.text.names import LONGEST_KIND, short
from aimcalc.text.rows import ZERO_MARKS, hangs, pan_is_free

if TYPE_CHECKING:
    from aimcalc.solid.answers import Answer


def yoke_bars(rig: SolidRig) -> Array:
    """Unit directions along the top bar of every yoke, either way along it, shape (3, N).

    NaN where a unit has no aim. A unit that points along its stem is taken as standing square.
    """
    stem, reference = rig.arrays.stem, rig.arrays.reference
    turn = np.where(np.isnan(rig.aims.yoke), np.nan, rig.aims.turn)
    across = cross(stem, reference)
    return np.asarray(across * np.cos(turn) - reference * np.sin(turn))  # stem x h


def bars_on_paper(bars: Array, stem: Array, along: Array) -> Array:
    """Angle of each bar on a paper that lies along the pipe, radians in (-pi/2, pi/2], shape (N,).

    The reader looks straight along the stem, from above where the stem is plumb, and lines the bar up
    with a line on the paper. `along` (3, N) is the pipe's unit direction towards the end of the paper's
    lines, square to the stem; angles run anticlockwise from it as the reader sees the paper. A unit whose
    stem runs along its own position (on an arm) has no such line: its angle means nothing.
    """
    up_the_page = cross(along, np.where(stem[2] > 0, -stem, stem))
    angle = np.arctan2(dot(bars, up_the_page), dot(bars, along))
    half = np.pi / 2
    return np.asarray(half - (half - angle) % np.pi)


ASIDE = sin(to_radians(1.0))  # less is a whole degree on no sheet


def leans_aside(stem: Array, along: Array) -> Flags:
    """Whether each stem leans out of the upright plane along its tube by a degree or more, shape (N,).

    Both are unit directions, shape (3, N). Nobody can look straight along such a stem from over the tube, so
    no line that lies on top of it tells how the yoke bar goes.
    """
    plan = np.hypot(along[0], along[1])
    upright = np.where(plan > 0.0, plan, 1.0)  # an upright tube: every stem is in a plane along it
    return np.asarray(np.abs(stem[0] * along[1] - stem[1] * along[0]) >= ASIDE * upright)


INCH = w.INCH
BY_DIAL = "STEM LEANS: use the dial"
LONGEST_NAME = 20  # letters
BEYOND = 0.12  # metres of strip past the outermost mark, for END and its words
TOGETHER = 0.03  # metres; marks nearer than this share one label


class Mark(NamedTuple):
    """One clamp mark, `place` metres along the strip from its zero.

    `bar` is the angle of the yoke-bar line on the paper in degrees, anticlockwise from the strip's
    lines (a curved pipe's as it runs at the clamp), in (-90, 90]; None where there is none to draw.
    """

    place: float
    number: str
    circuit: str
    kind: str
    bar: float | None
    bar_words: str
    nose: str  # where the lens goes: a bar does not tell which of its two sides it is on
    where: str = ""  # from the position's zero mark, in words
    k: int = -1  # its unit's place in the rig's hang order


class Tiling(NamedTuple):
    """Tiles of one length, edge to edge: where the first begins and how many there are."""

    start: float
    pitch: float
    tiles: int

    @property
    def end(self) -> float:
        """Where the last tile ends."""
        return self.start + self.tiles * self.pitch

    def tile_of(self, place: float) -> int:
        """The tile that a place is on; one on a joint is on the later tile."""
        return min(max(floor((place - self.start) / self.pitch + 1e-9), 0), self.tiles - 1)


class Strip(NamedTuple):
    """One position's strip. `ends` are the position's own ends: (place along the strip, word)."""

    name: str
    stance: Stance
    first: str  # the way the strip's lines come from: SR, FOOT
    second: str
    up: str  # the side up the page, empty for a boom
    low: str
    zero: str  # CENTRE LINE, ZERO MARK, FOOT
    ends: tuple[tuple[float, str], ...]
    marks: tuple[Mark, ...]  # from the first hand to the second
    tiling: Tiling
    curved: bool = False
    truss: bool = False

    @property
    def backwards(self) -> bool:
        """Whether the sheets' rows begin at the end where the strip's lines end."""
        return self.stance.start.removesuffix(" END") == self.second

    @property
    def in_order(self) -> tuple[Mark, ...]:
        """Its marks as the sheets' rows go, from START END."""
        return self.marks[::-1] if self.backwards else self.marks


def pitch(length: w.LengthUnit) -> float:
    """Length of one tile in metres: what fits on both papers, with its overlap, and is easy to count."""
    return 10 * INCH if length == "ft" else 0.25


def check_step(length: w.LengthUnit) -> float:
    """From one total-length check mark to the next: 3 ft or 1 m."""
    return 36 * INCH if length == "ft" else 1.0


def tiling(low: float, high: float, pitch: float) -> Tiling:
    """The fewest tiles that hold `low` to `high`, with zero in the middle of a tile."""
    first = floor(low / pitch + 0.5)
    start = (first - 0.5) * pitch
    return Tiling(start, pitch, max(1, ceil((high - start) / pitch - 1e-9)))


def checks(over: Tiling, step: float) -> list[tuple[float, int]]:
    """Check marks on a strip: (place, how many steps from zero), zero itself included."""
    first, last = ceil(over.start / step), floor(over.end / step)
    return [(k * step, abs(k)) for k in range(first, last + 1)]


def strips(
    rig: SolidRig, length: w.LengthUnit, holds: Callable[[str], bool] = lambda name: True
) -> list[Strip]:
    """A strip for every pipe and boom that holds units, in the scene's order.

    `holds` says which units (by name, "position/number") are asked for: a strip is made where one of its is.
    """
    answers, bars = rig.answers, yoke_bars(rig)
    positions = rig.scene.positions
    return [
        _strip(rig, positions[name], rows, [answers[k] for k in rows], bars[:, rows], length)
        for name, rows in rig.rows.items()
        if rows and span(positions[name]) is not None and any(holds(rig.names[k]) for k in rows)
    ]


def _strip(
    rig: SolidRig,
    position: Position,
    rows: list[int],
    answers: list[Answer],
    bars: Array,
    length: w.LengthUnit,
) -> Strip:
    stance = stance_of(position, [rig.units[k] for k in rows], answers)
    pipe = isinstance(position, Pipe)
    first, second = (stance.first_hand, stance.second_hand) if pipe else ("FOOT", "TOP")
    sense = 1.0 if second in (ways(position)[0], "TOP") else -1.0
    own = place(position)
    along = sense * points([gripped(position, rig.units[k], own).along for k in rows])
    stem = rig.arrays.stem[:, rows]
    read = np.where(leans_aside(stem, along), np.nan, bars_on_paper(bars, stem, along))
    angles = to_degrees(read).tolist()
    sides = (first, second, stance.standing) if pipe else None
    base = _base(position)
    marks = sorted(
        (
            _mark(rig, k, answer, sense * (at - base), _bar(rig, k, answer, angle, sides), length)
            for k, answer, angle, at in zip(rows, answers, angles, places(rig, rows), strict=True)
        ),
        key=lambda mark: mark.place,
    )
    return Strip(
        name=short(rig, position.name, LONGEST_NAME),
        stance=stance,
        first=first,
        second=second,
        up=stance.facing if pipe else "",
        low=stance.standing if pipe else "",
        zero=_zero(position),
        ends=tuple((end - sense * _base(position), word) for end, word in _ends(position, sense)),
        marks=tuple(marks),
        tiling=_tiling(position, marks, length),
        curved=isinstance(position, Pipe) and position.through is not None,
        truss=isinstance(position, Pipe) and bool(position.chords),
    )


def _tiling(position: Position, marks: list[Mark], length: w.LengthUnit) -> Tiling:
    """Tiles from the outermost mark to the outermost, a pipe's zero mark among them.

    A boom's strip begins at the check mark below its lowest unit.
    """
    low, high = marks[0].place, marks[-1].place
    if isinstance(position, Pipe):
        low, high = min(low, 0.0), max(high, 0.0)
    else:
        low = check_step(length) * floor(low / check_step(length) + 1e-9)
    return tiling(low - BEYOND, high + BEYOND, pitch(length))


def _mark(
    rig: SolidRig,
    k: int,
    answer: Answer,
    here: float,
    bar: tuple[float | None, str],
    length: w.LengthUnit,
) -> Mark:
    unit = rig.units[k]
    how = {"over": "OVER", "out": "OUT", "direct": "DIRECT"}.get(unit.mount, "")
    if unit.mount == "arm":
        how = f"ARM {w.heading(unit.arm_to or 0.0)}"
    if unit.chord:
        how = f"ON {unit.chord} {how}".rstrip()
    kind = short(rig, unit.kind, LONGEST_KIND)
    return Mark(
        place=here,
        number=unit.number,
        circuit=unit.circuit or "",
        kind=f"{kind} {how}".rstrip(),
        bar=bar[0],
        bar_words=bar[1],
        nose=_nose(answer) if bar[0] is not None else "",
        where=hangs(unit, rig.positions[k], length)[0],
        k=k,
    )


def _bar(
    rig: SolidRig, k: int, answer: Answer, angle: float, sides: tuple[str, str, str] | None
) -> tuple[float | None, str]:
    """The line of a unit's yoke bar and what is said of it; no line where none is to be followed."""
    if answer.yoke is None:
        return None, "NO AIM"
    if sides is None:  # a boom: its units are turned from the world, not from a strip
        return None, ""
    if pan_is_free(rig.kinds[k], answer):
        return None, w.FREE
    if isnan(angle):
        return None, BY_DIAL
    turn = w.angle(answer.pan or 0.0)
    if w.steps(answer.pan or 0.0, 1.0) == 0:
        return angle, f"YOKE BAR along the {noun(rig.positions[k])}"
    first, second, low = sides
    return angle, f"YOKE BAR {turn}: {first if angle > 0 else second} end {low}"


def _nose(answer: Answer) -> str:
    """ "lens US, swung SL 23°": the square side and the turn from it."""
    turn = w.turn(answer.pan, answer.swing)
    return f"lens {answer.square}" + ("" if turn == w.SQUARE else f", swung {turn}")


def _base(position: Position) -> float:
    """Where the zero mark of a strip is, measured as `at`: a boom's foot, wherever that is."""
    return (position.foot or 0.0) if isinstance(position, Boom) else 0.0


def _zero(position: Position) -> str:
    if not isinstance(position, Pipe):
        return "FOOT"
    return {"CENTRE": w.CENTRE}.get(ZERO_MARKS.get(position.zero, ""), "ZERO MARK")


def _ends(position: Position, sense: float) -> tuple[tuple[float, str], ...]:
    """A position's own ends along its strip, the first hand's first."""
    over = span(position)
    if over is None:
        return ()
    ends = [(sense * over.start, over.start_word), (sense * over.end, over.end_word)]
    return tuple(sorted(ends))


def grouped(marks: Sequence[Mark]) -> list[list[Mark]]:
    """Marks in order, those nearer than `TOGETHER` to the one before in one group."""
    groups: list[list[Mark]] = []
    for mark in marks:
        if groups and mark.place - groups[-1][-1].place < TOGETHER:
            groups[-1].append(mark)
        else:
            groups.append([mark])
    return groups
