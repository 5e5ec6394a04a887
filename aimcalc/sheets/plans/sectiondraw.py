"""What a section shows inside its frame: deck, scenery cut, pipes, units, beams, faces, lines of sight."""

from __future__ import annotations

from collections.abc import Sequence
from math import atan2
from typing import TYPE_CHECKING

import numpy as np
from msgspec.structs import replace

from aimcalc.geometry.deck import bare_height, height
from aimcalc.geometry.polygon import hull
from aimcalc.geometry.vectors import Array, to_degrees
from aimcalc.named import NamedTuple
from aimcalc.paper import marks
from aimcalc.paper.drawing import (
    CAPITAL,
    PT,
    Drawing,
    Line,
    Shape,
    Words,
    shrink_to_fit,
    text_width,
)
from aimcalc.paper.page import PAPERS
from aimcalc.paper.plancanvas import Canvas
from aimcalc.paper.planpage import ROW, Frame, View, fit_view, footer_row, frame_of
from aimcalc.rig.places import TUBE_RADIUS, tubes_of
from aimcalc.solid.side_view import Beams, Plane, body_corners, crossings, cut_solids, front_row_of
from aimcalc.text import words
from aimcalc.text.names import short, short_number
from aimcalc.text.stamp import PaperOptions
from aimcalc.text.words import LengthUnit

if TYPE_CHECKING:
    from aimcalc.scene.model import Pipe, PlanPoint
    from aimcalc.solid.rig import SolidRig


BIG = 12.0  # pt
DOT = 0.8  # mm, the least radius of a pipe
EYE = 1.0  # mm
ARC = 9.0  # mm, radius of the arc of an angle
ARC_POINTS = 17
CLEAR_OF_LENS = 6.0  # mm from a lens to the words on its axis
PAD = 0.6  # mm of white round them
STEPS = 240  # points of a line that follows the deck
HANGS = 2.0  # m over the deck: what is cut above it hangs, and hides what is above it
LEFT, UP, DOWN = np.pi, np.pi / 2, -np.pi / 2


class Hanging(NamedTuple):
    """A solid that hangs: its name, how far along the plane it is, its lower edge."""

    name: str
    far: float
    low: float


def deck(inside: Canvas, rig: SolidRig, plane: Plane) -> None:
    """The deck, thick, from one end of the stage's outline to the other."""
    reach = across(rig.scene.stage.outline, plane)
    if reach is None:
        return
    far, plan = _along(plane, reach)
    inside.line(np.stack((far, bare_height(rig.deck, plan[1])), axis=1), 2.0)


def across(outline: Sequence[PlanPoint], plane: Plane) -> tuple[float, float] | None:
    """Where the plane enters and leaves a plan polygon, as distances along it; None if it does not."""
    if not outline:
        return None
    corners = np.array(outline, dtype=float).T
    off = plane.along[1] * (corners[0] - plane.origin[0])
    off -= plane.along[0] * (corners[1] - plane.origin[1])
    far = plane.along[:2] @ (corners - plane.origin[:2, None])
    after, there = np.roll(off, -1), np.roll(far, -1)
    crossed = (off < 0) != (after < 0)
    share = off[crossed] / (off - after)[crossed]
    at = far[crossed] + share * (there - far)[crossed]
    return (float(at.min()), float(at.max())) if at.size else None


def _along(plane: Plane, reach: tuple[float, float]) -> tuple[Array, Array]:
    """Distances along the plane, and the plan points there (2, STEPS)."""
    far = np.linspace(*reach, STEPS)
    return far, plane.origin[:2, None] + plane.along[:2, None] * far


def scenery(inside: Canvas, rig: SolidRig, plane: Plane) -> list[Hanging]:
    """What the plane cuts of the solids, by name; those that hang come back, nearest the house first."""
    hanging = []
    for name, lines in cut_solids(rig, plane):
        for k in range(lines.shape[2]):
            inside.line(lines[:, :, k].T, 1.5)
        low, top, far = float(lines[1].min()), float(lines[1].max()), float(lines[0].mean())
        mark, toward = min(top, inside.view.reach[3]), UP
        if low > HANGS:
            hanging.append(Hanging(name, far, low))
            mark, toward = low, DOWN
        if inside.view.holds(far, mark):
            at = inside.view.at(far, mark)
            inside.label(short(rig, name), at=[at], clear=0.6, toward=[toward])
    return sorted(hanging, key=lambda h: h.far)


def faces(inside: Canvas, rig: SolidRig, plane: Plane, unit: LengthUnit) -> None:
    """The line of the faces over the acting area, platforms and rake included."""
    reach = across(rig.scene.stage.acting, plane)
    if reach is None:
        return
    far, plan = _along(plane, reach)
    up = rig.scene.settings.face_height
    z = height(rig.deck, plan[0], plan[1]) + up
    inside.line(np.stack((far, z), axis=1), 0.75, "dotted")
    last = (
        int(np.flatnonzero(far <= inside.view.reach[2])[-1])
        if far[0] <= inside.view.reach[2]
        else 0
    )
    at = inside.view.at(float(far[last]), float(z[last]))
    text = f"face {words.length(up, unit, words.SIZE)}"
    inside.label(text, at=[at], clear=0.6, toward=[UP])


def pipes(inside: Canvas, rig: SolidRig, plane: Plane, shown: Beams) -> list[tuple[str, Array]]:
    """A dot for each pipe that passes through the plane; their names and places come back.

    A pipe beside the plane is drawn as it lies where one of its units is shown.
    """
    found = []
    used = {rig.units[k].position for k in shown.unit.tolist()}
    for pipe in rig.scene.pipes:
        every = crossings(pipe, plane)
        if not every:
            if pipe.name in used:
                _beside(inside, rig, pipe, plane)
            continue
        with inside.of(pipe.name):
            _cut(inside, rig, plane, pipe, every)
        own = crossings(replace(pipe, chords=()), plane)  # a truss's own line, which its trim is of
        found.append((pipe.name, own[0] if own else every[0]))
    return found


def _cut(inside: Canvas, rig: SolidRig, plane: Plane, pipe: Pipe, every: list[Array]) -> None:
    """The dots of a pipe, the plumb line under it, and its name."""
    radius = max(DOT, TUBE_RADIUS * 1000 / inside.view.scale)
    for here in every:
        at = inside.view.at(*plane.seen(here).tolist())
        inside.shapes.append(Shape(marks.circle(*at, radius), 0.75, "black"))
        inside.block(*at, radius)
    top = max(every, key=lambda point: float(point[2]))
    far, z = plane.seen(top).tolist()
    inside.line(np.array([(far, z), (far, inside.view.reach[1])]), 0.75, "dotted")
    name, at = short(rig, pipe.name), inside.view.at(far, z)
    inside.label(name, at=[at], clear=radius + 0.4, toward=[UP], size=BIG, bold=True)


def _beside(inside: Canvas, rig: SolidRig, pipe: Pipe, plane: Plane) -> None:
    """A pipe beside the plane, as a line, its name by its upstage end."""
    lines = [line for _, line in tubes_of(pipe)]
    runs = [run for line in lines for run in inside.line(plane.seen(line).T, 2.0)]
    if runs:
        x, y = max(runs[0].points[[0, -1]].tolist())
        name = short(rig, pipe.name)
        inside.label(name, at=[(x, y)], clear=0.8, toward=[UP], size=BIG, bold=True)


def units(inside: Canvas, rig: SolidRig, plane: Plane, shown: Beams, unit: LengthUnit) -> None:
    """Units in pose with drop and pivot, axes, field edges, and the angle at each face."""
    taken: list[Array] = []
    arcs = [_arc(inside, rig, plane, k) for k in shown.unit.tolist()]
    middles = np.array([arc[len(arc) // 2] for arc in arcs]).reshape(-1, 2)
    for row, k in enumerate(shown.unit.tolist()):
        _beam(inside, rig, plane, shown, row)
        body(inside, rig, plane, k)
        _at_face(inside, rig, plane, k, arcs[row], np.delete(middles, row, axis=0))
        _name_on_axis(inside, rig, plane, k, taken)
        _at_plaster(inside, rig, plane, k, unit)


def _beam(inside: Canvas, rig: SolidRig, plane: Plane, shown: Beams, row: int) -> None:
    """The axis to the face, dashed on to what stops it, and the field's edges."""
    k = int(shown.unit[row])
    lens, face = (plane.seen(p[:, k]) for p in (rig.aims.lens, rig.arrays.point))
    inside.line(np.array([lens, face]), 1.5)
    for end, weight, dash in (
        (shown.axis, 0.75, "dashed"),
        (shown.upper, 0.75, "solid"),
        (shown.lower, 0.75, "solid"),
    ):
        start = face if dash == "dashed" else lens
        inside.line(np.array([start, plane.seen(end[:, row])]), weight, dash)  # type: ignore[arg-type]


def body(inside: Canvas, rig: SolidRig, plane: Plane, k: int) -> None:
    """A unit in pose, from clamp to pivot."""
    view = inside.view
    clamp, pivot = (plane.seen(p[:, k]) for p in (rig.arrays.clamp, rig.aims.pivot))
    corners = body_corners(rig, k)
    if corners.size:
        outline = view.to_page(hull(plane.seen(corners)).T)
        inside.shapes.append(Shape(outline, 1.0))
        inside.room.block(*outline.min(axis=0), *outline.max(axis=0))
    inside.shapes.append(Shape(view.to_page(np.array([clamp, pivot])), 1.5, "none"))
    at = view.at(*pivot.tolist())
    inside.shapes.append(Shape(marks.circle(*at, 0.6), 0.75))
    inside.block(*at, 0.6)


def _arc(inside: Canvas, rig: SolidRig, plane: Plane, k: int) -> Array:
    """The arc on paper from level to a unit's axis, round the point that it is aimed at, (ARC_POINTS, 2)."""
    lens, face = (plane.seen(p[:, k]) for p in (rig.aims.lens, rig.arrays.point))
    at, start = inside.view.at(*face.tolist()), inside.view.at(*lens.tolist())
    turn = atan2(start[1] - at[1], start[0] - at[0])
    level = 0.0 if abs(turn) <= np.pi / 2 else float(np.copysign(np.pi, turn))
    ring = np.linspace(level, turn, ARC_POINTS)
    return np.asarray(at + ARC * np.stack((np.cos(ring), np.sin(ring)), axis=1))


def _at_face(
    inside: Canvas, rig: SolidRig, plane: Plane, k: int, arc: Array, others: Array
) -> None:
    """The angle at the point a unit is aimed at, beside its own arc and not one of the `others`."""
    x0, y0 = inside.view.at(*plane.seen(rig.arrays.point[:, k]).tolist())
    at = np.array([x0, y0])
    inside.lines.append(Line(arc, 0.75))
    inside.lines.append(Line(np.array([at, at + 1.3 * (arc[0] - at)]), 0.75))
    inside.shapes.append(Shape(marks.circle(x0, y0, marks.DOT), 0.75, "black"))
    inside.block(x0, y0, marks.DOT)
    tip = words.tip(float(to_degrees(rig.aims.down[k])))
    middle = arc[len(arc) // 2]
    x, y = middle.tolist()
    out = float(np.arctan2(*(middle - at)[::-1]))
    inside.label(
        tip.angle or tip.word,
        at=[(x, y)],
        clear=0.5,
        toward=[out],
        size=BIG,
        bold=True,
        rivals=others,
    )


def _name_on_axis(inside: Canvas, rig: SolidRig, plane: Plane, k: int, taken: list[Array]) -> None:
    lens, face = (plane.seen(p[:, k]) for p in (rig.aims.lens, rig.arrays.point))
    axis = np.array(inside.view.at(*lens.tolist())), np.array(inside.view.at(*face.tolist()))
    _along_axis(inside, f"unit {short_number(rig, k)}", axis, taken)


def _along_axis(inside: Canvas, text: str, axis: tuple[Array, Array], taken: list[Array]) -> None:
    """Words set on an axis, as near to the lens as they are clear of words on other axes."""
    start, run = axis[0], axis[1] - axis[0]
    along = run / max(float(np.hypot(*run)), 1e-9)
    width, tall = text_width(text, BIG, True), CAPITAL * BIG * PT
    for begin in np.arange(CLEAR_OF_LENS, max(CLEAR_OF_LENS + 1, np.hypot(*run) / 2), tall):
        spots = start + np.linspace(begin, begin + width, 8)[:, None] * along
        if all(np.hypot(*(spots[:, None] - other).T).min() > 1.6 * tall for other in taken):
            break
    taken.append(spots)
    for x, y in spots.tolist():
        inside.block(x, y, tall / 2 + PAD)
    first, last = (spots[0], spots[-1]) if along[0] >= 0 else (spots[-1], spots[0])
    on = (last - first) / width
    out = np.array([-on[1], on[0]])
    low, high = first - PAD * on, last + PAD * on
    half = (tall / 2 + PAD) * out
    inside.shapes.append(Shape(np.array([low - half, high - half, high + half, low + half]), 0.0))
    x, y = (first - tall / 2 * out).tolist()
    turn = float(to_degrees(np.arctan2(on[1], on[0])))
    inside.words.append(Words(x, y, text, BIG, True, turn=turn))


def _at_plaster(inside: Canvas, rig: SolidRig, plane: Plane, k: int, unit: LengthUnit) -> None:
    """How high an axis passes the plaster line on its way to the face."""
    lens, face = rig.aims.lens[:, k], rig.arrays.point[:, k]
    if (lens[1] < 0) == (face[1] < 0):
        return
    here = lens + (face - lens) * lens[1] / (lens[1] - face[1])
    at = inside.view.at(*plane.seen(here).tolist())
    inside.lines += [Line(stroke, 1.0) for stroke in marks.cross(*at, 1.2)]
    inside.block(*at, 1.2)
    text = f"{words.length(float(here[2]), unit, words.SIZE)} at PL"
    inside.label(text, at=[at, at], clear=1.6, toward=[np.pi / 4, LEFT])


def audience(
    inside: Canvas, rig: SolidRig, plane: Plane, hanging: Sequence[Hanging], unit: LengthUnit
) -> None:
    """Eyes at their height, and how high the front row sees between what hangs."""
    for block in rig.scene.seats:
        reach = across(block.outline, plane)
        if reach is None:
            continue
        inside.line(np.array([(reach[0], block.eye), (reach[1], block.eye)]), 0.75, "dotted")
        if not inside.view.holds(reach[1], block.eye):
            continue
        at = inside.view.at(reach[1], block.eye)
        inside.shapes.append(Shape(marks.circle(*at, EYE), 0.75))
        inside.block(*at, EYE)
        text = f"{short(rig, block.name)}, eyes {_up(block.eye, unit)}"
        inside.label(text, at=[at], clear=EYE + 0.4, toward=[DOWN])
    row = front_row_of(rig.scene)
    for block in rig.scene.seats:
        reach = across(block.outline, plane)
        if reach and row and row.name == block.name:
            _sight(inside, (reach[1], block.eye), [h for h in hanging if h.far > reach[1]])


def _up(z: float, unit: LengthUnit) -> str:
    return f"{words.length(z, unit, words.SIZE)}{' below the deck' if z < 0 else ''}"


def _sight(inside: Canvas, eye: tuple[float, float], hanging: Sequence[Hanging]) -> None:
    """Lines from an eye past each lower edge that lets less through than all before it."""
    steepest = np.inf
    ends = [*(h.far for h in hanging), inside.view.reach[2]][1:]
    for here, end in zip(hanging, ends, strict=True):
        slope = (here.low - eye[1]) / (here.far - eye[0])
        if slope < steepest:
            steepest = slope
            far = np.array([eye[0], end])
            inside.line(np.stack((far, eye[1] + slope * (far - eye[0])), axis=1), 0.75, "chain")


BAND = 74.0  # mm right of the frame for heights
FOOT = 34.0  # mm under it for distances
AIR = 0.6  # m round what must be shown
SPARE = 0.1  # mm, so that rounding does not cost a step of the scale
TEXT = 10.0  # pt
COLUMN_GAP = 5.0  # mm


def paper_mm(options: PaperOptions) -> tuple[float, float]:
    """Width and height of the paper lying on its long side: twice the crew's sheets, A3 or tabloid."""
    short, long = PAPERS[options.paper]
    return 2 * short * PT, long * PT


def view_of(must: Array, wish: Array, options: PaperOptions, rows: int) -> View:
    """The largest drawing on a ruler's scale that shows all of `must` (2, N), and as much of `wish`.

    Room is left under it for a table of so many rows; the frame is no higher than the drawing needs.
    """
    width, page_height = paper_mm(options)
    left, _, right, top = frame_of(width, page_height)
    least = footer_row(width, 1) + rows * ROW + FOOT + 8.0
    frame = left, least, right - BAND, top
    low, high = must.min(axis=1) - AIR, must.max(axis=1) + AIR
    wish_low = np.minimum(low, wish.min(axis=1, initial=np.inf) - AIR)
    wish_high = np.maximum(high, wish.max(axis=1, initial=-np.inf) + AIR)
    view = fit_view(_corners(low, high), _corners(wish_low, wish_high), frame, options.length)
    tall = (wish_high[1] - wish_low[1]) * 1000 / view.scale + SPARE
    bottom = max(least, top - tall)
    return fit_view(
        _corners(low, high),
        _corners(wish_low, wish_high),
        (left, bottom, right - BAND, top),
        options.length,
    )


def _corners(low: Array, high: Array) -> Frame:
    return float(low[0]), float(low[1]), float(high[0]), float(high[1])


def write_rows(page: Drawing, rows: Sequence[Sequence[str]], left: float, top: float) -> None:
    """A table with its first row bold, the columns as wide as their widest cell."""
    x = left
    for column in zip(*rows, strict=True):
        y = top - ROW
        for number, cell in enumerate(column):
            page.words.append(Words(x, y, cell, TEXT, number == 0))
            y -= ROW
        x += max(text_width(cell, TEXT, n == 0) for n, cell in enumerate(column)) + COLUMN_GAP


STEP = 4.4  # mm from one line of words to the next
ELBOW = 5.0  # mm from the frame to the words


class Place(NamedTuple):
    """A place along a side of the frame, metres, and what it is."""

    at: float
    text: str


def heights(page: Drawing, view: View, places: Sequence[Place], width: float) -> None:
    """Heights along the right side of the frame, their words in a band `width` mm wide beside it."""
    _, bottom, right, top = view.frame
    shown = [p for p in sorted(places) if bottom <= view.at(0.0, p.at)[1] <= top]
    marks = [view.at(0.0, place.at)[1] for place in shown]
    for place, mark, y in zip(shown, marks, spread(marks, STEP, bottom, top), strict=True):
        page.lines.append(
            Line(np.array([(right, mark), (right + 1.5, mark), (right + ELBOW - 1, y)]))
        )
        size = shrink_to_fit(place.text, TEXT, width - ELBOW)
        page.words.append(Words(right + ELBOW, y - CAPITAL * size * PT / 2, place.text, size))


def distances(page: Drawing, view: View, places: Sequence[Place], top: float, depth: float) -> None:
    """Distances along the foot of the frame, from `top` mm down, their words on end in `depth` mm."""
    left, _, right, _ = view.frame
    shown = [p for p in sorted(places) if left <= view.at(p.at, 0.0)[0] <= right]
    marks = [view.at(place.at, 0.0)[0] for place in shown]
    for place, mark, x in zip(shown, marks, spread(marks, STEP, left, right), strict=True):
        page.lines.append(Line(np.array([(mark, top), (mark, top - 1.5), (x, top - ELBOW + 1)])))
        size = shrink_to_fit(place.text, TEXT, depth - ELBOW)
        across = x + CAPITAL * size * PT / 2
        page.words.append(Words(across, top - ELBOW, place.text, size, align="right", turn=90.0))


def spread(marks: Sequence[float], step: float, low: float, high: float) -> Array:
    """Rising places nearest to rising `marks` that are at least `step` apart, between low and high.

    Clusters that would overlap are set side by side about their middle. More marks than there is room
    for are set closer.
    """
    if not marks:
        return np.zeros(0)
    step = min(step, (high - low) / max(1, len(marks) - 1))
    shifted = [mark - k * step for k, mark in enumerate(marks)]  # then order is all that must hold
    blocks: list[list[float]] = []
    for mark in shifted:
        blocks.append([mark])
        while len(blocks) > 1 and _mean(blocks[-2]) > _mean(blocks[-1]):
            last = blocks.pop()
            blocks[-1] += last
    even = np.array([_mean(block) for block in blocks for _ in block])
    first = np.clip(even, low, high - (len(marks) - 1) * step)
    return np.asarray(first + step * np.arange(len(marks)))


def _mean(values: list[float]) -> float:
    return sum(values) / len(values)
