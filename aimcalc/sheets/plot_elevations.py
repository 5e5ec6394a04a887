"""Booms, and stands that lift their units, from the side: to the scale of the plot, tags at their heights."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.vectors import Array
from aimcalc.paper import marks
from aimcalc.paper.drawing import NARROW, WIDE, Drawing, Line, Shape, Words, shrink_to_fit
from aimcalc.paper.planpage import Frame
from aimcalc.rig.places import upright
from aimcalc.scene.model import Boom, Stand
from aimcalc.sheets.boom_view import draw_body, side_of
from aimcalc.sheets.plot_plan import RING, position_rows
from aimcalc.sheets.plot_tags import (
    FRAMED,
    NUMBER,
    STEP,
    TAG,
    TAIL,
    Tag,
    beside_height,
    kind_letters,
    tag_of,
)
from aimcalc.sheets.sectiondraw import spread
from aimcalc.text import words as w
from aimcalc.text.names import short

if TYPE_CHECKING:
    from aimcalc.solid.rig import SolidRig


HEAD, FOOT = 10.0, 6.0  # mm over and under a drawing
SHARE = 0.46  # of a box's width for the drawing; the rest is for tags
TALL = FRAMED + 2 * STEP + TAIL  # mm, a tag of three rows
APART = 2.0  # mm from tag to tag
REACH = 0.8  # m, of a body beyond its clamp: what a drawing leaves over its tube at most


def elevation_tag(rig: SolidRig, k: int, length: w.LengthUnit) -> Tag:
    """A unit's tag as it stands beside an elevation, with the letter of its kind."""
    letter = kind_letters(rig)[rig.units[k].kind]
    return beside_height(tag_of(rig, k, length, letter))


def height_of(rig: SolidRig, name: str, scale: float) -> float:
    """How high the box of a position's elevation must be, mm."""
    position = rig.scene.positions[name]
    assert isinstance(position, Boom | Stand)
    _, foot, top = upright(rig.deck, position)
    tags = len(rig.rows[name]) * (TALL + APART)
    return HEAD + FOOT + max((top - foot + REACH / 2) * 1000 / scale, tags)


def draw_elevation(
    page: Drawing, rig: SolidRig, name: str, box: Frame, scale: float, length: w.LengthUnit
) -> None:
    """The elevation of a position in a box of the page (left, bottom, right, top)."""
    position = rig.scene.positions[name]
    assert isinstance(position, Boom | Stand)
    left, bottom, right, top = box
    units = list(rig.rows[name])
    plane, sides, seen = side_of(rig, position, units)
    zero, foot, head = upright(rig.deck, position)
    wide = SHARE * (right - left)
    middle, base = left + wide / 2, bottom + FOOT

    def at(point: Array) -> Array:
        far, z = plane.seen(point)
        return np.array([middle + far * 1000 / scale, base + (z - foot) * 1000 / scale])

    tube = np.array([(position.x, position.y, foot), (position.x, position.y, head)])
    half = wide / 2 - 1.0
    if not (isinstance(position, Boom) and position.foot is not None):
        page.line((middle - half, base), (middle + half, base), weight=NARROW)
    page.lines.append(Line(np.array([at(end) for end in tube]), WIDE))
    if zero == foot:
        page.shapes.append(Shape(marks.circle(middle, base, RING), NARROW))
    for k in units:
        draw_body(page, rig, k, tube[0], at)
    spots = [at(rig.arrays.clamp[:, k]) for k in units]
    _tags(page, rig, units, spots, (left + wide, bottom, right, top), length)
    for word, x in zip(sides, (middle - half + 2, middle + half - 2), strict=True):
        page.words.append(Words(x, bottom + 1.5, word, NUMBER, True, "centre"))
    told = position_rows(rig, name, length)
    for row, text in enumerate((f"{short(rig, name)}, {seen}", ", ".join(told[1:]))):
        size = shrink_to_fit(text, NUMBER if row == 0 else TAG, right - left - 1, row == 0)
        page.words.append(Words(left, top - 4.2 - row * 3.6, text, size, row == 0))


def _tags(
    page: Drawing,
    rig: SolidRig,
    units: list[int],
    spots: list[Array],
    box: Frame,
    length: w.LengthUnit,
) -> None:
    """The tags beside the drawing, each with a line to the height of its clamp."""
    left, bottom, right, top = box
    heights = [float(spot[1]) for spot in spots]
    order = np.argsort(heights, kind="stable").tolist()
    rising = [heights[n] for n in order]
    step = TALL + APART
    rows = spread(rising, step, bottom + FOOT + step / 2, top - HEAD - step / 2)
    for n, mark, y in zip(order, rising, rows.tolist(), strict=True):
        tag = elevation_tag(rig, units[n], length)
        _, high = tag.size
        line, words = tag.drawn(left, y - high / 2)
        room = right - left - 2.0
        page.lines.append(line)
        for word in words:
            fitted = shrink_to_fit(word.text, word.size, room - (word.x - left), word.bold)
            page.words.append(word._replace(size=fitted))
        page.line((float(spots[n][0]) + 1.0, mark), (left - 6.0, mark), weight=NARROW)
        page.line((left - 6.0, mark), (left, y), weight=NARROW)
