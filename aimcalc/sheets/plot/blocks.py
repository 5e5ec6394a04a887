"""What stands beside the plan on a light plot: the key of units and lines, what found no room, the title."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

import numpy as np

from aimcalc.named import NamedTuple
from aimcalc.paper import marks
from aimcalc.paper.drawing import (
    NARROW,
    PT,
    SYMBOL,
    Dash,
    Drawing,
    Line,
    Shape,
    Words,
    shrink_to_fit,
    text_width,
    wrapped,
)
from aimcalc.paper.planpage import Frame, scale_words
from aimcalc.paper.true_scale import proof_length, proof_words
from aimcalc.rig.kinds import size_of
from aimcalc.scene.model import Pipe
from aimcalc.sheets.plot.layout import PANEL
from aimcalc.sheets.plot.plan import DOT, LOOKS, RING, features, tubes_up
from aimcalc.sheets.plot.symbols import Look, symbol
from aimcalc.sheets.plot.tags import TAG, kind_letters, tag_of
from aimcalc.text import words as w
from aimcalc.text.facts import revision_words
from aimcalc.text.names import short, short_unit

if TYPE_CHECKING:
    from aimcalc.solid.rig import SolidRig
    from aimcalc.text.stamp import PaperOptions


PAD = 3.0  # mm inside it
PLAIN, HEAVY = 9.0, 11.0  # pt
LEAD = 1.25  # from row to row, of the type size
WIDEST = 50.0  # mm of a body in the key that leaves room for its figures beside it
FIGURES = 8.0  # mm for them under it
SAMPLE = 14.0  # mm of a line in the key
QUARTER = np.pi / 2


class Block(NamedTuple):
    """A block PANEL wide: its height, mm, and what draws it into a box of a drawing."""

    height: float
    draw: Callable[[Drawing, Frame], None]


class Row(NamedTuple):
    """A line of text in a block."""

    text: str
    size: float = PLAIN
    bold: bool = False

    @property
    def high(self) -> float:
        return self.size * PT * LEAD


def rows_of(texts: Sequence[Row]) -> list[Row]:
    """Rows broken to the width of a block."""
    room = PANEL - 2 * PAD
    return [
        row._replace(text=part)
        for row in texts
        for part in wrapped(row.text, row.size, room, row.bold)
    ]


def text_block(texts: Sequence[Row], foot: float = 0.0) -> Block:
    """A block of rows, `foot` mm free under them."""
    rows = rows_of(texts)

    def draw(page: Drawing, box: Frame) -> None:
        y = box[3] - PAD
        for row in rows:
            y -= row.high
            size = shrink_to_fit(row.text, row.size, PANEL - 2 * PAD, row.bold)
            page.words.append(
                Words(box[0] + PAD, y + 0.25 * row.size * PT, row.text, size, row.bold)
            )

    return Block(sum(row.high for row in rows) + 2 * PAD + foot, draw)


def title_block(rig: SolidRig, scale: float, options: PaperOptions) -> Block:
    """Whose plot it is, which one, how large, and how it is measured; a bar to prove the printer with."""
    settings, length = rig.scene.settings, options.length
    unit = "feet and inches" if length == "ft" else "metres"
    pipes = [position for position in rig.scene.positions.values() if isinstance(position, Pipe)]
    measured = sum(pipe.measured for pipe in pipes)
    used = sum(1 for members in rig.rows.values() if members)
    revision = " | ".join(filter(None, (revision_words(rig), options.stamp.words)))
    told = [
        Row("LIGHT PLOT", 16.0, True),
        Row(settings.title, HEAVY, True),
        Row(revision, PLAIN, True),
        *([Row(options.draft_words, PLAIN, True)] if options.draft_words else []),
        Row(f"Scale {scale_words(scale, length)}. Lengths in {unit}.", PLAIN, True),
        Row(
            "Frame: across from the centre line, up and down stage from the plaster line, heights from the "
            "deck there."
        ),
        Row(
            f"{w.count(len(rig.units), 'unit')} on {w.count(used, 'position')}."
            + (f" Trims measured: {measured} of {w.count(len(pipes), 'pipe')}." if pipes else "")
        ),
        Row(
            "Nothing here is rated: loads, lines and power are for qualified people and local code."
        ),
    ]
    plain = text_block(told, foot=11.0)
    bar = proof_length(length)

    def draw(page: Drawing, box: Frame) -> None:
        plain.draw(page, box)
        left, base = box[0] + PAD, box[1] + PAD + 1.5
        page.line((left, base), (left + bar, base), weight=SYMBOL)
        for x in (left, left + bar):
            page.line((x, base - 1.5), (x, base + 1.5), weight=SYMBOL)
        proof = f"{proof_words(length)} from tick to tick: measure it, or the print is not to scale"
        page.words.append(Words(left, base + 2.6, proof.capitalize(), TAG))

    return Block(plain.height, draw)


def key_block(rig: SolidRig, scale: float, options: PaperOptions) -> Block:
    """Every kind in use with its letter, outline to scale and count; every line; how a tag is read."""
    length = options.length
    per_m = 1000 / scale
    letters = kind_letters(rig)
    count = {name: sum(unit.kind == name for unit in rig.units) for name in letters}
    sizes = {name: size_of(rig.scene.kinds[name]) for name in letters}
    long = [s.length + (rig.scene.kinds[n].top_hat or 0.0) for n, s in sizes.items()]
    wide = max(long, default=0.0) * per_m + 4.0
    under = FIGURES if wide > WIDEST else 0.0
    high = {n: max(2 * 3.6, (s.width + 0.12) * per_m + 1.5) + under for n, s in sizes.items()}
    head = 6.0
    lines = _line_rows(rig)
    notes = rows_of([Row(text, TAG) for text in _notes(rig)])
    total = head + sum(high.values()) + 4.0 + len(lines) * 4.2 + 2.0
    total += sum(row.high for row in notes) + 2 * PAD
    sample = _sample(rig, length)
    total += sample[0]

    def draw(page: Drawing, box: Frame) -> None:
        left, y = box[0] + PAD, box[3] - PAD
        page.words.append(Words(left, y - 3.6, "KEY, units to scale", HEAVY, True))
        y -= head
        for name, letter in letters.items():
            _kind(page, rig, name, letter, count[name], (left, y, wide, high[name]), scale, options)
            y -= high[name]
        y -= 2.0
        for label, weight, dash, ring in lines:
            y -= 4.2
            page.line((left, y + 1.0), (left + SAMPLE, y + 1.0), weight=weight, dash=dash)
            if ring:
                page.shapes.append(Shape(marks.circle(left + SAMPLE / 2, y + 1.0, RING), NARROW))
            page.words.append(Words(left + SAMPLE + 2.0, y, label, TAG))
        y -= 3.0
        y = sample[1](page, left, y)
        for row in notes:
            y -= row.high
            page.words.append(Words(left, y, row.text, row.size))

    return Block(total, draw)


def _kind(
    page: Drawing,
    rig: SolidRig,
    name: str,
    letter: str,
    count: int,
    place: tuple[float, float, float, float],
    scale: float,
    options: PaperOptions,
) -> None:
    """One kind of the key: its body on its side, nose to the line's end; its figures beside or under it."""
    left, top, wide, high = place
    under = wide > WIDEST
    level = top - (high - (FIGURES if under else 0.0)) / 2
    kind, length = rig.scene.kinds[name], options.length
    size = size_of(kind)
    per_m = 1000 / scale
    back = max(size.length - size.nose, 0.0) * per_m
    spot = np.array([left + back + 1.0, level])
    placed = symbol(kind, Look(name, False, 0.0, 0.0)).placed(np.zeros(2), QUARTER)
    page.shapes += [Shape(part * per_m + spot, SYMBOL) for part in placed.outlines]
    page.shapes += [Shape(part * per_m + spot, NARROW, "none") for part in placed.strokes]
    page.shapes.append(Shape(marks.circle(float(spot[0]), float(spot[1]), DOT), NARROW, "black"))
    if placed.has_room(scale):
        x, y = (np.array(placed.letter) * per_m + spot).tolist()
        page.words.append(Words(x, y - 1.0, letter, TAG, True, "centre"))
    x, room = (left, PANEL - 2 * PAD) if under else (left + wide, PANEL - 2 * PAD - wide)
    field = f", field {kind.field:.0f}°" if kind.field else ""
    watts = f", {kind.watts:g} W" if kind.watts else ""
    assumed = "" if kind.length and kind.width else " (typical)"
    sized = f"{w.length(size.length, length, w.HANG)} x {w.length(size.width, length, w.HANG)}"
    middle = top - high + 4.0 if under else level
    for text, y, bold in (
        (f"{letter}  {short(rig, name)}: {w.count(count, 'unit')}", middle + 0.5, True),
        (f"{sized}{assumed}{field}{watts}", middle - 3.0, False),
    ):
        fitted = shrink_to_fit(text, PLAIN if bold else TAG, room, bold)
        page.words.append(Words(x, y, text, fitted, bold))


def _line_rows(rig: SolidRig) -> list[tuple[str, float, Dash, bool]]:
    """What the lines of the plan mean: words, width, dash, and whether a ring is on it."""
    told = {
        "deck": "edge of the deck",
        "acting area": "edge of the acting area",
        "scenery": "scenery that stands, or reaches down below 2 m",
        "scenery overhead": "scenery all over 2 m up",
        "seats": "seats",
    }
    there = {feature.layer for feature in features(rig)}
    rows = [(text, *LOOKS[layer], False) for layer, text in told.items() if layer in there]
    rows.append(("centre line, plaster line", *LOOKS["centre and plaster lines"], False))
    rows.append(("position; the ring is its zero", *LOOKS["positions"], True))
    return rows


def _notes(rig: SolidRig) -> list[str]:
    told = [
        "Marks along a position count from its ring, those at the ticks of a line to the "
        "sides named at its ends. Bodies are drawn level, to scale, each with its clamp "
        "(black dot) where it hangs and its nose as it points in plan; round with a cross: straight down "
        "or up.",
    ]
    if tubes_up(rig):
        told.append("Units on booms: tags and heights beside the elevations.")
    return told


def _sample(
    rig: SolidRig, length: w.LengthUnit
) -> tuple[float, Callable[[Drawing, float, float], float]]:
    """The tag of the first unit on a pipe, and what each of its rows is; nothing where there is none."""
    on_pipes = [k for k, position in enumerate(rig.positions) if isinstance(position, Pipe)]
    if not on_pipes:
        return 0.0, lambda page, left, y: y
    k = on_pipes[0]
    tag = tag_of(rig, k, length)
    wide, high = tag.size
    unit = rig.units[k]
    names = ["number, channel, circuit", "mark along its position"]
    names += [
        word
        for word, there in (
            ("colour", unit.colour),
            ("system", unit.system),
            ("what it lights", True),
        )
        if there
    ]

    def draw(page: Drawing, left: float, top: float) -> float:
        line, words = tag.drawn(left, top - high)
        page.lines.append(line)
        page.words += words
        x = left + max(wide, 34.0) + 3.0
        for word, name in zip(words[1:], names, strict=False):
            page.lines.append(
                Line(
                    np.array([(word.x + 1.0 + _wide(word), word.y + 1.0), (x - 1.0, word.y + 1.0)]),
                    NARROW,
                )
            )
            page.words.append(Words(x, word.y, name, TAG))
        return top - high - 2.0

    return high + 2.0, draw


def _wide(word: Words) -> float:
    return text_width(word.text, word.size, word.bold)


MOST_ROWS = 40  # units in one block of what found no room


def elsewhere_blocks(rig: SolidRig, units: Sequence[int], length: w.LengthUnit) -> list[Block]:
    """What the tags of some units would have said, in rows; blocks of at most MOST_ROWS."""
    letters = kind_letters(rig)
    blocks = []
    for start in range(0, len(units), MOST_ROWS):
        told = (
            [Row("No room beside these units for all of this:", PLAIN, True)] if not start else []
        )
        for k in units[start : start + MOST_ROWS]:
            first, *rest = tag_of(rig, k, length, letters[rig.units[k].kind]).rows
            told.append(Row(f"{short_unit(rig, k)}: {'; '.join([first, *rest])}", TAG))
        blocks.append(text_block(told))
    return blocks
