"""Small line drawings for the steps card: each fills a box, in black lines that live through two copies."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Sequence
from math import cos, pi, sin

from aimcalc.paper.page import KEY, SMALL, Box, Sheet

Point = tuple[float, float]
Draw = Callable[[Sheet, Box], None]

LINE = 1.4  # pt
CABLE = 2.2  # pt


def clamp(sheet: Sheet, box: Box) -> None:
    """Draw a clamp hung over a tube, seen along the tube, its opening to the side of an arrow."""
    x, y = box.left + 84, box.top - 16
    sheet.circle(x, y, 8.0, weight=KEY)
    hook = [(x + 13 * cos(a), y + 13 * sin(a)) for a in _turns(pi, 0.0)]
    _run(sheet, [(x - 13, y - 5), *hook, (x + 13, y - 17), (x - 5, y - 17)], 3.0)
    sheet.line(x + 4, y - 17, x + 4, box.bottom, weight=KEY)
    sheet.arrow(x - 48, y - 11, x - 14, y - 11, weight=1.6)
    sheet.text(x - 52, y - 14.5, "YOU", SMALL, bold=True, align="r")


def wrench(sheet: Sheet, box: Box) -> None:
    """Draw a wrench on the bolt of a clamp."""
    x, y = box.left + 34, (box.bottom + box.top) / 2
    sheet.shape(_ring(x, y, 8.0, 6), weight=KEY)
    _run(sheet, [(x - 6, y + 13), (x - 14, y), (x - 6, y - 13), (x + 4, y - 13)], KEY)
    _run(sheet, [(x - 6, y + 13), (x + 4, y + 13)], KEY)
    sheet.shape([(x + 4, y + 13), (x + 64, y + 5), (x + 64, y - 5), (x + 4, y - 13)], weight=LINE)
    sheet.arrow(x + 72, y + 16, x + 72, y - 16, weight=1.4)


def safety(sheet: Sheet, box: Box) -> None:
    """Draw a yoke under its pipe, with the safety cable round the pipe and through the yoke."""
    x, pipe, bar = _middle(box)[0], box.top - 9, box.top - 25
    sheet.box(Box(box.left + 8, pipe - 4, box.right - 8, pipe + 4), weight=LINE)
    sheet.line(x, pipe - 4, x, bar, weight=KEY)
    low = box.bottom + 1
    _run(sheet, [(x - 30, low), (x - 30, bar), (x + 30, bar), (x + 30, low)], KEY)
    middle, tall = (pipe + bar) / 2, (pipe - bar) / 2 + 9
    loop = [(x + 15 + 8 * cos(a), middle + tall * sin(a)) for a in _turns(0, 2 * pi, 28)]
    _run(sheet, loop, CABLE)


def tail(sheet: Sheet, box: Box) -> None:
    """Draw a body with its tail hanging free below."""
    x, y = box.left + 70, box.top - 12
    _body(sheet, x, y)
    points = [(x - 24, y - 8), (x - 30, y - 13), (x - 24, y - 18), (x - 32, y - 21)]
    _run(sheet, points, CABLE)
    sheet.box(Box(x - 42, y - 25, x - 32, y - 18), black=True)


def shutters(sheet: Sheet, box: Box) -> None:
    """Draw a body from above with its shutters, arrows outwards."""
    x, y = box.left + 58, (box.bottom + box.top) / 2
    _body(sheet, x, y)
    for way in (-1, 1):
        sheet.line(x + 2, y + way * 4, x + 2, y + way * 14, weight=3.0)
        sheet.arrow(x + 10, y + way * 10, x + 10, y + way * 22, weight=1.4)


def colour(sheet: Sheet, box: Box) -> None:
    """Draw a body from its side, a colour frame going in at its nose from above, a pattern at its middle."""
    x, y = box.left + 58, box.bottom + 13
    _body(sheet, x, y)
    for across, low in ((29, -2), (4, 4)):
        sheet.box(Box(x + across - 2, y + low, x + across + 2, y + low + 18), black=across == 4)
        sheet.arrow(x + across + 9, y + 26, x + across + 9, y + 10, weight=1.4)


def way_up(sheet: Sheet, box: Box) -> None:
    """Draw a body tipped down, its clip above and its tail below."""
    x, y = box.left + 66, (box.bottom + box.top) / 2 + 1
    _body(sheet, x, y, down=0.35)
    c, s = cos(-0.35), sin(-0.35)

    def at(ahead: float, above: float) -> Point:
        return x + ahead * c - above * s, y + ahead * s + above * c

    sheet.shape([at(16, 8), at(23, 9), at(23, 16), at(16, 15)], black=True)
    _run(sheet, [at(-22, -8), (x - 26, y - 12), (x - 22, y - 20)], CABLE)
    sheet.text(x + 32, box.top - 10, "CLIP", SMALL, bold=True)
    sheet.text(x - 32, box.bottom + 2, "TAIL", SMALL, bold=True, align="r")


def plug(sheet: Sheet, box: Box) -> None:
    """Draw a plug going into its outlet."""
    x, y = box.left + 50, (box.bottom + box.top) / 2
    _run(sheet, [(box.left + 6, y - 9), (x - 22, y)], CABLE)
    sheet.box(Box(x - 22, y - 7, x, y + 7), weight=KEY)
    for prong in (-4, 0, 4):
        sheet.line(x, y + prong, x + 9, y + prong, weight=LINE)
    sheet.arrow(x + 13, y, x + 26, y, weight=1.4)
    sheet.box(Box(x + 30, y - 11, x + 50, y + 11), weight=KEY)


def double_back(sheet: Sheet, box: Box) -> None:
    """Draw a pipe with a cable that runs from its outlet past the unit and comes back to it."""
    y = box.bottom + 18
    sheet.box(Box(box.left + 2, y - 3, box.right - 2, y + 3), weight=LINE)
    out, unit, turn = box.left + 14, box.left + 68, box.right - 12
    sheet.box(Box(out - 5, y - 5, out + 5, y + 5), black=True)
    sheet.line(unit, y - 3, unit, box.bottom + 2, weight=KEY)
    sheet.shape(_ring(unit, box.bottom + 3, 5.0, 16), weight=LINE)
    bend = [(turn + 6 * cos(a), y + 13 + 4 * sin(a)) for a in _turns(-pi / 2, pi / 2)]
    _run(sheet, [(out, y + 5), (out + 6, y + 9), *bend, (unit + 8, y + 17)], CABLE)
    sheet.arrow(unit + 18, y + 17, unit + 2, y + 17, weight=1.4)


def bow(sheet: Sheet, box: Box) -> None:
    """Draw a tie: two turns round pipe and cable, then a bow."""
    y, x = box.bottom + 20, box.left + 46
    sheet.box(Box(box.left + 2, y - 5, box.right - 2, y + 5), weight=LINE)
    sheet.line(box.left + 2, y + 9, box.right - 2, y + 9, weight=CABLE)
    for k in (0, 1):
        sheet.line(x - 3 + 6 * k, y - 9, x + 1 + 6 * k, y + 14, weight=2.6)
    for way in (-1, 1):
        loop = [
            (x + 2 + way * (11 + 9 * cos(a)), y - 12 + 4.5 * sin(a)) for a in _turns(0, 2 * pi, 20)
        ]
        _run(sheet, loop, 1.6)
        sheet.line(x + 2, y - 11, x + 2 + way * 8, y - 20, weight=1.6)


def level(sheet: Sheet, box: Box) -> None:
    """Draw a body tipped down, a level lying along the top of its barrel, and where it does not lie."""
    x, y = box.left + 0.42 * box.width, box.bottom + 0.36 * box.height
    tip, c, s = 0.5, cos(-0.5), sin(-0.5)
    sheet.box(Box(x - 5, box.top - 10, x + 5, box.top), weight=LINE)
    sheet.line(x, box.top - 10, x, y, weight=KEY)
    _body(sheet, x, y, down=tip, size=1.5)

    def at(ahead: float, above: float) -> Point:
        return x + ahead * c - above * s, y + ahead * s + above * c

    sheet.shape([at(-20, 15), at(18, 15), at(18, 21), at(-20, 21)], black=True)
    where = at(20, 22)
    sheet.text(where[0] + 12, where[1] + 2, "LEVEL HERE: top of the barrel,", 13, bold=True)
    sheet.text(where[0] + 12, where[1] - 13, "along it, not across", 13, bold=True)
    sheet.text(x - 8, box.top - 24, "not on the yoke", 11, align="r")
    back = at(-40, 0)
    sheet.text(back[0] - 6, back[1] - 3, "not on the back cap", 11, align="r")


def tape(sheet: Sheet, box: Box) -> None:
    """Draw pipe, unit, tape and its zero from above, and from where somebody sights along the barrel."""
    pipe, deck = box.top - 20, box.bottom + 16
    zero, unit = box.left + 0.34 * box.width, box.left + 0.5 * box.width
    mark = box.left + 0.78 * box.width
    sheet.box(Box(box.left + 40, pipe - 3, box.right - 70, pipe + 3), weight=LINE)
    sheet.text(box.left + 36, pipe - 4, "PIPE", 11, bold=True, align="r")
    sheet.box(Box(box.left + 40, deck - 4, box.right - 70, deck + 4), weight=LINE)
    for k in range(1, 12):
        x = box.left + 40 + k * (box.width - 110) / 12
        sheet.line(x, deck, x, deck + 4, weight=LINE)
    sheet.text(box.left + 36, deck - 4, "TAPE", 11, bold=True, align="r")
    for y in (pipe, deck):
        sheet.shape([(zero, y + 5), (zero - 4, y + 12), (zero + 4, y + 12)], black=True)
    sheet.text(zero - 7, pipe + 7, "zero mark", 11, align="r")
    sheet.text(zero - 7, deck + 8, "0", 12, bold=True, align="r")
    sheet.line(zero, pipe - 3, zero, deck + 12, weight=LINE, dash=5)
    far = (mark - unit, deck - pipe)
    long = (far[0] ** 2 + far[1] ** 2) ** 0.5
    u = (far[0] / long, far[1] / long)
    eye = (unit - 26 * u[0], pipe - 26 * u[1])
    sheet.line(unit - 14 * u[0], pipe - 14 * u[1], unit + 16 * u[0], pipe + 16 * u[1], weight=7.0)
    sheet.arrow(unit + 16 * u[0], pipe + 16 * u[1], mark, deck + 4, weight=1.4)
    sheet.circle(*eye, 3.2, weight=1.6)
    sheet.text(eye[0] + 8, eye[1] - 1, "EYE, along the barrel", 11, bold=True)
    sheet.text(mark + 6, deck + 9, "the row's figure", 11, bold=True)


def _body(sheet: Sheet, x: float, y: float, down: float = 0.0, size: float = 1.0) -> None:
    """Draw a body from its side with its pivot at (x, y), tipped down by `down` radians."""
    c, s = cos(-down), sin(-down)
    outline = [(-26, -8), (14, -8), (26, -10), (26, 10), (14, 8), (-26, 8)]
    points = [
        (x + size * (ahead * c - above * s), y + size * (ahead * s + above * c))
        for ahead, above in outline
    ]
    sheet.shape(points, weight=1.6, white=True)
    sheet.circle(x, y, 2.5 * size, weight=1.4)


def _middle(box: Box) -> Point:
    return (box.left + box.right) / 2, (box.bottom + box.top) / 2


def _turns(first: float, last: float, pieces: int = 16) -> list[float]:
    """Angles in radians from `first` to `last`."""
    return [first + (last - first) * k / pieces for k in range(pieces + 1)]


def _ring(x: float, y: float, radius: float, corners: int) -> list[Point]:
    turns = _turns(0.0, 2 * pi, corners)[:-1]
    return [(x + radius * cos(a), y + radius * sin(a)) for a in turns]


def _run(sheet: Sheet, points: Sequence[Point], weight: float) -> None:
    """Draw straight pieces through points."""
    for (x0, y0), (x1, y1) in itertools.pairwise(points):
        sheet.line(x0, y0, x1, y1, weight=weight)
