"""The pool plan: where every unit of one system hangs, points and lands, drawn to scale, a page each.

It draws what the rig was solved to; the only thing worked out here is where on the paper it goes.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from math import ceil
from typing import TYPE_CHECKING, BinaryIO

import numpy as np

from aimcalc.geometry.vectors import Array
from aimcalc.named import NamedTuple
from aimcalc.paper import marks
from aimcalc.paper.drawing import Dash, Drawing, Line, Shape, Words, text_width
from aimcalc.paper.drawpdf import Book, write_drawings
from aimcalc.paper.plancanvas import Canvas
from aimcalc.paper.planpage import (
    EDGE,
    RULER,
    SIDE,
    Frame,
    Notes,
    View,
    fit_view,
    footer_row,
    frame_of,
    from_above,
    new_page,
    paper_mm,
)
from aimcalc.rig.places import tubes_of
from aimcalc.scene.model import Pipe
from aimcalc.sheets.plans.boom_view import booms_of, draw_booms
from aimcalc.sheets.plans.plandraw import ON, ON_UPRIGHT, Drawn, codes_of, draw_inside
from aimcalc.sheets.plans.rims import level_rims
from aimcalc.solid.answers import Answer
from aimcalc.solid.light_fall import light_an_upright
from aimcalc.text import words
from aimcalc.text.facts import drop_and_face, revision_words
from aimcalc.text.names import short
from aimcalc.text.stamp import PaperOptions

if TYPE_CHECKING:
    from aimcalc.show import Show
    from aimcalc.solid.rig import SolidRig


MOST_UNITS = 48  # of one system on a page
LEAST_UNITS = (
    8  # of one system on a page: what finds no room among so few is not short of it for them
)
MOST_BOOMS = 3  # on a page
MOST_STACKED = 2  # booms over one another beside the plan
BOOM_TALL, BOOM_WIDE = 62.0, 64.0  # mm that booms take under a plan or beside it
MOST_LOOSE = 8  # units of no system on a page
SPILL = 0.1  # how far landings may widen the drawing, of what it must show
REACH = 0.75  # how far pools may, each way: one that goes further ends in arrows
LEGEND_GAP = 2.5  # mm, least, between entries of the legend
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
    light: Callable[[Canvas, int], list[Array]] | None = None
    most: int = MOST_UNITS  # of one system on a page


POOLS = Look(
    "pool plan",
    "Seen from above. Field and beam are cut at the face. The axis stops at LANDS, or ON something upright.",
    (("field", 1.0, "solid"), ("beam", 0.75, "dashed")),
)


def pool_plan(
    show: Show,
    pdf: BinaryIO | Book,
    png: BinaryIO | None,
    options: PaperOptions,
) -> int:
    """Number of pages of the pool plan: a page a system in `pdf`, all in one picture in `png`."""
    rig = show.rig
    return write_drawings(rig, POOLS.sheet, draw_plan(rig, options), options, pdf, png)


def draw_plan(rig: SolidRig, options: PaperOptions, look: Look = POOLS) -> list[Drawing]:
    """One drawing per system, in hang order of their first units; an empty stage when there is none.

    A system is continued on the next page where one has no room for the labels of all its units.
    """
    parts = _all_parts(rig, look.most) or [System("no units", [])]
    extents = [_extent(rig, part.units, look) for part in parts]
    booms = [booms_of(rig, part.units) for part in parts]
    paper = paper_mm(options, _lies_better(extents, booms, options))
    most: dict[str, int] = {}  # units of a system that were found to fit on a page
    pages = [page for part in parts for page in _fitting(rig, part, paper, options, look, most)]
    systems = _numbered([page.system for page in pages])
    finished = []
    for k, (system, page) in enumerate(zip(systems, pages, strict=True), 1):
        number = options.numbered(k, len(pages))
        notes = _notes(rig, system, page.drawn, number, options, look)
        drawing = new_page(options, *paper, page.view, notes, from_above(rig.scene))
        drawing.add(page.drawn)
        codes = codes_of(rig, system.units)
        draw_booms(drawing, rig, rig.answers, codes, page.boxes, options.length)
        _legend(drawing, page.drawn, footer_row(paper[0], 1), look)
        finished.append(drawing)
    return finished


class Page(NamedTuple):
    """What a page shows: some units of a system, in `view`, and where beside it booms are shown."""

    system: System
    view: View
    drawn: Drawn
    boxes: dict[str, Frame]


def _fitting(
    rig: SolidRig,
    part: System,
    paper: tuple[float, float],
    options: PaperOptions,
    look: Look,
    most: dict[str, int],
) -> Iterator[Page]:
    """The pages of some units of a system: as many as it takes for every unit's label to find room.

    No page is made for fewer than `LEAST_UNITS` for want of room; what finds none there is named on it.

    `most` remembers by system how many units a page was found to hold.
    """
    name, rest = part
    while True:
        units = _parts(rig, System(name, rest), most.get(name, look.most))[0].units
        frame, boxes = _beside(*paper, booms_of(rig, units))
        view = fit_view(*_extent(rig, units, look), frame, options.length)
        many = len(units) > LEAST_UNITS
        drawn = draw_inside(rig, rig.answers, units, view, options, look.light, or_none=many)
        if many and drawn.full_at is not None:
            most[name] = max(units.index(drawn.full_at), LEAST_UNITS)
            continue
        yield Page(System(name, units), view, drawn, boxes)
        rest = rest[len(units) :]
        if not rest:
            return


def _beside(width: float, height: float, booms: list[str]) -> tuple[Frame, dict[str, Frame]]:
    """The plan's frame, and where beside it booms are shown from the side.

    Under it, next to one another, on paper that stands; next to it, over one another, on paper that lies.
    """
    left, bottom, right, top = frame_of(width, height)
    if not booms:
        return (left, bottom, right, top), {}
    if width > height:
        right -= BOOM_WIDE
        tall = (top - bottom) / len(booms)
        corner = right + SIDE + 3.0
        boxes = [
            (corner, top - (n + 1) * tall + 2.0, width - EDGE, top - n * tall)
            for n in range(len(booms))
        ]
    else:
        foot = footer_row(width, 2)
        bottom += BOOM_TALL
        wide = (width - 2 * EDGE) / len(booms)
        boxes = [
            (EDGE + n * wide, foot, EDGE + (n + 1) * wide - 3.0, bottom - RULER - 1.5)
            for n in range(len(booms))
        ]
    return (left, bottom, right, top), dict(zip(booms, boxes, strict=True))


def systems_of(rig: SolidRig, most: int = MOST_UNITS) -> list[System]:
    """Every system with its units, in hang order of their first ones, then the units of none.

    A system of more than `most` units comes in parts.
    Those of no system do no one job together: they go by position, few to a page.
    """
    return _numbered(_all_parts(rig, most))


def _all_parts(rig: SolidRig, most: int) -> list[System]:
    """The same, all parts of a system by its own name."""
    found: dict[str, list[int]] = {}
    for k, unit in enumerate(rig.units):
        if unit.system is not None:
            found.setdefault(unit.system, []).append(k)
    whole = [System(name, units) for name, units in found.items()]
    return [part for system in whole for part in _parts(rig, system, most)] + _loose(rig, most)


def _numbered(parts: Sequence[System]) -> list[System]:
    """The parts with "part 1 of 3" in the name of those whose system has several."""
    every, so_far = Counter(part.name for part in parts), Counter[str]()
    named = []
    for name, units in parts:
        so_far[name] += 1
        part = f", part {so_far[name]} of {every[name]}" if every[name] > 1 else ""
        named.append(System(f"{name}{part}", units))
    return named


def _parts(rig: SolidRig, system: System, most: int) -> list[System]:
    """A system of more units or booms than a page can show, in parts."""
    name, units = system
    even = ceil(len(units) / max(1, ceil(len(units) / most)))
    chunks: list[list[int]] = [[]]
    for k in units:
        more = [*chunks[-1], k]
        if len(more) > even or len(booms_of(rig, more)) > MOST_BOOMS:
            chunks.append([k])
        else:
            chunks[-1] = more
    return [System(name, chunk) for chunk in chunks]


def _loose(rig: SolidRig, most: int) -> list[System]:
    pages: list[tuple[list[str], list[int]]] = []
    for name, row in rig.rows.items():
        units = [k for k in row if rig.units[k].system is None]
        if not units:
            continue
        if not pages or len(pages[-1][1]) + len(units) > min(most, MOST_LOOSE):
            pages.append(([], []))
        pages[-1][0].append(short(rig, name))
        pages[-1][1].extend(units)
    loose = [System(f"no system: {words.some(names)}", units) for names, units in pages]
    return [part for system in loose for part in _parts(rig, system, most)]


class Extent(NamedTuple):
    """The piece of the plan to show (metres), and the piece that would be good to show too."""

    must: Frame
    wish: Frame


def _extent(rig: SolidRig, units: list[int], look: Look) -> Extent:
    """Stage, units and marks must be seen, and pools that close within reach; landings if there is room."""
    here = [rig.answers[k] for k in units]
    points = [*rig.scene.stage.outline, *rig.scene.stage.acting]
    points += [p[:2] for a in here for p in (a.pivot, a.face)]
    core = _around(np.array(points or [(-3.0, -3.0), (3.0, 3.0)], dtype=float))
    size = np.maximum(core[1] - core[0], 2.0)
    near = np.array([core[0] - SPILL * size, core[1] + SPILL * size])
    stops = [a.meets.point[:2] for a in here if a.meets is not None]
    wanted = np.array([*stops, *_pipe_ends(rig, here)]).reshape(-1, 2)
    reach = np.array([core[0] - REACH * size, core[1] + REACH * size])
    pools = _closed_pools(rig, units, reach) if look.light is None else np.zeros((0, 2))
    must = _around(np.concatenate([core, np.clip(wanted, *near), pools]))
    must += np.array([-BORDER * size, BORDER * size])
    wish = _around(np.concatenate([must, wanted]))
    return Extent(_frame(must), _frame(wish))


def _pipe_ends(rig: SolidRig, here: list[Answer]) -> list[tuple[float, float]]:
    used = [rig.scene.positions[name] for name in dict.fromkeys(a.position for a in here)]
    lines = [line for pipe in used if isinstance(pipe, Pipe) for _, line in tubes_of(pipe)]
    return [(x, y) for line in lines for x, y, _ in line.T.tolist()]


def _around(points: Array) -> Array:
    """Low and high corner of points, (2, 2)."""
    return np.array([points.min(axis=0), points.max(axis=0)])


def _frame(corners: Array) -> Frame:
    (x0, y0), (x1, y1) = corners.tolist()
    return x0, y0, x1, y1


def _closed_pools(rig: SolidRig, units: list[int], reach: Array) -> Array:
    """Points of the pools that close within `reach` (low and high corner), (n, 2)."""
    found = [np.zeros((0, 2))]
    upright = light_an_upright(rig)
    pools = [pool for k in units if not upright[k] for pool in level_rims(rig, k) if pool.closed]
    found += [p.rim for p in pools if ((p.rim > reach[0]) & (p.rim < reach[1])).all()]
    return np.concatenate(found)


def _lies_better(extents: list[Extent], booms: list[list[str]], options: PaperOptions) -> bool:
    """True where the paper lying on its long side gives the larger drawings."""
    if max(map(len, booms)) > MOST_STACKED:
        return False
    scales = []
    for landscape in (False, True):
        frames = [_beside(*paper_mm(options, landscape), names)[0] for names in booms]
        views = zip(extents, frames, strict=True)
        scales.append(sum(fit_view(*extent, f, options.length).scale for extent, f in views))
    return scales[1] < scales[0]


def _notes(
    rig: SolidRig,
    system: System,
    drawn: Drawn,
    number: str,
    options: PaperOptions,
    look: Look,
) -> Notes:
    count = words.count(len(system.units), "unit")
    used = drop_and_face(rig, system.units, options.length)
    facts = [", ".join([revision_words(rig), count, *used]), look.told]
    left_out = [f"No room for {words.some(drawn.left_out)}."] if drawn.left_out else []
    foot = " ".join([*drawn.remarks, *left_out])
    return Notes(system.name, f"{rig.scene.settings.title}: {look.sheet}", facts, foot, number)


def _legend(page: Drawing, drawn: Drawn, y: float, look: Look) -> None:
    """What the lines and marks mean, in one row with its base line at `y`."""
    middle, x = y + 1.3, EDGE
    for size, run in ((10.0, 10.0), (10.0, 7.0), (9.0, 6.0)):
        samples = _samples(drawn, look, run)
        taken = sum(width + 1.5 + text_width(text, size) for text, _, _, width in samples)
        gap = min(5.0, (page.width - 2 * EDGE - taken) / len(samples))
        if gap >= LEGEND_GAP:
            break
    for text, lines, shapes, width in samples:
        here = np.array([x, middle])
        page.lines += [line._replace(points=line.points + here) for line in lines]
        page.shapes += [shape._replace(points=shape.points + here) for shape in shapes]
        page.words.append(Words(x + width + 1.5, y, text, size))
        x += width + 1.5 + text_width(text, size) + gap


def _samples(
    drawn: Drawn, look: Look, long: float
) -> list[tuple[str, list[Line], list[Shape], float]]:
    """Words, what they explain from (0, 0) on, and its width, mm; lines `long` mm."""
    run = np.array([(0.0, 0.0), (long, 0.0)])
    samples: list[tuple[str, list[Line], list[Shape], float]] = [
        *((name, [Line(run, weight, dash)], [], long) for name, weight, dash in look.lines),
        ("STAND", [Line(stroke, 1.5) for stroke in marks.cross(1.7, 0.0)], [], 3.4),
        ("LANDS", [], [Shape(marks.circle(1.0, 0.0, marks.DOT), 0.75, "black")], 2.0),
    ]
    if drawn.has_uprights:
        samples.append(("ON", [], [Shape(marks.square(1.0, 0.0, ON), 0.75, "black")], 2.0))
    if drawn.has_traces:
        samples.insert(2, ("on an upright", [Line(run, ON_UPRIGHT)], [], long))
    if drawn.has_points:
        ring = Shape(marks.circle(1.0, 0.0, marks.DOT), 1.0)
        samples.append(("POINT", [], [ring], 2.0))
    for family in drawn.families:
        symbol = marks.unit_symbol(family, 3.0, 0.0, 90.0, 6.0)
        strokes = [Shape(stroke, 0.75, "none") for stroke in symbol.strokes]
        samples.append((marks.FAMILIES[family], [], [Shape(symbol.outline, 1.0), *strokes], 6.0))
    return samples
