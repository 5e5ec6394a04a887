"""The pool plan: where every unit of one system hangs, points and lands, drawn to scale, a page each.

It draws what the rig was solved to; the only thing worked out here is where on the paper it goes.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, BinaryIO, NamedTuple

import numpy as np

from aimcalc.geometry.vectors import Array
from aimcalc.rig.answers import Answer, Finding
from aimcalc.scene.model import Pipe
from aimcalc.sheets import marks, words
from aimcalc.sheets.drawfiles import write_drawings
from aimcalc.sheets.drawing import Dash, Drawing, Line, Shape, Words, text_width
from aimcalc.sheets.facts import drop_and_face, revision_words
from aimcalc.sheets.paper import PaperOptions
from aimcalc.sheets.plancanvas import Canvas
from aimcalc.sheets.plandraw import Drawn, draw_inside, some
from aimcalc.sheets.planpage import (
    EDGE,
    Frame,
    Notes,
    fit_view,
    footer_row,
    frame_of,
    new_page,
    paper_mm,
)

if TYPE_CHECKING:
    from aimcalc.rig.solve import Rig

MOST_UNITS = 48  # of one system on a page
MOST_LOOSE = 12  # units of no system on a page
SPILL = 0.1  # how far pools and landings may widen the drawing, of what it must show
BORDER = 0.03  # white round what is shown, of its size


class System(NamedTuple):
    """One system: its name and the indices of its units in hang order."""

    name: str
    units: list[int]


class Look(NamedTuple):
    """What kind of plan it is: its name, what it tells, what its lines are, and what draws a unit's light.

    Without `light` the pools at the face are drawn.
    """

    sheet: str
    told: str
    lines: tuple[tuple[str, float, Dash], ...]
    light: Callable[[Canvas, int], None] | None = None


POOLS = Look(
    "pool plan",
    "Seen from above. Field and beam are cut at the face; LANDS is where the axis meets the deck.",
    (("field", 1.0, "solid"), ("beam", 0.75, "dashed")),
)


def pool_plan(
    rig: Rig,
    findings: Sequence[Finding],
    pdf: BinaryIO,
    png: BinaryIO,
    options: PaperOptions,
) -> int:
    """Number of pages of the pool plan: a page a system in `pdf`, all in one picture in `png`."""
    return write_drawings(rig, POOLS.sheet, draw_plan(rig, options), pdf, png)


def draw_plan(rig: Rig, options: PaperOptions, look: Look = POOLS) -> list[Drawing]:
    """One drawing per system, in hang order of their first units; an empty stage when there is none."""
    answers = rig.answers()
    systems = systems_of(rig) or [System("no units", [])]
    extents = [_extent(rig, answers, system.units) for system in systems]
    landscape = _lies_better(extents, options)
    pages = []
    for k, (system, extent) in enumerate(zip(systems, extents, strict=True), 1):
        width, height = paper_mm(options, landscape)
        view = fit_view(*extent, frame_of(width, height), options.length)
        drawn = draw_inside(rig, answers, system.units, view, options, look.light)
        notes = _notes(rig, system, drawn, f"page {k} of {len(systems)}", options, look)
        page = new_page(options, width, height, view, notes)
        page.add(drawn)
        _legend(page, drawn, footer_row(width, 1), look)
        pages.append(page)
    return pages


def systems_of(rig: Rig) -> list[System]:
    """Every system with its units, in hang order of their first ones, then the units of none.

    Those of no system do no one job together: they go by position, few to a page.
    """
    found: dict[str, list[int]] = {}
    for k, unit in enumerate(rig.units):
        if unit.system is not None:
            found.setdefault(unit.system, []).append(k)
    whole = [System(name, units) for name, units in found.items()]
    return [part for system in whole for part in _parts(system)] + _loose(rig)


def _parts(system: System) -> list[System]:
    """A system of more units than a page can show, in parts."""
    name, units = system
    chunks = [units[k : k + MOST_UNITS] for k in range(0, len(units), MOST_UNITS)]
    if len(chunks) == 1:
        return [system]
    return [System(f"{name}, part {n} of {len(chunks)}", c) for n, c in enumerate(chunks, 1)]


def _loose(rig: Rig) -> list[System]:
    pages: list[tuple[list[str], list[int]]] = []
    for name, row in rig.rows.items():
        units = [k for k in row if rig.units[k].system is None]
        if not units:
            continue
        if not pages or len(pages[-1][1]) + len(units) > MOST_LOOSE:
            pages.append(([], []))
        pages[-1][0].append(name)
        pages[-1][1].extend(units)
    loose = [System(f"no system: {some(names)}", units) for names, units in pages]
    return [part for system in loose for part in _parts(system)]


class Extent(NamedTuple):
    """The piece of the plan to show (metres), and the piece that would be good to show too."""

    must: Frame
    wish: Frame


def _extent(rig: Rig, answers: list[Answer], units: list[int]) -> Extent:
    """Stage, units and marks must be seen, landings too if they are near; pools if there is room."""
    here = [answers[k] for k in units]
    points = [*rig.scene.stage.outline, *rig.scene.stage.acting]
    points += [p[:2] for a in here for p in (a.pivot, a.face)]
    core = _around(np.array(points or [(-3.0, -3.0), (3.0, 3.0)], dtype=float))
    size = np.maximum(core[1] - core[0], 2.0)
    near = np.array([core[0] - SPILL * size, core[1] + SPILL * size])
    landings = [a.lands[:2] for a in here if a.lands is not None]
    wanted = np.array([*landings, *_pipe_ends(rig, here)]).reshape(-1, 2)
    must = _around(np.concatenate([core, np.clip(wanted, *near)]))
    must += np.array([-BORDER * size, BORDER * size])
    wish = _around(np.concatenate([must, wanted, _closed_pools(here)]))
    return Extent(_frame(must), _frame(wish))


def _pipe_ends(rig: Rig, here: list[Answer]) -> list[tuple[float, float]]:
    used = [rig.scene.positions[name] for name in dict.fromkeys(a.position for a in here)]
    return [end[:2] for pipe in used if isinstance(pipe, Pipe) for end in (pipe.start, pipe.end)]


def _around(points: Array) -> Array:
    """Low and high corner of points, (2, 2)."""
    return np.array([points.min(axis=0), points.max(axis=0)])


def _frame(corners: Array) -> Frame:
    (x0, y0), (x1, y1) = corners.tolist()
    return x0, y0, x1, y1


def _closed_pools(here: list[Answer]) -> Array:
    """Corners of squares that hold the closed pools, (n, 2)."""
    points = []
    for pool in [a.face_pool for a in here]:
        if pool is not None and pool.centre is not None:
            half = max(pool.length or 0.0, pool.width or 0.0) / 2
            x, y, _ = pool.centre
            points += [(x - half, y - half), (x + half, y + half)]
    return np.array(points, dtype=float).reshape(-1, 2)


def _lies_better(extents: list[Extent], options: PaperOptions) -> bool:
    """True where the paper lying on its long side gives the larger drawings."""
    scales = []
    for landscape in (False, True):
        frame = frame_of(*paper_mm(options, landscape))
        scales.append(sum(fit_view(*extent, frame, options.length).scale for extent in extents))
    return scales[1] < scales[0]


def _notes(
    rig: Rig,
    system: System,
    drawn: Drawn,
    number: str,
    options: PaperOptions,
    look: Look,
) -> Notes:
    count = words.count(len(system.units), "unit")
    used = drop_and_face(rig, system.units, options.length)
    facts = [", ".join([revision_words(rig), count, *used]), look.told]
    left_out = [f"No room for {some(drawn.left_out)}."] if drawn.left_out else []
    foot = " ".join([*drawn.remarks, *left_out])
    return Notes(system.name, f"{rig.scene.settings.title}: {look.sheet}", facts, foot, number)


def _legend(page: Drawing, drawn: Drawn, y: float, look: Look) -> None:
    """What the lines and marks mean, in one row with its base line at `y`."""
    middle, x = y + 1.3, EDGE
    run = np.array([(0.0, 0.0), (10.0, 0.0)])
    samples: list[tuple[str, list[Line], list[Shape], float]] = [
        *((name, [Line(run, weight, dash)], [], 10.0) for name, weight, dash in look.lines),
        ("STAND", [Line(stroke, 1.5) for stroke in marks.cross(1.7, 0.0)], [], 3.4),
        ("LANDS", [], [Shape(marks.circle(1.0, 0.0, marks.DOT), 0.75, "black")], 2.0),
    ]
    if drawn.has_points:
        ring = Shape(marks.circle(1.0, 0.0, marks.DOT), 1.0)
        samples.append(("POINT", [], [ring], 2.0))
    for family in drawn.families:
        symbol = marks.unit_symbol(family, 3.0, 0.0, 90.0, 6.0)
        strokes = [Shape(stroke, 0.75, "none") for stroke in symbol.strokes]
        samples.append((marks.FAMILIES[family], [], [Shape(symbol.outline, 1.0), *strokes], 6.0))
    taken = sum(width + 1.5 + text_width(text, 10.0) for text, _, _, width in samples)
    gap = min(5.0, (page.width - 2 * EDGE - taken) / len(samples))
    for text, lines, shapes, width in samples:
        here = np.array([x, middle])
        page.lines += [line._replace(points=line.points + here) for line in lines]
        page.shapes += [shape._replace(points=shape.points + here) for shape in shapes]
        page.words.append(Words(x + width + 1.5, y, text, 10.0))
        x += width + 1.5 + text_width(text, 10.0) + gap
