"""Drawings as one picture in shades of grey. This is where the plotting library is loaded.

Everything of one look is one path, words too: as a picture that costs a tenth of so many artists. The
same drawings give the same bytes.
"""

from __future__ import annotations

import logging
import os
from collections.abc import Sequence
from functools import cache
from math import ceil, sqrt
from typing import Any, BinaryIO

import matplotlib
import numpy as np
from matplotlib.artist import Artist
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.font_manager import get_font
from matplotlib.patches import PathPatch
from matplotlib.path import Path
from matplotlib.transforms import Affine2D, Transform

from aimcalc.geometry.vectors import Array, to_radians
from aimcalc.paper.drawing import DASHES, DRAFT_SIZE, HALF_BLACK, PT, Drawing, Words
from aimcalc.rig.letters import NOBODY, Lent, Letter, now_lent, spelled
from aimcalc.text.typeset import LENT_BOLD

DPI = 80
ACROSS = 3  # drawings side by side, more when there are many
MM = 1 / 25.4  # inches
EM = 100  # pt, the size at which letters are kept
_SETTINGS: dict[Any, Any] = {
    "path.simplify": True,
    "path.simplify_threshold": 1 / 9,
    "path.snap": False,
    "path.sketch": None,
    "path.effects": [],
    "agg.path.chunksize": 0,
}

logging.getLogger("matplotlib").addHandler(logging.NullHandler())  # what it remarks is for us

Raster = np.ndarray[tuple[int, ...], np.dtype[np.uint8]]


def write_png(stream: BinaryIO, drawings: Sequence[Drawing], *, dpi: int = DPI) -> None:
    """Write all drawings as one picture, in rows, at `dpi` dots to the inch."""
    from PIL import Image

    with matplotlib.rc_context(_SETTINGS):
        tiles = _tiles(drawings, dpi)
    across = max(ACROSS, ceil(sqrt(len(tiles))))
    rows = [np.concatenate(tiles[k : k + across], axis=1) for k in range(0, len(tiles), across)]
    sheet = np.full((sum(r.shape[0] for r in rows), max(r.shape[1] for r in rows)), 255, np.uint8)
    top = 0
    for row in rows:
        sheet[top : top + row.shape[0], : row.shape[1]] = row
        top += row.shape[0]
    Image.fromarray(sheet).save(stream, format="png", dpi=(dpi, dpi), compress_level=2)


def _tiles(drawings: Sequence[Drawing], dpi: int) -> list[Raster]:
    """Each drawing as rows of grey values; those of one size share one canvas."""
    canvases: dict[tuple[float, float], Any] = {}
    tiles = []
    for drawing in drawings:
        size = (drawing.width * MM, drawing.height * MM)
        if size not in canvases:
            canvases[size] = FigureCanvasAgg(Figure(figsize=size, dpi=dpi, facecolor="white"))
        canvas = canvases[size]
        canvas.figure.clear()
        to_page = Affine2D().scale(MM) + canvas.figure.dpi_scale_trans
        for artist in _artists(drawing, to_page):
            canvas.figure.add_artist(artist)
        canvas.draw()
        tiles.append(np.array(canvas.buffer_rgba(), dtype=np.uint8)[:, :, 0].copy())
    return tiles


def _artists(drawing: Drawing, to_page: Transform) -> list[Artist]:
    """Everything on the page, undermost first."""
    drawn: list[Artist] = [*_draft(drawing)]
    for (weight, dash), runs in drawing.lines_by_look().items():
        style = (0, DASHES[dash]) if DASHES[dash] else "solid"
        path = _one_path(runs, close=False)
        drawn.append(PathPatch(path, fill=False, linewidth=weight, linestyle=style))
    for (weight, fill), outlines in drawing.shapes_by_look().items():
        edge = "black" if weight else "none"
        path = _one_path(outlines, close=True)
        drawn.append(PathPatch(path, edgecolor=edge, facecolor=fill, linewidth=weight))
    if drawing.words:
        drawn.append(PathPatch(_words_path(drawing.words), facecolor="black", linewidth=0))
    for order, artist in enumerate(drawn):
        artist.set_transform(to_page)
        artist.set_zorder(order)
    return drawn


def _one_path(runs: list[Array], *, close: bool) -> Path:
    if close:
        runs = [np.concatenate([run, run[:1]]) for run in runs]
    codes = np.full(sum(len(run) for run in runs), Path.LINETO, dtype=Path.code_type)
    start = 0
    for run in runs:
        codes[start] = Path.MOVETO
        start += len(run)
        if close:
            codes[start - 1] = Path.CLOSEPOLY
    return Path(np.concatenate(runs), codes)


def _words_path(words: Sequence[Words]) -> Path:
    vertices, codes = [], []
    for each in words:
        outline, kinds = _text_outline(each.text, each.bold, now_lent())
        c, s = np.cos(to_radians(each.turn)), np.sin(to_radians(each.turn))
        turned = outline * (each.size / EM) @ np.array([(c, s), (-s, c)])
        vertices.append(turned + np.array(each.start))
        codes.append(kinds)
    return Path(np.concatenate(vertices), np.concatenate(codes))


@cache
def _text_outline(text: str, bold: bool, lent: Lent) -> tuple[Array, Any]:
    """Outline of a line of text at `EM` pt, in mm, with the path codes of its points."""
    vertices, codes, x = [np.zeros((0, 2))], [np.zeros(0, dtype=Path.code_type)], 0.0
    for letter in spelled(text):
        borrowed = lent.letters.get(letter)
        outline, kinds, advance = (
            _letter(letter, bold) if borrowed is None else _lent_letter(borrowed, bold)
        )
        vertices.append(outline + np.array([x, 0.0]))
        codes.append(kinds)
        x += advance
    return np.concatenate(vertices), np.concatenate(codes)


@cache
def _letter(letter: str, bold: bool) -> tuple[Array, Any, float]:
    """Outline at `EM` pt in mm, its path codes, and the step to the next letter."""
    font = get_font(_font_file(bold))
    font.set_size(EM, 72)
    advance = font.load_char(ord(letter)).linearHoriAdvance / 65536
    vertices, codes = font.get_path()
    return np.asarray(vertices) * PT, codes, advance * PT


@cache
def _lent_letter(letter: Letter, bold: bool) -> tuple[Array, Any, float]:
    """The same for a letter that is lent: in bold it is struck twice, a little apart."""
    from fontTools.pens.basePen import decomposeQuadraticSegment

    vertices: list[Any] = []
    codes: list[Any] = []
    for step, points in letter.outline:
        if step == "closePath":
            vertices.append(vertices[-1])
            codes.append(Path.CLOSEPOLY)
        elif step == "qCurveTo":
            for by, to in decomposeQuadraticSegment(_on_curve(points, vertices, codes)):
                vertices += [by, to]
                codes += [Path.CURVE3, Path.CURVE3]
        else:
            vertices.append(points[0])
            codes.append(Path.MOVETO if step == "moveTo" else Path.LINETO)
    outline = np.array(vertices) * EM * PT
    half = np.array([LENT_BOLD * EM * PT / 2, 0.0])
    strikes = [outline - half, outline + half] if bold else [outline]
    return np.concatenate(strikes), np.array(codes * len(strikes)), letter.advance * EM * PT


def _on_curve(points: Sequence[Any], vertices: list[Any], codes: list[Any]) -> Sequence[Any]:
    """The points of a curve; one all round without an end begins between its last and first."""
    if points[-1] is not None:
        return points
    *off, _ = points
    start = ((off[-1][0] + off[0][0]) / 2, (off[-1][1] + off[0][1]) / 2)
    vertices.append(start)
    codes.append(Path.MOVETO)
    return (*off, start)


def _font_file(bold: bool) -> str:
    name = "DejaVuSans-Bold.ttf" if bold else "DejaVuSans.ttf"
    return os.path.join(matplotlib.get_data_path(), "fonts", "ttf", name)


def _draft(drawing: Drawing) -> list[PathPatch]:
    """DRAFT from corner to corner in outline, half black."""
    if not drawing.draft:
        return []
    outline, codes = _text_outline("DRAFT", True, NOBODY)
    size = DRAFT_SIZE * np.hypot(drawing.width, drawing.height) / (EM * PT)
    middle = (outline.min(axis=0) + outline.max(axis=0)) / 2
    slope = np.arctan2(drawing.height, drawing.width)
    c, s = np.cos(slope), np.sin(slope)
    turned = (outline - middle) * size @ np.array([(c, s), (-s, c)])
    page = turned + np.array([drawing.width / 2, drawing.height / 2])
    return [PathPatch(Path(page, codes), fill=False, edgecolor=str(HALF_BLACK), linewidth=1.5)]
