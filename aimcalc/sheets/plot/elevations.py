"""Booms, and stands that lift their units, from the side: to the scale of the plot, tags at their heights."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.bodies import BODY, TOP_HAT
from aimcalc.geometry.vectors import Array
from aimcalc.named import NamedTuple
from aimcalc.paper import marks
from aimcalc.paper.drawing import NARROW, WIDE, Drawing, Line, Shape, Words, shrink_to_fit
from aimcalc.paper.planpage import FOOT_SCALES, METRIC_SCALES, Frame, scale_words
from aimcalc.rig.places import Upright, upright
from aimcalc.scene.model import Boom, Stand
from aimcalc.sheets.plans.boom_view import draw_body, side_of
from aimcalc.sheets.plans.sectiondraw import spread
from aimcalc.sheets.plot.plan import RING, position_rows
from aimcalc.sheets.plot.tags import NUMBER, TAG, Tag, beside_height, kind_letters, tag_of
from aimcalc.text import words as w
from aimcalc.text.names import short

if TYPE_CHECKING:
    from aimcalc.solid.rig import SolidRig


HEAD, FOOT = 10.0, 6.0  # mm over and under a drawing
SHARE = 0.46  # of a box's width for the drawing at least; the rest is for tags
LEAST_TAG = 46.0  # mm for tags
APART = 2.0  # mm from tag to tag
REACH = 0.4  # m that a body may stand above its tube


def elevation_tags(rig: SolidRig, name: str, room: float, length: w.LengthUnit) -> list[Tag]:
    """The tags of a position's units for its elevation, `room` mm wide, each with the letter of its kind."""
    letters = kind_letters(rig)
    every = ((k, letters[rig.units[k].kind]) for k in rig.rows[name])
    return [beside_height(tag_of(rig, k, length, letter), room) for k, letter in every]


class Fit(NamedTuple):
    """How an elevation goes into its box: scale, mm for the drawing, how far its middle is off the tube."""

    scale: float
    wide: float
    off: float  # m


def fit(rig: SolidRig, name: str, scale: float, wide: float) -> Fit:
    """The plot's own scale where bodies leave room for tags in a box so wide, mm, else the next that does."""
    low, high = _reach(rig, name)
    needed = high - low
    rule = METRIC_SCALES if scale in METRIC_SCALES else tuple(FOOT_SCALES)
    for own in (scale, *(each for each in rule if each > scale)):
        drawn = max(needed * 1000 / own + 4.0, SHARE * wide)
        if drawn <= wide - LEAST_TAG:
            break
    return Fit(own, min(drawn, wide - LEAST_TAG), (low + high) / 2)


def _reach(rig: SolidRig, name: str) -> tuple[float, float]:
    """How far a position's bodies reach to either side of its tube, as its elevation is seen, m."""
    position = rig.scene.positions[name]
    assert isinstance(position, Boom | Stand)
    units = list(rig.rows[name])
    plane, _, _ = side_of(rig, position, units)
    far = plane.seen(rig.solids.taken[:, units][:, :, [BODY, TOP_HAT]].reshape(3, -1))[0]
    known = far[np.isfinite(far)]
    return float(min(known.min(initial=0.0), -0.2)), float(max(known.max(initial=0.0), 0.2))


def height_of(rig: SolidRig, name: str, scale: float, wide: float, length: w.LengthUnit) -> float:
    """How high the box of a position's elevation must be, mm, that is so wide."""
    own = fit(rig, name, scale, wide)
    tags = elevation_tags(rig, name, wide - own.wide, length)
    step = max(tag.size[1] for tag in tags) + APART
    return HEAD + FOOT + max(_tall(rig, name, own.scale), len(tags) * step)


def _tall(rig: SolidRig, name: str, scale: float) -> float:
    """How high a position's tube and what stands over it are on paper, mm."""
    _, foot, top = _upright(rig, name)
    return (top - foot + REACH) * 1000 / scale


def _upright(rig: SolidRig, name: str) -> Upright:
    position = rig.scene.positions[name]
    assert isinstance(position, Boom | Stand)
    return upright(rig.deck, position)


def draw_elevation(
    page: Drawing, rig: SolidRig, name: str, box: Frame, scale: float, length: w.LengthUnit
) -> None:
    """The elevation of a position in a box of the page (left, bottom, right, top)."""
    position = rig.scene.positions[name]
    assert isinstance(position, Boom | Stand)
    left, bottom, right, top = box
    units = list(rig.rows[name])
    plane, sides, seen = side_of(rig, position, units)
    zero, foot, head = _upright(rig, name)
    plot_scale = scale
    scale, wide, off = fit(rig, name, plot_scale, right - left)
    spare = top - bottom - HEAD - FOOT - _tall(rig, name, scale)
    middle = left + wide / 2 - off * 1000 / scale
    base = bottom + FOOT + max(spare, 0.0) / 2

    def at(point: Array) -> Array:
        far, z = plane.seen(point)
        return np.array([middle + far * 1000 / scale, base + (z - foot) * 1000 / scale])

    tube = np.array([(position.x, position.y, foot), (position.x, position.y, head)])
    ends = left + 1.0, left + wide - 8.0
    if not (isinstance(position, Boom) and position.foot is not None):
        page.line((ends[0], base), (ends[1], base), weight=NARROW)
    page.lines.append(Line(np.array([at(end) for end in tube]), WIDE))
    if zero == foot:
        page.shapes.append(Shape(marks.circle(middle, base, RING), NARROW))
    for k in units:
        corners = rig.solids.taken[:, k, [BODY, TOP_HAT]].reshape(3, -1)
        known = corners if np.isfinite(corners).all() else None
        draw_body(page, rig, k, tube[0], at, known)
    spots = [at(rig.arrays.clamp[:, k]) for k in units]
    tags = elevation_tags(rig, name, right - left - wide, length)
    _tags(page, tags, spots, (left + wide, bottom, right, top))
    for word, x in zip(sides, (ends[0] + 3, ends[1] - 3), strict=True):
        page.words.append(Words(x, base - FOOT + 1.5, word, NUMBER, True, "centre"))
    told = position_rows(rig, name, length)
    own = "" if scale == plot_scale else f", {scale_words(scale, length)}"
    for row, text in enumerate((f"{short(rig, name)}, {seen}{own}", ", ".join(told[1:]))):
        size = shrink_to_fit(text, NUMBER if row == 0 else TAG, right - left - 1, row == 0)
        page.words.append(Words(left, top - 4.2 - row * 3.6, text, size, row == 0))


def _tags(page: Drawing, tags: Sequence[Tag], spots: Sequence[Array], box: Frame) -> None:
    """The tags beside the drawing, each with a line to the height of its clamp."""
    left, bottom, right, top = box
    heights = [float(spot[1]) for spot in spots]
    order = np.argsort(heights, kind="stable").tolist()
    rising = [heights[n] for n in order]
    step = max(tag.size[1] for tag in tags) + APART
    rows = spread(rising, step, bottom + FOOT + step / 2, top - HEAD - step / 2)
    for n, mark, y in zip(order, rising, rows.tolist(), strict=True):
        line, words = tags[n].drawn(left, y - tags[n].size[1] / 2)
        page.lines.append(line)
        for word in words:
            fitted = shrink_to_fit(word.text, word.size, right - 1.0 - word.x, word.bold)
            page.words.append(word._replace(size=fitted))
        page.line((float(spots[n][0]) + 1.0, mark), (left - 6.0, mark), weight=NARROW)
        page.line((left - 6.0, mark), (left, y), weight=NARROW)
