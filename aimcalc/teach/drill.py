"""A drill: a worksheet for each student out of one scene, by a seed; and the marking of what they wrote.

Every student gets the same sorts of question in the same order, of different units where the scene has them.
The same scene, seed, level and number of students give the same sheets on any machine.
"""

from __future__ import annotations

import random
import re
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from typing import TYPE_CHECKING

import msgspec

from aimcalc.named import NamedTuple
from aimcalc.rig.wording import along as place_along
from aimcalc.rig.wording import length
from aimcalc.rig.wording import weight as weight_of
from aimcalc.scene import quantities as q
from aimcalc.scene.lengths import parse_length
from aimcalc.scene.mistakes import Wrong
from aimcalc.teach.aim_questions import down, lands, pool, sight, square
from aimcalc.teach.pipe_questions import mark, plot, reach, tie_side, turn_back, way_up, weigh
from aimcalc.teach.question import GROUPS, LANDING, SAFE, TAIL, UPRIGHT, Asked, Question

if TYPE_CHECKING:
    from aimcalc.show import Show

EACH = {1: 2, 2: 1, 3: 1}  # of most sorts on a sheet, by its level
NO_SIDE, NO_ANSWER, NOT_READ, OTHER = (
    "no side told",
    "no answer",
    "cannot be read",
    "another mistake",
)
SIDES = {
    "SL": r"\bs\.?l\b|left",
    "SR": r"\bs\.?r\b|right",
    "US": r"\bu\.?s\b|up",
    "DS": r"\bd\.?s\b|down",
}


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
                yield made._replace(group=SORTS[sort].group)


class Drill(NamedTuple):
    """The worksheets of a class, one for each student, and the sorts that the scene has nothing for."""

    sheets: tuple[tuple[Question, ...], ...]
    without: tuple[str, ...]
    unit: str  # of length, of the scene


class Marked(msgspec.Struct, frozen=True):
    """One answer, marked. `mistake` names the one that gives what was written; None where it is right."""

    question: int
    sort: str
    group: str
    subject: str
    given: str
    answer: str
    right: bool
    mistake: str | None


class Marks(msgspec.Struct, frozen=True):
    """One student's marks. `groups` has what is right and what was asked of each, safe first."""

    student: int
    right: int
    asked: int
    groups: dict[str, tuple[int, int]]
    habits: dict[str, int]  # mistakes by name, the most frequent first
    answers: list[Marked]


def drill(show: Show, *, seed: int, students: int, level: int) -> Drill:
    """The worksheets of a class of `students` at a level of 1 to 3."""
    picked: list[list[Question]] = [[] for _ in range(students)]
    without = []
    for sort, made in SORTS.items():
        if made.level > level:
            continue
        offered = list(questions_of(show, sort))
        if not offered:
            without.append(sort)
            continue
        order = random.Random(f"{seed} {sort}").sample(offered, len(offered))
        each = 1 if sort == "weigh" else min(EACH[level], len(order))
        for student, mine in enumerate(picked):
            mine += [order[(student * each + j) % len(order)] for j in range(each)]
    return Drill(tuple(map(tuple, picked)), tuple(without), show.rig.scene.settings.unit)


def answer_words(question: Question, value: float | str, unit: str) -> str:
    """An answer as it is printed in a key."""
    if isinstance(value, str):
        return value
    if question.form == "place":
        return place_along(value, question.sides, unit)
    if question.form == "angle":
        return f"{value:.0f}°"
    return weight_of(value, unit) if question.form == "weight" else length(value, unit)


def near_words(question: Question, unit: str) -> str:
    """How far off is still right, "" of words."""
    if isinstance(question.answer, str):
        return ""
    if question.form == "angle":
        return f"{question.near:g}°"
    size = question._replace(form="length") if question.form == "place" else question
    return answer_words(size, question.near, unit)


def marked(work: Drill, student: int, given: dict[int, str]) -> Marks:
    """One student's marks: `given` are the answers as typed, by the number of the question, from 1."""
    answers = [
        _mark(number, question, given.get(number, ""), work.unit)
        for number, question in enumerate(work.sheets[student - 1], start=1)
    ]
    groups = {
        group: (sum(a.right for a in answers if a.group == group), n)
        for group in GROUPS
        if (n := sum(a.group == group for a in answers))
    }
    habits = Counter(a.mistake for a in answers if a.mistake)
    return Marks(
        student=student,
        right=sum(a.right for a in answers),
        asked=len(answers),
        groups=groups,
        habits=dict(habits.most_common()),
        answers=answers,
    )


def _mark(number: int, question: Question, given: str, unit: str) -> Marked:
    right, mistake = judged(question, given, unit)
    told = answer_words(question, question.answer, unit)
    return Marked(
        number, question.sort, question.group, question.subject, given, told, right, mistake
    )


def judged(question: Question, given: str, unit: str) -> tuple[bool, str | None]:
    """Whether an answer is right, and which mistake gives what was written."""
    text = given.strip()
    if not text:
        return False, NO_ANSWER
    try:
        value = _value(question, text, unit)
    except Wrong:
        return False, NOT_READ
    if isinstance(value, str) or isinstance(question.answer, str):
        if value == question.answer:
            return True, None
        named = [m.name for m in question.mistakes if m.gives == value]
        return False, named[0] if named else OTHER
    off = abs(value - question.answer)
    if question.form == "place" and not _tells_side(text) and abs(value) > question.near:
        alike = abs(abs(value) - abs(question.answer)) <= question.near
        return False, NO_SIDE if alike else _nearest(question, abs(value)) or OTHER
    if off <= question.near + 1e-9:
        return True, None
    return False, _nearest(question, value) or OTHER


def _nearest(question: Question, value: float) -> str | None:
    """The mistake whose answer is nearest to a value, if it is near."""
    offs = [
        (abs(value - m.gives), m.name) for m in question.mistakes if not isinstance(m.gives, str)
    ]
    off, name = min(offs, default=(float("inf"), ""))
    return name if off <= question.near + 1e-9 else None


def _value(question: Question, text: str, unit: str) -> float | str:
    """What was written: metres, degrees, kilograms, or a word. Raises Wrong."""
    if question.form == "word":
        return _word(question.choices, text)
    if question.form == "unit":
        return re.sub(r"(?i)^(unit|no\.?|number|#)\s*", "", text).strip()
    if question.form == "angle":
        return q.degrees(re.sub(r"(?i)\b(down|degrees?|deg)\b|°", " ", text).strip())
    if question.form == "weight":
        return q.weight(text if re.search(r"(?i)[a-z]", text) else f"{text} {_weight_unit(unit)}")
    if question.form == "place":
        return parse_length(_sided(text), unit, "x" if "SL" in question.sides else "y")
    return parse_length(text, unit)


def _weight_unit(unit: str) -> str:
    return "lb" if unit in ("ft", "in") else "kg"


def _word(choices: Sequence[str], text: str) -> str:
    """The choice that was meant, however it was spelled; what was written where it is none."""
    plain = " ".join(text.casefold().replace("-", " ").split())
    for choice in choices:
        if plain == choice.casefold() or (choice in SIDES and re.search(SIDES[choice], plain)):
            return choice
    if plain in ("side", "its side", "on side"):
        return "on its side"
    return plain


def _sided(text: str) -> str:
    """A place with its side as the scene writes it: "stage left 3 m" is "3 m SL"; the zero mark is 0."""
    if re.fullmatch(r"(?i)\s*(the )?zero( mark)?\s*", text):
        return "0"
    return re.sub(r"(?i)\bstage\s+(left|right)\b", lambda m: f"S{m[1][0].upper()}", text)


def _tells_side(text: str) -> bool:
    return bool(re.search(r"(?i)\b(SL|SR|US|DS)\b|[+-]\s*\d|stage\s+(left|right)", text))
