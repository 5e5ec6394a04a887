"""What is drawn inside the frame of a gap map: stage, holes, lines of equal light, counts, STAND marks."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.vectors import Array
from aimcalc.named import NamedTuple
from aimcalc.paper import marks
from aimcalc.paper.drawing import Line, Shape, Words, text_width
from aimcalc.paper.labels import Wish
from aimcalc.paper.marks import cross_hatch, flags_of, outline_lines, row_boxes
from aimcalc.paper.plancanvas import TEXT, Canvas, Label, along, label_size
from aimcalc.sheets.plans.plandraw import stage_lines, stand_marks
from aimcalc.text import words
from aimcalc.text.light import cover_lists as lw

if TYPE_CHECKING:
    from aimcalc.coverage.study import Study
    from aimcalc.coverage.systems import SystemLight
    from aimcalc.light.evenness import Gap
    from aimcalc.paper.planpage import View
    from aimcalc.text.words import LengthUnit


BIG = 14.0  # pt, holes and counts
HATCH = 1.6  # mm from hatch line to hatch line
EDGE = 1.8  # pt, round a hole
TIE = 1.25  # pt, from a hole's centre to what is said of it
STEPS = 5  # lines of equal light, about
SHORTEST = 8.0  # mm: a line of equal light that is shorter is left out
BARE = 40.0  # mm: a line that has no room for its value is drawn only when longer
VALUES_APART = 110.0  # mm along a line from value to value, about
COUNTS_APART = 16.0  # mm between counts, at least
COUNT_STEPS = {"m": (0.5, 1, 2, 3, 5, 10, 20, 50), "ft": (2, 3, 4, 6, 10, 15, 30, 60, 150)}
FOOT = 0.3048
NUDGES = ((0, 0), (3, 0), (-3, 0), (0, 3), (0, -3), (3, 3), (-3, -3))  # mm
BESIDE = 2.5  # mm of white beside what is said of a hole


def draw_light(study: Study, system: SystemLight, view: View, unit: LengthUnit) -> Canvas:
    """The inside of one system's page."""
    inside = Canvas(view)
    stage_lines(inside, study.rig)
    answers = study.rig.answers
    stand_marks(inside, study.rig, [answers[k] for k in system.units.tolist()])
    names, inside.labels = inside.labels, []
    if system.known:
        _holes(inside, study, system, unit)
    lines = _contours(inside, study, system) if system.known else []
    inside.room.draw_lines([line.page for line in lines])
    inside.labels = names
    inside.place_labels()
    _counts(inside, study, system, unit)
    for line in lines:
        valued = inside.on_line(line.page, line.value, apart=VALUES_APART)
        if valued or line.along[-1] >= BARE:
            inside.line(line.points, 0.75)
    return inside


def contour_levels(least: float, most: float) -> list[float]:
    """Round values (1, 2 or 5 times a power of ten apart) above `least` and below `most`."""
    if not most > least:
        return []
    rough = most / STEPS
    power = 10.0 ** np.floor(np.log10(rough))
    step = next(k * power for k in (1, 2, 5, 10) if k * power >= rough * 0.999)
    return [k * step for k in range(1, int(most / step) + 1) if least < k * step < most]


def _hatched(inside: Canvas, study: Study, gap: Gap) -> None:
    """A hole: cross-hatched black with a heavy edge, kept free of labels."""
    grid = study.plane.grid
    sheet = flags_of(grid, gap.cells)
    for line in cross_hatch(grid, sheet, HATCH * inside.view.scale / 1000):
        inside.line(line, 0.75)
    for line in outline_lines(grid, sheet):
        inside.line(line, EDGE)
    for x0, y0, x1, y1 in row_boxes(grid, sheet):
        inside.room.block(*inside.view.at(x0, y0), *inside.view.at(x1, y1))


def _holes(inside: Canvas, study: Study, system: SystemLight, unit: LengthUnit) -> None:
    """All holes, and beside each its number, size and centre, away from the middle of the area."""
    for gap in system.gaps:
        _hatched(inside, study, gap)
    spots = np.array([inside.view.at(*gap.centre) for gap in system.gaps]).reshape(-1, 2)
    x, y = study.plane.grid.plan()
    middle = inside.view.at(float(x.mean()), float(y.mean()))
    for k, gap in enumerate(system.gaps):
        rows = (f"hole {k + 1}  {lw.area(gap.area, unit)}", *_centre(gap, unit))
        half = 500 / inside.view.scale * min(gap.box[2] - gap.box[0], gap.box[3] - gap.box[1])
        away = float(np.arctan2(*(spots[k] - middle)[::-1]))
        spot = spots[k].tolist()
        wish = Wish(
            spot[0],
            spot[1],
            width=0.0,
            height=0.0,
            clear=half + 0.6,
            toward=away,
            rivals=np.delete(spots, k, axis=0),
        )
        if not any(_told(inside, some, wish) for some in (rows, rows[:1], (f"hole {k + 1}",))):
            inside.left_out.append(rows[0])


def _told(inside: Canvas, rows: tuple[str, ...], wish: Wish) -> bool:
    """Put rows beside a hole and tie them to its centre; False where there is no room."""
    width, height = label_size(rows, BIG, True)
    sized = wish._replace(width=width + BESIDE, height=height)
    before, lines = len(inside.left_out), len(inside.lines)
    inside.labels = [Label(rows, BIG, True, (sized,))]
    inside.place_labels()
    inside.labels = []
    if len(inside.left_out) > before:
        inside.left_out.pop()
        return False
    del inside.lines[lines:]  # the tie below stands for a leader
    box = inside.shapes[-1].points
    spot = np.array([wish.x, wish.y])
    end = np.clip(spot, box.min(axis=0), box.max(axis=0))
    inside.lines.append(Line(np.array([spot, end]), TIE))
    inside.shapes.append(Shape(marks.circle(wish.x, wish.y, marks.DOT), 1.0, "white"))
    for part in np.linspace(0.0, 1.0, 2 + int(np.hypot(*(end - spot)))):
        bead = (spot + part * (end - spot)).tolist()
        inside.block(bead[0], bead[1], 0.5)
    return True


def _centre(gap: Gap, unit: LengthUnit) -> tuple[str, str]:
    return f"at {words.across(gap.centre[0], unit)}", f"and {words.upstage(gap.centre[1], unit)}"


class _Contour(NamedTuple):
    """A line of equal light: plan points (n, 2), on paper, the distance along it there, its value."""

    points: Array
    page: Array
    along: Array
    value: str


def _contours(inside: Canvas, study: Study, system: SystemLight) -> list[_Contour]:
    """Lines of equal light; none in holes, for those are below the threshold."""
    import contourpy

    grid = study.plane.grid
    if min(grid.inside.shape) < 2:  # one row of points has no lines across it
        return []
    raster = np.ma.masked_invalid(grid.raster(system.level))
    lines = contourpy.contour_generator(grid.x, grid.y, raster)
    found = []
    for level in contour_levels(system.below, system.figures.most):
        for run in lines.lines(level):
            points = np.asarray(run, np.float64)
            page = inside.view.to_page(points)
            found.append(_Contour(points, page, along(page), lw.lux(level)))
    return [line for line in found if line.along[-1] >= SHORTEST]


def _counts(inside: Canvas, study: Study, system: SystemLight, unit: LengthUnit) -> None:
    """How many units' fields each point of a coarse grid lies in, as figures at those very points."""
    grid = study.plane.grid
    counts = grid.raster(system.counts)
    for x, y in _count_spots(inside.view, unit):
        for dx, dy in NUDGES:
            per_mm = inside.view.scale / 1000
            column = round((x + dx * per_mm - grid.x[0]) / grid.dx)
            row = round((y + dy * per_mm - grid.y[0]) / grid.dy)
            if not (0 <= column < grid.x.size and 0 <= row < grid.y.size):
                continue
            if not grid.inside[row, column]:
                continue
            at = inside.view.to_page(np.array([(grid.x[column], grid.y[row])]))
            if inside.put(at, f"{counts[row, column]:.0f}", BIG, bold=True):
                break


def _count_spots(view: View, unit: LengthUnit) -> Iterator[tuple[float, float]]:
    """Plan points of the coarse grid: off the centre line by half a step, so that its ticks stay free."""
    metre = 1.0 if unit == "m" else FOOT
    least = COUNTS_APART * view.scale / 1000
    step = next((s * metre for s in COUNT_STEPS[unit] if s * metre >= least), least)
    x0, y0, x1, y1 = view.reach
    for row in range(int(np.floor(y0 / step)), int(y1 / step) + 1):
        for column in range(int(np.floor(x0 / step)), int(x1 / step) + 1):
            yield (column + 0.5) * step, (row + 0.5) * step


def legend(x: float, y: float, below: str) -> tuple[list[Line], list[Shape], list[Words]]:
    """What hatching, lines, figures and crosses mean, in one row from `x`, base line at `y`."""
    lines: list[Line] = []
    said: list[Words] = []
    box = np.array([(x, y - 0.6), (x + 7, y - 0.6), (x + 7, y + 3.2), (x, y + 3.2)])
    shape = Shape(box, EDGE, "none")
    for k in range(1, 6):
        for a, b in (((k - 2) * 2.0, 1), ((k - 0) * 2.0, -1)):
            ends = np.array([(x + a, y - 0.6), (x + a + b * 3.8, y + 3.2)])
            lines += [
                Line(run.points, 0.75) for run in marks.inside(ends, (x, y - 0.6, x + 7, y + 3.2))
            ]
    for text, sample in (
        (f"hole: {below}", None),
        ("equal light", Line(np.array([(0.0, 0.0), (8.0, 0.0)]), 0.75)),
        ("2  units over the point", None),
        ("STAND", None),
    ):
        if sample is not None:
            lines.append(sample._replace(points=sample.points + np.array([x, y + 1.3])))
            x += 9.5
        elif text == "STAND":
            lines += [Line(stroke, 1.5) for stroke in marks.cross(x + 1.7, y + 1.3)]
            x += 5.0
        elif text.startswith("hole"):
            x += 8.5
        said.append(Words(x, y, text, TEXT))
        x += text_width(text, TEXT) + 5
    return lines, [shape], said
