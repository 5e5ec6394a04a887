"""Units as a light plot shows them: outlines in metres, made from the real sizes of their kinds.

A unit is drawn from above with its body level, its clamp at (0, 0) and its nose towards +y; whoever draws it
turns it by its heading. The body is as long and as wide as its kind, and its pivot lies as far behind the
lens; the yoke stands beside it as it does in `geometry.bodies`. What is drawn inside tells the family.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.bodies import YOKE_CLEAR, YOKE_FLAT
from aimcalc.geometry.vectors import Array, to_radians
from aimcalc.named import NamedTuple
from aimcalc.paper import marks
from aimcalc.rig.kinds import Size, size_of

if TYPE_CHECKING:
    from aimcalc.scene.model import Kind
    from aimcalc.solid.rig import SolidRig


LETTERED = 3.2  # mm: bodies that are no wider have no room for the letter of their kind
LETTER_OFF = 1.6  # mm from the clamp to the middle of a letter
LEAST = 0.05  # m, of a side of a body: nothing smaller could be drawn
AWAY = 0.02  # m in plan from clamp to pivot from which a stem is drawn between them
BEVEL = 0.3  # of half the width, at the back of a body
BARREL = 0.66  # the width of an ellipsoidal's barrel, of the body's


class Symbol(NamedTuple):
    """Closed outlines, the body's first, and open strokes, (n, 2) m each; `clamp` is where it is held, (2,).

    `letter` is where the kind's letter has most room, and `girth` how wide the body is there.
    """

    outlines: tuple[Array, ...]
    strokes: tuple[Array, ...]
    letter: tuple[float, float]
    girth: float
    clamp: Array = np.zeros(2)
    stem: bool = False  # whether a stroke goes from clamp to pivot
    ahead: tuple[float, float] = (0.0, 1.0)  # the way of its nose

    def placed(self, spot: Array, turn: float) -> Symbol:
        """It with its clamp at a spot (2,) of the plan, its nose `turn` radians clockwise from upstage."""
        c, s = np.cos(turn), np.sin(turn)
        way = np.array([(c, -s), (s, c)])  # rows of points: (0, 1) becomes (sin, cos)
        x, y = (np.array(self.letter) @ way + spot).tolist()
        outlines = tuple(part @ way + spot for part in self.outlines)
        strokes = tuple(part @ way + spot for part in self.strokes)
        return Symbol(outlines, strokes, (x, y), self.girth, spot, self.stem, (float(s), float(c)))

    def has_room(self, scale: float) -> bool:
        """Whether a letter can be read in the body on a drawing 1 to `scale`, clear of clamp and stem."""
        off = float(np.hypot(*(np.array(self.letter) - self.clamp))) * 1000 / scale
        return self.girth * 1000 / scale >= LETTERED and off >= LETTER_OFF and not self.stem


class Look(NamedTuple):
    """What units that look alike share: their kind, whether they point straight up or down, and where the
    pivot is from the clamp, m to the nose's own right-hand side and ahead, in whole centimetres.
    """

    kind: str
    plumb: bool
    aside: float
    ahead: float


def looks_of(rig: SolidRig) -> tuple[list[Look], Array]:
    """The look of every unit and its heading (N,), radians clockwise from upstage; 0 of one without."""
    axis = np.nan_to_num(rig.axis)
    plumb = np.array([answer.heading is None for answer in rig.answers], dtype=bool)
    turn = np.where(plumb, 0.0, np.arctan2(axis[0], axis[1]))
    stem = np.nan_to_num(rig.aims.pivot - rig.arrays.clamp)[:2]
    aside = stem[0] * np.cos(turn) - stem[1] * np.sin(turn)
    ahead = stem[0] * np.sin(turn) + stem[1] * np.cos(turn)
    whole = np.round(np.stack((aside, ahead)), 2) + 0.0
    looks = [
        Look(unit.kind, bool(plumb[k]), *whole[:, k].tolist()) for k, unit in enumerate(rig.units)
    ]
    return looks, turn


def symbol(kind: Kind, look: Look) -> Symbol:
    """How units of a kind are drawn that have this look."""
    size = size_of(kind)
    size = Size(max(size.length, LEAST), max(size.width, LEAST), size.nose)
    here = np.array([look.aside, look.ahead])
    body = _plumb(size) if look.plumb else _lying(kind, size)
    outlines = [part + here for part in body.outlines]
    strokes = [part + here for part in body.strokes]
    stem = bool(np.hypot(*here) > AWAY)
    if stem:
        strokes.append(np.array([(0.0, 0.0), here]))
    x, y = (np.array(body.letter) + here).tolist()
    return Symbol(tuple(outlines), tuple(strokes), (x, y), body.girth, stem=stem)


def _lying(kind: Kind, size: Size) -> Symbol:
    """A level body about its pivot, with yoke and top hat."""
    front, back, half = size.nose, size.nose - size.length, size.width / 2
    drawn = _FAMILIES[kind.family](front, back, half)
    outlines, strokes = [*drawn.outlines], [*drawn.strokes]
    if kind.top_hat:
        outlines.append(_box(front, front + kind.top_hat, drawn.girth / 2 * 0.9))
    out = half + YOKE_CLEAR
    flat = YOKE_FLAT / 2
    for side in (-1.0, 1.0):
        arm = np.array([(half, -flat), (out, -flat), (out, flat), (half, flat)])
        outlines.append(arm * (side, 1.0))
    return Symbol(tuple(outlines), tuple(strokes), drawn.letter, drawn.girth)


def _plumb(size: Size) -> Symbol:
    """A body that points straight up or down: round, with a cross."""
    half = size.width / 2
    strokes = tuple(marks.cross(0.0, 0.0, half))
    return Symbol((marks.circle(0.0, 0.0, half),), strokes, (0.0, 0.0), 0.0)


def _ellipsoidal(front: float, back: float, half: float) -> Symbol:
    """A wide lamp house behind a narrow barrel; the shutters stand out between them."""
    joint, thin, bevel = back + 0.42 * (front - back), BARREL * half, BEVEL * half
    right = [(half, back + bevel), (half, joint), (thin, joint), (thin, front)]
    gate = [(-half * 1.15, joint), (half * 1.15, joint)]
    lens = front - 0.12 * (front - back)
    return Symbol(
        (_mirrored([(half - bevel, back), *right]),),
        (np.array(gate), np.array([(-thin, lens), (thin, lens)])),
        (0.0, (back + joint) / 2),
        2 * half,
    )


def _fresnel(front: float, back: float, half: float) -> Symbol:
    """A box with a bevelled back; a stepped lens."""
    return _boxed(front, back, half, [0.10, 0.18, 0.26])


def _plano_convex(front: float, back: float, half: float) -> Symbol:
    """The same box with one bowed lens."""
    body = _boxed(front, back, half, [0.24])
    turns = to_radians(np.linspace(-60.0, 60.0, 9))
    depth = 0.16 * (front - back)
    bow = np.stack((half * np.sin(turns) / np.sin(turns[-1]), np.cos(turns)), axis=1)
    bow[:, 1] = front - 0.24 * (front - back) + depth * (bow[:, 1] - bow[0, 1]) / (1 - bow[0, 1])
    return body._replace(strokes=(*body.strokes, bow))


def _par(front: float, back: float, half: float) -> Symbol:
    """A can that widens to its middle, its lamp across it."""
    middle = back + 0.45 * (front - back)
    right = [(0.5 * half, back), (half, middle), (half, front)]
    return Symbol(
        (_mirrored(right),),
        (np.array([(-half, middle), (half, middle)]),),
        (0.0, (middle + front) / 2),
        2 * half,
    )


def _flood(front: float, back: float, half: float) -> Symbol:
    """A tray that opens to its front."""
    return Symbol(
        (_mirrored([(0.55 * half, back), (half, front)]),), (), _middle(front, back), half
    )


def _cyc(front: float, back: float, half: float) -> Symbol:
    """The same tray with its long lamp across it."""
    lamp = back + 0.3 * (front - back)
    tray = _flood(front, back, half)
    stroke = np.array([(-0.5 * half, lamp), (0.5 * half, lamp)])
    return tray._replace(strokes=(stroke,), letter=(0.0, (lamp + front) / 2))


def _boxed(front: float, back: float, half: float, across: list[float]) -> Symbol:
    """A box with a bevelled back, and strokes across it so far behind its front, of its length."""
    bevel, long = BEVEL * half, front - back
    outline = _mirrored([(half - bevel, back), (half, back + bevel), (half, front)])
    strokes = [
        np.array([(-half, front - share * long), (half, front - share * long)]) for share in across
    ]
    return Symbol((outline,), tuple(strokes), (0.0, back + 0.26 * long), 2 * half)


def _middle(front: float, back: float) -> tuple[float, float]:
    return 0.0, (front + back) / 2


def _mirrored(right: list[tuple[float, float]]) -> Array:
    """An outline from its right-hand half, told from back to front."""
    return np.array([*right, *((-x, y) for x, y in reversed(right))])


def _box(low: float, high: float, half: float) -> Array:
    return np.array([(-half, low), (half, low), (half, high), (-half, high)])


_FAMILIES = {
    "ers": _ellipsoidal,
    "fresnel": _fresnel,
    "pc": _plano_convex,
    "par": _par,
    "flood": _flood,
    "cyc": _cyc,
}
