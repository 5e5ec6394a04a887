"""The questions of a drill: what is asked of a unit, its answer, how near is right, what each mistake gives.

A question tells all the numbers that its answer needs, as they are printed; so whoever answers works with
figures that are rounded, and `NEAR` leaves room for that. A mistake that gives the right answer, or nearly,
is left out: it could not be told from it. Mistakes are common ones of classes (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from math import atan2, hypot, tan
from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.deck import height
from aimcalc.geometry.vectors import to_degrees, to_radians
from aimcalc.hang.records import PositionPlan, UnitPlan
from aimcalc.named import NamedTuple
from aimcalc.rig.places import DIRECTIONS
from aimcalc.rig.wording import along as place_along
from aimcalc.rig.wording import length, plan
from aimcalc.rig.wording import weight as weight_of
from aimcalc.scene.lengths import UNITS
from aimcalc.scene.model import Pipe
from aimcalc.text.facts import noun
from aimcalc.text.rows import along, zero_words

if TYPE_CHECKING:
    from aimcalc.show import Show
    from aimcalc.solid.answers import Answer

SAFE, UPRIGHT, TAIL, LANDING = GROUPS = ("safe", "upright", "tail", "landing")
FEET = UNITS["ft"][0] / UNITS["ft"][1]
OPPOSITE = {"SL": "SR", "SR": "SL", "US": "DS", "DS": "US"}
ATTITUDES = ("upright", "on its side", "upside down")
# How near is right: metres, degrees, kilograms, by what is asked.
NEAR = {
    "mark": 0.03,
    "sight": 0.15,
    "down": 1.5,
    "pool": 0.15,
    "reach": 0.02,
    "turn back": 0.06,
    "weigh": 1.0,
}
SAME_SPOT = 1.0  # m: a spot nearer than that to another cannot be told from it on a plan


class Mistake(NamedTuple):
    """A mistake by its name, and what it gives in place of the answer."""

    name: str
    gives: float | str


class Question(NamedTuple):
    """One question of one unit or one position.

    `form` says how it is answered: `place` (signed along a line whose + side is the first of `sides`),
    `length`, `angle` and `weight` by a number in metres, degrees or kilograms; `word` by one of `choices`;
    `unit` by the number of a unit. `near` is how far off still is right; 0 of words.
    """

    sort: str
    group: str
    subject: str
    asks: str
    form: str
    answer: float | str
    mistakes: tuple[Mistake, ...]
    near: float = 0.0
    sides: tuple[str, str] = ("", "")
    choices: tuple[str, ...] = ()


class Asked(NamedTuple):
    """One unit as questions are made of it."""

    show: Show
    k: int
    position: PositionPlan
    plan: UnitPlan

    @property
    def answer(self) -> Answer:
        return self.show.rig.answers[self.k]

    @property
    def unit(self) -> str:
        """The scene's unit of length, which the questions are in."""
        return self.show.rig.scene.settings.unit

    @property
    def pipe(self) -> Pipe | None:
        """The level, straight pipe that holds the unit; None where it hangs on anything else."""
        holder = self.show.rig.positions[self.k]
        if not isinstance(holder, Pipe) or holder.through is not None or holder.chords:
            return None
        return holder if abs(holder.start[2] - holder.end[2]) < 1e-9 else None

    @property
    def called(self) -> str:
        return f"{self.plan.unit.rpartition('/')[0]}, unit {self.plan.number}"

    def size(self, metres: float) -> str:
        return length(metres, self.unit)


def plot(one: Asked) -> Question | None:
    """Which unit hangs at a place: the plot read the right way round."""
    pipe, at = one.pipe, one.plan.at
    if pipe is None or at is None:
        return None
    others = {u.number: u.at for u in one.position.units if u.at is not None}
    if sum(abs(there - at) < SAME_SPOT / 4 for there in others.values()) > 1:
        return None
    names = [u.number for u in one.position.units]
    counted = names[len(names) - 1 - names.index(one.plan.number)]
    where = place_along(at, along(pipe), one.unit)
    return _told(
        one,
        "plot",
        f"On the plot: which unit of {one.position.position} hangs at {where}, "
        f"counted from the {zero_words(pipe)}?",
        one.plan.number,
        [
            Mistake("mirrored", _there(others, -at, SAME_SPOT / 4)),
            Mistake("wrong end", counted),
        ],
    )


def _there(places: dict[str, float], at: float, within: float) -> str:
    """The number of the unit that hangs at a place, "" for none."""
    near = [number for number, there in places.items() if abs(there - at) < within]
    return near[0] if near else ""


def mark(one: Asked) -> Question | None:
    """How far from the end where the marks begin a clamp's mark is."""
    pipe, at = one.pipe, one.plan.at
    start, end = one.position.start, one.position.end
    if pipe is None or at is None or start is None or end is None:
        return None
    sides = along(pipe)
    first, last = (place_along(end_at, sides, one.unit) for end_at in (start, end))
    return _told(
        one,
        "mark",
        f"{one.position.position} runs from {first} to {last} and is marked from its "
        f"{one.position.start_word.replace('END', 'end')}. Unit {one.plan.number} hangs at "
        f"{place_along(at, sides, one.unit)}. How far from that end is its mark?",
        abs(at - start),
        [
            Mistake("wrong end", abs(end - at)),
            Mistake("mirrored", abs(-at - start)),
            *_in_feet(abs(at - start)),
        ],
        form="length",
    )


def square(one: Asked) -> Question | None:
    """Which way is square."""
    pipe, answer = one.pipe, one.answer
    if pipe is None or answer.square is None or answer.pan is None or answer.pan > 60:
        return None
    x, y, _ = answer.clamp
    return _told(
        one,
        "square",
        f"{one.called}: clamp {plan(x, y, one.unit)}; face {plan(*answer.face[:2], one.unit)}. "
        "Which way is square for it?",
        answer.square,
        [Mistake("wrong side", OPPOSITE[answer.square])],
        choices=("US", "DS") if DIRECTIONS[answer.square][1] else ("SL", "SR"),
    )


def sight(one: Asked) -> Question | None:
    """Where on its tape a unit is sighted."""
    pipe, answer = one.pipe, one.answer
    if pipe is None or answer.sight is None or answer.sight_out is None or one.plan.at is None:
        return None
    if one.plan.mount not in ("under", "over") or not _along_stage(pipe):
        return None
    axis = 0 if along(pipe)[0] == "SL" else 1
    x, y, _ = answer.clamp
    told = (
        f"{one.called}: clamp {plan(x, y, one.unit)}; face {plan(*answer.face[:2], one.unit)}. "
        f"The tape lies on the {answer.square} side, "
        f"{one.size(answer.sight_out)} from the pipe, its 0 opposite the {zero_words(pipe)}. "
        "Where on the tape is it sighted?"
    )
    off = answer.face[axis] - answer.clamp[axis]
    return _told(
        one,
        "sight",
        told,
        answer.sight,
        [
            Mistake("mirrored", -answer.sight),
            Mistake("wrong side", 2 * one.plan.at - answer.sight),
            Mistake("the place of the face, not of the tape", one.plan.at + off),
            *_in_feet(answer.sight),
        ],
        form="place",
        sides=along(pipe),
    )


def _along_stage(pipe: Pipe) -> bool:
    """Whether a pipe runs straight across the stage or straight up and down it."""
    return min(abs(a - b) for a, b in zip(pipe.start[:2], pipe.end[:2], strict=True)) < 1e-9


def down(one: Asked) -> Question | None:
    """How far a unit is tipped down from level, from its section."""
    answer = one.answer
    if answer.down is None or answer.down < 5 or answer.down > 80:
        return None
    x, y, z = answer.face
    floor = float(height(one.show.rig.deck, np.array([x]), np.array([y]))[0])
    flat = hypot(x - answer.pivot[0], y - answer.pivot[1])
    up, from_pipe = answer.pivot[2] - z, answer.clamp[2] - z
    if abs(to_degrees(atan2(up, flat)) - answer.down) > NEAR["down"] / 3:
        return (
            None  # the lens stands off the pivot's line: more than a section on a worksheet shows
        )
    over = "" if abs(floor) < 0.005 else f", over a deck that is {one.size(floor)} up there"
    return _told(
        one,
        "down",
        f"{one.called}: its {noun(one.show.rig.positions[one.k])} holds it {one.size(answer.clamp[2])} up, "
        f"its pivot is {one.size(answer.pivot[2])} up; "
        f"the face is {one.size(z)} up{over}, and {one.size(flat)} away from the pivot on the plan. "
        "How many degrees down from level?",
        answer.down,
        [
            Mistake("from plumb", 90 - answer.down),
            Mistake("face for floor", to_degrees(atan2(answer.pivot[2] - floor, flat))),
            Mistake("pipe for pivot", to_degrees(atan2(from_pipe, flat))),
        ],
        form="angle",
    )


def pool(one: Asked) -> Question | None:
    """How wide the field is at the face, square to the light."""
    answer, arrays = one.answer, one.show.rig.arrays
    if answer.field_diameter is None or answer.throw is None:
        return None
    field = float(arrays.field[one.k])
    if abs(2 * answer.throw * tan(field / 2) - answer.field_diameter) > NEAR["pool"] / 3:
        return None  # an oval, or a file's own outline
    wrong = [Mistake("half of it", answer.field_diameter / 2), *_in_feet(answer.field_diameter)]
    if field < to_radians(60):
        wrong.append(Mistake("the whole angle for half of it", 2 * answer.throw * tan(field)))
    if answer.beam_diameter is not None:
        wrong.insert(0, Mistake("beam for field", answer.beam_diameter))
    return _told(
        one,
        "pool",
        f"{one.called}: its field is {to_degrees(field):.0f}°, its throw {one.size(answer.throw)}. "
        "How wide is the field at the face, square to the light?",
        answer.field_diameter,
        wrong,
        form="length",
    )


def way_up(one: Asked) -> Question | None:
    """How a body ends as it is hung and aimed."""
    answer = one.answer
    if answer.attitude not in ATTITUDES:
        return None
    hung = {"out": "swung out", "arm": "on a side arm", "direct": "direct", "stand": "on a stand"}
    tipped = "level" if answer.down is None else f"{abs(answer.down):.0f}° {_way(answer.down)}"
    return _told(
        one,
        "way up",
        f"{one.called}: it hangs {hung.get(answer.mount, answer.mount)} and is aimed {tipped}. Does its body "
        "end upright, on its side or upside down?",
        answer.attitude,
        [Mistake("wrong way up", other) for other in ATTITUDES if other != answer.attitude],
        choices=ATTITUDES,
    )


def _way(down_deg: float) -> str:
    return "up" if down_deg < 0 else "down"


def tie_side(one: Asked) -> Question | None:
    """To which side of the clamp the tail reaches farther."""
    link, answer, pipe = one.plan.connector, one.answer, one.pipe
    if pipe is None or link.side not in OPPOSITE or link.furthest is None or link.other is None:
        return None
    if link.furthest - link.other < 2 * NEAR["reach"] or not answer.pan or answer.pan < 5:
        return None
    return _told(
        one,
        "tie side",
        f"{one.called}: square is {answer.square}, it swings {answer.pan:.0f}° {answer.swing} and its tail "
        "leaves the back. With the loop left for every turn, to which side of the clamp does the tail reach "
        "farther?",
        link.side,
        [Mistake("wrong side", OPPOSITE[link.side])],
        choices=along(pipe),
    )


def reach(one: Asked) -> Question | None:
    """What is left of a tail at the worst of its swing."""
    tail, whole = one.plan.tail, one.show.rig.kinds[one.k].tail
    if tail.worst is None or tail.usable is None or whole is None or tail.usable <= tail.worst:
        return None
    kept = whole - tail.usable
    return _told(
        one,
        "reach",
        f"{one.called}: its tail is {one.size(whole)} long, {one.size(kept)} of it go for tie and bend. At "
        f"the worst of its swing the straight way to its connector is {one.size(tail.worst)}. How much of "
        "the tail is left then?",
        tail.usable - tail.worst,
        [
            Mistake("tie and bend left out", whole - tail.worst),
            Mistake("tie and bend alone taken off", tail.usable),
        ],
        form="length",
    )


def turn_back(one: Asked) -> Question | None:
    """Where a cable that is too long turns back."""
    cable, pipe, link = one.plan.cable, one.pipe, one.plan.connector
    if pipe is None or cable.double_back is None or not cable.folds or one.plan.at is None:
        return None
    if cable.outlet is None or cable.stock is None or cable.with_unit or link.place is None:
        return None
    ends = one.plan.at + link.place
    turn, sides = cable.double_back, along(pipe)
    laid = abs(turn - cable.outlet) + abs(turn - ends)
    past = turn - ends
    if one.plan.mount == "arm" or past * (ends - cable.outlet) <= 0:
        return None  # it is doubled on the far side of the outlet: another exercise
    return _told(
        one,
        "turn back",
        f"{one.called}: the outlet is at {place_along(cable.outlet, sides, one.unit)}, the connector at "
        f"{place_along(ends, sides, one.unit)}. The cable is {one.size(cable.stock)} long, "
        f"{one.size(cable.stock - laid)} of it stays at the unit. It runs on past the connector and comes "
        "back. Where does it turn?",
        turn,
        [
            Mistake("mirrored", -turn),
            Mistake("all that is over, not half of it", ends + 2 * past),
            Mistake("wrong side", ends - past),
            *_in_feet(turn),
        ],
        form="place",
        sides=sides,
    )


def lands(one: Asked) -> Question | None:
    """Which unit of a position lights a place."""
    x, y, _ = one.answer.face
    rows = one.show.rig.rows[one.position.position]
    answers = one.show.rig.answers
    faces = {answers[k].number: answers[k].face for k in rows}
    if sum(hypot(f[0] - x, f[1] - y) < SAME_SPOT for f in faces.values()) > 1 or len(rows) < 3:
        return None
    numbers = list(faces)
    beyond = {n: hypot(f[0] + x, f[1] - y) for n, f in faces.items()}
    other = min(beyond, key=lambda n: beyond[n])
    return _told(
        one,
        "lands",
        f"On the pool plan: which unit of {one.position.position} lights the face at {plan(x, y, one.unit)}?",
        one.plan.number,
        [
            Mistake("mirrored", other if beyond[other] < SAME_SPOT / 2 else ""),
            Mistake("wrong end", numbers[len(numbers) - 1 - numbers.index(one.plan.number)]),
        ],
    )


def weigh(one: Asked) -> Question | None:
    """What the units of a position weigh together; asked of its first unit."""
    units = one.position.units
    if units[0] is not one.plan or len(units) < 2 or any(u.weight is None for u in units):
        return None
    each: dict[tuple[str, float], int] = {}
    for u in units:
        key = u.kind, round(u.weight or 0.0, 6)
        each[key] = each.get(key, 0) + 1
    told = ", ".join(f"{n} {kind} of {weight_of(kg, one.unit)}" for (kind, kg), n in each.items())
    total = sum(u.weight or 0.0 for u in units)
    wrong = [Mistake("one of each sort", sum(kg for _, kg in each))]
    if one.position.own_weight:
        wrong.append(Mistake("the pipe as well", total + one.position.own_weight))
    return _told(
        one,
        "weigh",
        f"{one.position.position} carries {told}, with what they hang by. What do its units weigh together?",
        total,
        wrong,
        form="weight",
        subject=one.position.position,
    )


def _in_feet(metres: float) -> list[Mistake]:
    """What comes of taking feet for metres, either way."""
    return [Mistake("feet for metres", metres * FEET), Mistake("feet for metres", metres / FEET)]


def _told(
    one: Asked,
    sort: str,
    asks: str,
    answer: float | str,
    wrong: list[Mistake],
    *,
    form: str = "",
    sides: tuple[str, str] = ("", ""),
    choices: tuple[str, ...] = (),
    subject: str = "",
) -> Question | None:
    """A question with the mistakes that can be told from its answer and each other; None where none can."""
    near = NEAR.get(sort, 0.0)
    mistakes: list[Mistake] = []
    for each in wrong:
        apart = (answer, *(m.gives for m in mistakes if m.name != each.name))
        if each.gives != "" and all(_differ(each.gives, other, near) for other in apart):
            mistakes.append(each)
    if not mistakes:
        return None
    form = form or ("word" if choices else "unit")
    name = subject or one.plan.unit
    group = SORTS[sort].group
    return Question(sort, group, name, asks, form, answer, tuple(mistakes), near, sides, choices)


def _differ(a: float | str, b: float | str, near: float) -> bool:
    """Whether two answers can be told apart, each being read as far off as may be."""
    if isinstance(a, str) or isinstance(b, str):
        return a != b
    return abs(a - b) > 2 * near


class Sort(NamedTuple):
    """A sort of question: what makes it, what it is marked under, from which level on it is asked."""

    make: Callable[[Asked], Question | None]
    group: str
    level: int


SORTS = {  # in the order of a worksheet: safe, upright, tail, landing
    "weigh": Sort(weigh, SAFE, 1),
    "way up": Sort(way_up, UPRIGHT, 1),
    "tie side": Sort(tie_side, TAIL, 2),
    "reach": Sort(reach, TAIL, 2),
    "turn back": Sort(turn_back, TAIL, 3),
    "plot": Sort(plot, LANDING, 1),
    "mark": Sort(mark, LANDING, 1),
    "square": Sort(square, LANDING, 1),
    "sight": Sort(sight, LANDING, 2),
    "down": Sort(down, LANDING, 2),
    "lands": Sort(lands, LANDING, 2),
    "pool": Sort(pool, LANDING, 3),
}
LEVELS = (1, 2, 3)


def questions_of(show: Show, sort: str) -> Iterator[Question]:
    """Every question of a sort that a show offers, in the order of its ladder."""
    rig = show.rig
    for position in show.hang.positions:
        for k, unit in zip(rig.rows[position.position], position.units, strict=True):
            made = SORTS[sort].make(Asked(show, k, position, unit))
            if made is not None:
                yield made
