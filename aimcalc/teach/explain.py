"""Why a unit's numbers are what they are: where each comes from, what was chosen, what moves them most.

The figures are the sheets' own, from the show; here they only get their reasons.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.vectors import to_degrees
from aimcalc.landings.forward import DOWN, ERRORS, PAN
from aimcalc.named import NamedTuple
from aimcalc.scene.model import Boom, Errors, Pipe
from aimcalc.teach.calculator import Step
from aimcalc.teach.sources import Figure, aimed, exact, figures_of
from aimcalc.teach.worked import worked
from aimcalc.text import words as w
from aimcalc.text.columns import folded, table
from aimcalc.text.facts import noun
from aimcalc.text.names import short
from aimcalc.text.rows import Row, lines_under, rows_of

if TYPE_CHECKING:
    from aimcalc.show import Show
    from aimcalc.solid.answers import Pool
    from aimcalc.solid.rig import SolidRig


KEYING = (
    "Key each line, write down what it shows, and go on with its letter. Degrees, not radians; × and ÷ "
    "before + and less; less is the key that takes away, inv tan the one from a slope back to its angle."
)
CHANGES = "WHAT WOULD CHANGE IT MOST"
HEADS = "what is out", "usually by", "moves the light"
SEEN = 0.005  # m, what a move of the light must be to be told
MOST = 5  # things that would change it, of nine


class Change(NamedTuple):
    """Something that may be out: what, by how much it usually is, how far that moves the light."""

    what: str
    usual: str
    moves: str


class Explained(NamedTuple):
    """All that one page says of a unit."""

    row: Row
    heading: str
    findings: tuple[str, ...]
    figures: tuple[Figure, ...]
    formula: tuple[str, ...]
    steps: tuple[Step, ...]
    choice: tuple[str, ...]
    changes: tuple[Change, ...]
    basis: str


def explained(show: Show, k: int, length: w.LengthUnit) -> Explained:
    """Everything about unit `k` of a show; lengths are told in `length` (m or ft)."""
    rig = show.rig
    row = rows_of(rig, (), length)[k]
    answer = rig.answers[k]
    printed = lines_under(show.quick_findings).get(answer.unit, ())
    target = short(rig, answer.target) if answer.target else "a point"
    heading = f"{answer.unit}: {answer.kind} on {target}, {MOUNTS[answer.mount]}"
    return Explained(
        row=row,
        heading=heading,
        findings=printed,
        figures=figures_of(rig, k, row, length),
        formula=tuple(_formula(rig, k, row)),
        steps=tuple(worked(rig, row, length)),
        choice=tuple(_choice(rig, k, row, length)),
        changes=_changes(show, k, length),
        basis="estimates" if rig.scene.errors == Errors() else "the scene's errors, else estimates",
    )


MOUNTS = {
    "under": "hung under",
    "over": "standing over its pipe",
    "out": "clamp swung out",
    "arm": "under a side arm",
    "direct": "clamped straight on",
    "stand": "on a stand",
}


def _formula(rig: SolidRig, k: int, row: Row) -> Iterator[str]:
    """The sums in words."""
    face = aimed(rig, k)
    if row.counted.dial:
        yield (
            "PAN: how far the pivot's way to the "
            f"{face} goes aside of square, over how far it goes ahead, both square to the stem; "
            "inverse tangent."
        )
    elif row.turn != w.FREE:
        yield f"PAN: how far the {face} is aside of square, over how far ahead of the pivot; inverse tangent."
    yield (
        f"DOWN: how far the pivot is above the {face}, over the distance between them on plan; inverse "
        "tangent. Plumb is what is left to 90°."
    )
    yield f"THROW: the straight way from pivot to {face}, less the nose."
    if rig.answers[k].sight is not None and row.sight:
        yield "SIGHT: the plan triangle, out to the tape: tape distance, times aside, over ahead; from at."
    if row.mark.word == "LANDS":
        yield f"LANDS: the same straight way, on past the {face} until it comes down to what is there."
    elif row.mark.word == "ON":
        yield "ON: the first thing the light's axis meets on its way; no sum for a pocket, a ray is cast."
    if rig.arrays.rise[k]:
        yield "RISE: the lens is off its pivot, so the light tips by the inverse sine of rise over way."


def _choice(rig: SolidRig, k: int, row: Row, length: w.LengthUnit) -> Iterator[str]:
    """Why it is this and not another: two ways to hit, how it hangs, how it lies, how its pool falls."""
    answer, unit, position = rig.answers[k], rig.units[k], rig.positions[k]
    if answer.yoke is None:
        yield "There is no aim: see what check says of it."
        return
    yield from _two_ways(rig, k)
    if unit.mount in ("over", "stand"):
        yield (
            "Over: its stem points up, so the drop is added to the height. Its body is rolled over in the "
            "yoke to have clip on top and tail below."
        )
    if unit.mount == "arm":
        yield "Arm: it hangs under the arm's end, so the clamp's own place is the arm's length away."
    if unit.mount == "direct":
        yield "Clamped straight to a tube, the clamp tips the nose and the yoke sets the heading."
    if unit.mount == "out":
        yield "Clamp swung out: its stem leans, so dial, heading and yoke are three separate answers."
    if isinstance(position, Boom) and unit.mount in ("under", "over", "arm"):
        yield "Boom: turns are told as headings off straight across, since there is no pipe to count from."
    if isinstance(position, Pipe):
        rise = abs(position.end[2] - position.start[2])
        if rise > 1e-9:
            yield (
                f"Sloping pipe: one end is {exact(rise, length)} higher. A clamp grips square to its tube, "
                "so the stem leans along it and the dial differs from the heading."
            )
        if position.through is not None:
            yield "Curved pipe: square is counted from the tube where the clamp grips it; there is no tape."
        if unit.chord:
            yield f"Truss: its clamp is on chord {unit.chord}; the tape is counted from the truss's own line."
    if rig.kinds[k].oval:
        turned = row.turned or "lying across"
        yield f"Oval field, {turned}: a miss the narrow way counts for more, so WITHIN differs by way."
    if row.turn == w.FREE:
        yield "Straight down or up: any pan will do, the tail's side alone settles it."
    yield from _pool(answer.deck_pool, row)


def _two_ways(rig: SolidRig, k: int) -> Iterator[str]:
    """The way that was chosen and the one that was not: yoke angle t, and 180 less it with half a turn."""
    answer, kind = rig.answers[k], rig.kinds[k]
    whole = float(np.sum((rig.arrays.point[:, k] - rig.aims.pivot[:, k]) ** 2) ** 0.5)
    lift = to_degrees(float(np.arcsin(min(1.0, rig.arrays.rise[k] / max(whole, 1e-9)))))
    other = (180.0 - (answer.yoke or 0.0) + 2 * lift + 180.0) % 360.0 - 180.0
    low, high = kind.yoke_range or (-180.0, 180.0)
    word = answer.attitude or ""
    if word == "plumb":
        return
    opposite = {"upright": "upside down", "upside down": "upright"}.get(word, word)
    why = f"it would hang {opposite}"
    if opposite == word:
        why = f"it would lie {word} as well, with its clip lower"
    if not low <= other <= high:
        why += ", and the yoke does not turn that far"
    told = [f"{w.angle(yoke)} {_to(yoke)} the clamp" for yoke in (answer.yoke or 0.0, other)]
    travel = "" if kind.yoke_range else " No yoke_range is typed: try the travel on the floor."
    yield (
        f"Two ways hit it. Chosen: yoke {told[0]}, {word}. The other: half a turn at the clamp, yoke "
        f"{told[1]}; {why}.{travel}"
    )


def _to(yoke: float) -> str:
    return "away from" if yoke >= 0 else "towards"


def _pool(pool: Pool | None, row: Row) -> Iterator[str]:
    """Whether the pool on the deck closes."""
    if pool is None:
        yield "No part of the field comes down to what is stood on."
    elif not pool.closed:
        yield (
            f"Open pool: at {row.tip.word} {row.tip.angle} the field's upper edge never comes down to the "
            "deck, so its pool has no far end. Where it stops is a matter of scenery and shutters."
        )


WORDS = {
    "trim": "trim of the pipe",
    "slope": "one end over the other",
    "moved": "pipe up or down stage",
    "skew": "pipe turned on plan",
    "marks": "its mark along the pipe",
    "drop": "drop",
    "kick": "clamp kicked round the tube",
    "pan": "pan, dial and hand",
    "down": "down, level and hand",
}
TURNS = ("skew", "kick", "pan", "down")


def _changes(show: Show, k: int, length: w.LengthUnit) -> tuple[Change, ...]:
    """What would change it most: each usual error times how far it moves the light, the worst first."""
    budget, throw = show.budget, float(show.rig.aims.throw[k])
    if not np.isfinite(budget.nudge[k]):
        return ()
    far = np.hypot(*budget.moves[:, :, k].T) * budget.widths[:, k] * throw
    rows = [int(j) for j in np.argsort(-far, kind="stable") if far[j] > SEEN][:MOST]
    return tuple(
        Change(
            _called(show.rig, k, j),
            _usual(j, float(budget.widths[j, k]), length),
            _far(far[j], length),
        )
        for j in rows
    )


def _called(rig: SolidRig, k: int, j: int) -> str:
    if isinstance(rig.positions[k], Pipe) or j in (PAN, DOWN):
        return WORDS[ERRORS[j]]
    return WORDS[ERRORS[j]].replace("the pipe", "the tube").replace("pipe", noun(rig.positions[k]))


def _usual(j: int, width: float, length: w.LengthUnit) -> str:
    if ERRORS[j] in TURNS:
        return f"{to_degrees(width):.1f}°"
    return w.length(width, length, w.HANG)


def _far(metres: float, length: w.LengthUnit) -> str:
    return w.length(float(metres), length, w.Step(0.01, 0.25))


def explain_text(told: Explained, width: int | None = None) -> str:
    """Everything of one unit, section by section, no wider than the terminal."""
    blocks = [[told.heading, *told.findings]]
    blocks.append(_table("WHERE EACH NUMBER COMES FROM", ("", "", ""), told.figures, width))
    blocks.append(["IN WORDS", *(f"  {line}" for line in told.formula)])
    if told.steps:
        rows = [(s.letter, s.what, f"{s.keys} = {s.shows}", result(s)) for s in told.steps]
        lines = _table("BY POCKET CALCULATOR", ("", "", "", ""), rows, width)
        blocks.append([lines[0], f"  {KEYING}", *lines[1:]])
    blocks.append(["THE CHOICE", *(f"  {line}" for line in told.choice)])
    if told.changes:
        blocks.append(_table(f"{CHANGES} (by {told.basis})", HEADS, told.changes, width))
    return folded("\n\n".join("\n".join(block) for block in blocks), width)


def result(step: Step) -> str:
    """What a step comes to on the sheet, with its rounding: "23°, to the nearest degree"."""
    return f"{step.prints}, {step.rounding}" if step.prints else ""


def _table(
    title: str, heads: Sequence[str], rows: Sequence[Sequence[str]], width: int | None
) -> list[str]:
    return [title, *filter(str.strip, table(heads, rows, width))]
