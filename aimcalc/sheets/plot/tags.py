"""The tags of units on a light plot: what each says, how it is drawn, and where on the plan it finds room.

A tag is one block: the number in a frame, channel and circuit; mark from the zero of the position; colour;
system; target. Where the whole block has no room it has fewer, longer rows, and then the number alone.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.vectors import Array
from aimcalc.named import NamedTuple
from aimcalc.paper.drawing import NARROW, PT, SYMBOL, Line, Shape, Words, text_width
from aimcalc.paper.labels import Wish
from aimcalc.paper.plancanvas import LEADING, MOST_REFUSED, PAD, Canvas, row_height
from aimcalc.scene.model import Boom, Position
from aimcalc.sheets.plot.symbols import Symbol
from aimcalc.text import words as w
from aimcalc.text.names import short, short_number
from aimcalc.text.rows import hangs
from aimcalc.text.typeset import shorten

if TYPE_CHECKING:
    from aimcalc.solid.rig import SolidRig


TAG = 8.0  # pt: capitals of 2.06 mm, over the least lettering of ISO 3098, 1.8 mm (from memory)
NUMBER = 11.0  # pt
BAR = 0.9  # mm from a tag's bar to its words, and from the frame round its number to the figures
GAP = 1.0  # mm from the frame of a tag's number to what stands beside it
FRAMED = 4.2  # mm, height of the frame
STEP = TAG * PT * LEADING
TAIL = 0.24 * TAG * PT  # mm under the last row
BETWEEN = ", "
LONGEST_WORD = 12  # letters of a channel or a circuit
LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"  # no I, no O: figures to a hurried eye


class Cell(NamedTuple):
    """One thing that a tag says, and what it is: CHANNEL, MARK ..."""

    name: str
    text: str


class Tag(NamedTuple):
    """A unit's number, framed, and the rows of its tag: the first beside the number, the rest under it.

    The frame goes on down its side as a bar: no line that runs up to a figure reads as its minus sign.
    """

    number: str
    cells: tuple[tuple[Cell, ...], ...] = ()

    @property
    def rows(self) -> tuple[str, ...]:
        """What the rows say."""
        return tuple(BETWEEN.join(cell.text for cell in row) for row in self.cells)

    @property
    def size(self) -> tuple[float, float]:
        """Width and height, mm, with the white round it."""
        beside = [self._framed + GAP + text_width(row, TAG) for row in self.rows[:1] if row]
        under = [BAR + text_width(row, TAG) for row in self.rows[1:]]
        high = FRAMED + len(under) * STEP + (TAIL if under else 0.0)
        return max([self._framed, *beside, *under]) + 2 * PAD, high + 2 * PAD

    @property
    def _framed(self) -> float:
        return text_width(self.number, NUMBER, True) + 2 * BAR

    def drawn(self, left: float, bottom: float) -> tuple[Line, list[Words]]:
        """Its line and its words, with its lower left corner somewhere on paper, mm; the number first."""
        x, top = left + PAD, bottom + self.size[1] - PAD
        foot, right = top - FRAMED, x + self._framed
        y = foot + (FRAMED - row_height(self.number, NUMBER).above) / 2
        words = [Words(x + BAR, y, self.number, NUMBER, True)]
        words += [Words(right + GAP, y, row, TAG) for row in self.rows[:1]]
        words += [
            Words(x + BAR, foot - n * STEP, row, TAG) for n, row in enumerate(self.rows[1:], 1)
        ]
        frame = np.array([(x, foot), (right, foot), (right, top), (x, top), (x, bottom + PAD)])
        return Line(frame, SYMBOL), words

    def places(self, left: float, bottom: float) -> dict[str, Words]:
        """Where each thing that it says begins, by its name; NUMBER too."""
        _, (number, *rows) = self.drawn(left, bottom)
        found = {"NUMBER": number}
        for row, cells in zip(rows, self.cells, strict=True):
            far = 0.0
            for cell in cells:
                found[cell.name] = row._replace(x=row.x + far, text=cell.text)
                far += text_width(cell.text + BETWEEN, TAG)
        return found


def tag_of(
    rig: SolidRig, k: int, length: w.LengthUnit, letter: str = "", *, marked: bool = True
) -> Tag:
    """What a unit's tag says; `letter` of its kind where its body has no room for it.

    Its mark only where it is `marked` there, and not at a dimension line.
    """
    unit = rig.units[k]
    channel = f"ch {shorten(unit.channel, LONGEST_WORD, keep_end=True)}" if unit.channel else ""
    circuit = shorten(unit.circuit or "", LONGEST_WORD, keep_end=True)
    mark, how = hangs(unit, rig.positions[k], length)
    rows = [
        [
            Cell("KIND", letter and f"kind {letter}"),
            Cell("CHANNEL", channel),
            Cell("CIRCUIT", circuit),
        ],
        [Cell("MARK", mark if marked else ""), Cell("HOW", how)],
        [Cell("COLOUR", short(rig, unit.colour) if unit.colour else "")],
        [Cell("SYSTEM", short(rig, unit.system) if unit.system else "")],
        [Cell("TARGET", aim_words(rig, k, length))],
    ]
    first, *rest = (tuple(cell for cell in row if cell.text) for row in rows)
    return Tag(short_number(rig, k), (first, *filter(None, rest)))


def flat(tag: Tag) -> Tag:
    """The same tag in fewer and longer rows: two of those under the first in each."""
    first, *rest = tag.cells
    pairs = (sum(rest[k : k + 2], ()) for k in range(0, len(rest), 2))
    return Tag(tag.number, (first, *pairs))


def beside_height(tag: Tag, room: float) -> Tag:
    """The tag for an elevation: its height first, which the drawing is for, then rows of `room` mm."""
    first, height, *rest = tag.cells
    rows: list[tuple[Cell, ...]] = [height]
    for cell in (*first, *sum(rest, ())):
        longer = (*rows[-1], cell)
        fits = BAR + text_width(BETWEEN.join(each.text for each in longer), TAG) + 2 * PAD <= room
        if len(rows) > 1 and fits:
            rows[-1] = longer
        else:
            rows.append((cell,))
    return Tag(tag.number, tuple(rows))


def kind_letters(rig: SolidRig) -> dict[str, str]:
    """A letter for every kind in use, the commonest first; with a figure when letters run out."""
    count: dict[str, int] = {}
    for unit in rig.units:
        count[unit.kind] = count.get(unit.kind, 0) + 1
    names = sorted(count, key=lambda name: (-count[name], name))
    return {
        name: LETTERS[n % len(LETTERS)] + (str(n // len(LETTERS)) if n >= len(LETTERS) else "")
        for n, name in enumerate(names)
    }


def aim_words(rig: SolidRig, k: int, length: w.LengthUnit) -> str:
    """What a unit lights: its target, or the place of its point."""
    unit = rig.units[k]
    if unit.target:
        return short(rig, unit.target)
    x, y, _ = rig.arrays.point[:, k].tolist()
    return w.place(x, y, length)


def on_plan(position: Position) -> bool:
    """Whether the tags of a position's units stand on the plan, and not beside an elevation."""
    return not isinstance(position, Boom)


class Placed(NamedTuple):
    """A tag as it was placed: its form, and its lower left corner, (2,) mm."""

    tag: Tag
    at: Array


def place_tags(
    inside: Canvas,
    rig: SolidRig,
    length: w.LengthUnit,
    symbols: Sequence[Symbol],
    letters: dict[int, str],
    dimensioned: set[str],
) -> tuple[dict[int, Placed], list[int]]:
    """Draw the tags of the units of pipes and stands; each as placed, and the units that are told elsewhere.

    `letters` of the kinds of those that have none in their bodies; the marks of units on `dimensioned`
    positions are told there. A whole tag comes before a flat one, and
    that before the number alone.
    """
    inside.tell_lines()
    spots = inside.view.to_page(rig.arrays.clamp[:2].T)
    refused = [0, 0, 0]
    elsewhere: list[int] = []
    placed: dict[int, Placed] = {}
    for k in (k for k, position in enumerate(rig.positions) if on_plan(position)):
        marked = rig.units[k].position not in dimensioned
        whole = tag_of(rig, k, length, letters.get(k, ""), marked=marked)
        forms = (whole, flat(whole), Tag(whole.number))
        seen = inside.view.holds(*rig.arrays.clamp[:2, k].tolist())
        for n, tag in enumerate(forms if seen else ()):
            if refused[n] >= MOST_REFUSED:
                continue
            at = _place(inside, symbols[k], tag, spots, k)
            if at is not None:
                placed[k] = Placed(tag, at)
                break
            refused[n] += 1
        if k not in placed or not placed[k].tag.cells:
            elsewhere.append(k)
    return placed, elsewhere


def _place(inside: Canvas, unit: Symbol, tag: Tag, spots: Array, k: int) -> Array | None:
    """The lower left corner (2,) mm of a tag that was drawn where it found room: best behind its unit."""
    way = float(np.arctan2(-unit.ahead[1], -unit.ahead[0]))
    clear = _clear(unit, inside.view.scale)
    x, y = spots[k].tolist()
    rivals = np.delete(spots, k, axis=0)
    found = inside.room.place(Wish(x, y, *tag.size, clear, way, rivals), cross=False)
    if found is None:
        return None
    left, bottom = found.left, found.bottom
    wide, high = tag.size
    right, top = left + wide, bottom + high
    box = np.array([(left, bottom), (right, bottom), (right, top), (left, top)])
    inside.shapes.append(Shape(box, 0.0, "white"))
    line, words = tag.drawn(left, bottom)
    inside.shapes.append(Shape(line.points, line.weight, "none"))  # closed along its own bar
    inside.words += words
    if found.leader:  # on to the clamp, under its body
        inside.lines.append(Line(np.array([(x, y), found.leader[1]]), NARROW))
    return np.array([left, bottom])


def _clear(unit: Symbol, scale: float) -> float:
    """How far a unit's body reaches behind its clamp, mm on paper: its tag stands beyond."""
    back = float(((unit.outlines[0] - unit.clamp) @ -np.array(unit.ahead)).max())
    return max(back, 0.1) * 1000 / scale + 0.6
