"""The marks along each pipe of a light plot as dimensions: a line beside it, with a tick at every clamp.

Figures count from the pipe's zero to either side; both sides are named at the line's ends. A line lies where
it has room for all of itself, as near to its pipe as it can: across from every tick is its clamp.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.vectors import Array
from aimcalc.named import NamedTuple
from aimcalc.paper.drawing import NARROW, PT, Line, Shape, Words, text_width
from aimcalc.paper.plancanvas import LEADING, PAD, Canvas, row_height
from aimcalc.rig.places import across, place
from aimcalc.scene.model import Pipe
from aimcalc.sheets.plot.tags import TAG
from aimcalc.text import words as w
from aimcalc.text.names import short
from aimcalc.text.rows import along, hangs

if TYPE_CHECKING:
    from aimcalc.sheets.plot.symbols import Symbol
    from aimcalc.solid.rig import SolidRig


NEAREST, FARTHEST, STEP = 5.0, 46.0, 0.5  # mm from a pipe to its line
BEHIND = (
    14.0  # mm that a line may be farther off ahead of its units, for their tags stand behind them
)
TICK = 1.1  # mm, half of a tick each way
BESIDE = 1.3  # mm from a tick to its figure: a line from a clamp to its tag passes between
AIR = 1.3  # mm beside a figure, so that no line that ends there reads as its minus sign
STRAIGHT = 0.05  # mm that a pipe may be off the paper's own directions
ROWS = 2  # of figures, where one has no room for all


class Word(NamedTuple):
    """A word over a line: where its middle is along it, how far its foot is above it, mm."""

    at: float
    up: float
    text: str


class Dimensions(NamedTuple):
    """What is drawn, on paper, and the positions whose marks it tells."""

    lines: list[Line]
    words: list[Words]
    positions: set[str]

    def moved(self, way: Array) -> Dimensions:
        """The same elsewhere on the board, (2,) mm away."""
        x, y = way.tolist()
        lines = [line._replace(points=line.points + way) for line in self.lines]
        words = [each._replace(x=each.x + x, y=each.y + y) for each in self.words]
        return Dimensions(lines, words, self.positions)


def place_dimensions(
    inside: Canvas, rig: SolidRig, symbols: Sequence[Symbol], length: w.LengthUnit
) -> Dimensions:
    """Draw the dimensions of every pipe that is straight across or straight up and down on the plan.

    One whose line finds no room, and a pipe askew or curved, has its marks in its units' tags.
    """
    drawn = Dimensions([], [], set())
    inside.tell_lines()
    for name, members in rig.rows.items():
        position = rig.scene.positions[name]
        if isinstance(position, Pipe) and position.through is None and members:
            _one(inside, rig, symbols, name, length, drawn)
    return drawn


def _one(
    inside: Canvas,
    rig: SolidRig,
    symbols: Sequence[Symbol],
    name: str,
    length: w.LengthUnit,
    drawn: Dimensions,
) -> None:
    position = rig.scene.positions[name]
    assert isinstance(position, Pipe)
    level = across(position)
    ends = inside.view.to_page(np.array([position.start[:2], position.end[:2]]))
    if abs(np.ptp(ends[:, 1 if level else 0])) > STRAIGHT:
        return
    told = _figures(inside, rig, name, 0 if level else 1, length)
    rows = _rows(told)
    if rows is None:
        return
    plus, minus = along(position)  # x and y grow towards SL and US
    words = _words(told, rows, f"{short(rig, name)}, {minus}", plus)
    tall = 0.6 + (max(rows) + 1) * TAG * PT * LEADING
    pipe = float(ends[0, 1]) if level else -float(ends[0, 0])  # turned words stand to lower x
    noses = sum(symbols[k].ahead[1] if level else -symbols[k].ahead[0] for k in rig.rows[name])
    far = np.arange(NEAREST, FARTHEST, STEP)
    over, under = (0.0, BEHIND) if noses >= 0.0 else (BEHIND, 0.0)
    cost = np.concatenate([far + over, far + under])
    bases = np.concatenate([pipe + far, pipe - far - tall])[np.argsort(cost, kind="stable")]
    for base in bases.tolist():
        boxes = [_placed(_box(each, base), level) for each in words]
        line = np.array([told[0][0], base - TICK, told[-1][0], base + TICK])
        if inside.room.free(np.array(boxes), _placed(line, level)):
            _draw(inside, drawn, told, words, base, level)
            drawn.positions.add(name)
            return


def _placed(box: Array, level: bool) -> Array:
    """A box (4,) of a line that runs up the page, if it does: along is up, above is towards lower x."""
    return box if level else np.array([-box[3], box[0], -box[1], box[2]])


def _box(word: Word, base: float) -> Array:
    """The room of a word over a line, (4,): from and to along it and above it."""
    half = text_width(word.text, TAG) / 2 + PAD
    low, high = base + word.up - PAD, base + word.up + row_height(word.text, TAG).above + PAD
    return np.array([word.at - half, low, word.at + half, high])


def _figures(
    inside: Canvas, rig: SolidRig, name: str, axis: int, length: w.LengthUnit
) -> list[tuple[float, str]]:
    """Where along the page each clamp is, mm, with its mark's figure, in rising order; the zero too."""
    position = rig.scene.positions[name]
    x, y, _ = place(position).zero
    told = {round(inside.view.at(x, y)[axis], 3): "0"}
    spots = inside.view.to_page(rig.arrays.clamp[:2, list(rig.rows[name])].T)[:, axis].tolist()
    for k, spot in zip(rig.rows[name], spots, strict=True):
        mark, _ = hangs(rig.units[k], position, length)
        figure, _, side = mark.rpartition(" ")
        told[round(spot, 3)] = figure if side in w.SIDES else "0"
    return sorted(told.items())


def _rows(told: list[tuple[float, str]]) -> list[int] | None:
    """The row of each figure, so that none meets another; None where ROWS do not hold them."""
    ends, rows = [-np.inf] * ROWS, []
    for at, figure in told:
        free = [row for row in range(ROWS) if ends[row] <= at]
        if not free:
            return None
        rows.append(free[0])
        ends[free[0]] = at + BESIDE + text_width(figure, TAG) + AIR / 2
    return rows


def _words(told: list[tuple[float, str]], rows: list[int], first: str, last: str) -> list[Word]:
    """Every figure right of its tick, and the names at the ends of the line."""
    words = []
    for (at, text), row in zip(told, rows, strict=True):
        middle = at + BESIDE + text_width(text, TAG) / 2
        words.append(Word(middle, 0.6 + row * TAG * PT * LEADING, text))
    low, high = (
        told[0][0] - 2.0,
        max(words[-1].at + text_width(told[-1][1], TAG) / 2, told[-1][0]) + 2.0,
    )
    for name, middle in (
        (first, low - text_width(first, TAG) / 2),
        (last, high + text_width(last, TAG) / 2),
    ):
        words.append(Word(middle, -row_height(name, TAG).above / 2, name))
    return words


def _draw(
    inside: Canvas,
    drawn: Dimensions,
    told: list[tuple[float, str]],
    words: list[Word],
    base: float,
    level: bool,
) -> None:
    """Draw a line at `base`, its ticks and words, and keep labels off them."""

    def at(far: float, up: float) -> tuple[float, float]:
        return (far, base + up) if level else (-base - up, far)

    lines = [np.array([at(told[0][0], 0.0), at(told[-1][0], 0.0)])]
    lines += [np.array([at(far - TICK, -TICK), at(far + TICK, TICK)]) for far, _ in told]
    for word in words:
        turn = 0.0 if level else 90.0
        drawn.words.append(Words(*at(word.at, word.up), word.text, TAG, False, "centre", turn))
        box = _box(word, base)
        inside.room.take(_placed(box, level), figure=level and word.text[0].isdigit())
        white = box + np.array([-AIR, 0.0, 0.0, 0.0])
        left, bottom, right, top = _placed(white, level).tolist()
        corners = np.array([(left, bottom), (right, bottom), (right, top), (left, top)])
        inside.shapes.append(Shape(corners, 0.0, "white"))
    drawn.lines.extend(Line(line, NARROW) for line in lines)
    inside.room.keep_lines(lines)
