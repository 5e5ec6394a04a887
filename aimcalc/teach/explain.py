"""Why a unit's numbers are what they are: where each comes from, what was chosen, what moves them most.

The figures are the sheets' own, from the show; here they only get their reasons.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.vectors import to_degrees
from aimcalc.landings.forward import DOWN, ERRORS, PAN
from aimcalc.named import NamedTuple
from aimcalc.rig.places import LEANS
from aimcalc.rig.wording import feet_and_inches, steps
from aimcalc.scene.model import Boom, Errors, Pipe, Stand
from aimcalc.teach.calculator import Step, inches
from aimcalc.teach.worked import SIDES, worked
from aimcalc.text import words as w
from aimcalc.text.facts import POINT, noun, sighted, trim_words
from aimcalc.text.names import short
from aimcalc.text.rows import Row, lines_under, rows_of

if TYPE_CHECKING:
    from aimcalc.show import Show
    from aimcalc.solid.answers import Pool
    from aimcalc.solid.rig import SolidRig


DERIVED = "derived"
ESTIMATE = "generic estimate: measure one of yours"
SEEN = 0.005  # m, what a move of the light must be to be told
MOST = 5  # things that would change it, of nine


class Figure(NamedTuple):
    """One number, as it is told, and where it came from."""

    name: str
    told: str
    source: str


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
        figures=(*_given(rig, k, row, length), *_derived(rig, k, row, length)),
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


def exact(metres: float, length: w.LengthUnit) -> str:
    """A length to its last digit: "6.1 m"; in feet also as inches with an exact fraction, "222 1/2 in"."""
    if length == "m":
        return f"{abs(round(metres, 5)):g} m"
    quarters = steps(metres / 0.0254, 0.25)
    if abs(quarters / 4 * 0.0254 - abs(metres)) < 1e-7:
        return f"{feet_and_inches(quarters)} = {inches(metres)}"
    return inches(metres)


def _place(point: tuple[float, ...], length: w.LengthUnit) -> str:
    """A point in space, each part with its side."""
    sides = (("SL", "SR"), ("US", "DS"), ("up", "below the deck"))
    zero = ("on the centre line", "on the plaster line", "at deck level")
    told = [
        f"{exact(part, length)} {words[part < 0]}" if abs(part) > 1e-6 else nothing
        for part, words, nothing in zip(point, sides, zero, strict=True)
    ]
    return ", ".join(told)


def _given(rig: SolidRig, k: int, row: Row, length: w.LengthUnit) -> Iterator[Figure]:
    """What was typed, or taken from a kind."""
    unit, position, answer = rig.units[k], rig.positions[k], rig.answers[k]
    table = {Pipe: "pipe", Boom: "boom", Stand: "stand"}[type(position)]
    typed = f'typed: [[{table}]] "{position.name}"'
    made = [c for c in rig.scene.made if c.of == position.name]
    told = f"{typed}{', corrected by landings' if made else ''}"
    yield Figure(noun(position), f"{position.name}: {trim_words(position, length)}", told)
    source = f"typed: {unit.source}" if unit.source else "typed: [[unit]]"
    at = exact(unit.at or 0.0, length)
    side = " ".join(row.hangs[0].split(" ")[-1:]) if unit.at and row.hangs[0][:1].isdigit() else ""
    if not isinstance(position, Stand):
        yield Figure("at", f"{at} {side}".strip(), source)
    if unit.mount == "out":
        yield Figure("swung out", f"{w.angle(unit.swing_out)} {unit.out_to or ''}".strip(), source)
    if unit.mount == "arm":
        yield Figure("arm", f"{exact(unit.arm, length)} to {w.heading(unit.arm_to or 0.0)}", source)
    if unit.mount == "direct":
        yield Figure("stem", f"level, to {w.heading(unit.arm_to or 0.0)}", source)
    yield from _of_kind(rig, k, length)
    yield from _of_target(rig, k, length)
    if answer.sight is not None and row.sight:
        own = isinstance(position, Pipe) and position.sight_out is not None
        asked = own or rig.scene.settings.sight_out is not None
        out = float(rig.tapes.out[k])
        yield Figure(
            "tape lies",
            f"{exact(out, length)} {answer.square} of the {noun(position)}",
            "typed: sight_out" if asked else "derived: the usual distance, where the deck is clear",
        )


def _of_kind(rig: SolidRig, k: int, length: w.LengthUnit) -> Iterator[Figure]:
    kind, over = rig.kinds[k], rig.units[k].mount in ("over", "stand")
    source = ESTIMATE if kind.typical else f'typed: [[kind]] "{kind.name}"'
    drop = float(rig.arrays.drop[k])
    untyped = "not typed: taken as none"
    yield Figure("drop", f"{exact(drop, length)} {'up' if over else 'from'} clamp to pivot", source)
    yield Figure(
        "nose", f"{exact(kind.nose, length)} pivot to lens", source if kind.nose else untyped
    )
    if kind.rise:
        yield Figure("rise", f"{exact(kind.rise, length)} axis off pivot", source)
    field = source
    if rig.scene.kinds[kind.name].field is None and kind.photometry:
        field = f"its file {kind.photometry}"
    angle = f"{to_degrees(float(rig.arrays.field[k])):.4g}°"
    if kind.oval:
        angle = f"oval {kind.oval[0]:.4g}° by {kind.oval[1]:.4g}°"
    yield Figure("field", f"{angle}, edge to edge", field)


def _of_target(rig: SolidRig, k: int, length: w.LengthUnit) -> Iterator[Figure]:
    unit, given = rig.units[k], rig.arrays
    target = next((t for t in rig.scene.targets if t.name == unit.target), None)
    x, y, z = (float(part) for part in given.point[:, k])
    if target is None:
        yield Figure("point", _place((x, y, z), length), "typed: point of the unit")
        return
    source = f'typed: [[target]] "{target.name}"'
    yield Figure("target", _place((x, y, 0.0), length).rsplit(", ", 1)[0], source)
    surface = float(rig.surface_z[k])
    if target.plane == "point":
        yield Figure("point's height", exact(z, length), source)
        return
    where = source if target.z is not None else "derived: deck, rake or platform there"
    yield Figure("stood on", _place((x, y, surface), length).rsplit(", ", 1)[1], where)
    if target.plane == "face":
        own = target.face_height is not None
        where = source if own else "[scene] face_height (1.65 m where not typed)"
        yield Figure("face height", exact(z - surface, length), where)


def _derived(rig: SolidRig, k: int, row: Row, length: w.LengthUnit) -> Iterator[Figure]:
    """What follows, down to the figures of the row."""
    answer = rig.answers[k]
    pipe = isinstance(rig.positions[k], Pipe)
    yield from _directions(rig, k)
    yield Figure(
        "clamp", _place(answer.clamp, length), "derived: " + ("at along the tube" if pipe else "at")
    )
    stem = "straight down or up" if abs(float(rig.arrays.stem[2, k])) >= LEANS else "as it leans"
    yield Figure("pivot", _place(answer.pivot, length), f"derived: clamp and drop, {stem}")
    yield Figure(
        _aimed(rig, k), _place(answer.face, length), "derived: what is stood on, and face height"
    )
    if answer.yoke is None:
        return
    dial = " at the clamp's dial" if row.counted.dial else ""
    if row.turn:
        turn = f"{row.turn} {row.counted.side_words}".strip()
        yield Figure("PAN", f"{turn}{dial}", "derived: plan triangle")
    if row.sight:
        kind = "SIGHT" if answer.sight is not None and pipe else "heading"
        yield Figure(kind, f"{row.sight} {row.sight_note}".strip(), "derived: plan triangle")
    tip = f"{row.tip.word} {row.tip.angle}".strip()
    yield Figure("tip", f"{tip}, plumb {row.tip.plumb}", "derived: side triangle")
    way = "away from" if answer.yoke >= 0 else "towards"
    yield Figure("yoke", f"{w.angle(answer.yoke)} {way} the clamp", "derived: angle in the yoke")
    if answer.throw is not None:
        yield Figure("throw", w.length(answer.throw, length, w.SIZE), "derived: lens to face")
    if any(row.within):
        share = rig.arrays.tolerance[k] / rig.arrays.field[k]
        yield Figure(
            "WITHIN", ", ".join(filter(None, row.within)), f"derived: {share:.4g} of the field"
        )
    name, across, deep = row.stand
    yield Figure("STAND", f"{across}, {deep}", f"the target, {name}")
    if row.mark.word:
        said = row.mark.said.removeprefix(f"{row.mark.word} ")
        yield Figure(row.mark.word, said, "derived: the light's axis, on past the face")


def _directions(rig: SolidRig, k: int) -> Iterator[Figure]:
    """The directions that a turn is counted from, where they are not simply those of the stage."""
    stem, square = rig.arrays.stem[:, k], rig.arrays.reference[:, k]
    for name, way, source in (
        (
            "stem goes",
            stem,
            "square to its tube" + (", as swung out" if rig.units[k].swing_out else ""),
        ),
        ("square goes", square, "square to the stem, counted from"),
        ("aside goes", np.cross(stem, square), "square to both"),
    ):
        if np.abs(way).max() < 1 - 1e-12:
            parts = zip(way.tolist(), SIDES, strict=True)
            told = [
                f"{abs(part):.5f} {words[part < 0]}" for part, words in parts if abs(part) > 1e-12
            ]
            yield Figure(name, f"{', '.join(told)} of 1", f"derived: {source}")


def _aimed(rig: SolidRig, k: int) -> str:
    return "point" if sighted(rig, k) == POINT else "face"


def _formula(rig: SolidRig, k: int, row: Row) -> Iterator[str]:
    """The sums in words."""
    face = _aimed(rig, k)
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
