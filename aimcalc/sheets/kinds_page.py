"""One page of the generic kinds: a side view of each family to scale, and the figures of every kind.

The outlines are our own and no maker's: what counts is where pipe, yoke bolts and lens are to one another.
"""

from __future__ import annotations

from typing import Any, BinaryIO

import numpy as np

from aimcalc.geometry.vectors import Array, to_radians
from aimcalc.named import NamedTuple
from aimcalc.paper.drawing import Dash, Drawing, Line, Shape, Words, wrapped
from aimcalc.paper.marks import circle
from aimcalc.scene.lengths import parse_length
from aimcalc.scene.loading import generic_tables
from aimcalc.text.kinds_text import FAMILY_WORDS, HEADS, kind_row

WIDTH, HEIGHT = 210.0, 297.0  # mm
EDGE = 10.0
SCALE = 20.0
PANEL = (95.0, 52.0)  # mm
TYPE, TITLE = 10.0, 16.0  # pt
PIPE = 0.024  # m, half across a usual tube (48 mm; common practice, no source)
YOKE = 0.04  # m, width of its bar
BEAM = 16.0  # mm that the light is drawn
STEPS = 6  # of a stepped lens
TOLD = "ers-30", "fresnel-40", "pc-30", "par-25x50", "flood-90", "cyc-100"
ROW, RULE = 4.8, 3.5  # mm; from a base line up to the rule above it
COLUMNS = (0.0, 27.0, 48.0, 64.0, 87.0, 105.0, 122.0, 140.0, 156.0, 174.0)  # mm from the edge
FOOT = (
    "Typical, round figures that belong to no maker's unit: replace them by your maker's sheet, or by a tape "
    "on one of yours (aimcalc kinds ers-30 prints one to copy). There is no yoke_range: try one on the "
    "floor. Drop is under and over alike. Aims depend on drop and nose above all."
)

# Half outlines from the back (0) to the lens (1) and from the axis to the widest (1); mirrored but for cyc.
_HALVES = {
    "ers": [
        (0, 0.55),
        (0.06, 0.9),
        (0.14, 1),
        (0.5, 1),
        (0.5, 0.66),
        (0.93, 0.66),
        (0.93, 0.8),
        (1, 0.8),
    ],
    "fresnel": [(0, 0.8), (0.08, 0.95), (1, 0.95)],
    "pc": [(0, 0.8), (0.08, 0.95), (1, 0.95)],
    "par": [(0, 0.4), (0.12, 0.62), (0.4, 1), (1, 1)],
    "flood": [(0, 0.5), (0.35, 0.62), (1, 1)],
}
_CYC = [(0.55, 1), (0.15, 0.8), (0, 0.2), (0.1, -0.5), (0.4, -0.9), (1, -1)]


class _Body(NamedTuple):
    """One kind in metres, angles in degrees."""

    name: str
    family: str
    drop: float
    nose: float
    length: float
    width: float
    field: float
    beam: float


def kinds_page(target: BinaryIO, *, png: bool = False) -> None:
    """Write the page as a PDF, or as a picture."""
    page = draw_kinds()
    if png:
        from aimcalc.paper.drawpng import write_png

        write_png(target, [page], dpi=110)
    else:
        from aimcalc.paper.drawpdf import write_pdf

        write_pdf(target, [page], "aimcalc: the generic kinds")


def draw_kinds() -> Drawing:
    """The page as a drawing."""
    page = Drawing(WIDTH, HEIGHT)
    top = HEIGHT - EDGE
    page.words.append(Words(EDGE, top - 5, "THE GENERIC KINDS, by family", TITLE, bold=True))
    said = f"Side views 1:{SCALE:.0f}; light towards the right: field solid, beam dashed"
    page.words.append(Words(EDGE, top - 11, said, TYPE))
    kinds = generic_tables()
    for k, name in enumerate(TOLD):
        left = EDGE + (k % 2) * PANEL[0]
        _panel(page, _body(kinds[name]), left, top - 14 - (k // 2) * PANEL[1])
    low = top - 14 - 3 * PANEL[1]
    low = _table(page, list(kinds.values()), low)
    for line in wrapped(FOOT, TYPE, WIDTH - 2 * EDGE):
        low -= 4.6
        page.words.append(Words(EDGE, low, line, TYPE))
    return page


def _body(kind: dict[str, Any]) -> _Body:
    sizes = (parse_length(kind[key]) for key in ("drop_under", "nose", "length", "width"))
    drop, nose, length, width = sizes
    return _Body(
        kind["name"], kind["family"], drop, nose, length, width, kind["field"], kind["beam"]
    )


def _panel(page: Drawing, body: _Body, left: float, top: float) -> None:
    """One family: its name and what it is, then its outline with pipe, bolts, light and three sizes."""
    page.words.append(Words(left, top - 5, f"{body.family}: {body.name}", TYPE + 2, bold=True))
    page.words.append(Words(left, top - 9.5, FAMILY_WORDS[body.family], TYPE))
    per_metre = 1000 / SCALE
    pipe = np.array([left + 46.0, top - 14.0])
    bolts = np.array([pipe[0], pipe[1] - body.drop * per_metre])
    _light(page, body, bolts)
    page.shapes.append(Shape(bolts + _outline(body) * per_metre, 1.25))
    half = YOKE / 2 * per_metre
    bar = np.array([(-half, -half), (half, -half), (half, 0), (-half, 0)])
    bar[2:, 1] = pipe[1] - bolts[1]
    page.shapes.append(Shape(bolts + bar, 1.0))
    page.shapes.append(Shape(circle(pipe[0], pipe[1], PIPE * per_metre), 1.25, "black"))
    page.shapes.append(Shape(circle(bolts[0], bolts[1], 0.8), 0.75, "black"))
    _sizes(page, body, bolts, pipe)


def _outline(body: _Body) -> Array:
    """The outline round the bolts, (n, 2) metres, the lens ahead."""
    if body.family == "cyc":
        run = np.array([*_CYC, (0.55, 1)], dtype=float)
    else:
        half = np.array(_HALVES[body.family], dtype=float)
        run = np.concatenate([half, _lens(body.family, half[-1, 1]), half[::-1] * (1, -1)])
    along = body.nose - body.length + run[:, 0] * body.length
    return np.stack((along, run[:, 1] * body.width / 2), axis=1)


def _lens(family: str, rim: float) -> Array:
    """What closes the front, from its upper to its lower rim."""
    across = np.linspace(rim, -rim, 2 * STEPS + 1)
    if family == "fresnel":
        return np.stack((1 + 0.035 * (np.arange(across.size) % 2), across), axis=1)
    if family in ("ers", "pc"):
        return np.stack((1 + 0.07 * (1 - (across / rim) ** 2), across), axis=1)
    return np.empty((0, 2))


def _light(page: Drawing, body: _Body, bolts: Array) -> None:
    start = bolts + np.array([body.nose * 1000 / SCALE, 0.0])
    looks: tuple[tuple[float, Dash], ...] = ((body.field, "solid"), (body.beam, "dashed"))
    for angle, dash in looks:
        for sign in (1, -1):
            slope = to_radians(sign * angle / 2)
            reach = min(BEAM, 10.0 / max(abs(np.sin(slope)), 1e-9))
            end = start + reach * np.array([np.cos(slope), np.sin(slope)])
            page.lines.append(Line(np.stack((start, end)), 0.75, dash))


def _sizes(page: Drawing, body: _Body, bolts: Array, pipe: Array) -> None:
    """Drop, nose and length, each along its own line with its end ticks."""
    per_metre = 1000 / SCALE
    lens = bolts[0] + body.nose * per_metre
    back = lens - body.length * per_metre
    left = min(back, bolts[0] - 4) - 3
    _span(page, (left, bolts[1]), (left, pipe[1]))
    middle = (bolts[1] + pipe[1]) / 2
    for told, by in (("drop_under", 0.0), (f"{body.drop:g} m", 4.2)):
        page.words.append(Words(left - 1.5, middle - by, told, TYPE, align="right"))
    low = bolts[1] - body.width / 2 * per_metre
    _span(page, (bolts[0], low - 3), (lens, low - 3))
    page.words.append(Words(lens + 2, low - 4.2, f"nose {body.nose:g} m", TYPE))
    _span(page, (back, low - 7.5), (lens, low - 7.5))
    page.words.append(Words(lens + 2, low - 8.7, f"length {body.length:g} m", TYPE))


def _span(page: Drawing, start: tuple[float, float], end: tuple[float, float]) -> None:
    page.line(start, end)
    upright = abs(end[1] - start[1]) > abs(end[0] - start[0])
    dx, dy = (1.0, 0.0) if upright else (0.0, 1.0)
    for x, y in (start, end):
        page.line((x - dx, y - dy), (x + dx, y + dy))


def _table(page: Drawing, kinds: list[dict[str, Any]], top: float) -> float:
    """The figures of every kind; where it ends."""
    rows = [list(HEADS), *(kind_row(kind) for kind in kinds)]
    before = ""
    for k, row in enumerate(rows):
        low = top - ROW * (k + 1)
        family = "" if k == 0 else kinds[k - 1]["family"]
        if family != before:
            page.line((EDGE, low + RULE), (WIDTH - EDGE, low + RULE))
            before = family
        for x, cell in zip(COLUMNS, row, strict=True):
            page.words.append(Words(EDGE + x, low, cell, TYPE, bold=k == 0 or x == 0))
    return top - ROW * len(rows)
