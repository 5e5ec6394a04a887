"""Plan and section as pictures of the live page, made of what the paper's own drawings are made of.

Each is shaped for a screen. What can be moved is in groups that carry its name, so that a page can show by
itself where it goes: the picture is made again when the hand rests.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.vectors import Array, to_radians
from aimcalc.named import NamedTuple
from aimcalc.paper import marks
from aimcalc.paper.drawing import NARROW, SYMBOL, Drawing, Shape
from aimcalc.paper.drawsvg import svg
from aimcalc.paper.plancanvas import Canvas
from aimcalc.paper.planpage import Axes, View, framed, from_above
from aimcalc.rig.places import tubes_of, upright
from aimcalc.scene.model import Boom, Stand
from aimcalc.sheets.plans import sectiondraw
from aimcalc.sheets.plans.section import PLASTER
from aimcalc.sheets.plot.plan import LOOKS, Feature, features, placed_units
from aimcalc.solid.side_view import beams, centre_plane, chosen
from aimcalc.text import words
from aimcalc.text.names import short, short_number

if TYPE_CHECKING:
    from aimcalc.show import Show
    from aimcalc.solid.rig import SolidRig

HIGH = 165.0  # mm
SHAPES = (0.9, 1.75)  # least and most width of a frame, of its height: a screen's, or half of one
LEFT, FOOT, RIGHT, TOP = 14.0, 14.0, 10.0, 9.0  # mm for rulers and the words beyond the frame
AIR = 0.04  # round what is shown, of its size
LEAST = 2.0  # m
NUMBER, NAME, SMALL = 10.0, 8.5, 7.5  # pt
POLE = 1.3  # mm, radius of a boom's ring
CROSS = 1.6  # mm, half of the mark of a target


class Picture(NamedTuple):
    """An `svg` element, and where in it a point (x, y) in metres is: (a x + c y + e, b x + d y + f)."""

    svg: str
    matrix: tuple[float, float, float, float, float, float]


def plan_svg(show: Show) -> Picture:
    """The plan: x to stage left and y upstage. Groups bear the names of units, positions and targets."""
    rig = show.rig
    targets = np.array([(t.x, t.y) for t in rig.scene.targets]).reshape(-1, 2)
    inside = Canvas(_view(np.concatenate([_points(rig)[:2].T, targets])))
    _ground(inside, rig)
    _positions(inside, rig)  # what is named first stands nearest to what it names
    _units(inside, rig)
    _targets(inside, rig)
    _scenery(inside, rig)
    inside.place_labels()
    return _picture(inside, _length(rig), from_above(rig.scene))


def section_svg(show: Show) -> Picture:
    """The section at the centre line, seen from SL: y upstage and z up. Groups as on the plan."""
    rig = show.rig
    plane, length = centre_plane(), _length(rig)
    inside = Canvas(_view(plane.seen(_points(rig)).T))
    sectiondraw.deck(inside, rig, plane)
    pipes = sectiondraw.pipes(inside, rig, plane, beams(rig, chosen(rig)))
    for position in _uprights(rig):
        with inside.of(position.name):
            inside.line(plane.seen(_tube(rig, position)).T, SYMBOL)
    for k, name in enumerate(rig.names):
        with inside.of(name):
            sectiondraw.body(inside, rig, plane, k)
    for name, point in pipes:
        at = inside.view.at(*plane.seen(point).tolist())
        trim = words.length(float(point[2]), length, words.HANG)
        with inside.of(name):
            inside.label(trim, at=[at, at], clear=1.2, toward=[0.0, np.pi], size=NAME)
    faces = {unit.target or "": rig.arrays.point[:, k] for k, unit in enumerate(rig.units)}
    for target, point in faces.items():
        with inside.of(target):
            _cross(inside, inside.view.at(*plane.seen(point).tolist()))
    hanging = sectiondraw.scenery(inside, rig, plane)
    sectiondraw.faces(inside, rig, plane, length)
    sectiondraw.audience(inside, rig, plane, hanging, length)
    inside.place_labels()
    return _picture(inside, length, PLASTER._replace(left="DS", right="US"))


def _picture(inside: Canvas, length: words.LengthUnit, axes: Axes) -> Picture:
    page = Drawing(inside.view.frame[2] + RIGHT, HIGH)
    page.add(inside)
    framed(page, inside.view, length, axes)
    left, bottom, _, _ = inside.view.frame
    (x, y), size = inside.view.origin, 1000 / inside.view.scale
    matrix = (size, 0.0, 0.0, -size, left - x * size, HIGH - bottom + y * size)
    return Picture(svg(page, named=True), matrix)


def _length(rig: SolidRig) -> words.LengthUnit:
    return "ft" if rig.scene.settings.unit in ("ft", "in") else "m"


def _view(points: Array) -> View:
    """All of some points (n, 2), m, as large as it goes, in the middle of the frame."""
    points = points[np.isfinite(points).all(axis=1)]
    low, high = points.min(axis=0), points.max(axis=0)
    size = np.maximum(high - low, LEAST) * (1 + 2 * AIR)
    tall = HIGH - FOOT - TOP
    room = np.array([tall * float(np.clip(size[0] / size[1], *SHAPES)), tall])
    scale = 1000 * float((size / room).max())
    x, y = ((low + high) / 2 - room * scale / 2000).tolist()
    return View((LEFT, FOOT, LEFT + float(room[0]), FOOT + tall), scale, (x, y))


def _points(rig: SolidRig) -> Array:
    """What must be seen: stage, positions, units and what they are aimed at, (3, n) m."""
    outline = [(x, y, 0.0) for x, y in (*rig.scene.stage.outline, *rig.scene.stage.acting)]
    found = [np.array([*outline, (0.0, 0.0, 0.0)]).T]
    found += [rig.arrays.clamp, rig.aims.pivot, rig.arrays.point]
    found += [line for pipe in rig.scene.pipes for _, line in tubes_of(pipe)]
    found += [_tube(rig, position) for position in _uprights(rig)]
    return np.concatenate(found, axis=1)


def _uprights(rig: SolidRig) -> list[Boom | Stand]:
    return [*rig.scene.booms, *rig.scene.stands]


def _tube(rig: SolidRig, position: Boom | Stand) -> Array:
    """The ends of a boom's or a stand's tube, (3, 2) m."""
    ends = upright(rig.deck, position)
    return np.array([(position.x, position.y, z) for z in (ends.foot, ends.top)]).T


def _ground(inside: Canvas, rig: SolidRig) -> None:
    """Deck, scenery and seats, each pipe, and the rings of booms and stands."""
    for feature in features(rig):
        weight, dash = LOOKS[feature.layer]
        if feature.layer == "positions":
            with inside.of(feature.name):
                inside.key_line(feature.points, weight)
        else:
            inside.line(feature.points, weight, dash)
    for position in _uprights(rig):
        at = inside.view.at(position.x, position.y)
        with inside.of(position.name):
            inside.shapes.append(Shape(marks.circle(*at, POLE), SYMBOL))
        inside.block(*at, POLE)


def _units(inside: Canvas, rig: SolidRig) -> None:
    """Every unit to scale, the highest on top, with its number behind it."""
    view, symbols = inside.view, placed_units(rig)
    spots = view.to_page(rig.arrays.clamp[:2].T)
    for k in sorted(range(len(symbols)), key=lambda k: (rig.arrays.clamp[2, k], k)):
        unit = symbols[k]
        with inside.of(rig.names[k]):
            inside.shapes += [Shape(view.to_page(part), SYMBOL) for part in unit.outlines]
            inside.shapes += [Shape(view.to_page(part), NARROW, "none") for part in unit.strokes]
            body = view.to_page(unit.outlines[0])
            inside.room.block(*body.min(axis=0), *body.max(axis=0))
            inside.label(
                short_number(rig, k),
                at=[(float(spots[k, 0]), float(spots[k, 1]))],
                clear=float(np.ptp(body, axis=0).max()) / 2,
                toward=[to_radians(270.0 - (rig.answers[k].heading or 0.0))],
                size=NUMBER,
                bold=True,
                rivals=np.delete(spots, k, axis=0),
            )


def _targets(inside: Canvas, rig: SolidRig) -> None:
    for target in rig.scene.targets:
        at = inside.view.at(target.x, target.y)
        with inside.of(target.name):
            _cross(inside, at)
            inside.label(short(rig, target.name), at=[at], clear=CROSS + 0.3, size=NAME)


def _cross(inside: Canvas, at: tuple[float, float]) -> None:
    inside.shapes += [Shape(stroke, SYMBOL, "none") for stroke in marks.cross(*at, CROSS)]
    inside.block(*at, CROSS)


def _positions(inside: Canvas, rig: SolidRig) -> None:
    """The name of each position by one of its ends."""
    for position in _uprights(rig):
        with inside.of(position.name):
            at = [inside.view.at(position.x, position.y)]
            inside.label(short(rig, position.name), at=at, clear=POLE + 0.3, size=NAME, bold=True)
    for feature in _once(rig):
        if feature.layer == "positions":
            with inside.of(feature.name):
                _name(inside, rig, feature, NAME)


def _scenery(inside: Canvas, rig: SolidRig) -> None:
    """Names of scenery and seats."""
    for feature in _once(rig):
        if feature.layer != "positions":
            _name(inside, rig, feature, SMALL)


def _once(rig: SolidRig) -> Iterable[Feature]:
    """The features that have a name, one of each name."""
    return {each.name: each for each in features(rig) if each.name}.values()


def _name(inside: Canvas, rig: SolidRig, feature: Feature, size: float) -> None:
    ends = feature.points[[feature.points[:, 0].argmin(), feature.points[:, 0].argmax()]]
    ways = zip(ends.tolist(), (np.pi, 0.0), strict=True)
    seen = [(inside.view.at(*end), way) for end, way in ways if inside.view.holds(*end)]
    if seen:
        at, toward = [spot for spot, _ in seen], [way for _, way in seen]
        text = short(rig, feature.name)
        inside.label(text, at=at, clear=0.8, toward=toward, size=size, bold=size == NAME)
