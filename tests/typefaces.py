"""Small typefaces made for a test: every letter is a box with a foot, as tall and as deep as asked for."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from fontTools.fontBuilder import FontBuilder
from fontTools.pens.t2CharStringPen import T2CharStringPen
from fontTools.pens.ttGlyphPen import TTGlyphPen

EM, WIDE = 1000, 900


def typeface(
    path: Path,
    letters: str,
    *,
    cubic: bool = False,
    top: int = 800,
    foot: int = -100,
    may_embed: bool = True,
    weight: int = 400,
) -> Path:
    """A font file with these letters, each `WIDE` of `EM`: TrueType outlines, or `cubic` ones."""
    names = [".notdef", *dict.fromkeys(f"u{ord(c):X}" for c in letters)]
    made = FontBuilder(EM, isTTF=not cubic)
    made.setupGlyphOrder(names)
    made.setupCharacterMap({ord(c): f"u{ord(c):X}" for c in letters})
    if cubic:
        strings = {name: _drawn(T2CharStringPen(WIDE, None), top, foot, True) for name in names}
        made.setupCFF("Test", {}, {n: pen.getCharString() for n, pen in strings.items()}, {})
    else:
        made.setupGlyf({name: _drawn(TTGlyphPen(None), top, foot, False).glyph() for name in names})
    made.setupHorizontalMetrics(dict.fromkeys(names, (WIDE, 50)))
    made.setupHorizontalHeader(ascent=top, descent=foot)
    made.setupNameTable({"familyName": "Test", "styleName": "Regular", "psName": "Test"})
    made.setupOS2(usWeightClass=weight, fsType=0 if may_embed else 2)
    made.setupPost()
    made.save(path)
    return path


def _drawn(pen: Any, top: int, foot: int, cubic: bool) -> Any:
    """A box to the line with one round side, and a foot under it."""
    pen.moveTo((50, 0))
    pen.lineTo((50, top))
    pen.lineTo((600, top))
    if cubic:
        pen.curveTo((850, top), (850, 0), (600, 0))
    else:
        pen.qCurveTo((850, top), (850, 0), (600, 0))
    pen.closePath()
    pen.moveTo((300, 0))
    pen.lineTo((400, 0))
    pen.lineTo((400, foot))
    pen.closePath()
    return pen
