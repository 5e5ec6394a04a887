"""Drawings as one picture in shades of grey.

A page is drawn in black and white, `FINER` dots for every one of the picture each way, and then made
smaller: their share of black is the picture's grey. This takes a tenth of the time that a plotting library
takes to load. The same drawings give the same bytes.
"""

from __future__ import annotations

import io
import struct
import zlib
from collections.abc import Callable, Iterator, Sequence
from functools import cache, partial
from math import ceil, floor, hypot, sqrt
from typing import Any, BinaryIO

import numpy as np
from PIL import Image, ImageDraw, ImageFont

from aimcalc.geometry.vectors import Array, to_degrees, to_radians
from aimcalc.named import NamedTuple
from aimcalc.paper.drawing import (
    DASHES,
    DRAFT_SIZE,
    HALF_BLACK,
    PT,
    Dash,
    Drawing,
    Fill,
    Inset,
    Words,
)
from aimcalc.rig.letters import NOBODY, Lent, now_lent, runs, spelled
from aimcalc.text import typeset

DPI = 80
FINER = 4
ACROSS = 3  # drawings side by side, more when there are many
MM = 1 / 25.4  # inches
WHITE = 255
SIGNATURE = b"\x89PNG\r\n\x1a\n"
QUICK = 2  # of 9 levels of packing
DRAFT_LINE = 1.5  # pt
JOINED = 1.5  # pt: lines from here on have round corners, thinner ones none that could be seen

Raster = np.ndarray[tuple[int, ...], np.dtype[np.uint8]]


def write_png(stream: BinaryIO, drawings: Sequence[Drawing], *, dpi: int = DPI) -> None:
    """Write all drawings as one picture, in rows, at `dpi` dots to the inch."""
    tiles = [_tile(drawing, dpi) for drawing in drawings]
    across = max(ACROSS, ceil(sqrt(len(tiles))))
    rows = [np.concatenate(tiles[k : k + across], axis=1) for k in range(0, len(tiles), across)]
    sheet = np.full((sum(r.shape[0] for r in rows), max(r.shape[1] for r in rows)), WHITE, np.uint8)
    top = 0
    for row in rows:
        sheet[top : top + row.shape[0], : row.shape[1]] = row
        top += row.shape[0]
    stream.write(_png(sheet, dpi))


def _png(sheet: Raster, dpi: int) -> bytes:
    """Rows of grey values as a PNG file, without the filters that photographs want: half the time, no larger.

    ISO/IEC 15948: its signature, and chunks with their lengths and checks.
    """
    rows = np.zeros((sheet.shape[0], sheet.shape[1] + 1), np.uint8)  # filter 0 leads each row
    rows[:, 1:] = sheet
    to_metre = round(dpi * MM * 1000)
    chunks = (
        (b"IHDR", struct.pack(">2I5B", sheet.shape[1], sheet.shape[0], 8, 0, 0, 0, 0)),
        (b"pHYs", struct.pack(">2IB", to_metre, to_metre, 1)),
        (b"IDAT", zlib.compress(rows.tobytes(), QUICK)),
        (b"IEND", b""),
    )
    parts = [SIGNATURE]
    for name, data in chunks:
        check = zlib.crc32(name + data)
        parts += [struct.pack(">I", len(data)), name, data, struct.pack(">I", check)]
    return b"".join(parts)


def _tile(drawing: Drawing, dpi: int) -> Raster:
    """One drawing as rows of grey values."""
    page = _Page(drawing, dpi)
    if drawing.inset is not None:
        page.inset(drawing.inset, dpi)
    _put(page, drawing)
    return page.made()


def _put(page: _Page, drawing: Drawing) -> None:
    for (weight, dash), lines in drawing.lines_by_look().items():
        page.lines(lines, weight, dash)
    for (weight, fill), outlines in drawing.shapes_by_look().items():
        page.shapes(outlines, weight, fill)
    for words in drawing.words:
        page.words(words)


class _Page:
    """A page while it is drawn, `scale` dots to the millimetre."""

    def __init__(self, drawing: Drawing, dpi: int) -> None:
        size = floor(drawing.width * MM * dpi + 1e-6), floor(drawing.height * MM * dpi + 1e-6)
        self._scale = dpi * FINER * MM
        fine = size[0] * FINER, size[1] * FINER
        self._image = _draft(size, dpi).copy() if drawing.draft else Image.new("L", fine, WHITE)
        self._draw = ImageDraw.Draw(self._image)
        self._high = fine[1]

    def inset(self, inset: Inset, dpi: int) -> None:
        """The part of a larger drawing that its window shows."""
        other = _Page(inset.drawing, dpi)
        _put(other, inset.seen)
        left, bottom, wide, high = inset.box
        x, y = (round(way * self._scale) for way in inset.window[:2])
        across, up = round(wide * self._scale), round(high * self._scale)
        foot = other._image.height - y
        part = other._image.crop((x, foot - up, x + across, foot))
        corner = round(left * self._scale), self._image.height - round(bottom * self._scale) - up
        self._image.paste(0, corner, part.point(lambda grey: WHITE - grey))

    def lines(self, lines: Sequence[Array], weight: float, dash: Dash) -> None:
        """Lines (n, 2) in mm, of a weight in points."""
        pattern = [weight * PT * self._scale * part for part in DASHES[dash]]
        draw = self._pen(weight)
        for line in map(self._dots, lines):
            for points in dashed(line, pattern) if pattern else [line.ravel().tolist()]:
                draw(points)

    def shapes(self, outlines: Sequence[Array], weight: float, fill: Fill) -> None:
        """Closed outlines (n, 2) in mm."""
        draw = self._pen(weight)
        for outline in map(self._dots, outlines):
            points = outline.ravel().tolist()
            if fill != "none":
                self._draw.polygon(points, fill=WHITE if fill == "white" else 0)
            if weight:
                draw([*points, *points[:4]])

    def words(self, words: Words) -> None:
        """One line of text, as wide as it was measured to be."""
        size = words.size * PT * self._scale
        at, turn = np.array(words.start), to_radians(words.turn)
        font = typeset.BOLD if words.bold else typeset.REGULAR
        for borrowed, part in runs(spelled(words.text)):
            wide = typeset.text_width(part, font, words.size) * PT
            look = _Look(size, words.bold, words.turn, now_lent() if borrowed else NOBODY)
            mask, (left, top) = _mask(part, look, round(wide * self._scale))
            if mask is not None:
                x, y = self._dots(at)
                self._image.paste(0, (round(x) + left, round(y) + top), mask)
            at = at + wide * np.array([np.cos(turn), np.sin(turn)])

    def made(self) -> Raster:
        """The page as rows of grey values."""
        return np.asarray(self._image.reduce(FINER))

    def _pen(self, weight: float) -> Callable[[list[float]], None]:
        """What draws a run of straight pieces, x and y by turns."""
        wide = max(1, round(weight * PT * self._scale))
        joint = "curve" if weight >= JOINED else None
        return partial(self._draw.line, fill=0, width=wide, joint=joint)

    def _dots(self, points: Array) -> Array:
        """Points (..., 2) in mm as dots from the top of the page."""
        dots = points * self._scale
        dots[..., 1] = self._high - dots[..., 1]
        return dots


def dashed(line: Array, pattern: Sequence[float]) -> Iterator[list[float]]:
    """The strokes of a line (n, 2), x and y by turns, by the lengths of strokes and gaps in turn."""
    steps = np.diff(line, axis=0)
    along = np.append(0.0, np.cumsum(np.hypot(steps[:, 0], steps[:, 1])))
    period = sum(pattern)
    starts = np.append(0.0, np.cumsum(pattern))[:-1:2]
    rounds = np.arange(ceil(along[-1] / period)) * period
    begin = np.add.outer(rounds, starts).ravel()
    end = np.minimum(np.add.outer(rounds, starts + np.array(pattern[::2])).ravel(), along[-1])
    begin, end = begin[begin < along[-1]], end[begin < along[-1]]
    ends = [np.interp(at, along, line[:, axis]) for at in (begin, end) for axis in (0, 1)]
    first = 2 * np.searchsorted(along, begin, "right")
    last = 2 * np.searchsorted(along, end, "left")
    between = line.ravel().tolist()
    for x0, y0, x1, y1, a, b in zip(
        *(column.tolist() for column in (*ends, first, last)), strict=True
    ):
        yield [x0, y0, *between[a:b], x1, y1]


class _Look(NamedTuple):
    """Type as it is drawn: its size in dots, its turn in degrees, and who lends it."""

    size: float
    bold: bool
    turn: float
    lent: Lent


@cache
def _mask(text: str, look: _Look, wide: int) -> tuple[Any, tuple[int, int]]:
    """The black of some text `wide` dots wide, None where it has none, and its corner from where it begins.

    The library rounds the steps from letter to letter, and sets some nearer to each other: what it draws is
    drawn out to the width that was measured.
    """
    font = _face(look)
    edge = ceil(look.size)
    drawn = ceil(font.getlength(text))
    strike = typeset.LENT_BOLD * look.size / 2 if look.bold and look.lent.letters else 0.0
    image = Image.new("L", (drawn + 2 * edge, 3 * edge))
    if strike:
        draw = ImageDraw.Draw(image)
        for off in (-strike, strike):
            draw.text((edge + off, 2 * edge), text, fill=WHITE, font=font, anchor="ls")
    else:
        black, (left, top) = font.getmask2(text, "L", anchor="ls")
        x, y = edge + left, 2 * edge + top
        image.paste(black, (x, y, x + black.size[0], y + black.size[1]))
    origin = edge, 2 * edge
    inked = image.getbbox()
    if inked is None:
        return None, (0, 0)
    if drawn and wide != drawn:
        whole = round(image.width * wide / drawn)
        image = image.crop(
            (0, inked[1], image.width, inked[3])
        )  # rows without a letter stay as they are
        image = image.resize((whole, image.height), Image.Resampling.BILINEAR)
        origin = round(edge * wide / drawn), origin[1] - inked[1]
    if look.turn:
        half = max(image.width, image.height)
        square = Image.new("L", (2 * half, 2 * half))
        square.paste(image, (half - origin[0], half - origin[1]))
        image, origin = square.rotate(look.turn, Image.Resampling.BICUBIC), (half, half)
    box = image.getbbox()
    if box is None:
        return None, (0, 0)
    return image.crop(box), (box[0] - origin[0], box[1] - origin[1])


@cache
def _face(look: _Look) -> Any:
    if look.lent.letters:
        file: Any = io.BytesIO(typeset.lent_file(look.lent))
    else:
        file = typeset.font_file(typeset.BOLD if look.bold else typeset.REGULAR)
    return ImageFont.truetype(file, look.size, layout_engine=ImageFont.Layout.BASIC)


@cache
def _draft(size: tuple[int, int], dpi: int) -> Any:
    """A page with DRAFT from corner to corner in outline, half black, `FINER` than `size`."""
    width, height = size
    font = _face(_Look(DRAFT_SIZE * hypot(width, height), True, 0.0, NOBODY))
    line = max(1, round(DRAFT_LINE / 72 * dpi))
    side = 2 * ceil(hypot(width, height) / 2)
    image = Image.new("L", (side, side), WHITE)
    draw = ImageDraw.Draw(image)
    middle = (side / 2, side / 2)
    grey = round(WHITE * HALF_BLACK)
    draw.text(
        middle, "DRAFT", font=font, anchor="mm", fill=grey, stroke_width=line, stroke_fill=grey
    )
    draw.text(middle, "DRAFT", font=font, anchor="mm", fill=WHITE)
    slope = float(to_degrees(np.arctan2(height, width)))
    turned = image.rotate(slope, Image.Resampling.BICUBIC, fillcolor=WHITE)
    left, top = (side - width) // 2, (side - height) // 2
    page = turned.crop((left, top, left + width, top + height))
    return page.resize((width * FINER, height * FINER), Image.Resampling.BILINEAR)
