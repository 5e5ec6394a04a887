"""The two triangles of one unit to true scale: seen from above, and from the side along its light."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.vectors import Array
from aimcalc.named import NamedTuple
from aimcalc.paper.page import KEY, RULE, SMALL, THIN, Box, Sheet
from aimcalc.paper.planpage import FOOT_SCALES, METRIC_SCALES, scale_words
from aimcalc.rig.places import gripped, place
from aimcalc.scene.model import Pipe
from aimcalc.text import words as w
from aimcalc.text.facts import POINT, sighted
from aimcalc.text.typeset import BOLD, REGULAR, text_width

if TYPE_CHECKING:
    from aimcalc.solid.rig import SolidRig
    from aimcalc.text.rows import Row


PER_METRE = 1000 / 25.4 * 72  # pt
EDGE = 28.0  # pt round a drawing, for its words
HEAD = 16.0
NOTHING = 0.005  # m, a side that is no side
MOST_CROWDED = 1000
GAPS = (6.0, 12.0, 20.0, 30.0, 44.0)  # pt from a point to its label
ON = 0.6  # of the way to the face that the light is drawn on past it, at most


Spot = tuple[float, float]  # on the sheet, pt


class View(NamedTuple):
    """Metres on a sheet: 1 to `scale`, the point `origin` at (x, y) pt."""

    scale: float
    origin: tuple[float, float]
    x: float
    y: float

    def at(self, point: Array) -> Spot:
        """A point (2,) in metres on the sheet, pt."""
        far = (point - np.array(self.origin)) * PER_METRE / self.scale
        return self.x + float(far[0]), self.y + float(far[1])


def view_of(points: list[Array], box: Box, length: w.LengthUnit) -> View:
    """The largest view on a ruler's scale that holds all points (2,), metres, in a box."""
    every = np.array(points)
    low, high = every.min(axis=0), every.max(axis=0)
    room = np.array([box.width - 2 * EDGE, box.height - 2 * EDGE])
    least = float((np.maximum(high - low, 0.2) / room).max() * PER_METRE)
    scales = METRIC_SCALES if length == "m" else tuple(FOOT_SCALES)
    scale = next((s for s in scales if s >= least), least)
    middle = (low + high) / 2
    x, y = (box.left + box.right) / 2, (box.bottom + box.top) / 2
    return View(scale, (float(middle[0]), float(middle[1])), x, y)


class Picture:
    """One drawing: what it has drawn, so that its labels keep clear of it."""

    def __init__(
        self, sheet: Sheet, box: Box, title: str, points: list[Array], length: w.LengthUnit
    ) -> None:
        sheet.box(box, weight=RULE)
        sheet.text(box.left + 4, box.top - 12, title, SMALL + 1, bold=True)
        self.sheet, self.box, self.length = sheet, box._replace(top=box.top - HEAD), length
        self.view = view_of(points, self.box, length)
        told = scale_words(self.view.scale, length)
        sheet.text(self.box.right - 3, self.box.bottom + 3, told, SMALL, align="r")
        wide = text_width(told, REGULAR, SMALL)
        low = self.box.bottom
        self.taken: list[Box] = []
        self.put = [Box(self.box.right - 4 - wide, low, self.box.right, low + 14)]
        self.labels: list[tuple[Spot, str, Array]] = []

    def at(self, point: Array) -> Spot:
        """A point (2,) in metres on the sheet, pt."""
        return self.view.at(point)

    def line(self, one: Spot, other: Spot, *, weight: float = THIN, dash: float = 0.0) -> None:
        """Draw a line that labels keep clear of."""
        self.sheet.line(*one, *other, weight=weight, dash=dash)
        self._keep_clear(one, other)

    def arrow(self, one: Spot, other: Spot) -> None:
        """Draw the light."""
        self.sheet.arrow(*one, *other, weight=KEY)
        self._keep_clear(one, other)

    def ring(self, at: Spot, radius: float, weight: float = KEY) -> None:
        """Draw a circle."""
        self.sheet.circle(*at, radius, weight=weight)
        self.taken.append(Box(at[0] - radius, at[1] - radius, at[0] + radius, at[1] + radius))

    def face(self, at: Spot) -> None:
        """Draw the point that is hit."""
        self.ring(at, 4.5, 1.6)
        self.sheet.line(at[0] - 2.5, at[1], at[0] + 2.5, at[1])
        self.sheet.line(at[0], at[1] - 2.5, at[0], at[1] + 2.5)

    def across(self, middle: Spot, along: Array, weight: float) -> None:
        """Draw a line through a point along a direction (2,), from edge to edge."""
        ends = [_to_edge(middle, sign * along, self.box.inset(18.0)) for sign in (-1.0, 1.0)]
        self.line(*ends, weight=weight)

    def sides(self) -> None:
        """Tell where the stage's sides are: US up the page, SL at the end of its lines."""
        box = self.box
        middle, height = (box.left + box.right) / 2, (box.bottom + box.top) / 2
        for words, x, y in (
            ("US", middle, box.top - 9),
            ("DS", middle, box.bottom + 3),
            ("SR", box.left + 11, height),
            ("SL", box.right - 11, height),
        ):
            self.sheet.text(x, y, words, SMALL, bold=True, align="c")
            self.put.append(Box(x - 9, y - 2, x + 9, y + 9))

    def label(self, at: Spot, words: str, side: Array) -> None:
        """Words to be put beside a point, on this side (2,) of it if there is room."""
        self.labels.append((at, words, side))

    def put_labels(self) -> None:
        """Put every label where it is clear of all else, as near to its point as there is such a place."""
        for at, words, side in self.labels:
            wide = text_width(words, BOLD, SMALL)
            boxes = [
                _beside(at, turned, gap, wide, self.box) for gap in GAPS for turned in _round(side)
            ]
            best = min(boxes, key=self._crowded)
            self.put.append(best)
            self.sheet.blank(best)
            x = (best.left + best.right) / 2
            self.sheet.text(x, best.bottom + 2.2, words, SMALL, bold=True, align="c")

    def _crowded(self, box: Box) -> int:
        """How much of what is drawn a label would cover, other labels above all."""
        on_words = sum(_meets(box, other) for other in self.put)
        return MOST_CROWDED * on_words + sum(_meets(box, other) for other in self.taken)

    def _keep_clear(self, one: Spot, other: Spot) -> None:
        steps = max(2, int(np.hypot(other[0] - one[0], other[1] - one[1]) / 4))
        for share in np.linspace(0.0, 1.0, steps).tolist():
            x, y = (a + share * (b - a) for a, b in zip(one, other, strict=True))
            self.taken.append(Box(x - 1, y - 1, x + 1, y + 1))


def draw_plan(sheet: Sheet, box: Box, rig: SolidRig, row: Row, length: w.LengthUnit) -> None:
    """Draw pivot, face, square and the turn from above, US up the page; its sight tape, if it has one."""
    k, given = row.k, rig.arrays
    pivot, face = rig.aims.pivot[:2, k], given.point[:2, k]
    square = given.reference[:2, k] * float(rig.aims.square_sign[k])
    level = float(np.hypot(*square))
    square = square / level if level > 1e-6 else np.array([0.0, 1.0])
    ahead = float((face - pivot) @ square)
    corner = pivot + ahead * square
    mark = _mark(rig, k, square)
    points = [pivot, face, corner, given.clamp[:2, k], *([] if mark is None else [mark])]
    picture = Picture(sheet, box, "FROM ABOVE", points, length)
    picture.sides()
    _tube(picture, rig, k)
    p, f, c = picture.at(pivot), picture.at(face), picture.at(corner)
    apart = float(np.hypot(*(face - corner)))
    aside = (face - corner) / apart if apart > NOTHING else np.array([1.0, 0.0])
    picture.line(p, c, dash=4)
    picture.line(c, f, dash=4)
    if mark is not None:
        m = picture.at(mark)
        picture.across(m, np.array([square[1], -square[0]]), 1.6)
        picture.line(f, m, dash=2)
        picture.ring(m, 3.0)
    picture.arrow(p, f)
    picture.ring(p, 3.5)
    picture.face(f)
    if abs(ahead) > NOTHING:
        told = f"{'ahead' if ahead > 0 else 'behind'} {w.length(ahead, length, w.SIZE)}"
        picture.label(_between(p, c), told, -aside)
    if apart > NOTHING:
        told = f"aside {w.length(apart, length, w.SIZE)}"
        picture.label(_between(c, f), told, square * (1 if ahead >= 0 else -1))
    picture.label(p, f"pivot, {row.turn or row.sight}", -square)
    if mark is not None:
        picture.label(picture.at(mark), f"SIGHT {row.sight}", aside)
    picture.put_labels()


def draw_side(sheet: Sheet, box: Box, rig: SolidRig, row: Row, length: w.LengthUnit) -> None:
    """Draw pivot, face and the tip in the upright plane of the light, which goes towards the page's end."""
    k, given = row.k, rig.arrays
    pivot, face = rig.aims.pivot[:, k], given.point[:, k]
    way = face[:2] - pivot[:2]
    far = float(np.hypot(*way))
    way = way / far if far > 1e-6 else np.array([0.0, 1.0])

    def seen(point: Array) -> Array:
        return np.array([float((point[:2] - pivot[:2]) @ way), float(point[2])])

    start, end, top = seen(pivot), seen(face), seen(given.clamp[:, k])
    surface = float(rig.surface_z[k])
    corner, floor = np.array([end[0], start[1]]), np.array([end[0], surface])
    points = [start, end, top, corner, floor]
    stop = rig.answers[k].meets
    on = None
    if stop is not None and row.mark.word in ("LANDS", "ON"):
        on = seen(np.array(stop.point))
        points += [on] if on[0] - end[0] <= ON * max(far, 0.5) else []
    picture = Picture(sheet, box, "FROM THE SIDE, along its light", points, length)
    s, e, t, f, c = (picture.at(point) for point in (start, end, top, floor, corner))
    edge = picture.box
    picture.line((edge.left + 4, f[1]), (edge.right - 4, f[1]), weight=KEY)
    picture.line(t, s, weight=KEY)
    picture.ring(t, 4.5)
    picture.line(s, c, dash=4)
    picture.line(c, e, dash=4)
    if on is not None:
        past = picture.at(on)
        picture.line(
            e, past if edge.left < past[0] < edge.right else _to_edge(e, end - start, edge), dash=2
        )
    picture.arrow(s, e)
    picture.ring(s, 3.0)
    picture.face(e)
    if e[1] - f[1] > 12:
        picture.line(f, (e[0], e[1] - 5), weight=1.6)
    _side_labels(picture, rig, row, (s, e, t, f, c))
    picture.put_labels()


def _side_labels(picture: Picture, rig: SolidRig, row: Row, at: tuple[Spot, ...]) -> None:
    s, e, t, f, c = at
    k, given, length = row.k, rig.arrays, picture.length
    ahead, up = np.array([1.0, 0.0]), np.array([0.0, 1.0])
    pivot, face = rig.aims.pivot[:, k], given.point[:, k]
    rise, far = float(face[2] - pivot[2]), float(np.hypot(*(face - pivot)[:2]))
    picture.label(s, f"{row.tip.word} {row.tip.angle}".strip(), -ahead)
    on_plan = f"on plan {w.length(far, length, w.SIZE)}"
    picture.label(_between(s, c), on_plan, up if rise <= 0 else -up)
    if abs(rise) > NOTHING:
        told = f"{'below' if rise < 0 else 'above'} {w.length(rise, length, w.SIZE)}"
        picture.label(_between(c, e), told, ahead)
    clamp = w.length(float(given.clamp[2, k]), length, w.HANG)
    picture.label(t, f"clamp {clamp} up", up)
    drop = w.length(float(given.drop[k]), length, w.HANG)
    picture.label(_between(t, s), f"drop {drop}", -ahead)
    height = float(given.point[2, k] - rig.surface_z[k])
    if height > NOTHING:
        what = "point" if sighted(rig, k) == POINT else "face"
        picture.label(_between(f, e), f"{what} {w.length(height, length, w.SIZE)}", ahead)


def _mark(rig: SolidRig, k: int, square: Array) -> Array | None:
    """Where a unit's mark on its tape is on plan, (2,) metres; None without one."""
    answer, position = rig.answers[k], rig.positions[k]
    if answer.sight is None or not isinstance(position, Pipe) or answer.attitude == "plumb":
        return None
    here = place(position)
    along = np.array(here.along[:2]) / np.hypot(*here.along[:2])
    zero = np.array(here.zero[:2])
    return np.asarray(zero + along * answer.sight + square * float(rig.tapes.out[k]))


def _tube(picture: Picture, rig: SolidRig, k: int) -> None:
    """The tube through the clamp, as far as the box goes; a boom or a stand is a ring."""
    position, clamp = rig.positions[k], rig.arrays.clamp[:2, k]
    if isinstance(position, Pipe):
        along = np.array(gripped(position, rig.units[k], place(position)).along[:2])
        picture.across(picture.at(clamp), along / np.hypot(*along), 3.5)
        return
    foot = np.array([position.x, position.y])
    picture.ring(picture.at(foot), 5.0)
    picture.line(picture.at(foot), picture.at(rig.aims.pivot[:2, k]), weight=RULE)


def _to_edge(start: Spot, way: Array, box: Box) -> Spot:
    """Where a line from a point leaves a box."""
    share = np.inf
    for axis, (low, high) in enumerate(((box.left, box.right), (box.bottom, box.top))):
        step = float(way[axis])
        if abs(step) > 1e-9:
            share = min(share, max(0.0, ((high if step > 0 else low) - start[axis]) / step))
    return start[0] + share * float(way[0]), start[1] + share * float(way[1])


def _between(one: Spot, other: Spot) -> Spot:
    return (one[0] + other[0]) / 2, (one[1] + other[1]) / 2


def _round(side: Array) -> list[Array]:
    """A direction, then others further and further round from it."""
    turns = (0.0, 0.8, -0.8, 1.6, -1.6, 2.4, -2.4, 3.14)
    return [
        np.array([c * side[0] - s * side[1], s * side[0] + c * side[1]])
        for c, s in ((np.cos(t), np.sin(t)) for t in turns)
    ]


def _beside(at: Spot, side: Array, gap: float, wide: float, within: Box) -> Box:
    """The room of a label whose near edge is a gap away from a point, moved into a box."""
    x = at[0] + float(side[0]) * (gap + wide / 2)
    y = at[1] + float(side[1]) * (gap + SMALL / 2)
    x = min(max(x, within.left + 3 + wide / 2), within.right - 3 - wide / 2)
    y = min(max(y, within.bottom + 3 + SMALL / 2), within.top - 2 - SMALL / 2)
    return Box(x - wide / 2 - 1, y - SMALL / 2 - 1, x + wide / 2 + 1, y + SMALL / 2 + 1)


def _meets(one: Box, other: Box) -> bool:
    across = min(one.right, other.right) - max(one.left, other.left)
    return across > 0 and min(one.top, other.top) - max(one.bottom, other.bottom) > 0
