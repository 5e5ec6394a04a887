"""Questions of the aim: which way is square, sight mark, how far down, pool, which unit lights a place."""

from __future__ import annotations

from math import atan2, hypot, tan

import numpy as np

from aimcalc.geometry.deck import height
from aimcalc.geometry.vectors import to_degrees, to_radians
from aimcalc.rig.places import DIRECTIONS
from aimcalc.rig.wording import plan
from aimcalc.scene.model import Pipe
from aimcalc.teach.question import (
    NEAR,
    OPPOSITE,
    SAME_SPOT,
    Asked,
    Mistake,
    Question,
    in_feet,
    posed,
)
from aimcalc.text.facts import noun
from aimcalc.text.rows import along, zero_words


def square(one: Asked) -> Question | None:
    """Which way is square."""
    pipe, answer = one.pipe, one.answer
    if pipe is None or answer.square is None or answer.pan is None or answer.pan > 60:
        return None
    x, y, _ = answer.clamp
    return posed(
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
    return posed(
        one,
        "sight",
        told,
        answer.sight,
        [
            Mistake("mirrored", -answer.sight),
            Mistake("wrong side", 2 * one.plan.at - answer.sight),
            Mistake("the place of the face, not of the tape", one.plan.at + off),
            *in_feet(answer.sight),
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
    return posed(
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
    wrong = [Mistake("half of it", answer.field_diameter / 2), *in_feet(answer.field_diameter)]
    if field < to_radians(60):
        wrong.append(Mistake("the whole angle for half of it", 2 * answer.throw * tan(field)))
    if answer.beam_diameter is not None:
        wrong.insert(0, Mistake("beam for field", answer.beam_diameter))
    return posed(
        one,
        "pool",
        f"{one.called}: its field is {to_degrees(field):.0f}°, its throw {one.size(answer.throw)}. "
        "How wide is the field at the face, square to the light?",
        answer.field_diameter,
        wrong,
        form="length",
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
    return posed(
        one,
        "lands",
        f"On the pool plan: which unit of {one.position.position} lights the face at {plan(x, y, one.unit)}?",
        one.plan.number,
        [
            Mistake("mirrored", other if beyond[other] < SAME_SPOT / 2 else ""),
            Mistake("wrong end", numbers[len(numbers) - 1 - numbers.index(one.plan.number)]),
        ],
    )
