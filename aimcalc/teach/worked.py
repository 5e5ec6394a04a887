"""A unit's printed figures by pocket calculator: a second way to them, from clamp, drop and face alone.

Nothing of the solver's answers goes in. As many digits are written down as it takes for the sums to come to
the figures that are printed: four, or more where a figure lies close to a half.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.aim import pose
from aimcalc.geometry.vectors import Array, to_degrees, to_radians
from aimcalc.named import NamedTuple
from aimcalc.rig.places import LEANS, place
from aimcalc.rig.wording import INCH
from aimcalc.scene.model import Pipe
from aimcalc.teach.calculator import Step, Sum, Tape, called, number, root, total
from aimcalc.text import words as w

if TYPE_CHECKING:
    from aimcalc.solid.rig import SolidRig
    from aimcalc.text.rows import Row

DIGITS = (4, 5, 6, 7, 8)
NEAREST, WHOLE_DOWN = "to the nearest degree", "down to a whole degree, 1 at least"
SIDES = (("SL", "SR"), ("US", "DS"), ("up", "down"))
Signed = tuple[float, Sum]


class Way(NamedTuple):
    """From pivot to point: the size of each of its parts, and their signs (to SL, US, up)."""

    sizes: list[Sum]
    signs: list[int]
    plan: Sum
    whole: Sum

    def along(self, direction: list[float], tape: Tape) -> tuple[Sum, int]:
        """The part of it along a unit direction, its size and its sign."""
        digits = tape.digits + 1
        return total(
            [
                (sign * part, size if abs(abs(part) - 1) < 1e-12 else size * number(part, digits))
                for size, sign, part in zip(self.sizes, self.signs, direction, strict=True)
                if abs(part) > 1e-12
            ]
        )


def worked(rig: SolidRig, row: Row, length: w.LengthUnit) -> list[Step]:
    """The steps that lead to the figures of a unit's row; none for a unit that has no aim.

    Lengths are metres, or inches where the sheets are in feet.
    """
    if not np.isfinite(rig.aims.throw[row.k]):
        return []
    steps: list[Step] = []
    for digits in DIGITS:
        steps = _Worked(rig, row, length, digits).steps()
        if all(agrees(step, length) for step in steps):
            break
    return steps


def agrees(step: Step, length: w.LengthUnit) -> bool:
    """Whether what is written down comes to the figure that is printed, rounded as it says."""
    if not step.prints:
        return True
    shown = float(step.shows)
    if step.rounding == NEAREST:
        return step.prints == w.angle(shown)
    if step.rounding == WHOLE_DOWN:
        return step.prints == w.within(shown)
    metres = shown * (1.0 if length == "m" else INCH)
    sizes = {rounding_of(size, length): size for size in (w.SIZE, w.DECK)}
    return step.prints == w.length(metres, length, sizes[step.rounding.partition(":")[0]])


def rounding_of(step: w.Step, length: w.LengthUnit) -> str:
    """How a length is rounded, in words."""
    size = f"{step.metres:g} m" if length == "m" else f"{step.inches:g} in"
    return f"to the nearest {size}"


class _Worked:
    """The steps of one unit at one number of digits."""

    def __init__(self, rig: SolidRig, row: Row, length: w.LengthUnit, digits: int) -> None:
        self.rig, self.row, self.k, self.length = rig, row, row.k, length
        self.answer = rig.answers[row.k]
        self.tape = Tape(digits)
        self.per_metre = 1.0 if length == "m" else 1 / INCH

    def size(self, metres: float) -> Sum:
        """A length that is keyed in."""
        return number(metres * self.per_metre, self.tape.digits + 1)

    def steps(self) -> list[Step]:
        given, k = self.rig.arrays, self.k
        stem = given.stem[:, k].tolist()
        leaning = abs(stem[2]) < LEANS
        way = self._way(stem)
        axis = [(float(s), size) for s, size in zip(way.signs, way.sizes, strict=True)]
        flat, reach = way.plan, way.whole
        turned = self._dial(way, stem, leaning)
        if given.rise[k]:
            reach = self.tape.step(
                "pivot to face along the light", root(_less(way.whole, self.size(given.rise[k])))
            )
        if leaning and given.rise[k]:
            axis = self._axis(way, turned)
            flat = self.tape.step("across the deck", root(_squares([s for _, s in axis[:2]])))
        self._heading(axis, leaning)
        self._down(axis, flat, way, leaning)
        self._throw(reach)
        light = Way([size for _, size in axis], [int(s) for s, _ in axis], flat, reach)
        self._sight(light)
        self._lands(way)
        return self.tape.steps

    def _way(self, stem: list[float]) -> Way:
        """From the pivot to the face; the pivot is the drop away from the clamp, along the stem."""
        given, k, tape = self.rig.arrays, self.k, self.tape
        sizes, signs = [], []
        for axis, sides in enumerate(SIDES):
            face, clamp = float(given.point[axis, k]), float(given.clamp[axis, k])
            pivot: list[Signed] = [(clamp, self.size(clamp))]
            if abs(stem[axis]) > 1e-12:
                off = self.size(given.drop[k])
                if abs(stem[axis]) < 1 - 1e-12:
                    off *= number(stem[axis], tape.digits + 1)
                pivot.append((stem[axis], off))
            if len(pivot) > 1 and abs(given.drop[k]) > 1e-9:
                here, sign = total(pivot)
                what = f"pivot, {_from(axis)}" + (f" to {sides[sign < 0]}" if axis < 2 else "")
                pivot = [(sign, tape.step(what, here))]
            made, sign = total([(face, self.size(face)), *((-s, size) for s, size in pivot)])
            signs.append(sign)
            told = f"pivot to face, {sides[sign < 0]}" if sign else f"pivot to face, {_none(axis)}"
            sizes.append(tape.step(told, made))
        plan = tape.step("pivot to face on plan", root(_squares(sizes[:2])))
        whole = tape.step("pivot to face, straight", root(_squares([plan, sizes[2]])))
        return Way(sizes, signs, plan, whole)

    def _dial(self, way: Way, stem: list[float], leaning: bool) -> tuple[Sum, Sum] | None:
        """The turn at the clamp; of a leaning stem the yoke angle too: (yoke, way across the stem)."""
        given, k, tape = self.rig.arrays, self.k, self.tape
        reference = given.reference[:, k].tolist()
        beside = np.cross(given.stem[:, k], given.reference[:, k]).tolist()
        ahead, _ = way.along(reference, tape)
        aside, _ = way.along(beside, tape)
        if self.row.turn == w.FREE or not (self.row.turn or leaning):
            return None
        ahead, aside = (
            tape.step(what, made)
            for what, made in (("ahead, along square", ahead), ("aside of square", aside))
        )
        pan = called("inv tan", aside / ahead) if ahead.value else number(90.0, 0)
        turn = self.answer.pan or 0.0
        tape.step("PAN from square, at the clamp", pan, w.angle(turn), NEAREST)
        if not leaning:
            return None
        up_stem, sign = way.along(stem, tape)
        up_stem = tape.step("away from the clamp along the stem", up_stem)
        across = tape.step("square to the stem", root(_squares([ahead, aside])))
        lean = called("inv tan", up_stem / across)
        parts: list[Signed] = [(sign, lean)]
        if self._turned_over(way):
            parts = [(sign or 1, number(180.0, 0)), (-sign, lean)]
        parts.append((float(given.rise[k]), self._lift(way)))
        made, _ = total(parts)
        if made.value > 180.0:
            made, _ = total([(1, number(360.0, 0)), (-1, made)])
        yoke = self.answer.yoke or 0.0
        told = tape.step("YOKE from square to the stem", made, w.angle(yoke), NEAREST)
        return told, across

    def _lift(self, way: Way) -> Sum:
        """The angle by which a lens off its pivot tips the light."""
        rise = self.size(self.rig.arrays.rise[self.k])
        return called("inv sin", rise / way.whole)

    def _turned_over(self, way: Way) -> bool:
        """Whether the body is turned over in its yoke: of the two ways to hit, the second."""
        lift = to_degrees(
            np.arcsin(self.rig.arrays.rise[self.k] * self.per_metre / way.whole.value)
        )
        return bool(np.cos(to_radians((self.answer.yoke or 0.0) - lift)) < 0)

    def _axis(self, way: Way, turned: tuple[Sum, Sum] | None) -> list[Signed]:
        """The light's own direction where the lens is off its pivot and the stem leans: m v + n a."""
        assert turned is not None
        yoke, across = turned
        tape, k = self.tape, self.k
        stem = self.rig.arrays.stem[:, k].tolist()
        sense = 1.0 if (self.answer.yoke or 0.0) >= 0 else -1.0
        over = yoke.value > 90.0  # a cosine below nought, which nobody keys in
        slant = called("cos", total([(1, number(180.0, 0)), (-1, yoke)])[0] if over else yoke)
        m = tape.step("share of the way to the face", slant * way.whole / across)
        up_stem, sign = way.along(stem, tape)
        share = 1.0 if over == self._turned_over(way) else -1.0
        n, n_sign = total([(sense, way.whole * called("sin", yoke)), (-sign * share, m * up_stem)])
        n = tape.step("share of the stem", n)
        found: list[Signed] = []
        for axis, what in enumerate(("across", "up and down stage", "up and down")):
            part = number(stem[axis], tape.digits + 1)
            made, way_sign = total(
                [
                    (share * way.signs[axis], m * way.sizes[axis]),
                    (n_sign * stem[axis] if abs(stem[axis]) > 1e-12 else 0.0, n * part),
                ]
            )
            found.append((way_sign, tape.step(f"the light goes {what}", made)))
        return found

    def _heading(self, axis: list[Signed], leaning: bool) -> None:
        """The true heading, where the row prints one."""
        position, base = self.rig.positions[self.k], self.row.base
        if not (leaning or not isinstance(position, Pipe)) or self.answer.heading is None:
            return
        if self.answer.attitude == "plumb" or not base:
            return
        (sx, across), (sy, deep) = axis[:2]
        facing = {"US": (sy, deep), "DS": (-sy, deep), "SL": (sx, across), "SR": (-sx, across)}[
            base
        ]
        aside = across if base in ("US", "DS") else deep
        off = abs((self.answer.heading - 90 * w.SIDES.index(base) + 180) % 360 - 180)
        if not facing[1].value:
            made = number(90.0, 0)
        else:
            turn = called("inv tan", aside / facing[1])
            made = turn if facing[0] > 0 else total([(1, number(180.0, 0)), (-1, turn)])[0]
        self.tape.step(f"TRUE HEADING off {base}", made, w.angle(off), NEAREST)

    def _down(self, axis: list[Signed], flat: Sum, way: Way, leaning: bool) -> None:
        """DOWN or UP and plumb; then how far off each may be, of a round field."""
        down, given, k, tape = self.answer.down or 0.0, self.rig.arrays, self.k, self.tape
        sign, fall = axis[2]
        made = called("inv tan", fall / flat) if flat.value else number(90.0, 0)
        if given.rise[k] and not leaning:
            pan = self.rig.aims.turn[k : k + 1]
            _, up = pose(given.stem[:, [k]], given.reference[:, [k]], pan, self.rig.aims.yoke[[k]])
            made, _ = total([(-sign, made), (float(up[2, 0] * given.rise[k]), self._lift(way))])
        tip = w.tip(down)
        told = tape.step(f"{tip.word} from level", made, tip.angle or "0°", NEAREST)
        whole = number(float(w.steps(down, 1.0)), 0)
        plumb = Sum(f"90 less {whole.keys}", 90.0 - whole.value, loose=True)
        tape.step("PLUMB, what is left to 90°", plumb, tip.plumb, NEAREST)
        if self.rig.kinds[k].oval or not self.row.within[0]:
            return
        share = number(given.tolerance[k] / given.field[k], 4)
        field = number(float(to_degrees(given.field[k])), tape.digits)
        may = tape.step(
            f"{tip.word} may be off by",
            share * field,
            w.within(self.answer.down_tolerance),
            WHOLE_DOWN,
        )
        if self.row.within[1].startswith("pan") and self.row.within[1] != "pan any" and not leaning:
            made = may / called("cos", told)
            tape.step("pan may be off by", made, self.row.within[1][4:], WHOLE_DOWN)

    def _throw(self, reach: Sum) -> None:
        """Throw, and how wide the field is there."""
        given, k, tape = self.rig.arrays, self.k, self.tape
        near = rounding_of(w.SIZE, self.length)
        made, _ = total([(1, reach), (-1, self.size(given.nose[k]))])
        told = w.length(self.answer.throw or 0.0, self.length, w.SIZE)
        throw = tape.step("THROW, lens to face", made, told, near)
        if self.answer.field_diameter is None or self.rig.kinds[k].oval:
            return
        field = number(float(to_degrees(given.field[k])), tape.digits)
        wide = number(2.0, 0) * throw * called("tan", field / number(2.0, 0))
        across = w.length(self.answer.field_diameter, self.length, w.SIZE)
        tape.step("FIELD across, square to the light", wide, across, near)

    def _sight(self, way: Way) -> None:
        """The mark on the sight tape: the plan triangle drawn out to the tape."""
        rig, k, tape, answer = self.rig, self.k, self.tape, self.answer
        if answer.sight is None or not self.row.sight or answer.attitude == "plumb":
            return
        given, sign = rig.arrays, float(rig.aims.square_sign[k])
        square = (given.reference[:2, k] / np.hypot(*given.reference[:2, k]) * sign).tolist()
        tape_way = np.array([square[1], -square[0]]) * sign
        plus = _tape_plus(rig, k)
        tape_way = tape_way if tape_way @ plus > 0 else -tape_way
        ahead, _ = way.along([*square, 0.0], tape)
        aside, to = way.along([*tape_way.tolist(), 0.0], tape)
        out = self.size(rig.tapes.out[k] - rig.tape_off[k])
        at = float(given.tape_at[k])
        parts: list[Signed] = [(at, self.size(at))]
        if aside.value:
            parts.append((to, out * aside / ahead))
        made, _ = total(parts)
        near = rounding_of(w.DECK, self.length)
        prints = w.length(answer.sight, self.length, w.DECK)
        tape.step(
            "SIGHT, from the tape's 0", made, prints, near + _as_words(prints, self.row.sight)
        )

    def _lands(self, way: Way) -> None:
        """LANDS: the straight way on past the face, in the same proportion."""
        rig, k, answer = self.rig, self.k, self.answer
        stop = answer.meets
        if self.row.mark.word != "LANDS" or stop is None or rig.arrays.rise[k]:
            return
        rise = self.size(float(rig.arrays.point[2, k]) - stop.point[2])
        past = self.tape.step("past the face, as a share of the way to it", rise / way.sizes[2])
        near = rounding_of(w.DECK, self.length)
        for axis, sides in enumerate(SIDES[:2]):
            face = float(rig.arrays.point[axis, k])
            made, sign = total([(face, self.size(face)), (way.signs[axis], past * way.sizes[axis])])
            prints = w.length(stop.point[axis], self.length, w.DECK)
            told = (self.row.mark.first, self.row.mark.second)[axis]
            what = f"LANDS, {_from(axis)} to {sides[sign < 0]}"
            self.tape.step(what, made, prints, near + _as_words(prints, told))


def _tape_plus(rig: SolidRig, k: int) -> Array:
    """The plan direction in which a unit's sight tape counts up, (2,)."""
    along = np.array(place(rig.positions[k]).along[:2])
    return np.asarray(along / np.hypot(*along))


def _from(axis: int) -> str:
    return ("from the centre line", "from the plaster line", "height")[axis]


def _as_words(prints: str, told: str) -> str:
    """Where the sheet has a word for nothing, that word: ": CENTRE LINE"."""
    return "" if prints in told else f": {told}"


def _none(axis: int) -> str:
    return ("not aside", "not up or down stage", "level")[axis]


def _squares(sizes: list[Sum]) -> Sum:
    return total([(1, size.squared) for size in sizes])[0]


def _less(whole: Sum, part: Sum) -> Sum:
    return total([(1, whole.squared), (-1, part.squared)])[0]
