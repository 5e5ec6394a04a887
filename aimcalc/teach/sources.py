"""Where each number of a unit comes from: typed, of its kind, a generic estimate, or derived."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.vectors import to_degrees
from aimcalc.named import NamedTuple
from aimcalc.rig.places import LEANS
from aimcalc.rig.wording import feet_and_inches, steps
from aimcalc.scene.model import Boom, Pipe, Stand
from aimcalc.teach.calculator import inches
from aimcalc.teach.worked import SIDES
from aimcalc.text import words as w
from aimcalc.text.facts import POINT, noun, sighted, trim_words
from aimcalc.text.rows import Row

if TYPE_CHECKING:
    from aimcalc.solid.rig import SolidRig


ESTIMATE = "generic estimate: measure one of yours"


class Figure(NamedTuple):
    """One number, as it is told, and where it came from."""

    name: str
    told: str
    source: str


def figures_of(rig: SolidRig, k: int, row: Row, length: w.LengthUnit) -> tuple[Figure, ...]:
    """Every figure of unit `k`, from what was typed down to those of its row."""
    return *_given(rig, k, row, length), *_derived(rig, k, row, length)


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
        aimed(rig, k), _place(answer.face, length), "derived: what is stood on, and face height"
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


def aimed(rig: SolidRig, k: int) -> str:
    """What a unit is sighted at, in a word: "face", or "point"."""
    return "point" if sighted(rig, k) == POINT else "face"
