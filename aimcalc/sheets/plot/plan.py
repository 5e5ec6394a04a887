"""The plan of a light plot: stage, scenery, positions and every unit with its tag, to scale.

Units of booms have their tags beside the elevations.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import TYPE_CHECKING
from weakref import WeakKeyDictionary

import numpy as np

from aimcalc.geometry.polygon import hull
from aimcalc.geometry.polygon import inside as within
from aimcalc.geometry.solids import part
from aimcalc.geometry.vectors import Array
from aimcalc.named import NamedTuple
from aimcalc.paper import marks
from aimcalc.paper.drawing import NARROW, SYMBOL, WIDE, Dash, Line, Shape, Words, text_width
from aimcalc.paper.plancanvas import Canvas, label_size, row_height
from aimcalc.paper.planpage import Frame, View, from_above
from aimcalc.rig.places import place, tubes_of, upright
from aimcalc.scene.model import Boom, Pipe, Position, Stand
from aimcalc.sheets.plot.dimensions import Dimensions, place_dimensions
from aimcalc.sheets.plot.symbols import Look, Symbol, looks_of, symbol
from aimcalc.sheets.plot.tags import TAG, Placed, kind_letters, place_tags
from aimcalc.text import words as w
from aimcalc.text.facts import trim_words
from aimcalc.text.names import short, short_number

if TYPE_CHECKING:
    from aimcalc.solid.rig import SolidRig


NAME = 9.0  # pt, of positions
BIG = 12.0  # pt, the words for the sides of the stage
RING, POLE, DOT = 0.9, 1.2, 0.45  # mm, radius: of a zero's ring, a boom's ring, a clamp's dot
ROOM_FOR_TAG = 24.0  # mm beyond the outermost units
AIR = 8.0  # mm beyond the deck
OVERHEAD = 2.0  # m: what is higher all over is drawn as overhead
MOST_NUMBERS = 8  # of units, at a boom
LETTER_HALF = 0.06  # m, half of a letter's side at 1:50

# Layers of the drawing, each with its line: width in pt, and dash.
LOOKS: dict[str, tuple[float, Dash]] = {
    "deck": (WIDE, "solid"),
    "acting area": (NARROW, "dotted"),
    "centre and plaster lines": (NARROW, "axis"),
    "scenery": (NARROW, "solid"),
    "scenery overhead": (NARROW, "overhead"),
    "seats": (NARROW, "dashed"),
    "positions": (WIDE, "solid"),
}


class Feature(NamedTuple):
    """A line of the plan, (n, 2) m, and the layer it is on; `name` of what is named on the drawing."""

    layer: str
    points: Array
    name: str = ""


class Drawn(NamedTuple):
    """The plan, and the units whose tags found no room there, wholly or but for their numbers."""

    inside: Canvas
    elsewhere: list[int]
    tags: dict[int, Placed]
    named: list[Words]  # names of positions and scenery, sides, zero lines
    dimensions: Dimensions
    leaders: list[Line]  # from tags to their units

    def moved(self, across: float, up: float) -> Drawn:
        """The same plan elsewhere on the board, so many mm away."""
        way, was = np.array([across, up]), self.inside
        there = Canvas(was.view.moved(across, up))
        there.lines = [line._replace(points=line.points + way) for line in was.lines]
        there.shapes = [shape._replace(points=shape.points + way) for shape in was.shapes]
        there.words = [word._replace(x=word.x + across, y=word.y + up) for word in was.words]
        return Drawn(
            there,
            self.elsewhere,
            {k: placed._replace(at=placed.at + way) for k, placed in self.tags.items()},
            [word._replace(x=word.x + across, y=word.y + up) for word in self.named],
            self.dimensions.moved(way),
            [line._replace(points=line.points + way) for line in self.leaders],
        )


def features(rig: SolidRig) -> list[Feature]:
    """Every line of the plan but those of units and words: what both paper and DXF show."""
    scene, found = rig.scene, []
    stage = scene.stage
    if stage.outline:
        found.append(Feature("deck", _closed(stage.outline)))
    if stage.acting and stage.acting != stage.outline:
        found.append(Feature("acting area", _closed(stage.acting)))
    found += [Feature("seats", _closed(seats.outline), seats.name) for seats in scene.seats]
    for n, solid in enumerate(scene.solids):
        corners = part(rig.scenery, n).vertices
        if corners.shape[1]:
            over = corners[2].min() > OVERHEAD
            outline = _closed(hull(corners[:2]).T)
            found.append(Feature("scenery overhead" if over else "scenery", outline, solid.name))
    for name, position in scene.positions.items():
        if isinstance(position, Pipe):
            found += [Feature("positions", line[:2].T, name) for _, line in tubes_of(position)]
    return found


def _closed(points: Sequence[tuple[float, float]] | Array) -> Array:
    plan = np.array(points, dtype=float).reshape(-1, 2)
    return np.concatenate([plan, plan[:1]])


_placed: WeakKeyDictionary[SolidRig, list[Symbol]] = WeakKeyDictionary()


def placed_units(rig: SolidRig) -> list[Symbol]:
    """Every unit's symbol on the plan, metres; they are made once a rig."""
    if rig not in _placed:
        _placed[rig] = _placed_units(rig)
    return _placed[rig]


def _placed_units(rig: SolidRig) -> list[Symbol]:
    looks, turns = looks_of(rig)

    @cache
    def made(look: Look) -> Symbol:
        return symbol(rig.scene.kinds[look.kind], look)

    spots = rig.arrays.clamp[:2].T
    return [made(look).placed(spots[k], float(turns[k])) for k, look in enumerate(looks)]


def position_rows(rig: SolidRig, name: str, length: w.LengthUnit) -> tuple[str, ...]:
    """A position's name, its trim or height, and where it is."""
    position = rig.scene.positions[name]
    rows = [short(rig, name), trim_words(position, length)]
    if isinstance(position, Pipe):
        (x0, y0, _), (x1, y1, _) = position.start, position.end
        if position.through is None and abs(y0 - y1) < 1e-9:
            rows.append(w.upstage(y0, length, w.HANG))
        elif position.through is None and abs(x0 - x1) < 1e-9:
            rows.append(w.across(x0, length, w.HANG))
    else:
        rows.append(w.place(position.x, position.y, length, w.HANG))
    return tuple(rows)


def reach_of(rig: SolidRig, scale: float, length: w.LengthUnit) -> Frame:
    """What the plan must show, with room for words round it: least x, least y, most x, most y, m."""
    per_mm = scale / 1000
    boxes = [(np.zeros((1, 2)), 2 * AIR)]
    if rig.scene.stage.outline:
        boxes.append((np.array(rig.scene.stage.outline, dtype=float), AIR))
    boxes += [(np.concatenate(each.outlines), ROOM_FOR_TAG) for each in placed_units(rig)]
    low = np.min([points.min(axis=0) - air * per_mm for points, air in boxes], axis=0)
    high = np.max([points.max(axis=0) + air * per_mm for points, air in boxes], axis=0)
    for name, position in rig.scene.positions.items():
        ends = _ends(rig, position)
        wide, _ = label_size(position_rows(rig, name, length), NAME, True)
        low = np.minimum(low, ends.min(axis=0) - np.array([(wide + 5.0) * per_mm, AIR * per_mm]))
        high = np.maximum(high, ends.max(axis=0) + AIR * per_mm)
    return float(low[0]), float(low[1]), float(high[0]), float(high[1])


def _ends(rig: SolidRig, position: Position) -> Array:
    """The ends of a position on the plan, (n, 2), that of stage right (or downstage) first."""
    if not isinstance(position, Pipe):
        return np.array([(position.x, position.y)])
    lines = [line[:2].T for _, line in tubes_of(position)]
    ends = np.concatenate([line[[0, -1]] for line in lines])
    return ends[np.lexsort((ends[:, 1], ends[:, 0]))]


def draw_plan(rig: SolidRig, view: View, length: w.LengthUnit) -> Drawn:
    """Everything inside the frame of the plan."""
    inside = Canvas(view)
    _lines(inside, rig)
    symbols = placed_units(rig)
    letters = kind_letters(rig)
    order = _bottom_up(rig)
    _bodies(inside, [symbols[k] for k in order])
    told = _letters(inside, rig, symbols, letters, order)
    _marks(inside, rig)
    before = len(inside.words)
    _zero_lines(inside)
    _side_words(inside, rig)
    dimensions = place_dimensions(inside, rig, symbols, length)
    _names(inside, rig, length)
    inside.place_labels()
    named, lines = inside.words[before:], len(inside.lines)
    tags, elsewhere = place_tags(inside, rig, length, symbols, told, dimensions.positions)
    leaders = inside.lines[lines:]
    inside.lines += dimensions.lines
    inside.words += dimensions.words
    return Drawn(inside, elsewhere, tags, named, dimensions, leaders)


def _lines(inside: Canvas, rig: SolidRig) -> None:
    for feature in features(rig):
        weight, dash = LOOKS[feature.layer]
        draw = inside.key_line if feature.layer in ("positions", "deck") else None
        if draw:
            draw(feature.points, weight)
        else:
            inside.line(feature.points, weight, dash)


def _zero_lines(inside: Canvas) -> None:
    """Centre and plaster line from edge to edge, with their names."""
    x0, y0, x1, y1 = inside.view.reach
    weight, dash = LOOKS["centre and plaster lines"]
    inside.line(np.array([(0.0, y0), (0.0, y1)]), weight, dash)
    inside.line(np.array([(x0, 0.0), (x1, 0.0)]), weight, dash)
    _, bottom, right, _ = inside.view.frame
    x, y = inside.view.at(0.0, 0.0)
    for word, at in ((w.CENTRE, (x + 1.0, bottom + 2.0)), (w.PLASTER, (right - 26.0, y + 1.0))):
        inside.words.append(Words(*at, word, TAG))
        wide, high = label_size([word], TAG, False)
        inside.room.block(at[0] - 0.5, at[1] - 0.5, at[0] + wide, at[1] + high)


def _bottom_up(rig: SolidRig) -> list[int]:
    """The units as they are drawn, the highest last, on top."""
    return sorted(range(len(rig.units)), key=lambda k: (rig.arrays.clamp[2, k], k))


def _bodies(inside: Canvas, symbols: Sequence[Symbol]) -> None:
    """Units' symbols, undermost first; labels keep off them, lines from labels off the bodies."""
    view, lines, boxes = inside.view, [], [np.zeros((0, 4))]
    for placed in symbols:
        pages = [view.to_page(part) for part in placed.outlines]
        inside.shapes += [Shape(page, SYMBOL) for page in pages]
        inside.shapes += [Shape(view.to_page(part), NARROW, "none") for part in placed.strokes]
        x, y = view.at(*placed.clamp.tolist())
        inside.shapes.append(Shape(marks.circle(x, y, DOT), NARROW, "black"))
        lines += [np.concatenate([page, page[:1]]) for page in pages]
        boxes.append(_squares(pages[0]))
    inside.room.keep_lines(lines)
    inside.room.block_all(np.concatenate(boxes))


def _squares(body: Array) -> Array:
    """Squares (n, 4) along the middle of a body's outline (n, 2), mm, no wider than the body."""
    middle = body.mean(axis=0)
    out = body - middle
    _, ways = np.linalg.eigh(out.T @ out)
    along, half = out @ ways[:, 1], float(np.ptp(out @ ways[:, 0])) * 0.35
    low, high = float(along.min()) + half, float(along.max()) - half
    far = np.linspace(min(low, high), max(low, high), 2 + int(abs(high - low)))
    spots = middle + far[:, None] * ways[:, 1]
    return np.concatenate([spots - half, spots + half], axis=1)


def _letters(
    inside: Canvas,
    rig: SolidRig,
    symbols: Sequence[Symbol],
    letters: dict[str, str],
    order: Sequence[int],
) -> dict[int, str]:
    """The letters of kinds in the bodies that have room for them and that no higher body covers.

    What comes back are those of the units without, for their tags.
    """
    told: dict[int, str] = {}
    spots = np.array([placed.letter for placed in symbols]).reshape(-1, 2)
    middles = np.array([placed.outlines[0].mean(axis=0) for placed in symbols]).reshape(-1, 2)
    reaches = np.array(
        [np.abs(p.outlines[0] - m).max() for p, m in zip(symbols, middles, strict=True)]
    )
    rank = np.zeros(len(symbols), dtype=int)
    rank[list(order)] = np.arange(len(symbols))
    for k, placed in enumerate(symbols):
        letter = letters[rig.units[k].kind]
        off = np.abs(middles - spots[k]).max(axis=1)
        over = np.flatnonzero((off < reaches + LETTER_HALF) & (rank > rank[k])).tolist()
        if not placed.has_room(inside.view.scale) or any(
            _covers(symbols[j].outlines[0], spots[k]) for j in over
        ):
            told[k] = letter
            continue
        x, y = inside.view.at(*placed.letter)
        down = row_height(letter, TAG).above / 2
        inside.words.append(Words(x, y - down, letter, TAG, True, "centre"))
    return told


def _covers(body: Array, spot: Array) -> bool:
    """Whether an outline (n, 2) m comes so near to a spot that a letter there would be cut."""
    around = spot + LETTER_HALF * np.array([(-1.0, -1.0), (-1.0, 1.0), (1.0, -1.0), (1.0, 1.0)])
    return bool(within(body.T, np.concatenate([around, spot[None]]).T).any())


def _marks(inside: Canvas, rig: SolidRig) -> None:
    """The zero of every pipe as a ring, booms and stands as theirs."""
    for position in rig.scene.positions.values():
        if isinstance(position, Pipe):
            x, y, _ = place(position).zero
            radius = RING
        else:
            x, y = position.x, position.y
            radius = POLE
        if inside.view.holds(x, y):
            px, py = inside.view.at(x, y)
            weight = NARROW if radius == RING else WIDE
            inside.shapes.append(Shape(marks.circle(px, py, radius), weight))
            inside.block(px, py, radius)


def _side_words(inside: Canvas, rig: SolidRig) -> None:
    """US, DS, SL and SR at the edges of the plan, AUDIENCE where it sits."""
    axes, (left, bottom, right, top) = from_above(rig.scene), inside.view.frame
    x, y = inside.view.at(0.0, 0.0)
    x, y = min(max(x, left + 20), right - 20), min(max(y, bottom + 20), top - 20)
    for word, at, turn in (
        (axes.top, (x + 8.0, top - 5.0), 0.0),
        (axes.foot, (x + 30.0, bottom + 2.0), 0.0),
        (axes.left, (left + 5.0, y + 4.0), 90.0),
        (axes.right, (right - 2.0, y + 6.0), 90.0),
    ):
        inside.words.append(Words(*at, word, BIG, True, turn=turn))
        wide = text_width(word, BIG, True)
        size = (wide, 4.0) if not turn else (4.0, wide)
        start = at if not turn else (at[0] - 4.0, at[1])
        inside.room.block(
            start[0] - 1, start[1] - 1, start[0] + size[0] + 1, start[1] + size[1] + 1
        )


def _names(inside: Canvas, rig: SolidRig, length: w.LengthUnit) -> None:
    """Names of positions at their ends; of scenery and seats once each."""
    for name, position in rig.scene.positions.items():
        ends = _ends(rig, position)
        at = [inside.view.at(*end) for end in ends[[0, -1]].tolist()]
        rows = position_rows(rig, name, length)
        if isinstance(position, Boom) and rig.rows[name]:
            units = rig.rows[name]
            numbers = ", ".join(short_number(rig, k) for k in units)
            told = numbers if len(units) <= MOST_NUMBERS else w.count(len(units), "unit")
            rows = (*rows, f"{told}: see elevation")
        flat = abs(ends[-1, 1] - ends[0, 1]) <= abs(ends[-1, 0] - ends[0, 0])
        ways = [np.pi, 0.0] if flat else [-np.pi / 2, np.pi / 2]
        inside.label(*rows, at=at, clear=POLE + 0.6, toward=ways, size=NAME, bold=True)
    for feature in features(rig):
        if feature.layer.startswith("scenery") or feature.layer == "seats":
            far = feature.points[[feature.points[:, 0].argmax(), feature.points[:, 0].argmin()]]
            at = [inside.view.at(*end) for end in far.tolist() if inside.view.holds(*end)]
            if at:
                ways = [0.0, np.pi][: len(at)]
                inside.label(short(rig, feature.name), at=at, clear=0.6, toward=ways, size=TAG)


def tubes_up(rig: SolidRig) -> list[str]:
    """The positions that have an elevation: booms with units, stands whose units are well over the deck."""
    found = []
    for name, position in rig.scene.positions.items():
        if isinstance(position, Boom) and rig.rows[name]:
            found.append(name)
        elif isinstance(position, Stand) and rig.rows[name]:
            _, foot, top = upright(rig.deck, position)
            if top - foot > OVERHEAD / 4:
                found.append(name)
    return found
