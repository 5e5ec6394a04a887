"""Type that fits: the typeface, the width of a line, squeezing, wrapping and cutting.

The typeface is DejaVu Sans, plain and bold, embedded in every file: open figures, 1 unlike 7, 6 and 8
and 9 unlike each other, and every letter of the languages written in Latin, Greek and Cyrillic. Other
letters are lent by other typefaces where there are some (`aimcalc.rig.typeface`); their outlines become a
small font of the set's own. What nobody lends is stopped by `check`; a draft spells it by number.
"""

from __future__ import annotations

import os
import re
from datetime import datetime, timedelta
from functools import cache, lru_cache
from math import atan2, hypot
from typing import Any

from aimcalc.geometry.vectors import to_degrees
from aimcalc.named import NamedTuple
from aimcalc.rig import letters as lettering
from aimcalc.rig.letters import Lent, now_lent, runs, spelled
from aimcalc.text import embedded
from aimcalc.text.stamp import NO_SET, Stamp

REGULAR = "aim"
BOLD = "aim-bold"
LENT = "aim-lent"
EM = 1000  # units of the font of letters that are lent
KEPT = 1 << 14  # widths of lines that are kept: a set of sheets says the same words on many pages
_FILES = {REGULAR: "DejaVuSans.ttf", BOLD: "DejaVuSans-Bold.ttf"}

HEAVIER = 0.028  # outline round plain letters, of their size: bare, their strokes die in a second photocopy
LENT_BOLD = 0.045  # the same round letters that are lent, which have no bold, where a line is bold
NARROWEST = 0.8  # how far letters are squeezed before they get smaller
CAPITAL = 0.73  # height of capitals and figures, of the type size
TAIL = lettering.TAIL  # depth of the deepest letter
ABOVE = 0.94  # the tallest capital with its accent above the base line, of the type size
HALF_BLACK = 0.5  # the lightest grey, for text and lines
DRAFT_SIZE = 0.21  # height of DRAFT's type, of the page's diagonal
LEADING = ABOVE + TAIL  # line to line, of the type size: ABOVE and TAIL


class Fitted(NamedTuple):
    """Text with the size and the squeeze that make it fit."""

    words: str
    size: float
    squeeze: float
    width: float


@cache
def fonts() -> None:
    """Register the typeface; it is read once a process.

    Pages are kept as bytes, not as letters: a fifth smaller, and written in a tenth of the time.
    """
    from reportlab import rl_config

    rl_config.useA85 = 0
    embedded.register({name: font_file(name) for name in _FILES})


def new_canvas(title: str, size: tuple[float, float] | None = None, stamp: Stamp = NO_SET) -> Any:
    """An empty PDF document whose properties name this program, no other, and its set. `size` in points.

    Its dates are those of the stamp; without a time they are always the same.
    """
    from reportlab.pdfgen.canvas import Canvas

    fonts()
    canvas = Canvas("", pagesize=size, invariant=1, pageCompression=1)
    embedded.begin(canvas._doc, _FILES)
    canvas.setTitle(title)
    canvas.setAuthor("")
    canvas.setCreator("aimcalc")
    canvas.setProducer("aimcalc")
    canvas.setSubject(stamp.words)
    if stamp.printed:
        moment = _pdf_date(stamp.printed)
        canvas.setDateFormatter(lambda *usual: moment)
    return canvas


def _pdf_date(time: datetime) -> str:
    """ "D:20251114160209+01'00'"; UTC is taken where the time has no zone."""
    away = time.utcoffset() or timedelta(0)
    minutes = int(abs(away).total_seconds()) // 60
    sign = "-" if away < timedelta(0) else "+"
    return f"D:{time:%Y%m%d%H%M%S}{sign}{minutes // 60:02d}'{minutes % 60:02d}'"


def pdf_bytes(canvas: Any) -> bytes:
    """The finished document. Two comments in it name the library: they are blanked in place."""
    data: bytes = canvas.getpdfdata()
    return re.sub(rb"ReportLab [Gg]enerated PDF document[^\n]*", lambda m: b" " * len(m[0]), data)


def text_width(words: str, font: str, size: float) -> float:
    """Width of a line of text in points."""
    if words.isascii():
        return _plain_width(words, font) * size / 1000
    return _width(words, font, now_lent()) * size


@lru_cache(KEPT)
def _plain_width(words: str, font: str) -> float:
    """Width of plain letters in thousandths of the type size."""
    widths, default = _letters(font)
    return sum([widths.get(ord(letter), default) for letter in words])


@lru_cache(KEPT)
def _width(words: str, font: str, lent: Lent) -> float:
    """Width of any letters, of the type size, while these are lent."""
    widths, default = _letters(font)
    letters = lent.letters
    return sum(
        [
            letters[c].advance if c in letters else widths.get(ord(c), default) / 1000
            for c in spelled(words)
        ]
    )


def fit(words: str, font: str, size: float, width: float | None = None) -> Fitted:
    """A line of `size` points made to fit `width` points: squeezed to `NARROWEST` first, then set smaller.

    It is never cut; without a width it is left as it is.
    """
    return _fitted(words, font, size, width, now_lent())


@lru_cache(KEPT)
def _fitted(words: str, font: str, size: float, width: float | None, lent: Lent) -> Fitted:
    words = spelled(" ".join(words.split()))
    natural = text_width(words, font, size)
    if width is None or natural <= width:
        return Fitted(words, size, 1.0, natural)
    squeeze = max(width / natural, NARROWEST)
    smaller = size * min(width / (natural * squeeze), 1.0)
    return Fitted(words, smaller, squeeze, width)


def show(fitted: Fitted, font: str, canvas: Any, *, white: bool = False) -> str:
    """The PDF operators that show a line of text on a canvas whose text matrix is set.

    Written straight: a sheet has thousands of short lines, and the library's text object works out the
    width of each once more and formats numbers that do not change.
    """
    from reportlab.pdfbase import pdfmetrics

    document, size = canvas._doc, fitted.size  # the fonts' subsets belong to the document
    usual = embedded.usual_codes(fitted.words)
    if usual is not None:
        name = pdfmetrics.getFont(font).getSubsetInternalName(0, document)
        return f"{name} {size:.3f} Tf <{usual}> Tj"
    parts = []
    for lent, words in runs(fitted.words):
        face = pdfmetrics.getFont(lent_font(now_lent()) if lent else font)
        shown = " ".join(
            [
                f"{face.getSubsetInternalName(part, document)} {size:.3f} Tf <{letters.hex()}> Tj"
                for part, letters in face.splitString(words, document)
            ]
        )
        if lent and font == BOLD:  # nobody lends bold letters: they get an outline
            shown = f"{int(white)} G {LENT_BOLD * size:.3f} w [] 0 d 2 Tr {shown} 0 Tr 0 G"
        parts.append(shown)
    return " ".join(parts)


@cache
def lent_font(lent: Lent) -> str:
    """The name of the font that holds the letters which are lent, and no others, made and registered."""
    import io

    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    name = f"{LENT}-{lent.mark}"
    pdfmetrics.registerFont(TTFont(name, io.BytesIO(lent_file(lent))))
    return name


@cache
def lent_file(lent: Lent) -> bytes:
    """The same font as a TrueType file."""
    import io

    from fontTools.fontBuilder import FontBuilder
    from fontTools.pens.ttGlyphPen import TTGlyphPen

    glyphs, widths = {".notdef": TTGlyphPen(None).glyph()}, {".notdef": EM}
    for letter, (advance, outline) in lent.letters.items():
        pen = TTGlyphPen(None)
        for step, points in outline:
            getattr(pen, step)(*[p and (round(p[0] * EM), round(p[1] * EM)) for p in points])
        glyphs[f"u{ord(letter):X}"], widths[f"u{ord(letter):X}"] = pen.glyph(), round(advance * EM)
    made = FontBuilder(EM)
    made.setupGlyphOrder(list(glyphs))
    made.setupCharacterMap({ord(letter): f"u{ord(letter):X}" for letter in lent.letters})
    made.setupGlyf(glyphs)
    starts = {name: getattr(glyph, "xMin", 0) for name, glyph in glyphs.items()}
    made.setupHorizontalMetrics({name: (widths[name], starts[name]) for name in glyphs})
    made.setupHorizontalHeader(ascent=round(ABOVE * EM), descent=-round(TAIL * EM))
    name = f"{LENT}-{lent.mark[:12]}"  # viewers and printers keep fonts by name: other letters, another name
    made.setupNameTable({"familyName": name, "styleName": "Regular", "psName": name})
    made.setupOS2()
    made.setupPost()
    made.font["head"].created = made.font["head"].modified = (
        0  # the same letters give the same bytes
    )
    made.font.recalcTimestamp = False
    file = io.BytesIO()
    made.save(file)
    return file.getvalue()


def shorten(words: str, letters: int, *, keep_end: bool = False) -> str:
    """Words in at most `letters` letters: "…" stands for what is left out, at the end or in the middle.

    A title or a revision keeps its end, which tells it from another. Names of one scene are shortened
    together: `aimcalc.text.names`.
    """
    words = " ".join(words.split())
    if len(words) <= letters:
        return words
    end = letters // 3 if keep_end else 0
    return f"{words[: letters - 1 - end].rstrip()}…{words[len(words) - end :].lstrip()}"


def wrap(words: str, font: str, size: float, width: float, indent: float = 0.0) -> list[str]:
    """The lines of a text set in `width`, the first one shorter by `indent`.

    A word too long for a line is cut into pieces. The first line is empty where not even one word
    stands beside the indent.
    """
    return list(_wrapped(words, font, size, width, indent, now_lent()))


@lru_cache(KEPT)
def _wrapped(
    words: str, font: str, size: float, width: float, indent: float, lent: Lent
) -> tuple[str, ...]:
    lines: list[str] = []
    line: list[str] = []
    words = spelled(words)
    space, used, room = text_width(" ", font, size), 0.0, width - indent
    for word in _pieces(words.split(), font, size, width):
        wide = text_width(word, font, size)
        if (line or indent) and used + wide > room + 1e-9:
            lines.append(" ".join(line))
            line, used, room, indent = [], 0.0, width, 0.0
        line.append(word)
        used += wide + space
    return (*lines, " ".join(line)) if line else tuple(lines)


def _pieces(words: list[str], font: str, size: float, width: float) -> list[str]:
    pieces = []
    for word in words:
        while len(word) > 1 and text_width(word, font, size) > width:
            most = max(1, int(len(word) * width / text_width(word, font, size)))
            while most > 1 and text_width(word[:most], font, size) > width:
                most -= 1
            pieces.append(word[:most])
            word = word[most:]
        pieces.append(word)
    return pieces


@cache
def _letters(font: str) -> tuple[dict[int, float], float]:
    """Widths of the letters of a registered font, in thousandths of its size, and the default."""
    from reportlab.pdfbase import pdfmetrics

    fonts()
    face = pdfmetrics.getFont(font).face
    return face.charWidths, face.defaultWidth


def font_file(font: str) -> str:
    """Where a file of the typeface lies, which ships with the plotting library (found, not imported)."""
    from importlib.util import find_spec

    spec = find_spec("matplotlib")
    if spec is None or not spec.submodule_search_locations:
        raise FileNotFoundError(
            "the DejaVu typeface is missing: install matplotlib, which brings it, and try again"
        )
    folder = os.path.join(spec.submodule_search_locations[0], "mpl-data", "fonts", "ttf")
    return os.path.join(folder, _FILES[font])


def watermark(canvas: Any, width: float, height: float) -> None:
    """DRAFT in outline from corner to corner of a page (points), under everything else."""
    size = DRAFT_SIZE * hypot(width, height)
    text = canvas.beginText()
    text.setFont(BOLD, size)
    text.setTextRenderMode(1)
    text.setTextOrigin(-text_width("DRAFT", BOLD, size) / 2, -0.36 * size)
    text.textOut("DRAFT")
    text.setTextRenderMode(0)
    canvas.saveState()
    canvas.translate(width / 2, height / 2)
    canvas.rotate(to_degrees(atan2(height, width)))
    canvas.setStrokeGray(HALF_BLACK)
    canvas.setLineWidth(1.5)
    canvas.drawText(text)
    canvas.restoreState()
