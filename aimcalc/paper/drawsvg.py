"""Drawings as SVG in true millimetres. The same drawings give the same bytes.

Text stays text, set as wide as it was measured to be whatever typeface the reader has. `svg` gives the
picture as a string that may stand by itself or inside a page of the web.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator
from itertools import groupby
from math import atan2, hypot
from typing import BinaryIO

from aimcalc.geometry.vectors import Array, to_degrees
from aimcalc.paper.drawing import DASHES, DRAFT_SIZE, PT, Drawing, Fill, Inset, Words, text_width
from aimcalc.rig.letters import spelled
from aimcalc.text.stamp import NO_SET, Stamp

TYPEFACE = "DejaVu Sans, Verdana, sans-serif"
FILLS: dict[Fill, str] = {"white": "#fff", "black": "#000", "none": "none"}
DRAFT_GREY, DRAFT_LINE = "#808080", 1.5  # half black; pt


def write_svg(stream: BinaryIO, drawing: Drawing, title: str, stamp: Stamp = NO_SET) -> None:
    """Write one drawing as a file of its own; title and set are told in its head."""
    head = '<?xml version="1.0" encoding="UTF-8"?>\n'
    stream.write((head + svg(drawing, title, stamp)).encode())


def svg(drawing: Drawing, title: str = "", stamp: Stamp = NO_SET, *, named: bool = False) -> str:
    """One drawing as an `svg` element whose width, height and viewBox are its millimetres.

    Where it is to be `named`, what is somebody's is in groups whose `data-name` tells whose.
    """
    wide, high = _number(drawing.width), _number(drawing.height)
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide}mm" height="{high}mm" '
        f'viewBox="0 0 {wide} {high}" font-family="{TYPEFACE}" stroke-linejoin="round">'
    )
    told = [f"<title>{escaped(title)}</title>"] if title else []
    told += [f"<desc>{escaped(stamp.words)}</desc>"] if stamp.words else []
    paper = f'<rect width="{wide}" height="{high}" fill="#fff"/>'
    parts = _named(drawing) if named else _inside(drawing)
    return "\n".join([head, *told, paper, *parts, "</svg>\n"])


def escaped(text: str) -> str:
    """Text as XML may hold it; white space and control characters become single spaces."""
    printed = (" " if unicodedata.category(letter) == "Cc" else letter for letter in text)
    plain = spelled(" ".join("".join(printed).split()))
    for letter, name in (("&", "&amp;"), ("<", "&lt;"), (">", "&gt;"), ('"', "&quot;")):
        plain = plain.replace(letter, name)
    return plain


def _inside(drawing: Drawing) -> Iterator[str]:
    """The elements of a drawing, undermost first."""
    if drawing.draft:
        yield _draft(drawing)
    if drawing.inset is not None:
        yield from _inset(drawing.inset, drawing.height)
    for (weight, dash), lines in drawing.lines_by_look().items():
        pattern = " ".join(_number(weight * PT * part) for part in DASHES[dash])
        dashes = f' stroke-dasharray="{pattern}"' if pattern else ""
        paths = "".join(_path(line, drawing.height) for line in lines)
        yield f'<path d="{paths}" fill="none" {_stroke(weight)}{dashes}/>'
    for (weight, fill), outlines in drawing.shapes_by_look().items():
        look = f'fill="{FILLS[fill]}" {_stroke(weight)}'
        for outline in outlines:
            yield f'<path d="{_path(outline, drawing.height)}Z" {look}/>'
    for words in drawing.words:
        yield _words(words, drawing.height)


def _named(drawing: Drawing) -> Iterator[str]:
    """The same of a drawing without an inset, what is somebody's in groups of his."""
    from xml.sax.saxutils import quoteattr  # loads all that opens addresses of the web

    lines = sorted(drawing.lines, key=lambda line: line.of)
    shapes = sorted(drawing.shapes, key=lambda shape: shape.weight > 0)
    words = sorted(drawing.words, key=lambda each: each.of)
    for things, name in ((lines, "lines"), (shapes, "shapes"), (words, "words")):
        for of, group in groupby(things, key=lambda each: each.of):
            part = Drawing(drawing.width, drawing.height)
            setattr(part, name, list(group))
            parts = "".join(_inside(part))
            yield f"<g data-name={quoteattr(of)}>{parts}</g>" if of else parts


def _inset(inset: Inset, height: float) -> Iterator[str]:
    """The part of a larger drawing that its window shows, on a page so high."""
    left, bottom, wide, high = inset.box
    across, up = inset.shift
    down = height - up - inset.drawing.height
    box = (left, height - bottom - high, wide, high)
    yield '<clipPath id="window"><rect x="{}" y="{}" width="{}" height="{}"/></clipPath>'.format(
        *map(_number, box)
    )
    move = f'<g transform="translate({_number(across)} {_number(down)})">'
    yield f'<g clip-path="url(#window)">{move}'
    yield from _inside(inset.seen)
    yield "</g></g>"


def _stroke(weight: float) -> str:
    return f'stroke="#000" stroke-width="{_number(weight * PT)}"' if weight else 'stroke="none"'


def _path(points: Array, height: float) -> str:
    """Moves along points (n, 2), y upwards, on a page so high."""
    turned = points * (1.0, -1.0) + (0.0, height)
    return "M" + "L".join(f"{_number(x)} {_number(y)}" for x, y in turned.tolist())


def _words(words: Words, height: float) -> str:
    x, y = words.start
    place = f'x="{_number(x)}" y="{_number(height - y)}"'
    if words.turn:
        place += (
            f' transform="rotate({_number(360.0 - words.turn)} {_number(x)} {_number(height - y)})"'
        )
    text = escaped(words.text)
    wide = text_width(words.text, words.size, words.bold)
    bold = ' font-weight="bold"' if words.bold else ""
    return (
        f'<text {place} font-size="{_number(words.size * PT)}"{bold} textLength="{_number(wide)}" '
        f'lengthAdjust="spacingAndGlyphs">{text}</text>'
    )


def _draft(drawing: Drawing) -> str:
    """DRAFT in outline from corner to corner."""
    size = DRAFT_SIZE * hypot(drawing.width, drawing.height)
    turn = 360.0 - float(to_degrees(atan2(drawing.height, drawing.width)))
    x, y = _number(drawing.width / 2), _number(drawing.height / 2)
    return (
        f'<text x="{x}" y="{y}" font-size="{_number(size)}" font-weight="bold" text-anchor="middle" '
        f'dominant-baseline="central" fill="none" stroke="{DRAFT_GREY}" '
        f'stroke-width="{_number(DRAFT_LINE * PT)}" transform="rotate({_number(turn)} {x} {y})">DRAFT</text>'
    )


def _number(value: float) -> str:
    """A number to a thousandth, without noughts at its end; never "-0"."""
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
