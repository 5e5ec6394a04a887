"""What is drawn inside the frame of a pool plan: stage, positions, units, pools, marks and labels."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import cos, radians, sin
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from aimcalc.geometry.ovals import oval_outline
from aimcalc.geometry.pools import outline
from aimcalc.geometry.vectors import Array
from aimcalc.rig.answers import Answer
from aimcalc.scene.model import Boom, Pipe, Position, Stand
from aimcalc.sheets import marks, words
from aimcalc.sheets.drawing import Dash, Line, Shape, Words
from aimcalc.sheets.paper import PaperOptions
from aimcalc.sheets.plancanvas import UP_PAGE, Canvas
from aimcalc.sheets.planpage import View
from aimcalc.sheets.typeset import shorten

if TYPE_CHECKING:
    from aimcalc.rig.solve import Rig

TAG = 14.0  # pt, numbers of units
BODY_LENGTH = 0.6  # m, of a unit whose kind gives no length
SYMBOL = (5.5, 11.0)  # mm, shortest and longest symbol
POLE = 1.3  # mm, radius of a boom's ring
BESIDE = 5.0  # mm from unit to unit where a boom's units are drawn side by side
NAME_IN, NAME_STEP = 22.0, 8.0  # mm from a pipe's end to where its name may stand beside it, and on
LONGEST_TAG, LONGEST_NAME = 8, 24  # letters
MOST_NAMES = 6
RIM_POINTS = 144
FURTHEST = 300.0  # m, from the lens to where an open pool is cut off, outside any drawing
BELOW_LEFT, DOWN_PAGE = -np.pi * 3 / 4, -np.pi / 2


class Drawn(NamedTuple):
    """The inside of the frame, and what the page must say about it."""

    lines: list[Line]
    shapes: list[Shape]
    words: list[Words]
    families: Sequence[str]  # of the units shown
    has_points: bool  # whether some unit points where nobody stands
    remarks: list[str]
    left_out: list[str]  # labels that found no room


def draw_inside(
    rig: Rig,
    answers: list[Answer],
    units: list[int],
    view: View,
    options: PaperOptions,
    light: Callable[[Canvas, int], None] | None = None,
) -> Drawn:
    """Stage, positions and the `units` of one system (indices), as they look in `view`.

    `light` draws a unit's light; its pools at the face without it.
    """
    inside = Canvas(view)
    used = list(dict.fromkeys(answers[k].position for k in units))
    codes = position_codes(used) if len(used) > 1 else {}
    stage_lines(inside, rig)
    _positions(inside, rig, used)
    spots, beside = _spots(view, rig, answers, units)
    for k in units:
        if light is None:
            _pools(inside, rig, k)
        else:
            light(inside, k)
    for k in units:
        others = np.array([spots[j] for j in units if j != k]).reshape(-1, 2)
        _unit(inside, rig, answers[k], k, spots[k], others)
    _position_names(inside, rig, used, codes, options)
    stand_marks(inside, [answers[k] for k in units])
    for k in units:
        a = answers[k]
        _landing(inside, a, _tag(a, codes))
    inside.place_labels()
    families = list(dict.fromkeys(rig.kinds[k].family for k in units))
    return Drawn(
        inside.lines,
        inside.shapes,
        inside.words,
        families,
        any(answers[k].stand is None for k in units),
        beside + _lost(answers, units),
        inside.left_out,
    )


def _tag(a: Answer, codes: dict[str, str]) -> str:
    """What a LANDS dot is called: the unit's number, with its position where there are several."""
    number = shorten(a.number, LONGEST_TAG)
    return f"{codes[a.position]}/{number}" if codes else number


def position_codes(names: list[str]) -> dict[str, str]:
    """Short codes for positions: first letters and figures, "LX 1" LX1, "House pipe" HP; all unlike."""
    codes: dict[str, str] = {}
    for name in names:
        code = _initials(name)
        if code in codes.values():
            taken = [f"{code}{letter}" for letter in "abcdefghijklmnopqrstuvwxyz"]
            code = next((c for c in taken if c not in codes.values()), str(len(codes)))
        codes[name] = code
    return codes


def _initials(name: str) -> str:
    parts = name.replace("-", " ").split()
    short = [p if len(p) <= 2 or p.isdigit() or p in words.SIDES else p[0] for p in parts]
    return shorten("".join(short).upper() if len(parts) > 1 else name, LONGEST_TAG)


def stage_lines(inside: Canvas, rig: Rig) -> None:
    """Deck outline, acting area, platforms and boxes; what hangs overhead belongs on the section."""
    stage = rig.scene.stage
    if stage.outline:
        inside.key_outline(np.array(stage.outline), 2.0)
    if stage.acting and stage.acting != stage.outline:
        inside.outline(np.array(stage.acting), 0.75, "dotted")
    for solid in rig.scene.solids:
        if solid.box:
            x0, y0, _, x1, y1, _ = solid.box
            inside.outline(np.array([(x0, y0), (x1, y0), (x1, y1), (x0, y1)]), 0.75)
        elif solid.panel and solid.stand_on:
            inside.outline(np.array([corner[:2] for corner in solid.panel]), 0.75)


def _positions(inside: Canvas, rig: Rig, used: list[str]) -> None:
    for name, position in rig.scene.positions.items():
        weight = 2.0 if name in used else 0.75
        if isinstance(position, Pipe):
            inside.line(np.array([position.start[:2], position.end[:2]]), weight)
        elif inside.view.holds(position.x, position.y):
            x, y = inside.view.at(position.x, position.y)
            inside.shapes.append(Shape(marks.circle(x, y, POLE), weight))
            inside.block(x, y, POLE)


def _spots(
    view: View, rig: Rig, answers: list[Answer], units: list[int]
) -> tuple[dict[int, tuple[float, float]], list[str]]:
    """Where each symbol is on the paper, and what to say of booms, whose units lie side by side."""
    spots = {k: view.at(*answers[k].pivot[:2]) for k in units}
    ways: list[str] = []
    for name in dict.fromkeys(answers[k].position for k in units):
        mine = [k for k in units if answers[k].position == name]
        if len(mine) > 1 and not isinstance(rig.scene.positions[name], Pipe):
            ways.append(_side_by_side(spots, mine, [answers[k].heading for k in mine]))
    told = " or ".join(dict.fromkeys(ways))
    return spots, [f"On a boom the top unit is drawn furthest {told}."] if told else []


def _side_by_side(
    spots: dict[int, tuple[float, float]], units: list[int], headings: list[float | None]
) -> str:
    """Move units of one boom apart, across the way they mostly point; which way the top one goes."""
    ways = [radians(heading or 0.0) for heading in headings]
    deep = sum(abs(sin(way)) for way in ways) >= sum(abs(cos(way)) for way in ways)
    x, y = np.mean([spots[k] for k in units], axis=0).tolist()
    for row, k in enumerate(units):
        off = ((len(units) - 1) / 2 - row) * BESIDE
        spots[k] = (x, y + off) if deep else (x + off, y)
    return "US" if deep else "SL"


def _unit(
    inside: Canvas, rig: Rig, answer: Answer, k: int, spot: tuple[float, float], others: Array
) -> None:
    """The unit's symbol and its number, which must not seem to belong to one of the `others`."""
    kind = rig.kinds[k]
    scaled = (kind.length or BODY_LENGTH) * 1000 / inside.view.scale
    length = min(max(scaled, SYMBOL[0]), SYMBOL[1])
    symbol = marks.unit_symbol(kind.family, *spot, answer.heading, length)
    inside.shapes.append(Shape(symbol.outline, 1.0))
    inside.shapes += [Shape(stroke, 0.75, "none") for stroke in symbol.strokes]
    inside.room.block(*symbol.outline.min(axis=0), *symbol.outline.max(axis=0))
    behind = radians(270.0 - (answer.heading or 0.0))
    number = shorten(answer.number, LONGEST_TAG)
    inside.label(
        number,
        at=[spot],
        clear=0.5 * length,
        toward=[behind],
        size=TAG,
        bold=True,
        rivals=others,
    )


def _pools(inside: Canvas, rig: Rig, k: int) -> None:
    """Field solid and beam dashed, on the level plane at the face; open ends get arrow heads."""
    lens, axis = rig.aims.lens[:, k], rig.aims.axis[:, k]
    plane_z = float(rig.arrays.point[2, k])
    looks: list[tuple[float, float, Dash]] = [
        (rig.arrays.field[k], 1.0, "solid"),
        (rig.arrays.beam[k], 0.75, "dashed"),
    ]
    for angle, weight, dash in looks:
        if not np.isfinite([*lens, *axis, angle]).all():
            continue
        if rig.kinds[k].oval:
            full = rig.ovals.field if dash == "solid" else rig.ovals.beam
            rim, closed = _oval_rim(rig, k, full, plane_z)
        else:
            rim, closed = _rim(lens, axis, angle / 2, plane_z)
        runs = inside.line(rim, weight, dash)
        if runs and not closed:
            for run, start in ((runs[0], True), (runs[-1], False)):
                if run.cut_start if start else run.cut_end:
                    inside.arrow(run, start=start)


def _rim(lens: Array, axis: Array, half_angle: float, plane_z: float) -> tuple[Array, bool]:
    """The pool's edge as plan points (n, 2), and whether it closes: b > g."""
    closed = bool(abs(axis[2]) > np.sin(half_angle))
    rim = outline(lens, axis, half_angle, plane_z, reach=FURTHEST, count=RIM_POINTS)[:2].T
    return (np.concatenate([rim, rim[:1]]) if closed else rim), closed


def _oval_rim(rig: Rig, k: int, full: Array, plane_z: float) -> tuple[Array, bool]:
    """The same of an oval, at both its field angles or both its beam angles, as `rig.ovals` has them."""
    axis, j = rig.aims.axis, rig.ovals.row_of(k)
    first, second = rig.ovals.rims(full, axis)
    edge = (first[:, j], second[:, j])
    reach = np.hypot(edge[0][2], edge[1][2])
    closed = bool(abs(axis[2, k]) > reach)
    rim = oval_outline(
        rig.aims.lens[:, k], axis[:, k], edge, plane_z, reach=FURTHEST, count=RIM_POINTS
    )[:2].T
    return (np.concatenate([rim, rim[:1]]) if closed and len(rim) else rim), closed


def stand_marks(inside: Canvas, here: list[Answer]) -> None:
    """A cross for each place where somebody stands, with the target's name; once for each place."""
    done: set[tuple[float, float, str | None]] = set()
    for a in here:
        x, y = a.face[:2]
        spot = (round(x, 3), round(y, 3), a.target)
        if spot in done or not inside.view.holds(x, y):
            continue
        done.add(spot)
        at = inside.view.at(x, y)
        if a.stand is not None:
            inside.lines += [Line(stroke, 1.5) for stroke in marks.cross(*at)]
        else:
            inside.shapes.append(Shape(marks.circle(*at, marks.DOT), 1.0))
        inside.block(*at, marks.CROSS)
        if a.target:
            name = shorten(a.target, LONGEST_NAME)
            inside.label(name, at=[at], clear=marks.CROSS + 0.4, toward=[BELOW_LEFT])


def _landing(inside: Canvas, a: Answer, tag: str) -> None:
    """The LANDS dot joined to the cross; an arrow at the frame where it lies outside."""
    if a.lands is None:
        if inside.view.holds(*a.face[:2]):
            at = inside.view.at(*a.face[:2])
            inside.label(tag, at=[at], clear=marks.CROSS + 0.4, bold=True)
        return
    away = np.array([a.face[:2], a.lands[:2]])
    onward = float(np.arctan2(*(away[1] - away[0])[::-1]))
    runs = inside.line(away, 0.75)
    if inside.view.holds(*a.lands[:2]):
        at = inside.view.at(*a.lands[:2])
        inside.shapes.append(Shape(marks.circle(*at, marks.DOT), 0.75, "black"))
        inside.block(*at, marks.DOT)
        inside.label(tag, at=[at], clear=marks.DOT + 0.5, toward=[onward], bold=True)
    elif runs:
        at = inside.arrow(runs[-1], start=False)
        x, y = runs[-1].points[[0, -1]].mean(axis=0).tolist()
        ways = [onward, onward + np.pi / 2]
        inside.label(tag, at=[at, (x, y)], clear=marks.DOT, toward=ways, bold=True)


def _position_names(
    inside: Canvas, rig: Rig, used: list[str], codes: dict[str, str], options: PaperOptions
) -> None:
    positions = rig.scene.positions
    for name in used:
        position = positions[name]
        code = f" ({codes[name]})" if codes.get(name, name) != name else ""
        rows = [f"{shorten(name, LONGEST_NAME)}{code}", _height(position, options)]
        at, toward = _name_spots(inside, position)
        inside.label(*[r for r in rows if r], at=at, clear=POLE + 0.3, toward=toward, bold=True)


def _name_spots(
    inside: Canvas, position: Position
) -> tuple[list[tuple[float, float]], list[float]]:
    """Marks a position's name may stand by, and on which side.

    Of a pipe: beyond its ends, then beside it from its ends inwards.
    """
    if not isinstance(position, Pipe):
        out = 0.0 if position.x > 0 else np.pi
        return [inside.view.at(position.x, position.y)] * 4, [out, DOWN_PAGE, UP_PAGE, np.pi - out]
    frame = inside.view.frame
    plan = inside.view.to_page(np.array([position.start[:2], position.end[:2]]))
    runs = marks.inside(plan, frame)
    ends = runs[0].points[[0, -1]] if runs else np.clip(plan, frame[:2], frame[2:])
    ends = ends[np.argsort(ends[:, 0], kind="stable")]
    (x0, y0), (x1, y1) = ends.tolist()
    outwards = float(np.arctan2(y0 - y1, x0 - x1))
    spots, ways = [(x0, y0), (x1, y1)], [outwards, outwards + np.pi]
    along = np.array([x1 - x0, y1 - y0]) / max(float(np.hypot(x1 - x0, y1 - y0)), 1e-9)
    for inwards in np.arange(NAME_IN, np.hypot(x1 - x0, y1 - y0) - NAME_IN, NAME_STEP):
        for x, y in (ends[0] + inwards * along, ends[1] - inwards * along):
            spots += [(float(x), float(y))] * 2
            ways += [UP_PAGE, DOWN_PAGE]
    return spots, ways


def _height(position: Position, options: PaperOptions) -> str:
    """Trim of a pipe and whether somebody measured it; height of a boom."""
    if isinstance(position, Stand):
        return ""
    if isinstance(position, Boom):
        return f"{words.length(position.height, options.length, words.HANG)} high"
    ends = [
        words.length(z, options.length, words.HANG) for z in (position.start[2], position.end[2])
    ]
    trim = ends[0] if ends[0] == ends[1] else f"{ends[0]} to {ends[1]}"
    return f"trim {trim} {'measured' if position.measured else 'plotted'}"


def _lost(answers: list[Answer], units: list[int]) -> list[str]:
    lost = [answers[k].unit for k in units if answers[k].yoke is None]
    return [f"No aim, so no pool: {some(lost)}."] if lost else []


def some(names: Sequence[str]) -> str:
    """The first few of a list, and how many more there are."""
    shown = ", ".join(shorten(name, LONGEST_NAME) for name in names[:MOST_NAMES])
    more = len(names) - MOST_NAMES
    return f"{shown} and {more} more" if more > 0 else shown
