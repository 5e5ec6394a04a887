"""One question of a drill: what is asked, the answer, how near is right, and what each mistake would give.

A question tells all the numbers that its answer needs, as they are printed; so whoever answers works with
figures that are rounded, and `NEAR` leaves room for that. A mistake that gives the right answer, or nearly,
is left out: it could not be told from it. Mistakes are common ones of classes (common practice, no source).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from aimcalc.hang.records import PositionPlan, UnitPlan
from aimcalc.named import NamedTuple
from aimcalc.rig.wording import length
from aimcalc.scene.lengths import UNITS
from aimcalc.scene.model import Pipe

if TYPE_CHECKING:
    from aimcalc.show import Show
    from aimcalc.solid.answers import Answer


SAFE, UPRIGHT, TAIL, LANDING = GROUPS = ("safe", "upright", "tail", "landing")
FEET = UNITS["ft"][0] / UNITS["ft"][1]
OPPOSITE = {"SL": "SR", "SR": "SL", "US": "DS", "DS": "US"}
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


def in_feet(metres: float) -> list[Mistake]:
    """What comes of taking feet for metres, either way."""
    return [Mistake("feet for metres", metres * FEET), Mistake("feet for metres", metres / FEET)]


def posed(
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
    return Question(sort, "", name, asks, form, answer, tuple(mistakes), near, sides, choices)


def _differ(a: float | str, b: float | str, near: float) -> bool:
    """Whether two answers can be told apart, each being read as far off as may be."""
    if isinstance(a, str) or isinstance(b, str):
        return a != b
    return abs(a - b) > 2 * near
