"""Booms from the side, small, beside their plan: tube, clamps at their heights, bodies in pose.

On a plan the units of a boom lie over one another; here each has its number, the height of its clamp and
the way it faces.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.polygon import hull
from aimcalc.geometry.vectors import Array
from aimcalc.paper import marks
from aimcalc.paper.drawing import Drawing, Line, Shape, Words, shrink_to_fit
from aimcalc.paper.planpage import FOOT_SCALES, METRIC_SCALES, ROW, Frame, scale_words
from aimcalc.rig.places import upright
from aimcalc.scene.model import Boom, Stand
from aimcalc.sheets.plans.sectiondraw import spread
from aimcalc.solid.answers import Answer
from aimcalc.solid.side_view import Plane, body_corners
from aimcalc.text import words
from aimcalc.text.names import short, short_number

if TYPE_CHECKING:
    from aimcalc.solid.rig import SolidRig
    from aimcalc.text.words import LengthUnit


TEXT = 10.0  # pt
DRAWN = 26.0  # mm of a box's width, or
SHARE = 0.36  # of it where it is narrow: the rest is for words
DOT = 0.8  # mm, a clamp
GROUND = 1.5  # pt
NOSE = 4.0  # mm, of a unit whose body is not known
HEAD = 2 * ROW + 3.0  # mm over a drawing: name, height
FOOT = ROW + 1.0  # mm under it: its two sides
LONGEST_NAME = 20  # letters


def booms_of(rig: SolidRig, units: Sequence[int]) -> list[str]:
    """The booms that some units hang on, in hang order of the first ones."""
    used = dict.fromkeys(rig.units[k].position for k in units)
    return [name for name in used if isinstance(rig.scene.positions[name], Boom)]


def draw_booms(
    page: Drawing,
    rig: SolidRig,
    answers: Sequence[Answer],
    codes: dict[str, str],
    boxes: dict[str, Frame],
    unit: LengthUnit,
) -> None:
    """Every boom of `boxes` (name: where on the page it goes), all to one scale."""
    if not boxes:
        return
    scale = _scale(rig, boxes, unit)
    for name, box in boxes.items():
        _boom(page, rig, answers, name, codes.get(name, name), box, scale, unit)


def _scale(rig: SolidRig, boxes: dict[str, Frame], unit: LengthUnit) -> float:
    """The largest of a ruler's scales at which every boom is no taller than its box."""
    scales = METRIC_SCALES if unit == "m" else tuple(FOOT_SCALES)
    least = 0.0
    for name, (_, bottom, _, top) in boxes.items():
        boom = rig.scene.positions[name]
        assert isinstance(boom, Boom)
        tall = boom.height - (boom.foot or 0.0)
        least = max(least, 1000 * tall / (top - bottom - HEAD - FOOT))
    return next((float(s) for s in scales if s >= least), float(np.ceil(least / 100) * 100))


def _boom(
    page: Drawing,
    rig: SolidRig,
    answers: Sequence[Answer],
    name: str,
    code: str,
    box: Frame,
    scale: float,
    unit: LengthUnit,
) -> None:
    boom = rig.scene.positions[name]
    assert isinstance(boom, Boom)
    left, bottom, right, top = box
    units = [k for k in rig.rows[name] if rig.units[k].at is not None]
    plane, sides, seen = side_of(rig, boom, units)
    _, foot, top_z = upright(rig.deck, boom)
    drawn = min(DRAWN, SHARE * (right - left))
    middle = left + drawn / 2
    base = bottom + FOOT

    def at(point: Array) -> Array:
        far, z = plane.seen(point)
        return np.array([middle + far * 1000 / scale, base + (z - foot) * 1000 / scale])

    half = drawn / 2 - 1.0
    if boom.foot is None:
        page.line((middle - half, base), (middle + half, base), weight=GROUND)
    tube = np.array([(boom.x, boom.y, foot), (boom.x, boom.y, top_z)])
    page.lines.append(Line(np.array([at(p) for p in tube]), 2.0))
    for k in units:
        draw_body(page, rig, k, tube[0], at)
    heights = [float(at(rig.arrays.clamp[:, k])[1]) for k in units]
    _names(page, rig, answers, units, heights, (left + drawn, bottom, right, top), unit)
    for text, x in zip(sides, (middle - half + 2, middle + half - 2), strict=True):
        page.words.append(Words(x, bottom + 0.8, text, TEXT, True, "centre"))
    title = short(rig, name, LONGEST_NAME) + ("" if code == name else f" ({code})")
    high = f"{words.length(boom.height, unit, words.HANG)} high"
    if boom.foot is not None:
        high = (
            f"foot {words.length(boom.foot, unit, words.HANG)} up, top {high.removesuffix(' high')}"
        )
    for row, text in enumerate((title, f"{high}, {seen}, {scale_words(scale, 'm')}")):
        size = shrink_to_fit(text, TEXT, right - left - 1, row == 0)
        page.words.append(Words(left, top - (row + 1) * ROW, text, size, row == 0))


def side_of(
    rig: SolidRig, boom: Boom | Stand, units: list[int]
) -> tuple[Plane, tuple[str, str], str]:
    """The plane that shows the units from their side, the words at its two ends, and where one looks from."""
    across, deep = np.abs(np.nan_to_num(rig.axis[:2, units])).sum(axis=1)
    foot = np.array([boom.x, boom.y, 0.0])
    if across >= deep:
        return Plane(foot, np.array([1.0, 0.0, 0.0])), ("SR", "SL"), "seen from DS"
    return Plane(foot, np.array([0.0, 1.0, 0.0])), ("DS", "US"), "seen from SL"


def draw_body(
    page: Drawing,
    rig: SolidRig,
    k: int,
    tube: Array,
    at: Callable[[Array], Array],
    corners: Array | None = None,
) -> None:
    """Clamp, arm and body in pose, by its own corners (3, M) unless others are given.

    A stroke along the axis where the body is not known. `at` puts points (3, ...) on the page, (2, ...) mm.
    """
    clamp, pivot, axis = rig.arrays.clamp[:, k], rig.aims.pivot[:, k], rig.axis[:, k]
    grip = at(np.array([tube[0], tube[1], clamp[2]]))
    if np.isfinite([*pivot, *axis]).all():
        corners = body_corners(rig, k) if corners is None else corners
        if corners.size:
            page.shapes.append(Shape(hull(at(corners)).T, 1.0))
        else:
            ahead = at(pivot + axis) - at(pivot)
            long = max(float(np.hypot(*ahead)), 1e-9)
            page.lines.append(Line(np.array([at(pivot), at(pivot) + NOSE / long * ahead]), 2.0))
        page.shapes.append(Shape(np.array([grip, at(clamp), at(pivot), at(clamp)]), 1.5, "none"))
    page.shapes.append(Shape(marks.circle(float(grip[0]), float(grip[1]), DOT), 0.75, "black"))


def _names(
    page: Drawing,
    rig: SolidRig,
    answers: Sequence[Answer],
    units: list[int],
    heights: list[float],
    box: Frame,
    unit: LengthUnit,
) -> None:
    """Beside each clamp the unit's number, the clamp's height and the way the unit faces."""
    x, bottom, right, top = box
    order = np.argsort(heights, kind="stable").tolist()
    marks_ = [heights[n] for n in order]
    rows = spread(marks_, 2 * ROW + 0.6, bottom + FOOT + ROW, top - HEAD - ROW / 2)
    for n, mark, y in zip(order, marks_, rows.tolist(), strict=True):
        k = units[n]
        page.lines.append(Line(np.array([(x - 4.0, mark), (x - 0.6, y)]), 0.75))
        number = short_number(rig, k)
        high = words.length(rig.units[k].at or 0.0, unit, words.HANG)
        for row, text in enumerate((f"unit {number}, {high}", _faces(answers[k]))):
            size = shrink_to_fit(text, TEXT, right - x - 0.5, row == 0)
            page.words.append(Words(x, y + 0.4 - row * ROW, text, size, row == 0))


def _faces(answer: Answer) -> str:
    """Which way a unit faces: its tip and its heading, a word first, as a line runs up to it."""
    if answer.yoke is None or answer.down is None:
        return "no aim"
    tip = words.tip(answer.down)
    if answer.heading is None:
        return "straight down" if answer.down > 0 else "straight up"
    return f"{tip.word} {tip.angle}".rstrip() + f", {words.heading(answer.heading)}"
